"""The inventory table: frames as a spreadsheet holds them, one row each, read and written."""

import contextlib
import os
from collections.abc import Iterator
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

from msgspec.structs import replace

from composer.catalogue.catalogue import Catalogue
from composer.catalogue.catalogue import of as catalogue_of
from composer.catalogue.pinning import pinned_for
from composer.model import Picture, PictureUse, Piece, Project, Units
from composer.projectfile.columns import COLUMNS, IGNORED
from composer.projectfile.delimited import guarded, read_rows, rows_of, to_bytes
from composer.projectfile.errors import BadTable, CannotRead
from composer.projectfile.picture_links import read_link, relative_path
from composer.projectfile.store import write_atomic
from composer.projectfile.table_rows import RowReader, TableRow, read_headers
from composer.texts import say
from composer.units import Length

MOST_PIECES = 10_000
"""Of one table. Our own limit: ten times the largest wall tried, and what memory bears (no source)."""


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
    return replace(
        project,
        pieces=tuple(pieces),
        pictures=tuple(pictures),
        next_key=key,
        next_number=number,
        catalogue=pinned_for(project.catalogue, pieces[len(project.pieces) :]),
    )


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
    extra = _own_columns(project)
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


def _own_columns(project: Project) -> list[str]:
    """The person's own columns in the order of the table they came from; a piece names only those it fills."""
    order: TopologicalSorter[str] = TopologicalSorter()
    for piece in project.pieces:
        before: tuple[str, ...] = ()
        for name, _ in piece.extra:
            order.add(name, *before)
            before = (name,)
    try:
        return list(order.static_order())
    except CycleError:  # two tables disagree
        return list(dict.fromkeys(name for piece in project.pieces for name, _ in piece.extra))


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


def _table(
    rows: Iterator[tuple[int, list[str]]], path: Path, folder: Path, units: Units, catalogue: Catalogue | None
) -> Table:
    first = next(rows, None)
    if first is None:
        raise BadTable(say("“{path}” is empty; a header with name, width and height is expected.", path=path))
    headers = read_headers(first[1], path, first[0])
    reader = RowReader(headers, path, units, catalogue)
    found: list[TableRow] = []
    for row, cells in rows:
        found += reader.read(row, cells, len(found) + 1)
        if len(found) > MOST_PIECES:
            raise BadTable(
                say(
                    "“{path}”, row {row}: more than {most} pieces; is a count mistyped?",
                    path=path,
                    row=row,
                    most=MOST_PIECES,
                ),
                row,
            )
    unknown = tuple(header.written for header in headers if header.known is None and header.written)
    return Table(tuple(found), unknown, folder)
