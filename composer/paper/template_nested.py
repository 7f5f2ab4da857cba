"""Several small pieces full size on one sheet, each to be cut out along its outline."""

from dataclasses import dataclass
from typing import Self

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Drawing
from composer.paper.grid import Grid, hull_of
from composer.paper.nesting import Place
from composer.paper.page_index import IndexEntry, IndexHole, IndexPoint, label_of
from composer.paper.page_run import PageRun
from composer.paper.primitives import THICK_PT, Item, Line, Page, arrow_up, moved
from composer.paper.room import Room
from composer.paper.sheets import Side
from composer.paper.template_blocks import Due, Told, place_stops, place_told
from composer.paper.template_grid import entry_of
from composer.paper.template_parts import place_numbers, place_ruler
from composer.paper.template_subject import CROSS_HALF_MM, RING_HALF_MM, Subject
from composer.paper.template_view import View, draw_marks, seen_holes, seen_points, turned, without_false_crosses
from composer.paper.template_words import frame_words, notes, numbers_table, point_numbers, tile_steps
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import say


@dataclass(frozen=True, slots=True)
class NestedPiece:
    """A piece and how it lies on the shared sheet."""

    subject: Subject
    view: View

    @classmethod
    def at(cls, subject: Subject, place: Place, side: Side, scale: tuple[float, float]) -> Self:
        """The piece with the lower left corner of outline and marks at its place."""
        sx, sy = scale
        x, y = side.printable[0] + place.left, side.printable[1] + place.bottom
        if place.rotated:
            hull = hull_of(subject.outline, subject.marks, (sy, sx))
            # A quarter turn anticlockwise takes (x, y) to (−y, x): the hull's upper edge is now leftmost.
            corner = (-hull.top, hull.left)
        else:
            hull = hull_of(subject.outline, subject.marks, scale)
            corner = (hull.left, hull.bottom)
        origin = (corner[0] - x / sx, corner[1] - y / sy)
        return cls(subject, View(origin, scale, Rectangle(*side.printable), (side.width, side.height), place.rotated))

    @property
    def entry(self) -> IndexEntry:
        """What the index says of it, as if the sheet were page 1."""
        number, hanging = self.subject.piece.number, self.subject.hanging
        points, holes = seen_points(self.view, hanging.points), seen_holes(self.view, hanging.holes)
        return entry_of(self.view, label_of(number, 1, 1), number, (1, 1), (1, 1), points, holes)


def nested_run(pieces: list[NestedPiece], side: Side) -> PageRun:
    """The sheet and one entry a piece."""
    entries = tuple(piece.entry for piece in pieces)
    return PageRun((entries,), lambda: [_nested_page(pieces, entries, side)])


def _nested_page(pieces: list[NestedPiece], entries: tuple[IndexEntry, ...], side: Side) -> Page:
    items: list[Item] = []
    edges: list[Line] = []
    for piece in pieces:
        drawn, outline = _draw_piece(piece)
        items += drawn
        edges += outline
    label = entries[0].label if len(entries) == 1 else "+".join(str(entry.piece) for entry in entries)
    heading = ", ".join(piece.subject.heading for piece in pieces)
    points = [point for entry in entries for point in entry.points]
    clean = without_false_crosses(items, points, edges)
    return Page((side.width, side.height), tuple(clean), label, (heading,), side.printable)


def _draw_piece(piece: NestedPiece) -> tuple[list[Item], list[Line]]:
    """Everything of one piece on the page, and its four edges."""
    subject, view = piece.subject, piece.view
    sx, sy = view.scale
    # Drawn upright with its corner at (0, 0), then turned as a whole: the page's factors change places.
    across, up = (sy, sx) if view.rotated else (sx, sy)
    wide, high = subject.width * across, subject.height * up
    drawing = Drawing()
    edges = [
        Line(0, high, wide, high, THICK_PT),
        Line(0, 0, wide, 0),
        Line(0, 0, 0, high),
        Line(wide, 0, wide, high),
    ]
    drawing.add(*edges)
    points = [IndexPoint(p.x, p.y, p.what, p.x * across, p.y * up) for p in subject.hanging.points]
    holes = [IndexHole(h.x, h.y, h.x * across, h.y * up) for h in subject.hanging.holes]
    draw_marks(drawing, points, holes)
    room = Room(Rectangle(0, 0, wide, high).grown(-2.0))
    for x, y, half in (
        *((p.page_x, p.page_y, CROSS_HALF_MM) for p in points),
        *((h.page_x, h.page_y, RING_HALF_MM) for h in holes),
    ):
        room.take(Rectangle(x, y, x, y).grown(half + 0.8))
    _fill(drawing, room, subject, points, holes, across)
    if view.rotated:
        x, y = view.at(0, 0)
        return turned(drawing.items, x, y), [edge for edge in turned(edges, x, y) if isinstance(edge, Line)]
    x, y = view.at(0, 0)
    placed = list(moved(drawing.items, x, y))
    return placed, [edge for edge in moved(edges, x, y) if isinstance(edge, Line)]


def _fill(
    drawing: Drawing, room: Room, subject: Subject, points: list[IndexPoint], holes: list[IndexHole], factor: float
) -> None:
    for index, point in enumerate(points):
        spot = holes[index] if holes else point
        label = "nail" if holes else say("BEARS HERE, no hole")
        place_numbers(drawing, room, (spot.page_x, spot.page_y), point_numbers(subject, index), label)
    _place_head(drawing, room, subject)
    place_stops(drawing, room, subject.stops)
    ruler = place_ruler(drawing, room, subject, factor)
    grid = Grid(1, 1, 0, 0, subject.width, subject.height, 0, 0, ((1, 1),))
    told = Told(tile_steps(subject, grid, ruler, None), numbers_table(subject), notes(subject))
    place_told(drawing, room, told, Due())


def _place_head(drawing: Drawing, room: Room, subject: Subject) -> None:
    """Number, name, top edge and arrow; as much of it as there is room for."""
    arrow = room.find_right(8, 12)
    if arrow is not None:
        drawing.add(arrow_up((arrow.left + arrow.right) / 2, arrow.bottom + 1, 10, 7))
        room.take(arrow)
    number = str(subject.piece.number)
    title = f"{number}  {subject.piece.name}"
    size_words = frame_words(subject)
    for size, wide in ((16.0, 74.0), (14.0, 50.0), (12.0, 34.0), (10.0, 18.0)):
        whole = min(
            wide, max(text_width_mm(printable(title), size, "bold"), text_width_mm(printable(size_words), 8), 20)
        )
        place = room.find(whole + 0.5, size * 0.3528 + 9.5)
        if place is None:
            continue
        base = place.top - size * 0.3528
        drawing.text(place.left, base, title, size, "bold", within=whole)
        drawing.text(place.left, base - 4.2, size_words, 8, within=whole)
        drawing.text(
            place.left, base - 8.0, say("TOP EDGE is the thick line. THIS SIDE UP."), 8, "semibold", within=whole
        )
        room.take(place.grown(0.5))
        return
    place = room.find(text_width_mm(number, 12, "bold"), 5)
    if place is not None:
        drawing.text(place.left, place.bottom + 0.8, number, 12, "bold")
        room.take(place)
