"""An empty project's questions: the wall's width and height, then the first frame.

Both are plain forms, no wizard: the fields stand together, Return goes to the next one.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

import msgspec
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.back_drawing import Back, BackDrawing
from composer.desktop.cards.card import Card, Title
from composer.desktop.cards.hanger_tiles import HangerTiles
from composer.desktop.cards.session import Session, shown_in, try_apply
from composer.desktop.field_kinds import LengthField, TextField, bare_unit
from composer.desktop.field_row import FieldRow, LinkButton, PushButton, Words
from composer.editing.creating import add_pieces, measure_wall
from composer.editing.quick_row import QuickRow, read_row
from composer.findings.measures import listed
from composer.findings.readiness import for_costing, for_hanging
from composer.hanging.points import hang
from composer.model import Frame, Hanger, HangerKind, Key, Piece, Project
from composer.model.project import USUAL_ALLOWANCE, USUAL_LIP
from composer.texts import say
from composer.units import BadQuantity, Length, Mm, show_length


class WallQuestions(QWidget):
    """How wide, how high; stands on the wall itself or in a card."""

    answered = Signal()

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._key = session, key
        metric = session.project.units == "metric"
        self.width_field = LengthField(say("How wide?"), bare="cm" if metric else "in", needed=True)
        self.height_field = LengthField(say("How high?"), bare="cm" if metric else "in", needed=True)
        self.width_field.set_placeholder(say("such as {length}", length="3.2 m" if metric else "10 ft 6 in"))
        self.height_field.set_placeholder(say("such as {length}", length="2.4 m" if metric else "8 ft"))
        self.width_field.returned.connect(self.height_field.setFocus)
        self.height_field.returned.connect(self._finish)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(8))
        column.addWidget(FieldRow((say("How wide?"), self.width_field)))
        column.addWidget(FieldRow((say("How high?"), self.height_field)))
        column.addWidget(Words(say("Type the smallest of two widths and three heights. Return goes on."), 12, "pencil"))
        self._go = PushButton(say("This is the wall"), strong=True)
        self._go.clicked.connect(self._finish)
        column.addWidget(self._go)

    def _finish(self, _: bool = False) -> None:
        for field in (self.width_field, self.height_field):
            if not field.commit() or field.value is None:
                if field.value is None and not field.wrong:
                    field.complain(
                        say("{name} Type a length such as 3.2 m or 10 ft 6 in.", name=field.accessibleName())
                    )
                field.setFocus()
                return
        width, height = self.width_field.value, self.height_field.value
        refusal = try_apply(self._session, measure_wall(self._key, width, height))
        if refusal:
            self.width_field.complain(refusal)
            return
        self.answered.emit()


class FirstFrame(Card):
    """The form of a new frame: width, height, how it hangs, drop; or the same as one line.

    Signals:
        drafted: width and height in mm as they stand, or None: the floor shows the outline to scale.
        added: the key of the piece that was added.
        wall_wanted: the wall's own card is asked for first.
    """

    drafted = Signal(object)
    added = Signal(str)
    wall_wanted = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        bare = bare_unit(session.project.units)
        self._title = Title()
        self.add_top(self._title)
        body = QWidget()
        column = QVBoxLayout(body)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(8))
        self.wall_first = LinkButton(say("The wall first: sofa, switches, outline, units"))
        self.wall_first.clicked.connect(self.wall_wanted)
        column.addWidget(self.wall_first)
        column.addWidget(Words(say("Width, height, and how it hangs."), 14, semibold=True))
        self.width_field = LengthField(say("Width"), bare=bare, needed=True)
        self.height_field = LengthField(say("Height"), bare=bare, needed=True)
        self.drop = LengthField(say("Drop"), bare=bare, zero=True)
        self.fields = (self.width_field, self.height_field, self.drop)
        column.addWidget(
            FieldRow((say("Width"), self.width_field), (say("Height"), self.height_field), (say("Drop"), self.drop))
        )
        self.name = TextField(say("Name"))
        self.name.set_placeholder(say("what it shows; may wait"))
        column.addWidget(FieldRow((say("Name"), self.name)))
        column.addWidget(Words(say("How it hangs"), 12, "pencil"))
        self.tiles = HangerTiles()
        self.tiles.chosen.connect(self._on_kind)
        column.addWidget(self.tiles)
        self.drawing = BackDrawing()
        self.drawing.show_back(None)
        column.addWidget(self.drawing)
        self._mirrored = Words(say("Left and right as you see them here. The wall gets them mirrored."), 12, "pencil")
        column.addWidget(self._mirrored)
        self._stages = [Words("", 12) for _ in range(3)]
        for line in self._stages:
            column.addWidget(line)
        row = QHBoxLayout()
        self._add_button = PushButton(say("Add it"), strong=True)
        self._another = PushButton(say("Add, then another"))
        self._add_button.clicked.connect(partial(self._on_add, again=False))
        self._another.clicked.connect(partial(self._on_add, again=True))
        row.addWidget(self._add_button)
        row.addWidget(self._another)
        row.addStretch(1)
        column.addLayout(row)
        self.quick = TextField(say("The same as one line"))
        example = "40 x 50 cm strips “boats”" if session.project.units == "metric" else "16 x 20 in strips “boats”"
        self.quick.set_placeholder(say("such as {row}", row=example))
        self.quick.returned.connect(self._on_quick)
        self.quick.edited.connect(self._show_quick)
        self._quick_row = FieldRow((say("Or in one line"), self.quick))
        column.addWidget(self._quick_row)
        self._reading = Words("", 12, "pencil")
        column.addWidget(self._reading)
        self.add_padded(body)
        self._active: str | None = None
        for field, name in ((self.width_field, None), (self.height_field, None), (self.drop, "drop")):
            field.edited.connect(self._draft)
            field.committed.connect(self._draft)
            field.entered.connect(partial(self._enter, name))
        for field, following in zip(self.fields, self.fields[1:], strict=False):
            field.returned.connect(following.setFocus)
        for last in (self.drop, self.name):
            last.returned.connect(partial(self._on_add, again=False))
        self._draft()

    def _enter(self, name: str | None) -> None:
        self._active = name
        self._draft()

    def _on_kind(self, _kind: str) -> None:
        self._draft()

    @property
    def _kind(self) -> HangerKind | None:
        return self.tiles.value  # type: ignore[return-value]  # the tiles are named by kind

    def _draft(self, _: Any = None) -> None:
        number = self._session.project.next_number
        first = not self._session.project.pieces
        heading = say("First frame") if first else say("New frame")
        self._title.show_title(heading, say("Measured on the back, outer edge to outer edge"), (number,))
        drops = self._kind not in ("strips", "ledge")
        box = self.drop.parentWidget()
        if box is not None:
            box.setVisible(drops)
        width, height = self.width_field.typed(), self.height_field.typed()
        piece = self._made("p1", number) if width is not None and height is not None else None
        for button in (self._add_button, self._another):
            button.setEnabled(piece is not None)
        self._mirrored.setVisible(piece is not None and self._kind not in (None, "sawtooth", "ledge"))
        if piece is None:
            self.drawing.show_back(None)
            self.drafted.emit(None)
        else:
            self.drawing.show_back(
                Back(piece.frame, piece.hanger, hang(piece), shown_in(self._session.project), self._active)
            )
            self.drafted.emit(piece.size_mm())
        self._show_stages(piece)

    def _show_stages(self, piece: Piece | None) -> None:
        lacking = (
            listed(("width", "height")) if piece is None else "",
            listed(for_hanging(piece)) if piece else "",
            listed(for_costing(piece)) if piece else "",
        )
        names = (say("can be placed"), say("can be hung"), say("can be costed"))
        for line, name, missing in zip(self._stages, names, lacking, strict=True):
            done = piece is not None and not missing
            line.set_shade("ok" if done else "pencil")
            if done:
                line.setText(say("✓ {stage}", stage=name))
            else:
                line.setText(say("{stage}: {missing}, later", stage=name, missing=missing) if missing else name)

    def _made(self, key: Key, number: int) -> Piece:
        units = self._session.project.units
        frame = Frame(
            width=self.width_field.typed(),
            height=self.height_field.typed(),
            lip=Length.from_text(USUAL_LIP[units]),
            allowance=Length.from_text(USUAL_ALLOWANCE[units]),
        )
        name = str(self.name.typed() or "").strip() or say("Piece {number}", number=number)
        drop = None if self._kind in ("strips", "ledge") else self.drop.typed()
        return Piece(key=key, number=number, name=name, frame=frame, hanger=Hanger(kind=self._kind, drop=drop))

    def _on_add(self, _: bool = False, *, again: bool = False) -> None:
        for field in (*self.fields, self.name):
            if not field.commit():
                field.setFocus()
                return
        if self.width_field.value is None or self.height_field.value is None:
            return
        # The piece as typed now: an edit must not look at the fields when it is run again.
        typed, named = self._made("p1", 1), bool(str(self.name.value or "").strip())

        def make(key: Key, number: int) -> Piece:
            name = typed.name if named else say("Piece {number}", number=number)
            return msgspec.structs.replace(typed, key=key, number=number, name=name)

        self._add_piece(make, again=again)

    def _add_piece(self, make: Callable[[Key, int], Piece], *, again: bool) -> None:
        key = f"p{self._session.project.next_key}"
        next_field = self.quick if self.quick.hasFocus() else self.width_field
        refusal = try_apply(self._session, add_pieces([make]))
        if refusal:
            self.width_field.complain(refusal)
            return
        for field in (*self.fields, self.name, self.quick):
            field.set_value(None)
        self._reading.setText("")
        self._draft()
        self.added.emit("" if again else key)
        next_field.setFocus()

    def _bare_of_row(self) -> str:
        return "cm" if self._session.project.units == "metric" else "in"

    def _show_quick(self) -> None:
        typed = self.quick.lineEdit().text()
        try:
            row = read_row(typed, bare=self._bare_of_row()) if typed.strip() else None
        except BadQuantity:
            row = None
        self._reading.setText("" if row is None else read_back(row, self._session.project))

    def _on_quick(self) -> None:
        typed = str(self.quick.value or "")
        try:
            row = read_row(typed, bare=self._bare_of_row())
        except BadQuantity as refused:
            self.quick.complain(str(refused))
            return
        units = self._session.project.units

        def make(key: Key, number: int) -> Piece:
            frame = msgspec.structs.replace(
                row.frame, lip=Length.from_text(USUAL_LIP[units]), allowance=Length.from_text(USUAL_ALLOWANCE[units])
            )
            name = row.name or say("Piece {number}", number=number)
            return Piece(key=key, number=number, name=name, frame=frame, hanger=row.hanger, weight=row.weight)

        self._add_piece(make, again=True)


def read_back(row: QuickRow, project: Project) -> str:
    """How a quick row was understood, so that a wrong unit is seen before it is added."""
    style = shown_in(project)
    size = say(
        "Read as {width} by {height}",
        width=show_length(Mm(row.width.mm), style),
        height=show_length(Mm(row.height.mm), style),
    )
    if row.shifted:
        return say("{reading}: as centimetres it would be longer than 3 m.", reading=size)
    return say("{reading}.", reading=size)
