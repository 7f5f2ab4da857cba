"""The exact factors between units, and the number types that keep them apart in the kernels.

The inch is 25.4 mm (yard of 1959, NBS Circular 572, addendum of 1960); the avoirdupois pound is
0.45359237 kg and has 16 ounces.
"""

from fractions import Fraction
from typing import NewType

Mm = NewType("Mm", float)
Kg = NewType("Kg", float)
N = NewType("N", float)
Deg = NewType("Deg", float)

MM_PER_INCH = Fraction(127, 5)
MM_PER_FOOT = 12 * MM_PER_INCH
KG_PER_POUND = Fraction(45359237, 100_000_000)
KG_PER_OUNCE = KG_PER_POUND / 16

MM_PER: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": MM_PER_INCH,
    "ft": MM_PER_FOOT,
}
"""Millimetres in each unit of length, exact."""

KG_PER: dict[str, Fraction] = {"g": Fraction(1, 1000), "kg": Fraction(1), "oz": KG_PER_OUNCE, "lb": KG_PER_POUND}
"""Kilograms in each unit of mass, exact."""
