"""How wide text is on paper, where it wraps, and which signs the font cannot print.

Everything is read from the character table and the advance widths of the very font files that are
embedded (Source Sans Pro; no kerning on paper, so a sum of advances is the exact width).
"""

from collections.abc import Iterable
from functools import lru_cache
from importlib.util import find_spec
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from composer.paper.primitives import MM_PER_PT, Text, Weight

NO_GLYPH = "▯"
"""Stands for a sign the font lacks. The font lacks this sign too: it is drawn as a small box."""

NO_GLYPH_EM = 0.55
NO_GLYPH_HEIGHT_EM = 0.62
ASCENT_EM, DESCENT_EM, CAP_EM = 0.75, 0.25, 0.66
"""Highest accent-free ascender, deepest descender and capital height (tables OS/2 and hhea of the font)."""

_FILES: dict[Weight, str] = {
    "regular": "SourceSansPro-Regular.ttf",
    "semibold": "SourceSansPro-Semibold.ttf",
    "bold": "SourceSansPro-Bold.ttf",
}
_NO_BREAK = "\u00a0\u202f"
_ELLIPSIS = "…"
_REMEMBERED = 4096
"""Texts whose widths are kept: sheets say the same words again and again."""


class Widths(NamedTuple):
    """Advance widths of one font by sign, in thousandths of the size."""

    by_sign: dict[str, float]


class TextBox(NamedTuple):
    """Where ink of a text may lie, mm."""

    left: float
    bottom: float
    right: float
    top: float


def font_file(weight: Weight) -> Path:
    """The TrueType file of a weight.

    Raises:
        FileNotFoundError: when the font's package is damaged or missing.
    """
    found = find_spec("font_source_sans_pro")
    if found is None or found.origin is None:
        raise FileNotFoundError(_FILES[weight])
    return Path(found.origin).parent / "files" / _FILES[weight]


@lru_cache(maxsize=3)
def widths(weight: Weight) -> Widths:
    """The advance widths of a weight, read once a run."""
    from fontTools.ttLib import TTFont

    with TTFont(font_file(weight), lazy=True) as font:
        glyph_of, metrics = font.getBestCmap(), font["hmtx"].metrics
        per_em = font["head"].unitsPerEm / 1000
        return Widths({chr(code): metrics[name][0] / per_em for code, name in glyph_of.items()})


def missing_glyphs(text: str) -> tuple[str, ...]:
    """The signs of ``text`` the font cannot print, each once, in order."""
    known = widths("regular").by_sign
    return tuple(dict.fromkeys(sign for sign in text if sign not in known and sign != NO_GLYPH))


@lru_cache(maxsize=_REMEMBERED)
def printable(text: str) -> str:
    """The text with every sign the font lacks replaced by ``▯``."""
    known = widths("regular").by_sign
    return "".join(sign if sign in known else NO_GLYPH for sign in text)


def text_width_mm(text: str, size_pt: float, weight: Weight = "regular") -> float:
    """Width of one line of text, mm."""
    return _thousandths(text, weight) / 1000 * size_pt * MM_PER_PT


@lru_cache(maxsize=_REMEMBERED)
def _thousandths(text: str, weight: Weight) -> float:
    """Width of a text in thousandths of its size."""
    known = widths(weight).by_sign
    return sum(known.get(sign, NO_GLYPH_EM * 1000) for sign in text)


def runs(text: str) -> Iterable[tuple[str, bool]]:
    """The text in stretches that the font can print (True) and stretches of ``▯`` to be drawn (False)."""
    if NO_GLYPH not in text and printable(text) == text:
        return [(text, True)] if text else []
    known = widths("regular").by_sign
    return [("".join(stretch), printed) for printed, stretch in groupby(text, known.__contains__)]


def wrap(text: str, width_mm: float, size_pt: float, weight: Weight = "regular") -> list[str]:
    """The text in lines no wider than ``width_mm``; a word that is wider is broken inside.

    No-break spaces keep a number and its unit together.
    """
    lines: list[str] = []
    space = text_width_mm(" ", size_pt, weight)
    for paragraph in text.split("\n"):
        line, used = "", 0.0
        for word in (part for part in paragraph.split(" ") if part):
            # There is no kerning on paper, so widths of words and spaces add up to the width of the line.
            wide = text_width_mm(word, size_pt, weight)
            if line and used + space + wide <= width_mm:
                line, used = f"{line} {word}", used + space + wide
                continue
            if line:
                lines.append(line)
            line, used = word, wide
            if wide > width_mm:
                *full, line = _broken(word, width_mm, size_pt, weight)
                lines += full
                used = text_width_mm(line, size_pt, weight)
        lines.append(line)
    return lines


def _broken(word: str, width_mm: float, size_pt: float, weight: Weight) -> list[str]:
    parts, part = [], ""
    for sign in word:
        if part and text_width_mm(part + sign, size_pt, weight) > width_mm:
            parts.append(part)
            part = ""
        part += sign
    return [*parts, part]


def shortened(text: str, width_mm: float, size_pt: float, weight: Weight = "regular") -> str:
    """The text, its end replaced by ``…`` where it is wider than ``width_mm``."""
    if text_width_mm(text, size_pt, weight) <= width_mm:
        return text
    while text and text_width_mm(text.rstrip() + _ELLIPSIS, size_pt, weight) > width_mm:
        text = text[:-1]
    return text.rstrip() + _ELLIPSIS


def fitting_size(
    text: str, width_mm: float, size_pt: float, weight: Weight = "regular", least_pt: float = 7.0
) -> float:
    """The size, made smaller where the text would be wider than ``width_mm``, never below ``least_pt``."""
    wide = text_width_mm(text, size_pt, weight)
    return size_pt if wide <= width_mm else max(least_pt, size_pt * width_mm / wide)


def text_box(text: Text) -> TextBox:
    """Where the ink of a text may lie on its page, from descender to ascender."""
    wide = text_width_mm(text.text, text.size_pt, text.weight)
    size_mm = text.size_pt * MM_PER_PT
    start = {"left": 0.0, "centre": -wide / 2, "right": -wide}[text.align]
    low, high = -DESCENT_EM * size_mm, ASCENT_EM * size_mm
    if text.turn == 0:
        return TextBox(text.x + start, text.y + low, text.x + start + wide, text.y + high)
    if text.turn == 90:
        return TextBox(text.x - high, text.y + start, text.x - low, text.y + start + wide)
    return TextBox(text.x + low, text.y - start - wide, text.x + high, text.y - start)
