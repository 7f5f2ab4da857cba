"""The corners of a wall that is no rectangle, and the line along a stair's nosings."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.desktop.cards.session import Session, merge_key, shown_in, try_apply
from composer.desktop.field_kinds import CheckField, PositionField, bare_unit
from composer.desktop.field_row import FieldRow, LinkButton, Words
from composer.editing.wall_edits import change_wall_fields, set_outline
from composer.model import Key, Wall
from composer.texts import say

Point = tuple[float, float]


class PointList(QWidget):
    """Rows of two positions, x and y in the rulers' unit; subclasses say what they are of."""

    def __init__(self, session: Session, wall: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._key = session, wall
        self._points: tuple[Point, ...] = ()
        self._fields: list[tuple[PositionField, PositionField]] = []
        self._rows: list[QWidget] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(4)
        self.message = Words("", 12, "stop")
        self.message.hide()

    @property
    def _wall(self) -> Wall:
        return self._session.project.wall_by_key[self._key]

    def _show(self, points: tuple[Point, ...]) -> None:
        if len(points) != len(self._rows):
            self._build(len(points))
        self._points = points
        for (x, y), (x_field, y_field) in zip(points, self._fields, strict=True):
            x_field.set_value(x)
            y_field.set_value(y)

    def _build(self, count: int) -> None:
        for row in self._rows:
            self._column.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows, self._fields = [], []
        project = self._session.project
        bare, style = bare_unit(project.units), shown_in(project)
        for place in range(count):
            x_name, y_name = self._names(place)
            x_words, y_words = (say("{what}, {unit}", what=name, unit=bare) for name in (x_name, y_name))
            x, y = (PositionField(words, style=style, bare=bare) for words in (x_words, y_words))
            x.committed.connect(partial(self._on_field, place, 0))
            y.committed.connect(partial(self._on_field, place, 1))
            box = QWidget()
            across = QHBoxLayout(box)
            across.setContentsMargins(0, 0, 0, 0)
            across.addWidget(FieldRow((x_words, x), (y_words, y)), 1)
            if (remove := self._remover(place)) is not None:
                across.addWidget(remove, 0, Qt.AlignmentFlag.AlignBottom)
            self._column.insertWidget(place, box)
            self._rows.append(box)
            self._fields.append((x, y))

    def _on_field(self, place: int, axis: int, value: Any) -> None:
        points = [list(point) for point in self._points]
        points[place][axis] = float(value)
        field = self._fields[place][axis]
        refusal = self._change(tuple((x, y) for x, y in points), field.gesture)
        if refusal:
            field.set_value(self._points[place][axis])
            field.complain(refusal)

    def _names(self, place: int) -> tuple[str, str]:
        raise NotImplementedError

    def _remover(self, place: int) -> QWidget | None:
        return None

    def _change(self, points: tuple[Point, ...], gesture: int) -> str:
        raise NotImplementedError


class CornerList(PointList):
    """The outline's corners, anticlockwise from the lower left."""

    def __init__(self, session: Session, wall: Key, parent: QWidget | None = None) -> None:
        super().__init__(session, wall, parent)
        foot = QHBoxLayout()
        self.add = LinkButton(say("Add a corner"))
        self.add.clicked.connect(self._on_add)
        self.square = LinkButton(say("Make it a rectangle"))
        self.square.clicked.connect(self._on_square)
        foot.addWidget(self.add)
        foot.addWidget(self.square)
        foot.addStretch(1)
        self._column.addLayout(foot)
        self._column.addWidget(self.message)
        self.refresh()

    def refresh(self) -> None:
        """A row for each corner of an outline; a rectangle needs none."""
        if self._key not in self._session.project.wall_by_key:
            return
        outline = self._wall.outline
        self._show(() if outline is None else outline)
        self.square.setVisible(outline is not None)
        self._say("")

    def _names(self, place: int) -> tuple[str, str]:
        number = place + 1
        return say("{number} from left", number=number), say("from floor")

    def _remover(self, place: int) -> QWidget | None:
        link = LinkButton(say("Delete"))
        link.setAccessibleName(say("Delete corner {number}", number=place + 1))
        link.clicked.connect(partial(self._on_delete, place))
        return link

    def _change(self, points: tuple[Point, ...], gesture: int) -> str:
        return try_apply(self._session, set_outline(self._session.project, self._key, points))

    def _on_add(self, _: bool = False) -> None:
        """One more corner in the middle of the upper edge, where ceilings slope."""
        corners = list(self._wall.corners)
        ends = [*corners[1:], corners[0]]

        def rank(place: int) -> tuple[float, float]:
            (ax, ay), (bx, by) = corners[place], ends[place]
            return min(ay, by), abs(ax - bx)

        place = max(range(len(corners)), key=rank)
        (ax, ay), (bx, by) = corners[place], ends[place]
        corners.insert(place + 1, ((ax + bx) / 2, (ay + by) / 2))
        self._say(self._change(tuple(corners), 0))

    def _on_delete(self, place: int, _: bool = False) -> None:
        kept = tuple(point for number, point in enumerate(self._points) if number != place)
        self._say(self._change(kept, 0))

    def _on_square(self, _: bool = False) -> None:
        self._say(try_apply(self._session, set_outline(self._session.project, self._key, None)))

    def _say(self, refusal: str) -> None:
        self.message.setText(refusal)
        self.message.setVisible(bool(refusal))


class NosingFields(PointList):
    """The line along a stair's nosings, from which heights on a stair are taken."""

    def __init__(self, session: Session, wall: Key, parent: QWidget | None = None) -> None:
        super().__init__(session, wall, parent)
        self.has = CheckField(say("A stair runs along this wall"))
        self.has.committed.connect(self._on_has)
        self._column.insertWidget(0, self.has)
        self._column.addWidget(self.message)
        self.refresh()

    def refresh(self) -> None:
        """Two points, or none."""
        if self._key not in self._session.project.wall_by_key:
            return
        nosing = self._wall.nosing
        self.has.set_value(nosing is not None)
        self._show(() if nosing is None else nosing)

    def _build(self, count: int) -> None:
        self._column.removeWidget(self.has)
        super()._build(count)
        self._column.insertWidget(0, self.has)

    def _names(self, place: int) -> tuple[str, str]:
        if place == 0:
            return say("First nosing, from left"), say("from floor")
        return say("Last nosing, from left"), say("from floor")

    def _change(self, points: tuple[Point, ...], gesture: int) -> str:
        nosing = None if not points else (points[0], points[1])
        merge = merge_key("nosing", self._key, gesture)
        return try_apply(self._session, change_wall_fields(self._session.project, self._key, merge, nosing=nosing))

    def _on_has(self, has: bool) -> None:
        width = float(self._wall.width.mm)
        # A usual stair to begin with: 0.72 up for each forward (180 to 250 mm, common practice).
        start = ((0.0, 0.0), (round(width / 2), round(width / 2 * 0.72)))
        refusal = self._change(start if has else (), self.has.gesture)
        self.message.setText(refusal)
        self.message.setVisible(bool(refusal))
        self.refresh()
