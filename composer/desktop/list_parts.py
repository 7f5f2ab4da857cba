"""Parts of the piece list's head: the filter line, tabs, and the heads one sorts by."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QLineEdit, QSizePolicy, QWidget

from composer.desktop import field_look as look
from composer.desktop import icons
from composer.desktop.theme import theme
from composer.texts import say


class FilterLine(QLineEdit):
    """A line to filter by, with the edge of a field and a glass at its left; Escape empties it."""

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setPlaceholderText(words)
        self.setAccessibleName(say("Filter"))
        look.plain_line(self)
        theme().changed.connect(self._on_theme)
        self._on_theme()

    def _on_theme(self) -> None:
        look.plain_line(self)
        self.setFont(look.font(14))
        self.setTextMargins(look.px(28), 0, look.px(6), 0)
        self.setFixedHeight(max(look.px(28), self.fontMetrics().height() + look.px(8)))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Ground and edge, then the text."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            edge, width = look.edge(self)
            painter.setPen(QPen(edge, width))
            painter.setBrush(look.colours().field)
            inset = width / 2
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), 3, 3)
            side = look.px(16)
            icons.icon("find").paint(painter, QRect(look.px(8), (self.height() - side) // 2, side, side))
        super().paintEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape empties it."""
        if event.key() == Qt.Key.Key_Escape and self.text():
            self.clear()
        else:
            super().keyPressEvent(event)


class FlatButton(QAbstractButton):
    """Words at 12, at least 24 pixels high; how a chosen one looks is said by subclasses."""

    def __init__(self, words: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setText(words)
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def set_words(self, words: str) -> None:
        """Other words."""
        self.setText(words)
        self.setAccessibleName(words)
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Room for the words when they are semibold."""
        return QSize(look.width_of(self.text(), 12, semibold=True) + look.px(10), max(24, look.px(24)))

    def enterEvent(self, event: QEvent) -> None:
        """Darker under the pointer."""
        self.update()

    def leaveEvent(self, event: QEvent) -> None:
        """As before."""
        self.update()

    def _paint_words(self, painter: QPainter, flags: Qt.AlignmentFlag, room: QRectF) -> None:
        shades = look.colours()
        painter.setFont(look.font(12, semibold=self.isChecked()))
        painter.setPen(shades.ink if self.isChecked() or self.underMouse() else shades.pencil)
        painter.drawText(room, flags, self.text())
        if self.hasFocus():
            painter.setPen(QPen(shades.chalk, 2))
            painter.drawRect(self.rect().adjusted(1, 1, -2, -2))


class Tab(FlatButton):
    """One of a few views; the chosen one is semibold over a 2 px line."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Words, and the line."""
        with QPainter(self) as painter:
            self._paint_words(painter, Qt.AlignmentFlag.AlignCenter, QRectF(self.rect()))
            if self.isChecked():
                painter.fillRect(0, self.height() - 2, self.width(), 2, look.colours().ink)


class SortHead(FlatButton):
    """The head of a column; the one that sorts is semibold with an arrow down."""

    def sizeHint(self) -> QSize:
        """Words and the arrow."""
        return super().sizeHint() + QSize(look.px(8), 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Words, and the arrow."""
        with QPainter(self) as painter:
            room = QRectF(self.rect()).adjusted(2, 0, 0, 0)
            self._paint_words(painter, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, room)
            if self.isChecked():
                painter.setRenderHint(QPainter.RenderHint.Antialiasing)
                painter.setPen(QPen(look.colours().ink, 1.3))
                x, y, reach = self.width() - look.px(8), self.height() / 2 + 1, look.px(3)
                painter.drawLine(round(x - reach), round(y - reach / 2), round(x), round(y + reach / 2))
                painter.drawLine(round(x), round(y + reach / 2), round(x + reach), round(y - reach / 2))


class FoldButton(FlatButton):
    """Opens and folds what stands below: an arrow right or down, and the words at 14."""

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(words, parent)
        self.setAccessibleName(words)

    def sizeHint(self) -> QSize:
        """Arrow and words."""
        return QSize(look.width_of(self.text(), 14, semibold=True) + look.px(34), max(24, look.px(26)))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Arrow and words."""
        shades = look.colours()
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(shades.ink, 1.5))
            x, y, reach = float(look.px(12)), self.height() / 2, float(look.px(4))
            if self.isChecked():
                corners = [(x - reach, y - reach / 2), (x, y + reach / 2), (x + reach, y - reach / 2)]
            else:
                corners = [(x - reach / 2, y - reach), (x + reach / 2, y), (x - reach / 2, y + reach)]
            painter.drawPolyline([QPointF(*corner) for corner in corners])
            painter.setFont(look.font(14, semibold=True))
            room = self.rect().adjusted(look.px(24), 0, 0, 0)
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.text())
            if self.hasFocus():
                painter.setPen(QPen(shades.chalk, 2))
                painter.drawRect(self.rect().adjusted(1, 1, -2, -2))
