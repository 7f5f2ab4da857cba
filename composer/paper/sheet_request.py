"""What every sheet is made for: a paper size, its margins, and the draw factors of a measured printer."""

from dataclasses import dataclass

from composer.paper.drawing import Area
from composer.paper.sheets import TEN_ALL_ROUND, Margins
from composer.texts import say


class SheetTooSmall(ValueError):
    """The paper has no room for this sheet; the message is one finished sentence."""


@dataclass(frozen=True, slots=True)
class SheetRequest:
    """Paper for one sheet.

    Attributes:
        size: width and height of the page, mm.
        margins: left, bottom, right, top, mm.
        name: what the paper is called on the sheet, e.g. "A4".
        scale: draw factors across and up (nominal ÷ measured).
    """

    size: tuple[float, float]
    margins: Margins = TEN_ALL_ROUND
    name: str = "A4"
    scale: tuple[float, float] = (1.0, 1.0)

    @property
    def area(self) -> Area:
        """The printable rectangle."""
        left, bottom, right, top = self.margins
        return Area(left, bottom, self.size[0] - right, self.size[1] - top)

    def turned(self, *, landscape: bool) -> "SheetRequest":
        """The same paper upright or lying; margins stay where they are, as the printer's edges turn with the page."""
        short, long = sorted(self.size)
        return SheetRequest((long, short) if landscape else (short, long), self.margins, self.name, self.scale)

    def expect(self, title: str, width_mm: float, height_mm: float) -> Area:
        """The printable area, at least so large.

        Raises:
            SheetTooSmall: when it is smaller.
        """
        area = self.area
        if area.width + 1e-6 < width_mm or area.height + 1e-6 < height_mm:
            raise SheetTooSmall(
                say(
                    "{title}: needs {width} × {height} mm inside the margins, but only {has_width} × {has_height} mm are there.",
                    title=title,
                    width=f"{width_mm:.0f}",
                    height=f"{height_mm:.0f}",
                    has_width=f"{max(0.0, area.width):.0f}",
                    has_height=f"{max(0.0, area.height):.0f}",
                )
            )
        return area
