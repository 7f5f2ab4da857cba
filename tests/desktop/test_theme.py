"""Contrast of every pairing in both schemes (WCAG 2.2, 1.4.3: text 4.5 to 1; 1.4.11: parts 3 to 1)."""

import pytest
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QApplication

from composer.desktop.theme import DARK, FAMILY, LIGHT, PAIRINGS, contrast, load_type, theme


def test_contrast_is_the_one_of_the_standard() -> None:
    # WCAG 2.2 defines black on white as 21:1; #767676 on white is the well-known 4.54:1.
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize(("scheme", "name"), [(LIGHT, "light"), (DARK, "dark")])
@pytest.mark.parametrize(("text", "ground", "least"), PAIRINGS)
def test_every_pairing_reaches_its_contrast(
    scheme: dict[str, str], name: str, text: str, ground: str, least: float
) -> None:
    assert contrast(scheme[text], scheme[ground]) >= least, f"{text} on {ground}, {name}"


def test_digits_stand_in_columns(qapp: QApplication) -> None:
    load_type()
    metrics = QFontMetrics(theme().font(14))
    assert theme().font().family() == FAMILY
    assert len({metrics.horizontalAdvance(digit * 10) for digit in "0123456789"}) == 1


def test_text_size_stays_between_one_and_two(qapp: QApplication) -> None:
    look = theme()
    look.set_text_percent(500)
    assert (look.text_percent, look.font(14).pixelSize()) == (200, 28)
    look.set_text_percent(0)
    assert look.text_percent == 100
