"""What appears while something is dragged: chalk lines, filled gaps with their distance, the reason box.

All thin items made once and shown or hidden; none is ever as large as the wall.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from composer.desktop.room.coordinates import rect_to_scene, to_scene
from composer.desktop.room.piece_item import faded
from composer.desktop.room.reason_box import ReasonBox, reasons
from composer.desktop.theme import theme
from composer.desktop.units_shown import number
from composer.geometry.rectangle import Rectangle
from composer.geometry.snapping import Catch
from composer.units import LengthStyle

Z_CHALK = 50.0
BEYOND_MM = 120.0
"""A chalk line reaches so far beyond what it lines up."""
STEP_MM = 100.0


class ChalkLine(QGraphicsItem):
    """One thin line, in chalk on a light edge."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(Z_CHALK)
        self._bounds = QRectF()
        self._end = QPointF()
        self.hide()

    def show_at(self, catch: Catch, low: float, high: float, px_per_mm: float) -> None:
        """Shows the catch's line from ``low`` to ``high`` across its axis, mm."""
        along_x, edge = catch.axis == "y", 3 / px_per_mm
        end = QPointF(high - low, 0) if along_x else QPointF(0, high - low)
        if end != self._end or not self.isVisible():
            self.prepareGeometryChange()
            self._end = end
            self._bounds = QRectF(QPointF(0, 0), end).adjusted(-edge, -edge, edge, edge)
            self.update()
        self.setPos(to_scene(low, catch.line) if along_x else to_scene(catch.line, high))
        self.show()

    def boundingRect(self) -> QRectF:
        """The line with its edge."""
        return self._bounds

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer."""
        return QPainterPath()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it."""
        look = theme()
        for colour, width in ((faded(look.colour("surface"), 70), 3), (look.colour("chalk"), 1)):
            pen = QPen(colour, width)
            pen.setCosmetic(True)
            painter.setPen(pen)
            painter.drawLine(QPointF(0, 0), self._end)


class GapFill(QGraphicsItem):
    """A caught gap, filled, with its distance in a tag."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(Z_CHALK + 1)
        self._box = QRectF()
        self._words = ""
        self._scale = 0.2
        self._tag = (0.0, 0)
        self._bounds = QRectF()
        self.hide()

    def show_gap(self, gap: Rectangle, words: str, px_per_mm: float) -> None:
        """Fills the gap and names its size."""
        scene = rect_to_scene(gap)
        box = QRectF(0, 0, scene.width(), scene.height())
        if (box, words, px_per_mm) != (self._box, self._words, self._scale):
            self.prepareGeometryChange()
            self._box, self._words, self._scale = box, words, px_per_mm
            self._measure()
            self.update()
        self.setPos(scene.topLeft())
        self.show()

    def _measure(self) -> None:
        look = theme()
        self._tag = QFontMetrics(look.font(12, semibold=True)).horizontalAdvance(self._words) + look.px(10), look.px(16)
        width, height = (self._tag[0] + 6) / self._scale, (self._tag[1] + 8) / self._scale
        if self._box.height() >= self._box.width():
            tag = QRectF(self._box.center().x() - width / 2, -height, width, height)
        else:
            tag = QRectF(self._box.right(), self._box.center().y() - height / 2, width, height)
        edge = 2 / self._scale
        self._bounds = self._box.united(tag).adjusted(-edge, -edge, edge, edge)

    def boundingRect(self) -> QRectF:
        """Gap and tag."""
        return self._bounds

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer."""
        return QPainterPath()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it."""
        look = theme()
        box = QRectF(painter.worldTransform().mapRect(self._box).toRect())
        painter.resetTransform()
        painter.fillRect(box, faded(look.colour("chalk"), 42))
        width, height = self._tag
        if box.height() >= box.width():
            tag = QRectF(round(box.center().x() - width / 2), box.top() - height - 4, width, height)
        else:
            tag = QRectF(box.right() + 3, round(box.center().y() - height / 2), width, height)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("chalk"))
        painter.drawRoundedRect(tag, 3, 3)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.setPen(QPen(look.colour("on_fill")))
        painter.setFont(look.font(12, semibold=True))
        painter.drawText(tag, Qt.AlignmentFlag.AlignCenter, self._words)


class ChalkMarks:
    """All chalk of the room: shown for the catches of a step, gone when nothing holds."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._lines = [ChalkLine() for _ in range(6)]
        self._gaps = [GapFill() for _ in range(6)]
        self._reason = ReasonBox()
        for item in (*self._lines, *self._gaps, self._reason):
            scene.addItem(item)

    @property
    def words(self) -> tuple[str, ...]:
        """What the reason box says now."""
        return self._reason.words

    def hide(self) -> None:
        """Nothing holds."""
        for item in (*self._lines, *self._gaps):
            if item.isVisible():
                item.hide()

    def end(self) -> None:
        """Nothing is in hand."""
        self.hide()
        self._reason.hide()

    def show(
        self,
        catches: Sequence[Catch],
        box: Rectangle,
        spans: dict[str, Rectangle],
        px_per_mm: float,
        style: LengthStyle,
    ) -> None:
        """Shows what holds the box; ``spans`` gives the boxes of the things named in the catches."""
        lines, gaps = iter(self._lines), iter(self._gaps)
        drawn: set[tuple[str, float]] = set()
        for catch in catches:
            if catch.gaps:
                for gap in catch.gaps:
                    if (fill := next(gaps, None)) is not None:
                        size = gap.width if catch.axis == "x" else gap.height
                        fill.show_gap(gap, number(size, style), px_per_mm)
                continue
            # Several rules may share a line; it is drawn once, as long as all of them need.
            place = (catch.axis, round(catch.line, 3))
            if place in drawn:
                continue
            drawn.add(place)
            if (line := next(lines, None)) is not None:
                reach = box
                for other in catches:
                    if not other.gaps and (other.axis, round(other.line, 3)) == place:
                        for name in other.names:
                            reach = reach.united(spans[name]) if name in spans else reach
                low, high = (reach.bottom, reach.top) if catch.axis == "x" else (reach.left, reach.right)
                # To whole steps, so that a line seldom changes while the piece slides along it.
                low = math.floor((low - BEYOND_MM) / STEP_MM) * STEP_MM
                high = math.ceil((high + BEYOND_MM) / STEP_MM) * STEP_MM
                line.show_at(catch, low, high, px_per_mm)
        for item in (*lines, *gaps):
            if item.isVisible():
                item.hide()

    def show_reasons(
        self,
        catches: Sequence[Catch],
        box: Rectangle,
        wall_width: float,
        px_per_mm: float,
        style: LengthStyle,
        near: Callable[[Rectangle], Sequence[Rectangle]],
    ) -> None:
        """Says beside the box what holds it; nothing where nothing does."""
        self._reason.show_reasons(reasons(catches, style), box, wall_width, px_per_mm, near)
