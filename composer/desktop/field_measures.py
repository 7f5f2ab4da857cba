"""Fields for lengths, positions and weights: typed in any unit, shown in the field's own."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any, Literal

from PySide6.QtWidgets import QWidget

from composer.desktop.fields import EntryField
from composer.desktop.units_shown import number
from composer.texts import say
from composer.units import Length, LengthStyle, Mass, Mm, read_length, read_mass, show_length

SIXTEENTH_MM = Fraction(127, 80)
"""One sixteenth of an inch, exactly."""


System = Literal["metric", "imperial"]


def bare_unit(system: System) -> str:
    """What a bare number in a card means: the unit its field shows."""
    return "mm" if system == "metric" else "in"


def step_mm(unit: str) -> Fraction:
    """One step: 1 mm, or 1/16 in where inches stand."""
    return SIXTEENTH_MM if unit in ("in", "ft") else Fraction(1)


def other_unit(mm: float, unit: str) -> str:
    """The same length in the other system: “≈ 16 1/4 in” beside millimetres, and the reverse."""
    style = LengthStyle("mm") if unit in ("in", "ft") else LengthStyle("in")
    return say("≈ {length}", length=show_length(Mm(mm), style))


class LengthField(EntryField):
    """A length as typed; empty means "not measured" where ``needed`` is False."""

    def __init__(
        self,
        name: str,
        *,
        bare: str,
        needed: bool = False,
        zero: bool = False,
        minus: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        self._bare = bare
        self._needed = needed
        self._zero = zero
        self._minus = minus
        super().__init__(name, parent)
        self.set_suffix(bare)

    def read(self, text: str) -> Length | None:
        """The length, in its own unit; None for an empty field that may be empty."""
        if not text.strip():
            if self._needed:
                raise ValueError(say("{name} cannot stay empty. Try 61.5 cm or 24 1/4 in.", name=self.accessibleName()))
            return None
        metric = self._bare in ("mm", "cm", "m")
        return read_length(text, bare=self._bare, fractions_need_unit=metric, zero=self._zero, minus=self._minus)

    def written(self, value: Any) -> str:
        """A number alone where the field's own unit is meant, else the text with its unit."""
        if value is None:
            return ""
        if value.unit == self._bare:
            return str(value.text).removesuffix(f" {self._bare}")
        return str(value.text)

    def _suffix_shown(self) -> str:
        text = self.lineEdit().text().strip()
        return self._suffix if not text or text[-1].isdigit() else ""

    def remark(self, value: Any) -> str:
        """The length in the other system."""
        return "" if value is None else other_unit(value.mm, value.unit)

    @property
    def can_step(self) -> bool:
        """Lengths step by 1 mm or 1/16 in."""
        return True

    def stepped(self, value: Any, steps: int) -> Any:
        """On to the next whole step of the grid of its unit."""
        unit = self._bare if value is None else value.unit
        step = step_mm(unit)
        start = Fraction(0) if value is None else value.exact_mm
        places = start / step
        moved = (math.floor(places) if steps > 0 else math.ceil(places)) + steps
        mm = moved * step
        if (mm < 0 and not self._minus) or (mm == 0 and not (self._zero or self._minus)):
            return value
        return Length.of_mm(mm, unit)


class PositionField(EntryField):
    """A coordinate on the wall, float millimetres, shown and typed in the rulers' unit."""

    def __init__(self, name: str, *, style: LengthStyle, bare: str, parent: QWidget | None = None) -> None:
        self._style = style
        self._bare = bare
        super().__init__(name, parent)

    def read(self, text: str) -> float | None:
        """The coordinate, mm; a minus lies left of the wall's corner or below its foot."""
        if not text.strip():
            raise ValueError(say("{name} cannot stay empty: type a distance.", name=self.accessibleName()))
        plain = text.replace("−", "-")
        metric = self._bare in ("mm", "cm", "m")
        return float(read_length(plain, bare=self._bare, fractions_need_unit=metric, zero=True, minus=True).mm)

    def written(self, value: Any) -> str:
        """As the ruler writes it, without the unit that stands in the label."""
        if value is None:
            return ""
        return number(value, self._style)

    def remark(self, value: Any) -> str:
        """The same in the other system."""
        return "" if value is None else other_unit(value, self._bare)

    @property
    def can_step(self) -> bool:
        """Positions step as arrows nudge."""
        return True

    def stepped(self, value: Any, steps: int) -> Any:
        """Exactly one step further: a nudge keeps the odd tenth."""
        return None if value is None else float(value + steps * float(step_mm(self._bare)))


class MassField(EntryField):
    """A weight with its unit."""

    def read(self, text: str) -> Mass | None:
        """The weight; None for an empty field: it is then estimated."""
        return read_mass(text) if text.strip() else None

    def written(self, value: Any) -> str:
        """As it was typed."""
        return "" if value is None else str(value.text)

    def remark(self, value: Any) -> str:
        """The same in the other system: pounds beside kilograms."""
        if value is None:
            return ""
        if value.unit in ("lb", "oz"):
            return say("≈ {mass}", mass=f"{value.kg:.3g} kg")
        return say("≈ {mass}", mass=f"{value.kg / 0.45359237:.3g} lb")
