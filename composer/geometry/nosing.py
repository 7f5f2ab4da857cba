"""The line along a stair's nosings, over which heights are taken on a stair."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

Point = tuple[float, float]


def stair_height_mm(nosing: tuple[Point, Point] | None, x: float) -> float:
    """Height of the ground under a place of the wall, mm: the floor, then the nosing line, then the landing.

    The line runs on below its lower point until it meets the floor, and ends at its upper point.
    Without a stair it is 0 everywhere.
    """
    if nosing is None:
        return 0.0
    (x1, y1), (x2, y2) = nosing
    slope = (y2 - y1) / (x2 - x1)
    return min(max(y1 + slope * (x - x1), 0.0), max(y1, y2, 0.0))


def ground_line(nosing: tuple[Point, Point] | None, width: float) -> list[Point]:
    """The same from one end of a wall to the other, as corners of a line, mm."""
    places = {0.0, width}
    if nosing is not None:
        (x1, y1), (x2, y2) = nosing
        slope = (y2 - y1) / (x2 - x1)
        places.add(x1 if y1 > y2 else x2)
        if slope:
            places.add(x1 - y1 / slope)
    return [(x, stair_height_mm(nosing, x)) for x in sorted(places) if 0.0 <= x <= width]


def eye_line_parts(nosing: tuple[Point, Point] | None, size: Point, eye_mm: float) -> list[tuple[Point, Point]]:
    """Where eyes are above the ground of a wall ``size`` wide and high: the parts of that line below its top, mm."""
    width, height = size
    corners = [(x, y + eye_mm) for x, y in ground_line(nosing, width)]
    parts = []
    for (x1, y1), (x2, y2) in itertools.pairwise(corners):
        if y1 > height and y2 > height:
            continue
        top = x1 + (height - y1) * (x2 - x1) / (y2 - y1) if max(y1, y2) > height else 0.0
        start = (top, height) if y1 > height else (x1, y1)
        end = (top, height) if y2 > height else (x2, y2)
        parts.append((start, end))
    return parts


def lower_edge(corners: Sequence[Point]) -> list[Point]:
    """The part of an outline (anticlockwise) along which the wall stands, from its left end to its right one."""
    count = len(corners)
    start = min(range(count), key=lambda place: corners[place])
    highest = max(x for x, _ in corners)
    end = min((y, place) for place, (x, y) in enumerate(corners) if x == highest)[1]
    return [corners[(start + step) % count] for step in range((end - start) % count + 1)]


def upright_span(corners: Sequence[Point], x: float) -> tuple[float, float] | None:
    """Lowest and highest point of an outline straight above each other at ``x``, mm; None beyond its ends."""
    heights = []
    for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], corners[0]], strict=True):
        if min(x1, x2) <= x <= max(x1, x2):
            heights += [y1, y2] if x1 == x2 else [y1 + (y2 - y1) * (x - x1) / (x2 - x1)]
    return (min(heights), max(heights)) if heights else None
