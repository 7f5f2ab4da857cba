"""Lengths and masses as values: what the person typed, and exactly what it means."""

from collections.abc import Callable
from fractions import Fraction
from importlib import import_module
from math import isfinite
from typing import TYPE_CHECKING, Any, Literal, Protocol

from composer.texts import say
from composer.units.factors import KG_PER, MM_PER, Kg, Mm
from composer.units.grammar import (
    PLAIN_LENGTH,
    RATIO,
    BadQuantity,
    check_reach,
    parse_length,
    parse_mass,
    shorten,
    written,
)

if TYPE_CHECKING:
    from pint import Quantity


class Exchange(Protocol):
    """What :mod:`composer.quantities` installs here, so that this module never imports pint."""

    def quantity(self, value: Fraction, unit: str) -> "Quantity[Any]":
        """An exact quantity in one of the units a person may write."""

    def exact(self, given: "Quantity[Any]", dimension: Literal["length", "mass"]) -> tuple[Fraction, str]:
        """The exact millimetres or kilograms, and the unit to keep."""


_exchange: Exchange | None = None


def install_exchange(exchange: Exchange) -> None:
    """Called by :mod:`composer.quantities` when it is imported."""
    global _exchange
    _exchange = exchange


def _installed() -> Exchange:
    # Quantities stand a layer above and plug themselves in. Who asks first may not have imported
    # them yet, so they are loaded by name: the layers point one way, and `.quantity` always works.
    if _exchange is None:
        import_module("composer.quantities")
    assert _exchange is not None
    return _exchange


class _Typed:
    """An immutable value known by its canonical text."""

    __slots__ = ("text", "unit")

    text: str
    unit: str

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__} is immutable")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"{type(self).__name__} is immutable")

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and self.text == other.text

    def __hash__(self) -> int:
        return hash(self.text)

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.text!r})"


class Length(_Typed):
    """A length as the person wrote it; equal when written alike.

    Attributes:
        text: canonical: ``23 5/8 in``, ``61.5 cm``, ``4 ft 9 1/2 in``; ``.``, one space, ASCII.
        exact_mm: its exact value in millimetres.
        mm: the same as a float, computed once.
        unit: what it was written in: mm, cm, m, in or ft.
    """

    __slots__ = ("exact_mm", "mm")

    exact_mm: Fraction
    mm: Mm

    def __init__(self, text: str, exact_mm: Fraction, unit: str) -> None:
        """For this module; others read a text or convert a number."""
        put = object.__setattr__
        put(self, "text", text)
        put(self, "exact_mm", exact_mm)
        # One correctly rounded division: what float(Fraction) does, at half its cost.
        put(self, "mm", exact_mm.numerator / exact_mm.denominator)
        put(self, "unit", unit)

    def __reduce__(self) -> tuple[Callable[[str], "Length"], tuple[str]]:
        return Length.from_text, (self.text,)

    @classmethod
    def from_text(cls, text: str) -> "Length":
        """Reads a length with its unit, of either sign.

        Raises:
            BadQuantity: when it is not one, or beyond 100 m.
        """
        plain = PLAIN_LENGTH.fullmatch(text)
        if plain is None:
            return cls(*parse_length(text, None))
        minus, whole, decimals, unit = plain.groups()
        top, bottom = RATIO[unit]
        if decimals:
            value = Fraction(int(whole + decimals) * top, 10 ** len(decimals) * bottom)
        else:
            value = Fraction(int(whole) * top, bottom)
        if minus:
            if not value:
                text = text[1:]
            value = -value
        check_reach(value, text)
        return cls(text, value, unit)

    @classmethod
    def of_mm(cls, mm: float | Fraction, unit: str = "mm") -> "Length":
        """A computed length, written in ``unit``.

        A float is taken to a millionth of a millimetre. Inches and feet are written with the binary
        fraction of a tape (to 1/64) where the value is one. An exact value that has no short
        decimal is written as a fraction, or rounded to nine decimals where even that has no end.
        """
        if isinstance(mm, float):
            if not isfinite(mm):
                raise BadQuantity(say("A length must be a number, not {value}.", value=mm))
            exact = Fraction(repr(round(mm, 6)))
            return cls.from_text(written(exact / MM_PER[unit], unit, places=6, near=Fraction(1, 10**6) / MM_PER[unit]))
        return cls.from_text(written(Fraction(mm) / MM_PER[unit], unit, places=9, near=Fraction(0)))

    @classmethod
    def of(cls, quantity: "Quantity[Any]") -> "Length":
        """A length from a pint quantity in any unit of length.

        Raises:
            BadQuantity: for any other dimension.
        """
        exact_mm, unit = _installed().exact(quantity, "length")
        return cls.of_mm(exact_mm, unit)

    @property
    def quantity(self) -> "Quantity[Any]":
        """The exact pint quantity, in the unit it was written in."""
        return _installed().quantity(self.exact_mm / MM_PER[self.unit], self.unit)


class Mass(_Typed):
    """A mass as the person wrote it; equal when written alike.

    Attributes:
        text: canonical: ``1.2 kg``, ``800 g``, ``1 lb 4 oz``.
        exact_kg: its exact value in kilograms.
        kg: the same as a float, computed once.
        unit: what it was written in: g, kg, oz or lb.
    """

    __slots__ = ("exact_kg", "kg")

    exact_kg: Fraction
    kg: Kg

    def __init__(self, text: str, exact_kg: Fraction, unit: str) -> None:
        """For this module; others read a text or convert a number."""
        put = object.__setattr__
        put(self, "text", text)
        put(self, "exact_kg", exact_kg)
        put(self, "kg", Kg(float(exact_kg)))
        put(self, "unit", unit)

    def __reduce__(self) -> tuple[Callable[[str], "Mass"], tuple[str]]:
        return Mass.from_text, (self.text,)

    @classmethod
    def from_text(cls, text: str) -> "Mass":
        """Reads a mass with its unit.

        Raises:
            BadQuantity: when it is not one.
        """
        return cls(*parse_mass(text))

    @classmethod
    def of_kg(cls, kg: float | Fraction, unit: str = "kg") -> "Mass":
        """A computed mass, written in ``unit``; a float is taken to a millionth of a kilogram."""
        if isinstance(kg, float):
            if not isfinite(kg):
                raise BadQuantity(say("A weight must be a number, not {value}.", value=kg))
            kg = Fraction(repr(round(kg, 6)))
        return cls.from_text(written(Fraction(kg) / KG_PER[unit], unit, places=9, near=Fraction(0)))

    @classmethod
    def of(cls, quantity: "Quantity[Any]") -> "Mass":
        """A mass from a pint quantity in any unit of mass.

        Raises:
            BadQuantity: for any other dimension.
        """
        exact_kg, unit = _installed().exact(quantity, "mass")
        return cls.of_kg(exact_kg, unit)

    @property
    def quantity(self) -> "Quantity[Any]":
        """The exact pint quantity, in the unit it was written in."""
        return _installed().quantity(self.exact_kg / KG_PER[self.unit], self.unit)


def read_length(
    typed: str, *, bare: str, fractions_need_unit: bool = False, zero: bool = False, minus: bool = False
) -> Length:
    """Reads a length as people write it.

    Args:
        typed: ``2in``, ``2 3/8"``, ``4' 9 1/2"``, ``6,5 cm``, ``5½``, ``1 250 mm``.
        bare: the unit a bare number takes: mm, cm, m, in or ft.
        fractions_need_unit: refuse ``1/2`` without a unit (metric projects).
        zero: whether nothing at all is allowed.
        minus: whether a negative length is allowed; zero is then, too.

    Raises:
        BadQuantity: with one sentence saying what was found and what is expected.
    """
    length = Length(*parse_length(typed, bare, fractions_need_unit=fractions_need_unit))
    if length.exact_mm < 0 and not minus:
        raise BadQuantity(say("“{typed}” is negative; a length above 0 is expected.", typed=shorten(typed)))
    if length.exact_mm == 0 and not (zero or minus):
        raise BadQuantity(say("“{typed}” is nothing; a length above 0 is expected.", typed=shorten(typed)))
    return length


def read_mass(typed: str) -> Mass:
    """Reads a weight above nothing, with its unit: ``800 g``, ``1.2 kg``, ``1 lb 4 oz``.

    Raises:
        BadQuantity: with one sentence saying what was found and what is expected.
    """
    return Mass(*parse_mass(typed))
