"""What a full-size sheet says: the steps, the table of numbers, the numbers beside each point."""

from composer.hanging.records import HangingPoint, Hole
from composer.paper.grid import Grid
from composer.paper.page_index import label_of
from composer.paper.template_subject import Subject
from composer.texts import say, say_many


def frame_words(subject: Subject) -> str:
    """The frame's size and its hanger, e.g. "frame 406 × 508 mm, wire on two hooks"."""
    return say(
        "frame {size}, {hanger}",
        size=subject.figures.size_in_words(subject.width, subject.height),
        hanger=subject.hanger_words(),
    )


def top_edge_words(subject: Subject) -> tuple[str, str]:
    """Where the frame's top edge goes, and what to do about it; of a piece on the floor only the second."""
    datum = subject.datum
    if datum is None:
        return "", say("This piece lies on the floor: hang the top edge where you like, level.")
    height = datum.height(subject.bottom + subject.height, subject.figures)
    return (
        say("{height} {above}.", height=height, above=datum.height_words()),
        say("Hold the spirit level on this line."),
    )


def centre_words(subject: Subject) -> tuple[str, ...]:
    """What stands beside the centre line."""
    if subject.datum is None:
        return (say("centre line of the piece"),)
    x = subject.datum.distance(subject.left + subject.width / 2, subject.figures)
    return (say("centre line of the piece"), f"{x} {subject.datum.side_words()}")


def spread_of_holes(subject: Subject) -> float | None:
    """The distance across between two nails (or two hanging points); None when there are not two."""
    spots: tuple[Hole, ...] | tuple[HangingPoint, ...] = subject.hanging.holes or subject.hanging.points
    return spots[1].x - spots[0].x if len(spots) == 2 else None


def point_numbers(subject: Subject, index: int) -> list[tuple[str, str, float]]:
    """Words, number and size in points for one hanging point and its hole."""
    hanging, figures, datum = subject.hanging, subject.figures, subject.datum
    point = hanging.points[index]
    spot: Hole | HangingPoint = hanging.holes[index] if hanging.holes else point
    if datum is None:
        rows = [
            (say("below the top edge"), figures.bare(subject.height - spot.y), 20.0),
            (say("from the left edge"), figures.bare(spot.x), 20.0),
        ]
        if abs(spot.y - point.y) > 1e-6:
            rows.append((say("seat, no hole"), figures.bare(subject.height - point.y), 14.0))
        return rows
    rows = [
        (datum.height_words(), datum.height(subject.bottom + spot.y, figures), 20.0),
        (datum.side_words(), datum.distance(subject.left + spot.x, figures), 20.0),
    ]
    if abs(spot.y - point.y) > 1e-6:
        rows.append((say("seat, no hole"), datum.height(subject.bottom + point.y, figures), 14.0))
    return rows


def numbers_table(subject: Subject) -> list[tuple[str, str]]:
    """The rows of "Numbers of this piece"."""
    hanging, figures, datum = subject.hanging, subject.figures, subject.datum
    spots: tuple[Hole, ...] | tuple[HangingPoint, ...] = hanging.holes or hanging.points
    rows: list[tuple[str, str]] = []
    nails = bool(hanging.holes)
    if datum is not None:
        rows += [
            (
                say("top edge {from_where}", from_where=datum.height_words()),
                datum.height(subject.bottom + subject.height, figures),
            ),
            (say("left edge {from_where}", from_where=datum.side_words()), datum.distance(subject.left, figures)),
        ]
        if spots:
            heights = list(dict.fromkeys(datum.height(subject.bottom + spot.y, figures) for spot in spots))
            across = [datum.distance(subject.left + spot.x, figures) for spot in spots]
            above, side = datum.height_words(), datum.side_words()
            rows.append((_spots_words(len(spots), above, nails=nails), ", ".join(heights)))
            rows.append((_spots_words(len(spots), side, nails=nails), ", ".join(across)))
    elif spots:
        drops = list(dict.fromkeys(figures.bare(subject.height - spot.y) for spot in spots))
        below = _spots_words(len(spots), say("below the top edge"), nails=nails)
        beside = _spots_words(len(spots), say("from the left edge"), nails=nails)
        rows += [(below, ", ".join(drops)), (beside, ", ".join(figures.bare(spot.x) for spot in spots))]
    if hanging.drop_mm is not None:
        rows.append((say("drop (top edge to hanging point)"), figures.bare(hanging.drop_mm)))
    if subject.weight is not None:
        words = say("weight, weighed") if subject.weight.measured else say("weight, estimated")
        rows.append((words, figures.mass(subject.weight.kg)))
    return rows


def _spots_words(count: int, from_where: str, *, nails: bool) -> str:
    """ "nail above floor", "points from left corner"."""
    if nails:
        return say_many("nail {from_where}", "nails {from_where}", count, from_where=from_where)
    return say_many("point {from_where}", "points {from_where}", count, from_where=from_where)


def notes(subject: Subject) -> list[str]:
    """Small sentences below the table."""
    lines = [say("All numbers in {unit}. Low-tack tape only; test a hidden spot.", unit=subject.figures.all_in)]
    if subject.placement is not None and subject.placement.turned:
        lines.append(say("The piece hangs turned a quarter; this sheet shows it as it hangs."))
    if not subject.hanging.points and not subject.on_strips:
        lines.append(say("The hanging point is not known yet: measure the drop on the back, then print again."))
    return lines


def tile_steps(subject: Subject, grid: Grid, ruler_mm: float, registers: tuple[str, str] | None) -> list[str]:
    """The order of work on a sheet that is taped to the wall, at most six steps."""
    figures, datum = subject.figures, subject.datum
    steps = [measure_step(subject, ruler_mm, registers)]
    if len(grid.kept) > 1:
        steps.append(join_step(subject.piece.number, grid))
        steps.append(
            say(
                "Measure the whole: {width} wide, {height} high.",
                width=figures.bare(subject.width),
                height=figures.bare(subject.height),
            )
        )
    if datum is None:
        steps.append(say("Tape the top edge to the wall where the piece shall hang, level."))
    else:
        top = subject.bottom + subject.height
        above = top - datum.level_line
        values = {
            "height": datum.height(top, figures),
            "above": datum.height_words(),
            "left": datum.distance(subject.left, figures),
            "side": datum.side_words(),
            "line": figures.bare(datum.level_line),
            "away": figures.bare(abs(above)),
        }
        steps.append(
            say(
                "Tape the top edge to the wall: {height} {above}, left edge {left} {side}, level. The level line ({line}) is {away} lower.",
                **values,
            )
            if above >= 0
            else say(
                "Tape the top edge to the wall: {height} {above}, left edge {left} {side}, level. The level line ({line}) is {away} higher.",
                **values,
            )
        )
    if subject.hanging.holes:
        steps.append(
            say("Prick both rings, then nail through the rings, not through the crosses.")
            if len(subject.hanging.holes) == 2
            else say("Prick the ring, then nail through it.")
        )
    elif subject.hanging.points:
        steps.append(say("Mark the crosses: the frame bears there."))
    spread = spread_of_holes(subject)
    if spread is not None and subject.hanging.holes:
        steps.append(
            say(
                "Measure {spread} between the nails, level to {slack}.",
                spread=figures.bare(spread),
                slack=figures.full(25.4 / 16 if figures.imperial else 1.0),
            )
        )
    return steps


def join_step(number: int, grid: Grid) -> str:
    """How the sheets of one piece are put together."""
    names = {"first": label_of(number, *grid.kept[0]), "last": label_of(number, *grid.kept[-1])}
    if len(grid.kept) == grid.rows * grid.columns:
        return say(
            "Cut {first} … {last} along their solid edge lines. Lay each cut edge on the dashed line, marks on marks. Tape.",
            **names,
        )
    return say("Cut and tape {first} … {last}; where no sheet lies between, keep the distance printed there.", **names)


def measure_step(subject: Subject, ruler_mm: float = 0.0, registers: tuple[str, str] | None = None) -> str:
    """The first step, always: measure what was printed."""
    if registers is not None and ruler_mm:
        return say(
            "Measure the ruler and the marks: {across} apart across, {up} up. Not so? Print again, “actual size”.",
            across=registers[0],
            up=registers[1],
        )
    if ruler_mm:
        return say(
            "Measure the ruler: {length}. Not so? Print again, “actual size”.", length=subject.figures.bare(ruler_mm)
        )
    return say(
        "Measure the outline: {width} across, {height} up. Not so? Print again, “actual size”.",
        width=subject.figures.bare(subject.width),
        height=subject.figures.bare(subject.height),
    )
