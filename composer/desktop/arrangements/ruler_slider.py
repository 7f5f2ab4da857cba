"""A slider drawn as a small ruler: open ticks, a plain handle, the value in words above."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QSlider, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_row import Words
from composer.desktop.fields import new_gesture

HANDLE_WIDTH, HANDLE_HEIGHT = 8, 17
TICKS = 20


class Ruler(QSlider):
    """The ruler itself; a press takes the handle to where it is."""

    def __init__(self, name: str, least: int, most: int, step: int, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setRange(least, most)
        self.setSingleStep(step)
        self.setPageStep(step * 5)
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.marks: tuple[int, ...] = ()
        """Values of a usual rule, marked by longer ticks."""

    def sizeHint(self) -> QSize:
        """High enough for a finger."""
        return QSize(look.px(160), max(26, look.px(26)))

    def _x(self, value: float) -> float:
        room = self.width() - HANDLE_WIDTH - 4
        span = max(1, self.maximum() - self.minimum())
        return 2 + HANDLE_WIDTH / 2 + room * (value - self.minimum()) / span

    def _take(self, x: float) -> None:
        room = max(1, self.width() - HANDLE_WIDTH - 4)
        share = min(1.0, max(0.0, (x - 2 - HANDLE_WIDTH / 2) / room))
        steps = round(share * (self.maximum() - self.minimum()) / self.singleStep())
        self.setValue(min(self.maximum(), self.minimum() + steps * self.singleStep()))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """The handle comes to the pointer."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.setSliderDown(True)
            self._take(event.position().x())
            event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """And follows it."""
        if self.isSliderDown():
            self._take(event.position().x())
            event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Until it is let go."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.setSliderDown(False)
            event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter and Esc belong to the card."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape):
            event.ignore()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Line, ticks, marks of the rule, handle."""
        shades = look.colours()
        middle = self.height() / 2
        with QPainter(self) as painter:
            painter.setPen(QPen(shades.pencil if self.isEnabled() else shades.line, 1))
            first, last = self._x(self.minimum()), self._x(self.maximum())
            painter.drawLine(QPointF(round(first), middle), QPointF(round(last), middle))
            for tick in range(TICKS + 1):
                x = round(first + (last - first) * tick / TICKS)
                painter.drawLine(QPointF(x, middle), QPointF(x, middle + (6 if tick % 5 == 0 else 3)))
            painter.setPen(QPen(shades.ink, 1))
            for mark in self.marks:
                x = round(self._x(mark))
                painter.drawLine(QPointF(x, middle - 8), QPointF(x, middle + 8))
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            handle = QRectF(
                self._x(self.value()) - HANDLE_WIDTH / 2, middle - HANDLE_HEIGHT / 2, HANDLE_WIDTH, HANDLE_HEIGHT
            )
            painter.setBrush(shades.surface)
            painter.setPen(QPen(shades.chalk if self.hasFocus() else shades.ink, 2 if self.hasFocus() else 1.2))
            painter.drawRoundedRect(handle, 2, 2)


class RulerSlider(QWidget):
    """Name and value above a ruler, its ends and a usual rule in words below.

    Signals:
        moved: another value, while it is being dragged or stepped.
    """

    moved = Signal(int)

    def __init__(
        self, name: str, least: int, most: int, *, step: int = 1, ends: tuple[str, str] = ("", ""), rule: str = ""
    ) -> None:
        super().__init__()
        self.gesture = new_gesture()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        head = QHBoxLayout()
        self.name, self.value_words = Words(name, 14), Words("", 14, semibold=True)
        self.value_words.setAlignment(Qt.AlignmentFlag.AlignRight)
        head.addWidget(self.name)
        head.addWidget(self.value_words, 1)
        column.addLayout(head)
        self.ruler = Ruler(name, least, most, step)
        column.addWidget(self.ruler)
        foot = QHBoxLayout()
        low, high = Words(ends[0], 12, "pencil"), Words(ends[1], 12, "pencil")
        for words in (low, high):
            words.setWordWrap(False)
        foot.addWidget(low)
        if rule:
            middle = Words(rule, 12, "pencil")
            middle.setAlignment(Qt.AlignmentFlag.AlignHCenter)
            foot.addWidget(middle, 1)
        else:
            foot.addStretch(1)
        foot.addWidget(high)
        column.addLayout(foot)
        self.ruler.sliderPressed.connect(self._begin)
        self.ruler.installEventFilter(self)
        self.ruler.valueChanged.connect(self.moved)

    def _begin(self) -> None:
        """Whatever is done until the next press or visit is one step of undo."""
        self.gesture = new_gesture()

    def eventFilter(self, watched: object, event: QEvent) -> bool:
        """A visit by keyboard is one step of undo."""
        if event.type() == QEvent.Type.FocusIn:
            self._begin()
        return False

    def show_value(self, value: int, words: str) -> None:
        """A value that was set elsewhere."""
        if value != self.ruler.value():
            self.ruler.blockSignals(True)
            self.ruler.setValue(value)
            self.ruler.blockSignals(False)
            self.ruler.update()
        self.show_words(words)

    def show_words(self, words: str) -> None:
        """The value in words."""
        self.value_words.setText(words)
        self.ruler.setAccessibleDescription(words)
