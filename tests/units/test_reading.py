"""Reading typed lengths, weights and money.

Values: international yard of 1959 (NBS Circular 572, addendum), so 1 in = 25.4 mm and 1 lb =
0.45359237 kg; the rest is arithmetic done by hand and written beside the case.
"""

import copy
import pickle
import time
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from composer.units import MM_PER, BadQuantity, Length, Mass, read_length, read_mass, read_money

MM = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": Fraction(254, 10), "ft": Fraction(3048, 10)}
"""The definitions once more, by hand, so that the module's own table is not checked against itself."""


@pytest.mark.parametrize(
    ("typed", "mm", "text"),
    [
        ("1 in", "25.4", "1 in"),
        ("1 ft", "304.8", "1 ft"),
        ("57 in", "1447.8", "57 in"),
        ("1/32 in", "127/160", "1/32 in"),
        ("3 1/2 in", "88.9", "3 1/2 in"),
        ('3-1/2"', "88.9", "3 1/2 in"),
        ("6 ft 4 in", "1930.4", "6 ft 4 in"),
        ("6' 4\"", "1930.4", "6 ft 4 in"),
        ("6′4″", "1930.4", "6 ft 4 in"),
        ("6'4", "1930.4", "6 ft 4 in"),
        ("6'-4 1/2\"", "1943.1", "6 ft 4 1/2 in"),
        ("4’ 9 1/2”", "1460.5", "4 ft 9 1/2 in"),
        ("4 ft 9 in", "1447.8", "4 ft 9 in"),
        ("5½ in", "139.7", "5 1/2 in"),
        ("5-½″", "139.7", "5 1/2 in"),
        ("⅜ in", "9.525", "3/8 in"),
        ("2 3/8''", "60.325", "2 3/8 in"),
        ("2in", "50.8", "2 in"),
        ("60 cm", "600", "60 cm"),
        ("1.2m", "1200", "1.2 m"),
        ("50mm", "50", "50 mm"),
        ("6,5 cm", "65", "6.5 cm"),
        ("6,50 CM", "65", "6.50 cm"),
        ("12,5 cm", "125", "12.5 cm"),
        ("1.250 mm", "1.25", "1.250 mm"),
        ("1 250 mm", "1250", "1250 mm"),
        ("1\u202f250,5 mm", "1250.5", "1250.5 mm"),
        ("1\u00a0250.5 mm", "1250.5", "1250.5 mm"),
        ("  7   inches ", "177.8", "7 in"),
        ("007 mm", "7", "7 mm"),
        (".5 in", "12.7", "0.5 in"),
        ("12/16 in", "19.05", "12/16 in"),
    ],
)
def test_lengths_as_people_write_them(typed: str, mm: str, text: str) -> None:
    length = read_length(typed, bare="cm")
    assert length.exact_mm == Fraction(mm)
    assert length.mm == float(Fraction(mm))
    assert length.text == text
    assert Length.from_text(text) == length


def test_a_bare_number_takes_the_unit_beside_it() -> None:
    assert read_length("40", bare="cm").text == "40 cm"
    assert read_length("15 3/4", bare="in").exact_mm == Fraction("400.05")
    assert read_length("12", bare="mm").text == "12 mm"
    with pytest.raises(BadQuantity, match="needs a unit"):
        Length.from_text("12")


def test_a_bare_fraction_is_refused_where_centimetres_rule() -> None:
    with pytest.raises(BadQuantity, match=r"1/2.*needs a unit"):
        read_length("15 1/2", bare="cm", fractions_need_unit=True)
    assert read_length("15 1/2 in", bare="cm", fractions_need_unit=True).mm == pytest.approx(393.7)


@pytest.mark.parametrize(
    "typed",
    [
        "9**9**9 mm", "nan mm", "inf mm", "cm", "3 4 in", "1/0 in", "10 pt", "", " ", "-", "1e3 mm", "12..5 mm",
        "5 3/2 in", "5 cm 3 mm", "5 × 7 in", "--5 cm", "1,250.5 mm", "1.250,5 mm", "1,250,000 mm", "1'250 mm",
        "1'250", "1_250 mm", "٣ cm", "５ cm", "5\x00 mm", "5\x1f mm", "5\n mm", "1½½ in", "1½/2 in", "4 ft 14 in",
        "1234567890 mm", "100001 mm", "1e308 m", "5 mm;", "=5 mm", "5 km", "١٢ mm", "\u202e5 mm",
    ],
)  # fmt: skip
def test_what_is_no_length_is_refused_in_one_sentence(typed: str) -> None:
    with pytest.raises(BadQuantity) as refused:
        read_length(typed, bare="cm", minus=True)
    sentence = str(refused.value)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert "\x00" not in sentence


@pytest.mark.parametrize("typed", ["1,250 mm", "12,500", ",125 in"])
def test_three_digits_after_a_comma_may_be_thousands(typed: str) -> None:
    with pytest.raises(BadQuantity, match="thousands or decimals"):
        read_length(typed, bare="mm")


def test_a_huge_text_is_refused_at_once() -> None:
    started = time.monotonic()
    for typed in ("9" * 1_000_000, "1 " * 500_000, "9**9**9 mm", "(" * 39):
        for read in (lambda text: read_length(text, bare="cm"), read_mass, read_money):
            with pytest.raises(BadQuantity) as refused:
                read(typed)
            assert len(str(refused.value)) < 200
    assert time.monotonic() - started < 5  # a watchdog: milliseconds are expected


def test_signs_and_nothing() -> None:
    assert read_length("-5cm", bare="cm", minus=True).exact_mm == -50
    assert read_length("−3-1/2 in", bare="cm", minus=True).text == "-3 1/2 in"
    assert read_length("-4 ft 9 in", bare="cm", minus=True).exact_mm == Fraction("-1447.8")
    assert read_length("-0.0 mm", bare="cm", minus=True).text == "0.0 mm"
    assert read_length("0", bare="cm", zero=True).exact_mm == 0
    with pytest.raises(BadQuantity, match="negative"):
        read_length("-5 cm", bare="cm")
    with pytest.raises(BadQuantity, match="nothing"):
        read_length("0 cm", bare="cm")
    assert read_length("100 m", bare="cm").exact_mm == 100_000
    with pytest.raises(BadQuantity, match="100 m"):
        read_length("100.001 m", bare="cm")


@pytest.mark.parametrize(
    ("typed", "kg", "text"),
    [
        ("1 kg", "1", "1 kg"),
        ("800g", "0.8", "800 g"),
        ("1,25 kg", "1.25", "1.25 kg"),
        ("1 lb", "0.45359237", "1 lb"),
        ("11 lb 4 oz", "5.1029141625", "11 lb 4 oz"),  # 11.25 × 0.45359237
        ("1lb4oz", "0.5669904625", "1 lb 4 oz"),
        ("1 1/2 lbs", "0.680388555", "1 1/2 lb"),
        ("1 oz", "0.028349523125", "1 oz"),
    ],
)
def test_weights(typed: str, kg: str, text: str) -> None:
    mass = read_mass(typed)
    assert mass.exact_kg == Fraction(kg)
    assert mass.text == text
    assert Mass.from_text(text) == mass


@pytest.mark.parametrize(
    "typed", ["5", "0 kg", "-1 kg", "1,250 g", "5 cm", "1 lb 20 oz", "nan kg", "1e308 kg", "1001 kg", ""]
)
def test_what_is_no_weight_is_refused(typed: str) -> None:
    with pytest.raises(BadQuantity) as refused:
        read_mass(typed)
    assert str(refused.value).endswith(".")


def test_money() -> None:
    assert read_money("11.40") == Decimal("11.40")
    assert str(read_money("11,4")) == "11.4"
    assert read_money("1 250") == 1250
    for typed in ("€5", "5 EUR", "1,250", "1.2.3", "-3", "5.123", "", "1e3", "NaN", "٣", "."):
        with pytest.raises(BadQuantity, match="no symbol"):
            read_money(typed)


def test_values_never_change_and_are_known_by_their_text() -> None:
    length = Length.from_text("23 5/8 in")
    for name in ("mm", "text", "new"):
        with pytest.raises(AttributeError):
            setattr(length, name, 1)
    with pytest.raises(AttributeError):
        del length.mm
    assert length == Length.from_text("23-5/8″")
    assert length != Length.from_text("23.625 in")
    assert length != "23 5/8 in"
    assert len({length, Length.from_text("23 5/8 in"), Mass.from_text("1 kg")}) == 2
    assert copy.deepcopy(length) == pickle.loads(pickle.dumps(length)) == length
    assert str(length) == "23 5/8 in"
    assert repr(length) == "Length('23 5/8 in')"


def _texts() -> st.SearchStrategy[str]:
    number = st.from_regex(r"(0|[1-9][0-9]?)(\.[0-9]{1,4})?", fullmatch=True)
    mixed = st.tuples(st.integers(0, 60), st.sampled_from([2, 4, 8, 16, 32, 3]), st.integers(1, 31)).map(
        lambda parts: f"{parts[0]} {parts[2] % parts[1] or 1}/{parts[1]}"
    )
    plain = st.tuples(number, st.sampled_from(["mm", "cm", "in", "ft"])).map(" ".join)
    fractions = mixed.map(lambda text: f"{text} in")
    feet = st.tuples(st.integers(0, 300), st.integers(0, 11)).map(lambda parts: f"{parts[0]} ft {parts[1]} 1/2 in")
    return plain | fractions | feet


@given(_texts(), st.booleans())
def test_canonical_text_reads_back_as_itself(text: str, minus: bool) -> None:
    length = Length.from_text(f"-{text}" if minus else text)
    assert Length.from_text(length.text) == length
    assert length.text.removeprefix("-") == text
    total = Fraction(0)
    words = text.split()
    while words:  # an independent sum of the parts
        unit_at = next(place for place, word in enumerate(words) if word in MM)
        total += sum(Fraction(word) for word in words[:unit_at]) * MM[words[unit_at]]
        words = words[unit_at + 1 :]
    assert length.exact_mm == (-total if minus else total)
    assert length.mm == float(length.exact_mm)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_with_a_sentence(text: str) -> None:
    for read in (lambda typed: read_length(typed, bare="in", minus=True), read_mass, read_money):
        try:
            read(text)
        except BadQuantity as refused:
            sentence = str(refused)
        else:
            continue
        assert sentence.endswith(".")


@given(st.integers(-6_400_000, 6_400_000), st.sampled_from(list(MM_PER)))
def test_computed_lengths_keep_their_value(sixty_fourths: int, unit: str) -> None:
    mm = sixty_fourths * Fraction("25.4") / 64 / 100
    assert Length.of_mm(mm, "in").exact_mm == mm
    assert abs(Length.of_mm(float(mm), unit).exact_mm - mm) <= MM[unit] / 10**6
    on_tape = round(mm / Fraction("25.4") * 64) * Fraction("25.4") / 64
    assert Length.of_mm(float(on_tape), "in").exact_mm == on_tape
    assert Length.of_mm(float(on_tape), "ft").exact_mm == on_tape


def test_computed_lengths_read_like_typed_ones() -> None:
    assert Length.of_mm(3 * 25.4, "in").text == "3 in"  # 76.19999999999999 in binary
    assert Length.of_mm(1460.5, "ft").text == "4 ft 9 1/2 in"
    assert Length.of_mm(0.1 + 0.2, "mm").text == "0.3 mm"
    assert Length.of_mm(-1234.5, "m").text == "-1.2345 m"
    assert Length.of_mm(Fraction(10, 3), "cm").text == "1/3 cm"
    for wrong in (float("nan"), float("inf"), 1e308):
        with pytest.raises(BadQuantity):
            Length.of_mm(wrong)


def test_the_bounds_of_what_is_read() -> None:
    """By definition: 12 in are a foot and 16 oz a pound, so feet go with less than 12, pounds with less than 16."""
    assert read_length("5 ft 11 15/16 in", bare="in").exact_mm == 5 * MM["ft"] + Fraction(191, 16) * MM["in"]
    assert read_mass("1 lb 15 1/2 oz").exact_kg == Fraction("31.5") * Fraction("0.45359237") / 16
    for typed in ("5 ft 12 in", "5' 12\""):
        with pytest.raises(BadQuantity, match="less than 12"):
            read_length(typed, bare="in")
    with pytest.raises(BadQuantity, match="less than 16"):
        read_mass("1 lb 16 oz")
    assert read_mass("1000 kg").exact_kg == 1000
    with pytest.raises(BadQuantity):
        read_mass("1000.001 kg")
    assert read_length("2 1/2 in", bare="in").exact_mm == Fraction("63.5")
    with pytest.raises(BadQuantity, match="less than one"):
        read_length("2 2/2 in", bare="in")
    assert read_length("1/2", bare="cm").exact_mm == 5  # a bare fraction, unless a unit is wanted


def test_forty_signs_are_read_and_one_more_is_not() -> None:
    assert read_length("7" + " " * 37 + "mm", bare="mm").text == "7 mm"
    with pytest.raises(BadQuantity, match="too long"):
        read_length("7" + " " * 38 + "mm", bare="mm")
    assert read_money("7" + " " * 39) == 7
    with pytest.raises(BadQuantity):
        read_money("7" + " " * 40)


def test_what_was_typed_is_repeated_short() -> None:
    with pytest.raises(BadQuantity) as forty:
        read_length("x" * 40, bare="mm")
    assert f"“{'x' * 40}”" in str(forty.value)
    for length in (41, 42, 500):
        with pytest.raises(BadQuantity) as longer:
            read_length("x" * length, bare="mm")
        assert f"“{'x' * 39}…”" in str(longer.value)


def test_a_number_before_three_decimals_is_asked_about_as_it_was_typed() -> None:
    with pytest.raises(BadQuantity, match=r"Write 1 250 or 1\.250"):
        read_length("1,250 mm", bare="mm")
    with pytest.raises(BadQuantity, match=r"Write 0 250 or 0\.250"):
        read_length(",250 mm", bare="mm")


def test_thousands_set_apart_otherwise_are_named() -> None:
    for typed in ("1.250.000 mm", "1'250.5 mm", "1,250.5 mm"):
        with pytest.raises(BadQuantity) as found:
            read_length(typed, bare="mm")
        assert "length" in str(found.value) or "thousands" in str(found.value)
    with pytest.raises(BadQuantity, match="set apart by spaces"):
        read_length("1,250.5 mm", bare="mm")
    with pytest.raises(BadQuantity, match="is not a length"):
        read_length("wide", bare="mm")


@pytest.mark.parametrize(
    ("exact", "unit", "text"),
    [
        (Fraction(254, 30), "in", "1/3 in"),  # no decimal ends, so a fraction
        (Fraction(-254, 30), "in", "-1/3 in"),
        (Fraction(254 * 4, 30), "in", "1 1/3 in"),
        (Fraction(-254 * 4, 30), "in", "-1 1/3 in"),
        (Fraction(10000, 9999), "mm", "1 1/9999 mm"),
        (Fraction(10001, 10000), "mm", "1.0001 mm"),
        (Fraction(1, 10007), "mm", "0.00009993 mm"),  # 9.993004…e-5 to nine decimals
        (Fraction("0.000000001"), "mm", "0.000000001 mm"),
        (Fraction(127, 320), "in", "1/64 in"),
        (Fraction(0), "mm", "0 mm"),
        (Fraction(0), "in", "0 in"),
    ],
)
def test_exact_values_are_written_exactly_where_the_grammar_can(exact: Fraction, unit: str, text: str) -> None:
    assert Length.of_mm(exact, unit).text == text


def test_a_computed_length_is_a_tape_s_fraction_only_where_it_is_one() -> None:
    """1/64 in = 0.396875 mm; a float is good to a millionth of a millimetre."""
    assert Length.of_mm(0.396875, "in").text == "1/64 in"
    assert Length.of_mm(0.396876, "in").text == "1/64 in"  # a millionth off
    assert Length.of_mm(0.396877, "in").text == "0.015625 in"
    assert Length.of_mm(0.39690, "in").text == "0.015626 in"
    assert Length.of_mm(12.3456789, "mm").text == "12.345679 mm"
    assert Length.of_mm(1.23456789, "cm").text == "0.123457 cm"
