"""What if it were acrylic? The weight with and without, what then holds it, and a click that takes it."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.catalogue import catalogue
from composer.desktop import field_look as look
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_row import LinkButton, Words
from composer.editing.edits import EditRefused
from composer.editing.glazing_edits import change_glazing, reglazed
from composer.hanging.fixings import offers
from composer.hanging.points import hang
from composer.hanging.weight import weight_of
from composer.model import Key, Piece
from composer.texts import say
from composer.units import show_mass


class WhatIf(QWidget):
    """Part of the hanging section; empty where there is no glass, or its weight is not known."""

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._key = session, key
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(2))
        column.addWidget(Words(say("What if"), 12, "pencil", semibold=True))
        self.words = Words("", 14)
        column.addWidget(self.words)
        self.note = Words("", 12, "pencil")
        column.addWidget(self.note)
        self.take = LinkButton(say("Change to acrylic"))
        self.take.clicked.connect(self._on_taken)
        column.addWidget(self.take)

    def refresh(self) -> None:
        """Shows what would follow as everything is now."""
        sentence = self._sentence()
        self.setVisible(bool(sentence))
        self.words.setText(sentence)
        piece = self._session.project.piece_by_key.get(self._key)
        weighed = piece is not None and piece.weight is not None
        self.note.setText(
            say("As weighed, less the glass, plus acrylic of its thickness; weigh it again afterwards. It scratches.")
            if weighed
            else say("Estimated, with acrylic of the same thickness. It does not splinter; it scratches.")
        )

    def _sentence(self) -> str:
        project = self._session.project
        piece = project.piece_by_key.get(self._key)
        if piece is None or piece.frame.glazing != "glass":
            return ""
        known = catalogue.of(project.catalogue)
        before = weight_of(piece, known)
        try:
            other = reglazed(project, self._key, "acrylic")
        except EditRefused:
            return ""
        after = weight_of(other, known)
        if before is None or after is None:
            return ""
        unit = project.mass_unit
        weights = {"before": show_mass(before.high, unit), "after": show_mass(after.high, unit)}
        held = [self._margin(piece), self._margin(other)]
        if held[0] is None or held[1] is None:
            return say("With acrylic it weighs {after} instead of {before}.", **weights)
        return say(
            "With acrylic it weighs {after} instead of {before}; what holds it then carries {more} times that, not {now}.",
            **weights,
            more=f"{held[1]:.1f}",
            now=f"{held[0]:.1f}",
        )

    def _margin(self, piece: Piece) -> float | None:
        """What holds it, over its weight; None where nothing is chosen."""
        project = self._session.project
        place = project.placement_by_piece.get(self._key)
        known = catalogue.of(project.catalogue)
        hanging = hang(piece, turned=place is not None and place.turned, catalogue=known)
        if hanging.strips is not None and hanging.strips.weight_kg:
            return hanging.strips.capacity_kg / hanging.strips.weight_kg
        if piece.hardware is None:
            return None
        wall = project.walls[0] if place is None else project.wall_by_key[place.wall]
        at = None if place is None else (place.left, place.bottom)
        offered = offers(piece, hanging, wall, known, at)
        return next((one.margin for one in offered if one.fixing.id == piece.hardware.fixing), None)

    def _on_taken(self) -> None:
        refusal = try_apply(self._session, change_glazing(self._session.project, self._key, "acrylic"))
        if refusal:
            self.note.setText(refusal)
