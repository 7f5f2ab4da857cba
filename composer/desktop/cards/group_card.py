"""The card of several pieces: line up, space out, move together."""

from __future__ import annotations

from functools import partial
from typing import Any, Literal

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.desktop.cards.card import Card, Section, Title, Working
from composer.desktop.cards.quality_section import QualitySection
from composer.desktop.cards.session import Session, merge_key, shown_in, try_apply
from composer.desktop.field_kinds import ChoiceField, LengthField, PositionField, bare_unit
from composer.desktop.field_row import FieldRow, PushButton, Segments, Words
from composer.desktop.units_shown import number
from composer.editing.placing import align, move, space_out
from composer.editing.relations import places_of
from composer.editing.spacing import Ends, Span, gap_between
from composer.geometry.rectangle import Rectangle
from composer.hanging.weight import weight_of
from composer.hanging.working import WrittenLine
from composer.model import Key
from composer.texts import say, say_many
from composer.units import show_length, show_mass


class GroupCard(Card):
    """Several pieces at once; what lies on the floor among them takes no part in lining up."""

    def __init__(self, session: Session, keys: tuple[Key, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self.keys = session, keys
        self._title = Title()
        self.add_top(self._title)
        self._note = Words("", 12, "stop")
        self._note_box = self.add_padded(self._note)
        self._quality = QualitySection(session, keys)
        quality = self.add_section(Section(say("Quality"), self._quality.build))
        self._align = self.add_section(Section(say("Align"), self._build_align))
        self._space = self.add_section(Section(say("Space out"), self._build_space))
        self._place = self.add_section(Section(say("Size and centre"), self._build_place))
        self.sections = {"quality": quality, "align": self._align, "space": self._space, "place": self._place}
        session.project_changed.connect(self._on_changed)
        for section in self.sections.values():
            section.set_open(True)
        self.refresh()

    def _hung(self) -> dict[Key, Rectangle]:
        project = self._session.project
        places = places_of(project, project.arrangement)
        hung = [(key, places[key]) for key in self.keys if key in places]
        wall = hung[0][1][0] if hung else None
        return {key: place for key, (on, place) in hung if on == wall}

    def _box(self) -> Rectangle | None:
        places = self._hung().values()
        if not places:
            return None
        return Rectangle(
            min(p.left for p in places),
            min(p.bottom for p in places),
            max(p.right for p in places),
            max(p.top for p in places),
        )

    # Align ------------------------------------------------------------------------------------

    def _build_align(self, column: QVBoxLayout) -> None:
        self.across = Segments(
            say("Across"), [("left", say("Left")), ("centre", say("Middle")), ("right", say("Right"))]
        )
        self.down = Segments(say("Down"), [("top", say("Top")), ("middle", say("Centre")), ("bottom", say("Bottom"))])
        self.anchor = ChoiceField(say("To"), [])
        for words, widget in ((say("Across"), self.across), (say("Down"), self.down), (say("To"), self.anchor)):
            column.addWidget(FieldRow((words, widget)))
        self.across.committed.connect(self._on_align)
        self.down.committed.connect(self._on_align)
        self._fill_anchor()

    def _fill_anchor(self) -> None:
        if not hasattr(self, "anchor"):
            return
        project = self._session.project
        chosen = self.anchor.value
        pieces = [project.piece_by_key[key] for key in self._hung()]
        choices = [
            (piece.key, say("{number} {name}, which stays", number=piece.number, name=piece.name)) for piece in pieces
        ]
        self.anchor.set_choices([*choices, (None, say("the outermost of them"))])
        if chosen in self._hung():
            self.anchor.set_value(chosen)

    def _on_align(self, line: Any) -> None:
        edit = align(self._session.project, tuple(self._hung()), line, self.anchor.value)
        self._say(try_apply(self._session, edit))
        self.across.set_value(None)
        self.down.set_value(None)

    # Space out ----------------------------------------------------------------------------------

    def _build_space(self, column: QVBoxLayout) -> None:
        self.axis = Segments(say("Along"), [("x", say("Across")), ("y", say("Down"))])
        self.by = Segments(say("By"), [("gaps", say("gaps")), ("centres", say("centres"))])
        self.axis.set_value(self._roomier_axis())
        self.by.set_value("gaps")
        column.addWidget(FieldRow((say("Along"), self.axis), (say("By"), self.by)))
        self.within = ChoiceField(say("Between"), [])
        column.addWidget(FieldRow((say("Between"), self.within)))
        choices = [("gap", say("one gap")), ("half-gap", say("half")), ("typed", say("typed"))]
        self.ends = Segments(say("Ends"), choices)
        self.ends.set_value("typed")
        column.addWidget(FieldRow((say("Ends"), self.ends)))
        self.margin = LengthField(say("Free at each end"), bare=bare_unit(self._session.project.units), zero=True)
        self.margin.set_placeholder("0")
        self._margin_row = FieldRow((say("Free at each end"), self.margin))
        column.addWidget(self._margin_row)
        self.working = Working()
        column.addWidget(self.working)
        go = PushButton(say("Space them out"), strong=True)
        go.clicked.connect(self._on_space)
        column.addWidget(go)
        for field in (self.axis, self.by, self.within, self.ends, self.margin):
            field.committed.connect(self._show_space)
        self._fill_within()
        self._show_space()

    def _roomier_axis(self) -> str:
        """Across, unless they only have room up and down: then they hang below each other."""
        places, box = self._hung().values(), self._box()
        if box is None:
            return "x"
        free = (box.width - sum(place.width for place in places), box.height - sum(place.height for place in places))
        return "y" if free[0] < 0 <= free[1] else "x"

    def _fill_within(self) -> None:
        if not hasattr(self, "within"):
            return
        project, style = self._session.project, shown_in(self._session.project)
        axis = self.axis.value
        chosen = self.within.value
        choices: list[tuple[Any, str]] = [("pieces", say("the outer two as they hang"))]
        places = self._hung()
        if places:
            wall = project.placement_by_piece[next(iter(places))].wall
            record = project.wall_by_key[wall]
            choices.append(("wall", say("the whole wall")))
            for obstacle in record.obstacles if axis == "x" else ():
                span = Span(obstacle.left, obstacle.left + obstacle.width.mm)
                words = say(
                    "the {thing}'s ends, {low} and {high}",
                    thing=_thing(obstacle.kind, obstacle.name),
                    low=number(span.low, style),
                    high=number(span.high, style),
                )
                choices.append((span, words))
        self.within.set_choices(choices)
        if any(value == chosen for value, _ in choices):
            self.within.set_value(chosen)

    def _ends(self) -> Ends:
        if self.ends.value == "gap":
            return "gap"
        if self.ends.value == "half-gap":
            return "half-gap"
        return 0.0 if self.margin.value is None else float(self.margin.value.mm)

    def _room(self) -> tuple[list[float], float] | None:
        places = self._hung()
        if len(places) < 2:
            return None
        across = self.axis.value == "x"
        sizes = [place.width if across else place.height for place in places.values()]
        within, box = self.within.value, self._box()
        if isinstance(within, Span):
            return sizes, within.size
        if within == "wall":
            project = self._session.project
            wall = project.wall_by_key[project.placement_by_piece[next(iter(places))].wall]
            return sizes, float(wall.width.mm if across else wall.height.mm)
        assert box is not None
        return sizes, box.width if across else box.height

    def _show_space(self, _: Any = None) -> None:
        if not hasattr(self, "working"):
            return
        self._margin_row.setVisible(self.ends.value == "typed")
        found = self._room()
        if found is None:
            self._space.head.set_sentence(say("At least two of them must hang on one wall."))
            self.working.show_lines(())
            return
        sizes, room = found
        style, ends = shown_in(self._session.project), self._ends()
        gap = gap_between(sizes, room, ends)
        shown = number(gap, style)
        if gap < 0:
            self._space.head.set_sentence(say("They do not fit: {gap} would be left between.", gap=shown))
        elif self.by.value == "centres":
            self._space.head.set_sentence(say("Their centres would stand equally far apart."))
        else:
            self._space.head.set_sentence(say("Would give {gap} between them.", gap=shown))
        fixed = isinstance(ends, float)
        free = "" if not fixed or not ends else say(" − 2 × {ends}", ends=number(float(ends), style))
        count = len(sizes) - 1 if fixed else len(sizes) + 1 if ends == "gap" else len(sizes)
        expression = say(
            "({room} − {sizes}{free}) ÷ {count}",
            room=number(room, style),
            sizes=number(sum(sizes), style),
            free=free,
            count=count,
        )
        why = say("Room less the pieces, shared by the gaps.")
        by_gaps = self.by.value == "gaps"
        self.working.show_lines([WrittenLine(say("gap"), expression, shown, (), why)] if by_gaps else [])

    def _on_space(self, _: bool = False) -> None:
        axis: Literal["x", "y"] = "x" if self.axis.value == "x" else "y"
        by: Literal["gaps", "centres"] = "gaps" if self.by.value == "gaps" else "centres"
        edit = space_out(
            self._session.project, tuple(self._hung()), axis, within=self.within.value, ends=self._ends(), by=by
        )
        self._say(try_apply(self._session, edit))

    # Move together ------------------------------------------------------------------------------

    def _build_place(self, column: QVBoxLayout) -> None:
        project = self._session.project
        bare, style = bare_unit(project.units), shown_in(project)
        self.positions: dict[str, PositionField] = {}
        fields: list[tuple[str, QWidget]] = []
        for name, words in (("left", say("Left")), ("bottom", say("Bottom")), ("centre", say("Centre, from floor"))):
            label = say("{what}, {unit}", what=words, unit=bare)
            field = PositionField(label, style=style, bare=bare)
            field.committed.connect(partial(self._on_place, name))
            self.positions[name] = field
            fields.append((label, field))
        column.addWidget(FieldRow(*fields))
        self._show_place()

    def _where(self, name: str) -> float | None:
        box = self._box()
        if box is None:
            return None
        return {"left": box.left, "bottom": box.bottom, "centre": (box.bottom + box.top) / 2}[name]

    def _show_place(self) -> None:
        for name, field in getattr(self, "positions", {}).items():
            field.set_value(self._where(name))

    def _on_place(self, name: str, value: Any) -> None:
        now = self._where(name)
        field = self.positions[name]
        if now is None or value is None:
            return
        by = value - now
        dx, dy = (by, 0.0) if name == "left" else (0.0, by)
        merge = merge_key(f"group-{name}", self.keys[0], field.gesture)
        refusal = try_apply(self._session, move(self._session.project, tuple(self._hung()), dx, dy, merge))
        if refusal:
            field.set_value(now)
            field.complain(refusal)

    # All ----------------------------------------------------------------------------------------

    def _say(self, refusal: str) -> None:
        self._note.setText(refusal)
        self._note_box.setVisible(bool(refusal))

    def _on_changed(self, _before: object, _after: object, _change: object) -> None:
        if all(key in self._session.project.piece_by_key for key in self.keys):
            self.refresh()

    def refresh(self) -> None:
        """Shows the project as it is now."""
        project, style = self._session.project, shown_in(self._session.project)
        pieces = [project.piece_by_key[key] for key in self.keys]
        box, weights = self._box(), [weight_of(piece) for piece in pieces]
        known = [weight.kg for weight in weights if weight is not None]
        together = say_many("{count} piece", "{count} pieces", len(pieces))
        line = []
        if box is not None:
            line.append(say("{width} × {height}", width=number(box.width, style), height=number(box.height, style)))
        if len(known) == len(pieces):
            line.append(say("{mass} together", mass=show_mass(sum(known), project.mass_unit)))
        self._title.show_title(together, ", ".join(line), tuple(piece.number for piece in pieces))
        self._say("")
        few = len(self._hung()) < 2
        self._align.head.set_sentence(
            say("At least two of them must hang on one wall.")
            if few
            else say("Nothing moves until you choose an edge.")
        )
        if not self._space.is_built:
            self._space.head.set_sentence(say("Equal gaps, or equal steps from centre to centre."))
        if box is None:
            self._place.head.set_sentence(say("They lie on the floor."))
        else:
            wall = project.wall_by_key[project.placement_by_piece[next(iter(self._hung()))].wall]
            above = (box.bottom + box.top) / 2 - project.eye_line(wall).mm
            far = show_length(abs(above), style)
            sentence = (
                say("Centre {length} above the eye line.", length=far)
                if above > 0
                else say("Centre {length} below the eye line.", length=far)
            )
            self._place.head.set_sentence(say("Centre on the eye line.") if abs(above) < 0.05 else sentence)
        self.sections["quality"].head.set_sentence(self._quality.sentence())
        self._quality.refresh()
        self._fill_anchor()
        self._fill_within()
        self._show_space()
        self._show_place()
        self._align.setEnabled(not few)


def _thing(kind: str, name: str) -> str:
    from composer.catalogue.names import obstacle_name

    return obstacle_name(kind, name)
