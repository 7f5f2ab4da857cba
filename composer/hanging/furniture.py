"""Pictures over furniture: how wide a group, how high its middle (decorating pages; common practice)."""

from typing import NamedTuple

from composer.units import Mm

WIDTH_SHARES = (2 / 3, 3 / 4)
"""Width of a group as a share of the furniture under it."""

ABOVE_MM = (Mm(150.0), Mm(200.0))
"""From the furniture's top to the group's lower edge (6 to 8 in)."""


class Span(NamedTuple):
    """From so much to so much, mm."""

    least: Mm
    most: Mm


def group_width_mm(furniture_width: Mm) -> Span:
    """How wide a group over furniture of that width is wanted."""
    return Span(Mm(furniture_width * WIDTH_SHARES[0]), Mm(furniture_width * WIDTH_SHARES[1]))


def group_centre_mm(furniture_top: Mm, group_height: Mm) -> Span:
    """How high the middle of a group comes that stands 150 to 200 mm above the furniture."""
    low, high = (Mm(furniture_top + above + group_height / 2) for above in ABOVE_MM)
    return Span(low, high)
