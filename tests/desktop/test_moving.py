"""Moving by hand and by key: the real path of the pointer, press, moves, release on the viewport."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from composer.desktop.main_window import MainWindow
from composer.model import Placement

Drag = Callable[..., None]
Key = Qt.Key
ALT = Qt.KeyboardModifier.AltModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
CONTROL = Qt.KeyboardModifier.ControlModifier


def place(window: MainWindow, key: str) -> Placement | None:
    return window.opened.project.placement_by_piece.get(key)


def hung(window: MainWindow, key: str) -> Placement:
    found = place(window, key)
    assert found is not None
    return found


def middle(window: MainWindow, key: str) -> tuple[float, float]:
    return window.room.items_by_key[key].box.centre


def pixel_mm(window: MainWindow) -> float:
    """A pointer stands on whole pixels, so a place is known to one of them at either end."""
    return 2 / window.view.px_per_mm


def test_the_gap_is_a_whole_number_of_pixels(window: MainWindow) -> None:
    pixels = window.view.px_per_mm * 50
    assert pixels == pytest.approx(round(pixels), abs=1e-9)
    shown = window.view.mapToScene(window.view.viewport().rect()).boundingRect()
    assert shown.contains(0, -2400)
    assert shown.contains(3199, 299)


def test_drag_from_the_floor_hangs_a_piece_where_it_was_let_go(window: MainWindow, drag: Drag) -> None:
    start = middle(window, "p3")
    drag(start, (2300, 1900), ALT)
    found = hung(window, "p3")
    assert found.left + 200 == pytest.approx(2300, abs=pixel_mm(window))
    assert found.bottom + 150 == pytest.approx(1900, abs=pixel_mm(window))
    assert window.opened.stack.count() == 1
    assert window.opened.stack.undoText() == "Hang 3 “Frame 3”"
    assert window.isWindowModified()


def test_undo_and_redo_give_back_the_very_same_project(window: MainWindow, drag: Drag) -> None:
    before = window.opened.project
    drag(middle(window, "p3"), (2300, 1900), ALT)
    after = window.opened.project
    window.actions_by_name["undo"].trigger()
    assert window.opened.project is before
    assert not window.isWindowModified()
    assert window.room.items_by_key["p3"].box == window.room.floor_places["p3"]
    window.actions_by_name["redo"].trigger()
    assert window.opened.project is after


def test_drag_to_the_floor_takes_it_down(window: MainWindow, drag: Drag) -> None:
    drag(middle(window, "p2"), (1000, -200))
    assert place(window, "p2") is None
    assert window.opened.stack.count() == 1
    assert "p2" in window.opened.project.arrangement.floor_order


def test_dragged_back_to_the_start_is_no_step(window: MainWindow, drag: Drag) -> None:
    start = middle(window, "p1")
    before = window.opened.project
    drag(start, (start[0] + 500, start[1] + 100), release=False)
    view = window.view
    back = view.mapFromScene(QPointF(start[0], -start[1]))
    QTest.mouseMove(view.viewport(), back)
    QTest.mouseRelease(view.viewport(), Qt.MouseButton.LeftButton, pos=back)
    assert window.opened.project is before
    assert window.opened.stack.count() == 0


def test_escape_puts_it_back(window: MainWindow, drag: Drag) -> None:
    box = window.room.items_by_key["p1"].box
    before = window.opened.project
    drag(middle(window, "p1"), (2000, 2000), release=False)
    assert window.room.items_by_key["p1"].box != box
    QTest.keyClick(window.view, Key.Key_Escape)
    assert window.room.items_by_key["p1"].box == box
    QTest.mouseRelease(window.view.viewport(), Qt.MouseButton.LeftButton)
    assert window.opened.project is before


def test_a_gap_catches_and_alt_lets_go(window: MainWindow, drag: Drag) -> None:
    # Piece 3 is 400 wide: right of piece 1 (400…900) with the gap of 50 its left edge is at 950.
    drag(middle(window, "p3"), (950 + 200 + 12, 1500 + 150))
    assert hung(window, "p3").left == 950
    window.opened.stack.undo()
    drag(middle(window, "p3"), (950 + 200 + 12, 1500 + 150), ALT)
    assert hung(window, "p3").left == pytest.approx(962, abs=pixel_mm(window))


def test_shift_keeps_to_one_axis(window: MainWindow, drag: Drag) -> None:
    drag(middle(window, "p2"), (2500, 1650), SHIFT | ALT)
    assert hung(window, "p2").bottom == 1400
    assert hung(window, "p2").left > 2200


def test_several_move_together_as_one_step(window: MainWindow, drag: Drag) -> None:
    window.selection.set(["p1", "p2"])
    drag(middle(window, "p1"), (middle(window, "p1")[0] + 100, middle(window, "p1")[1] + 50), ALT)
    one, two = hung(window, "p1"), hung(window, "p2")
    assert (two.left - one.left, two.bottom - one.bottom) == (1100, 100)
    assert one.left == pytest.approx(500, abs=pixel_mm(window))
    assert window.opened.stack.count() == 1


def test_rubber_band_selects_what_it_meets(window: MainWindow, drag: Drag) -> None:
    def chosen() -> list[str]:
        return list(window.selection.pieces)

    drag((200, 2000), (1000, 1250))
    assert chosen() == ["p1"]
    drag((200, 2000), (1900, 1250))
    assert chosen() == ["p1", "p2"]
    drag((2800, 2200), (3000, 2100))
    assert chosen() == []


def test_a_locked_piece_stays(window: MainWindow, drag: Drag) -> None:
    window.selection.set(["p1"])
    window.actions_by_name["lock"].trigger()
    before = window.opened.project
    drag(middle(window, "p1"), (2000, 2000))
    assert window.opened.project is before
    assert "locked" in window.findings.hint.text()


def test_arrows_nudge_as_one_step(window: MainWindow, qapp: QApplication) -> None:
    window.selection.set(["p1"])
    window.view.setFocus()
    for _ in range(3):
        QTest.keyClick(window.view, Key.Key_Right)
    QTest.keyClick(window.view, Key.Key_Up, SHIFT)
    assert (hung(window, "p1").left, hung(window, "p1").bottom) == (403, 1310)
    assert window.opened.stack.count() == 1
    for _ in range(3):
        QTest.keyClick(window.view, Key.Key_Left)
    QTest.keyClick(window.view, Key.Key_Down, SHIFT)
    assert window.opened.stack.count() == 0


def test_pick_up_arrows_enter_hangs_a_piece_without_the_mouse(window: MainWindow) -> None:
    said: list[str] = []
    window.view.said.connect(said.append)
    window.selection.set(["p4"])
    window.view.setFocus()
    QTest.keyClick(window.view, Key.Key_Space)
    QTest.keyClick(window.view, Key.Key_Up)
    QTest.keyClick(window.view, Key.Key_Right, CONTROL)
    assert place(window, "p4") is None
    QTest.keyClick(window.view, Key.Key_Return)
    found = hung(window, "p4")
    # Up from the floor goes to the eye line (1 450 in metric galleries, common practice): 1450 − 100.
    assert found.bottom == 1350
    assert window.opened.stack.count() == 1
    assert said[0] == "In hand: 4 Frame 4."
    assert said[-1].startswith("4 Frame 4, ")


def test_pick_up_and_escape_changes_nothing(window: MainWindow) -> None:
    before = window.opened.project
    window.selection.set(["p4"])
    window.view.setFocus()
    QTest.keyClick(window.view, Key.Key_Space)
    QTest.keyClick(window.view, Key.Key_Up)
    QTest.keyClick(window.view, Key.Key_Escape)
    assert window.opened.project is before
    assert window.room.items_by_key["p4"].box == window.room.floor_places["p4"]


def test_click_then_click_moves_without_holding_a_button(window: MainWindow) -> None:
    window.selection.set(["p4"])
    window.actions_by_name["pick_up"].trigger()
    target = window.view.mapFromScene(QPointF(2800, -2000))
    QTest.mouseClick(window.view.viewport(), Qt.MouseButton.LeftButton, pos=target)
    assert hung(window, "p4").left + 100 == pytest.approx(2800, abs=pixel_mm(window))


def test_tab_walks_the_pieces_and_leaves(window: MainWindow) -> None:
    window.view.setFocus()
    for key in ("p1", "p2", "p3", "p4"):
        QTest.keyClick(window.view, Key.Key_Tab)
        assert window.selection.pieces == (key,)
    QTest.keyClick(window.view, Key.Key_Tab)
    assert window.selection.keys == ("o20",), "after the pieces come the obstacles"
    QTest.keyClick(window.view, Key.Key_Tab)
    assert not window.view.hasFocus()


def test_the_wheel_zooms_about_the_pointer(window: MainWindow) -> None:
    view = window.view
    point = QPointF(300, 200)
    held = view.mapToScene(point.toPoint())
    view.zoom_by(1.7, point)
    moved = view.mapFromScene(held)
    assert (moved - point.toPoint()).manhattanLength() <= 2


def test_ctrl_lets_go_of_rules_where_the_desktop_keeps_alt(window: MainWindow, drag: Drag) -> None:
    # As with Alt above: the rule would hold the left edge at 950. The key goes down once the piece is in hand.
    start, port = middle(window, "p3"), window.view.viewport()
    end = (950 + 200 + 12, 1500 + 150)
    drag(start, end, release=False)
    assert window.room.items_by_key["p3"].box.left == pytest.approx(950)
    assert "Ctrl" in window.findings.hint.text()
    QTest.keyPress(window.view, Key.Key_Control, CONTROL)
    assert window.room.items_by_key["p3"].box.left == pytest.approx(962, abs=pixel_mm(window))
    QTest.keyRelease(window.view, Key.Key_Control)
    assert window.room.items_by_key["p3"].box.left == pytest.approx(950)
    QTest.keyPress(window.view, Key.Key_Control, CONTROL)
    QTest.mouseRelease(port, Qt.MouseButton.LeftButton, CONTROL, window.view.mapFromScene(QPointF(end[0], -end[1])))
    assert hung(window, "p3").left == pytest.approx(962, abs=pixel_mm(window))
