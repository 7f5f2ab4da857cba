"""What can be taken hold of while a picture is placed: its corners, the ring that tilts it, the picture itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPolygonF

Grip = Literal["corner", "ring", "picture"]

SQUARE_PX = 12
"""Side of a drawn corner handle."""
TARGET_PX = 24
"""What takes the pointer around it (WCAG 2.2, 2.5.8)."""
STALK_PX = 30
"""From the picture's edge to the ring."""
INSET_PX = 14
"""A corner that lies beyond the view is held this far inside it."""


@dataclass(frozen=True, slots=True)
class Grips:
    """Where they are in the view, pixels.

    Attributes:
        corners: of the picture, those beyond the view pulled to its edge.
        ring: that tilts.
        foot: where the ring's stalk stands.
        outline: of the whole picture.
        frame: the frame's outer edge.
    """

    corners: tuple[QPointF, ...]
    ring: QPointF
    foot: QPointF
    outline: QPolygonF
    frame: QRectF

    @staticmethod
    def of(outline: QPolygonF, frame: QRectF, view: QRectF) -> Grips:
        """The grips of a picture with this outline, in a view."""
        inside = view.adjusted(INSET_PX, INSET_PX, -INSET_PX, -INSET_PX)
        corners = tuple(_within(corner, inside) for corner in _corners(outline))
        box = outline.boundingRect().united(frame)
        foot = QPointF(frame.center().x(), max(box.top(), inside.top() + STALK_PX))
        return Grips(corners, foot - QPointF(0, STALK_PX), foot, outline, frame)

    def at(self, point: QPointF) -> Grip | None:
        """What the pointer would take hold of there."""
        reach = TARGET_PX / 2
        if _near(self.ring, point, reach):
            return "ring"
        if any(_near(corner, point, reach) for corner in self.corners):
            return "corner"
        if self.frame.contains(point) or self.outline.containsPoint(point, Qt.FillRule.OddEvenFill):
            return "picture"
        return None


def _corners(outline: QPolygonF) -> list[QPointF]:
    return [outline.at(place) for place in range(4)]


def _within(point: QPointF, box: QRectF) -> QPointF:
    return QPointF(min(max(point.x(), box.left()), box.right()), min(max(point.y(), box.top()), box.bottom()))


def _near(one: QPointF, other: QPointF, reach: float) -> bool:
    return max(abs(one.x() - other.x()), abs(one.y() - other.y())) <= reach
