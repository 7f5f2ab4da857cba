"""Opening and saving with the questions a desktop program asks; every dialog goes through one seam."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from composer.model import Picture, Project
from composer.projectfile import errors, store
from composer.projectfile.errors import Locked, ProjectFileError
from composer.projectfile.lock import ProjectLock
from composer.projectfile.picture_links import counted_from
from composer.resources import sample
from composer.texts import say

if TYPE_CHECKING:
    from PySide6.QtWidgets import QDialog, QMessageBox, QWidget

    from composer.desktop.main_window import MainWindow
    from composer.desktop.recovery import Left

SUFFIX = ".wallwright"
FIRST_SAMPLE = "sofa-wall.wallwright"
Answer = Literal["save", "discard", "cancel"]


class Ask:
    """The questions; a test puts another one in its place."""

    def open_path(self, parent: QWidget, title: str, kinds: str) -> Path | None:
        """Which file to open."""
        from PySide6.QtWidgets import QFileDialog

        chosen, _ = QFileDialog.getOpenFileName(parent, title, "", kinds)
        return Path(chosen) if chosen else None

    def open_paths(self, parent: QWidget, title: str, kinds: str) -> list[Path]:
        """Which files to take in."""
        from PySide6.QtWidgets import QFileDialog

        chosen, _ = QFileDialog.getOpenFileNames(parent, title, "", kinds)
        return [Path(path) for path in chosen]

    def folder(self, parent: QWidget, title: str) -> Path | None:
        """Which folder."""
        from PySide6.QtWidgets import QFileDialog

        chosen = QFileDialog.getExistingDirectory(parent, title)
        return Path(chosen) if chosen else None

    def run(self, dialog: QDialog) -> None:
        """Shows a dialog of our own until it is closed."""
        dialog.exec()
        dialog.deleteLater()

    def save_path(self, parent: QWidget, title: str, start: str, kinds: str) -> Path | None:
        """Where to save."""
        from PySide6.QtWidgets import QFileDialog

        chosen, _ = QFileDialog.getSaveFileName(parent, title, start, kinds)
        return Path(chosen) if chosen else None

    def save_first(self, parent: QWidget, name: str) -> Answer:
        """What to do with what is not saved."""
        from PySide6.QtWidgets import QMessageBox

        buttons = QMessageBox.StandardButton
        chosen = save_question(parent, name).exec()
        return "save" if chosen == buttons.Save else "discard" if chosen == buttons.Discard else "cancel"

    def yes(self, parent: QWidget, question: str, do: str) -> bool:
        """Whether to go on; ``do`` names the button that does."""
        from PySide6.QtWidgets import QMessageBox

        box = QMessageBox(parent)
        box.setIcon(QMessageBox.Icon.Question)
        box.setText(question)
        go = box.addButton(do, QMessageBox.ButtonRole.AcceptRole)
        box.addButton(QMessageBox.StandardButton.Cancel)
        box.exec()
        return box.clickedButton() is go

    def tell(self, parent: QWidget, sentence: str) -> None:
        """Says what went wrong."""
        from PySide6.QtWidgets import QMessageBox

        QMessageBox.warning(parent, "Wallwright", sentence)

    def line(self, parent: QWidget, title: str, label: str) -> str | None:
        """One typed line."""
        from PySide6.QtWidgets import QInputDialog

        text, ok = QInputDialog.getText(parent, title, label)
        return text if ok else None


def save_question(parent: QWidget, name: str) -> QMessageBox:
    """The question of every desktop program, with its platform's three buttons."""
    from PySide6.QtWidgets import QMessageBox

    buttons = QMessageBox.StandardButton
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Question)
    box.setText(say("Save the changes to “{name}”?", name=name))
    box.setInformativeText(say("Without saving they are gone."))
    box.setStandardButtons(buttons.Save | buttons.Discard | buttons.Cancel)
    box.setDefaultButton(buttons.Save)
    return box


class Files:
    """The file of the open project: reads, writes, locks it."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window
        self._opened = window.opened
        self.ask = Ask()
        self.lock: ProjectLock | None = None
        self.read_only = False

    def new(self) -> None:
        """A bare wall, after asking about what is not saved."""
        if self.may_leave():
            self._release()
            self._opened.open(empty_project(), None)
            self._window.view.fit()

    def open(self) -> None:
        """Asks which file, and opens it."""
        if not self.may_leave():
            return
        path = self.ask.open_path(self._window, say("Open"), _kinds())
        if path is not None:
            self.open_path(path)

    def open_sample(self) -> None:
        """The sample wall, without a file, so that the sample itself stays as it is."""
        shipped = sample(FIRST_SAMPLE)
        if shipped.is_file() and self.may_leave():
            self._release()
            place = Path(str(shipped))
            self._opened.open(counted_from(store.load(place).project, place.parent, None), None)
            self._window.view.fit()

    def open_path(self, path: Path) -> bool:
        """Opens a file; says whether it is open now."""
        try:
            found = store.load(path)
        except ProjectFileError as problem:
            self.ask.tell(self._window, str(problem))
            return False
        if self.lock is not None and self.lock.path.resolve() == path.resolve():
            self._release()  # the same file again
        lock, taken_by = ProjectLock(path), ""
        try:
            lock.acquire()
        except Locked as taken:
            taken_by = str(taken)
            if not self.ask.yes(self._window, taken_by, say("Open read-only")):
                return False
        except ProjectFileError:
            taken_by = ""  # a folder that cannot be written to: saving will say so
        self._release()
        self.lock, self.read_only = (None if taken_by else lock), bool(taken_by)
        self._opened.open(found.project, path, digest=found.digest)
        self._window.settings.add_recent(path)
        self._window.menus.fill_recent()
        self._window.view.fit()
        if taken_by:
            self._window.keeping.show_read_only(taken_by)
        return True

    def open_left(self, project: Project, left: Left) -> None:
        """Goes on with what an earlier session left behind, under its own file where that is free."""
        self._release()
        taken_by = ""
        if left.original is not None and left.original.parent.is_dir():
            lock = ProjectLock(left.original)
            try:
                lock.acquire()
                self.lock = lock
            except Locked as taken:
                taken_by, self.read_only = str(taken), True
            except ProjectFileError:
                pass  # saving will say so
        self._opened.open(project, left.original, digest=left.digest, unsaved=True)
        self._window.view.fit()
        if taken_by:
            self._window.keeping.show_read_only(taken_by)

    def save(self) -> bool:
        """Writes to the project's file, asking for one when it has none; says whether it is written."""
        if self._opened.path is None or self.read_only:
            return self.save_as()
        return self._write(self._opened.path, self._opened.digest)

    def save_as(self) -> bool:
        """Asks where, and writes there."""
        start = str(self._opened.path or f"{self._opened.project.title or say('My wall')}{SUFFIX}")
        path = self.ask.save_path(self._window, say("Save As"), start, _kinds())
        if path is None:
            return False
        if path.suffix != SUFFIX:
            path = path.with_name(path.name + SUFFIX)
        lock = self.lock
        if self._opened.path is None or path.resolve() != self._opened.path.resolve() or self.read_only:
            lock = ProjectLock(path)
            try:
                lock.acquire()
            except ProjectFileError as problem:
                self.ask.tell(self._window, str(problem))
                return False
        if not self._write(path, None):
            if lock is not None and lock is not self.lock:
                lock.release()
            return False
        if lock is not self.lock:
            self._release()
            self.lock, self.read_only = lock, False
        self._window.settings.add_recent(path)
        self._window.menus.fill_recent()
        return True

    def may_leave(self) -> bool:
        """Whether what is open may go: saved, or the person does not want it."""
        if self._opened.is_clean:
            return True
        answer = self.ask.save_first(self._window, self._window.document_name())
        if answer == "save":
            return self.save()
        return answer == "discard"

    def close(self) -> None:
        """Closes the window, which asks first."""
        self._window.close()

    def release(self) -> None:
        """Gives the lock back."""
        self._release()

    def export_table(self) -> None:
        """Writes all pieces to a table."""
        from composer.projectfile import inventory

        path = self.ask.save_path(self._window, say("Export Table"), say("pieces.csv"), say("Tables (*.csv)"))
        if path is None:
            return
        try:
            inventory.write_table(self._opened.project, path, self._window.project_folder())
        except ProjectFileError as problem:
            self.ask.tell(self._window, str(problem))

    def _write(self, path: Path, digest: str | None) -> bool:
        # Pictures are known by their path from the project's folder, which may be another one now.
        known: dict[Picture, Picture] = {}
        recount = partial(counted_from, old=self._window.project_folder(), new=path.parent, known=known)
        project = recount(self._opened.project)
        try:
            written = store.save(path, project, digest)
        except errors.ChangedOnDisk as problem:
            if not self.ask.yes(self._window, str(problem), say("Overwrite it")):
                return False
            return self._write(path, None)
        except ProjectFileError as problem:
            self.ask.tell(self._window, str(problem))
            return False
        if project is not self._opened.project:
            self._opened.rewrite(recount)
        self._opened.saved(path, written)
        return True

    def _release(self) -> None:
        if self.lock is not None:
            self.lock.release()
        self.lock, self.read_only = None, False
        self._window.keeping.drop_read_only()


def empty_project() -> Project:
    """One bare wall of a usual room."""
    from composer.editing.creating import new_project
    from composer.units import Length

    return new_project(wall_width=Length.from_text("3200 mm"), wall_height=Length.from_text("2400 mm"))


def _kinds() -> str:
    return say("Wallwright projects (*{suffix})", suffix=SUFFIX)
