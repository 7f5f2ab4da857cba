"""Between the wall's millimetres (y up from the floor) and the scene's (y down, 0 at the floor).

The only place that turns y over. The view's scale is always positive, so nothing is ever drawn as
in a mirror.
"""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF

from composer.geometry.rectangle import Rectangle
from composer.model import Key, Project

FLOOR_SHOWN_MM = 300.0
"""So much floor is shown with the whole wall."""

FLOOR_PADDING_MM = 60.0
FLOOR_GAP_MM = 90.0


def to_scene(x: float, y: float) -> QPointF:
    """A point of the wall in the scene."""
    return QPointF(x, -y)


def from_scene(point: QPointF) -> tuple[float, float]:
    """A point of the scene on the wall; negative heights are on the floor strip."""
    return point.x(), -point.y()


def rect_to_scene(box: Rectangle) -> QRectF:
    """A rectangle of the wall in the scene."""
    return QRectF(box.left, -box.top, box.width, box.height)


def rect_from_scene(box: QRectF) -> Rectangle:
    """A rectangle of the scene on the wall."""
    return Rectangle(box.left(), -box.bottom(), box.right(), -box.top())


class FloorPlan(NamedTuple):
    """Where the unhung pieces lie, and how deep the floor strip must be for them, mm."""

    places: dict[Key, Rectangle]
    depth: float


def lay_out_floor(project: Project, width: float) -> FloorPlan:
    """Lays the pieces that hang nowhere side by side, in rows no wider than the wall, tops in line."""
    places: dict[Key, Rectangle] = {}
    x, top, row_height = FLOOR_GAP_MM, -FLOOR_PADDING_MM, 0.0
    for piece in project.on_floor():
        across, up = piece.size_mm()
        if x > FLOOR_GAP_MM and x + across > width - FLOOR_GAP_MM / 2:
            x, top, row_height = FLOOR_GAP_MM, top - row_height - FLOOR_PADDING_MM, 0.0
        places[piece.key] = Rectangle(x, top - up, x + across, top)
        x += across + FLOOR_GAP_MM
        row_height = max(row_height, up)
    depth = max(FLOOR_SHOWN_MM, -top + row_height + FLOOR_PADDING_MM)
    return FloorPlan(places, depth)
