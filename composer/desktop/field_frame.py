"""The looks of an entry field: edge, unit at the right end, steps, the other unit while one is in it."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QAbstractSpinBox, QWidget

from composer.desktop import field_look as look
from composer.texts import say

HEIGHT = 28
"""Of a field at 100 %, pixels; a target is never below 24."""

STEPPERS_FROM = 116
"""Narrower fields have no room for buttons of 24 pixels: the arrow keys step there."""

EDGE = 2
"""Pixels at every side that belong to the field's edge; the line of text never covers them."""


class FieldFrame(QAbstractSpinBox):
    """A spin box that draws itself; what it holds and when it is committed is said by subclasses."""

    def __init__(self, parent: QWidget | None = None) -> None:
        self.wrong = ""
        self._made = False
        self._suffix = ""
        self._shown_remark = ""
        self._right = 0
        self._steppers: tuple[_StepButton, _StepButton] | None = None
        super().__init__(parent)
        self.setButtonSymbols(QAbstractSpinBox.ButtonSymbols.NoButtons)
        self.setFrame(False)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setKeyboardTracking(False)
        self._made = True

    @property
    def can_step(self) -> bool:
        """Whether the field has steps at all."""
        return False

    def set_suffix(self, suffix: str) -> None:
        """The unit a bare number takes, shown at the right end."""
        self._suffix = suffix
        self._place()
        self.update()

    def changeEvent(self, event: QEvent) -> None:
        """Follows scheme and text size."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.EnabledChange):
            self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keeps unit and steps at the right end."""
        super().resizeEvent(event)
        self._place()

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
        room = look.width_of("1 722.5", 14) + look.px(13)
        if self._suffix:
            room += look.width_of(self._suffix, 12) + look.px(4)
        return QSize(room, self.height())

    def _suffix_shown(self) -> str:
        return self._suffix

    def _place(self) -> None:
        if not self._made:
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
        line = self.lineEdit()
        line.setGeometry(self.rect().adjusted(EDGE, EDGE, -EDGE, -EDGE))
        line.setTextMargins(look.px(6) - EDGE, 0, right - EDGE, 0)

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
                box = self.rect().adjusted(0, 0, -self._right - look.px(2), 0)
                painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, suffix)
            self._paint_remark(painter)

    def _paint_remark(self, painter: QPainter) -> None:
        """The other unit inside the field while the person is in it, where there is room."""
        if not (self._shown_remark and self.hasFocus()):
            return
        taken = look.px(14) + look.width_of(self.lineEdit().text(), 14)
        right = self.lineEdit().textMargins().right() + EDGE
        if look.width_of(self._shown_remark, 12) + look.px(8) > self.width() - taken - right:
            return
        painter.setFont(look.font(12))
        painter.setPen(look.colours().pencil)
        box = self.rect().adjusted(0, 0, -right - look.px(4), 0)
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self._shown_remark)


class _StepButton(QAbstractButton):
    """One step less or more; out of the tab order, since the arrow keys do the same."""

    def __init__(self, field: FieldFrame, steps: int) -> None:
        super().__init__(field)
        self._steps = steps
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAutoRepeat(True)
        self.setCursor(Qt.CursorShape.ArrowCursor)
        self.setAccessibleName(say("less") if steps < 0 else say("more"))
        self.clicked.connect(self._step)

    def _step(self) -> None:
        cast(FieldFrame, self.parent()).stepBy(self._steps)

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
