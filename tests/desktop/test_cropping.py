"""A picture placed in its frame by hand: real pointer and keys on the room, sums done by hand beside each check."""

import math
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QImage, QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from composer.desktop.cards.choice_rows import ChoiceRows
from composer.desktop.cropping.crop_tool import CropTool
from composer.desktop.main_window import MainWindow
from composer.editing.picture_edits import link_pictures, show_picture
from composer.editing.print_edits import change_mat, crop_anew
from composer.model import Crop, EvenBorders, Frame
from composer.units import Length
from tests.desktop import hands
from tests.desktop.conftest import room_project

MM = Length.from_text
NO_KEYS = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def framed(window: MainWindow, tmp_path: Path, qtbot: QtBot) -> MainWindow:
    """Piece 1 is 500 × 400 with a face of 20 and a lip of 5 and no play: glass 470 × 370, sight size 460 × 360.

    It shows a red picture of 940 × 1 000 pixels: at zoom 1 its width just fills the glass, 2 pixels a millimetre.
    """
    project = room_project()
    frame = Frame(
        width=MM("500 mm"),
        height=MM("400 mm"),
        face=MM("20 mm"),
        lip=MM("5 mm"),
        glass_width=MM("470 mm"),
        glass_height=MM("370 mm"),
    )
    pieces = (replace(project.pieces[0], frame=frame), *project.pieces[1:])
    window.opened.open(replace(project, pieces=pieces), None)
    image = QImage(940, 1000, QImage.Format.Format_RGB32)
    image.fill(QColor(200, 30, 30))
    path = tmp_path / "red.png"
    assert image.save(str(path))
    window.opened.apply(link_pictures(window.opened.project, [path], window.project_folder(), ["p1"]))
    hands.bring_to_front(qtbot, window)
    return window


def begin(window: MainWindow) -> CropTool:
    window.selection.set(["p1"])
    window.actions_by_name["crop"].trigger()
    window.cropping.wait()
    QApplication.processEvents()
    tool = window.cropping.tool
    assert tool is not None
    return tool


def crop_of(window: MainWindow) -> Crop:
    piece = window.opened.project.piece_by_key["p1"]
    assert piece.current_use is not None
    return piece.uses[piece.current_use].crop


def set_crop(window: MainWindow, crop: Crop) -> None:
    window.opened.apply(crop_anew(window.opened.project, "p1", crop))


def pull(window: MainWindow, start: QPointF, end: QPointF, *, release: bool = True) -> None:
    """Press, four moves, release on the viewport."""
    port = window.view.viewport()
    QTest.mousePress(port, Qt.MouseButton.LeftButton, NO_KEYS, start.toPoint())
    for step in range(1, 5):
        at = QPointF(start + (end - start) * step / 4).toPoint()
        event = QMouseEvent(
            QEvent.Type.MouseMove,
            QPointF(at),
            QPointF(port.mapToGlobal(at)),
            Qt.MouseButton.NoButton,
            Qt.MouseButton.LeftButton,
            NO_KEYS,
        )
        QApplication.sendEvent(port, event)
        QApplication.processEvents()
    if release:
        QTest.mouseRelease(port, Qt.MouseButton.LeftButton, NO_KEYS, end.toPoint())
        QApplication.processEvents()


def notch(window: MainWindow, at: QPointF, delta: int = 120, pushed: QPoint | None = None) -> None:
    """A notch of the wheel, or two fingers on a pad that push by some pixels."""
    port = window.view.viewport()
    event = QWheelEvent(
        at,
        QPointF(port.mapToGlobal(at.toPoint())),
        pushed or QPoint(),
        QPoint(0, delta),
        Qt.MouseButton.NoButton,
        NO_KEYS,
        Qt.ScrollPhase.NoScrollPhase if pushed is None else Qt.ScrollPhase.ScrollUpdate,
        False,
    )
    QApplication.sendEvent(port, event)
    QApplication.processEvents()


def on_view(tool: CropTool, window: MainWindow, x: float, y: float) -> QPointF:
    """A point of the frame, mm from its upper left corner, in the view."""
    return QPointF(window.view.mapFromScene(tool.item.pos() + QPointF(x, y)))


def test_the_room_comes_near_and_goes_back(framed: MainWindow) -> None:
    before = framed.view.px_per_mm
    tool = begin(framed)
    wide = framed.view.px_per_mm * 500
    assert 0.4 * framed.view.viewport().width() < wide < 0.7 * framed.view.viewport().width()
    middle = on_view(tool, framed, 250, 200)
    assert (middle - QPointF(framed.view.viewport().rect().center())).manhattanLength() < 4
    hands.press(Qt.Key.Key_Return)
    assert framed.cropping.tool is None
    assert framed.view.px_per_mm == pytest.approx(before)
    assert framed.view.is_fitted


def test_a_drag_moves_the_picture_and_is_one_step(framed: MainWindow) -> None:
    tool = begin(framed)
    steps = framed.opened.stack.count()
    start = on_view(tool, framed, 250, 200)
    scale = framed.view.px_per_mm
    pull(framed, start, start + QPointF(30 * scale, 40 * scale))
    # Down by 40 mm, two pixels a millimetre: the middle goes up by 80 of 1 000. Across there is none to spare.
    assert crop_of(framed).centre == pytest.approx((0.5, 0.42), abs=0.002)
    assert framed.opened.stack.count() == steps + 1
    framed.opened.stack.undo()
    assert tool.item.crop.centre == (0.5, 0.5)


def test_a_corner_zooms(framed: MainWindow) -> None:
    tool = begin(framed)
    steps = framed.opened.stack.count()
    middle, corner = on_view(tool, framed, 250, 200), tool.grips().corners[2]
    pull(framed, corner, middle + (corner - middle) * 1.25)
    assert crop_of(framed).zoom == pytest.approx(1.25, abs=0.01)
    assert framed.opened.stack.count() == steps + 1


def test_a_corner_takes_the_pointer_within_24_pixels(framed: MainWindow) -> None:
    # WCAG 2.2, 2.5.8: 24 by 24 pixels.
    grips = begin(framed).grips()
    corner = grips.corners[0]
    for dx in (-11, 11):
        for dy in (-11, 11):
            assert grips.at(corner + QPointF(dx, dy)) == "corner"
            assert grips.at(grips.ring + QPointF(dx, dy)) == "ring"


def test_the_ring_tilts_by_the_angle_it_is_pulled(framed: MainWindow) -> None:
    tool = begin(framed)
    middle, ring = on_view(tool, framed, 250, 200), tool.grips().ring
    up = middle.y() - ring.y()
    pull(framed, ring, QPointF(middle.x() + up * math.tan(math.radians(5)), ring.y()))
    assert crop_of(framed).tilt_deg == pytest.approx(5.0, abs=0.2)
    pull(framed, tool.grips().ring, tool.grips().ring + QPointF(-900, 0))
    assert crop_of(framed).tilt_deg == -10  # the model's limit


def test_the_wheel_zooms_about_the_pointer(framed: MainWindow) -> None:
    set_crop(framed, Crop(zoom=2, centre=(0.4, 0.5)))
    tool = begin(framed)
    steps = framed.opened.stack.count()
    # At zoom 2 the print shows 470 × 370 pixels. A quarter from its left edge lies 0.4 · 940 − 470 / 4.
    at = on_view(tool, framed, 15 + 470 / 4, 15 + 370 / 2)
    held = 0.4 * 940 - 470 / 4
    for _ in range(3):
        notch(framed, at)
    crop = crop_of(framed)
    assert crop.zoom == pytest.approx(2 * 1.0015**360)
    assert crop.centre[0] * 940 - 940 / crop.zoom / 4 == pytest.approx(held, abs=2)
    assert framed.opened.stack.count() == steps + 1, "notches of one turn of the wheel are one step"


def test_two_fingers_push_the_picture(framed: MainWindow) -> None:
    tool = begin(framed)
    steps, scale = framed.opened.stack.count(), framed.view.px_per_mm
    for _ in range(4):
        notch(framed, on_view(tool, framed, 250, 200), pushed=QPoint(0, 10))
    # Down by 40 pixels of the screen: by 40 ÷ scale mm, two of the picture's 1 000 pixels each.
    assert crop_of(framed).centre[1] == pytest.approx(0.5 - 40 / scale * 2 / 1000, abs=1e-6)
    assert crop_of(framed).zoom == 1
    assert framed.opened.stack.count() == steps + 1


def test_with_keys_alone(framed: MainWindow) -> None:
    told: list[str] = []
    framed.view.said.connect(told.append)
    framed.view.setFocus()
    framed.selection.set(["p1"])
    hands.press(Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    steps = framed.opened.stack.count()
    for _ in range(5):
        hands.press(Qt.Key.Key_Plus)
    assert crop_of(framed).zoom == pytest.approx(1.05**5)
    assert framed.opened.stack.count() == steps + 1
    for _ in range(3):
        hands.press(Qt.Key.Key_Right)
    # One per cent of the print's width a step, of what 940 ÷ 1.05⁵ pixels it shows.
    assert crop_of(framed).centre[0] == pytest.approx(0.5 - 0.03 / 1.05**5, abs=1e-6)
    assert framed.opened.stack.count() == steps + 2
    hands.press(Qt.Key.Key_T)
    assert crop_of(framed).turn == 90
    hands.press(Qt.Key.Key_Period)
    assert crop_of(framed).tilt_deg == pytest.approx(0.1)
    assert any("tilted 0.1°" in words and "turned 90°" in words for words in told)
    kept = crop_of(framed)
    hands.press(Qt.Key.Key_Return)
    assert framed.cropping.tool is None
    assert crop_of(framed) == kept


def test_the_frame_is_not_taken_in_hand_meanwhile(framed: MainWindow) -> None:
    told: list[str] = []
    framed.view.said.connect(told.append)
    tool, place = begin(framed), framed.opened.project.placement_by_piece["p1"]
    assert "zoom 1.00" in told[-1]
    hands.press(Qt.Key.Key_Space)
    hands.press(Qt.Key.Key_Right, Qt.KeyboardModifier.ControlModifier)
    assert not framed.view.tool.carrying
    assert framed.opened.project.placement_by_piece["p1"] == place
    assert framed.cropping.tool is tool


def test_a_key_that_can_do_nothing_says_so(framed: MainWindow) -> None:
    told: list[str] = []
    begin(framed)
    framed.view.said.connect(told.append)
    hands.press(Qt.Key.Key_Minus)
    assert crop_of(framed) == Crop()
    assert any("no further" in words for words in told)


def test_escape_takes_it_all_back_in_a_step_that_can_be_undone(framed: MainWindow) -> None:
    set_crop(framed, Crop(zoom=1.5))
    begin(framed)
    hands.press(Qt.Key.Key_Plus)
    hands.press(Qt.Key.Key_Down)
    changed = crop_of(framed)
    hands.press(Qt.Key.Key_Escape)
    assert framed.cropping.tool is None
    assert crop_of(framed) == Crop(zoom=1.5)
    framed.opened.stack.undo()
    assert crop_of(framed) == changed


def test_escape_in_the_middle_of_a_drag_only_lets_go(framed: MainWindow) -> None:
    tool = begin(framed)
    start = on_view(tool, framed, 250, 200)
    pull(framed, start, start + QPointF(0, 60), release=False)
    assert tool.item.crop != Crop()
    hands.press(Qt.Key.Key_Escape)
    assert framed.cropping.tool is tool
    assert tool.item.crop == crop_of(framed) == Crop()


def test_dimmed_under_the_lip_and_pale_beyond(framed: MainWindow) -> None:
    tool = begin(framed)
    image = framed.view.viewport().grab().toImage()

    def red(x: float, y: float) -> QColor:
        return image.pixelColor((on_view(tool, framed, x, y) * image.devicePixelRatio()).toPoint())

    clear, under = red(250, 120), red(250, 17.5)
    assert clear == QColor(200, 30, 30)
    # 55 per cent of (20, 17, 14) over it, by hand: 0.45 · 200 + 0.55 · 20.
    assert under.red() == pytest.approx(101, abs=3)
    # The picture is 500 mm high: 65 mm of it lie above the glass, pale over moulding and wall.
    beyond = red(230, -20)
    wall = red(-40, -20)
    assert beyond.red() == pytest.approx(0.38 * 200 + 0.62 * wall.red(), abs=4)
    assert beyond.green() == pytest.approx(0.38 * 30 + 0.62 * wall.green(), abs=4)


def test_with_a_mat_the_window_is_clear(framed: MainWindow) -> None:
    edit = change_mat(framed.opened.project, "p1", overlap=MM("4 mm"), borders=EvenBorders(border=MM("60 mm")))
    framed.opened.apply(edit)
    tool = begin(framed)
    # The board is the glass, 470 × 370 at 15; less 60 all round.
    assert tool.opening.visible.getRect() == pytest.approx((75, 75, 350, 250))
    assert tool.opening.printed.getRect() == pytest.approx((71, 71, 358, 258))


def test_choosing_another_piece_ends_it(framed: MainWindow) -> None:
    begin(framed)
    framed.selection.set(["p2"])
    assert framed.cropping.tool is None
    assert all(item.opacity() == 1 for item in framed.room.items_by_key.values())


def test_a_press_beside_the_picture_keeps_and_ends_it(framed: MainWindow) -> None:
    tool = begin(framed)
    hands.press(Qt.Key.Key_Plus)
    zoom = crop_of(framed).zoom
    QTest.mouseClick(
        framed.view.viewport(), Qt.MouseButton.LeftButton, NO_KEYS, on_view(tool, framed, -120, 390).toPoint()
    )
    QApplication.processEvents()
    assert framed.cropping.tool is None
    assert crop_of(framed).zoom == zoom > 1


def test_without_a_picture_it_cannot_be_chosen(framed: MainWindow) -> None:
    framed.selection.set(["p2"])
    assert not framed.actions_by_name["crop"].isEnabled()
    framed.selection.set(["p1"])
    assert framed.actions_by_name["crop"].isEnabled()


def test_a_frame_that_is_not_measured_is_said_in_a_sentence(framed: MainWindow, tmp_path: Path) -> None:
    framed.opened.apply(link_pictures(framed.opened.project, [tmp_path / "red.png"], framed.project_folder(), ["p2"]))
    framed.selection.set(["p2"])
    framed.actions_by_name["crop"].trigger()
    assert framed.cropping.tool is None
    assert "Piece 2: measure its face or the glass first" in framed.findings.hint.text()


def test_the_picture_going_ends_it(framed: MainWindow) -> None:
    begin(framed)
    framed.opened.apply(show_picture(framed.opened.project, "p1", None))
    assert framed.cropping.tool is None


def test_a_picture_that_reaches_beyond_the_view_keeps_its_handles_in_it(framed: MainWindow) -> None:
    set_crop(framed, Crop(zoom=20))
    grips = begin(framed).grips()
    port = framed.view.viewport().rect()
    assert all(port.contains(corner.toPoint()) for corner in (*grips.corners, grips.ring))


def test_the_room_draws_the_window_where_its_borders_put_it() -> None:
    # Board 470 × 370 (above); window 300 × 200, 30 heavier below: (370 − 200 − 30) ÷ 2 = 70 above, 100 below.
    from composer.desktop.room.drawing import mat_window_mm
    from composer.model import Mat, WeightedBorders

    frame = Frame(width=MM("500 mm"), height=MM("400 mm"), face=MM("20 mm"), lip=MM("5 mm"))
    mat = Mat(window_width=MM("300 mm"), window_height=MM("200 mm"), borders=WeightedBorders(extra=MM("30 mm")))
    assert mat_window_mm(frame, mat, False) == pytest.approx((0, -15, 300, 200))
    assert mat_window_mm(frame, Mat(), False) is None


def test_another_picture_of_the_frame_has_its_own_crop(framed: MainWindow, tmp_path: Path) -> None:
    image = QImage(600, 400, QImage.Format.Format_RGB32)
    image.fill(QColor(20, 60, 200))
    assert image.save(str(tmp_path / "winter.png"))
    begin(framed)
    hands.press(Qt.Key.Key_Plus)
    zoomed = crop_of(framed)
    folder = framed.project_folder()
    framed.opened.apply(link_pictures(framed.opened.project, [tmp_path / "winter.png"], folder, ["p1"]))
    assert framed.cropping.tool is not None
    assert framed.cropping.tool.opening.pixels == (600, 400)
    framed.cropping.wait()
    QApplication.processEvents()
    assert framed.cropping.tool.item.has_picture
    hands.press(Qt.Key.Key_T)
    hands.press(Qt.Key.Key_Escape)
    assert crop_of(framed) == Crop(), "only what was done to this one is taken back"
    framed.card.open_section("picture")
    QApplication.processEvents()
    rows = next(one for one in framed.card.findChildren(ChoiceRows) if one.accessibleName() == "Pictures of this frame")
    assert [row.offer.name for row in rows.rows] == ["red.png", "winter.png"]
    assert [row.isChecked() for row in rows.rows] == [False, True]
    rows.rows[0].click()
    assert crop_of(framed) == zoomed
