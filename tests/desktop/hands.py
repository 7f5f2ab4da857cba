"""What a person does with mouse and keyboard, as events to the widgets a person would meet."""

from __future__ import annotations

from itertools import pairwise

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QAction, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QMenu, QWidget
from pytestqt.qtbot import QtBot

from composer.desktop.fields import EntryField
from composer.desktop.main_window import MainWindow

NONE = Qt.KeyboardModifier.NoModifier
LEFT = Qt.MouseButton.LeftButton


def bring_to_front(qtbot: QtBot, window: QWidget) -> None:
    """Until the window has the keyboard, where there is a window manager to give it."""
    window.activateWindow()
    window.raise_()
    qtbot.waitUntil(window.isActiveWindow, timeout=5000)


def click(widget: QWidget, at: QPoint | None = None, modifiers: Qt.KeyboardModifier = NONE) -> None:
    """Presses and releases the left button on a widget, in its middle or at a point of it."""
    assert widget.isVisible() and widget.isEnabled(), f"{widget.accessibleName() or widget} cannot be clicked now"
    QTest.mouseClick(widget, LEFT, modifiers, at if at is not None else widget.rect().center())
    QApplication.processEvents()


def press(key: Qt.Key, modifiers: Qt.KeyboardModifier = NONE) -> None:
    """A key for whatever has the keyboard: an open menu, else the focused widget, else the window."""
    # Where a window manager hands out the keyboard, it may be a moment without one after a menu has closed.
    _wait_for_the_keyboard()
    target = QApplication.activePopupWidget() or QApplication.focusWidget() or QApplication.activeWindow()
    assert target is not None, "nothing has the keyboard"
    QTest.keyClick(target, key, modifiers)
    QApplication.processEvents()


def type_in(text: str) -> None:
    """Types into what has the keyboard."""
    _wait_for_the_keyboard()
    target = QApplication.focusWidget()
    assert target is not None
    QTest.keyClicks(target, text)
    QApplication.processEvents()


def _wait_for_the_keyboard() -> None:
    for _ in range(150):
        if QApplication.activePopupWidget() is not None or QApplication.focusWidget() is not None:
            return
        QTest.qWait(20)


def at(window: MainWindow, place: tuple[float, float]) -> QPoint:
    """The viewport's point over a place of the wall, mm."""
    return window.view.mapFromScene(QPointF(place[0], -place[1]))


def drag(window: MainWindow, start: tuple[float, float], end: tuple[float, float], *, steps: int = 8) -> None:
    """Press, moves, release on the room's viewport, from one place of the wall to another, mm."""
    port = window.view.viewport()
    first, last = at(window, start), at(window, end)
    QTest.mousePress(port, LEFT, NONE, first)
    for step in range(1, steps + 1):
        here = (QPointF(first) + (QPointF(last) - QPointF(first)) * step / steps).toPoint()
        event = QMouseEvent(
            QEvent.Type.MouseMove,
            QPointF(here),
            QPointF(port.mapToGlobal(here)),
            Qt.MouseButton.NoButton,
            LEFT,
            NONE,
        )
        QApplication.sendEvent(port, event)
        QApplication.processEvents()
    QTest.mouseRelease(port, LEFT, NONE, last)
    QApplication.processEvents()


def path_to(window: MainWindow, menu: str, action: QAction) -> list[QMenu]:
    """The menus to open for an action: the one of the bar, and its submenu where it is in one."""
    top = window.menus.by_name[menu]
    if action in top.actions():
        return [top]
    below = next(entry.menu() for entry in top.actions() if _holds(entry, action))
    assert isinstance(below, QMenu)
    return [top, below]


def _holds(entry: QAction, action: QAction) -> bool:
    menu = entry.menu()
    return isinstance(menu, QMenu) and action in menu.actions()


def choose_by_mouse(qtbot: QtBot, window: MainWindow, menu: str, name: str) -> None:
    """An action of the menu bar, by clicks on its menus."""
    action = window.actions_by_name[name]
    bar = window.menuBar()
    path = path_to(window, menu, action)
    click(bar, bar.actionGeometry(path[0].menuAction()).center())
    qtbot.waitUntil(path[0].isVisible, timeout=3000)
    for outer, inner in pairwise(path):
        click(outer, outer.actionGeometry(inner.menuAction()).center())
        qtbot.waitUntil(inner.isVisible, timeout=3000)
    click(path[-1], path[-1].actionGeometry(action).center())
    qtbot.waitUntil(lambda: QApplication.activePopupWidget() is None, timeout=3000)


def choose_by_keys(qtbot: QtBot, window: MainWindow, menu: str, name: str) -> None:
    """The same by Alt and the letter of the menu, arrows and Return."""
    action = window.actions_by_name[name]
    path = path_to(window, menu, action)
    title = path[0].title()
    letter = title[title.index("&") + 1].upper()
    press(Qt.Key(ord(letter)), Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(path[0].isVisible, timeout=3000)
    for outer, inner in pairwise(path):
        _walk_to(outer, inner.menuAction())
        press(Qt.Key.Key_Right)
        qtbot.waitUntil(inner.isVisible, timeout=3000)
    _walk_to(path[-1], action)
    press(Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: QApplication.activePopupWidget() is None, timeout=3000)


def _walk_to(menu: QMenu, action: QAction) -> None:
    for _ in range(60):
        if menu.activeAction() is action:
            return
        press(Qt.Key.Key_Down)
    raise AssertionError(f"{action.text()} is not reached by arrows")


def named(window: QWidget, name: str) -> EntryField:
    """The field of that name."""
    found = [one for one in window.findChildren(EntryField) if one.accessibleName() == name and one.isVisible()]
    assert found, name
    return found[0]


def button(window: QWidget, name: str) -> QAbstractButton:
    """The button of that name."""
    found = [one for one in window.findChildren(QAbstractButton) if one.accessibleName() == name and one.isVisible()]
    assert found, name
    return found[0]


def enter(field: EntryField, text: str, *, end: Qt.Key = Qt.Key.Key_Return) -> None:
    """Types over what stands in a field and ends with a key."""
    click(field.lineEdit())
    field.lineEdit().selectAll()
    type_in(text)
    press(end)
