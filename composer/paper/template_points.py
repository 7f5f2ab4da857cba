"""All points of a piece on one freely placed sheet instead of a whole template."""

from dataclasses import dataclass, replace

from composer.geometry.rectangle import Rectangle
from composer.hanging.records import HangingPoint, Hole
from composer.paper.drawing import Drawing
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.furniture import this_side_up
from composer.paper.grid import Mark, hull_of
from composer.paper.page_index import IndexEntry, label_of
from composer.paper.page_run import PageRun
from composer.paper.primitives import BLACK, CENTRE_DASH, THICK_PT, THIN_PT, Page
from composer.paper.room import Room
from composer.paper.sheets import Side
from composer.paper.template_blocks import Told, place_steps, place_stops, place_table
from composer.paper.template_grid import entry_of
from composer.paper.template_lines import draw_drops, draw_spread, number_points
from composer.paper.template_parts import place_ruler
from composer.paper.template_subject import Subject
from composer.paper.template_view import View, around_marks, draw_marks, seen_holes, seen_points, without_false_crosses
from composer.paper.template_words import frame_words, notes, numbers_table, spread_of_holes
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import say

HEAD_MM = 24.0
"""From the printable edge down to the frame's top edge."""

ROLL_PAGE_MM = 277.0
"""Print wanted of a roll for one sheet with points: as much as an A4 sheet has."""


def points_run(subject: Subject, paper: FullSizePaper) -> PageRun:
    """One sheet for all points where they fit, else one sheet a point."""
    ways = [paper.cut(ROLL_PAGE_MM)] if paper.sheet.is_roll else list(paper.ways)
    hull = _hull(subject.marks, paper.scale)
    # A lying sheet leaves most room beside a pair, so it is tried first.
    ways.sort(key=lambda side: -side.area[0])
    for side in ways:
        if hull.width * paper.scale[0] <= side.area[0] + 1e-6 and hull.height * paper.scale[1] <= side.area[1] + 1e-6:
            return _run([_Points(subject, subject, 1, 1, _view(subject, side, paper.scale))])
    count = len(subject.hanging.points)
    parts = [_only(subject, index) for index in range(count)]
    return _run(
        [_Points(part, subject, index, count, _view(part, ways[0], paper.scale)) for index, part in enumerate(parts, 1)]
    )


@dataclass(frozen=True, slots=True)
class _Points:
    """One sheet: the piece with the points on it alone, the whole piece, and how it lies."""

    part: Subject
    whole: Subject
    column: int
    columns: int
    view: View

    @property
    def entry(self) -> IndexEntry:
        hanging, number = self.part.hanging, self.part.piece.number
        points, holes = seen_points(self.view, hanging.points), seen_holes(self.view, hanging.holes)
        label = label_of(number, 1, self.column)
        return entry_of(self.view, label, number, (1, self.column), (1, self.columns), points, holes)


def _run(sheets: list[_Points]) -> PageRun:
    return PageRun(tuple((sheet.entry,) for sheet in sheets), lambda: [_sheet(sheet) for sheet in sheets])


def _only(subject: Subject, index: int) -> Subject:
    hanging = subject.hanging
    points: tuple[HangingPoint, ...] = (hanging.points[index],)
    holes: tuple[Hole, ...] = (hanging.holes[index],) if hanging.holes else ()
    return replace(subject, hanging=replace(hanging, points=points, holes=holes))


def _hull(marks: tuple[Mark, ...], scale: tuple[float, float]) -> Rectangle:
    first = marks[0]
    return hull_of(Rectangle(first.x, first.y, first.x, first.y), marks, scale)


def _view(subject: Subject, side: Side, scale: tuple[float, float]) -> View:
    """Top edge below the head and centre line in the middle where the points then fit; else around the points."""
    sx, sy = scale
    left, bottom, right, top = side.printable
    hull = _hull(subject.marks, scale)
    wide = (right - left) / sx
    centre = subject.width / 2
    low_x, high_x = hull.right - wide, hull.left
    start_x = min(max(centre - wide / 2, low_x), high_x)
    high = (top - bottom) / sy
    # The top edge HEAD_MM below the printable top, unless the points would fall off the lower end.
    start_y = subject.height + HEAD_MM / sy - high
    if start_y > hull.bottom - 6 / sy:
        start_y = min(hull.bottom, max(hull.top - high, (hull.bottom + hull.top - high) / 2))
    return View(
        (start_x - left / sx, start_y - bottom / sy), scale, Rectangle(*side.printable), (side.width, side.height)
    )


def _sheet(sheet: _Points) -> Page:
    subject, told, view, columns = sheet.part, sheet.whole, sheet.view, sheet.columns
    entry = sheet.entry
    points, holes, scale = entry.points, entry.holes, view.scale
    drawing = Drawing()
    area = view.printable
    room = Room(area.grown(-1.0))
    draw_marks(drawing, points, holes)
    for mark in around_marks(points, holes):
        room.take(mark)
    _, top = view.at(0, subject.height)
    centre, _ = view.at(subject.width / 2, 0)
    has_top = area.bottom < top < area.top - 15
    head_foot = top if has_top else area.top - HEAD_MM
    _draw_head(drawing, room, told, area, head_foot, columns)
    if has_top:
        drawing.line(area.left, top, area.right, top, THICK_PT)
        room.take(Rectangle(area.left, top - 1.5, area.right, top + 1))
    draw_drops(drawing, room, subject, view, points, holes)
    draw_spread(drawing, room, subject, points, holes)
    length = _draw_centre(drawing, room, subject, view, centre, top if has_top else area.top - HEAD_MM - 4)
    number_points(drawing, room, subject, points, holes)
    under = _top_words(drawing, room, told, area, top) if has_top else head_foot
    _side_words(drawing, room, told, area, centre, under)
    place_stops(drawing, room, told.stops)
    ruler = place_ruler(drawing, room, told, scale[0])
    blocks = Told(_steps(told, ruler, length, has_top), numbers_table(told), notes(told))
    place_steps(drawing, room, blocks, 58.0)
    place_table(drawing, room, blocks, 58.0, right=True)
    items = without_false_crosses(drawing.items, points)
    bookmark = (subject.heading, entry.label) if columns > 1 else (subject.heading,)
    return Page(view.size, tuple(items), entry.label, bookmark, view.area)


def _draw_head(drawing: Drawing, room: Room, subject: Subject, area: Rectangle, foot: float, columns: int) -> None:
    number = str(subject.piece.number)
    wide = drawing.text(area.left + 2, area.top - 13, number, 28, "bold")
    x = area.left + 2 + wide + 5
    names = max(20.0, area.width / 2 - 18 - (x - area.left))
    drawing.text(x, area.top - 9, subject.piece.name, 18, "semibold", within=names)
    drawing.text(x, area.top - 16.5, frame_words(subject), 10, within=names)
    this_side_up(drawing, (area.left + area.right) / 2, area.top - 20.5)
    title = say("Points on one sheet") if columns == 1 else say("One point a sheet")
    side = area.width / 2 - 20
    drawing.text(area.right - 2, area.top - 9, title, 14, "semibold", "right", within=side)
    drawing.text(area.right - 2, area.top - 16.5, subject.place_name, 10, align="right", within=side)
    room.take(Rectangle(area.left, max(foot, area.top - HEAD_MM), area.right, area.top))


def _draw_centre(drawing: Drawing, room: Room, subject: Subject, view: View, x: float, top: float) -> float | None:
    """The centre line with its two tips, where no mark stands on it; returns its length in the piece."""
    area = view.printable
    if not area.left + 6 < x < area.right - 6:
        return None
    wanted = 100.0 if subject.figures.imperial is False else 101.6
    nominal = next(
        (n for n in (1.4 * wanted, wanted, 0.5 * wanted) if top - n * view.scale[1] > area.bottom + 26), None
    )
    if nominal is None:
        return None
    foot = top - nominal * view.scale[1]
    tips = [
        ((x, top), (x - 2, top - 5), (x + 2, top - 5)),
        ((x, foot), (x - 2, foot + 5), (x + 2, foot + 5)),
    ]
    marks = [(view.at(m.x, m.y), m.half) for m in subject.marks]
    breaks = sorted(((y - half - 2, y + half + 2) for (mx, y), half in marks if abs(mx - x) < half + 2), reverse=True)
    start = top - 1
    for low, high in breaks:
        if start - high > 4 and high > foot:
            drawing.line(x, start, x, high, THIN_PT, BLACK, CENTRE_DASH)
        start = min(start, low)
    if start - foot > 4:
        drawing.line(x, start, x, foot + 1, THIN_PT, BLACK, CENTRE_DASH)
    for tip in tips:
        if not any(abs(mx - x) < half + 3 and abs(my - tip[0][1]) < half + 6 for (mx, my), half in marks):
            drawing.filled(*tip)
    words = say("CENTRE LINE")
    beside = (
        ""
        if subject.datum is None
        else f"{subject.datum.distance(subject.left + subject.width / 2, subject.figures)} {subject.datum.side_words()}"
    )
    first = text_width_mm(printable(words), 9, "bold")
    place = Rectangle(x + 3, top - 6.5, x + 3 + first + 4 + text_width_mm(printable(beside), 9), top - 2)
    if room.is_free(place):
        drawing.text(x + 3, top - 5.5, words, 9, "bold")
        drawing.text(x + 3 + first + 3, top - 5.5, beside, 9)
        room.take(place.grown(0.5))
    room.take(Rectangle(x - 2.2, foot, x + 2.2, top))
    return nominal


def _top_words(drawing: Drawing, room: Room, subject: Subject, area: Rectangle, top: float) -> float:
    """The words below the frame's top edge; returns the y below them."""
    lines = [(say("TOP EDGE OF THE FRAME"), True)]
    if subject.datum is not None:
        height = subject.datum.height(subject.bottom + subject.height, subject.figures)
        lines.append((f"{height} {subject.datum.height_words()}.", False))
    lines.append((say("Hold the spirit level on this line."), False))
    wide = max(text_width_mm(printable(line), 9, "bold") for line, _ in lines)
    band = Room(Rectangle(area.left + 2, top - 34, area.right - 2, top - 1.6))
    band.taken = room.taken
    place = band.find(wide, len(lines) * 4.6)
    if place is None:
        return top
    for index, (line, bold) in enumerate(lines):
        drawing.text(place.left, place.top - 3.4 - index * 4.6, line, 9, "bold" if bold else "regular")
    room.take(place.grown(1))
    return place.bottom


def _side_words(drawing: Drawing, room: Room, subject: Subject, area: Rectangle, centre: float, under: float) -> None:
    """How far the frame's left and right edges are from the centre line, at the sheet's sides below ``under``."""
    half = subject.figures.bare(subject.width / 2)
    if not area.left + 6 < centre < area.right - 6:
        return
    for words, left in (
        (say("left edge: {half} from the centre line", half=half), True),
        (say("right edge: {half} from the centre line", half=half), False),
    ):
        wide = text_width_mm(printable(words), 9) + 5
        start = area.left + 2 if left else area.right - 2 - wide
        place: Rectangle | None = Rectangle.at(start, under - 7, wide, 5)
        if place is None or not room.is_free(place):
            place = room.find(wide, 5) if left else room.find_right(wide, 5)
        if place is None or (place.left < centre) != left:
            continue
        y = place.bottom + 1.4
        if left:
            drawing.filled((place.left, y + 1.2), (place.left + 3, y), (place.left + 3, y + 2.4))
            drawing.text(place.left + 4, y, words, 9)
        else:
            drawing.filled((place.right, y + 1.2), (place.right - 3, y), (place.right - 3, y + 2.4))
            drawing.text(place.right - 4, y, words, 9, align="right")
        room.take(place.grown(1))


def _steps(subject: Subject, ruler: float, centre: float | None, has_top: bool) -> list[str]:
    figures, datum = subject.figures, subject.datum
    steps = []
    if ruler and centre is not None:
        steps.append(
            say(
                "Measure: ruler {ruler} across, centre line {centre} from tip to tip.",
                ruler=figures.bare(ruler),
                centre=figures.bare(centre),
            )
        )
    elif ruler:
        steps.append(say("Measure the ruler: {length}.", length=figures.bare(ruler)))
    if datum is None:
        steps.append(say("Put the top edge and the centre line where the piece shall hang, level. Low-tack tape."))
    elif has_top and centre is not None:
        steps.append(
            say(
                "On the wall, mark {x} {side} and {y} {above}.",
                x=datum.distance(subject.left + subject.width / 2, figures),
                side=datum.side_words(),
                y=datum.height(subject.bottom + subject.height, figures),
                above=datum.height_words(),
            )
        )
        steps.append(say("Lay the top of the centre line on the mark. Level the top edge. Low-tack tape."))
    else:
        steps.append(say("Lay each mark on its numbers on the wall, level. Low-tack tape."))
    if subject.hanging.holes:
        steps.append(say("Prick each ring. Take the sheet off. Nail."))
    spread = spread_of_holes(subject)
    if spread is not None and subject.hanging.holes:
        steps.append(
            say(
                "Check {spread} between the nails, level to {slack}.",
                spread=figures.bare(spread),
                slack=figures.full(25.4 / 16 if figures.imperial else 1.0),
            )
        )
    return steps
