"""What paper cannot print, against the font file itself as the PDF library reads it."""

from reportlab.pdfbase.ttfonts import TTFont

from composer.paper.type_metrics import font_file
from composer.paper.unprintable import unprintable


def test_every_sign_told_without_the_font_is_in_the_font() -> None:
    known = TTFont("check-unprintable", str(font_file("regular"))).face.charToGlyph
    for code in range(0x20, 0x400):
        assert (unprintable(chr(code)) == "") == (code in known), hex(code)


def test_each_missing_sign_is_named_once() -> None:
    assert unprintable("鐘 bell ſ 鐘") == "鐘ſ"
