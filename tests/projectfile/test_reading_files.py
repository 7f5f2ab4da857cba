"""What reading and saving do with what is no ordinary file, and with what a killed save left."""

import os
import sys
from pathlib import Path

import pytest

from composer.projectfile import store
from composer.projectfile.errors import CannotRead, CannotWrite


@pytest.mark.skipif(sys.platform == "win32", reason="named pipes are POSIX")
@pytest.mark.timeout(60)
def test_a_pipe_nobody_writes_to_is_refused_at_once(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with pytest.raises(CannotRead, match="pipe"):
        store.load(pipe)
    with pytest.raises(CannotWrite, match="pipe"):
        store.write_atomic(pipe, b"x")


def test_what_a_killed_save_left_goes_when_it_is_old(tmp_path: Path) -> None:
    old, young, other = (tmp_path / name for name in (".wallwright-1.tmp", ".wallwright-2.tmp", "mine.tmp"))
    for left in (old, young, other):
        left.write_bytes(b"half")
    for left in (old, other):
        os.utime(left, (1_000_000_000, 1_000_000_000))
    store.write_atomic(tmp_path / "wall.wallwright", b"whole")
    assert sorted(path.name for path in tmp_path.iterdir()) == [".wallwright-2.tmp", "mine.tmp", "wall.wallwright"]


def test_a_target_held_for_a_moment_on_windows_is_tried_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A reader that keeps the name busy for two tries, as a virus scanner does; os.name stands in for Windows."""
    tries, replace = [], Path.replace

    def busy(self: Path, target: Path) -> Path:
        tries.append(target)
        if len(tries) < 3:
            raise PermissionError(13, "busy")
        return replace(self, target)

    path = tmp_path / "out.csv"
    monkeypatch.setattr(Path, "replace", busy)
    with pytest.raises(CannotWrite):
        store.write_atomic(path, b"x")  # elsewhere a refusal is meant
    tries.clear()
    with monkeypatch.context() as windows:
        windows.setattr(os, "name", "nt")
        draft = tmp_path / "draft"
        draft.write_bytes(b"whole")
        store._rename(draft, path)
    assert path.read_bytes() == b"whole"
    assert len(tries) == 3
