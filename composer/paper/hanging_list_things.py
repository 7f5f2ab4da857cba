"""What a hanging list says to take along, how things are counted, and what is good enough."""

import math
from collections.abc import Sequence

from composer.catalogue.catalogue import Catalogue
from composer.catalogue.names import name_of
from composer.catalogue.records import Fixing
from composer.hanging.fixings import RAIL_SCREWS
from composer.hanging.tally import tally
from composer.hanging.tolerances import GAP_MM, PRINTED_LEAST_MM, pair_tolerance_mm
from composer.model import Arrangement
from composer.paper.figures import Figures
from composer.paper.template_subject import Subject
from composer.texts import say, say_many
from composer.units import Mm


def size_words(size: str) -> str:
    """What a size of strips is called."""
    return {"small": say("small"), "medium": say("medium"), "large": say("large")}[size]


def counted(fixing: Fixing, count: int, figures: Figures) -> str:
    """So many of a fixing, as one says it in a shop: "2 screws 4 × 40, plugs 6"; on a sheet in inches with "mm"."""
    size = say("{size} mm", size=fixing.size) if figures.imperial else fixing.size
    if fixing.fixing_kind == "nail" and fixing.size and not fixing.name:
        return say_many("{count} nail {size}", "{count} nails {size}", count, size=size)
    if fixing.plug_mm is not None and not fixing.name:
        return say_many(
            "{count} screw {size}, plug {plug}",
            "{count} screws {size}, plugs {plug}",
            count,
            size=size,
            plug=f"{fixing.plug_mm:g}",
        )
    if fixing.fixing_kind == "cleat":
        screws = RAIL_SCREWS * count
        return say_many("wall rail, {screws} screws", "{count} wall rails, {screws} screws", count, screws=screws)
    return say("{count} × {fixing}", count=count, fixing=name_of(fixing))


def things_to_take(chosen: Sequence[Subject], known: Catalogue, figures: Figures) -> str:
    """Hardware, then tools, as one line."""
    counts = tally(((one.piece, bool(one.placement and one.placement.turned)) for one in chosen), known)
    parts = [counted(known.fixings[fixing], count, figures) for fixing, count in counts.fixings.items()]
    if counts.unchosen:
        listed = ", ".join(str(number) for number in sorted(counts.unchosen))
        parts.append(say("fixings for {numbers}: choose them", numbers=listed))
    drills = [f"{size:g}" for size in sorted(counts.drills_mm)]
    parts += [
        say("drill {size} mm", size=size) if figures.imperial else say("drill {size}", size=size) for size in drills
    ]
    for size, pairs in counts.pairs.items():
        parts.append(
            say_many("{count} pair of strips, {size}", "{count} pairs of strips, {size}", pairs, size=size_words(size))
        )
    if counts.bumpers:
        parts.append(say("{count} bumpers", count=counts.bumpers))
    if counts.by_strips:
        parts.append(say("alcohol wipes"))
    parts += [say("tape measure"), say("spirit level"), say("pencil")]
    kinds = {known.fixings[fixing].fixing_kind for fixing in counts.fixings}
    if kinds & {"hook", "nail"} or counts.unchosen:
        parts.append(say("hammer"))
    if kinds & {"screw", "cleat"}:
        parts.append(say("screwdriver"))
    if counts.bumpers:
        parts.append(say("cable detector"))
    parts.append(say("low-tack tape"))
    return "\u00a0· ".join(parts)


def good_enough(chosen: Sequence[Subject], arrangement: Arrangement, figures: Figures) -> str:
    """The tolerances of nails, pairs and gaps."""
    gap = figures.bare(arrangement.gap.mm)
    spacings = [
        one.hanging.points[1].x - one.hanging.points[0].x
        for one in chosen
        if len(one.hanging.points) == 2 and one.hanging.holes
    ]
    nail = _tolerance(PRINTED_LEAST_MM, figures)
    words = [say("nail ±{mm}", mm=nail)]
    if spacings:
        words.append(say("pair level ±{mm}", mm=_tolerance(pair_tolerance_mm(Mm(min(spacings))), figures)))
    words.append(say("every gap {gap} ±{mm}", gap=gap, mm=_tolerance(GAP_MM, figures)))
    return say("Good enough: {what}", what=", ".join(words))


def _tolerance(mm: float, figures: Figures) -> str:
    """A tolerance as a tape is read; in inches the next sixteenth down, at least one."""
    if figures.imperial:
        return figures.bare(max(1, math.floor(mm / (25.4 / 16))) * 25.4 / 16)
    return f"{mm:g}"
