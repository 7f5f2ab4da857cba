"""The piece in hand, to scale: its outline as it will hang with the holes or strips, or its back with the strips."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPen

from composer.desktop.hanging_day.ink import CENTRE, Ink
from composer.desktop.hanging_day.telling import LETTERS
from composer.desktop.theme import theme
from composer.hanging.records import PieceHanging
from composer.paper.figures import Figures
from composer.paper.hanging_list_rows import round_to
from composer.texts import say


@dataclass(frozen=True, slots=True)
class Shown:
    """What is drawn.

    Attributes:
        hanging: the piece's size, points, holes and strips.
        figures: how its dimension is written.
        point: the hole or pair in hand; those before it are done. None = none in particular.
        back: seen from behind, left and right exchanged.
    """

    hanging: PieceHanging
    figures: Figures
    point: int | None = None
    back: bool = False


def draw_piece(ink: Ink, box: QRectF, shown: Shown) -> None:
    """The piece in a box, with one dimension above it and a word below."""
    sizes, hanging = ink.sizes, shown.hanging
    top, low = sizes.text_px(22) * 1.9, sizes.text_px(18) * 1.4
    room = box.adjusted(sizes.px(10), top, -sizes.px(10), -low)
    scale = min(room.width() / hanging.width_mm, room.height() / hanging.height_mm)
    wide, high = hanging.width_mm * scale, hanging.height_mm * scale
    frame = QRectF(room.center().x() - wide / 2, room.top() + (room.height() - high) / 2, wide, high)
    drawing = _Drawing(ink, frame, scale, shown)
    drawing.draw()
    words = say("its back, tabs down") if shown.back else say("as it hangs, this side up")
    ink.words(QRectF(box.left(), frame.bottom() + sizes.px(2), box.width(), low), words, 18, "pencil", align=CENTRE)


class _Drawing:
    def __init__(self, ink: Ink, frame: QRectF, scale: float, shown: Shown) -> None:
        self.ink, self.frame, self.scale, self.shown = ink, frame, scale, shown

    def draw(self) -> None:
        painter = self.ink.painter
        painter.fillRect(self.frame, theme().colour("field"))
        pen = QPen(theme().colour("field_line"), 1)
        pen.setDashPattern([8, 3, 2, 3])
        painter.setPen(pen)
        middle = self.frame.center()
        painter.drawLine(QPointF(middle.x(), self.frame.top()), QPointF(middle.x(), self.frame.bottom()))
        painter.drawLine(QPointF(self.frame.left(), middle.y()), QPointF(self.frame.right(), middle.y()))
        self.ink.box(self.frame, "ink", width=1.5)
        if not self.shown.back:
            self._arrow()
        hanging = self.shown.hanging
        if hanging.strips is not None:
            for at, place in enumerate(hanging.strips.places):
                self._strip(at, self._box(place.left, place.bottom, place.right, place.top), len(hanging.strips.places))
            xs = [place.centre[0] for place in hanging.strips.places]
        else:
            spots = [(hole.x, hole.y) for hole in hanging.holes]
            for at, (x, y) in enumerate(spots):
                self._hole(at, self._at(x, y), len(spots))
            xs = [x for x, _ in spots]
        if xs:
            self._dimension(xs)

    def _x(self, x: float) -> float:
        if self.shown.back:
            return self.frame.right() - x * self.scale
        return self.frame.left() + x * self.scale

    def _at(self, x: float, y: float) -> QPointF:
        return QPointF(self._x(x), self.frame.bottom() - y * self.scale)

    def _box(self, left: float, bottom: float, right: float, top: float) -> QRectF:
        return QRectF(self._at(left, top), self._at(right, bottom)).normalized()

    def _state(self, at: int) -> str:
        point = self.shown.point
        return "open" if point is None or at > point else "done" if at < point else "now"

    def _strip(self, at: int, box: QRectF, count: int) -> None:
        ink, state = self.ink, self._state(at)
        edge = {"open": "pencil", "done": "ok", "now": "accent"}[state]
        least = ink.sizes.px(8)
        if box.width() < least:
            middle = box.center().x()
            box = QRectF(middle - least / 2, box.top(), least, box.height())
        ink.box(box, edge, {"open": "surface_2", "done": "ok", "now": "accent"}[state], 2)
        if self.shown.point is not None and count > 1:
            self._letter(at, box, state)

    def _letter(self, at: int, box: QRectF, state: str) -> None:
        """Beside its strip, towards the frame's middle."""
        ink, size = self.ink, 28.0
        wide, high = ink.sizes.px(32), min(ink.sizes.text_px(size) * 1.2, self.frame.height() / 2)
        left = box.right() + ink.sizes.px(4) if box.center().x() < self.frame.center().x() else box.left() - wide
        spot = QRectF(left, box.center().y() - high / 2, wide - ink.sizes.px(4), high)
        ink.words(spot, LETTERS[at % len(LETTERS)], size, "accent" if state == "now" else "ink", semibold=True)
        if state == "done":
            size, way = ink.sizes.px(18), 1 if left > box.left() else -1
            ink.sign("tick", spot.center() + QPointF(way * (wide * 0.9), 0), size, "ok")

    def _hole(self, at: int, spot: QPointF, count: int) -> None:
        ink, state = self.ink, self._state(at)
        token = {"open": "pencil", "done": "ok", "now": "accent"}[state]
        reach = ink.sizes.px(13)
        ink.painter.setRenderHint(ink.painter.RenderHint.Antialiasing)
        ink.line(spot.x() - reach, spot.y(), spot.x() + reach, spot.y(), token, 3 if state == "now" else 2)
        ink.line(spot.x(), spot.y() - reach, spot.x(), spot.y() + reach, token, 3 if state == "now" else 2)
        ink.painter.drawEllipse(spot, reach * 0.55, reach * 0.55)
        if count > 1:
            self._letter(at, QRectF(spot.x() - reach, spot.y() - reach, 2 * reach, 2 * reach), state)

    def _arrow(self) -> None:
        """Up, in the lower half of the middle."""
        x, bottom = self.frame.center().x(), self.frame.bottom() - self.frame.height() * 0.12
        top = self.frame.center().y() + self.frame.height() * 0.08
        wing = min(self.ink.sizes.px(10), self.frame.width() / 8)
        pen = QPen(theme().colour("ink"), 2)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        self.ink.painter.setPen(pen)
        self.ink.painter.drawPolyline([QPointF(x, bottom), QPointF(x, top)])
        self.ink.painter.drawPolyline([QPointF(x - wing, top + wing), QPointF(x, top), QPointF(x + wing, top + wing)])

    def _dimension(self, xs: list[float]) -> None:
        """Between the outer holes or strips; of a single hole, from the edge left of it."""
        ink, shown = self.ink, self.shown
        start, end = min(xs), max(xs)
        if end - start < 1:
            start, end = (0.0, end) if not shown.back else (end, shown.hanging.width_mm)
        left, right = sorted((self._x(start), self._x(end)))
        y = self.frame.top() - ink.sizes.px(12)
        tick = ink.sizes.px(5)
        ink.line(left - tick, y, right + tick, y, "pencil")
        for x in (left, right):
            ink.line(x, y - tick, x, self.frame.top() + tick, "pencil")
            ink.line(x - tick, y + tick, x + tick, y - tick, "pencil", 1.5)
        high = ink.sizes.text_px(22) * 1.25
        words = shown.figures.bare(round_to(end - start, shown.figures))
        wide = max(right - left, ink.sizes.width(words, 22, semibold=True) + 8)
        centre = min(max((left + right) / 2, self.frame.left() + wide / 2), max(self.frame.right() - wide / 2, left))
        ink.words(QRectF(centre - wide / 2, y - high, wide, high), words, 22, semibold=True, align=CENTRE)
