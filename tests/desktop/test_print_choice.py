"""The print to order in the piece's card: stock that covers, what is cut off, how sharp it is, a patch in its size.

Worked by hand from the frame of 534 × 412 with mouldings of 33, lips of 7 and 3 of play, and a picture of
3 264 × 2 448: glass 479 × 357.
"""

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace
from PIL import Image
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from composer.desktop.cards.choice_rows import ChoiceRows
from composer.desktop.cards.trim_drawing import TrimBlock, cuts_of
from composer.desktop.cards.ways_out import WaysOut
from composer.desktop.field_row import LinkButton
from composer.desktop.fields import EntryField
from composer.desktop.main_window import MainWindow
from composer.desktop.pictures.patch_window import PatchWindow
from composer.editing.picture_edits import link_pictures
from composer.editing.print_edits import crop_anew
from composer.editing.record_edits import change_piece
from composer.model import Crop, Frame, Price
from composer.prints.plan import PrintPlan, plan
from composer.units import Length
from tests.desktop.conftest import room_project

MM = Length.from_text


@pytest.fixture
def framed(window: MainWindow, tmp_path: Path) -> MainWindow:
    project = room_project()
    frame = Frame(width=MM("534 mm"), height=MM("412 mm"), face=MM("33 mm"), lip=MM("7 mm"), allowance=MM("3 mm"))
    wall = replace(project.walls[0], viewing_distance=MM("2500 mm"))
    prices = tuple(
        Price(item=item, each=Decimal(each))
        for item, each in (("40x50cm", "4.90"), ("40x60cm", "6.20"), ("a2", "6.50"))
    )
    project = replace(
        project,
        pieces=(replace(project.pieces[0], frame=frame), *project.pieces[1:]),
        walls=(wall,),
        money=replace(project.money, prices=prices),
    )
    window.opened.open(project, None)
    path = tmp_path / "harbour.jpg"
    Image.linear_gradient("L").resize((3264, 2448)).convert("RGB").save(path, quality=80)
    window.opened.apply(link_pictures(window.opened.project, [path], window.project_folder(), ["p1"]))
    window.opened.apply(crop_anew(window.opened.project, "p1", Crop(zoom=1.1856)))
    window.selection.set(["p1"])
    window.card.open_section("picture")
    QApplication.processEvents()
    return window


def printed(window: MainWindow) -> PrintPlan:
    found = plan(window.opened.project, window.opened.project.piece_by_key["p1"]).print
    assert found is not None
    return found


def words(window: MainWindow) -> str:
    from PySide6.QtWidgets import QLabel

    return "\n".join(label.text() for label in window.card.findChildren(QLabel) if label.isVisible())


def field(window: MainWindow, name: str) -> EntryField:
    return next(one for one in window.card.findChildren(EntryField) if one.accessibleName() == name)


def type_in(window: MainWindow, name: str, text: str) -> None:
    entry = field(window, name)
    entry.lineEdit().setFocus()
    entry.lineEdit().selectAll()
    QTest.keyClicks(entry.lineEdit(), text)
    QTest.keyClick(entry.lineEdit(), Qt.Key.Key_Return)
    QApplication.processEvents()


def test_the_cheapest_that_covers_leads_and_one_that_does_not_says_why(framed: MainWindow) -> None:
    rows = next(one for one in framed.card.findChildren(ChoiceRows) if one.accessibleName() == "Stock print").rows
    names = [row.offer.name.replace("\u00a0", " ") for row in rows]
    assert names[0] == "40 × 50 cm"
    assert rows[0].isChecked()
    # 500 − 479 across and 400 − 357 down.
    assert rows[0].offer.note.endswith("500 × 400, cut off 21, 43")
    assert "4.90" in rows[0].offer.figure
    # 16 × 20 in is sold as 40 × 50 cm, too, at the same price, but is the larger sheet; then 6.20.
    assert names[1:3] == ["16 × 20 in", "40 × 60 cm"]
    last = rows[-1]
    assert not last.isEnabled()
    assert "short by" in last.offer.note


def test_the_cuts_and_their_drawing(framed: MainWindow) -> None:
    cuts = [(str(cut.edge), round(cut.mm, 6)) for cut in cuts_of(printed(framed))]
    assert cuts == [("right", 21.0), ("bottom", 43.0)]
    block = framed.card.findChild(TrimBlock)
    assert block is not None
    assert block.cuts.text() == "1  21 off the right\n2  43 off the bottom"
    size = block.drawing.size()
    image = block.drawing.grab().toImage()
    ratio = image.devicePixelRatio()
    # The sheet is 120 pixels long for 500 mm; what is kept ends at 479 of them.
    kept = image.pixelColor(round((479 * 120 / 500 - 12) * ratio), round((16 + 40) * ratio))
    waste = {
        image.pixelColor(round((479 + 11) * 120 / 500 * ratio), y).rgb()
        for y in range(round(24 * ratio), round(80 * ratio))
    }
    assert len(waste) > 1, "hatched"
    assert kept.rgb() not in waste
    assert size.width() > size.height()


def test_even_on_all_sides_is_one_click_and_one_step(framed: MainWindow) -> None:
    block = framed.card.findChild(TrimBlock)
    assert block is not None
    steps = framed.opened.stack.count()
    block.other.click()
    assert framed.opened.stack.count() == steps + 1
    assert [(cut.edge, round(cut.mm, 3)) for cut in cuts_of(printed(framed))] == [
        ("right", 10.5),
        ("bottom", 21.5),
        ("left", 10.5),
        ("top", 21.5),
    ]
    assert "4 cuts" in words(framed)


def test_how_sharp_it_is_with_its_sum(framed: MainWindow) -> None:
    told = words(framed)
    # 3 264 ÷ 1.1856 = 2 753 pixels over 479 ÷ 25.4 in = 146 ppi; 1.5 × 87.3 ÷ 146 = 0.9 m (ISO 8596).
    assert "534 − 2 × 33 + 2 × 7 − 3" in told
    assert "146 ppi" in told
    assert "1.5 × 87.3 ÷ 146" in told
    assert "Sharp from 0.9\u00a0m" in told or "Sharp from 0.9 m" in told
    # 300 ppi in the file over 146: twice as many.
    assert "enlarges it 2.1 times" in told


def test_cut_left_and_top_are_typed_in_pixels_of_the_picture(framed: MainWindow) -> None:
    # 3 264 − 2 753 = 511 to spare across, half of it on either side.
    assert field(framed, "Cut left, px").value == pytest.approx(255, abs=1)
    type_in(framed, "Cut left, px", "100")
    box = printed(framed).crop
    assert box is not None
    assert box.centre[0] - box.width / 2 == pytest.approx(100, abs=0.01)
    type_in(framed, "Cut top, px", "9999")  # as far as the picture goes
    box = printed(framed).crop
    assert box is not None
    assert box.centre[1] + box.height / 2 == pytest.approx(2448, abs=0.01)


def test_a_patch_is_as_large_as_the_paper_by_what_the_screen_says(framed: MainWindow) -> None:
    link = next(one for one in framed.card.findChildren(LinkButton) if one.text() == "See a patch in its own size")
    link.click()
    asked: Any = framed.files.ask
    dialog = asked.dialogs[-1]
    assert isinstance(dialog, PatchWindow)
    dialog.show()
    dialog.wait()
    QApplication.processEvents()
    dots = dialog.screen().physicalDotsPerInchX()
    # 130 × 90 mm of it; an inch is 25.4 mm.
    assert dialog.patch.width() == round(130 / 25.4 * dots)
    assert dialog.patch.height() == round(90 / 25.4 * dots)
    assert dialog.bar.wide_px == pytest.approx(50 / 25.4 * dots)
    first = dialog.patch.image.copy()
    assert not first.isNull()
    port = dialog.patch
    QTest.mousePress(port, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, QPoint(60, 200))
    QTest.mouseRelease(port, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, QPoint(60, 80))
    dialog.wait()
    QApplication.processEvents()
    # The gradient grows darker to lighter downwards: pulled up, lower parts of the picture come into view.
    assert dialog.patch.image.pixelColor(60, 60).red() > first.pixelColor(60, 60).red()
    lower = dialog.patch.image.copy()
    QTest.keyClick(port, Qt.Key.Key_Down)  # by keys as well: a quarter of the patch further down
    dialog.wait()
    QApplication.processEvents()
    assert dialog.patch.image.pixelColor(60, 60).red() > lower.pixelColor(60, 60).red()
    dialog.close()
    dialog.deleteLater()


def test_where_nothing_covers_a_mat_is_offered_and_taken_by_one_click(framed: MainWindow) -> None:
    # Glass 1 000 × 300 typed: the largest sheet sold, 24 × 36 in, is 914.4 mm long. With 3 mm of overlap a border of
    # (1 000 + 6 − 914.4) ÷ 2 = 45.8, so 46, lets it do: window 908 × 208.
    wide = replace(
        framed.opened.project.pieces[0].frame,
        width=MM("1060 mm"),
        height=MM("360 mm"),
        glass_width=MM("1000 mm"),
        glass_height=MM("300 mm"),
    )
    framed.opened.apply(change_piece("p1", "Frame", lambda piece: replace(piece, frame=wide)))
    QApplication.processEvents()
    ways = framed.card.findChild(WaysOut)
    assert ways is not None
    assert ways.isVisible()
    told = ways.words.text().replace("\u00a0", " ")
    assert "No stock size covers 1 000 × 300." in told or "No stock size covers 1\u2009000 × 300." in told
    assert "borders of 46, 24 × 36 in will do" in told
    assert "made to size" in told
    steps = framed.opened.stack.count()
    ways.take.click()
    assert framed.opened.stack.count() == steps + 1
    found = printed(framed)
    assert found.visible_mm == pytest.approx((908, 208))
    assert found.choice.best is not None
    assert not ways.isVisible()
