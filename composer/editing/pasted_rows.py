"""Rows copied from a spreadsheet, or one quick row a line: understood column by column, nothing lost.

A table of a file is read whole or not at all. What is pasted is looked at first: each column says
what it was taken for and may be taken for something else; each row is read by itself, so that a row
that cannot be read keeps its cells and its sentence while the others are added.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import get_args

import msgspec

from composer.catalogue.catalogue import Catalogue
from composer.editing.edits import Edit
from composer.editing.quick_row import QuickRow, read_row
from composer.model import HangerKind, Piece, Project, Units
from composer.model.project import USUAL_ALLOWANCE, USUAL_LIP, USUAL_UNIT
from composer.projectfile.cells import folded
from composer.projectfile.columns import COLUMNS, IGNORED, NEEDED, header_of
from composer.projectfile.delimited import rows_of
from composer.projectfile.errors import BadTable
from composer.projectfile.inventory import Table, add_to
from composer.projectfile.table_rows import RowReader, TableRow, read_headers
from composer.texts import say, say_many
from composer.units import BadQuantity, Length, read_length, read_mass

Cells = tuple[tuple[str, ...], ...]

LEFT_OUT = ""
"""A column that is not wanted."""

SIZE, ROW = "size", "row"
"""Two columns that only pasted rows have: ``40 x 50`` in one cell, and a whole quick row."""

ALSO_CALLED = {
    "w": "width", "wide": "width", "b": "width", "h": "height", "high": "height", "d": "depth", "deep": "depth",
    "title": "name", "piece": "name", "what": "name", "frame": "name", "picturename": "name", "hangs": "hanger",
    "hangsby": "hanger", "howithangs": "hanger", "hanging": "hanger", "kg": "weight", "qty": "count",
    "quantity": "count", "pieces": "count", "cost": "price", "notes": "note", "remark": "note", "remarks": "note",
    "dimensions": "size", "measures": "size", "file": "picture", "image": "picture", "no": "number", "nr": "number",
}  # fmt: skip
"""Names people give to columns in their own tables (common practice, no source)."""

_SIZE_CELL = re.compile(r"\s*(?P<width>[^x×*]+?)\s*(?:x|×|\*)\s*(?P<height>[^x×*]+?)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Understood:
    """What a pasted text was taken for.

    Attributes:
        cells: the rows below the head, all of one length.
        head: the first row, where it names columns; else empty.
        columns: for each column a name of the inventory table, ``size``, ``row``, the person's own
            name (kept with the piece), or empty for a column that is not wanted.
        units: the unit written beside a column's name, "" where there is none.
    """

    cells: Cells
    head: tuple[str, ...]
    columns: tuple[str, ...]
    units: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ReadRow:
    """One row: its pieces, or the sentence why there are none."""

    pieces: tuple[TableRow, ...] = ()
    problem: str = ""


def understand(text: str) -> Understood:
    """Rows and columns of a pasted text, with a guess at what each column is.

    Raises:
        BadTable: when the text falls into no rows at all, such as one with an open quotation mark.
    """
    lines = [line for line in text.splitlines() if line.strip()]
    if not any(sign in line for line in lines for sign in "\t;") and not _commas(lines):
        return Understood(tuple((line.strip(),) for line in lines), (), (ROW,), ("",))
    rows = [tuple(cell.strip(" \t\u00a0") for cell in cells) for _, cells in rows_of(text, Path(say("pasted table")))]
    wide = max((len(row) for row in rows), default=0)
    if not wide:
        return Understood((), (), (), ())
    cells = tuple(row + ("",) * (wide - len(row)) for row in rows)
    named = [_name_of(cell) for cell in cells[0]]
    if sum(1 for name, _ in named if is_known(name)) >= 2:
        columns, units, seen = [], [], set()
        for (name, unit), written in zip(named, cells[0], strict=True):
            known = is_known(name)
            taken = name if known and name not in seen else written if not known else LEFT_OUT
            seen.add(taken)
            columns.append(taken)
            units.append(unit)
        return Understood(cells[1:], cells[0], tuple(columns), tuple(units))
    return Understood(cells, (), _guessed(cells), ("",) * wide)


def is_known(column: str) -> bool:
    """Whether a column means something here; any other is kept with the piece as it stands."""
    return folded(column) in COLUMNS or column in IGNORED or column == SIZE


def _commas(lines: Sequence[str]) -> bool:
    """Whether commas part columns: two in the first line, outside quotation marks and numbers."""
    return bool(lines) and len(re.findall(r",(?!\d)", lines[0])) > 1


def _name_of(cell: str) -> tuple[str, str]:
    """The column a head cell stands for and the unit beside it; a name nobody knows stays as folded."""
    text = re.sub(r"\(([^()]*)\)\s*$", r"[\1]", cell.strip())
    try:
        name, unit, _ = header_of(text)
    except ValueError:
        name, unit = folded(cell), None
    if name in COLUMNS:
        return COLUMNS[name].name, unit or ""
    bare, _, behind = text.partition("[")
    also = ALSO_CALLED.get(folded(bare), name)
    return also, behind.rstrip("] ").strip() if also in COLUMNS else ""


def _guessed(cells: Cells) -> tuple[str, ...]:
    """What columns without names hold, by what stands in them."""
    lengths = ["width", "height", "depth"]
    found: list[str] = []
    for place, column in enumerate(zip(*cells, strict=True), start=1):
        filled = [cell for cell in column if cell]
        if filled and all(_SIZE_CELL.fullmatch(cell) and cell[0].isdigit() for cell in filled) and SIZE not in found:
            taken = SIZE
        elif filled and all(cell.casefold() in get_args(HangerKind) for cell in filled):
            taken = "hanger"
        elif filled and all(_is_weight(cell) for cell in filled):
            taken = "weight"
        elif filled and all(_is_length(cell) for cell in filled) and lengths and SIZE not in found:
            taken = lengths.pop(0)
        elif filled and "name" not in found:
            taken = "name"
        else:
            taken = say("column {place}", place=place)
        found.append(taken if taken not in found else say("column {place}", place=place))
    return tuple(found)


def _is_length(cell: str) -> bool:
    try:
        read_length(cell, bare="cm")
    except BadQuantity:
        return False
    return True


def _is_weight(cell: str) -> bool:
    try:
        read_mass(cell)
    except BadQuantity:
        return False
    return True


def read_rows(taken: Understood, units: Units, catalogue: Catalogue | None = None) -> tuple[ReadRow, ...]:
    """Every row by itself, in order; where a column is wanted twice or missing, all rows say so."""
    if taken.columns == (ROW,):
        return tuple(_quick(cells[0], units, place) for place, cells in enumerate(taken.cells, start=1))
    heads, spread = _spread_head(taken)
    first = 2 if taken.head else 1
    name = Path(say("pasted table"))
    try:
        reader = RowReader(read_headers(heads, name, 1), name, units, catalogue)
    except BadTable as problem:
        return tuple(ReadRow(problem=_short(problem)) for _ in taken.cells)
    found: list[ReadRow] = []
    for place, cells in enumerate(taken.cells):
        try:
            found.append(ReadRow(tuple(reader.read(place + first, spread(cells, place + 1), 1))))
        except BadTable as problem:
            found.append(ReadRow(problem=_short(problem)))
    return tuple(found)


def _short(problem: BadTable) -> str:
    """The sentence without the table's name in front, which the person pasted a moment ago."""
    start = say("“{path}”", path=say("pasted table"))
    sentence = str(problem)
    if not sentence.startswith(start):
        return sentence
    rest = sentence.removeprefix(start).lstrip(" ,:")
    return rest[:1].upper() + rest[1:]


def _spread_head(taken: Understood) -> tuple[list[str], _Spread]:
    heads: list[str] = []
    for column, unit in zip(taken.columns, taken.units, strict=True):
        if column == SIZE:
            heads += [f"{one} [{unit}]" if unit else one for one in ("width", "height")]
        elif column:
            heads.append(f"{column} [{unit}]" if unit and folded(column) in COLUMNS else column)
    named = "name" in taken.columns
    return (heads if named else ["name", *heads]), _Spread(taken.columns, named=named)


@dataclass(frozen=True, slots=True)
class _Spread:
    """Turns the cells as pasted into the cells of a table: a size into two, a missing name into a number."""

    columns: tuple[str, ...]
    named: bool

    def __call__(self, cells: Sequence[str], place: int) -> list[str]:
        made = [] if self.named else [say("Piece {number}", number=place)]
        for column, cell in zip(self.columns, cells, strict=True):
            if column == SIZE:
                parts = _SIZE_CELL.fullmatch(cell)
                made += [cell, ""] if parts is None else [parts["width"], parts["height"]]
            elif column:
                made.append(cell)
        return made


def _quick(line: str, units: Units, place: int) -> ReadRow:
    try:
        row = read_row(line, bare=USUAL_UNIT[units])
        return ReadRow((TableRow(piece_of_row(row, f"p{place}", place, units), None, place),))
    except ValueError as problem:
        return ReadRow(problem=str(problem))


def piece_of_row(row: QuickRow, key: str, number: int, units: Units) -> Piece:
    """A quick row as a piece, with the usual lip and allowance written down."""
    frame = msgspec.structs.replace(
        row.frame, lip=Length.from_text(USUAL_LIP[units]), allowance=Length.from_text(USUAL_ALLOWANCE[units])
    )
    name = row.name or say("Piece {number}", number=number)
    return Piece(key=key, number=number, name=name, frame=frame, hanger=row.hanger, weight=row.weight)


def add_read_rows(rows: Sequence[ReadRow], folder: Path, project_folder: Path) -> Edit:
    """The pieces of all rows that could be read, on the floor, as one step.

    Args:
        rows: as read; those with a problem are left out.
        folder: from which the rows' pictures are counted.
        project_folder: from which the project counts them.
    """
    pieces = tuple(piece for row in rows for piece in row.pieces)

    def run(project: Project) -> Project:
        return add_to(project, Table(pieces, (), folder), project_folder) if pieces else project

    return Edit(say_many("Add {count} piece", "Add {count} pieces", len(pieces)), run)


def column_names() -> tuple[str, ...]:
    """Every column a pasted one may be taken for, the three that are needed first."""
    rest = [name for name in (column.name for column in COLUMNS.values()) if name not in NEEDED]
    return (*NEEDED, SIZE, *rest)
