"""Why frames hang askew, lean or pull loose: float kernels in millimetres, newtons and degrees.

All are derived by elementary statics; the tests give the textbooks and limits they were checked with.
"""

import math

from composer.units import Deg, Kg, Mm

SEEN_TILT_DEG = Deg(0.6)
"""Mean threshold for telling that a line is off level (Vision Research 30 (10), 1990, 1429–1437)."""

LEVEL_DEG = Deg(0.3)
"""What to aim for: half of what is seen (the best observers tell 0.3 to 0.5°)."""

LEAST_WIRE_DEG = Deg(15.0)
"""A flatter wire pulls with about twice the weight or more on each side (1 / (2 sin 15°) = 1.93)."""

SHARE_OF_BREAKING = 4.0
"""Pull in a picture wire is held to a quarter of its breaking load (trade convention for braided wire,
there applied to the weight; applied to the pull it is on the safe side: judgement)."""

SHARE_OF_TWO = 0.6
"""Each of two hooks is chosen for this share of the weight: they never carry quite alike (judgement)."""

FOAM_TAPE_CM2_PER_KG = 60.0
"""Plain double-sided foam tape, permanent load (a tape maker's rule); not for stretch-release strips."""


def stays_level(spacing: Mm, rise: Mm, below_rings: Mm) -> bool:
    """Whether a frame on one frictionless hook swings back to level by itself: ``h · c > (s/2)²``.

    The hook runs on an ellipse whose foci are the rings; level is where potential energy is least only
    under this condition. Most frames fail it and are held by friction alone.

    Args:
        spacing: between the rings, mm.
        rise: of the hook above the ring line, mm.
        below_rings: of the frame's middle below the ring line, mm.
    """
    return rise * below_rings > (spacing / 2) ** 2


def tilt_of_hanger_off_centre_deg(off: Mm, above_middle: Mm) -> Deg:
    """How far a frame tilts whose one bearing point lies ``off`` beside its middle: ``atan(δ / a)``.

    Args:
        off: bearing point to the frame's upright middle line, mm.
        above_middle: bearing point above the frame's middle, mm; not above it: the frame turns over.
    """
    if above_middle <= 0:
        return Deg(180.0) if off else Deg(0.0)
    return Deg(math.degrees(math.atan2(abs(off), above_middle)))


def tilt_of_pair_deg(difference: Mm, spacing: Mm) -> Deg:
    """How far a frame tilts on two points ``spacing`` apart of which one is too high by ``difference``: ``asin(e/k)``."""
    return Deg(math.degrees(math.asin(min(1.0, abs(difference) / spacing))))


def pair_limit_mm(spacing: Mm, tilt: Deg = LEVEL_DEG) -> Mm:
    """How far the two nails of a pair may differ in height, mm: ``k · tan 0.3°``."""
    return Mm(spacing * math.tan(math.radians(tilt)))


def forward_lean_deg(
    height: Mm,
    depth: Mm,
    rings_above_bottom: Mm,
    free_wire: Mm,
    *,
    hook_stands_off: Mm,
    ring_behind_back: Mm,
    bumper: Mm,
) -> Deg:
    """How far a frame leans out of the wall, degrees (small angles).

    The bottom edge, on its bumpers, touches the wall without friction; the wire leaves the hook
    ``hook_stands_off`` from the wall. ``φ = (λ t/2 + (p − b) m + q (λ + m)) / (m (m + λ) − λ H/2)``.
    λ → 0 gives (p − b + q)/m; λ → ∞ gives (t/2 + q)/(m − H/2).

    Args:
        height, depth: of the frame, mm.
        rings_above_bottom: mm.
        free_wire: rise of the loaded wire, mm; 0 for rings straight on hooks.
        hook_stands_off: from the wall to the wire on the hook, mm.
        ring_behind_back: how far the ring stands behind the frame's back, mm.
        bumper: thickness of the bumpers at the lower corners, mm.
    """
    m, wire = rings_above_bottom, free_wire
    lever = m * (m + wire) - wire * height / 2
    if lever <= 0:
        return Deg(90.0)
    push = wire * depth / 2 + (hook_stands_off - bumper) * m + ring_behind_back * (wire + m)
    return Deg(math.degrees(push / lever))


def usable_wire_kg(breaking: Kg, share: float = SHARE_OF_BREAKING) -> Kg:
    """What a wire of that breaking load may be pulled with, in kilograms of load."""
    return Kg(breaking / share)


def peel_kg(mass: Kg, middle_off_wall: Mm, strips_above_bottom: Mm) -> Kg:
    """Pull away from the wall at the upper strips, kilograms of load: ``m · e / a``.

    The frame's own depth wants to turn it over its lower edge.
    """
    return Kg(mass * middle_off_wall / strips_above_bottom)


def foam_tape_mm2(mass: Kg) -> float:
    """How much plain foam tape a mass needs for good, mm² (60 cm² a kilogram); never for strips."""
    return mass * FOAM_TAPE_CM2_PER_KG * 100.0


def each_of_kg(load: Kg, count: int) -> Kg:
    """What ``count`` fixings of one working load carry together, kg.

    One carries its load; of two each is reckoned with 60 % of the weight, so that they carry
    load / 0.6, not twice the load; more than two count as two.
    """
    return load if count < 2 else Kg(load / SHARE_OF_TWO)
