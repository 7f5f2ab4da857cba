"""Heights of points and holes against published worked examples.

Sources stand beside the cases. An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
"""

import pytest

from composer.hanging import kernel
from composer.units import Mm

INCH = 25.4


@pytest.mark.parametrize(
    ("centre", "height", "drop", "expected", "source"),
    [
        (57, 20, 2, 65, "apartmenttherapy.com, hanging at 57 in"),
        (57, 30, 1, 71, "markhamartcollective.com, 2014"),
        (58, 40, 8, 70, "Everson Museum of Art, bulletin: How Do Museums Install Paintings?"),
        (58, 16, 2, 64, "Outdoor Photographer, The Art of Exhibition, 2008"),
    ],
)
def test_hanging_height_as_published_in_inches(
    centre: float, height: float, drop: float, expected: float, source: str
) -> None:
    point = kernel.point_height_mm(Mm(centre * INCH), Mm(height * INCH), Mm(drop * INCH))
    assert point == pytest.approx(expected * INCH, abs=1e-9), source


def test_the_museum_example_has_its_top_at_78_inches() -> None:
    # Everson Museum of Art, the same bulletin: 58 in centre, 40 in high.
    assert kernel.point_height_mm(Mm(58 * INCH), Mm(40 * INCH), Mm(0.0)) == pytest.approx(78 * INCH, abs=1e-9)


def test_a_hook_may_sit_below_the_middle() -> None:
    # cwcolour.com.au: centre 1 500, height 500, drop 350 mm.
    assert kernel.point_height_mm(Mm(1500.0), Mm(500.0), Mm(350.0)) == 1400.0


def test_the_nail_sits_higher_than_the_seat() -> None:
    # Worked by hand: seat 1 658, seat to hole 20.
    assert kernel.hole_height_mm(Mm(1658.0), Mm(20.0)) == 1678.0


def test_a_screw_under_a_ring_sits_lower() -> None:
    # Worked by hand: a ring bears on the upper side of a 4 mm screw, so the screw's middle lies 2 mm lower.
    assert kernel.hole_height_mm(Mm(1658.0), Mm(-4 / 2)) == 1656.0


def test_half_the_height_is_added_and_the_drop_taken_off() -> None:
    # One page prints "centre − height − drop", which gives 910 here; 1450 + 500/2 − 40 = 1660 is right.
    assert kernel.point_height_mm(Mm(1450.0), Mm(500.0), Mm(40.0)) == 1660.0


@pytest.mark.parametrize(("inches", "mm"), [(54, 1371.6), (57, 1447.8), (58, 1473.2), (60, 1524.0), (66, 1676.4)])
def test_usual_eye_lines_in_millimetres(inches: int, mm: float) -> None:
    # Exact by the inch's definition; the heights are those museums and decorators name.
    assert kernel.point_height_mm(Mm(inches * INCH), Mm(0.0), Mm(0.0)) == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    ("bottom", "depth", "hazard"),
    [(700, 101, True), (700, 100, False), (685, 101, False), (2030, 101, True), (2031, 101, False)],
)
def test_what_stands_into_a_passage(bottom: float, depth: float, hazard: bool) -> None:
    # ADA 2010 Standards, 307.2: above 27 in (685 mm), up to 80 in (2 030 mm), more than 4 in (100 mm).
    assert kernel.stands_into_passage(Mm(float(bottom)), Mm(float(depth))) is hazard


def test_pictures_climb_with_the_stair() -> None:
    # Similar triangles by hand: rise 180 over going 270 is 2 : 3, so 300 along gives 200 up; atan(2/3) = 33.69°.
    assert kernel.stair_height_mm(Mm(180.0), Mm(270.0), Mm(300.0)) == 200.0
    assert kernel.stair_pitch_deg(Mm(180.0), Mm(270.0)) == pytest.approx(33.69, abs=0.01)


def test_steepest_stair_of_the_residential_code() -> None:
    # IRC R311.7.5: riser at most 7 3/4 in, tread at least 10 in; the angle is arithmetic.
    assert kernel.stair_pitch_deg(Mm(7.75 * INCH), Mm(10 * INCH)) == pytest.approx(37.78, abs=0.01)
