"""The salon hang: grown from the middle from many orders, the best ones repaired."""

import math
from dataclasses import replace
from random import Random

from composer.arranging.growth import Shape, grow
from composer.arranging.measures import Measures
from composer.arranging.repair import repaired
from composer.arranging.room import Room
from composer.arranging.searching import Control, by_size
from composer.arranging.settling import Found, misplaced, settled, wanted_shape, with_still
from composer.arranging.task import Layout, Task, box_around

ASPECTS = (1.0, 1.25, 0.85, 1.5, 1.1, 0.7)
"""Wanted aspect times this, by turns."""

TRIES = 40
"""So many orders are tried until the first finds a place for everything."""

CANVAS_MM = 50_000.0
LONGEST, HIGHEST = 2.0, 0.7
"""Width ÷ height of a salon hang, unless another width is asked for."""


def starts_for(count: int) -> int:
    """How many orders are tried for a thorough search."""
    return next(starts for most, starts in _STARTS if count <= most)


_STARTS = ((4, 48), (7, 160), (9, 48), (24, 24), (40, 12), (80, 8), (10_000_000, 3))
"""Up to so many pieces: so many orders. Few pieces are quick to hang, and chance decides more."""


def repairs_for(count: int) -> int:
    """How many repairs each of the best gets in a thorough search."""
    if count > 80:
        return 6
    return max(16, min(60 if count <= 4 else 160, 3000 // max(1, count)))


def salon(task: Task, *, seed: int, effort: float = 1.0, control: Control) -> Found | None:
    """The best salon hang found, or None when no order finds a place for every frame.

    Args:
        task: what is arranged.
        seed: of the search.
        effort: 1 = thorough; less for a sketch.
        control: progress and cancelling.
    """
    dice = Random(seed)
    grown = grown_ones(
        task, starts=max(4, round(starts_for(len(task.sizes)) * effort)), dice=dice, control=control.part(0, 0.4)
    )
    if not grown:
        return None
    grown.sort(key=lambda one: (-one[0], one[1]))
    best = grown[: 1 if effort < 1 else 8 if len(task.sizes) <= 9 else 3]
    done: list[tuple[float, int, Layout]] = []
    steps = max(8, round(repairs_for(len(task.sizes)) * effort))
    for place, (_, turn, layout, shape) in enumerate(best):
        part = control.part(0.4 + 0.6 * place / len(best), 0.4 + 0.6 * (place + 1) / len(best))
        better = repaired(task, layout, shape, lambda now: worth(task, now), steps=steps, dice=dice, control=part)
        better = in_its_place(task, better)
        done.append((round(worth(task, better), 9), -turn, better))
    chosen = max(done)[2]
    return Found("salon", chosen, seed, steps)


def in_its_place(task: Task, layout: Layout) -> Layout:
    """The group moved to where it is wanted; beside pieces that stay it is left where it leans on them."""
    if task.still:
        return layout
    return settled(task, layout) or layout


def grown_ones(task: Task, *, starts: int, dice: Random, control: Control) -> list[tuple[float, int, Layout, Shape]]:
    """Groups grown from several orders towards several outlines: worth, which turn, places, outline.

    They grow on an empty canvas, to be moved to the wall as one; where that is not free, and by turns
    where things are in the way, on the wall itself.
    """
    areas = [size.width * size.height for size in task.sizes]
    canvas = _canvas(task)
    crowded = len(task.room.keep_outs) > 0 or len(task.room.corners) > 4
    few = len(areas) <= 7
    base = wanted_shape(task)
    if task.width is None:
        base = replace(base, aspect=min(LONGEST / 1.25, base.aspect))
    found: list[tuple[float, int, Layout, Shape]] = []
    turn = 0
    while turn < (starts if found else TRIES):
        control.step(min(turn, starts), starts)
        order = by_size(areas, dice, 0.0 if turn == 0 else 1.0 if few and turn % 4 == 3 else 0.35)
        shape = replace(base, aspect=base.aspect * ASPECTS[turn // 2 % len(ASPECTS)], round_=turn % 4 >= 2)
        corners = turn % 3 == 2 or turn >= starts
        placed: Layout | None = None
        if canvas is not None:
            grown = grow(canvas, order, shape)
            placed = None if grown is None else settled(task, grown)
        if placed is None or (crowded and turn % 2):
            grown = grow(task, order, shape, corners=corners)
            placed = placed if grown is None else in_its_place(task, grown)
        if placed is not None:
            around = replace(shape, focus=box_around(placed).centre)
            found.append((round(worth(task, placed), 9), turn, placed, around))
        turn += 1
    return found


def _canvas(task: Task) -> Task | None:
    """The same frames on an endless wall; None when pieces that stay are to be leant on."""
    if task.still:
        return None
    x, y = task.focus
    far = CANVAS_MM
    room = Room(((x - far, y - far), (x + far, y - far), (x + far, y + far), (x - far, y + far)))
    return replace(task, room=room)


def worth(task: Task, layout: Layout) -> float:
    """What a salon hang is worth: tied in, no uneasy gaps, balanced, compact, big ones in the middle, in its place.

    What misses a bar of good hanging weighs much more than what could merely be better.
    """
    figures = with_still(task, layout)
    box = box_around((*layout, *task.still_boxes))
    aspect = box.width / box.height
    long = 0.0
    if len(layout) > 3 and task.width is None:
        # Four or more in one line are a row or a column, not a salon hang.
        long = max(0.0, aspect / LONGEST - 1) + max(0.0, HIGHEST / aspect - 1)
    return figures_worth(figures) - misplaced(task, layout) - 0.3 * long


def figures_worth(figures: Measures) -> float:
    """The part of the worth that does not depend on the wall."""
    aside, up = figures.balance
    missed = (
        max(0.0, 0.91 - figures.exact_share)
        + max(0.0, 0.98 - figures.rigidity)
        + max(0.0, figures.uneasy_share - 0.04)
        + max(0.0, figures.near_miss_share - 0.015)
        + 0.2 * (figures.parts - 1)
        + 2 * max(0.0, abs(aside) - 0.025)
        + 2 * max(0.0, abs(up) - 0.04)
        + 0.5 * max(0.0, 0.86 - figures.hull)
        + 0.3 * max(0.0, figures.big_in_the_middle - 0.88)
    )
    return (
        0.3 * figures.exact_share
        + 0.4 * figures.hull
        + 0.1 * figures.rigidity
        - 0.5 * figures.uneasy_share
        - 0.5 * figures.near_miss_share
        - 0.3 * math.sqrt(aside * aside + up * up)
        - 0.1 * figures.big_in_the_middle
        - 3 * missed
    )
