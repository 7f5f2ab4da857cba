"""Where a finished group goes on the wall, what outline suits the wall, and how far off it ended up."""

import math
from dataclasses import dataclass

from composer.arranging.growth import Shape
from composer.arranging.measures import Measures, measure
from composer.arranging.room import nearest_shift
from composer.arranging.task import ABOVE_LEAST_MM, WIDTH_LEAST, WIDTH_MOST, Layout, Task, box_around
from composer.texts import say

CENTRED_MM = 20.0
"""A group whose middle is this near to where it is wanted counts as centred."""

USUAL_ASPECT = 1.5
FILL = 1.2
"""Box of a salon hang ÷ its frames with their gaps, about."""


class Unsuited(Exception):
    """A pattern does not suit these frames on this wall; the message is a finished sentence with the figures."""


@dataclass(frozen=True, slots=True)
class Found:
    """One finished arrangement.

    Attributes:
        pattern: how it was made.
        layout: places of the task's pieces, in their order.
        seed, steps: with which it is found again.
    """

    pattern: str
    layout: Layout
    seed: int = 0
    steps: int = 0


def settled(task: Task, layout: Layout) -> Layout | None:
    """The group moved as one to where it is wanted, or as near to it as it hangs free; None = nowhere."""
    box = box_around(layout)
    shift = nearest_shift(
        task.room,
        layout,
        task.still_boxes,
        task.gap,
        across=task.focus[0] - box.centre[0],
        up=task.wanted_bottom(box.height) - box.bottom,
    )
    if shift is None:
        return None
    return tuple(one.moved(*shift) for one in layout)


def off_centre(task: Task, layout: Layout) -> tuple[float, float]:
    """How far the group's middle lies right of and above where it is wanted, mm."""
    box = box_around(layout)
    return (
        box.centre[0] - task.focus[0],
        box.bottom - task.wanted_bottom(box.height),
    )


def settled_well(task: Task, layout: Layout) -> Layout | None:
    """As :func:`settled`, for patterns that must hang where they are wanted, or not at all.

    Their middle must come within 20 mm of the wanted height, and over furniture they must stay over it.

    Raises:
        Unsuited: when the wall leaves them free only elsewhere.
    """
    here = settled(task, layout)
    if here is None:
        return None
    aside, up = off_centre(task, here)
    box = box_around(here)
    if abs(up) > CENTRED_MM:
        sentence = (
            say(
                "{width} × {height} as it is, its middle would hang {off} above where it belongs.",
                width=task.shown(box.width),
                height=task.shown(box.height),
                off=task.shown(up),
            )
            if up > 0
            else say(
                "{width} × {height} as it is, its middle would hang {off} below where it belongs.",
                width=task.shown(box.width),
                height=task.shown(box.height),
                off=task.shown(-up),
            )
        )
        raise Unsuited(sentence)
    if task.furniture is not None and abs(aside) > task.furniture.width / 6:
        raise Unsuited(
            say(
                "{width} × {height} as it is, it would hang {off} beside the middle of the furniture.",
                width=task.shown(box.width),
                height=task.shown(box.height),
                off=task.shown(abs(aside)),
            )
        )
    return here


class Tries:
    """Layouts tried one after the other, and why the first that found no good place found none."""

    def __init__(self, task: Task) -> None:
        self._task = task
        self.reason = ""

    def placed(self, layout: Layout) -> Layout | None:
        """As :func:`settled_well`, but the reason is kept instead of raised."""
        try:
            return settled_well(self._task, layout)
        except Unsuited as unsuited:
            self.reason = self.reason or str(unsuited)
            return None


def free_height(task: Task) -> float:
    """From the top of the wall down to the floor or to what must be free above the furniture, mm."""
    bounds = task.room.bounds
    floor = bounds.bottom
    if task.furniture is not None:
        floor = max(floor, task.furniture.top + (ABOVE_LEAST_MM if task.above is None else task.above))
    return max(1.0, bounds.top - floor)


def wanted_shape(task: Task, *, fill: float = FILL) -> Shape:
    """The outline a group should grow towards on this wall.

    Over furniture it is two thirds to three quarters as wide as that, elsewhere half as wide again as
    high; wider where the wall is too low for that, higher where it is too narrow.
    """
    bounds = task.room.bounds
    x, _ = task.focus
    area = task.grown_area * fill
    room_across = 2 * min(x - bounds.left, bounds.right - x)
    widest = max(size.width for size in task.sizes) + task.gap
    if task.width is not None:
        width = task.width + task.gap
    elif task.furniture is not None:
        width = max(widest, task.furniture.width * (WIDTH_LEAST + WIDTH_MOST) / 2 + task.gap)
        width = max(width, math.sqrt(area * 0.6))
    else:
        width = math.sqrt(area * USUAL_ASPECT)
    high = free_height(task) + task.gap
    width = max(width, area / high)
    if width > room_across + task.gap > widest:
        width = room_across + task.gap
    height = area / width
    bottom = task.wanted_bottom(min(height, high) - task.gap)
    return Shape((x, bottom + (min(height, high) - task.gap) / 2), aspect=min(4.0, max(0.3, width / height)))


def with_still(task: Task, layout: Layout) -> Measures:
    """Figures of a group together with the pieces that stay."""
    return measure((*layout, *task.still_boxes), task.gap)


def misplaced(task: Task, layout: Layout) -> float:
    """What a group's place costs: 0 while it is centred, more the farther off and the wider than wanted."""
    aside, up = off_centre(task, layout)
    cost = max(0.0, abs(aside) - CENTRED_MM / 2) + 2 * max(0.0, abs(up) - CENTRED_MM / 2)
    box = box_around(layout)
    off = 0.0
    if task.width is not None:
        off = abs(box.width - task.width) / task.width
    elif task.furniture is not None:
        share = box.width / task.furniture.width
        off = max(0.0, WIDTH_LEAST - share) / 3 + max(0.0, share - WIDTH_MOST)
    return cost / 500 + off / 2
