"""Lengths and masses as a person reads them; rounding is for the eye only and never written back."""

from fractions import Fraction
from typing import Literal, NamedTuple

from composer.units.factors import KG_PER, KG_PER_OUNCE, MM_PER, MM_PER_INCH
from composer.units.grammar import mixed

NO_BREAK = "\u00a0"
"""Between a number and its unit, and between groups of thousands: a value never falls apart."""


MassUnit = Literal["kg", "g", "lb", "oz"]
"""Units a weight is shown in."""


class LengthStyle(NamedTuple):
    """How lengths are shown; what is stored stays as typed.

    Attributes:
        unit: mm, cm, m or in.
        denominator: inches to 1/8, 1/16, 1/32 (or 1/64).
        feet: inches as feet and inches, ``4′ 9 1/2″``.
        decimals: of metric units; None = to a tenth of a millimetre, without trailing zeros.
    """

    unit: Literal["mm", "cm", "m", "in"] = "mm"
    denominator: int = 16
    feet: bool = False
    decimals: int | None = None


_TENTH_MM = {"mm": 1, "cm": 2, "m": 4}


def show_length(mm: float | Fraction, style: LengthStyle) -> str:
    """A length for reading, rounded once, half to even, from the stored value.

    Examples: ``1 450 mm``, ``144.8 cm``, ``48 9/16 in``, ``4′ 0 9/16″``.
    """
    exact = Fraction(mm)
    if style.unit != "in":
        places = _TENTH_MM[style.unit] if style.decimals is None else style.decimals
        number = _grouped(exact / MM_PER[style.unit], places, keep=style.decimals is not None)
        return f"{number}{NO_BREAK}{style.unit}"
    inches = Fraction(round(exact / MM_PER_INCH * style.denominator), style.denominator)
    sign, size = "−" if inches < 0 else "", abs(inches)
    if not style.feet:
        return f"{sign}{mixed(size)}{NO_BREAK}in".replace(" ", NO_BREAK)
    feet, rest = divmod(size, 12)
    words = f"{mixed(rest)}″"
    if feet:
        # A tape is read feet, inches, fraction: the 0 keeps "4′ 9/16″" from being heard as nine feet.
        words = f"{feet}′ {'0 ' if 0 < rest < 1 else ''}{words}"
    return sign + words.replace(" ", NO_BREAK)


def show_mass(kg: float | Fraction, unit: MassUnit = "kg") -> str:
    """A mass for reading: to 10 g (below 100 g to 1 g), in pounds to the whole ounce."""
    exact = Fraction(kg)
    if unit == "lb":
        pounds, ounces = divmod(round(exact / KG_PER_OUNCE), 16)
        words = f"{pounds} lb {ounces} oz" if pounds and ounces else f"{pounds} lb" if pounds else f"{ounces} oz"
        return words.replace(" ", NO_BREAK)
    if unit == "kg" and 0 < exact < Fraction(1, 10):
        unit = "g"
    places = {"kg": 2, "g": 0, "oz": 1}[unit]
    return f"{_grouped(exact / KG_PER[unit], places, keep=False)}{NO_BREAK}{unit}"


def _grouped(value: Fraction, places: int, *, keep: bool) -> str:
    """A decimal with its thousands set apart and a true minus; trailing zeros if ``keep``."""
    marks = round(value * 10**places)
    whole, rest = divmod(abs(marks), 10**places)
    decimals = f".{rest:0{places}d}" if places else ""
    if not keep:
        decimals = decimals.rstrip("0").rstrip(".")
    return f"{'−' if marks < 0 else ''}{whole:,}".replace(",", NO_BREAK) + decimals
