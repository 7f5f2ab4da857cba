"""Whether everything can fit, answered before anything is searched for."""

from dataclasses import dataclass, replace
from random import Random

from composer.arranging.block import packed_in
from composer.arranging.growth import Growing, Shape, grow, plain
from composer.arranging.searching import Control, by_size
from composer.arranging.settling import wanted_shape
from composer.arranging.task import Task
from composer.geometry.outline import free_area_mm2
from composer.texts import say, say_many

CROWDED = 0.75
"""From this use of the free wall on, few orders find a place for everything, if any."""

SMALLER_GAPS = (0.8, 0.6, 0.4, 0.2)
TRIES = 20
PACKING_STEPS = 4000


@dataclass(frozen=True, slots=True)
class Fit:
    """The answer.

    Attributes:
        possible: False = it cannot be; the search need not start.
        use: frames with their gaps ÷ free wall; over 0.75 the wall is crowded.
        sentence: what limits, in words; empty while there is air.
    """

    possible: bool
    use: float
    sentence: str = ""


def fit(task: Task) -> Fit:
    """Whether the task's pieces can hang on its wall, as far as that can be said without searching."""
    use = use_of(task)
    if not task.sizes:
        return Fit(True, use)
    gap = task.gap
    alone = Growing(task.room, gap, Shape(task.focus), 1.0, strangers=[plain(box) for box in task.still_boxes])
    for size in task.sizes:
        if alone.first(size.width, size.height) is None:
            return Fit(False, use, _too_big(task, size.number, size.width, size.height))
    if use > 1:
        return Fit(
            False,
            use,
            say(
                "With gaps of {gap} the pieces need {needed} m² of wall; {free} m² are free.",
                gap=task.shown(gap),
                needed=f"{task.grown_area / 1e6:.2f}",
                free=f"{task.grown_area / use / 1e6:.2f}",
            ),
        )
    if use >= CROWDED:
        return Fit(
            True,
            use,
            say("They need {use} % of the free wall; not every way to hang them fits.", use=round(100 * use)),
        )
    return Fit(True, use)


def _too_big(task: Task, number: int, width: float, height: float) -> str:
    bounds = task.room.bounds
    if width > bounds.width + 1e-6 or height > bounds.height + 1e-6:
        return say(
            "Piece {number} is {width} × {height}; the wall has {wide} × {high}.",
            number=number,
            width=task.shown(width),
            height=task.shown(height),
            wide=task.shown(bounds.width),
            high=task.shown(bounds.height),
        )
    return say(
        "Piece {number} is {width} × {height}; nowhere on this wall is that free.",
        number=number,
        width=task.shown(width),
        height=task.shown(height),
    )


def use_of(task: Task) -> float:
    """Area of the frames with half a gap around each ÷ the free wall's, grown by half a gap as well.

    A group's outer frames share no gap with the wall's edge, so the free part counts with a rim of half a
    gap around it; over 1 it is certain that not everything fits.
    """
    half = task.gap / 2
    room = task.room
    bounds = room.bounds
    taken = [out.grown(-half) for out in room.keep_outs if min(out.width, out.height) > task.gap]
    taken += [box.grown(half) for box in task.still_boxes]
    free = free_area_mm2(room.corners, taken)
    # A rim of half a gap, less whatever margin is kept free along the edges.
    free += 2 * (half - room.edge_margin) * (bounds.width + bounds.height) + 4 * half * half
    return task.grown_area / max(1.0, free)


def binding_limit(task: Task, control: Control) -> str:
    """What is in the way after no order found a place for everything, as a sentence with figures."""
    for share in SMALLER_GAPS:
        smaller = replace(task, gap=task.gap * share)
        if smaller.gap > 0 and _any_order(smaller, control):
            return say(
                "With gaps of {gap} no way to hang all of them was found; with {smaller} there is one.",
                gap=task.shown(task.gap),
                smaller=task.shown(smaller.gap),
            )
    most = len(task.sizes)
    while most > 1:
        most -= 1
        ranked = by_size([size.width * size.height for size in task.sizes])
        fewer = replace(task, sizes=tuple(task.sizes[index] for index in sorted(ranked[-most:])))
        if _any_order(fewer, control, tries=4):
            return say_many(
                "There is room for {count} of the {all} pieces at most, the smallest.",
                "There is room for {count} of the {all} pieces, the smaller ones.",
                most,
                all=len(task.sizes),
            )
    return say("With what hangs and stands on this wall no way to hang them was found.")


def _any_order(task: Task, control: Control, tries: int = TRIES) -> bool:
    dice = Random(0)
    areas = [size.width * size.height for size in task.sizes]
    shape = wanted_shape(task)
    for turn in range(tries):
        control.step(turn, tries)
        if grow(task, by_size(areas, dice, 0.0 if turn == 0 else 0.4), shape, corners=True) is not None:
            return True
    return packed_in(task, seed=0, control=Control(cancelled=control.cancelled), steps=PACKING_STEPS) is not None
