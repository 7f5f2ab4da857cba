"""What else is to be bought, in the person's own words: what, what each costs, how many."""

from __future__ import annotations

from decimal import Decimal
from functools import partial
from typing import Any

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.session import Session, merge_key, try_apply
from composer.desktop.field_row import FieldRow, LinkButton
from composer.desktop.field_words import MoneyField, NumberField, TextField
from composer.editing.edits import Edit
from composer.editing.project_edits import change_project_fields
from composer.model import Extra
from composer.texts import say


class ExtraRows(QWidget):
    """A row a thing, and a link to add one."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._bindings = Bindings(session)
        self._rows: list[QWidget] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(look.px(4))
        add = LinkButton(say("Add something else to buy"))
        add.clicked.connect(self._on_add)
        self._column.addWidget(add)
        self.refresh()

    @property
    def _extras(self) -> tuple[Extra, ...]:
        return self._session.project.money.extras

    def refresh(self) -> None:
        """A row for each thing there is now."""
        if len(self._extras) != len(self._rows):
            for row in self._rows:
                self._column.removeWidget(row)
                row.hide()
                row.deleteLater()
            self._rows, self._bindings = [], Bindings(self._session)
            for place in range(len(self._extras)):
                row = self._row(place)
                self._column.insertWidget(place, row)
                self._rows.append(row)
        self._bindings.refresh()

    def _row(self, place: int) -> QWidget:
        what = TextField(say("What else"), needed=True)
        each = MoneyField(say("Each"), currency=self._session.project.currency)
        count = NumberField(say("How many of it"), least=1, most=10_000, whole=True)
        for field, name in ((what, "what"), (each, "each"), (count, "count")):
            self._bindings.bind(field, partial(self._get, place, name), partial(self._make, place, name))
        box = QWidget()
        across = QHBoxLayout(box)
        across.setContentsMargins(0, 0, 0, 0)
        across.addWidget(FieldRow((say("What else"), what), (say("Each"), each), (say("How many"), count)), 1)
        remove = LinkButton(say("Delete"))
        remove.setAccessibleName(say("Delete what else, row {number}", number=place + 1))
        remove.clicked.connect(partial(self._on_delete, place))
        across.addWidget(remove, 0, Qt.AlignmentFlag.AlignBottom)
        return box

    def _get(self, place: int, name: str) -> Any:
        return getattr(self._extras[place], name) if place < len(self._extras) else None

    def _make(self, place: int, name: str, value: Any, gesture: int) -> Edit:
        extras = list(self._extras)
        usual = {"each": Decimal(0), "count": 1}.get(name)
        extras[place] = msgspec.structs.replace(extras[place], **{name: usual if value is None else value})
        return self._edit(tuple(extras), gesture)

    def _edit(self, extras: tuple[Extra, ...], gesture: int = 0) -> Edit:
        money = msgspec.structs.replace(self._session.project.money, extras=extras)
        merge = merge_key("extras", "", gesture) if gesture else None
        return change_project_fields(say("Change what else is to be bought"), merge, money=money)

    def _on_add(self, _: bool = False) -> None:
        made = Extra(what=say("something else"), each=Decimal(0))
        try_apply(self._session, self._edit((*self._extras, made)))

    def _on_delete(self, place: int, _: bool = False) -> None:
        kept = tuple(one for number, one in enumerate(self._extras) if number != place)
        try_apply(self._session, self._edit(kept))
