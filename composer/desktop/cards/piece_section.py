"""What the sections of a piece card share."""

from __future__ import annotations

from typing import Any

import msgspec

from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.session import Session, merge_key
from composer.desktop.field_kinds import (
    LengthField,
    bare_unit,
)
from composer.editing.edits import Edit
from composer.editing.record_edits import change_frame, change_piece
from composer.model import Key, Piece
from composer.texts import say


class PieceSection:
    """What the four sections share: the piece, its fields, and how a value becomes an edit."""

    def __init__(self, session: Session, key: Key) -> None:
        self._session, self._key = session, key
        self._bindings = Bindings(session)

    @property
    def _piece(self) -> Piece:
        return self._session.project.piece_by_key[self._key]

    @property
    def _bare(self) -> str:
        return bare_unit(self._session.project.units)

    def refresh(self) -> None:
        """Shows the project as it is now."""
        if self._key in self._session.project.piece_by_key:
            self._bindings.refresh()

    def _text(self, what: str) -> str:
        return say("Piece {number}: {measure}", number=self._piece.number, measure=what)

    def _bind_frame(self, field: Any, name: str, what: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            return change_frame(
                self._key, self._text(what), merge_key(f"frame-{name}", self._key, gesture), **{name: value}
            )

        self._bindings.bind(field, lambda: getattr(self._piece.frame, name), make)
        return what, field

    def _bind_piece(self, field: Any, name: str, what: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            def change(piece: Piece) -> Piece:
                return msgspec.structs.replace(piece, **{name: value})

            return change_piece(self._key, self._text(what), change, merge_key(f"piece-{name}", self._key, gesture))

        self._bindings.bind(field, lambda: getattr(self._piece, name), make)
        return what, field

    def _length(self, name: str, what: str, *, needed: bool = False, zero: bool = False) -> tuple[str, Any]:
        return self._bind_frame(LengthField(what, bare=self._bare, needed=needed, zero=zero), name, what)
