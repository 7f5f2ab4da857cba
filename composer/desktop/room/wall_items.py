"""The still things of the room: the wall with its skirting, the floor or stair below it, lines and traces."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPainterPath, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from composer.desktop.room.coordinates import rect_to_scene, to_scene
from composer.desktop.room.piece_item import LARGEST_KEPT_PX, faded
from composer.desktop.theme import theme
from composer.geometry.nosing import lower_edge
from composer.geometry.rectangle import Rectangle
from composer.model import Wall
from composer.texts import say

USUAL_SKIRTING_MM = 80.0
FLOOR_BELOW_MM = 40_000.0
"""The floor is drawn so deep that no void ever shows below it."""

Z_WALL, Z_LINES = -20.0, 0.0


class GroundItem(QGraphicsItem):
    """Wall and floor, below everything; repainted only where something above them moved."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(Z_WALL)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption, True)
        self._wall: Wall | None = None
        self._words_at = 300.0
        self._words = ""
        self._outline = QPolygonF()
        self._below = QPolygonF()
        self._plain = True
        self._bare = QRectF()
        """Where nothing but the colour of the wall is to be seen: a step of a drag seldom needs more."""

    def show_record(self, wall: Wall, words: str) -> None:
        """Shows this wall; ``words`` stand on its floor."""
        self.prepareGeometryChange()
        self._wall, self._words = wall, words
        self._outline = QPolygonF([to_scene(x, y) for x, y in wall.corners])
        self._plain = wall.outline is None
        edge = lower_edge(wall.corners)
        width = float(wall.width.mm)
        self._below = QPolygonF([to_scene(x, y) for x, y in [(0.0, 0.0), *edge, (width, 0.0)]])
        high = self._skirting_mm(wall)
        lined = not self._plain or wall.edge_margin is not None
        self._bare = QRectF() if lined else self._box(wall).adjusted(9, 9, -9, -9 - high)
        self.update()

    def set_floor_shown(self, depth_mm: float) -> None:
        """So much floor is in view: its words stand at the lower end of that."""
        if depth_mm != self._words_at:
            self._words_at = depth_mm
            self.update()

    def boundingRect(self) -> QRectF:
        """Wall and floor with their edges."""
        if self._wall is None:
            return QRectF()
        height = self._wall.height.mm
        return QRectF(0, -height, self._wall.width.mm, height + FLOOR_BELOW_MM).adjusted(-9, -9, 9, 9)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws the part that is exposed."""
        if self._wall is None:
            return
        exposed = option.exposedRect
        look = theme()
        paint = QColor(self._wall.paint) if self._wall.paint else look.colour("wall")
        if self._bare.contains(exposed):
            painter.fillRect(exposed, paint)
            return
        width = float(self._wall.width.mm)
        floor = QRectF(0, 0, width, FLOOR_BELOW_MM)
        painter.fillRect(floor.intersected(exposed), look.colour("floor"))
        box = self._box(self._wall)
        if self._plain:
            painter.fillRect(box.intersected(exposed), paint)
        else:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.colour("floor"))
            painter.drawPolygon(self._below)
            painter.setBrush(paint)
            painter.drawPolygon(self._outline)
        edge = QPen(look.colour("room_line"), 1)
        edge.setCosmetic(True)
        painter.setPen(edge)
        self._draw_skirting(painter, exposed)
        painter.setPen(edge)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if self._plain:
            self._draw_edges(painter, exposed, box)
        else:
            painter.drawPolygon(self._outline)
            painter.drawPolygon(self._below)
        if self._wall.edge_margin is not None and self._wall.edge_margin.mm > 0:
            self._draw_margin(painter, box, float(self._wall.edge_margin.mm))
        if exposed.bottom() > self._words_at - 600:
            self._draw_floor_words(painter, QRectF(0, 0, width, self._words_at))

    @staticmethod
    def _box(wall: Wall) -> QRectF:
        width, height = float(wall.width.mm), float(wall.height.mm)
        return QRectF(0, -height, width, height)

    @staticmethod
    def _skirting_mm(wall: Wall) -> float:
        return float(wall.skirting.mm) if wall.skirting is not None else USUAL_SKIRTING_MM

    @staticmethod
    def _draw_edges(painter: QPainter, exposed: QRectF, box: QRectF) -> None:
        """Only the edges that are exposed: a step of a drag seldom meets one."""
        for start, end in (
            (box.topLeft(), box.topRight()),
            (box.topRight(), box.bottomRight()),
            (box.bottomLeft(), box.bottomRight()),
            (box.topLeft(), box.bottomLeft()),
        ):
            if QRectF(start, end).normalized().adjusted(-9, -9, 9, 9).intersects(exposed):
                painter.drawLine(start, end)

    def _draw_skirting(self, painter: QPainter, exposed: QRectF) -> None:
        """Along the floor, where the wall stands on it."""
        assert self._wall is not None
        height = self._skirting_mm(self._wall)
        if height <= 0:
            return
        level = [x for x, y in lower_edge(self._wall.corners) if y == 0]
        if len(level) < 2:
            return
        strip = QRectF(min(level), -height, max(level) - min(level), height)
        if strip.intersects(exposed):
            painter.fillRect(strip.intersected(exposed), theme().colour("skirting"))
            painter.drawLine(strip.topLeft(), strip.topRight())
            painter.drawLine(strip.topRight(), strip.bottomRight())

    @staticmethod
    def _draw_margin(painter: QPainter, box: QRectF, margin: float) -> None:
        pen = QPen(faded(theme().colour("pencil"), 75), 1)
        pen.setCosmetic(True)
        pen.setDashPattern([3, 3])
        painter.setPen(pen)
        inner = box.adjusted(margin, margin, -margin, 0)
        painter.drawPolyline([inner.bottomLeft(), inner.topLeft(), inner.topRight(), inner.bottomRight()])

    def _draw_floor_words(self, painter: QPainter, floor: QRectF) -> None:
        look = theme()
        box = painter.worldTransform().mapRect(floor).adjusted(8, 0, -8, -5)
        if QFontMetrics(look.font(12)).horizontalAdvance(self._words) > box.width():
            return
        painter.resetTransform()
        painter.setFont(look.font(12))
        painter.setPen(look.colour("pencil"))
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom, self._words)


class TraceItem(QGraphicsItem):
    """A dashed outline: where a piece in hand lay, or where a new frame will lie."""

    def __init__(self, token: str = "pencil") -> None:
        super().__init__()
        self.setZValue(Z_LINES + 1)
        self._token = token
        self._box = QRectF()
        self._words = ""
        self._drawn = QPixmap()
        self._drawn_for: tuple[object, ...] = ()
        self.hide()

    def show_box(self, box: Rectangle, words: str = "") -> None:
        """Shows it there, mm, with a name in it."""
        self.prepareGeometryChange()
        scene = rect_to_scene(box)
        self._box, self._words = QRectF(0, 0, scene.width(), scene.height()), words
        self.setPos(scene.topLeft())
        self.show()
        self.update()

    def boundingRect(self) -> QRectF:
        """The outline."""
        return self._box.adjusted(-9, -9, 9, 9)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it on whole device pixels, once for as long as it looks the same."""
        world = painter.worldTransform()
        ratio = float(painter.device().devicePixelRatio())
        box = world.mapRect(self._box)
        left, top = round(box.x() * ratio), round(box.y() * ratio)
        width, height = round(box.width() * ratio), round(box.height() * ratio)
        painter.resetTransform()
        key = (width, height, ratio, theme().generation, self._words)
        if max(width, height) > LARGEST_KEPT_PX * ratio:
            painter.translate(left / ratio, top / ratio)
            self._draw(painter, QRectF(0, 0, width / ratio, height / ratio))
            return
        if key != self._drawn_for:
            made = QPixmap(width + 2, height + 2)
            made.setDevicePixelRatio(ratio)
            made.fill(Qt.GlobalColor.transparent)
            with QPainter(made) as on_pixmap:
                self._draw(on_pixmap, QRectF(0, 0, width / ratio, height / ratio))
            self._drawn, self._drawn_for = made, key
        painter.drawPixmap(QPointF(left / ratio, top / ratio), self._drawn)

    def _draw(self, painter: QPainter, box: QRectF) -> None:
        look = theme()
        pen = QPen(look.colour(self._token), 1)
        pen.setCosmetic(True)
        pen.setDashPattern([4, 3])
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box)
        room = box.adjusted(4, 4, -4, -4)
        metrics = QFontMetrics(look.font(12))
        if self._words and room.height() >= metrics.height() and room.width() >= 24:
            painter.setFont(look.font(12))
            painter.setPen(look.colour("pencil"))
            words = metrics.elidedText(self._words, Qt.TextElideMode.ElideRight, int(room.width()))
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, words)


class LineItem(QGraphicsItem):
    """A thin dashed line of the wall with its name: the eye line, the wall's middle, the nosing line.

    Made of straight parts; a part and its name are all that is ever painted, so that something that
    moves elsewhere does not repaint it.
    """

    def __init__(self, dashes: tuple[float, ...], percent: float) -> None:
        super().__init__()
        self.setZValue(Z_LINES)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption, True)
        self._dashes = dashes
        self._percent = percent
        self._points: list[QPointF] = []
        self._words = ""
        self._clip = QPainterPath()
        self._scale = 0.2
        self._name = QRectF()
        self._bounds = QRectF()

    def show_line(
        self, points: Sequence[tuple[float, float]], words: str, within: Sequence[tuple[float, float]] = ()
    ) -> None:
        """Shows a line through places of the wall, mm; ``within`` an outline beyond which it does not reach."""
        self.prepareGeometryChange()
        self._points, self._words = [to_scene(x, y) for x, y in points], words
        self._clip = QPainterPath()
        if within:
            self._clip.addPolygon(QPolygonF([to_scene(x, y) for x, y in [*within, within[0]]]))
        self.setVisible(len(self._points) > 1)
        self._place_name()
        self.update()

    def set_scale_px(self, px_per_mm: float) -> None:
        """The view's scale, on which the size of its name depends."""
        self.prepareGeometryChange()
        self._scale = px_per_mm
        self._place_name()

    def on_theme(self) -> None:
        """The letters are of another size."""
        self.prepareGeometryChange()
        self._place_name()

    @property
    def name_box(self) -> QRectF:
        """Where its name stands, scene mm; empty while it is not shown."""
        return self._name if self.isVisible() else QRectF()

    def boundingRect(self) -> QRectF:
        """The line and its name."""
        return self._bounds

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer."""
        return QPainterPath()

    def _draw_exposed(self, painter: QPainter, exposed: QRectF) -> None:
        """Only the dashes that are exposed, each where it always is: a long dashed line costs more than a piece."""
        start, end = self._points
        period = sum(self._dashes) / self._scale
        if start.y() == end.y():
            first, last = sorted((start.x(), end.x()))
            low = first + max(0.0, (exposed.left() - first) // period * period)
            painter.drawLine(QPointF(low, start.y()), QPointF(min(last, exposed.right() + period), start.y()))
        else:
            first, last = sorted((start.y(), end.y()))
            low = first + max(0.0, (exposed.top() - first) // period * period)
            painter.drawLine(QPointF(start.x(), low), QPointF(start.x(), min(last, exposed.bottom() + period)))

    def _place_name(self) -> None:
        along = QPolygonF(self._points).boundingRect().adjusted(-2, -2, 2, 2)
        if len(self._points) < 2:
            self._name, self._bounds = QRectF(), along
            return
        metrics = QFontMetrics(theme().font(12))
        width = (metrics.horizontalAdvance(self._words) + 6) / self._scale
        height = (metrics.height() + 2) / self._scale
        start, end = self._points[0], self._points[-1]
        if start.x() == end.x():
            self._name = QRectF(start.x() + 5 / self._scale, start.y() + 4 / self._scale, width, height)
        else:
            top = min(end.y(), self._points[-2].y()) if abs(end.x() - self._points[-2].x()) < width else end.y()
            self._name = QRectF(end.x() - width - 4 / self._scale, top - height, width, height)
        self._bounds = along.united(self._name)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws line and name."""
        look = theme()
        pen = QPen(faded(look.colour("pencil"), self._percent), 1)
        pen.setCosmetic(True)
        pen.setDashPattern(list(self._dashes))
        painter.setPen(pen)
        if not self._clip.isEmpty():
            painter.setClipPath(self._clip, Qt.ClipOperation.IntersectClip)
        if len(self._points) == 2 and self._clip.isEmpty():
            self._draw_exposed(painter, option.exposedRect)
        else:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            painter.drawPolyline(self._points)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        if not self._name.intersects(option.exposedRect):
            return
        box = painter.worldTransform().mapRect(self._name)
        painter.resetTransform()
        painter.setFont(look.font(12))
        painter.setPen(look.colour("pencil"))
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, self._words)


def floor_words(*, lying: int, hung: int) -> str:
    """What stands on the floor."""
    if lying == 0 and hung > 0:
        return say("floor: nothing left to hang")
    return say("floor: not hung yet, same scale")
