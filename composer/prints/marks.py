"""What is printed in the waste of a sheet: marks on the cut lines and a bar to measure the lab by.

Labs enlarge a print that has no border by 2 or 3 mm (common practice), so every sheet carries a bar
of exactly 50 mm wherever its waste has room, and all marks lie at least 6 mm inside the sheet.
"""

from collections.abc import Iterator
from dataclasses import dataclass

INSIDE_MM = 6.0
"""Least distance of any mark from the sheet's edge."""

BAR_MM = 50.0
BAR_ROOM_MM = 12.0
"""Waste that a bar needs beside it: 6 mm to the edge, 6 mm for itself."""

BAR_LOW_MM, BAR_HIGH_MM = 49.5, 50.5
"""What the bar may read: beyond, the lab has scaled the print."""

_TICK_MM = 3.0
_MARK_MM = 8.0
BLEED_MM = 3.0
"""How far a bleeding picture reaches over its cut line (print trade: 3 mm or 1/8 in)."""

LINE_MM = 0.2


@dataclass(frozen=True, slots=True)
class InkBox:
    """A black rectangle, mm from the sheet's upper left corner, y down; ``grows`` = from that edge by a line's width."""

    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True, slots=True)
class SheetLayout:
    """A sheet and the picture on it, mm from its upper left corner, y down.

    Attributes:
        width_mm, height_mm: of the sheet as it lies.
        left, top, right, bottom: the picture as it is kept, the cut lines being its edges.
    """

    width_mm: float
    height_mm: float
    left: float
    top: float
    right: float
    bottom: float

    @classmethod
    def of(
        cls, sheet_mm: tuple[float, float], needed_mm: tuple[float, float], at_mm: tuple[float, float]
    ) -> "SheetLayout":
        """The needed size on its sheet, at most as large as that."""
        right = min(sheet_mm[0], at_mm[0] + needed_mm[0])
        bottom = min(sheet_mm[1], at_mm[1] + needed_mm[1])
        return cls(sheet_mm[0], sheet_mm[1], at_mm[0], at_mm[1], right, bottom)

    @property
    def kept_mm(self) -> tuple[float, float]:
        """Width and height of what is kept."""
        return self.right - self.left, self.bottom - self.top

    @property
    def waste(self) -> dict[str, float]:
        """Width of the waste on each side, mm."""
        return {
            "left": self.left,
            "top": self.top,
            "right": self.width_mm - self.right,
            "bottom": self.height_mm - self.bottom,
        }

    @property
    def bars(self) -> tuple[tuple[str, float, float], ...]:
        """Bars of 50 mm: ``across`` or ``up``, and the start of each: its left or upper end, and its line, mm.

        One each way where the waste has room for it.
        """
        waste = self.waste
        found: list[tuple[str, float, float]] = []
        for edge in ("bottom", "top"):
            if waste[edge] >= BAR_ROOM_MM and self.width_mm >= BAR_MM + 2 * INSIDE_MM:
                line = INSIDE_MM + _TICK_MM if edge == "top" else self.height_mm - INSIDE_MM - _TICK_MM
                found.append(("across", self._start(self.left, self.right, self.width_mm), line))
                break
        for edge in ("right", "left"):
            if waste[edge] >= BAR_ROOM_MM and self.height_mm >= BAR_MM + 2 * INSIDE_MM:
                line = INSIDE_MM + _TICK_MM if edge == "left" else self.width_mm - INSIDE_MM - _TICK_MM
                found.append(("up", self._start(self.top, self.bottom, self.height_mm), line))
                break
        ways = [way for way, _, _ in found]
        if ways == ["across"] and max(waste["bottom"], waste["top"]) >= BAR_MM + BAR_ROOM_MM + _TICK_MM:
            top = self.height_mm - INSIDE_MM - BAR_MM if waste["bottom"] >= waste["top"] else INSIDE_MM
            found.append(("up", top, self.width_mm - INSIDE_MM - _TICK_MM))
        elif ways == ["up"] and max(waste["right"], waste["left"]) >= BAR_MM + BAR_ROOM_MM + _TICK_MM:
            left = self.width_mm - INSIDE_MM - BAR_MM if waste["right"] >= waste["left"] else INSIDE_MM
            found.append(("across", left, self.height_mm - INSIDE_MM - _TICK_MM))
        return tuple(found)

    def _start(self, low: float, high: float, side: float) -> float:
        """The bar's start: in the middle of the picture, inside the sheet."""
        middle = (low + high) / 2
        return min(max(middle - BAR_MM / 2, INSIDE_MM), side - INSIDE_MM - BAR_MM)

    @property
    def marks(self) -> tuple[tuple[str, float, float, float], ...]:
        """Marks on the cut lines: which edge of the picture, along it from and to, and the line, mm.

        Each lies wholly in the waste and at least 6 mm inside the sheet, two on each cut.
        """
        found: list[tuple[str, float, float, float]] = []
        for edge, wide in self.waste.items():
            if wide < INSIDE_MM + LINE_MM:
                continue
            upright = edge in ("left", "right")
            side = self.height_mm if upright else self.width_mm
            line = {"left": self.left, "right": self.right, "top": self.top, "bottom": self.bottom}[edge]
            long = min(_MARK_MM, max(0.0, side / 2 - INSIDE_MM - 1.0))
            if long:
                found.append((edge, INSIDE_MM, INSIDE_MM + long, line))
                found.append((edge, side - INSIDE_MM - long, side - INSIDE_MM, line))
        return tuple(found)

    def ink(self, line_mm: float = LINE_MM) -> Iterator[InkBox]:
        """All marks and bars as black rectangles, their lines ``line_mm`` wide; marks on the waste's side."""
        for edge, start, end, line in self.marks:
            if edge == "right":
                yield InkBox(line, start, line + line_mm, end)
            elif edge == "left":
                yield InkBox(line - line_mm, start, line, end)
            elif edge == "bottom":
                yield InkBox(start, line, end, line + line_mm)
            else:
                yield InkBox(start, line - line_mm, end, line)
        half = line_mm / 2
        for way, start, line in self.bars:
            end = start + BAR_MM
            if way == "across":
                yield InkBox(start, line - half, end, line + half)
                for x in (start, end - line_mm):
                    yield InkBox(x, line - _TICK_MM, x + line_mm, line + _TICK_MM)
            else:
                yield InkBox(line - half, start, line + half, end)
                for y in (start, end - line_mm):
                    yield InkBox(line - _TICK_MM, y, line + _TICK_MM, y + line_mm)
