"""The whole job, once by the mouse and once by the keyboard alone.

An empty project → the wall → six frames → arranged → saved → opened again, equal → templates saved.
The places at the end are sums by hand, written beside them.
"""

from pathlib import Path

import pypdf
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QToolButton, QWidget
from pytestqt.qtbot import QtBot

from composer.desktop.actions import EDIT, FILE, PIECE
from composer.desktop.cards.first_frame import FirstFrame
from composer.desktop.main_window import MainWindow
from composer.desktop.printing import window as printing_window
from composer.desktop.printing.window import PrintingWindow
from composer.model import Project
from composer.projectfile import store
from composer.units import Length
from tests.desktop.conftest import Answers
from tests.desktop.hands import (
    bring_to_front,
    choose_by_keys,
    choose_by_mouse,
    click,
    drag,
    press,
    type_in,
)

Key = Qt.Key
CONTROL = Qt.KeyboardModifier.ControlModifier
FRAMES = ((300, 400), (300, 400), (400, 300), (300, 300), (400, 500), (200, 300))
"""Width and height of the six, mm; all with a sawtooth 20 mm below the top."""


def ask(window: MainWindow) -> Answers:
    asked = window.files.ask
    assert isinstance(asked, Answers)
    return asked


def form(window: MainWindow) -> FirstFrame:
    card = window.card.card
    assert isinstance(card, FirstFrame)
    return card


def check_wall_and_frames(project: Project) -> None:
    wall = project.walls[0]
    assert (wall.width.text, wall.height.text) == ("4.2 m", "2.6 m"), "kept as they were typed"
    sizes = [(piece.frame.width.mm, piece.frame.height.mm) for piece in project.pieces]
    assert sizes == [(float(width), float(height)) for width, height in FRAMES]
    assert [piece.number for piece in project.pieces] == [1, 2, 3, 4, 5, 6]
    assert {piece.hanger.kind for piece in project.pieces} == {"sawtooth"}


def check_arranged(project: Project) -> None:
    """One row, tops in line, 50 mm apart, in the order in which they hang: lefts are the sums of widths and gaps."""
    placed = project.placement_by_piece
    assert len(placed) == 6
    first = placed[project.pieces[0].key].left
    sums = (0, 350, 700, 1150, 1500, 1950)
    for piece, along in zip(project.pieces, sums, strict=True):
        assert placed[piece.key].left == pytest.approx(first + along, abs=1e-6), f"piece {piece.number}"
    tops = {round(placed[piece.key].bottom + piece.frame.height.mm, 6) for piece in project.pieces}
    assert len(tops) == 1


def check_templates(path: Path, project: Project) -> None:
    """What another reader finds in the PDF: every piece is named on some sheet."""
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(path).pages)
    for piece in project.pieces:
        assert f"{piece.number} {piece.name}" in text or piece.name in text


def save_templates(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, window: MainWindow, target: Path, *, by_keys: bool
) -> None:
    monkeypatch.setattr(printing_window, "_ask_path", lambda _parent, _name: target)
    asked = ask(window)
    if by_keys:
        bring_to_front(qtbot, window)
        press(Key.Key_P, CONTROL)
    else:
        button = window.toolbar.widgetForAction(window.actions_by_name["templates"])
        assert isinstance(button, QToolButton)
        click(button)
    dialog = asked.dialogs[-1]
    assert isinstance(dialog, PrintingWindow)
    dialog.show()
    bring_to_front(qtbot, dialog)
    dialog.wait()
    qtbot.waitUntil(dialog.save_button.isEnabled, timeout=20000)
    if by_keys:
        for _step in range(60):
            if QApplication.focusWidget() is dialog.save_button:
                break
            press(Key.Key_Tab)
        assert QApplication.focusWidget() is dialog.save_button, "Tab reaches the button that saves"
        press(Key.Key_Space)
    else:
        click(dialog.save_button)
    dialog.wait()
    qtbot.waitUntil(lambda: not dialog.output.is_busy, timeout=20000)
    assert target.exists(), dialog.advice.text()
    dialog.close()
    dialog.deleteLater()


def test_the_whole_job_by_mouse(
    window: MainWindow, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bring_to_front(qtbot, window)
    choose_by_mouse(qtbot, window, FILE, "new")
    assert not window.opened.project.pieces
    questions = window.question.questions
    assert questions is not None and questions.isVisible(), "the wall asks on itself"
    click(questions.width_field)
    type_in("4.2 m")
    click(questions.height_field)
    type_in("2.6 m")
    click(questions._go)
    assert window.question.questions is None

    for width, height in FRAMES:
        card = form(window)
        click(card.width_field)
        type_in(str(width))
        click(card.height_field)
        type_in(str(height))
        click(card.tiles.tiles["sawtooth"])
        click(card.drop)
        type_in("20")
        click(card._another)
    check_wall_and_frames(window.opened.project)

    # Roughly where they shall go, in a row; the rules may catch some of them.
    for place, piece in enumerate(window.opened.project.pieces):
        drag(window, window.room.items_by_key[piece.key].box.centre, (700 + 520 * place, 1500))
    assert len(window.opened.project.placement_by_piece) == 6
    assert window.opened.stack.undoText() == "Hang 6 “Piece 6”"

    drag(window, (150, 2400), (4100, 900))
    assert len(window.selection.pieces) == 6, "a rubber band around all six"
    choose_by_mouse(qtbot, window, PIECE, "align_top")
    choose_by_mouse(qtbot, window, PIECE, "gap_across")
    check_arranged(window.opened.project)

    ask(window).path = tmp_path / "flat.wallwright"
    choose_by_mouse(qtbot, window, FILE, "save")
    saved = window.opened.project
    assert not window.isWindowModified()
    assert store.load(tmp_path / "flat.wallwright").project == saved
    choose_by_mouse(qtbot, window, FILE, "new")
    choose_by_mouse(qtbot, window, FILE, "open")
    assert window.opened.project == saved
    assert window.opened.project is not saved

    save_templates(qtbot, monkeypatch, window, tmp_path / "templates.pdf", by_keys=False)
    check_templates(tmp_path / "templates.pdf", saved)


def test_return_adds_the_frame_from_its_last_field_and_rows_follow_one_another(
    window: MainWindow, qtbot: QtBot
) -> None:
    bring_to_front(qtbot, window)
    choose_by_mouse(qtbot, window, FILE, "new")
    assert window.question.questions is not None
    for length in ("4.2 m", "2.6 m"):
        type_in(length)
        press(Key.Key_Return)
    click(form(window).quick)
    for row in ("30 x 40 cm", "21 x 29.7 cm strips"):
        type_in(row)
        press(Key.Key_Return)
    assert [piece.frame.height.text for piece in window.opened.project.pieces] == ["40 cm", "29.7 cm"]
    card = form(window)
    for text, field in (("500", card.width_field), ("400", card.height_field), ("Harbour", card.name)):
        click(field)
        type_in(text)
    press(Key.Key_Return)
    added = window.opened.project.pieces[-1]
    assert (added.name, added.frame.width.text) == ("Harbour", "500 mm")


def test_a_wall_measured_in_feet_makes_a_project_in_inches(window: MainWindow, qtbot: QtBot) -> None:
    """57 in is the usual eye line where inches are used; a project in centimetres has 145 cm."""
    bring_to_front(qtbot, window)
    choose_by_mouse(qtbot, window, FILE, "new")
    for length in ("12 ft", "8 ft 2 in"):
        type_in(length)
        press(Key.Key_Return)
    project = window.opened.project
    assert (project.units, project.currency) == ("imperial", "USD")
    eye_line = project.walls[0].eye_line
    assert eye_line is not None
    assert eye_line.text == "57 in"
    click(form(window).width_field)
    type_in("16")
    assert form(window).width_field.typed() == Length.from_text("16 in")
    window.opened.stack.undo()
    assert window.opened.project.units == "metric"


def test_the_whole_job_by_keyboard(
    window: MainWindow, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    window.view.said.connect(said.append)
    bring_to_front(qtbot, window)
    choose_by_keys(qtbot, window, FILE, "new")
    type_in("4.2 m")
    press(Key.Key_Return)
    type_in("2.6 m")
    press(Key.Key_Return)
    assert window.question.questions is None

    for width, height in FRAMES:
        card = form(window)
        focused = QApplication.focusWidget()
        assert focused is not None
        assert focused is card.width_field or card.width_field.isAncestorOf(focused)
        type_in(str(width))
        press(Key.Key_Return)
        type_in(str(height))
        press(Key.Key_Return)
        type_in("20")
        walk_to(*card.tiles.tiles.values())
        press(Key.Key_Space)
        for _step in range(len(card.tiles.tiles)):
            if card.tiles.value == "sawtooth":
                break
            press(Key.Key_Right)
        walk_to(card._another)
        press(Key.Key_Space)
    check_wall_and_frames(window.opened.project)

    # From piece to piece by Tab; Space picks up, an arrow up leads to the eye line, Return puts down.
    for _step in range(80):
        if window.view.hasFocus():
            break
        press(Key.Key_Tab)
    assert window.view.hasFocus(), "Tab reaches the room"
    for place, piece in enumerate(window.opened.project.pieces):
        while window.selection.pieces != (piece.key,):
            press(Key.Key_Tab)
            assert window.view.hasFocus()
        press(Key.Key_Space)
        assert said[-1] == f"In hand: {piece.number} Piece {piece.number}."
        press(Key.Key_Up)
        start = window.room.items_by_key[piece.key].box.left
        wanted = 300 + 450 * place
        for _push in range(round(abs(wanted - start) / 100)):
            press(Key.Key_Right if wanted > start else Key.Key_Left, CONTROL)
        press(Key.Key_Return)
        assert said[-1].startswith(f"{piece.number} Piece {piece.number}, ")
        assert "from the left" in said[-1]
    press(Key.Key_A, CONTROL)
    assert len(window.selection.pieces) == 6
    choose_by_keys(qtbot, window, PIECE, "align_top")
    choose_by_keys(qtbot, window, PIECE, "gap_across")
    check_arranged(window.opened.project)

    ask(window).path = tmp_path / "flat.wallwright"
    press(Key.Key_S, CONTROL)
    saved = window.opened.project
    assert store.load(tmp_path / "flat.wallwright").project == saved
    choose_by_keys(qtbot, window, FILE, "new")
    choose_by_keys(qtbot, window, FILE, "open")
    assert window.opened.project == saved

    choose_by_keys(qtbot, window, EDIT, "select_none")
    save_templates(qtbot, monkeypatch, window, tmp_path / "templates.pdf", by_keys=True)
    check_templates(tmp_path / "templates.pdf", saved)


def walk_to(*wanted: QWidget) -> None:
    """Tab until one of these has the keyboard."""
    for _step in range(60):
        if QApplication.focusWidget() in wanted:
            return
        press(Key.Key_Tab)
    raise AssertionError(f"Tab does not reach {wanted[0].accessibleName() or wanted[0]}")
