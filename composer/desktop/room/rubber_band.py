"""A band drawn around pieces with the button held: what it meets is selected."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QRect, QRectF, QSize
from PySide6.QtWidgets import QRubberBand

from composer.desktop.open_project import existing
from composer.model import Key

if TYPE_CHECKING:
    from composer.desktop.room.view import RoomView


class BandDrag:
    """One band, from press to release; ``kept`` pieces stay selected beside what it catches."""

    def __init__(self, view: RoomView, at: QPoint, kept: tuple[Key, ...]) -> None:
        self._view, self._start, self._kept = view, at, kept
        self._band = QRubberBand(QRubberBand.Shape.Rectangle, view.viewport())
        self._band.setGeometry(QRect(at, QSize()))

    def to(self, at: QPoint) -> None:
        """The hand is at a point of the viewport."""
        shown = QRect(self._start, at).normalized()
        self._band.setGeometry(shown)
        self._band.show()
        view, room = self._view, self._view.room
        held = QRectF(view.mapToScene(shown.topLeft()), view.mapToScene(shown.bottomRight()))
        caught = [
            key for key, item in room.items_by_key.items() if held.intersects(item.mapRectToScene(item.frame_rect))
        ]
        room.selection.set([*self._kept, *existing(caught, room.project)])

    def end(self) -> None:
        """Lets go; what it has caught stays selected."""
        self._band.hide()
        self._band.deleteLater()
