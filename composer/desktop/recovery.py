"""Recovery copies: two seconds after an edit the whole project lies in the person's recovery folder.

A copy is a project file like any other, with a note beside it that names the file it belongs to.
The project is turned into bytes at once, since it is the value that counts; a thread writes them.
"""

from __future__ import annotations

import json
import os
import threading
import uuid
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QObject, QTimer

from composer.desktop.open_project import Change, OpenProject
from composer.model import Project

DELAY_MS = 2000


@dataclass(frozen=True, slots=True)
class Left:
    """A copy left by a session that did not end well: the copy, and the file it belongs to or None."""

    copy: Path
    original: Path | None


class Recovery(QObject):
    """Writes the copies of one open project."""

    def __init__(self, opened: OpenProject, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._folder = folder
        self._name = f"{os.getpid()}-{uuid.uuid4().hex[:8]}"
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(DELAY_MS)
        self._timer.timeout.connect(self.write)
        self._writing: threading.Thread | None = None
        opened.project_changed.connect(self._on_change)
        opened.file_changed.connect(self._on_file)

    @property
    def copy(self) -> Path:
        """Where the copy goes."""
        return self._folder / f"{self._name}.wallwright"

    @property
    def _note(self) -> Path:
        return self._folder / f"{self._name}.json"

    def _on_change(self, before: Project, after: Project, change: Change) -> None:
        if not self._timer.isActive():
            self._timer.start()

    def _on_file(self) -> None:
        if self._opened.is_clean:
            self.discard()

    def write(self) -> None:
        """Writes the committed project now, unless its file already holds it."""
        self._timer.stop()
        if self._opened.is_clean:
            return
        if self._writing is not None and self._writing.is_alive():
            self._timer.start()
            return
        path = self._opened.path
        note = {"original": str(path) if path is not None else None, "digest": self._opened.digest, "pid": os.getpid()}
        self._writing = threading.Thread(target=self._write, args=(self._opened.project, json.dumps(note)), daemon=True)
        self._writing.start()

    def _write(self, project: Project, note: str) -> None:
        from composer.projectfile import store
        from composer.projectfile.errors import ProjectFileError

        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            store.write_atomic(self._note, note.encode())
            store.save(self.copy, project)
        except (OSError, ProjectFileError):
            return  # a full disk must not stop the work; the next edit tries again

    def wait(self) -> None:
        """Until what is being written is written."""
        if self._writing is not None:
            self._writing.join()

    def discard(self) -> None:
        """The copy is not needed any more."""
        self._timer.stop()
        self.wait()
        for path in (self.copy, self._note, self.copy.with_name(self.copy.name + ".bak")):
            path.unlink(missing_ok=True)


def left_behind(folder: Path) -> list[Left]:
    """Copies whose session is over, the latest first."""
    found: list[tuple[float, Left]] = []
    for note in folder.glob("*.json") if folder.is_dir() else ():
        copy = note.with_suffix(".wallwright")
        try:
            told = json.loads(note.read_text(encoding="utf-8"))
            when = copy.stat().st_mtime
        except (OSError, ValueError):
            continue
        if not isinstance(told, dict) or _is_running(told.get("pid")):
            continue
        original = told.get("original")
        found.append((when, Left(copy, Path(original) if isinstance(original, str) else None)))
    return [left for _, left in sorted(found, key=_when, reverse=True)]


def remove(left: Left) -> None:
    """Removes a copy and its note."""
    for path in (left.copy, left.copy.with_suffix(".json"), left.copy.with_name(left.copy.name + ".bak")):
        path.unlink(missing_ok=True)


def _when(pair: tuple[float, Left]) -> float:
    return pair[0]


def _is_running(pid: object) -> bool:
    if not isinstance(pid, int) or pid == os.getpid() or os.name != "posix":
        return False
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True
