"""A card: a name on top, and sections that say their result in one sentence and open to show the working."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from PySide6.QtCore import QEvent, QPointF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPalette, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QFrame,
    QHBoxLayout,
    QLabel,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from composer.desktop import field_look as look
from composer.desktop.field_row import Words
from composer.desktop.scroll_bars import slim
from composer.hanging.working import WrittenLine
from composer.texts import say


class Head(QAbstractButton):
    """The head of a section: name, sentence, arrow; a click or Space opens and closes it."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._name, self._sentence = name, ""
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(name)

    def set_sentence(self, sentence: str) -> None:
        """The result, in one sentence."""
        if sentence != self._sentence:
            self._sentence = sentence
            self.setAccessibleDescription(sentence)
            self._fit()
            self.update()

    @property
    def sentence(self) -> str:
        """The result shown."""
        return self._sentence

    def _fit(self) -> None:
        high = self._height(self.width())
        if self.height() != high:
            self.setFixedHeight(high)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """A long sentence wraps at the new width."""
        super().resizeEvent(event)
        self._fit()

    def _height(self, width: int) -> int:
        return self._name_height() + self._text_height(width) + look.px(18)

    def _name_height(self) -> int:
        return look.height_of(self._name, 12, 10000, semibold=True)

    def _text_height(self, width: int) -> int:
        room = width - look.px(44)
        return look.height_of(self._sentence or " ", 14, max(40, room), semibold=True)

    def sizeHint(self) -> QSize:
        """At the width it has."""
        width = max(look.px(240), self.width())
        return QSize(width, self._height(width))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Name in pencil, sentence in ink, an arrow right or down."""
        shades, left, top = look.colours(), look.px(16), look.px(8)
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), shades.surface_2 if self.underMouse() else shades.surface)
            painter.setPen(QPen(shades.line, 1))
            painter.drawLine(0, 0, self.width(), 0)
            painter.setFont(look.font(12, semibold=True))
            painter.setPen(shades.pencil)
            high = self._name_height()
            painter.drawText(left, top, self.width() - left, high, Qt.AlignmentFlag.AlignLeft, self._name)
            painter.setFont(look.font(14, semibold=self.isChecked()))
            painter.setPen(shades.ink)
            flags = int(Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap)
            room = self.rect().adjusted(left, top + high + 2, -look.px(28), -look.px(6))
            painter.drawText(room, flags, self._sentence)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(shades.pencil, 1.5))
            x, y, reach = self.width() - look.px(16), top + high / 2 + look.px(2), look.px(4)
            if self.isChecked():
                painter.drawPolyline(
                    [QPointF(x - reach, y - reach / 2), QPointF(x, y + reach / 2), QPointF(x + reach, y - reach / 2)]
                )
            else:
                painter.drawPolyline(
                    [QPointF(x - reach / 2, y - reach), QPointF(x + reach / 2, y), QPointF(x - reach / 2, y + reach)]
                )
            if self.hasFocus():
                painter.setPen(QPen(shades.chalk, 2))
                painter.drawRect(self.rect().adjusted(1, 1, -2, -2))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return opens as Space does; right opens, left closes."""
        if (
            event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
            or (event.key() == Qt.Key.Key_Right and not self.isChecked())
            or (event.key() == Qt.Key.Key_Left and self.isChecked())
        ):
            self.click()
        else:
            super().keyPressEvent(event)


class Section(QWidget):
    """One section; what stands in it is built when it is opened for the first time."""

    opened = Signal(bool)

    def __init__(self, name: str, build: Callable[[QVBoxLayout], None], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._build = build
        self.body: QWidget | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self.head = Head(name)
        self.head.toggled.connect(self._on_toggled)
        column.addWidget(self.head)

    @property
    def is_built(self) -> bool:
        """Whether it was ever opened."""
        return self.body is not None

    @property
    def is_open(self) -> bool:
        """Whether it stands open."""
        return self.head.isChecked()

    def set_open(self, is_open: bool) -> None:
        """Opens or closes it."""
        self.head.setChecked(is_open)

    def _on_toggled(self, is_open: bool) -> None:
        if is_open and self.body is None:
            self.body = QWidget()
            column = QVBoxLayout(self.body)
            column.setContentsMargins(look.px(16), 0, look.px(12), look.px(12))
            column.setSpacing(look.px(8))
            self._build(column)
            layout = self.layout()
            assert layout is not None
            layout.addWidget(self.body)
        if self.body is not None:
            self.body.setVisible(is_open)
        self.opened.emit(is_open)


class Working(QFrame):
    """How numbers came about: expression left, result right, below what the terms are and whose rule it is."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(look.px(10), look.px(8), look.px(10), look.px(8))
        self._column.setSpacing(2)
        self._shown: tuple[WrittenLine, ...] | None = None

    def show_lines(self, lines: Iterable[WrittenLine]) -> None:
        """Shows other lines; hides itself when there are none."""
        lines = tuple(lines)
        if lines == self._shown:
            return
        self._shown = lines
        while (item := self._column.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for line in lines:
            self._add(line)
        self.setVisible(bool(lines))

    def _add(self, line: WrittenLine) -> None:
        row = QWidget()
        across = QHBoxLayout(row)
        across.setContentsMargins(0, 0, 0, 0)
        across.addWidget(Words(line.expression, 14), 1)
        result = Words(line.result, 14, semibold=True)
        result.setWordWrap(False)
        result.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        across.addWidget(result)
        self._column.addWidget(row)
        terms = ", ".join(say("{amount} {what}", amount=amount, what=what) for amount, what in line.terms)
        self._column.addWidget(
            Words(say("{what}: {terms}", what=line.what, terms=terms) if terms else line.what, 12, "pencil")
        )
        self._column.addWidget(Words(line.why, 12, "pencil"))

    def paintEvent(self, event: QPaintEvent) -> None:
        """A block on surface-2."""
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), look.colours().surface_2)


class Card(QScrollArea):
    """Everything about what is selected, in a column that scrolls."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        slim(self)
        self.content = QWidget()
        self.column = QVBoxLayout(self.content)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(0)
        self.column.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.setWidget(self.content)
        self.setMinimumWidth(look.px(280))
        self._take_ground()

    def _take_ground(self) -> None:
        palette = self.content.palette()
        palette.setColor(QPalette.ColorRole.Window, look.colours().surface)
        self.content.setPalette(palette)
        self.content.setAutoFillBackground(True)
        self.viewport().setPalette(palette)
        self.viewport().setAutoFillBackground(True)

    def changeEvent(self, event: QEvent) -> None:
        """Follows the scheme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ApplicationPaletteChange and hasattr(self, "content"):
            self._take_ground()

    def sizeHint(self) -> QSize:
        """As wide as the card is meant to be."""
        return QSize(look.px(328), look.px(640))

    def add_section(self, section: Section) -> Section:
        """One more section at the end."""
        self._add(section)
        return section

    def _add(self, widget: QWidget) -> None:
        """At the end, above the stretch that takes what is left of the height."""
        if self.column.count() == 0:
            self.column.addStretch(1)
        self.column.insertWidget(self.column.count() - 1, widget)

    def add_top(self, widget: QWidget) -> None:
        """A widget over the card's whole width."""
        self._add(widget)

    def add_padded(self, widget: QWidget) -> QWidget:
        """A widget with the card's side padding."""
        box = QWidget()
        column = QVBoxLayout(box)
        column.setContentsMargins(look.px(16), look.px(4), look.px(12), look.px(10))
        column.addWidget(widget)
        self._add(box)
        return box


class Title(QWidget):
    """The card's own name: a filled number where it is a piece, the name at 18, one line below."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        row = QHBoxLayout(self)
        row.setContentsMargins(look.px(16), look.px(12), look.px(12), look.px(8))
        row.setSpacing(look.px(10))
        self.numbers = NumberTags()
        row.addWidget(self.numbers, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout()
        column.setSpacing(0)
        self.name = Words("", 18, semibold=True)
        self.line = Words("", 12, "pencil")
        column.addWidget(self.name)
        column.addWidget(self.line)
        row.addLayout(column, 1)

    def show_title(self, name: str, line: str, numbers: Iterable[int] = ()) -> None:
        """Shows another title."""
        self.numbers.show_numbers(numbers)
        self.name.setText(name)
        self.line.setText(line)
        self.line.setVisible(bool(line))


class NumberTags(QLabel):
    """Numbers of pieces on accent squares."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers: tuple[int, ...] = ()

    def show_numbers(self, numbers: Iterable[int]) -> None:
        """Shows other numbers; hides itself without any."""
        self._numbers = tuple(numbers)
        self.setVisible(bool(self._numbers))
        self.setAccessibleName(", ".join(map(str, self._numbers)))
        side = look.px(26 if len(self._numbers) == 1 else 20)
        widths = [max(side, look.width_of(str(number), 18, semibold=True) + look.px(8)) for number in self._numbers[:6]]
        self.setFixedSize(sum(widths) + 4 * max(0, len(widths) - 1), side)
        self._widths = widths
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Filled squares, semibold numbers."""
        shades, x = look.colours(), 0
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(look.font(18 if len(self._numbers) == 1 else 12, semibold=True))
            for place, (number, width) in enumerate(zip(self._numbers, self._widths, strict=False)):
                words = "…" if place == 5 and len(self._numbers) > 6 else str(number)
                painter.setPen(Qt.PenStyle.NoPen)
                painter.setBrush(shades.accent)
                painter.drawRoundedRect(x, 0, width, self.height(), 3, 3)
                painter.setPen(shades.on_fill)
                painter.drawText(x, 0, width, self.height(), Qt.AlignmentFlag.AlignCenter, words)
                x += width + 4
