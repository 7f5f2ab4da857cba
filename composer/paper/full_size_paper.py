"""What full-size paper is printed on, as asked for."""

from dataclasses import dataclass

from composer.paper.sheets import Margins, Sheet
from composer.paper.tiling import Economy


@dataclass(frozen=True, slots=True)
class FullSizePaper:
    """What full-size paper is printed on.

    Attributes:
        overlap: of neighbouring sheets, millimetres of the piece.
        scale: draw factors across and up (nominal ÷ measured).
        only: piece numbers; None = all.
        walls: wall keys; None = all walls and the floor.
    """

    sheet: Sheet
    margins: Margins = Margins()
    overlap: float = 10.0
    economy: Economy = "full"
    scale: tuple[float, float] = (1.0, 1.0)
    only: frozenset[int] | None = None
    walls: frozenset[str] | None = None
