"""Colours, type and distances of fields, cards and windows, in the scheme and text size in force.

Sizes are pixels at 100 % text; everything that holds text grows with it.
"""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPalette
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

FAMILY = "Source Sans Pro"


class Colours:
    """The tokens of one scheme as colours."""

    def __init__(self, **tokens: str) -> None:
        self.wall = QColor(tokens["wall"])
        self.floor = QColor(tokens["floor"])
        self.void = QColor(tokens["void"])
        self.surface = QColor(tokens["surface"])
        self.surface_2 = QColor(tokens["surface_2"])
        self.line = QColor(tokens["line"])
        self.field = QColor(tokens["field"])
        self.field_line = QColor(tokens["field_line"])
        self.ink = QColor(tokens["ink"])
        self.pencil = QColor(tokens["pencil"])
        self.chalk = QColor(tokens["chalk"])
        self.accent = QColor(tokens["accent"])
        self.accent_wash = QColor(tokens["accent_wash"])
        self.on_fill = QColor(tokens["on_fill"])
        self.stop = QColor(tokens["stop"])
        self.warn = QColor(tokens["warn"])
        self.ok = QColor(tokens["ok"])


_LIGHT = Colours(
    wall="#EFE9E1", floor="#DDD2C5", void="#E6E1DA", surface="#FAF8F5", surface_2="#F1EDE7", line="#D8D2C9",
    field="#FFFFFF", field_line="#8F887E", ink="#2B2A28", pencil="#5F5A54", chalk="#215A9C", accent="#95520A",
    accent_wash="#F4E6D5", on_fill="#FFFFFF", stop="#AB231B", warn="#785100", ok="#2A6039",
)  # fmt: skip
_DARK = Colours(
    wall="#3A3733", floor="#2E2A26", void="#1A1817", surface="#211F1D", surface_2="#2A2826", line="#45413C",
    field="#191816", field_line="#7D766C", ink="#EDE8E1", pencil="#B4ADA3", chalk="#8DBBEE", accent="#E9AE5E",
    accent_wash="#3B3022", on_fill="#211F1D", stop="#F4938C", warn="#E3BC66", ok="#8CC79B",
)  # fmt: skip


def colours() -> Colours:
    """The scheme in force: the application's palette says which."""
    palette = QApplication.palette()
    dark = palette.color(QPalette.ColorRole.Window).lightness() < 128
    return _DARK if dark else _LIGHT


def scale() -> float:
    """Text size, 1.0 to 2.0: the application's font against the 14 pixels of 100 %."""
    size = QApplication.font().pixelSize()
    return max(1.0, min(2.0, size / 14)) if size > 0 else 1.0


def px(size: float) -> int:
    """A size at 100 % in pixels of the text size in force."""
    return round(size * scale())


def font(size: float, *, semibold: bool = False) -> QFont:
    """The program's type; ``size`` in pixels at 100 %."""
    made = QFont(FAMILY)
    made.setPixelSize(px(size))
    made.setWeight(QFont.Weight.DemiBold if semibold else QFont.Weight.Normal)
    made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return made


def width_of(text: str, size: float, *, semibold: bool = False) -> int:
    """How wide a text stands, pixels."""
    return QFontMetrics(font(size, semibold=semibold)).horizontalAdvance(text)


def height_of(text: str, size: float, width: int, *, semibold: bool = False) -> int:
    """How high a text stands when wrapped at ``width`` pixels."""
    box = QFontMetrics(font(size, semibold=semibold)).boundingRect(
        QRect(0, 0, width, 10000), int(Qt.TextFlag.TextWordWrap), text
    )
    return box.height()


def edge(field: QWidget, *, wrong: bool = False) -> tuple[QColor, int]:
    """Colour and width of a field's edge: 2 px stop when wrong, 2 px chalk while typing, else 1 px."""
    shades = colours()
    if wrong:
        return shades.stop, 2
    if field.hasFocus():
        return shades.chalk, 2
    if not field.isEnabled():
        return shades.line, 1
    return shades.field_line, 1


def plain_line(line: QLineEdit) -> None:
    """Takes frame and ground from a line, which the field around it draws."""
    line.setFrame(False)
    line.setAutoFillBackground(False)
    palette = line.palette()
    palette.setColor(QPalette.ColorRole.Base, QColor(0, 0, 0, 0))
    line.setPalette(palette)
