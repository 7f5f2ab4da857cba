"""Heights over a stair, worked by hand from rise and going."""

import pytest

from composer.geometry.nosing import eye_line_parts, ground_line, lower_edge, stair_height_mm, upright_span

# Rise 180, going 250 (inside the usual limits of a private stair, common practice): the first nosing at (700, 180),
# the seventh at (2200, 1260).
NOSING = ((700.0, 180.0), (2200.0, 1260.0))


@pytest.mark.parametrize(
    ("x", "height"),
    [
        (0, 0),  # in the hall
        (450, 0),  # 700 − 180 × 250 ÷ 180 = 450: here the line meets the floor
        (920, 338.4),  # 180 + 180 ÷ 250 × (920 − 700)
        (2200, 1260),
        (3000, 1260),  # on the landing
    ],
)
def test_height_over_a_stair(x: float, height: float) -> None:
    assert stair_height_mm(NOSING, x) == pytest.approx(height)


def test_a_stair_that_falls_to_the_right_is_its_mirror_image() -> None:
    mirrored = tuple((3300 - x, y) for x, y in NOSING)
    for x in (0, 450, 920, 2200, 3000):
        assert stair_height_mm(mirrored, 3300 - x) == pytest.approx(stair_height_mm(NOSING, x))  # type: ignore[arg-type]


def test_ground_line_has_its_corners_where_it_bends() -> None:
    assert ground_line(None, 3000) == [(0, 0), (3000, 0)]
    expected = [(0, 0), (450, 0), (2200, 1260), (3300, 1260)]
    for found, wanted in zip(ground_line(NOSING, 3300), expected, strict=True):
        assert found == pytest.approx(wanted)


def test_lower_edge_and_upright_span_of_a_stair_wall() -> None:
    corners = [(0.0, 0.0), (900.0, 0.0), (3900.0, 2100.0), (3900.0, 4000.0), (3000.0, 4500.0), (0.0, 4500.0)]
    assert lower_edge(corners) == [(0.0, 0.0), (900.0, 0.0), (3900.0, 2100.0)]
    # Half way up: 2100 × 1500 ÷ 3000; above it the ceiling is still level.
    assert upright_span(corners, 2400) == pytest.approx((1050, 4500))
    assert upright_span(corners, 3450) == pytest.approx((1785, 4250))
    assert upright_span(corners, 5000) is None


def test_lower_edge_where_the_wall_stands_higher_at_the_left() -> None:
    corners = [(3000.0, 0.0), (3900.0, 0.0), (3900.0, 2500.0), (0.0, 4500.0), (0.0, 2100.0)]
    assert lower_edge(corners) == [(0.0, 2100.0), (3000.0, 0.0), (3900.0, 0.0)]


def test_the_eye_line_stays_below_the_top_of_the_wall() -> None:
    # Level: one part. On the stair 1 450 above it; under a ceiling of 2 500 it ends where the nosing is at 1 050,
    # 700 + 250 × (1 050 − 180) ÷ 180 = 1 908 1/3 along.
    assert eye_line_parts(None, (3000.0, 2500.0), 1450.0) == [((0, 1450), (3000, 1450))]
    assert eye_line_parts(None, (3000.0, 1400.0), 1450.0) == []
    low, climbing = eye_line_parts(NOSING, (3300.0, 2500.0), 1450.0)
    assert low[0] == pytest.approx((0, 1450)) and low[1] == pytest.approx((450, 1450))
    assert climbing[0] == pytest.approx((450, 1450))
    assert climbing[1] == pytest.approx((700 + 250 * 870 / 180, 2500))
    mirrored = tuple((3300 - x, y) for x, y in NOSING)
    falling, last = eye_line_parts(mirrored, (3300.0, 2500.0), 1450.0)  # type: ignore[arg-type]
    assert falling[0] == pytest.approx((3300 - climbing[1][0], 2500))
    assert last[0] == pytest.approx((2850, 1450)) and last[1] == pytest.approx((3300, 1450))
