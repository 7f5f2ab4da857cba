"""A wide frame's locator as a whole: sheets taped together, the outline complete, the inside cut away."""

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Drawing
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.grid import Grid
from composer.paper.locator_back import draw_back, steps
from composer.paper.locator_parts import (
    L_THICK_MM,
    NUMBERS_MM,
    card_page,
    corner_boxes,
    draw_corners,
    draw_numbers,
    entry_on,
    has_glass,
)
from composer.paper.page_index import label_of
from composer.paper.page_run import PageRun
from composer.paper.primitives import THIN_PT, Line, Page
from composer.paper.room import Room, reach
from composer.paper.template_blocks import Told, place_steps, place_stops
from composer.paper.template_gaps import draw_gaps
from composer.paper.template_grid import grid_on, view_of
from composer.paper.template_joins import draw_joins, joins_of, take_bands
from composer.paper.template_parts import place_arrow, place_label, place_map, place_ruler
from composer.paper.template_subject import Subject
from composer.paper.template_tile import EDGE_CLEAR_MM, Place
from composer.paper.template_view import View, around_marks, draw_marks, draw_outline, without_false_crosses
from composer.paper.template_words import frame_words, join_step, measure_step
from composer.paper.type_metrics import printable, text_width_mm, wrap
from composer.texts import say

_BACK_MM = (
    (160.0, 120.0), (140.0, 120.0), (120.0, 110.0), (99.0, 110.0), (140.0, 80.0), (110.0, 76.0), (99.0, 66.0), (80.0, 120.0)
)  # fmt: skip
"""Rooms for the back of the frame, the largest drawing first."""

_NUMBERS_WIDE_MM, _NUMBERS_LEAST_MM = 118.0, 60.0


def tiled_run(subject: Subject, paper: FullSizePaper) -> PageRun:
    """The sheets of a locator, and a card for the back where no sheet has room for it."""
    outline = subject.outline
    around = Rectangle(-L_THICK_MM, -L_THICK_MM - NUMBERS_MM, outline.right + L_THICK_MM, outline.top)
    numbers = Rectangle(0.0, around.bottom, min(_NUMBERS_LEAST_MM, outline.right), -L_THICK_MM)
    shown = (outline, *corner_boxes(outline), numbers)
    grid, side = grid_on(paper, around, subject.marks, head_room=0.0, pair=False, shown=shown)
    views = {place: view_of(grid, place, side, paper.scale) for place in grid.kept}
    entries = tuple((entry_on(subject, view, place, (grid.rows, grid.columns)),) for place, view in views.items())
    # Tried once to see whether the back has room: the number of pages must be known before.
    _, complete = _draw_all(subject, grid, views)

    def draw() -> list[Page]:
        pages, _ = _draw_all(subject, grid, views)
        return pages if complete else [*pages, card_page(subject, views[grid.kept[0]])]

    return PageRun(entries if complete else (*entries, ()), draw)


def _draw_all(subject: Subject, grid: Grid, views: dict[Place, View]) -> tuple[list[Page], bool]:
    pages = []
    steps_due, back_due = True, True
    numbered = _numbered(subject, grid, views)
    for place, view in views.items():
        sheet = _Sheet(subject, grid, place, view)
        sheet.outline()
        if place in numbered:
            sheet.numbers(numbered[place])
        sheet.name()
        if steps_due:
            place_stops(sheet.drawing, sheet.room, subject.stops)
        ruler = sheet.measure()
        if steps_due:
            steps_due = not sheet.tell(ruler)
        if back_due:
            back_due = not sheet.back()
        pages.append(sheet.page())
    return pages, not back_due


def _inner(grid: Grid, place: Place, view: View) -> Rectangle:
    """Where text may stand: inside the bands shared with neighbours."""
    return joins_of(grid, place, view.scale).inner(view.printable).grown(-EDGE_CLEAR_MM)


def _lower_edge(subject: Subject, inner: Rectangle, view: View) -> tuple[float, float]:
    """From where to where the outline's lower edge runs on a sheet."""
    outline = view.rectangle(subject.outline)
    return max(outline.left, inner.left), min(outline.right, inner.right)


def _numbered(subject: Subject, grid: Grid, views: dict[Place, View]) -> dict[Place, str]:
    """The sheets that carry the numbers of the left and the right lower corner: the outermost with room for them."""
    rooms: dict[Place, float] = {}
    for place, view in views.items():
        inner = _inner(grid, place, view)
        bottom = view.rectangle(subject.outline).bottom - L_THICK_MM
        if bottom - NUMBERS_MM >= view.printable.bottom - 1e-6 and bottom <= inner.top:
            start, end = _lower_edge(subject, inner, view)
            rooms[place] = end - start
    roomy = [place for place, room in rooms.items() if room >= _NUMBERS_LEAST_MM]
    if not roomy and rooms:
        roomy = [max(rooms, key=lambda place: rooms[place])]
    if not roomy:
        return {}
    first, last = min(roomy, key=lambda place: place[1]), max(roomy, key=lambda place: place[1])
    return {first: "both"} if first == last else {first: "left", last: "right"}


class _Sheet:
    """One sheet of the locator in the making."""

    def __init__(self, subject: Subject, grid: Grid, place: Place, view: View) -> None:
        self.subject, self.grid, self.place, self.view = subject, grid, place, view
        self.drawing = Drawing()
        self.entry = entry_on(subject, view, place, (grid.rows, grid.columns))
        self.room = Room(_inner(grid, place, view))
        self.edges: tuple[Line, ...] = ()

    def _label(self, row: int, column: int) -> str:
        return label_of(self.subject.piece.number, row, column)

    def outline(self) -> None:
        """Bands, edges, black corners with their numbers, crosses."""
        drawing, room, view, subject = self.drawing, self.room, self.view, self.subject
        outline = view.rectangle(subject.outline)
        marks = around_marks(self.entry.points, ())
        draw_joins(drawing, view, self.grid, self.place, self._label, [outline, *corner_boxes(outline), *marks])
        take_bands(room, view, self.grid, self.place)
        self.edges = draw_outline(drawing, view, subject.outline, THIN_PT)
        for edge in self.edges:
            room.take(reach(edge).grown(1.4))
        for box in draw_corners(drawing, outline, view.printable):
            room.take(box.grown(1.0))
        draw_marks(drawing, self.entry.points, ())
        for mark in marks:
            room.take(mark)
        for point in self.entry.points:
            self._name_cross(point.page_x, point.page_y)

    def _name_cross(self, x: float, y: float) -> None:
        lines = wrap(printable(say("middle of the strip, only for checking")), 36, 9)
        wide = max(text_width_mm(line, 9) for line in lines)
        for left in (x + 8, x - 8 - wide):
            place = Rectangle(left, y - 4.6 * len(lines) + 3.4, left + wide, y + 4)
            if self.room.is_free(place):
                for index, line in enumerate(lines):
                    self.drawing.text(left, y + 0.6 - index * 4.2, line, 9)
                self.room.take(place.grown(1))
                return

    def numbers(self, which: str) -> None:
        """The numbers of one lower corner or both, in the ring below the outline."""
        start, end = _lower_edge(self.subject, self.room.area, self.view)
        end = min(end, start + _NUMBERS_WIDE_MM) if which == "left" else end
        start = max(start, end - _NUMBERS_WIDE_MM) if which == "right" else start
        top = self.view.rectangle(self.subject.outline).bottom - L_THICK_MM
        draw_numbers(self.drawing, self.subject, start, end, top, which)
        self.room.take(Rectangle(start, top - NUMBERS_MM, end, top))

    def name(self) -> None:
        """Label, map and arrow."""
        subject, grid = self.subject, self.grid
        order = say("sheet {order} of {count}", order=grid.kept.index(self.place) + 1, count=len(grid.kept))
        lines = (subject.piece.name, frame_words(subject), subject.place_name)
        place_label(self.drawing, self.room, self.entry.label, order, lines)
        place_map(self.drawing, self.room, grid, subject.outline, self.place)
        place_arrow(self.drawing, self.room)

    def measure(self) -> float:
        """The ruler, and how far the next sheet is where one is left out."""
        ruler = place_ruler(self.drawing, self.room, self.subject, self.view.scale[0])
        draw_gaps(self.drawing, self.room, self.view, self.grid, self.place, self.subject.figures, self._label)
        return ruler

    def tell(self, ruler: float) -> bool:
        """The steps; False when there is no room for them here."""
        subject = self.subject
        first = join_step(subject.piece.number, self.grid)
        texts = [measure_step(subject, ruler), first, *steps()]
        return place_steps(self.drawing, self.room, Told(texts, (), ()))

    def back(self) -> bool:
        """The back of the frame; False when there is no room for it here."""
        for wide, high in _BACK_MM:
            place = self.room.find(wide, high, clear=4.0)
            if place is not None:
                subject = self.subject
                draw_back(self.drawing, place, subject.hanging, subject.figures, glass=has_glass(subject))
                self.room.take(place)
                return True
        return False

    def page(self) -> Page:
        """The finished sheet."""
        items = without_false_crosses(self.drawing.items, self.entry.points, self.edges)
        bookmark = (self.subject.heading, self.entry.label)
        return Page(self.view.size, tuple(items), self.entry.label, bookmark, self.view.area)
