"""Pointer and keyboard at the strip of sketches together."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from composer.desktop.main_window import MainWindow
from tests.desktop.arranging_hands import CTRL, settle
from tests.desktop.hands import bring_to_front, press


def test_a_mouse_at_rest_does_not_hold_the_keyboard_back(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_R, CTRL)
    cells = settle(qtbot, window)
    ghosts = window.arranging.sketching.ghosts
    handle = window.windowHandle()
    assert handle is not None
    QTest.mouseMove(handle, cells[1].mapTo(window, QPoint(40, 40)))
    QTest.mouseMove(handle, cells[0].mapTo(window, QPoint(40, 40)))
    qtbot.waitUntil(lambda: cells[0].underMouse() and cells[0].current and ghosts.shown, timeout=5000)
    cells[0].setFocus()
    press(Qt.Key.Key_Right)
    QTest.qWait(50)  # whoever was left has looked round by now
    assert cells[0].underMouse()
    assert cells[1].current and not cells[0].current
    # The pointer moves on and leads again.
    QTest.mouseMove(handle, cells[2].mapTo(window, QPoint(40, 40)))
    qtbot.waitUntil(lambda: cells[2].current and not cells[1].current, timeout=5000)
    # And goes: the keyboard still stands on the second.
    QTest.mouseMove(handle, window.list.mapTo(window, QPoint(5, 5)))
    qtbot.waitUntil(lambda: cells[1].current, timeout=5000)
