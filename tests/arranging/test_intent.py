"""The same arrangement again after a changed gap or size: distance between the two by the definition, from shapely's referee."""

from random import Random

import pytest

from composer.arranging.intent import relations_of, solved_again
from composer.arranging.measures import cheapest_matching, distance
from composer.geometry.rectangle import Rectangle
from tests.arranging import referee
from tests.arranging.test_true_up import exact
from tests.arranging.walls import BIG


def places(count: int, seed: int) -> dict[str, Rectangle]:
    return {f"p{number}": box for number, box in enumerate(exact(count, seed), 1)}


@pytest.mark.parametrize("count", [6, 12, 24, 40])
def test_gap_and_size_may_change_and_the_arrangement_stays(count: int) -> None:
    for seed in range(2):
        old = places(count, seed)
        relations = relations_of(old, 50)
        sizes = {key: (box.width, box.height) for key, box in old.items()}
        wider = solved_again(old, sizes, relations, 52, BIG)
        assert distance(list(old.values()), list(wider.values())) <= 0.01
        assert referee.violations(list(wider.values()), 52, BIG.corners) == []
        assert referee.exact_share(list(wider.values()), 52) >= referee.exact_share(list(old.values()), 50) - 0.03
        key = f"p{count // 2}"
        sizes[key] = (sizes[key][0] + 3, sizes[key][1] + 3)
        grown = solved_again(old, sizes, relations, 50, BIG)
        assert distance(list(old.values()), list(grown.values())) <= 0.01
        assert referee.violations(list(grown.values()), 50, BIG.corners) == []
        assert grown[key].width == pytest.approx(old[key].width + 3)


def test_no_more_relations_than_degrees_of_freedom() -> None:
    # Only differences count: n − 1 along each axis pin everything down.
    for count in (6, 12, 24):
        relations = relations_of(places(count, 1), 50)
        assert len(relations) == 2 * count - 2


def test_fixed_pieces_stay_when_the_gap_changes() -> None:
    old = places(12, 1)
    sizes = {key: (box.width, box.height) for key, box in old.items()}
    new = solved_again(old, sizes, relations_of(old, 50), 54, BIG, fixed=frozenset({"p1"}))
    assert new["p1"] == old["p1"]
    assert referee.violations(list(new.values()), 54, BIG.corners) == []


def test_distance_of_a_mirror_image_or_of_twins_changed_over_is_nothing() -> None:
    boxes = list(exact(9, 2))
    mirrored = [Rectangle(-box.right, box.bottom, -box.left, box.top) for box in boxes]
    assert distance(boxes, mirrored) == pytest.approx(0, abs=1e-9)
    twins = [Rectangle.at(0, 0, 300, 400), Rectangle.at(350, 0, 300, 400), Rectangle.at(700, 0, 200, 200)]
    assert distance(twins, [twins[1], twins[0], twins[2]]) == pytest.approx(0, abs=1e-9)
    assert distance(twins, [twins[0], twins[1], twins[2].moved(0, 500)]) > 0.05


def test_the_cheapest_matching_is_the_cheapest_of_all() -> None:
    from itertools import permutations

    dice = Random(5)
    for count in range(1, 7):
        costs = [[dice.random() for _ in range(count)] for _ in range(count)]
        least = min(sum(costs[row][order[row]] for row in range(count)) for order in permutations(range(count)))
        assert cheapest_matching(costs) == pytest.approx(least)
