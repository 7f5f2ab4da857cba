"""Float kernels of hanging: geometry and statics of wire, heights of points and holes.

Everything here is plain float arithmetic in millimetres, newtons and degrees, typed so that mypy
stops one from standing in the other's place. The edges that take and give pint quantities are in
:mod:`composer.hanging.edges`.

A wire runs between two rings ``spacing`` apart. It hangs on one hook (``hook_spacing`` 0) or on two
hooks at the same height, and is taken as inextensible, weightless and free of friction: the triangle
and the trapezoid of any statics textbook (OpenStax College Physics, section 4.5; the two-hook
formulas are derived the same way and checked against it at ``hook_spacing`` → 0).
"""

import math

from composer.texts import say
from composer.units import Deg, Kg, Mm, N

STANDARD_GRAVITY_M_S2 = 9.80665
"""Conventional value of free fall, exact (3rd CGPM, 1901; ISO 80000-3)."""


NONE = Mm(0.0)
"""No second hook, no difference between the rings."""


class Impossible(ValueError):
    """A hanger that cannot be: its measures contradict each other. The message is one finished sentence."""


class HooksTooWide(Impossible):
    """Two hooks wider apart than the rings of the wire they carry."""


class Taut(Impossible):
    """A wire no longer than the way between its rings: it cannot rise to a hook."""


def rise_mm(spacing: Mm, wire: Mm, hook_spacing: Mm = NONE, ring_difference: Mm = NONE) -> Mm:
    """How far the hooks stand above the rings' mean height when the wire is loaded, mm.

    ``h = sqrt(((L − k)/2)² − ((s − k)/2)²)`` for level rings. With one ring ``ring_difference`` below
    the other the hook lies on the ellipse about the rings; held in the middle it stands
    ``sqrt((L'²/4 − a² − e²/4) / (1 − e²/L'²))`` above the mean of both, where ``L' = L − k`` and
    ``a = (s − k)/2`` (derived from ``|ring 1 hook| + |ring 2 hook| = L'``; e = 0 gives the above).

    Args:
        spacing: between the rings, level, mm.
        wire: length from ring to ring, pulled straight, mm.
        hook_spacing: between two hooks at one height; 0 for a single hook.
        ring_difference: how much lower one ring sits than the other, mm; the sign does not matter.

    Raises:
        Taut: when the wire is not longer than the straight way between the rings.
        HooksTooWide: when the hooks stand wider apart than the rings.
    """
    if hook_spacing > spacing:
        raise HooksTooWide(
            say(
                "Two hooks {hooks} mm apart stand wider than the rings ({rings} mm apart).",
                hooks=f"{hook_spacing:g}",
                rings=f"{spacing:g}",
            )
        )
    loose, apart = wire - hook_spacing, spacing - hook_spacing
    if loose <= math.hypot(apart, ring_difference):
        raise Taut(
            say(
                "A wire of {wire} mm cannot rise to a hook between rings {rings} mm apart.",
                wire=f"{wire:g}",
                rings=f"{spacing:g}",
            )
        )
    squared = loose * loose / 4 - apart * apart / 4 - ring_difference * ring_difference / 4
    return Mm(math.sqrt(squared / (1 - (ring_difference / loose) ** 2)))


def drop_mm(
    spacing: Mm,
    wire: Mm,
    ring_drop: Mm,
    hook_spacing: Mm = NONE,
    ring_drop_right: Mm | None = None,
) -> Mm:
    """Frame's top edge down to the loaded wire, mm: mean drop of the rings − rise.

    Negative when the wire is so long that the hook would stand above the frame.

    Raises:
        Taut, HooksTooWide: as :func:`rise_mm`.
    """
    right = ring_drop if ring_drop_right is None else ring_drop_right
    rise = rise_mm(spacing, wire, hook_spacing, Mm(ring_drop - right))
    return Mm((ring_drop + right) / 2 - rise)


def wire_for_rise_mm(spacing: Mm, rise: Mm, hook_spacing: Mm = NONE) -> Mm:
    """Length of wire between level rings that gives a wanted rise, mm: ``k + 2·sqrt(((s − k)/2)² + h²)``."""
    return Mm(hook_spacing + 2 * math.hypot((spacing - hook_spacing) / 2, rise))


def angle_deg(spacing: Mm, rise: Mm, hook_spacing: Mm = NONE) -> Deg:
    """Angle of the wire to the level, degrees: ``atan(h / ((s − k)/2))``."""
    return Deg(math.degrees(math.atan2(rise, (spacing - hook_spacing) / 2)))


def tension_n(weight: N, angle: Deg) -> N:
    """Pull in the wire, newtons: ``T = W / (2 sin θ)``, the same for one hook and for two.

    Raises:
        Impossible: for an angle of nothing, where no finite pull carries the weight.
    """
    sine = math.sin(math.radians(angle))
    if sine <= 0:
        raise Impossible(say("A wire at {angle}° to the level carries nothing.", angle=f"{angle:g}"))
    return N(weight / (2 * sine))


def ring_pull_n(weight: N, angle: Deg) -> N:
    """Pull inward on each ring, newtons: ``T cos θ = W / (2 tan θ)``."""
    return N(tension_n(weight, angle) * math.cos(math.radians(angle)))


def hook_side_pull_n(weight: N, angle: Deg) -> N:
    """Pull sideways, inward, on each of two hooks, newtons: ``T (1 − cos θ) = (W/2)·tan(θ/2)``.

    The wire is taken to run on without friction from one hook to the other, so that its middle part
    pulls with the full tension.
    """
    return N(tension_n(weight, angle) * (1 - math.cos(math.radians(angle))))


def weight_n(mass: Kg) -> N:
    """Weight of a mass at standard gravity, newtons."""
    return N(mass * STANDARD_GRAVITY_M_S2)


def point_height_mm(centre: Mm, height: Mm, drop: Mm) -> Mm:
    """Height of the loaded point for a frame whose middle stands at ``centre``, mm: ``c + H/2 − d``."""
    return Mm(centre + height / 2 - drop)


def hole_height_mm(point: Mm, hook_offset: Mm) -> Mm:
    """Height of the nail's hole, mm: the hook's seat plus its own offset (negative: screw under a ring)."""
    return Mm(point + hook_offset)


def stair_height_mm(rise: Mm, going: Mm, along: Mm) -> Mm:
    """How much higher the same spot above the nosing line lies ``along`` mm further up the stair."""
    return Mm(along * rise / going)


def stair_pitch_deg(rise: Mm, going: Mm) -> Deg:
    """Pitch of a stair, degrees: ``atan(rise / going)``."""
    return Deg(math.degrees(math.atan2(rise, going)))


PASSAGE_BOTTOM_MM, PASSAGE_TOP_MM, PASSAGE_DEPTH_MM = Mm(685.0), Mm(2030.0), Mm(100.0)
"""Protruding objects: 27 in (685 mm), 80 in (2 030 mm), 4 in (100 mm); ADA 2010 Standards, 307.2."""


def stands_into_passage(bottom: Mm, depth: Mm) -> bool:
    """Whether something on the wall of a passage stands out where a cane would not find it.

    ADA 2010 Standards, 307.2: leading edges more than 27 in and not more than 80 in above the floor
    project at most 4 in. It binds public routes; at home it is a caution.
    """
    return PASSAGE_BOTTOM_MM < bottom <= PASSAGE_TOP_MM and depth > PASSAGE_DEPTH_MM
