"""The card beside the questions on a new wall: where to measure, how to write it, what can wait."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.card import Card, Title
from composer.desktop.cards.session import Session
from composer.desktop.field_row import LinkButton, Words
from composer.texts import say


class NewWall(Card):
    """Shown until the wall's width and height are known.

    Signals:
        sample_wanted, open_wanted: the links at the foot.
    """

    sample_wanted = Signal()
    open_wanted = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        metric = session.project.units == "metric"
        title = Title()
        title.show_title(say("New wall"), say("Two numbers, typed on the wall itself"))
        self.add_top(title)
        self._add_part(say("How to measure it"), WhereToMeasure(), self._words(_measuring()))
        ways = '3.2 m   320 cm   3200 mm\n10 ft 6 in   126"   125 63/64 in'
        unit = say("centimetres") if metric else say("inches")
        alone = say(
            "A number alone takes the unit in the field, here {unit}. What you type is kept as typed.", unit=unit
        )
        self._add_part(say("Ways to write a length"), self._words(ways, 14), self._words(alone))
        wait = say("What it is made of, holes or none, sofa, switches, eye line.")
        self._add_part(say("Can wait"), self._words(wait, 14))
        sample, other = LinkButton(say("Open the sample wall")), LinkButton(say("Open a project"))
        sample.clicked.connect(self.sample_wanted)
        other.clicked.connect(self.open_wanted)
        self._add_part(say("Instead"), sample, other)

    def _words(self, text: str, size: int = 12) -> Words:
        return Words(text, size, "ink" if size == 14 else "pencil")

    def _add_part(self, heading: str, *parts: QWidget) -> None:
        box = _Part()
        column = QVBoxLayout(box)
        column.setContentsMargins(0, look.px(8), 0, 0)
        column.setSpacing(look.px(6))
        column.addWidget(Words(heading, 12, "pencil", semibold=True))
        for part in parts:
            column.addWidget(part)
        self.add_padded(box)


def _measuring() -> str:
    return say(
        "Height in three places, width in two. Type the smallest of each. If they differ by more than 10 mm, "
        "draw the wall's corners later."
    )


class _Part(QWidget):
    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.fillRect(0, 0, self.width(), 1, look.colours().line)


class WhereToMeasure(QWidget):
    """A wall with three heights and two widths marked."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("Where to measure a wall: three heights, two widths"))

    def sizeHint(self) -> QSize:
        """Room for the drawing."""
        return QSize(look.px(240), look.px(170))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Dimension lines with open ticks, numbered in the order in which one measures."""
        shades = look.colours()
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            wide, high = look.px(200), look.px(150)
            wall = QRectF((self.width() - wide) / 2, look.px(10), wide, high)
            painter.setPen(QPen(shades.room_line, 1))
            painter.setBrush(shades.wall)
            painter.drawRect(wall)
            painter.setFont(look.font(12, semibold=True))
            for number, share in ((1, 0.06), (2, 0.5), (3, 0.94)):
                x = wall.left() + share * wide
                self._line(painter, QPointF(x, wall.top()), QPointF(x, wall.bottom()), number, 0.25)
            for number, share in ((5, 0.5), (4, 0.86)):
                y = wall.top() + share * high
                self._line(painter, QPointF(wall.left(), y), QPointF(wall.right(), y), number, 0.27)

    def _line(self, painter: QPainter, start: QPointF, end: QPointF, number: int, at: float) -> None:
        shades, tick = look.colours(), look.px(4)
        painter.setPen(QPen(shades.pencil, 1))
        painter.drawLine(start, end)
        for point in (start, end):
            painter.drawLine(point + QPointF(-tick, tick), point + QPointF(tick, -tick))
        middle = start + (end - start) * at
        size = look.px(16)
        box = QRectF(middle.x() - size / 2, middle.y() - size / 2, size, size)
        painter.fillRect(box, shades.wall)
        painter.setPen(shades.ink)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(number))
