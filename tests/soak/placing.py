"""A picture placed in its frame at random: keys, wheel, drags of picture, corners and ring, typed values, Enter or Esc."""

from __future__ import annotations

import random

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from composer.desktop.main_window import MainWindow

NO_KEYS = Qt.KeyboardModifier.NoModifier
KEYS = (
    Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Plus, Qt.Key.Key_Minus,
    Qt.Key.Key_Comma, Qt.Key.Key_Period, Qt.Key.Key_T, Qt.Key.Key_0, Qt.Key.Key_Space, Qt.Key.Key_Tab,
)  # fmt: skip


def place_picture(window: MainWindow, rng: random.Random) -> None:
    """Places the picture of some piece that shows one."""
    keys = [piece.key for piece in window.opened.project.pieces if piece.current_use is not None]
    if not keys:
        return
    window.selection.set([rng.choice(keys)])
    if window.actions_by_name["crop"].isEnabled():
        window.actions_by_name["crop"].trigger()
    QApplication.processEvents()
    for _ in range(rng.randint(1, 12)):
        if window.cropping.tool is None:
            return
        rng.choice((_key, _key, _wheel, _drag, _drag, _undo))(window, rng)
        QApplication.processEvents()
    if window.cropping.tool is not None and rng.random() < 0.8:
        QTest.keyClick(window.view, rng.choice((Qt.Key.Key_Return, Qt.Key.Key_Escape)))


def _key(window: MainWindow, rng: random.Random) -> None:
    held = rng.choice((NO_KEYS, NO_KEYS, Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier))
    QTest.keyClick(window.view, rng.choice(KEYS), held)


def _undo(window: MainWindow, rng: random.Random) -> None:
    action = window.actions_by_name[rng.choice(("undo", "redo"))]
    if action.isEnabled():
        action.trigger()


def _wheel(window: MainWindow, rng: random.Random) -> None:
    port = window.view.viewport()
    at = QPointF(rng.randrange(port.width()), rng.randrange(port.height()))
    turn = QPoint(0, rng.choice((120, 120, -120, 15)))
    none = Qt.MouseButton.NoButton
    event = QWheelEvent(
        at, QPointF(port.mapToGlobal(at.toPoint())), QPoint(), turn, none, NO_KEYS, Qt.ScrollPhase.NoScrollPhase, False
    )
    QApplication.sendEvent(port, event)


def _drag(window: MainWindow, rng: random.Random) -> None:
    tool, port = window.cropping.tool, window.view.viewport()
    assert tool is not None
    grips = tool.grips()
    start = rng.choice((*grips.corners, grips.ring, grips.frame.center()))
    QTest.mousePress(port, Qt.MouseButton.LeftButton, NO_KEYS, start.toPoint())
    for _ in range(rng.randint(1, 5)):
        at = start + QPointF(rng.uniform(-200, 200), rng.uniform(-200, 200))
        event = QMouseEvent(
            QEvent.Type.MouseMove,
            at,
            QPointF(port.mapToGlobal(at.toPoint())),
            Qt.MouseButton.NoButton,
            Qt.MouseButton.LeftButton,
            NO_KEYS,
        )
        QApplication.sendEvent(port, event)
    if rng.random() < 0.1:
        QTest.keyClick(window.view, Qt.Key.Key_Escape)
    QTest.mouseRelease(port, Qt.MouseButton.LeftButton, NO_KEYS, start.toPoint())
