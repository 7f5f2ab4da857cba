"""Frame, picture, mat and cost of a piece: every value of the model, and one sentence each."""

from __future__ import annotations

from functools import partial
from typing import Any

import msgspec
from PySide6.QtWidgets import QVBoxLayout

from composer.catalogue import catalogue
from composer.catalogue.names import name_of
from composer.desktop.cards.bound import Bindings, add_row
from composer.desktop.cards.session import Session, merge_key, shown_in
from composer.desktop.field_kinds import (
    CheckField,
    ChoiceField,
    LengthField,
    MassField,
    MoneyField,
    NoteField,
    NumberField,
    TextField,
    bare_unit,
    other_unit,
)
from composer.desktop.field_row import Words
from composer.desktop.units_shown import number
from composer.editing.edits import Edit
from composer.editing.record_edits import change_frame, change_piece
from composer.hanging.weight import weight_of
from composer.model import CustomBorders, EvenBorders, Key, Mat, Piece, Project, RatioBorders, WeightedBorders
from composer.texts import N_, say
from composer.units import Length, Mm, show_length, show_mass


class PieceSection:
    """What the four sections share: the piece, its fields, and how a value becomes an edit."""

    def __init__(self, session: Session, key: Key) -> None:
        self._session, self._key = session, key
        self._bindings = Bindings(session)

    @property
    def _piece(self) -> Piece:
        return self._session.project.piece_by_key[self._key]

    @property
    def _bare(self) -> str:
        return bare_unit(self._session.project.units)

    def refresh(self) -> None:
        """Shows the project as it is now."""
        if self._key in self._session.project.piece_by_key:
            self._bindings.refresh()

    def _text(self, what: str) -> str:
        return say("Piece {number}: {measure}", number=self._piece.number, measure=what)

    def _bind_frame(self, field: Any, name: str, what: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            return change_frame(
                self._key, self._text(what), merge_key(f"frame-{name}", self._key, gesture), **{name: value}
            )

        self._bindings.bind(field, lambda: getattr(self._piece.frame, name), make)
        return what, field

    def _bind_piece(self, field: Any, name: str, what: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            def change(piece: Piece) -> Piece:
                return msgspec.structs.replace(piece, **{name: value})

            return change_piece(self._key, self._text(what), change, merge_key(f"piece-{name}", self._key, gesture))

        self._bindings.bind(field, lambda: getattr(self._piece, name), make)
        return what, field

    def _length(self, name: str, what: str, *, needed: bool = False, zero: bool = False) -> tuple[str, Any]:
        return self._bind_frame(LengthField(what, bare=self._bare, needed=needed, zero=zero), name, what)


_GLAZING = (
    ("unknown", N_("not known")),
    ("glass", N_("glass")),
    ("acrylic", N_("acrylic")),
    ("styrene", N_("styrene")),
    ("none", N_("none")),
)
_STAGES = (
    (None, N_("not noted")),
    ("to-measure", N_("to measure")),
    ("print-ordered", N_("print ordered")),
    ("print-here", N_("print here")),
    ("framed", N_("framed")),
    ("ready", N_("ready")),
)


class FrameSection(PieceSection):
    """The frame in framers' terms, its weight, its condition."""

    def build(self, column: QVBoxLayout) -> None:
        """All fields, the ones needed first on top."""
        known = catalogue.of(self._session.project.catalogue)
        add_row(column, self._bind_piece(TextField(say("Name"), needed=True), "name", say("Name")))
        add_row(
            column,
            self._length("width", say("Width"), needed=True),
            self._length("height", say("Height"), needed=True),
            self._length("depth", say("Depth")),
        )
        self._other = Words("", 12, "pencil")
        column.addWidget(self._other)
        weight = MassField(say("Weight, with everything in it"))
        stage = ChoiceField(say("Stage"), [(key, say(words)) for key, words in _STAGES])
        add_row(
            column,
            self._bind_piece(weight, "weight", say("Weight")),
            self._bind_piece(stage, "stage", say("Stage")),
        )
        self._estimate = Words("", 12, "pencil")
        column.addWidget(self._estimate)
        add_row(
            column,
            self._length("face", say("Face")),
            self._length("lip", say("Lip"), zero=True),
            self._length("rabbet_depth", say("Rabbet depth")),
            self._length("allowance", say("Allowance"), zero=True),
        )
        add_row(
            column,
            self._length("sight_width", say("Sight width")),
            self._length("sight_height", say("Sight height")),
            self._length("glass_width", say("Glass width")),
            self._length("glass_height", say("Glass height")),
        )
        self._derived = Words("", 12, "pencil")
        column.addWidget(self._derived)
        mouldings = [(None, say("not known")), *((key, name_of(record)) for key, record in known.mouldings.items())]
        backings = [(None, say("not known")), *((key, name_of(record)) for key, record in known.backings.items())]
        add_row(
            column,
            self._bind_frame(ChoiceField(say("Moulding"), mouldings), "moulding", say("Moulding")),
            self._length("moulding_thickness", say("Its thickness")),
        )
        glazing = ChoiceField(say("Glazing"), [(key, say(words)) for key, words in _GLAZING])
        add_row(
            column,
            self._bind_frame(glazing, "glazing", say("Glazing")),
            self._length("glazing_thickness", say("Its thickness")),
        )
        add_row(
            column,
            self._bind_frame(ChoiceField(say("Backing"), backings), "backing", say("Backing")),
            self._length("backing_thickness", say("Its thickness")),
        )
        section = NumberField(say("Moulding's section, mm²"), least=1, most=99_999)
        add_row(
            column,
            self._length("diagonal_rising", say("Diagonal, rising")),
            self._length("diagonal_falling", say("Diagonal, falling")),
            self._bind_frame(section, "profile_area_mm2", say("Section, mm²")),
        )
        add_row(column, self._bind_frame(NoteField(say("Condition")), "condition", say("Condition")))
        add_row(column, self._bind_piece(NoteField(say("Note")), "note", say("Note")))
        self.refresh()

    def refresh(self) -> None:
        """Fields, then what follows from them."""
        super().refresh()
        if not hasattr(self, "_derived"):
            return
        piece, style = self._piece, shown_in(self._session.project)
        width, height = piece.frame.width, piece.frame.height
        self._other.setText(
            say(
                "{width} by {height}", width=other_unit(width.mm, width.unit), height=other_unit(height.mm, height.unit)
            )
        )
        self._derived.setText(_derived(piece, style))
        weight = weight_of(piece, catalogue.of(self._session.project.catalogue))
        if weight is None:
            words = say("To estimate the weight: moulding, face, depth and glazing. Better: weigh it.")
        elif weight.measured:
            words = say("As weighed.")
        else:
            words = say(
                "Estimated {mass}, between {low} and {high}. Weigh it before it hangs.",
                mass=show_mass(weight.kg),
                low=show_mass(weight.low),
                high=show_mass(weight.high),
            )
        self._estimate.setText(words)


def _derived(piece: Piece, style: Any) -> str:
    words = []
    for name, size in ((say("sight size"), piece.frame.sight_mm), (say("glass"), piece.frame.glass_mm)):
        if size is not None:
            words.append(
                say(
                    "{what} {width} by {height}",
                    what=name,
                    width=show_length(Mm(size[0]), style),
                    height=show_length(Mm(size[1]), style),
                )
            )
    return ", ".join(words) or say("Sight size and glass follow from face and lip.")


def frame_sentence(project: Project, key: Key) -> str:
    """The frame in one sentence."""
    piece, style = project.piece_by_key[key], shown_in(project)
    sides = [piece.frame.width, piece.frame.height, *([piece.frame.depth] if piece.frame.depth else [])]
    size = " × ".join(number(side.mm, style) for side in sides)
    weight = weight_of(piece, catalogue.of(project.catalogue))
    if weight is None:
        return say("{size}, not weighed yet.", size=size)
    if weight.measured:
        return say("{size}, weighed at {mass}.", size=size, mass=show_mass(weight.kg))
    return say("{size}, about {mass} by estimate.", size=size, mass=show_mass(weight.kg))


class PictureSection(PieceSection):
    """Which picture the frame shows; the file's own facts as far as they were read."""

    def build(self, column: QVBoxLayout) -> None:
        """The choice of uses and the crop's plain values."""
        self._file = Words("", 14)
        column.addWidget(self._file)
        self._use = ChoiceField(say("Shows"), [])
        self._bind_piece(self._use, "current_use", say("Picture"))
        add_row(column, (say("Shows"), self._use))
        column.addWidget(Words(say("Drop a picture file on the piece to give it one."), 12, "pencil"))
        self.refresh()

    def refresh(self) -> None:
        """The pictures the frame may show."""
        if not hasattr(self, "_use") or self._key not in self._session.project.piece_by_key:
            return
        project, piece = self._session.project, self._piece
        choices: list[tuple[Any, str]] = [(None, say("no picture"))]
        for place, use in enumerate(piece.uses):
            path = project.picture_by_key[use.picture].path.rsplit("/", 1)[-1]
            choices.append((place, say("{label}: {file}", label=use.label, file=path) if use.label else path))
        self._use.set_choices(choices)
        super().refresh()
        self._file.setText(picture_sentence(project, self._key))


def picture_sentence(project: Project, key: Key) -> str:
    """The picture in one sentence."""
    piece = project.piece_by_key[key]
    if piece.current_use is None:
        return say("No picture chosen yet.")
    picture = project.picture_by_key[piece.uses[piece.current_use].picture]
    name = picture.path.rsplit("/", 1)[-1]
    if picture.pixels is None:
        return say("{file}.", file=name)
    return say("{file}, {width} × {height} pixels.", file=name, width=picture.pixels[0], height=picture.pixels[1])


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


class CostSection(PieceSection):
    """What the frame cost."""

    def build(self, column: QVBoxLayout) -> None:
        """Price and whether it is paid."""
        price = MoneyField(say("Price of the frame"), currency=self._session.project.currency)
        add_row(column, self._bind_piece(price, "price", say("Price of the frame")))
        owned = CheckField(say("Already paid for"))
        self._bind_piece(owned, "owned", say("already paid for"))
        column.addWidget(owned)


def cost_sentence(project: Project, key: Key) -> str:
    """The frame's price in one sentence."""
    piece = project.piece_by_key[key]
    if piece.price is None:
        return say("Already paid for.") if piece.owned else say("No price yet.")
    amount = say("{currency} {amount}", currency=project.currency, amount=f"{piece.price:.2f}")
    return (
        say("Frame {amount}, already paid for.", amount=amount)
        if piece.owned
        else say("Frame {amount}.", amount=amount)
    )
