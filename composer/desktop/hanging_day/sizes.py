"""How large things are on the full screen: as a whole by the screen, figures by millimetres of its glass.

The screen is read from two metres, by somebody on a ladder. Texts that are small grow with the text
size a person chose; those that are twice as large as any text of the window already do not.
"""

from __future__ import annotations

import math

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QScreen
from PySide6.QtWidgets import QWidget

from composer.desktop.theme import theme

WIDTH, HEIGHT = 1280, 800
"""The screen that sizes are given for, pixels."""

DIGIT_MM = 24.0
"""Height of a leading figure on the glass: 41 minutes of arc at two metres, four times what 6/12 eyes need."""

USUAL_DOTS, LEAST_DOTS, MOST_DOTS = 96.0, 50.0, 400.0
"""Dots an inch where a screen does not say, and what is believed of one that does."""

GROWS_TO = 28.0
LEAST_TEXT = 12.0
LEAST_TARGET = 44
"""Pixels of a button at least, for a thumb or the end of a pencil (WCAG 2.2, 2.5.5)."""


def dots_per_inch(screen: QScreen | None) -> float:
    """Real dots an inch of a screen, or what is usual where it says nothing that can be."""
    found = USUAL_DOTS if screen is None else float(screen.physicalDotsPerInchY())
    return found if LEAST_DOTS <= found <= MOST_DOTS else USUAL_DOTS


class Sizes:
    """Sizes for a window of some pixels.

    Args:
        width, height: of the window, pixels.
        percent: text size, 100 to 200.
        dots: real dots an inch.
    """

    def __init__(self, width: float, height: float, percent: int, dots: float) -> None:
        self.unit = max(0.5, min(width / WIDTH, height / HEIGHT))
        self._percent, self._dots = percent, dots

    @classmethod
    def of(cls, widget: QWidget) -> Sizes:
        """The sizes for the window a widget is in."""
        window = widget.window()
        return cls(window.width(), window.height(), theme().text_percent, dots_per_inch(window.screen()))

    def px(self, size: float) -> int:
        """Pixels of a length given for the usual screen."""
        return round(size * self.unit)

    def target(self, size: float) -> int:
        """Pixels of something to press."""
        return max(LEAST_TARGET, self.px(size))

    def text_px(self, size: float) -> float:
        """Pixels of a text."""
        grown = max(size, min(size * self._percent / 100, GROWS_TO))
        return max(LEAST_TEXT * self._percent / 100, grown * self.unit)

    def font(self, size: float, *, semibold: bool = False) -> QFont:
        """The program's type in that size."""
        return self.exact_font(self.text_px(size), semibold=semibold)

    @staticmethod
    def exact_font(pixels: float, *, semibold: bool = False) -> QFont:
        """The program's type in so many pixels."""
        made = theme().font(14, semibold=semibold)
        made.setPixelSize(max(1, round(pixels)))
        return made

    def height(self, text: str, size: float, width: float, *, semibold: bool = False) -> float:
        """How high a text stands, wrapped to a width, pixels."""
        metrics = QFontMetricsF(self.font(size, semibold=semibold))
        box = metrics.boundingRect(QRectF(0, 0, max(1.0, width), 10000), int(Qt.TextFlag.TextWordWrap.value), text)
        return box.height()

    def width(self, text: str, size: float, *, semibold: bool = False) -> float:
        """How wide a text stands on one line, pixels."""
        return QFontMetricsF(self.font(size, semibold=semibold)).horizontalAdvance(text)

    @property
    def digit_mm_px(self) -> float:
        """Height of a leading figure that is 24 mm on the glass, pixels; type comes in whole ones, so one more."""
        return math.ceil(DIGIT_MM * self._dots / 25.4) + 1.0

    @property
    def digit_px(self) -> float:
        """Height of a leading figure, pixels: 24 mm of glass, more on a large screen."""
        return max(self.digit_mm_px, 110.0 * self.unit)


def digit_share() -> float:
    """Height of a figure by the pixels of its font."""
    return QFontMetricsF(Sizes.exact_font(1000, semibold=True)).tightBoundingRect("0").height() / 1000
