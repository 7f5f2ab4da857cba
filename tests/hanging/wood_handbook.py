"""Nails and screws in timber, by the formulas of the USDA Wood Handbook (FPL-GTR-190, chapter 8).

Not part of the program: what the catalogue's working loads in timber are held against.

Metric: newtons and millimetres; never to be applied to plaster, board or brick.
"""

from composer.units import Mm, N

NAIL_WITHDRAWAL = 54.12
"""Mean ultimate: p = 54.12 G^2.5 D L (7 850 in pounds and inches)."""

NAIL_WITHDRAWAL_1965 = 6900.0 * 4.4482216152605 / 25.4**2 / 5
"""Allowable, older form: a fifth of 6 900 G^2.5 D L in pounds and inches (USDA FPL-RN-093, 1965)."""

NAIL_ALLOWABLE_LB = 1380.0
"""The same in pounds and inches: 1 380 G^2.5 D L."""

SCREW_WITHDRAWAL = 108.25
"""Mean ultimate: p = 108.25 G² D L (15 700 in pounds and inches)."""

SCREW_ALLOWABLE_LB = 2850.0
"""Allowable: 2 850 G² D L in pounds and inches (general engineering tables)."""

NAIL_LATERAL_SOFTWOOD = 50.04
"""At 0.38 mm slip: p = K D^1.5, softwood of G 0.29 to 0.42 (table 8-4; 1 440 in pounds and inches)."""

SCREW_LATERAL_SOFTWOOD = 23.17
"""At the proportional limit: p = K D², same row (3 360 in pounds and inches)."""

LB_N = 4.4482216152605
"""A pound-force in newtons: 0.45359237 · 9.80665."""

IN_MM = 25.4


def nail_withdrawal_n(gravity: float, diameter: Mm, depth: Mm) -> N:
    """Mean ultimate load that draws a nail straight out, newtons."""
    return N(NAIL_WITHDRAWAL * gravity**2.5 * diameter * depth)


def nail_allowable_n(gravity: float, diameter: Mm, depth: Mm) -> N:
    """A fifth of it by the older constant, newtons."""
    return N(NAIL_WITHDRAWAL_1965 * gravity**2.5 * diameter * depth)


def screw_allowable_n(gravity: float, diameter: Mm, depth: Mm) -> N:
    """Load a wood screw may be drawn with, newtons."""
    return N(SCREW_ALLOWABLE_LB * LB_N / IN_MM**2 * gravity**2 * diameter * depth)


def nail_lateral_n(diameter: Mm) -> N:
    """Load across a nail in softwood at 0.38 mm slip, newtons; a picture nail at 45° is loaded mostly so."""
    return N(NAIL_LATERAL_SOFTWOOD * diameter**1.5)


def screw_lateral_n(diameter: Mm) -> N:
    """Load across a screw in softwood at the proportional limit, newtons."""
    return N(SCREW_LATERAL_SOFTWOOD * diameter * diameter)
