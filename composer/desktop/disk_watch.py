"""Notices when somebody else changes the file of the open project.

A file that is replaced drops out of Qt's watcher with one signal, so it is added again after each,
and its folder is watched, too. Our own saves are known by their digest.
"""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Literal

from PySide6.QtCore import QFileSystemWatcher, QObject, QTimer, Signal

from composer.desktop.open_project import OpenProject

SETTLE_MS = 200
"""Several signals come of one save; looked at once they have ceased."""

State = Literal["same", "other", "gone"]


class DiskWatch(QObject):
    """Watches the file of one open project.

    Signals:
        found: carries how the file differs now: ``other`` or ``gone``; once for each other content.
    """

    found = Signal(str)

    def __init__(self, opened: OpenProject, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._watcher = QFileSystemWatcher(self)
        self._told: str | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(SETTLE_MS)
        self._timer.timeout.connect(self.look)
        self._watcher.fileChanged.connect(self._on_signal)
        self._watcher.directoryChanged.connect(self._on_signal)
        opened.file_changed.connect(self.follow)
        self.follow()

    def follow(self) -> None:
        """Watches the file the project has now."""
        self._told = self._opened.digest
        if watched := [*self._watcher.files(), *self._watcher.directories()]:
            self._watcher.removePaths(watched)
        self._add()

    def _add(self) -> None:
        path = self._opened.path
        if path is None:
            return
        wanted = [str(one) for one in (path, path.parent) if one.exists()]
        known = {*self._watcher.files(), *self._watcher.directories()}
        if missing := [one for one in wanted if one not in known]:
            self._watcher.addPaths(missing)

    def _on_signal(self, _path: str) -> None:
        self._add()
        self._timer.start()

    def look(self) -> None:
        """Compares the file with what was read or last written."""
        self._timer.stop()
        path = self._opened.path
        if path is None or self._opened.digest is None:
            return
        digest = digest_of(path)
        if digest in (self._opened.digest, self._told):
            if digest == self._opened.digest:
                self._told = digest
            return
        self._told = digest
        self.found.emit("gone" if digest is None else "other")

    def stop(self) -> None:
        """No more looking; before the window goes."""
        self._timer.stop()
        if watched := [*self._watcher.files(), *self._watcher.directories()]:
            self._watcher.removePaths(watched)


def digest_of(path: Path) -> str | None:
    """SHA-256 of a file's bytes, as saving and loading give it; None when there is no such file."""
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return None
