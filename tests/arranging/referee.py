"""An independent referee: what a layout is, worked out with shapely from the definitions alone."""

from collections.abc import Sequence
from typing import Any

from shapely import LineString, Polygon, box, unary_union

from composer.geometry.rectangle import Rectangle

EXACT_MM = 0.6


def violations(
    boxes: Sequence[Rectangle],
    gap: float,
    corners: Sequence[tuple[float, float]],
    keep_outs: Sequence[Rectangle] = (),
) -> list[str]:
    """Every overlap, gap under ``gap`` − 0.01 mm and frame outside the wall or inside what is kept free."""
    wall = Polygon(corners)
    found = []
    for place, one in enumerate(boxes):
        if not wall.buffer(1e-6, join_style="mitre").contains(box(*one)):
            found.append(f"{place} outside")
        for out in keep_outs:
            if box(*one).intersection(box(*out)).area > 1e-3:
                found.append(f"{place} in the way")
        half = (gap - 0.01) / 2
        for other_place, other in enumerate(boxes[:place]):
            grown, other_grown = one.grown(half), other.grown(half)
            if box(*grown).intersection(box(*other_grown)).area > 0:
                found.append(f"{place} and {other_place} too near")
    return found


def facing(boxes: Sequence[Rectangle]) -> list[tuple[str, int, int, float, float]]:
    """Axis, first, second, gap and visible length of every facing pair (20 mm in line, 20 mm seen)."""
    found = []
    for axis in "xy":
        turned = [one if axis == "x" else Rectangle(one[1], one[0], one[3], one[2]) for one in boxes]
        for i, one in enumerate(turned):
            for j, other in enumerate(turned):
                gap = other.left - one.right
                low, high = max(one.bottom, other.bottom), min(one.top, other.top)
                if i == j or gap < -1e-6 or high - low < 20:
                    continue
                line: Any = LineString([(0, low), (0, high)])
                between = [
                    LineString([(0, third.bottom), (0, third.top)])
                    for k, third in enumerate(turned)
                    if k not in (i, j) and third.left >= one.right - 1e-6 and third.left < other.left - 1e-9
                ]
                seen = line.difference(unary_union(between)).length if between else line.length
                if seen >= 20:
                    found.append((axis, i, j, gap, seen))
    return found


def exact_share(boxes: Sequence[Rectangle], gap: float) -> float:
    """Share of the facing length that lies at exactly the gap."""
    pairs = facing(boxes)
    total = sum(pair[4] for pair in pairs)
    return sum(pair[4] for pair in pairs if abs(pair[3] - gap) <= EXACT_MM) / total if total else 1.0


def uneasy_share(boxes: Sequence[Rectangle], gap: float) -> float:
    """Share of facing pairs with a gap a little over the wanted one, up to 1.6 times."""
    pairs = facing(boxes)
    return sum(1 for pair in pairs if gap + EXACT_MM < pair[3] < 1.6 * gap) / len(pairs) if pairs else 0.0


def near_miss_share(boxes: Sequence[Rectangle], gap: float) -> float:
    """Share of facing pairs within two gaps whose edges along the gap differ by 0.6 to 10 mm."""
    pairs = facing(boxes)
    missed = 0
    for axis, i, j, between, _ in pairs:
        low = 1 if axis == "x" else 0
        offs = [abs(boxes[j][edge] - boxes[i][edge]) for edge in (low, low + 2)]
        missed += between <= 2 * gap and any(EXACT_MM < off < 10 for off in offs)
    return missed / len(pairs) if pairs else 0.0


def exact_parts(boxes: Sequence[Rectangle], gap: float) -> int:
    """Groups not tied to each other by exact gaps."""
    tied = {(i, j) for _, i, j, between, _ in facing(boxes) if abs(between - gap) <= EXACT_MM}
    groups = [{place} for place in range(len(boxes))]
    for i, j in tied:
        one = next(group for group in groups if i in group)
        other = next(group for group in groups if j in group)
        if one is not other:
            one |= other
            groups.remove(other)
    return len(groups)


def rigidity(boxes: Sequence[Rectangle], gap: float) -> float:
    """Share of the 2n − 2 differences of places explained by an exact gap, or by a line shared within two gaps."""
    count = len(boxes)
    left_over = 0
    for axis, low in (("x", 0), ("y", 1)):
        groups = [{place} for place in range(count)]
        ties = [(i, j) for way, i, j, between, _ in facing(boxes) if way == axis and abs(between - gap) <= EXACT_MM]
        for i, one in enumerate(boxes):
            for j, other in enumerate(boxes[:i]):
                near = box(*one.grown(gap + 0.31)).intersects(box(*other.grown(gap + 0.31)))
                lows, highs = one[low] - other[low], one[low + 2] - other[low + 2]
                if near and min(abs(lows), abs(highs), abs(lows + highs) / 2) <= EXACT_MM:
                    ties.append((i, j))
        for i, j in ties:
            one_group = next(group for group in groups if i in group)
            other_group = next(group for group in groups if j in group)
            if one_group is not other_group:
                one_group |= other_group
                groups.remove(other_group)
        left_over += len(groups)
    return (2 * count - left_over) / (2 * count - 2)


def balance(boxes: Sequence[Rectangle]) -> tuple[float, float]:
    """How far the frames' common centroid lies from the middle of the box around them, as shares of its sides."""
    whole: Any = unary_union([box(*one) for one in boxes])
    left, bottom, right, top = whole.bounds
    centre = whole.centroid
    return ((centre.x - (left + right) / 2) / (right - left), (centre.y - (bottom + top) / 2) / (top - bottom))
