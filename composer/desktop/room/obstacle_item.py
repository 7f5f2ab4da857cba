"""Something on the wall or in front of it: drawn plainly, with what is kept free around it, sized by hand."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from composer.catalogue.names import obstacle_name
from composer.desktop.room.coordinates import rect_to_scene
from composer.desktop.room.obstacle_drawing import draw_obstacle
from composer.desktop.room.piece_item import faded
from composer.desktop.theme import theme
from composer.geometry.rectangle import Rectangle
from composer.model import Key, Obstacle

Z_OPENING, Z_ON_WALL, Z_BEFORE = 4.0, 5.0, 20.0
"""A switch or a door is part of the wall, behind the pieces; furniture stands in front of them."""

Handle = Literal["left", "right", "bottom", "top", "bottom-left", "bottom-right", "top-left", "top-right"]
HANDLES: tuple[Handle, ...] = (
    "bottom-left", "bottom-right", "top-left", "top-right", "left", "right", "bottom", "top",
)  # fmt: skip
HANDLE_PX, HANDLE_TARGET_PX = 8, 24
SMALL_PX = 72
"""A thing with a side shorter than this has handles at its corners only, outside of it, so that it can be taken."""
_SOFT = frozenset({"sofa", "bed"})
"""Their name stands low, where the front is plain."""


class ObstacleItem(QGraphicsItem):
    """Shows one obstacle; it is told everything and decides nothing."""

    def __init__(self, obstacle: Obstacle) -> None:
        super().__init__()
        self.obstacle = obstacle
        self.before = True
        self._margin = 0.0
        self._wall_width = 1e6
        self._scale = 0.2
        self._chosen = False
        self._focused = False
        self._pointed = False
        self._size = (float(obstacle.width.mm), float(obstacle.height.mm))
        self.words = ""
        self._measure()

    @property
    def key(self) -> Key:
        """The obstacle's key."""
        return self.obstacle.key

    @property
    def box(self) -> Rectangle:
        """Where it is drawn now, mm."""
        return Rectangle.at(self.pos().x(), -self.pos().y() - self._size[1], *self._size)

    @property
    def margin(self) -> float:
        """What is kept free around it, mm."""
        return self._margin

    def show_record(self, obstacle: Obstacle, margin: float, wall_width: float, *, before: bool) -> None:
        """Shows the record.

        Args:
            obstacle: the record.
            margin: so many mm are kept free around it.
            wall_width: its name keeps within the wall, mm.
            before: it stands in front of the pieces.
        """
        self.obstacle, self.before, self._margin, self._wall_width = obstacle, before, margin, wall_width
        self.setZValue(Z_BEFORE if before else Z_OPENING if obstacle.kind in {"door", "window"} else Z_ON_WALL)
        self.put(Rectangle.at(obstacle.left, obstacle.bottom, obstacle.width.mm, obstacle.height.mm))

    def put(self, box: Rectangle) -> None:
        """Shows it elsewhere or in another size for the moment; the record is untouched."""
        self.prepareGeometryChange()
        self._size = (box.width, box.height)
        self.setPos(rect_to_scene(box).topLeft())
        self._measure()
        self.update()

    def set_scale_px(self, px_per_mm: float) -> None:
        """The view's scale."""
        self.prepareGeometryChange()
        self._scale = px_per_mm
        self._measure()

    def set_state(self, *, chosen: bool, focused: bool) -> None:
        """Selected, and where the keyboard is."""
        if (chosen, focused) != (self._chosen, self._focused):
            self._chosen, self._focused = chosen, focused
            self.update()

    def set_pointed(self, pointed: bool) -> None:
        """Its row in the card has the keyboard."""
        if pointed != self._pointed:
            self._pointed = pointed
            self.update()

    def handle_at(self, scene: QPointF) -> Handle | None:
        """The handle under a point of the scene, when it is selected."""
        if not self._chosen:
            return None
        reach = HANDLE_TARGET_PX / 2 / self._scale
        here = scene - self.pos()
        for handle in self.handles:
            away = here - self._handle(handle)
            if abs(away.x()) <= reach and abs(away.y()) <= reach:
                return handle
        return None

    @property
    def is_small(self) -> bool:
        """Whether handles on its edges would cover it."""
        return min(self._size) * self._scale < SMALL_PX

    @property
    def handles(self) -> tuple[Handle, ...]:
        """Those it has at this scale."""
        return HANDLES[:4] if self.is_small else HANDLES

    def _handle(self, handle: Handle) -> QPointF:
        """Middle of a handle in the item's own mm."""
        out = (HANDLE_TARGET_PX / 2 + 1) / self._scale if self.is_small else 0.0
        width, height = self._size
        x = -out if "left" in handle else width + out if "right" in handle else width / 2
        y = -out if "top" in handle else height + out if "bottom" in handle else height / 2
        return QPointF(x, y)

    def _measure(self) -> None:
        """The room it takes with margin, name and handles; asked for often, so computed only on a change."""
        look = theme()
        self.words = obstacle_name(self.obstacle.kind, self.obstacle.name)
        metrics = QFontMetrics(look.font(12))
        self._inside = (
            self._size[0] * self._scale >= metrics.horizontalAdvance(self.words) + 8
            and self._size[1] * self._scale >= metrics.height() + 4
        )
        reach = (2 if self.is_small else 1) * (HANDLE_TARGET_PX / 2 + 1) / self._scale
        around = max(self._margin + 2 / self._scale, reach)
        bounds = QRectF(0, 0, *self._size).adjusted(-around, -around, around, around)
        if not self._inside:
            name = self._name_box(metrics)
            self._name = QRectF(name.x(), name.y(), name.width(), name.height())
            bounds = bounds.united(self._name)
        self._bounds = bounds

    def _name_box(self, metrics: QFontMetrics) -> QRectF:
        """Below the thing and its margin, in the item's own mm."""
        width = (metrics.horizontalAdvance(self.words) + 8) / self._scale
        height = (metrics.height() + 2) / self._scale
        left = self._size[0] / 2 - width / 2
        left = max(-self.pos().x(), min(left, self._wall_width - width - self.pos().x()))
        return QRectF(left, self._size[1] + self._margin + 1 / self._scale, width, height)

    def boundingRect(self) -> QRectF:
        """The thing, its margin, its name, its handles."""
        return self._bounds

    def shape(self) -> QPainterPath:
        """Only the thing itself takes the pointer, but never less than 24 pixels."""
        path = QPainterPath()
        width, height = self._size
        lack_x, lack_y = max(0.0, 24 / self._scale - width) / 2, max(0.0, 24 / self._scale - height) / 2
        path.addRect(QRectF(-lack_x, -lack_y, width + 2 * lack_x, height + 2 * lack_y))
        return path

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it in plain flats."""
        look = theme()
        world = painter.worldTransform()
        box = QRectF(world.mapRect(QRectF(0, 0, *self._size)).toRect())
        name = world.mapRect(self._name) if not self._inside else QRectF()
        painter.resetTransform()
        draw_obstacle(painter, box, self.obstacle.kind)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if self._margin > 0 and (not self._inside or self._chosen or self._pointed):
            pen = QPen(faded(look.colour("pencil"), 75), 1)
            pen.setDashPattern([3, 3])
            painter.setPen(pen)
            margin = round(self._margin * self._scale)
            painter.drawRect(box.adjusted(-margin, -margin, margin - 1, margin - 1))
        self._draw_state(painter, box)
        painter.setFont(look.font(12))
        if not self._inside:
            painter.setPen(look.colour("pencil"))
            painter.drawText(name, Qt.AlignmentFlag.AlignCenter, self.words)
        else:
            self._draw_name_inside(painter, box)

    def _draw_name_inside(self, painter: QPainter, box: QRectF) -> None:
        """On a little ground of its own, since the drawing below has all kinds of tones."""
        look = theme()
        metrics = QFontMetrics(look.font(12))
        plate = QRectF(0, 0, metrics.horizontalAdvance(self.words) + 8, metrics.height())
        soft = self.obstacle.kind in _SOFT
        plate.moveCenter(QPointF(box.center().x(), box.top() + box.height() * (0.8 if soft else 0.5)))
        plate = QRectF(plate.toRect())
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(faded(look.colour("surface"), 85))
        painter.drawRoundedRect(plate, 3, 3)
        painter.setPen(look.colour("ink"))
        painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, self.words)

    def _draw_state(self, painter: QPainter, box: QRectF) -> None:
        look = theme()
        if self._pointed and not self._chosen:
            painter.setPen(QPen(look.colour("ink"), 1))
            painter.drawRect(box.adjusted(-2, -2, 1, 1))
        if self._chosen:
            painter.setPen(QPen(look.colour("accent"), 2))
            painter.drawRect(box.adjusted(-3, -3, 3, 3))
            painter.setPen(QPen(look.colour("accent"), 1))
            painter.setBrush(look.colour("surface"))
            for handle in self.handles:
                middle = self._handle(handle) * self._scale + box.topLeft()
                painter.drawRect(
                    QRectF(round(middle.x()) - HANDLE_PX // 2, round(middle.y()) - HANDLE_PX // 2, HANDLE_PX, HANDLE_PX)
                )
            painter.setBrush(Qt.BrushStyle.NoBrush)
        if self._focused:
            pen = QPen(look.colour("ink"), 2, Qt.PenStyle.CustomDashLine)
            pen.setDashPattern([2, 1.5])
            painter.setPen(pen)
            painter.drawRect(box.adjusted(-7, -7, 7, 7))


CURSORS: dict[Handle, Qt.CursorShape] = {
    "left": Qt.CursorShape.SizeHorCursor,
    "right": Qt.CursorShape.SizeHorCursor,
    "top": Qt.CursorShape.SizeVerCursor,
    "bottom": Qt.CursorShape.SizeVerCursor,
    "top-left": Qt.CursorShape.SizeFDiagCursor,
    "bottom-right": Qt.CursorShape.SizeFDiagCursor,
    "top-right": Qt.CursorShape.SizeBDiagCursor,
    "bottom-left": Qt.CursorShape.SizeBDiagCursor,
}
"""What the pointer looks like over a handle: which way it sizes."""
