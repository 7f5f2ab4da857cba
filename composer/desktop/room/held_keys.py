"""Keys that change what a drag does while they are held."""

from __future__ import annotations

from PySide6.QtCore import Qt

HELD = {
    Qt.Key.Key_Alt: Qt.KeyboardModifier.AltModifier,
    Qt.Key.Key_Control: Qt.KeyboardModifier.ControlModifier,
    Qt.Key.Key_Shift: Qt.KeyboardModifier.ShiftModifier,
}
"""The keys, with what they add to an event of the pointer."""

_FREE = Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ControlModifier


def lets_go(modifiers: Qt.KeyboardModifier) -> bool:
    """Whether no rule is to hold: Alt, or Ctrl, since many desktops keep Alt with the pointer for moving windows."""
    return bool(modifiers & _FREE)
