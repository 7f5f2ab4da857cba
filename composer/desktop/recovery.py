"""Recovery copies: two seconds after an edit the whole project lies in the person's recovery folder.

A copy is a project file like any other, with a note beside it that names the file it belongs to, and
locked as long as its session lives: a lock ends with its process however that ends.
The project is turned into bytes at once, since it is the value that counts; a thread writes them.
"""

from __future__ import annotations

import json
import os
import threading
import uuid
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QObject, QTimer

from composer.desktop.open_project import Change, OpenProject
from composer.model import Project
from composer.projectfile.errors import Locked, ProjectFileError
from composer.projectfile.lock import ProjectLock
from composer.projectfile.picture_links import counted_from

DELAY_MS = 2000


@dataclass(frozen=True, slots=True)
class Left:
    """A copy left by a session that did not end well.

    Attributes:
        copy: the copy, a project file.
        original: the file it belongs to; None = it never had one.
        digest: of that file as it was opened or last saved.
        when: the copy was written, in local time.
    """

    copy: Path
    original: Path | None
    digest: str | None
    when: datetime


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
        self._lock: ProjectLock | None = None
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
        project = self._opened.project
        if path is None:
            # Opened again from another folder, pictures must still be found.
            project = counted_from(project, self._opened.folder, None)
        self._writing = threading.Thread(target=self._write, args=(project, json.dumps(note)), daemon=True)
        self._writing.start()

    def _write(self, project: Project, note: str) -> None:
        from composer.projectfile import store

        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            if self._lock is None:
                lock = ProjectLock(self.copy)
                lock.acquire()
                self._lock = lock
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
        if self._lock is not None:
            self._lock.release()
            self._lock = None
        _sweep(self.copy)


def left_behind(folder: Path) -> list[Left]:
    """Copies whose session is over, the latest first."""
    found: list[Left] = []
    for note in folder.glob("*.json") if folder.is_dir() else ():
        copy = note.with_suffix(".wallwright")
        try:
            told = json.loads(note.read_text(encoding="utf-8"))
            when = datetime.fromtimestamp(copy.stat().st_mtime).astimezone()
        except (OSError, ValueError):
            continue
        if not isinstance(told, dict) or _is_running(copy):
            continue
        original, digest = told.get("original"), told.get("digest")
        found.append(
            Left(
                copy,
                Path(original) if isinstance(original, str) else None,
                digest if isinstance(digest, str) else None,
                when,
            )
        )
    return sorted(found, key=lambda left: left.when, reverse=True)


def remove(left: Left) -> None:
    """Removes a copy and its note."""
    _sweep(left.copy)


def _sweep(copy: Path) -> None:
    lock = ProjectLock(copy)
    for path in (
        copy,
        copy.with_suffix(".json"),
        copy.with_name(copy.name + ".bak"),
        lock.lock_path,
        lock.holder_path,
    ):
        path.unlink(missing_ok=True)


def _is_running(copy: Path) -> bool:
    lock = ProjectLock(copy)
    try:
        lock.acquire()
    except Locked:
        return True
    except ProjectFileError:
        return False
    lock.release()
    return False
