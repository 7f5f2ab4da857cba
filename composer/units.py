"""Lengths, weights and money as people write them, kept exactly as typed.

A length is an exact rational number of millimetres and the text and unit the person chose. It is
never stored in another unit, so ``23 5/8 in`` stays ``23 5/8 in`` however often it is shown in
centimetres. Reading is this module's own grammar: a general expression parser would take
``24 3/8 in`` for nine inches and ``12,5 mm`` for 125 mm.

Exact factors: the inch is 25.4 mm (international yard, NBS Circular 572, addendum of 1959); the
avoirdupois pound is 0.45359237 kg and has 16 ounces.
"""

import re
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from math import isfinite
from typing import TYPE_CHECKING, Any, Literal, NewType

from composer.texts import say

if TYPE_CHECKING:
    from pint import Quantity

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
KG_PER: dict[str, Fraction] = {"g": Fraction(1, 1000), "kg": Fraction(1), "oz": KG_PER_OUNCE, "lb": KG_PER_POUND}

LONGEST_MM = 100_000
LONGEST_TEXT = 40


class BadQuantity(ValueError):
    """A length, weight or amount that cannot be read; the message is one finished sentence."""


class Length:
    """A length as the person wrote it; equal when written alike."""

    __slots__ = ("exact_mm", "mm", "text", "unit")

    text: str
    """Canonical: ``23 5/8 in``, ``61.5 cm``, ``4 ft 9 1/2 in``."""
    exact_mm: Fraction
    mm: Mm
    """The same as a float, computed once."""
    unit: str
    """The unit it was written in: mm, cm, m, in or ft."""

    def __init__(self, text: str, exact_mm: Fraction, unit: str) -> None:
        put = object.__setattr__
        put(self, "text", text)
        put(self, "exact_mm", exact_mm)
        put(self, "mm", Mm(float(exact_mm)))
        put(self, "unit", unit)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(name)

    def __delattr__(self, name: str) -> None:
        raise AttributeError(name)

    def __reduce__(self) -> tuple[Callable[[str], "Length"], tuple[str]]:
        return Length.from_text, (self.text,)

    @classmethod
    def from_text(cls, text: str) -> "Length":
        """Reads a length with its unit, of either sign.

        Raises:
            BadQuantity: when it is not one.
        """
        return _read_length(text, None, fractions_need_unit=False)

    @classmethod
    def of_mm(cls, mm: float | Fraction, unit: str = "mm") -> "Length":
        """A computed length, in the unit asked for, to a millionth of it (inches to 1/64 where they are such)."""
        if isinstance(mm, float) and not isfinite(mm):
            raise BadQuantity(say("A length must be a number, not {value}.", value=mm))
        value = Fraction(mm) / MM_PER[unit]
        if unit in {"in", "ft"}:
            inches = Fraction(mm) / MM_PER_INCH
            near = Fraction(round(inches * 64), 64)
            if abs(near - inches) <= Fraction(1, 10**7):
                return cls.from_text(_fraction_text(near, feet=unit == "ft"))
        return cls.from_text(f"{_decimal_text(value)} {unit}")

    @classmethod
    def of(cls, quantity: "Quantity[Any]") -> "Length":
        """A length from a pint quantity of any unit of length."""
        from composer.quantities import length_of

        return length_of(quantity)

    @property
    def quantity(self) -> "Quantity[Any]":
        """The exact pint quantity, in the unit it was written in."""
        from composer.quantities import exact

        return exact(self.exact_mm / MM_PER[self.unit], self.unit)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Length) and self.text == other.text

    def __hash__(self) -> int:
        return hash(self.text)

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"Length({self.text!r})"


class Mass:
    """A mass as the person wrote it; equal when written alike."""

    __slots__ = ("exact_kg", "kg", "text", "unit")

    text: str
    exact_kg: Fraction
    kg: Kg
    unit: str

    def __init__(self, text: str, exact_kg: Fraction, unit: str) -> None:
        put = object.__setattr__
        put(self, "text", text)
        put(self, "exact_kg", exact_kg)
        put(self, "kg", Kg(float(exact_kg)))
        put(self, "unit", unit)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(name)

    def __delattr__(self, name: str) -> None:
        raise AttributeError(name)

    def __reduce__(self) -> tuple[Callable[[str], "Mass"], tuple[str]]:
        return Mass.from_text, (self.text,)

    @classmethod
    def from_text(cls, text: str) -> "Mass":
        """Reads a mass with its unit.

        Raises:
            BadQuantity: when it is not one.
        """
        return read_mass(text)

    @classmethod
    def of(cls, quantity: "Quantity[Any]") -> "Mass":
        """A mass from a pint quantity of any unit of mass."""
        from composer.quantities import mass_of

        return mass_of(quantity)

    @property
    def quantity(self) -> "Quantity[Any]":
        """The exact pint quantity, in the unit it was written in."""
        from composer.quantities import exact

        return exact(self.exact_kg / KG_PER[self.unit], self.unit)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Mass) and self.text == other.text

    def __hash__(self) -> int:
        return hash(self.text)

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"Mass({self.text!r})"


_SIGNS = str.maketrans(
    {
        "\u2032": "'", "\u2019": "'", "\u2018": "'", "\u00b4": "'", "`": "'",
        "\u2033": '"', "\u201d": '"', "\u201c": '"', "\u2212": "-", "\u2044": "/",
        "\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2007": " ",
    }
)  # fmt: skip
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}

_WHOLE = r"\d{1,3}(?: \d{3})+|\d{1,9}"
_NUMBER = rf"(?:{_WHOLE})(?:[.,]\d{{1,9}})?|[.,]\d{{1,9}}"
_FRACTION = r"\d{1,4}/\d{1,4}"
_MIXED = rf"(?:\d{{1,9}}(?: |-){_FRACTION}|{_FRACTION})"
_INCH = r'(?:inches|inch|in|")'
_FOOT = r"(?:feet|foot|ft|')"

_FEET_AND_INCHES = re.compile(
    rf"(?P<feet>\d{{1,9}}) ?{_FOOT}(?: ?-? ?(?:(?P<mixed>{_MIXED})|(?P<inches>{_NUMBER})) ?{_INCH}?)?"
)
_ONE_LENGTH = re.compile(
    rf"(?:(?P<mixed>{_MIXED})|(?P<number>{_NUMBER})) ?(?P<unit>mm|cm|m|{_INCH}|{_FOOT})?"
)
_ONE_MASS = re.compile(rf"(?:(?P<mixed>{_MIXED})|(?P<number>{_NUMBER})) ?(?P<unit>kg|g|lbs|lb|oz)?")
_POUNDS_AND_OUNCES = re.compile(
    rf"(?P<pounds>\d{{1,9}}) ?lbs? (?:(?P<mixed>{_MIXED})|(?P<ounces>{_NUMBER})) ?oz"
)


def read_length(
    typed: str, *, bare: str, fractions_need_unit: bool = False, zero: bool = False, minus: bool = False
) -> Length:
    """Reads a length as people write it.

    Args:
        typed: ``2in``, ``2 3/8"``, ``4' 9 1/2"``, ``6,5 cm``, ``5½``, ``1 250 mm``.
        bare: the unit a bare number takes.
        fractions_need_unit: refuse ``1/2`` without a unit (metric projects).
        zero: whether nothing at all is allowed.
        minus: whether a length may be negative.

    Raises:
        BadQuantity: with one sentence saying what was found and expected.
    """
    length = _read_length(typed, bare, fractions_need_unit=fractions_need_unit)
    shown = _shown(typed)
    if length.exact_mm < 0 and not minus:
        raise BadQuantity(say("“{typed}” is negative; a length above 0 is expected.", typed=shown))
    if length.exact_mm == 0 and not (zero or minus):
        raise BadQuantity(say("“{typed}” is nothing; a length above 0 is expected.", typed=shown))
    if abs(length.exact_mm) > LONGEST_MM:
        raise BadQuantity(say("“{typed}” is more than 100 m.", typed=shown))
    return length


def read_mass(typed: str) -> Mass:
    """Reads a weight above nothing, with its unit: ``800 g``, ``1.2 kg``, ``1 lb 4 oz``.

    Raises:
        BadQuantity: with one sentence saying what was found and expected.
    """
    shown, text, negative = _prepared(typed)
    both = _POUNDS_AND_OUNCES.fullmatch(text)
    if both:
        pounds = Fraction(both["pounds"])
        ounces, words = _amount(both["mixed"], both["ounces"], shown)
        exact, canonical, unit = pounds * KG_PER_POUND + ounces * KG_PER_OUNCE, f"{both['pounds']} lb {words} oz", "lb"
    else:
        one = _ONE_MASS.fullmatch(text)
        if one is None:
            raise BadQuantity(say("“{typed}” is not a weight. Try 1.2 kg, 800 g or 1 lb 4 oz.", typed=shown))
        if one["unit"] is None:
            raise BadQuantity(say("The weight “{typed}” needs a unit: g, kg, oz or lb.", typed=shown))
        unit = "lb" if one["unit"] == "lbs" else one["unit"]
        amount, words = _amount(one["mixed"], one["number"], shown)
        exact, canonical = amount * KG_PER[unit], f"{words} {unit}"
    if negative or exact <= 0:
        raise BadQuantity(say("“{typed}” is not a weight above 0.", typed=shown))
    if exact > 100_000:
        raise BadQuantity(say("“{typed}” is more than 100 t.", typed=shown))
    return Mass(canonical, exact, unit)


def read_money(typed: str) -> Decimal:
    """Reads an amount: digits, one decimal mark, at most two decimals, no symbol.

    Raises:
        BadQuantity: with one sentence saying what was found and expected.
    """
    text = typed.strip().translate(_SIGNS)
    if not re.fullmatch(r"(?:\d{1,3}(?: \d{3})+|\d{1,9})(?:[.,]\d{1,2})?", text, re.ASCII):
        raise BadQuantity(say("“{typed}” is not an amount such as 11.40, without a symbol.", typed=_shown(typed)))
    return Decimal(text.replace(" ", "").replace(",", "."))


def _read_length(typed: str, bare: str | None, *, fractions_need_unit: bool) -> Length:
    shown, text, negative = _prepared(typed)
    sign = "-" if negative else ""
    both = _FEET_AND_INCHES.fullmatch(text)
    if both:
        exact, canonical = Fraction(both["feet"]) * MM_PER_FOOT, f"{int(both['feet'])} ft"
        if both["mixed"] or both["inches"]:
            inches, words = _amount(both["mixed"], both["inches"], shown)
            exact, canonical = exact + inches * MM_PER_INCH, f"{canonical} {words} in"
        return _signed(canonical, exact, "ft", sign)
    one = _ONE_LENGTH.fullmatch(text)
    if one is None:
        raise BadQuantity(say("“{typed}” is not a length. Try 61.5 cm, 615 mm, 24 1/4 in or 2 ft 4 in.", typed=shown))
    unit = _UNITS.get(one["unit"] or "", bare)
    if unit is None:
        raise BadQuantity(say("The length “{typed}” needs a unit: mm, cm, m, in or ft.", typed=shown))
    if one["unit"] is None and one["mixed"] and fractions_need_unit:
        raise BadQuantity(say("The fraction “{typed}” needs a unit: 1/2 in or 1/2 cm.", typed=shown))
    amount, words = _amount(one["mixed"], one["number"], shown)
    return _signed(f"{words} {unit}", amount * MM_PER[unit], unit, sign)


_UNITS = {
    "mm": "mm", "cm": "cm", "m": "m", "in": "in", "inch": "in", "inches": "in", '"': "in",
    "ft": "ft", "foot": "ft", "feet": "ft", "'": "ft",
}  # fmt: skip


def _signed(canonical: str, exact: Fraction, unit: str, sign: str) -> Length:
    if exact == 0:
        sign = ""
    return Length(sign + canonical, -exact if sign else exact, unit)


def _prepared(typed: str) -> tuple[str, str, bool]:
    """What to show of the typed text, the text to match, and whether a minus stood before it."""
    shown = _shown(typed)
    if len(typed) > LONGEST_TEXT:
        raise BadQuantity(say("“{typed}” is too long to be a length or a weight.", typed=shown))
    text = typed
    for sign, plain in _VULGAR.items():
        text = text.replace(sign, f" {plain}")
    text = " ".join(text.translate(_SIGNS).replace("''", '"').split()).lower()
    text = re.sub(r"^([+-]) ", r"\1", text)
    negative = text.startswith("-")
    if not text.isascii():
        return shown, "?", negative
    return shown, text.lstrip("-") if text.count("-", 0, 2) <= 1 else text, negative


def _shown(typed: str) -> str:
    text = "".join(sign if sign.isprintable() else " " for sign in typed).strip()
    return text if len(text) <= LONGEST_TEXT else text[: LONGEST_TEXT - 1] + "…"


def _amount(mixed: str | None, number: str | None, shown: str) -> tuple[Fraction, str]:
    """The number and its canonical text."""
    if mixed is not None:
        whole, _, fraction = mixed.replace("-", " ").rpartition(" ")
        top, bottom = (int(part) for part in fraction.split("/"))
        if bottom == 0:
            raise BadQuantity(say("“{typed}” divides by nothing.", typed=shown))
        if whole and top >= bottom:
            raise BadQuantity(say("In “{typed}” the fraction must be less than one.", typed=shown))
        return int(whole or 0) + Fraction(top, bottom), f"{int(whole)} {top}/{bottom}" if whole else f"{top}/{bottom}"
    assert number is not None
    if re.search(r",\d{3}$", number) and " " not in number:
        raise BadQuantity(
            say(
                "“{typed}” may mean thousands or decimals. Write {thousands} or {decimals}.",
                typed=shown,
                thousands=number.replace(",", " "),
                decimals=number.replace(",", "."),
            )
        )
    plain = number.replace(" ", "").replace(",", ".")
    whole, point, decimals = plain.partition(".")
    return Fraction(plain), f"{int(whole or 0)}{point}{decimals}"


def _decimal_text(value: Fraction) -> str:
    text = f"{float(round(value, 6)):.6f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def _fraction_text(inches: Fraction, *, feet: bool) -> str:
    sign = "-" if inches < 0 else ""
    rest = abs(inches)
    parts = []
    if feet and rest >= 12:
        parts.append(f"{rest // 12} ft")
        rest %= 12
    if rest or not parts:
        whole, part = divmod(rest, 1)
        words = " ".join(filter(None, (str(whole) if whole or not part else "", f"{part.numerator}/{part.denominator}" if part else "")))
        parts.append(f"{words} in")
    return sign + " ".join(parts)


class LengthStyle:
    """How lengths are shown: in mm, cm or inches, these to 1/8, 1/16 or 1/32, with feet if wanted."""

    __slots__ = ("denominator", "feet", "unit")

    def __init__(self, unit: Literal["mm", "cm", "in"] = "mm", denominator: int = 16, *, feet: bool = False) -> None:
        self.unit = unit
        self.denominator = denominator
        self.feet = feet


def show_length(mm: float, style: LengthStyle) -> str:
    """A length for reading, rounded once: whole millimetres, tenths of centimetres, fractions of inches."""
    if style.unit == "in":
        count = round(Fraction(mm) / MM_PER_INCH * style.denominator)
        text = _fraction_text(Fraction(count, style.denominator), feet=style.feet)
        return text.replace("-", "−").replace(" in", " in")
    digits = 1 if style.unit == "cm" else 0
    value = round(Fraction(mm) / MM_PER[style.unit], digits)
    return f"{_grouped(value, digits)} {style.unit}"


def show_mass(kg: float) -> str:
    """A mass for reading, to 10 g."""
    return f"{_grouped(round(Fraction(kg), 2), 2)} kg"


def _grouped(value: Fraction, digits: int) -> str:
    text = f"{float(abs(value)):,.{digits}f}".replace(",", "\u202f")
    return f"−{text}" if value < 0 and float(text.replace(chr(0x202F), "")) else text
