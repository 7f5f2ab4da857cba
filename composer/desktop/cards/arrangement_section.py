"""The arrangement that is shown: its name, the gap wanted, how it came about, a note."""

from __future__ import annotations

from typing import Any

import msgspec
from PySide6.QtWidgets import QVBoxLayout

from composer.desktop.cards.bound import Bindings, add_row
from composer.desktop.cards.session import Session, merge_key
from composer.desktop.field_kinds import LengthField, NoteField, TextField, bare_unit
from composer.desktop.field_row import Words
from composer.editing.edits import Edit
from composer.editing.record_edits import change_arrangement
from composer.model import Arrangement
from composer.texts import say, say_many


class ArrangementSection:
    """Part of the wall card; an arrangement covers all walls."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._bindings = Bindings(session)

    def build(self, column: QVBoxLayout) -> None:
        """Name, gap, note."""
        gap = LengthField(say("Gap wanted"), bare=bare_unit(self._session.project.units), needed=True, zero=True)
        add_row(
            column,
            self._bind(TextField(say("Name"), needed=True), "name", say("Name")),
            self._bind(gap, "gap", say("Gap wanted")),
        )
        self._made = Words("", 12, "pencil")
        column.addWidget(self._made)
        add_row(column, self._bind(NoteField(say("Note")), "note", say("Note")))
        self.refresh()

    def _bind(self, field: Any, name: str, words: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            arrangement = self._session.project.arrangement

            def change(current: Arrangement) -> Arrangement:
                return msgspec.structs.replace(current, **{name: value})

            text = say("Arrangement “{name}”: {what}", name=arrangement.name, what=words)
            return change_arrangement(text, change, merge_key(f"arrangement-{name}", arrangement.key, gesture))

        self._bindings.bind(field, lambda: getattr(self._session.project.arrangement, name), make)
        return words, field

    def refresh(self) -> None:
        """Shows the arrangement as it is now."""
        self._bindings.refresh()
        if not hasattr(self, "_made"):
            return
        made = self._session.project.arrangement.made_by
        words = "" if made is None else say("Found as {pattern}, seed {seed}.", pattern=made.pattern, seed=made.seed)
        self._made.setText(words)
        self._made.setVisible(bool(words))

    def sentence(self) -> str:
        """The arrangement in one sentence."""
        arrangement = self._session.project.arrangement
        pieces = say_many("{count} piece", "{count} pieces", len(arrangement.placements))
        return say("“{name}”: {pieces}, gap {gap}.", name=arrangement.name, pieces=pieces, gap=arrangement.gap.text)
