"""Binds fields to values of a record: what a field commits becomes an edit, what changes is shown again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_row import FieldRow
from composer.desktop.fields import EntryField
from composer.editing.edits import Edit

Get = Callable[[], Any]
Make = Callable[[Any, int], Edit]


class Bindings:
    """Fields of one section, each with where its value comes from and the edit it makes."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._bound: list[tuple[Any, Get]] = []

    def bind(self, field: Any, get: Get, make: Make) -> None:
        """``get`` reads the value from the project, ``make`` builds the edit for a new one."""
        self._bound.append((field, get))
        field.committed.connect(lambda value: self._commit(field, get, make, value))
        field.set_value(get())

    def refresh(self) -> None:
        """Shows the project's values again; text being typed stays."""
        for field, get in self._bound:
            field.set_value(get())

    def _commit(self, field: Any, get: Get, make: Make, value: Any) -> None:
        refusal = try_apply(self._session, make(value, field.gesture))
        if not refusal:
            return
        field.set_value(get())
        if isinstance(field, EntryField):
            field.complain(refusal)
        elif (row := _row_of(field)) is not None:
            row.complain(refusal)


def _row_of(field: QWidget) -> FieldRow | None:
    parent = field.parentWidget()
    while parent is not None and not isinstance(parent, FieldRow):
        parent = parent.parentWidget()
    return parent


def add_row(column: QVBoxLayout, *fields: tuple[str, QWidget]) -> FieldRow:
    """Fields side by side at the end of a section."""
    row = FieldRow(*fields)
    column.addWidget(row)
    return row
