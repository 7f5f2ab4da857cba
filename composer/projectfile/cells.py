"""One cell of a table: its text as it is compared, stored and read, whatever column it stands in."""

import re
import unicodedata
from dataclasses import dataclass
from typing import Any

from composer.catalogue.catalogue import Catalogue
from composer.model import Units
from composer.model.project import USUAL_UNIT
from composer.units import Length, read_length, read_mass


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


def folded(header: str) -> str:
    """A header as it is compared: case, spaces, ``_`` and ``-`` do not matter."""
    return re.sub(r"[\s_\-‐‑–]+", "", header).casefold()


def plain_text(text: str) -> str:
    """Typed text as it is stored: composed Unicode, line ends as ``\\n``, nothing around it."""
    return unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n")).strip()


def read_typed_length(text: str, reading: Reading, *, zero: bool = False, minus: bool = False) -> Length:
    """A length in a cell: the header's unit, else the project's, for a bare number."""
    return read_length(
        text,
        bare=reading.unit or USUAL_UNIT[reading.units],
        fractions_need_unit=reading.unit is None and reading.units == "metric",
        zero=zero,
        minus=minus,
    )


def read_typed_mass(text: str, reading: Reading) -> Any:
    """A mass in a cell, or None for an empty one; a bare number needs a unit in the header."""
    if not text:
        return None
    bare = reading.unit and re.fullmatch(r"[\d\s.,/½¼¾-]+", text)
    return read_mass(f"{text} {reading.unit}" if bare else text)
