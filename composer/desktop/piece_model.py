"""The rows of the piece list: what the filter lets through, in the order chosen."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
)
from PySide6.QtWidgets import (
    QWidget,
)

from composer.desktop.open_project import Change, OpenProject
from composer.desktop.units_shown import number, style_of
from composer.model import Key, Piece, Project
from composer.texts import say

Index = QModelIndex | QPersistentModelIndex


LARGEST_PX_PER_MM = 0.08


THUMBNAIL = 44


FILTERS = ("all", "wall", "floor", "findings")


class PieceModel(QAbstractListModel):
    """The pieces that the filter lets through, in the order chosen."""

    def __init__(self, opened: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._words = ""
        self._place = "all"
        self._order = "number"
        self._levels: dict[Key, str] = {}
        self.keys: list[Key] = []
        self.px_per_mm = LARGEST_PX_PER_MM
        self.read()

    @property
    def project(self) -> Project:
        """What is shown."""
        return self._opened.shown

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        """How many rows there are."""
        return 0 if parent.isValid() else len(self.keys)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """The name for readers; the key for ourselves."""
        if not index.isValid() or index.row() >= len(self.keys):
            return None
        piece = self.project.piece_by_key[self.keys[index.row()]]
        if role == Qt.ItemDataRole.UserRole:
            return piece.key
        if role in {Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole}:
            return say(
                "{number} {name}, {size}, {where}",
                number=piece.number,
                name=piece.name,
                size=size_of(piece, self.project),
                where=self.where(piece.key),
            )
        if role == Qt.ItemDataRole.ToolTipRole:
            return piece.name
        return None

    def where(self, key: Key) -> str:
        """Where the piece is, in a word."""
        placement = self.project.placement_by_piece.get(key)
        if placement is None:
            return say("floor")
        return say("locked") if placement.locked else say("wall")

    def level(self, key: Key) -> str | None:
        """The most serious finding about the piece."""
        return self._levels.get(key)

    def count(self, place: str) -> int:
        """How many pieces a filter would show."""
        return sum(1 for piece in self.project.pieces if self._is_at(piece.key, place))

    def set_filter(self, words: str, place: str) -> None:
        """Shows what matches all the words (number, name, size) and is there."""
        self._words, self._place = words.casefold(), place
        self.read()

    def set_order(self, order: str) -> None:
        """By number, name, size or place."""
        self._order = order
        self.read()

    def set_levels(self, levels: dict[Key, str]) -> None:
        """The most serious finding of each piece."""
        if levels != self._levels:
            self._levels = levels
            if self._place == "findings":
                self.read()
            elif self.keys:
                self.dataChanged.emit(self.index(0), self.index(len(self.keys) - 1))

    def on_change(self, change: Change) -> None:
        """Rows of what changed; all of them when the list itself is another."""
        if self._wanted() != self.keys or change.fields:
            self.read()
            return
        touched = change.touched
        for row, key in enumerate(self.keys):
            if key in touched:
                self.dataChanged.emit(self.index(row), self.index(row))

    def read(self) -> None:
        """Reads the list anew."""
        self.beginResetModel()
        self.keys = self._wanted()
        largest = max((max(piece.size_mm()) for piece in self.project.pieces), default=1.0)
        self.px_per_mm = min(LARGEST_PX_PER_MM, THUMBNAIL / largest)
        self.endResetModel()

    def _wanted(self) -> list[Key]:
        pieces = [
            piece for piece in self.project.pieces if self._is_at(piece.key, self._place) and self._matches(piece)
        ]
        return [piece.key for piece in sorted(pieces, key=self._rank)]

    def _rank(self, piece: Piece) -> tuple[Any, ...]:
        if self._order == "name":
            return (piece.name.casefold(), piece.number)
        if self._order == "size":
            width, height = piece.size_mm()
            return (-width * height, piece.number)
        if self._order == "where":
            return (piece.key not in self.project.placement_by_piece, piece.number)
        return (piece.number,)

    def _is_at(self, key: Key, place: str) -> bool:
        if place == "wall":
            return key in self.project.placement_by_piece
        if place == "floor":
            return key not in self.project.placement_by_piece
        return place == "all" or key in self._levels

    def _matches(self, piece: Piece) -> bool:
        text = (
            f"{piece.number} {piece.name} {size_of(piece, self.project)}".casefold()
            .replace("\u202f", "")
            .replace("\u00a0", " ")
        )
        return all(word in text for word in self._words.split())


def size_of(piece: Piece, project: Project) -> str:
    """Width by height as shown."""
    style = style_of(project)
    return say(
        "{width} × {height}", width=number(piece.frame.width.mm, style), height=number(piece.frame.height.mm, style)
    )
