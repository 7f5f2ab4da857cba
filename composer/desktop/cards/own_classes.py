"""Classes of the person's own: a moulding, a hook, a wire the program does not know, with its figures and their source."""

from __future__ import annotations

import re
import unicodedata
from functools import partial
from typing import Any

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.catalogue.catalogue import of, usual
from composer.catalogue.names import SURFACES, surface_name
from composer.desktop import field_look as look
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_choices import CheckField
from composer.desktop.field_kinds import ChoiceField
from composer.desktop.field_measures import LengthField, bare_unit
from composer.desktop.field_row import FieldRow, LinkButton, PushButton, Words
from composer.desktop.field_words import NumberField, TextField
from composer.editing.catalogue_edits import drop_own, own_entry, record_named
from composer.model import CatalogueEntry, Project
from composer.texts import N_, say, say_many
from composer.units import Length

KINDS: dict[str, str] = {
    "moulding": N_("moulding"),
    "backing": N_("backing"),
    "board": N_("mat board"),
    "paper": N_("paper"),
    "fixing": N_("fixing in the wall"),
    "wire": N_("picture wire"),
}
"""What a class may be of."""

FIGURES: dict[str, tuple[tuple[str, str, float], ...]] = {
    "moulding": (("density_kg_m3", N_("Weighs, kg/m³"), 20_000.0), ("usual_mm", N_("Usually thick"), 0.0)),
    "backing": (("density_kg_m3", N_("Weighs, kg/m³"), 20_000.0), ("usual_mm", N_("Usually thick"), 0.0)),
    "board": (("grammage_g_m2", N_("Weighs, g/m²"), 20_000.0), ("usual_mm", N_("Usually thick"), 0.0)),
    "paper": (("grammage_g_m2", N_("Weighs, g/m²"), 20_000.0),),
    "fixing": (
        ("load_kg", N_("One holds, kg"), 200.0),
        ("offset_mm", N_("Seat up to hole"), 0.0),
        ("pack", N_("In a pack"), 1000.0),
    ),
    "wire": (("breaking_kg", N_("Breaks at, kg"), 2000.0),),
}
"""Figures of each kind: name in the catalogue, what it is called, the most it can be; 0 = a length."""

WEIGHT_MODE_NEEDED = ("density_kg_m3", "grammage_g_m2", "breaking_kg")


class OwnClasses:
    """Part of the wall card."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self.kind = "moulding"
        self._changing: CatalogueEntry | None = None

    def build(self, column: QVBoxLayout) -> None:
        """The classes there are, and the form of one more."""
        words = say("What the program does not know can be added to this project, with where its figures are from.")
        column.addWidget(Words(words, 12, "pencil"))
        self._list = QVBoxLayout()
        self._list.setSpacing(look.px(2))
        column.addLayout(self._list)
        self.kind_field = ChoiceField(say("Kind of class"), [(kind, say(words)) for kind, words in KINDS.items()])
        self.kind_field.set_value(self.kind)
        self.kind_field.committed.connect(self._on_kind)
        self.name_field = TextField(say("Name of the class"))
        column.addWidget(FieldRow((say("Kind of class"), self.kind_field), (say("Name of the class"), self.name_field)))
        self._form = QVBoxLayout()
        column.addLayout(self._form)
        self.source_field = TextField(say("Where its figures are from"))
        self.source_field.set_placeholder(say("such as the maker's sheet, or my scales"))
        column.addWidget(FieldRow((say("Where its figures are from"), self.source_field)))
        self.message = Words("", 12, "stop")
        self.message.hide()
        column.addWidget(self.message)
        buttons = QHBoxLayout()
        self.add = PushButton(say("Add the class"), strong=True)
        self.add.clicked.connect(self._on_add)
        buttons.addWidget(self.add)
        buttons.addStretch(1)
        column.addLayout(buttons)
        self._rows: list[QWidget] = []
        self._box: QWidget | None = None
        self._shown: tuple[CatalogueEntry, ...] | None = None
        self._rebuild_form()
        self.refresh()

    def sentence(self) -> str:
        """How many there are."""
        count = len(self._session.project.catalogue.own)
        if not count:
            return say("None yet.")
        return say_many("{count} class of your own.", "{count} classes of your own.", count)

    def refresh(self) -> None:
        """Shows the classes as they are now."""
        if not hasattr(self, "_list"):
            return
        own = self._session.project.catalogue.own
        if own == self._shown:
            return
        self._shown = own
        for row in self._rows:
            self._list.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows = [self._row(entry) for entry in own]
        for row in self._rows:
            self._list.addWidget(row)

    def _row(self, entry: CatalogueEntry) -> QWidget:
        row = QWidget()
        across = QHBoxLayout(row)
        across.setContentsMargins(0, 0, 0, 0)
        kind = say(KINDS.get(entry.kind, entry.kind))
        across.addWidget(Words(say("{name}, {kind}", name=entry.name, kind=kind), 14), 1)
        change = LinkButton(say("Change"))
        change.setAccessibleName(say("Change {name}", name=entry.name))
        change.clicked.connect(partial(self._on_change, entry))
        across.addWidget(change)
        drop = LinkButton(say("Delete"))
        drop.setAccessibleName(say("Delete {name}", name=entry.name))
        drop.clicked.connect(partial(self._on_drop, entry))
        across.addWidget(drop)
        return row

    def _on_kind(self, kind: str) -> None:
        self.kind, self._changing = kind, None
        self._rebuild_form()

    def _rebuild_form(self) -> None:
        if self._box is not None:
            self._form.removeWidget(self._box)
            self._box.hide()
            self._box.deleteLater()
        self._box = QWidget()
        inside = QVBoxLayout(self._box)
        inside.setContentsMargins(0, 0, 0, 0)
        inside.setSpacing(look.px(4))
        self.figures: dict[str, Any] = {}
        row = FieldRow()
        for figure, words, most in FIGURES[self.kind]:
            field: Any
            if most:
                field = NumberField(say(words), least=0.01, most=most, whole=figure == "pack")
            else:
                bare = bare_unit(self._session.project.units)
                field = LengthField(say(words), bare=bare, zero=True, minus=figure == "offset_mm")
            self.figures[figure] = field
            row.add(say(words), field)
        inside.addWidget(row)
        self.walls: dict[str, CheckField] = {}
        if self.kind == "fixing":
            inside.addWidget(Words(say("Holds in"), 12, "pencil"))
            for surface in SURFACES:
                if surface != "unknown":
                    self.walls[surface] = CheckField(surface_name(surface))
                    inside.addWidget(self.walls[surface])
        self._form.addWidget(self._box)

    def _on_change(self, entry: CatalogueEntry, _checked: bool = False) -> None:
        """Puts a class into the form."""
        self.kind = entry.kind if entry.kind in KINDS else "moulding"
        self.kind_field.set_value(self.kind)
        self._rebuild_form()
        self._changing = entry
        self.name_field.set_value(entry.name)
        self.source_field.set_value(entry.source)
        fields = dict(entry.fields)
        for figure, field in self.figures.items():
            value = fields.get(figure)
            if isinstance(value, int | float):
                field.set_value(Length.of_mm(value) if isinstance(field, LengthField) else value)
        walls = str(fields.get("walls") or "").split()
        for surface, check in self.walls.items():
            check.set_value(surface in walls)
        self.add.setText(say("Change the class"))
        self.add.setAccessibleName(self.add.text())
        self.name_field.setFocus()

    def _on_add(self) -> None:
        """The class as typed, as one step."""
        typed = [self.name_field, self.source_field, *self.figures.values()]
        if not all(field.commit() for field in typed):
            return
        name = str(self.name_field.value or "")
        project = self._session.project
        fields: dict[str, str | float] = {}
        for figure, field in self.figures.items():
            if field.value is not None:
                fields[figure] = float(field.value.mm) if isinstance(field, LengthField) else float(field.value)
        missing = [
            str(field.accessibleName())
            for figure, field in self.figures.items()
            if figure in WEIGHT_MODE_NEEDED and field.value is None
        ]
        if not name or missing:
            self._complain(say("{what} is needed.", what=missing[0] if name else say("Name of the class")))
            return
        if self.walls:
            fields["walls"] = " ".join(surface for surface, check in self.walls.items() if check.value)
        changing = self._changing
        own_id = changing.id if changing is not None else new_id(project, self.kind, name)
        source = str(self.source_field.value or "") or None
        edit = own_entry(self.kind, own_id, fields, name=name, source=source)
        refusal = try_apply(self._session, edit)
        self._complain(refusal)
        if not refusal:
            self._empty()

    def _empty(self) -> None:
        self._changing = None
        for field in (self.name_field, self.source_field, *self.figures.values()):
            field.set_value(None if field in self.figures.values() else "")
        for check in self.walls.values():
            check.set_value(False)
        self.add.setText(say("Add the class"))
        self.add.setAccessibleName(self.add.text())

    def _on_drop(self, entry: CatalogueEntry, _checked: bool = False) -> None:
        self._complain(try_apply(self._session, drop_own(entry.kind, entry.id)))

    def _complain(self, sentence: str) -> None:
        self.message.setText(sentence)
        self.message.setVisible(bool(sentence))


def new_id(project: Project, kind: str, name: str) -> str:
    """An id for a class: its name in small letters; no other class of the project or the program has it.

    It is what a table's column or a call writes.
    """
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    start = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40] or "own"
    known, shipped = of(project.catalogue), usual()
    number = 1
    while True:
        tried = start if number == 1 else f"{start}-{number}"
        entry = tried if kind in ("fixing", "wire") else f"{kind}:{tried}"
        if record_named(known, entry) is None and record_named(shipped, entry) is None:
            return tried
        number += 1
