"""The cut-paper list: sizes to cut from any paper, where to mark the holes, where to put them up."""

from collections.abc import Collection
from dataclasses import dataclass

from composer.model import Arrangement, Project, Wall
from composer.paper.drawing import Area, Drawing, line_step
from composer.paper.figures import Figures, figures_of
from composer.paper.furniture import sheet_head, write_in_box
from composer.paper.locator_parts import L_ARM_MM
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT, Page
from composer.paper.sheet_request import SheetRequest
from composer.paper.stops import draw_stops, listed
from composer.paper.template_subject import Subject, subjects
from composer.paper.wall_drawing import of_wall
from composer.texts import say, say_many

ROLL_WIDTH_MM = 700.0
"""Width of a roll of wrapping paper (common practice; no source)."""

_LEAST = (180.0, 140.0)
_ROW_MM = 23.0
_FOOT_MM = 16.0
_STOPS_SHARE = 0.3
"""Stops take no more of the sheet's height than this; the hanging list has them all."""


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where the columns stand, page mm; what is right-aligned gives its right edge."""

    left: float
    cut: float
    right_of: float
    down: float
    drawing: float
    top_edge: float
    left_edge: float
    tick: float


def roll_length_mm(sizes: Collection[tuple[float, float]], roll_mm: float = ROLL_WIDTH_MM) -> float | None:
    """How much of a roll the papers take, laid in shelves across it, each turned if that is better.

    The highest first; a paper goes on the first shelf with room (next-fit decreasing height and its
    first-fit kin: Coffman, Garey, Johnson, Tarjan 1980). None when a paper fits neither way.
    """
    turned = []
    for width, height in sizes:
        ways = [(w, h) for w, h in ((width, height), (height, width)) if w <= roll_mm]
        if not ways:
            return None
        turned.append(ways)
    best: float | None = None
    for lying in (True, False):
        # All lying (each as low as it can be) or all as they hang, whichever takes less.
        papers = [min(ways, key=lambda way: way[1]) if lying else ways[0] for ways in turned]
        shelves: list[tuple[float, float]] = []
        for width, height in sorted(papers, key=lambda paper: -paper[1]):
            for index, (used, high) in enumerate(shelves):
                if used + width <= roll_mm + 1e-6:
                    shelves[index] = (used + width, high)
                    break
            else:
                shelves.append((width, height))
        length = sum(high for _, high in shelves)
        best = length if best is None else min(best, length)
    return best


def build(
    project: Project,
    wall: Wall,
    arrangement: Arrangement,
    request: SheetRequest,
    only: Collection[int] | None = None,
) -> list[Page]:
    """The list of one wall, over as many sheets as its pieces need; empty when nothing hangs there.

    Raises:
        SheetTooSmall: the paper is narrower than about A4.
    """
    chosen = subjects(project, arrangement, only, {wall.key})
    if not chosen:
        return []
    upright = request.turned(landscape=False)
    area = upright.expect(say("Cut-paper list"), *_LEAST)
    figures = figures_of(project)
    pages: list[Page] = []
    rest = list(chosen)
    while rest:
        drawing = Drawing()
        y = _head(drawing, area, project, wall, chosen, figures, first=not pages)
        room = y - area.bottom - _FOOT_MM
        height = _ROW_MM
        if len(rest) * _ROW_MM > room >= len(rest) * 19.0:
            height = room / len(rest)
        count = max(1, int((room + 1e-6) // height))
        scale = _drawing_scale(chosen)
        for subject in rest[:count]:
            _row(drawing, _columns(area), subject, y, height, figures, scale)
            y -= height
            drawing.line(area.left, y, area.right, y, HAIR_PT, GREY)
        rest = rest[count:]
        drawing.line(area.left, y, area.right, y, THICK_PT)
        _foot(drawing, area, y, chosen, arrangement, figures, scale)
        label = say("Cut-outs {number}", number=len(pages) + 1)
        pages.append(drawing.page(upright.size, label, (say("Cut-paper list"), wall.name, label), area))
    return pages


def _columns(area: Area) -> _Columns:
    share = area.width / 190.0
    return _Columns(
        left=area.left,
        cut=area.left + 24 * share,
        right_of=area.left + 82 * share,
        down=area.left + 101 * share,
        drawing=area.left + 112 * share,
        top_edge=area.left + 158 * share,
        left_edge=area.left + 181 * share,
        tick=area.right - 5,
    )


def _head(
    drawing: Drawing, area: Area, project: Project, wall: Wall, chosen: list[Subject], figures: Figures, *, first: bool
) -> float:
    below = _paper_needed(chosen, figures) if first else say("Continued.")
    note = say("{unit} · front side towards you", unit=figures.all_in)
    rule = sheet_head(drawing, area, say("Cut-paper list"), of_wall(project, wall), note, below)
    if first:
        rule = _stops(drawing, area, chosen, rule)
    at = _columns(area)
    datum = chosen[0].datum
    assert datum is not None
    blocks = (
        (at.cut, 38.0, 1, say("Cut"), say("width × height")),
        (at.cut + (at.drawing - at.cut) * 0.43, 52.0, 2, say("Mark the hole"), say("from the paper's edges")),
        (at.top_edge - 19, area.right - at.top_edge + 12, 3, say("Put up"), say("level the top edge")),
    )
    for x, width, number, words, how in blocks:
        drawing.text(x, rule - 6.6, str(number), 16, "bold")
        drawing.text(x + 6, rule - 6.6, words, 14, "semibold", within=width - 6)
        drawing.text(x + 6, rule - 11.8, how, 9, within=width - 6)
    heads = (
        (at.right_of, 22.0, (say("right of"), say("left edge"))),
        (at.down, 18.0, (say("down from"), say("top edge"))),
        (at.top_edge, 24.0, (say("top edge"), datum.height_words())),
        (at.left_edge, 21.5, (say("left edge"), datum.side_words())),
    )
    for x, width, pair in heads:
        for index, word in enumerate(pair):
            drawing.text(x, rule - 16.8 - 3.6 * index, word, 9, "semibold", "right", within=width)
    rule -= 22.8
    drawing.line(area.left, rule, area.right, rule, THIN_PT)
    return rule


def _stops(drawing: Drawing, area: Area, chosen: list[Subject], rule: float) -> float:
    """What forbids to hang pieces so, each said once, below the head; gives back the y the columns start at."""
    stops = sorted(dict.fromkeys(stop for subject in chosen for stop in subject.stops), key=lambda one: not one.stands)
    shown, high = listed(stops, area.width, area.height * _STOPS_SHARE)
    if not shown:
        return rule
    draw_stops(drawing, shown, area.left, rule - 5.0, area.width)
    below = rule - high - 1.0
    drawing.line(area.left, below, area.right, below, THIN_PT)
    return below


def _paper_needed(chosen: list[Subject], figures: Figures) -> str:
    length = roll_length_mm([(subject.width, subject.height) for subject in chosen])
    if length is None:
        return say("No printing to scale needed. Newspaper or wrapping paper; tape sheets together for the large ones.")
    if figures.imperial:
        amount, width = say("{feet} ft", feet=f"{length / 304.8 + 0.05:.1f}"), say("{width} in", width="27 1/2")
    else:
        amount, width = say("{metres} m", metres=f"{length / 1000 + 0.005:.2f}"), say("{width} mm", width="700")
    return say_many(
        "No printing to scale needed. Newspaper or wrapping paper: {amount} of a roll {width} wide is enough for this one.",
        "No printing to scale needed. Newspaper or wrapping paper: {amount} of a roll {width} wide is enough for all {count}.",
        len(chosen),
        amount=amount,
        width=width,
    )


def _drawing_scale(chosen: list[Subject]) -> float:
    """One round scale for all small drawings, so that they compare."""
    widest = max(subject.width for subject in chosen)
    highest = max(subject.height for subject in chosen)
    needed = max(widest / 32.0, highest / 20.5)
    return next(
        (scale for scale in (5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0) if scale >= needed), needed
    )


def _row(
    drawing: Drawing, at: _Columns, subject: Subject, top: float, height: float, figures: Figures, scale: float
) -> None:
    middle = top - height / 2
    base = middle - 1.8
    name_width = at.cut - at.left - 2
    drawing.text(at.left, middle + 1.2, str(subject.piece.number), 18, "bold", within=name_width)
    drawing.paragraph(at.left, middle - 4.6, subject.piece.name, name_width, 9, "semibold", most=2)
    size = figures.size(subject.width, subject.height)
    drawing.text(at.cut, base, size, 14, "bold", within=(at.right_of - at.cut) * (0.55 if subject.on_strips else 0.72))
    _holes(drawing, at, subject, middle, figures)
    _small_drawing(drawing, at, subject, middle, scale)
    datum = subject.datum
    assert datum is not None
    drawing.text(
        at.top_edge, base, datum.height(subject.bottom + subject.height, figures), 14, "bold", "right", within=21
    )
    drawing.text(at.left_edge, base, datum.distance(subject.left, figures), 14, "bold", "right", within=17)
    write_in_box(drawing, at.tick, middle - 2.4, 4.8, 4.8)


def _holes(drawing: Drawing, at: _Columns, subject: Subject, middle: float, figures: Figures) -> None:
    hanging = subject.hanging
    if not hanging.holes:
        x = at.cut + (at.right_of - at.cut) * 0.69
        width = at.drawing - x - 3
        if subject.on_strips:
            first, then = say("no hole: strips"), say("mark the two lower corners on tape, take the paper off")
        elif hanging.points:
            first, then = say("no hole: a ledge"), say("mark the lower edge, take the paper off")
        else:
            first, then = say("hole not known yet"), say("measure the hanger first")
        drawing.text(x, middle + 2.6, first, 10, "semibold", within=width)
        drawing.paragraph(x, middle - 2.2, then, width, 9, most=2)
        return
    holes = hanging.holes
    step = 7.0
    two = len(holes) == 2
    y = middle + (2.6 if two else -1.8)
    for hole in holes:
        drawing.text(at.right_of, y, figures.bare(hole.x), 14, "bold", "right", within=24)
        drawing.text(at.down, y, figures.bare(subject.height - hole.y), 14, "bold", "right", within=17)
        y -= step
    if two:
        apart = say("{distance} apart", distance=figures.bare(holes[1].x - holes[0].x))
        drawing.text(at.right_of, y + 2.2, apart, 9, align="right", within=26)


def _small_drawing(drawing: Drawing, at: _Columns, subject: Subject, middle: float, scale: float) -> None:
    wide, high = subject.width / scale, subject.height / scale
    left, bottom = at.drawing, middle - high / 2
    drawing.box(left, bottom, wide, high)
    for hole in subject.hanging.holes:
        x, y = left + hole.x / scale, bottom + hole.y / scale
        drawing.line(left, y, x, y, HAIR_PT, GREY)
        drawing.line(x, bottom + high, x, y, HAIR_PT, GREY)
        drawing.circle(x, y, 0.8, THIN_PT)
        drawing.circle(x, y, 0.25, None, fill_grey=0.0)
    if subject.on_strips:
        arm = min(L_ARM_MM / scale, wide * 0.4)
        for x, way in ((left, 1.0), (left + wide, -1.0)):
            drawing.line(x - way * 0.35, bottom - 0.35, x + way * arm, bottom - 0.35, 2.0)
            drawing.line(x - way * 0.35, bottom, x - way * 0.35, bottom + arm, 2.0)
    size = min(9.0, wide * 1.6, high * 1.1)
    drawing.text(left + wide / 2, bottom + high * 0.28 - size * 0.1, str(subject.piece.number), size, "bold", "centre")


def _foot(
    drawing: Drawing,
    area: Area,
    y: float,
    chosen: list[Subject],
    arrangement: Arrangement,
    figures: Figures,
    scale: float,
) -> None:
    offsets = sorted({round(float(subject.hanging.hook_offset_mm), 3) for subject in chosen if subject.hanging.holes})
    sentences = [say("Write number and TOP on each paper.")]
    if any(offsets):
        listed = ", ".join(figures.bare(abs(offset)) for offset in offsets if offset)
        sentences.append(
            say("The hole is where the nail goes; the hook's own {offset} is already in the numbers.", offset=listed)
        )
    elif offsets:
        sentences.append(say("No fixing is chosen yet: the hole is where the frame bears; add the hook's own offset."))
    datum = chosen[0].datum
    if datum is not None:
        sentences.append(say("Take heights from one level line at {height}.", height=figures.bare(datum.level_line)))
    sentences.append(
        say(
            "Every gap between papers is meant to be {gap}: check it before the first nail.",
            gap=figures.bare(arrangement.gap.mm),
        )
    )
    sentences.append(say("Drawings 1 : {scale}. Low-tack tape.", scale=f"{scale:g}"))
    drawing.paragraph(area.left, y - line_step(9), " ".join(sentences), area.width, 9, most=4)
