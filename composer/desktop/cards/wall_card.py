"""The card of the wall, shown when nothing is selected."""

from __future__ import annotations

from typing import Any, Protocol

import msgspec
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.catalogue.names import SURFACES, surface_name
from composer.desktop.cards.arrangement_section import ArrangementSection
from composer.desktop.cards.bound import Bindings, add_row
from composer.desktop.cards.card import Card, Section, Title
from composer.desktop.cards.corner_list import CornerList, NosingFields
from composer.desktop.cards.money_section import MoneySection
from composer.desktop.cards.obstacle_list import ObstacleList
from composer.desktop.cards.own_classes import OwnClasses
from composer.desktop.cards.project_section import ProjectSection
from composer.desktop.cards.session import Session, merge_key, shown_in
from composer.desktop.field_kinds import (
    CheckField,
    ChoiceField,
    LengthField,
    TextField,
    bare_unit,
)
from composer.desktop.field_row import Words
from composer.desktop.units_shown import number
from composer.editing.edits import Edit
from composer.editing.record_edits import change_project
from composer.editing.wall_edits import change_wall_fields
from composer.model import Key, Wall
from composer.texts import N_, say, say_many
from composer.units import show_length

_ENDS = (("corner", N_("corner")), ("free", N_("free end")), ("door", N_("door")))


class WallSection(Protocol):
    """A section that fills itself and says its result; add one by one line in the card."""

    def build(self, column: QVBoxLayout) -> None:
        """Fills its column when it is opened for the first time."""

    def refresh(self) -> None:
        """Shows the project as it is now."""

    def sentence(self) -> str:
        """Its result, in one sentence."""
        ...


class WallCard(Card):
    """Outline, kind, heights, obstacles and cables of one wall.

    Signals:
        pointed: the key of an obstacle whose row has focus, or empty.
        wanted: name of an action that a link of the card stands for.
    """

    pointed = Signal(str)
    wanted = Signal(str)

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self.key = session, key
        self._bindings = Bindings(session)
        self._title = Title()
        self.add_top(self._title)
        self.sections: dict[str, Section] = {}
        for name, words, build in (
            ("outline", say("Outline"), self._build_outline),
            ("kind", say("What it is"), self._build_kind),
            ("heights", say("Heights"), self._build_heights),
            ("obstacles", say("Obstacles"), self._build_obstacles),
            ("cables", say("Cables"), self._build_cables),
        ):
            self.sections[name] = self.add_section(Section(words, build))
        self._contents: dict[str, WallSection] = {}
        for name, words, content in (
            ("arrangement", say("Arrangement"), ArrangementSection(session)),
            ("money", say("Money"), MoneySection(session, self.wanted.emit)),
            ("own-classes", say("Own classes"), OwnClasses(session)),
            ("project", say("Project"), ProjectSection(session)),
        ):
            self.sections[name] = self.add_section(Section(words, content.build))
            self._contents[name] = content
        self._obstacles: ObstacleList | None = None
        session.project_changed.connect(self._on_changed)
        for name in ("outline", "kind", "heights"):
            self.sections[name].set_open(True)
        self.refresh()

    @property
    def _wall(self) -> Wall:
        return self._session.project.wall_by_key[self.key]

    @property
    def _bare(self) -> str:
        return bare_unit(self._session.project.units)

    def _bind(self, field: Any, name: str, words: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            key = merge_key(f"wall-{name}", self.key, gesture)
            fields: dict[str, Any] = {name: value}
            if name in ("width", "height") and self._wall.outline is not None:
                fields["outline"] = None
            return change_wall_fields(self._session.project, self.key, key, **fields)

        self._bindings.bind(field, lambda: getattr(self._wall, name), make)
        return words, field

    def _bind_datum(self, field: Any, name: str, words: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            datum = msgspec.structs.replace(self._wall.datum, **{name: value})
            key = merge_key(f"datum-{name}", self.key, gesture)
            return change_wall_fields(self._session.project, self.key, key, datum=datum)

        self._bindings.bind(field, lambda: getattr(self._wall.datum, name), make)
        return words, field

    def _length(self, name: str, words: str, *, needed: bool = False, zero: bool = False) -> tuple[str, Any]:
        return self._bind(LengthField(words, bare=self._bare, needed=needed, zero=zero), name, words)

    def _build_outline(self, column: QVBoxLayout) -> None:
        ends = [(key, say(words)) for key, words in _ENDS]
        add_row(column, self._bind(TextField(say("Name"), needed=True), "name", say("Name")))
        add_row(
            column,
            self._length("width", say("Width"), needed=True),
            self._length("height", say("Height"), needed=True),
            self._length("viewing_distance", say("Seen from")),
        )
        add_row(
            column,
            self._bind(ChoiceField(say("Left end"), ends), "left_end", say("Left end")),
            self._bind(ChoiceField(say("Right end"), ends), "right_end", say("Right end")),
            self._length("skirting", say("Skirting"), zero=True),
        )
        self._corners = CornerList(self._session, self.key)
        column.addWidget(self._corners)
        self._nosing = NosingFields(self._session, self.key)
        column.addWidget(self._nosing)

    def _build_kind(self, column: QVBoxLayout) -> None:
        kinds = [(kind, surface_name(kind)) for kind in SURFACES]
        add_row(column, self._bind(ChoiceField(say("Kind"), kinds), "surface", say("Kind")))
        holes = CheckField(say("No holes here"))
        self._bind(holes, "no_holes", say("no holes"))
        column.addWidget(holes)
        add_row(
            column,
            self._length("stud_first", say("First stud"), zero=True),
            self._length("stud_spacing", say("Stud to stud")),
            self._bind(TextField(say("Paint, #RRGGBB"), optional=True), "paint", say("Paint, #RRGGBB")),
        )

    def _build_heights(self, column: QVBoxLayout) -> None:
        add_row(
            column,
            self._length("eye_line", say("Eye line")),
            self._length("edge_margin", say("Margin at the edges"), zero=True),
        )
        heights = ChoiceField(say("Heights from"), [("floor", say("the floor")), ("line", say("a level line"))])
        line = LengthField(say("Level line at"), bare=self._bare)
        line.set_placeholder(say("the eye line"))
        add_row(
            column,
            self._bind_datum(heights, "height", say("Heights from")),
            self._bind_datum(line, "line", say("Level line at")),
        )
        sides = [("left", say("left corner")), ("right", say("right corner")), ("plumb", say("plumb line"))]
        plumb = LengthField(say("Plumb line at"), bare=self._bare, zero=True)
        add_row(
            column,
            self._bind_datum(ChoiceField(say("Distances from"), sides), "side", say("Distances from")),
            self._bind_datum(plumb, "plumb", say("Plumb line at")),
        )

    def _build_obstacles(self, column: QVBoxLayout) -> None:
        self._obstacles = ObstacleList(self._session, self.key)
        self._obstacles.pointed.connect(self.pointed)
        column.addWidget(self._obstacles)

    def _build_cables(self, column: QVBoxLayout) -> None:
        regions = [("none", say("switches and sockets")), ("uk", "BS 7671"), ("us", say("United States"))]
        rule = ChoiceField(say("Cable rule"), regions)

        def make(value: Any, gesture: int) -> Edit:
            return change_project(say("Cable rule"), merge_key("region", self.key, gesture), region=value)

        self._bindings.bind(rule, lambda: self._session.project.region, make)
        add_row(column, (say("Cable rule"), rule))
        words = say("No band does not mean no cable or pipe: use a detector before any nail.")
        column.addWidget(Words(words, 12, "warn"))

    def _on_changed(self, _before: object, _after: object, _change: object) -> None:
        if self.key in self._session.project.wall_by_key:
            self.refresh()

    def refresh(self) -> None:
        """Shows the wall as it is now."""
        wall, project = self._wall, self._session.project
        style = shown_in(project)
        self._title.show_title(wall.name, say("Nothing is selected, so this is the wall."))
        self._bindings.refresh()
        size = say("{width} × {height}", width=number(wall.width.mm, style), height=number(wall.height.mm, style))
        corners = len(wall.corners)
        square = say("{size}, four corners, all square.", size=size)
        shaped = say("{size}, {corners} corners.", size=size, corners=corners)
        self.sections["outline"].head.set_sentence(square if wall.outline is None else shaped)
        if hasattr(self, "_nosing"):
            self._corners.refresh()
            self._nosing.refresh()
        kind = surface_name(wall.surface).capitalize()
        holes = say("{kind}, no holes. The packet wins.", kind=kind) if wall.no_holes else say("{kind}.", kind=kind)
        self.sections["kind"].head.set_sentence(holes)
        line = wall.datum.line or project.eye_line(wall)
        heights = say("All heights are read from the floor.")
        if wall.datum.height == "line":
            heights = say("All heights are read from a level line at {height}.", height=show_length(line.mm, style))
        self.sections["heights"].head.set_sentence(heights)
        count = len(wall.obstacles)
        things = say_many("{count} thing with a margin to keep.", "{count} things, each with a margin to keep.", count)
        self.sections["obstacles"].head.set_sentence(things if count else say("Nothing in the way."))
        region = {
            "none": say("Bands run from switches and sockets."),
            "uk": say("Bands by BS 7671 are asked about."),
            "us": say("Bands by US practice are asked about."),
        }
        self.sections["cables"].head.set_sentence(region[project.region])
        if self._obstacles is not None:
            self._obstacles.refresh()
        for name, content in self._contents.items():
            self.sections[name].head.set_sentence(content.sentence())
            if self.sections[name].is_built:
                content.refresh()
