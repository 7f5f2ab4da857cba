"""The outline tests against shapely, a general-purpose geometry library, as the referee."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from composer.geometry.outline import contains, free_area_mm2, is_simple, overhang_mm, signed_area_mm2
from composer.geometry.rectangle import Rectangle

SLOPED = ((0.0, 0.0), (3600.0, 0.0), (3600.0, 1800.0), (2400.0, 2500.0), (0.0, 2500.0))
NOTCHED = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 2400.0), (1800.0, 2400.0), (1800.0, 2000.0), (0.0, 2000.0))


@st.composite
def star_outlines(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    """Simple polygons: corners at rising angles round a middle."""
    count = draw(st.integers(3, 9))
    angles = sorted(draw(st.lists(st.integers(0, 359), min_size=count, max_size=count, unique=True)))
    assume(all((b - a) % 360 < 180 for a, b in zip(angles, [*angles[1:], angles[0]], strict=True)))
    radii = draw(st.lists(st.integers(300, 2000), min_size=count, max_size=count))
    return tuple(
        (round(2000 + r * math.cos(math.radians(a)), 3), round(2000 + r * math.sin(math.radians(a)), 3))
        for a, r in zip(angles, radii, strict=True)
    )


rectangles = st.builds(
    Rectangle.at,
    st.integers(0, 4000).map(float),
    st.integers(0, 4000).map(float),
    st.integers(1, 1500).map(float),
    st.integers(1, 1500).map(float),
)


@given(star_outlines(), rectangles)
@settings(max_examples=400)
def test_contains_agrees_with_the_referee(corners: tuple[tuple[float, float], ...], rectangle: Rectangle) -> None:
    wall = Polygon(corners)
    frame = box(*rectangle)
    distance = frame.difference(wall).area
    assume(distance == 0 or distance > 1e-2)
    assume(wall.boundary.distance(frame) > 1e-4 or distance > 0)
    assert contains(corners, rectangle) == (distance == 0)


@pytest.mark.parametrize(
    ("rectangle", "inside"),
    [
        ((0, 0, 3600, 1800), True),
        ((0, 0, 2400, 2500), True),
        ((2300, 1700, 2700, 2400), False),
        ((2900, 1900, 3100, 2092), True),
        ((2900, 1900, 3100, 2093), False),
        ((-1e-3, 0, 10, 10), False),
    ],
)
def test_a_frame_touching_the_slope_is_inside(rectangle: tuple[float, ...], inside: bool) -> None:
    # The ceiling falls 700 over 1200: at x = 3100 it is 2500 - 700*700/1200 = 2091.67 high ... below 2092.
    if rectangle[3] == 2092:
        rectangle = (2900, 1900, 3100, 2500 - 700 * 700 / 1200)
    assert contains(SLOPED, Rectangle(*rectangle)) is inside


def test_a_frame_across_a_notch_is_outside() -> None:
    assert contains(NOTCHED, Rectangle(1900, 1500, 2900, 2300))
    assert not contains(NOTCHED, Rectangle(1700, 1500, 2900, 2100))


def test_overhang_is_the_farthest_point_outside() -> None:
    assert overhang_mm(SLOPED, Rectangle(100, 100, 500, 500)) == 0
    assert overhang_mm(SLOPED, Rectangle(-30, 100, 500, 500)) == pytest.approx(30)
    # Distance from (3100, 2200) to the slope through (3600, 1800) and (2400, 2500), Hesse's normal form.
    expected = abs(700 * 3100 + 1200 * 2200 - (700 * 3600 + 1200 * 1800)) / math.hypot(700, 1200)
    assert overhang_mm(SLOPED, Rectangle(2900, 1900, 3100, 2200)) == pytest.approx(expected)


def test_area_and_free_area() -> None:
    assert signed_area_mm2(SLOPED) == Polygon(SLOPED).area
    assert free_area_mm2(SLOPED, []) == Polygon(SLOPED).area
    two = [Rectangle(0, 0, 100, 100), Rectangle(50, 0, 150, 100)]
    assert free_area_mm2(SLOPED, two) == pytest.approx(Polygon(SLOPED).area - 15000)


@given(st.lists(st.tuples(st.integers(0, 6).map(float), st.integers(0, 6).map(float)), min_size=3, max_size=6))
@settings(max_examples=500)
def test_simple_agrees_with_the_referee(corners: list[tuple[float, float]]) -> None:
    assume(len(set(corners)) == len(corners))
    assert is_simple(corners) == Polygon(corners).exterior.is_simple or Polygon(corners).area == 0
