"""What else is known about a piece: a note, columns of the person's own table, stops gone on against."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import partial
from typing import Any

import msgspec
from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.desktop.cards.bound import Bindings, add_row
from composer.desktop.cards.piece_section import PieceSection
from composer.desktop.cards.session import merge_key
from composer.desktop.field_kinds import NoteField, TextField
from composer.desktop.field_row import FieldRow, Words
from composer.editing.edits import Edit
from composer.editing.piece_edits import override
from composer.editing.record_edits import change_piece
from composer.findings import FindingsCache, sentences
from composer.model import Key, Piece, Project
from composer.texts import say, say_many


class NotesSection(PieceSection):
    """Note, own columns, and for each stop the reason why the person goes on."""

    def build(self, column: QVBoxLayout) -> None:
        """The note; the rest as there is any."""
        add_row(column, self._bind_piece(NoteField(say("Note")), "note", say("Note")))
        self._own = QVBoxLayout()
        self._own.setSpacing(6)
        column.addLayout(self._own)
        self._stops = QVBoxLayout()
        self._stops.setSpacing(6)
        column.addLayout(self._stops)
        self._shown: tuple[Any, ...] = ()
        self._inner = Bindings(self._session)
        self._cache = FindingsCache()
        self.refresh()

    def refresh(self) -> None:
        """Own columns and stops as they are now."""
        super().refresh()
        if not hasattr(self, "_inner") or self._key not in self._session.project.piece_by_key:
            return
        shown = (tuple(name for name, _ in self._piece.extra), self._codes())
        if shown != self._shown:
            self._shown = shown
            self._rebuild()
        self._inner.refresh()

    def _codes(self) -> tuple[tuple[str, str], ...]:
        """Codes and sentences of the stops of this piece, standing or gone on against."""
        project = self._session.project
        style, number = project.length_style, self._piece.number
        found = {
            finding.code: sentences.text(finding, style)
            for finding in self._cache.check(project)
            if finding.level == "stop" and finding.pieces == (number,)
        }
        kept = {one.code: found.get(one.code, one.code) for one in project.overrides if one.pieces == (self._key,)}
        return tuple({**kept, **found}.items())

    def _rebuild(self) -> None:
        self._inner = Bindings(self._session)
        for layout in (self._own, self._stops):
            while (item := layout.takeAt(0)) is not None:
                widget = item.widget()
                if widget is not None:
                    widget.hide()
                    widget.deleteLater()
        names, stops = self._shown
        if names:
            self._own.addWidget(Words(say("Columns of your own table"), 12, "pencil", semibold=True))
            self._own.addWidget(FieldRow(*(self._own_column(name) for name in names)))
        for code, sentence in stops:
            self._stops.addWidget(Words(sentence, 12, "stop"))
            reason = TextField(say("Go on all the same, because"))
            reason.set_placeholder(say("at least three letters; printed on the paper"))
            self._inner.bind(reason, partial(self._reason, code), _Overrider(self, code))
            self._stops.addWidget(FieldRow((reason.accessibleName(), reason)))

    def _own_column(self, name: str) -> tuple[str, QWidget]:
        field = TextField(name)

        def make(value: Any, gesture: int) -> Edit:
            def change(piece: Piece) -> Piece:
                extra = tuple((one, value if one == name else text) for one, text in piece.extra)
                return msgspec.structs.replace(piece, extra=extra)

            return change_piece(self._key, self._text(name), change, merge_key(f"extra-{name}", self._key, gesture))

        self._inner.bind(field, lambda: dict(self._piece.extra).get(name, ""), make)
        return name, field

    def _reason(self, code: str) -> str:
        for one in self._session.project.overrides:
            if one.code == code and one.pieces == (self._key,):
                return one.reason
        return ""


class _Overrider:
    """Makes the edit of one stop's override."""

    def __init__(self, section: NotesSection, code: str) -> None:
        self._section, self._code = section, code

    def __call__(self, value: Any, gesture: int) -> Edit:
        when = datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
        section = self._section
        return override(section._session.project, section._key, self._code, str(value or ""), when)


def notes_sentence(project: Project, key: Key) -> str:
    """What was noted, in one sentence."""
    piece = project.piece_by_key[key]
    overridden = sum(1 for one in project.overrides if one.pieces == (key,))
    if overridden:
        return say_many("{count} stop gone on against.", "{count} stops gone on against.", overridden)
    if piece.note:
        first = piece.note.splitlines()[0]
        return first if len(first) <= 60 else say("{beginning} …", beginning=first[:58].rstrip())
    if piece.extra:
        return say_many("{count} column of your own table.", "{count} columns of your own table.", len(piece.extra))
    return say("Nothing noted.")
