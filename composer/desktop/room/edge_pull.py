"""What is dragged to an edge of the view pulls the room along, towards what is hidden there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPointF, Qt, QTimer

if TYPE_CHECKING:
    from composer.desktop.room.view import RoomView

EDGE_PX, EDGE_STEP_PX, EDGE_MS = 28, 14, 30
"""So near to the edge it pulls, so far, so often."""


class EdgePull(QObject):
    """Pulls for as long as the hand stays at the edge."""

    def __init__(self, view: RoomView) -> None:
        super().__init__(view)
        self._view = view
        self._pointer = QPointF()
        self._modifiers = Qt.KeyboardModifier.NoModifier
        self._timer = QTimer(self)
        self._timer.setInterval(EDGE_MS)
        self._timer.timeout.connect(self._pull)

    def follow(self, pointer: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """The hand is there now, in pixels of the viewport."""
        self._pointer, self._modifiers = pointer, modifiers
        pulls = self._view.tool.dragging and self._by() != (0, 0)
        if self._timer.isActive() != pulls:
            self._timer.start() if pulls else self._timer.stop()

    def stop(self) -> None:
        """Nothing is dragged any more."""
        self._timer.stop()

    def _by(self) -> tuple[int, int]:
        view, x, y = self._view, self._pointer.x(), self._pointer.y()
        port = view.viewport()
        width, height = port.width(), port.height()
        if EDGE_PX <= x <= width - EDGE_PX and EDGE_PX <= y <= height - EDGE_PX:
            return 0, 0
        shown = view.mapFromScene(view.room.extent).boundingRect()
        across = down = 0
        if x < EDGE_PX and shown.left() < 0:
            across = -EDGE_STEP_PX
        elif x > width - EDGE_PX and shown.right() > width:
            across = EDGE_STEP_PX
        if y < EDGE_PX and shown.top() < 0:
            down = -EDGE_STEP_PX
        elif y > height - EDGE_PX and shown.bottom() > height:
            down = EDGE_STEP_PX
        return across, down

    def _pull(self) -> None:
        across, down = self._by()
        if not self._view.tool.dragging or (across, down) == (0, 0):
            self._timer.stop()
            return
        self._view.scroll_by(across, down)
        self._view.tool.move(self._pointer, self._modifiers)
