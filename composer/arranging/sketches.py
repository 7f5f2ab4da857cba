"""Sketches: a handful of arrangements that really differ, each with a plain sentence."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from random import Random

from composer.arranging.fitting import fit
from composer.arranging.growth import grow
from composer.arranging.measures import Measures, distance, measure
from composer.arranging.patterns import PATTERNS, DoesNotFit, arrange, with_air
from composer.arranging.repair import repaired
from composer.arranging.salon import grown_ones, in_its_place, worth
from composer.arranging.searching import Control, by_size
from composer.arranging.settling import Found, Unsuited, wanted_shape
from composer.arranging.task import Layout, Task, box_around
from composer.texts import say

DISTINCT = 0.10
"""Arrangements nearer to each other than this share of the diagonal are the same one, nudged."""

QUICK = 0.15
STARTS = 12
REPAIRS = 30
MOST = 12


@dataclass(frozen=True, slots=True)
class Sketch:
    """One proposal.

    Attributes:
        found: the arrangement, to be adopted as it is.
        sentence: what it is, in words.
        figures: its measures.
    """

    found: Found
    sentence: str
    figures: Measures


@dataclass(frozen=True, slots=True)
class NotOffered:
    """A pattern that does not suit, and why, with figures."""

    pattern: str
    reason: str


def sketches(
    task: Task, *, seed: int = 0, most: int = MOST, control: Control | None = None
) -> Iterator[Sketch | NotOffered]:
    """Proposals as they are found, every two at least a tenth of the diagonal apart.

    First one of each pattern that suits, then more salon hangs of other outlines.

    Raises:
        DoesNotFit: before anything is searched for, when not everything can fit.
        Cancelled: by the person.
    """
    control = control or Control()
    if not task.sizes:
        return
    answer = fit(task)
    if not answer.possible:
        raise DoesNotFit(answer.sentence)
    kept: list[Layout] = []
    patterns = [name for name in PATTERNS if name not in NEVER_FOR_ONE or len(task.sizes) > 1]
    for place, pattern in enumerate(patterns):
        part = control.part(0.7 * place / len(patterns), 0.7 * (place + 1) / len(patterns))
        part.step(0, 1)
        try:
            found = arrange(task, pattern, seed=seed, effort=QUICK, control=part)
        except Unsuited as unsuited:
            yield NotOffered(pattern, str(unsuited))
            continue
        except DoesNotFit as no:
            if pattern == "salon":
                raise
            yield NotOffered(pattern, str(no))
            continue
        if _differs(found.layout, kept):
            kept.append(found.layout)
            yield _sketch(task, found)
    if len(task.sizes) < 3:
        return
    for found in _more(task, seed, control.part(0.7, 1)):
        if len(kept) >= most:
            return
        if _differs(found.layout, kept):
            kept.append(found.layout)
            yield _sketch(task, found)


NEVER_FOR_ONE = ("block", "row", "column", "grid", "rows", "cross", "stair", "mirror")
"""One piece hangs in one way only."""


def _more(task: Task, seed: int, control: Control) -> Iterator[Found]:
    """Salon hangs of several outlines, the best first, each repaired a little."""
    airy = with_air(task)
    dice = Random(seed + 1)
    grown = grown_ones(airy, starts=STARTS, dice=dice, control=control.part(0, 0.4))
    grown.sort(key=lambda one: (-one[0], one[1]))
    for place, (_, turn, layout, shape) in enumerate(grown):
        share = 0.4 + 0.6 * place / len(grown)
        part = control.part(share, share + 0.6 / len(grown))
        steps = max(6, min(REPAIRS, 600 // len(layout)))
        better = repaired(
            airy, layout, shape, lambda now: worth(airy, now), steps=steps, dice=Random(seed + 100 + turn), control=part
        )
        yield Found("salon", in_its_place(airy, better), seed, steps)


def variations(
    task: Task, like: Sequence[Found], *, seed: int = 0, most: int = 6, control: Control | None = None
) -> Iterator[Sketch]:
    """Other salon hangs with the outline of one that is liked; each differs from it and from the others.

    Args:
        task: what is arranged; pieces to be kept where they are belong to its still ones.
        like: the arrangement to vary first, then others not to be repeated.
        seed: of the search.
        most: how many.
        control: progress and cancelling.
    """
    control = control or Control()
    if not like or not like[0].layout:
        return
    kept = [found.layout for found in like]
    airy = with_air(task)
    box = box_around(kept[0])
    base = replace(wanted_shape(task), focus=box.centre, aspect=min(4.0, max(0.3, box.width / box.height)))
    dice = Random(seed + 7)
    areas = [size.width * size.height for size in task.sizes]
    tries = 5 * most
    given = 0
    for turn in range(tries):
        control.step(turn, tries)
        shape = replace(base, round_=turn % 2 == 1)
        order = by_size(areas, dice, 0.5)
        layout = grow(airy, order, shape) or grow(task, order, shape, corners=True)
        if layout is None:
            continue
        layout = in_its_place(airy, layout)
        steps = max(6, min(REPAIRS, 600 // len(layout)))
        layout = repaired(airy, layout, shape, lambda now: worth(airy, now), steps=steps, dice=dice, control=Control())
        layout = in_its_place(airy, layout)
        if _differs(layout, kept):
            kept.append(layout)
            given += 1
            yield _sketch(task, Found("salon", layout, seed, steps))
            if given >= most:
                return


def _differs(layout: Layout, kept: Sequence[Layout]) -> bool:
    return all(round(distance(layout, other), 6) >= DISTINCT for other in kept)


def _sketch(task: Task, found: Found) -> Sketch:
    figures = measure((*found.layout, *task.still_boxes), task.gap)
    return Sketch(found, sentence_of(task, found), figures)


def sentence_of(task: Task, found: Found) -> str:
    """What an arrangement is, in one plain sentence with its size."""
    box = box_around(found.layout)
    width, height = task.shown(box.width), task.shown(box.height)
    count = len(found.layout)
    if count == 1:
        return say("One piece, its middle {height} above the floor.", height=task.shown(box.centre[1]))
    if found.pattern == "row":
        return say("One row, {width} long, the biggest in the middle.", width=width)
    if found.pattern == "column":
        return say("One column, {height} high, the biggest in the middle.", height=height)
    if found.pattern == "rows":
        return say("Rows that lean on a level line, {width} × {height}.", width=width, height=height)
    if found.pattern == "grid":
        across = len({round(one.centre[0], 3) for one in found.layout})
        return say(
            "A grid of {across} by {down}, {width} × {height}.",
            across=across,
            down=count // across,
            width=width,
            height=height,
        )
    if found.pattern == "block":
        return say("A tight block, {width} × {height}.", width=width, height=height)
    if found.pattern == "cross":
        return say("Four groups about a cross of free wall, {width} × {height}.", width=width, height=height)
    if found.pattern == "mirror":
        return say("Left and right the same, {width} × {height}.", width=width, height=height)
    if found.pattern == "stair":
        return say("A row that climbs with the stair, {width} long.", width=width)
    aspect = box.width / box.height
    number = task.sizes[_in_the_middle(found.layout)].number
    if aspect > 1.25:
        return say("A wide salon hang around {number}, {width} × {height}.", number=number, width=width, height=height)
    if aspect < 0.8:
        return say("A tall salon hang around {number}, {width} × {height}.", number=number, width=width, height=height)
    return say("A round salon hang around {number}, {width} × {height}.", number=number, width=width, height=height)


def _in_the_middle(layout: Layout) -> int:
    """Index of the frame whose middle is nearest to the group's."""
    x, y = box_around(layout).centre
    return min(
        range(len(layout)),
        key=lambda index: (round(abs(layout[index].centre[0] - x) + abs(layout[index].centre[1] - y), 6), index),
    )
