"""One painting of a frame's back, to scale: moulding, hanger, dimensions, and the measure being typed in chalk.

Left and right are as one sees them here, behind the frame.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF

from composer.desktop import field_look as look
from composer.hanging.records import PieceHanging
from composer.model import Frame, Hanger
from composer.texts import say
from composer.units import LengthStyle, Mm, show_length

USUAL_FACE_SHARE = 0.06
"""Moulding drawn where its face is unknown, as a share of the shorter side; a drawing, not a measure."""


@dataclass(frozen=True, slots=True)
class Back:
    """What the drawing shows.

    Attributes:
        hanging: what the measures give, points from the piece's lower left corner seen from the front.
        active: the measure being typed, by its field's name in the model; None = none.
    """

    frame: Frame
    hanger: Hanger
    hanging: PieceHanging
    style: LengthStyle
    active: str | None = None


class BackPainting:
    """One painting of one back."""

    def __init__(self, painter: QPainter, room: QRectF, back: Back) -> None:
        self.painter, self.back = painter, back
        self.shades = look.colours()
        side, top = look.px(40), look.px(24)
        inner = room.adjusted(side, top, -side, -look.px(26))
        hanging = back.hanging
        self.scale = min(inner.width() / hanging.width_mm, inner.height() / hanging.height_mm)
        width, height = hanging.width_mm * self.scale, hanging.height_mm * self.scale
        self.box = QRectF(inner.center().x() - width / 2, inner.top(), width, height)

    def draw(self) -> None:
        self._frame()
        self._dimensions()
        kind = self.back.hanger.kind
        draw: Callable[[], None] | None = {
            "wire": self._wire,
            "d-rings": self._rings,
            "sawtooth": self._sawtooth,
            "keyholes": self._keyholes,
            "strips": self._strips,
            "cleat": self._cleat,
            "ledge": self._ledge,
        }.get(kind or "")
        self._words()
        if draw is not None:
            draw()
        self._active()

    def at(self, x: float, y: float) -> QPointF:
        """A point of the piece (mm, seen from the front) on the back."""
        return QPointF(self.box.right() - x * self.scale, self.box.bottom() - y * self.scale)

    def mm(self, name: str, usual: float) -> float:
        length = getattr(self.back.hanger, name)
        return usual if length is None else float(length.mm)

    @property
    def width(self) -> float:
        return float(self.back.hanging.width_mm)

    @property
    def height(self) -> float:
        return float(self.back.hanging.height_mm)

    @property
    def middle(self) -> float:
        return self.width / 2 + self.mm("offset", 0.0)

    def _frame(self) -> None:
        face = self.back.frame.face
        wide = min(self.width, self.height) * USUAL_FACE_SHARE if face is None else float(face.mm)
        inset = max(look.px(5), wide * self.scale)
        inner = self.box.adjusted(inset, inset, -inset, -inset)
        painter = self.painter
        painter.setPen(QPen(self.shades.ink, 1))
        painter.setBrush(self.shades.floor)
        painter.drawRect(self.box)
        painter.setBrush(self.shades.wall)
        painter.drawRect(inner)
        painter.setPen(QPen(self.shades.pencil, 0.8))
        for outer, near in (
            (self.box.topLeft(), inner.topLeft()),
            (self.box.topRight(), inner.topRight()),
            (self.box.bottomLeft(), inner.bottomLeft()),
            (self.box.bottomRight(), inner.bottomRight()),
        ):
            painter.drawLine(outer, near)
        self.inner = inner

    def _words(self) -> None:
        painter, inner = self.painter, self.inner
        title = say("the back, this way up")
        notes = (say("left here"), say("right here"))
        font = look.font(12, semibold=True)
        painter.setFont(font)
        high = painter.fontMetrics().height()
        room = inner.adjusted(look.px(4), 0, -look.px(4), -look.px(4))
        if inner.height() < 4 * high or look.width_of(title, 12, semibold=True) > room.width():
            return
        painter.setPen(self.shades.ink)
        painter.drawText(
            room.adjusted(0, 0, 0, -high - 2), Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom, title
        )
        painter.setFont(look.font(12))
        painter.setPen(self.shades.pencil)
        if sum(look.width_of(note, 12) for note in notes) + look.px(12) > room.width():
            return
        painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, notes[0])
        painter.drawText(room, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom, notes[1])

    def _dimensions(self) -> None:
        painter, box = self.painter, self.box
        painter.setFont(look.font(12))
        high = painter.fontMetrics().height()
        below = box.bottom() + look.px(8)
        self._ticked(QPointF(box.left(), below), QPointF(box.right(), below))
        width = show_length(Mm(self.width), self.back.style)
        painter.drawText(QRectF(box.center().x() - 80, below + 1, 160, high), Qt.AlignmentFlag.AlignHCenter, width)
        x = box.left() - look.px(8)
        self._ticked(QPointF(x, box.top()), QPointF(x, box.bottom()))
        painter.save()
        painter.translate(x - 3, box.center().y())
        painter.rotate(-90)
        height = show_length(Mm(self.height), self.back.style)
        painter.drawText(
            QRectF(-80, -high, 160, high), Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom, height
        )
        painter.restore()

    def _ticked(self, start: QPointF, end: QPointF, colour: QColor | None = None) -> None:
        painter = self.painter
        painter.setPen(QPen(colour or self.shades.pencil, 1))
        painter.drawLine(start, end)
        tick = 3 if QLineF(start, end).length() >= 10 else 2
        for point in (start, end):
            painter.drawLine(point + QPointF(-tick, tick), point + QPointF(tick, -tick))

    # The hangers ------------------------------------------------------------------------------

    def _wire(self) -> None:
        reach = self.mm("spacing", self.width * 0.86) / 2
        left = self.mm("ring_drop", max(self.mm("drop", self.height / 9) * 2, self.height / 4))
        right = self.mm("ring_drop_right", left)
        left, right = min(left, self.height), min(right, self.height)
        rings = (self.at(self.middle - reach, self.height - left), self.at(self.middle + reach, self.height - right))
        points = self.back.hanging.points
        drop = self.mm("drop", min(left, right) / 2)
        tops = [self.at(point.x, point.y) for point in points] or [self.at(self.middle, self.height - drop)]
        painter = self.painter
        slack = QPainterPath(rings[1])
        sag = QPointF((rings[0].x() + rings[1].x()) / 2, max(rings[0].y(), rings[1].y()) + look.px(14))
        slack.quadTo(sag, rings[0])
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self.shades.pencil, 1, Qt.PenStyle.DashLine))
        painter.drawPath(slack)
        painter.setPen(QPen(self.shades.ink, 1.5))
        painter.drawPolyline(QPolygonF([rings[1], *reversed(tops), rings[0]]))
        for ring in rings:
            self._ring(ring)

    def _ring(self, centre: QPointF) -> None:
        radius = max(3.0, look.px(4))
        self.painter.setPen(QPen(self.shades.ink, 1.2))
        self.painter.setBrush(self.shades.field)
        self.painter.drawEllipse(centre, radius, radius)
        self.painter.setBrush(self.shades.pencil)
        self.painter.drawRect(QRectF(centre.x() - 2, centre.y() + radius, 4, look.px(6)))

    def _pair(self) -> tuple[QPointF, QPointF]:
        reach = self.mm("spacing", self.width * 0.8) / 2
        left = self.mm("drop", self.height / 6)
        right = self.mm("drop_right", left)
        return (
            self.at(self.middle - reach, self.height - min(left, self.height)),
            self.at(self.middle + reach, self.height - min(right, self.height)),
        )

    def _rings(self) -> None:
        for point in self._pair():
            self._ring(point)

    def _keyholes(self) -> None:
        for point in self._pair():
            self.painter.setPen(Qt.PenStyle.NoPen)
            self.painter.setBrush(self.shades.ink)
            radius = max(3.0, look.px(4))
            self.painter.drawEllipse(QPointF(point.x(), point.y() + radius * 2), radius, radius)
            self.painter.drawRoundedRect(
                QRectF(point.x() - radius / 2, point.y(), radius, radius * 2), radius / 2, radius / 2
            )

    def _sawtooth(self) -> None:
        point = self.at(self.middle, self.height - min(self.mm("drop", self.height / 30), self.height))
        wide, teeth = max(look.px(24), 45 * self.scale), 6
        left, step = point.x() - wide / 2, wide / teeth
        high = look.px(4)
        outline = [QPointF(left, point.y() - high)]
        outline += [QPointF(left + wide, point.y() - high), QPointF(left + wide, point.y())]
        for tooth in range(teeth, 0, -1):
            outline += [
                QPointF(left + (tooth - 0.5) * step, point.y() + high),
                QPointF(left + (tooth - 1) * step, point.y()),
            ]
        self.painter.setPen(QPen(self.shades.ink, 1))
        self.painter.setBrush(self.shades.pencil)
        self.painter.drawPolygon(QPolygonF(outline))

    def _strips(self) -> None:
        plan = self.back.hanging.strips
        if plan is None:
            return
        self.painter.setFont(look.font(11, semibold=True))
        for rectangle in plan.places:
            upper, lower = self.at(rectangle.right, rectangle.top), self.at(rectangle.left, rectangle.bottom)
            self.painter.setPen(QPen(self.shades.accent, 1.5))
            self.painter.setBrush(self.shades.accent_wash)
            self.painter.drawRect(QRectF(upper, lower))

    def _cleat(self) -> None:
        points = self.back.hanging.points
        if points:
            ends = [self.at(point.x, point.y) for point in points]
        else:
            y = self.height - self.mm("drop", self.height / 6)
            ends = [self.at(self.width * share, y) for share in (0.15, 0.85)]
        box = QRectF(ends[1], ends[0]).normalized()
        box.setHeight(look.px(8))
        self.painter.setPen(QPen(self.shades.ink, 1))
        self.painter.setBrush(QColor(self.shades.pencil))
        self.painter.drawRect(box)

    def _ledge(self) -> None:
        box = QRectF(self.box.left() - look.px(8), self.box.bottom(), self.box.width() + look.px(16), look.px(6))
        self.painter.setPen(QPen(self.shades.ink, 1))
        self.painter.setBrush(self.shades.pencil)
        self.painter.drawRect(box)

    # The measure being typed --------------------------------------------------------------------

    def _active(self) -> None:
        measured = self._extent(self.back.active or "")
        if measured is None:
            return
        start, end = measured
        painter, chalk = self.painter, self.shades.chalk
        fill = QColor(chalk)
        fill.setAlphaF(0.42)
        upright = abs(start.y() - end.y()) > abs(start.x() - end.x())
        side = look.px(9)
        box = QRectF(start, end).normalized()
        box = box.adjusted(-side, 0, side, 0) if upright else box.adjusted(0, -side, 0, side)
        painter.fillRect(box, fill)
        self._ticked(start, end, chalk)
        words = show_length(Mm(QLineF(start, end).length() / self.scale), self.back.style)
        font = look.font(12, semibold=True)
        painter.setFont(font)
        wide, high = look.width_of(words, 12, semibold=True) + look.px(8), painter.fontMetrics().height() + 2
        if upright:
            tag = QRectF(start.x() - wide / 2, min(start.y(), end.y()) - high - 4, wide, high)
        else:
            tag = QRectF(box.center().x() - wide / 2, box.top() - high - 2, wide, high)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(chalk)
        painter.drawRoundedRect(tag, 2, 2)
        painter.setPen(self.shades.on_fill)
        painter.drawText(tag, Qt.AlignmentFlag.AlignCenter, words)

    def _extent(self, name: str) -> tuple[QPointF, QPointF] | None:
        """From where to where a measure runs, on the back."""
        hanger = self.back.hanger
        length = getattr(hanger, name, None)
        if length is None or not hasattr(length, "mm"):
            return None
        mm, top = float(length.mm), self.height
        paired = hanger.kind in ("d-rings", "keyholes")
        reach = self.mm("spacing", self.width * 0.8) / 2
        ring_reach = self.mm("spacing", self.width * 0.86) / 2
        aside = {
            "drop": self.middle - reach if paired else self.middle,
            "drop_right": self.middle + reach,
            "ring_drop": self.middle - ring_reach,
            "ring_drop_right": self.middle + ring_reach,
        }.get(name)
        if aside is not None:
            return self.at(aside, top), self.at(aside, top - mm)
        if name == "offset":
            y = top / 2
            return self.at(self.width / 2, y), self.at(self.width / 2 + mm, y)
        if name in ("spacing", "hook_spacing"):
            level = self.mm("ring_drop" if hanger.kind == "wire" and name == "spacing" else "drop", top / 6)
            y = top - min(level, top)
            return self.at(self.middle + mm / 2, y), self.at(self.middle - mm / 2, y)
        return None
