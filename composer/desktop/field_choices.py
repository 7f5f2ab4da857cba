"""Choices: one of a few words, yes or no."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from PySide6.QtCore import QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QStyleOptionComboBox, QStylePainter, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_frame import HEIGHT
from composer.desktop.fields import new_gesture


class ChoiceField(QComboBox):
    """One of a few words; the wheel does nothing without focus."""

    committed = Signal(object)

    def __init__(self, name: str, choices: Iterable[tuple[Any, str]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.gesture = new_gesture()
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(4)
        self.set_choices(choices)
        self.restyle()
        self.activated.connect(self._on_activated)

    def set_choices(self, choices: Iterable[tuple[Any, str]]) -> None:
        """The values with their words, in order."""
        self.clear()
        for value, words in choices:
            self.addItem(words, userData=value)
        self._value = self.currentData()

    @property
    def value(self) -> Any:
        """What is chosen."""
        return self._value

    def set_value(self, value: Any) -> None:
        """Shows what was chosen elsewhere; a value that is not offered is shown as it is written."""
        place = next((row for row in range(self.count()) if self.itemData(row) == value), -1)
        if place < 0 and value is not None:
            self.addItem(str(value), userData=value)
            place = self.count() - 1
        self._value = value
        self.setCurrentIndex(place)
        self.setToolTip(self.currentText())

    def _on_activated(self, row: int) -> None:
        value = self.itemData(row)
        self.setToolTip(self.currentText())
        if value != self._value:
            self._value = value
            self.committed.emit(value)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Without focus the wheel belongs to the panel behind."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A visit is one gesture."""
        self.gesture = new_gesture()
        super().focusInEvent(event)

    def restyle(self) -> None:
        """Takes font and height from the look."""
        self.setFont(look.font(14))
        self.setFixedHeight(max(look.px(HEIGHT), self.fontMetrics().height() + look.px(8)))

    def sizeHint(self) -> QSize:
        """As wide as its longest word, within reason."""
        widest = max(
            (self.fontMetrics().horizontalAdvance(self.itemText(row)) for row in range(self.count())), default=0
        )
        return QSize(min(widest + look.px(36), look.px(240)), self.height())

    def minimumSizeHint(self) -> QSize:
        """Usual words are shown whole; very long ones end in an ellipsis and are whole in the tooltip."""
        return QSize(min(self.sizeHint().width(), look.px(150)), self.height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Field, edge, words and an open arrow."""
        shades = look.colours()
        with QStylePainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            edge, width = look.edge(self)
            painter.setPen(QPen(edge, width))
            painter.setBrush(shades.field if self.isEnabled() else shades.surface_2)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(width / 2, width / 2, -width / 2, -width / 2), 3, 3)
            option = QStyleOptionComboBox()
            self.initStyleOption(option)
            room = self.rect().adjusted(look.px(8), 0, -look.px(24), 0)
            painter.setPen(shades.ink if self.isEnabled() else shades.pencil)
            words = self.fontMetrics().elidedText(self.currentText(), Qt.TextElideMode.ElideRight, room.width())
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
            x, y, reach = self.width() - look.px(14), self.height() / 2 - look.px(1), look.px(4)
            painter.setPen(QPen(shades.pencil, 1.4))
            corners = [(x - reach, y - reach / 2), (x, y + reach / 2), (x + reach, y - reach / 2)]
            painter.drawPolyline([QPointF(*corner) for corner in corners])


class CheckField(QCheckBox):
    """Yes or no."""

    committed = Signal(object)

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(words, parent)
        self.gesture = new_gesture()
        self.setAccessibleName(words)
        self.restyle()
        self.clicked.connect(self._on_clicked)

    def _on_clicked(self, checked: bool) -> None:
        self.committed.emit(checked)

    @property
    def value(self) -> bool:
        """Whether it is ticked."""
        return self.isChecked()

    def set_value(self, value: Any) -> None:
        """Shows what was decided elsewhere."""
        self.setChecked(bool(value))

    def sizeHint(self) -> QSize:
        """Box, words and room around."""
        return QSize(look.width_of(self.text(), 14) + look.px(28), max(24, look.px(24)))

    def minimumSizeHint(self) -> QSize:
        """The same: words are never cut."""
        return self.sizeHint()

    def hitButton(self, pos: QPoint) -> bool:
        """The words can be clicked, too."""
        return bool(self.rect().contains(pos))

    def paintEvent(self, event: QPaintEvent) -> None:
        """A box with a tick, the words beside it."""
        shades, side = look.colours(), look.px(16)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            edge, width = look.edge(self)
            top = (self.height() - side) / 2
            box = QRectF(width / 2 + 1, top, side, side)
            painter.setPen(QPen(edge, width))
            painter.setBrush(shades.field)
            painter.drawRoundedRect(box, 2, 2)
            if self.isChecked():
                painter.setPen(QPen(shades.ink, 2))
                left, middle = box.left(), box.center().y()
                painter.drawPolyline(
                    [
                        QPointF(left + side * 0.22, middle),
                        QPointF(left + side * 0.42, middle + side * 0.22),
                        QPointF(left + side * 0.8, middle - side * 0.24),
                    ]
                )
            painter.setPen(shades.ink if self.isEnabled() else shades.pencil)
            painter.setFont(look.font(14))
            words = self.rect().adjusted(side + look.px(8), 0, 0, 0)
            painter.drawText(words, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.text())

    def restyle(self) -> None:
        """A target of at least 24 pixels."""
        self.setFont(look.font(14))
        self.setMinimumHeight(max(24, look.px(24)))

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A visit is one gesture."""
        self.gesture = new_gesture()
        super().focusInEvent(event)
