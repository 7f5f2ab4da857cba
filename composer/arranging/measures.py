"""Measures of an arrangement that anybody can compute again from the places of the frames.

Facing pair: one frame left of (or below) another, at least 20 mm of their facing sides in line, and at
least 20 mm of that visible, not hidden by a third frame between. Its gap is exact (within 0.6 mm of the
wanted one), uneasy (a little more, up to 1.6 times: it looks like a mistake), loose (up to three times)
or open (white space). Only differences of places matter, so n frames have 2n − 2 degrees of freedom.
"""

import heapq
import math
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from math import fsum
from typing import NamedTuple

from composer.arranging.room import Axis
from composer.arranging.task import box_around
from composer.geometry.rectangle import Rectangle

EXACT_MM = 0.6
"""Half a millimetre, what a pencil and a level reach, and a little for rounding."""
FACING_MM = 20.0
NEAR_MISS_MM = 10.0
UNEASY, LOOSE = 1.6, 3.0


class Facing(NamedTuple):
    """Two frames that face each other.

    ``first`` is left of or below ``second`` (indices); ``gap`` between them and ``length`` of what is
    seen of it, mm.
    """

    axis: Axis
    first: int
    second: int
    gap: float
    length: float


def facing_pairs(boxes: Sequence[Rectangle], most: float = math.inf) -> list[Facing]:
    """Every facing pair with a gap up to ``most`` mm; overlapping frames do not face each other."""
    found: list[Facing] = []
    axes: tuple[tuple[Axis, int, int, int, int], ...] = (("x", 0, 2, 1, 3), ("y", 1, 3, 0, 2))
    for axis, low, high, side_low, side_high in axes:
        order = sorted(range(len(boxes)), key=lambda index: (boxes[index][low], index))
        beyond = _beyond(boxes, order, low, side_low, side_high)
        for i in order:
            one = boxes[i]
            seen = [(one[side_low], one[side_high])]
            # The nearest hide those behind, so they are taken by the distance of their near side.
            for j in beyond(one[high] - 1e-6, seen[0]):
                other = boxes[j]
                gap = other[low] - one[high]
                if gap > most or not seen:
                    break
                length, left = 0.0, []
                for start, end in seen:
                    from_, to = max(start, other[side_low]), min(end, other[side_high])
                    if to <= from_:
                        left.append((start, end))
                        continue
                    length += to - from_
                    if from_ > start:
                        left.append((start, from_))
                    if end > to:
                        left.append((to, end))
                seen = left
                in_line = min(one[side_high], other[side_high]) - max(one[side_low], other[side_low])
                if length >= FACING_MM and in_line >= FACING_MM:
                    found.append(Facing(axis, i, j, gap, length))
    return found


FEW = 48
"""Among so many frames all are looked at; from there on only those of the same bands across."""


def _beyond(
    boxes: Sequence[Rectangle], order: list[int], low: int, side_low: int, side_high: int
) -> Callable[[float, tuple[float, float]], Iterable[int]]:
    """Gives the frames that begin at a place or later and may lie in line with a stretch, the nearest first."""
    lows = [boxes[index][low] for index in order]
    if len(order) <= FEW:
        return lambda start, _stretch: order[bisect_left(lows, start) :]
    sides = sorted(box[side_high] - box[side_low] for box in boxes)
    width = max(1.0, sides[-1] / 4, sides[len(sides) // 2])
    bands: dict[int, list[int]] = {}
    for place, index in enumerate(order):
        box = boxes[index]
        for band in range(math.floor(box[side_low] / width), math.floor(box[side_high] / width) + 1):
            bands.setdefault(band, []).append(place)

    def beyond(start: float, stretch: tuple[float, float]) -> Iterator[int]:
        first = bisect_left(lows, start)
        touched = range(math.floor(stretch[0] / width), math.floor(stretch[1] / width) + 1)
        held = [bands[band] for band in touched if band in bands]
        last = -1
        for place in heapq.merge(*(islice(places, bisect_left(places, first), None) for places in held)):
            if place != last:  # it stands in several bands
                last = place
                yield order[place]

    return beyond


class NearMiss(NamedTuple):
    """Two neighbours whose edges nearly line up: ``off`` is how far the second's edge lies beyond the first's."""

    axis: Axis
    edge: str
    first: int
    second: int
    off: float


def near_misses(boxes: Sequence[Rectangle], pairs: Sequence[Facing], gap: float) -> list[NearMiss]:
    """Edges of facing neighbours, at most two gaps apart, that differ by 0.6 to 10 mm."""
    found = []
    for pair in pairs:
        if pair.gap > 2 * gap:
            continue
        one, other = boxes[pair.first], boxes[pair.second]
        axis: Axis = "y" if pair.axis == "x" else "x"
        low, high = (1, 3) if axis == "y" else (0, 2)
        for edge, index in (("low", low), ("high", high)):
            off = other[index] - one[index]
            if EXACT_MM < abs(off) < NEAR_MISS_MM:
                found.append(NearMiss(axis, edge, pair.first, pair.second, off))
    return found


@dataclass(frozen=True, slots=True)
class Measures:
    """Figures of one arrangement; lengths in mm, the rest are shares.

    Attributes:
        count: frames.
        exact_share, open_share, uneven_share: of the facing length, at exact gaps, across white space, the rest.
        uneasy_share, near_miss_share: of the facing pairs, by count.
        saturation: exact pairs ÷ (2n − 2).
        rigidity: share of the degrees of freedom that an exact gap or a shared line explains.
        parts: groups not tied to each other by exact gaps.
        compactness: grown frames' area ÷ grown box's area.
        hull: the same to the convex hull of the grown frames.
        balance: how far the frames' centroid lies from the box's middle, as shares of width and height.
        big_in_the_middle: area-weighted mean distance from the middle ÷ the plain mean distance.
    """

    count: int
    exact_share: float
    open_share: float
    uneven_share: float
    uneasy_share: float
    near_miss_share: float
    saturation: float
    rigidity: float
    parts: int
    compactness: float
    hull: float
    balance: tuple[float, float]
    big_in_the_middle: float


def measure(boxes: Sequence[Rectangle], gap: float) -> Measures:
    """All figures of one or more frames."""
    count = len(boxes)
    pairs = facing_pairs(boxes)
    total = fsum(pair.length for pair in pairs)
    exact = [pair for pair in pairs if abs(pair.gap - gap) <= EXACT_MM]
    open_length = fsum(pair.length for pair in pairs if pair.gap > LOOSE * gap and pair.gap > gap + EXACT_MM)
    uneasy = [pair for pair in pairs if gap + EXACT_MM < pair.gap < UNEASY * gap]
    misses = {(one.first, one.second) for one in near_misses(boxes, pairs, gap)}
    exact_length = fsum(pair.length for pair in exact)
    degrees = max(1, 2 * count - 2)
    box = box_around(boxes)
    area = fsum(one.width * one.height for one in boxes)
    grown = fsum((one.width + gap) * (one.height + gap) for one in boxes)
    centroid = [fsum(one.width * one.height * one.centre[axis] for one in boxes) / area for axis in (0, 1)]
    return Measures(
        count=count,
        exact_share=exact_length / total if total else 1.0,
        open_share=open_length / total if total else 0.0,
        uneven_share=(total - exact_length - open_length) / total if total else 0.0,
        uneasy_share=len(uneasy) / len(pairs) if pairs else 0.0,
        near_miss_share=len(misses) / len(pairs) if pairs else 0.0,
        saturation=len(exact) / degrees if count > 1 else 1.0,
        rigidity=_rigidity(boxes, exact, gap) if count > 1 else 1.0,
        parts=_parts(count, [(pair.first, pair.second) for pair in exact]),
        compactness=grown / ((box.width + gap) * (box.height + gap)),
        hull=grown / hull_area([one.grown(gap / 2) for one in boxes]),
        balance=((centroid[0] - box.centre[0]) / box.width, (centroid[1] - box.centre[1]) / box.height),
        big_in_the_middle=_big_in_the_middle(boxes, box),
    )


def _rigidity(boxes: Sequence[Rectangle], exact: Sequence[Facing], gap: float) -> float:
    count = len(boxes)
    parts = 0
    for axis in ("x", "y"):
        tied = [(pair.first, pair.second) for pair in exact if pair.axis == axis]
        tied += [(first, second) for first, second in _lined_up(boxes, axis, gap)]
        parts += _parts(count, tied)
    return (2 * count - parts) / (2 * count - 2)


def _lined_up(boxes: Sequence[Rectangle], axis: str, gap: float) -> list[tuple[int, int]]:
    """Pairs at most two gaps apart that share an edge or a centre line."""
    low, high = (0, 2) if axis == "x" else (1, 3)
    found = []
    for i, one in enumerate(boxes):
        for j in range(i + 1, len(boxes)):
            other = boxes[j]
            lows, highs = other[low] - one[low], other[high] - one[high]
            if min(abs(lows), abs(highs), abs(lows + highs) / 2) > EXACT_MM:
                continue
            if max(other[0] - one[2], one[0] - other[2], other[1] - one[3], one[1] - other[3]) <= 2 * gap + EXACT_MM:
                found.append((i, j))
    return found


def _parts(count: int, tied: Sequence[tuple[int, int]]) -> int:
    owner = list(range(count))

    def find(index: int) -> int:
        while owner[index] != index:
            owner[index] = owner[owner[index]]
            index = owner[index]
        return index

    for first, second in tied:
        owner[find(first)] = find(second)
    return sum(1 for index in range(count) if find(index) == index)


def _big_in_the_middle(boxes: Sequence[Rectangle], box: Rectangle) -> float:
    x, y = box.centre
    distances = [
        _away(((one.centre[0] - x) / box.width, (one.centre[1] - y) / box.height), (0.0, 0.0)) for one in boxes
    ]
    plain = fsum(distances) / len(boxes)
    if plain < 1e-9:
        return 1.0
    areas = [one.width * one.height for one in boxes]
    return fsum(area * away for area, away in zip(areas, distances, strict=True)) / fsum(areas) / plain


def hull_area(boxes: Sequence[Rectangle]) -> float:
    """Area of the convex hull of rectangles, mm² (monotone chain, Andrew 1979)."""
    points = sorted({(x, y) for box in boxes for x in (box.left, box.right) for y in (box.bottom, box.top)})

    def chain(ordered: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        kept: list[tuple[float, float]] = []
        for point in ordered:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], point) <= 0:
                kept.pop()
            kept.append(point)
        return kept[:-1]

    hull = chain(points) + chain(points[::-1])
    return abs(fsum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(hull, hull[1:] + hull[:1], strict=True))) / 2


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def distance(one: Sequence[Rectangle], other: Sequence[Rectangle]) -> float:
    """How different two arrangements of the same frames are, as a share of the groups' diagonal.

    The mean distance of each frame's middle from where it is in the other one, both groups centred, the
    better of plain and mirrored; frames of the same size may stand for each other.
    """
    if not one:
        return 0.0
    boxes = (box_around(one), box_around(other))
    diagonal = fsum(_away((box.width, box.height), (0.0, 0.0)) for box in boxes) / 2
    first = _centred(one, boxes[0], 1.0)
    alike: dict[tuple[float, float], list[int]] = {}
    for index, box in enumerate(one):
        alike.setdefault((round(box.width, 3), round(box.height, 3)), []).append(index)
    best = math.inf
    for side in (1.0, -1.0):
        second = _centred(other, boxes[1], side)
        total = 0.0
        for members in alike.values():
            costs = [[_away(first[i], second[j]) for j in members] for i in members]
            total += cheapest_matching(costs)
        best = min(best, total)
    return best / len(one) / diagonal


def _centred(boxes: Sequence[Rectangle], around: Rectangle, side: float) -> list[tuple[float, float]]:
    x, y = around.centre
    return [(side * (box.centre[0] - x), box.centre[1] - y) for box in boxes]


def _away(one: tuple[float, float], other: tuple[float, float]) -> float:
    across, up = one[0] - other[0], one[1] - other[1]
    return math.sqrt(across * across + up * up)


def cheapest_matching(costs: Sequence[Sequence[float]]) -> float:
    """Least sum that pairs every row with its own column (shortest augmenting paths, Kuhn and Munkres)."""
    count = len(costs)
    if count == 1:
        return costs[0][0]
    row_price, column_price = [0.0] * (count + 1), [0.0] * (count + 1)
    row_of = [0] * (count + 1)
    for row in range(1, count + 1):
        row_of[0] = row
        column = 0
        least, came_from, done = [math.inf] * (count + 1), [0] * (count + 1), [False] * (count + 1)
        while row_of[column]:
            done[column] = True
            current, step, following = row_of[column], math.inf, 0
            for j in range(1, count + 1):
                if done[j]:
                    continue
                cost = costs[current - 1][j - 1] - row_price[current] - column_price[j]
                if cost < least[j]:
                    least[j], came_from[j] = cost, column
                if least[j] < step:
                    step, following = least[j], j
            for j in range(count + 1):
                if done[j]:
                    row_price[row_of[j]] += step
                    column_price[j] -= step
                else:
                    least[j] -= step
            column = following
        while column:
            row_of[column] = row_of[came_from[column]]
            column = came_from[column]
    return fsum(costs[row_of[j] - 1][j - 1] for j in range(1, count + 1))


Score = Callable[[Sequence[Rectangle]], float]
"""What a search wants to be high."""
