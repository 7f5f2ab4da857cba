"""The quick row: one frame typed as one line, such as ``40 x 50 strips "boats"``.

    row     size {part}
    size    length ("x" | "×" | "*" | "by") length
    part    hanger [drop]  |  "spacing" length  |  weight  |  name in quotes  |  bare words of a name

Lengths are written as everywhere. A number without a unit takes the unit named beside the row; only
where that would make a side longer than any frame (3 m) are centimetres read as millimetres, and the
answer says so.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import get_args

from composer.catalogue.names import hanger_name
from composer.model import Frame, Hanger, HangerKind
from composer.texts import say
from composer.units import BadQuantity, Length, Mass, read_length, read_mass

LONGEST_SIDE_MM = 3000
"""A longer side is implausible for a frame, by the same limit as the finding."""

_NUMBER = r"\d+(?: \d{3}(?!\d))*(?:[.,]\d+)?(?:[-\s]\d+/\d+)?(?:/\d+)?[½¼¾⅛⅜⅝⅞⅓⅔]?|[½¼¾⅛⅜⅝⅞⅓⅔]"
_UNIT = r"(?:mm|cm|m|inches|inch|in|feet|foot|ft|\"|″|''|'|′)"
_LENGTH = rf"(?:(?:{_NUMBER})\s*(?:feet|foot|ft|'|′)\s*)?(?:{_NUMBER})\s*{_UNIT}?"
_SIZE = re.compile(rf"\s*(?P<width>{_LENGTH})\s*(?:x|×|\*|by)\s*(?P<height>{_LENGTH})(?=$|[\s,;])", re.IGNORECASE)
_ONE = re.compile(rf"(?P<length>{_LENGTH})(?=$|[\s,;])", re.IGNORECASE)
_WEIGHT = re.compile(r"(?:\d[\d.,]*\s*(?:kg|g|lb|oz)\b\s*){1,2}", re.IGNORECASE)
_QUOTES = {"“": "”", "”": "”", "„": "“”", "«": "»", "»": "«", '"': '"', "‘": "’", "'": "'"}


@dataclass(frozen=True, slots=True)
class QuickRow:
    """What one line says about a frame; None = not said.

    Attributes:
        bare: the unit numbers without one were read in.
        shifted: they were read as millimetres although another unit stands beside the row.
    """

    width: Length
    height: Length
    kind: HangerKind | None
    drop: Length | None
    spacing: Length | None
    weight: Mass | None
    name: str
    bare: str
    shifted: bool

    @property
    def frame(self) -> Frame:
        """The frame it describes."""
        return Frame(width=self.width, height=self.height)

    @property
    def hanger(self) -> Hanger:
        """The hanger it describes."""
        return Hanger(kind=self.kind, drop=self.drop, spacing=self.spacing)


def read_row(typed: str, *, bare: str) -> QuickRow:
    """The frame a line describes.

    Args:
        typed: the line.
        bare: the unit of a number without one: "cm", "mm" or "in".

    Raises:
        BadQuantity: one sentence that names what could not be read.
    """
    size = _SIZE.match(typed)
    if size is None:
        raise BadQuantity(
            say("“{typed}” does not begin with a size. Try 40 x 50 strips “boats”.", typed=typed.strip()[:40])
        )
    unit, shifted = _unit_for(size["width"], size["height"], bare)
    reading = _Reading(typed[size.end() :], unit)
    reading.read()
    return QuickRow(
        width=_length(size["width"], unit),
        height=_length(size["height"], unit),
        kind=reading.kind,
        drop=reading.drop,
        spacing=reading.spacing,
        weight=reading.weight,
        name=reading.name,
        bare=unit,
        shifted=shifted,
    )


def _unit_for(width: str, height: str, bare: str) -> tuple[str, bool]:
    if bare != "cm":
        return bare, False
    plain = [text for text in (width, height) if re.fullmatch(r"[\d .,]+", text.strip())]
    if any(_length(text, bare).mm > LONGEST_SIDE_MM for text in plain):
        return "mm", True
    return bare, False


def _length(text: str, unit: str, *, zero: bool = False) -> Length:
    return read_length(text.strip(), bare=unit, fractions_need_unit=unit != "in", zero=zero)


_KINDS: tuple[HangerKind, ...] = get_args(HangerKind)
_ALSO: dict[str, HangerKind] = {
    "rings": "d-rings",
    "ring": "d-rings",
    "d-ring": "d-rings",
    "strip": "strips",
    "keyhole": "keyholes",
    "wires": "wire",
}


def _kind_at(text: str) -> tuple[HangerKind, int] | None:
    """The hanger a text begins with, in English or the person's language, and how long its word is."""
    known: dict[str, HangerKind] = {**_ALSO, **{kind: kind for kind in _KINDS}}
    known |= {hanger_name(kind).casefold(): kind for kind in _KINDS}
    folded = text.casefold()
    for word in sorted(known, key=len, reverse=True):
        if folded.startswith(word) and not folded[len(word) : len(word) + 1].isalnum():
            return known[word], len(word)
    return None


class _Reading:
    """Reads what follows the size, from left to right."""

    def __init__(self, rest: str, unit: str) -> None:
        self._rest, self._unit = rest, unit
        self.kind: HangerKind | None = None
        self.drop: Length | None = None
        self.spacing: Length | None = None
        self.weight: Mass | None = None
        self._words: list[str] = []
        self._quoted: str | None = None

    @property
    def name(self) -> str:
        return self._quoted if self._quoted is not None else " ".join(self._words)

    def read(self) -> None:
        while self._skip():
            if self._quote() or self._weight() or self._hanger() or self._named_length():
                continue
            self._word()
        if self._quoted is not None and self._words:
            raise BadQuantity(say("“{words}” could not be read.", words=" ".join(self._words)[:40]))

    def _skip(self) -> str:
        self._rest = self._rest.lstrip(" \t,;")
        return self._rest

    def _quote(self) -> bool:
        close = _QUOTES.get(self._rest[0])
        if close is None:
            return False
        ends = [place for place in (self._rest.find(sign, 1) for sign in close) if place > 0]
        if not ends:
            raise BadQuantity(say("The name {name} has no closing quotation mark.", name=self._rest[:40]))
        if self._quoted is not None:
            raise BadQuantity(
                say("A piece has one name; “{name}” is a second one.", name=self._rest[1 : min(ends)][:40])
            )
        self._quoted = self._rest[1 : min(ends)].strip()
        self._rest = self._rest[min(ends) + 1 :]
        return True

    def _weight(self) -> bool:
        found = _WEIGHT.match(self._rest)
        if found is None:
            return False
        self.weight = read_mass(found[0].strip())
        self._rest = self._rest[found.end() :]
        return True

    def _hanger(self) -> bool:
        found = _kind_at(self._rest)
        if found is None or self.kind is not None:
            return False
        self.kind = found[0]
        self._rest = self._rest[found[1] :]
        if self._skip() and self._rest[0].isdigit() and not _WEIGHT.match(self._rest):
            self.drop = self._take("drop")
        return True

    def _named_length(self) -> bool:
        for field, word in (("drop", say("drop")), ("spacing", say("spacing"))):
            for name in (field, word):
                if self._rest.casefold().startswith(f"{name.casefold()} "):
                    self._rest = self._rest[len(name) :]
                    self._skip()
                    setattr(self, field, self._take(field))
                    return True
        return False

    def _take(self, field: str) -> Length:
        found = _ONE.match(self._rest)
        if found is None:
            raise BadQuantity(
                say("After “{word}” a length was expected, not “{found}”.", word=field, found=self._rest[:20])
            )
        self._rest = self._rest[found.end() :]
        return _length(found["length"], self._unit, zero=field == "drop")

    def _word(self) -> None:
        word, _, self._rest = self._rest.partition(" ")
        if word[0].isdigit():
            raise BadQuantity(
                say(
                    "“{word}” could not be read: say what it is, such as drop {word}, or put a name in quotes.",
                    word=word[:20],
                )
            )
        self._words.append(word)
