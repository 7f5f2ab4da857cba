"""The order of work: every piece goes to its place as soon as that is free, and as few as possible are laid aside.

A piece waits for each other piece that still hangs where it goes, or on the nail it takes over. Where
pieces wait for each other in a ring, one of them is laid aside. Each knot of pieces that wait for
each other is solved by trying states (what has moved, what lies aside), best first: no order with
fewer pieces off the wall at once exists, nor, of those, one with fewer laid aside.
"""

import heapq
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from composer.model import Key

Act = Literal["down", "aside", "move", "hang", "up"]
"""``down``: leaves the wall · ``aside``: taken off, comes back · ``move``: straight to its new place ·
``hang``: comes back · ``up``: was not up before."""

LARGEST_KNOT = 10
"""Knots of more pieces are not solved but undone one piece at a time."""


@dataclass(frozen=True, slots=True)
class Work:
    """One act with one piece."""

    act: Act
    piece: Key


def in_order(
    down: Sequence[Key], moving: Sequence[Key], up: Sequence[Key], waits_for: Mapping[Key, frozenset[Key]]
) -> tuple[tuple[Work, ...], int]:
    """The acts one after the other, and how many pieces lie aside at most at once.

    Args:
        down: pieces that leave the wall; they go first.
        moving: pieces that change places.
        up: pieces that come.
        waits_for: which pieces must be gone before a piece can go to its place.
    """
    acts = [Work("down", key) for key in down]
    moving_set = set(moving)
    coming = list(up)
    gone: set[Key] = set(down)
    most = 0
    acts += _arrivals(coming, gone, moving_set, waits_for)
    for knot in _knots(moving, waits_for):
        solved, aside = _solved(knot, waits_for)
        most = max(most, aside)
        for work in solved:
            acts.append(work)
            if work.act in ("move", "aside"):
                gone.add(work.piece)
            acts += _arrivals(coming, gone, moving_set, waits_for)
    acts += [Work("up", key) for key in coming]
    return tuple(acts), most


def _arrivals(
    coming: list[Key], gone: set[Key], moving: set[Key], waits_for: Mapping[Key, frozenset[Key]]
) -> Iterable[Work]:
    """Pieces whose place has become free come now."""
    ready = [key for key in coming if all(other in gone or other not in moving for other in waits_for.get(key, ()))]
    for key in ready:
        coming.remove(key)
    return [Work("up", key) for key in ready]


def _knots(moving: Sequence[Key], waits_for: Mapping[Key, frozenset[Key]]) -> list[list[Key]]:
    """Pieces that wait for each other in rings, each knot after those it waits for (Tarjan's components)."""
    members = set(moving)
    index: dict[Key, int] = {}
    low: dict[Key, int] = {}
    stack: list[Key] = []
    knots: list[list[Key]] = []

    def visit(key: Key) -> None:
        index[key] = low[key] = len(index)
        stack.append(key)
        for other in sorted(waits_for.get(key, frozenset()) & members):
            if other not in index:
                visit(other)
                low[key] = min(low[key], low[other])
            elif other in stack:
                low[key] = min(low[key], index[other])
        if low[key] == index[key]:
            knot: list[Key] = []
            while not knot or knot[-1] != key:
                knot.append(stack.pop())
            knots.append(sorted(knot, key=moving.index))

    for key in moving:
        if key not in index:
            visit(key)
    return knots


_State = tuple[frozenset[Key], frozenset[Key]]


def _solved(knot: Sequence[Key], waits_for: Mapping[Key, frozenset[Key]]) -> tuple[list[Work], int]:
    """Acts that bring all pieces of a knot to their places: fewest aside at once, then fewest aside at all."""
    if len(knot) > LARGEST_KNOT:
        return _one_by_one(knot, waits_for)
    members = frozenset(knot)
    needs = {key: waits_for.get(key, frozenset()) & members - {key} for key in knot}
    start: _State = (frozenset(), frozenset())
    queue: list[tuple[int, int, int, _State]] = [(0, 0, 0, start)]
    came: dict[_State, tuple[_State, Work]] = {}
    best: dict[_State, tuple[int, int]] = {start: (0, 0)}
    ticket = 0
    while queue:
        most, total, _, state = heapq.heappop(queue)
        done, aside = state
        if done == members:
            return _traced(state, came), most
        if best[state] < (most, total):
            continue
        for key in knot:
            if key in done:
                continue
            free = needs[key] <= done | aside
            if free:
                after: _State = (done | {key}, aside - {key})
                work = Work("hang" if key in aside else "move", key)
                cost = (most, total)
            elif key not in aside:
                after = (done, aside | {key})
                work = Work("aside", key)
                cost = (max(most, len(aside) + 1), total + 1)
            else:
                continue
            if after not in best or cost < best[after]:
                best[after] = cost
                came[after] = (state, work)
                ticket += 1
                heapq.heappush(queue, (*cost, ticket, after))
    raise AssertionError(knot)


def _traced(state: _State, came: Mapping[_State, tuple[_State, Work]]) -> list[Work]:
    acts = []
    while state in came:
        state, work = came[state]
        acts.append(work)
    return acts[::-1]


def _one_by_one(knot: Sequence[Key], waits_for: Mapping[Key, frozenset[Key]]) -> tuple[list[Work], int]:
    """Whatever can go goes; where nothing can, the piece most others wait for is laid aside."""
    acts: list[Work] = []
    gone: set[Key] = set()
    left, aside, most = list(knot), list[Key](), 0
    while left or aside:
        waiting = {key: (waits_for.get(key, frozenset()) & set(left)) - {key} for key in (*left, *aside)}
        ready = next((key for key in (*aside, *left) if not waiting[key]), None)
        if ready is not None:
            acts.append(Work("hang" if ready in aside else "move", ready))
            (aside if ready in aside else left).remove(ready)
        else:
            ready = max(left, key=lambda key: sum(key in others for others in waiting.values()))
            acts.append(Work("aside", ready))
            left.remove(ready)
            aside.append(ready)
            most = max(most, len(aside))
        gone.add(ready)
    return acts, most
