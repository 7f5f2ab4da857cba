"""Where the window and the placing of pictures meet: begins it, leaves it, and puts the room back as it was."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint
from PySide6.QtGui import QImage

from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.cropping.crop_tool import CropTool
    from composer.desktop.cropping.picture_job import PictureJob
    from composer.desktop.main_window import MainWindow
    from composer.model import Key

ACROSS, UP = 0.62, 0.6
"""Of the view, that the frame takes while its picture is placed."""
NEIGHBOURS = 0.5
"""How clearly the other pieces are seen meanwhile."""


class CropDesk(QObject):
    """Placing pictures in one main window; loads nothing until it is asked for."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self.tool: CropTool | None = None
        self._job: PictureJob | None = None
        self._path: Path | None = None
        self._sha256: str | None = None
        self._stood: tuple[bool, float, QPoint] | None = None
        window.selection.changed.connect(self._on_selection)

    def crop(self) -> None:
        """Places the picture of the selected piece, or ends that and keeps it."""
        if self.tool is not None:
            self.leave()
        elif self._window.selection.pieces:
            self.begin(self._window.selection.pieces[0])

    def begin(self, key: Key) -> bool:
        """Begins with a piece; says whether it could."""
        from composer.desktop.cropping.crop_tool import CropTool
        from composer.desktop.cropping.opening import CannotPlace

        self.leave()
        window = self._window
        window.view.tool.cancel()
        window.show_keys([key])
        if key not in window.room.items_by_key:
            return False
        try:
            tool = CropTool(window.view, window.opened, key)
        except CannotPlace as refused:
            window.say_hint(str(refused))
            return False
        self.tool = tool
        tool.left.connect(self.leave)
        tool.said.connect(window.view.said)
        self._look_at(key)
        self._dim(NEIGHBOURS)
        self._ask_picture()
        window.card.open_section("picture")
        window.view.setFocus()
        window.room.set_focus_shown(shown=False)  # the picture's own outline says where the keyboard is
        window.say_hint(_hint(), stays=True)
        tool.announce(_hint())
        return True

    def leave(self, kept: bool = True) -> None:
        """Ends it; the room stands as before."""
        tool, self.tool = self.tool, None
        if tool is None:
            return
        if not kept:
            tool.take_back()
        tool.stop()
        self._dim(1.0)
        self._stand_back()
        self._window.say_hint("")

    def stop(self) -> None:
        """The window closes."""
        self.leave()
        if self._job is not None:
            self._job.stop()

    def wait(self) -> None:
        """Until the picture is there."""
        if self._job is not None:
            self._job.wait()

    # What changes meanwhile -----------------------------------------------------------------------

    def _on_selection(self) -> None:
        if self.tool is not None and self._window.selection.keys != (self.tool.key,):
            self.leave()

    def on_project(self, *_: object) -> None:
        """Frame, picture or crop may be others; after the room has heard of it."""
        if self.tool is None:
            return
        from composer.desktop.cropping.opening import CannotPlace

        project = self._window.opened.shown
        if self.tool.key not in project.piece_by_key:
            self.leave()
            return
        try:
            self.tool.follow()
        except CannotPlace as refused:
            self.leave()
            self._window.say_hint(str(refused))
            return
        self._dim(NEIGHBOURS)
        self._ask_picture()

    def _ask_picture(self) -> None:
        from composer.desktop.cropping.picture_job import PictureJob

        assert self.tool is not None
        opened = self._window.opened
        piece = opened.project.piece_by_key[self.tool.key]
        if piece.current_use is None:
            return
        picture = opened.project.picture_by_key[piece.uses[piece.current_use].picture]
        path = opened.folder / picture.path
        if self.tool.item.has_picture and (path, picture.sha256) == (self._path, self._sha256):
            return
        self._path, self._sha256 = path, picture.sha256
        if self._job is None:
            self._job = PictureJob(parent=self)
            self._job.decoded.connect(self._on_decoded)
            self._job.refused.connect(self._on_refused)
        self._job.ask(path, picture.sha256)

    def _on_decoded(self, path: Path, image: QImage) -> None:
        if self.tool is not None and path == self._path:
            self.tool.item.show_picture(image)

    def _on_refused(self, path: Path, words: str) -> None:
        if self.tool is not None and path == self._path:
            self._window.say_hint(words)

    # The room -------------------------------------------------------------------------------------

    def _look_at(self, key: Key) -> None:
        view = self._window.view
        across, down = view.horizontalScrollBar(), view.verticalScrollBar()
        self._stood = (view.is_fitted, view.px_per_mm, QPoint(across.value(), down.value()))
        box, port = self._window.room.box_in_scene([key]), view.viewport()
        view.zoom_to(min(ACROSS * port.width() / box.width(), UP * port.height() / box.height()))
        view.centerOn(box.center())
        view.moved.emit()

    def _stand_back(self) -> None:
        view, stood, self._stood = self._window.view, self._stood, None
        if stood is None:
            return
        fitted, scale, place = stood
        if fitted:
            view.fit()
            return
        view.zoom_to(scale)
        view.horizontalScrollBar().setValue(place.x())
        view.verticalScrollBar().setValue(place.y())
        view.moved.emit()

    def _dim(self, share: float) -> None:
        kept = None if self.tool is None else self.tool.key
        room = self._window.room
        for key, item in room.items_by_key.items():
            item.setOpacity(1.0 if key == kept else share)
        for thing in room.obstacles_by_key.values():
            thing.setOpacity(share)


def _hint() -> str:
    return say("Placing the picture. Drag moves it, corners zoom, Enter keeps it, Esc takes it back.")
