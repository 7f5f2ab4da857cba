"""The total in the foot of the piece list: one line, a click on which opens the costs."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from composer.desktop import field_look as look
from composer.desktop.money.reckoning import Reckoning, Sums
from composer.desktop.money.words import lacking_words, total_words
from composer.desktop.theme import theme
from composer.texts import say


class CostsFoot(QAbstractButton):
    """What there is to pay and to spare, and below it how many prices are lacking."""

    def __init__(self, reckoning: Reckoning, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words, self._note, self._over = say("Costs"), "", False
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setToolTip(say("Shows what everything costs, line by line."))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        reckoning.summed.connect(self.show_sums)
        reckoning.outdated.connect(self.show_nothing)
        theme().changed.connect(self.updateGeometry)
        self._tell()

    def show_sums(self, sums: Sums) -> None:
        """Other sums."""
        self._words, self._note = total_words(sums.costs), lacking_words(sums.costs)
        spare = sums.costs.to_spare
        self._over = spare is not None and spare < 0
        self._tell()

    def show_nothing(self) -> None:
        """Sums of an earlier day are worse than none."""
        self._words, self._note, self._over = say("Costs"), "", False
        self._tell()

    def _tell(self) -> None:
        self.setText(self._words)
        known = self._words != say("Costs")
        self.setAccessibleName(say("Costs: {total}", total=self._words) if known else self._words)
        self.setAccessibleDescription(self._note)
        self.updateGeometry()
        self.update()

    def _wide(self) -> int:
        return max(60, self.width() - look.px(28))

    def sizeHint(self) -> QSize:
        """One or two lines, wrapped at the width it has."""
        high = look.height_of(self._words, 12, self._wide(), semibold=True)
        if self._note:
            high += look.height_of(self._note, 12, self._wide())
        return QSize(look.px(120), max(24, high + look.px(10)))

    def resizeEvent(self, event: object) -> None:
        """Words wrap at another width."""
        self.updateGeometry()

    def paintEvent(self, event: QPaintEvent) -> None:
        """A hairline above, the sum in semibold, what is lacking in pencil."""
        shades = look.colours()
        with QPainter(self) as painter:
            if self.underMouse():
                painter.fillRect(self.rect(), shades.surface_2)
            painter.setPen(QPen(shades.line, 1))
            painter.drawLine(0, 0, self.width(), 0)
            painter.setFont(look.font(12, semibold=True))
            painter.setPen(shades.stop if self._over else shades.ink)
            flags = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap)
            high = look.height_of(self._words, 12, self._wide(), semibold=True)
            painter.drawText(16, look.px(5), self._wide(), high, flags, self._words)
            if self._note:
                painter.setFont(look.font(12))
                painter.setPen(shades.pencil)
                below = look.height_of(self._note, 12, self._wide())
                painter.drawText(16, look.px(5) + high, self._wide(), below, flags, self._note)
            if self.hasFocus():
                painter.setPen(QPen(shades.chalk, 2))
                painter.drawRect(self.rect().adjusted(1, 1, -2, -2))
