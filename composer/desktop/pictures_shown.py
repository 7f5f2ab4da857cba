"""Pictures in the room and in the list: decoded and cropped away from the window's thread, kept by content.

A picture is asked for once for each content, crop and opening; an answer that is no longer wanted is
dropped. What cannot be read simply is not shown: the findings say so.
"""

from __future__ import annotations

import logging
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QObject, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import QImage, QPainter, QPixmap

from composer.desktop.open_project import OpenProject
from composer.desktop.workers import Workers
from composer.model import Crop, Key, Piece, Project

SIDE = 1024
"""Longer side of what is decoded, pixels: a wall on a screen shows no more of one frame."""

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Wanted:
    """One picture as one piece shows it.

    Attributes:
        path: of the file.
        sha256: of its content as linked; None = not read yet.
        crop: what of it shows.
        shape: width and height of what the print must have, mm.
        visible: width and height of what shows of that, mm.
    """

    path: Path
    sha256: str | None
    crop: Crop
    shape: tuple[float, float]
    visible: tuple[float, float]


SOON_MS = 30
"""Changes that come together are looked at together."""


class PicturesShown(QObject):
    """Gives pictures to whoever draws pieces.

    Signals:
        ready: keys of pieces whose picture is there now, or no longer.
    """

    ready = Signal(object)
    _made = Signal(str, object, QImage)

    def __init__(self, opened: OpenProject, folder: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened, self._folder = opened, folder
        self._wanted: dict[Key, Wanted] = {}
        self._pixmaps: dict[Key, QPixmap] = {}
        self._by_look: dict[Wanted, QPixmap] = {}
        self._workers = Workers(2)
        self._stopped = False
        self._started = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.look)
        self._made.connect(self._on_made)
        opened.project_changed.connect(self._on_change)

    def of(self, key: Key) -> QPixmap | None:
        """What a piece shows; None = nothing, or not there yet."""
        return self._pixmaps.get(key)

    def start(self) -> None:
        """The window is up: decoding in other threads would have delayed its first picture."""
        if not self._started:
            self._started = True
            self._timer.start(0)

    def _on_change(self, *_: object) -> None:
        if self._started:
            self._timer.start(SOON_MS)

    def look(self) -> None:
        """Asks for what is wanted now and not there."""
        project = self._opened.shown
        wanted = {piece.key: found for piece in project.pieces if (found := self._of_piece(project, piece)) is not None}
        gone = [key for key in self._pixmaps if key not in wanted]
        for key in gone:
            del self._pixmaps[key]
        there: list[Key] = list(gone)
        for key, found in wanted.items():
            if self._wanted.get(key) == found:
                continue
            if (known := self._by_look.get(found)) is not None:
                self._pixmaps[key] = known
                there.append(key)
            else:
                self._ask(key, found)
        self._wanted = wanted
        used = set(wanted.values())
        self._by_look = {look: pixmap for look, pixmap in self._by_look.items() if look in used}
        if there:
            self.ready.emit(there)

    def _of_piece(self, project: Project, piece: Piece) -> Wanted | None:
        if piece.current_use is None:
            return None
        from composer.prints.plan import plan

        use = piece.uses[piece.current_use]
        picture = project.picture_by_key[use.picture]
        planned = plan(project, piece).print
        place = project.placement_by_piece.get(piece.key)
        shape = piece.size_mm(turned=place is not None and place.turned) if planned is None else planned.needed_mm
        visible = shape if planned is None or planned.visible_mm is None else planned.visible_mm
        return Wanted(self._opened.folder / picture.path, picture.sha256, use.crop, shape, visible)

    def _ask(self, key: Key, wanted: Wanted) -> None:
        def run() -> None:
            if self._stopped:
                return
            image = shown_part(wanted, self._folder)
            if image is not None and not self._stopped:
                try:
                    self._made.emit(key, wanted, image)
                except RuntimeError:
                    return  # the window has gone meanwhile

        self._workers.start(run)

    def _on_made(self, key: Key, wanted: Wanted, image: QImage) -> None:
        if self._wanted.get(key) != wanted:
            return
        pixmap = QPixmap.fromImage(image)
        self._by_look[wanted] = pixmap
        self._pixmaps[key] = pixmap
        self.ready.emit([key])

    def stop(self) -> None:
        """No more pictures; before the window goes."""
        self._stopped = True
        self._timer.stop()
        self._workers.stop()

    def wait(self) -> None:
        """Until everything asked for is there."""
        self._timer.stop()
        self.look()
        self._workers.wait()


def shown_part(wanted: Wanted, folder: Path | None) -> QImage | None:
    """What shows of a picture in its frame, upright; None when it cannot be read."""
    from composer.pictures.previews import Previews
    from composer.pictures.refused import BadPicture

    try:
        data = Previews(folder).make(wanted.path, SIDE, wanted.sha256)
    except (BadPicture, OSError):
        return None
    except Exception:
        log.exception("decoding %s", wanted.path.name)
        return None
    image = QImage.fromData(data)
    return None if image.isNull() else cropped(image, wanted)


def cropped(image: QImage, wanted: Wanted) -> QImage:
    """The crop of an upright picture: turned, tilted about its centre, and only what the frame lets show."""
    from composer.prints.cropping import crop_box

    box = crop_box((image.width(), image.height()), wanted.crop, wanted.shape)
    wide = box.width * wanted.visible[0] / wanted.shape[0]
    high = box.height * wanted.visible[1] / wanted.shape[1]
    made = QImage(max(1, round(wide)), max(1, round(high)), QImage.Format.Format_RGB32)
    made.fill(Qt.GlobalColor.white)
    with QPainter(made) as painter:
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.translate(made.width() / 2, made.height() / 2)
        painter.rotate(box.tilt_deg)
        painter.translate(-box.centre[0], -box.centre[1])
        # Quarter turns clockwise: the turned picture's corner comes to lie at the origin.
        turned_wide, turned_high = box.pixels
        if box.turn == 90:
            painter.translate(turned_wide, 0)
        elif box.turn == 180:
            painter.translate(turned_wide, turned_high)
        elif box.turn == 270:
            painter.translate(0, turned_high)
        painter.rotate(box.turn)
        painter.drawImage(QRectF(0, 0, image.width(), image.height()), image)
    return made
