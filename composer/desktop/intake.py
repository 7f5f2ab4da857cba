"""What comes in from outside: rows on the clipboard, tables, picture files, dropped or chosen."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QApplication, QDialog

from composer.editing.edits import EditRefused
from composer.model import BadRecord, Key
from composer.projectfile.errors import ProjectFileError
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow
    from composer.editing.pasted_rows import ReadRow, Understood

PICTURE_ENDINGS = frozenset(
    {".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".bmp", ".gif", ".heic", ".heif", ".avif"}
)
TABLE_ENDINGS = frozenset({".csv", ".txt", ".tsv"})
PROJECT_ENDING = ".wallwright"
ARCHIVE_ENDING = ".zip"


class Intake(QObject):
    """Actions that bring something in, and everything that is dropped on the window."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._opened = window.opened
        for target in (window, window.view.viewport(), window.list.rows.viewport()):
            target.setAcceptDrops(True)
            target.installEventFilter(self)

    # Actions ------------------------------------------------------------------------------------

    def paste_rows(self) -> None:
        """Looks at the rows on the clipboard."""
        text = QApplication.clipboard().text()
        if text.strip():
            self.look_at(text)
        else:
            self._window.say_hint(say("There are no rows on the clipboard. Copy them from a table first."))

    def import_table(self) -> None:
        """Asks for a table and looks at its rows."""
        path = self._window.files.ask.open_path(self._window, say("Import Table"), say("Tables (*.csv *.tsv *.txt)"))
        if path is not None:
            self.import_path(path)

    def add_pictures(self) -> None:
        """Asks for picture files and links them."""
        kinds = say("Pictures ({endings})", endings=" ".join(f"*{ending}" for ending in sorted(PICTURE_ENDINGS)))
        paths = self._window.files.ask.open_paths(self._window, say("Add Pictures"), kinds)
        if paths:
            self._window.picture_desk.bring(paths, self._window.selection.pieces)

    # What comes in --------------------------------------------------------------------------------

    def import_path(self, path: Path) -> None:
        """Looks at a table file; pictures in it are counted from its folder."""
        from composer.projectfile.delimited import text_of

        try:
            text = text_of(path)
        except ProjectFileError as problem:
            self._window.files.ask.tell(self._window, str(problem))
            return
        self.look_at(text, path.parent)

    def look_at(self, text: str, folder: Path | None = None) -> None:
        """Shows how rows were understood, and adds them once the person says so."""
        from composer.editing.pasted_rows import understand

        try:
            taken = understand(text)
        except ProjectFileError as problem:
            self._window.files.ask.tell(self._window, str(problem))
            return
        if not taken.cells:
            self._window.say_hint(say("There are no rows below the head."))
            return
        self._window.files.ask.run(self.window_for(taken, folder))

    def window_for(self, taken: Understood, folder: Path | None = None) -> QDialog:
        """The preview of rows, not shown yet."""
        from composer.desktop.paste_window import PasteWindow

        def add(rows: Sequence[ReadRow]) -> bool:
            return self._add_rows(rows, folder or self._window.project_folder())

        return PasteWindow(self._opened.project, taken, add, self._window)

    def _add_rows(self, rows: Sequence[ReadRow], folder: Path) -> bool:
        before = set(self._opened.project.piece_by_key)
        from composer.editing.pasted_rows import add_read_rows

        try:
            self._opened.apply(add_read_rows(rows, folder, self._window.project_folder()))
        except (EditRefused, BadRecord, ProjectFileError) as problem:
            self._window.files.ask.tell(self._window, str(problem))
            return False
        self._window.selection.set(key for key in self._opened.project.piece_by_key if key not in before)
        return True

    # Drops ----------------------------------------------------------------------------------------

    def eventFilter(self, target: QObject, event: QEvent) -> bool:
        """Takes files that mean something here, wherever in the window they are dropped."""
        kind = event.type()
        if kind not in (QEvent.Type.DragEnter, QEvent.Type.DragMove, QEvent.Type.Drop):
            return False
        assert isinstance(event, QDropEvent)  # the three share what they carry
        paths = _paths(event)
        if not _meant(paths):
            event.ignore()  # the view of the room would take anything
            return True
        event.acceptProposedAction()
        if kind == QEvent.Type.Drop:
            self.take(paths, self._key_at(target, event.position().toPoint()))
        return True

    def take(self, paths: Sequence[Path], key: Key | None) -> None:
        """Files dropped on a piece, or beside all of them."""
        pictures = [path for path in paths if path.suffix.casefold() in PICTURE_ENDINGS or path.is_dir()]
        if pictures:
            chosen = self._window.selection.pieces
            self._window.picture_desk.bring(pictures, chosen if key is None or key in chosen else (key,))
        for path in paths:
            if path.suffix.casefold() in TABLE_ENDINGS:
                self.import_path(path)
        for path in paths:
            if path.suffix.casefold() == ARCHIVE_ENDING:
                self._window.picture_desk.unpack(path)
                return
            if path.suffix.casefold() == PROJECT_ENDING:
                if self._window.files.may_leave():
                    self._window.files.open_path(path)
                return

    def _key_at(self, target: QObject, at: QPoint) -> Key | None:
        if target is self._window.view.viewport():
            item = self._window.room.piece_at(self._window.view.mapToScene(at))
            return None if item is None else item.key
        if target is self._window.list.rows.viewport():
            index = self._window.list.rows.indexAt(at)
            return self._window.list.model.keys[index.row()] if index.isValid() else None
        return None


def _paths(event: QDropEvent) -> list[Path]:
    return [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]


def _meant(paths: Sequence[Path]) -> bool:
    endings = PICTURE_ENDINGS | TABLE_ENDINGS | {PROJECT_ENDING, ARCHIVE_ENDING}
    return any(path.suffix.casefold() in endings or path.is_dir() for path in paths)
