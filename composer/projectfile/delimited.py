"""Tables as text: UTF-8, delimiter found in the header row, quoted as RFC 4180 says.

What is read here is text in rows and columns; what the columns mean is said elsewhere.
"""

import csv
import io
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from composer.projectfile.errors import BadTable
from composer.projectfile.store import read_bytes
from composer.texts import say

LARGEST_BYTES = 16 * 1024 * 1024
LONGEST_CELL = 5000
"""As long as a note may be."""

_FORMULA = "=+-@'"


def read_rows(path: Path) -> Iterator[tuple[int, list[str]]]:
    """Every row that is not empty, with its number as a spreadsheet counts; the header is row 1.

    Raises:
        BadTable: for bytes that are not UTF-8, an open quote, a monstrous cell.
        CannotRead: when the file is missing or cannot be read.
    """
    return rows_of(text_of(path), path)


def text_of(path: Path) -> str:
    """A table file's text.

    Raises:
        BadTable: for bytes that are not UTF-8, or far too many of them.
        CannotRead: when the file is missing or cannot be read.
    """
    data = read_bytes(path, LARGEST_BYTES + 1)
    if len(data) > LARGEST_BYTES:
        raise BadTable(
            say(
                "“{path}” is not a table of frames: it is larger than {most} MB.",
                path=path,
                most=LARGEST_BYTES // 1024**2,
            )
        )
    return _decoded(data, path)


def rows_of(text: str, path: Path) -> Iterator[tuple[int, list[str]]]:
    """As :func:`read_rows`, of a text that is already there (pasted); ``path`` names it in sentences."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
    number = 0
    while True:
        number += 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            if "field larger" in str(error):
                raise BadTable(_too_long(path, number), number) from None
            raise BadTable(
                say("“{path}”, row {row}: a quotation mark is open or out of place.", path=path, row=number), number
            ) from None
        if any(len(cell) > LONGEST_CELL for cell in cells):
            raise BadTable(_too_long(path, number), number)
        if any(cell.strip() for cell in cells):
            yield number, cells


def to_bytes(rows: Iterable[Sequence[str]]) -> bytes:
    """Rows as spreadsheets read them best: UTF-8 with BOM, commas, CRLF."""
    text = io.StringIO(newline="")
    csv.writer(text, lineterminator="\r\n").writerows(rows)
    return b"\xef\xbb\xbf" + text.getvalue().encode()


def guarded(text: str) -> str:
    """Text that no spreadsheet takes for a formula."""
    return f"'{text}" if _looks_like_formula(text) else text


def unguarded(text: str) -> str:
    """The text that was guarded."""
    return text[1:] if text.startswith("'") and _looks_like_formula(text[1:]) else text


def _looks_like_formula(text: str) -> bool:
    return text[:1] != "" and (text[0] in _FORMULA or unicodedata.category(text[0]) == "Cc")


def _too_long(path: Path, row: int) -> str:
    return say("“{path}”, row {row}: a cell is longer than 5 000 characters.", path=path, row=row)


def _decoded(data: bytes, path: Path) -> str:
    try:
        return data.removeprefix(b"\xef\xbb\xbf").decode()
    except UnicodeDecodeError as error:
        raise BadTable(
            say(
                "“{path}” is not UTF-8 (line {line}). Save it as “CSV UTF-8”.",
                path=path,
                line=data.count(b"\n", 0, error.start) + 1,
            )
        ) from None


def _delimiter(text: str) -> str:
    """The first tab, semicolon or comma of the header row that stands outside quotes."""
    quoted = False
    for sign in text:
        if sign == '"':
            quoted = not quoted
        elif not quoted and sign in "\t;,":
            return sign
        elif not quoted and sign in "\r\n":
            break
    return ","
