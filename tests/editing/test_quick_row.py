"""The quick row. The expected readings are written by hand from the grammar, not taken from the code."""

import pytest

from composer.editing.quick_row import read_row
from composer.units import BadQuantity


@pytest.mark.parametrize(
    ("typed", "width_mm", "height_mm", "kind", "drop_mm", "name"),
    [
        ('40 x 50 strips "boats"', 400, 500, "strips", None, "boats"),
        ("534 x 412 wire 48 “harbour”", 534, 412, "wire", 48, "harbour"),
        ("300 mm × 400 mm d-rings 60 mm fern study", 300, 400, "d-rings", 60, "fern study"),
        ("12 in x 16 in sawtooth 1/2 in „Mohn“", 304.8, 406.4, "sawtooth", 12.7, "Mohn"),
        ("41.2 cm by 53 cm", 412, 530, None, None, ""),
        ("20x30 keyholes 25 mm «Лес»", 200, 300, "keyholes", 25, "Лес"),
        ("20 x 30, ledge, lamp", 200, 300, "ledge", None, "lamp"),
    ],
)
def test_rows(
    typed: str, width_mm: float, height_mm: float, kind: str | None, drop_mm: float | None, name: str
) -> None:
    row = read_row(typed, bare="cm")
    assert (row.width.mm, row.height.mm) == pytest.approx((width_mm, height_mm))
    assert row.kind == kind
    assert (row.drop and row.drop.mm) == (drop_mm and pytest.approx(drop_mm))
    assert row.name == name


def test_a_bare_number_takes_the_unit_beside_the_row() -> None:
    assert read_row("16 x 20", bare="in").width.mm == pytest.approx(16 * 25.4)
    assert read_row("160 x 200", bare="mm").width.mm == pytest.approx(160)


def test_only_sides_longer_than_any_frame_are_read_as_millimetres() -> None:
    assert not read_row("300 x 200", bare="cm").shifted
    shifted = read_row("301 x 200", bare="cm")
    assert shifted.shifted and shifted.width.mm == pytest.approx(301) and shifted.height.mm == pytest.approx(200)


def test_weight_and_spacing_anywhere() -> None:
    row = read_row('50 x 40 1.2 kg d-rings 6 spacing 30 "two boats"', bare="cm")
    assert row.weight is not None and row.weight.kg == pytest.approx(1.2)
    assert row.spacing is not None and row.spacing.mm == pytest.approx(300)
    assert row.drop is not None and row.drop.mm == pytest.approx(60)
    assert row.hanger.kind == "d-rings" and row.frame.width == row.width


@pytest.mark.parametrize(
    ("typed", "mentions"),
    [
        ("boats", "size"),
        ("40 strips", "size"),
        ("40 x 50 wire 48 12", "12"),
        ("40 x 50 “boats", "closing"),
        ("40 x 50 “a” “b”", "second"),
        ("40 x 50 spacing wide", "spacing"),
        ("40 x 50 “boats” red", "red"),
    ],
)
def test_what_cannot_be_read_is_named_in_one_sentence(typed: str, mentions: str) -> None:
    with pytest.raises(BadQuantity) as refused:
        read_row(typed, bare="cm")
    sentence = str(refused.value)
    assert mentions in sentence
    assert sentence.endswith(".") and "\n" not in sentence


def test_the_words_of_a_hanger_are_not_found_inside_a_name() -> None:
    row = read_row("40 x 50 wireless set", bare="cm")
    assert row.kind is None and row.name == "wireless set"
