"""Where a wall's studs lie, from the first one's middle and their spacing as the person found them."""

import math

from composer.model.wall import Wall
from composer.units import Mm

USABLE_MM = Mm(13.0)
"""A screw within this of a stud's middle sits in sound timber: half of 38 mm, less 6 mm (judgement)."""

BEHIND_MM = Mm(19.0)
"""Within this of its middle there is timber behind the board: half of 38 mm (stud sizes of building codes)."""


def nearest_stud_mm(wall: Wall, x: float) -> Mm | None:
    """From ``x`` to the middle of the nearest stud, mm, positive to the right; None where none are known.

    Studs run on both sides of the first one as far as the wall goes.
    """
    if wall.stud_first is None:
        return None
    first, width = wall.stud_first.mm, wall.width.mm
    if wall.stud_spacing is None:
        return Mm(first - x)
    spacing = wall.stud_spacing.mm
    least, most = math.ceil(-first / spacing), math.floor((width - first) / spacing)
    steps = min(max(round((x - first) / spacing), least), max(least, most))
    return Mm(first + steps * spacing - x)
