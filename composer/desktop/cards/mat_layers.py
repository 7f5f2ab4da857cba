"""The boards of a mat, top one first: what each is of, its colour, how much of it shows."""

from __future__ import annotations

from functools import partial
from typing import Any

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.catalogue import catalogue
from composer.catalogue.names import name_of
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.session import Session, merge_key, try_apply
from composer.desktop.field_kinds import ChoiceField, LengthField, TextField, bare_unit
from composer.desktop.field_row import FieldRow, LinkButton
from composer.editing.edits import Edit
from composer.editing.record_edits import change_piece
from composer.model import Key, Mat, MatLayer, Piece
from composer.texts import say

MOST = 3
"""Boards of one mat, by the model."""


class MatLayers(QWidget):
    """One row a board, and a link to add one."""

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._key = session, key
        self._bindings = Bindings(session)
        self._rows: list[QWidget] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(4)
        self._add = LinkButton(say("Add a board"))
        self._add.clicked.connect(self._on_add)
        self._column.addWidget(self._add)
        self.refresh()

    def _layers(self) -> tuple[MatLayer, ...]:
        piece = self._session.project.piece_by_key.get(self._key)
        return () if piece is None or piece.mat is None else piece.mat.layers

    def refresh(self) -> None:
        """A row for each board there is now."""
        if len(self._layers()) != len(self._rows):
            self._rebuild()
        self._bindings.refresh()
        self._add.setVisible(len(self._layers()) < MOST)

    def _rebuild(self) -> None:
        for row in self._rows:
            self._column.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows, self._bindings = [], Bindings(self._session)
        for place in range(len(self._layers())):
            box = self._row(place)
            self._column.insertWidget(place, box)
            self._rows.append(box)

    def _row(self, place: int) -> QWidget:
        boards: list[tuple[Any, str]] = [(key, name_of(record)) for key, record in self._boards().items()]
        board = ChoiceField(say("Board {number}", number=place + 1), boards)
        colour = TextField(say("Colour"), optional=True)
        fields: list[tuple[str, QWidget]] = [
            (board.accessibleName(), self._bind(board, place, "board")),
            (say("Colour"), self._bind(colour, place, "colour")),
        ]
        if place:
            reveal = LengthField(say("Shows by"), bare=bare_unit(self._session.project.units))
            fields.append((say("Shows by"), self._bind(reveal, place, "reveal")))
        box = QWidget()
        across = QHBoxLayout(box)
        across.setContentsMargins(0, 0, 0, 0)
        across.addWidget(FieldRow(*fields), 1)
        remove = LinkButton(say("Delete"))
        remove.setAccessibleName(say("Delete board {number}", number=place + 1))
        remove.clicked.connect(partial(self._on_delete, place))
        across.addWidget(remove, 0, Qt.AlignmentFlag.AlignBottom)
        return box

    def _boards(self) -> Any:
        return catalogue.of(self._session.project.catalogue).boards

    def _bind(self, field: Any, place: int, name: str) -> Any:
        def get() -> Any:
            layers = self._layers()
            return getattr(layers[place], name) if place < len(layers) else None

        def make(value: Any, gesture: int) -> Edit:
            layers = list(self._layers())
            layers[place] = msgspec.structs.replace(layers[place], **{name: value})
            return self._edit(tuple(layers), gesture)

        self._bindings.bind(field, get, make)
        return field

    def _edit(self, layers: tuple[MatLayer, ...], gesture: int) -> Edit:
        def change(piece: Piece) -> Piece:
            return msgspec.structs.replace(piece, mat=msgspec.structs.replace(piece.mat or Mat(), layers=layers))

        number = self._session.project.piece_by_key[self._key].number
        text = say("Piece {number}: boards of the mat", number=number)
        return change_piece(self._key, text, change, merge_key("mat-layers", self._key, gesture) if gesture else None)

    def _on_add(self, _: bool = False) -> None:
        board = next(iter(self._boards()), "mat")
        try_apply(self._session, self._edit((*self._layers(), MatLayer(board=board)), 0))

    def _on_delete(self, place: int, _: bool = False) -> None:
        kept = tuple(layer for number, layer in enumerate(self._layers()) if number != place)
        try_apply(self._session, self._edit(kept, 0))
