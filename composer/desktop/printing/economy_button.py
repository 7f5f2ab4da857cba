"""One economy to choose in the printing window, with what it costs in sheets."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from composer.desktop import field_look as look
from composer.texts import say, say_many


class EconomyButton(QAbstractButton):
    """One economy with what it prints, its sheets and its seams."""

    def __init__(self, name: str, words: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words, self._count, self._joins = words, "…", ""
        self.setText(name)
        self.setCheckable(True)
        self.setAutoExclusive(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("{name}: {words}", name=name, words=words))

    def show_count(self, sheets: int | None, joins: int | None) -> None:
        """Its sheets and seams; None while or where there are none."""
        self._count = "–" if sheets is None else str(sheets)
        self._joins = "" if joins is None else say_many("{count} join", "{count} joins", joins)
        self.setAccessibleDescription(say("{count} sheets, {joins}", count=self._count, joins=self._joins))
        self.update()

    def show_waiting(self) -> None:
        """Being counted."""
        self._count, self._joins = "…", ""
        self.update()

    def sizeHint(self) -> QSize:
        """Two lines of text."""
        return QSize(look.px(260), max(24, look.px(40)))

    def paintEvent(self, event: QPaintEvent) -> None:
        """A ring, name and words, the count at the right."""
        shades = look.colours()
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            ring = look.px(7)
            centre = QPointF(ring + 2, self.height() / 2)
            painter.setPen(QPen(shades.ink if self.isChecked() else shades.field_line, 1.4))
            painter.setBrush(shades.field)
            painter.drawEllipse(centre, ring, ring)
            if self.isChecked():
                painter.setBrush(shades.ink)
                painter.drawEllipse(centre, ring * 0.45, ring * 0.45)
            left, half = round(2 * ring + look.px(12)), self.height() // 2
            flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
            painter.setFont(look.font(14, semibold=True))
            painter.setPen(shades.ink)
            painter.drawText(left, 0, self.width(), half, flags, self.text())
            count = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(0, 0, self.width() - 4, half, count, self._count)
            painter.setFont(look.font(12))
            painter.setPen(shades.pencil)
            painter.drawText(left, half, self.width(), half, flags, self._words)
            painter.drawText(0, half, self.width() - 4, half, count, self._joins)
            if self.hasFocus():
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(shades.chalk, 2))
                painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 3, 3)
