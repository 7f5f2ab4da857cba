"""The wall of the day, small and to scale: what is up, what waits, what is in hand, the level line."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QPixmap, QPolygonF

from composer.catalogue import catalogue as catalogues
from composer.desktop.hanging_day.ink import CENTRE, Ink
from composer.desktop.room.drawing import draw_piece as draw_front
from composer.desktop.room.obstacle_drawing import draw_obstacle
from composer.desktop.theme import theme
from composer.hanging.points import hang
from composer.hangingday.course import Course
from composer.model import Key, Placement, Project, Wall
from composer.paper.figures import figures_of
from composer.paper.hanging_list_rows import round_to
from composer.paper.template_subject import datum_of
from composer.texts import say

PictureOf = Callable[[Key], QPixmap | None]

AROUND = 1.15
"""So much more than the pieces themselves is shown, where the whole wall would make them too small."""


class WallDrawing:
    """Draws one wall in a box.

    Args:
        project, wall: what hangs where.
        course: how far each piece has come.
        in_hand: the piece that is marked; None = none.
        strips: whether strips on the wall are drawn.
        picture_of: what frames show.
    """

    def __init__(
        self,
        project: Project,
        wall: Wall,
        course: Course,
        *,
        in_hand: Key | None = None,
        strips: bool = False,
        picture_of: PictureOf | None = None,
    ) -> None:
        self._project, self._wall, self._course = project, wall, course
        self._in_hand, self._strips = in_hand, strips
        self._picture_of = picture_of or _none

    def draw(self, ink: Ink, box: QRectF) -> None:
        """As large as it fits, centred in the box."""
        wall = self._wall
        left, bottom, right, top = self._part(box)
        scale = min(box.width() / (right - left), box.height() / (top - bottom))
        wide, high = (right - left) * scale, (top - bottom) * scale
        shown = QRectF(box.center().x() - wide / 2, box.center().y() - high / 2, wide, high)
        self._ink, self._scale, self._shown = ink, scale, shown
        self._left, self._top = left, top
        self._taken: list[QRectF] = []
        painter = ink.painter
        painter.save()
        painter.setClipRect(shown)
        painter.fillRect(shown, theme().colour("void"))
        painter.setPen(theme().colour("room_line"))
        painter.setBrush(QColor(wall.paint) if wall.paint else theme().colour("wall"))
        painter.drawPolygon(QPolygonF([self._at(x, y) for x, y in wall.corners]))
        for obstacle in wall.obstacles:
            draw_obstacle(
                painter,
                self._box(obstacle.left, obstacle.bottom, float(obstacle.width.mm), float(obstacle.height.mm)),
                obstacle.kind,
            )
        self._level_line()
        self._pieces()
        self._name_level_line()
        painter.restore()
        ink.box(shown, "room_line")

    def _part(self, box: QRectF) -> tuple[float, float, float, float]:
        """The whole wall, or where that is far longer than the box, the part the pieces hang on."""
        wall = self._wall
        width, height = float(wall.width.mm), float(wall.height.mm)
        mine = [place for place in self._project.arrangement.placements if place.wall == wall.key]
        if not mine or width / height < 2.0 * box.width() / box.height():
            return 0.0, 0.0, width, height
        sizes = [self._project.piece_by_key[place.piece].size_mm(turned=place.turned) for place in mine]
        left = min(place.left for place in mine)
        right = max(place.left + size[0] for place, size in zip(mine, sizes, strict=True))
        half = max((right - left) / 2 * AROUND, height / 2)
        middle = (left + right) / 2
        return max(0.0, middle - half), 0.0, min(width, middle + half), height

    def _at(self, x: float, y: float) -> QPointF:
        return QPointF(
            round(self._shown.left() + (x - self._left) * self._scale),
            round(self._shown.top() + (self._top - y) * self._scale),
        )

    def _box(self, left: float, bottom: float, width: float, height: float) -> QRectF:
        return QRectF(self._at(left, bottom + height), self._at(left + width, bottom)).normalized()

    def _pieces(self) -> None:
        for place in self._project.arrangement.placements:
            if place.wall == self._wall.key:
                self._piece(place)

    def _piece(self, place: Placement) -> None:
        ink, piece = self._ink, self._project.piece_by_key[place.piece]
        box = self._box(place.left, place.bottom, *piece.size_mm(turned=place.turned))
        self._taken.append(box)
        station = self._course.station(place.piece)
        reached = "open" if station is None else station.reached
        number = str(piece.number)
        size = 20.0 if box.width() > ink.sizes.px(30) else 14.0
        if place.piece == self._in_hand:
            ink.painter.fillRect(box, theme().colour("accent"))
            ink.words(box, number, size, "on_fill", semibold=True, align=CENTRE)
        elif reached == "hung":
            draw_front(ink.painter, box, piece, self._scale, turned=place.turned, picture=self._picture_of(place.piece))
        elif reached == "pressed":
            ink.box(box, "warn", "field", 2)
            if self._strips:
                self._strip_marks(place, box)
                ink.words(box, number, size, "ink", semibold=True, align=CENTRE)
            else:
                ink.sign("clock", box.center(), min(ink.sizes.px(18), box.width() / 2, box.height() / 2), "warn")
        else:
            ink.box(box, "pencil", "wall", dashed=True)
            ink.words(box, number, size, "pencil", align=CENTRE)

    def _strip_marks(self, place: Placement, box: QRectF) -> None:
        piece = self._project.piece_by_key[place.piece]
        plan = hang(piece, turned=place.turned, catalogue=catalogues.of(self._project.catalogue)).strips
        for strip in plan.places if plan is not None else ():
            spot = self._box(place.left + strip.left, place.bottom + strip.bottom, strip.width, strip.height)
            if spot.width() < 3:
                spot.setWidth(3)
            self._ink.painter.fillRect(spot.intersected(box), theme().colour("warn"))

    def _level_line(self) -> None:
        ink, height = self._ink, datum_of(self._project, self._wall).level_line
        left, right = self._at(self._left, height), self._shown.right()
        ink.line(left.x(), left.y(), right, left.y(), "chalk", 2)

    def _name_level_line(self) -> None:
        """Where no piece is; nowhere rather than over one."""
        ink, figures = self._ink, figures_of(self._project)
        height = datum_of(self._project, self._wall).level_line
        left, right = self._at(self._left, height), self._shown.right()
        words = say("level line at {height}", height=figures.bare(round_to(height, figures)))
        high = ink.sizes.text_px(14) * 1.3
        wide = ink.sizes.width(words, 14, semibold=True) + 8
        near, far = self._shown.left() + 4, right - wide - 4
        above, below = left.y() - high - 2, left.y() + 2
        spots = [QRectF(x, y, wide, high) for x in (far, near) for y in (above, below)]
        spots += [QRectF(far, y, wide, high) for y in (self._shown.top() + 2, self._shown.bottom() - high - 2)]
        free = [spot for spot in spots if not any(spot.intersects(box) for box in self._taken)]
        if free and wide < self._shown.width():
            ink.painter.fillRect(free[0], theme().colour("wall"))
            ink.words(free[0], words, 14, "chalk", semibold=True, align=CENTRE)


def _none(_: Key) -> QPixmap | None:
    return None
