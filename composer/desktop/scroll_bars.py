"""Scroll bars as one slim handle in the colours of the theme, without arrows.

A bar is as wide as a hand with a mouse needs to catch it, and the handle is drawn narrower. Wheel, arrow and page
keys do the same (WCAG 2.2, 2.5.8 leaves out a target that has such an equal).
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractScrollArea, QScrollBar, QWidget

from composer.desktop.theme import theme

WIDTH, HANDLE, HANDLE_HELD = 14, 6, 8
"""Pixels at 100 %: the bar, its handle, and the handle under the pointer or in hand."""
SHORTEST = 32


class SlimBar(QScrollBar):
    """Drawn, and worked with the pointer, as one handle on nothing."""

    def __init__(self, orientation: Qt.Orientation, parent: QWidget | None = None) -> None:
        super().__init__(orientation, parent)
        self._held: float | None = None
        """Where in the handle it was taken hold of, pixels from its start."""
        self.setMouseTracking(True)

    def sizeHint(self) -> QSize:
        """Slim."""
        wide = theme().px(WIDTH)
        return QSize(wide, 60) if self.orientation() == Qt.Orientation.Vertical else QSize(60, wide)

    def _along(self, at: QMouseEvent) -> float:
        return at.position().y() if self.orientation() == Qt.Orientation.Vertical else at.position().x()

    def _length(self) -> int:
        return self.height() if self.orientation() == Qt.Orientation.Vertical else self.width()

    def _handle(self) -> tuple[float, float]:
        """Start and length of the handle along the bar, pixels."""
        span, whole = self.maximum() - self.minimum(), self._length()
        if span <= 0:
            return 0.0, float(whole)
        page = max(1, self.pageStep())
        long = min(float(whole), max(float(theme().px(SHORTEST)), whole * page / (span + page)))
        return (whole - long) * (self.sliderPosition() - self.minimum()) / span, long

    def paintEvent(self, event: QPaintEvent) -> None:
        """The handle alone; the ground is that of what scrolls."""
        look = theme()
        start, long = self._handle()
        busy = self._held is not None or self.underMouse()
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), self.palette().color(self.backgroundRole()))
            if self.maximum() <= self.minimum():
                return
            wide = look.px(HANDLE_HELD if busy else HANDLE)
            if self.orientation() == Qt.Orientation.Vertical:
                box = QRectF((self.width() - wide) / 2, start + 2, wide, long - 4)
            else:
                box = QRectF(start + 2, (self.height() - wide) / 2, long - 4, wide)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.colour("pencil" if busy else "field_line"))
            painter.drawRoundedRect(box, 3, 3)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Takes hold of the handle; beside it, goes a page that way."""
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        at, (start, long) = self._along(event), self._handle()
        if start <= at <= start + long:
            self._held = at - start
            self.setSliderDown(True)
        else:
            step = (
                QScrollBar.SliderAction.SliderPageStepSub if at < start else QScrollBar.SliderAction.SliderPageStepAdd
            )
            self.triggerAction(step)
        self.update()
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The handle follows the hand."""
        if self._held is None:
            return
        _, long = self._handle()
        room = self._length() - long
        if room > 0:
            share = (self._along(event) - self._held) / room
            self.setSliderPosition(self.minimum() + round(share * (self.maximum() - self.minimum())))
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Lets go."""
        self._held = None
        self.setSliderDown(False)
        self.update()
        event.accept()

    def enterEvent(self, event: QEvent) -> None:
        """Stronger under the pointer."""
        self.update()

    def leaveEvent(self, event: QEvent) -> None:
        """As before."""
        self.update()


def slim(area: QAbstractScrollArea) -> None:
    """Gives what scrolls slim bars; how far they show is left as it is."""
    area.setVerticalScrollBar(SlimBar(Qt.Orientation.Vertical))
    if area.horizontalScrollBarPolicy() != Qt.ScrollBarPolicy.ScrollBarAlwaysOff:
        area.setHorizontalScrollBar(SlimBar(Qt.Orientation.Horizontal))
