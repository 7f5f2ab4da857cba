"""Sizes of paper: the sheets a printer or a copy shop has, and what of them can be printed on.

Sheet sizes are our own table: A series by ISO 216 (trimmed sizes), letter and tabloid by
ASME Y14.1 (its sizes A and B), legal and the rolls by common practice (no source). Rolls are sold
by names in millimetres up to 0.4 mm wider than the inch they are: the inch counts.
"""

import re
from dataclasses import dataclass
from typing import NamedTuple

from composer.texts import say
from composer.units import BadQuantity, read_length

SMALLEST_MM, LONGEST_MM = 50.0, 5080.0
"""5 080 mm = 200 in = 14 400 points, the most a page should measure (ISO 32000-1, annex C.2)."""

SMALLEST_PRINTABLE_MM = 30.0
"""Below this there is no room for a cross, its ring and a number (judgement)."""

IN = 25.4

SIZES_MM: dict[str, tuple[float, float | None]] = {
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "a2": (420.0, 594.0),
    "a1": (594.0, 841.0),
    "a0": (841.0, 1189.0),
    "letter": (8.5 * IN, 11 * IN),
    "legal": (8.5 * IN, 14 * IN),
    "tabloid": (11 * IN, 17 * IN),
    "roll-24in": (24 * IN, None),
    "roll-36in": (36 * IN, None),
}
"""Width and height in mm, upright; a roll has no height."""

ALIASES = {"roll-610mm": "roll-24in", "roll-914mm": "roll-36in"}

_PAIR = re.compile(r"\s*(?P<first>[^x×X]+?)\s*[x×X]\s*(?P<second>[^x×X]+?)\s*\Z")
_UNIT = re.compile(r"[a-zA-Z\"'″′]+\s*\Z")


class BadSheet(ValueError):
    """A sheet, margin or overlap that cannot be used; the message is one finished sentence."""


class Margins(NamedTuple):
    """What the printer cannot reach, in mm, in the order left, bottom, right, top of the page as drawn."""

    left: float = 10.0
    bottom: float = 10.0
    right: float = 10.0
    top: float = 10.0


TEN_ALL_ROUND = Margins()
"""For printers nobody has tried yet."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A size of paper, upright; ``height_mm`` None is a roll, as long as needed."""

    name: str
    width_mm: float
    height_mm: float | None

    @property
    def is_roll(self) -> bool:
        """Whether the length follows from what is printed."""
        return self.height_mm is None


@dataclass(frozen=True, slots=True)
class Side:
    """One way up of a sheet: the page's size and the rectangle that can be printed on, mm."""

    width: float
    height: float
    printable: tuple[float, float, float, float]

    @property
    def area(self) -> tuple[float, float]:
        """Width and height of the printable rectangle, mm."""
        left, bottom, right, top = self.printable
        return right - left, top - bottom


def sheet_named(text: str) -> Sheet:
    """The sheet a person asked for: a name of the table, or ``30x40cm``, ``12in x 18in``.

    Raises:
        BadSheet: for an unknown name and for a side outside 50 mm to 5 080 mm.
    """
    name = text.strip().casefold()
    name = ALIASES.get(name, name)
    if name in SIZES_MM:
        width, height = SIZES_MM[name]
        return Sheet(name, width, height)
    pair = _PAIR.match(text)
    if pair is None:
        raise BadSheet(
            say(
                "“{text}” is no sheet: write one of {names}, or a size such as 30x40cm.",
                text=text[:40],
                names=", ".join([*SIZES_MM, *ALIASES]),
            )
        )
    second = pair["second"]
    unit = _UNIT.search(second)
    first = pair["first"]
    if unit is not None and _UNIT.search(first) is None:
        first += unit.group()
    sides = sorted((_side_mm(first, text), _side_mm(second, text)))
    return Sheet(f"{sides[0]:g} × {sides[1]:g} mm", sides[0], sides[1])


def _side_mm(part: str, text: str) -> float:
    try:
        side = float(read_length(part, bare="mm", fractions_need_unit=True).mm)
    except BadQuantity as error:
        raise BadSheet(say("“{text}” is no sheet: {why}", text=text[:40], why=error)) from error
    if not SMALLEST_MM - 1e-6 <= side <= LONGEST_MM + 1e-6:
        raise BadSheet(
            say("A sheet measures 50 mm to 5 080 mm each way; “{part}” is {side} mm.", part=part[:20], side=f"{side:g}")
        )
    return side


def upright(sheet: Sheet, margins: Margins, length_mm: float | None = None) -> Side:
    """The sheet upright; ``length_mm`` is the length cut from a roll, margins included."""
    height = sheet.height_mm if sheet.height_mm is not None else (LONGEST_MM if length_mm is None else length_mm)
    return _side(sheet.width_mm, height, margins)


def sides(sheet: Sheet, margins: Margins) -> tuple[Side, ...]:
    """Every way up: upright and lying; a roll and a square sheet have one only.

    Raises:
        BadSheet: when the margins leave too little.
    """
    first = upright(sheet, margins)
    if sheet.height_mm is None or abs(sheet.height_mm - sheet.width_mm) < 1e-6:
        return (first,)
    return first, _side(sheet.height_mm, sheet.width_mm, margins)


def _side(width: float, height: float, margins: Margins) -> Side:
    left, bottom, right, top = margins
    printable = (left, bottom, width - right, height - top)
    if min(printable[2] - left, printable[3] - bottom) < SMALLEST_PRINTABLE_MM:
        raise BadSheet(
            say(
                "Margins of {left}, {bottom}, {right} and {top} mm leave less than {least} mm to print on.",
                left=f"{left:g}",
                bottom=f"{bottom:g}",
                right=f"{right:g}",
                top=f"{top:g}",
                least=f"{SMALLEST_PRINTABLE_MM:g}",
            )
        )
    return Side(width, height, printable)
