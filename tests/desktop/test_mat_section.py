"""The mat in the piece's card: the drawing follows while one types; the section shows what lies behind the lip.

Worked by hand: frame 318 × 463, mouldings 30, lips 6, play 3: board 318 − 60 + 12 − 3 = 267 by 463 − 60 + 12 − 3 = 412.
"""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from composer.desktop.cards.mat_drawing import MatDrawing
from composer.desktop.cards.stack_drawing import StackBlock
from composer.desktop.fields import EntryField
from composer.desktop.main_window import MainWindow
from composer.editing.print_edits import take_mat_away
from composer.editing.record_edits import change_piece
from composer.model import Frame, Mat, Picture, PictureUse, WeightedBorders
from composer.units import Length
from tests.desktop.conftest import room_project

MM = Length.from_text


@pytest.fixture
def matted(window: MainWindow) -> MainWindow:
    project = room_project()
    frame = Frame(
        width=MM("318 mm"),
        height=MM("463 mm"),
        face=MM("30 mm"),
        lip=MM("6 mm"),
        allowance=MM("3 mm"),
        depth=MM("22 mm"),
        rabbet_depth=MM("12 mm"),
        glazing="acrylic",
        glazing_thickness=MM("2 mm"),
        backing="mdf",
        backing_thickness=MM("3 mm"),
    )
    mat = Mat(
        window_width=MM("183 mm"),
        window_height=MM("316 mm"),
        overlap=MM("6 mm"),
        borders=WeightedBorders(extra=MM("4 mm")),
    )
    piece = replace(project.pieces[0], frame=frame, mat=mat, uses=(PictureUse(picture="i25"),), current_use=0)
    pictures = (Picture(key="i25", path="fern.jpg", pixels=(2000, 3000)),)
    window.opened.open(replace(project, pieces=(piece, *project.pieces[1:]), pictures=pictures), None)
    window.selection.set(["p1"])
    window.card.open_section("mat")
    QApplication.processEvents()
    return window


def field(window: MainWindow, name: str) -> EntryField:
    return next(one for one in window.card.findChildren(EntryField) if one.accessibleName() == name and one.isVisible())


def shown(window: MainWindow) -> str:
    return "\n".join(label.text() for label in window.card.findChildren(QLabel) if label.isVisible())


def drawing(window: MainWindow) -> MatDrawing:
    found = window.card.findChild(MatDrawing)
    assert found is not None
    return found


def test_the_drawing_follows_while_it_is_typed_and_nothing_is_changed_yet(matted: MainWindow) -> None:
    before, steps = matted.opened.project, matted.opened.stack.count()
    line = field(matted, "Heavier by").lineEdit()
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "8")
    QApplication.processEvents()
    mat = drawing(matted).shown
    assert mat is not None
    # (412 − 316 − 8) ÷ 2 = 44 above, 44 + 8 = 52 below, (267 − 183) ÷ 2 = 42 beside.
    four = mat.borders
    assert (four.top, four.bottom, four.left, four.right) == (44, 52, 42, 42)
    assert "(412 − 316 − 8) ÷ 2" in shown(matted)
    assert matted.opened.project is before
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert matted.opened.stack.count() == steps + 1
    kept = matted.opened.project.pieces[0].mat
    assert kept is not None
    assert kept.borders == WeightedBorders(extra=MM("8 mm"))


def test_what_is_typed_is_filled_in_chalk(matted: MainWindow) -> None:
    plain = drawing(matted).grab().toImage()
    line = field(matted, "Heavier by").lineEdit()
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "40")
    QApplication.processEvents()
    image = drawing(matted).grab().toImage()

    def bluish(picture: object) -> int:
        from PySide6.QtGui import QImage

        assert isinstance(picture, QImage)
        row = round(picture.height() * 0.95)
        colours = (picture.pixelColor(x, row) for x in range(picture.width()))
        return sum(colour.blue() > colour.red() + 25 for colour in colours)

    assert bluish(plain) == 0
    assert bluish(image) > 60


def test_text_that_is_no_length_leaves_the_drawing_as_it_was(matted: MainWindow) -> None:
    line = field(matted, "Window width").lineEdit()
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "wide")
    QApplication.processEvents()
    mat = drawing(matted).shown
    assert mat is not None
    assert mat.window_mm == (183, 316)


def test_the_board_the_bevel_and_the_print(matted: MainWindow) -> None:
    told = shown(matted)
    assert "318 − 2 × 30 + 2 × 6 − 3" in told
    assert "267 × 412" in told
    # A bevel at 45° through 1.4 mm opens the face by 2 × 1.4; the print reaches 6 mm under on each side.
    assert "185.8 × 318.8" in told
    assert "195 × 328" in told
    # (267 − (318 − 2 × 30)) ÷ 2.
    assert "4.5 hidden" in told


def test_the_stack_in_the_rabbet_with_what_is_left(matted: MainWindow) -> None:
    block = matted.card.findChild(StackBlock)
    assert block is not None
    # 2 acrylic + 1.4 board + 0.25 paper + 3 back = 6.65 of 12.
    assert block.sum.text() in ("2 + 1.4 + 0.2 + 3 ≈ 6.7 of 12.", "2 + 1.4 + 0.2 + 3 ≈ 6.6 of 12.")
    told = block.drawing.accessibleDescription()
    assert told.startswith("glazing 2; mat ≈ 1.4; print ≈ 0.2")
    assert "free 5.3" in told or "free 5.4" in told
    assert "Hinge the print behind the window" in block.recipe.text()
    assert not block.touching.isVisible()


def test_without_a_mat_the_print_would_touch_the_glazing(matted: MainWindow) -> None:
    matted.opened.apply(take_mat_away(matted.opened.project, "p1"))
    QApplication.processEvents()
    block = matted.card.findChild(StackBlock)
    assert block is not None
    assert block.touching.isVisible()
    assert "spacer" in block.recipe.text()


def test_a_rabbet_that_is_too_shallow_says_by_how_much(matted: MainWindow) -> None:
    def shallow(piece: object) -> object:
        from composer.model import Piece

        assert isinstance(piece, Piece)
        return replace(piece, frame=replace(piece.frame, rabbet_depth=MM("5 mm")))

    matted.opened.apply(change_piece("p1", "Rabbet", shallow))  # type: ignore[arg-type]
    QApplication.processEvents()
    block = matted.card.findChild(StackBlock)
    assert block is not None
    assert "too deep by 1." in block.drawing.accessibleDescription()
