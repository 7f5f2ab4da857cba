"""The frame of a piece, in framers' terms."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QVBoxLayout

from composer.catalogue import catalogue
from composer.catalogue.names import name_of
from composer.desktop.cards.bound import add_row
from composer.desktop.cards.piece_section import PieceSection
from composer.desktop.cards.session import shown_in
from composer.desktop.field_kinds import (
    ChoiceField,
    MassField,
    NoteField,
    NumberField,
    TextField,
    other_unit,
)
from composer.desktop.field_row import Words
from composer.desktop.stages import stage_choices
from composer.desktop.units_shown import number
from composer.hanging.weight import weight_of
from composer.model import Key, Piece, Project
from composer.texts import N_, say
from composer.units import Mm, show_length, show_mass

_GLAZING = (
    ("unknown", N_("not known")),
    ("glass", N_("glass")),
    ("acrylic", N_("acrylic")),
    ("styrene", N_("styrene")),
    ("none", N_("none")),
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
        stage = ChoiceField(say("Stage"), stage_choices())
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
        colour = TextField(say("Colour"), optional=True)
        colour.set_placeholder(say("such as dark oak"))
        add_row(column, self._bind_frame(colour, "colour", say("Colour")))
        add_row(column, self._bind_frame(NoteField(say("Condition")), "condition", say("Condition")))
        self.refresh()

    def refresh(self) -> None:
        """Fields, then what follows from them."""
        super().refresh()
        if not hasattr(self, "_derived"):
            return
        piece, style = self._piece, shown_in(self._session.project)
        unit = self._session.project.mass_unit
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
                mass=show_mass(weight.kg, unit),
                low=show_mass(weight.low, unit),
                high=show_mass(weight.high, unit),
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
        return say("{size}, weighed at {mass}.", size=size, mass=show_mass(weight.kg, project.mass_unit))
    return say("{size}, about {mass} by estimate.", size=size, mass=show_mass(weight.kg, project.mass_unit))
