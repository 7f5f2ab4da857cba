"""A wall drawn small and to scale: what stands on it, and pieces wherever they are proposed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap, QPolygonF

from composer.desktop.room.drawing import draw_piece
from composer.desktop.room.obstacle_drawing import draw_obstacle
from composer.desktop.room.piece_item import faded
from composer.desktop.theme import theme
from composer.geometry.rectangle import Rectangle
from composer.model import Key, Piece, Project, Wall

AROUND_MM = 180.0
"""So much wall is seen around the pieces of a sketch."""
OF_FURNITURE_MM = 160.0
"""So much of what they hang over."""

PictureOf = Callable[[Key], QPixmap | None]


class Drawn(NamedTuple):
    """A piece and where it is drawn, mm on the wall."""

    piece: Piece
    box: Rectangle
    turned: bool


class Mapping(NamedTuple):
    """From millimetres of the wall to pixels."""

    left: float
    top: float
    region: Rectangle
    px_per_mm: float

    def box(self, place: Rectangle) -> QRectF:
        """A rectangle on whole pixels."""
        x1, x2 = (round(self.left + (x - self.region.left) * self.px_per_mm) for x in (place.left, place.right))
        y1, y2 = (round(self.top + (self.region.top - y) * self.px_per_mm) for y in (place.top, place.bottom))
        return QRectF(x1, y1, max(1, x2 - x1), max(1, y2 - y1))

    def point(self, x: float, y: float) -> QPointF:
        """A point."""
        return QPointF(
            self.left + (x - self.region.left) * self.px_per_mm, self.top + (self.region.top - y) * self.px_per_mm
        )


def fitted(target: QRectF, region: Rectangle, px_per_mm: float | None = None) -> Mapping:
    """The region as large as it fits, or at a given scale, in the middle of the target."""
    scale = px_per_mm or min(target.width() / region.width, target.height() / region.height)
    return Mapping(
        target.left() + (target.width() - region.width * scale) / 2,
        target.top() + (target.height() - region.height * scale) / 2,
        region,
        scale,
    )


def region_of(boxes: Iterable[Rectangle], furniture: Rectangle | None, aspect: float) -> Rectangle:
    """The part of a wall that shows all the boxes with some wall around, of a wanted width ÷ height."""
    whole: Rectangle | None = None
    for box in boxes:
        whole = box if whole is None else whole.united(box)
    if whole is None:
        whole = Rectangle.at(0.0, 0.0, 1000.0, 1000.0)
    whole = whole.grown(AROUND_MM)
    if furniture is not None:
        low = min(whole.bottom, furniture.top - OF_FURNITURE_MM)
        whole = Rectangle(whole.left, low, whole.right, whole.top)
    x, y = whole.centre
    width, height = max(whole.width, whole.height * aspect), max(whole.height, whole.width / aspect)
    return Rectangle.at(x - width / 2, y - height / 2, width, height)


def pieces_of(project: Project, wall: Key, arrangement: Key) -> list[Drawn]:
    """The pieces that hang on one wall in an arrangement."""
    return [
        Drawn(
            piece,
            Rectangle.at(placed.left, placed.bottom, *piece.size_mm(turned=placed.turned)),
            placed.turned,
        )
        for piece, placed in project.hung_on(wall, project.arrangement_by_key[arrangement])
    ]


def paint_wall(
    painter: QPainter,
    target: QRectF,
    mapping: Mapping,
    wall: Wall,
    pieces: Sequence[Drawn],
    *,
    eye_line_mm: float,
    picture_of: PictureOf,
) -> None:
    """Paints the part of a wall into ``target``; the painter has no transform."""
    look = theme()
    painter.save()
    painter.setClipRect(target)
    painter.fillRect(target, look.colour("void"))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setPen(QPen(look.colour("room_line"), 1))
    painter.setBrush(QColor(wall.paint) if wall.paint else look.colour("wall"))
    painter.drawPolygon(QPolygonF([mapping.point(x, y) for x, y in wall.corners]))
    if wall.nosing is None:
        pen = QPen(faded(look.colour("pencil"), 75), 1)
        pen.setDashPattern([14, 4, 2, 4])
        painter.setPen(pen)
        painter.drawLine(mapping.point(0.0, eye_line_mm), mapping.point(float(wall.width.mm), eye_line_mm))
    for thing in wall.obstacles:
        box = Rectangle.at(thing.left, thing.bottom, float(thing.width.mm), float(thing.height.mm))
        painter.save()
        draw_obstacle(painter, mapping.box(box), thing.kind)
        painter.restore()
    for piece, box, turned in pieces:
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        draw_piece(painter, mapping.box(box), piece, mapping.px_per_mm, turned=turned, picture=picture_of(piece.key))
        painter.restore()
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(look.colour("room_line"), 1))
    painter.drawRect(target.adjusted(0, 0, -1, -1))
    painter.restore()
