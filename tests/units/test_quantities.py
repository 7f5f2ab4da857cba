"""Our exact factors and conversions against pint, a general library of units."""

import pickle
import subprocess
import sys
from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from composer.quantities import quantity, registry
from composer.units import KG_PER, MM_PER, BadQuantity, Length, LengthStyle, Mass, read_length, show_length

PINT = {"mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot"}
PINT_MASS = {"g": "gram", "kg": "kilogram", "oz": "ounce", "lb": "pound"}


@pytest.mark.parametrize(("one", "other"), [*permutations(PINT, 2)])
def test_every_length_factor_is_pints(one: str, other: str) -> None:
    factor = registry().Quantity(Fraction(1), PINT[one]).to(PINT[other]).magnitude
    assert isinstance(factor, Fraction)
    assert factor == MM_PER[one] / MM_PER[other]


@pytest.mark.parametrize(("one", "other"), [*permutations(PINT_MASS, 2)])
def test_every_mass_factor_is_pints(one: str, other: str) -> None:
    factor = registry().Quantity(Fraction(1), PINT_MASS[one]).to(PINT_MASS[other]).magnitude
    assert factor == KG_PER[one] / KG_PER[other]


def test_a_typed_length_is_an_exact_quantity() -> None:
    found = Length.from_text("23 5/8 in").quantity
    assert found.magnitude == Fraction(189, 8)
    assert found.to("mm").magnitude == Fraction("600.075")
    assert Mass.from_text("1 lb 4 oz").quantity.to("kg").magnitude == Fraction("0.5669904625")


@given(st.integers(1, 10**6), st.sampled_from([1, 2, 5, 8, 10, 16, 64, 100, 1000]), st.sampled_from(list(PINT)))
@settings(deadline=None)
def test_there_and_back_is_exact(top: int, bottom: int, unit: str) -> None:
    value = Fraction(top, bottom) * MM_PER[unit]
    if value > 100_000:
        return
    length = Length.of_mm(value, unit)
    assert Length.of(length.quantity).exact_mm == length.exact_mm == value
    for other in PINT.values():
        assert Length.of(length.quantity.to(other)).exact_mm == pytest.approx(float(value), rel=1e-9, abs=1e-5)


@given(st.integers(1, 10**6), st.sampled_from(list(PINT_MASS)))
@settings(deadline=None)
def test_masses_there_and_back(thousandths: int, unit: str) -> None:
    value = Fraction(thousandths, 1000) * KG_PER[unit]
    mass = Mass.of_kg(value, unit)
    assert Mass.of(mass.quantity) == mass
    assert mass.exact_kg == value


@pytest.mark.parametrize(("unit", "places"), [("mm", 1), ("cm", 2), ("m", 4)])
@pytest.mark.parametrize("text", ["23 5/8 in", "4 ft 9 1/2 in", "61.5 cm", "1.2345 m", "7 mm"])
def test_what_is_shown_agrees_with_pint(text: str, unit: str, places: int) -> None:
    length = Length.from_text(text)
    shown = read_length(show_length(length.mm, LengthStyle(unit)), bare="mm").quantity  # type: ignore[arg-type]
    assert shown.to(PINT[unit]).magnitude == round(length.quantity.to(PINT[unit]).magnitude, places)


def test_the_wrong_dimension_is_refused() -> None:
    for wrong in (quantity(3, "kg"), quantity(3, "mm**2"), quantity(3, "degree"), quantity(3, "")):
        with pytest.raises(BadQuantity, match=r"length is expected.*\."):
            Length.of(wrong)
    for wrong in (quantity(3, "mm"), quantity(3, "newton")):
        with pytest.raises(BadQuantity, match="mass is expected"):
            Mass.of(wrong)


def test_float_quantities_are_taken_at_their_shortest_decimal() -> None:
    assert Length.of(quantity(3.1, "inch")).text == "3.1 in"
    assert Length.of(quantity(0.5, "yard")).exact_mm == Fraction("457.2")
    with pytest.raises(BadQuantity):
        Length.of(quantity(float("nan"), "mm"))


def test_pint_waits_until_it_is_asked_for() -> None:
    """In a fresh process: reading and showing lengths, and importing the quantities, bring no pint."""
    code = (
        "import sys; from composer.units import Length; import composer.quantities; l = Length.from_text('5 cm');"
        "assert 'pint' not in sys.modules; q = l.quantity; assert 'pint' in sys.modules; print(q.to('mm').magnitude)"
    )
    lone = "from composer.units import Length, Mass; print(Length.from_text('5 cm').quantity.to('mm').magnitude)"
    for program in (code, lone):
        ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True, timeout=120)
        assert ran.stdout.strip() == "50"


def test_computed_masses_are_taken_to_a_millionth_of_a_kilogram() -> None:
    # 0.4535924 and 0.453592 kg are the pound (0.45359237 kg exactly, 1959) to seven and to six places.
    assert Mass.of_kg(0.4535924).text == "0.453592 kg"
    assert Mass.of_kg(0.45, "g").text == "450 g"
    # What is exact stays so as a fraction, or is cut at nine decimals: 1/30011 = 0.0000333211…
    assert Mass.of_kg(Fraction(1, 3)).text == "1/3 kg"
    assert Mass.of_kg(Fraction(1, 30011)).text == "0.000033321 kg"
    for wrong in (float("nan"), float("inf")):
        with pytest.raises(BadQuantity, match="number"):
            Mass.of_kg(wrong)


def test_a_copied_mass_is_the_same_mass() -> None:
    mass = Mass.from_text("1 lb 4 oz")
    copied = pickle.loads(pickle.dumps(mass))
    assert (copied, copied.text, copied.exact_kg) == (mass, "1 lb 4 oz", Fraction("0.5669904625"))  # 20 oz
