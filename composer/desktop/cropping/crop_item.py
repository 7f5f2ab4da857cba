"""The whole picture over its frame while it is placed: clear where it shows, dimmed under lip or mat, pale beyond."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QImage, QPainter, QPainterPath, QPen, QPixmap, QTransform
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from composer.desktop.cropping.grips import SQUARE_PX, Grips
from composer.desktop.cropping.opening import Opening
from composer.desktop.room.piece_item import faded
from composer.desktop.theme import theme
from composer.desktop.units_shown import number
from composer.model import Crop
from composer.texts import say
from composer.units import LengthStyle

Z_CROP = 70.0
BEYOND_PERCENT = 38
"""How strongly what falls away is seen over the moulding."""
UNDER_PERCENT = 55
"""How dark what lip or mat covers becomes."""
THIRDS_PERCENT = 35
AROUND_PX = 96
"""Pixels around frame and picture that dimensions, ring and handles take."""
TICK_PX = 3
RING_PX = 8


class CropItem(QGraphicsItem):
    """Drawn above everything in the room; it is told everything and decides nothing."""

    def __init__(self, opening: Opening, crop: Crop, style: LengthStyle) -> None:
        super().__init__()
        self.setZValue(Z_CROP)
        self.opening, self.crop = opening, crop
        self.quick = False
        """While a hand moves it: drawn without smoothing."""
        self._style = style
        self._picture: QPixmap | None = None
        self._scale = 1.0
        self._bounds = QRectF()
        self._measure()

    def show_picture(self, image: QImage | None) -> None:
        """What is placed, once it has been decoded; None = not yet."""
        self._picture = None if image is None else QPixmap.fromImage(image)
        self.update()

    @property
    def has_picture(self) -> bool:
        """Whether the picture has been decoded."""
        return self._picture is not None

    def show_crop(self, opening: Opening, crop: Crop) -> None:
        """Places it otherwise."""
        self.prepareGeometryChange()
        self.opening, self.crop = opening, crop
        self._measure()
        self.update()

    def set_scale_px(self, px_per_mm: float) -> None:
        """The view's scale."""
        if px_per_mm != self._scale:
            self.prepareGeometryChange()
            self._scale = px_per_mm
            self._measure()

    def _measure(self) -> None:
        room = theme().px(AROUND_PX) / self._scale
        box = self.opening.outline(self.crop).boundingRect().united(self.opening.outside)
        self._bounds = box.adjusted(-room, -room, room, room)

    def boundingRect(self) -> QRectF:
        """Picture, frame and the dimensions around them."""
        return self._bounds

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer: the tool does."""
        return QPainterPath()

    def grips(self, world: QTransform, view: QRectF) -> Grips:
        """Where a hand can take hold, in the view's pixels; ``world`` is from the item to the view."""
        return Grips.of(world.map(self.opening.outline(self.crop)), world.mapRect(self.opening.outside), view)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Picture, edges, thirds, handles, dimensions."""
        world = painter.worldTransform()
        view = QRectF(widget.rect()) if widget is not None else world.mapRect(self._bounds)
        painter.resetTransform()
        opening = self.opening
        printed, visible = (world.mapRect(box).toRect() for box in (opening.printed, opening.visible))
        self._draw_picture(painter, world, printed, visible)
        self._draw_edges(painter, world, printed, visible)
        self._draw_dimensions(painter, world, printed, visible, view)
        self._draw_grips(painter, self.grips(world, view))

    def _draw_picture(self, painter: QPainter, world: QTransform, printed: QRect, visible: QRect) -> None:
        if self._picture is None:
            return
        wide, high = self.opening.pixels
        scaled = QTransform.fromScale(wide / self._picture.width(), high / self._picture.height())
        whole = scaled * self.opening.placed(self.crop) * world
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, not self.quick)
        beyond, inside = QPainterPath(), QPainterPath()
        beyond.addRect(world.mapRect(self._bounds))
        inside.addRect(QRectF(printed))
        for path, share in ((beyond.subtracted(inside), BEYOND_PERCENT / 100), (inside, 1.0)):
            painter.setClipPath(path)
            painter.setOpacity(share)
            painter.setTransform(whole)
            painter.drawPixmap(QPointF(0, 0), self._picture)
            painter.resetTransform()
        painter.setOpacity(1.0)
        clear = QPainterPath()
        clear.addRect(QRectF(visible))
        painter.setClipPath(inside.subtracted(clear))
        painter.fillRect(printed, QColor(20, 17, 14, round(255 * UNDER_PERCENT / 100)))
        painter.restore()

    def _draw_edges(self, painter: QPainter, world: QTransform, printed: QRect, visible: QRect) -> None:
        look, outline = theme(), world.map(self.opening.outline(self.crop))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(faded(look.colour("ink"), 45), 1))
        frame = world.mapRect(self.opening.outside).toRect()
        painter.drawRect(frame.adjusted(0, 0, -1, -1))
        if self.opening.sight is not None:
            painter.drawRect(world.mapRect(self.opening.sight).toRect().adjusted(0, 0, -1, -1))
        painter.setPen(QPen(look.colour("accent"), 2))
        painter.drawRect(frame.adjusted(-3, -3, 2, 2))
        white = QColor(255, 255, 255)
        for box in (printed, visible):
            painter.setPen(QPen(QColor(0, 0, 0, 90), 1))
            painter.drawRect(box.adjusted(-1, -1, 0, 0))
            painter.setPen(QPen(white, 1))
            painter.drawRect(box.adjusted(0, 0, -1, -1))
        painter.setPen(QPen(faded(white, THIRDS_PERCENT), 1))
        for part in (1, 2):
            x, y = visible.left() + visible.width() * part // 3, visible.top() + visible.height() * part // 3
            painter.drawLine(x, visible.top(), x, visible.bottom())
            painter.drawLine(visible.left(), y, visible.right(), y)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, self.crop.tilt_deg != 0)
        for colour, width in ((faded(look.colour("surface"), 70), 3), (look.colour("chalk"), 1)):
            painter.setPen(QPen(colour, width))
            painter.drawPolygon(outline)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)

    def _draw_grips(self, painter: QPainter, grips: Grips) -> None:
        look = theme()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        painter.setPen(QPen(look.colour("chalk"), 1.5))
        painter.drawLine(QLineF(grips.foot, grips.ring + QPointF(0, RING_PX)))
        painter.setBrush(look.colour("surface"))
        painter.setPen(QPen(look.colour("chalk"), 2))
        painter.drawEllipse(grips.ring, RING_PX, RING_PX)
        half = SQUARE_PX / 2 - 1
        for corner in grips.corners:
            painter.drawRect(QRectF(corner.x() - half, corner.y() - half, 2 * half, 2 * half))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(look.colour("chalk"), 1.5))
        for side in (-1, 1):
            bow = QRectF(grips.ring.x() - 20, grips.ring.y() - 20, 40, 40)
            painter.drawArc(bow, (0 if side > 0 else 150) * 16, 30 * 16)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        words = say("tilt {degrees}°", degrees=f"{self.crop.tilt_deg:.1f}")
        self._write(painter, words, QPointF(grips.ring.x() + 30, grips.ring.y()), Qt.AlignmentFlag.AlignLeft)

    def _draw_dimensions(
        self, painter: QPainter, world: QTransform, printed: QRect, visible: QRect, view: QRectF
    ) -> None:
        look, opening = theme(), self.opening
        around = world.map(opening.outline(self.crop)).boundingRect().united(world.mapRect(opening.outside))
        step = look.px(24)
        shown, whole = opening.visible, opening.printed
        sight = (
            say("window {width}", width=self._number(shown.width()))
            if opening.matted
            else say("sight size {width}", width=self._number(shown.width()))
        )
        below = min(around.bottom(), view.bottom() - 2.5 * step)
        self._across(painter, visible.left(), visible.right(), below + step, sight)
        words = say("print, trimmed {width}", width=self._number(whole.width()))
        self._across(painter, printed.left(), printed.right(), below + 2 * step, words)
        height = self._number(shown.height())
        beside = min(around.right() + step, view.right() - self._plate(height).width() - 2 * TICK_PX - 6)
        self._up(painter, visible.top(), visible.bottom(), beside, height)
        if opening.hidden_mm > 0.05:
            self._hidden(painter, printed, visible, around, view)

    def _hidden(self, painter: QPainter, printed: QRect, visible: QRect, around: QRectF, view: QRectF) -> None:
        hidden = self._number(self.opening.hidden_mm)
        words = (
            say("under the mat {width}", width=hidden)
            if self.opening.matted
            else say("under the lip {width}", width=hidden)
        )
        left = max(around.left() - theme().px(12), view.left() + self._plate(words).width() + 8)
        if left > printed.left():
            return  # there is no room beside the picture for it
        y = visible.center().y() + theme().px(30)
        strip = (printed.left() + visible.left()) / 2
        self._line(painter, QPointF(left, y), QPointF(strip, y))
        self._write(painter, words, QPointF(left - 4, y), Qt.AlignmentFlag.AlignRight)

    def _number(self, mm: float) -> str:
        return number(mm, self._style)

    def _line(self, painter: QPainter, one: QPointF, other: QPointF) -> None:
        look = theme()
        for colour, width in ((faded(look.colour("surface"), 70), 3), (look.colour("pencil"), 1)):
            painter.setPen(QPen(colour, width))
            painter.drawLine(one, other)

    def _across(self, painter: QPainter, left: float, right: float, y: float, words: str) -> None:
        self._line(painter, QPointF(left, y), QPointF(right, y))
        for x in (left, right):
            painter.drawLine(QPointF(x - TICK_PX, y + TICK_PX), QPointF(x + TICK_PX, y - TICK_PX))
        self._write(painter, words, QPointF((left + right) / 2, y - theme().px(9)), Qt.AlignmentFlag.AlignHCenter)

    def _up(self, painter: QPainter, top: float, bottom: float, x: float, words: str) -> None:
        self._line(painter, QPointF(x, top), QPointF(x, bottom))
        for y in (top, bottom):
            painter.drawLine(QPointF(x - TICK_PX, y + TICK_PX), QPointF(x + TICK_PX, y - TICK_PX))
        self._write(painter, words, QPointF(x + 6, (top + bottom) / 2), Qt.AlignmentFlag.AlignLeft)

    def _write(self, painter: QPainter, words: str, at: QPointF, align: Qt.AlignmentFlag) -> None:
        """Words on a plate, in the middle of their height at a point, left, right or in the middle of it."""
        look, size = theme(), self._plate(words)
        left = {Qt.AlignmentFlag.AlignLeft: 0.0, Qt.AlignmentFlag.AlignRight: 1.0}.get(align, 0.5)
        plate = QRectF(at.x() - left * size.width(), at.y() - size.height() / 2, size.width(), size.height())
        painter.fillRect(plate, faded(look.colour("surface"), 88))
        painter.setFont(look.font(12))
        painter.setPen(look.colour("pencil"))
        painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, words)

    @staticmethod
    def _plate(words: str) -> QSize:
        """How large the plate under some words is."""
        metrics = QFontMetrics(theme().font(12))
        return QSize(metrics.horizontalAdvance(words) + 6, metrics.height())
