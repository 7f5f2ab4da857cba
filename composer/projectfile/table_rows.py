"""The rows of an inventory table: its header understood, then each row as one piece or several."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from composer.catalogue.catalogue import Catalogue
from composer.model import BadRecord, Picture, Piece, Units
from composer.projectfile.cells import BadCell, Reading, plain_text
from composer.projectfile.columns import COLUMNS, IGNORED, NEEDED, header_of, new_piece
from composer.projectfile.delimited import unguarded
from composer.projectfile.errors import BadTable
from composer.texts import say
from composer.units import BadQuantity

MOST_OF_A_ROW = 999


@dataclass(frozen=True, slots=True)
class TableRow:
    """One piece of a table.

    Attributes:
        piece: with a number counted from 1 in row order and a key that only holds within the table.
        picture: path of its picture as written, relative to the table; None = none.
        row: where it stands, the header being row 1.
    """

    piece: Piece
    picture: str | None
    row: int


@dataclass(frozen=True, slots=True)
class Header:
    """One column of this table: which one it is (None = unknown), its unit, its name as written."""

    known: str | None
    unit: str | None
    written: str


def read_headers(cells: list[str], path: Path, row: int) -> list[Header]:
    """The header row understood.

    Raises:
        BadTable: a column is there twice, one of the three is missing, a unit is unknown.
    """
    headers: list[Header] = []
    seen: dict[str, str] = {}
    for place, cell in enumerate(cells, start=1):
        try:
            name, unit, written = header_of(unguarded(cell.strip()))
        except BadCell as error:
            raise _bad(path, row, cell, str(error)) from None
        if not written:
            headers.append(Header(None, None, ""))
            continue
        if len(written) > 200:
            raise BadTable(say("“{path}”: the name of column {place} is too long.", path=path, place=place), row)
        if name in seen:
            raise BadTable(
                say("“{path}”: the column “{column}” is there twice.", path=path, column=written), row, written
            )
        seen[name] = written
        headers.append(Header(name if name in COLUMNS or name in IGNORED else None, unit, written))
    for needed in NEEDED:
        if needed not in seen:
            raise BadTable(
                say("“{path}” has no column “{column}”; name, width and height are needed.", path=path, column=needed),
                row,
                needed,
            )
    return headers


class RowReader:
    """Reads the rows of one table."""

    def __init__(self, headers: list[Header], path: Path, units: Units, catalogue: Catalogue | None) -> None:
        self._headers, self._path, self._units, self._catalogue = headers, path, units, catalogue
        # In the table's own order: a border before the bottom border that needs it.
        order = list(COLUMNS)
        self._known = sorted(
            ((place, header) for place, header in enumerate(headers) if header.known in COLUMNS),
            key=lambda item: order.index(str(item[1].known)),
        )
        self._places = {header.known: place for place, header in self._known}

    def read(self, row: int, cells: list[str], number: int) -> Iterable[TableRow]:
        """The pieces of one row, numbered from ``number``."""
        self._refuse_stray(row, cells)
        piece = self._piece(row, cells, number)
        picture = unguarded(self._cell(cells, self._places.get("picture"))) or None
        if picture is not None:
            self._check_picture(row, picture)
        count = self._count(row, self._cell(cells, self._places.get("count")))
        yield TableRow(piece if count <= 1 else self._copy(row, piece, 1, number), picture, row)
        for place in range(2, count + 1):
            yield TableRow(self._copy(row, piece, place, number + place - 1), picture, row)

    def _piece(self, row: int, cells: list[str], number: int) -> Piece:
        needed = {name: self._value(row, cells, self._places[name]) for name in NEEDED}
        try:
            piece = new_piece(f"p{number}", number, needed["name"], needed["width"], needed["height"], self._units)
        except BadCell as error:
            raise _bad(self._path, row, self._headers[self._places["name"]].written, str(error)) from None
        for place, header in self._known:
            column = COLUMNS[str(header.known)]
            if header.known in NEEDED or column.kind == "elsewhere" or not self._cell(cells, place):
                continue
            try:
                piece = column.put(piece, self._value(row, cells, place))
            except (BadCell, BadRecord) as error:
                raise _bad(self._path, row, header.written, str(error)) from None
        return self._with_extra(row, cells, piece)

    def _value(self, row: int, cells: list[str], place: int) -> Any:
        header = self._headers[place]
        column = COLUMNS[str(header.known)]
        text = self._cell(cells, place)
        try:
            return column.read(
                unguarded(text) if column.kind in ("text", "id") else text,
                Reading(self._units, header.unit, self._catalogue),
            )
        except (BadCell, BadQuantity, BadRecord) as error:
            raise _bad(self._path, row, header.written, str(error)) from None

    def _with_extra(self, row: int, cells: list[str], piece: Piece) -> Piece:
        kept = []
        for place, header in enumerate(self._headers):
            if header.known is not None or not header.written:
                continue
            text = plain_text(unguarded(self._cell(cells, place)))
            if not text:
                continue
            try:
                kept.append((header.written, text))
                piece = replace(piece, extra=tuple(kept))
            except BadRecord as error:
                raise _bad(self._path, row, header.written, str(error)) from None
        return piece

    def _copy(self, row: int, piece: Piece, place: int, number: int) -> Piece:
        try:
            return replace(piece, key=f"p{number}", number=number, name=f"{piece.name} {place}")
        except BadRecord as error:
            raise _bad(self._path, row, "count", str(error)) from None

    def _count(self, row: int, text: str) -> int:
        if not text:
            return 1
        if not (text.isascii() and text.isdigit() and len(text) <= 3 and 1 <= int(text) <= MOST_OF_A_ROW):
            raise _bad(self._path, row, "count", say("“{found}” is not a whole number from 1 to 999.", found=text[:40]))
        return int(text)

    def _check_picture(self, row: int, picture: str) -> None:
        try:
            Picture(key="i1", path=picture)
        except BadRecord as error:
            raise _bad(self._path, row, "picture", str(error)) from None

    def _cell(self, cells: list[str], place: int | None) -> str:
        """The cell's text; a row that ends early leaves the rest empty."""
        return cells[place].strip(" \t\u00a0") if place is not None and place < len(cells) else ""

    def _refuse_stray(self, row: int, cells: list[str]) -> None:
        for place, cell in enumerate(cells):
            if cell.strip() and (place >= len(self._headers) or not self._headers[place].written):
                raise BadTable(
                    say(
                        "“{path}”, row {row}: “{found}” stands in column {place}, which has no header.",
                        path=self._path,
                        row=row,
                        found=cell.strip()[:40],
                        place=place + 1,
                    ),
                    row,
                )


def _bad(path: Path, row: int, column: str, what: str) -> BadTable:
    sentence = say(
        "“{path}”, row {row}, column {column}: {what}", path=path, row=row, column=column.strip()[:60], what=what
    )
    return BadTable(sentence, row, column)
