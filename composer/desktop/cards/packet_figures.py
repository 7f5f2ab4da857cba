"""A packet's figures over the program's: those of one class, typed where they are used, taken back together."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.catalogue import catalogue
from composer.catalogue.catalogue import Record
from composer.catalogue.names import name_of, status_words
from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_measures import LengthField, bare_unit
from composer.desktop.field_row import FieldRow, LinkButton, Words
from composer.desktop.field_words import NumberField
from composer.editing.catalogue_edits import figures_of, record_named, type_over
from composer.editing.edits import Edit
from composer.hanging.points import hang
from composer.model import Key, Project
from composer.texts import N_, say
from composer.units import Length

FIGURES: dict[str, str] = {
    "width_mm": N_("A strip is wide"),
    "length_mm": N_("and long, without its tab"),
    "largest_short_mm": N_("Largest frame, short side"),
    "largest_long_mm": N_("Largest frame, long side"),
    "most_pairs": N_("Pairs at most"),
    "press_s": N_("Press each, s"),
    "wait_min": N_("Wait before hanging, min"),
    "full_h": N_("Full strength after, h"),
    "offset_mm": N_("Seat up to hole"),
    "pack": N_("In a pack"),
    "drill_mm": N_("Drill"),
    "plug_mm": N_("Plug"),
}
"""What a figure of strips or a fixing is called, by its name in the catalogue; what one holds stands above."""

_WHOLE = ("most_pairs", "pack", "press_s", "wait_min", "full_h")
_MOST = {"most_pairs": 16.0, "pack": 1000.0, "press_s": 600.0, "wait_min": 2880.0, "full_h": 168.0}


class PacketFigures(QWidget):
    """Folded to a link until somebody has a packet in hand; empty where no class is chosen."""

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._key = session, key
        self._entry = ""
        self._open = False
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(4))
        self.link = LinkButton(say("Type the packet's other figures"))
        self.link.clicked.connect(self.toggle)
        column.addWidget(self.link)
        self.heading = Words("", 12, "pencil")
        column.addWidget(self.heading)
        self._rows = QVBoxLayout()
        self._rows.setSpacing(look.px(4))
        column.addLayout(self._rows)
        self.undo = LinkButton(say("Take back what was typed"))
        self.undo.clicked.connect(self.take_back)
        column.addWidget(self.undo)
        self._row: FieldRow | None = None
        self._bindings = Bindings(session)

    def toggle(self) -> None:
        """Opens or folds the figures."""
        self._open = not self._open
        self.refresh()

    def refresh(self) -> None:
        """Shows the figures in force."""
        record = record_of(self._session.project, self._key)
        self.setVisible(record is not None)
        if record is None:
            return
        if record.entry != self._entry or (self._open and self._row is None):
            self._entry = record.entry
            self._rebuild(record)
        self.link.setText(
            say("Fold the packet's other figures") if self._open else say("Type the packet's other figures")
        )
        self.link.setAccessibleName(self.link.text())
        self.link.updateGeometry()
        words = say("{name}: {status}. The packet wins.", name=name_of(record), status=status_words(record.status))
        self.heading.setText(words)
        self.heading.setVisible(self._open)
        if self._row is not None:
            self._row.setVisible(self._open)
            self._bindings.refresh()
        self.undo.setVisible(self._open and bool(self._changed()))

    def _changed(self) -> list[str]:
        """Figures of this class that were typed over."""
        return [one.field for one in self._session.project.catalogue.changed if one.entry == self._entry]

    def _rebuild(self, record: Record) -> None:
        if self._row is not None:
            self._rows.removeWidget(self._row)
            self._row.hide()
            self._row.deleteLater()
            self._row = None
        if not self._open:
            return
        self._bindings = Bindings(self._session)
        self._row = FieldRow()
        for figure in figures_of(record):
            if figure in FIGURES:
                words = say(FIGURES[figure])
                self._row.add(words, self._field(figure, words))
        self._rows.addWidget(self._row)

    def _field(self, figure: str, words: str) -> QWidget:
        entry = self._entry

        def value() -> Any:
            record = record_named(catalogue.of(self._session.project.catalogue), entry)
            return None if record is None else getattr(record, figure)

        if figure.endswith("_mm"):
            field: Any = LengthField(
                words, bare=bare_unit(self._session.project.units), zero=True, minus=figure == "offset_mm"
            )

            def length() -> Length | None:
                mm = value()
                return None if mm is None else Length.of_mm(mm)

            self._bindings.bind(
                field, length, lambda typed, _: type_over(entry, figure, None if typed is None else float(typed.mm))
            )
        else:
            whole = figure in _WHOLE
            field = NumberField(words, least=1 if whole else 0.01, most=_MOST.get(figure, 1000.0), whole=whole)
            self._bindings.bind(
                field, value, lambda typed, _: type_over(entry, figure, None if typed is None else float(typed))
            )
        return field  # type: ignore[no-any-return]

    def take_back(self) -> None:
        """The program's figures again, all of this class."""
        edits = [type_over(self._entry, field, None) for field in self._changed()]

        def run(project: Project) -> Project:
            for edit in edits:
                project = edit.run(project)
            return project

        if edits:
            try_apply(self._session, Edit(edits[0].text, run))


def record_of(project: Project, key: Key) -> Record | None:
    """The class that holds a piece: its strips, else its fixing; None where nothing is chosen."""
    piece = project.piece_by_key.get(key)
    if piece is None:
        return None
    known = catalogue.of(project.catalogue)
    place = project.placement_by_piece.get(key)
    turned = place is not None and place.turned
    hanger = (piece.hanger_turned or piece.hanger) if turned else piece.hanger
    if hanger.kind == "strips":
        plan = hang(piece, turned=turned, catalogue=known).strips
        return known.strip_classes[hanger.strip_size or (plan.size if plan is not None else "medium")]
    return None if piece.hardware is None else known.fixings.get(piece.hardware.fixing)
