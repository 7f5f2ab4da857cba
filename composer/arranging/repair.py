"""Repair: take some frames out, put them back better, keep the change if it is one."""

from collections.abc import Callable, Sequence
from random import Random

from composer.arranging.growth import Box, Growing, Shape, place_one, plain, radius_of
from composer.arranging.searching import Control, below, shuffled
from composer.arranging.task import Layout, Task, box_around
from composer.geometry.rectangle import Rectangle

MOST_OUT = 6


def repaired(
    task: Task,
    layout: Layout,
    shape: Shape,
    worth: Callable[[Layout], float],
    *,
    steps: int,
    dice: Random,
    control: Control,
) -> Layout:
    """The layout after ``steps`` tries to take frames out and hang them elsewhere.

    Args:
        task: what is arranged.
        layout: where to start from.
        shape: towards which frames are put back.
        worth: what is to be high; a change is kept when it does not fall.
        steps: tries.
        dice: the search's own source of chance.
        control: progress and cancelling.
    """
    count = len(layout)
    if count < 2:
        return layout
    best, best_worth = layout, round(worth(layout), 9)
    radius = radius_of(task)
    for step in range(steps):
        control.step(step, steps)
        out = _taken_out(best, dice)
        left_in = [plain(box) for index, box in enumerate(best) if index not in out]
        growing = Growing(task.room, task.gap, shape, radius, [*map(plain, task.still_boxes), *left_in])
        places: dict[int, Box] = {}
        for index in shuffled(sorted(out), dice):
            rank = below(4, dice) if dice.random() < 0.3 else 0
            box = place_one(growing, task.sizes[index], rank=rank)
            if box is None:
                break
            growing.boxes.append(box)
            places[index] = box
        if len(places) < len(out):
            continue
        changed = tuple(Rectangle(*places[index]) if index in places else box for index, box in enumerate(best))
        changed_worth = round(worth(changed), 9)
        if changed_worth >= best_worth:
            best, best_worth = changed, changed_worth
    return best


def _taken_out(layout: Layout, dice: Random) -> set[int]:
    """Half the time the neighbours of a random frame, half the time the outermost, or the corner ones."""
    count = len(layout)
    many = 1 + below(min(MOST_OUT, max(1, count - 1)), dice)
    if dice.random() < 0.5:
        x, y = layout[below(count, dice)].centre
        order = sorted(range(count), key=lambda i: (_away(layout[i], x, y), i))
        return set(order[:many])
    x, y = box_around(layout).centre
    order = sorted(range(count), key=lambda i: (-_away(layout[i], x, y), i))
    pool: Sequence[int] = order[: min(count, 2 * many + 1)]
    return set(shuffled(pool, dice)[:many])


def _away(box: Rectangle, x: float, y: float) -> float:
    across, up = box.centre[0] - x, box.centre[1] - y
    return round(across * across + up * up, 6)
