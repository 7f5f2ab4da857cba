"""The one project the window shows, and the only way to change it.

Every change is an edit, project to project. It is run and checked first; only its result goes on the
undo stack, so redoing is an assignment that cannot fail. Listeners hear of each change once, with
the keys of what differs, found by identity: an unchanged record is the same object.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from composer.editing.edits import Edit, MergeKey
from composer.model import Key, Project

UNDO_LIMIT = 2000
"""Steps kept; a step of a thousand pieces takes about 8 kB."""


class Difference(NamedTuple):
    """Keys of the records of one kind that came, went, or are other objects now."""

    added: frozenset[Key] = frozenset()
    removed: frozenset[Key] = frozenset()
    changed: frozenset[Key] = frozenset()

    @property
    def keys(self) -> frozenset[Key]:
        """All of them."""
        return self.added | self.removed | self.changed

    def __bool__(self) -> bool:
        return bool(self.added or self.removed or self.changed)


class Change(NamedTuple):
    """What differs between two projects.

    Attributes:
        placements: by the key of the piece that hangs, in the arrangement that is current.
        arrangement: the current arrangement is another one, or differs in more than its placements.
        fields: something of the project itself differs: its units, its money, its catalogue.
    """

    walls: Difference
    pieces: Difference
    pictures: Difference
    placements: Difference
    arrangement: bool
    fields: bool

    @property
    def touched(self) -> frozenset[Key]:
        """Keys of the pieces a person would look for after an undo."""
        return self.pieces.keys | self.placements.keys


def difference(before: Project | None, after: Project) -> Change:
    """What differs; without a project before, everything is new."""
    if before is None:
        return Change(
            Difference(frozenset(after.wall_by_key)),
            Difference(frozenset(after.piece_by_key)),
            Difference(frozenset(after.picture_by_key)),
            Difference(frozenset(after.placement_by_piece)),
            arrangement=True,
            fields=True,
        )
    return Change(
        _by_identity(before.wall_by_key, after.wall_by_key),
        _by_identity(before.piece_by_key, after.piece_by_key),
        _by_identity(before.picture_by_key, after.picture_by_key),
        _by_identity(before.placement_by_piece, after.placement_by_piece),
        arrangement=_arrangement_differs(before, after),
        fields=any(getattr(before, name) is not getattr(after, name) for name in _FIELDS),
    )


_FIELDS = (
    "title",
    "units",
    "fraction",
    "currency",
    "catalogue",
    "money",
    "as_hung",
    "overrides",
    "paper",
    "region",
    "quake",
)


def _by_identity(before: Mapping[Key, Any], after: Mapping[Key, Any]) -> Difference:
    if before is after:
        return Difference()
    return Difference(
        frozenset(key for key in after if key not in before),
        frozenset(key for key in before if key not in after),
        frozenset(key for key, record in after.items() if key in before and before[key] is not record),
    )


def _arrangement_differs(before: Project, after: Project) -> bool:
    one, other = before.arrangement, after.arrangement
    if one is other:
        return before.arrangements is not after.arrangements and len(before.arrangements) != len(after.arrangements)
    return (one.key, one.name, one.gap, one.floor_order) != (other.key, other.name, other.gap, other.floor_order)


_families: dict[str, int] = {}


def _family_id(merge: MergeKey | None) -> int:
    """A small number for a family of mergeable steps; Qt takes 31 bits, and −1 for "never merge"."""
    return -1 if merge is None else _families.setdefault(merge.family, len(_families) + 1)


class ChangeCommand(QUndoCommand):
    """One step of history: from one project value to the next."""

    def __init__(self, owner: OpenProject, before: Project, after: Project, edit: Edit) -> None:
        super().__init__(edit.text)
        self._owner = owner
        self.before = before
        self.after = after
        self._merge = edit.merge

    def id(self) -> int:
        """Which steps may be merged with which."""
        return _family_id(self._merge)

    def mergeWith(self, other: QUndoCommand) -> bool:
        """Takes in a later step of the same gesture; one that leads back to the start vanishes."""
        if not isinstance(other, ChangeCommand) or self._merge is None or other._merge != self._merge:
            return False
        self.after = other.after
        if self.after == self.before:
            self.setObsolete(True)
        return True

    def undo(self) -> None:
        """Back to the value before."""
        self._owner._set(self.before)

    def redo(self) -> None:
        """To the value after."""
        self._owner._set(self.after)


class OpenProject(QObject):
    """The open project.

    Signals:
        project_changed: carries the project shown before (or None), the one shown now, and the :class:`Change`.
        previewed: a preview began or ended; carries whether one is shown.
        file_changed: it has another file, or none.
    """

    project_changed = Signal(object, object, object)
    previewed = Signal(bool)
    file_changed = Signal()

    def __init__(self, project: Project, path: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.stack = QUndoStack(self)
        self.stack.setUndoLimit(UNDO_LIMIT)
        self._project = project
        self._shown = project
        self._path = path
        self._telling = False
        self._unsaved_from_start = False
        self.digest: str | None = None
        """Of the file as it was read or last written."""

    @property
    def project(self) -> Project:
        """The committed project: what is saved, undone, recovered."""
        return self._project

    @property
    def shown(self) -> Project:
        """What the window shows: a preview while there is one, else the committed project."""
        return self._shown

    @property
    def path(self) -> Path | None:
        """Its file, or None when it was never saved."""
        return self._path

    @property
    def folder(self) -> Path:
        """Where the project's relative paths start; the current folder while it was never saved."""
        return self._path.parent if self._path is not None else Path.cwd()

    @property
    def is_clean(self) -> bool:
        """Whether the file holds what is open."""
        return self.stack.isClean() and not self._unsaved_from_start

    def open(self, project: Project, path: Path | None, *, digest: str | None = None, unsaved: bool = False) -> None:
        """Shows another project, with a new history. ``unsaved``: it holds what its file does not."""
        self.stack.clear()
        self._path, self.digest, self._unsaved_from_start = path, digest, unsaved
        self._set(project)
        self.file_changed.emit()

    def apply(self, edit: Edit) -> bool:
        """Runs an edit and puts it on the history; says whether anything changed.

        Raises:
            EditRefused: with a sentence for the person; nothing has changed then.
        """
        assert not self._telling, "a listener of project_changed must not change the project"
        after = edit.run(self._project)
        if after is self._project or after == self._project:
            self.end_preview()
            return False
        self.stack.push(ChangeCommand(self, self._project, after, edit))
        return True

    def preview(self, project: Project) -> None:
        """Shows a project without committing it; a second preview replaces the first."""
        self._show(project)
        self.previewed.emit(True)

    def end_preview(self) -> None:
        """Shows the committed project again."""
        if self._shown is not self._project:
            self._show(self._project)
            self.previewed.emit(False)

    def rewrite(self, change: Callable[[Project], Project]) -> None:
        """Says the same in other words, now and in every step of the history, so that no step leads back to the old.

        Nothing to undo; ``change`` must give equal projects for equal ones.
        """
        made: dict[int, tuple[Project, Project]] = {}  # the old one is kept, so that no other takes its id

        def rewritten(project: Project) -> Project:
            if id(project) not in made:
                made[id(project)] = (project, change(project))
            return made[id(project)][1]

        for index in range(self.stack.count()):
            command = self.stack.command(index)
            if isinstance(command, ChangeCommand):
                command.before, command.after = rewritten(command.before), rewritten(command.after)
        self.end_preview()
        self._set(rewritten(self._project))

    def saved(self, path: Path, digest: str | None) -> None:
        """The file holds the committed project now."""
        self._path, self.digest, self._unsaved_from_start = path, digest, False
        self.stack.setClean()
        self.file_changed.emit()

    def touched_by_step(self, index: int) -> frozenset[Key]:
        """Pieces that differ between the two ends of a step of the history."""
        command = self.stack.command(index)
        if not isinstance(command, ChangeCommand):
            return frozenset()
        return difference(command.before, command.after).touched

    def _set(self, project: Project) -> None:
        self._project = project
        self._show(project)

    def _show(self, project: Project) -> None:
        before, self._shown = self._shown, project
        if before is project:
            return
        self._telling = True
        try:
            self.project_changed.emit(before, project, difference(before, project))
        finally:
            self._telling = False


def existing(keys: Iterable[Key], project: Project) -> list[Key]:
    """The keys of pieces the project still has, in their order of number."""
    found = [project.piece_by_key[key] for key in keys if key in project.piece_by_key]
    return [piece.key for piece in sorted(found, key=_number)]


def _number(piece: Any) -> int:
    return int(piece.number)
