"""The still things of the room: the wall with its skirting, the floor, eye line and middle, obstacles."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from composer.desktop.room.coordinates import rect_to_scene, to_scene
from composer.desktop.room.obstacle_drawing import draw_obstacle
from composer.desktop.room.piece_item import faded
from composer.desktop.theme import theme
from composer.geometry.rectangle import Rectangle
from composer.model import Key, Obstacle, Wall
from composer.texts import say

USUAL_SKIRTING_MM = 80.0
Z_WALL, Z_LINES, Z_OBSTACLES = -20.0, 0.0, 20.0


class GroundItem(QGraphicsItem):
    """Wall and floor, below everything; repainted only where something above them moved."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(Z_WALL)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption, True)
        self._wall: Wall | None = None
        self._depth = 300.0
        self._outline = QPolygonF()
        self._plain = True
        self._scale = 0.2

    def set_scale_px(self, px_per_mm: float) -> None:
        """The view's scale, for the words on the floor."""
        self._scale = px_per_mm
        self.update()

    def show_record(self, wall: Wall, floor_depth: float) -> None:
        """Shows this wall with so much floor, mm."""
        self.prepareGeometryChange()
        self._wall, self._depth = wall, floor_depth
        self._outline = QPolygonF([to_scene(x, y) for x, y in wall.corners])
        self._plain = wall.outline is None
        self.update()

    def boundingRect(self) -> QRectF:
        """Wall and floor with their edges."""
        if self._wall is None:
            return QRectF()
        return QRectF(0, -self._wall.height.mm, self._wall.width.mm, self._wall.height.mm + self._depth).adjusted(
            -9, -9, 9, 9
        )

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws the part that is exposed."""
        if self._wall is None:
            return
        look = theme()
        exposed = option.exposedRect
        paint = QColor(self._wall.paint) if self._wall.paint else look.colour("wall")
        edge = QPen(look.colour("room_line"), 1)
        edge.setCosmetic(True)
        width = self._wall.width.mm
        painter.fillRect(QRectF(0, 0, width, self._depth).intersected(exposed), look.colour("floor"))
        box = QRectF(0, -self._wall.height.mm, width, self._wall.height.mm)
        if self._plain:
            painter.fillRect(box.intersected(exposed), paint)
        else:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(paint)
            painter.drawPolygon(self._outline)
        skirting = self._wall.skirting.mm if self._wall.skirting is not None else USUAL_SKIRTING_MM
        if self._plain and skirting > 0:
            strip = QRectF(0, -skirting, width, skirting)
            painter.fillRect(strip.intersected(exposed), look.colour("skirting"))
            painter.setPen(edge)
            painter.drawLine(strip.topLeft(), strip.topRight())
        painter.setPen(edge)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolygon(self._outline)
        painter.drawLine(QPointF(0, 0), QPointF(width, 0))
        self._draw_floor_words(painter, QRectF(0, 0, width, self._depth))

    def _draw_floor_words(self, painter: QPainter, floor: QRectF) -> None:
        look = theme()
        box = painter.worldTransform().mapRect(floor).adjusted(8, 0, -8, -5)
        words = say("floor: not hung yet, same scale")
        if QFontMetrics(look.font(12)).horizontalAdvance(words) > box.width():
            return
        painter.save()
        painter.resetTransform()
        painter.setFont(look.font(12))
        painter.setPen(look.colour("pencil"))
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom, words)
        painter.restore()


class TraceItem(QGraphicsItem):
    """A dashed outline: where a piece in hand lay, or where a new frame will lie."""

    def __init__(self, token: str = "pencil") -> None:
        super().__init__()
        self.setZValue(Z_LINES + 1)
        self._token = token
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
        """The outline."""
        return self._box.adjusted(-9, -9, 9, 9)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it."""
        pen = QPen(theme().colour(self._token), 1)
        pen.setCosmetic(True)
        pen.setDashPattern([4, 3])
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(self._box)


class LineItem(QGraphicsItem):
    """A thin dashed line of the wall with its name: the eye line, the wall's middle."""

    def __init__(self, dashes: tuple[float, ...], percent: float) -> None:
        super().__init__()
        self.setZValue(Z_LINES)
        self._dashes = dashes
        self._percent = percent
        self._line = QLineF()
        self._words = ""
        self._scale = 0.2

    def show_line(self, line: QLineF, words: str) -> None:
        """Shows it there, in scene mm."""
        self.prepareGeometryChange()
        self._line, self._words = line, words
        self.update()

    def set_scale_px(self, px_per_mm: float) -> None:
        """The view's scale, on which the size of its name depends."""
        self.prepareGeometryChange()
        self._scale = px_per_mm

    def boundingRect(self) -> QRectF:
        """The line and its name."""
        line = QRectF(self._line.p1(), self._line.p2()).normalized().adjusted(-2, -2, 2, 2)
        return line.united(self._name_box())

    def _name_box(self) -> QRectF:
        look = theme()
        metrics = QFontMetrics(look.font(12))
        width = (metrics.horizontalAdvance(self._words) + 6) / self._scale
        height = (metrics.height() + 2) / self._scale
        if self._line.dx() == 0:
            return QRectF(self._line.x1() + 5 / self._scale, self._line.y1() + 4 / self._scale, width, height)
        return QRectF(self._line.x2() - width - 4 / self._scale, self._line.y2() - height, width, height)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws line and name."""
        look = theme()
        pen = QPen(faded(look.colour("pencil"), self._percent), 1)
        pen.setCosmetic(True)
        pen.setDashPattern(list(self._dashes))
        painter.setPen(pen)
        painter.drawLine(self._line)
        box = painter.worldTransform().mapRect(self._name_box())
        painter.save()
        painter.resetTransform()
        painter.setFont(look.font(12))
        painter.setPen(look.colour("pencil"))
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, self._words)
        painter.restore()


class ObstacleItem(QGraphicsItem):
    """Something on or in front of the wall, with what is kept free around it."""

    def __init__(self, obstacle: Obstacle) -> None:
        super().__init__()
        self.setZValue(Z_OBSTACLES)
        self.setAcceptHoverEvents(True)
        self.obstacle = obstacle
        self._margin = 0.0
        self._scale = 0.2
        self._chosen = False

    @property
    def key(self) -> Key:
        """The obstacle's key."""
        return self.obstacle.key

    @property
    def box(self) -> Rectangle:
        """Where it stands, mm."""
        return Rectangle.at(self.obstacle.left, self.obstacle.bottom, self.obstacle.width.mm, self.obstacle.height.mm)

    def show_record(self, obstacle: Obstacle, margin: float) -> None:
        """Shows the record; ``margin`` mm are kept free around it."""
        self.prepareGeometryChange()
        self.obstacle, self._margin = obstacle, margin
        self.setPos(rect_to_scene(self.box).topLeft())
        self.update()

    def set_scale_px(self, px_per_mm: float) -> None:
        """The view's scale."""
        self.prepareGeometryChange()
        self._scale = px_per_mm

    def set_chosen(self, chosen: bool) -> None:
        """Selected or not."""
        if chosen != self._chosen:
            self._chosen = chosen
            self.update()

    def boundingRect(self) -> QRectF:
        """The thing, its margin, its name."""
        room = self._margin + 8 / self._scale
        below = room + (40 * theme().text_percent / 100) / self._scale
        return QRectF(0, 0, self.obstacle.width.mm, self.obstacle.height.mm).adjusted(
            -room - 60, -room, room + 60, below
        )

    def shape(self):  # type: ignore[no-untyped-def]
        """Only the thing itself takes the pointer, but never less than 24 pixels."""
        from PySide6.QtGui import QPainterPath

        path = QPainterPath()
        width, height = self.obstacle.width.mm, self.obstacle.height.mm
        lack_x, lack_y = max(0.0, 24 / self._scale - width) / 2, max(0.0, 24 / self._scale - height) / 2
        path.addRect(QRectF(-lack_x, -lack_y, width + 2 * lack_x, height + 2 * lack_y))
        return path

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it in plain flats."""
        look = theme()
        box = painter.worldTransform().mapRect(QRectF(0, 0, self.obstacle.width.mm, self.obstacle.height.mm))
        box = QRectF(box.toRect())
        painter.save()
        painter.resetTransform()
        draw_obstacle(painter, box, self.obstacle.kind)
        words = name_of(self.obstacle)
        small = box.width() < QFontMetrics(look.font(12)).horizontalAdvance(words) + 8 or box.height() < look.px(18)
        if self._margin > 0 and small:
            pen = QPen(faded(look.colour("pencil"), 75), 1)
            pen.setDashPattern([3, 3])
            painter.setPen(pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            margin = self._margin * self._scale
            painter.drawRect(box.adjusted(-margin, -margin, margin, margin))
        if self._chosen:
            painter.setPen(QPen(look.colour("accent"), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(box.adjusted(-3, -3, 3, 3))
        painter.setFont(look.font(12))
        if not small and self.obstacle.kind in _SOFT:
            painter.setPen(QColor("#2B2A28"))
            painter.drawText(
                box.adjusted(0, box.height() * 0.7, 0, -box.height() * 0.11), Qt.AlignmentFlag.AlignCenter, words
            )
        elif not small:
            painter.setPen(look.colour("ink"))
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
        elif self._margin > 0:
            painter.setPen(look.colour("pencil"))
            below = box.adjusted(
                -60, box.height() + self._margin * self._scale, 60, self._margin * self._scale + look.px(20)
            )
            painter.drawText(below, Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop, words)
        painter.restore()


_SOFT = frozenset({"sofa", "bed"})
"""Drawn in sage, on which dark letters stand in either scheme."""


def name_of(obstacle: Obstacle) -> str:
    """What the person called it, else its kind."""
    if obstacle.name:
        return obstacle.name
    return {
        "sofa": say("sofa"),
        "bed": say("bed"),
        "cot": say("cot"),
        "seat": say("seat"),
        "table": say("table"),
        "door": say("door"),
        "window": say("window"),
        "switch": say("switch"),
        "socket": say("socket"),
        "tap": say("tap"),
        "radiator": say("radiator"),
        "thermostat": say("thermostat"),
        "grille": say("grille"),
        "detector": say("detector"),
        "shelf": say("shelf"),
        "stair-rail": say("stair rail"),
        "other": say("other"),
    }[obstacle.kind]
