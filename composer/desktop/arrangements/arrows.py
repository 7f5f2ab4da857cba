"""Arrows on the wall: which piece would move, which way, and how far in figures.

A move of a few millimetres is a pixel on the screen, so an arrow has a length of its own; the figure beside it counts.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPainterPath, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from composer.desktop.room.scene import RoomScene
from composer.desktop.theme import theme

Z_ARROWS = 45.0
LENGTH_PX, HEAD_PX = 26.0, 6.0
LEAST_MM = 0.05


class ArrowItem(QGraphicsItem):
    """One arrow from a piece's middle along one axis, its figure at its point."""

    def __init__(self, start: QPointF, across: int, up: int, words: str) -> None:
        super().__init__()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setZValue(Z_ARROWS)
        self.setPos(start)
        self.words = words
        self._end = QPointF(across * LENGTH_PX, -up * LENGTH_PX)
        metrics = QFontMetrics(theme().font(12, semibold=True))
        width, height = metrics.horizontalAdvance(words) + 8, metrics.height() + 1
        if across:
            left = self._end.x() + (4 if across > 0 else -4 - width)
            self._tag = QRectF(left, -height / 2, width, height)
        else:
            top = self._end.y() + (4 if up < 0 else -4 - height)
            self._tag = QRectF(-width / 2, top, width, height)

    def boundingRect(self) -> QRectF:
        """Arrow and figure."""
        return QRectF(QPointF(0, 0), self._end).normalized().adjusted(-9, -9, 9, 9).united(self._tag)

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer."""
        return QPainterPath()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Chalk on a light edge, the figure in a chalk tag."""
        look = theme()
        light = QColor(look.colour("surface"))
        light.setAlphaF(0.85)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        turn = math.atan2(self._end.y(), self._end.x())
        wings = [self._end - QPointF(math.cos(turn + side), math.sin(turn + side)) * HEAD_PX for side in (-0.5, 0.5)]
        for colour, width in ((light, 6.0), (look.colour("chalk"), 2.0)):
            painter.setPen(QPen(colour, width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
            painter.setBrush(colour)
            painter.drawLine(QPointF(0, 0), self._end)
            painter.drawPolygon(QPolygonF([self._end, *wings]))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.fillRect(self._tag, look.colour("chalk"))
        painter.setFont(look.font(12, semibold=True))
        painter.setPen(look.colour("on_fill"))
        painter.drawText(self._tag, Qt.AlignmentFlag.AlignCenter, self.words)


class Arrows:
    """All arrows of one proposal."""

    def __init__(self, room: RoomScene) -> None:
        self._room = room
        self.items: list[ArrowItem] = []

    def show(self, moves: Iterable[tuple[QPointF, float, float, str, str]]) -> None:
        """Shows exactly these: scene place, mm across and up, and the figure for each of the two."""
        self.end()
        for start, dx, dy, across, up in moves:
            if abs(dx) >= LEAST_MM:
                self._add(ArrowItem(start, 1 if dx > 0 else -1, 0, across))
            if abs(dy) >= LEAST_MM:
                self._add(ArrowItem(start, 0, 1 if dy > 0 else -1, up))

    def _add(self, item: ArrowItem) -> None:
        self._room.addItem(item)
        self.items.append(item)

    def end(self) -> None:
        """None."""
        for item in self.items:
            if item.scene() is not None:
                item.scene().removeItem(item)
        self.items = []
