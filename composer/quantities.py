"""Quantities that carry their unit, exact, by pint; the only module that knows pint.

Everything that multiplies unlike things (density × volume, grammage × area) is computed in
quantities; what runs many times drops to a float kernel at its edge. pint is imported when a
quantity is first asked for, never at start. Importing this module plugs it into
:mod:`composer.units`, whose ``Length.quantity`` and ``Mass.quantity`` are answered here.
"""

from fractions import Fraction
from functools import lru_cache
from math import isfinite
from typing import TYPE_CHECKING, Any, Literal

from composer.texts import say
from composer.units import BadQuantity, install_exchange

if TYPE_CHECKING:
    from pint import Quantity, UnitRegistry

_PINT_NAME = {
    "mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot",
    "g": "gram", "kg": "kilogram", "oz": "ounce", "lb": "pound",
}  # fmt: skip
_OUR_NAME = {name: unit for unit, name in _PINT_NAME.items()}


@lru_cache(maxsize=1)
def registry() -> "UnitRegistry[Any]":
    """The one registry, exact (Fraction) and with its table cached in the user's cache folder."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction, cache_folder=_cache_folder())


def quantity(value: float | Fraction, unit: str) -> "Quantity[Any]":
    """A quantity in any unit pint knows; exact if ``value`` is."""
    return registry().Quantity(value, _PINT_NAME.get(unit, unit))


def _cache_folder() -> str | None:
    """Where pint keeps its parsed table (21 ms instead of 99 ms at the next start), or None."""
    from pathlib import Path

    from platformdirs import user_cache_dir

    folder = Path(user_cache_dir("wallwright", appauthor=False)) / "units"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        probe = folder / ".writable"
        probe.touch()
        probe.unlink(missing_ok=True)
    except OSError:
        return None
    return str(folder)


class _PintExchange:
    """Answers :mod:`composer.units`."""

    def quantity(self, value: Fraction, unit: str) -> "Quantity[Any]":
        return quantity(value, unit)

    def exact(self, given: "Quantity[Any]", dimension: Literal["length", "mass"]) -> tuple[Fraction, str]:
        if not given.check(f"[{dimension}]"):
            found = _dimension_words(given)
            if dimension == "length":
                raise BadQuantity(say("A length is expected here, not {found}.", found=found))
            raise BadQuantity(say("A mass is expected here, not {found}.", found=found))
        base = "mm" if dimension == "length" else "kg"
        # The factor is asked for by itself: a float magnitude then meets an exact factor only once.
        factor = Fraction(quantity(Fraction(1), str(given.units)).m_as(_PINT_NAME[base]))
        magnitude = given.magnitude
        if isinstance(magnitude, float):
            if not isfinite(magnitude):
                raise BadQuantity(say("A quantity must be a number, not {value}.", value=magnitude))
            magnitude = repr(magnitude)
        value = Fraction(magnitude)
        return value * factor, _OUR_NAME.get(str(given.units), base)


def _dimension_words(given: "Quantity[Any]") -> str:
    """``[length]^2``; pint's own words fail where the powers are exact fractions."""
    powers = given.dimensionality.items()
    return " ".join(f"{name}^{power}" if power != 1 else str(name) for name, power in powers) or "a plain number"


install_exchange(_PintExchange())
