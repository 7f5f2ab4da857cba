"""What may be said of several pieces together, in one sentence, and the figures behind it."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.arranging.from_project import furniture_of, hung_of
from composer.arranging.quality import Quality, quality_of
from composer.desktop.cards.session import Session, shown_in, try_apply
from composer.desktop.field_row import PushButton, Words
from composer.editing.arranging_edits import mend
from composer.model import Key
from composer.texts import say


class QualitySection:
    """Part of the group card."""

    def __init__(self, session: Session, keys: tuple[Key, ...]) -> None:
        self._session, self._keys = session, keys
        self._lines: QVBoxLayout | None = None

    def _wall(self) -> Key | None:
        placed = self._session.project.placement_by_piece
        return next((placed[key].wall for key in self._keys if key in placed), None)

    def quality(self) -> Quality | None:
        """Of those of the pieces that hang on one wall."""
        project, wall = self._session.project, self._wall()
        if wall is None:
            return None
        numbers = {project.piece_by_key[key].number for key in self._keys if key in project.piece_by_key}
        hung = [one for one in hung_of(project, wall) if one.number in numbers]
        record = project.wall_by_key[wall]
        gap, eye_line = float(project.arrangement.gap.mm), float(project.eye_line(record).mm)
        return quality_of(hung, gap, eye_line, furniture=furniture_of(record), style=shown_in(project))

    def build(self, column: QVBoxLayout) -> None:
        """What nearly lines up with its mend, then the sentences and why."""
        self._lines = QVBoxLayout()
        self._lines.setSpacing(6)
        column.addLayout(self._lines)
        self.refresh()

    def refresh(self) -> None:
        """The words as everything hangs now."""
        if self._lines is None:
            return
        while (item := self._lines.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        quality = self.quality()
        if quality is None:
            return
        for pair in quality.near_misses[:3]:
            row = QWidget()
            across = QHBoxLayout(row)
            across.setContentsMargins(0, 0, 0, 0)
            across.addWidget(Words(pair.sentence, 14), 1)
            button = PushButton(say("Mend"))
            button.setAccessibleName(say("Mend: {what}", what=pair.sentence))
            button.clicked.connect(partial(self._on_mend, pair.first, pair.second, pair.miss))
            across.addWidget(button)
            self._lines.addWidget(row)
        for line in (quality.gaps, quality.balance, quality.height):
            self._lines.addWidget(Words(line.sentence, 14))
            self._lines.addWidget(Words(line.why, 12, "pencil"))

    def _on_mend(self, first: int, second: int, miss: object, _: bool = False) -> None:
        from composer.arranging.measures import NearMiss

        assert isinstance(miss, NearMiss)
        known, wall = self._session.project.piece_by_number, self._wall()
        if wall is not None and first in known and second in known:
            refusal = try_apply(self._session, mend(wall, known[first].key, known[second].key, miss))
            if refusal and self._lines is not None:
                self._lines.addWidget(Words(refusal, 12, "stop"))

    def sentence(self) -> str:
        """The result in one sentence."""
        quality = self.quality()
        return say("They lie on the floor.") if quality is None else quality.headline
