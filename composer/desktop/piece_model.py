"""The rows of the piece list: what the filter lets through, in the order chosen."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
)
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import (
    QWidget,
)

from composer.desktop.open_project import Change, OpenProject
from composer.desktop.stages import noted_words
from composer.desktop.units_shown import number
from composer.findings.readiness import missing_words, stage, stage_words
from composer.model import Key, Piece, Project
from composer.texts import say
from composer.units import show_mass

Index = QModelIndex | QPersistentModelIndex


LARGEST_PX_PER_MM = 0.08


THUMBNAIL = 44


FILTERS = ("all", "wall", "floor", "findings")
ORDERS = ("number", "name", "size", "where")


class PieceModel(QAbstractListModel):
    """The pieces that the filter lets through, in the order chosen."""

    def __init__(self, opened: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._words = ""
        self._place = "all"
        self._order = "number"
        self._levels: dict[Key, str] = {}
        self._lacking: dict[Key, tuple[Piece, bool, str]] = {}  # by identity: a record that is the same lacks the same
        self.picture_of: Callable[[Key], QPixmap | None] = no_picture
        self.grouped = False
        self.folded = False
        """Whether the list has room for numbers and thumbnails only."""
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
                size=self.size_words(piece),
                where=self.where(piece.key),
            ) + (f", {lacking}" if (lacking := self.lacking(piece)) else "")
        if role == Qt.ItemDataRole.ToolTipRole:
            return self._tip(piece)
        return None

    def _tip(self, piece: Piece) -> str:
        place = self.project.placement_by_piece.get(piece.key)
        reached = stage_words(stage(piece, turned=place is not None and place.turned)).capitalize()
        if piece.stage is not None:
            reached = say("{reached}; {stage}", reached=reached, stage=noted_words(piece.stage))
        return say("{name}: {reached}", name=piece.name, reached=reached)

    def where(self, key: Key) -> str:
        """Where the piece is, in a word."""
        placement = self.project.placement_by_piece.get(key)
        if placement is None:
            return say("floor")
        return say("locked") if placement.locked else say("wall")

    def drawing_of_place(self, key: Key) -> str:
        """The sign that stands beside the word."""
        placement = self.project.placement_by_piece.get(key)
        return "floor" if placement is None else "lock" if placement.locked else "wall"

    def size_words(self, piece: Piece) -> str:
        """Width by height and weight; in a grouped list weights drop out and a lock is told instead."""
        size = size_of(piece, self.project)
        if self.grouped:
            placement = self.project.placement_by_piece.get(piece.key)
            return say("{size}, locked", size=size) if placement is not None and placement.locked else size
        if piece.weight is None:
            return size
        unit = self.project.mass_unit
        return say("{size}, {weight}", size=size, weight=show_mass(piece.weight.exact_kg, unit))

    def lacking(self, piece: Piece) -> str:
        """What the next paper still needs; nothing once the piece can be costed."""
        place = self.project.placement_by_piece.get(piece.key)
        turned = place is not None and place.turned
        known = self._lacking.get(piece.key)
        if known is None or known[0] is not piece or known[1] != turned:
            missing = missing_words(piece, turned=turned)
            known = (piece, turned, say("needs {missing}", missing=missing) if missing else "")
            self._lacking[piece.key] = known
        return known[2]

    def head(self, row: int) -> tuple[str, str, int] | None:
        """Words, sign and count of the group that begins with this row; None within a group."""
        if not self.grouped:
            return None
        hung = self.keys[row] in self.project.placement_by_piece
        if row and (self.keys[row - 1] in self.project.placement_by_piece) == hung:
            return None
        count = sum(1 for key in self.keys if (key in self.project.placement_by_piece) == hung)
        return (say("On the wall"), "wall", count) if hung else (say("On the floor"), "floor", count)

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

    @property
    def order(self) -> str:
        """What rows are sorted by."""
        return self._order

    def set_grouped(self, grouped: bool) -> None:
        """By place first, each group under its head."""
        if grouped != self.grouped:
            self.grouped = grouped
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
        if self.grouped:
            hung = self.project.placement_by_piece
            return [piece.key for piece in sorted(pieces, key=lambda one: (one.key not in hung, self._rank(one)))]
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


def no_picture(_: Key) -> QPixmap | None:
    """Before pictures are read."""
    return None


def place_words() -> tuple[str, str, str]:
    """The words a place can have."""
    return say("floor"), say("locked"), say("wall")


def size_of(piece: Piece, project: Project) -> str:
    """Width by height as shown."""
    style = project.length_style
    return say(
        "{width} × {height}", width=number(piece.frame.width.mm, style), height=number(piece.frame.height.mm, style)
    )
