"""The mat of a piece."""

from __future__ import annotations

from functools import partial
from typing import Any

import msgspec
from PySide6.QtWidgets import QVBoxLayout

from composer.desktop.cards.bound import add_row
from composer.desktop.cards.mat_layers import MatLayers
from composer.desktop.cards.piece_section import PieceSection
from composer.desktop.cards.session import merge_key, shown_in
from composer.desktop.field_kinds import (
    CheckField,
    ChoiceField,
    LengthField,
    NumberField,
)
from composer.desktop.units_shown import number
from composer.editing.edits import Edit
from composer.editing.record_edits import change_piece
from composer.model import CustomBorders, EvenBorders, Key, Mat, Piece, Project, RatioBorders, WeightedBorders
from composer.texts import say
from composer.units import Length


class MatSection(PieceSection):
    """The mat as typed; cutting lists and previews follow when the print step is built."""

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
        self._bindings.bind(self._border, lambda: getattr(self._borders, "border", None), self._even)
        self._extra = LengthField(say("Heavier by"), bare=self._bare, needed=True)
        self._bindings.bind(self._extra, lambda: getattr(self._borders, "extra", None), self._weighted)
        self._ratio = NumberField(say("Bottom to top"), least=1, most=4)
        self._bindings.bind(self._ratio, lambda: getattr(self._borders, "bottom_to_top", None), self._by_ratio)
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
            self._bindings.bind(field, partial(self._side, name), self._one_side(name))
        self._rows.append(add_row(column, *((field.accessibleName(), field) for field in self._sides.values())))
        self._layers = MatLayers(self._session, self._key)
        column.addWidget(self._layers)
        bevel = CheckField(say("Cut with a bevel, 45°"))
        self._bindings.bind(
            bevel, lambda: bool(self._piece.mat and self._piece.mat.bevel), self._set("bevel", say("bevel"))
        )
        column.addWidget(bevel)
        self._bevel = bevel
        self.refresh()

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

    def _mat_length(self, name: str, words: str, *, minus: bool = False) -> tuple[str, Any]:
        field = LengthField(words, bare=self._bare, zero=minus, minus=minus)
        self._bindings.bind(
            field, lambda: None if self._piece.mat is None else getattr(self._piece.mat, name), self._set(name, words)
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


def mat_sentence(project: Project, key: Key) -> str:
    """The mat in one sentence."""
    mat, style = project.piece_by_key[key].mat, shown_in(project)
    if mat is None:
        return say("No mat.")
    if mat.window_width is not None and mat.window_height is not None:
        width, height = (number(side.mm, style) for side in (mat.window_width, mat.window_height))
        return say("Window {width} × {height}.", width=width, height=height)
    return say("With a mat; its window is not fixed yet.")
