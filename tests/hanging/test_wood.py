"""Nails and screws in timber against published examples; the catalogue's loads stay below them."""

import pytest

from composer.catalogue import catalogue
from composer.units import Mm
from tests.hanging import wood_handbook as wood

POUND_N = 0.45359237 * 9.80665
INCH_MM = 25.4


def test_a_nail_may_be_drawn_with_38_pounds_an_inch() -> None:
    # Published: 20d nail, D = 0.203 in, G = 0.45: 38 lb per inch (1 380 G^2.5 D).
    newtons = wood.nail_allowable_n(0.45, Mm(0.203 * INCH_MM), Mm(INCH_MM))
    assert newtons / POUND_N == pytest.approx(38, abs=0.5)
    assert pytest.approx(38, abs=0.5) == wood.NAIL_ALLOWABLE_LB * 0.45**2.5 * 0.203


def test_a_small_nail_in_millimetres() -> None:
    # USDA FPL-RN-093 (1965), a fifth of 6 900: G 0.5, 1.6 × 30 mm gives 80.8 N; the handbook's later
    # constant 54.12 over five gives 91.8.
    assert wood.nail_allowable_n(0.5, Mm(1.6), Mm(30.0)) == pytest.approx(80.8, abs=0.2)
    assert wood.nail_withdrawal_n(0.5, Mm(1.6), Mm(30.0)) / 5 == pytest.approx(91.8, abs=0.2)


def test_a_screw_may_be_drawn_with_109_pounds_an_inch() -> None:
    # Published: no. 10 screw, D = 0.190 in, G = 0.45: 109 lb per inch (2 850 G² D = 109.65).
    newtons = wood.screw_allowable_n(0.45, Mm(0.190 * INCH_MM), Mm(INCH_MM))
    assert newtons / POUND_N == pytest.approx(109, abs=1)


@pytest.mark.parametrize(
    ("inch_pound", "power", "metric"),
    [
        (7850, 2, wood.NAIL_WITHDRAWAL),  # lb/in²: D and L each an inch
        (15700, 2, wood.SCREW_WITHDRAWAL),
        (1440, 1.5, wood.NAIL_LATERAL_SOFTWOOD),
        (3360, 2, wood.SCREW_LATERAL_SOFTWOOD),
    ],
)
def test_both_systems_of_units_agree(inch_pound: float, power: float, metric: float) -> None:
    # A constant in lb and in^power is worth so many newtons and mm^power.
    assert inch_pound * POUND_N / INCH_MM**power == pytest.approx(metric, abs=0.01)


def test_the_catalogues_loads_in_timber_lie_below_the_handbook() -> None:
    # A 2.0 mm nail in spruce: 141.5 N across = 14.4 kg; a 4 mm screw: 23.17 · 16 = 371 N = 37.8 kg.
    assert wood.nail_lateral_n(Mm(2.0)) == pytest.approx(141.5, abs=0.1)
    nail, screw = (catalogue.usual().fixings[name].load_kg for name in ("nail", "screw-stud"))
    assert nail is not None
    assert screw is not None
    assert nail < wood.nail_lateral_n(Mm(2.0)) / 9.80665
    assert screw < wood.screw_lateral_n(Mm(4.0)) / 9.80665
