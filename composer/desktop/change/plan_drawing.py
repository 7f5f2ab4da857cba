"""The wall now above the wall then, both to one scale at the same x, with the signs the paper has."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from composer.desktop import field_look as look
from composer.desktop.change.planning import Planned
from composer.geometry.rectangle import Rectangle
from composer.model import Key
from composer.rehang.plan import Change
from composer.texts import say

BEYOND_MM = 90.0
MARK_PX = 3.0
LEAST_PX, MOST_PX = 90, 150
"""Height of one of the two drawings; the largest does not grow with the text, of which little stands in it."""


class PlanDrawing(QWidget):
    """Now and then.

    Signals:
        chosen: a piece was clicked; carries its key.
    """

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._planned: Planned | None = None
        self._boxes: list[tuple[QRectF, Key]] = []
        self.setMinimumHeight(look.px(2 * LEAST_PX))
        self.setAccessibleName(say("The wall now and then"))

    def show_plan(self, planned: Planned | None) -> None:
        """Another plan."""
        self._planned = planned
        words = ""
        if planned is not None:
            plan = planned.plan
            words = say(
                "{stay} stay, {move} move, {down} come down, {up} go up.",
                stay=len(plan.of("stay")),
                move=len(plan.of("move")),
                down=len(plan.of("down")),
                up=len(plan.of("up")),
            )
        self.setAccessibleDescription(words)
        self.updateGeometry()
        self.update()

    def hasHeightForWidth(self) -> bool:
        """Both drawings keep the wall's shape."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Two drawings as high as what hangs, within limits."""
        around = self._around()
        if around is None:
            return look.px(2 * LEAST_PX)
        scale = (width - self._left() - 8) / self._wall_width()
        least = look.px(LEAST_PX)
        one = min(max(MOST_PX, least), max(least, round(around.height * scale)))
        return 2 * one + look.px(10)

    def sizeHint(self) -> QSize:
        """As wide as the rows below."""
        return QSize(look.px(640), self.heightForWidth(look.px(640)))

    def _left(self) -> int:
        return look.px(56)

    def _wall_width(self) -> float:
        return 1000.0 if self._planned is None else float(self._planned.plan.wall.width.mm)

    def _around(self) -> Rectangle | None:
        """The height both drawings show, over the whole width of the wall."""
        if self._planned is None:
            return None
        plan = self._planned.plan
        ys = [y for one in plan.changes for box in (one.now, one.then) if box for y in (box.bottom, box.top)]
        ys += [one.hole.at[1] for one in plan.fill]
        if not ys:
            return None
        return Rectangle(0.0, min(ys) - BEYOND_MM, self._wall_width(), max(ys) + BEYOND_MM)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A piece is chosen in the room, too."""
        for box, key in reversed(self._boxes):
            if box.contains(event.position()):
                self.chosen.emit(key)
                return

    def paintEvent(self, event: QPaintEvent) -> None:
        """Both, one below the other."""
        self._boxes = []
        around = self._around()
        if around is None or self._planned is None:
            return
        gap = look.px(10)
        one = (self.height() - gap) / 2
        scale = min((self.width() - self._left() - 8) / around.width, one / around.height)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            for then in (False, True):
                top = (one + gap) if then else 0.0
                self._draw(painter, QRectF(self._left(), top, around.width * scale, one), around, scale, then=then)

    def _draw(self, painter: QPainter, room: QRectF, around: Rectangle, scale: float, *, then: bool) -> None:
        shades = look.colours()
        assert self._planned is not None
        plan = self._planned.plan
        lift = room.top() + (room.height() + around.height * scale) / 2

        def at(x: float, y: float) -> QPointF:
            return QPointF(room.left() + x * scale, lift - (y - around.bottom) * scale)

        painter.fillRect(room, shades.wall)
        painter.setPen(QPen(shades.room_line, 1))
        painter.drawLine(room.topLeft(), room.bottomLeft())
        painter.drawLine(room.topRight(), room.bottomRight())
        level = at(0, self._planned.datum.level_line).y()
        if room.top() < level < room.bottom():
            painter.setPen(QPen(shades.pencil, 1, Qt.PenStyle.DashDotLine))
            painter.drawLine(QPointF(room.left(), level), QPointF(room.right(), level))
        painter.setPen(shades.ink)
        painter.setFont(look.font(14, semibold=True))
        painter.drawText(
            QRectF(0, room.top(), self._left() - 6, look.px(20)),
            Qt.AlignmentFlag.AlignLeft,
            say("Then") if then else say("Now"),
        )
        for change in plan.changes:
            place = change.then if then else change.now
            if place is not None:
                box = QRectF(at(place.left, place.top), at(place.right, place.bottom))
                self._boxes.append((box, change.piece.key))
                self._piece(painter, box, change, then=then)
        for one in plan.fill:
            _fill(painter, at(*one.hole.at))
        for change in plan.changes:
            for hole in change.holes:
                if hole.old is not None:
                    _again(painter, at(hole.x, hole.y))
                elif then:
                    _new(painter, at(hole.x, hole.y))

    def _piece(self, painter: QPainter, box: QRectF, change: Change, *, then: bool) -> None:
        shades = look.colours()
        leaves = not then and change.action in ("move", "down")
        comes = then and change.action == "up"
        pen = QPen(shades.ink, 2 if comes else 1)
        if leaves:
            pen.setStyle(Qt.PenStyle.DashLine)
        painter.setPen(pen)
        painter.setBrush(shades.surface)
        painter.drawRect(box)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        words = str(change.number)
        strong = change.action != "stay"
        painter.setFont(look.font(12, semibold=strong))
        painter.setPen(shades.ink if strong else shades.pencil)
        wide = look.width_of(words, 12, semibold=strong)
        sign = look.px(11) if strong else 0
        middle = box.center() + QPointF(-sign / 2, 0)
        high = look.height_of(words, 12, 1000)
        room = QRectF(middle.x() - wide / 2 - 1, middle.y() - high / 2, wide + 2, high)
        painter.drawText(room, Qt.AlignmentFlag.AlignCenter, words)
        if strong:
            way = (1.0, 0.0)
            if change.now is not None and change.then is not None:
                way = (change.then.left - change.now.left, change.then.bottom - change.now.bottom)
            kind = {"move": "arrow", "down": "minus", "up": "plus"}[change.action]
            draw_sign(painter, QPointF(room.right() + sign / 2, middle.y()), kind, way)


def draw_sign(painter: QPainter, at: QPointF, kind: str, way: tuple[float, float] = (1.0, 0.0)) -> None:
    """An arrow that points the true way, a minus or a plus."""
    shades, half = look.colours(), look.px(9) / 2
    painter.setPen(QPen(shades.ink, 1.5))
    if kind in ("minus", "plus"):
        painter.drawLine(at - QPointF(half, 0), at + QPointF(half, 0))
    if kind == "plus":
        painter.drawLine(at - QPointF(0, half), at + QPointF(0, half))
    if kind == "arrow":
        length = math.hypot(*way) or 1.0
        along = QPointF(way[0] / length, -way[1] / length)
        aside = QPointF(-along.y(), along.x())
        painter.drawLine(at - along * half, at + along * half * 0.2)
        painter.setBrush(shades.ink)
        painter.drawPolygon(QPolygonF([at + along * half, at + aside * half * 0.6, at - aside * half * 0.6]))
        painter.setBrush(Qt.BrushStyle.NoBrush)


def _again(painter: QPainter, at: QPointF) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.colours().ink)
    painter.drawEllipse(at, MARK_PX * 0.8, MARK_PX * 0.8)
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _fill(painter: QPainter, at: QPointF) -> None:
    painter.setPen(QPen(look.colours().ink, 1.5))
    for side in (1, -1):
        painter.drawLine(at + QPointF(-MARK_PX, side * MARK_PX), at + QPointF(MARK_PX, -side * MARK_PX))


def _new(painter: QPainter, at: QPointF) -> None:
    shades = look.colours()
    painter.setPen(QPen(shades.ink, 1.2))
    painter.setBrush(shades.surface)
    painter.drawEllipse(at, MARK_PX + 0.5, MARK_PX + 0.5)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(shades.ink)
    painter.drawEllipse(at, 1.2, 1.2)
    painter.setBrush(Qt.BrushStyle.NoBrush)


class Sign(QWidget):
    """One sign alone, for rows and the legend: what happens to a piece, or a mark of a hole."""

    def __init__(self, kind: str, way: tuple[float, float] = (1.0, 0.0), parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._kind, self._way = kind, way
        self.setFixedSize(look.px(18), look.px(18))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The sign in the middle."""
        middle = QPointF(self.width() / 2, self.height() / 2)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            marks = {"again": _again, "fill": _fill, "new": _new}
            if self._kind in marks:
                marks[self._kind](painter, middle)
            else:
                draw_sign(painter, middle, self._kind, self._way)
