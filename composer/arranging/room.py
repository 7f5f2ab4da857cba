"""Where frames may go on a wall: inside its outline and clear of everything kept free.

All is plain Python on a handful of edges and rectangles. What blocks a strip of the wall is asked for
as intervals, so that the places where something just fits come out exactly and need not be searched.
"""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from composer.geometry.outline import contains
from composer.geometry.rectangle import Rectangle

Axis = Literal["x", "y"]
Interval = tuple[float, float]

TOUCHING_MM = 1e-6
"""What reaches less far into something only touches it."""


@dataclass(frozen=True)
class Room:
    """The free part of one wall.

    Attributes:
        corners: the outline, anticlockwise, mm.
        edge_margin: what is kept free along the outline, mm.
        keep_outs: what is kept free on the wall, margins included.
    """

    corners: tuple[tuple[float, float], ...]
    edge_margin: float = 0.0
    keep_outs: tuple[Rectangle, ...] = ()

    @cached_property
    def bounds(self) -> Rectangle:
        """The box around what is free, mm."""
        xs, ys = [x for x, _ in self.corners], [y for _, y in self.corners]
        box = Rectangle(min(xs), min(ys), max(xs), max(ys))
        margin = min(self.edge_margin, box.width / 2, box.height / 2)
        return box.grown(-margin)

    @cached_property
    def _is_box(self) -> bool:
        return len(self.corners) == 4 and all(
            x in (self.corners[0][0], self.corners[2][0]) and y in (self.corners[0][1], self.corners[2][1])
            for x, y in self.corners
        )

    @cached_property
    def _edges(self) -> tuple[tuple[float, float, float, float], ...]:
        return tuple((*start, *end) for start, end in zip(self.corners, self._shifted, strict=True))

    @property
    def _shifted(self) -> tuple[tuple[float, float], ...]:
        return (*self.corners[1:], self.corners[0])

    def free(self, left: float, bottom: float, right: float, top: float) -> bool:
        """Whether a frame may hang there as far as the wall and the things on it are concerned."""
        bounds = self.bounds
        if (
            left < bounds.left - TOUCHING_MM
            or bottom < bounds.bottom - TOUCHING_MM
            or right > bounds.right + TOUCHING_MM
            or top > bounds.top + TOUCHING_MM
        ):
            return False
        for out in self.keep_outs:
            if (
                left < out.right - TOUCHING_MM
                and out.left < right - TOUCHING_MM
                and bottom < out.top - TOUCHING_MM
                and out.bottom < top - TOUCHING_MM
            ):
                return False
        if self._is_box:
            return True
        return contains(self.corners, Rectangle(left, bottom, right, top).grown(self.edge_margin))

    def blocked(self, axis: Axis, low: float, high: float, size: float) -> list[Interval]:
        """What blocks a frame that lies between ``low`` and ``high`` on the other axis.

        Args:
            axis: the direction in which the frame is moved.
            low, high: its extent on the other axis, mm.
            size: its extent along ``axis``, mm.

        Returns:
            Open intervals of its low edge; the outline's outside counts as blocked by its edges only.
        """
        bounds = self.bounds
        ends = (bounds.bottom, bounds.top) if axis == "y" else (bounds.left, bounds.right)
        sides = (bounds.left, bounds.right) if axis == "y" else (bounds.bottom, bounds.top)
        if low < sides[0] - TOUCHING_MM or high > sides[1] + TOUCHING_MM:
            return [(float("-inf"), float("inf"))]
        found: list[Interval] = [(float("-inf"), ends[0]), (ends[1] - size, float("inf"))]
        for out in self.keep_outs:
            if axis == "y":
                if low < out.right - TOUCHING_MM and out.left < high - TOUCHING_MM:
                    found.append((out.bottom - size, out.top))
            elif low < out.top - TOUCHING_MM and out.bottom < high - TOUCHING_MM:
                found.append((out.left - size, out.right))
        if not self._is_box:
            margin = self.edge_margin
            for edge in self._edges:
                span = _within(edge, axis, low - margin + TOUCHING_MM, high + margin - TOUCHING_MM)
                if span is not None:
                    found.append((span[0] - size - margin, span[1] + margin))
        return found


def _within(edge: tuple[float, float, float, float], axis: Axis, low: float, high: float) -> Interval | None:
    """The part along ``axis`` of an edge where it passes between ``low`` and ``high`` on the other axis."""
    x1, y1, x2, y2 = edge
    if axis == "x":
        x1, y1, x2, y2 = y1, x1, y2, x2
    if x1 > x2:
        x1, y1, x2, y2 = x2, y2, x1, y1
    if x2 <= low or x1 >= high:
        return None
    if x1 == x2:
        return min(y1, y2), max(y1, y2)
    slope = (y2 - y1) / (x2 - x1)
    start = y1 if x1 >= low else y1 + slope * (low - x1)
    end = y2 if x2 <= high else y1 + slope * (high - x1)
    return min(start, end), max(start, end)


def free_intervals(blocked: Iterable[Interval], low: float, high: float) -> list[Interval]:
    """What is left of ``low`` to ``high``, ends included, when open intervals are taken away."""
    left: list[Interval] = []
    at = low
    for start, end in sorted(blocked):
        if start > high:
            break
        if start >= at - TOUCHING_MM:
            left.append((at, max(at, start)))
        if end > at:
            at = end
            if at > high:
                return left
    left.append((at, high))
    return left


def nearest_shift(
    room: Room,
    boxes: Sequence[Rectangle],
    still: Sequence[Rectangle],
    gap: float,
    *,
    across: float = 0.0,
    up: float = 0.0,
    steps: int = 24,
) -> tuple[float, float] | None:
    """How far a group is to be moved as one so that all of it is free: nearest to (``across``, ``up``).

    A millimetre up or down counts as two to the side, as heights are what the eye compares.

    Args:
        room: the wall.
        boxes: the group where it is now.
        still: frames that stay, a gap away from which the group must keep.
        gap: that gap, mm.
        across, up: the move wished for, mm.
        steps: how many moves to the side are tried each way, beside those that just pass something.
    """
    if shift_is_free(room, boxes, still, gap, across, up):
        return across, up
    bounds = room.bounds
    lowest, highest = bounds.left - min(box.left for box in boxes), bounds.right - max(box.right for box in boxes)
    floor, ceiling = bounds.bottom - min(box.bottom for box in boxes), bounds.top - max(box.top for box in boxes)
    if lowest > highest + TOUCHING_MM or floor > ceiling + TOUCHING_MM:
        return None
    tries = {min(max(across, lowest), highest), lowest, highest}
    tries.update(lowest + (highest - lowest) * step / (2 * steps) for step in range(1, 2 * steps))
    for box in boxes:
        for out in room.keep_outs:
            tries.update((out.right - box.left, out.left - box.right))
        for other in still:
            tries.update((other.right + gap - box.left, other.left - gap - box.right))
    best: tuple[float, float, float] | None = None
    for dx in sorted((x for x in tries if lowest <= x <= highest), key=lambda x: (round(abs(x - across), 6), x)):
        if best is not None and abs(dx - across) >= best[0]:
            break
        blocked = []
        for box in boxes:
            for start, end in room.blocked("y", box.left + dx, box.right + dx, box.height):
                blocked.append((start - box.bottom, end - box.bottom))
            for other in still:
                if box.left + dx < other.right + gap - TOUCHING_MM and other.left - gap < box.right + dx - TOUCHING_MM:
                    blocked.append((other.bottom - gap - box.top, other.top + gap - box.bottom))
        for start, end in free_intervals(blocked, floor, ceiling):
            dy = min(max(up, start), end)
            cost = round(abs(dx - across) + 2 * abs(dy - up), 6)
            if (best is None or cost < best[0]) and shift_is_free(room, boxes, still, gap, dx, dy):
                best = (cost, dx, dy)
    return None if best is None else (best[1], best[2])


def shift_is_free(
    room: Room, boxes: Sequence[Rectangle], still: Sequence[Rectangle], gap: float, dx: float, dy: float
) -> bool:
    """Whether the group moved by (dx, dy) mm hangs free of the wall's things and of what stays."""
    for box in boxes:
        left, bottom, right, top = box.left + dx, box.bottom + dy, box.right + dx, box.top + dy
        if not room.free(left, bottom, right, top):
            return False
        for other in still:
            if not apart((left, bottom, right, top), other, gap):
                return False
    return True


def apart(one: Sequence[float], other: Sequence[float], gap: float) -> bool:
    """Whether two rectangles (left, bottom, right, top) keep a gap in one direction at least."""
    least = gap - TOUCHING_MM
    return (
        other[0] - one[2] >= least
        or one[0] - other[2] >= least
        or other[1] - one[3] >= least
        or one[1] - other[3] >= least
    )


def near_values(values: Sequence[float], low: float, high: float) -> Sequence[float]:
    """The part of a sorted sequence between ``low`` and ``high``."""
    first = bisect_left(values, low)
    last = bisect_left(values, high, lo=first)
    return values[first:last]


def kept_apart(boxes: Sequence[Rectangle], gap: float) -> bool:
    """Whether every two frames keep the gap in one direction."""
    return all(apart(one, other, gap) for place, one in enumerate(boxes) for other in boxes[:place])
