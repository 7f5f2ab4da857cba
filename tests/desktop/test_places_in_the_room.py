"""Old holes, free places and the frames that fit, in the room; the picture swapped; by real clicks and keys.

Pieces and their places are those of the tests of the change window, worked out by hand there.
"""

from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from composer.desktop.main_window import MainWindow
from composer.editing.wall_edits import add_wall
from composer.geometry.rectangle import Rectangle
from composer.units import Length
from tests.desktop.conftest import Answers
from tests.desktop.hands import at, bring_to_front, choose_by_mouse, click, press
from tests.desktop.test_change_window import NAIL_1, NAIL_2, both_up, move_to, opened

# In the room ------------------------------------------------------------------------------------


def marks(window: MainWindow) -> list[tuple[float, float, str]]:
    assert window.change.holes is not None
    return [(item.pos().x(), -item.pos().y(), item.hole.state) for item in window.change.holes.items]


def test_old_holes_are_on_the_wall(window: MainWindow, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: window.change.holes is not None, timeout=5000)
    assert marks(window) == []
    both_up(window)
    assert marks(window) == [(*NAIL_1, "in-use"), (*NAIL_2, "in-use")]
    shown = opened(window, qtbot)
    click(shown.pages.buttons[0])
    click(shown.up.ticks["p2"])
    assert marks(window)[1] == (*NAIL_2, "open")
    assert window.change.holes is not None
    assert (
        window.change.holes.items[1].toolTip() == "Old hole of 2: 1\u00a0650 from the left, 1\u00a0780 above the floor"
    )
    click(shown.up.links[1])
    assert marks(window) == [(*NAIL_1, "in-use")], "filled holes are gone"
    window.opened.apply(add_wall("Hall", Length.from_text("3 m"), Length.from_text("2 m")))
    window.show_wall(window.opened.project.walls[-1].key)
    assert marks(window) == [], "each wall has its own"
    window.show_wall("w10")
    assert marks(window) == [(*NAIL_1, "in-use")]


def outlines(window: MainWindow) -> list[Rectangle]:
    return [item.place for item in window.change.marks.items]


def test_free_places_keep_the_gap_and_a_click_hangs(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    window.view.setFocus()
    window.selection.set(("p3",))
    modifiers = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    press(Qt.Key.Key_P, modifiers)
    places = outlines(window)
    assert len(places) > 1
    hung = (Rectangle(400, 1300, 900, 1700), Rectangle(1500, 1400, 1800, 1800))
    for place in places:
        assert (place.width, place.height) == (400, 300)
        assert place.left >= 0 and place.right <= 3200 and place.top <= 2400
        apart = [max(max(-gap for gap in place.overlap(other)), 0.0) for other in hung]
        assert min(apart) == pytest.approx(50), "exactly one gap from a neighbour"
    target = places[1]
    free = next(
        (x, y)
        for x in range(int(target.left) + 10, int(target.right), 40)
        for y in range(int(target.bottom) + 10, int(target.top), 40)
        if sum(other.holds(x, y) for other in places) == 1
    )
    click(window.view.viewport(), at(window, free))
    placed = window.opened.project.placement_by_piece["p3"]
    assert (placed.left, placed.bottom) == (target.left, target.bottom)
    assert window.opened.stack.undoText() == "Hang 3 “Frame 3”"
    assert outlines(window) == []


def test_free_places_by_keys_alone(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    window.view.setFocus()
    window.selection.set(("p3",))
    modifiers = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    press(Qt.Key.Key_P, modifiers)
    press(Qt.Key.Key_Escape)
    assert outlines(window) == [] and "p3" not in window.opened.project.placement_by_piece
    press(Qt.Key.Key_P, modifiers)
    wanted = outlines(window)[2]
    press(Qt.Key.Key_Right)
    press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Return)
    placed = window.opened.project.placement_by_piece["p3"]
    assert (placed.left, placed.bottom) == (wanted.left, wanted.bottom)


def test_a_piece_that_hangs_has_no_free_places(window: MainWindow) -> None:
    window.selection.set(("p1",))
    window.change.free_places()
    assert outlines(window) == []
    assert window.findings.hint.text() == "1 hangs already: take it down first."


def shown_menu(window: MainWindow, qtbot: QtBot) -> QMenu:
    menu = window.change.menu
    assert menu is not None
    qtbot.waitUntil(menu.isVisible, timeout=3000)
    return menu


def test_which_of_my_frames_fit_here(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    choose_by_mouse(qtbot, window, "Wall", "frames_that_fit")
    # Between 1, which ends at 900, and 2, which begins at 1500, one gap of 50 kept: 500 across; up from the box
    # around both, 1300, to its top, 1800.
    click(window.view.viewport(), at(window, (1200, 1600)))
    menu = shown_menu(window, qtbot)
    assert outlines(window) == [Rectangle(950, 1300, 1450, 1800)]
    texts = [action.text() for action in menu.actions()]
    # 3 is 400 × 300, 4 is 200 × 200; 500 × 500 is there: the one that fills it better comes first.
    assert texts == [
        "3 Frame 3, 400\u00a0×\u00a0300: 100 and 200 to spare",
        "4 Frame 4, 200\u00a0×\u00a0200: 300 and 300 to spare",
    ]
    click(menu, menu.actionGeometry(menu.actions()[0]).center())
    placed = window.opened.project.placement_by_piece["p3"]
    box = Rectangle.at(placed.left, placed.bottom, 400, 300)
    assert box.left >= 950 and box.right <= 1450 and box.bottom >= 1300 and box.top <= 1800
    qtbot.waitUntil(lambda: outlines(window) == [], timeout=3000)


def test_frames_that_fit_by_keys(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    window.view.setFocus()
    press(Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    # The cross begins in the wall's middle, 1600, where 2 hangs: eight steps of 50 to the left it is at 1200.
    for _ in range(8):
        press(Qt.Key.Key_Left)
    press(Qt.Key.Key_Return)
    menu = shown_menu(window, qtbot)
    assert outlines(window) == [Rectangle(950, 1300, 1450, 1800)]
    assert [action.isEnabled() for action in menu.actions()] == [True, True]
    press(Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: QApplication.activePopupWidget() is None, timeout=3000)
    assert outlines(window) == []
    assert "p3" not in window.opened.project.placement_by_piece


def test_nothing_fits_where_something_hangs(window: MainWindow) -> None:
    window.change.show_fitting(600, 1500)
    assert window.findings.hint.text().startswith("Nothing fits there")


# Another picture in the same frame ---------------------------------------------------------------


def test_the_picture_is_swapped_and_the_frame_stays(window: MainWindow, qtbot: QtBot, tmp_path: Path) -> None:
    for name, shade in (("boats.png", "red"), ("moon.png", "blue")):
        Image.new("RGB", (400, 300), shade).save(tmp_path / name)
    bring_to_front(qtbot, window)
    both_up(window)
    answers = window.files.ask
    assert isinstance(answers, Answers)
    window.selection.set(("p1",))
    before = window.opened.project
    for name in ("boats.png", "moon.png"):
        answers.path = tmp_path / name
        window.view.setFocus()
        press(Qt.Key.Key_I, Qt.KeyboardModifier.ControlModifier)
        menu = shown_menu(window, qtbot)
        click(menu, menu.actionGeometry(menu.actions()[-1]).center())
    project = window.opened.project
    piece = project.piece_by_number[1]
    assert [Path(project.picture_by_key[use.picture].path).name for use in piece.uses] == ["boats.png", "moon.png"]
    assert piece.current_use == 1
    assert project.pictures[-1].pixels == (400, 300), "the file was looked into"
    assert (project.as_hung, project.arrangements) == (before.as_hung, before.arrangements)
    assert piece.frame == before.piece_by_number[1].frame
    # Back to the first one, from the menu.
    window.view.setFocus()
    press(Qt.Key.Key_I, Qt.KeyboardModifier.ControlModifier)
    menu = shown_menu(window, qtbot)
    assert [action.isChecked() for action in menu.actions()[:2]] == [False, True]
    click(menu, menu.actionGeometry(menu.actions()[0]).center())
    assert window.opened.project.piece_by_number[1].current_use == 0
    assert window.opened.stack.undoText() == "Swap the picture of 1 “Frame 1”"


def test_places_are_let_go_of_when_the_project_changes(window: MainWindow) -> None:
    window.selection.set(("p3",))
    window.change.free_places()
    assert outlines(window)
    move_to(window, p4=(2000, 1400))
    assert outlines(window) == []


def test_places_are_let_go_of_with_their_wall(window: MainWindow) -> None:
    window.opened.apply(add_wall("Hall", Length.from_text("3 m"), Length.from_text("2 m")))
    window.selection.set(("p3",))
    window.change.free_places()
    assert outlines(window)
    window.show_wall(window.opened.project.walls[-1].key)
    assert outlines(window) == []
    assert window.findings.hint.text() == ""


def test_the_menu_of_a_bare_place_asks_for_that_place(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    window.menus.show_at(window.view.viewport().mapToGlobal(at(window, (1200, 1600))), QPointF(1200, -1600))
    popup = QApplication.activePopupWidget()
    assert isinstance(popup, QMenu)
    action = next(one for one in popup.actions() if one.text() == "Which Frames Fit Here")
    click(popup, popup.actionGeometry(action).center())
    qtbot.waitUntil(lambda: window.change.menu is not None, timeout=3000)
    menu = shown_menu(window, qtbot)
    assert outlines(window) == [Rectangle(950, 1300, 1450, 1800)]
    menu.close()
