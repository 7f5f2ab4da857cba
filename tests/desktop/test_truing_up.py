"""Truing up and several arrangements by real pointer and keys. Places and gaps are worked out by hand."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from composer.desktop.main_window import MainWindow
from composer.editing.placing import Spot, lock, put
from tests.desktop.arranging_hands import ALT, CTRL, SHIFT, beside, hung, tool
from tests.desktop.conftest import Drag
from tests.desktop.hands import bring_to_front, choose_by_mouse, click, press

# Truing up ----------------------------------------------------------------------------------------


def test_true_up_shows_what_would_move_before_anything_does(window: MainWindow, qtbot: QtBot) -> None:
    beside(window, 54)
    bring_to_front(qtbot, window)
    before = window.opened.project
    click(tool(window, "true_up"))
    truing = window.arranging.truing
    qtbot.waitUntil(lambda: bool(truing.arrows.items), timeout=5000)
    # 54 − 50: one piece by 4.
    assert [arrow.words for arrow in truing.arrows.items] == ["4"]
    assert window.opened.project is before
    press(Qt.Key.Key_Return)
    now = hung(window.opened.project)
    assert now[2][0] - now[1][2] == pytest.approx(50, abs=1e-6)
    assert now[1][1] == now[2][1] == 1300
    assert not truing.is_open and not truing.arrows.items
    assert window.opened.stack.count() == 1
    press(Qt.Key.Key_Z, CTRL)
    assert window.opened.project == before


def test_in_a_small_window_the_card_opens_and_the_group_is_seen_near(window: MainWindow, qtbot: QtBot) -> None:
    window.resize(960, 640)
    beside(window, 54)
    bring_to_front(qtbot, window)
    qtbot.waitUntil(lambda: window.widths.card_is_over, timeout=5000)
    QApplication.processEvents()
    fitted = window.view.px_per_mm
    press(Qt.Key.Key_E, CTRL)
    truing = window.arranging.truing
    qtbot.waitUntil(lambda: bool(truing.arrows.items), timeout=5000)
    assert truing.card is not None and truing.card.accept.isVisible()
    assert window.view.px_per_mm > fitted
    # All that would move is seen beside the card.
    free = window.card.mapTo(window, QPoint(0, 0)).x()
    for key in ("p1", "p2"):
        right = window.view.mapFromScene(window.room.items_by_key[key].sceneBoundingRect()).boundingRect().right()
        assert window.view.viewport().mapTo(window, QPoint(right, 0)).x() < free
    click(truing.card.leave)
    assert window.view.is_fitted and window.view.px_per_mm == pytest.approx(fitted)
    assert window.card.isHidden()


def test_escape_leaves_everything_as_it_is(window: MainWindow, qtbot: QtBot) -> None:
    beside(window, 54)
    bring_to_front(qtbot, window)
    before = window.opened.project
    window.view.setFocus()
    press(Qt.Key.Key_E, CTRL)
    qtbot.waitUntil(lambda: bool(window.arranging.truing.arrows.items), timeout=5000)
    window.view.setFocus()
    press(Qt.Key.Key_Escape)
    assert window.opened.project is before
    assert not window.arranging.truing.is_open and not window.arranging.truing.arrows.items


def test_what_is_locked_stays(window: MainWindow, qtbot: QtBot) -> None:
    beside(window, 54)
    window.opened.apply(lock(window.opened.project, ["p1"]))
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_E, CTRL)
    qtbot.waitUntil(lambda: bool(window.arranging.truing.arrows.items), timeout=5000)
    press(Qt.Key.Key_Return)
    now = hung(window.opened.project)
    assert now[1] == (400, 1300, 900, 1700)
    assert now[2][0] == pytest.approx(950, abs=1e-6)


def test_the_slider_says_how_much(window: MainWindow, qtbot: QtBot) -> None:
    beside(window, 70)
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_E, CTRL)
    truing = window.arranging.truing
    assert truing.card is not None
    press(Qt.Key.Key_Home)
    # Gentle: what is 20 off is too far off to be meant.
    qtbot.waitUntil(lambda: truing.answer is not None and truing.strength == 0, timeout=5000)
    QTest.qWait(100)
    assert truing.arrows.items == [] and not truing.card.accept.isEnabled()
    press(Qt.Key.Key_End)
    qtbot.waitUntil(lambda: bool(truing.arrows.items), timeout=5000)
    assert [arrow.words for arrow in truing.arrows.items] == ["20"]


def test_after_a_drop_one_piece_is_trued_up_alone(window: MainWindow, qtbot: QtBot, drag: Drag) -> None:
    beside(window, 300)
    bring_to_front(qtbot, window)
    window.view.fit()
    # Let go of all rules, so that nothing catches: from a gap of 300 to about 54.
    drag((1350, 1500), (1104, 1500), ALT)
    QApplication.processEvents()
    dropped = hung(window.opened.project)
    off = dropped[2][0] - dropped[1][2] - 50
    assert 0 < abs(off) < 30 and window.opened.stack.count() == 1
    qtbot.waitUntil(lambda: "Ctrl+Shift+E" in window.findings.hint.text(), timeout=5000)
    press(Qt.Key.Key_E, CTRL | SHIFT)
    now = hung(window.opened.project)
    assert now[1] == dropped[1]
    assert now[2][0] - now[1][2] == pytest.approx(50, abs=1e-6)
    assert window.opened.stack.count() == 2


# Several arrangements -----------------------------------------------------------------------------


def test_duplicate_rename_compare_delete(window: MainWindow, qtbot: QtBot) -> None:
    beside(window, 50)
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_D, CTRL | SHIFT)
    project = window.opened.project
    assert [one.name for one in project.arrangements] == ["first", "first, copy"]
    assert project.arrangement.name == "first, copy" == window.arrangement_choice.currentText()
    window.files.ask.typed = "  tighter "  # type: ignore[attr-defined]
    press(Qt.Key.Key_F2)
    assert window.arrangement_choice.currentText() == "tighter"
    window.opened.apply(put(window.opened.project, {"p2": Spot("w10", 920, 1300)}))
    press(Qt.Key.Key_F6)
    shown = window.arranging.compared
    assert shown is not None and shown.isVisible()
    left, right = shown.sides
    assert (left.picture.arrangement, right.picture.arrangement) == (project.current_arrangement, "h11")
    # Left: a gap of 20 where 50 is wanted; right: 50.
    assert any("looks like a mistake" in words for words, _ in left.words())
    assert any(words == "All gaps are 50\u00a0mm." for words, _ in right.words())
    assert left.picture.size() == right.picture.size(), "both to one scale"
    click(right.show_button)
    assert window.opened.project.current_arrangement == "h11"
    shown.close()
    bring_to_front(qtbot, window)
    choose_by_mouse(qtbot, window, "Arrangement", "delete_arrangement")
    assert [one.name for one in window.opened.project.arrangements] == ["tighter"]
    assert not window.actions_by_name["delete_arrangement"].isEnabled()
    press(Qt.Key.Key_Z, CTRL)
    assert window.opened.project.current_arrangement == "h11"


def test_a_new_arrangement_is_empty_and_the_other_stays(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    choose_by_mouse(qtbot, window, "Arrangement", "new_arrangement")
    project = window.opened.project
    assert project.arrangement.name == "Arrangement 2" and project.arrangement.placements == ()
    assert len(project.arrangement_by_key["h11"].placements) == 2


def test_swapped_pieces_keep_their_gap(window: MainWindow, qtbot: QtBot) -> None:
    # 1 is 500 wide, 2 is 300: one gap of 50 between them before and after.
    beside(window, 50)
    bring_to_front(qtbot, window)
    window.selection.set(["p1", "p2"])
    press(Qt.Key.Key_X, CTRL | SHIFT)
    now = hung(window.opened.project)
    assert now[2][0] < now[1][0]
    assert now[1][0] - now[2][2] == pytest.approx(50, abs=1e-6)


def test_pieces_move_to_another_wall_by_the_menu(window: MainWindow, qtbot: QtBot) -> None:
    beside(window, 50)
    window.walls.add_wall()
    window.show_wall("w10")
    bring_to_front(qtbot, window)
    window.selection.set(["p1", "p2"])
    bar, piece = window.menuBar(), window.menus.by_name["Piece"]
    click(bar, bar.actionGeometry(piece.menuAction()).center())
    qtbot.waitUntil(piece.isVisible, timeout=3000)
    other = window.menus.other_walls
    click(piece, piece.actionGeometry(other.menuAction()).center())
    qtbot.waitUntil(other.isVisible, timeout=3000)
    (entry,) = other.actions()
    click(other, other.actionGeometry(entry).center())
    placed = window.opened.project.placement_by_piece
    assert {placed["p1"].wall, placed["p2"].wall} == {window.opened.project.walls[1].key}
    # The gap between them is the same there.
    now = hung(window.opened.project)
    assert now[2][0] - now[1][2] == pytest.approx(50, abs=1e-6)
    press(Qt.Key.Key_Z, CTRL)
    assert {one.wall for one in window.opened.project.placement_by_piece.values()} == {"w10"}
