"""Lengths, weights and money as people write them, kept exactly as typed.

A length is an exact rational number of millimetres together with the text and the unit the person
chose. It is never stored in another unit, so ``23 5/8 in`` stays ``23 5/8 in`` however often it is
shown in centimetres.
"""

from composer.units.factors import (
    KG_PER,
    KG_PER_OUNCE,
    KG_PER_POUND,
    MM_PER,
    MM_PER_FOOT,
    MM_PER_INCH,
    Deg,
    Kg,
    Mm,
    N,
)
from composer.units.grammar import BadQuantity, read_money
from composer.units.shown import LengthStyle, MassUnit, show_length, show_mass
from composer.units.typed import Exchange, Length, Mass, install_exchange, read_length, read_mass

__all__ = [
    "KG_PER",
    "KG_PER_OUNCE",
    "KG_PER_POUND",
    "MM_PER",
    "MM_PER_FOOT",
    "MM_PER_INCH",
    "BadQuantity",
    "Deg",
    "Exchange",
    "Kg",
    "Length",
    "LengthStyle",
    "Mass",
    "MassUnit",
    "Mm",
    "N",
    "install_exchange",
    "read_length",
    "read_mass",
    "read_money",
    "show_length",
    "show_mass",
]
