"""Sheets by name and by size: ISO 216, ASME Y14.1, rolls; what margins leave; what is refused."""

from itertools import pairwise

import pytest

from composer.paper.full_size_paper import FullSizePaper
from composer.paper.page_index import column_letters, label_of
from composer.paper.sheets import LONGEST_MM, BadSheet, Margins, sheet_named, sides

PT = 72 / 25.4


def test_each_a_size_is_half_of_the_one_before_rounded_down() -> None:
    # ISO 216: the long side is halved and rounded down to a whole millimetre; A0 has 1 m² within its rounding.
    sheets = [sheet_named(name) for name in ("a0", "a1", "a2", "a3", "a4")]
    for larger, smaller in pairwise(sheets):
        assert larger.height_mm is not None
        assert (smaller.width_mm, smaller.height_mm) == (larger.height_mm // 2, larger.width_mm)
    assert sheets[0].width_mm * (sheets[0].height_mm or 0) == pytest.approx(1e6, rel=1e-4)
    # Half of A3's long side of 420 is A4's short side.
    assert sheet_named("a3").height_mm == 2 * sheet_named("a4").width_mm == 420


@pytest.mark.parametrize(
    ("name", "inches"),
    # ASME Y14.1, sizes A and B; legal by common practice, no source.
    [("letter", (8.5, 11)), ("tabloid", (11, 17)), ("legal", (8.5, 14))],
)
def test_inch_sheets_are_exact_in_points(name: str, inches: tuple[float, float]) -> None:
    sheet = sheet_named(name)
    assert sheet.height_mm is not None
    assert (sheet.width_mm * PT, sheet.height_mm * PT) == pytest.approx((inches[0] * 72, inches[1] * 72), abs=1e-9)


def test_the_longest_side_is_200_inches() -> None:
    # ISO 32000-1, annex C.2: at most 14 400 units of 1/72 in.
    assert pytest.approx(14_400, abs=1e-9) == LONGEST_MM * PT
    assert LONGEST_MM == 200 * 25.4


@pytest.mark.parametrize("name", ["roll-24in", "roll-610mm", "ROLL-24IN"])
def test_a_roll_is_as_wide_as_its_inches(name: str) -> None:
    # Rolls sold as 610 mm are 24 in wide (common practice, no source): the inch value is the safe one.
    assert sheet_named(name).width_mm == pytest.approx(609.6)
    assert sheet_named(name).is_roll


@pytest.mark.parametrize(
    ("typed", "size"),
    [
        ("30x40cm", (300, 400)),
        ("12in x 18in", (304.8, 457.2)),
        ("400×300 mm", (300, 400)),
        ("50mm x 5080mm", (50, 5080)),
    ],
)
def test_any_size_may_be_typed(typed: str, size: tuple[float, float]) -> None:
    sheet = sheet_named(typed)
    assert (sheet.width_mm, sheet.height_mm) == pytest.approx(size)


@pytest.mark.parametrize("typed", ["a5 paper", "914mm x 6000mm", "49mm x 200mm", "30x40", "0x40cm", "x", "30cm"])
def test_what_is_no_sheet_is_refused_in_one_line(typed: str) -> None:
    with pytest.raises(BadSheet) as refused:
        sheet_named(typed)
    assert "\n" not in str(refused.value)


def test_margins_stay_on_their_sides_when_the_sheet_lies() -> None:
    upright, lying = sides(sheet_named("a4"), Margins(3, 12, 5, 4))
    assert upright.printable == (3, 12, 205, 293)
    assert lying.printable == (3, 12, 292, 206)
    assert upright.area == (202, 281)


def test_margins_and_overlap_that_leave_nothing_are_refused() -> None:
    with pytest.raises(BadSheet, match="30 mm"):
        sides(sheet_named("a4"), Margins(100, 10, 90, 10))
    with pytest.raises(BadSheet, match="overlap"):
        FullSizePaper(sheet_named("a4"), overlap=70.0)


def test_a_sheet_is_called_by_piece_column_and_row() -> None:
    assert label_of(3, row=2, column=2) == "3-B2"
    assert label_of(None, row=1, column=2) == "W-B1"
    # Letters of columns go on as in a spreadsheet (common practice, no source).
    assert [column_letters(n) for n in (1, 26, 27, 52, 53, 702, 703)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]
