"""The mat of a piece."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

import msgspec
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QVBoxLayout

from composer.desktop.cards.bound import add_row
from composer.desktop.cards.card import Working
from composer.desktop.cards.mat_drawing import MatBlock
from composer.desktop.cards.mat_layers import MatLayers
from composer.desktop.cards.mat_working import mat_working
from composer.desktop.cards.piece_section import PieceSection
from composer.desktop.cards.session import Session, merge_key, shown_in
from composer.desktop.cards.stack_drawing import StackBlock
from composer.desktop.field_kinds import (
    CheckField,
    ChoiceField,
    LengthField,
    NumberField,
)
from composer.desktop.fields import EntryField
from composer.editing.edits import Edit, EditRefused
from composer.editing.record_edits import change_piece
from composer.model import CustomBorders, EvenBorders, Key, Mat, Piece, Project, RatioBorders, WeightedBorders
from composer.prints.fitting import GLAZED, filling
from composer.prints.plan import plan
from composer.texts import say
from composer.units import Length


class MatSection(PieceSection):
    """The mat as typed, drawn to scale while it is typed, and what lies behind the lip.

    Args:
        picture_of: gives what shows of a piece's picture.
    """

    def __init__(self, session: Session, key: Key, picture_of: Callable[[Key], QPixmap | None] | None = None) -> None:
        super().__init__(session, key)
        self._picture_of = picture_of
        self._typing: tuple[str, EntryField, Callable[[Any, int], Edit]] | None = None

    def build(self, column: QVBoxLayout) -> None:
        """With or without a mat; window, overlap and borders."""
        has = CheckField(say("This piece has a mat"))

        def change_has(value: Any, gesture: int) -> Edit:
            def change(piece: Piece) -> Piece:
                return msgspec.structs.replace(piece, mat=Mat() if value else None)

            return change_piece(self._key, self._text(say("mat")), change, merge_key("mat", self._key, gesture))

        self._bindings.bind(has, lambda: self._piece.mat is not None, change_has)
        column.addWidget(has)
        fields = [
            self._mat_length("window_width", say("Window width")),
            self._mat_length("window_height", say("Window height")),
            self._mat_length("overlap", say("Overlap"), minus=True),
        ]
        self._rows = [add_row(column, *fields)]
        kinds = [
            (EvenBorders, say("even")),
            (WeightedBorders, say("bottom heavier by")),
            (RatioBorders, say("bottom to top")),
            (CustomBorders, say("each its own")),
        ]
        self._kind = ChoiceField(say("Borders"), kinds)
        self._bindings.bind(self._kind, lambda: type(self._borders), self._change_kind)
        self._border = LengthField(say("Border"), bare=self._bare)
        self._bind_typed(self._border, "border", lambda: getattr(self._borders, "border", None), self._even)
        self._extra = LengthField(say("Heavier by"), bare=self._bare, needed=True)
        self._bind_typed(self._extra, "extra", lambda: getattr(self._borders, "extra", None), self._weighted)
        self._ratio = NumberField(say("Bottom to top"), least=1, most=4)
        self._bind_typed(self._ratio, "bottom", lambda: getattr(self._borders, "bottom_to_top", None), self._by_ratio)
        self._rows.append(
            add_row(
                column,
                (say("Borders"), self._kind),
                (say("Border"), self._border),
                (say("Heavier by"), self._extra),
                (say("Bottom to top"), self._ratio),
            )
        )
        self._sides = {name: LengthField(words, bare=self._bare, needed=True) for name, words in _sides()}
        for name, field in self._sides.items():
            self._bind_typed(field, name, partial(self._side, name), self._one_side(name))
        self._rows.append(add_row(column, *((field.accessibleName(), field) for field in self._sides.values())))
        self.drawing = MatBlock()
        column.addWidget(self.drawing)
        self._working = Working()
        column.addWidget(self._working)
        self._layers = MatLayers(self._session, self._key)
        column.addWidget(self._layers)
        bevel = CheckField(say("Cut with a bevel, 45°"))
        self._bindings.bind(
            bevel, lambda: bool(self._piece.mat and self._piece.mat.bevel), self._set("bevel", say("bevel"))
        )
        column.addWidget(bevel)
        self._bevel = bevel
        self.stack = StackBlock()
        column.addWidget(self.stack)
        self.refresh()

    def _bind_typed(
        self, field: EntryField, name: str, get: Callable[[], Any], make: Callable[[Any, int], Edit]
    ) -> None:
        """A field whose drawing follows while it is being typed."""
        self._bindings.bind(field, get, make)
        field.edited.connect(partial(self._on_typed, name, field, make))
        field.left.connect(self._on_left)

    def _on_typed(self, name: str, field: EntryField, make: Callable[[Any, int], Edit]) -> None:
        self._typing = (name, field, make)
        self._draw()

    def _on_left(self) -> None:
        self._typing = None
        self._draw()

    def _draft(self) -> Project:
        """The project as it would be with what is being typed."""
        project = self._session.project
        if self._typing is None or not self._typing[1].is_pending:
            return project
        _, field, make = self._typing
        try:
            return make(field.typed(), 0).run(project)
        except EditRefused:
            return project

    def _draw(self) -> None:
        """Drawing and sums as everything stands, typed or committed."""
        project = self._draft()
        piece = project.piece_by_key.get(self._key)
        if piece is None:
            return
        planned, style = plan(project, piece), shown_in(project)
        picture = None if self._picture_of is None else self._picture_of(self._key)
        typing = "" if self._typing is None else self._typing[0]
        self.drawing.show_plan(project, planned, picture, style, typing)
        self._working.show_lines(mat_working(planned, style))
        filled = piece.mat is not None or piece.current_use is not None
        self.stack.setVisible(filled)
        if filled:
            touches = piece.mat is None and piece.frame.glazing in GLAZED
            self.stack.show_filling(filling(project, planned), piece.frame, style, touches=touches)

    @property
    def _borders(self) -> Any:
        return EvenBorders() if self._piece.mat is None else self._piece.mat.borders

    def refresh(self) -> None:
        """Only the fields that count for the chosen borders are shown."""
        super().refresh()
        if not hasattr(self, "_bevel"):
            return
        has = self._piece.mat is not None
        for row in self._rows:
            row.setVisible(has)
        self._bevel.setVisible(has)
        self._layers.setVisible(has)
        self._layers.refresh()
        shown = type(self._borders)
        for field, kind in ((self._border, EvenBorders), (self._extra, WeightedBorders), (self._ratio, RatioBorders)):
            parent = field.parentWidget()
            if parent is not None:
                parent.setVisible(shown is kind)
        self._rows[2].setVisible(has and shown is CustomBorders)
        self._draw()

    def _mat_length(self, name: str, words: str, *, minus: bool = False) -> tuple[str, Any]:
        field = LengthField(words, bare=self._bare, zero=minus, minus=minus)
        self._bind_typed(
            field,
            name,
            lambda: None if self._piece.mat is None else getattr(self._piece.mat, name),
            self._set(name, words),
        )
        return words, field

    def _set(self, name: str, words: str) -> Any:
        def make(value: Any, gesture: int) -> Edit:
            def change(piece: Piece) -> Piece:
                mat = msgspec.structs.replace(piece.mat or Mat(), **{name: value})
                return msgspec.structs.replace(piece, mat=mat)

            return change_piece(self._key, self._text(words), change, merge_key(f"mat-{name}", self._key, gesture))

        return make

    def _change_kind(self, kind: Any, gesture: int) -> Edit:
        usual = Length.from_text("10 mm" if self._bare == "mm" else "1/2 in")
        wide = Length.from_text("40 mm" if self._bare == "mm" else "1 1/2 in")
        made: dict[Any, Any] = {
            EvenBorders: lambda: EvenBorders(),
            WeightedBorders: lambda: WeightedBorders(extra=usual),
            RatioBorders: lambda: RatioBorders(bottom_to_top=1.25),
            CustomBorders: lambda: CustomBorders(top=wide, bottom=wide, left=wide, right=wide),
        }
        edit: Edit = self._set("borders", say("borders"))(made[kind](), gesture)
        return edit

    def _even(self, value: Any, gesture: int) -> Edit:
        edit: Edit = self._set("borders", say("border"))(EvenBorders(border=value), gesture)
        return edit

    def _weighted(self, value: Any, gesture: int) -> Edit:
        edit: Edit = self._set("borders", say("border"))(WeightedBorders(extra=value), gesture)
        return edit

    def _by_ratio(self, value: Any, gesture: int) -> Edit:
        edit: Edit = self._set("borders", say("border"))(RatioBorders(bottom_to_top=float(value or 1)), gesture)
        return edit

    def _side(self, name: str) -> Any:
        return getattr(self._borders, name, None)

    def _one_side(self, name: str) -> Any:
        def make(value: Any, gesture: int) -> Edit:
            borders = msgspec.structs.replace(self._borders, **{name: value})
            edit: Edit = self._set("borders", say("border"))(borders, gesture)
            return edit

        return make


def _sides() -> list[tuple[str, str]]:
    return [("top", say("Top")), ("bottom", say("Bottom")), ("left", say("Left")), ("right", say("Right"))]
