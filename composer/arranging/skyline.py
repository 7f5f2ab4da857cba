"""The compact block: frames dropped one after the other to the lowest free spot, the order annealed.

Skyline packing (Jylänki, "A Thousand Ways to Pack the Bin", 2010) on frames grown by the gap. The order
and the width of the block are changed step by step; a worse one is kept while it is not worse by more
than a threshold that sinks to nothing (threshold accepting, Dueck and Scheuer 1990: no exponential is
needed, so every machine decides alike).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum
from random import Random

from composer.arranging.searching import Control, below, by_size, shuffled
from composer.arranging.task import Layout, Size, box_around
from composer.geometry.rectangle import Rectangle

KEPT = 160
CHECK_EVERY = 256


@dataclass(frozen=True, slots=True)
class Band:
    """Which blocks are wanted: limits of width ÷ height, and of both, mm."""

    narrowest: float = 1.0
    widest: float = 2.0
    width: float = float("inf")
    height: float = float("inf")

    def beyond(self, width: float, height: float) -> float:
        """How far a block is outside the band, as a share."""
        aspect = width / height
        off = 0.0
        if aspect < self.narrowest:
            off += self.narrowest / aspect - 1
        elif aspect > self.widest:
            off += aspect / self.widest - 1
        if width > self.width:
            off += width / self.width - 1
        if height > self.height:
            off += height / self.height - 1
        return off


def packed(
    order: Sequence[int], widths: Sequence[float], heights: Sequence[float], free_width: float
) -> tuple[list[tuple[float, float]], float, float]:
    """Lower left corners by index, and width and height used, for frames dropped in that order."""
    xs, ys, ends = [0.0], [0.0], [free_width]
    places: list[tuple[float, float]] = [(0.0, 0.0)] * len(widths)
    used_width = used_height = 0.0
    for index in order:
        width, height = widths[index], heights[index]
        best_y = best_top = float("inf")
        best = -1
        count = len(xs)
        for start in range(count):
            right = xs[start] + width
            if right > free_width + 1e-6:
                break
            y = ys[start]
            if y >= best_y:
                continue
            step = start + 1
            while step < count and xs[step] < right - 1e-6:
                if ys[step] > y:
                    y = ys[step]
                    if y >= best_y:
                        break
                step += 1
            if y < best_y:
                best_y, best = y, start
        if best < 0:
            return places, float("inf"), float("inf")
        x = xs[best]
        right, best_top = x + width, best_y + height
        places[index] = (x, best_y)
        stop = best
        while stop < count and ends[stop] <= right + 1e-6:
            stop += 1
        if stop < count and xs[stop] < right:
            xs[stop] = right
        xs[best:stop] = [x]
        ys[best:stop] = [best_top]
        ends[best:stop] = [right]
        used_width = right if right > used_width else used_width
        used_height = best_top if best_top > used_height else used_height
    return places, used_width, used_height


def blocks(
    sizes: Sequence[Size], gap: float, band: Band, *, steps: int, dice: Random, control: Control
) -> list[Layout]:
    """The most compact blocks found, the best first, their lower left corners at the origin."""
    widths, heights = [size.width + gap for size in sizes], [size.height + gap for size in sizes]
    area = fsum(width * height for width, height in zip(widths, heights, strict=True))
    count = len(sizes)
    widest = max(widths)
    kept: dict[tuple[tuple[float, float], ...], float] = {}

    def cost_of(order: Sequence[int], free_width: float) -> float:
        places, width, height = packed(order, widths, heights, free_width)
        if width == float("inf"):
            return float("inf")
        off = band.beyond(width - gap, height - gap)
        cost = round(width * height / area + (0.0 if off <= 1e-9 else 0.05 + 4 * off), 9)
        if len(kept) < KEPT or cost < worst[0]:
            # Blocks of one size differ inside; several are kept, as some have evener gaps than others.
            kept[tuple(places)] = cost
            if len(kept) > 2 * KEPT:
                for spare in sorted(kept, key=lambda at: (kept[at], at))[KEPT:]:
                    del kept[spare]
                worst[0] = max(kept.values())
        return cost

    worst = [float("inf")]
    rounds = 4 if count > 3 else 1
    done = 0
    for turn in range(rounds):
        order = by_size([width * height for width, height in zip(widths, heights, strict=True)], dice, 0.2 * turn)
        if turn % 2:
            order = shuffled(order, dice)
        aspect = band.narrowest + (band.widest - band.narrowest) * dice.random()
        free_width = max(widest, min(_root(area * aspect * 1.05), band.width + gap))
        cost = cost_of(order, free_width)
        length = steps // rounds
        for step in range(length):
            if done % CHECK_EVERY == 0:
                control.step(done, steps)
            done += 1
            left = 1 - step / length
            threshold = 0.06 * left * left
            tried, tried_width = list(order), free_width
            move = dice.random()
            if move < 0.4 and count > 1:
                one, other = below(count, dice), below(count, dice)
                tried[one], tried[other] = tried[other], tried[one]
            elif move < 0.8 and count > 1:
                tried.insert(below(count, dice), tried.pop(below(count, dice)))
            else:
                tried_width = max(widest, free_width * (0.9 + 0.2 * dice.random()))
                if dice.random() < 0.5:
                    tried_width = max(widest, _sum_of_some(widths, free_width, dice))
            tried_width = max(widest, min(tried_width, band.width + gap))
            tried_cost = cost_of(tried, tried_width)
            if tried_cost <= cost + threshold:
                order, free_width, cost = tried, tried_width, tried_cost
    ranked = sorted(kept, key=lambda at: (kept[at], at))[:KEPT]
    return [
        tuple(Rectangle.at(x, y, size.width, size.height) for (x, y), size in zip(places, sizes, strict=True))
        for places in ranked
    ]


def stretched(layout: Layout, band: Band) -> Layout | None:
    """A block a little too flat or too steep, with one frame of an outer edge moved out until it is neither.

    The smallest frame at that edge moves, away from all others, so no gap gets narrower. None when
    more than a tenth is missing.
    """
    box = box_around(layout)
    too_flat, too_steep = box.width / band.widest - box.height, box.height * band.narrowest - box.width
    more = max(too_flat, too_steep)
    if more <= 0 or more > 0.1 * (box.height if too_flat > 0 else box.width):
        return None
    edge = 3 if too_flat > 0 else 2
    outer = [place for place, one in enumerate(layout) if one[edge] >= box[edge] - 1e-6]
    moving = min(outer, key=lambda place: (layout[place].width * layout[place].height, place))
    dx, dy = (0.0, more) if edge == 3 else (more, 0.0)
    return tuple(one.moved(dx, dy) if place == moving else one for place, one in enumerate(layout))


def _root(value: float) -> float:
    return math.sqrt(value)


def _sum_of_some(widths: Sequence[float], near: float, dice: Random) -> float:
    """A width that some frames side by side fill exactly, not far from ``near``."""
    total = 0.0
    for index in shuffled(range(len(widths)), dice):
        if total + widths[index] <= near * 1.1:
            total += widths[index]
    return total
