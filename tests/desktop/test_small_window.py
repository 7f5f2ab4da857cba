"""A window that grows smaller: what folds, what lies over what, and that all of it can still be reached.

The widths are those of the design: the list folds below 1 180 pixels, the card lies over the room below 1 000.
"""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QScrollArea, QToolButton, QWidget
from pytestqt.qtbot import QtBot

from composer.desktop.main_window import MainWindow
from composer.desktop.scroll_bars import SlimBar, slim
from composer.desktop.theme import theme
from composer.desktop.window_sizes import fit_to_screen, open_at
from tests.desktop.hands import bring_to_front
from tests.desktop.settling import settle

Key = Qt.Key


def at_width(window: MainWindow, width: int) -> MainWindow:
    window.resize(width, 700)
    settle(window)
    return window


def test_the_list_folds_to_numbers_and_thumbnails_and_opens_again(window: MainWindow) -> None:
    assert not at_width(window, 1180).list.is_folded
    assert at_width(window, 1179).list.is_folded
    assert window.list.width() == 64
    assert not window.list.filter.isVisible()
    # What is not written any more is told: as a tip, and to readers.
    first = window.list.model.index(0)
    assert "Frame 1" in first.data(Qt.ItemDataRole.ToolTipRole)
    assert "Frame 1" in first.data(Qt.ItemDataRole.AccessibleTextRole)
    room = window.view.width()
    at_width(window, 1400)
    assert not window.list.is_folded
    assert window.list.width() >= 200
    assert window.list.filter.isVisible()
    assert room > 560


def test_a_row_of_a_folded_list_still_selects(window: MainWindow) -> None:
    at_width(window, 1100)
    rows = window.list.rows
    QTest.mouseClick(
        rows.viewport(), Qt.MouseButton.LeftButton, pos=rows.visualRect(window.list.model.index(1)).center()
    )
    assert window.selection.pieces == ("p2",)


def test_the_card_lies_over_the_room_on_demand(qtbot: QtBot, window: MainWindow) -> None:
    bring_to_front(qtbot, window)
    assert at_width(window, 1000).card.isVisible()
    at_width(window, 980)
    assert not window.card.isVisible()
    alone = window.view.width()
    assert alone > 800
    window.selection.set(["p1"])
    window.actions_by_name["show_card"].trigger()
    settle(window)
    assert window.card.isVisible()
    assert window.view.width() == alone, "it lies over the room, which keeps its width"
    right = window.card.mapTo(window, QPoint(window.card.width(), 0)).x()
    assert right == window.width()
    focused = QApplication.focusWidget()
    assert focused is not None and window.card.isAncestorOf(focused)
    QTest.keyClick(focused, Key.Key_Escape)
    assert not window.card.isVisible()
    at_width(window, 1300)
    assert window.card.isVisible()
    assert window.view.width() < 1300 - window.card.width()


def test_the_button_over_the_room_opens_and_closes_the_card(window: MainWindow) -> None:
    at_width(window, 900)

    def button() -> QWidget:
        return next(
            one for one in window.findChildren(QAbstractButton)
            if one.accessibleName() in {"Card", "Close card"}
        )  # fmt: skip

    assert min(button().width(), button().height()) >= 24
    QTest.mouseClick(button(), Qt.MouseButton.LeftButton)
    assert window.card.isVisible()
    assert not button().geometry().intersects(window.card.geometry())
    QTest.mouseClick(button(), Qt.MouseButton.LeftButton)
    assert not window.card.isVisible()


def test_a_new_frame_is_asked_for_in_sight(window: MainWindow) -> None:
    at_width(window, 900)
    window.ask_piece()
    assert window.card.isVisible()


def test_widths_of_a_small_window_are_not_remembered(window: MainWindow) -> None:
    name = f"{window.screen().size().width()}x{window.screen().size().height()}"
    before = window.settings.splitter_sizes("across", name)
    at_width(window, 1100)
    window.widths.keep()
    assert window.settings.splitter_sizes("across", name) == before
    at_width(window, 1400)
    window.widths.keep()
    assert window.settings.splitter_sizes("across", name) == window.across.sizes()


@pytest.mark.parametrize("percent", [100, 150, 200])
def test_icons_grow_with_the_letters(window: MainWindow, percent: int) -> None:
    theme().set_text_percent(percent)
    settle(window)
    # 16 pixels at 100 % in the design; the drawing itself must be as large, not only its place.
    side = 16 * percent // 100
    assert window.toolbar.iconSize().width() == side
    drawn = window.actions_by_name["undo"].icon().pixmap(window.toolbar.iconSize(), 1.0)
    assert drawn.width() == side


def test_every_tool_can_be_reached_in_a_narrow_window(window: MainWindow) -> None:
    at_width(window, 800)
    shown = [one for one in window.toolbar.findChildren(QToolButton) if one.isVisible() and one.text()]
    assert {"Undo", "Templates", "Hanging day"} <= {one.text() for one in shown}
    assert window.arrangement_choice.isVisible()


def test_a_slim_bar_is_worked_by_pointer_and_wheel(qtbot: QtBot) -> None:
    area = QScrollArea()
    qtbot.addWidget(area)
    inside = QWidget()
    inside.setFixedSize(200, 1000)
    area.setWidget(inside)
    slim(area)
    area.resize(220, 250)
    area.show()
    bar = area.verticalScrollBar()
    assert isinstance(bar, SlimBar)
    QTest.mousePress(bar, Qt.MouseButton.LeftButton, pos=QPoint(7, 10))
    QTest.mouseMove(bar, QPoint(7, 10 + bar.height()))
    QTest.mouseRelease(bar, Qt.MouseButton.LeftButton, pos=QPoint(7, 10 + bar.height()))
    assert bar.value() == bar.maximum() > 0
    QTest.mouseClick(bar, Qt.MouseButton.LeftButton, pos=QPoint(7, 2))
    assert bar.value() == bar.maximum() - bar.pageStep()
    QTest.keyClick(bar, Key.Key_Home)
    assert bar.value() == bar.minimum()
    assert QPointF(inside.mapTo(area, QPoint(0, 0))).y() >= 0


def test_the_first_window_fits_a_screen_that_is_smaller_than_its_usual_size(window: MainWindow) -> None:
    screen = window.screen().availableSize()
    if screen.width() < window.minimumWidth() + 20:
        pytest.skip("the screen of this run is smaller than the smallest window")
    window.hide()
    window.resize(screen.width() + 100, screen.height() + 100)
    fit_to_screen(window)
    assert window.isMaximized()
    assert window.width() <= screen.width()
    assert window.height() <= screen.height()
    window.setWindowState(Qt.WindowState.WindowNoState)
    window.resize(screen.width() - 20, screen.height() - 100)
    fit_to_screen(window)
    assert not window.isMaximized(), "where there is room, nothing changes"


def test_a_window_opens_with_its_title_bar_on_the_screen(qtbot: QtBot) -> None:
    """Found on 1280 × 720: the buttons at the foot lay below the edge. A title bar is some 30 pixels high."""
    one = QWidget()
    qtbot.addWidget(one)
    screen = one.screen().availableSize()
    open_at(one, screen.width() + 500, screen.height() + 500)
    assert one.height() <= screen.height() - 30
    open_at(one, 300, 200)
    assert (one.width(), one.height()) == (300, 200)
