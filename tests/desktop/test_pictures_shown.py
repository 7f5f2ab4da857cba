"""Pictures in the room: cropped as the print is, dropped where they are wanted, never in the way."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDragEnterEvent, QDropEvent, QImage
from PySide6.QtWidgets import QApplication

from composer.desktop.main_window import MainWindow
from composer.desktop.pictures_shown import Wanted, cropped
from composer.editing.picture_edits import link_pictures
from composer.model import Crop

CORNERS = {"red": (0, 0), "green": (1, 0), "blue": (1, 1), "yellow": (0, 1)}


@pytest.fixture
def quarters(tmp_path: Path) -> Path:
    """400 × 300: red upper left, green upper right, blue lower right, yellow lower left."""
    image = QImage(400, 300, QImage.Format.Format_RGB32)
    for y in range(300):
        for x in range(400):
            name = next(name for name, corner in CORNERS.items() if corner == (x >= 200, y >= 150))
            image.setPixelColor(x, y, QColor(name))
    path = tmp_path / "quarters.png"
    assert image.save(str(path))
    return path


def upper_left(image: QImage) -> str:
    found = image.pixelColor(2, 2)
    return next(name for name in CORNERS if QColor(name).rgb() == found.rgb())


@pytest.mark.parametrize(
    ("crop", "shape", "size", "corner"),
    [
        (Crop(), (400, 300), (400, 300), "red"),
        # Turned clockwise by a quarter the lower left corner comes up: 300 × 400.
        (Crop(turn=90), (300, 400), (300, 400), "yellow"),
        (Crop(turn=180), (400, 300), (400, 300), "blue"),
        (Crop(turn=270), (300, 400), (300, 400), "green"),
        # Twice as near about a point in the lower right quarter: all blue.
        (Crop(zoom=2, centre=(0.75, 0.75)), (400, 300), (200, 150), "blue"),
        # A square of the middle is 300 × 300.
        (Crop(), (100, 100), (300, 300), "red"),
    ],
)
def test_what_shows_is_what_the_crop_says(
    qapp: QApplication,
    quarters: Path,
    crop: Crop,
    shape: tuple[float, float],
    size: tuple[int, int],
    corner: str,
) -> None:
    made = cropped(QImage(str(quarters)), Wanted(quarters, None, crop, shape, shape))
    assert (made.width(), made.height()) == size
    assert upper_left(made) == corner


def test_only_what_the_frame_lets_show(qapp: QApplication, quarters: Path) -> None:
    made = cropped(QImage(str(quarters)), Wanted(quarters, None, Crop(), (400, 300), (200, 150)))
    assert (made.width(), made.height()) == (200, 150)


def test_a_linked_picture_comes_into_room_and_list_and_goes_again(window: MainWindow, quarters: Path) -> None:
    window.opened.apply(link_pictures(window.opened.project, [quarters], window.project_folder(), ["p1"]))
    window.pictures.wait()
    QApplication.processEvents()
    shown = window.room.items_by_key["p1"].picture
    assert shown is not None
    assert window.list.model.picture_of("p1") is shown
    assert window.opened.project.pictures[0].pixels == (400, 300)
    window.opened.stack.undo()
    window.pictures.wait()
    QApplication.processEvents()
    assert window.room.items_by_key["p1"].picture is None


def test_a_picture_that_cannot_be_read_shows_nothing_and_stops_nothing(window: MainWindow, tmp_path: Path) -> None:
    bad = tmp_path / "torn.jpg"
    bad.write_bytes(b"\xff\xd8\xff\xe0 torn")
    window.opened.apply(link_pictures(window.opened.project, [bad], window.project_folder(), ["p1"]))
    window.pictures.wait()
    QApplication.processEvents()
    assert window.room.items_by_key["p1"].picture is None


def drop(window: MainWindow, paths: list[Path], at: QPointF) -> None:
    """Files let go over a place of the room, by the events a desktop sends."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    port, where = window.view.viewport(), window.view.mapFromScene(at)
    copy, left, none = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(where, copy, data, left, none)
    QApplication.sendEvent(port, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(port, QDropEvent(QPointF(where), copy, data, left, none))
    window.picture_desk.job("bring").wait()
    QApplication.processEvents()


def test_a_picture_dropped_on_a_piece_is_shown_there(window: MainWindow, quarters: Path) -> None:
    x, y = window.room.items_by_key["p2"].box.centre
    drop(window, [quarters], QPointF(x, -y))
    piece = window.opened.project.piece_by_key["p2"]
    assert piece.current_use == 0
    assert window.opened.stack.undoText() == "Picture of 2 “Frame 2”"


def test_pictures_dropped_beside_are_linked_for_later(window: MainWindow, quarters: Path) -> None:
    drop(window, [quarters], QPointF(100, -2300))
    assert len(window.opened.project.pictures) == 1
    assert all(piece.current_use is None for piece in window.opened.project.pieces)


def test_a_table_dropped_is_looked_at_first(window: MainWindow, tmp_path: Path) -> None:
    table = tmp_path / "frames.csv"
    table.write_text("name,width,height\nBoats,40,50\nWrong,wide,50\n", encoding="utf-8")
    before = window.opened.project
    drop(window, [table], QPointF(100, -2300))
    assert window.opened.project is before
    dialog = window.files.ask.dialogs[0]  # type: ignore[attr-defined]
    dialog.go.click()
    assert [piece.name for piece in window.opened.project.pieces][-1] == "Boats"
    assert len(dialog.rows) == 1  # the wrong row stays to be mended
    assert "wide" in dialog.rows[0].problem
    dialog.table.item(1, 1).setText("30")
    dialog.go.click()
    assert [piece.name for piece in window.opened.project.pieces][-2:] == ["Boats", "Wrong"]
    dialog.deleteLater()


def test_other_files_are_left_alone(window: MainWindow, tmp_path: Path) -> None:
    other = tmp_path / "song.mp3"
    other.write_bytes(b"")
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(other))])
    event = QDragEnterEvent(
        window.view.viewport().rect().center(),
        Qt.DropAction.CopyAction,
        data,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    event.ignore()
    QApplication.sendEvent(window.view.viewport(), event)
    assert not event.isAccepted()
