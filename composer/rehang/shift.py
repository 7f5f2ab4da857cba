"""The shift of all pieces together, by a few millimetres, with which most old holes serve again.

A pair of a needed and an old hole serves for every shift within a disc around their distance. How
many serve changes only where circles cross, so it is enough to try the middles of the discs and the
points where two of their circles meet: the best of these is the best of all.
"""

import itertools
import math
from collections.abc import Iterable, Sequence

from composer.rehang.reuse import PAIR_ACROSS_MM, PAIR_LEVEL_MM, TOLERANCE_MM, Point, Reuse, Wanted, best_reuse

MOST_SHIFT_MM = 10.0
"""A shift of the whole group by more is another arrangement (judgement)."""

HANDY_MM = 0.5
"""A shift is rounded to this where as many holes serve."""

_SAME = 1e-7


def best_shift(
    wanted: Sequence[Wanted],
    old: Sequence[Point],
    tolerance_mm: float = TOLERANCE_MM,
    most_mm: float = MOST_SHIFT_MM,
) -> Reuse:
    """The reuse of holes with the best shift of all pieces; with no shift where none is better.

    Of shifts with which as many holes serve, one near the middle of those that do, so that pieces
    hang as little off as can be.
    """
    best = best_reuse(wanted, old, tolerance_mm)
    ceiling = min(sum(len(one.holes) for one in wanted), len(old))
    discs = _discs(wanted, old, tolerance_mm, most_mm)
    for shift in _candidates(discs, tolerance_mm, most_mm):
        if best.count == ceiling:
            break
        if _depth(discs, shift, tolerance_mm) <= best.count:
            continue
        tried = best_reuse(wanted, old, tolerance_mm, shift)
        if tried.count > best.count:
            best = tried
    if best.moved_all == (0.0, 0.0):
        return best
    return _made_handy(best, wanted, old, tolerance_mm, most_mm)


def _discs(wanted: Sequence[Wanted], old: Sequence[Point], tolerance: float, most: float) -> list[tuple[Point, int]]:
    """Middles of the discs of shifts, with how many holes they are good for; none farther off than a shift reaches."""
    found: list[tuple[Point, int]] = []
    for one in wanted:
        offs = [[(spot[0] - x, spot[1] - y) for spot in old] for x, y in one.holes]
        found += [(off, 1) for listed in offs for off in listed]
        if len(one.holes) == 2:
            for off, other in itertools.product(*offs):
                if abs(off[0] - other[0]) <= PAIR_ACROSS_MM + _SAME and abs(off[1] - other[1]) <= PAIR_LEVEL_MM + _SAME:
                    found.append((((off[0] + other[0]) / 2, (off[1] + other[1]) / 2), 2))
    return [(off, count) for off, count in found if math.hypot(*off) <= most + tolerance]


def _depth(discs: Iterable[tuple[Point, int]], shift: Point, tolerance: float) -> int:
    """No more holes than this can serve with a shift."""
    return sum(count for middle, count in discs if math.dist(middle, shift) <= tolerance + _SAME)


def _candidates(discs: Sequence[tuple[Point, int]], radius: float, most: float) -> list[Point]:
    middles = list(dict.fromkeys(middle for middle, _ in discs))
    found: list[Point] = list(middles)
    for one, other in itertools.combinations(middles, 2):
        found += _crossings(one, other, radius, radius)
    for middle in middles:
        found += _crossings((0.0, 0.0), middle, most, radius)
    within = [shift for shift in found if math.hypot(*shift) <= most + _SAME]
    return sorted(within, key=lambda shift: math.hypot(*shift))


def _crossings(one: Point, other: Point, radius: float, other_radius: float) -> list[Point]:
    """Where two circles meet, a hair inside both where they do more than touch."""
    apart = math.dist(one, other)
    if not _SAME < apart <= radius + other_radius + _SAME or apart < abs(radius - other_radius) - _SAME:
        return []
    along = (apart**2 + radius**2 - other_radius**2) / (2 * apart)
    half = math.sqrt(max(0.0, radius**2 - along**2))
    ux, uy = (other[0] - one[0]) / apart, (other[1] - one[1]) / apart
    foot = (one[0] + along * ux, one[1] + along * uy)
    inward = 1 - _SAME if half > 1e-3 else 1.0
    return [
        (foot[0] - side * half * inward * uy, foot[1] + side * half * inward * ux)
        for side in ((1, -1) if half else (1,))
    ]


def _made_handy(best: Reuse, wanted: Sequence[Wanted], old: Sequence[Point], tolerance: float, most: float) -> Reuse:
    """The same count with a shift in the middle of what is good for it, in half millimetres where that does, too."""
    offs = [
        (best.moved_all[0] + best.shift[one.piece][0], best.moved_all[1] + best.shift[one.piece][1])
        for one in wanted
        if any(hole is not None for hole in best.taken[one.piece])
    ]
    middle = _middle_of(offs)
    rounded = (round(middle[0] / HANDY_MM) * HANDY_MM, round(middle[1] / HANDY_MM) * HANDY_MM)
    for shift in (rounded, middle):
        if math.hypot(*shift) <= most + _SAME:
            tried = best_reuse(wanted, old, tolerance, shift)
            if tried.count == best.count:
                return tried
    return best


def _middle_of(points: Sequence[Point]) -> Point:
    """Middle of the smallest circle around the points: it lies within reach of all that one point reaches."""
    if len(points) == 1:
        return points[0]
    best: tuple[float, Point] | None = None
    for one, other in itertools.combinations(points, 2):
        middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
        best = _smaller(best, middle, points)
    for three in itertools.combinations(points, 3):
        middle_of_three = _circumcentre(*three)
        if middle_of_three is not None:
            best = _smaller(best, middle_of_three, points)
    assert best is not None
    return best[1]


def _smaller(best: tuple[float, Point] | None, middle: Point, points: Sequence[Point]) -> tuple[float, Point]:
    radius = max(math.dist(middle, point) for point in points)
    return (radius, middle) if best is None or radius < best[0] else best


def _circumcentre(a: Point, b: Point, c: Point) -> Point | None:
    area = 2 * (a[0] * (b[1] - c[1]) + b[0] * (c[1] - a[1]) + c[0] * (a[1] - b[1]))
    if abs(area) < _SAME:
        return None
    squares = [x * x + y * y for x, y in (a, b, c)]
    x = (squares[0] * (b[1] - c[1]) + squares[1] * (c[1] - a[1]) + squares[2] * (a[1] - b[1])) / area
    y = (squares[0] * (c[0] - b[0]) + squares[1] * (a[0] - c[0]) + squares[2] * (b[0] - a[0])) / area
    return x, y
