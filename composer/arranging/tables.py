"""Rows and grid: pieces in rows one above the other."""

from collections.abc import Iterator, Sequence
from math import fsum
from random import Random

from composer.arranging.measures import Measures, measure
from composer.arranging.searching import Control, below, by_size
from composer.arranging.settling import Found, Tries, Unsuited, with_still
from composer.arranging.task import Layout, Task, box_around
from composer.geometry.rectangle import Rectangle
from composer.texts import say

ROW_STEPS = 500
GRID_STEPS = 300
EVEN_SHARE = 0.04
"""Gaps that differ by less than this share of the gap still look even."""

UNEASY_MOST, NEAR_MISS_MOST = 0.05, 0.02
CELL_USE_LEAST = 0.8
ASPECT_MOST = 3.5
TALLEST = 2.5
"""One piece much higher than the others hangs out of its row like a flag."""


def rows(task: Task, *, seed: int, effort: float = 1.0, control: Control) -> Found:
    """Two rows or more, each centred, leaning on a common level line.

    The lower row hangs with its upper edges under the line, the row above stands with its lower edges on
    it, so the gaps between the rows are exact whatever the heights. Further rows stand on the row below.

    Raises:
        Unsuited: when gaps between the rows would be uneven, or the wall has no room.
    """
    count = len(task.sizes)
    if count < 4:
        raise Unsuited(say("Rows need 4 pieces or more; there are {count}.", count=count))
    heights = sorted(size.height for size in task.sizes)
    usual, tallest = heights[(count - 1) // 2], max(task.sizes, key=lambda size: (size.height, -size.number))
    if tallest.height > TALLEST * usual:
        raise Unsuited(
            say(
                "Piece {number} is {times} times as high as most; in rows {most} times is the limit.",
                number=tallest.number,
                times=f"{tallest.height / usual:.1f}",
                most=TALLEST,
            )
        )
    dice = Random(seed)
    tried: list[tuple[float, int, Layout]] = []
    tries = Tries(task)
    spoilt: Measures | None = None
    least: tuple[float, float] | None = None
    counts = [many for many in range(2, 6) if count >= 2 * many]
    for place, many in enumerate(counts):
        part = control.part(place / len(counts), (place + 1) / len(counts))
        shared = _shared_rows(task, many, dice, part, max(60, round(ROW_STEPS * effort)))
        layout = _stacked(task, shared)
        box = box_around(layout)
        if least is None or box.width < least[0]:
            least = (box.width, box.height)
        if box.width > task.room.bounds.width + 1e-6 or box.height > task.room.bounds.height + 1e-6:
            continue
        here = tries.placed(layout)
        if here is None:
            continue
        figures = with_still(task, here)
        if figures.uneasy_share > UNEASY_MOST or figures.near_miss_share > NEAR_MISS_MOST:
            spoilt = figures if spoilt is None or figures.uneasy_share < spoilt.uneasy_share else spoilt
            continue
        tried.append((round(_rows_cost(task, here, shared) + 0.05 * many, 9), place, here))
    if tried:
        return Found("rows", min(tried)[2], seed, ROW_STEPS)
    if spoilt is not None:
        raise Unsuited(
            say(
                "In rows, {uneasy} % of the gaps would be a little wider than {gap} and "
                "{near} % of the edges would nearly line up: it would look like a mistake.",
                uneasy=round(100 * spoilt.uneasy_share),
                gap=task.shown(task.gap),
                near=round(100 * spoilt.near_miss_share),
            )
        )
    if tries.reason:
        raise Unsuited(tries.reason)
    assert least is not None
    raise Unsuited(
        say(
            "In rows they take {width} × {height} at least; nowhere on this wall is that free.",
            width=task.shown(least[0]),
            height=task.shown(least[1]),
        )
    )


def _shared_rows(task: Task, many: int, dice: Random, control: Control, steps: int) -> list[list[int]]:
    """The pieces dealt into rows, lowest first, improved by swaps and moves."""
    ranked = by_size([size.width * size.height for size in task.sizes])
    shared: list[list[int]] = [[] for _ in range(many)]
    for index in ranked:
        shortest = min(range(many), key=lambda row: (_long(task, shared[row]), row))
        side = len(shared[shortest]) % 2
        shared[shortest].insert(0 if side else len(shared[shortest]), index)
    cost = _cost_of_rows(task, shared)
    for step in range(steps):
        control.step(step, steps)
        tried = [list(one) for one in shared]
        one, other = below(many, dice), below(many, dice)
        first, second = below(len(tried[one]), dice), below(len(tried[other]), dice)
        if dice.random() < 0.75:
            tried[one][first], tried[other][second] = tried[other][second], tried[one][first]
        elif len(tried[one]) > 1:
            tried[other].insert(min(second, len(tried[other])), tried[one].pop(first))
        tried_cost = _cost_of_rows(task, tried)
        if tried_cost <= cost:
            shared, cost = tried, tried_cost
    return shared


def _long(task: Task, row: Sequence[int]) -> float:
    return fsum(task.sizes[index].width for index in row) + task.gap * max(0, len(row) - 1)


def _cost_of_rows(task: Task, shared: Sequence[Sequence[int]]) -> float:
    if any(not row for row in shared):
        return float("inf")
    return round(_rows_cost(task, _stacked(task, shared), shared), 9)


def _rows_cost(task: Task, layout: Layout, shared: Sequence[Sequence[int]]) -> float:
    figures = measure(layout, task.gap)
    longs = [_long(task, row) for row in shared]
    box = box_around(layout)
    aspect = box.width / box.height
    return (
        4 * figures.uneasy_share
        + 4 * figures.near_miss_share
        + (max(longs) - min(longs)) / max(longs)
        + abs(figures.balance[0])
        + 0.3 * max(0.0, aspect / ASPECT_MOST - 1)
        + max(0.0, box.width / task.room.bounds.width - 1)
        - 0.3 * figures.exact_share
    )


def _stacked(task: Task, shared: Sequence[Sequence[int]]) -> Layout:
    boxes: dict[int, Rectangle] = {}
    line = 0.0
    for place, row in enumerate(shared):
        long = _long(task, row)
        gap, start = task.gap, -long / 2
        for index, at in zip(row, _steps(task, row, start, gap), strict=True):
            size = task.sizes[index]
            bottom = -size.height if place == 0 else line
            boxes[index] = Rectangle.at(at, bottom, size.width, size.height)
        line = task.gap if place == 0 else line + max(task.sizes[index].height for index in row) + task.gap
    return tuple(boxes[index] for index in range(len(task.sizes)))


def _steps(task: Task, row: Sequence[int], start: float, gap: float) -> Iterator[float]:
    for index in row:
        yield start
        start += task.sizes[index].width + gap


def grid(task: Task, *, seed: int, effort: float = 1.0, control: Control) -> Found:
    """A full grid: columns and rows as wide and high as their largest piece, each piece in the middle of its cell.

    Raises:
        Unsuited: when the pieces differ too much, make no full grid, or the wall has no room.
    """
    count = len(task.sizes)
    shapes = [(count // down, down) for down in range(2, count // 2 + 1) if count % down == 0]
    if count < 4 or not shapes:
        raise Unsuited(say("{count} pieces make no full grid.", count=count))
    dice = Random(seed)
    tried: list[tuple[float, int, Layout]] = []
    tries = Tries(task)
    most_use, slack, tightest = 0.0, 0.0, ""
    for place, (across, _) in enumerate(shapes):
        order = _dealt(task, across, dice, control.part(place / len(shapes), (place + 1) / len(shapes)))
        layout, use, widest = _in_cells(task, order, across)
        if use > most_use:
            most_use, slack = use, widest
        figures = measure(layout, task.gap)
        even = widest <= max(EVEN_SHARE * task.gap, 0.6)
        if use < CELL_USE_LEAST or not (even or figures.uneasy_share <= UNEASY_MOST):
            continue
        here = tries.placed(layout)
        box = box_around(layout)
        if here is None:
            tightest = tightest or say("{width} × {height}", width=task.shown(box.width), height=task.shown(box.height))
            continue
        aspect = box.width / box.height
        tried.append((round(abs(aspect - 1.4), 9), place, here))
    if tried:
        return Found("grid", min(tried)[2], seed, GRID_STEPS)
    if tries.reason:
        raise Unsuited(tries.reason)
    if tightest:
        raise Unsuited(say("The grid is {size}; nowhere on this wall is that free.", size=tightest))
    raise Unsuited(
        say(
            "They fill {use} % of the grid's cells and gaps would differ by up to {slack}; a grid needs pieces "
            "nearly alike: {least} % and {even}.",
            use=round(100 * most_use),
            slack=task.shown(slack),
            least=round(100 * CELL_USE_LEAST),
            even=task.shown(EVEN_SHARE * task.gap),
        )
    )


def _dealt(task: Task, across: int, dice: Random, control: Control) -> list[int]:
    """Cells by row from below, the pieces swapped while that fills the cells better."""
    order = by_size([size.height * 1e5 + size.width for size in task.sizes])
    best = _in_cells(task, order, across)[1]
    for step in range(GRID_STEPS):
        control.step(step, GRID_STEPS)
        one, other = below(len(order), dice), below(len(order), dice)
        order[one], order[other] = order[other], order[one]
        use = _in_cells(task, order, across)[1]
        if round(use, 9) > round(best, 9):
            best = use
        else:
            order[one], order[other] = order[other], order[one]
    return order


def _in_cells(task: Task, order: Sequence[int], across: int) -> tuple[Layout, float, float]:
    """Places in the grid, the share of the cells that is filled, and the widest difference between gaps."""
    sizes = [task.sizes[index] for index in order]
    down = len(order) // across
    widths = [max(sizes[row * across + column].width for row in range(down)) for column in range(across)]
    heights = [max(sizes[row * across + column].height for column in range(across)) for row in range(down)]
    boxes: dict[int, Rectangle] = {}
    bottom, slack = 0.0, 0.0
    for row in range(down):
        left = 0.0
        for column in range(across):
            size = sizes[row * across + column]
            aside, up = widths[column] - size.width, heights[row] - size.height
            slack = max(slack, aside, up)
            boxes[order[row * across + column]] = Rectangle.at(
                left + aside / 2, bottom + up / 2, size.width, size.height
            )
            left += widths[column] + task.gap
        bottom += heights[row] + task.gap
    use = fsum(size.width * size.height for size in sizes) / (fsum(widths) * fsum(heights))
    return tuple(boxes[index] for index in range(len(order))), use, slack
