"""Widths against the same font read by the PDF library and by the picture library; wrapping; missing signs."""

from itertools import pairwise

import pytest
from PIL import ImageFont
from reportlab.pdfbase.ttfonts import TTFont

from composer.paper.primitives import Text, Weight
from composer.paper.type_metrics import (
    NO_GLYPH,
    fitting_size,
    font_file,
    missing_glyphs,
    printable,
    shortened,
    text_box,
    text_width_mm,
    wrap,
)

WEIGHTS: tuple[Weight, ...] = ("regular", "semibold", "bold")
SAMPLE = "1 652 above floor × − ′ ″ ⅜ Grüße"


@pytest.mark.parametrize("weight", WEIGHTS)
def test_widths_agree_with_two_other_readers_of_the_font(weight: Weight) -> None:
    ours = text_width_mm(SAMPLE, 20, weight) * 72 / 25.4
    assert ours == pytest.approx(TTFont(f"check-{weight}", str(font_file(weight))).stringWidth(SAMPLE, 20), abs=0.05)
    font = ImageFont.truetype(str(font_file(weight)), 2000, layout_engine=ImageFont.Layout.BASIC)
    unkerned = sum(font.getlength(sign) for sign in SAMPLE) / 100
    assert ours == pytest.approx(unkerned, rel=2e-3)


@pytest.mark.parametrize("weight", WEIGHTS)
def test_all_digits_are_equally_wide(weight: Weight) -> None:
    widths = {text_width_mm(digit, 10, weight) for digit in "0123456789"}
    assert len(widths) == 1


def test_lines_keep_within_the_width_and_lose_no_word() -> None:
    text = "Tape the sheet to the wall by its numbers, level. Cut out the inside, keep the ring up."
    lines = wrap(text, 40, 10)
    assert " ".join(lines) == text
    assert all(text_width_mm(line, 10) <= 40 for line in lines)
    # No line could have taken the next line's first word as well.
    for line, after in pairwise(lines):
        assert text_width_mm(f"{line} {after.split()[0]}", 10) > 40


def test_a_word_wider_than_the_line_is_broken_inside() -> None:
    lines = wrap("Donaudampfschifffahrtsgesellschaft", 20, 10)
    assert "".join(lines) == "Donaudampfschifffahrtsgesellschaft"
    assert all(text_width_mm(line, 10) <= 20 for line in lines)


def test_a_number_stays_with_its_unit() -> None:
    assert "1\u00a0450\u00a0mm" in wrap("the level line stands 1\u00a0450\u00a0mm above the floor", 30, 10)[1]


def test_signs_the_font_lacks_become_boxes() -> None:
    # The character table of the font decides; it has no CJK and no emoji (checked with another reader).
    known = TTFont("check-signs", str(font_file("regular"))).face.charToGlyph
    assert ord("鐘") not in known
    assert ord("é") in known
    assert missing_glyphs("鐘 bell é 🎨 鐘") == ("鐘", "🎨")
    assert printable("鐘 bell") == f"{NO_GLYPH} bell"


@pytest.mark.parametrize("weight", WEIGHTS)
def test_signs_of_measures_are_all_there(weight: Weight) -> None:
    # What lengths, weights and sheets are written with; the character table is read by another library.
    signs = "0123456789 .,−+×·:/′″½¼¾⅛⅜⅝⅞€£$°…“”’–—\u00a0\u202f"
    table = TTFont(f"signs-{weight}", str(font_file(weight))).face.charToGlyph
    lacking = [sign for sign in signs if ord(sign) not in table]
    assert lacking == []
    assert missing_glyphs(signs) == ()


def test_shortened_ends_in_dots_and_fits() -> None:
    text = shortened("A very long name that goes on", 30, 10)
    assert text.endswith("…")
    assert text_width_mm(text, 10) <= 30
    assert shortened("short", 30, 10) == "short"


def test_fitting_size_never_below_the_least() -> None:
    assert fitting_size("short", 30, 10) == 10
    assert fitting_size("A very long name that goes on and on and on", 20, 10, least_pt=7) == 7


def test_boxes_of_turned_text_are_turned() -> None:
    level = text_box(Text(50, 60, "number", 10, align="right"))
    upwards = text_box(Text(50, 60, "number", 10, align="right", turn=90))
    assert level.right == pytest.approx(50)
    assert upwards.top == pytest.approx(60)
    assert upwards.top - upwards.bottom == pytest.approx(level.right - level.left)
