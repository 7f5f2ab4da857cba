"""The whole picture decoded for placing it, away from the window's thread."""

from __future__ import annotations

import logging
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QImage

from composer.desktop.workers import Workers

SIDE = 2048
"""Longer side of what is decoded, pixels; a preview of it is kept."""

log = logging.getLogger(__name__)


class PictureJob(QObject):
    """Decodes one picture at a time; the latest wish wins.

    Signals:
        decoded: the path, and the image upright; a null one where it cannot be read.
        refused: the path, and one sentence.
    """

    decoded = Signal(object, QImage)
    refused = Signal(object, str)

    def __init__(self, folder: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._folder = folder
        self._workers = Workers(1)
        self._stopped = False

    def ask(self, path: Path, sha256: str | None) -> None:
        """Decodes this."""
        self._workers.clear()

        def run() -> None:
            from composer.pictures.previews import Previews
            from composer.pictures.refused import BadPicture

            image, words = QImage(), ""
            try:
                image = QImage.fromData(Previews(self._folder).make(path, SIDE, sha256))
            except (BadPicture, OSError) as problem:
                words = str(problem)
            except Exception as problem:
                log.exception("decoding %s", path.name)
                words = str(problem)
            if self._stopped:
                return
            try:
                if image.isNull():
                    self.refused.emit(path, words)
                else:
                    self.decoded.emit(path, image)
            except RuntimeError:
                return  # the window has gone meanwhile

        self._workers.start(run)

    def stop(self) -> None:
        """No more pictures; before the window goes."""
        self._stopped = True
        self._workers.stop()

    def wait(self) -> None:
        """Until what was asked for is there."""
        self._workers.wait()
