"""Picture files of one main window: packed copies, print files, pictures that moved, many brought in at once."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from composer.editing.edits import EditRefused
from composer.texts import say, say_many

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow
    from composer.desktop.pictures.long_job import LongJob, Outcome
    from composer.desktop.pictures.print_files import Written
    from composer.model import Key
    from composer.pictures.bringing_in import Brought
    from composer.pictures.multi_up import MultiSheet

ARCHIVE = ".zip"
PREVIEW_SIDE = 1024
"""Previews made while pictures come in, pixels: what room and list ask for first."""
NAMED = 3
"""So many files that were left out are named."""


class PictureDesk(QObject):
    """Actions on picture files; each kind of work one at a time, told in the notice bar."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window, self._opened = window, window.opened
        self._jobs: dict[str, LongJob] = {}
        self._waiting: list[tuple[Sequence[Path], Sequence[Key]]] = []
        self.previews: Path | None = None
        """Where previews are kept; None = the person's cache folder."""

    def job(self, about: str) -> LongJob:
        """The work of one kind: ``pack``, ``unpack``, ``print``, ``find`` or ``bring``."""
        from composer.desktop.pictures.long_job import LongJob

        if about not in self._jobs:
            self._jobs[about] = LongJob(about, self._window.notices, self)
            if about == "bring":
                self._jobs[about].ended.connect(self._bring_next)
        return self._jobs[about]

    def stop(self) -> None:
        """The window closes."""
        self._waiting.clear()
        for job in self._jobs.values():
            job.end()

    def _start(self, about: str, words: str, do: Any, then: Any, halted: str = "") -> None:
        if not self.job(about).start(words, do, then, halted):
            self._window.say_hint(say("The last one is still under way."))

    # Packed copies --------------------------------------------------------------------------------

    def save_packed(self) -> None:
        """Asks where, and packs the project with its pictures."""
        from composer.projectfile import packed, store

        start = Path(self._window.document_name()).stem + ARCHIVE
        path = self._window.files.ask.save_path(self._window, say("Save Packed Copy"), start, _archives())
        if path is None:
            return
        if path.suffix.casefold() != ARCHIVE:
            path = path.with_name(path.name + ARCHIVE)
        if path.exists() and store.is_project(path):
            self._window.files.ask.tell(
                self._window, say("“{file}” is a Wallwright project; it stays as it is.", file=path.name)
            )
            return
        project, folder = self._opened.project, self._window.project_folder()

        def then(made: packed.Packed) -> str:
            words = say_many(
                "“{file}” holds the project and {count} picture.",
                "“{file}” holds the project and {count} pictures.",
                len(made.pictures),
                file=path.name,
            )
            if not made.missing:
                return words
            names = ", ".join(picture.path.rsplit("/", 1)[-1] for picture in made.missing[:NAMED])
            return say("{words} Not found, so not inside: {names}.", words=words, names=names)

        self._start("pack", say("Packing."), lambda tell: packed.pack(project, folder, path, tell), then)

    def open_packed(self) -> None:
        """Asks which packed copy, and into which folder it is taken out."""
        path = self._window.files.ask.open_path(self._window, say("Open Packed Copy"), _archives())
        if path is not None:
            self.unpack(path)

    def unpack(self, path: Path) -> None:
        """Takes a packed copy out into a new folder, in a folder the person chooses, and opens it."""
        from composer.projectfile import packed

        around = self._window.files.ask.folder(self._window, say("Folder for the Packed Copy"))
        if around is None:
            return
        folder = _free(around / path.stem)

        def then(project: Path) -> str:
            # Asked now: work may have been done in the window meanwhile.
            if self._window.files.may_leave():
                self._window.files.open_path(project)
            return say("Taken out into “{folder}”.", folder=folder)

        self._start("unpack", say("Taking out."), lambda tell: packed.unpack(path, folder, tell), then)

    # Print files ----------------------------------------------------------------------------------

    def print_files(self) -> None:
        """Asks for a folder and writes a print file for each piece that shows a picture."""
        folder = self._window.files.ask.folder(self._window, say("Folder for Print Files"))
        if folder is None or not self._may_write(folder):
            return
        project, around = self._opened.project, self._window.project_folder()

        def do(tell: Any) -> Written:
            from composer.desktop.pictures.print_files import write_print_files

            return write_print_files(project, around, folder, tell)

        def then(made: Written) -> Outcome:
            words = say_many(
                "{count} print file written to “{folder}”.",
                "{count} print files written to “{folder}”.",
                made.count,
                folder=folder.name,
            )
            words = " ".join([words, *made.left_out[:NAMED]])
            if not made.shared:
                return words
            more = say_many(
                "{words} {count} larger sheet would hold several of them for less.",
                "{words} {count} larger sheets would hold several of them for less.",
                len(made.shared),
                words=words,
            )
            return more, (say("Write shared sheets, too"), partial(self._write_shared, made.shared, folder))

        self._start("print", say("Writing print files."), do, then, _written_stays())

    def _write_shared(self, sheets: Sequence[MultiSheet], folder: Path) -> None:
        from composer.desktop.pictures.print_files import SHARED_FOLDER, write_shared

        def then(count: int) -> str:
            return say_many(
                "{count} shared sheet written to “{folder}”.",
                "{count} shared sheets written to “{folder}”.",
                count,
                folder=f"{folder.name}/{SHARED_FOLDER}",
            )

        words, halted = say("Writing shared sheets."), _written_stays()
        self._start("print", words, lambda tell: write_shared(sheets, folder, tell), then, halted)

    def _may_write(self, folder: Path) -> bool:
        """Whether a folder is empty, or what lies there under the same names may be replaced."""
        if not folder.is_dir() or not any(folder.iterdir()):
            return True
        question = say("“{folder}” is not empty. Files of the same names are replaced.", folder=folder.name)
        return self._window.files.ask.yes(self._window, question, say("Write there"))

    def patch(self) -> None:
        """A part of the selected piece's print in its own size."""
        from composer.desktop.cards.print_working import sharpness
        from composer.desktop.pictures.patch_window import PatchWindow
        from composer.prints.plan import current_use, plan

        project, keys = self._opened.project, self._window.selection.pieces
        piece = project.piece_by_key.get(keys[0]) if len(keys) == 1 else None
        use = None if piece is None else current_use(piece)
        printed = None if piece is None else plan(project, piece).print
        if piece is None or use is None or printed is None or printed.crop is None:
            self._window.say_hint(say("How large its print will be is not known yet."))
            return
        place = project.placement_by_piece.get(piece.key)
        viewed = None if place is None else project.wall_by_key[place.wall].viewing_distance
        words, _ = sharpness(project, printed, project.length_style, None if viewed is None else float(viewed.mm))
        path = self._window.project_folder() / project.picture_by_key[use.picture].path
        self._window.files.ask.run(PatchWindow(path, printed, words, self._window))

    # Pictures that moved --------------------------------------------------------------------------

    def find_pictures(self) -> None:
        """Asks for a folder and links pictures found there by their content."""
        from composer.pictures.whereabouts import find_moved

        around = self._window.project_folder()
        wanted = [picture for picture in self._opened.project.pictures if self._is_lost(picture.key)]
        if not wanted:
            self._window.say_hint(say("Every picture is where the project says."))
            return
        folder = self._window.files.ask.folder(self._window, say("Folder to Look for Pictures In"))
        if folder is None:
            return

        def do(tell: Any) -> dict[str, Path]:
            from composer.desktop.pictures.long_job import Halted

            stopped = [False]

            def progress(done: int, count: int) -> None:
                stopped[0] = not tell(done, count)

            found = find_moved(wanted, folder, progress=progress, cancelled=lambda: stopped[0])
            if stopped[0]:
                raise Halted
            return found

        def then(found: dict[str, Path]) -> str:
            if found:
                self._apply_found(found, around)
            return say_many(
                "{found} of {count} missing picture found in “{folder}”.",
                "{found} of {count} missing pictures found in “{folder}”.",
                len(wanted),
                found=len(found),
                folder=folder.name,
            )

        self._start("find", say("Looking for pictures."), do, then)

    def take_as_is(self, key: Key) -> None:
        """A picture whose file has changed is linked as it is now."""
        folder = self._window.project_folder()
        picture = self._opened.project.picture_by_key[key]
        self._apply_found({key: folder / picture.path}, folder)

    def _apply_found(self, found: dict[str, Path], folder: Path) -> None:
        from composer.editing.print_edits import link_found

        try:
            self._opened.apply(link_found(found, folder))
        except EditRefused as refused:
            self._window.say_hint(str(refused))

    def _is_lost(self, key: Key) -> bool:
        picture = self._opened.project.picture_by_key[key]
        return bool(self._window.picture_watch.state(picture))

    # Brought in -----------------------------------------------------------------------------------

    def bring(self, places: Sequence[Path], keys: Sequence[Key]) -> None:
        """Files and folders: looked into in threads, then linked, and shown in these pieces one after the other.

        What is dropped while others come in waits for them.
        """
        if self.job("bring").is_busy:
            self._waiting.append((places, keys))
            return
        previews = self.previews

        def do(tell: Any) -> list[Brought]:
            from composer.desktop.pictures.bringing import brought_in

            return brought_in(places, previews, PREVIEW_SIDE, tell)

        def then(brought: list[Brought]) -> str:
            return self._link(brought, keys)

        self._start("bring", say("Looking into pictures."), do, then)

    def _bring_next(self, brought: object) -> None:
        if brought is None:
            self._waiting.clear()  # stopped: what waited was meant, too
        elif self._waiting:
            self.bring(*self._waiting.pop(0))

    def _link(self, brought: list[Brought], keys: Sequence[Key]) -> str:
        from composer.editing.picture_edits import link_pictures

        good = [one for one in brought if not one.refused]
        refused = [one.refused for one in brought if one.refused]
        known = [key for key in keys if key in self._opened.project.piece_by_key]
        changed = False
        if good:
            edit = link_pictures(
                self._opened.project,
                [one.path for one in good],
                self._window.project_folder(),
                known,
                seen={one.path: one for one in good},
            )
            try:
                changed = self._opened.apply(edit)
            except EditRefused as problem:
                return str(problem)
        if not refused:
            if not brought:
                self._window.say_hint(say("There are no pictures there."))
            elif not changed:
                self._window.say_hint(say("These pictures are linked already."))
            elif not keys:
                self._window.say_hint(
                    say("Linked. Drop a picture on a piece, or choose it in the piece's card, to show it there.")
                )
            return ""
        words = say_many(
            "{count} file was left out: {why}", "{count} files were left out: {why}", len(refused), why=refused[0]
        )
        return " ".join([words, *refused[1:NAMED]])


def _written_stays() -> str:
    return say("Stopped. Files written until then stay.")


def _archives() -> str:
    return say("Packed copies (*{suffix})", suffix=ARCHIVE)


def _free(folder: Path) -> Path:
    """The folder itself, or with a number behind it where one is there already."""
    made, number = folder, 2
    while made.exists():
        made, number = folder.with_name(f"{folder.name} {number}"), number + 1
    return made
