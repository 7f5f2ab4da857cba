"""Which old holes serve again: solved exactly, and the small shift of all pieces that makes more of them serve.

A piece hangs where its holes are, so an old hole serves again where the piece may hang a little off
its exact place: by at most a tolerance, whatever the direction. A piece on two nails must find both
where it needs them: old pairs serve only where they fit its own spacing.

Every piece has a few options (none, one or both of its holes on old ones); two pieces cannot take the
same hole. The choice of options that reuses most is found by branch and bound in each group of
pieces that compete for holes: no better one exists.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from composer.model import Key

TOLERANCE_MM = 2.0
"""How far off its place a piece may hang to save a hole (what a gap of 50 hides; judgement)."""

PAIR_LEVEL_MM = 1.0
"""Two old nails under one piece may differ from its points by this much in height (1 mm in 300 is 0.2°)."""

PAIR_ACROSS_MM = 2.0
"""And by this much across: rings and wire give way (judgement)."""

_SAME = 1e-9

Point = tuple[float, float]


class Wanted(NamedTuple):
    """A piece that needs holes at these places, wall mm; ``own``: indices of the old holes it hangs on now."""

    piece: Key
    holes: tuple[Point, ...]
    own: tuple[int, ...] = ()


class _Option(NamedTuple):
    """One way of a piece: which old hole each of its holes takes, and how far the piece is shifted by it."""

    taken: tuple[int | None, ...]
    shift: Point
    holes: int
    own: int


@dataclass(frozen=True, slots=True)
class Reuse:
    """The best use of old holes.

    Attributes:
        taken: for each piece, the index of the old hole each of its holes takes; None = a new hole.
        shift: how far each piece hangs off its exact place because of it, mm across and up.
        moved_all: how far all pieces were shifted before, mm across and up.
    """

    taken: Mapping[Key, tuple[int | None, ...]]
    shift: Mapping[Key, Point]
    moved_all: Point = (0.0, 0.0)

    @property
    def count(self) -> int:
        """How many old holes serve again."""
        return sum(hole is not None for holes in self.taken.values() for hole in holes)

    @property
    def used(self) -> frozenset[int]:
        """Indices of the old holes that serve again."""
        return frozenset(hole for holes in self.taken.values() for hole in holes if hole is not None)


def best_reuse(
    wanted: Sequence[Wanted], old: Sequence[Point], tolerance_mm: float = TOLERANCE_MM, moved_all: Point = (0.0, 0.0)
) -> Reuse:
    """As many old holes as possible; of equal ways the one that leaves most pieces on their own, then shifts least.

    Args:
        wanted: pieces with the holes they need.
        old: holes that are there.
        tolerance_mm: how far off its place a piece may hang.
        moved_all: a shift of every piece, done before.
    """
    moved = [
        Wanted(one.piece, tuple((x + moved_all[0], y + moved_all[1]) for x, y in one.holes), one.own) for one in wanted
    ]
    options = {one.piece: _options(one, old, tolerance_mm) for one in moved}
    taken: dict[Key, tuple[int | None, ...]] = {one.piece: (None,) * len(one.holes) for one in moved}
    shift: dict[Key, Point] = dict.fromkeys(options, (0.0, 0.0))
    for group in _competing(options):
        for key, option in zip(group, _best_of([options[key] for key in group]), strict=True):
            if option is not None:
                taken[key], shift[key] = option.taken, option.shift
    return Reuse(taken, shift, moved_all)


def _options(one: Wanted, old: Sequence[Point], tolerance: float) -> list[_Option]:
    reach = tolerance + PAIR_ACROSS_MM
    near = [
        [(index, (spot[0] - x, spot[1] - y)) for index, spot in enumerate(old) if math.dist(spot, (x, y)) <= reach]
        for x, y in one.holes
    ]
    found = []
    for place, candidates in enumerate(near):
        for index, off in candidates:
            if math.hypot(*off) <= tolerance + _SAME:
                taken = tuple(index if at == place else None for at in range(len(one.holes)))
                found.append(_Option(taken, off, 1, int(index in one.own)))
    if len(one.holes) == 2:
        found += _pairs(near, one, tolerance)
    return found


def _pairs(near: Sequence[Sequence[tuple[int, Point]]], one: Wanted, tolerance: float) -> Iterable[_Option]:
    for first, off in near[0]:
        for second, other in near[1]:
            if first == second:
                continue
            if abs(off[0] - other[0]) > PAIR_ACROSS_MM + _SAME or abs(off[1] - other[1]) > PAIR_LEVEL_MM + _SAME:
                continue
            middle = ((off[0] + other[0]) / 2, (off[1] + other[1]) / 2)
            if math.hypot(*middle) <= tolerance + _SAME:
                own = (first in one.own) + (second in one.own)
                yield _Option((first, second), middle, 2, own)


def _competing(options: Mapping[Key, Sequence[_Option]]) -> list[list[Key]]:
    """Pieces in groups that share no old hole with another group."""
    holes = {
        key: {hole for option in listed for hole in option.taken if hole is not None} for key, listed in options.items()
    }
    groups: list[tuple[list[Key], set[int]]] = []
    for key, mine in holes.items():
        if not mine:
            continue
        joined, keys = set(mine), [key]
        apart = []
        for group, theirs in groups:
            if theirs & mine:
                keys, joined = group + keys, joined | theirs
            else:
                apart.append((group, theirs))
        groups = [*apart, (keys, joined)]
    return [keys for keys, _ in groups]


_Score = tuple[int, int, float]


def _best_of(group: Sequence[Sequence[_Option]]) -> list[_Option | None]:
    """One option (or none) a piece, no hole twice: most holes, then most own ones, then least shifted."""
    order = sorted(range(len(group)), key=lambda place: len(group[place]))
    listed = [sorted(group[place], key=lambda option: (-option.holes, -option.own)) for place in order]
    most = [max((option.holes for option in options), default=0) for options in listed]
    beyond = [sum(most[place:]) for place in range(len(most) + 1)]
    best: tuple[_Score, list[_Option | None]] = ((-1, 0, 0.0), [])
    chosen: list[_Option | None] = []

    def go_on(place: int, used: frozenset[int], count: int, own: int, off: float) -> None:
        nonlocal best
        if count + beyond[place] < best[0][0]:
            return
        if place == len(listed):
            score = (count, own, -round(off, 9))
            if score > best[0]:
                best = (score, list(chosen))
            return
        for option in listed[place]:
            holes = frozenset(hole for hole in option.taken if hole is not None)
            if holes & used:
                continue
            chosen.append(option)
            go_on(place + 1, used | holes, count + option.holes, own + option.own, off + math.hypot(*option.shift))
            chosen.pop()
        chosen.append(None)
        go_on(place + 1, used, count, own, off)
        chosen.pop()

    go_on(0, frozenset(), 0, 0, 0.0)
    answer: list[_Option | None] = [None] * len(group)
    for place, option in zip(order, best[1], strict=True):
        answer[place] = option
    return answer
