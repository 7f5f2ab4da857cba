"""The columns of the inventory table: how each cell is read, shown and put into a piece.

One list serves the table on disk, the command line's ``piece.N.COLUMN`` and what is pasted into the
window, so that a column means the same everywhere.
"""

import re
from functools import lru_cache
from typing import get_args

from msgspec.structs import replace

from composer.catalogue.catalogue import Catalogue
from composer.model import BadRecord, Frame, HangerKind, Mat, Piece, Units
from composer.model.frame import Glazing
from composer.model.project import USUAL_ALLOWANCE, USUAL_LIP
from composer.projectfile.cells import BadCell, Reading, folded, plain_text, read_typed_mass
from composer.projectfile.column_kinds import (
    Column,
    borders_of,
    choice_column,
    face_column,
    foreign_column,
    id_column,
    into,
    length_column,
    mat_column,
    put_border,
    put_bottom,
    text_column,
    with_mat,
)
from composer.texts import one_line, say
from composer.units import MM_PER, BadQuantity, Length, read_money


def set_column(
    piece: Piece, column: str, text: str, units: Units, *, unit: str | None = None, catalogue: Catalogue | None = None
) -> Piece:
    """The piece with one cell of its row typed anew; an empty text takes the value back.

    Args:
        column: its name; case, spaces, ``_`` and ``-`` do not matter.
        units: the project's; decide what a bare number means.
        unit: named beside the column, if any.
        catalogue: the project's; None = the shipped one.

    Raises:
        BadCell: with one sentence.
    """
    found = COLUMNS.get(folded(column))
    if found is None:
        raise BadCell(say("There is no column “{column}”.", column=column[:40]))
    reading = Reading(units, unit, catalogue)
    try:
        return found.put(piece, found.read(text.strip(), reading))
    except (BadQuantity, BadRecord) as error:
        raise BadCell(one_line(str(error))) from None


def new_piece(key: str, number: int, name: str, width: Length, height: Length, units: Units) -> Piece:
    """A piece of which only its outside is known, with the lip and allowance its units usually have."""
    try:
        return Piece(
            key=key,
            number=number,
            name=plain_text(name),
            frame=Frame(
                width=width,
                height=height,
                lip=Length.from_text(USUAL_LIP[units]),
                allowance=Length.from_text(USUAL_ALLOWANCE[units]),
            ),
        )
    except BadRecord as error:
        raise BadCell(one_line(str(error))) from None


def _hooks_shown(piece: Piece) -> str:
    return str(piece.hanger.hooks) if piece.hanger.kind == "wire" or piece.hanger.hooks != 1 else ""


_IN_ORDER = (
    text_column("name", "name", must=True),
    length_column("width", "frame", "width", must=True),
    length_column("height", "frame", "height", must=True),
    length_column("depth", "frame", "depth"),
    face_column(),
    length_column("lip", "frame", "lip", zero=True),
    length_column("sight-width", "frame", "sight_width"),
    length_column("sight-height", "frame", "sight_height"),
    length_column("glass-width", "frame", "glass_width"),
    length_column("glass-height", "frame", "glass_height"),
    length_column("rabbet-depth", "frame", "rabbet_depth"),
    id_column("moulding", "moulding", lambda catalogue: catalogue.mouldings),
    length_column("moulding-thickness", "frame", "moulding_thickness"),
    choice_column(
        "glazing",
        {kind: kind for kind in get_args(Glazing) if kind != "unknown"},
        "unknown",
        into("frame", "glazing"),
        lambda piece: "" if piece.frame.glazing == "unknown" else piece.frame.glazing,
    ),
    length_column("glazing-thickness", "frame", "glazing_thickness"),
    id_column("backing", "backing", lambda catalogue: catalogue.backings),
    Column(
        "weight",
        "mass",
        read_typed_mass,
        lambda piece, value: replace(piece, weight=value),
        lambda piece: "" if piece.weight is None else piece.weight.text,
    ),
    choice_column(
        "hanger",
        {kind: kind for kind in get_args(HangerKind)},
        None,
        into("hanger", "kind"),
        lambda piece: piece.hanger.kind or "",
    ),
    length_column("drop", "hanger", "drop", zero=True),
    length_column("drop-right", "hanger", "drop_right", zero=True),
    length_column("spacing", "hanger", "spacing"),
    length_column("offset", "hanger", "offset", minus=True),
    length_column("wire", "hanger", "wire"),
    length_column("ring-drop", "hanger", "ring_drop", zero=True),
    choice_column("hooks", {"1": 1, "2": 2}, 1, into("hanger", "hooks"), _hooks_shown),
    length_column("hook-spacing", "hanger", "hook_spacing"),
    foreign_column("picture"),
    mat_column("mat-border", put_border, lambda piece: borders_of(piece)[0]),
    mat_column("mat-bottom", put_bottom, lambda piece: borders_of(piece)[1]),
    mat_column(
        "mat-overlap",
        lambda piece, value: with_mat(piece, replace(piece.mat or Mat(), overlap=value)),
        lambda piece: None if piece.mat is None else piece.mat.overlap,
        minus=True,
    ),
    Column(
        "price",
        "money",
        lambda text, _: read_money(text) if text else None,
        lambda piece, value: replace(piece, price=value),
        lambda piece: "" if piece.price is None else f"{piece.price:f}",
    ),
    choice_column(
        "owned",
        {"yes": True, "no": False},
        False,
        lambda piece, value: replace(piece, owned=value),
        lambda piece: "yes" if piece.owned else "no",
    ),
    foreign_column("count"),
    text_column("note", "note"),
)

COLUMNS: dict[str, Column] = {folded(column.name): column for column in _IN_ORDER}
"""Every column of the table by its folded name, in the table's usual order."""

NEEDED = ("name", "width", "height")
IGNORED = ("number", "left", "bottom", "turned", "locked")
"""Written for the person, not read: a table does not hang pieces."""


@lru_cache(maxsize=256)
def header_of(text: str) -> tuple[str, str | None, str]:
    """A header cell as (name to compare, length or mass unit beside it or None, name as written).

    Raises:
        BadCell: for a unit nobody knows behind a column that takes one.
    """
    text = plain_text(text)
    found = re.fullmatch(r"(.*?)\s*\[\s*([^\[\]]*?)\s*\]", text, re.DOTALL)
    if found is None:
        return folded(text), None, text
    column = COLUMNS.get(folded(found[1]))
    unit = found[2].casefold()
    if column is None:
        return folded(text), None, text
    if column.kind == "length":
        known = {'"': "in", "″": "in", "inch": "in", "inches": "in", "'": "ft", "′": "ft", "foot": "ft", "feet": "ft"}
        unit = known.get(unit, unit)
        if unit in MM_PER:
            return folded(found[1]), unit, found[1]
        raise BadCell(say("“{unit}” is not a unit of length: mm, cm, m, in or ft.", unit=found[2][:20]))
    if column.kind == "mass":
        if unit in ("g", "kg", "oz", "lb"):
            return folded(found[1]), unit, found[1]
        raise BadCell(say("“{unit}” is not a unit of weight: g, kg, oz or lb.", unit=found[2][:20]))
    return folded(found[1]), None, found[1]
