"""Hanging in quantities: values that carry their unit go in, and come out.

Each function takes model values or pint quantities, drops once to the float kernel and gives a
quantity back. So a length in inches, a mass in pounds and a pull in newtons can be mixed freely, and
a mass in the place of a length is refused. Findings, paper and dragging call the kernels directly.
"""

from typing import TYPE_CHECKING, Any

from composer.catalogue.catalogue import Catalogue, usual
from composer.hanging import kernel
from composer.hanging.weight import Part, estimate
from composer.model.piece import Piece
from composer.quantities import quantity
from composer.texts import say
from composer.units import BadQuantity, Deg, Kg, Length, Mass, Mm, N

if TYPE_CHECKING:
    from pint import Quantity

    LengthLike = Length | Quantity[Any]
    MassLike = Mass | Quantity[Any]


def rise(spacing: "LengthLike", wire: "LengthLike", hook_spacing: "LengthLike | None" = None) -> "Quantity[Any]":
    """How far the hooks stand above the rings of a loaded wire; see :func:`kernel.rise_mm`."""
    return quantity(kernel.rise_mm(_mm(spacing), _mm(wire), _mm(hook_spacing)), "mm")


def drop(
    spacing: "LengthLike",
    wire: "LengthLike",
    ring_drop: "LengthLike",
    hook_spacing: "LengthLike | None" = None,
    ring_drop_right: "LengthLike | None" = None,
) -> "Quantity[Any]":
    """The frame's top edge down to the loaded wire; see :func:`kernel.drop_mm`."""
    right = None if ring_drop_right is None else _mm(ring_drop_right)
    return quantity(kernel.drop_mm(_mm(spacing), _mm(wire), _mm(ring_drop), _mm(hook_spacing), right), "mm")


def wire_for_rise(
    spacing: "LengthLike", rise: "LengthLike", hook_spacing: "LengthLike | None" = None
) -> "Quantity[Any]":
    """Length of wire for a wanted rise; see :func:`kernel.wire_for_rise_mm`."""
    return quantity(kernel.wire_for_rise_mm(_mm(spacing), _mm(rise), _mm(hook_spacing)), "mm")


def wire_angle(spacing: "LengthLike", wire: "LengthLike", hook_spacing: "LengthLike | None" = None) -> "Quantity[Any]":
    """Angle of the loaded wire to the level; see :func:`kernel.angle_deg`."""
    return quantity(_angle(spacing, wire, hook_spacing), "degree")


def tension(
    mass: "MassLike", spacing: "LengthLike", wire: "LengthLike", hook_spacing: "LengthLike | None" = None
) -> "Quantity[Any]":
    """Pull in the wire that carries a mass at standard gravity; see :func:`kernel.tension_n`."""
    return quantity(kernel.tension_n(_weight(mass), _angle(spacing, wire, hook_spacing)), "newton")


def ring_pull(
    mass: "MassLike", spacing: "LengthLike", wire: "LengthLike", hook_spacing: "LengthLike | None" = None
) -> "Quantity[Any]":
    """Pull inward on each ring; see :func:`kernel.ring_pull_n`."""
    return quantity(kernel.ring_pull_n(_weight(mass), _angle(spacing, wire, hook_spacing)), "newton")


def hook_side_pull(
    mass: "MassLike", spacing: "LengthLike", wire: "LengthLike", hook_spacing: "LengthLike"
) -> "Quantity[Any]":
    """Pull sideways on each of two hooks; see :func:`kernel.hook_side_pull_n`."""
    return quantity(kernel.hook_side_pull_n(_weight(mass), _angle(spacing, wire, hook_spacing)), "newton")


def point_height(centre: "LengthLike", height: "LengthLike", drop: "LengthLike") -> "Quantity[Any]":
    """Height of the loaded point of a frame; see :func:`kernel.point_height_mm`."""
    return quantity(kernel.point_height_mm(_mm(centre), _mm(height), _mm(drop)), "mm")


def hole_height(point: "LengthLike", hook_offset: "LengthLike") -> "Quantity[Any]":
    """Height of the nail's hole; see :func:`kernel.hole_height_mm`."""
    return quantity(kernel.hole_height_mm(_mm(point), _mm(hook_offset)), "mm")


def estimated_mass(piece: Piece, catalogue: Catalogue | None = None) -> "Quantity[Any] | None":
    """The piece's mass by its parts, computed in quantities: density × volume and grammage × area.

    None when too little is known; see :func:`composer.hanging.weight.estimate`.
    """
    estimated = estimate(piece, usual() if catalogue is None else catalogue)
    if estimated is None:
        return None
    total = quantity(0.0, "kg")
    for part in estimated.parts:
        total = total + part_mass(part)
    return total.to("kg")


def part_mass(part: Part) -> "Quantity[Any]":
    """The mass of one part in quantities."""
    if part.volume_mm3 is not None and part.kg_per_m3 is not None:
        mass: Quantity[Any] = quantity(part.volume_mm3, "mm**3") * quantity(part.kg_per_m3, "kg/m**3")
        return mass.to("kg")
    if part.area_mm2 is not None and part.g_per_m2 is not None:
        mass = quantity(part.area_mm2, "mm**2") * quantity(part.g_per_m2, "g/m**2")
        return mass.to("kg")
    return quantity(part.kg, "kg")


def _angle(spacing: "LengthLike", wire: "LengthLike", hook_spacing: "LengthLike | None") -> Deg:
    apart, hooks = _mm(spacing), _mm(hook_spacing)
    return kernel.angle_deg(apart, kernel.rise_mm(apart, _mm(wire), hooks), hooks)


def _weight(mass: "MassLike") -> N:
    if isinstance(mass, Mass):
        return kernel.weight_n(mass.kg)
    if not mass.check("[mass]"):
        raise BadQuantity(say("A mass is expected here, in kilograms, pounds or the like."))
    return kernel.weight_n(Kg(float(mass.m_as("kg"))))


def _mm(length: "LengthLike | None") -> Mm:
    if length is None:
        return kernel.NONE
    if isinstance(length, Length):
        return length.mm
    if not length.check("[length]"):
        raise BadQuantity(say("A length is expected here, in millimetres, inches or the like."))
    return Mm(float(length.m_as("mm")))
