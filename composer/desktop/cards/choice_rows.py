"""Offers one below the other, of which one is taken: what it is, what speaks for or against it, a figure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.texts import say


@dataclass(frozen=True, slots=True)
class Offered:
    """One row: what it stands for, its name, a note below, a figure at the right, whether it can be taken."""

    value: str
    name: str
    note: str = ""
    figure: str = ""
    can_be_taken: bool = True


class ChoiceRows(QWidget):
    """A row an offer; the one taken is on the wash and semibold, one that cannot be has a cross.

    Signals:
        taken: the value of the row that was clicked.
    """

    taken = Signal(str)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._shown: tuple[Offered, ...] = ()
        self.rows: list[_Row] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)

    def show_offers(self, offers: Sequence[Offered], taken: str | None) -> None:
        """Shows these, one of them taken."""
        if tuple(offers) != self._shown:
            self._shown = tuple(offers)
            for row in self.rows:
                self._column.removeWidget(row)
                row.hide()
                row.deleteLater()
            self.rows = [_Row(offer) for offer in offers]
            for row in self.rows:
                row.clicked.connect(partial(self._on_clicked, row.offer.value))
                self._column.addWidget(row)
        for row in self.rows:
            row.setChecked(row.offer.value == taken)
        self.setVisible(bool(self.rows))

    def _on_clicked(self, value: str, _: bool = False) -> None:
        self.taken.emit(value)


class _Row(QAbstractButton):
    def __init__(self, offer: Offered, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.offer = offer
        self.setCheckable(True)
        self.setEnabled(offer.can_be_taken)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setText(offer.name)
        self.setAccessibleName(say("{name}, {note} {figure}", name=offer.name, note=offer.note, figure=offer.figure))

    def _left(self) -> int:
        return look.px(26)

    def _room(self) -> int:
        figure = look.width_of(self.offer.figure, 14, semibold=True) + look.px(8) if self.offer.figure else 0
        return max(look.px(80), self.width() - self._left() - figure - look.px(6))

    def _fit(self) -> None:
        high = look.height_of(self.offer.name, 14, self._room(), semibold=True) + look.px(8)
        if self.offer.note:
            high += look.height_of(self.offer.note, 12, self._room())
        self.setFixedHeight(max(24, high))

    def sizeHint(self) -> QSize:
        return QSize(look.px(240), self.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def nextCheckState(self) -> None:
        """A click asks; what is taken is shown once it has been."""

    def paintEvent(self, event: QPaintEvent) -> None:
        shades, offer = look.colours(), self.offer
        with QPainter(self) as painter:
            if self.isChecked():
                painter.fillRect(self.rect(), shades.accent_wash)
            elif self.underMouse() and self.isEnabled():
                painter.fillRect(self.rect(), shades.surface_2)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._sign(painter, QPointF(look.px(11), look.px(14)))
            top, room = look.px(4), self._room()
            wrap = int(Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap)
            painter.setFont(look.font(14, semibold=self.isChecked()))
            painter.setPen(shades.ink if self.isEnabled() else shades.pencil)
            high = look.height_of(offer.name, 14, room, semibold=True)
            painter.drawText(QRectF(self._left(), top, room, high + 1), wrap, offer.name)
            right = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
            painter.setFont(look.font(14, semibold=True))
            painter.drawText(QRectF(0, top, self.width() - look.px(6), high + 1), right, offer.figure)
            if offer.note:
                painter.setFont(look.font(12))
                painter.setPen(shades.pencil)
                note = look.height_of(offer.note, 12, room)
                painter.drawText(QRectF(self._left(), top + high, room, note + 1), wrap, offer.note)
            if self.hasFocus():
                painter.setPen(QPen(shades.chalk, 2))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRect(self.rect().adjusted(1, 1, -1, -1))

    def _sign(self, painter: QPainter, middle: QPointF) -> None:
        shades, reach = look.colours(), look.px(6)
        if not self.isEnabled():
            painter.setPen(QPen(shades.pencil, 1.4))
            small = reach * 0.6
            painter.drawLine(middle + QPointF(-small, -small), middle + QPointF(small, small))
            painter.drawLine(middle + QPointF(-small, small), middle + QPointF(small, -small))
            return
        painter.setPen(QPen(shades.ink if self.isChecked() else shades.field_line, 1.4))
        painter.setBrush(shades.field)
        painter.drawEllipse(middle, reach, reach)
        if self.isChecked():
            painter.setBrush(shades.ink)
            painter.drawEllipse(middle, reach * 0.45, reach * 0.45)
