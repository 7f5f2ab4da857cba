"""Row, column and stair: pieces one after the other along one line."""

from collections.abc import Callable, Sequence
from math import fsum
from random import Random

from composer.arranging.growth import collides
from composer.arranging.measures import facing_pairs, near_misses
from composer.arranging.searching import Control, below, by_size
from composer.arranging.settling import Found, Tries, Unsuited
from composer.arranging.task import Layout, Size, Task
from composer.geometry.rectangle import Rectangle
from composer.texts import say, say_many

STEPS = 300
BY_LINE = ("middle", "low", "high")
"""How far across the line frames lie: their middles on it, or their lower or upper edges."""


def row(task: Task, *, seed: int, effort: float = 1.0, control: Control) -> Found:
    """One row on the eye line, the biggest in the middle.

    Raises:
        Unsuited: when the wall is too short for it.
    """
    return _along(task, "row", seed, control)


def column(task: Task, *, seed: int, effort: float = 1.0, control: Control) -> Found:
    """One column, the biggest in the middle.

    Raises:
        Unsuited: when the wall is too low for it.
    """
    return _along(task, "column", seed, control)


def _along(task: Task, pattern: str, seed: int, control: Control) -> Found:
    upright = pattern == "column"
    needed = fsum(size.height if upright else size.width for size in task.sizes) + task.gap * (len(task.sizes) - 1)
    bounds = task.room.bounds
    there = bounds.height if upright else bounds.width
    if needed > there + 1e-6:
        raise Unsuited(_too_long(task, needed, there, upright))
    if task.still:
        return Found(pattern, _beside(task, upright), seed, 0)
    dice = Random(seed)
    tried: list[tuple[float, int, Layout]] = []
    tries = Tries(task)
    for place, line in enumerate(BY_LINE):

        def laid(order: Sequence[int], line: str = line) -> Layout:
            return in_line(task.sizes, order, task.gap, line, upright=upright)

        order = best_order(task, laid, dice, control.part(place / 3, (place + 1) / 3))
        layout = laid(order)
        here = tries.placed(layout)
        if here is not None:
            tried.append((round(line_cost(task, here) + 0.05 * place, 9), place, here))
    if not tried:
        raise Unsuited(tries.reason or _nowhere(task, needed, upright))
    return Found(pattern, min(tried)[2], seed, STEPS)


def _beside(task: Task, upright: bool) -> Layout:
    """A line carried on to both sides of the pieces that stay, on the middle line of the biggest of them.

    Raises:
        Unsuited: when that runs into something, or off the wall.
    """
    along, across = (1, 0) if upright else (0, 1)
    biggest = max(task.still, key=lambda one: (one.box.width * one.box.height, -one.number)).box
    line = biggest.centre[across]
    members = [one.box for one in task.still if one.box[across] < line < one.box[across + 2]]
    before, after = min(box[along] for box in members), max(box[along + 2] for box in members)
    bounds = task.room.bounds
    boxes: dict[int, Rectangle] = {}
    for index in by_size([size.width * size.height for size in task.sizes]):
        size = task.sizes[index]
        long, wide = (size.height, size.width) if upright else (size.width, size.height)
        if bounds[along + 2] - after >= before - bounds[along]:
            at = after + task.gap
            after = at + long
        else:
            at = before = before - task.gap - long
        low = line - wide / 2
        boxes[index] = (
            Rectangle.at(low, at, size.width, size.height)
            if upright
            else Rectangle.at(at, low, size.width, size.height)
        )
    layout = tuple(boxes[index] for index in range(len(task.sizes)))
    if not all(task.room.free(*box) for box in layout) or not _clear(task, layout):
        raise Unsuited(
            say(
                "Carried on beside what stays, the line runs from {start} to {end}; not all of that is free.",
                start=task.shown(before),
                end=task.shown(after),
            )
        )
    return layout


def _too_long(task: Task, needed: float, there: float, upright: bool) -> str:
    if upright:
        return say(
            "One column of them is {needed} high; with a little air at both ends the wall has {there}.",
            needed=task.shown(needed),
            there=task.shown(there),
        )
    return say(
        "One row of them is {needed} long; with a little air at both ends the wall has {there}.",
        needed=task.shown(needed),
        there=task.shown(there),
    )


def _nowhere(task: Task, needed: float, upright: bool) -> str:
    if upright:
        return say("One column of them is {needed} high; nowhere on this wall is that free.", needed=task.shown(needed))
    return say("One row of them is {needed} long; nowhere on this wall is that free.", needed=task.shown(needed))


def in_line(sizes: Sequence[Size], order: Sequence[int], gap: float, line: str, *, upright: bool) -> Layout:
    """The frames in that order, one gap apart, from the origin to the right or upwards."""
    boxes: dict[int, Rectangle] = {}
    at = 0.0
    for index in order:
        size = sizes[index]
        along, across = (size.height, size.width) if upright else (size.width, size.height)
        off = {"middle": -across / 2, "low": 0.0, "high": -across}[line]
        boxes[index] = (
            Rectangle.at(off, at, size.width, size.height)
            if upright
            else Rectangle.at(at, off, size.width, size.height)
        )
        at += along + gap
    return tuple(boxes[index] for index in range(len(sizes)))


def middle_out(areas: Sequence[float]) -> list[int]:
    """The biggest in the middle, the others by turns to its left and right."""
    ranked = by_size(areas)
    return [*ranked[1::2][::-1], ranked[0], *ranked[2::2]]


def line_cost(task: Task, layout: Layout) -> float:
    """What a line costs: near misses between neighbours, and how far its weight lies off the middle."""
    pairs = facing_pairs(layout, 2 * task.gap)
    area = fsum(box.width * box.height for box in layout)
    low, high = min(box.left for box in layout), max(box.right for box in layout)
    floor, top = min(box.bottom for box in layout), max(box.top for box in layout)
    x = fsum(box.width * box.height * box.centre[0] for box in layout) / area
    y = fsum(box.width * box.height * box.centre[1] for box in layout) / area
    aside = abs(x - (low + high) / 2) / (high - low) + abs(y - (floor + top) / 2) / (top - floor) / 3
    return len(near_misses(layout, pairs, task.gap)) + aside


def best_order(
    task: Task, laid: Callable[[Sequence[int]], Layout], dice: Random, control: Control, steps: int = STEPS
) -> list[int]:
    """An order with the biggest in the middle, changed by swaps while that lowers the cost."""
    areas = [size.width * size.height for size in task.sizes]
    order = middle_out(areas)
    cost = round(line_cost(task, laid(order)) + _outward(order, areas), 9)
    count = len(order)
    if count < 3:
        return order
    for step in range(steps):
        control.step(step, steps)
        one = below(count, dice)
        other = count - 1 - one if step % 2 else below(count, dice)
        if one == other:
            continue
        tried = list(order)
        tried[one], tried[other] = tried[other], tried[one]
        tried_cost = round(line_cost(task, laid(tried)) + _outward(tried, areas), 9)
        if tried_cost < cost:
            order, cost = tried, tried_cost
    return order


def _outward(order: Sequence[int], areas: Sequence[float]) -> float:
    """A little for big frames far from the middle."""
    middle = (len(order) - 1) / 2
    total = fsum(areas)
    return 0.1 * fsum(abs(place - middle) * areas[index] for place, index in enumerate(order)) / total / len(order)


def stair(task: Task, *, seed: int, effort: float = 1.0, control: Control) -> Found:
    """One row that climbs with the stair: middles as high above the nosings as the eye line above the floor.

    Raises:
        Unsuited: when the wall has no stair, or is too short.
    """
    if task.nosing is None:
        raise Unsuited(say("This wall has no stair; type two points of the line along its nosings."))
    (x1, y1), (x2, y2) = sorted(task.nosing)
    slope = (y2 - y1) / (x2 - x1)
    count = len(task.sizes)
    if count < 2:
        raise Unsuited(
            say_many(
                "A stair of pieces needs 2; there is {count}.", "A stair of pieces needs 2; there are {count}.", count
            )
        )
    long = fsum(size.width for size in task.sizes) + task.gap * (count - 1)
    run = min(x2, task.room.bounds.right) - max(x1, task.room.bounds.left)

    def climbing(order: Sequence[int], start: float = 0.0) -> Layout:
        boxes: dict[int, Rectangle] = {}
        at = start
        for index in order:
            size = task.sizes[index]
            height = y1 + slope * (at + size.width / 2 - x1) + task.eye_line
            boxes[index] = Rectangle.at(at, height - size.height / 2, size.width, size.height)
            at += size.width + task.gap
        return tuple(boxes[index] for index in range(count))

    order = best_order(task, climbing, Random(seed), control)
    middle = (max(x1, task.room.bounds.left) + min(x2, task.room.bounds.right)) / 2 - long / 2
    starts = [middle, *(middle + side * 25.0 * step for step in range(1, 60) for side in (-1, 1))]
    for start in starts:
        layout = climbing(order, start)
        if all(task.room.free(*box) for box in layout) and _clear(task, layout):
            return Found("stair", layout, seed, STEPS)
    raise Unsuited(
        say(
            "Climbing with the stair they are {needed} long; over its {run} nowhere is that free.",
            needed=task.shown(long),
            run=task.shown(run),
        )
    )


def _clear(task: Task, layout: Layout) -> bool:
    return not any(collides(box, task.still_boxes, task.gap) for box in layout) and not any(
        collides(box, layout[:place], task.gap) for place, box in enumerate(layout)
    )
