"""What became of the pictures' files: asked by findings and cards, looked up beside the window."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from composer.desktop.open_project import OpenProject
from composer.desktop.workers import Workers
from composer.model import Picture

if TYPE_CHECKING:
    from composer.pictures.states import PictureStates


class PictureWatch(QObject):
    """Knows a file's state by its entry in the folder; reads a file only where that has changed.

    Signals:
        changed: what is known of some file is no longer what it was.
    """

    changed = Signal()
    _looked = Signal(str)

    def __init__(self, opened: OpenProject, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._states: PictureStates | None = None
        self._workers = Workers(1)
        self._stopped = self._loading = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self.look)
        self._looked.connect(self._on_looked)

    def state(self, picture: Picture) -> str:
        """Empty while all is well or not looked at yet, ``missing``, ``changed``, or why it cannot be used."""
        if self._states is None:
            if not self._loading and not self._stopped:
                self._loading = True
                self._workers.start(self._load)
            return ""
        found = self._states.state(picture, self._opened.folder)
        if not found and not self._stopped:
            self._timer.start()
        return found

    def _load(self) -> None:
        """The reading of pictures takes a moment to load; the window does not wait for it."""
        from composer.pictures.states import PictureStates

        self._states = PictureStates()
        self._tell("loaded")

    def _tell(self, found: str) -> None:
        try:
            self._looked.emit(found)
        except RuntimeError:
            return  # the window has gone meanwhile

    def look(self) -> None:
        """Looks at the files asked for that are not known yet."""
        states = self._states
        if states is None:
            return
        for picture, folder in states.pending():

            def run(picture: Picture = picture, folder: Path = folder) -> None:
                if not self._stopped:
                    self._tell(states.look(picture, folder))

            self._workers.start(run)

    def _on_looked(self, found: str) -> None:
        if found:
            self.changed.emit()

    def stop(self) -> None:
        """No more looking; before the window goes."""
        self._stopped = True
        self._timer.stop()
        self._workers.stop()

    def wait(self) -> None:
        """Until every file asked for has been looked at."""
        self._timer.stop()
        self.look()
        self._workers.wait()
