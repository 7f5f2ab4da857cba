"""When it hangs wrong: how far off it is, whether that is seen, and what to do about it."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from composer.hanging.balance import LEVEL_DEG, SEEN_TILT_DEG, tilt_of_pair_deg
from composer.hanging.records import PieceHanging
from composer.hanging.tolerances import NEIGHBOUR_EDGES_MM, PRINTED_LEAST_MM, pair_tolerance_mm, tape_error_mm
from composer.paper.figures import Figures
from composer.texts import say
from composer.units import Mm

Complaint = Literal["crooked", "too-low", "too-high", "leans", "loose"]


class Deviation(NamedTuple):
    """How far a piece hangs from its plan, mm: right and up are positive; ``tilt_mm``: left point too high."""

    right: float
    up: float
    tilt_mm: float
    tilt_deg: float


def deviation(planned: Sequence[tuple[float, float]], measured: Sequence[tuple[float, float]]) -> Deviation:
    """The mean way from the plan, and for two points how far they are out of level against it."""
    offs = [(x - px, y - py) for (x, y), (px, py) in zip(measured, planned, strict=True)]
    right = sum(dx for dx, _ in offs) / len(offs)
    up = sum(dy for _, dy in offs) / len(offs)
    if len(offs) != 2:
        return Deviation(right, up, 0.0, 0.0)
    tilt = offs[0][1] - offs[1][1]
    spacing = abs(measured[1][0] - measured[0][0])
    return Deviation(right, up, tilt, tilt_of_pair_deg(Mm(tilt), Mm(spacing)) if spacing else 0.0)


def verdict(found: Deviation, spacing_mm: float, figures: Figures, reach_mm: float = 0.0) -> str:
    """One sentence about a measured piece: good, or what is off and whether it is seen.

    Args:
        found: how far it is off.
        spacing_mm: between its two points.
        figures: how numbers are written.
        reach_mm: from the corner it was measured from; a tape of class II tells no more than its own error
            (Directive 2014/32/EU, annex X).
    """
    sideways = max(NEIGHBOUR_EDGES_MM, tape_error_mm(Mm(reach_mm), from_hook=True) if reach_mm else Mm(0.0))
    if abs(found.tilt_mm) > pair_tolerance_mm(Mm(spacing_mm)) and found.tilt_deg > LEVEL_DEG:
        seen = found.tilt_deg > SEEN_TILT_DEG
        off = figures.bare(round(abs(found.tilt_mm), 1))
        if found.tilt_mm > 0:
            if seen:
                return say("Its left point is {off} too high against the right one. That is seen.", off=off)
            return say("Its left point is {off} too high against the right one. Few people see it.", off=off)
        if seen:
            return say("Its right point is {off} too high against the left one. That is seen.", off=off)
        return say("Its right point is {off} too high against the left one. Few people see it.", off=off)
    if abs(found.up) > NEIGHBOUR_EDGES_MM:
        off = figures.bare(round(abs(found.up), 1))
        return say("It hangs {off} too high.", off=off) if found.up > 0 else say("It hangs {off} too low.", off=off)
    if abs(found.right) > sideways:
        off = figures.bare(round(abs(found.right), 1))
        if found.right > 0:
            return say("It hangs {off} too far right.", off=off)
        return say("It hangs {off} too far left.", off=off)
    if max(abs(found.up), abs(found.right)) > PRINTED_LEAST_MM:
        return say("Good: nobody sees that.")
    return say("Good.")


def cures(hanging: PieceHanging, complaint: Complaint) -> tuple[str, ...]:
    """What to try, the simplest first."""
    if hanging.strips is not None:
        return _of_strips(complaint)
    two = len(hanging.points) == 2
    wire = hanging.kind == "wire"
    if complaint == "crooked":
        return _crooked(two=two, wire=wire)
    if complaint == "leans":
        return (
            say("Stick bumpers as thick as the hook at both lower corners."),
            say("Set the rings higher on the frame; do not tighten the wire."),
        )
    if complaint == "loose":
        return (
            say("Take it down at once. A nail that moves holds nothing."),
            say("Set the next nail 30 mm beside it, or choose a stronger fixing; fill the old hole."),
        )
    if wire:
        return _wire_height(low=complaint == "too-low")
    return (
        say("Note where it hangs; if its neighbours are not up yet, let the plan follow the wall."),
        say("Else set the nail anew, at least 30 mm from the old hole, and move the hanger on the frame by the rest."),
    )


def _crooked(*, two: bool, wire: bool) -> tuple[str, ...]:
    if two and wire:
        return (
            say("Lift it, let the wire run on both hooks, set it down, level it."),
            say("Measure both hooks from the level line; bend or move the one that is off."),
        )
    if two:
        return (
            say("Measure both nails from the level line and both drops: unequal rings want unequal nails."),
            say("Bend the higher hook down a little, or wind tape round the ring that hangs lower."),
        )
    if wire:
        return (
            say("Shift the wire on its hook until it is level."),
            say("A little putty at both lower corners keeps it there; two hooks cure it for good."),
        )
    return (
        say("Shift it on its point until it is level; a sawtooth has more notches."),
        say("A little putty at both lower corners keeps it there."),
    )


def _wire_height(*, low: bool) -> tuple[str, ...]:
    if low:
        return (
            say("The wire was measured slack or has settled: shorten it by about as much as it hangs too low."),
            say("Note where it hangs, then let the plan follow the wall if its neighbours are not up yet."),
        )
    return (
        say("Lengthen the wire by about as much as it hangs too high, or pull it on its hook and wait a day."),
        say("Note where it hangs, then let the plan follow the wall if its neighbours are not up yet."),
    )


def _of_strips(complaint: Complaint) -> tuple[str, ...]:
    if complaint == "loose":
        return (
            say("Take it down at once: lift at the lower corners, never pull outward."),
            say("Pull the tabs straight down along the wall, wipe again, use new strips; paint may be too fresh."),
        )
    if complaint == "leans":
        return (say("Press all strips again for 30 s each; a warped frame wants nails."),)
    return (
        say("Within the first hour: unlock it from the lower corners, set it on its strips anew."),
        say("Later: note where it hangs, or take new strips. They are never moved."),
    )
