"""Zooming and scrolling with wheel, pad and touched screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent, QWheelEvent
from PySide6.QtWidgets import QGestureEvent, QPinchGesture

if TYPE_CHECKING:
    from composer.desktop.room.view import RoomView

NOTCH = 120
"""What a notch of a common wheel turns, eighths of a degree; finer wheels zoom smoothly."""
PINCHES = frozenset({QEvent.Type.NativeGesture, QEvent.Type.Gesture})
"""Kinds of events that may be a pinch."""


def turn_wheel(view: RoomView, event: QWheelEvent) -> None:
    """The wheel zooms about the pointer; with Shift it scrolls across, with Ctrl up and down, as two fingers do."""
    pixels, angle = event.pixelDelta(), event.angleDelta()
    shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
    control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
    by_fingers = not pixels.isNull() and event.phase() != Qt.ScrollPhase.NoScrollPhase
    if shift or control or by_fingers:
        step = pixels if not pixels.isNull() else angle / 2
        flip = shift and step.x() == 0
        view.scroll_by(-step.y() if flip else -step.x(), 0 if flip else -step.y())
    else:
        turn = angle.y() or angle.x()
        view.zoom_by(1.0015**turn, event.position(), smoothly=abs(turn) < NOTCH)


def pinch(view: RoomView, event: QEvent) -> bool:
    """Pinching zooms, on a pad and on a screen that is touched; says whether the event was one."""
    if isinstance(event, QNativeGestureEvent) and event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture:
        view.zoom_by(1 + event.value(), event.position(), smoothly=True)
        return True
    if isinstance(event, QGestureEvent):
        found = event.gesture(Qt.GestureType.PinchGesture)
        if isinstance(found, QPinchGesture):
            at = QPointF(view.viewport().mapFromGlobal(found.centerPoint().toPoint()))
            view.zoom_by(found.scaleFactor(), at, smoothly=True)
            return True
    return False
