"""What stands on a hanging list, before it is drawn or written: rows in hanging order, things to take, warnings."""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Literal

from composer.catalogue import catalogue as catalogues
from composer.catalogue.catalogue import Catalogue
from composer.hanging.fixings import count_of
from composer.model import Arrangement, Obstacle, Project, Wall
from composer.paper.figures import Figures, figures_of
from composer.paper.hanging_list_minds import minds
from composer.paper.hanging_list_things import counted, good_enough, size_words, things_to_take
from composer.paper.template_subject import Datum, Subject, subjects
from composer.paper.wall_drawing import name_of as obstacle_words
from composer.texts import say

Block = Literal["nails", "edges", "unknown"]
"""Pieces with holes; pieces without, set by their edges; pieces nobody has measured yet."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One place to mark on the wall, as written: a hole, or a lower left corner; ``seat`` is where the frame bears."""

    from_level: str
    above_floor: str
    from_side: str
    seat: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """One piece.

    Attributes:
        number, name: what it is called.
        how: its size and how it hangs.
        block: which part of the table it stands in.
        marks: one a hole, from left to right; one for the edges of a piece without.
        held: what holds it.
        weighs: its weight and what else the person on the ladder must know.
    """

    number: int
    name: str
    how: str
    block: Block
    marks: tuple[Mark, ...]
    held: str
    weighs: str


@dataclass(frozen=True, slots=True)
class HangingList:
    """One wall's list.

    Attributes:
        rows: in hanging order; by blocks.
        level: one sentence about the level line, and the plumb line where distances are taken from one.
        side: what distances are taken from: "from left corner".
        take: what to take along, as one line.
        mind: warnings that apply, most serious first.
        good_enough: the tolerances.
        datum, figures: how numbers are written.
    """

    wall: Wall
    rows: tuple[Row, ...]
    level: str
    side: str
    take: str
    mind: tuple[str, ...]
    good_enough: str
    datum: Datum
    figures: Figures
    subjects: tuple[Subject, ...]

    def of_block(self, block: Block) -> tuple[Row, ...]:
        """The rows of one part of the table."""
        return tuple(row for row in self.rows if row.block == block)


def hanging_list(
    project: Project,
    wall: Wall,
    arrangement: Arrangement,
    only: Collection[int] | None = None,
    *,
    left_to_right: bool = False,
) -> HangingList | None:
    """The list of one wall; None when nothing hangs there.

    Args:
        project: the project.
        wall: whose list.
        arrangement: whose places.
        only: piece numbers; None = all.
        left_to_right: rows from left to right; else from the middle of the group outward, on a stair upward.
    """
    chosen = subjects(project, arrangement, only, {wall.key})
    if not chosen:
        return None
    known = catalogues.of(project.catalogue)
    figures = figures_of(project)
    datum = chosen[0].datum
    assert datum is not None
    ordered = _in_order(chosen, wall, left_to_right=left_to_right)
    blocks: tuple[Block, ...] = ("nails", "edges", "unknown")
    rows = [_row(subject, figures, datum, known) for subject in ordered]
    return HangingList(
        wall=wall,
        rows=tuple(row for block in blocks for row in rows if row.block == block),
        level=_level_words(wall, datum, figures),
        side=datum.side_words(),
        take=things_to_take(ordered, known, figures),
        mind=minds(project, arrangement, wall, ordered, figures),
        good_enough=good_enough(ordered, arrangement, figures),
        datum=datum,
        figures=figures,
        subjects=tuple(ordered),
    )


def _in_order(chosen: Sequence[Subject], wall: Wall, *, left_to_right: bool) -> list[Subject]:
    """Hanging order: the piece nearest the group's middle first, then outward; along a stair from the bottom up."""
    if left_to_right or wall.nosing is not None:
        falls = wall.nosing is not None and not left_to_right and _falls(wall.nosing)
        return sorted(chosen, key=lambda one: (-one.left if falls else one.left, -one.bottom))
    left, right = min(one.left for one in chosen), max(one.left + one.width for one in chosen)
    bottom, top = min(one.bottom for one in chosen), max(one.bottom + one.height for one in chosen)
    middle = ((left + right) / 2, (bottom + top) / 2)

    def away(one: Subject) -> tuple[float, float]:
        x, y = one.left + one.width / 2, one.bottom + one.height / 2
        return round(math.hypot(x - middle[0], y - middle[1])), one.left

    return sorted(chosen, key=away)


def _falls(nosing: tuple[tuple[float, float], tuple[float, float]]) -> bool:
    (x1, y1), (x2, y2) = nosing
    return (y2 - y1) * (x2 - x1) < 0


def round_to(mm: float, figures: Figures) -> float:
    """To a whole millimetre, or to the fraction of an inch the tape is read to; half up."""
    step = 25.4 / (figures.style.denominator or 16) if figures.imperial else 1.0
    return math.floor(mm / step + 0.5) * step


def _mark(x: float, y: float, datum: Datum, figures: Figures, seat: float | None = None) -> Mark:
    """The numbers of one place; the height over the level line and over the floor always differ by that line's."""
    above = round_to(y, figures)
    line = round_to(datum.level_line, figures)
    return Mark(
        _narrow(figures.signed(above - line), figures),
        _narrow(figures.bare(above), figures),
        _narrow(datum.distance(_from(x, datum, figures), figures), figures),
        "" if seat is None else _narrow(figures.bare(round_to(seat, figures)), figures),
    )


def _narrow(words: str, figures: Figures) -> str:
    """Thousands set apart by a narrow space, as ISO 80000-1 writes them: whoever reads the sheet by machine, too,
    then sees where one column's number ends and the next begins. Inches keep theirs before the fraction."""
    return words if figures.imperial else words.replace("\u00a0", "\u202f")


def _from(x: float, datum: Datum, figures: Figures) -> float:
    """``x`` moved so that its distance from the datum is a whole step."""
    return datum.side_x + math.copysign(round_to(abs(x - datum.side_x), figures), x - datum.side_x)


def _row(subject: Subject, figures: Figures, datum: Datum, known: Catalogue) -> Row:
    hanging, piece = subject.hanging, subject.piece
    block: Block = "nails" if hanging.holes else "edges" if hanging.points else "unknown"
    if block == "nails":
        marks = tuple(
            _mark(subject.left + hole.x, subject.bottom + hole.y, datum, figures, subject.bottom + point.y)
            for hole, point in zip(hanging.holes, hanging.points, strict=True)
        )
    else:
        marks = (_mark(subject.left, subject.bottom, datum, figures),)
    size = figures.size(round_to(subject.width, figures), round_to(subject.height, figures))
    return Row(
        piece.number,
        piece.name,
        say("{size}, {how}", size=size, how=_how(subject)),
        block,
        marks,
        _held(subject, known, figures),
        _weighs(subject, figures),
    )


def _how(subject: Subject) -> str:
    kind = subject.hanging.kind
    if kind is None or not subject.hanging.points:
        return say("not measured")
    if kind == "wire":
        return say("wire, 2 hooks") if len(subject.hanging.points) == 2 else say("wire, 1 hook")
    return {
        "sawtooth": say("sawtooth"),
        "d-rings": say("D-rings"),
        "keyholes": say("keyholes"),
        "strips": say("strips"),
        "cleat": say("cleat"),
        "ledge": say("on a ledge"),
    }[kind]


def _held(subject: Subject, known: Catalogue, figures: Figures) -> str:
    plan, hardware = subject.hanging.strips, subject.piece.hardware
    if plan is not None:
        if plan.half:
            return say("{pairs} half pairs, {size}", pairs=plan.pairs, size=size_words(plan.size))
        return say("{pairs} pairs, {size}", pairs=plan.pairs, size=size_words(plan.size))
    if subject.hanging.kind == "ledge":
        return say("stands on its ledge")
    if not subject.hanging.points:
        return say("measure its back first")
    if hardware is None:
        return say("fixing not chosen yet")
    fixing = known.fixings.get(hardware.fixing)
    if fixing is None:
        return say("{count} × {fixing}", count=hardware.count, fixing=hardware.fixing)
    return counted(fixing, count_of(hardware, fixing), figures)


def _weighs(subject: Subject, figures: Figures) -> str:
    parts = []
    weight = subject.weight
    if weight is None:
        parts.append(say("not weighed"))
    elif weight.measured:
        parts.append(figures.mass(weight.kg))
    else:
        parts.append(say("about {weight}", weight=figures.mass(weight.kg)))
    if subject.piece.frame.glazing == "glass":
        parts.append(say("glass"))
    points = subject.hanging.points
    if len(points) == 2 and subject.hanging.holes:
        apart = say("{far} apart", far=figures.bare(round_to(points[1].x - points[0].x, figures)))
        return say("{weight} · {apart}", weight=", ".join(parts), apart=apart)
    return ", ".join(parts)


_FIXED = ("switch", "socket", "thermostat", "door", "window", "shelf", "radiator")
"""Things that stay where they are, the handiest to measure from first."""


def _level_words(wall: Wall, datum: Datum, figures: Figures) -> str:
    level = round_to(datum.level_line, figures)
    place = say("at the right corner") if datum.side == "right" else say("at the left corner")
    words = [say("Level line {height} above floor, {place}.", height=figures.bare(level), place=place)]
    fixed = _fixed_thing(wall)
    if fixed is not None:
        thing, y = fixed
        away = round_to(abs(level - y), figures)
        if y < level:
            words.append(say("It lies {far} above {thing}.", far=figures.bare(away), thing=_spot(thing)))
        else:
            words.append(say("It lies {far} below {thing}.", far=figures.bare(away), thing=_spot(thing)))
    words.append(say("Level it, take all heights from it."))
    if datum.side == "plumb":
        words.append(
            say(
                "Plumb line {far} from left corner; − is left of it.", far=figures.bare(round_to(datum.side_x, figures))
            )
        )
    return " ".join(words)


def _fixed_thing(wall: Wall) -> tuple[Obstacle, float] | None:
    """Something on the wall to check the level line by, and the height it is measured at: middle, or upper edge."""
    for kind in _FIXED:
        for obstacle in wall.obstacles:
            if obstacle.kind == kind:
                height = float(obstacle.height.mm)
                middle = kind in {"switch", "socket", "thermostat"}
                return obstacle, obstacle.bottom + (height / 2 if middle else height)
    return None


def _spot(obstacle: Obstacle) -> str:
    own = obstacle.name
    thing = say("“{name}”", name=own) if own else say("the {thing}", thing=obstacle_words(obstacle))
    if obstacle.kind in {"switch", "socket", "thermostat"}:
        return say("the middle of {thing}", thing=thing)
    return say("the upper edge of {thing}", thing=thing)
