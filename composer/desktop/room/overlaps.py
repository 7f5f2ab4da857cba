"""Where pieces lie over each other: the part they share is hatched, so that it never hangs on colour alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPainterPath, QPen, QPixmap
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from composer.desktop.room.coordinates import rect_to_scene
from composer.desktop.theme import theme
from composer.geometry.rectangle import Rectangle

Z_OVERLAP_AT_REST, Z_OVERLAP_IN_HAND = 12.0, 61.0
MOST = 40
"""So many are shown; on a wall with more, more hatching would help nobody."""
STEP_PX = 6


class OverlapItem(QGraphicsItem):
    """One shared part."""

    def __init__(self, z: float) -> None:
        super().__init__()
        self.setZValue(z)
        self._box = QRectF()
        self.hide()

    def show_box(self, box: Rectangle) -> None:
        """Shows it there, mm."""
        self.prepareGeometryChange()
        scene = rect_to_scene(box)
        self._box = QRectF(0, 0, scene.width(), scene.height())
        self.setPos(scene.topLeft())
        self.show()
        self.update()

    def boundingRect(self) -> QRectF:
        """The part with its edge."""
        return self._box.adjusted(-9, -9, 9, 9)

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer."""
        return QPainterPath()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Slanting lines within an edge; two thin rectangles, since a pen of another width costs ten times as much."""
        box = painter.worldTransform().mapRect(self._box).toRect()
        painter.resetTransform()
        painter.fillRect(box, _hatching(float(painter.device().devicePixelRatio())))
        painter.setPen(theme().colour("stop"))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box.adjusted(0, 0, -1, -1))
        painter.drawRect(box.adjusted(1, 1, -2, -2))


_made: dict[tuple[float, int], QBrush] = {}


def _hatching(ratio: float) -> QBrush:
    """Slanting lines as a tile, drawn once a scheme: hatching a moving part line by line would slow the drag."""
    key = (ratio, theme().generation)
    if key not in _made:
        _made.clear()
        side = round(STEP_PX * ratio)
        tile = QPixmap(side, side)
        tile.setDevicePixelRatio(ratio)
        tile.fill(Qt.GlobalColor.transparent)
        with QPainter(tile) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            painter.setPen(QPen(theme().colour("stop"), 1.5))
            for shift in (-STEP_PX, 0, STEP_PX):
                painter.drawLine(QLineF(shift - 1, STEP_PX + 1, shift + STEP_PX + 1, -1))
        _made[key] = QBrush(tile)
    return _made[key]


class Overlaps:
    """The hatching of a room, at rest or for what is in hand."""

    def __init__(self, scene: QGraphicsScene, z: float) -> None:
        self._scene, self._z = scene, z
        self._items: list[OverlapItem] = []

    def show(self, boxes: Iterable[Rectangle]) -> None:
        """Hatches exactly these."""
        used = 0
        for box in boxes:
            if used == MOST:
                break
            if used == len(self._items):
                self._items.append(OverlapItem(self._z))
                self._scene.addItem(self._items[-1])
            self._items[used].show_box(box)
            used += 1
        for item in self._items[used:]:
            if item.isVisible():
                item.hide()

    @property
    def shown(self) -> int:
        """How many are shown."""
        return sum(1 for item in self._items if item.isVisible())


def shared(one: Rectangle, other: Rectangle) -> Rectangle:
    """What two rectangles that meet have in common."""
    return Rectangle(
        max(one.left, other.left), max(one.bottom, other.bottom), min(one.right, other.right), min(one.top, other.top)
    )


def overlapping(boxes: Sequence[Rectangle]) -> Iterator[Rectangle]:
    """The shared part of every two that meet, by a sweep from left to right."""
    ordered = sorted(boxes)
    for place, one in enumerate(ordered):
        for other in ordered[place + 1 :]:
            if other.left >= one.right:
                break
            if one.meets(other):
                yield shared(one, other)
