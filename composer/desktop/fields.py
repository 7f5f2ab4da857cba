"""Entry fields: typed text is kept as typed, read once it is whole, and committed exactly once.

Every field follows the same rules. Return and Tab commit; Escape restores; what cannot be read
keeps its text under a stop edge with one sentence below, and only when the person leaves does the
last good value come back. The wheel does nothing without focus. Each time a field gains focus a
new gesture begins, so that undo takes back one visit to one field.
"""

from __future__ import annotations

import itertools
from typing import Any

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QFocusEvent,
    QKeyEvent,
    QValidator,
    QWheelEvent,
)
from PySide6.QtWidgets import QAbstractSpinBox, QWidget

from composer.desktop.field_frame import FieldFrame
from composer.texts import say

_gestures = itertools.count(1)

IDLE_MS = 1200
"""So long after the last keystroke an unreadable text is spoken of; not while it is being typed."""


def new_gesture() -> int:
    """A number no other gesture of this process has had."""
    return next(_gestures) % (1 << 31)


class EntryField(FieldFrame):
    """One value with its text; subclasses say how text becomes a value and back.

    Signals:
        committed: the person changed the value; carries it.
        complained: the sentence to show under the field; empty when there is nothing to say.
        returned: Return was pressed and nothing is left to mend.
        edited: something was typed; nothing is committed yet.
        entered, left: the field gained or lost focus.
    """

    committed = Signal(object)
    complained = Signal(str)
    returned = Signal()
    edited = Signal()
    entered = Signal()
    left = Signal()

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        self.gesture = new_gesture()
        self._value: Any = None
        self._pending = False
        super().__init__(parent)
        self.setAccessibleName(name)
        self._idle = QTimer(self)
        self._idle.setSingleShot(True)
        self._idle.setInterval(IDLE_MS)
        self._idle.timeout.connect(self._speak_up)
        line = self.lineEdit()
        line.setAccessibleName(name)
        line.textEdited.connect(self._on_typed)
        self.editingFinished.connect(self._on_finished)
        self.restyle()

    # What subclasses answer -----------------------------------------------------------------

    def read(self, text: str) -> Any:
        """The value of a typed text.

        Raises:
            ValueError: with one finished sentence.
        """
        return text

    def written(self, value: Any) -> str:
        """The text that stands for a value."""
        return "" if value is None else str(value)

    def stepped(self, value: Any, steps: int) -> Any:
        """The value so many steps on, or the same when it cannot be stepped."""
        return value

    def remark(self, value: Any) -> str:
        """What stands beside a value, such as the same length in the other unit."""
        return ""

    def typed(self) -> Any:
        """What stands there now, committed or not; the committed value where it cannot be read."""
        try:
            return self.read(self.lineEdit().text()) if self._pending else self._value
        except ValueError:
            return self._value

    # State ----------------------------------------------------------------------------------

    @property
    def value(self) -> Any:
        """The last good value; None where nothing was entered."""
        return self._value

    @property
    def is_pending(self) -> bool:
        """Whether text has been typed that is not committed."""
        return self._pending

    def set_value(self, value: Any) -> None:
        """Shows a value that came from elsewhere; text being typed stays untouched."""
        self._value = value
        if not self._pending:
            self._show_value()

    def set_placeholder(self, text: str) -> None:
        """What stands in an empty field."""
        self.lineEdit().setPlaceholderText(text)

    def commit(self) -> bool:
        """Takes the typed text as it stands; False when it cannot be read."""
        if not self._pending:
            return not self.wrong
        try:
            value = self.read(self.lineEdit().text())
        except ValueError as refused:
            self.complain(str(refused))
            return False
        self._pending = False
        self.complain("")
        changed = value != self._value
        self._value = value
        self._show_value()
        if changed:
            self.committed.emit(value)
        return True

    def restore(self) -> None:
        """Forgets what was typed."""
        self._pending = False
        self.complain("")
        self._show_value()

    def complain(self, sentence: str) -> None:
        """Shows a stop edge and hands the sentence to whoever shows it under the field."""
        self._idle.stop()
        if sentence == self.wrong:
            return
        self.wrong = sentence
        self.setAccessibleDescription(sentence or self.remark(self._value))
        if sentence and self.hasFocus():
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, sentence))
        self.complained.emit(sentence)
        self.update()

    def _show_value(self) -> None:
        text = self.written(self._value)
        line = self.lineEdit()
        if line.text() != text:
            line.setText(text)
            if not self.hasFocus():
                line.setCursorPosition(0)
        remark = self.remark(self._value)
        self.setToolTip(remark)
        self.setAccessibleDescription(self.wrong or remark)
        self._note(remark)
        self._place()

    def _note(self, remark: str) -> None:
        self._shown_remark = remark
        self.update()

    def _on_typed(self, text: str) -> None:
        self._pending = text != self.written(self._value)
        if self.wrong:
            self.complain("")
        try:
            remark = self.remark(self.read(text)) if text.strip() else ""
            self._idle.stop()
        except ValueError:
            remark = ""
            self._idle.start()
        self._note(remark)
        self._place()
        self.edited.emit()

    def _speak_up(self) -> None:
        """The person stopped typing and what stands there is still no value."""
        if not self._pending:
            return
        try:
            self.read(self.lineEdit().text())
        except ValueError as refused:
            self.complain(str(refused))

    def _on_finished(self) -> None:
        if self.hasFocus():
            return  # Return; seen to in keyPressEvent
        if self._pending and not self.commit():
            sentence = self.wrong
            self.restore()
            self.complained.emit(say("{sentence} The former value is back.", sentence=sentence))

    # Events ---------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return commits, Escape restores; both stop here only when they did something."""
        if event.key() == Qt.Key.Key_Escape:
            if self._pending or self.wrong:
                self.restore()
                self.lineEdit().selectAll()
                event.accept()
            else:
                event.ignore()
            return
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            event.accept()
            if self.commit():
                self.lineEdit().selectAll()
                self.returned.emit()
            return
        super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A visit to the field is one gesture for undo."""
        self.gesture = new_gesture()
        super().focusInEvent(event)
        self.entered.emit()
        self._place()
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Leaving commits what can be read."""
        super().focusOutEvent(event)
        self.left.emit()
        self._place()
        self.update()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Without focus the wheel belongs to the panel behind."""
        if self.hasFocus() and self.can_step:
            super().wheelEvent(event)
        else:
            event.ignore()

    # The spin box's own questions -------------------------------------------------------------

    def validate(self, text: str, position: int) -> tuple[QValidator.State, str, int]:
        """Nothing is kept from being typed; reading comes later."""
        return (QValidator.State.Acceptable, text, position)

    def fixup(self, text: str) -> str:
        """Nothing is mended behind the person's back."""
        return text

    def stepEnabled(self) -> QAbstractSpinBox.StepEnabledFlag:
        """Arrow keys and wheel step where a step makes sense."""
        both = QAbstractSpinBox.StepEnabledFlag.StepUpEnabled | QAbstractSpinBox.StepEnabledFlag.StepDownEnabled
        return both if self.can_step and not self.isReadOnly() else QAbstractSpinBox.StepEnabledFlag.StepNone

    def stepBy(self, steps: int) -> None:
        """Steps from what stands there, typed or not, and commits."""
        start = self._value
        if self._pending:
            try:
                start = self.read(self.lineEdit().text())
            except ValueError as refused:
                self.complain(str(refused))
                return
        try:
            value = self.stepped(start, steps)
        except ValueError as refused:
            self.complain(str(refused))
            return
        self._pending = False
        self.complain("")
        if value == self._value:
            self._show_value()
            return
        self._value = value
        self._show_value()
        self.lineEdit().selectAll()
        self.committed.emit(value)
