"""Rulers along the top and the left, with a band that shows the extent of what is selected."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QGridLayout, QWidget

from composer.desktop.room.view import RoomView
from composer.desktop.theme import theme
from composer.desktop.units_shown import number

ACROSS_HEIGHT, DOWN_WIDTH = 22, 24
HALF_NUMBER = 22
"""Pixels by which an ordinary number may reach beyond its tick; so near to those of the band it gives way."""
LEAST_NUMBER_PX = 56


class Ruler(QWidget):
    """One ruler; it reads the view and is told when to."""

    def __init__(self, view: RoomView, *, across: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view = view
        self._across = across
        self._kept = QPixmap()
        self._kept_for: tuple[object, ...] = ()
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
        band = self._band()
        plain = self._plain()
        with QPainter(self) as painter:
            painter.drawPixmap(0, 0, plain)
            if band is not None:
                self._draw_band(painter, band)
            painter.setPen(look.colour("line"))
            if self._across:
                painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
            else:
                painter.drawLine(self.width() - 1, 0, self.width() - 1, self.height())

    def _plain(self) -> QPixmap:
        """The ruler without a band, kept until something of it changes: a drag only adds the band."""
        view, ratio = self._view, self.devicePixelRatioF()
        wall = view.room.wall
        limit = 0.0 if wall is None else float(wall.width.mm if self._across else wall.height.mm)
        style = view.room.project.length_style
        key = (view.px_per_mm, self._origin(), self.size(), ratio, theme().generation, limit, style)
        if key != self._kept_for:
            made = QPixmap(self.size() * ratio)
            made.setDevicePixelRatio(ratio)
            made.fill(theme().colour("surface"))
            with QPainter(made) as painter:
                self._draw_ticks(painter, 0.0, limit)
            self._kept, self._kept_for = made, key
        return self._kept

    def _origin(self) -> int:
        """Pixel of the wall's zero along the ruler."""
        origin = self._view.mapFromScene(QPointF(0, 0))
        return origin.x() if self._across else origin.y()

    def _place(self, mm: float) -> float:
        """Pixel of a wall coordinate along the ruler."""
        scale = self._view.px_per_mm
        return self._origin() + mm * scale if self._across else self._origin() - mm * scale

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
        style = self._view.room.project.length_style
        if style.unit == "in":
            choices = [
                (25.4 * inches, parts)
                for inches, parts in ((1, 4), (2, 4), (6, 6), (12, 12), (24, 4), (60, 5), (120, 10))
            ]
        else:
            choices = [(mm, 5) for mm in (10, 50, 100, 500, 1000, 5000, 10000)]
        needed = theme().px(LEAST_NUMBER_PX if self._across else 44)
        return next(((mm, parts) for mm, parts in choices if mm * scale >= needed), choices[-1])

    def _draw_ticks(self, painter: QPainter, low: float, high: float, taken: tuple[float, float] | None = None) -> None:
        """Ticks and numbers from one place of the wall to another, mm; none where other numbers stand (pixels)."""
        look = theme()
        step, parts = self._steps()
        style = self._view.room.project.length_style
        metrics = QFontMetrics(look.font(11))
        painter.setPen(QPen(look.colour("pencil"), 1))
        painter.setFont(look.font(11))
        scale, origin = self._view.px_per_mm, self._origin()
        end = self.width() if self._across else self.height()
        if not self._across:
            scale = -scale
        for tick in range(max(0, math.ceil(low / step * parts - 1e-9)), int(high / step * parts + 1e-9) + 1):
            mm = tick * step / parts
            at = round(origin + mm * scale)
            if not -40 <= at <= end + 40:
                continue
            whole = tick % parts == 0
            length = 7 if whole else 4
            if self._across:
                painter.drawLine(at, self.height() - length, at, self.height() - 1)
            else:
                painter.drawLine(self.width() - length, at, self.width() - 1, at)
            if whole and not (taken is not None and taken[0] < at < taken[1]):
                self._write(painter, at, number(mm, style), metrics)

    def _draw_band(self, painter: QPainter, band: tuple[float, float, float, float]) -> None:
        """The extent of what is selected with the numbers of both ends; ordinary numbers near it give way."""
        look = theme()
        style = self._view.room.project.length_style
        metrics = QFontMetrics(look.font(11, semibold=True))
        first, second, low, high = band
        words = (number(low, style), number(high, style)) if self._across else (number(high, style), number(low, style))
        before, after = (metrics.horizontalAdvance(text) + 6 for text in words)
        clear = (first - before - 2 * HALF_NUMBER, second + after + 2 * HALF_NUMBER)
        thick = self.height() if self._across else self.width()

        def strip(start: float, end: float) -> QRect:
            low, length = round(start), round(end) - round(start)
            return QRect(low, 0, length, thick) if self._across else QRect(0, low, thick, length)

        painter.fillRect(strip(*clear), look.colour("surface"))
        painter.fillRect(strip(first, second), look.colour("accent_wash"))
        scale = self._view.px_per_mm
        wall = self._view.room.wall
        limit = 0.0 if wall is None else float(wall.width.mm if self._across else wall.height.mm)
        origin = self._origin()
        ends = sorted((at - origin) / (scale if self._across else -scale) for at in clear)
        taken = (first - before - HALF_NUMBER, second + after + HALF_NUMBER)
        room = 2 * HALF_NUMBER / scale
        # Numbers cut by the cleared strip are made whole again, and only there: drawn twice they would look bold.
        painter.setClipRect(strip(*clear))
        self._draw_ticks(painter, max(0.0, ends[0] - room), min(limit, ends[1] + room), taken)
        painter.setClipping(False)
        painter.setFont(look.font(11, semibold=True))
        painter.setPen(look.colour("accent"))
        one, two = int(first), int(second)
        if self._across:
            painter.drawLine(one, 0, one, thick)
            painter.drawLine(two, 0, two, thick)
            left = max(1.0, first - before + 3)
            right = min(self.width() - after + 4, second + 3)
            painter.drawText(QPointF(left, metrics.ascent() + 1), words[0])
            painter.drawText(QPointF(right, metrics.ascent() + 1), words[1])
        else:
            painter.drawLine(0, one, thick, one)
            painter.drawLine(0, two, thick, two)
            self._write_turned(painter, max(first - 4, before - 4), words[0], metrics)
            self._write_turned(painter, min(second + after - 2, self.height() - 2), words[1], metrics)

    def _write(self, painter: QPainter, at: int, words: str, metrics: QFontMetrics) -> None:
        """A number in the middle of its tick, but never cut off at the ruler's end."""
        width = metrics.horizontalAdvance(words)
        if self._across:
            left = min(max(1.0, at - width / 2), self.width() - width - 1)
            painter.drawText(QPointF(left, metrics.ascent() + 1), words)
        else:
            self._write_turned(painter, min(max(width + 1.0, at + width / 2), self.height() - 1), words, metrics)

    @staticmethod
    def _write_turned(painter: QPainter, start: float, words: str, metrics: QFontMetrics) -> None:
        """Reading upwards from ``start``."""
        painter.save()
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
            painter.drawText(
                QRect(self.rect()), Qt.AlignmentFlag.AlignCenter, self._view.room.project.length_style.unit
            )
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
