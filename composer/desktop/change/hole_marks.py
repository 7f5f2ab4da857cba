"""Old holes in the room: small marks on the wall, below the frames, so that what is covered stays covered."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPointF, QRectF
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from composer.desktop.open_project import OpenProject
from composer.desktop.room.coordinates import to_scene
from composer.desktop.room.scene import RoomScene
from composer.desktop.theme import theme
from composer.desktop.units_shown import number
from composer.model import HoleRecord, Project
from composer.texts import say

Z_HOLES = 0.5
"""Above the lines of the wall, below every frame."""

RADIUS_PX = 3.5


class HoleItem(QGraphicsItem):
    """One hole: a ring while it is open, a dot where a nail is in it. Filled ones are not drawn."""

    def __init__(self, hole: HoleRecord, words: str) -> None:
        super().__init__()
        self.hole = hole
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setZValue(Z_HOLES)
        self.setPos(to_scene(hole.x, hole.y))
        self.setToolTip(words)

    def boundingRect(self) -> QRectF:
        """The mark with its light edge."""
        reach = RADIUS_PX + 2.5
        return QRectF(-reach, -reach, 2 * reach, 2 * reach)

    def shape(self) -> QPainterPath:
        """It takes no clicks meant for the wall, but shows its words."""
        path = QPainterPath()
        path.addEllipse(QPointF(0, 0), RADIUS_PX, RADIUS_PX)
        return path

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """On a light edge, so that it is seen on any paint."""
        look = theme()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        halo = QColor(look.colour("surface"))
        halo.setAlphaF(0.7)
        painter.setPen(QPen(halo, 3.5))
        painter.drawEllipse(QPointF(0, 0), RADIUS_PX, RADIUS_PX)
        painter.setPen(QPen(look.colour("ink"), 1.2))
        painter.setBrush(look.colour("surface") if self.hole.state == "open" else look.colour("ink"))
        painter.drawEllipse(QPointF(0, 0), RADIUS_PX, RADIUS_PX)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


class HoleMarks(QObject):
    """Keeps the marks of the wall shown."""

    def __init__(self, room: RoomScene, opened: OpenProject, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._room, self._opened = room, opened
        self._shown: tuple[object, ...] = ()
        self.items: list[HoleItem] = []
        opened.project_changed.connect(self.refresh)

    def refresh(self, *_: object) -> None:
        """The holes of the wall shown, as noted now."""
        project = self._opened.shown
        shown = (project.as_hung.holes, self._room.wall_key, project.units, project.fraction)
        if len(shown) == len(self._shown) and all(a is b or a == b for a, b in zip(shown, self._shown, strict=True)):
            return
        self._shown = shown
        for item in self.items:
            self._room.removeItem(item)
        self.items = [
            HoleItem(hole, _words(hole, project))
            for hole in project.as_hung.holes
            if hole.wall == self._room.wall_key and hole.state != "filled"
        ]
        for item in self.items:
            self._room.addItem(item)


def _words(hole: HoleRecord, project: Project) -> str:
    style = project.length_style
    x, y = number(hole.x, style), number(hole.y, style)
    piece = None if hole.piece is None else project.piece_by_key.get(hole.piece)
    if hole.state == "in-use" and piece is not None:
        return say("Nail of {number}: {x} from the left, {y} above the floor", number=piece.number, x=x, y=y)
    if piece is not None:
        return say("Old hole of {number}: {x} from the left, {y} above the floor", number=piece.number, x=x, y=y)
    return say("Old hole: {x} from the left, {y} above the floor", x=x, y=y)
