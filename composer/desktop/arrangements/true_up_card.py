"""The card while truing up: how much is trued, what would move and how far, and the two ways out."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.arrangements.ruler_slider import RulerSlider
from composer.desktop.cards.card import Card, Title
from composer.desktop.field_row import PushButton, Segments, Words
from composer.texts import say, say_many

ROWS = 16
STEPS = 20
"""The slider goes from 0 to this; the strength is its share."""


class TrueUpCard(Card):
    """Stands in the card's place until the moves are accepted or left.

    Signals:
        strength_wanted: 0 to 1.
        scope_wanted: True = only the selected pieces.
        accepted, left: the two buttons, Enter and Esc.
    """

    strength_wanted = Signal(float)
    scope_wanted = Signal(bool)
    accepted = Signal()
    left = Signal()

    def __init__(self, strength: float, *, some: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        title = Title()
        title.show_title(
            say("True up"),
            say("Makes gaps exact and edges that nearly line up aligned, with the least movement. Locked pieces stay."),
        )
        self.add_top(title)
        ends = (say("only what is nearly right"), say("all that can be"))
        self.strength = RulerSlider(say("How much"), 0, STEPS, ends=ends)
        self.strength.show_value(round(strength * STEPS), "")
        self.strength.moved.connect(lambda value: self.strength_wanted.emit(value / STEPS))
        self.add_padded(self.strength)
        self.scope = Segments(say("Which"), [(False, say("This wall")), (True, say("The selected"))])
        self.scope.set_value(False)
        self.scope.committed.connect(lambda some: self.scope_wanted.emit(bool(some)))
        self._scope_box = self.add_padded(self.scope)
        self._scope_box.setVisible(some)
        self.result = Words("", 14, semibold=True)
        self.add_padded(self.result)
        self._rows = QVBoxLayout()
        self._rows.setContentsMargins(look.px(16), 0, look.px(12), look.px(8))
        self._rows.setSpacing(2)
        rows = QWidget()
        rows.setLayout(self._rows)
        self.add_top(rows)
        self.accept, self.leave = PushButton(say("True up"), strong=True), PushButton(say("Leave it"))
        buttons = QWidget()
        across = QHBoxLayout(buttons)
        across.setContentsMargins(0, 0, 0, 0)
        across.addWidget(self.accept)
        across.addWidget(self.leave)
        across.addStretch(1)
        self.accept.clicked.connect(lambda _=False: self.accepted.emit())
        self.leave.clicked.connect(lambda _=False: self.left.emit())
        self.add_padded(buttons)

    def show_answer(self, reach: str, moves: Sequence[str], refusal: str = "") -> None:
        """What would move, a sentence each, or why it cannot be done."""
        self.strength.show_words(say("what is up to {reach} off", reach=reach))
        self.accept.setEnabled(bool(moves))
        while (item := self._rows.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        if refusal:
            self.result.setText(refusal)
        elif not moves:
            self.result.setText(say("Nothing would move: it is true already, or too far off for this much."))
        else:
            count = len(moves)
            self.result.setText(say_many("{count} piece would move.", "{count} pieces would move.", count))
        for words in moves[:ROWS]:
            self._rows.addWidget(Words(words, 14))
        if len(moves) > ROWS:
            more = say_many("and {count} more", "and {count} more", len(moves) - ROWS)
            self._rows.addWidget(Words(more, 12, "pencil"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter accepts, Esc leaves everything as it is."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.accept.isEnabled():
            self.accepted.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)
