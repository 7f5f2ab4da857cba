"""Rulers along the top and the left, with a band that shows the extent of what is selected."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QWidget

from composer.desktop.room.view import RoomView
from composer.desktop.theme import theme
from composer.desktop.units_shown import number, style_of

ACROSS_HEIGHT, DOWN_WIDTH = 22, 24
GIVE_WAY_ACROSS, GIVE_WAY_DOWN = 26, 44
LEAST_NUMBER_PX = 56


class Ruler(QWidget):
    """One ruler; it reads the view and is told when to."""

    def __init__(self, view: RoomView, *, across: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view = view
        self._across = across
        view.moved.connect(self.update)
        view.scale_changed.connect(self.update)
        view.carried.connect(self.update)
        view.room.selection.changed.connect(self.update)
        view.room.opened.project_changed.connect(self._on_change)

    def _on_change(self, *_: object) -> None:
        self.update()

    def sizeHint(self) -> QSize:
        """As thick as its numbers need."""
        look = theme()
        return QSize(100, look.px(ACROSS_HEIGHT)) if self._across else QSize(look.px(DOWN_WIDTH), 100)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draws ticks, numbers and the band."""
        look = theme()
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), look.colour("surface"))
            painter.setFont(look.font(11))
            band = self._band()
            if band is not None:
                low, high = band[0], band[1]
                area = (
                    QRectF(low, 0, high - low, self.height())
                    if self._across
                    else QRectF(0, low, self.width(), high - low)
                )
                painter.fillRect(area, look.colour("accent_wash"))
            self._draw_ticks(painter, band)
            if band is not None:
                self._draw_band_numbers(painter, band)
            painter.setPen(look.colour("line"))
            if self._across:
                painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
            else:
                painter.drawLine(self.width() - 1, 0, self.width() - 1, self.height())

    def _place(self, mm: float) -> float:
        """Pixel of a wall coordinate along the ruler."""
        scale, origin = self._view.px_per_mm, self._view.mapFromScene(QPointF(0, 0))
        return origin.x() + mm * scale if self._across else origin.y() - mm * scale

    def _band(self) -> tuple[float, float, float, float] | None:
        box = self._view.room.selection_box()
        if box is None or box.top <= 0:
            return None
        low, high = (box.left, box.right) if self._across else (box.bottom, box.top)
        one, other = sorted((self._place(low), self._place(high)))
        return round(one), round(other), low, high

    def _steps(self) -> tuple[float, int]:
        """Distance between numbers in mm, and how many ticks divide it."""
        scale = self._view.px_per_mm
        style = style_of(self._view.room.project)
        if style.unit == "in":
            choices = [
                (25.4 * inches, parts)
                for inches, parts in ((1, 4), (2, 4), (6, 6), (12, 12), (24, 4), (60, 5), (120, 10))
            ]
        else:
            choices = [(mm, 5) for mm in (10, 50, 100, 500, 1000, 5000, 10000)]
        needed = theme().px(LEAST_NUMBER_PX if self._across else 44)
        return next(((mm, parts) for mm, parts in choices if mm * scale >= needed), choices[-1])

    def _draw_ticks(self, painter: QPainter, band: tuple[float, float, float, float] | None) -> None:
        look = theme()
        wall = self._view.room.wall
        if wall is None:
            return
        step, parts = self._steps()
        style = style_of(self._view.room.project)
        limit = float(wall.width.mm if self._across else wall.height.mm)
        metrics = QFontMetrics(look.font(11))
        painter.setPen(QPen(look.colour("pencil"), 1))
        count = int(limit / step * parts + 1e-9)
        for tick in range(count + 1):
            mm = tick * step / parts
            at = round(self._place(mm))
            whole = tick % parts == 0
            length = 7 if whole else 4
            if self._across:
                painter.drawLine(at, self.height() - length, at, self.height() - 1)
            else:
                painter.drawLine(self.width() - length, at, self.width() - 1, at)
            away = look.px(GIVE_WAY_ACROSS + 14 if self._across else GIVE_WAY_DOWN)
            if whole and not (band is not None and any(abs(at - end) < away for end in band[:2])):
                words = number(mm, style)
                self._write(painter, at, words, metrics)

    def _draw_band_numbers(self, painter: QPainter, band: tuple[float, float, float, float]) -> None:
        look = theme()
        style = style_of(self._view.room.project)
        painter.setFont(look.font(11, semibold=True))
        painter.setPen(look.colour("accent"))
        metrics = QFontMetrics(look.font(11, semibold=True))
        first, second, low, high = band
        if self._across:
            painter.drawLine(int(first), 0, int(first), self.height())
            painter.drawLine(int(second), 0, int(second), self.height())
            left = number(low, style)
            painter.drawText(QPointF(first - metrics.horizontalAdvance(left) - 3, metrics.ascent() + 1), left)
            painter.drawText(QPointF(second + 3, metrics.ascent() + 1), number(high, style))
        else:
            painter.drawLine(0, int(first), self.width(), int(first))
            painter.drawLine(0, int(second), self.width(), int(second))
            self._write_turned(painter, first - 4, number(high, style), metrics, below=False)
            self._write_turned(painter, second + 4, number(low, style), metrics, below=True)

    def _write(self, painter: QPainter, at: int, words: str, metrics: QFontMetrics) -> None:
        if self._across:
            painter.drawText(QPointF(at - metrics.horizontalAdvance(words) / 2, metrics.ascent() + 1), words)
        else:
            self._write_turned(painter, at + metrics.horizontalAdvance(words) / 2, words, metrics, below=None)

    def _write_turned(
        self, painter: QPainter, at: float, words: str, metrics: QFontMetrics, *, below: bool | None
    ) -> None:
        painter.save()
        start = at if below is not True else at + metrics.horizontalAdvance(words)
        painter.translate(metrics.ascent() + 1, start)
        painter.rotate(-90)
        painter.drawText(QPointF(0, 0), words)
        painter.restore()


class Corner(QWidget):
    """Where the rulers meet: the unit."""

    def __init__(self, view: RoomView, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view = view

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draws it."""
        look = theme()
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), look.colour("surface"))
            painter.setFont(look.font(11))
            painter.setPen(look.colour("pencil"))
            painter.drawText(QRect(self.rect()), Qt.AlignmentFlag.AlignCenter, style_of(self._view.room.project).unit)
            painter.setPen(look.colour("line"))
            painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
            painter.drawLine(self.width() - 1, 0, self.width() - 1, self.height())


class RoomPanel(QWidget):
    """View and rulers together."""

    def __init__(self, view: RoomView, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.view = view
        self.across, self.down, self.corner = Ruler(view, across=True), Ruler(view, across=False), Corner(view)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(0)
        grid.addWidget(self.corner, 0, 0)
        grid.addWidget(self.across, 0, 1)
        grid.addWidget(self.down, 1, 0)
        grid.addWidget(view, 1, 1)
        theme().changed.connect(self._on_theme)
        self._on_theme()

    def _on_theme(self) -> None:
        look = theme()
        self.across.setFixedHeight(look.px(ACROSS_HEIGHT))
        self.down.setFixedWidth(look.px(DOWN_WIDTH))
        self.update()
