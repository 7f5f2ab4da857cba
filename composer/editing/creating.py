"""A new project: one wall, one arrangement, nothing hung."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import msgspec

from composer.editing.edits import Edit, tried
from composer.model import Arrangement, Key, Piece, Project, Units, Wall
from composer.model.project import USUAL_EYE_LINE, USUAL_GAP
from composer.texts import say, say_many
from composer.units import Length

USUAL_CURRENCY: dict[Units, str] = {"metric": "EUR", "imperial": "USD"}

Numbered = Callable[[Key, int], Piece]
"""Makes a piece from the key and the number it is given."""


def new_project(
    *,
    wall_width: Length,
    wall_height: Length,
    units: Units = "metric",
    title: str = "",
    currency: str | None = None,
) -> Project:
    """A project with one bare wall and an empty arrangement; the usual eye line and gap are written down.

    Raises:
        EditRefused: when a size or the currency cannot be.
    """
    wall = tried(
        lambda: Wall(
            key="w1",
            name=say("Wall"),
            width=wall_width,
            height=wall_height,
            eye_line=Length.from_text(USUAL_EYE_LINE[units]),
        )
    )
    first = Arrangement(key="h2", name=say("first"), gap=Length.from_text(USUAL_GAP[units]))
    return tried(
        lambda: Project(
            title=title,
            units=units,
            currency=currency or USUAL_CURRENCY[units],
            next_key=3,
            walls=(wall,),
            arrangements=(first,),
            current_arrangement=first.key,
        )
    )


def measure_wall(key: Key, width: Length, height: Length) -> Edit:
    """A wall's size as it was measured first.

    Whoever measures it in feet and inches has the rest of a new project in inches, too, and the other way round:
    as long as there is no piece, its units and what was written down as usual follow the tape.
    """
    tapes: set[Units] = {"imperial" if length.unit in ("in", "ft") else "metric" for length in (width, height)}

    def run(project: Project) -> Project:
        walls = tuple(
            msgspec.structs.replace(wall, width=width, height=height, outline=None) if wall.key == key else wall
            for wall in project.walls
        )
        made = msgspec.structs.replace(project, walls=walls)
        if len(tapes) == 2 or project.pieces or project.units in tapes:
            return made
        return _in_units(made, *tapes)

    return Edit(say("Wall: size"), lambda project: tried(lambda: run(project)))


def _in_units(project: Project, units: Units) -> Project:
    """The project with what is usual in other units; what somebody typed stays."""
    eye, gap = (Length.from_text(usual[project.units]) for usual in (USUAL_EYE_LINE, USUAL_GAP))
    new_eye, new_gap = (Length.from_text(usual[units]) for usual in (USUAL_EYE_LINE, USUAL_GAP))
    return msgspec.structs.replace(
        project,
        units=units,
        currency=USUAL_CURRENCY[units] if project.currency == USUAL_CURRENCY[project.units] else project.currency,
        walls=tuple(
            msgspec.structs.replace(wall, eye_line=new_eye) if wall.eye_line == eye else wall for wall in project.walls
        ),
        arrangements=tuple(
            msgspec.structs.replace(hang, gap=new_gap) if hang.gap == gap else hang for hang in project.arrangements
        ),
    )


def add_pieces(pieces: Iterable[Numbered]) -> Edit:
    """More pieces, laid on the floor with the next keys and numbers, in the order given."""
    makers = tuple(pieces)

    def run(project: Project) -> Project:
        if not makers:
            return project
        made = tuple(
            make(f"p{project.next_key + place}", project.next_number + place) for place, make in enumerate(makers)
        )
        return msgspec.structs.replace(
            project,
            pieces=(*project.pieces, *made),
            next_key=project.next_key + len(made),
            next_number=project.next_number + len(made),
        )

    text = say_many("Add {count} piece", "Add {count} pieces", len(makers))
    return Edit(text, lambda project: tried(lambda: run(project)))
