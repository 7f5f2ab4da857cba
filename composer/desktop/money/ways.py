"""Ways to pay less for the same wall: each with what it saves and one click, and to be kept as a scenario."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.costing.alternatives import Alternative, alternative_words
from composer.costing.shown import show_money
from composer.desktop import field_look as look
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_choices import CheckField
from composer.desktop.field_row import PushButton, Words
from composer.desktop.money.reckoning import Ways
from composer.editing.money_edits import take_alternative
from composer.model import Choice
from composer.texts import say


class WaysList(QWidget):
    """A row a way.

    Signals:
        ticked: another choice of ways stands ticked, for a scenario.
    """

    ticked = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._ways: Ways | None = None
        self.buttons: list[PushButton] = []
        self._boxes: list[tuple[CheckField, Alternative]] = []
        self._rows: list[QWidget] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(look.px(4))
        self.note = Words("", 12, "pencil")
        self._column.addWidget(self.note)
        self.show_ways(None)

    def show_ways(self, ways: Ways | None) -> None:
        """Other ways; None while they are looked for."""
        self._ways = ways
        for row in self._rows:
            row.hide()
            row.deleteLater()
        self._rows, self._boxes, self.buttons = [], [], []
        if ways is None:
            self._say(say("Looking for ways to pay less …"))
        elif not ways.found:
            self._say(say("None found: nothing cheaper holds, covers or fits."))
        else:
            self._say("")
            for way in ways.found:
                self._add(way, ways)
        self.ticked.emit()

    @property
    def choices(self) -> tuple[Choice, ...]:
        """What the ticked ways change."""
        return tuple(choice for box, way in self._boxes if box.isChecked() for choice in way.choices)

    def _say(self, words: str, shade: str = "pencil") -> None:
        self.note.set_shade(shade)  # type: ignore[arg-type]  # one of the shades
        self.note.setText(words)
        self.note.setVisible(bool(words))

    def _add(self, way: Alternative, ways: Ways) -> None:
        words = alternative_words(way, ways.project)
        row = QWidget()
        across = QHBoxLayout(row)
        across.setContentsMargins(0, 0, 0, 0)
        across.setSpacing(look.px(8))
        box = CheckField("")
        box.setAccessibleName(say("For a scenario: {what}", what=words))
        box.setToolTip(box.accessibleName())
        box.clicked.connect(self._on_ticked)
        across.addWidget(box, 0, Qt.AlignmentFlag.AlignVCenter)
        across.addWidget(Words(words, 14), 1)
        saves = Words(show_money(-way.saves, ways.project.currency), 14, semibold=True)
        saves.setWordWrap(False)
        across.addWidget(saves)
        take = PushButton(say("Take"))
        take.setAccessibleName(
            say("Take: {what}, saves {amount}", what=words, amount=show_money(way.saves, ways.project.currency))
        )
        take.clicked.connect(partial(self._on_take, way))
        across.addWidget(take)
        self._column.addWidget(row)
        self._rows.append(row)
        self._boxes.append((box, way))
        self.buttons.append(take)

    def _on_ticked(self, _: bool = False) -> None:
        self.ticked.emit()

    def _on_take(self, way: Alternative, _: bool = False) -> None:
        refusal = try_apply(self._session, take_alternative(self._session.project, way))
        if refusal:
            self._say(refusal, "stop")
