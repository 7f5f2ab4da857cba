"""The small values records are made of, and the checks that guard them.

Typed quantities are :class:`composer.units.Length` and :class:`composer.units.Mass`, kept as the
person typed them. Positions are plain float millimetres on a grid of 1e-6 mm, which holds every
sixty-fourth of an inch (0.396875 mm) exactly.
"""

import math
import re
import unicodedata
from decimal import Decimal
from typing import Literal

from composer.texts import one_line, say
from composer.units import Length

Key = str
"""Identity of a record: its kind's letter and a number never used again (``p7``, ``w1``, ``o3``)."""

Pos = float
"""A coordinate in millimetres, y up from the floor, on the 1e-6 mm grid of :func:`position`."""

Money = Decimal
"""An amount in the project's currency; never negative, never converted."""

Instant = str
"""A moment in UTC, ISO 8601, e.g. ``2026-04-18T14:05:00Z``."""

Units = Literal["metric", "imperial"]
"""In which a project shows lengths, and what is usual where nobody said."""

POSITION_LIMIT_MM = 1e5

_KEY = re.compile(r"[a-z][1-9][0-9]{0,8}\Z")
_INSTANT = re.compile(r"\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}Z\Z")


class BadRecord(ValueError):
    """A record that cannot be; the message is one finished sentence, whatever stands in the record."""

    def __init__(self, sentence: str) -> None:
        super().__init__(one_line(sentence))


def position(mm: float) -> Pos:
    """``mm`` on the grid on which every stored coordinate lies.

    Raises:
        BadRecord: for NaN, infinity and anything beyond 100 m.
    """
    if not math.isfinite(mm) or abs(mm) > POSITION_LIMIT_MM:
        raise BadRecord(say("A position must lie within 100 m of the wall's corner, not at {mm}.", mm=mm))
    return round(mm, 6) + 0.0


def check_position(mm: float) -> None:
    """Refuse a coordinate that :func:`position` would not have made."""
    if position(mm) != mm:
        raise BadRecord(say("The position {mm} is finer than a millionth of a millimetre.", mm=repr(mm)))


def check_key(key: Key, letter: str) -> None:
    """Refuse an identity of the wrong kind or shape."""
    if not _KEY.match(key) or key[0] != letter:
        raise BadRecord(say("The key “{key}” is not “{letter}” and a number from 1 up.", key=key[:40], letter=letter))


def check_text(text: str, *, most: int = 200, lines: bool = False) -> None:
    """Refuse text that is too long, holds control characters or is not in Unicode's composed form (NFC)."""
    if len(text) > most:
        raise BadRecord(
            say(
                "A text may be {most} characters long; this one has {count}: “{start}…”.",
                most=most,
                count=len(text),
                start=_shown(text),
            )
        )
    for sign in text:
        if unicodedata.category(sign) in {"Cc", "Cs"} and not (lines and sign in "\n\t"):
            raise BadRecord(
                say(
                    "The text “{start}” holds a control character (U+{code}).",
                    start=_shown(text),
                    code=f"{ord(sign):04X}",
                )
            )
    if not unicodedata.is_normalized("NFC", text):
        raise BadRecord(say("The text “{start}” is not in composed Unicode form (NFC).", start=_shown(text)))


def _shown(text: str) -> str:
    """The beginning of a refused text, safe to print in a sentence."""
    return "".join(sign if sign.isprintable() else " " for sign in text[:40]).strip()


def check_instant(instant: Instant) -> None:
    """Refuse what is not a UTC moment to the second."""
    if not _INSTANT.match(instant):
        raise BadRecord(say("“{instant}” is not a moment such as 2026-04-18T14:05:00Z.", instant=instant[:40]))


def check_money(amount: Money) -> None:
    """Refuse a negative, infinite or absurd amount."""
    if not amount.is_finite() or amount < 0 or amount > 10**9:
        raise BadRecord(say("An amount must be between 0 and a thousand million, not {amount}.", amount=amount))


def check_length(length: Length | None, name: str, *, zero: bool = False, minus: bool = False) -> None:
    """Refuse a length whose sign its meaning does not allow.

    Args:
        length: the length, or None for "not measured yet".
        name: what the person calls it, for the sentence; an untranslated catalogue entry.
        zero: whether nothing at all is a meaningful value.
        minus: whether the length has a direction (an offset) and may be negative.
    """
    if length is None or minus or length.mm > 0 or (zero and not length.mm):
        return
    if zero:
        raise BadRecord(say("The {name} cannot be negative: {length}.", name=say(name), length=length.text))
    raise BadRecord(say("The {name} must be more than nothing: {length}.", name=say(name), length=length.text))
