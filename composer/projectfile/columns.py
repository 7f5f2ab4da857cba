"""The columns of the inventory table: how each cell is read, shown and put into a piece.

One list serves the table on disk, the command line's ``piece.N.COLUMN`` and what is pasted into the
window, so that a column means the same everywhere.
"""

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal, get_args

from msgspec.structs import replace

from composer.catalogue.catalogue import Catalogue, usual
from composer.model import BadRecord, CustomBorders, EvenBorders, Frame, HangerKind, Mat, Piece, Units
from composer.model.frame import Glazing
from composer.model.project import USUAL_ALLOWANCE, USUAL_LIP, USUAL_UNIT
from composer.texts import say
from composer.units import MM_PER, BadQuantity, Length, read_length, read_mass, read_money

Kind = Literal["text", "length", "mass", "money", "choice", "id", "elsewhere"]


class BadCell(ValueError):
    """A cell that cannot be read; the message is one finished sentence without row and column."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a cell's text needs beside itself.

    Attributes:
        units: the project's, for bare numbers and for what a frame gets when nothing is given.
        unit: named in the column's header, or None.
        catalogue: whose ids mouldings and backings have.
    """

    units: Units
    unit: str | None = None
    catalogue: Catalogue | None = None


@dataclass(frozen=True, slots=True)
class Column:
    """One column.

    Attributes:
        name: as written in a header.
        kind: how its cells are read; ``elsewhere`` = not by this module (picture, count).
        show: the cell's text for a piece; empty = not measured, not decided.
    """

    name: str
    kind: Kind
    read: Callable[[str, Reading], Any]
    put: Callable[[Piece, Any], Piece]
    show: Callable[[Piece], str]


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


def show_column(piece: Piece, column: str) -> str:
    """The cell a table would hold for the piece, as typed.

    Raises:
        BadCell: when there is no such column.
    """
    found = COLUMNS.get(folded(column))
    if found is None:
        raise BadCell(say("There is no column “{column}”.", column=column[:40]))
    return found.show(piece)


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


def folded(header: str) -> str:
    """A header as it is compared: case, spaces, ``_`` and ``-`` do not matter."""
    return re.sub(r"[\s_\-‐‑–]+", "", header).casefold()


def plain_text(text: str) -> str:
    """Typed text as it is stored: composed Unicode, line ends as ``\\n``, nothing around it."""
    return unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n")).strip()


def one_line(sentence: str) -> str:
    """A sentence without what a cell may have smuggled into it: line ends, control characters."""
    return "".join(sign if sign.isprintable() else "·" for sign in sentence)


def read_typed_length(text: str, reading: Reading, *, zero: bool = False, minus: bool = False) -> Length:
    """A length in a cell: the header's unit, else the project's, for a bare number."""
    return read_length(
        text,
        bare=reading.unit or USUAL_UNIT[reading.units],
        fractions_need_unit=reading.unit is None and reading.units == "metric",
        zero=zero,
        minus=minus,
    )


# --- One maker for each kind of column -------------------------------------------------------------


def _length(
    name: str, record: str, field: str, *, zero: bool = False, minus: bool = False, must: bool = False
) -> Column:
    def read(text: str, reading: Reading) -> Length | None:
        if not text:
            if must:
                raise BadCell(say("It cannot stay empty: a length is expected."))
            return Length.from_text(USUAL_LIP[reading.units]) if field == "lip" else None
        return read_typed_length(text, reading, zero=zero, minus=minus)

    def show(piece: Piece) -> str:
        value = getattr(getattr(piece, record), field)
        return "" if value is None else str(value)

    return Column(name, "length", read, _into(record, field), show)


def _face() -> Column:
    plain = _length("face", "frame", "face")

    def put(piece: Piece, face: Length | None) -> Piece:
        lip = piece.frame.lip
        if face is not None and lip is not None and lip.text in USUAL_LIP.values() and face.exact_mm < lip.exact_mm:
            # Nobody measured this lip, and a moulding cannot reach further over the rabbet than it is wide.
            return replace(piece, frame=replace(piece.frame, face=face, lip=face))
        return plain.put(piece, face)

    return Column(plain.name, plain.kind, plain.read, put, plain.show)


def _into(record: str, field: str) -> Callable[[Piece, Any], Piece]:
    def put(piece: Piece, value: Any) -> Piece:
        return replace(piece, **{record: replace(getattr(piece, record), **{field: value})})

    return put


def _text(name: str, field: str, *, must: bool = False) -> Column:
    def read(text: str, _: Reading) -> str:
        if must and not text:
            raise BadCell(say("It cannot stay empty: a name is expected."))
        return plain_text(text)

    return Column(
        name,
        "text",
        read,
        lambda piece, value: replace(piece, **{field: value}),
        lambda piece: str(getattr(piece, field)),
    )


def _choice(
    name: str, choices: Mapping[str, Any], empty: Any, put: Callable[[Piece, Any], Piece], show: Callable[[Piece], str]
) -> Column:
    known = {folded(choice): value for choice, value in choices.items()}

    def read(text: str, _: Reading) -> Any:
        if not text:
            return empty
        if folded(text) not in known:
            raise BadCell(say("“{found}” is not one of {choices}.", found=text[:40], choices=", ".join(choices)))
        return known[folded(text)]

    return Column(name, "choice", read, put, show)


def _catalogue_id(name: str, field: str, listed: Callable[[Catalogue], Mapping[str, object]]) -> Column:
    def read(text: str, reading: Reading) -> str | None:
        if not text:
            return None
        ids = listed(usual() if reading.catalogue is None else reading.catalogue)
        for id_ in ids:
            if folded(id_) == folded(text):
                return id_
        raise BadCell(say("“{found}” is not in the catalogue: {ids}.", found=text[:40], ids=", ".join(sorted(ids))))

    return Column(name, "id", read, _into("frame", field), lambda piece: getattr(piece.frame, field) or "")


def _with_mat(piece: Piece, mat: Mat) -> Piece:
    return replace(piece, mat=None if mat == Mat() else mat)


def _borders(piece: Piece) -> tuple[Length | None, Length | None]:
    """What the two border columns say: the border all round, and the bottom one where it is given."""
    borders = None if piece.mat is None else piece.mat.borders
    if isinstance(borders, EvenBorders):
        return borders.border, None
    if isinstance(borders, CustomBorders):
        return borders.top, borders.bottom
    return None, None


def _put_border(piece: Piece, border: Length | None) -> Piece:
    bottom = _borders(piece)[1]
    if bottom is None:
        return _with_mat(piece, replace(piece.mat or Mat(), borders=EvenBorders(border=border)))
    if border is None:
        raise BadCell(say("The mat's border is needed while its bottom border is given: empty mat-bottom first."))
    return _with_mat(
        piece,
        replace(piece.mat or Mat(), borders=CustomBorders(top=border, bottom=bottom, left=border, right=border)),
    )


def _put_bottom(piece: Piece, bottom: Length | None) -> Piece:
    border = _borders(piece)[0]
    if bottom is None:
        if border is None:
            return piece
        return _with_mat(piece, replace(piece.mat or Mat(), borders=EvenBorders(border=border)))
    if border is None:
        raise BadCell(say("A bottom border needs the border of the other sides: fill in mat-border, too."))
    return _with_mat(
        piece,
        replace(piece.mat or Mat(), borders=CustomBorders(top=border, bottom=bottom, left=border, right=border)),
    )


def _mat_column(
    name: str,
    put: Callable[[Piece, Any], Piece],
    get: Callable[[Piece], Length | None],
    *,
    zero: bool = False,
    minus: bool = False,
) -> Column:
    def read(text: str, reading: Reading) -> Length | None:
        return read_typed_length(text, reading, zero=zero, minus=minus) if text else None

    def show(piece: Piece) -> str:
        value = get(piece)
        return "" if value is None else value.text

    return Column(name, "length", read, put, show)


def _read_mass(text: str, reading: Reading) -> Any:
    if not text:
        return None
    bare = reading.unit and re.fullmatch(r"[\d\s.,/½¼¾-]+", text)
    return read_mass(f"{text} {reading.unit}" if bare else text)


def _elsewhere(name: str, show: Callable[[Piece], str] = lambda _: "") -> Column:
    def read(text: str, _: Reading) -> Any:
        raise BadCell(say("“{column}” cannot be set on one piece alone.", column=name))

    return Column(name, "elsewhere", read, lambda piece, _: piece, show)


def _hooks_shown(piece: Piece) -> str:
    return str(piece.hanger.hooks) if piece.hanger.kind == "wire" or piece.hanger.hooks != 1 else ""


_IN_ORDER = (
    _text("name", "name", must=True),
    _length("width", "frame", "width", must=True),
    _length("height", "frame", "height", must=True),
    _length("depth", "frame", "depth"),
    _face(),
    _length("lip", "frame", "lip", zero=True),
    _length("sight-width", "frame", "sight_width"),
    _length("sight-height", "frame", "sight_height"),
    _length("glass-width", "frame", "glass_width"),
    _length("glass-height", "frame", "glass_height"),
    _length("rabbet-depth", "frame", "rabbet_depth"),
    _catalogue_id("moulding", "moulding", lambda catalogue: catalogue.mouldings),
    _length("moulding-thickness", "frame", "moulding_thickness"),
    _choice(
        "glazing",
        {kind: kind for kind in get_args(Glazing) if kind != "unknown"},
        "unknown",
        _into("frame", "glazing"),
        lambda piece: "" if piece.frame.glazing == "unknown" else piece.frame.glazing,
    ),
    _length("glazing-thickness", "frame", "glazing_thickness"),
    _catalogue_id("backing", "backing", lambda catalogue: catalogue.backings),
    Column(
        "weight",
        "mass",
        _read_mass,
        lambda piece, value: replace(piece, weight=value),
        lambda piece: "" if piece.weight is None else piece.weight.text,
    ),
    _choice(
        "hanger",
        {kind: kind for kind in get_args(HangerKind)},
        None,
        _into("hanger", "kind"),
        lambda piece: piece.hanger.kind or "",
    ),
    _length("drop", "hanger", "drop", zero=True),
    _length("drop-right", "hanger", "drop_right", zero=True),
    _length("spacing", "hanger", "spacing"),
    _length("offset", "hanger", "offset", minus=True),
    _length("wire", "hanger", "wire"),
    _length("ring-drop", "hanger", "ring_drop", zero=True),
    _choice("hooks", {"1": 1, "2": 2}, 1, _into("hanger", "hooks"), _hooks_shown),
    _length("hook-spacing", "hanger", "hook_spacing"),
    _elsewhere("picture"),
    _mat_column("mat-border", _put_border, lambda piece: _borders(piece)[0]),
    _mat_column("mat-bottom", _put_bottom, lambda piece: _borders(piece)[1]),
    _mat_column(
        "mat-overlap",
        lambda piece, value: _with_mat(piece, replace(piece.mat or Mat(), overlap=value)),
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
    _choice(
        "owned",
        {"yes": True, "no": False},
        False,
        lambda piece, value: replace(piece, owned=value),
        lambda piece: "yes" if piece.owned else "no",
    ),
    _elsewhere("count"),
    _text("note", "note"),
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
