"""Numbers as they stand on paper: bare, because each sheet says its unit once, or with the unit."""

from typing import Literal, NamedTuple

from composer.model import Project
from composer.texts import say
from composer.units import LengthStyle, show_length, show_mass

_NO_BREAK = "\u00a0"


class Figures(NamedTuple):
    """How one project's paper writes lengths and weights.

    Millimetres in metric projects, to a tenth where they are not whole; inches as on a tape in
    imperial ones. What is computed is never rounded before it is written.
    """

    style: LengthStyle
    mass_unit: Literal["kg", "lb"]

    @property
    def imperial(self) -> bool:
        """Whether this paper speaks inches."""
        return self.style.unit == "in"

    @property
    def unit(self) -> str:
        """The unit's sign, as it stands in a head line."""
        return self.style.unit

    def full(self, mm: float) -> str:
        """A length with its unit."""
        return show_length(round(mm, 6), self.style)

    def bare(self, mm: float) -> str:
        """A length without its unit."""
        return self.full(mm).removesuffix(f"{_NO_BREAK}{self.style.unit}")

    def to_check(self, mm: float) -> str:
        """A length to measure a printer's scale by, without its unit: finer than the project's own inches."""
        if not self.imperial:
            return self.bare(mm)
        return show_length(round(mm, 6), LengthStyle("in", denominator=64)).removesuffix(f"{_NO_BREAK}in")

    def signed(self, mm: float) -> str:
        """A length without its unit that always shows its sign, as distances from the level line do."""
        words = self.bare(mm)
        return words if words.startswith("−") or words == "0" else f"+{words}"

    def size(self, width_mm: float, height_mm: float) -> str:
        """Width × height, bare."""
        return f"{self.bare(width_mm)}{_NO_BREAK}×{_NO_BREAK}{self.bare(height_mm)}"

    def size_in_words(self, width_mm: float, height_mm: float) -> str:
        """Width × height with the unit once."""
        return f"{self.size(width_mm, height_mm)}{_NO_BREAK}{self.unit}"

    def mass(self, kg: float) -> str:
        """A weight with its unit."""
        return show_mass(kg, self.mass_unit)

    @property
    def all_in(self) -> str:
        """Says once what all numbers of a sheet mean."""
        return say("inches") if self.imperial else say("millimetres")


def figures_of(project: Project) -> Figures:
    """The way this project's paper writes numbers."""
    return Figures(project.length_style, project.mass_unit)
