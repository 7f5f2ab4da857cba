"""What full-size paper is printed on, as asked for."""

from dataclasses import dataclass

from composer.paper.kept_sheets import Economy
from composer.paper.sheets import LONGEST_MM, TEN_ALL_ROUND, BadSheet, Margins, Sheet, Side, sides, upright
from composer.texts import say

SHORTEST_CUT_MM = 60.0
"""Print on a page cut from a roll: less is hard to handle (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class FullSizePaper:
    """What full-size paper is printed on.

    Attributes:
        overlap: of neighbouring sheets, millimetres of the piece.
        scale: draw factors across and up (nominal ÷ measured).
        only: piece numbers; None = all.
        walls: wall keys; None = all walls and the floor.

    Raises:
        BadSheet: the overlap or the margins leave too little of a sheet.
    """

    sheet: Sheet
    margins: Margins = TEN_ALL_ROUND
    overlap: float = 10.0
    economy: Economy = "full"
    scale: tuple[float, float] = (1.0, 1.0)
    only: frozenset[int] | None = None
    walls: frozenset[str] | None = None

    def __post_init__(self) -> None:
        narrow = min(upright(self.sheet, self.margins).area)
        if not 0 <= self.overlap <= narrow / 3:
            raise BadSheet(
                say(
                    "An overlap of {overlap} mm does not suit sheets that print {narrow} mm: use up to a third of it.",
                    overlap=f"{self.overlap:g}",
                    narrow=f"{narrow:g}",
                )
            )

    @property
    def ways(self) -> tuple[Side, ...]:
        """Every way up of the sheet; of a roll the longest page."""
        return (self.cut(LONGEST_MM),) if self.sheet.is_roll else sides(self.sheet, self.margins)

    def cut(self, high: float) -> Side:
        """A page cut from the roll, as long as ``high`` mm of print need, within what can be cut and shown."""
        length = min(LONGEST_MM, max(high, SHORTEST_CUT_MM) + self.margins.bottom + self.margins.top)
        return upright(self.sheet, self.margins, length)
