"""One page of full-size paper: from millimetres of the piece to millimetres of the page, marks and clipping."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from composer.geometry.rectangle import Rectangle
from composer.hanging.records import HangingPoint, Hole
from composer.paper.drawing import Drawing
from composer.paper.furniture import hole_ring, point_cross
from composer.paper.page_index import IndexHole, IndexPoint, to_page
from composer.paper.primitives import THIN_PT, Box, Circle, Item, Line, Photo, Polygon
from composer.paper.template_subject import CROSS_HALF_MM, RING_HALF_MM

NEAR_MM = 1e-6
SAME_MIDDLE_MM = 0.5
SHORTENED_MM = 3.0
LONG_MM = 9.9


@dataclass(frozen=True, slots=True)
class View:
    """How a piece lies on a page.

    Attributes:
        origin: point of the piece (in turned coordinates if rotated) on the page's lower left corner.
        scale: paper millimetres drawn for one of the piece, across and up the page.
        rotated: the piece is turned a quarter anticlockwise on the page.
        printable: of the page, mm.
        size: of the page, mm.
    """

    origin: tuple[float, float]
    scale: tuple[float, float]
    printable: Rectangle
    size: tuple[float, float]
    rotated: bool = False

    @property
    def area(self) -> tuple[float, float, float, float]:
        """What can be printed on: left, bottom, right, top of the page, mm."""
        left, bottom, right, top = self.printable
        return left, bottom, right, top

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A point of the piece on the page."""
        return to_page(x, y, self.origin, self.scale, rotated=self.rotated)

    def rectangle(self, area: Rectangle) -> Rectangle:
        """A rectangle of the piece on the page."""
        x1, y1 = self.at(area.left, area.bottom)
        x2, y2 = self.at(area.right, area.top)
        return Rectangle(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))

    def has_room(self, x: float, y: float, half: float) -> bool:
        """Whether a mark about a page point is whole inside the printable rectangle."""
        area = self.printable
        return (
            x - half >= area.left - NEAR_MM
            and x + half <= area.right + NEAR_MM
            and y - half >= area.bottom - NEAR_MM
            and y + half <= area.top + NEAR_MM
        )


def seen_points(view: View, points: Iterable[HangingPoint], dx: float = 0.0, dy: float = 0.0) -> tuple[IndexPoint, ...]:
    """The crosses that are whole on the page; (dx, dy) is added to the piece's coordinates."""
    found = []
    for point in points:
        x, y = view.at(point.x + dx, point.y + dy)
        if view.has_room(x, y, CROSS_HALF_MM):
            found.append(IndexPoint(point.x + dx, point.y + dy, point.what, x, y))
    return tuple(found)


def seen_holes(view: View, holes: Iterable[Hole], dx: float = 0.0, dy: float = 0.0) -> tuple[IndexHole, ...]:
    """The rings that are whole on the page."""
    found = []
    for hole in holes:
        x, y = view.at(hole.x + dx, hole.y + dy)
        if view.has_room(x, y, RING_HALF_MM):
            found.append(IndexHole(hole.x + dx, hole.y + dy, x, y))
    return tuple(found)


def draw_marks(drawing: Drawing, points: Iterable[IndexPoint], holes: Iterable[IndexHole]) -> None:
    """Crosses and rings where the index says."""
    for point in points:
        point_cross(drawing, point.page_x, point.page_y)
    for hole in holes:
        hole_ring(drawing, hole.page_x, hole.page_y)


def around_marks(points: Iterable[IndexPoint], holes: Iterable[IndexHole]) -> list[Rectangle]:
    """Squares on the page that no text may enter, around crosses and rings."""
    squares = [Rectangle(p.page_x, p.page_y, p.page_x, p.page_y).grown(CROSS_HALF_MM + 1) for p in points]
    return squares + [Rectangle(h.page_x, h.page_y, h.page_x, h.page_y).grown(RING_HALF_MM + 1) for h in holes]


def draw_edge(
    drawing: Drawing, view: View, start: tuple[float, float], end: tuple[float, float], width_pt: float = THIN_PT
) -> Line | None:
    """One upright or level edge of the piece, as far as it lies in the printable rectangle; None when it does not."""
    (x1, y1), (x2, y2) = view.at(*start), view.at(*end)
    area = view.printable
    left, right = max(min(x1, x2), area.left), min(max(x1, x2), area.right)
    low, high = max(min(y1, y2), area.bottom), min(max(y1, y2), area.top)
    if left > right + NEAR_MM or low > high + NEAR_MM:
        return None
    edge = Line(left, low, max(left, right), max(low, high), width_pt)
    drawing.add(edge)
    return edge


def draw_outline(drawing: Drawing, view: View, area: Rectangle, top_pt: float = THIN_PT) -> tuple[Line, ...]:
    """The four edges of a rectangle of the piece, each as far as it is on the page: top, bottom, left, right."""
    corners = area.left, area.bottom, area.right, area.top
    left, bottom, right, top = corners
    edges = (
        draw_edge(drawing, view, (left, top), (right, top), top_pt),
        draw_edge(drawing, view, (left, bottom), (right, bottom)),
        draw_edge(drawing, view, (left, bottom), (left, top)),
        draw_edge(drawing, view, (right, bottom), (right, top)),
    )
    return tuple(edge for edge in edges if edge is not None)


def turned(items: Iterable[Item], x: float, y: float) -> list[Item]:
    """Items drawn upright from (0, 0), turned a quarter anticlockwise about it and moved to (x, y).

    Upright text only: text that already runs upwards cannot be turned further.
    """
    result: list[Item] = []
    for item in items:
        if isinstance(item, Line):
            result.append(replace(item, x1=x - item.y1, y1=y + item.x1, x2=x - item.y2, y2=y + item.x2))
        elif isinstance(item, Polygon):
            result.append(replace(item, points=tuple((x - b, y + a) for a, b in item.points)))
        elif isinstance(item, Box):
            result.append(
                replace(
                    item, left=x - item.bottom - item.height, bottom=y + item.left, width=item.height, height=item.width
                )
            )
        elif isinstance(item, Circle):
            result.append(replace(item, x=x - item.y, y=y + item.x))
        else:
            assert not isinstance(item, Photo)  # full-size sheets carry none
            result.append(replace(item, x=x - item.y, y=y + item.x, turn=90))
    return result


def without_false_crosses(items: Sequence[Item], kept: Sequence[IndexPoint], edges: Sequence[Line] = ()) -> list[Item]:
    """The items with chance crosses undone.

    A level and an upright line of 10 mm or more that share their middles read as a hanging point; where
    that happens by chance one of them is made a little shorter. Edges of the piece stay whole.
    """
    result = list(items)
    levels = [i for i, item in enumerate(result) if isinstance(item, Line) and _is_level(item)]
    uprights = [i for i, item in enumerate(result) if isinstance(item, Line) and _is_upright(item)]
    for i in levels:
        for j in uprights:
            first, second = result[i], result[j]
            assert isinstance(first, Line)
            assert isinstance(second, Line)
            mx, my = (first.x1 + first.x2) / 2, (first.y1 + first.y2) / 2
            if (
                abs((second.x1 + second.x2) / 2 - mx) > SAME_MIDDLE_MM
                or abs((second.y1 + second.y2) / 2 - my) > SAME_MIDDLE_MM
            ):
                continue
            if _is_cross(first, second) and any(abs(p.page_x - mx) < 1e-6 and abs(p.page_y - my) < 1e-6 for p in kept):
                continue
            if second not in edges and not _is_twelve(second):
                result[j] = replace(second, y2=second.y2 + (SHORTENED_MM if second.y2 < second.y1 else -SHORTENED_MM))
            elif not _is_twelve(first):
                result[i] = replace(first, x2=first.x2 + (SHORTENED_MM if first.x2 < first.x1 else -SHORTENED_MM))
    return result


def _is_level(line: Line) -> bool:
    return abs(line.y1 - line.y2) < NEAR_MM and abs(line.x1 - line.x2) >= LONG_MM


def _is_upright(line: Line) -> bool:
    return abs(line.x1 - line.x2) < NEAR_MM and abs(line.y1 - line.y2) >= LONG_MM


def _is_twelve(line: Line) -> bool:
    return abs(abs(line.x1 - line.x2) + abs(line.y1 - line.y2) - 2 * CROSS_HALF_MM) < NEAR_MM


def _is_cross(first: Line, second: Line) -> bool:
    return _is_twelve(first) and _is_twelve(second)
