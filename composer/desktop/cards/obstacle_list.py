"""The obstacles of a wall in its card: a row of fields for each, and a line to add one."""

from __future__ import annotations

from functools import partial
from itertools import pairwise
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.catalogue import catalogue
from composer.catalogue.names import obstacle_name
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.session import Session, merge_key, shown_in, try_apply
from composer.desktop.field_kinds import (
    ChoiceField,
    LengthField,
    PositionField,
    TextField,
    bare_unit,
)
from composer.desktop.field_row import FieldRow, LinkButton, Words
from composer.desktop.units_shown import number
from composer.editing.edits import Edit
from composer.editing.wall_edits import add_obstacles, change_obstacle, delete_obstacle
from composer.model import Key, Obstacle, Units
from composer.texts import say
from composer.units import Length

KINDS = (
    "sofa", "bed", "cot", "seat", "table", "door", "window", "switch", "socket", "tap", "radiator", "thermostat",
    "grille", "detector", "shelf", "stair-rail", "other",
)  # fmt: skip


USUAL_SIZES: dict[str, tuple[str, str, str, str]] = {
    "sofa": ("200 cm", "80 cm", "80 in", "32 in"),
    "bed": ("160 cm", "100 cm", "60 in", "40 in"),
    "cot": ("120 cm", "90 cm", "48 in", "36 in"),
    "seat": ("60 cm", "90 cm", "24 in", "36 in"),
    "table": ("120 cm", "75 cm", "48 in", "30 in"),
    "door": ("86 cm", "200 cm", "32 in", "80 in"),
    "window": ("120 cm", "120 cm", "48 in", "48 in"),
    "switch": ("86 mm", "86 mm", "2 3/4 in", "4 1/2 in"),
    "socket": ("86 mm", "86 mm", "2 3/4 in", "4 1/2 in"),
    "radiator": ("100 cm", "60 cm", "40 in", "24 in"),
}
OTHER_SIZE = ("20 cm", "20 cm", "8 in", "8 in")
"""A start only, to be typed over at once, metric and in inches; sizes met often, no source."""


def usual_size(kind: str, units: Units) -> tuple[Length, Length]:
    """Width and height an obstacle starts with, in the units of the project."""
    metric_width, metric_height, width, height = USUAL_SIZES.get(kind, OTHER_SIZE)
    if units == "metric":
        width, height = metric_width, metric_height
    return Length.from_text(width), Length.from_text(height)


class ObstacleList(QWidget):
    """A row of fields for each obstacle, and a line to add one."""

    pointed = Signal(str)

    def __init__(self, session: Session, wall: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._wall = session, wall
        self._rows: dict[Key, tuple[QWidget, Bindings]] = {}
        self._titles: dict[Key, Words] = {}
        self._fields: dict[Key, list[QWidget]] = {}
        """From the width, where an obstacle is sized, to the last one."""
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(12)
        kinds = [(kind, obstacle_name(kind).capitalize()) for kind in KINDS]
        self.kind = ChoiceField(say("Kind of obstacle"), kinds)
        self._add = LinkButton(say("Add an obstacle"))
        self._add.clicked.connect(self.add_one)
        foot = QHBoxLayout()
        foot.addWidget(self.kind, 1)
        foot.addWidget(self._add)
        self._column.addLayout(foot)
        self.refresh()

    def refresh(self) -> None:
        """A row for each obstacle there is now."""
        wall = self._session.project.wall_by_key.get(self._wall)
        if wall is None:
            return
        known = {obstacle.key for obstacle in wall.obstacles}
        for key in [key for key in self._rows if key not in known]:
            row, _ = self._rows.pop(key)
            self._column.removeWidget(row)
            row.hide()
            row.deleteLater()
        for obstacle in wall.obstacles:
            if obstacle.key not in self._rows:
                self._rows[obstacle.key] = self._row(obstacle)
                self._column.insertWidget(self._column.count() - 1, self._rows[obstacle.key][0])
                # Made last, the line that adds one would stand before it for the Tab key.
                order = (*self._fields[obstacle.key], self.kind, self._add)
                for before, after in pairwise(order):
                    self.setTabOrder(before, after)
            else:
                self._rows[obstacle.key][1].refresh()
                self._titles[obstacle.key].setText(obstacle_name(obstacle.kind, obstacle.name).capitalize())

    def _obstacle(self, key: Key) -> Obstacle:
        return self._session.project.obstacle_by_key[key]

    def _row(self, obstacle: Obstacle) -> tuple[QWidget, Bindings]:
        project, key = self._session.project, obstacle.key
        bare, style = bare_unit(project.units), shown_in(project)
        bindings = Bindings(self._session)
        box = QWidget()
        column = QVBoxLayout(box)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        head = QHBoxLayout()
        title = Words(obstacle_name(obstacle.kind, obstacle.name).capitalize(), 14, semibold=True)
        self._titles[key] = title
        head.addWidget(title, 1)
        delete = LinkButton(say("Delete"))
        delete.setAccessibleName(say("Delete {thing}", thing=obstacle_name(obstacle.kind, obstacle.name)))
        delete.clicked.connect(partial(self._delete, key))
        head.addWidget(delete)
        column.addLayout(head)

        def bind(field: Any, name: str, words: str) -> tuple[str, Any]:
            def make(value: Any, gesture: int) -> Edit:
                merge = merge_key(f"obstacle-{name}", key, gesture)
                return change_obstacle(self._session.project, key, merge, **{name: value})

            bindings.bind(field, lambda: getattr(self._obstacle(key), name), make)
            if hasattr(field, "entered"):
                field.entered.connect(partial(self.pointed.emit, key))
            return words, field

        usual = catalogue.of(project.catalogue).margin_mm(obstacle.kind)
        margin = LengthField(say("Keep clear"), bare=bare, zero=True)
        margin.set_placeholder(number(usual, style))
        left = say("Left, {unit}", unit=bare)
        bottom = say("Bottom, {unit}", unit=bare)
        kinds = [(kind, obstacle_name(kind)) for kind in KINDS]
        name = TextField(say("Name"))
        name.set_placeholder(obstacle_name(obstacle.kind))
        column.addWidget(
            FieldRow(
                bind(ChoiceField(say("Kind"), kinds), "kind", say("Kind")),
                bind(name, "name", say("Name")),
            )
        )
        sizes = (
            bind(LengthField(say("Width"), bare=bare, needed=True), "width", say("Width")),
            bind(LengthField(say("Height"), bare=bare, needed=True), "height", say("Height")),
            bind(LengthField(say("Depth"), bare=bare, zero=True), "depth", say("Depth")),
            bind(PositionField(left, style=style, bare=bare), "left", left),
            bind(PositionField(bottom, style=style, bare=bare), "bottom", bottom),
            bind(margin, "margin", say("Keep clear")),
        )
        self._fields[key] = [field for _, field in sizes]
        column.addWidget(FieldRow(*sizes))
        return box, bindings

    def add_one(self, _: bool = False) -> None:
        """An obstacle of the chosen kind in the middle of the wall, to be sized at once."""
        wall = self._session.project.wall_by_key[self._wall]
        kind = self.kind.value
        width, height = usual_size(kind, self._session.project.units)
        left = max(0.0, round((wall.width.mm - width.mm) / 2))
        low = 1100.0 if kind in ("switch", "thermostat", "window") else 300.0 if kind == "socket" else 0.0

        def make(key: Key) -> Obstacle:
            return Obstacle(key=key, kind=kind, left=left, bottom=low, width=width, height=height)

        before = set(self._rows)
        try_apply(self._session, add_obstacles(self._session.project, self._wall, [make]))
        self.refresh()
        for key in self._rows.keys() - before:
            self._fields[key][0].setFocus(Qt.FocusReason.OtherFocusReason)

    def _delete(self, key: Key, _: bool = False) -> None:
        try_apply(self._session, delete_obstacle(self._session.project, key))
