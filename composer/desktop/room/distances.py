"""Dimensions of what is in hand or selected: how far it is to what lies beside and below it.

Drawn as on a joiner's drawing: a thin line with open ticks, the number beside it. Made once and shown
or hidden; each covers only its own strip.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from composer.desktop.room.coordinates import to_scene
from composer.desktop.room.piece_item import faded
from composer.desktop.theme import theme
from composer.geometry.rectangle import Rectangle

Z_DISTANCE = 40.0
LEAST_PX = 14
"""Shorter than this the number would say more than the line can show."""
TICK_PX = 3
Side = Literal["left", "right", "below"]


class Distance(NamedTuple):
    """A dimension: from one place to another along one axis, mm."""

    side: Side
    start: tuple[float, float]
    end: tuple[float, float]

    @property
    def length(self) -> float:
        """How far it is, mm."""
        return abs(self.end[0] - self.start[0]) + abs(self.end[1] - self.start[1])


def distances(box: Rectangle, others: Iterable[Rectangle], width: float, skip: Sequence[Side] = ()) -> list[Distance]:
    """To the nearest thing facing the box at the left, at the right and below, else to the wall's ends and the floor.

    A side where something overlaps the box has none.
    """
    left, right, below = 0.0, width, 0.0
    covered = set(skip)
    for other in others:
        beside = other.bottom < box.top and box.bottom < other.top
        under = other.left < box.right and box.left < other.right
        if beside and under:
            if other.left < box.left:
                covered.add("left")
            if other.right > box.right:
                covered.add("right")
            if other.bottom < box.bottom:
                covered.add("below")
        elif beside and other.right <= box.left:
            left = max(left, other.right)
        elif beside:
            right = min(right, other.left)
        elif under and other.top <= box.bottom:
            below = max(below, other.top)
    x, y = box.centre
    found: list[Distance] = []
    if "left" not in covered and box.left > left:
        found.append(Distance("left", (left, y), (box.left, y)))
    if "right" not in covered and right > box.right:
        found.append(Distance("right", (box.right, y), (right, y)))
    if "below" not in covered and box.bottom > below:
        found.append(Distance("below", (x, below), (x, box.bottom)))
    return found


class DistanceItem(QGraphicsItem):
    """One dimension with its number."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(Z_DISTANCE)
        self._line = QLineF()
        self._words = ""
        self._scale = 0.2
        self._bounds = QRectF()
        self._halo = QRectF()
        self.hide()

    def show_distance(self, start: tuple[float, float], end: tuple[float, float], words: str, px_per_mm: float) -> None:
        """Shows it between two places, mm."""
        self.prepareGeometryChange()
        one, two = to_scene(*start), to_scene(*end)
        self._line, self._words, self._scale = QLineF(one, two), words, px_per_mm
        metrics = QFontMetrics(theme().font(12))
        width, height = (metrics.horizontalAdvance(words) + 6) / px_per_mm, metrics.height() / px_per_mm
        middle = QPointF((one.x() + two.x()) / 2, (one.y() + two.y()) / 2)
        if one.y() == two.y():
            self._halo = QRectF(middle.x() - width / 2, middle.y() - height - 3 / px_per_mm, width, height)
        else:
            self._halo = QRectF(middle.x() + 6 / px_per_mm, middle.y() - height / 2, width, height)
        room = (TICK_PX + 2) / px_per_mm
        self._bounds = QRectF(one, two).normalized().adjusted(-room, -room, room, room).united(self._halo)
        self.show()
        self.update()

    def boundingRect(self) -> QRectF:
        """Line, ticks and number."""
        return self._bounds

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer."""
        return QPainterPath()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it."""
        look = theme()
        world = painter.worldTransform()
        one, two = world.map(self._line.p1()), world.map(self._line.p2())
        one, two = QPointF(round(one.x()), round(one.y())), QPointF(round(two.x()), round(two.y()))
        halo = QRectF(world.mapRect(self._halo).toRect())
        painter.resetTransform()
        painter.setPen(QPen(look.colour("pencil"), 1))
        tick = QPointF(TICK_PX, -TICK_PX)
        painter.drawLine(one, two)
        painter.drawLine(one - tick, one + tick)
        painter.drawLine(two - tick, two + tick)
        painter.fillRect(halo, faded(look.colour("surface"), 80))
        painter.setFont(look.font(12))
        painter.drawText(halo, Qt.AlignmentFlag.AlignCenter, self._words)


class Distances:
    """Up to three dimensions of a room."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._items = [DistanceItem() for _ in range(3)]
        for item in self._items:
            scene.addItem(item)

    def show(self, found: Sequence[tuple[Distance, str]], px_per_mm: float) -> None:
        """Shows exactly these, each with its number, but for those too short to draw."""
        wanted = [(distance, words) for distance, words in found if distance.length * px_per_mm >= LEAST_PX]
        for item, (distance, words) in zip(self._items, wanted, strict=False):
            item.show_distance(distance.start, distance.end, words, px_per_mm)
        for item in self._items[len(wanted) :]:
            if item.isVisible():
                item.hide()

    def hide(self) -> None:
        """None."""
        self.show((), 1.0)
