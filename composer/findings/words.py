"""The values of a finding, written for its sentence."""

from collections.abc import Callable

from composer.model import Finding
from composer.units import Kg, LengthStyle, Mm, show_length, show_mass


class Words:
    """Reads a finding's values by name and shows lengths in the wanted units."""

    def __init__(self, finding: Finding, style: LengthStyle | None) -> None:
        self.finding = finding
        self._style = LengthStyle("mm") if style is None else style
        self._values = dict(finding.values)

    @property
    def piece(self) -> int:
        """Number of the piece it is about."""
        return self.finding.pieces[0]

    def word(self, name: str) -> str:
        """A value as text; empty when it is not there."""
        return str(self._values.get(name, ""))

    def number(self, name: str) -> float:
        """A value as a number; 0 when it is not there."""
        return float(self._values.get(name, 0.0))

    def mm(self, name: str) -> str:
        """A length, shown with its unit."""
        return self.shown(self.number(name))

    def kg(self, name: str) -> str:
        """A mass, shown with its unit."""
        return show_mass(Kg(self.number(name)), "lb" if self._style.unit == "in" else "kg")

    def shown(self, mm: float) -> str:
        """A length in mm, shown with its unit."""
        return show_length(Mm(mm), self._style)


Sentences = dict[str, tuple[Callable[[Words], str], Callable[[Words], str]]]
"""Code of a finding → the function that says it, the function that says what to do."""
