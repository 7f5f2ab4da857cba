"""Whatever the wall, the pieces, the locks and the pattern: free places or a reason, and true-up's laws."""

import math
from random import Random

import pytest

from composer.arranging.patterns import PATTERNS, DoesNotFit, arrange
from composer.arranging.room import Room
from composer.arranging.settling import Unsuited
from composer.arranging.task import Size, Still, Task
from composer.arranging.true_up import MOST_MM, CannotTrueUp, Hung, true_up
from composer.geometry.rectangle import Rectangle
from tests.arranging import referee
from tests.arranging.frame_sets import frame_set
from tests.arranging.walls import OBSTRUCTED

OUTLINES = (
    ((0.0, 0.0), (3600.0, 0.0), (3600.0, 2500.0), (0.0, 2500.0)),
    OBSTRUCTED.corners,
    ((0.0, 0.0), (900.0, 0.0), (3900.0, 2100.0), (3900.0, 4000.0), (3000.0, 4500.0), (0.0, 4500.0)),
    # A beam above and a step below, so that the outline is not convex.
    (
        (0.0, 0.0), (2000.0, 0.0), (2000.0, 600.0), (2600.0, 600.0), (2600.0, 0.0), (4000.0, 0.0),
        (4000.0, 2600.0), (2500.0, 2600.0), (2500.0, 2000.0), (1500.0, 2000.0), (1500.0, 2600.0), (0.0, 2600.0),
    ),
)  # fmt: skip


def any_task(dice: Random) -> Task:
    """A task made up."""

    def one_of(*choices: float) -> float:
        return choices[int(dice.random() * len(choices))]

    outs = tuple(
        Rectangle.at(dice.random() * 3000, dice.random() * 2000, 80 + dice.random() * 600, 80 + dice.random() * 500)
        for _ in range(int(dice.random() * 4))
    )
    room = Room(OUTLINES[int(dice.random() * 4)], one_of(0, 0, 60), outs)
    gap = one_of(25, 50, 101.6, 200)
    count = 1 + int(dice.random() * 9)
    sizes = frame_set(count, int(dice.random() * 1000))
    if dice.random() < 0.2:
        sizes = tuple(Size(number, 300.0, 400.0) for number in range(1, count + 1))
    still: list[Still] = []
    for number in range(101, 104 if dice.random() < 0.4 else 101):
        box = Rectangle.at(dice.random() * 3000, dice.random() * 2000, 300, 400)
        if room.free(*box) and not any(box.meets(one.box.grown(gap)) for one in still):
            still.append(Still(number, box))
    return Task(
        sizes,
        room,
        gap,
        1450.0,
        tuple(still),
        furniture=Rectangle.at(dice.random() * 1500, 0, 1500, 700) if dice.random() < 0.3 else None,
        nosing=((900.0, 180.0), (3600.0, 2070.0)) if dice.random() < 0.3 else None,
        width=1200.0 if dice.random() < 0.2 else None,
        above=180.0 if dice.random() < 0.2 else None,
    )


@pytest.mark.parametrize("pattern", PATTERNS)
def test_free_places_or_a_reason(pattern: str) -> None:
    hung = 0
    for seed in range(9):
        task = any_task(Random(seed))
        try:
            layout = arrange(task, pattern, seed=seed, effort=0.05).layout
        except (Unsuited, DoesNotFit) as no:
            assert len(str(no)) > 20  # noqa: PT017
            continue
        hung += 1
        together = [*layout, *(one.box for one in task.still)]
        assert referee.violations(together, task.gap, task.room.corners, task.room.keep_outs) == []
        assert [(round(box.width, 6), round(box.height, 6)) for box in layout] == [size[1:] for size in task.sizes]
    assert hung or pattern in ("grid", "mirror", "stair")


def test_truing_up_keeps_its_laws_on_any_wall() -> None:
    tried = 0
    for seed in range(30):
        dice = Random(seed)
        task = any_task(dice)
        try:
            layout = arrange(task, "salon", seed=seed, effort=0.05).layout
        except DoesNotFit:
            continue
        loose = [box.moved(20 * dice.random() - 10, 20 * dice.random() - 10) for box in layout]
        hung = [Hung(size.number, box) for size, box in zip(task.sizes, loose, strict=True)]
        hung += [Hung(one.number, one.box, fixed=True) for one in task.still]
        try:
            answer = true_up(hung, task.room, task.gap)
        except CannotTrueUp:
            continue
        tried += 1
        assert not {one.number for one in task.still} & {move.number for move in answer.moves}
        assert all(math.hypot(move.dx, move.dy) <= MOST_MM + 1e-6 for move in answer.moves)
        again = [one._replace(box=box) for one, box in zip(hung, answer.boxes, strict=True)]
        assert true_up(again, task.room, task.gap).moves == ()
    assert tried >= 10
