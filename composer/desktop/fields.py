"""Entry fields: typed text is kept as typed, read once it is whole, and committed exactly once.

Every field follows the same rules. Return and Tab commit; Escape restores; what cannot be read
keeps its text under a stop edge with one sentence below, and only when the person leaves does the
last good value come back. The wheel does nothing without focus. Each time a field gains focus a
new gesture begins, so that undo takes back one visit to one field.
"""

from __future__ import annotations

import itertools
from typing import Any, cast

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QFocusEvent,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QValidator,
    QWheelEvent,
)
from PySide6.QtWidgets import QAbstractButton, QAbstractSpinBox, QWidget

from composer.desktop import field_look as look
from composer.texts import say

_gestures = itertools.count(1)

HEIGHT = 28
"""Of a field at 100 %, pixels; a target is never below 24."""

STEPPERS_FROM = 116
"""Narrower fields have no room for buttons of 24 pixels: the arrow keys step there."""

IDLE_MS = 1200
"""So long after the last keystroke an unreadable text is spoken of; not while it is being typed."""


def new_gesture() -> int:
    """A number no other gesture of this process has had."""
    return next(_gestures) % (1 << 31)


class Unreadable(ValueError):
    """Typed text that is no value; the message is one finished sentence."""


class EntryField(QAbstractSpinBox):
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
        self.wrong = ""
        self._value: Any = None
        self._pending = False
        self._suffix = ""
        self._shown_remark = ""
        self._steppers: tuple[_StepButton, _StepButton] | None = None
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setButtonSymbols(QAbstractSpinBox.ButtonSymbols.NoButtons)
        self.setFrame(False)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setKeyboardTracking(False)
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

    @property
    def can_step(self) -> bool:
        """Whether the field has steps at all."""
        return False

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

    def set_suffix(self, suffix: str) -> None:
        """The unit a bare number takes, shown at the right end."""
        self._suffix = suffix
        self._place()
        self.update()

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

    def changeEvent(self, event: QEvent) -> None:
        """Follows scheme and text size."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.EnabledChange):
            self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keeps unit and steps at the right end."""
        super().resizeEvent(event)
        self._place()

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

    # Looks ------------------------------------------------------------------------------------

    def restyle(self) -> None:
        """Takes font and height from the look."""
        self.setFont(look.font(14))
        line = self.lineEdit()
        line.setFont(look.font(14))
        look.plain_line(line)
        self.setFixedHeight(max(look.px(HEIGHT), self.fontMetrics().height() + look.px(8)))
        self._place()

    def sizeHint(self) -> QSize:
        """Wide enough for a usual value."""
        return QSize(look.px(96), self.height())

    def minimumSizeHint(self) -> QSize:
        """Room for “1 722.5” and a caret."""
        room = look.width_of("1 722.55", 14) + look.px(14)
        if self._suffix:
            room += look.width_of(self._suffix, 12) + look.px(6)
        return QSize(room, self.height())

    def _suffix_shown(self) -> str:
        return self._suffix

    def _place(self) -> None:
        if not hasattr(self, "_idle"):
            return  # the spin box lays itself out while it is being made
        steps = self.can_step and not self.isReadOnly() and self.hasFocus() and self.width() >= look.px(STEPPERS_FROM)
        if steps and self._steppers is None:
            self._steppers = (_StepButton(self, -1), _StepButton(self, 1))
        right = look.px(6)
        if self._steppers is not None:
            size = max(24, look.px(24))
            for place, button in enumerate(reversed(self._steppers)):
                button.setVisible(steps)
                button.setGeometry(self.width() - (place + 1) * size - 2, 2, size, self.height() - 4)
            if steps:
                right += 2 * size
        self._right = right
        suffix = self._suffix_shown()
        if suffix:
            right += look.width_of(suffix, 12) + look.px(4)
        self.lineEdit().setTextMargins(look.px(6), 0, right, 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Field, edge and unit."""
        colours = look.colours()
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            ground = colours.field if self.isEnabled() and not self.isReadOnly() else colours.surface_2
            edge, width = look.edge(self, wrong=bool(self.wrong))
            painter.setPen(QPen(edge, width))
            painter.setBrush(ground)
            inset = width / 2
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), 3, 3)
            suffix = self._suffix_shown()
            if suffix:
                painter.setFont(look.font(12))
                painter.setPen(colours.pencil)
                box = self.rect().adjusted(0, 0, -getattr(self, "_right", look.px(6)) - look.px(2), 0)
                painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, suffix)
            self._paint_remark(painter)

    def _paint_remark(self, painter: QPainter) -> None:
        """The other unit inside the field while the person is in it, where there is room."""
        if not (self._shown_remark and self.hasFocus()):
            return
        taken = look.px(14) + look.width_of(self.lineEdit().text(), 14)
        right = self.lineEdit().textMargins().right()
        if look.width_of(self._shown_remark, 12) + look.px(8) > self.width() - taken - right:
            return
        painter.setFont(look.font(12))
        painter.setPen(look.colours().pencil)
        box = self.rect().adjusted(0, 0, -right - look.px(4), 0)
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self._shown_remark)


class _StepButton(QAbstractButton):
    """One step less or more; out of the tab order, since the arrow keys do the same."""

    def __init__(self, field: EntryField, steps: int) -> None:
        super().__init__(field)
        self._steps = steps
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAutoRepeat(True)
        self.setCursor(Qt.CursorShape.ArrowCursor)
        self.setAccessibleName(say("less") if steps < 0 else say("more"))
        self.clicked.connect(self._step)

    def _step(self) -> None:
        cast(EntryField, self.parent()).stepBy(self._steps)

    def paintEvent(self, event: QPaintEvent) -> None:
        """A minus or a plus, on surface-2 while the pointer is over it."""
        colours = look.colours()
        with QPainter(self) as painter:
            if self.underMouse() or self.isDown():
                painter.fillRect(self.rect(), colours.surface_2)
            painter.setPen(QPen(colours.ink, max(1.0, look.px(15) / 10)))
            middle, reach = self.rect().center(), look.px(4)
            painter.drawLine(middle.x() - reach, middle.y(), middle.x() + reach, middle.y())
            if self._steps > 0:
                painter.drawLine(middle.x(), middle.y() - reach, middle.x(), middle.y() + reach)
