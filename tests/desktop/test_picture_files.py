"""Picture files in the window: many brought in, missing and swapped ones, packed copies, print files."""

import threading
import zipfile
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from composer.desktop.cards.file_state import FileState
from composer.desktop.main_window import MainWindow
from composer.editing.picture_edits import link_pictures
from composer.pictures.probing import probe
from composer.projectfile import store
from tests.desktop.conftest import Answers

SAMPLE = Path(__file__).resolve().parent.parent.parent / "samples"


def picture(path: Path, shade: int = 90, size: tuple[int, int] = (640, 480)) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.new("RGB", size, (shade, 120, 60)).save(path)
    return path


def drop(window: MainWindow, paths: list[Path]) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    port, at = window.list.rows.viewport(), QPoint(5, 5)
    copy, left, none = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(at, copy, data, left, none)
    QApplication.sendEvent(port, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(port, QDropEvent(QPointF(at), copy, data, left, none))


def finish(window: MainWindow, about: str) -> None:
    window.picture_desk.job(about).wait()
    for _ in range(3):
        QApplication.processEvents()


def answers(window: MainWindow) -> Answers:
    asked = window.files.ask
    assert isinstance(asked, Answers)
    return asked


def looked_at(window: MainWindow) -> set[str]:
    """Codes of the findings once every file has been looked at."""
    for _ in range(3):
        window.findings.check()
        window.picture_watch.wait()
        QApplication.processEvents()
    window.findings.check()
    return {finding.code for finding in window.findings.findings}


# Brought in --------------------------------------------------------------------------------------


def test_a_folder_dropped_brings_its_pictures_in_order(window: MainWindow, tmp_path: Path) -> None:
    names = ["b.jpg", "a.png", "deep/c.jpg"]
    for shade, name in enumerate(names):
        picture(tmp_path / "holiday" / name, 40 * shade)
    (tmp_path / "holiday" / "list.txt").write_text("no picture")
    window.selection.set(["p1", "p2", "p3"])
    drop(window, [tmp_path / "holiday"])
    finish(window, "bring")
    project = window.opened.project
    assert [one.path.rsplit("/", 1)[-1] for one in project.pictures] == ["a.png", "b.jpg", "c.jpg"]
    assert [project.piece_by_key[key].uses[0].picture for key in ("p1", "p2", "p3")] == [
        one.key for one in project.pictures
    ]
    assert all(one.pixels == (640, 480) and one.sha256 for one in project.pictures)
    assert window.opened.stack.count() == 1, "one step, however many"


def test_what_cannot_be_read_is_left_out_with_its_reason(window: MainWindow, tmp_path: Path) -> None:
    good, torn = picture(tmp_path / "good.jpg"), tmp_path / "torn.jpg"
    torn.write_bytes(good.read_bytes()[:300])
    drop(window, [good, torn])
    finish(window, "bring")
    assert [one.path.rsplit("/", 1)[-1] for one in window.opened.project.pictures] == ["good.jpg"]
    said = window.notices.sentence("bring")
    assert "1 file was left out" in said
    assert "torn.jpg" in said


def test_many_can_be_stopped_and_then_nothing_has_changed(
    window: MainWindow, tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on, real = threading.Event(), probe

    def slow(path: Path) -> object:
        assert go_on.wait(20)
        return real(path)

    monkeypatch.setattr("composer.pictures.bringing_in.probe", slow)
    before = window.opened.project
    drop(window, [picture(tmp_path / f"{number}.jpg", number) for number in range(12)])
    qtbot.waitUntil(lambda: bool(window.notices.links("bring")), timeout=8000)
    window.notices.links("bring")[0].click()
    go_on.set()
    finish(window, "bring")
    assert window.opened.project is before
    assert "Stopped" in window.notices.sentence("bring")


def test_what_is_dropped_meanwhile_comes_in_afterwards(window: MainWindow, tmp_path: Path) -> None:
    one, other = picture(tmp_path / "one.jpg", 10), picture(tmp_path / "other.jpg", 20)
    window.picture_desk.bring([one], ["p1"])
    window.picture_desk.bring([other], ["p2"])
    finish(window, "bring")
    finish(window, "bring")
    assert [found.path.rsplit("/", 1)[-1] for found in window.opened.project.pictures] == ["one.jpg", "other.jpg"]
    assert window.opened.project.piece_by_key["p2"].current_use == 0


# Missing, changed, unreadable --------------------------------------------------------------------


def linked(window: MainWindow, path: Path) -> None:
    window.opened.apply(link_pictures(window.opened.project, [path], window.project_folder(), ["p1"]))


def test_a_missing_picture_is_found_and_found_again_in_a_folder(window: MainWindow, tmp_path: Path) -> None:
    path = picture(tmp_path / "here" / "boat.jpg")
    linked(window, path)
    assert "picture-missing" not in looked_at(window)
    (tmp_path / "there" / "deep").mkdir(parents=True)
    picture(tmp_path / "there" / "other.jpg", 200)
    path.rename(tmp_path / "there" / "deep" / "renamed.jpg")
    assert "picture-missing" in looked_at(window)
    window.selection.set(["p1"])
    window.card.open_section("picture")
    QApplication.processEvents()
    state = window.card.findChild(FileState)
    assert state is not None
    assert state.isVisible()
    answers(window).path = tmp_path / "there"
    state.look_for.click()
    finish(window, "find")
    assert window.opened.project.pictures[0].path.endswith("there/deep/renamed.jpg")
    assert "1 of 1 missing picture found" in window.notices.sentence("find")
    assert "picture-missing" not in looked_at(window)
    assert not state.isVisible()
    window.opened.stack.undo()
    assert window.opened.project.pictures[0].path.endswith("here/boat.jpg")


def test_a_swapped_picture_is_noticed_and_may_be_taken_as_it_is(window: MainWindow, tmp_path: Path) -> None:
    path = picture(tmp_path / "boat.jpg")
    linked(window, path)
    looked_at(window)
    picture(path, 10, (800, 500))
    assert "picture-changed" in looked_at(window)
    window.selection.set(["p1"])
    window.card.open_section("picture")
    QApplication.processEvents()
    state = window.card.findChild(FileState)
    assert state is not None
    assert state.take.isVisible()
    state.take.click()
    assert window.opened.project.pictures[0].pixels == (800, 500)
    assert "picture-changed" not in looked_at(window)


def test_an_unreadable_picture_is_a_finding_with_the_reason(window: MainWindow, tmp_path: Path) -> None:
    path = picture(tmp_path / "boat.jpg")
    linked(window, path)
    path.write_bytes(path.read_bytes()[:200])
    assert "picture-unreadable" in looked_at(window)


# Packed copies -----------------------------------------------------------------------------------


def test_a_packed_copy_is_written_and_opens_elsewhere(window: MainWindow, tmp_path: Path) -> None:
    linked(window, picture(tmp_path / "boat.jpg"))
    title = window.opened.project.title
    answers(window).path = tmp_path / "copy"
    window.actions_by_name["save_packed"].trigger()
    finish(window, "pack")
    archive = tmp_path / "copy.zip"
    assert "“copy.zip” holds the project and 1 picture." in window.notices.sentence("pack")
    with zipfile.ZipFile(archive) as packed:
        assert sorted(name.split("/")[0] for name in packed.namelist()) == ["copy.wallwright", "pictures"]
    (tmp_path / "boat.jpg").unlink()
    target = tmp_path / "elsewhere"
    (target / "copy").mkdir(parents=True)  # taken already: the next free name is used
    asked = answers(window)
    asked.path = target
    window.picture_desk.unpack(archive)
    finish(window, "unpack")
    assert window.opened.path == target / "copy 2" / "copy.wallwright"
    assert window.opened.project.title == title
    found = window.project_folder() / window.opened.project.pictures[0].path
    with Image.open(found) as image:
        assert image.size == (640, 480)


def test_a_packed_copy_that_was_meddled_with_is_refused(window: MainWindow, tmp_path: Path) -> None:
    archive = tmp_path / "bad.zip"
    with zipfile.ZipFile(archive, "w") as made:
        made.writestr("../outside.wallwright", b"{}")
    before = window.opened.project
    answers(window).path = tmp_path
    window.picture_desk.unpack(archive)
    finish(window, "unpack")
    assert window.opened.project is before
    assert "would not stay in its folder" in window.notices.sentence("unpack")
    assert not (tmp_path / "bad").exists()


# Print files -------------------------------------------------------------------------------------


def test_print_files_have_the_pixels_of_their_stock(window: MainWindow, tmp_path: Path) -> None:
    opened = store.load(SAMPLE / "sofa-wall.wallwright")
    window.files._release()
    window.opened.open(opened.project, SAMPLE / "sofa-wall.wallwright")
    answers(window).path = tmp_path / "lab"
    (tmp_path / "lab").mkdir()
    window.actions_by_name["print_files"].trigger()
    finish(window, "print")
    files = sorted(path.name for path in (tmp_path / "lab").iterdir())
    assert len(files) == 7
    assert files[0].startswith("01_")
    assert "7 print files written to “lab”." in window.notices.sentence("print")
    for name in files:
        with Image.open(tmp_path / "lab" / name) as image:
            assert image.info["dpi"][0] > 100
            assert image.info.get("icc_profile"), "sRGB is embedded (ICC.1)"
    # What several sheets would be cheaper for is offered, and written into a folder of its own.
    links = [link for link in window.notices.links("print") if link.text() == "Write shared sheets, too"]
    assert len(links) == 1
    links[0].click()
    finish(window, "print")
    shared = sorted((tmp_path / "lab" / "multi-up").glob("*.jpg"))
    assert shared
    assert "written to “lab/multi-up”" in window.notices.sentence("print")


def test_a_folder_that_holds_files_is_asked_about_first(window: MainWindow, tmp_path: Path) -> None:
    (tmp_path / "lab").mkdir()
    (tmp_path / "lab" / "notes.txt").write_text("keep", encoding="utf-8")
    answers(window).path, answers(window).agree = tmp_path / "lab", False
    window.actions_by_name["print_files"].trigger()
    finish(window, "print")
    assert "“lab” is not empty" in answers(window).told[-1]
    assert [path.name for path in (tmp_path / "lab").iterdir()] == ["notes.txt"]


def test_work_that_is_not_saved_stays_open_when_a_copy_is_taken_out(window: MainWindow, tmp_path: Path) -> None:
    linked(window, picture(tmp_path / "boat.jpg"))
    answers(window).path = tmp_path / "copy.zip"
    window.actions_by_name["save_packed"].trigger()
    finish(window, "pack")
    answers(window).path, answers(window).answer = tmp_path, "cancel"
    before = window.opened.project
    window.picture_desk.unpack(tmp_path / "copy.zip")
    finish(window, "unpack")
    assert window.opened.project is before
    assert (tmp_path / "copy" / "copy.wallwright").is_file()
