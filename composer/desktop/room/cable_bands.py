"""Pale bands where cables may run unseen: behind everything but the wall, hatched and named, promising nothing elsewhere.

Where they lie is reckoned in :mod:`composer.hanging.cables`; here they are only drawn. All bands are
one still item: their union is tinted once, and only what is exposed is painted.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPainterPath, QPen, QPolygonF, QTransform
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from composer.catalogue.names import obstacle_name
from composer.desktop.room.coordinates import rect_to_scene, to_scene
from composer.desktop.room.piece_item import faded
from composer.desktop.room.wall_items import LineItem
from composer.desktop.theme import theme
from composer.desktop.units_shown import number
from composer.geometry.rectangle import Rectangle
from composer.hanging.cables import ZONE_MM, CableZone, cable_zones
from composer.model import Project, Wall
from composer.texts import say

Z_CABLES = -10.0

TINT_PERCENT, HATCH_PERCENT, EDGE_PERCENT = 7, 22, 45

HALO_PX = 4


class CableBands(QGraphicsItem):
    """The bands of the wall shown; nothing while there is none.

    Args:
        scene: where they are shown.
        named: lines whose names the words keep clear of.
    """

    def __init__(self, scene: QGraphicsScene, named: Sequence[LineItem] = ()) -> None:
        super().__init__()
        self._named = named
        self.setZValue(Z_CABLES)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption, True)
        self._zones: tuple[CableZone, ...] = ()
        self._words: tuple[tuple[str, ...], ...] = ()
        self._taken: tuple[QRectF, ...] = ()
        self._generation = -1
        self._scale = 0.2
        self._paint = QColor()
        self._whole = QPainterPath()
        self._outlines: list[QPolygonF] = []
        self._labels: tuple[float, list[tuple[QRectF, str, bool]]] | None = None
        scene.addItem(self)

    @property
    def zones(self) -> tuple[CableZone, ...]:
        """What is shown."""
        return self._zones

    @property
    def in_words(self) -> str:
        """The same for readers; never that there is none elsewhere."""
        if not self._words:
            return ""
        listed = "; ".join(wordings[0] for wordings in self._words)
        return say("{listed}. No band does not mean no cable or pipe.", listed=listed[0].upper() + listed[1:])

    def show_wall(self, project: Project, wall: Wall) -> None:
        """Shows the bands of a wall by the project's rule."""
        zones = cable_zones(wall, project.region)
        boxes = [
            Rectangle.at(place.left, place.bottom, *project.piece_by_key[place.piece].size_mm(turned=place.turned))
            for place in project.arrangement.placements
            if place.wall == wall.key
        ]
        boxes += [
            Rectangle.at(one.left, one.bottom, float(one.width.mm), float(one.height.mm)) for one in wall.obstacles
        ]
        taken = tuple(rect_to_scene(box) for box in boxes)
        words = tuple(_words(zone, project, wall) for zone in zones)
        paint = QColor(wall.paint) if wall.paint else theme().colour("wall")
        if (zones, words, paint) != (self._zones, self._words, self._paint):
            self.prepareGeometryChange()
            self._zones, self._words, self._paint = zones, words, paint
            self._outline(wall)
        elif (taken, theme().generation) == (self._taken, self._generation):
            return
        self._taken, self._generation = taken, theme().generation
        self._labels = None
        self.setVisible(bool(zones))
        self.update()

    def _outline(self, wall: Wall) -> None:
        corners = QPainterPath()
        corners.addPolygon(_closed(wall.corners))
        self._outlines = [_closed(zone.corners) for zone in self._zones]
        self._whole = QPainterPath()
        self._whole.setFillRule(Qt.FillRule.WindingFill)
        for outline in self._outlines:
            part = QPainterPath()
            part.addPolygon(outline)
            self._whole = self._whole.united(part) if wall.outline is None else self._whole.united(part & corners)

    def boundingRect(self) -> QRectF:
        """All bands."""
        return self._whole.boundingRect().adjusted(-2, -2, 2, 2) if self._zones else QRectF()

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer."""
        return QPainterPath()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Tint, hatch, edges and words of what is exposed."""
        exposed = option.exposedRect
        if not any(outline.boundingRect().intersects(exposed) for outline in self._outlines):
            return
        warn = theme().colour("warn")
        transform = painter.worldTransform()
        painter.save()
        painter.setClipRect(exposed, Qt.ClipOperation.IntersectClip)
        painter.resetTransform()
        shape = transform.map(self._whole)
        painter.fillPath(shape, faded(warn, TINT_PERCENT))
        # Fixed to the wall, so that what is scrolled or painted in parts fits together.
        painter.setBrushOrigin(transform.map(QPointF(0, 0)).toPoint())
        painter.fillPath(shape, QBrush(faded(warn, HATCH_PERCENT), Qt.BrushStyle.BDiagPattern))
        painter.setPen(QPen(faded(warn, EDGE_PERCENT), 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setClipPath(shape, Qt.ClipOperation.IntersectClip)
        for outline in self._outlines:
            painter.drawPolygon(transform.map(outline))
        painter.restore()
        self._write(painter, transform, exposed)

    def _write(self, painter: QPainter, transform: QTransform, exposed: QRectF) -> None:
        scale = transform.m11()
        if self._labels is None or self._labels[0] != scale:
            self._labels = (scale, self._placed(scale))
        look = theme()
        for spot, words, upright in self._labels[1]:
            if not spot.intersects(exposed):
                continue
            painter.save()
            box = transform.mapRect(spot)
            painter.resetTransform()
            painter.fillRect(box, self._paint)
            painter.setFont(look.font(12))
            painter.setPen(look.colour("ink" if self._paint != look.colour("wall") else "pencil"))
            if upright:
                painter.translate(box.center())
                painter.rotate(-90)
                box = QRectF(-box.height() / 2, -box.width() / 2, box.height(), box.width())
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
            painter.restore()

    def _placed(self, scale: float) -> list[tuple[QRectF, str, bool]]:
        """Words of each band where nothing hangs or stands on them; bands with no such place stay without."""
        self._scale = scale
        placed: list[tuple[QRectF, str, bool]] = []
        pairs = sorted(zip(self._zones, self._words, strict=True), key=_lying_first)
        for zone, wordings in pairs:
            found = self._place(zone, wordings, placed)
            if found is not None:
                placed.append(found)
        if not placed and pairs:
            # All too narrow for words at this scale: beside the first that has room there.
            for zone, wordings in pairs:
                if (found := self._place(zone, wordings[-1:], placed, beside=True)) is not None:
                    return [found]
        return placed

    def _place(
        self,
        zone: CableZone,
        wordings: Sequence[str],
        placed: Sequence[tuple[QRectF, str, bool]],
        *,
        beside: bool = False,
    ) -> tuple[QRectF, str, bool] | None:
        """The longest wording that has a place on its band, or beside it."""
        metrics, scale = QFontMetricsF(theme().font(12)), self._scale
        high = (metrics.height() + 2) / scale
        area, upright = rect_to_scene(zone.area), zone.kind in ("corner", "column")
        if not beside and (area.width() if upright else area.height()) < high:
            return None
        whole = self.scene().sceneRect() if beside else self._whole.boundingRect()
        busy = [*self._taken, *(spot for spot, _, _ in placed), *(line.name_box for line in self._named)]
        for words in wordings:
            wide = (metrics.horizontalAdvance(words) + 2 * HALO_PX) / scale
            for inner in _spots(area, high if upright else wide, wide if upright else high, 8 / scale):
                for spot in _beside(inner, area, upright=upright) if beside else (inner,):
                    fits = whole.contains(spot) if beside else self._whole.contains(spot)
                    if fits and not any(spot.intersects(box) for box in busy):
                        return spot, words, upright
        return None


def _beside(spot: QRectF, area: QRectF, *, upright: bool) -> tuple[QRectF, QRectF]:
    """The two places along a band's edges."""
    if upright:
        return (
            spot.translated(area.left() - spot.right(), 0.0),
            spot.translated(area.right() - spot.left(), 0.0),
        )
    return spot.translated(0.0, area.top() - spot.bottom()), spot.translated(0.0, area.bottom() - spot.top())


def _lying_first(pair: tuple[CableZone, tuple[str, ...]]) -> int:
    return 1 if pair[0].kind in ("corner", "column") else 0


def _spots(area: QRectF, wide: float, high: float, gap: float) -> Sequence[QRectF]:
    """Places for words in a band, along its middle, from its left or upper end on."""
    lying = area.width() >= area.height()
    length, own = (area.width(), wide) if lying else (area.height(), high)
    steps = max(1, int((length - 2 * gap) // max(own / 2, 1e-6)))
    spots = []
    for step in range(steps):
        along = gap + step * own / 2
        if along + own > length - gap:
            break
        if lying:
            spots.append(QRectF(area.left() + along, area.center().y() - high / 2, wide, high))
        else:
            spots.append(QRectF(area.center().x() - wide / 2, area.top() + along, wide, high))
    return spots


def _words(zone: CableZone, project: Project, wall: Wall) -> tuple[str, ...]:
    """What stands on a band: that cables may run there, and why where there is room for that."""
    return _long_words(zone, project, wall), say("cables may run here")


def _long_words(zone: CableZone, project: Project, wall: Wall) -> str:
    width = number(ZONE_MM, project.length_style)
    if zone.kind == "top":
        return say("cables may run here: {width} below the ceiling", width=width)
    if zone.kind == "corner":
        return say("cables may run here: {width} from the corner", width=width)
    thing = next(one for one in wall.obstacles if one.key == zone.obstacle)
    name = obstacle_name(thing.kind, thing.name)
    if zone.kind == "row":
        return say("cables may run here: in line with the {thing}", thing=name)
    return say("cables may run here: above and below the {thing}", thing=name)


def _closed(corners: Sequence[tuple[float, float]]) -> QPolygonF:
    return QPolygonF([to_scene(x, y) for x, y in [*corners, corners[0]]])
