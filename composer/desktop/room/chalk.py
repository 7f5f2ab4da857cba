"""What appears while something is dragged: chalk lines, filled gaps with their distance, the reason box.

All thin items made once and shown or hidden; none is ever as large as the wall.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from composer.desktop.room.coordinates import rect_to_scene, to_scene
from composer.desktop.room.piece_item import faded
from composer.desktop.theme import theme
from composer.geometry.rectangle import Rectangle
from composer.geometry.snapping import Catch
from composer.texts import say
from composer.units import LengthStyle, show_length

Z_CHALK, Z_REASON = 50.0, 80.0
BEYOND_MM = 120.0
"""A chalk line reaches so far beyond what it lines up."""
MOST_REASONS = 3


class ChalkLine(QGraphicsItem):
    """One thin line, in chalk on a light edge."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(Z_CHALK)
        self._length = 100.0
        self._along_x = True
        self._scale = 0.2
        self.hide()

    def show_at(self, catch: Catch, low: float, high: float, px_per_mm: float) -> None:
        """Shows the catch's line from ``low`` to ``high`` across its axis, mm."""
        self.prepareGeometryChange()
        self._scale, self._length, self._along_x = px_per_mm, high - low, catch.axis == "y"
        self.setPos(to_scene(low, catch.line) if self._along_x else to_scene(catch.line, high))
        self.show()
        self.update()

    def boundingRect(self) -> QRectF:
        """The line with its edge."""
        edge = 3 / self._scale
        return QRectF(0, -edge, self._length, 2 * edge) if self._along_x else QRectF(-edge, 0, 2 * edge, self._length)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it."""
        look = theme()
        ends = QRectF(0, 0, self._length if self._along_x else 0, 0 if self._along_x else self._length)
        for colour, width in ((faded(look.colour("surface"), 70), 3), (look.colour("chalk"), 1)):
            pen = QPen(colour, width)
            pen.setCosmetic(True)
            painter.setPen(pen)
            painter.drawLine(ends.topLeft(), ends.bottomRight())


class GapFill(QGraphicsItem):
    """A caught gap, filled, with its distance in a tag."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(Z_CHALK + 1)
        self._box = QRectF()
        self._words = ""
        self._scale = 0.2
        self.hide()

    def show_gap(self, gap: Rectangle, words: str, px_per_mm: float) -> None:
        """Fills the gap and names its size."""
        self.prepareGeometryChange()
        scene = rect_to_scene(gap)
        self._box = QRectF(0, 0, scene.width(), scene.height())
        self._words, self._scale = words, px_per_mm
        self.setPos(scene.topLeft())
        self.show()
        self.update()

    def _tag(self) -> tuple[float, float]:
        look = theme()
        return QFontMetrics(look.font(12, semibold=True)).horizontalAdvance(self._words) + look.px(10), look.px(16)

    def boundingRect(self) -> QRectF:
        """Gap and tag."""
        width, height = self._tag()
        width, height = (width + 6) / self._scale, (height + 8) / self._scale
        tag = QRectF(self._box.center().x() - width / 2, -height, width, height)
        beside = QRectF(self._box.right(), self._box.center().y() - height / 2, width, height)
        return self._box.united(tag).united(beside)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it."""
        look = theme()
        box = QRectF(painter.worldTransform().mapRect(self._box).toRect())
        painter.save()
        painter.resetTransform()
        painter.fillRect(box, faded(look.colour("chalk"), 42))
        width, height = self._tag()
        if box.height() >= box.width():
            tag = QRectF(round(box.center().x() - width / 2), box.top() - height - 4, width, height)
        else:
            tag = QRectF(box.right() + 3, round(box.center().y() - height / 2), width, height)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("chalk"))
        painter.drawRoundedRect(tag, 3, 3)
        painter.setPen(look.colour("on_fill"))
        painter.setFont(look.font(12, semibold=True))
        painter.drawText(tag, Qt.AlignmentFlag.AlignCenter, self._words)
        painter.restore()


class ReasonBox(QGraphicsItem):
    """One small box that says which rules have caught the piece."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(Z_REASON)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations, True)
        self._lines: tuple[str, ...] = ()
        self.hide()

    def show_lines(self, lines: tuple[str, ...], beside: Rectangle, right_edge: float, px_per_mm: float) -> None:
        """Shows the lines above right of the piece, or above left near the wall's right edge."""
        if lines != self._lines:
            self.prepareGeometryChange()
            self._lines = lines
            self.update()
        size = self.boundingRect()
        right = beside.right + 10 / px_per_mm
        if right + size.width() / px_per_mm > right_edge:
            right = beside.left - (10 + size.width()) / px_per_mm
        self.setPos(to_scene(right, beside.top + 34 / px_per_mm))
        self.setVisible(bool(lines))

    def boundingRect(self) -> QRectF:
        """As wide as the longest line."""
        look = theme()
        metrics = QFontMetrics(look.font(12))
        width = max((metrics.horizontalAdvance(line) for line in self._lines), default=0)
        return QRectF(0, 0, width + 20, len(self._lines) * (metrics.height() + 5) + 10)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it."""
        look = theme()
        box = self.boundingRect()
        painter.setPen(QPen(look.colour("chalk"), 1))
        painter.setBrush(look.colour("surface"))
        painter.drawRoundedRect(box.adjusted(0.5, 0.5, -0.5, -0.5), 3, 3)
        painter.setPen(look.colour("ink"))
        painter.setFont(look.font(12))
        step = QFontMetrics(look.font(12)).height() + 5
        for place, line in enumerate(self._lines):
            painter.drawText(
                QRectF(10, 5 + place * step, box.width() - 20, step),
                Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft,
                line,
            )


class ChalkMarks:
    """All chalk of the room: shown for the catches of a step, gone when nothing holds."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._lines = [ChalkLine() for _ in range(6)]
        self._gaps = [GapFill() for _ in range(6)]
        self._reason = ReasonBox()
        for item in (*self._lines, *self._gaps, self._reason):
            scene.addItem(item)

    def hide(self) -> None:
        """Nothing holds."""
        for item in (*self._lines, *self._gaps, self._reason):
            if item.isVisible():
                item.hide()

    def show(
        self,
        catches: Sequence[Catch],
        box: Rectangle,
        spans: dict[str, Rectangle],
        width: float,
        px_per_mm: float,
        style: LengthStyle,
    ) -> None:
        """Shows what holds the box; ``spans`` gives the boxes of the things named in the catches."""
        lines, gaps = iter(self._lines), iter(self._gaps)
        for catch in catches:
            if catch.gaps:
                for gap in catch.gaps:
                    if (fill := next(gaps, None)) is not None:
                        size = gap.width if catch.axis == "x" else gap.height
                        fill.show_gap(gap, _number(size, style), px_per_mm)
            elif (line := next(lines, None)) is not None:
                reach = box
                for name in catch.names:
                    if name in spans:
                        reach = reach.united(spans[name])
                low, high = (reach.bottom, reach.top) if catch.axis == "x" else (reach.left, reach.right)
                line.show_at(catch, low - BEYOND_MM, high + BEYOND_MM, px_per_mm)
        for item in (*lines, *gaps):
            if item.isVisible():
                item.hide()
        self._reason.show_lines(reasons(catches, style), box, width, px_per_mm)


def reasons(catches: Sequence[Catch], style: LengthStyle) -> tuple[str, ...]:
    """One line a rule; of more than three the two strongest and how many more there are."""
    lines = tuple(dict.fromkeys(_reason(catch, style) for catch in catches))
    if len(lines) > MOST_REASONS:
        return (*lines[:2], say("and {count} more", count=len(lines) - 2))
    return lines


def _number(size: float, style: LengthStyle) -> str:
    shown = show_length(size, style)
    return shown.removesuffix("\u00a0" + style.unit)


def _reason(catch: Catch, style: LengthStyle) -> str:
    name = catch.names[0] if catch.names else ""
    if catch.rule in {"gap", "keep-out"}:
        gap = catch.gaps[0]
        size = _number(gap.width if catch.axis == "x" else gap.height, style)
        if catch.rule == "gap":
            return say("gap {size} to {name}", size=size, name=name)
        return say("{size} clear of {name}", size=size, name=name)
    if catch.rule == "eye-line":
        return say("centre on the eye line")
    if catch.rule == "wall-middle":
        return say("middle of the wall")
    if catch.rule == "wall-margin":
        return say("margin of the wall")
    if catch.rule == "thing-middle":
        return say("middle of {name}", name=name)
    if catch.rule == "spacing":
        return say("equal gaps with {first} and {second}", first=catch.names[0], second=catch.names[-1])
    if catch.rule == "centre":
        return say("centre with {name}", name=name)
    if catch.axis == "x":
        return say("side edge with {name}", name=name)
    return say("top or bottom edge with {name}", name=name)
