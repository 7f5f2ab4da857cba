"""How large a window opens: as it is drawn, but never larger than the screen leaves with a title bar around it."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QWidget

FRAME_PX = QSize(4, 40)
"""What a window manager puts around a window, at most as a rule: two edges, a title bar and a lower edge."""


def room_for(window: QWidget) -> QSize:
    """The largest size the window can have with all of it on the screen."""
    return window.screen().availableSize() - FRAME_PX


def open_at(window: QWidget, width: int, height: int) -> None:
    """Gives a window its first size, in pixels."""
    window.resize(QSize(width, height).boundedTo(room_for(window)))


def fit_to_screen(window: QWidget) -> None:
    """Where the screen has no room for the size the window has, it takes all there is."""
    usual, room = window.size(), room_for(window)
    if usual.boundedTo(room) == usual:
        return
    window.resize(usual.boundedTo(room))
    window.setWindowState(window.windowState() | Qt.WindowState.WindowMaximized)
