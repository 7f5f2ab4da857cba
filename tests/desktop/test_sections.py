"""What the core reckons stands in the cards, and one click takes it."""

from decimal import Decimal
from typing import Any

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from composer.desktop.cards.choice_rows import ChoiceRows
from composer.desktop.cards.first_frame import FirstFrame
from composer.desktop.cards.obstacle_list import ObstacleList
from composer.desktop.cards.wall_card import WallCard
from composer.desktop.field_measures import LengthField
from composer.desktop.field_row import PushButton
from composer.desktop.fields import EntryField
from composer.desktop.main_window import MainWindow
from composer.editing.placing import Spot, put
from composer.editing.record_edits import change_piece
from composer.model import Arrangement, Frame, Hanger, Mat, Picture, PictureUse, Piece
from composer.units import Length, Mass
from tests.desktop.conftest import room_project
from tests.desktop.hands import click

mm = Length.from_text


@pytest.fixture
def told(window: MainWindow, qapp: QApplication) -> MainWindow:
    """Piece 1: a frame of 1.2 kg on a wire, with a mat and a picture of 3 000 × 2 400 pixels, on plasterboard."""
    project = room_project()
    frame = Frame(
        width=mm("400 mm"),
        height=mm("300 mm"),
        face=mm("20 mm"),
        lip=mm("6 mm"),
        allowance=mm("3 mm"),
        depth=mm("20 mm"),
    )
    piece = Piece(
        key="p1",
        number=1,
        name="Boats",
        frame=frame,
        hanger=Hanger(kind="sawtooth", drop=mm("20 mm")),
        weight=Mass.from_text("1.2 kg"),
        mat=Mat(window_width=mm("260 mm"), window_height=mm("160 mm")),
        uses=(PictureUse(picture="i21"),),
        current_use=0,
    )
    wall = msgspec.structs.replace(project.walls[0], surface="painted-board")
    made = msgspec.structs.replace(
        project,
        walls=(wall,),
        pieces=(piece, *project.pieces[1:]),
        pictures=(Picture(key="i21", path="boats.jpg", pixels=(3000, 2400)),),
    )
    window.opened.open(made, None)
    window.selection.set(["p1"])
    qapp.processEvents()
    return window


def section(window: MainWindow, name: str) -> Any:
    card: Any = window.card.card
    card.sections[name].set_open(True)
    QApplication.processEvents()
    return card.sections[name]


def rows_of(root: QWidget, name: str) -> ChoiceRows:
    return next(one for one in root.findChildren(ChoiceRows) if one.accessibleName() == name)


def piece(window: MainWindow) -> Piece:
    return window.opened.project.piece_by_key["p1"]


def test_the_proposed_fixing_is_taken_by_one_click_and_taken_back_by_another(told: MainWindow) -> None:
    rows = rows_of(section(told, "hanging"), "What holds it")
    best = rows.rows[0]
    assert best.offer.note.startswith("proposed")
    best.click()
    chosen = piece(told).hardware
    assert chosen is not None
    assert chosen.fixing == best.offer.value
    assert chosen.hook_offset is not None  # pinned, so that a later catalogue moves no hole
    assert rows.rows[0].isChecked()
    rows.rows[0].click()
    assert piece(told).hardware is None


def test_a_fixing_that_cannot_hold_says_why_and_cannot_be_taken(told: MainWindow) -> None:
    rows = rows_of(section(told, "hanging"), "What holds it")
    refused = [row for row in rows.rows if not row.isEnabled()]
    assert refused
    assert all(row.offer.note for row in refused)


def test_the_packets_figure_counts_instead_of_ours(told: MainWindow) -> None:
    root = section(told, "hanging")
    rows = rows_of(root, "What holds it")
    rows.rows[0].click()
    chosen = rows.rows[0].offer
    field = next(one for one in root.findChildren(EntryField) if one.accessibleName().startswith("By your packet"))
    field.lineEdit().setText("9 kg")
    field.lineEdit().textEdited.emit("9 kg")
    assert field.commit()
    changed = told.opened.project.catalogue.changed
    assert [(one.field, one.value) for one in changed] == [("load_kg", 9.0)]
    again = next(row.offer for row in rows.rows if row.offer.value == chosen.value)
    # One point: 9 kg over the 1.2 kg weighed.
    assert again.figure == "7.5 times"


def test_in_inches_the_packet_speaks_pounds(told: MainWindow, qapp: QApplication) -> None:
    # 15 lb = 15 × 0.45359237 kg (international pound, 1959).
    told.opened.open(msgspec.structs.replace(told.opened.project, units="imperial"), None)
    told.selection.set(["p1"])
    qapp.processEvents()
    root = section(told, "hanging")
    rows_of(root, "What holds it").rows[0].click()
    field = next(one for one in root.findChildren(EntryField) if one.accessibleName().startswith("By your packet"))
    assert field.lineEdit().text().endswith(" lb")
    field.lineEdit().setText("15 lb")
    field.lineEdit().textEdited.emit("15 lb")
    assert field.commit()
    (changed,) = told.opened.project.catalogue.changed
    assert changed.value == pytest.approx(15 * 0.45359237)
    assert field.lineEdit().text() == "15 lb"
    # The rest of the card, too: 1.2 kg = 42.3 oz.
    card: Any = told.card.card
    assert "2\u00a0lb\u00a010\u00a0oz" in card.sections["frame"].head.sentence


def test_how_many_and_where_the_hole_is_choose_no_fixing(told: MainWindow) -> None:
    root = section(told, "hanging")
    for name, typed in (("How many", "2"), ("Seat up to hole", "5 mm")):
        field = next(one for one in root.findChildren(EntryField) if one.accessibleName() == name)
        field.lineEdit().setText(typed)
        field.lineEdit().textEdited.emit(typed)
        field.commit()
        assert piece(told).hardware is None
        assert "Choose the fixing of piece 1 first." in {one.text() for one in root.findChildren(QLabel)}


def test_the_stock_print_that_covers_is_proposed_and_another_taken(told: MainWindow) -> None:
    # Window 260 × 160 and twice the usual overlap of 3 mm: 266 × 166. ISO 216 A4 is 297 × 210; 18 × 24 cm is too short.
    root = section(told, "picture")
    rows = rows_of(root, "Stock print")
    assert "266 × 166" in {one.text() for one in root.findChildren(QLabel)}
    taken = [row for row in rows.rows if row.isChecked()]
    assert len(taken) == 1
    other = next(row for row in rows.rows if not row.isChecked() and row.isEnabled())
    other.click()
    assert piece(told).uses[0].print.stock == other.offer.value
    told.opened.stack.undo()
    assert piece(told).uses[0].print.stock is None


def test_the_mat_is_worked_out_beside_its_fields(told: MainWindow) -> None:
    section(told, "mat")
    card: Any = told.card.card
    # Glass: 400 − 40 + 12 − 3 = 369 by 300 − 40 + 12 − 3 = 269; (369 − 260) ÷ 2 = 54.5 both ways.
    assert card.sections["mat"].head.sentence == "Window 260 × 160, borders 54.5."
    shown = {one.text() for one in card.sections["mat"].findChildren(QLabel)}
    assert "369 × 269" in shown


def test_prices_are_typed_where_costs_are_read(told: MainWindow) -> None:
    told.selection.clear()
    QApplication.processEvents()
    root = section(told, "money")
    card: Any = told.card.card
    field = next(one for one in root.findChildren(EntryField) if one.accessibleName().startswith("Price of "))
    field.lineEdit().setText("4.90")
    field.lineEdit().textEdited.emit("4.90")
    assert field.commit()
    assert [price.each for price in told.opened.project.money.prices] == [Decimal("4.90")]
    assert "EUR 4.90" in card.sections["money"].head.sentence


def test_something_else_to_buy(told: MainWindow) -> None:
    told.selection.clear()
    QApplication.processEvents()
    root = section(told, "money")
    add = next(one for one in root.findChildren(QAbstractButton) if one.text() == "Add something else to buy")
    add.click()
    QApplication.processEvents()
    for name, text in (("What else", "spirit level"), ("Each", "12.50"), ("How many of it", "2")):
        field = next(one for one in root.findChildren(EntryField) if one.accessibleName() == name)
        field.lineEdit().setText(text)
        field.lineEdit().textEdited.emit(text)
        assert field.commit()
    extra = told.opened.project.money.extras[0]
    assert (extra.what, extra.each, extra.count) == ("spirit level", Decimal("12.50"), 2)
    card: Any = told.card.card
    assert "EUR 25.00" in card.sections["money"].head.sentence


def test_a_near_miss_is_mended_from_the_group_card(told: MainWindow) -> None:
    # 1 is 400 × 300 at 400, 1300: its top at 1600. 2 is 300 × 400; put so that its top is 3 mm higher, 50 beside.
    told.opened.apply(put(told.opened.project, {"p2": Spot("w10", 850, 1203)}))
    told.selection.set(["p1", "p2"])
    QApplication.processEvents()
    root = section(told, "quality")
    card: Any = told.card.card
    assert "differ by 3\u00a0mm at the top" in card.sections["quality"].head.sentence
    button = next(one for one in root.findChildren(PushButton) if one.text() == "Mend")
    button.click()
    placed = told.opened.project.placement_by_piece
    assert placed["p1"].bottom + 300 == placed["p2"].bottom + 400


def test_strips_without_hardware_ask_for_the_packet_only(told: MainWindow) -> None:
    def strips(one: Piece) -> Piece:
        return msgspec.structs.replace(one, hanger=Hanger(kind="strips"))

    told.opened.apply(change_piece("p1", "Hanger", strips))
    root = section(told, "hanging")
    assert rows_of(root, "What holds it").rows == []
    fields = [one for one in root.findChildren(EntryField) if one.accessibleName().startswith("By your packet")]
    assert fields[0].isVisibleTo(root)


def test_adding_a_frame_is_an_edit_that_does_not_look_at_the_form_again(window: MainWindow) -> None:
    edits: list[Any] = []
    apply = window.opened.apply

    def keep(edit: Any) -> bool:
        edits.append(edit)
        return apply(edit)

    window.opened.apply = keep  # type: ignore[method-assign]
    base = window.opened.project
    window.ask_piece()
    card: Any = window.card.card
    for field, text in ((card.width_field, "30 cm"), (card.height_field, "40 cm")):
        field.lineEdit().setText(text)
        field.lineEdit().textEdited.emit(text)
        field.commit()
    card._on_add(again=True)
    after = window.opened.project
    assert len(after.pieces) == len(base.pieces) + 1
    assert edits[-1].run(base) == after


def test_the_working_shows_the_pull_in_the_wire_in_the_projects_unit(told: MainWindow, qapp: QApplication) -> None:
    # s 400, wire 500: rise 150, so sin = 150 / 250 = 0.6 and each side pulls 1 / 1.2 of the weight: 1.2 kg makes 1 kg.
    def wired(one: Piece) -> Piece:
        wire = Hanger(kind="wire", spacing=mm("400 mm"), wire=mm("500 mm"), ring_drop=mm("200 mm"))
        return msgspec.structs.replace(one, hanger=wire)

    told.opened.apply(change_piece("p1", "Hanger", wired))
    shown = " ".join(one.text() for one in section(told, "hanging").findChildren(QLabel))
    assert "pull on each side of the wire" in shown
    assert "1\u00a0kg" in shown
    told.opened.open(msgspec.structs.replace(told.opened.project, units="imperial"), None)
    told.selection.set(["p1"])
    qapp.processEvents()
    shown = " ".join(one.text() for one in section(told, "hanging").findChildren(QLabel))
    assert "2\u00a0lb\u00a03\u00a0oz" in shown  # 1 / 0.45359237 = 2.2046 lb


def test_an_added_obstacle_waits_for_its_size_in_the_units_of_the_project(window: MainWindow, qtbot: QtBot) -> None:
    from tests.desktop.hands import bring_to_front, press

    bring_to_front(qtbot, window)
    window.opened.open(msgspec.structs.replace(window.opened.project, units="imperial"), None)
    window.selection.clear()
    QApplication.processEvents()
    root = section(window, "obstacles")
    listed = root.findChild(ObstacleList)
    listed.kind.set_value("door")
    listed.add_one()
    door = window.opened.project.walls[0].obstacles[-1]
    assert (door.kind, door.width.unit, door.height.unit) == ("door", "in", "in")
    focus = QApplication.focusWidget()
    assert isinstance(focus, LengthField) and focus.value == door.width
    QApplication.processEvents()
    for _ in range(6):
        press(Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is listed.kind, "the line that adds the next one follows the last field"
    press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Return)
    assert len(window.opened.project.walls[0].obstacles) == 3, "Return presses the button that has the keyboard"


def test_a_picture_without_a_known_opening_says_what_is_lacking(told: MainWindow, qapp: QApplication) -> None:
    def words() -> str:
        return " ".join(one.text() for one in section(told, "picture").findChildren(QLabel) if one.isVisible())

    lacking = "known once the face of the moulding is measured"
    assert lacking not in words()
    bare = Frame(width=mm("400 mm"), height=mm("300 mm"))
    told.opened.apply(change_piece("p1", "Frame", lambda one: msgspec.structs.replace(one, frame=bare, mat=None)))
    qapp.processEvents()
    assert lacking in words()


def test_in_an_empty_project_the_wall_can_come_before_the_first_frame(window: MainWindow, qtbot: QtBot) -> None:
    window.opened.open(msgspec.structs.replace(room_project(), pieces=(), arrangements=_bare()), None)
    qtbot.waitUntil(lambda: isinstance(window.card.card, FirstFrame))
    form = window.card.card
    assert isinstance(form, FirstFrame)
    qtbot.waitUntil(form.wall_first.isVisible)
    click(form.wall_first)
    assert isinstance(window.card.card, WallCard)
    window.ask_piece()
    assert isinstance(window.card.card, FirstFrame)


def _bare() -> tuple[Arrangement, ...]:
    """The arrangements of the project with nothing in them."""
    return tuple(
        msgspec.structs.replace(one, placements=(), floor_order=(), relations=()) for one in room_project().arrangements
    )
