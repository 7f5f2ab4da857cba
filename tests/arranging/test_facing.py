"""Facing pairs among many frames: groups far from each other have the pairs each has alone."""

import random

import pytest

from composer.arranging.measures import facing_pairs
from composer.geometry.rectangle import Rectangle


def group(dice: random.Random) -> list[Rectangle]:
    sides = [60, 200, 330, 700]
    return [
        Rectangle.at(dice.randrange(0, 1500), dice.randrange(0, 1500), dice.choice(sides), dice.choice(sides))
        for _ in range(14)
    ]


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize("most", [60.0, 300.0])
def test_many_groups_have_the_pairs_of_each(seed: int, most: float) -> None:
    """Superposition: frames 10 m away neither face within 300 mm nor hide anything."""
    dice = random.Random(seed)
    groups = [group(dice) for _ in range(9)]
    boxes: list[Rectangle] = []
    alone: set[tuple[object, ...]] = set()
    for number, frames in enumerate(groups):
        across, up = 10_000.0 * (number % 3), 10_000.0 * (number // 3)
        shift = len(boxes)
        moved = [frame.moved(across, up) for frame in frames]
        alone |= {(p.axis, p.first + shift, p.second + shift, p.gap, p.length) for p in facing_pairs(moved, most)}
        boxes += moved
    found = facing_pairs(boxes, most)
    assert len(found) == len(set(found))
    assert {tuple(pair) for pair in found} == alone


def test_a_chequer_of_frames_faces_its_neighbours_only() -> None:
    # 12 × 12 frames of 200, 50 apart: 11 gaps in each of 12 rows and as many in the columns; all others are hidden.
    boxes = [Rectangle.at(250.0 * (n % 12), 250.0 * (n // 12), 200, 200) for n in range(144)]
    pairs = facing_pairs(boxes)
    assert len(pairs) == 2 * 11 * 12
    assert {(pair.gap, pair.length) for pair in pairs} == {(50.0, 200.0)}
