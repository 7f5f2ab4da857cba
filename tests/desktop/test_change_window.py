"""The next change in the window, by real clicks and keys; places and holes are worked out by hand beside it.

Piece 1 is 500 × 400 with its lower left corner at 400, 1300 and hangs by a sawtooth 20 below its top edge: its nail
is at 400 + 250 = 650 and 1300 + 400 − 20 = 1680. Piece 2 is 300 × 400 at 1500, 1400: its nail is at 1650, 1780.
"""

from datetime import UTC, datetime
from itertools import pairwise

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from composer.desktop.change.planning import EMPTY_WALL, Planned
from composer.desktop.change.window import ChangeWindow
from composer.desktop.main_window import MainWindow
from composer.desktop.printing.window import PrintingWindow
from composer.editing.placing import Spot, put
from composer.editing.rehang_edits import record_up
from composer.editing.wall_edits import add_wall
from composer.units import Length
from tests.desktop.conftest import Answers
from tests.desktop.hands import bring_to_front, button, choose_by_mouse, click, enter, named, press

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
