"""Where a piece really hangs: what a tape says of its nails, typed by hand."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_measures import LengthField, bare_unit
from composer.desktop.field_row import FieldRow, PushButton, Words
from composer.desktop.units_shown import number
from composer.hangingday.noting import note_measured, spots
from composer.model import Key
from composer.paper.template_subject import datum_of
from composer.texts import say


class MeasuredRow(QWidget):
    """Two fields a nail, its distance from the corner and its height above the floor; empty is as planned.

    Signals:
        said: empty once it is noted, else the sentence why not.
    """

    said = Signal(str)

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self.key = session, key
        project = session.project
        piece, style, bare = project.piece_by_key[key], project.length_style, bare_unit(project.units)
        datum = datum_of(project, project.wall_by_key[project.placement_by_piece[key].wall])
        self._level = datum.level_line
        column = QVBoxLayout(self)
        column.setContentsMargins(look.px(24), 0, 0, look.px(8))
        column.setSpacing(look.px(4))
        column.addWidget(
            Words(say("{number} {name}: what your tape says", number=piece.number, name=piece.name), 14, semibold=True)
        )
        self.fields: list[tuple[LengthField, LengthField]] = []
        for place, spot in enumerate(spots(project, key), 1):
            across = LengthField(
                say("Nail {number} {side}", number=place, side=datum.side_words()), bare=bare, zero=True
            )
            up = LengthField(say("Nail {number} above floor", number=place), bare=bare, zero=True)
            across.set_placeholder(number(spot.distance_mm, style))
            up.set_placeholder(number(spot.height_mm + self._level, style))
            column.addWidget(FieldRow((across.accessibleName(), across), (up.accessibleName(), up)))
            self.fields.append((across, up))
        row = QHBoxLayout()
        self.note = PushButton(say("Note it"))
        self.note.clicked.connect(self._on_note)
        row.addWidget(self.note)
        row.addStretch(1)
        column.addLayout(row)

    def _on_note(self, _: bool = False) -> None:
        if not all(field.commit() for pair in self.fields for field in pair):
            return
        measured = [
            (
                None if across.value is None else float(across.value.mm),
                None if up.value is None else float(up.value.mm) - self._level,
            )
            for across, up in self.fields
        ]
        if all(pair == (None, None) for pair in measured):
            self.said.emit(say("Type at least one figure; an empty field is as planned."))
            return
        now = datetime.now().astimezone()
        self.said.emit(try_apply(self._session, note_measured(self._session.project, self.key, measured, now)))
