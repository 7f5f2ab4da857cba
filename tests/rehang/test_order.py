"""The order of work against trying every order."""

import itertools
import random
from collections.abc import Mapping

import pytest

from composer.rehang.order import Work, in_order


def played(acts: tuple[Work, ...], waits: Mapping[str, frozenset[str]], moving: set[str]) -> tuple[int, int]:
    """Plays the acts and checks every rule; gives how many lay aside at once and in all."""
    on_the_way = set(moving)  # still where they hung before
    aside: set[str] = set()
    arrived: set[str] = set()
    most = total = 0
    for work in acts:
        if work.act == "aside":
            on_the_way.remove(work.piece)
            aside.add(work.piece)
            total += 1
        elif work.act in ("move", "hang", "up"):
            assert not (waits.get(work.piece, frozenset()) - {work.piece}) & on_the_way, work
            on_the_way.discard(work.piece)
            assert (work.piece in aside) == (work.act == "hang")
            aside.discard(work.piece)
            arrived.add(work.piece)
        most = max(most, len(aside))
    assert not aside
    assert moving <= arrived
    return most, total


def fewest_aside(moving: list[str], waits: Mapping[str, frozenset[str]]) -> tuple[int, int]:
    """By trying every order of arrival: whoever is in the way of the next one is laid aside then."""
    best = (99, 99)
    for order in itertools.permutations(moving):
        there, aside, most, total = set(moving), set[str](), 0, 0
        for key in order:
            for other in sorted(waits.get(key, frozenset()) & there - {key}):
                there.discard(other)
                aside.add(other)
                total += 1
            most = max(most, len(aside - {key}) + (key in aside))
            there.discard(key)
            aside.discard(key)
        best = min(best, (most, total))
    return best


@pytest.mark.parametrize("seed", range(40))
def test_no_order_has_fewer_pieces_off_the_wall(seed: int) -> None:
    luck = random.Random(seed)
    moving = [f"p{n}" for n in range(1, luck.randint(2, 6) + 1)]
    waits = {key: frozenset(other for other in moving if other != key and luck.random() < 0.35) for key in moving}
    acts, most = in_order([], moving, [], waits)
    assert played(acts, waits, set(moving)) == fewest_aside(moving, waits)
    assert most == fewest_aside(moving, waits)[0]


def test_two_that_swap_lay_one_aside() -> None:
    acts, most = in_order([], ["p1", "p2"], [], {"p1": frozenset({"p2"}), "p2": frozenset({"p1"})})
    assert [(work.act, work.piece) for work in acts] == [("aside", "p1"), ("move", "p2"), ("hang", "p1")]
    assert most == 1


def test_who_leaves_goes_first_and_who_comes_waits_for_the_place() -> None:
    """p3 goes where p1 hangs, p1 goes where p2 hangs, p2 leaves: down 2, move 1, up 3."""
    waits = {"p1": frozenset({"p2"}), "p3": frozenset({"p1"})}
    acts, most = in_order(["p2"], ["p1"], ["p3"], waits)
    assert [(work.act, work.piece) for work in acts] == [("down", "p2"), ("move", "p1"), ("up", "p3")]
    assert most == 0


def test_a_large_knot_is_undone_all_the_same() -> None:
    """Fourteen pieces that each wait for the next one round a ring: one laid aside is enough."""
    moving = [f"p{n}" for n in range(1, 15)]
    waits = {key: frozenset({moving[(n + 1) % 14]}) for n, key in enumerate(moving)}
    acts, most = in_order([], moving, [], waits)
    assert played(acts, waits, set(moving)) == (1, 1)
    assert most == 1
