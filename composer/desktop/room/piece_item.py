"""A piece in the room: a mirror of its record, drawn on whole pixels, with its number tag.

What it looks like is drawn once into a pixmap of the very size and painted from there until record,
state, scale or colours change: what moves near it then costs one copy of pixels.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from composer.desktop.room import drawing
from composer.desktop.room.coordinates import rect_from_scene, rect_to_scene
from composer.desktop.theme import theme
from composer.geometry.rectangle import Rectangle
from composer.model import Key, Piece

ROOM_PX, ROOM_FOCUSED_PX, ROOM_IN_HAND_PX = 8, 10, 18
"""Pixels around the frame that shadow, selection, tag and marks may take."""

LARGEST_KEPT_PX = 900
"""A piece drawn larger than this is not kept as a pixmap: few of that size are in view, and each is megabytes."""

TAG_HEIGHT = 16
TAG_OVER = 4

Z_REST, Z_HAND = 10.0, 60.0


class PieceItem(QGraphicsItem):
    """Shows one piece; it is told everything and decides nothing."""

    def __init__(self, piece: Piece) -> None:
        super().__init__()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIsSelectable, False)
        self.setAcceptHoverEvents(True)
        self.setZValue(Z_REST)
        self.piece = piece
        self.hung = False
        self.turned = False
        self.locked = False
        self.up = False
        self.level: str | None = None
        self.picture: QPixmap | None = None
        self._size = piece.size_mm()
        self._scale = 0.2
        self._chosen = False
        self._focused = False
        self._in_hand = False
        self._over = False
        self._trouble = False
        self._drawn: dict[tuple[object, ...], QPixmap] = {}
        self._bounds = QRectF()
        self._measure()

    @property
    def key(self) -> Key:
        """The piece's key."""
        return self.piece.key

    @property
    def box(self) -> Rectangle:
        """Where it is drawn now, on the wall or the floor, mm."""
        return rect_from_scene(QRectF(self.pos(), self.pos() + QPointF(*self._size)))

    @property
    def frame_rect(self) -> QRectF:
        """The frame alone, in the item's own mm."""
        return QRectF(0, 0, *self._size)

    def show_record(self, piece: Piece, box: Rectangle, *, hung: bool, turned: bool, locked: bool, up: bool) -> None:
        """Shows the record where it belongs."""
        size = piece.size_mm(turned=turned)
        if size != self._size:
            self.prepareGeometryChange()
            self._size = size
            self._measure()
        self.put(box)
        if (piece, hung, turned, locked, up) == (self.piece, self.hung, self.turned, self.locked, self.up):
            return
        self.piece, self.hung, self.turned, self.locked, self.up = piece, hung, turned, locked, up
        self.redraw()

    def on_theme(self) -> None:
        """Colours or letters are others."""
        self.prepareGeometryChange()
        self._measure()
        self.redraw()

    def set_picture(self, picture: QPixmap | None) -> None:
        """What the frame shows; None = not there yet."""
        self.picture = picture
        self.redraw()

    def redraw(self) -> None:
        """Draws it anew when it is next painted."""
        self._drawn.clear()
        self.update()

    def put(self, box: Rectangle) -> None:
        """Shows it elsewhere for the moment; the record is untouched."""
        self.setPos(rect_to_scene(box).topLeft())

    def set_scale_px(self, px_per_mm: float) -> None:
        """The view's scale, on which the room around the frame depends."""
        if px_per_mm != self._scale:
            self.prepareGeometryChange()
            self._scale = px_per_mm
            self._measure()
            self._drawn.clear()

    def set_state(self, *, chosen: bool, focused: bool) -> None:
        """Selected, and where the keyboard is."""
        if (chosen, focused) != (self._chosen, self._focused):
            self.prepareGeometryChange()
            self._chosen, self._focused = chosen, focused
            self._measure()
            self.redraw()

    def set_in_hand(self, in_hand: bool) -> None:
        """Lifted off the wall, above all others."""
        if in_hand != self._in_hand:
            self.prepareGeometryChange()
            self._in_hand = in_hand
            self.setZValue(Z_HAND if in_hand else Z_REST)
            self._measure()
            self.redraw()

    def set_trouble(self, trouble: bool) -> None:
        """In hand, where it cannot stay: over another piece, or beyond the wall."""
        if trouble != self._trouble:
            self._trouble = trouble
            self.redraw()

    def set_level(self, level: str | None) -> None:
        """The most serious finding about it: stop, warn, note or None."""
        if level != self.level:
            self.level = level
            self.redraw()

    def _measure(self) -> None:
        self._around = ROOM_IN_HAND_PX if self._in_hand else ROOM_FOCUSED_PX if self._focused else ROOM_PX
        room = self._around / self._scale
        # A tag of large letters may be wider than a small frame.
        right = max(0.0, 40 * theme().text_percent / 100 / self._scale - self._size[0])
        self._bounds = QRectF(-room, -room, self._size[0] + 2 * room + right, self._size[1] + 2 * room)

    def boundingRect(self) -> QRectF:
        """The frame and the pixels around it."""
        return self._bounds

    def shape(self):  # type: ignore[no-untyped-def]
        """Only the frame itself takes the pointer, but never less than 24 pixels."""
        from PySide6.QtGui import QPainterPath

        path = QPainterPath()
        lack_x = max(0.0, 24 / self._scale - self._size[0]) / 2
        lack_y = max(0.0, 24 / self._scale - self._size[1]) / 2
        path.addRect(QRectF(-lack_x, -lack_y, self._size[0] + 2 * lack_x, self._size[1] + 2 * lack_y))
        return path

    def hoverEnterEvent(self, event: object) -> None:
        """The pointer comes over it."""
        self._over = True
        self.redraw()

    def hoverLeaveEvent(self, event: object) -> None:
        """The pointer leaves it."""
        self._over = False
        self.redraw()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it on whole device pixels."""
        world = painter.worldTransform()
        ratio = float(painter.device().devicePixelRatio())
        left, top = round(world.dx() * ratio), round(world.dy() * ratio)
        width = round((world.dx() + self._size[0] * self._scale) * ratio) - left
        height = round((world.dy() + self._size[1] * self._scale) * ratio) - top
        painter.resetTransform()
        if max(width, height) > LARGEST_KEPT_PX * ratio:
            painter.translate(left / ratio, top / ratio)
            self._draw(painter, QRectF(0, 0, width / ratio, height / ratio))
            return
        key = (width, height, ratio, theme().generation)
        drawn = self._drawn.get(key)
        if drawn is None:
            if len(self._drawn) > 4:
                self._drawn.clear()
            drawn = self._drawn[key] = self._pixmap(width, height, ratio)
        around = round(self._around * ratio)
        painter.drawPixmap(QPointF((left - around) / ratio, (top - around) / ratio), drawn)

    def _pixmap(self, width: int, height: int, ratio: float) -> QPixmap:
        """The piece with what lies around it, in device pixels."""
        around = round(self._around * ratio)
        right = max(0, round(40 * theme().text_percent / 100 * ratio) - width)
        made = QPixmap(width + 2 * around + right, height + 2 * around)
        made.setDevicePixelRatio(ratio)
        made.fill(Qt.GlobalColor.transparent)
        with QPainter(made) as painter:
            painter.translate(around / ratio, around / ratio)
            self._draw(painter, QRectF(0, 0, width / ratio, height / ratio))
        return made

    def _draw(self, painter: QPainter, box: QRectF) -> None:
        shadow = drawing.IN_HAND if self._in_hand else drawing.AT_REST if self.hung else drawing.ON_FLOOR
        drawing.draw_shadow(painter, box, shadow)
        drawing.draw_piece(painter, box, self.piece, self._scale, turned=self.turned, picture=self.picture)
        self._draw_state(painter, box)
        self._draw_tag(painter, box)
        self._draw_marks(painter, box)

    def drawn_at(self, ratio: float) -> QPixmap:
        """The pixmap it is painted from, for measurements."""
        width, height = (round(size * self._scale * ratio) for size in self._size)
        return self._pixmap(width, height, ratio)

    def _draw_state(self, painter: QPainter, box: QRectF) -> None:
        look = theme()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if self._chosen or self._in_hand:
            # Two lines, so that the selection never hangs on colour.
            painter.setPen(QPen(look.colour("accent"), 2))
            painter.drawRect(box.adjusted(-3, -3, 3, 3))
        elif self._over:
            painter.setPen(QPen(look.colour("ink"), 1))
            painter.drawRect(box.adjusted(-2, -2, 1, 1))
        if self._focused:
            pen = QPen(look.colour("ink"), 2, Qt.PenStyle.CustomDashLine)
            pen.setDashPattern([2, 1.5])
            painter.setPen(pen)
            painter.drawRect(box.adjusted(-6, -6, 6, 6))

    def _draw_tag(self, painter: QPainter, box: QRectF) -> None:
        look = theme()
        font = look.font(12, semibold=True)
        words = str(self.piece.number)
        height = look.px(TAG_HEIGHT)
        width = max(height, QFontMetrics(font).horizontalAdvance(words) + look.px(8))
        tag = QRect(round(box.left()) - TAG_OVER, round(box.bottom()) - height + TAG_OVER, width, height)
        filled = self._chosen or self._in_hand
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        painter.setPen(QPen(look.colour("line"), 1) if not filled else Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("accent" if filled else "surface"))
        painter.drawRoundedRect(QRectF(tag).adjusted(0.5, 0.5, -0.5, -0.5), 3, 3)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.setFont(font)
        painter.setPen(look.colour("on_fill" if filled else "ink"))
        painter.drawText(tag, Qt.AlignmentFlag.AlignCenter, words)

    def _draw_marks(self, painter: QPainter, box: QRectF) -> None:
        if self._trouble:
            draw_level(painter, QRectF(box.right() - 12, box.top() - 6, 16, 16), "stop")
        elif self.level is not None:
            draw_level(painter, QRectF(box.right() - 12, box.top() - 6, 16, 16), self.level)
        if self.up:
            draw_tick(painter, QRectF(box.right() - 12, box.bottom() - 12, 16, 16))
        elif self.locked:
            draw_lock(painter, QRectF(box.right() - 12, box.bottom() - 12, 16, 16))


def _plate(painter: QPainter, box: QRectF) -> None:
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(theme().colour("surface"))
    painter.drawRoundedRect(box, 3, 3)


def draw_level(painter: QPainter, box: QRectF, level: str, *, plate: bool = True) -> None:
    """Octagon, triangle or ring: the sign of a finding's level in a square of 16 pixels."""
    from PySide6.QtGui import QPolygonF

    look = theme()
    painter.save()
    if plate:
        _plate(painter, box)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    centre, size = box.center(), box.width()
    if level == "stop":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("stop"))
        half, cut = size * 0.4, size * 0.17
        corners = [
            (-half, -cut), (-cut, -half), (cut, -half), (half, -cut),
            (half, cut), (cut, half), (-cut, half), (-half, cut),
        ]  # fmt: skip
        painter.drawPolygon(QPolygonF([centre + QPointF(x, y) for x, y in corners]))
        painter.setPen(QPen(look.colour("on_fill"), size / 8))
        painter.drawLine(centre - QPointF(size * 0.2, 0), centre + QPointF(size * 0.2, 0))
    elif level == "warn":
        painter.setPen(
            QPen(look.colour("warn"), 1, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin)
        )
        painter.setBrush(look.colour("warn"))
        corners = [(0, -0.36), (0.4, 0.34), (-0.4, 0.34)]
        painter.drawPolygon(QPolygonF([centre + QPointF(x * size, y * size) for x, y in corners]))
        painter.setPen(QPen(look.colour("on_fill"), size / 10))
        painter.drawLine(centre - QPointF(0, size * 0.12), centre + QPointF(0, size * 0.1))
        painter.drawPoint(centre + QPointF(0, size * 0.24))
    else:
        painter.setPen(QPen(look.colour("pencil"), 1.5))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(centre, size * 0.36, size * 0.36)
        painter.setBrush(look.colour("pencil"))
        painter.drawEllipse(centre, size * 0.08, size * 0.08)
    painter.restore()


def draw_lock(painter: QPainter, box: QRectF, *, plate: bool = True) -> None:
    """A closed padlock."""
    look = theme()
    painter.save()
    if plate:
        _plate(painter, box)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(QPen(look.colour("ink"), 1.3))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(QRectF(box.x() + 4, box.y() + 7.5, 8, 5))
    painter.drawArc(QRectF(box.x() + 5.5, box.y() + 3.5, 5, 8), 0, 180 * 16)
    painter.restore()


def draw_tick(painter: QPainter, box: QRectF) -> None:
    """A tick on a filled disc: it hangs."""
    look = theme()
    painter.save()
    _plate(painter, box)
    painter.setBrush(look.colour("ok"))
    painter.drawEllipse(box.center(), 6, 6)
    painter.setPen(QPen(look.colour("on_fill"), 1.6))
    centre = box.center()
    painter.drawPolyline([centre + QPointF(-3, 0), centre + QPointF(-1, 2.5), centre + QPointF(3, -2.5)])
    painter.restore()


def faded(colour: QColor, percent: float) -> QColor:
    """The colour at so many per cent of cover."""
    made = QColor(colour)
    made.setAlphaF(percent / 100)
    return made
