"""Truing up: what is laws of the thing (idempotent, locks stay, least movement) and bars from noise put in by hand."""

import math
from itertools import pairwise
from random import Random

import pytest

from composer.arranging.growth import Shape, grow
from composer.arranging.searching import by_size
from composer.arranging.true_up import MOST_MM, CannotTrueUp, Hung, TruedUp, true_up
from composer.geometry.rectangle import Rectangle
from tests.arranging import referee
from tests.arranging.walls import BIG, OBSTRUCTED, PLAIN, big


def exact(count: int, seed: int) -> tuple[Rectangle, ...]:
    """A grown hang, every frame tied in."""
    task = big(count, seed)
    layout = grow(task, by_size([size.width * size.height for size in task.sizes]), Shape(task.focus))
    assert layout is not None
    return layout


def rough(boxes: tuple[Rectangle, ...], noise: float, seed: int) -> list[Rectangle]:
    """Every frame moved by up to ``noise`` mm each way."""
    dice = Random(seed)
    return [box.moved((2 * dice.random() - 1) * noise, (2 * dice.random() - 1) * noise) for box in boxes]


def hung(boxes: list[Rectangle] | tuple[Rectangle, ...], fixed: frozenset[int] = frozenset()) -> list[Hung]:
    return [Hung(number, box, number in fixed) for number, box in enumerate(boxes, 1)]


def exact_pairs(boxes: list[Rectangle] | tuple[Rectangle, ...]) -> set[tuple[str, int, int]]:
    return {(axis, i, j) for axis, i, j, gap, _ in referee.facing(boxes) if abs(gap - 50) <= 0.6}


@pytest.mark.parametrize(("count", "noise", "least"), [(12, 15, 0.95), (12, 25, 0.85), (24, 15, 0.95)])
def test_exact_gaps_are_found_again_under_noise(count: int, noise: float, least: float) -> None:
    shares, moved, shaken = [], 0.0, 0.0
    for seed in range(4):
        good = exact(count, seed)
        bad = rough(good, noise, seed)
        answer = true_up(hung(bad), BIG, 50)
        before = exact_pairs(good)
        shares.append(len(before & exact_pairs(answer.boxes)) / len(before))
        moved += sum(abs(move.dx) + abs(move.dy) for move in answer.moves)
        shaken += sum(abs(a.left - b.left) + abs(a.bottom - b.bottom) for a, b in zip(good, bad, strict=True))
        assert referee.violations(answer.boxes, 50, BIG.corners) == []
        assert all(math.hypot(move.dx, move.dy) <= MOST_MM + 1e-6 for move in answer.moves)
    assert sum(shares) / len(shares) >= least
    assert moved <= 1.1 * shaken


@pytest.mark.parametrize("count", [6, 12, 24, 40])
def test_an_exact_hang_is_left_alone(count: int) -> None:
    assert true_up(hung(exact(count, 1)), BIG, 50).moves == ()


@pytest.mark.parametrize("seed", range(6))
def test_a_second_run_moves_nothing(seed: int) -> None:
    first = true_up(hung(rough(exact(12, seed), 25, seed)), BIG, 50)
    again = true_up(hung(first.boxes), BIG, 50)
    assert again.moves == ()
    assert again.boxes == first.boxes


@pytest.mark.parametrize("seed", range(4))
def test_locked_pieces_never_move(seed: int) -> None:
    good, fixed = exact(12, seed), frozenset({2, 5, 9})
    bad = [
        old if number in fixed else new
        for number, (old, new) in enumerate(zip(good, rough(good, 15, seed), strict=True), 1)
    ]
    answer = true_up(hung(bad, fixed), BIG, 50)
    assert answer.moves
    assert not fixed & {move.number for move in answer.moves}
    assert all(answer.boxes[number - 1] == bad[number - 1] for number in fixed)


def test_one_dragged_piece_does_not_shift_the_wall() -> None:
    shares = []
    for seed in range(4):
        boxes = list(exact(24, seed))
        boxes[20] = boxes[20].moved(17, -23)
        answer = true_up(hung(boxes), BIG, 50)
        shares.append(len(answer.moves) / 24)
    assert sorted(shares)[1] <= 0.1
    assert max(shares) <= 0.3


def test_this_piece_only() -> None:
    boxes = list(exact(12, 0))
    boxes[4] = boxes[4].moved(12, 9)
    boxes[7] = boxes[7].moved(-8, 11)
    answer = true_up(hung(boxes), BIG, 50, only=[5])
    assert {move.number for move in answer.moves} <= {5}
    assert answer.boxes[7] == boxes[7]


def test_two_frames_by_hand() -> None:
    # 400 and 300 wide, gap 57 instead of 50, tops off by 4: one of them moves 7 across and 4 up.
    one, other = Rectangle.at(1000, 1200, 400, 500), Rectangle.at(1457, 1204, 300, 500)
    answer = true_up(hung([one, other]), PLAIN, 50)
    assert answer.boxes[1].left - answer.boxes[0].right == pytest.approx(50)
    assert answer.boxes[1].bottom == pytest.approx(answer.boxes[0].bottom)
    assert sum(abs(move.dx) + abs(move.dy) for move in answer.moves) == pytest.approx(7 + 4)


def test_frames_far_from_each_other_stay() -> None:
    boxes = [Rectangle.at(500, 1200, 400, 500), Rectangle.at(1500, 1233, 300, 380)]
    assert true_up(hung(boxes), PLAIN, 50).moves == ()


def test_what_cannot_be_parted_within_60_mm_is_named() -> None:
    boxes = [Rectangle.at(1000, 1200, 400, 500), Rectangle.at(1050, 1230, 400, 500), Rectangle.at(2000, 1200, 400, 500)]
    with pytest.raises(CannotTrueUp) as stuck:
        true_up(hung(boxes), PLAIN, 50)
    assert set(stuck.value.numbers) <= {1, 2}


def strength_figures(strength: float) -> tuple[float, float]:
    """Mean exact share and rigidity of loose layouts with no hidden answer, trued up so strongly."""
    shares, rigid = 0.0, 0.0
    for seed in range(3):
        dice = Random(seed)
        boxes = []
        for index, size in enumerate(big(12, seed).sizes):
            column, row = index % 4, index // 4
            boxes.append(
                Rectangle.at(
                    2000 + column * 900 + 60 * dice.random(),
                    1500 + row * 1000 + 60 * dice.random(),
                    max(size.width, 780 - 40 * dice.random()),
                    max(size.height, 880 - 40 * dice.random()),
                )
            )
        answer = true_up(hung(boxes), BIG, 50, strength=strength)
        shares += referee.exact_share(answer.boxes, 50) / 3
        rigid += referee.rigidity(answer.boxes, 50) / 3
    return shares, rigid


def test_a_stronger_true_up_makes_more_exact() -> None:
    figures = [strength_figures(strength) for strength in (0.0, 0.25, 0.5, 1.0)]
    for weak, strong in pairwise(figures):
        assert strong[0] >= weak[0] - 0.03
        assert strong[1] >= weak[1] - 0.03
    assert figures[-1][0] > figures[0][0]


def test_on_an_obstructed_wall_nothing_ends_up_in_the_way() -> None:
    from composer.arranging.patterns import arrange
    from tests.arranging.test_patterns import _of_use

    task = _of_use(0.4, 1)
    layout = arrange(task, "salon", effort=0.1).layout
    bad = rough(layout, 15, 3)
    answer: TruedUp = true_up(hung(bad), OBSTRUCTED, 50)
    assert referee.violations(answer.boxes, 50, OBSTRUCTED.corners, OBSTRUCTED.keep_outs) == []
