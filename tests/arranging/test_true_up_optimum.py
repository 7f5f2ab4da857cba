"""Truing up against the best there is: a mixed integer programme's optima, stored.

What a result is worth: twice the worth of every equation that holds in it (a gap 30 and 0.05 per mm of
facing length up to 300, a shared edge 15, a shared centre 10, in mm of movement) less the movement of all
frames. Equations are those that hold within 60 mm on the rough input. The optima were found by CP-SAT of
OR-Tools 9 on a grid of 0.05 mm; for each set the worth of the least movement that only parts the
frames, and the greatest worth there is.
"""

from random import Random

import pytest

from composer.arranging.growth import Shape, grow
from composer.arranging.searching import by_size
from composer.arranging.true_up import Hung, true_up
from composer.geometry.rectangle import Rectangle
from tests.arranging.test_true_up import rough
from tests.arranging.walls import BIG, big

REACH_MM, FACTOR, GAP_MM, HOLDS_MM = 60.0, 2.0, 50.0, 0.01

Equation = tuple[int, int, int, float, float]
"""Axis, first, second, wanted distance of their low edges, worth, mm."""


def rough_set(seed: int) -> list[Rectangle]:
    """Twelve frames of a grown hang, each up to 15 mm off, on a grid of 0.1 mm."""
    task = big(12, seed)
    layout = grow(task, by_size([size.width * size.height for size in task.sizes]), Shape(task.focus))
    assert layout is not None
    return [
        Rectangle.at(round(box.left, 1), round(box.bottom, 1), box.width, box.height) for box in rough(layout, 15, seed)
    ]


def loose_set(seed: int) -> list[Rectangle]:
    """Twelve frames in three rows, laid by hand as it were: gaps from 20 to 95 mm, no exact answer hidden in it."""
    dice = Random(seed)
    boxes: list[Rectangle] = []
    bottom = 1500.0
    for row in range(3):
        left, tallest = 2000.0 + round(60 * dice.random(), 1), 0.0
        for size in big(12, seed).sizes[4 * row : 4 * row + 4]:
            boxes.append(Rectangle.at(left, round(bottom + 40 * dice.random(), 1), size.width, size.height))
            left = round(left + size.width + 20 + 75 * dice.random(), 1)
            tallest = max(tallest, boxes[-1].top)
        bottom = round(tallest + 20 + 40 * dice.random(), 1)
    return boxes


SETS = {"noise": rough_set, "loose": loose_set}


def pairs_of(boxes: list[Rectangle]) -> list[tuple[int, int, int]]:
    """Axis, first, second: along which axis each pair is kept apart, in the order of their middles."""
    found = []
    for j, other in enumerate(boxes):
        for i, one in enumerate(boxes[:j]):
            across = max(other.left - one.right, one.left - other.right)
            up = max(other.bottom - one.top, one.bottom - other.top)
            axis = 0 if across >= up else 1
            found.append((axis, i, j) if one.centre[axis] <= other.centre[axis] else (axis, j, i))
    return found


def equations_of(boxes: list[Rectangle]) -> list[Equation]:
    """Every gap and line that holds within 60 mm."""
    found: list[Equation] = []
    for axis, i, j in pairs_of(boxes):
        one, other = boxes[i], boxes[j]
        side = 1 - axis
        in_line = min(one[side + 2], other[side + 2]) - max(one[side], other[side])
        between = other[axis] - one[axis + 2]
        if in_line >= 20 and abs(between - GAP_MM) <= REACH_MM:
            worth = 30 + 0.05 * min(300.0, in_line)
            found.append((axis, i, j, one[axis + 2] - one[axis] + GAP_MM, FACTOR * worth))
        if between > 2 * GAP_MM + REACH_MM:
            continue
        size, other_size = one[side + 2] - one[side], other[side + 2] - other[side]
        for off, worth in ((0.0, 15.0), (size - other_size, 15.0), ((size - other_size) / 2, 10.0)):
            if abs(other[side] - one[side] - off) <= REACH_MM:
                found.append((side, i, j, off, FACTOR * worth))
    return found


def worth(rough_boxes: list[Rectangle], boxes: list[Rectangle] | tuple[Rectangle, ...]) -> float:
    """What a result is worth, mm."""
    held = sum(
        value
        for axis, i, j, off, value in equations_of(rough_boxes)
        if abs(boxes[j][axis] - boxes[i][axis] - off) <= HOLDS_MM
    )
    moved = sum(
        abs(new.left - old.left) + abs(new.bottom - old.bottom) for new, old in zip(boxes, rough_boxes, strict=True)
    )
    return held - moved


OPTIMA: dict[tuple[str, int], tuple[float, float]] = {
    ("noise", 0): (855.67, 1798.30),
    ("noise", 1): (772.35, 1708.25),
    ("noise", 2): (950.21, 1815.85),
    ("noise", 3): (1046.38, 1707.55),
    ("loose", 0): (81.10, 1085.75),
    ("loose", 1): (309.78, 1127.15),
    ("loose", 2): (193.58, 1112.70),
    ("loose", 3): (258.45, 996.10),
}
"""Worth of the frames merely parted, and the greatest there is, mm (loose 0 and 1: the best found in a minute)."""


@pytest.mark.parametrize(("kind", "seed"), OPTIMA)
def test_nine_tenths_of_what_can_be_gained_are(kind: str, seed: int) -> None:
    boxes = SETS[kind](seed)
    answer = true_up([Hung(number, box) for number, box in enumerate(boxes, 1)], BIG, GAP_MM)
    parted, best = OPTIMA[kind, seed]
    gained = worth(boxes, answer.boxes)
    assert gained <= best + 1.5  # the grid of 0.05 mm and rounding; more would be no optimum
    assert gained - parted >= 0.9 * (best - parted)
