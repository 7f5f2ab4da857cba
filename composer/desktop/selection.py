"""What is selected: keys of pieces or obstacles. Never part of the project, of a file or of history."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QObject, Signal

from composer.model import Key, Project


class Selection(QObject):
    """The selected keys in the order in which they were chosen.

    Signals:
        changed: the keys are no longer what they were.
    """

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._keys: tuple[Key, ...] = ()

    @property
    def keys(self) -> tuple[Key, ...]:
        """All selected keys."""
        return self._keys

    @property
    def pieces(self) -> tuple[Key, ...]:
        """The selected pieces."""
        return tuple(key for key in self._keys if key.startswith("p"))

    @property
    def obstacles(self) -> tuple[Key, ...]:
        """The selected obstacles."""
        return tuple(key for key in self._keys if key.startswith("o"))

    def __contains__(self, key: Key) -> bool:
        return key in self._keys

    def set(self, keys: Iterable[Key]) -> None:
        """Selects exactly these."""
        wanted = tuple(dict.fromkeys(keys))
        if wanted != self._keys:
            self._keys = wanted
            self.changed.emit()

    def toggle(self, key: Key) -> None:
        """Adds a key, or takes it out."""
        self.set([other for other in self._keys if other != key] if key in self._keys else [*self._keys, key])

    def clear(self) -> None:
        """Selects nothing."""
        self.set(())

    def prune(self, project: Project) -> None:
        """Lets go of what the project no longer has."""
        self.set(key for key in self._keys if key in project.piece_by_key or key in project.obstacle_by_key)
