"""The compact block: packed tight, then freed of uneasy gaps."""

from collections.abc import Iterable
from dataclasses import replace
from math import fsum
from random import Random

from composer.arranging.growth import Shape, grow
from composer.arranging.measures import Measures
from composer.arranging.repair import repaired
from composer.arranging.room import kept_apart
from composer.arranging.searching import Control, by_size
from composer.arranging.settling import Found, Unsuited, free_height, misplaced, settled, wanted_shape, with_still
from composer.arranging.skyline import Band, blocks, stretched
from composer.arranging.task import Layout, Task, box_around
from composer.texts import say

STEPS = 40_000
REPAIRS = 500
GIVEN_UP = 0.008
"""What share of compactness may be given for exact gaps: three hundredths of the area buy most of them."""

STRETCHED = 0.02
"""A block stretched into the wanted proportions must be so much tighter to be taken before one that has them."""

MOST_GIVEN_UP = 0.025

LEAST_COMPACT = 0.7
IN_PLACE_STARTS = 20


def block(task: Task, *, seed: int, effort: float = 1.0, control: Control) -> Found:
    """The best block found.

    Raises:
        Unsuited: when no block of these frames hangs free on the wall.
    """
    dice = Random(seed)
    count = len(task.sizes)
    steps = max(200, round(STEPS * effort * (1.0 if count <= 24 else 24 / count)))
    bounds, high = task.room.bounds, free_height(task)
    band = Band(1.0, 2.0, width=bounds.width, height=high)
    tight = blocks(task.sizes, task.gap, band, steps=steps, dice=dice, control=control.part(0, 0.5))
    in_band = [one for one in tight if _within(band, one)]
    spread = [one for one in (stretched(layout, band) for layout in tight) if one is not None and _within(band, one)]
    placed, placed_spread = _settled_ones(task, in_band), _settled_ones(task, spread)
    if not placed and not placed_spread:
        # Where the wall forbids those proportions, any that it has room for.
        band = ANY_BAND
        placed = _settled_ones(task, tight) or _filling(task, dice, control.part(0.5, 0.6), steps)
    if not placed:
        placed = _in_place(task, dice, control.part(0.6, 0.7)) if not placed_spread else []
    if not placed and not placed_spread:
        box = box_around(tight[0])
        raise Unsuited(
            say(
                "The tightest block is {width} × {height}; nowhere on this wall is that free.",
                width=task.shown(box.width),
                height=task.shown(box.height),
            )
        )
    best = max(
        *(_compactness(task, layout) for layout in placed),
        *(_compactness(task, layout) - STRETCHED for layout in placed_spread),
        0.0,
        0.0,
    )
    placed += placed_spread
    worths = [(round(_worth(task, layout, best, band), 9), -place, layout) for place, layout in enumerate(placed)]
    start = max(worths)[2]
    box = box_around(start)
    shape = Shape(box.centre, aspect=box.width / box.height)
    repairs = max(10, round(REPAIRS * effort * min(1.0, 12 / count)))
    better = repaired(
        task,
        start,
        shape,
        lambda now: _worth(task, now, best, band),
        steps=repairs,
        dice=dice,
        control=control.part(0.7, 1),
    )
    if len({size[1:] for size in task.sizes}) == 1:
        centred = _rows_centred(better)
        if kept_apart(centred, task.gap):
            better = settled(task, centred) or better
    placed_again = settled(task, better) or better
    return Found("block", placed_again, seed, steps)


def _compactness(task: Task, layout: Layout) -> float:
    """As measured: the frames with their gaps ÷ the box around them with its gap."""
    together = (*layout, *task.still_boxes)
    box = box_around(together)
    grown = fsum((one.width + task.gap) * (one.height + task.gap) for one in together)
    return grown / ((box.width + task.gap) * (box.height + task.gap))


def _rows_centred(layout: Layout) -> Layout:
    """Rows of pieces all alike, a shorter one moved to the middle: two over three stand over the gaps."""
    middle = box_around(layout).centre[0]
    shifts = {}
    for bottom in {box.bottom for box in layout}:
        row = [box for box in layout if box.bottom == bottom]
        shifts[bottom] = middle - box_around(row).centre[0]
    return tuple(box.moved(shifts[box.bottom], 0) for box in layout)


def _settled_ones(task: Task, layouts: Iterable[Layout]) -> list[Layout]:
    return [one for one in (settled(task, layout) for layout in layouts) if one is not None]


ANY_BAND = Band(0.05, 20.0)


def _filling(task: Task, dice: Random, control: Control, steps: int) -> list[Layout]:
    """Blocks of any proportions that fit the wall's whole width and height."""
    bounds = task.room.bounds
    band = Band(0.05, 20.0, width=bounds.width, height=bounds.height)
    return _settled_ones(task, blocks(task.sizes, task.gap, band, steps=steps, dice=dice, control=control))


def packed_in(task: Task, *, seed: int, control: Control, steps: int = STEPS) -> Layout | None:
    """Everything on a wall so crowded that no grown group fits: the first block that hangs free, or None."""
    return next(iter(_filling(task, Random(seed), control, steps)), None)


def _within(band: Band, layout: Layout) -> bool:
    box = box_around(layout)
    return band.beyond(box.width, box.height) <= 1e-9


def _worth(task: Task, layout: Layout, best: float, band: Band) -> float:
    """Compact first; what is given up beyond a little costs much, exact gaps and ease are worth the little."""
    figures = with_still(task, layout)
    box = box_around(layout)
    return (
        tidiness(figures)
        + figures.compactness
        - 5 * max(0.0, best - GIVEN_UP - figures.compactness)
        - 20 * max(0.0, best - MOST_GIVEN_UP - figures.compactness)
        - (1.0 if band.beyond(box.width, box.height) > 1e-9 else 0.0)
        - 5 * band.beyond(box.width, box.height)
        - misplaced(task, layout)
    )


def tidiness(figures: Measures) -> float:
    """Exact gaps are worth something, uneasy ones and near misses cost."""
    return (
        0.15 * figures.exact_share
        + 0.05 * figures.rigidity
        - 0.4 * figures.uneasy_share
        - 0.4 * figures.near_miss_share
        - 3 * max(0.0, figures.uneasy_share - 0.05)
        - 3 * max(0.0, figures.near_miss_share - 0.02)
        - 0.1 * abs(figures.balance[0])
    )


def _in_place(task: Task, dice: Random, control: Control) -> list[Layout]:
    """Blocks grown around what is in the way, where no whole block is free."""
    areas = [size.width * size.height for size in task.sizes]
    shape = replace(wanted_shape(task, fill=1.1), contact=0.6)
    found = []
    for turn in range(IN_PLACE_STARTS):
        control.step(turn, IN_PLACE_STARTS)
        layout = grow(task, by_size(areas, dice, 0.0 if turn == 0 else 0.5), shape, corners=turn % 2 == 1)
        if layout is not None:
            layout = settled(task, layout) or layout
            if with_still(task, layout).compactness >= LEAST_COMPACT:
                found.append(layout)
    return found
