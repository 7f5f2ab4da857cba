"""How a piece hangs: the kind, the measures it needs, the back to scale, and the working."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.catalogue import catalogue
from composer.catalogue.names import hanger_name, name_of
from composer.desktop.cards.back_drawing import Back, BackDrawing
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.card import Working
from composer.desktop.cards.fixing_offers import FixingOffers
from composer.desktop.cards.hanger_tiles import HangerTiles
from composer.desktop.cards.hanging_words import advice_on
from composer.desktop.cards.packet_figures import PacketFigures
from composer.desktop.cards.session import Session, merge_key, shown_in, try_apply
from composer.desktop.cards.what_if import WhatIf
from composer.desktop.field_kinds import ChoiceField, LengthField, NumberField, bare_unit
from composer.desktop.field_row import FieldRow, Words
from composer.editing.edits import Edit, EditRefused
from composer.editing.piece_edits import choose_fixing
from composer.editing.record_edits import change_hanger, change_piece
from composer.geometry.rectangle import Rectangle
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging, WorkingLine
from composer.hanging.statics import statics_working, wire_statics
from composer.hanging.weight import weight_of
from composer.hanging.working import in_words, on_the_floor, on_the_wall
from composer.model import Hanger, HardwareChoice, Key, Piece
from composer.texts import N_, say
from composer.units import Length

MEASURES: dict[str, tuple[str, ...]] = {
    "wire": ("drop", "wire", "spacing", "ring_drop", "ring_drop_right", "hooks", "hook_spacing", "offset"),
    "d-rings": ("drop", "drop_right", "spacing", "offset"),
    "keyholes": ("drop", "drop_right", "spacing", "offset"),
    "sawtooth": ("drop", "offset"),
    "cleat": ("drop", "spacing", "offset"),
    "strips": ("strip_size", "strip_pairs", "strip_half"),
    "ledge": (),
}
"""The measures of the model that count for each kind of hanger, in the order in which one takes them."""

_NAMES = {
    "drop": N_("Drop"),
    "spacing": N_("Spacing"),
    "wire": N_("Wire, ring to ring"),
    "ring_drop": N_("Rings' drop"),
    "hook_spacing": N_("Between the hooks"),
    "offset": N_("Off the middle"),
}
_PAIRED_NAMES = {
    "drop": N_("Drop, right here"),
    "drop_right": N_("Drop, left here"),
    "ring_drop": N_("Ring, right here"),
    "ring_drop_right": N_("Ring, left here"),
}
"""The model's left is as seen from the front; on the back it lies at the right."""

_HOW = {
    "wire": N_("Drop: from the frame's top edge down to the wire, pulled up tight as the hooks will."),
    "d-rings": N_("Drop: from the frame's top edge down to the upper inner edge of the rings."),
    "keyholes": N_("Drop: from the frame's top edge down to where the screw will bear, the slot's upper end."),
    "sawtooth": N_("Drop: from the frame's top edge down to the notch that will bear."),
    "cleat": N_("Drop: from the frame's top edge down to the bearing edge of the wall rail."),
    "strips": N_("Strips sit on the moulding's back: its face and lip decide whether they fit."),
    "ledge": N_("The frame stands on the ledge: nothing to measure on its back."),
}


class HangingSection:
    """The section of a piece card; built into a column when it is first opened."""

    def __init__(self, session: Session, key: Key) -> None:
        self._session, self._key = session, key
        self._bindings = Bindings(session)
        self._built = False
        self._kind: str | None = None
        self._rows: list[QWidget] = []
        self._active: str | None = None

    @property
    def _piece(self) -> Piece:
        return self._session.project.piece_by_key[self._key]

    @property
    def _turned(self) -> bool:
        place = self._session.project.placement_by_piece.get(self._key)
        return place is not None and place.turned

    @property
    def _hanger(self) -> Hanger:
        piece = self._piece
        return (piece.hanger_turned or Hanger()) if self._turned else piece.hanger

    def _hanging(self) -> PieceHanging:
        notes = self._session.project.catalogue
        return hang(self._piece, turned=self._turned, catalogue=catalogue.of(notes))

    def build(self, column: QVBoxLayout) -> None:
        """Puts tiles, fields, drawing and working into the column."""
        self.tiles = HangerTiles()
        self.tiles.chosen.connect(self._choose_kind)
        column.addWidget(self.tiles)
        self._fields = QVBoxLayout()
        self._fields.setSpacing(6)
        column.addLayout(self._fields)
        self.drawing = BackDrawing()
        column.addWidget(self.drawing)
        self.mirrored = Words(say("Left and right as you see them here. The wall gets them mirrored."), 12, "pencil")
        column.addWidget(self.mirrored)
        self.how = Words("", 12, "pencil")
        column.addWidget(self.how)
        self.working = Working()
        column.addWidget(self.working)
        self.offers = FixingOffers(self._session, self._key)
        column.addWidget(self.offers)
        self.figures = PacketFigures(self._session, self._key)
        column.addWidget(self.figures)
        self.what_if = WhatIf(self._session, self._key)
        column.addWidget(self.what_if)
        self.advice = Words("", 12, "warn")
        column.addWidget(self.advice)
        self._built = True
        self.refresh()

    def refresh(self) -> None:
        """Shows the project as it is now."""
        if not self._built or self._key not in self._session.project.piece_by_key:
            return
        kind = self._hanger.kind
        self.tiles.set_value(kind)
        if kind != self._kind or not self._rows:
            self._kind = kind
            self._rebuild_fields()
        self._bindings.refresh()
        self._draw()
        project = self._session.project
        hanging = self._hanging()
        place = project.placement_by_piece.get(self._key)
        above = on_the_floor(hanging)
        if place is not None:
            above = on_the_wall(
                hanging,
                Rectangle(place.left, place.bottom, place.left + hanging.width_mm, place.bottom + hanging.height_mm),
            )
        lines = (*hanging.working, *above, *self._pull())
        self.working.show_lines(in_words(lines, shown_in(project)))
        self.how.setText(say(_HOW[kind]) if kind else say("Turn the frame over and choose what you see."))
        self.advice.setText(advice_on(kind))
        self.advice.setVisible(bool(self.advice.text()))
        self.offers.refresh()
        self.figures.refresh()
        self.what_if.refresh()
        self.mirrored.setVisible(kind not in (None, "ledge", "sawtooth"))

    def _draw(self) -> None:
        if not self._built:
            return
        hanger = self._hanger
        self.drawing.show_back(
            Back(self._piece.frame, hanger, self._hanging(), shown_in(self._session.project), self._active)
        )

    def _choose_kind(self, kind: str) -> None:
        text = say("Piece {number}: hangs by {hanger}", number=self._piece.number, hanger=hanger_name(kind))
        try_apply(self._session, change_hanger(self._key, text, turned=self._turned, kind=kind))
        self.tiles.set_value(self._hanger.kind)

    def _rebuild_fields(self) -> None:
        for row in self._rows:
            self._fields.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows, self._bindings = [], Bindings(self._session)
        measures = MEASURES.get(self._kind or "", ())
        lengths = [name for name in measures if name not in ("hooks", "strip_size", "strip_pairs", "strip_half")]
        if lengths:
            self._add_row([self._length(name) for name in lengths])
        if "hooks" in measures:
            hooks = ChoiceField(say("Hooks"), [(1, say("one hook")), (2, say("two hooks"))])
            self._bind(hooks, "hooks", say("Hooks"))
            known = catalogue.of(self._session.project.catalogue).wires
            wires = [(None, say("not known")), *((key, name_of(record)) for key, record in known.items())]
            wire = ChoiceField(say("Kind of wire"), wires)
            self._bind(wire, "wire_class", say("Kind of wire"))
            self._add_row([(say("Hooks"), hooks), (say("Kind of wire"), wire)])
        if self._kind == "strips":
            self._add_row(self._strip_choices())
        if self._kind not in (None, "strips", "ledge"):
            self._add_row(self._fixing())

    def _pull(self) -> tuple[WorkingLine, ...]:
        """How the pull in a loaded wire comes about, where the piece is weighed or estimated."""
        known = catalogue.of(self._session.project.catalogue)
        found, weight = wire_statics(self._piece, known, turned=self._turned), weight_of(self._piece, known)
        return () if found is None or weight is None else statics_working(found, weight.high)

    def _add_row(self, fields: list[tuple[str, QWidget]]) -> None:
        row = FieldRow(*fields)
        self._fields.addWidget(row)
        self._rows.append(row)

    def _length(self, name: str) -> tuple[str, QWidget]:
        paired = self._kind in ("d-rings", "keyholes") or name.startswith("ring_drop")
        words = say(_PAIRED_NAMES[name] if paired and name in _PAIRED_NAMES else _NAMES[name])
        mirrored = name == "offset"
        if mirrored:
            words = say("Off the middle, + right here")
        zero = name in ("drop", "drop_right", "ring_drop", "ring_drop_right", "offset")
        field = LengthField(words, bare=bare_unit(self._session.project.units), zero=zero, minus=mirrored)
        if name in ("drop_right", "ring_drop_right"):
            field.set_placeholder(say("the same"))
        self._bind(field, name, words, mirror=mirrored)
        field.entered.connect(partial(self._set_active, name))
        field.left.connect(partial(self._set_active, None))
        return words, field

    def _set_active(self, name: str | None) -> None:
        self._active = name
        self._draw()

    def _bind(self, field: Any, name: str, words: str, *, mirror: bool = False) -> None:
        def get() -> Any:
            value = getattr(self._hanger, name)
            return mirrored(value) if mirror else value

        def make(value: Any, gesture: int) -> Edit:
            text = say("Piece {number}: {measure}", number=self._piece.number, measure=words)
            fields = {name: mirrored(value) if mirror else value}
            key = merge_key(f"hanger-{name}", self._key, gesture)
            return change_hanger(self._key, text, key, turned=self._turned, **fields)

        self._bindings.bind(field, get, make)

    def _strip_choices(self) -> list[tuple[str, QWidget]]:
        sizes = [(None, say("as fits")), ("small", say("small")), ("medium", say("medium")), ("large", say("large"))]
        size = ChoiceField(say("Size"), sizes)
        pairs = ChoiceField(say("Pairs"), [(None, say("as needed")), (2, say("two pairs")), (4, say("four pairs"))])
        half = ChoiceField(say("Width"), [(False, say("whole")), (True, say("cut in half"))])
        self._bind(size, "strip_size", say("Size of strips"))
        self._bind(pairs, "strip_pairs", say("Pairs of strips"))
        self._bind(half, "strip_half", say("Width of strips"))
        return [(say("Size"), size), (say("Pairs"), pairs), (say("Width"), half)]

    def _fixing(self) -> list[tuple[str, QWidget]]:
        known = catalogue.of(self._session.project.catalogue).fixings
        choices = [(None, say("not chosen yet")), *((key, name_of(record)) for key, record in known.items())]
        fixing = ChoiceField(say("Fixing in the wall"), choices)
        offset = LengthField(say("Seat up to hole"), bare=bare_unit(self._session.project.units), zero=True, minus=True)

        def chosen() -> Any:
            return None if self._piece.hardware is None else self._piece.hardware.fixing

        def choose(value: Any, gesture: int) -> Edit:
            # Its offset is pinned with it, so that a hole already planned stays where it is.
            edit = choose_fixing(self._session.project, self._key, value or "")
            return dataclasses.replace(edit, merge=merge_key("fixing", self._key, gesture))

        def own_offset() -> Any:
            return None if self._piece.hardware is None else self._piece.hardware.hook_offset

        def set_offset(value: Any, gesture: int) -> Edit:
            import msgspec

            def change(piece: Piece) -> HardwareChoice:
                return msgspec.structs.replace(_chosen(piece), hook_offset=value)

            return self._change_hardware(say("seat up to hole"), change, "hook-offset", gesture)

        count_field = NumberField(say("How many"), least=1, most=99, whole=True)

        def set_count(value: Any, gesture: int) -> Edit:
            import msgspec

            def change(piece: Piece) -> HardwareChoice:
                return msgspec.structs.replace(_chosen(piece), count=int(value or 1))

            return self._change_hardware(say("how many fixings"), change, "fixing-count", gesture)

        self._bindings.bind(
            count_field, lambda: None if self._piece.hardware is None else self._piece.hardware.count, set_count
        )
        self._bindings.bind(fixing, chosen, choose)
        self._bindings.bind(offset, own_offset, set_offset)
        offset.set_placeholder(say("as its class"))
        return [(say("Fixing in the wall"), fixing), (say("How many"), count_field), (say("Seat up to hole"), offset)]

    def _change_hardware(
        self, what: str, make: Callable[[Piece], HardwareChoice | None], family: str, gesture: int
    ) -> Edit:
        import msgspec

        text = say("Piece {number}: {measure}", number=self._piece.number, measure=what)
        key = merge_key(family, self._key, gesture)
        return change_piece(self._key, text, lambda piece: msgspec.structs.replace(piece, hardware=make(piece)), key)


def _chosen(piece: Piece) -> HardwareChoice:
    """What holds the piece; how many there are and where their hole is mean nothing before it is chosen."""
    if piece.hardware is None:
        raise EditRefused(say("Choose the fixing of piece {number} first.", number=piece.number))
    return piece.hardware


def mirrored(offset: Length | None) -> Length | None:
    """An offset as seen from the other side: right of the middle becomes left of it."""
    return None if offset is None else Length.of_mm(-offset.exact_mm, offset.unit)
