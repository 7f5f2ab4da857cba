"""The next change in the window, by real clicks and keys; places and holes are worked out by hand beside it.

Piece 1 is 500 × 400 with its lower left corner at 400, 1300 and hangs by a sawtooth 20 below its top edge: its nail
is at 400 + 250 = 650 and 1300 + 400 − 20 = 1680. Piece 2 is 300 × 400 at 1500, 1400: its nail is at 1650, 1780.
"""

from datetime import UTC, datetime
from itertools import pairwise
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QMenu, QWidget
from pytestqt.qtbot import QtBot

from composer.desktop.change.planning import EMPTY_WALL, Planned
from composer.desktop.change.window import ChangeWindow
from composer.desktop.fields import EntryField
from composer.desktop.main_window import MainWindow
from composer.desktop.printing.window import PrintingWindow
from composer.editing.placing import Spot, put
from composer.editing.rehang_edits import record_up
from composer.editing.wall_edits import add_wall
from composer.geometry.rectangle import Rectangle
from composer.units import Length
from tests.desktop.conftest import Answers
from tests.desktop.hands import at, bring_to_front, choose_by_mouse, click, press, type_in

JANUARY = "2026-01-10T11:00:00Z"
NAIL_1, NAIL_2 = (650.0, 1680.0), (1650.0, 1780.0)


def settle(window: MainWindow) -> None:
    """Until the plan asked for is shown."""
    QApplication.processEvents()
    if window.change.shown is not None:
        window.change.shown.wait()
    QApplication.processEvents()


def opened(window: MainWindow, qtbot: QtBot) -> ChangeWindow:
    """The window of the next change, in front."""
    window.change.next_change()
    shown = window.change.shown
    assert shown is not None
    qtbot.waitExposed(shown)
    bring_to_front(qtbot, shown)
    settle(window)
    return shown


def named(window: QWidget, name: str) -> EntryField:
    return next(one for one in window.findChildren(EntryField) if one.accessibleName() == name and one.isVisible())


def button(window: QWidget, name: str) -> QAbstractButton:
    found = [one for one in window.findChildren(QAbstractButton) if one.accessibleName() == name and one.isVisible()]
    assert found, name
    return found[0]


def enter(field: EntryField, text: str, *, end: Qt.Key = Qt.Key.Key_Return) -> None:
    click(field.lineEdit())
    field.lineEdit().selectAll()
    type_in(text)
    press(end)


def holes(window: MainWindow) -> list[tuple[float, float, str]]:
    return [(hole.x, hole.y, hole.state) for hole in window.opened.project.as_hung.holes]


def both_up(window: MainWindow) -> None:
    window.opened.apply(record_up(window.opened.project, ("p1", "p2"), JANUARY))


def move_to(window: MainWindow, **places: tuple[float, float]) -> None:
    window.opened.apply(put(window.opened.project, {key: Spot("w10", *place) for key, place in places.items()}))


# What is up -------------------------------------------------------------------------------------


def test_a_piece_is_noted_as_up_by_hand_with_its_day_and_holes(window: MainWindow, qtbot: QtBot) -> None:
    shown = opened(window, qtbot)
    assert shown.pages.value == "up", "nothing is up: that is asked first"
    enter(named(shown, "Day it was hung or taken down"), "2026-01-10")
    click(shown.up.ticks["p1"])
    (record,) = window.opened.project.as_hung.items
    # Noon, wherever this computer is, as a moment in UTC.
    noon = datetime(2026, 1, 10, 12).astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    assert (record.piece, record.wall, record.when, record.points) == ("p1", "w10", noon, (NAIL_1,))
    assert holes(window) == [(*NAIL_1, "in-use")]
    assert window.opened.stack.undoText() == "Record 1 “Frame 1” as up"
    assert "up since 2026-01-10" in [label.text() for label in shown.up.findChildren(type(shown.up.note))]


def test_a_piece_is_noted_as_down_and_its_hole_stays(window: MainWindow, qtbot: QtBot) -> None:
    both_up(window)
    shown = opened(window, qtbot)
    click(shown.pages.buttons[0])
    click(shown.up.ticks["p2"])
    assert window.opened.project.up() == {"p1"}
    assert holes(window) == [(*NAIL_1, "in-use"), (*NAIL_2, "open")]
    click(shown.up.links[1])
    assert holes(window)[1] == (*NAIL_2, "filled")
    click(shown.up.links[1])
    assert holes(window)[1] == (*NAIL_2, "open")


@pytest.mark.parametrize(("day", "sentence"), [("soon", "is not a day"), ("2999-01-01", "is yet to come")])
def test_a_day_that_cannot_be_is_refused(window: MainWindow, qtbot: QtBot, day: str, sentence: str) -> None:
    shown = opened(window, qtbot)
    field = named(shown, "Day it was hung or taken down")
    enter(field, day)
    assert sentence in field.wrong
    assert shown.up._day_row.message.text() == field.wrong
    assert window.opened.project.as_hung.items == ()


def test_all_of_them_at_once(window: MainWindow, qtbot: QtBot) -> None:
    shown = opened(window, qtbot)
    click(shown.up.all_up)
    assert window.opened.project.up() == {"p1", "p2"}
    assert not shown.up.all_up.isEnabled()
    window.commands.undo()
    assert not window.opened.project.up()


def test_a_hole_nobody_knows_the_piece_of(window: MainWindow, qtbot: QtBot) -> None:
    shown = opened(window, qtbot)
    click(shown.up.hole_add)
    assert shown.up.note.text().startswith("Type how far")
    enter(shown.up.hole_x, "120 cm", end=Qt.Key.Key_Tab)
    enter(shown.up.hole_y, "1700", end=Qt.Key.Key_Tab)
    click(shown.up.hole_add)
    assert holes(window) == [(1200.0, 1700.0, "open")]


def test_what_the_tape_says_moves_hole_and_record(window: MainWindow, qtbot: QtBot) -> None:
    both_up(window)
    shown = opened(window, qtbot)
    click(shown.pages.buttons[0])
    click(button(shown, "Where 1 Frame 1 really hangs"))
    assert shown.up.measured is not None
    across, up = shown.up.measured.fields[0]
    assert (across.lineEdit().placeholderText(), up.lineEdit().placeholderText()) == ("650", "1\u00a0680")
    enter(across, "652", end=Qt.Key.Key_Tab)
    enter(up, "1678.5", end=Qt.Key.Key_Tab)
    click(shown.up.measured.note)
    assert holes(window)[0] == (652.0, 1678.5, "in-use")
    assert window.opened.project.as_hung.items[0].points == ((652.0, 1678.5),)
    assert len(holes(window)) == 2, "a corrected hole is not one more"


def test_up_and_down_by_keys_in_the_room(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    window.view.setFocus()
    window.selection.set(("p1", "p2"))
    press(Qt.Key.Key_U, Qt.KeyboardModifier.ControlModifier)
    assert window.opened.project.up() == {"p1", "p2"}
    window.selection.set(("p2",))
    press(Qt.Key.Key_U, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    assert window.opened.project.up() == {"p1"}
    press(Qt.Key.Key_U, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    assert window.findings.hint.text() == "None of them is noted as up."


# The plan ---------------------------------------------------------------------------------------


def changed(window: MainWindow, qtbot: QtBot) -> ChangeWindow:
    """1 stays, 2 goes 300 to the right, 3 (400 × 300) comes: nails at 1950, 1780 and 1000 + 200, 1300 + 280."""
    both_up(window)
    move_to(window, p2=(1800, 1400), p3=(1000, 1300))
    return opened(window, qtbot)


def test_the_plan_says_what_moves_and_which_holes(window: MainWindow, qtbot: QtBot) -> None:
    shown = changed(window, qtbot)
    assert shown.pages.value == "plan"
    plan = shown.planned
    assert plan is not None
    assert [(one.number, one.action) for one in plan.plan.changes] == [(1, "stay"), (2, "move"), (3, "up")]
    assert shown.plan.summary.text() == "From 2 to 3 pieces; 1 stays untouched."
    legend = {label.text() for label in shown.plan.legend.findChildren(type(shown.plan.summary)) if label.isVisible()}
    assert legend == {"1 moves", "1 goes up", "1 hole serves again", "1 hole to fill", "2 new holes"}
    assert shown.plan.drawing.accessibleDescription() == "1 stay, 1 move, 0 come down, 1 go up."
    assert shown.templates.text() == "Templates of 2, 3"
    texts = {label.text() for label in shown.plan.rows.findChildren(type(shown.plan.summary)) if label.isVisible()}
    assert {"1\u00a0950", "1\u00a0200", "1\u00a0580", "1\u00a0780"} <= texts


def test_only_what_changes_is_printed(window: MainWindow, qtbot: QtBot) -> None:
    shown = changed(window, qtbot)
    click(shown.templates)
    answers = window.files.ask
    assert isinstance(answers, Answers)
    printing = answers.dialogs[-1]
    assert isinstance(printing, PrintingWindow)
    assert (printing.panel.kind.value, printing.panel.options.only) == ("templates", frozenset({2, 3}))
    printing.close()
    click(shown.print_plan)
    printing = answers.dialogs[-1]
    assert isinstance(printing, PrintingWindow) and printing.panel.kind.value == "rehang"
    printing.wait()
    QApplication.processEvents()
    assert printing.label.text().startswith("Rehang 1")
    printing.close()


def test_a_plan_that_is_done_is_one_step(window: MainWindow, qtbot: QtBot) -> None:
    shown = changed(window, qtbot)
    before = window.opened.project
    click(shown.record)
    settle(window)
    assert window.opened.project.up() == {"p1", "p2", "p3"}
    assert sorted(holes(window)) == [
        (*NAIL_1, "in-use"),
        (1200.0, 1580.0, "in-use"),
        (*NAIL_2, "filled"),
        (1950.0, 1780.0, "in-use"),
    ]
    assert shown.plan.summary.text() == "Everything hangs as it shall. Nothing is to be done."
    assert not shown.record.isEnabled()
    assert window.opened.stack.undoText() == "Record the rehang as done"
    bring_to_front(qtbot, shown)
    press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.opened.project == before


def test_moving_out(window: MainWindow, qtbot: QtBot) -> None:
    both_up(window)
    shown = opened(window, qtbot)
    row = shown.plan.target.findData(EMPTY_WALL)
    shown.plan.target.setFocus()
    for _ in range(row):
        press(Qt.Key.Key_Down)
    settle(window)
    assert shown.plan.summary.text() == "To the empty wall: 2 pieces come down."
    assert not shown.templates.isEnabled()
    click(shown.print_plan)
    answers = window.files.ask
    assert isinstance(answers, Answers)
    printing = answers.dialogs[-1]
    assert isinstance(printing, PrintingWindow)
    printing.wait()
    QApplication.processEvents()
    assert printing.label.text().startswith("Moving out 1")
    printing.close()
    click(shown.record)
    assert not window.opened.project.up()
    assert {state for _, _, state in holes(window)} == {"filled"}
    assert window.opened.stack.undoText() == "Record the wall as emptied"


def test_only_this_wall_moves_out(window: MainWindow, qtbot: QtBot) -> None:
    window.opened.apply(add_wall("Hall", Length.from_text("3 m"), Length.from_text("2 m")))
    hall = window.opened.project.walls[-1].key
    window.opened.apply(put(window.opened.project, {"p2": Spot(hall, 500, 900)}))
    both_up(window)
    shown = opened(window, qtbot)
    shown.show_target(EMPTY_WALL)
    settle(window)
    click(shown.print_plan)
    answers = window.files.ask
    assert isinstance(answers, Answers)
    printing = answers.dialogs[-1]
    assert isinstance(printing, PrintingWindow)
    assert printing.panel.options.walls == ("w10",)
    printing.wait()
    QApplication.processEvents()
    assert printing.label.text() == "Moving out 1, 1 of 1"
    printing.close()
    click(shown.record)
    assert window.opened.project.up() == {"p2"}


def test_the_next_change_is_planned_in_a_copy(window: MainWindow, qtbot: QtBot) -> None:
    both_up(window)
    shown = opened(window, qtbot)
    click(shown.plan.copy)
    settle(window)
    project = window.opened.project
    assert [one.name for one in project.arrangements] == ["first", "first, next"]
    assert project.arrangement.name == "first, next"
    assert shown.target == project.current_arrangement


def test_a_shift_that_saves_holes_is_one_click(window: MainWindow, qtbot: QtBot) -> None:
    both_up(window)
    move_to(window, p1=(405, 1300), p2=(1505, 1400))  # both 5 to the right: too far for the old holes
    shown = opened(window, qtbot)
    assert shown.planned is not None and shown.planned.plan.new_holes == 2
    box, sentence, take = shown.plan.offers["shift"]
    assert box.isVisible()
    assert sentence.text() == "The whole arrangement shifted 5\u00a0mm to the left: 2 old holes more serve."
    click(take)
    settle(window)
    placed = window.opened.project.placement_by_piece
    assert [(placed[key].left, placed[key].bottom) for key in ("p1", "p2")] == [(400.0, 1300.0), (1500.0, 1400.0)]
    assert shown.plan.summary.text().startswith("Everything hangs as it shall.")
    assert window.opened.stack.undoText() == "Shift the arrangement onto old holes"


def test_a_piece_is_put_onto_an_old_hole(window: MainWindow, qtbot: QtBot) -> None:
    both_up(window)
    # 3 (400 × 300, nail 200 from its left, 280 up) in place of 1: its nail at 651.5, 1681, that of 1 is 1.5 and 1 off.
    from composer.editing.placing import take_down

    window.opened.apply(take_down(window.opened.project, ("p1",)))
    move_to(window, p3=(451.5, 1401))
    shown = opened(window, qtbot)
    box, sentence, take = shown.plan.offers["places"]
    assert box.isVisible() and sentence.text().startswith("3 hangs up to 1.5\u00a0mm off its drawn place")
    click(take)
    placed = window.opened.project.placement_by_piece["p3"]
    assert (placed.left, placed.bottom) == (450.0, 1400.0)


def test_an_older_plan_is_dropped(window: MainWindow, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    shown = changed(window, qtbot)
    seen: list[Planned | None] = []
    monkeypatch.setattr(shown.plan, "show_plan", seen.append)
    for target in (EMPTY_WALL, "h11", EMPTY_WALL):
        shown.show_target(target)
    settle(window)
    assert [one.target for one in seen if one is not None] == [EMPTY_WALL]


def test_the_window_is_in_the_menu_and_under_its_key(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    choose_by_mouse(qtbot, window, "Arrangement", "next_change")
    assert window.change.shown is not None and window.change.shown.isVisible()
    window.change.shown.close()
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_F7)
    assert window.change.shown.isVisible()


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


def test_rows_are_in_the_order_of_work(window: MainWindow, qtbot: QtBot) -> None:
    """3 takes the place 2 leaves: 2 has to go first."""
    both_up(window)
    move_to(window, p2=(2300, 1400), p3=(1450, 1450))
    shown = opened(window, qtbot)
    assert shown.planned is not None
    assert [(row.number, row.act) for row in shown.planned.rows] == [(2, "move"), (3, "up")]
    numbers = [(label.y(), label.text()) for label in shown.plan.rows.findChildren(type(shown.plan.summary))
               if label.isVisible() and label.text() in ("2", "3")]  # fmt: skip
    assert all(one[0] < other[0] for one, other in pairwise(sorted(numbers)))
    assert [text for _, text in sorted(numbers)] == ["2", "3"]
