"""The picture a piece shows."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QVBoxLayout

from composer.desktop.cards.bound import add_row
from composer.desktop.cards.piece_section import PieceSection
from composer.desktop.field_kinds import (
    ChoiceField,
)
from composer.desktop.field_row import Words
from composer.model import Key, Project
from composer.texts import say


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
