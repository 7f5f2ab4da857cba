"""Small drawings several to a sheet, and drawings side by side on a roll.

Packing by free rectangles (J. Jylänki, "A Thousand Ways to Pack the Bin", 2010): every way of
choosing a place is tried with every order of the parts, and the best result is kept. How far it can
be from the best possible is known from the areas (:attr:`Nest.least`).
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import ceil

GAP_MM = 5.0
"""Between two drawings on one sheet, so that both can be cut out."""

NEAR_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Part:
    """What is to be placed: its size on paper upright, and a quarter turned, mm."""

    key: int
    size: tuple[float, float]
    turned_size: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part lies: its sheet from 0, its lower left corner from the printable corner, mm."""

    key: int
    sheet: int
    left: float
    bottom: float
    width: float
    height: float
    rotated: bool


@dataclass(frozen=True, slots=True)
class Nest:
    """The result: places, number of sheets, which way up each sheet lies, and the least that could be.

    Attributes:
        least: no arrangement needs fewer: all areas together over the area of a sheet.
        lengths: how far each sheet is filled upwards, mm.
    """

    places: tuple[Place, ...]
    sheets: int
    ways: tuple[int, ...]
    least: int
    lengths: tuple[float, ...]

    @property
    def is_best(self) -> bool:
        """Whether the result is known to be the best possible."""
        return self.sheets == self.least


_Free = tuple[float, float, float, float]
_Rule = Callable[[_Free, float, float], tuple[float, ...]]


def _short_side(free: _Free, width: float, height: float) -> tuple[float, ...]:
    rest = (free[2] - width, free[3] - height)
    return (min(rest), max(rest))


def _area(free: _Free, width: float, height: float) -> tuple[float, ...]:
    return (free[2] * free[3] - width * height, min(free[2] - width, free[3] - height))


def _lowest(free: _Free, width: float, height: float) -> tuple[float, ...]:
    return (free[1] + height, free[0])


def _long_side(free: _Free, width: float, height: float) -> tuple[float, ...]:
    rest = (free[2] - width, free[3] - height)
    return (max(rest), min(rest))


_RULES: tuple[_Rule, ...] = (_short_side, _area, _lowest, _long_side)
_ORDERS: tuple[Callable[[Part], tuple[float, ...]], ...] = (
    lambda part: (-part.size[0] * part.size[1],),
    lambda part: (-max(part.size), -min(part.size)),
    lambda part: (-min(part.size), -max(part.size)),
    lambda part: (-sum(part.size),),
)


def nest(parts: Sequence[Part], ways: Sequence[tuple[float, float]], gap: float = GAP_MM) -> Nest:
    """Places all parts on as few sheets as the rules find.

    Args:
        parts: each fits alone on at least one way up of the sheet.
        ways: printable width and height of the sheet, for each way up.
        gap: between parts, mm; none is needed towards the edge.

    Raises:
        ValueError: a part is larger than every sheet.
    """
    for part in parts:
        if not any(_fits(part, way) for way in ways):
            raise ValueError(part)
    if not parts:
        return Nest((), 0, (), 0, ())
    area = sum(part.size[0] * part.size[1] for part in parts)
    least = max(1, ceil(area / max(width * height for width, height in ways) * (1 - 1e-9)))
    found = (_fill(parts, order, rule, ways, gap) for order in _ORDERS for rule in _RULES)
    places, chosen = min(found, key=lambda result: (len(result[1]), sum(_lengths(result[0], len(result[1])))))
    return Nest(tuple(places), len(chosen), tuple(chosen), least, _lengths(places, len(chosen)))


def _fits(part: Part, way: tuple[float, float]) -> bool:
    return any(w <= way[0] + NEAR_MM and h <= way[1] + NEAR_MM for w, h in (part.size, part.turned_size))


def _lengths(places: Iterable[Place], sheets: int) -> tuple[float, ...]:
    lengths = [0.0] * sheets
    for place in places:
        lengths[place.sheet] = max(lengths[place.sheet], place.bottom + place.height)
    return tuple(lengths)


def _fill(
    parts: Sequence[Part],
    order: Callable[[Part], tuple[float, ...]],
    rule: _Rule,
    ways: Sequence[tuple[float, float]],
    gap: float,
) -> tuple[list[Place], list[int]]:
    left = {part.key: part for part in sorted(parts, key=lambda part: (order(part), part.key))}
    shortest = sorted(parts, key=_short, reverse=True)
    slimmest = sorted(parts, key=_long, reverse=True)
    places: list[Place] = []
    chosen: list[int] = []
    while left:
        while shortest[-1].key not in left:
            shortest.pop()
        while slimmest[-1].key not in left:
            slimmest.pop()
        least = (_short(shortest[-1]) + gap - NEAR_MM, _long(slimmest[-1]) + gap - NEAR_MM)
        tries = [_one_sheet(left.values(), way, rule, gap, len(chosen), least) for way in ways]
        way = max(range(len(ways)), key=lambda i: (sum(p.width * p.height for p in tries[i]), -i))
        places += tries[way]
        for place in tries[way]:
            del left[place.key]
        chosen.append(way)
    return places, chosen


def _short(part: Part) -> float:
    return min(*part.size, *part.turned_size)


def _long(part: Part) -> float:
    return min(max(part.size), max(part.turned_size))


def _one_sheet(
    parts: Iterable[Part],
    way: tuple[float, float],
    rule: _Rule,
    gap: float,
    sheet: int,
    least: tuple[float, float],
) -> list[Place]:
    """What of the parts goes on a sheet; a free place with sides under ``least`` takes none of them."""
    # Parts carry their gap on the right and above; the sheet is that much larger.
    free: list[_Free] = [(0.0, 0.0, way[0] + gap, way[1] + gap)]
    placed = []
    # Free places only become smaller: what did not fit fits no more, and once no part at all can fit, the
    # sheet is full. Else every part would be tried on every sheet.
    refused: set[tuple[tuple[float, float], tuple[float, float]]] = set()
    for part in parts:
        if (part.size, part.turned_size) in refused:
            continue
        best: tuple[tuple[float, ...], _Free, tuple[float, float], bool] | None = None
        for space in free:
            for size, rotated in ((part.size, False), (part.turned_size, True)):
                width, height = size[0] + gap, size[1] + gap
                if width <= space[2] + NEAR_MM and height <= space[3] + NEAR_MM:
                    rank = (*rule(space, width, height), float(rotated))
                    if best is None or rank < best[0]:
                        best = (rank, space, size, rotated)
        if best is None:
            refused.add((part.size, part.turned_size))
            continue
        _, (left, bottom, _, _), size, rotated = best
        placed.append(Place(part.key, sheet, left, bottom, size[0], size[1], rotated))
        free = _without(free, (left, bottom, size[0] + gap, size[1] + gap))
        if not any(min(w, h) >= least[0] and max(w, h) >= least[1] for _, _, w, h in free):
            break
    return placed


def _without(free: list[_Free], taken: _Free) -> list[_Free]:
    left, bottom, width, height = taken
    right, top = left + width, bottom + height
    rest: list[_Free] = []
    for x, y, w, h in free:
        if left >= x + w - NEAR_MM or right <= x + NEAR_MM or bottom >= y + h - NEAR_MM or top <= y + NEAR_MM:
            rest.append((x, y, w, h))
            continue
        if left > x + NEAR_MM:
            rest.append((x, y, left - x, h))
        if right < x + w - NEAR_MM:
            rest.append((right, y, x + w - right, h))
        if bottom > y + NEAR_MM:
            rest.append((x, y, w, bottom - y))
        if top < y + h - NEAR_MM:
            rest.append((x, top, w, y + h - top))
    rest = list(dict.fromkeys(rest))
    return [space for space in rest if not any(other != space and _inside(space, other) for other in rest)]


def _inside(space: _Free, other: _Free) -> bool:
    return (
        space[0] >= other[0]
        and space[1] >= other[1]
        and space[0] + space[2] <= other[0] + other[2]
        and space[1] + space[3] <= other[1] + other[3]
    )
