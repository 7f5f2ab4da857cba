"""Every edge gives what its kernel gives, whatever units go in, and refuses a wrong dimension.

Conversions are pint's own: an inch is 25.4 mm, a pound 0.45359237 kg, standard gravity 9.80665 m/s².
"""

from collections.abc import Callable
from typing import Any

import pytest

from composer.catalogue import catalogue
from composer.hanging import edges, kernel
from composer.hanging.weight import Part, estimate
from composer.model import Frame, Mat, Piece
from composer.quantities import quantity
from composer.units import BadQuantity, Deg, Kg, Length, Mass, Mm

LENGTHS = [
    Length.of_mm,
    lambda mm: quantity(mm, "mm"),
    lambda mm: quantity(mm / 25.4, "inch"),
    lambda mm: quantity(mm / 304.8, "foot"),
]
MASSES = [
    lambda kg: Mass.from_text(f"{kg} kg"),
    lambda kg: quantity(kg / 0.45359237, "lb"),
    lambda kg: quantity(kg * 1000, "g"),
]

RISE = kernel.rise_mm(Mm(400.0), Mm(460.0), Mm(160.0))
ANGLE = kernel.angle_deg(Mm(400.0), RISE, Mm(160.0))
WEIGHT = kernel.weight_n(Kg(3.25))


@pytest.mark.parametrize("mm", LENGTHS)
@pytest.mark.parametrize(
    ("edge", "unit", "expected"),
    [
        (lambda mm: edges.rise(mm(400), mm(460), mm(160)), "mm", RISE),
        (lambda mm: edges.rise(mm(400), mm(500)), "mm", 150),
        (lambda mm: edges.drop(mm(400), mm(460), mm(120), mm(160)), "mm", 120 - RISE),
        (
            lambda mm: edges.drop(mm(400), mm(500), mm(160), None, mm(170)),
            "mm",
            kernel.drop_mm(Mm(400.0), Mm(500.0), Mm(160.0), ring_drop_right=Mm(170.0)),
        ),
        (lambda mm: edges.wire_for_rise(mm(440), mm(60), mm(220)), "mm", 470.599),
        (lambda mm: edges.wire_angle(mm(400), mm(460), mm(160)), "degree", ANGLE),
        (lambda mm: edges.point_height(mm(1450), mm(500), mm(40)), "mm", 1660),
        (lambda mm: edges.hole_height(mm(1660), mm(18)), "mm", 1678),
    ],
)
def test_lengths_may_come_in_any_unit(
    mm: Callable[[float], Any], edge: Callable[[Any], Any], unit: str, expected: float
) -> None:
    assert edge(mm).to(unit).magnitude == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize("mm", LENGTHS)
@pytest.mark.parametrize("kg", MASSES)
@pytest.mark.parametrize(
    ("edge", "expected"),
    [
        (edges.tension, kernel.tension_n(WEIGHT, ANGLE)),
        (edges.ring_pull, kernel.ring_pull_n(WEIGHT, ANGLE)),
        (edges.hook_side_pull, kernel.hook_side_pull_n(WEIGHT, ANGLE)),
    ],
)
def test_pulls_by_mass_in_any_unit(
    mm: Callable[[float], Any], kg: Callable[[float], Any], edge: Callable[..., Any], expected: float
) -> None:
    pull = edge(kg(3.25), mm(400), mm(460), mm(160))
    assert pull.to("newton").magnitude == pytest.approx(expected, rel=1e-9)


LENGTH, MASS, FORCE = quantity(400.0, "mm"), quantity(3.0, "kg"), quantity(3.0, "newton")


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: edges.rise(MASS, LENGTH),
        lambda: edges.rise(LENGTH, MASS),
        lambda: edges.rise(LENGTH, quantity(500.0, "mm"), MASS),
        lambda: edges.drop(LENGTH, quantity(500.0, "mm"), MASS),
        lambda: edges.drop(LENGTH, quantity(500.0, "mm"), LENGTH, None, FORCE),
        lambda: edges.wire_for_rise(LENGTH, FORCE),
        lambda: edges.wire_angle(LENGTH, quantity(500.0, "mm**2")),
        lambda: edges.tension(FORCE, LENGTH, quantity(500.0, "mm")),
        lambda: edges.tension(LENGTH, LENGTH, quantity(500.0, "mm")),
        lambda: edges.ring_pull(MASS, MASS, quantity(500.0, "mm")),
        lambda: edges.hook_side_pull(LENGTH, LENGTH, quantity(500.0, "mm"), LENGTH),
        lambda: edges.point_height(LENGTH, LENGTH, MASS),
        lambda: edges.hole_height(LENGTH, quantity(1.0, "degree")),
    ],
)
def test_a_wrong_dimension_is_refused(wrong: Callable[[], Any]) -> None:
    with pytest.raises(BadQuantity):
        wrong()


def test_an_oak_frame_in_kilograms_pounds_and_newtons() -> None:
    # 3.269425 kg = 7.20785 lb and, at 9.80665 m/s², 32.0621 N: exact unit definitions.
    mass = quantity(3.269425, "kg")
    assert mass.to("lb").magnitude == pytest.approx(7.20785, abs=1e-4)
    assert kernel.weight_n(Kg(3.269425)) == pytest.approx(32.0621, abs=1e-4)
    # A wire at 30° pulls exactly with the weight: half spacing √3, rise 1, half wire 2.
    pull = edges.tension(mass, quantity(200 * 3**0.5, "mm"), quantity(400.0, "mm"))
    assert pull.to("newton").magnitude == pytest.approx(32.0621, abs=1e-4)
    assert kernel.tension_n(kernel.weight_n(Kg(3.269425)), Deg(30.0)) == pytest.approx(32.0621, abs=1e-4)


def test_the_estimate_in_quantities_equals_the_estimate_in_floats() -> None:
    def mm(value: float) -> Length:
        return Length.of_mm(value)

    piece = Piece(
        key="p1",
        number=1,
        name="oak",
        frame=Frame(
            width=mm(500), height=mm(700), face=mm(30), moulding_thickness=mm(20), lip=mm(6), rabbet_depth=mm(10),
            allowance=mm(3), moulding="oak", glazing="glass", glazing_thickness=mm(2), backing="mdf", backing_thickness=mm(3),
        ),
        mat=Mat(window_width=mm(300), window_height=mm(500), overlap=mm(10)),
    )  # fmt: skip
    floats = estimate(piece, catalogue.usual())
    mass = edges.estimated_mass(piece)
    assert floats is not None
    assert mass is not None
    assert mass.to("kg").magnitude == pytest.approx(floats.kg, rel=1e-12)
    for part in floats.parts:
        assert edges.part_mass(part).to("kg").magnitude == pytest.approx(part.kg, rel=1e-12)


def test_no_estimate_no_quantity() -> None:
    bare = Piece(key="p1", number=1, name="bare", frame=Frame(width=Length.of_mm(300), height=Length.of_mm(400)))
    assert edges.estimated_mass(bare) is None


@pytest.mark.parametrize(
    ("part", "kg"),
    [
        # 0.001 m³ of 700 kg/m³; 0.5 m² of 800 g/m²; and where one factor is unknown, the mass as it is.
        ({"volume_mm3": 1e6, "kg_per_m3": 700.0}, 0.7),
        ({"area_mm2": 5e5, "g_per_m2": 800.0}, 0.4),
        ({"volume_mm3": 1e6}, 0.123),
        ({"kg_per_m3": 700.0}, 0.123),
        ({"area_mm2": 5e5}, 0.123),
        ({"g_per_m2": 800.0}, 0.123),
    ],
)
def test_the_mass_of_a_part_is_the_product_of_what_is_known(part: dict[str, float], kg: float) -> None:
    made = Part("backing", "mdf", Kg(0.123), Kg(0.1), Kg(0.2), **part)  # type: ignore[arg-type]
    assert edges.part_mass(made).m_as("kg") == pytest.approx(kg)
