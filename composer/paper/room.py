"""Finding a free place on a page, so that no block of text crosses a line or another text."""

import itertools

from composer.geometry.outline import runs_through
from composer.geometry.rectangle import Rectangle
from composer.paper.primitives import Box, Circle, Item, Line, Polygon, Text
from composer.paper.type_metrics import text_box

NEAR_MM = 1e-6


class Room:
    """The rectangle text may stand in, and what is taken of it."""

    def __init__(self, area: Rectangle) -> None:
        self.area = area
        self.taken: list[Rectangle] = []

    def take(self, area: Rectangle) -> None:
        """Nothing else may stand there."""
        self.taken.append(area)

    def is_free(self, place: Rectangle, clear: float = 0.0) -> bool:
        """Whether the place lies in the area and nothing else on it or nearer than ``clear``."""
        area = self.area
        if place.left < area.left - NEAR_MM or place.right > area.right + NEAR_MM:
            return False
        if place.bottom < area.bottom - NEAR_MM or place.top > area.top + NEAR_MM:
            return False
        around = place.grown(clear)
        return not any(around.meets(other) for other in self.taken)

    def find(self, width: float, height: float, *, low: bool = False, clear: float = 0.0) -> Rectangle | None:
        """The topmost (or lowest), then leftmost free place of that size; None when there is none."""
        area, taken = self.area, [other.grown(clear) for other in self.taken] if clear else self.taken
        if width > area.width + NEAR_MM or height > area.height + NEAR_MM:
            return None
        tops = {area.top, area.bottom + height, *(other.bottom for other in taken)}
        tops.update(other.top + height for other in taken)
        for top in sorted(tops, reverse=not low):
            bottom = top - height
            if bottom < area.bottom - NEAR_MM or top > area.top + NEAR_MM:
                continue
            # Sweep from the left over what stands at this height, to the first gap that is wide enough.
            left = area.left
            for start, end in sorted(
                (o.left, o.right) for o in taken if o.bottom < top - NEAR_MM and o.top > bottom + NEAR_MM
            ):
                if start >= left + width - NEAR_MM:
                    break
                left = max(left, end)
            if left + width <= area.right + NEAR_MM:
                return Rectangle(left, bottom, left + width, top)
        return None

    def find_right(self, width: float, height: float, *, clear: float = 0.0) -> Rectangle | None:
        """The topmost, then rightmost free place of that size; None when there is none."""
        mirrored = Room(_mirrored(self.area))
        mirrored.taken = [_mirrored(other) for other in self.taken]
        place = mirrored.find(width, height, clear=clear)
        return None if place is None else _mirrored(place)


def _mirrored(area: Rectangle) -> Rectangle:
    return Rectangle(-area.right, area.bottom, -area.left, area.top)


def reach(item: Item) -> Rectangle:
    """The rectangle an item's ink lies in, line widths not counted."""
    if isinstance(item, Text):
        return Rectangle(*text_box(item))
    if isinstance(item, Line):
        return Rectangle(min(item.x1, item.x2), min(item.y1, item.y2), max(item.x1, item.x2), max(item.y1, item.y2))
    if isinstance(item, Box):
        return Rectangle(item.left, item.bottom, item.left + item.width, item.bottom + item.height)
    if isinstance(item, Circle):
        return Rectangle(item.x - item.radius, item.y - item.radius, item.x + item.radius, item.y + item.radius)
    assert isinstance(item, Polygon)
    xs, ys = [x for x, _ in item.points], [y for _, y in item.points]
    return Rectangle(min(xs), min(ys), max(xs), max(ys))


def crosses(item: Item, place: Rectangle) -> bool:
    """Whether an item's strokes, its text or its filled shape reach into a place."""
    around = reach(item)
    if isinstance(item, Line):
        return runs_through((item.x1, item.y1), (item.x2, item.y2), place)
    if isinstance(item, Polygon) and item.fill_grey is None:
        corners = [*item.points, item.points[0]] if item.closed else list(item.points)
        return any(runs_through(start, end, place) for start, end in itertools.pairwise(corners))
    if isinstance(item, Box) and item.fill_grey is None:
        return around.meets(place) and not (
            around.holds(place.left, place.bottom) and around.holds(place.right, place.top)
        )
    return around.meets(place)
