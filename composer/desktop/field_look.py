"""Colours, type and distances of fields, cards and windows, in the scheme and text size in force.

Sizes are pixels at 100 % text; everything that holds text grows with it.
"""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPalette
from PySide6.QtWidgets import QLineEdit, QWidget

from composer.desktop.theme import Theme, theme


class Colours:
    """The tokens in force, by name."""

    def __init__(self, shown: Theme) -> None:
        self._theme = shown

    def __getattr__(self, token: str) -> QColor:
        return self._theme.colour(token)


def colours() -> Colours:
    """The scheme in force."""
    return Colours(theme())


def scale() -> float:
    """Text size, 1.0 to 2.0."""
    return theme().text_percent / 100


def px(size: float) -> int:
    """A size at 100 % in pixels of the text size in force."""
    return theme().px(size)


def font(size: float, *, semibold: bool = False) -> QFont:
    """The program's type; ``size`` in pixels at 100 %."""
    return theme().font(size, semibold=semibold)


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
