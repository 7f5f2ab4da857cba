"""The hanging list as plain text: for reading aloud, for a telephone, for a screen reader."""

from collections.abc import Collection

from composer.model import Arrangement, Project, Wall
from composer.paper.hanging_list_rows import HangingList, Mark, Row, hanging_list
from composer.paper.wall_drawing import of_wall
from composer.texts import say


def plain_text(
    project: Project,
    arrangement: Arrangement,
    walls: Collection[Wall],
    only: Collection[int] | None = None,
    *,
    left_to_right: bool = False,
) -> str:
    """The lists of these walls, one fact a line; empty when nothing hangs there."""
    parts = []
    for wall in walls:
        made = hanging_list(project, wall, arrangement, only, left_to_right=left_to_right)
        if made is not None:
            parts.append(_text(project, made))
    return "\n\n".join(parts)


def _text(project: Project, made: HangingList) -> str:
    lines = [
        say("Hanging list: {wall}", wall=of_wall(project, made.wall)),
        say("{unit}. Left and right as you face the wall.", unit=made.figures.all_in),
        made.level,
        "",
    ]
    for row in made.rows:
        first, *rest = _row(row, made)
        lines += [first, *(f"   {line}" for line in rest), ""]
    lines += [say("Take with you: {things}", things=made.take), ""]
    lines += [say("Mind: {sentence}", sentence=sentence) for sentence in made.mind]
    lines.append(made.good_enough)
    return "\n".join(lines).rstrip() + "\n"


def _row(row: Row, made: HangingList) -> list[str]:
    lines = [say("{number}. {name}: {how}.", number=row.number, name=row.name, how=row.how)]
    for index, mark in enumerate(row.marks, start=1):
        if row.block == "nails":
            lines.append(_nail(mark, index, len(row.marks), made))
        else:
            lines.append(
                say(
                    "Lower edge {floor} above floor ({level} from level line), left edge {side} {datum}.",
                    floor=mark.above_floor,
                    level=mark.from_level,
                    side=mark.from_side,
                    datum=made.side,
                )
            )
    lines.append(say("{held}; {weighs}.", held=row.held, weighs=row.weighs))
    return lines


def _nail(mark: Mark, index: int, count: int, made: HangingList) -> str:
    if count == 1:
        return say(
            "Nail {floor} above floor ({level} from level line), {side} {datum}. Frame bears at {seat}.",
            floor=mark.above_floor,
            level=mark.from_level,
            side=mark.from_side,
            datum=made.side,
            seat=mark.seat,
        )
    return say(
        "Nail {index} of {count}: {floor} above floor ({level} from level line), {side} {datum}. Frame bears at {seat}.",
        index=index,
        count=count,
        floor=mark.above_floor,
        level=mark.from_level,
        side=mark.from_side,
        datum=made.side,
        seat=mark.seat,
    )
