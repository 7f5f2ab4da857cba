"""Cross and mirror: groups built about an axis."""

from collections.abc import Sequence
from dataclasses import replace
from random import Random

from composer.arranging.growth import Box, Growing, Shape, place_one, radius_of
from composer.arranging.measures import Measures
from composer.arranging.room import Room
from composer.arranging.salon import CANVAS_MM, figures_worth
from composer.arranging.searching import Control, by_size
from composer.arranging.settling import Found, Tries, Unsuited, free_height, misplaced, wanted_shape, with_still
from composer.arranging.tables import NEAR_MISS_MOST, UNEASY_MOST
from composer.arranging.task import Layout, Size, Task, box_around
from composer.geometry.rectangle import Rectangle
from composer.texts import say

STARTS = 24
PAIRED_LEAST = 0.6
LEFT_OVER_MOST = 3
ALIKE_MM = 30.0
"""Width and height of a pair may differ by so much together."""


def cross(task: Task, *, seed: int, effort: float = 1.0, control: Control) -> Found:
    """Four quarters about a free cross as wide as the gap, each grown from its inner corner.

    Raises:
        Unsuited: for fewer than four pieces, or when the wall has no room.
    """
    count = len(task.sizes)
    if count < 4:
        raise Unsuited(say("A cross needs 4 pieces or more; there are {count}.", count=count))
    dice = Random(seed)
    areas = [size.width * size.height for size in task.sizes]
    shape = replace(wanted_shape(task), focus=(0.0, 0.0))
    starts = max(4, round(STARTS * effort))
    tried: list[tuple[float, int, Layout]] = []
    tries = Tries(task)
    smallest: Rectangle | None = None
    for turn in range(starts):
        control.step(turn, starts)
        order = by_size(areas, dice, 0.0 if turn == 0 else 0.4)
        layout = _quartered(task, order, replace(shape, aspect=shape.aspect * (1.0, 0.8, 1.25)[turn % 3]))
        box = box_around(layout)
        if smallest is None or box.width * box.height < smallest.width * smallest.height:
            smallest = box
        here = tries.placed(layout)
        if here is not None:
            worth = figures_worth(with_still(task, here)) - misplaced(task, here)
            tried.append((round(worth, 9), -turn, here))
    if not tried:
        if tries.reason:
            raise Unsuited(tries.reason)
        assert smallest is not None
        raise Unsuited(
            say(
                "The cross is {width} × {height}; nowhere on this wall is that free.",
                width=task.shown(smallest.width),
                height=task.shown(smallest.height),
            )
        )
    return Found("cross", max(tried)[2], seed, starts)


def _quartered(task: Task, order: Sequence[int], shape: Shape) -> Layout:
    half, far = task.gap / 2, CANVAS_MM
    zones: list[Box] = [
        (half, half, far, far),
        (-far, half, -half, far),
        (-far, -far, -half, -half),
        (half, -far, far, -half),
    ]
    room = Room(((-far, -far), (far, -far), (far, far), (-far, far)))
    quarters = [Growing(room, task.gap, shape, radius_of(task), zone=zone) for zone in zones]
    filled = [0.0] * 4
    placed: dict[int, Box] = {}
    for place, index in enumerate(order):
        size = task.sizes[index]
        # Opposite quarters first, so that two big ones face each other across the middle.
        quarter = (0, 2, 1, 3)[place] if place < 4 else min(range(4), key=lambda q: (round(filled[q], 6), q))
        growing = quarters[quarter]
        box = place_one(growing, size)
        if box is None:
            raise AssertionError("an endless quarter has room")
        growing.boxes.append(box)
        filled[quarter] += size.width * size.height
        placed[index] = box
    return tuple(Rectangle(*placed[index]) for index in range(len(order)))


def mirror(task: Task, *, seed: int, effort: float = 1.0, control: Control) -> Found:
    """Pairs of nearly equal pieces left and right of an upright axis, what is left over on the axis.

    Raises:
        Unsuited: when too few pieces pair up, gaps would be uneven, or the wall has no room.
    """
    count = len(task.sizes)
    pairs, alone = paired(task.sizes)
    share = 2 * len(pairs) / count
    if not pairs or share < PAIRED_LEAST or len(alone) > LEFT_OVER_MOST:
        raise Unsuited(
            say(
                "{paired} of {count} pieces pair up within {alike}; a mirror needs {least} % of them, "
                "and {most} left over at most.",
                paired=2 * len(pairs),
                count=count,
                alike=task.shown(ALIKE_MM),
                least=round(100 * PAIRED_LEAST),
                most=LEFT_OVER_MOST,
            )
        )
    dice = Random(seed)
    starts = max(4, round(STARTS * effort))
    tried: list[tuple[float, int, Layout]] = []
    tries = Tries(task)
    spoilt: Measures | None = None
    for turn in range(starts):
        control.step(turn, starts)
        layout = _mirrored(task, pairs, alone, dice, 0.0 if turn == 0 else 0.4, turn)
        if layout is None:
            continue
        here = tries.placed(layout)
        if here is None:
            continue
        figures = with_still(task, here)
        if figures.uneasy_share > UNEASY_MOST or figures.near_miss_share > NEAR_MISS_MOST:
            spoilt = figures if spoilt is None or figures.uneasy_share < spoilt.uneasy_share else spoilt
            continue
        tried.append((round(figures_worth(figures) - misplaced(task, here), 9), -turn, here))
    if tried:
        return Found("mirror", max(tried)[2], seed, starts)
    if spoilt is not None:
        raise Unsuited(
            say(
                "Mirrored, {uneasy} % of the gaps would be a little wider than {gap} and {near} % of the edges "
                "would nearly line up.",
                uneasy=round(100 * spoilt.uneasy_share),
                gap=task.shown(task.gap),
                near=round(100 * spoilt.near_miss_share),
            )
        )
    if tries.reason:
        raise Unsuited(tries.reason)
    raise Unsuited(
        say(
            "Mirrored, they find no place on this wall, {width} wide and {height} high above what stands there.",
            width=task.shown(task.room.bounds.width),
            height=task.shown(free_height(task)),
        )
    )


def paired(sizes: Sequence[Size]) -> tuple[list[tuple[int, int]], list[int]]:
    """Pairs of pieces whose sizes differ least, as indices, and who is left over."""
    count = len(sizes)
    close = sorted(
        (abs(sizes[i].width - sizes[j].width) + abs(sizes[i].height - sizes[j].height), i, j)
        for i in range(count)
        for j in range(i + 1, count)
    )
    taken: set[int] = set()
    pairs = []
    for off, i, j in close:
        if off <= ALIKE_MM and i not in taken and j not in taken:
            taken |= {i, j}
            pairs.append((i, j))
    return pairs, [index for index in range(count) if index not in taken]


def _mirrored(
    task: Task, pairs: Sequence[tuple[int, int]], alone: Sequence[int], dice: Random, noise: float, turn: int
) -> Layout | None:
    """The right half grown about the axis, the left half its image.

    Each pair's places are made for the larger width and height of the two; the smaller one keeps the
    edge towards the axis and the edge towards the group's middle.
    """
    gap, far = task.gap, CANVAS_MM
    sizes = task.sizes
    shape = replace(wanted_shape(task), focus=(0.0, 0.0))
    room = Room(((-far, -far), (far, -far), (far, far), (-far, far)))
    growing = Growing(room, gap, shape, radius_of(task))
    places: dict[int, Box] = {}
    stack = sorted(alone, key=lambda index: (-sizes[index].width * sizes[index].height, index))
    top = bottom = 0.0
    for place, index in enumerate(stack):
        width, height = sizes[index].width, sizes[index].height
        if place == 0:
            box = (-width / 2, -height / 2, width / 2, height / 2)
            top, bottom = height / 2, -height / 2
        elif place % 2:
            box = (-width / 2, bottom - gap - height, width / 2, bottom - gap)
            bottom -= gap + height
        else:
            box = (-width / 2, top + gap, width / 2, top + gap + height)
            top += gap + height
        places[index] = box
        growing.boxes.append(box)
    zone = (gap / 2, -far, far, far)
    growing.zone = zone
    ranked = by_size([max(_area(sizes[i]), _area(sizes[j])) for i, j in pairs], dice, noise)
    for place, pair_index in enumerate(ranked):
        i, j = pairs[pair_index]
        width, height = max(sizes[i].width, sizes[j].width), max(sizes[i].height, sizes[j].height)
        if not growing.boxes:
            box = (gap / 2, -height / 2, gap / 2 + width, height / 2)
        else:
            found = growing.best(width, height)
            if found is None:
                return None
            box = found
        growing.boxes.append(box)
        right, left = (i, j) if (place + turn) % 2 == 0 else (j, i)
        places[right] = _within(box, sizes[right])
        image = _within(box, sizes[left])
        places[left] = (-image[2], image[1], -image[0], image[3])
    return tuple(Rectangle(*places[index]) for index in range(len(sizes)))


def _within(box: Box, size: Size) -> Box:
    bottom = box[1] if box[1] + box[3] >= 0 else box[3] - size.height
    return (box[0], bottom, box[0] + size.width, bottom + size.height)


def _area(size: Size) -> float:
    return size.width * size.height
