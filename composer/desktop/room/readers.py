"""The room for screen readers; nothing of what speaks for it is loaded until one asks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QAccessible, QAccessibleInterface

if TYPE_CHECKING:
    from composer.desktop.room.view import RoomView

_rooms: list[type[RoomView]] = []


def answer_for(kind: type[RoomView]) -> None:
    """From now on whoever asks about a view of this kind is answered."""
    if kind not in _rooms:
        _rooms.append(kind)
    QAccessible.installFactory(_speak)


def tell_focus(view: RoomView) -> None:
    """The keyboard is at another piece or obstacle."""
    if QAccessible.isActive():
        from composer.desktop.room.accessible import tell_focus as tell

        tell(view)


def tell_order_changed(view: RoomView) -> None:
    """Pieces or obstacles came, went or changed places."""
    if QAccessible.isActive():
        from composer.desktop.room.accessible import tell_order_changed as tell

        tell(view)


def _speak(class_name: str, thing: QObject | None) -> QAccessibleInterface | None:
    for kind in _rooms:
        if isinstance(thing, kind):
            from composer.desktop.room.accessible import interface_of

            return interface_of(thing)
    return None
