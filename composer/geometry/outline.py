"""The wall's outline: a simple polygon, anticlockwise, in millimetres.

Whether a frame lies within it is asked while a piece is dragged, so that test is plain Python on
the polygon's edges. Areas are rare and left to shapely, imported when first asked for.
"""

from collections.abc import Iterable, Sequence

from composer.geometry.rectangle import Rectangle

Corners = Sequence[tuple[float, float]]

TOUCHING_MM = 1e-6
"""Two coordinates nearer than this are the same place."""


def signed_area_mm2(corners: Corners) -> float:
    """Area in mm², positive when the corners run anticlockwise (the shoelace formula)."""
    total = 0.0
    for (x1, y1), (x2, y2) in _edges(corners):
        total += x1 * y2 - x2 * y1
    return total / 2


def is_simple(corners: Corners) -> bool:
    """Whether no two edges cross or touch, but for neighbours in their common corner."""
    edges = list(_edges(corners))
    count = len(edges)
    for first in range(count):
        if edges[first][0] == edges[first][1]:
            return False
        for second in range(first + 1, count):
            if second == first + 1 or (first == 0 and second == count - 1):
                if _folds_back(edges[first], edges[second]):
                    return False
            elif _meet(edges[first], edges[second]):
                return False
    return True


def contains(corners: Corners, rectangle: Rectangle) -> bool:
    """Whether the whole rectangle lies inside the outline; touching an edge is inside.

    True exactly when no edge of the outline runs through the rectangle's inside and the
    rectangle's middle is inside, which holds for outlines with notches too.
    """
    if rectangle.width < 3 * TOUCHING_MM or rectangle.height < 3 * TOUCHING_MM:
        return all(
            _inside_or_on(corners, x, y)
            for x in (rectangle.left, rectangle.right)
            for y in (rectangle.bottom, rectangle.top)
        )
    core = rectangle.grown(-TOUCHING_MM)
    if any(runs_through(start, end, core) for start, end in _edges(corners)):
        return False
    return _inside(corners, *rectangle.centre)


def overhang_mm(corners: Corners, rectangle: Rectangle) -> float:
    """How far the rectangle's farthest point outside the outline is from it, mm; 0 when it is inside."""
    if contains(corners, rectangle):
        return 0.0
    from shapely import Polygon, hausdorff_distance

    wall = Polygon(corners)
    outside = Polygon(_rectangle_corners(rectangle)).difference(wall)
    if outside.is_empty:
        return 0.0
    kept = outside.union(wall)
    return float(hausdorff_distance(kept, wall))


def free_area_mm2(corners: Corners, taken: Iterable[Rectangle]) -> float:
    """Area of the outline that none of the rectangles takes, mm²."""
    from shapely import Polygon, union_all

    wall = Polygon(corners)
    blocked = union_all([Polygon(_rectangle_corners(rectangle)) for rectangle in taken])
    return float(wall.difference(blocked).area)


def _rectangle_corners(rectangle: Rectangle) -> list[tuple[float, float]]:
    left, bottom, right, top = rectangle
    return [(left, bottom), (right, bottom), (right, top), (left, top)]


def _edges(corners: Corners) -> Iterable[tuple[tuple[float, float], tuple[float, float]]]:
    return zip(corners, [*corners[1:], corners[0]], strict=True)


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _within_box(a: tuple[float, float], b: tuple[float, float], point: tuple[float, float]) -> bool:
    return min(a[0], b[0]) <= point[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= point[1] <= max(a[1], b[1])


Edge = tuple[tuple[float, float], tuple[float, float]]


def _meet(first: Edge, second: Edge) -> bool:
    (a, b), (c, d) = first, second
    ab_c, ab_d, cd_a, cd_b = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if ((ab_c > 0) != (ab_d > 0)) and ((cd_a > 0) != (cd_b > 0)) and 0.0 not in (ab_c, ab_d, cd_a, cd_b):
        return True
    return (
        (ab_c == 0 and _within_box(a, b, c))
        or (ab_d == 0 and _within_box(a, b, d))
        or (cd_a == 0 and _within_box(c, d, a))
        or (cd_b == 0 and _within_box(c, d, b))
    )


def _folds_back(first: Edge, second: Edge) -> bool:
    """Whether two edges with a common corner lie on each other."""
    shared = set(first) & set(second)
    if len(shared) != 1:
        return True
    corner = shared.pop()
    a = first[0] if first[1] == corner else first[1]
    b = second[0] if second[1] == corner else second[1]
    along = (a[0] - corner[0]) * (b[0] - corner[0]) + (a[1] - corner[1]) * (b[1] - corner[1])
    return _turn(corner, a, b) == 0 and along > 0


def runs_through(start: tuple[float, float], end: tuple[float, float], box: Rectangle) -> bool:
    """Whether the segment passes the open inside of the box (clipping by Liang and Barsky, 1984)."""
    entry, leave = 0.0, 1.0
    dx, dy = end[0] - start[0], end[1] - start[1]
    for step, room in (
        (-dx, start[0] - box.left),
        (dx, box.right - start[0]),
        (-dy, start[1] - box.bottom),
        (dy, box.top - start[1]),
    ):
        if step == 0:
            if room <= 0:
                return False
        elif step < 0:
            entry = max(entry, room / step)
        else:
            leave = min(leave, room / step)
    return entry < leave


def _inside(corners: Corners, x: float, y: float) -> bool:
    inside = False
    for (x1, y1), (x2, y2) in _edges(corners):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            inside = not inside
    return inside


def _inside_or_on(corners: Corners, x: float, y: float) -> bool:
    for start, end in _edges(corners):
        if abs(_turn(start, end, (x, y))) <= TOUCHING_MM * max(
            abs(end[0] - start[0]), abs(end[1] - start[1])
        ) and _within_box(start, end, (x, y)):
            return True
    return _inside(corners, x, y)
