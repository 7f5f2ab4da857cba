"""Keeps the work: what changes on disk, what a session left behind, what is open elsewhere; told in the notice bar."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from composer.desktop import recovery
from composer.desktop.disk_watch import DiskWatch, State
from composer.desktop.notice_bar import NoticeBar
from composer.desktop.recovery import Left
from composer.editing.edits import Edit
from composer.projectfile import store
from composer.projectfile.errors import ProjectFileError
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow

DISK, LEFT, READ_ONLY = "disk", "left", "read-only"
"""What notices are about."""


class Keeping(QObject):
    """Listens to the file of the open project and offers what can be done."""

    def __init__(self, window: MainWindow, bar: NoticeBar) -> None:
        super().__init__(window)
        self._window, self._opened, self.bar = window, window.opened, bar
        self.watch = DiskWatch(window.opened, self)
        self.watch.found.connect(self._on_disk)
        self._opened.file_changed.connect(self._on_file)

    # Changed on disk ------------------------------------------------------------------------------

    def _on_disk(self, state: State) -> None:
        name = self._window.document_name()
        if state == "gone":
            words = say("“{name}” is no longer there. Your work is in this window; Save writes it again.", name=name)
            self.bar.show_notice(DISK, words, [(say("Save"), self._window.files.save)])
        elif self._opened.is_clean:
            self.reload()
        else:
            words = say("Somebody else has changed “{name}” while you changed it here.", name=name)
            answers = [
                (say("Save mine as a copy"), self._window.files.save_as),
                (say("Reload theirs"), self.reload),
            ]
            self.bar.show_notice(DISK, words, answers)

    def reload(self) -> None:
        """Reads the file again, as one step that can be undone."""
        path = self._opened.path
        if path is None:
            return
        try:
            found = store.load(path)
        except ProjectFileError as problem:
            self.bar.show_notice(DISK, str(problem), [(say("Try again"), self.reload)])
            return
        project = found.project
        self._opened.apply(Edit(say("Reload from disk"), lambda _: project))
        self._opened.saved(path, found.digest)
        self._window.say_hint(say("“{name}” was changed on disk and read again.", name=path.name))

    def _on_file(self) -> None:
        self.bar.drop(DISK)

    # Open elsewhere ---------------------------------------------------------------------------------

    def show_read_only(self, sentence: str) -> None:
        """Says that the file is open elsewhere, and how to go on."""
        words = say("{sentence} Changes can be saved under another name.", sentence=sentence)
        self.bar.show_notice(READ_ONLY, words, [(say("Save As…"), self._window.files.save_as)])

    def drop_read_only(self) -> None:
        """The file is ours."""
        self.bar.drop(READ_ONLY)

    # Left behind ------------------------------------------------------------------------------------

    def offer_recovery(self) -> None:
        """Offers what earlier sessions left behind, the latest first; nothing is thrown away unasked."""
        self._offer(recovery.left_behind(self._window.settings.folder / "recovery"))

    def _offer(self, left: Sequence[Left]) -> None:
        if not left:
            return
        first, rest = left[0], left[1:]
        when = first.when.strftime("%Y-%m-%d %H:%M")
        if first.original is None:
            words = say("The program ended early. What you had not saved yet was kept at {when}.", when=when)
        else:
            words = say(
                "The program ended early. What was not saved of “{name}” was kept at {when}.",
                name=first.original.name,
                when=when,
            )
        self.bar.show_notice(
            LEFT,
            words,
            [
                (say("Open it"), partial(self._open_left, first)),
                (say("Throw it away"), partial(self._throw_away, first, rest)),
            ],
        )

    def _open_left(self, left: Left) -> None:
        if not self._window.files.may_leave():
            self._offer([left])
            return
        try:
            found = store.load(left.copy)
        except ProjectFileError as problem:
            self._window.files.ask.tell(self._window, str(problem))
            return
        self._window.files.open_left(found.project, left)
        self._window.recovery.write()
        self._window.recovery.wait()
        recovery.remove(left)

    def _throw_away(self, left: Left, rest: Sequence[Left]) -> None:
        recovery.remove(left)
        self._offer(rest)
