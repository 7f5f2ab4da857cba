"""Showing lengths and weights: tape fractions, carry, ties, and never a way back into what is stored.

The table of inches was computed by hand from 25.4 mm; ties go to the even mark (IEEE 754's default).
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from composer.units import Length, LengthStyle, read_length, show_length, show_mass


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("mm", "sixteenths", "thirty_seconds"),
    [
        (100, "3 15/16 in", "3 15/16 in"),
        (300, "11 13/16 in", "11 13/16 in"),
        (304.5, "12 in", "12 in"),
        (500, "19 11/16 in", "19 11/16 in"),
        (700, "27 9/16 in", "27 9/16 in"),
        (1000, "39 3/8 in", "39 3/8 in"),
        (1234, "48 9/16 in", "48 19/32 in"),
        (1447.8, "57 in", "57 in"),
        (0.79375, "0 in", "1/32 in"),
        (2.38125, "1/8 in", "3/32 in"),
        (-5, "−3/16 in", "−3/16 in"),
    ],
)
def test_inches_as_on_a_tape(mm: float, sixteenths: str, thirty_seconds: str) -> None:
    assert plain(show_length(mm, LengthStyle("in", 16))) == sixteenths
    assert plain(show_length(mm, LengthStyle("in", 32))) == thirty_seconds


@pytest.mark.parametrize(
    ("mm", "shown"),
    [(1234, "4′ 0 9/16″"), (304.5, "1′ 0″"), (1447.8, "4′ 9″"), (1000, "3′ 3 3/8″"), (300, "11 13/16″"), (0, "0″")],
)
def test_feet_carry_after_rounding(mm: float, shown: str) -> None:
    assert plain(show_length(mm, LengthStyle("in", 16, feet=True))) == shown


@pytest.mark.parametrize(
    ("mm", "style", "shown"),
    [
        (1450, LengthStyle("mm"), "1 450 mm"),
        (1447.8, LengthStyle("mm"), "1 447.8 mm"),
        (1447.8, LengthStyle("cm"), "144.78 cm"),
        (1447.8, LengthStyle("m"), "1.4478 m"),
        (1447.8, LengthStyle("mm", decimals=0), "1 448 mm"),
        (0.5, LengthStyle("mm", decimals=0), "0 mm"),
        (1.5, LengthStyle("mm", decimals=0), "2 mm"),
        (2.675, LengthStyle("cm", decimals=1), "0.3 cm"),
        (-0.01, LengthStyle("mm"), "0 mm"),
        (-1234.5, LengthStyle("mm"), "−1 234.5 mm"),
    ],
)
def test_metric(mm: float, style: LengthStyle, shown: str) -> None:
    assert plain(show_length(mm, style)) == shown


def test_a_value_never_falls_apart_at_the_end_of_a_line() -> None:
    for style in (LengthStyle("mm"), LengthStyle("in"), LengthStyle("in", feet=True)):
        assert " " not in show_length(1234.5, style)
    assert " " not in show_mass(12.5) + show_mass(12.5, "lb")


def test_showing_in_other_units_changes_nothing() -> None:
    length = Length.from_text("1234 mm")
    show_length(length.mm, LengthStyle("in"))
    assert length.text == "1234 mm"
    assert length.exact_mm == 1234


def test_five_thirds_of_an_inch_are_rounded_from_one_datum() -> None:
    step = Fraction("25.4") / 3
    shown = [read_length(show_length(step * n, LengthStyle("in")), bare="in", zero=True).exact_mm for n in range(6)]
    assert max(abs(value - step * n) for n, value in enumerate(shown)) <= Fraction("0.79375")  # half of 1/16 in


@given(st.integers(-9_900_000, 9_900_000), st.sampled_from([8, 16, 32, 64]), st.booleans())
def test_what_is_shown_reads_back_within_half_a_mark(hundredths: int, denominator: int, feet: bool) -> None:
    mm = Fraction(hundredths, 100)
    shown = show_length(mm, LengthStyle("in", denominator, feet=feet))
    back = read_length(shown, bare="in", minus=True).exact_mm
    assert abs(back - mm) <= Fraction("25.4") / denominator / 2


@given(st.integers(-9_900_000, 9_900_000), st.sampled_from(["mm", "cm", "m"]))
def test_metric_reads_back_within_half_a_tenth(thousandths: int, unit: str) -> None:
    mm = Fraction(thousandths, 1000)
    back = read_length(show_length(mm, LengthStyle(unit)), bare="mm", minus=True)  # type: ignore[arg-type]
    assert abs(back.exact_mm - mm) <= Fraction(1, 20)


def test_weights() -> None:
    assert plain(show_mass(3.4)) == "3.4 kg"
    assert plain(show_mass(0.045)) == "45 g"
    assert plain(show_mass(0)) == "0 kg"
    assert plain(show_mass(5.1029141625, "lb")) == "11 lb 4 oz"  # 11.25 × 0.45359237
    assert plain(show_mass(0.4535, "lb")) == "1 lb"  # 15.997 oz carries
    assert plain(show_mass(0.0283495, "oz")) == "1 oz"
    assert plain(show_mass(1.25, "g")) == "1 250 g"


def test_small_masses_are_shown_in_grams_below_100_and_to_their_own_mark() -> None:
    """By the rule stated for them: 10 g steps, from 100 g down 1 g, ounces to a tenth."""
    assert plain(show_mass(0.0999)) == "100 g"
    assert plain(show_mass(Fraction(1, 10))) == plain(show_mass(0.1)) == "0.1 kg"
    assert plain(show_mass(12.3456)) == "12.35 kg"
    assert plain(show_mass(0.0456)) == "46 g"
    assert plain(show_mass(Fraction("0.45359237") / 16 * Fraction("2.26"), "oz")) == "2.3 oz"
    assert plain(show_mass(-0.05)) == "−0.05 kg"


def test_inches_are_shown_to_a_sixteenth_unless_otherwise_wanted() -> None:
    assert plain(show_length(Fraction(254, 160), LengthStyle("in"))) == "1/16 in"
    assert plain(show_length(Fraction(254, 320), LengthStyle("in"))) == "0 in"  # a tie goes to the even mark
