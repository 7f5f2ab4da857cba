"""A new project: one wall, one arrangement, nothing hung."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import msgspec

from composer.editing.edits import Edit, tried
from composer.model import Arrangement, Key, Piece, Project, Units, Wall
from composer.model.project import USUAL_EYE_LINE, USUAL_GAP
from composer.texts import say, say_many
from composer.units import Length

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
            currency=currency or ("USD" if units == "imperial" else "EUR"),
            next_key=3,
            walls=(wall,),
            arrangements=(first,),
            current_arrangement=first.key,
        )
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
