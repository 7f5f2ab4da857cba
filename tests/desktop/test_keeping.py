"""What is kept, and what is said when a file is changed, taken or left behind."""

import json
import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from composer.desktop import recovery
from composer.desktop.keeping import DISK, LEFT, READ_ONLY
from composer.desktop.main_window import MainWindow
from composer.editing.placing import Spot, put
from composer.editing.project_edits import change_project_fields
from composer.projectfile import store


def save_to(window: MainWindow, path: Path) -> None:
    window.files.ask.path = path  # type: ignore[attr-defined]
    assert window.files.save_as()


def edit(window: MainWindow, left: float = 700) -> None:
    window.opened.apply(put(window.opened.project, {"p3": Spot("w10", left, 1800)}))


def test_saving_keeps_the_one_before_as_bak(window: MainWindow, tmp_path: Path) -> None:
    path = tmp_path / "flat.wallwright"
    save_to(window, path)
    first = path.read_bytes()
    edit(window)
    assert window.isWindowModified()
    assert window.files.save()
    assert (tmp_path / "flat.wallwright.bak").read_bytes() == first
    assert store.load(path).project == window.opened.project
    assert not window.isWindowModified()


def test_a_copy_of_never_saved_work_lies_there_after_an_edit(window: MainWindow, qtbot: QtBot) -> None:
    edit(window)
    copy = window.recovery.copy
    # Written two seconds after the edit; the watchdog is twenty times that.
    qtbot.waitUntil(copy.is_file, timeout=40_000)
    window.recovery.wait()
    assert store.load(copy).project == window.opened.project
    assert json.loads(copy.with_suffix(".json").read_text())["original"] is None
    assert recovery.left_behind(copy.parent) == []  # this session still lives
    window.opened.stack.undo()
    window.recovery.discard()
    assert list(copy.parent.iterdir()) == []


DIES = """
import os, sys
from pathlib import Path
from PySide6.QtCore import QCoreApplication
from composer.desktop.open_project import OpenProject
from composer.desktop.recovery import Recovery
from composer.editing.project_edits import change_project_fields
from composer.projectfile import store
application = QCoreApplication([])
opened = OpenProject(store.load(sys.argv[1]).project)
kept = Recovery(opened, Path(sys.argv[2]))
opened.apply(change_project_fields("Title", title="Unsaved work"))
kept.write()
kept.wait()
os.kill(os.getpid(), 9)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="kills a process by signal")
def test_work_of_a_killed_program_is_offered_and_opened(window: MainWindow, tmp_path: Path) -> None:
    start = tmp_path / "start.wallwright"
    store.save(start, window.opened.project)
    folder = window.settings.folder / "recovery"
    done = subprocess.run([sys.executable, "-c", DIES, str(start), str(folder)], capture_output=True, timeout=60)
    assert done.returncode == -9, done.stderr
    window.keeping.offer_recovery()
    assert "What you had not saved yet" in window.notices.sentence(LEFT)
    assert [link.text() for link in window.notices.links(LEFT)][:2] == ["Open it", "Throw it away"]
    window.notices.links(LEFT)[0].click()
    assert window.opened.project.title == "Unsaved work"
    assert window.isWindowModified()
    # Its copy has become this session's own.
    assert [path.stem for path in folder.glob("*.json")] == [window.recovery.copy.stem]


def test_closing_the_offer_throws_nothing_away(window: MainWindow, tmp_path: Path) -> None:
    folder = window.settings.folder / "recovery"
    folder.mkdir(parents=True)
    copy = folder / "old.wallwright"
    store.save(copy, window.opened.project)
    copy.with_suffix(".json").write_text('{"original": null, "digest": null}')
    window.keeping.offer_recovery()
    window.notices.links(LEFT)[2].click()
    assert copy.is_file()
    window.keeping.offer_recovery()
    window.notices.links(LEFT)[1].click()
    assert not copy.exists()


def has_title(window: MainWindow, title: str) -> bool:
    return window.opened.project.title == title


def change_on_disk(path: Path, title: str) -> None:
    """As another program does: a new file put in the old one's place."""
    found = store.load(path)
    store.save(path, change_project_fields("Title", title=title).run(found.project))


def test_a_clean_project_is_read_again_and_that_can_be_undone(window: MainWindow, tmp_path: Path, qtbot: QtBot) -> None:
    path = tmp_path / "flat.wallwright"
    save_to(window, path)
    before = window.opened.project
    for title in ("once", "and again, after the file was replaced"):
        change_on_disk(path, title)
        qtbot.waitUntil(partial(has_title, window, title), timeout=20_000)
    assert not window.isWindowModified()
    window.opened.stack.undo()
    window.opened.stack.undo()
    assert window.opened.project == before


def test_a_changed_project_is_asked_about(window: MainWindow, tmp_path: Path, qtbot: QtBot) -> None:
    path = tmp_path / "flat.wallwright"
    save_to(window, path)
    edit(window)
    mine = window.opened.project
    change_on_disk(path, "theirs")
    qtbot.waitUntil(lambda: bool(window.notices.sentence(DISK)), timeout=20_000)
    assert window.opened.project == mine
    answers = {link.text(): link for link in window.notices.links(DISK)}
    answers["Reload theirs"].click()
    assert window.opened.project.title == "theirs"
    window.opened.stack.undo()
    assert window.opened.project == mine


def test_our_own_save_is_no_change_by_others(window: MainWindow, tmp_path: Path, qapp: QApplication) -> None:
    save_to(window, tmp_path / "flat.wallwright")
    edit(window)
    assert window.files.save()
    window.keeping.watch.look()
    assert window.notices.sentence(DISK) == ""
    assert window.opened.stack.count() == 1


def test_a_file_that_is_gone_is_told_and_saved_again(window: MainWindow, tmp_path: Path) -> None:
    path = tmp_path / "flat.wallwright"
    save_to(window, path)
    path.unlink()
    window.keeping.watch.look()
    assert "no longer there" in window.notices.sentence(DISK)
    window.notices.links(DISK)[0].click()
    assert path.is_file()


HOLDS = """
import sys, time
from composer.projectfile.lock import ProjectLock
lock = ProjectLock(sys.argv[1])
lock.acquire()
print("held", flush=True)
sys.stdin.readline()
"""


def test_a_project_open_elsewhere_opens_read_only(window: MainWindow, tmp_path: Path) -> None:
    path = tmp_path / "flat.wallwright"
    store.save(path, window.opened.project)
    command = [sys.executable, "-c", HOLDS, str(path)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "held\n"
        assert window.files.open_path(path)
        assert window.files.read_only
        assert "read-only" in window.windowTitle()
        assert window.notices.sentence(READ_ONLY)
        edit(window, 900)
        window.files.ask.path = tmp_path / "mine.wallwright"  # type: ignore[attr-defined]
        before = path.read_bytes()
        assert window.files.save()  # asks where
        assert path.read_bytes() == before
        assert store.load(tmp_path / "mine.wallwright").project == window.opened.project
        assert window.notices.sentence(READ_ONLY) == ""
        other.communicate("done\n", timeout=60)


def test_recent_files_open_again(window: MainWindow, tmp_path: Path) -> None:
    path = tmp_path / "flat.wallwright"
    save_to(window, path)
    window.files.new()
    assert window.opened.path is None
    assert [action.text() for action in window.menus.recent.actions()] == ["flat.wallwright"]
    window.menus.recent.actions()[0].trigger()
    assert window.opened.path == path


def test_closing_asks_about_what_is_not_saved(window: MainWindow) -> None:
    edit(window)
    window.files.ask.answer = "cancel"  # type: ignore[attr-defined]
    assert not window.close()
    window.files.ask.answer = "discard"  # type: ignore[attr-defined]
    assert window.close()
    assert not window.recovery.copy.exists()
