"""What a card needs of the open project: its value, the one way to change it, and word of changes."""

from __future__ import annotations

from pathlib import Path
from typing import Protocol

from PySide6.QtCore import SignalInstance

from composer.editing.edits import Edit, EditRefused, MergeKey
from composer.model import Key, Project
from composer.units import LengthStyle


class Session(Protocol):
    """The open project as cards see it."""

    project_changed: SignalInstance

    @property
    def project(self) -> Project:
        """The committed project."""
        ...

    @property
    def folder(self) -> Path:
        """Where the project's relative paths start."""
        ...

    def apply(self, edit: Edit) -> object:
        """Runs an edit and remembers it for undo."""
        ...


def shown_in(project: Project) -> LengthStyle:
    """How the project's lengths are shown: millimetres, or inches to its fraction."""
    return project.length_style


def merge_key(family: str, key: Key, gesture: int) -> MergeKey:
    """Edits of one visit to one field undo as one."""
    return MergeKey(family, (key,), gesture)


def try_apply(session: Session, edit: Edit) -> str:
    """Applies an edit; the sentence of its refusal, or nothing."""
    try:
        session.apply(edit)
    except EditRefused as refused:
        return str(refused)
    return ""
