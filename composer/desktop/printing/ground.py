"""The ground of a part of the window, from the tokens in force."""

from __future__ import annotations

from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QWidget

from composer.desktop import field_look as look


def lay_ground(widget: QWidget, token: str) -> None:
    """Fills a widget with a token's colour."""
    palette = widget.palette()
    palette.setColor(QPalette.ColorRole.Window, getattr(look.colours(), token))
    widget.setPalette(palette)
    widget.setAutoFillBackground(True)
