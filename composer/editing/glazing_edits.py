"""Other glazing in a frame: what it weighs afterwards, and the change itself."""

from __future__ import annotations

import math

import msgspec

from composer.catalogue import catalogue as catalogues
from composer.editing.edits import Edit, EditRefused, piece_of, tried
from composer.editing.piece_edits import replace_piece
from composer.hanging.weight import with_glazing
from composer.model import Glazing, Key, Piece, Project
from composer.texts import say
from composer.units import KG_PER_POUND, Mass

STEP_KG = 0.01
"""A weight that is reckoned is written to so much, rounded up."""


def reglazed(project: Project, key: Key, glazing: Glazing) -> Piece:
    """The piece with other glazing of the same thickness.

    One that was weighed gets the weight that follows: less the glazing it had, plus the other, both by the
    catalogue, the high end, rounded up to 10 g. It is to be weighed again.

    Raises:
        EditRefused: the piece is gone, or what its glazing is or measures is not known, so that a weight it
            was weighed with would be wrong afterwards.
    """
    piece = piece_of(project, key)
    frame = msgspec.structs.replace(piece.frame, glazing=glazing)
    if piece.weight is None:
        return msgspec.structs.replace(piece, frame=frame)
    after = with_glazing(piece, glazing, catalogues.of(project.catalogue))
    if after is None:
        raise EditRefused(
            say(
                "What the glazing of piece {number} weighs is not known: type its glazing and sizes first.",
                number=piece.number,
            )
        )
    kg = max(STEP_KG, math.ceil(after.high / STEP_KG - 1e-9) * STEP_KG)
    weight = Mass.of_kg(round(kg, 2))
    if piece.weight.unit in ("lb", "oz"):
        weight = Mass.from_text(f"{math.ceil(kg / float(KG_PER_POUND) * 10 - 1e-9) / 10:.1f} lb")
    return msgspec.structs.replace(piece, frame=frame, weight=weight)


def change_glazing(project: Project, key: Key, glazing: Glazing) -> Edit:
    """Other glazing in a frame, with the weight that follows; see :func:`reglazed`.

    Raises (when run):
        EditRefused: as there.
    """
    number = piece_of(project, key).number
    words = {
        "glass": say("glass"),
        "acrylic": say("acrylic"),
        "styrene": say("styrene"),
        "none": say("no glazing"),
        "unknown": say("glazing not known"),
    }

    def run(current: Project) -> Project:
        made = reglazed(current, key, glazing)
        return current if made == piece_of(current, key) else replace_piece(current, made)

    text = say("Piece {number}: {glazing} in its frame", number=number, glazing=words[glazing])
    return Edit(text, lambda current: tried(lambda: run(current)))
