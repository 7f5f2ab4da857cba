"""The index of full-size pages: which part of which piece lies where on which page.

Scripts and checks read it, so its keys and their order never change. All lengths in millimetres,
rounded to a millionth.
"""

import json
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class IndexPoint:
    """A hanging point's crosshair: in the piece (for the whole wall: on the wall) and on the page."""

    x: float
    y: float
    what: str
    page_x: float
    page_y: float


@dataclass(frozen=True, slots=True)
class IndexHole:
    """A hole's ring, likewise."""

    x: float
    y: float
    page_x: float
    page_y: float


@dataclass(frozen=True, slots=True)
class IndexEntry:
    """One piece on one page.

    Attributes:
        page: number of the page in the PDF, from 1.
        piece: number of the piece; None for the whole wall.
        label: piece, column letters, row: ``2-B1``.
        row, column: from 1; row 1 is the top one, column 1 the left one.
        of: rows and columns of the full grid, pages left out included.
        origin: point of the piece on the page's lower left corner; in turned coordinates if rotated.
        rotated: the piece lies a quarter turned anticlockwise on the page.
        printable: left, bottom, right, top on the page.
        size: width and height of the page.
    """

    page: int
    piece: int | None
    label: str
    row: int
    column: int
    of: tuple[int, int]
    origin: tuple[float, float]
    rotated: bool
    printable: tuple[float, float, float, float]
    size: tuple[float, float]
    points: tuple[IndexPoint, ...] = ()
    holes: tuple[IndexHole, ...] = ()


@dataclass(frozen=True, slots=True)
class PageIndex:
    """The whole index; ``sheet`` is the upright sheet, its height None for a roll."""

    sheet: tuple[float, float | None]
    scale: tuple[float, float]
    pages: tuple[IndexEntry, ...]


def to_json(index: PageIndex) -> str:
    """The index as JSON text with a line's end."""
    return json.dumps(as_plain(index), ensure_ascii=False, indent=1) + "\n"


def as_plain(index: PageIndex) -> dict[str, object]:
    """The index as plain values, keys in their order."""
    return {
        "sheet": [_mm(index.sheet[0]), None if index.sheet[1] is None else _mm(index.sheet[1])],
        "scale": _all_mm(index.scale),
        "pages": [_entry(entry) for entry in index.pages],
    }


def column_letters(column: int) -> str:
    """A, B, … Z, AA, AB …: the letters of a column counted from 1."""
    letters = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def label_of(piece: int | None, row: int, column: int) -> str:
    """What a page is called: piece (W = the whole wall), column, row."""
    return f"{'W' if piece is None else piece}-{column_letters(column)}{row}"


def to_page(
    x: float, y: float, origin: tuple[float, float], scale: tuple[float, float], *, rotated: bool = False
) -> tuple[float, float]:
    """Where a point of the piece falls on the page, mm."""
    along, up = (-y, x) if rotated else (x, y)
    return scale[0] * (along - origin[0]), scale[1] * (up - origin[1])


def _entry(entry: IndexEntry) -> dict[str, object]:
    return {
        "page": entry.page,
        "piece": entry.piece,
        "label": entry.label,
        "row": entry.row,
        "column": entry.column,
        "of": list(entry.of),
        "origin": _all_mm(entry.origin),
        "rotated": entry.rotated,
        "printable": _all_mm(entry.printable),
        "size": _all_mm(entry.size),
        "points": [
            {"x": _mm(p.x), "y": _mm(p.y), "what": p.what, "page_x": _mm(p.page_x), "page_y": _mm(p.page_y)}
            for p in entry.points
        ],
        "holes": [
            {"x": _mm(h.x), "y": _mm(h.y), "page_x": _mm(h.page_x), "page_y": _mm(h.page_y)} for h in entry.holes
        ],
    }


def _all_mm(values: Sequence[float]) -> list[float]:
    return [_mm(value) for value in values]


def _mm(value: float) -> float:
    return round(value, 6) + 0.0
