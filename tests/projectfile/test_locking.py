"""One program at a time has a project open, and who comes second is told who is first."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from composer.projectfile.errors import CannotWrite, Locked
from composer.projectfile.lock import ProjectLock

ROOT = Path(__file__).resolve().parents[2]

HOLD = """
import sys, time
from composer.projectfile.lock import ProjectLock
with ProjectLock(sys.argv[1]):
    print("held", flush=True)
    time.sleep(120)
"""


def holding_child(path: Path) -> "subprocess.Popen[str]":
    child = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(path)],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        text=True,
    )
    assert child.stdout is not None
    assert child.stdout.readline() == "held\n"
    return child


def test_the_second_process_is_told_who_has_it_and_a_killed_one_leaves_it_free(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    with holding_child(path) as child:
        try:
            with pytest.raises(Locked) as caught:
                ProjectLock(path).acquire()
        finally:
            child.send_signal(signal.SIGKILL) if os.name == "posix" else child.kill()
    assert caught.value.holder["pid"] == str(child.pid)
    assert str(child.pid) in str(caught.value)
    assert "wall.json" in str(caught.value)
    with ProjectLock(path) as lock:
        assert lock.held
        assert lock.holder()["pid"] == str(os.getpid())


def test_two_locks_in_one_process_exclude_each_other(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    with ProjectLock(path), pytest.raises(Locked):
        ProjectLock(path).acquire()
    again = ProjectLock(path)
    again.acquire()
    again.acquire()
    again.release()
    again.release()
    assert not again.held


@pytest.mark.skipif(os.name != "posix", reason="links of POSIX")
def test_a_link_shares_the_lock_of_what_it_points_to(tmp_path: Path) -> None:
    path, link = tmp_path / "wall.json", tmp_path / "other name.json"
    path.write_text("{}")
    link.symlink_to(path)
    with ProjectLock(link), pytest.raises(Locked):
        ProjectLock(path).acquire()


@pytest.mark.parametrize("content", ["", "[]", "{", '{"pid": {}}', "\x00" * 50, "[" * 5000])
def test_an_unreadable_name_does_not_hide_that_it_is_held(tmp_path: Path, content: str) -> None:
    path = tmp_path / "wall.json"
    with ProjectLock(path) as lock:
        lock.holder_path.write_text(content)
        with pytest.raises(Locked):
            ProjectLock(path).acquire()


def test_the_name_left_is_plain_json_and_goes_with_the_lock(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    with ProjectLock(path) as lock:
        left = json.loads(lock.holder_path.read_text(encoding="utf-8"))
        assert left["program"].startswith("Wallwright ")
        assert set(left) == {"program", "host", "user", "pid", "since"}
    assert not lock.holder_path.exists()


def test_no_folder_is_made_for_a_mistyped_path(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite):
        ProjectLock(tmp_path / "no-such-folder" / "wall.json").acquire()
    assert not (tmp_path / "no-such-folder").exists()


def test_who_has_just_taken_it_is_named_all_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The name is written a moment after the lock is taken; whoever comes in between waits for it."""
    path = tmp_path / "wall.json"
    with ProjectLock(path) as first:
        told = first.holder_path.read_bytes()
        first.holder_path.unlink()
        waits = []

        def wait(seconds: float) -> None:
            waits.append(seconds)
            if len(waits) == 3:
                first.holder_path.write_bytes(told)

        monkeypatch.setattr("composer.projectfile.lock.time.sleep", wait)
        with pytest.raises(Locked) as caught:
            ProjectLock(path).acquire()
    assert caught.value.holder["pid"] == str(os.getpid())
    assert sum(waits) < 1
