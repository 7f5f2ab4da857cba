"""The inventory table: frames as a spreadsheet holds them, one row each, read and written."""

import contextlib
import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from composer.catalogue.catalogue import Catalogue
from composer.catalogue.catalogue import of as catalogue_of
from composer.model import BadRecord, Picture, PictureUse, Piece, Project, Units
from composer.projectfile import columns
from composer.projectfile.columns import COLUMNS, IGNORED, NEEDED, BadCell, Reading
from composer.projectfile.delimited import guarded, read_rows, rows_of, to_bytes, unguarded
from composer.projectfile.errors import BadTable, CannotRead
from composer.projectfile.picture_links import read_link, relative_path
from composer.projectfile.store import write_atomic
from composer.texts import say
from composer.units import BadQuantity, Length

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
class Table:
    """A table as read; all of it or nothing.

    Attributes:
        rows: pieces in order, a row with a count of n as n pieces.
        unknown: columns that mean nothing here; they are kept with each piece and told once.
        folder: from which pictures' paths are counted.
    """

    rows: tuple[TableRow, ...]
    unknown: tuple[str, ...]
    folder: Path


def read_table(path: str | os.PathLike[str], units: Units, catalogue: Catalogue | None = None) -> Table:
    """Reads an inventory table.

    Args:
        path: a CSV file.
        units: what bare numbers mean, and the lip and allowance of frames that give none.
        catalogue: the project's; None = the shipped one.

    Raises:
        BadTable: with file, row and column.
        CannotRead: when the file is missing or cannot be read.
    """
    path = Path(path)
    return _table(read_rows(path), path, path.parent, units, catalogue)


def read_text(text: str, units: Units, folder: Path, catalogue: Catalogue | None = None) -> Table:
    """As :func:`read_table`, of a table that was pasted; its pictures are counted from ``folder``."""
    name = Path(say("pasted table"))
    return _table(rows_of(text, name), name, folder, units, catalogue)


def add_to(project: Project, table: Table, project_folder: Path) -> Project:
    """The project with the table's pieces on the floor, numbered on, their pictures linked by path."""
    key, number = project.next_key, project.next_number
    pieces, pictures = list(project.pieces), list(project.pictures)
    known = {picture.path: picture.key for picture in pictures}
    for row in table.rows:
        piece = replace(row.piece, key=f"p{key}", number=number)
        key, number = key + 1, number + 1
        if row.picture is not None:
            path = relative_path(table.folder / row.picture, project_folder)
            if path not in known:
                known[path] = f"i{key}"
                pictures.append(_as_found(Picture(key=known[path], path=path), project_folder))
                key += 1
            piece = replace(piece, uses=(PictureUse(picture=known[path]),), current_use=0)
        pieces.append(piece)
    return replace(project, pieces=tuple(pieces), pictures=tuple(pictures), next_key=key, next_number=number)


def _as_found(picture: Picture, project_folder: Path) -> Picture:
    """The picture with size and digest where its file is there; a missing one is linked by its path alone."""
    with contextlib.suppress(CannotRead):
        return read_link(picture, project_folder)
    return picture


def set_picture(project: Project, piece_key: str, path: str) -> Project:
    """The project with another picture shown in a piece; an empty path takes it out.

    Args:
        path: relative to the project's folder, with ``/``.

    Raises:
        BadRecord: for a path that cannot be one.
    """
    piece, key = project.piece_by_key[piece_key], project.next_key
    pictures = project.pictures
    if not path:
        changed = replace(piece, uses=(), current_use=None)
    else:
        picture = next((known for known in pictures if known.path == path), None)
        if picture is None:
            picture = Picture(key=f"i{key}", path=path)
            pictures, key = (*pictures, picture), key + 1
        shown = next((place for place, use in enumerate(piece.uses) if use.picture == picture.key), None)
        if shown is None:
            changed = replace(piece, uses=(PictureUse(picture=picture.key),), current_use=0)
        else:
            changed = replace(piece, current_use=shown)
    pieces = tuple(changed if item.key == piece_key else item for item in project.pieces)
    return replace(project, pieces=pieces, pictures=pictures, next_key=key)


def write_table(project: Project, path: str | os.PathLike[str], project_folder: Path | None = None) -> None:
    """Writes the project's pieces as a table, replacing the file in one step.

    Args:
        project: whose pieces.
        path: where to.
        project_folder: from which its pictures' paths are counted; None = the table's own folder.

    Raises:
        CannotWrite: the old file is untouched.
    """
    write_atomic(path, table_bytes(project, Path(path).parent, project_folder or Path(path).parent))


def table_bytes(project: Project, folder: Path, project_folder: Path) -> bytes:
    """The table a file in ``folder`` holds: every column, then where the pieces hang now."""
    extra = list(dict.fromkeys(name for piece in project.pieces for name, _ in piece.extra))
    names = [column.name for column in COLUMNS.values()]
    rows = [[*names, *IGNORED, *(guarded(name) for name in extra)]]
    for piece in sorted(project.pieces, key=lambda piece: piece.number):
        cells = [
            guarded(column.show(piece)) if column.kind in ("text", "id") else column.show(piece)
            for column in COLUMNS.values()
        ]
        cells[names.index("picture")] = guarded(_picture_of(project, piece, folder, project_folder))
        own = dict(piece.extra)
        rows.append([*cells, *_place(project, piece), *(guarded(own.get(name, "")) for name in extra)])
    return to_bytes(rows)


def _picture_of(project: Project, piece: Piece, folder: Path, project_folder: Path) -> str:
    if piece.current_use is None:
        return ""
    used = piece.uses[piece.current_use].picture
    picture = next(picture for picture in project.pictures if picture.key == used)
    return relative_path(project_folder / picture.path, folder)


def _place(project: Project, piece: Piece) -> list[str]:
    place = project.placement_by_piece.get(piece.key)
    if place is None:
        return [str(piece.number), "", "", "", ""]
    left, bottom = Length.of_mm(place.left).text, Length.of_mm(place.bottom).text
    return [str(piece.number), left, bottom, _yes_no(place.turned), _yes_no(place.locked)]


def _yes_no(answer: bool) -> str:
    return "yes" if answer else "no"


def catalogue_for(project: Project) -> Catalogue:
    """The catalogue whose ids the project's table may use."""
    return catalogue_of(project.catalogue)


# --- Reading ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Header:
    """One column of this table: which one it is (None = unknown), its unit, its name as written."""

    known: str | None
    unit: str | None
    written: str


def _table(
    rows: Iterator[tuple[int, list[str]]], path: Path, folder: Path, units: Units, catalogue: Catalogue | None
) -> Table:
    first = next(rows, None)
    if first is None:
        raise BadTable(say("“{path}” is empty; a header with name, width and height is expected.", path=path))
    headers = _headers(first[1], path, first[0])
    reader = _RowReader(headers, path, units, catalogue)
    found: list[TableRow] = []
    for row, cells in rows:
        found += reader.read(row, cells, len(found) + 1)
    unknown = tuple(header.written for header in headers if header.known is None and header.written)
    return Table(tuple(found), unknown, folder)


def _headers(cells: list[str], path: Path, row: int) -> list[_Header]:
    headers: list[_Header] = []
    seen: dict[str, str] = {}
    for place, cell in enumerate(cells, start=1):
        try:
            name, unit, written = columns.header_of(unguarded(cell.strip()))
        except BadCell as error:
            raise _bad(path, row, cell, str(error)) from None
        if not written:
            headers.append(_Header(None, None, ""))
            continue
        if len(written) > 200:
            raise BadTable(say("“{path}”: the name of column {place} is too long.", path=path, place=place), row)
        if name in seen:
            raise BadTable(
                say("“{path}”: the column “{column}” is there twice.", path=path, column=written), row, written
            )
        seen[name] = written
        headers.append(_Header(name if name in COLUMNS or name in IGNORED else None, unit, written))
    for needed in NEEDED:
        if needed not in seen:
            raise BadTable(
                say("“{path}” has no column “{column}”; name, width and height are needed.", path=path, column=needed),
                row,
                needed,
            )
    return headers


class _RowReader:
    """Reads the rows of one table."""

    def __init__(self, headers: list[_Header], path: Path, units: Units, catalogue: Catalogue | None) -> None:
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
            piece = columns.new_piece(
                f"p{number}", number, needed["name"], needed["width"], needed["height"], self._units
            )
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
            text = columns.plain_text(unguarded(self._cell(cells, place)))
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
    return BadTable(columns.one_line(sentence), row, column)


__all__ = [
    "Table",
    "TableRow",
    "add_to",
    "catalogue_for",
    "read_table",
    "read_text",
    "set_picture",
    "table_bytes",
    "write_table",
]
