"""One small box that says which rules have caught the piece: a sign and a few words for each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal, NamedTuple

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPainterPath, QPen, QPixmap
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from composer.desktop.room.coordinates import to_scene
from composer.desktop.theme import theme
from composer.desktop.units_shown import number
from composer.geometry.rectangle import Rectangle
from composer.geometry.snapping import Catch
from composer.texts import say
from composer.units import LengthStyle

Z_REASON = 80.0
MOST_REASONS = 3
SIGN_PX = 12
CLEAR_PX = 10
"""Between box and piece."""

Sign = Literal["gap", "edge", "centre", "eye-line", "line", "more"]


class Reason(NamedTuple):
    """One rule in words."""

    sign: Sign
    words: str


class ReasonBox(QGraphicsItem):
    """The box. It stands above right of the piece, or where it covers no other piece."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(Z_REASON)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations, True)
        self._reasons: tuple[Reason, ...] = ()
        self._bounds = QRectF()
        self._generation = -1
        self._drawn: dict[float, QPixmap] = {}
        self.hide()

    @property
    def words(self) -> tuple[str, ...]:
        """What it says now."""
        return tuple(reason.words for reason in self._reasons) if self.isVisible() else ()

    def show_reasons(
        self,
        reasons: tuple[Reason, ...],
        beside: Rectangle,
        wall_width: float,
        px_per_mm: float,
        near: Callable[[Rectangle], Sequence[Rectangle]],
    ) -> None:
        """Shows these for a piece that is there, mm; ``near`` tells which pieces a rectangle would cover."""
        if reasons != self._reasons or self._generation != theme().generation:
            self.prepareGeometryChange()
            self._reasons, self._generation = reasons, theme().generation
            metrics = QFontMetrics(theme().font(12))
            width = max((metrics.horizontalAdvance(reason.words) for reason in reasons), default=0)
            self._step = metrics.height() + 5
            self._bounds = QRectF(0, 0, width + SIGN_PX + 28, len(reasons) * self._step + 10)
            self._drawn.clear()
            self.update()
        if not reasons:
            self.hide()
            return
        box = self._place(beside, wall_width, px_per_mm, near)
        self.setPos(to_scene(box.left, box.top))
        self.show()

    def _place(
        self,
        beside: Rectangle,
        wall_width: float,
        px_per_mm: float,
        near: Callable[[Rectangle], Sequence[Rectangle]],
    ) -> Rectangle:
        """The first place that lies before the wall and covers nothing; else the first."""
        width, height = self._bounds.width() / px_per_mm, self._bounds.height() / px_per_mm
        clear = CLEAR_PX / px_per_mm
        right, left = beside.right + clear, beside.left - clear - width
        # Above the piece there is room for the tag of a gap.
        above, below = beside.top + 3 * clear, beside.bottom - 3 * clear - height
        top = beside.top - height
        places = [
            Rectangle.at(x, y, width, height)
            for x, y in ((right, above), (left, above), (right, top), (left, top), (right, below), (left, below))
        ]
        inside = [place for place in places if place.left >= 0 and place.right <= wall_width] or places
        return next((place for place in inside if not near(place)), inside[0])

    def boundingRect(self) -> QRectF:
        """As wide as the longest line."""
        return self._bounds

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer."""
        return QPainterPath()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it, once for as long as it says the same."""
        ratio = float(painter.device().devicePixelRatio())
        if ratio not in self._drawn:
            made = QPixmap((self._bounds.size() * ratio).toSize())
            made.setDevicePixelRatio(ratio)
            made.fill(Qt.GlobalColor.transparent)
            with QPainter(made) as on_pixmap:
                self._draw(on_pixmap)
            self._drawn[ratio] = made
        painter.drawPixmap(QPointF(0, 0), self._drawn[ratio])

    def _draw(self, painter: QPainter) -> None:
        look = theme()
        box = self._bounds
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        painter.setPen(QPen(look.colour("chalk"), 1))
        painter.setBrush(look.colour("surface"))
        painter.drawRoundedRect(box.adjusted(0.5, 0.5, -0.5, -0.5), 3, 3)
        painter.setFont(look.font(12))
        for place, (sign, words) in enumerate(self._reasons):
            line = QRectF(10, 5 + place * self._step, box.width() - 20, self._step)
            painter.setPen(QPen(look.colour("ink"), 1))
            _draw_sign(painter, sign, QPointF(line.left() + SIGN_PX / 2, line.center().y()))
            painter.drawText(
                line.adjusted(SIGN_PX + 8, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words
            )


def _draw_sign(painter: QPainter, sign: Sign, middle: QPointF) -> None:
    """A sign of twelve pixels around a point."""
    x, y = round(middle.x()) + 0.5, round(middle.y()) + 0.5
    half = SIGN_PX / 2
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if sign == "gap":
        painter.drawLines([QLineF(x - 4, y - half, x - 4, y + half), QLineF(x + 4, y - half, x + 4, y + half)])
        painter.drawLine(QLineF(x - 4, y, x + 4, y))
    elif sign == "edge":
        painter.drawLine(QLineF(x - half, y + half - 1, x + half, y + half - 1))
        painter.drawRect(QRectF(x - 4, y - 4, 3, 9))
        painter.drawRect(QRectF(x + 1, y, 3, 5))
    elif sign == "centre":
        painter.drawRect(QRectF(x - 4, y - 4, 8, 8))
        painter.drawLine(QLineF(x, y - half, x, y + half))
    elif sign == "eye-line":
        path = QPainterPath(QPointF(x - half, y))
        path.quadTo(x, y - 7, x + half, y)
        path.quadTo(x, y + 7, x - half, y)
        painter.drawPath(path)
        painter.drawEllipse(QPointF(x, y), 1.5, 1.5)
    elif sign == "line":
        painter.drawLine(QLineF(x, y - half, x, y + half))
        painter.drawLine(QLineF(x - 3, y, x + 3, y))


def reasons(catches: Sequence[Catch], style: LengthStyle) -> tuple[Reason, ...]:
    """One line a rule; of more than three the two strongest and how many more there are."""
    lines = tuple(dict.fromkeys(_reason(catch, style) for catch in catches))
    if len(lines) > MOST_REASONS:
        return (*lines[:2], Reason("more", say("and {count} more", count=len(lines) - 2)))
    return lines


def _reason(catch: Catch, style: LengthStyle) -> Reason:
    name = catch.names[0] if catch.names else ""
    if catch.rule in {"gap", "keep-out"}:
        gap = catch.gaps[0]
        size = number(gap.width if catch.axis == "x" else gap.height, style)
        if catch.rule == "gap":
            return Reason("gap", say("gap {size} to {name}", size=size, name=name))
        return Reason("gap", say("{size} clear of {name}", size=size, name=name))
    if catch.rule == "eye-line":
        return Reason("eye-line", say("centre on the eye line"))
    if catch.rule == "wall-middle":
        return Reason("line", say("middle of the wall"))
    if catch.rule == "wall-margin":
        return Reason("line", say("margin of the wall"))
    if catch.rule == "thing-middle":
        return Reason("line", say("middle of {name}", name=name))
    if catch.rule == "spacing":
        return Reason("gap", say("equal gaps with {first} and {second}", first=catch.names[0], second=catch.names[-1]))
    if catch.rule == "centre":
        return Reason("centre", say("centre with {name}", name=name))
    if catch.axis == "x":
        return Reason("edge", say("side edge with {name}", name=name))
    return Reason("edge", say("top or bottom edge with {name}", name=name))
