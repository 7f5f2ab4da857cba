"""The kinds of columns an inventory table has: one maker for each, and how it is put into a piece."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from msgspec.structs import replace

from composer.catalogue.catalogue import Catalogue, usual
from composer.model import CustomBorders, EvenBorders, Mat, Piece
from composer.model.project import USUAL_LIP
from composer.projectfile.cells import BadCell, Reading, folded, plain_text, read_typed_length
from composer.texts import say
from composer.units import Length

Kind = Literal["text", "length", "mass", "money", "choice", "id", "elsewhere"]


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


def length_column(
    name: str, record: str, field: str, *, zero: bool = False, minus: bool = False, must: bool = False
) -> Column:
    """A length of one of the piece's records; ``must`` = it cannot stay empty."""

    def read(text: str, reading: Reading) -> Length | None:
        if not text:
            if must:
                raise BadCell(say("It cannot stay empty: a length is expected."))
            return Length.from_text(USUAL_LIP[reading.units]) if field == "lip" else None
        return read_typed_length(text, reading, zero=zero, minus=minus)

    def show(piece: Piece) -> str:
        value = getattr(getattr(piece, record), field)
        return "" if value is None else str(value)

    return Column(name, "length", read, into(record, field), show)


def face_column() -> Column:
    """The moulding's face, which a lip nobody measured cannot exceed."""
    plain = length_column("face", "frame", "face")

    def put(piece: Piece, face: Length | None) -> Piece:
        lip = piece.frame.lip
        if face is not None and lip is not None and lip.text in USUAL_LIP.values() and face.exact_mm < lip.exact_mm:
            # Nobody measured this lip, and a moulding cannot reach further over the rabbet than it is wide.
            return replace(piece, frame=replace(piece.frame, face=face, lip=face))
        return plain.put(piece, face)

    return Column(plain.name, plain.kind, plain.read, put, plain.show)


def into(record: str, field: str) -> Callable[[Piece, Any], Piece]:
    """Puts a value into one field of one of the piece's records."""

    def put(piece: Piece, value: Any) -> Piece:
        return replace(piece, **{record: replace(getattr(piece, record), **{field: value})})

    return put


def text_column(name: str, field: str, *, must: bool = False) -> Column:
    """A text of the piece itself."""

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


def choice_column(
    name: str, choices: Mapping[str, Any], empty: Any, put: Callable[[Piece, Any], Piece], show: Callable[[Piece], str]
) -> Column:
    """One of a few words; ``empty`` is what an empty cell means."""
    known = {folded(choice): value for choice, value in choices.items()}

    def read(text: str, _: Reading) -> Any:
        if not text:
            return empty
        if folded(text) not in known:
            raise BadCell(say("“{found}” is not one of {choices}.", found=text[:40], choices=", ".join(choices)))
        return known[folded(text)]

    return Column(name, "choice", read, put, show)


def id_column(name: str, field: str, listed: Callable[[Catalogue], Mapping[str, object]]) -> Column:
    """An id of the catalogue, kept in the frame."""

    def read(text: str, reading: Reading) -> str | None:
        if not text:
            return None
        ids = listed(usual() if reading.catalogue is None else reading.catalogue)
        for id_ in ids:
            if folded(id_) == folded(text):
                return id_
        raise BadCell(say("“{found}” is not in the catalogue: {ids}.", found=text[:40], ids=", ".join(sorted(ids))))

    return Column(name, "id", read, into("frame", field), lambda piece: getattr(piece.frame, field) or "")


def with_mat(piece: Piece, mat: Mat) -> Piece:
    """The piece with this mat; one of which nothing is known is none."""
    return replace(piece, mat=None if mat == Mat() else mat)


def borders_of(piece: Piece) -> tuple[Length | None, Length | None]:
    """What the two border columns say: the border all round, and the bottom one where it is given."""
    borders = None if piece.mat is None else piece.mat.borders
    if isinstance(borders, EvenBorders):
        return borders.border, None
    if isinstance(borders, CustomBorders):
        return borders.top, borders.bottom
    return None, None


def put_border(piece: Piece, border: Length | None) -> Piece:
    """The piece with another border of its mat."""
    bottom = borders_of(piece)[1]
    if bottom is None:
        return with_mat(piece, replace(piece.mat or Mat(), borders=EvenBorders(border=border)))
    if border is None:
        raise BadCell(say("The mat's border is needed while its bottom border is given: empty mat-bottom first."))
    return with_mat(
        piece,
        replace(piece.mat or Mat(), borders=CustomBorders(top=border, bottom=bottom, left=border, right=border)),
    )


def put_bottom(piece: Piece, bottom: Length | None) -> Piece:
    """The piece with another bottom border of its mat."""
    border = borders_of(piece)[0]
    if bottom is None:
        if border is None:
            return piece
        return with_mat(piece, replace(piece.mat or Mat(), borders=EvenBorders(border=border)))
    if border is None:
        raise BadCell(say("A bottom border needs the border of the other sides: fill in mat-border, too."))
    return with_mat(
        piece,
        replace(piece.mat or Mat(), borders=CustomBorders(top=border, bottom=bottom, left=border, right=border)),
    )


def mat_column(
    name: str,
    put: Callable[[Piece, Any], Piece],
    get: Callable[[Piece], Length | None],
    *,
    zero: bool = False,
    minus: bool = False,
) -> Column:
    """A length of the mat, which may not be there."""

    def read(text: str, reading: Reading) -> Length | None:
        return read_typed_length(text, reading, zero=zero, minus=minus) if text else None

    def show(piece: Piece) -> str:
        value = get(piece)
        return "" if value is None else value.text

    return Column(name, "length", read, put, show)


def foreign_column(name: str, show: Callable[[Piece], str] = lambda _: "") -> Column:
    """A column that concerns more than the piece: read elsewhere."""

    def read(text: str, _: Reading) -> Any:
        raise BadCell(say("“{column}” cannot be set on one piece alone.", column=name))

    return Column(name, "elsewhere", read, lambda piece, _: piece, show)
