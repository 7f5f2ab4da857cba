"""Reuse of holes against trying every possibility, with the rule written anew from its definition."""

import itertools
import math
import random
from collections.abc import Iterator, Sequence

import pytest

from composer.rehang.reuse import Point, Wanted, best_reuse
from composer.rehang.shift import best_shift

TOLERANCE = 2.0


def possible(one: Wanted, taken: Sequence[int | None], old: Sequence[Point]) -> bool:
    """By definition: the piece shifted as a whole meets each old hole it takes.

    One hole: the shift is the way to it, at most the tolerance. Two: they must agree to 2 mm across
    and 1 mm in height, and the middle of both ways is at most the tolerance.
    """
    ways = [
        (old[index][0] - x, old[index][1] - y)
        for index, (x, y) in zip(taken, one.holes, strict=True)
        if index is not None
    ]
    if not ways:
        return True
    if len(ways) == 2 and (abs(ways[0][0] - ways[1][0]) > 2 + 1e-9 or abs(ways[0][1] - ways[1][1]) > 1 + 1e-9):
        return False
    mean = (sum(x for x, _ in ways) / len(ways), sum(y for _, y in ways) / len(ways))
    return math.hypot(*mean) <= TOLERANCE + 1e-9


def every_way(one: Wanted, old: Sequence[Point]) -> Iterator[tuple[int | None, ...]]:
    """All ways to give old holes to a piece."""
    for taken in itertools.product([None, *range(len(old))], repeat=len(one.holes)):
        used = [index for index in taken if index is not None]
        if len(set(used)) == len(used) and possible(one, taken, old):
            yield taken


def exhaustive(wanted: Sequence[Wanted], old: Sequence[Point]) -> int:
    """The most old holes that can serve, by trying all of them; no bound, no grouping."""
    ways = [list(every_way(one, old)) for one in wanted]

    def most(place: int, used: frozenset[int]) -> int:
        if place == len(wanted):
            return 0
        best = 0
        for taken in ways[place]:
            holes = frozenset(index for index in taken if index is not None)
            if not holes & used:
                best = max(best, len(holes) + most(place + 1, used | holes))
        return best

    return most(0, frozenset())


def random_rehang(seed: int) -> tuple[list[Wanted], list[Point]]:
    """Up to eight pieces with one or two holes; old holes near them, so close that they compete."""
    luck = random.Random(seed)
    old: list[Point] = []
    wanted = []
    for number in range(luck.randint(2, 8)):
        x, y = luck.uniform(0, 18), luck.uniform(0, 2)
        spread = luck.choice([6.0, 8.0, 10.0])
        holes = ((x, y),) if luck.random() < 0.5 else ((x, y), (x + spread, y))
        wanted.append(Wanted(f"p{number + 1}", holes))
        for hole in holes:
            if luck.random() < 0.8:
                old.append((hole[0] + luck.uniform(-2.5, 2.5), hole[1] + luck.uniform(-2, 2)))
    return wanted, old


@pytest.mark.parametrize("seed", range(30))
def test_thirty_random_rehangs_reuse_as_many_holes_as_trying_all_of_them(seed: int) -> None:
    wanted, old = random_rehang(seed)
    found = best_reuse(wanted, old, TOLERANCE)
    assert found.count == exhaustive(wanted, old)
    for one in wanted:
        assert possible(one, found.taken[one.piece], old)
    taken = [hole for holes in found.taken.values() for hole in holes if hole is not None]
    assert len(set(taken)) == len(taken)


def test_the_random_rehangs_are_worth_trying() -> None:
    """Some of them must have pieces that compete: taking the nearest free hole piece by piece finds less."""

    def greedy(wanted: Sequence[Wanted], old: Sequence[Point]) -> int:
        used: set[int] = set()
        for one in wanted:
            ways = sorted(every_way(one, old), key=lambda taken: -sum(index is not None for index in taken))
            best = next(taken for taken in ways if not used.intersection(taken))
            used.update(index for index in best if index is not None)
        return len(used)

    rehangs = [random_rehang(seed) for seed in range(30)]
    assert sum(greedy(*one) < exhaustive(*one) for one in rehangs) >= 3


def test_a_shift_of_all_reuses_more() -> None:
    """By hand: three nails stand 5 mm right of where they are needed: none serves, with a shift of 5 all do."""
    wanted = [Wanted(f"p{n}", ((100.0 * n, 1500.0),)) for n in (1, 2, 3)]
    old = [(100.0 * n + 5, 1500.0) for n in (1, 2, 3)]
    assert best_reuse(wanted, old).count == 0
    found = best_shift(wanted, old)
    assert found.count == 3
    assert found.moved_all == (5.0, 0.0)


def test_no_shift_is_offered_that_does_not_help() -> None:
    wanted = [Wanted("p1", ((100.0, 1500.0),)), Wanted("p2", ((300.0, 1500.0),))]
    found = best_shift(wanted, [(101.0, 1500.0), (500.0, 1500.0)])
    assert (found.count, found.moved_all) == (1, (0.0, 0.0))
    assert best_shift(wanted, [(100.0, 1520.0), (300.0, 1520.0)]).count == 0, "20 mm is another arrangement"


@pytest.mark.parametrize("seed", range(12))
def test_no_shift_on_a_fine_grid_is_better(seed: int) -> None:
    """Every shift in steps of half a millimetre, up to 6 mm: none reuses more than the one found."""
    luck = random.Random(100 + seed)
    wanted = [Wanted(f"p{n}", ((luck.uniform(0, 3000), luck.uniform(1200, 1800)),)) for n in range(1, 7)]
    drift = (luck.uniform(-4, 4), luck.uniform(-3, 3))
    old = [
        (x + drift[0] + luck.uniform(-2, 2), y + drift[1] + luck.uniform(-2, 2)) for one in wanted for x, y in one.holes
    ]
    found = best_shift(wanted, old, TOLERANCE, 6.0)
    steps = [n / 2 for n in range(-12, 13)]
    grid = [(x, y) for x in steps for y in steps if math.hypot(x, y) <= 6]
    assert found.count >= max(best_reuse(wanted, old, TOLERANCE, shift).count for shift in grid)
    assert math.hypot(*found.moved_all) <= 6 + 1e-6
    assert found.count == best_reuse(wanted, old, TOLERANCE, found.moved_all).count


def test_a_piece_stays_on_its_own_nail_where_that_costs_nothing() -> None:
    old = [(100.0, 1500.0), (101.5, 1500.0)]
    wanted = [Wanted("p1", ((101.0, 1500.0),), own=(0,)), Wanted("p2", ((400.0, 1500.0),))]
    found = best_reuse(wanted, old)
    assert found.taken["p1"] == (0,), "hole 1 is nearer, but the piece already hangs on hole 0"


def test_two_nails_that_do_not_fit_the_rings_do_not_serve_both() -> None:
    """Rings 300 apart; nails 310 apart cannot carry both, so one serves and one is new."""
    wanted = [Wanted("p1", ((100.0, 1500.0), (400.0, 1500.0)))]
    assert best_reuse(wanted, [(100.0, 1500.0), (410.0, 1500.0)]).taken["p1"] == (0, None)
    assert best_reuse(wanted, [(100.0, 1500.0), (401.5, 1500.5)]).count == 2
    assert best_reuse(wanted, [(100.0, 1500.0), (400.0, 1501.5)]).count == 1, "1.5 mm out of level is seen"
