"""The mat of a piece."""

from __future__ import annotations

from functools import partial
from typing import Any

import msgspec
from PySide6.QtWidgets import QVBoxLayout

from composer.desktop.cards.bound import add_row
from composer.desktop.cards.card import Working
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
from composer.hanging.working import WrittenLine
from composer.model import CustomBorders, EvenBorders, Key, Mat, Piece, Project, RatioBorders, WeightedBorders
from composer.prints.plan import plan
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
        self._working.show_lines(mat_working(self._session.project, self._key) if has else ())
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
    piece, style = project.piece_by_key[key], shown_in(project)
    if piece.mat is None:
        return say("No mat.")
    planned = plan(project, piece)
    if planned.mat is None:
        if planned.mat_refused is not None and planned.mat_refused.why == "no-board":
            return say("This window leaves no board around it.")
        return say("With a mat; its window is not fixed yet.")
    width, height = (number(side, style) for side in planned.mat.window_mm)
    four = planned.mat.borders
    words = say("Window {width} × {height}", width=width, height=height)
    if len({round(side, 3) for side in (four.top, four.bottom, four.left, four.right)}) == 1:
        return say("{words}, borders {border}.", words=words, border=number(four.top, style))
    return say(
        "{words}, borders {sides} beside, {top} above, {bottom} below.",
        words=words,
        sides=number(four.left, style),
        top=number(four.top, style),
        bottom=number(four.bottom, style),
    )


def mat_working(project: Project, key: Key) -> list[WrittenLine]:
    """How the mat comes about: board, window, borders, print."""
    planned, style = plan(project, project.piece_by_key[key]), shown_in(project)
    mat = planned.mat
    if mat is None:
        return []

    def size(pair: tuple[float, float]) -> str:
        return say("{width} × {height}", width=number(pair[0], style), height=number(pair[1], style))

    four = mat.borders
    borders = " / ".join(number(side, style) for side in (four.top, four.left, four.bottom, four.right))
    return [
        WrittenLine(say("board"), say("as the glass"), size(mat.outer_mm), (), say("Outside, to be cut first.")),
        WrittenLine(
            say("window"),
            say("what shows"),
            size(mat.window_mm),
            (),
            say("The small opening; a bevel widens it to the front."),
        ),
        WrittenLine(
            say("borders"),
            say("top / left / bottom / right"),
            borders,
            (),
            say("From the board's edges to the window."),
        ),
        WrittenLine(
            say("print"),
            say("window + 2 × {overlap}", overlap=number(mat.overlap_mm, style)),
            size(mat.print_mm),
            (),
            say("The mat covers the overlap on each side; a minus lets the print float free."),
        ),
    ]
