"""How exactly a wall can be hung: tapes, levels, and the tolerances that are printed."""

import math
from collections.abc import Iterable
from typing import Literal, NamedTuple

from composer.hanging.balance import pair_limit_mm
from composer.units import Deg, Mm

TapeClass = Literal["I", "II", "III"]


class TapeError(NamedTuple):
    """Coefficients of a class of tape: a and b of ``±(a + b L)`` mm with L in metres, c from the end hook."""

    a: float
    b: float
    c: float


TAPE_CLASSES: dict[TapeClass, TapeError] = {
    "I": TapeError(0.1, 0.1, 0.1),
    "II": TapeError(0.3, 0.2, 0.2),
    "III": TapeError(0.6, 0.4, 0.3),
}
"""Directive 2014/32/EU, annex X (MI-008), chapter I."""

PRINTED_LEAST_MM = Mm(1.0)
"""A nail wanders by a millimetre; nothing finer is asked of a person with a hammer (common practice)."""

NEIGHBOUR_EDGES_MM = Mm(1.5)
"""Edges of neighbours that should be in line: at 2 m 1.5 mm is 2.6 minutes of arc, seen by most eyes."""

PAIR_TOO_CLOSE_MM = Mm(190.0)
"""Below this a pair of nails would have to be nearer to level than a millimetre: 1 / tan 0.3° = 191 mm."""


def tape_error_mm(length: Mm, tape: TapeClass = "II", *, from_hook: bool = False) -> Mm:
    """Largest error a tape of that class may have over ``length``, mm; the length counts in whole metres, rounded up."""
    a, b, c = TAPE_CLASSES[tape]
    metres = max(1, math.ceil(length / 1000 - 1e-9))
    return Mm(a + b * metres + (c if from_hook else 0.0))


def slope_deg(mm_per_m: float) -> Deg:
    """Angle of a spirit level's stated accuracy, degrees."""
    return Deg(math.degrees(math.atan(mm_per_m / 1000)))


def likely_error_mm(parts: Iterable[float]) -> Mm:
    """What independent errors come to as a rule: the root of the sum of their squares, mm."""
    return Mm(math.sqrt(sum(part * part for part in parts)))


ON_THE_DAY_MM = (0.5, 1.0, tape_error_mm(Mm(1450.0), from_hook=True), 0.5, 1.0, 0.5)
"""What goes wrong with one piece: its measured height and drop, the tape from its hook, pencil, nail, seat (judgement)."""

GAP_MM = Mm(math.ceil(likely_error_mm(ON_THE_DAY_MM)))
"""Gaps that should be alike: what those come to as a rule, 1.9 mm, in whole millimetres."""


def pair_tolerance_mm(spacing: Mm) -> Mm:
    """What is printed for the difference in height of a pair of nails, mm: 0.3° over it, at least a millimetre.

    Rounded down to half a millimetre, as a tape is read.
    """
    return Mm(max(PRINTED_LEAST_MM, math.floor(pair_limit_mm(spacing) * 2) / 2))


def too_close_to_level(spacing: Mm) -> bool:
    """Whether two nails stand so close that a millimetre between them is seen: one hook and putty are better."""
    return spacing < PAIR_TOO_CLOSE_MM
