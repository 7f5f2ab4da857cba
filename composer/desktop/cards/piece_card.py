"""The card of one piece: where it is, then frame, picture, mat, hanging and cost."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.card import Card, Section, Title
from composer.desktop.cards.cost_section import CostSection, cost_sentence
from composer.desktop.cards.frame_section import FrameSection, frame_sentence
from composer.desktop.cards.hanging_section import HangingSection
from composer.desktop.cards.hanging_words import sentence_of
from composer.desktop.cards.mat_section import MatSection
from composer.desktop.cards.mat_working import mat_sentence
from composer.desktop.cards.notes_section import NotesSection, notes_sentence
from composer.desktop.cards.picture_section import PictureSection, picture_sentence
from composer.desktop.cards.session import Session, merge_key, shown_in
from composer.desktop.field_kinds import PositionField, bare_unit
from composer.desktop.field_row import FieldRow, Words
from composer.editing.edits import Edit
from composer.editing.record_edits import put_at
from composer.findings.readiness import missing_words, stage, stage_words
from composer.model import Key, Picture, Placement, Project
from composer.texts import N_, say
from composer.units import Mm, show_length

POSITIONS = (("left", N_("Left")), ("right", N_("Right")), ("bottom", N_("Bottom")), ("centre", N_("Centre")))


class PieceCard(Card):
    """Everything about one piece; sections fill themselves when they are opened.

    Signals:
        wanted: name of an action that a link stands for.
    """

    wanted = Signal(str)

    def __init__(
        self,
        session: Session,
        key: Key,
        file_state: Callable[[Picture], str] | None = None,
        picture_of: Callable[[Key], QPixmap | None] | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._session, self.key = session, key
        self._title = Title()
        self.add_top(self._title)
        self._places = Bindings(session)
        self._place_row = self._position_row()
        self.add_padded(self._place_row)
        self._state = Words("", 12, "pencil")
        self.add_padded(self._state)
        self.sections: dict[str, Section] = {}
        self._contents: dict[str, Any] = {}
        self._sentences: dict[str, Callable[[Project, Key], str]] = {}
        for name, words, content, sentence in (
            ("frame", say("Frame"), FrameSection(session, key), frame_sentence),
            (
                "picture",
                say("Picture"),
                PictureSection(session, key, self.wanted.emit, file_state, picture_of),
                picture_sentence,
            ),
            ("mat", say("Mat"), MatSection(session, key, picture_of), mat_sentence),
            ("hanging", say("Hanging"), HangingSection(session, key), sentence_of),
            ("cost", say("Cost"), CostSection(session, key), cost_sentence),
            ("notes", say("Notes"), NotesSection(session, key), notes_sentence),
        ):
            section = Section(words, content.build)
            section.opened.connect(partial(self._on_opened, name))
            self.sections[name] = self.add_section(section)
            self._contents[name] = content
            self._sentences[name] = sentence
        session.project_changed.connect(self._on_changed)
        self.refresh()

    def _position_row(self) -> FieldRow:
        project = self._session.project
        unit, style = bare_unit(project.units), shown_in(project)
        fields: list[tuple[str, QWidget]] = []
        self.positions: dict[str, PositionField] = {}
        for name, words in POSITIONS:
            label = say("{what}, {unit}", what=say(words), unit=unit)
            field = PositionField(label, style=style, bare=unit)
            self._places.bind(field, partial(self._position, name), partial(self._move, name))
            self.positions[name] = field
            fields.append((label, field))
        return FieldRow(*fields)

    def _placement(self) -> Placement | None:
        return self._session.project.placement_by_piece.get(self.key)

    def _size(self, place: Placement) -> tuple[float, float]:
        return self._session.project.piece_by_key[self.key].size_mm(turned=place.turned)

    def _position(self, name: str) -> float | None:
        place = self._placement()
        if place is None or self.key not in self._session.project.piece_by_key:
            return None
        width, height = self._size(place)
        return {
            "left": place.left,
            "right": place.left + width,
            "bottom": place.bottom,
            "centre": place.bottom + height / 2,
        }[name]

    def _move(self, name: str, value: float, gesture: int) -> Edit:
        place = self._placement()
        number = self._session.project.piece_by_key[self.key].number
        text = say("Move piece {number}", number=number)
        if place is None:
            return put_at(text, {})
        width, height = self._size(place)
        left, bottom = place.left, place.bottom
        if name == "left":
            left = value
        elif name == "right":
            left = value - width
        elif name == "bottom":
            bottom = value
        else:
            bottom = value - height / 2
        return put_at(text, {self.key: (left, bottom)}, merge_key(f"place-{name}", self.key, gesture))

    def open_only(self, name: str) -> None:
        """Opens one section and closes the others."""
        for other, section in self.sections.items():
            section.set_open(other == name)

    def _on_opened(self, name: str, is_open: bool) -> None:
        if is_open and self.height() < look.px(760):
            for other, section in self.sections.items():
                if other != name and section.is_open:
                    section.set_open(False)
        if is_open:
            self._contents[name].refresh()

    def _on_changed(self, _before: object, _after: object, change: Any) -> None:
        if self.key in self._session.project.piece_by_key:
            self.refresh()

    def refresh(self) -> None:
        """Shows the project as it is now: head lines always, contents where they are built."""
        project = self._session.project
        piece = project.piece_by_key[self.key]
        place = self._placement()
        style = shown_in(project)
        if place is None:
            line = say("On the floor")
        elif place.locked:
            line = say(
                "Locked at {left} and {bottom}",
                left=show_length(Mm(place.left), style),
                bottom=show_length(Mm(place.bottom), style),
            )
        else:
            line = say("On the wall “{wall}”", wall=project.wall_by_key[place.wall].name)
        self._title.show_title(piece.name, line, (piece.number,))
        free = place is not None and not place.locked
        box = self._place_row.parentWidget()
        if box is not None:
            box.setVisible(free)
        if free:
            self._places.refresh()
        reached = stage_words(stage(piece, turned=place is not None and place.turned))
        lacking = missing_words(piece, turned=place is not None and place.turned)
        words = (
            say("{stage}; next it needs: {missing}.", stage=reached.capitalize(), missing=lacking)
            if lacking
            else say("{stage}.", stage=reached.capitalize())
        )
        self._state.setText(words)
        for name, section in self.sections.items():
            section.head.set_sentence(self._sentences[name](project, self.key))
            if section.is_built:
                self._contents[name].refresh()
