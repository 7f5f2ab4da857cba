"""The wire's geometry and statics against whole-number triangles, textbooks and limits."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from composer.hanging import kernel
from composer.units import Deg, Kg, Mm, N

ONE = N(1.0)


def tension_share(spacing: float, wire: float, hooks: float = 0.0) -> float:
    rise = kernel.rise_mm(Mm(spacing), Mm(wire), Mm(hooks))
    return kernel.tension_n(ONE, kernel.angle_deg(Mm(spacing), rise, Mm(hooks)))


def test_wire_of_the_3_4_5_triangle() -> None:
    # Half wire 250, half spacing 200: 3-4-5 times 50. sin θ = 3/5, so T/W = 1/(2·3/5) = 5/6.
    rise = kernel.rise_mm(Mm(400.0), Mm(500.0))
    angle = kernel.angle_deg(Mm(400.0), rise)
    assert rise == pytest.approx(150, abs=1e-9)
    assert angle == pytest.approx(36.8699, abs=1e-4)
    assert kernel.tension_n(ONE, angle) == pytest.approx(0.83333, abs=1e-4)


def test_wire_of_the_5_12_13_triangle() -> None:
    # Half wire 130, half spacing 120: 5-12-13 times 10. sin θ = 5/13, so T/W = 13/10.
    rise = kernel.rise_mm(Mm(240.0), Mm(260.0))
    assert rise == pytest.approx(50, abs=1e-9)
    assert kernel.angle_deg(Mm(240.0), rise) == pytest.approx(22.6199, abs=1e-4)
    assert tension_share(240, 260) == pytest.approx(1.3, abs=1e-4)


def test_a_nearly_tight_wire_pulls_five_times_the_weight() -> None:
    # By hand: h = sqrt(201² − 200²) = sqrt(401) = 20.025; T/W = L/(4h) = 402/80.1.
    assert kernel.rise_mm(Mm(400.0), Mm(402.0)) == pytest.approx(math.sqrt(401), abs=1e-9)
    assert tension_share(400, 402) == pytest.approx(5.0187, abs=1e-3)


def test_two_hooks_make_a_trapezoid() -> None:
    # (460 − 160)/2 = 150 and (400 − 160)/2 = 120: 3-4-5 times 30, rise 90, sin θ = 3/5, cos θ = 4/5.
    rise = kernel.rise_mm(Mm(400.0), Mm(460.0), Mm(160.0))
    angle = kernel.angle_deg(Mm(400.0), rise, Mm(160.0))
    assert rise == pytest.approx(90, abs=1e-9)
    assert kernel.tension_n(ONE, angle) == pytest.approx(5 / 6, abs=1e-9)
    assert kernel.hook_side_pull_n(ONE, angle) == pytest.approx(5 / 6 * (1 - 4 / 5), abs=1e-9)
    assert kernel.ring_pull_n(ONE, angle) == pytest.approx(5 / 6 * 4 / 5, abs=1e-9)


def test_two_hooks_in_one_place_are_one_hook() -> None:
    assert kernel.rise_mm(Mm(400.0), Mm(500.0), Mm(0.0)) == kernel.rise_mm(Mm(400.0), Mm(500.0))
    near = kernel.rise_mm(Mm(400.0), Mm(500.0), Mm(1e-9))
    assert near == pytest.approx(150, abs=1e-8)


def test_hooks_above_the_rings_hang_the_wire_plumb() -> None:
    # k = s: both ends (520 − 400)/2 = 60 long and plumb; each carries W/2, the middle pulls W/2 inward.
    rise = kernel.rise_mm(Mm(400.0), Mm(520.0), Mm(400.0))
    angle = kernel.angle_deg(Mm(400.0), rise, Mm(400.0))
    assert rise == pytest.approx(60, abs=1e-9)
    assert angle == pytest.approx(90, abs=1e-9)
    assert kernel.tension_n(ONE, angle) == pytest.approx(0.5, abs=1e-9)
    assert kernel.hook_side_pull_n(ONE, angle) == pytest.approx(0.5, abs=1e-9)


@pytest.mark.parametrize(
    ("mass", "gravity", "angle", "expected", "tolerance", "source"),
    [
        (70.0, 9.80, 5.0, 3935, 1, "OpenStax College Physics, example 4.6 (3.9 × 10³ N)"),
        (2.15, 9.81, 15.0, 40.7, 0.1, "physicsforums.com, picture on a wire, with g 9.81"),
    ],
)
def test_tension_of_textbook_wires(
    mass: float, gravity: float, angle: float, expected: float, tolerance: float, source: str
) -> None:
    assert kernel.tension_n(N(mass * gravity), Deg(angle)) == pytest.approx(expected, abs=tolerance), source


def test_the_picture_of_40_newtons() -> None:
    # jiskha.com: rings 40 cm apart, nail 3 cm higher; 40/2 · sqrt(20² + 3²)/3 = 134.8 N.
    angle = kernel.angle_deg(Mm(400.0), Mm(30.0))
    assert kernel.tension_n(N(40.0), angle) == pytest.approx(134.8, abs=0.1)


def test_tension_by_angle() -> None:
    # A framing trade page says "about 2×" at 15°; at 30° 1/(2·½) = 1 exactly.
    assert kernel.tension_n(ONE, Deg(15.0)) == pytest.approx(1.9319, abs=1e-4)
    assert kernel.tension_n(ONE, Deg(30.0)) == pytest.approx(1, abs=1e-12)


def test_an_oak_frame_on_one_hook() -> None:
    # 3.269425 kg at 9.80665 = 32.0621 N. By hand: h = sqrt(240² − 220²) = sqrt(9200) = 95.917,
    # d = 175 − h = 79.083, y = 1450 + 350 − d = 1720.917, T = W·480/(4h) = 40.11 N.
    weight = kernel.weight_n(Kg(3.269425))
    rise = kernel.rise_mm(Mm(440.0), Mm(480.0))
    drop = kernel.drop_mm(Mm(440.0), Mm(480.0), Mm(175.0))
    assert weight == pytest.approx(32.0621, abs=1e-4)
    assert rise == pytest.approx(math.sqrt(9200), abs=1e-9)
    assert drop == pytest.approx(79.083, abs=1e-3)
    assert kernel.point_height_mm(Mm(1450.0), Mm(700.0), drop) == pytest.approx(1720.92, abs=0.01)
    assert kernel.tension_n(weight, kernel.angle_deg(Mm(440.0), rise)) == pytest.approx(40.11, abs=0.01)


def test_the_same_frame_on_two_hooks() -> None:
    # By hand: (480 − 220)/2 = 130, (440 − 220)/2 = 110, h = sqrt(130² − 110²) = sqrt(4800) = 69.282;
    # sin θ = h/130: T = 16.031/0.53294 = 30.08 N, side pull T·(1 − 110/130) = 4.63 N, at the rings T·110/130.
    weight = kernel.weight_n(Kg(3.269425))
    rise = kernel.rise_mm(Mm(440.0), Mm(480.0), Mm(220.0))
    angle = kernel.angle_deg(Mm(440.0), rise, Mm(220.0))
    drop = kernel.drop_mm(Mm(440.0), Mm(480.0), Mm(175.0), Mm(220.0))
    assert rise == pytest.approx(math.sqrt(4800), abs=1e-9)
    assert drop == pytest.approx(105.718, abs=1e-3)
    assert kernel.point_height_mm(Mm(1450.0), Mm(700.0), drop) == pytest.approx(1694.28, abs=0.01)
    assert kernel.tension_n(weight, angle) == pytest.approx(30.08, abs=0.01)
    assert kernel.hook_side_pull_n(weight, angle) == pytest.approx(4.63, abs=0.01)
    assert kernel.ring_pull_n(weight, angle) == pytest.approx(25.45, abs=0.01)


def test_wire_for_a_wanted_rise() -> None:
    # Pythagoras by hand: 2·sqrt(220² + 60²) = 456.070; 220 + 2·sqrt(110² + 60²) = 470.599.
    assert kernel.wire_for_rise_mm(Mm(440.0), Mm(60.0)) == pytest.approx(456.070, abs=0.001)
    assert kernel.wire_for_rise_mm(Mm(440.0), Mm(60.0), Mm(220.0)) == pytest.approx(470.599, abs=0.001)


@pytest.mark.parametrize(("spacing", "wire"), [(400.0, 400.0), (400.0, 399.0), (400.0, 1.0)])
def test_a_taut_wire_is_an_error_not_a_number(spacing: float, wire: float) -> None:
    with pytest.raises(kernel.Taut, match="cannot rise"):
        kernel.rise_mm(Mm(spacing), Mm(wire))


def test_hooks_wider_apart_than_the_rings_are_refused() -> None:
    with pytest.raises(kernel.HooksTooWide, match="wider than the rings"):
        kernel.rise_mm(Mm(400.0), Mm(900.0), Mm(401.0))


def test_a_level_wire_carries_nothing() -> None:
    with pytest.raises(kernel.Impossible, match="carries nothing"):
        kernel.tension_n(ONE, Deg(0.0))


def test_unlevel_rings_of_a_wire_by_a_whole_number_triangle() -> None:
    # Rings 210 apart across, one 70 lower. A hook in the middle, 140 above the higher ring and 210 above the
    # lower: sides sqrt(105² + 140²) = 175 and sqrt(105² + 210²) = 234.787; the wire is their sum.
    wire = 175 + math.hypot(105, 210)
    assert kernel.rise_mm(Mm(210.0), Mm(wire), ring_difference=Mm(70.0)) == pytest.approx((140 + 210) / 2, abs=1e-9)
    assert kernel.drop_mm(Mm(210.0), Mm(wire), Mm(160.0), ring_drop_right=Mm(230.0)) == pytest.approx(20, abs=1e-9)
    assert kernel.drop_mm(Mm(210.0), Mm(wire), Mm(230.0), ring_drop_right=Mm(160.0)) == pytest.approx(20, abs=1e-9)


def test_a_wire_shorter_than_the_way_between_unlevel_rings_is_taut() -> None:
    # Rings 400 across and 300 up are 500 apart (3-4-5): a wire of 500 is straight.
    with pytest.raises(kernel.Taut):
        kernel.rise_mm(Mm(400.0), Mm(500.0), ring_difference=Mm(300.0))


spacings = st.floats(50, 2000)
slacks = st.floats(1e-3, 500)


@given(spacing=spacings, slack=slacks, more=slacks)
def test_a_longer_wire_rises_higher_and_pulls_less(spacing: float, slack: float, more: float) -> None:
    short, long = spacing + slack, spacing + slack + more
    assert kernel.rise_mm(Mm(spacing), Mm(short)) < kernel.rise_mm(Mm(spacing), Mm(long))
    assert tension_share(spacing, short) >= tension_share(spacing, long)


@given(spacing=spacings, slack=slacks, share=st.floats(0, 1))
def test_no_wire_pulls_less_than_half_the_weight(spacing: float, slack: float, share: float) -> None:
    assert tension_share(spacing, spacing + slack, share * spacing) >= 0.5 - 1e-9


@given(spacing=spacings, slack=slacks, share=st.floats(0, 1), ring_drop=st.floats(0, 1000))
def test_the_drop_changes_by_what_the_rise_changes(
    spacing: float, slack: float, share: float, ring_drop: float
) -> None:
    wire, hooks = Mm(spacing + slack), Mm(share * spacing)
    one = kernel.drop_mm(Mm(spacing), wire, Mm(ring_drop))
    two = kernel.drop_mm(Mm(spacing), wire, Mm(ring_drop), hooks)
    rises = kernel.rise_mm(Mm(spacing), wire) - kernel.rise_mm(Mm(spacing), wire, hooks)
    assert two - one == pytest.approx(rises, abs=1e-6)
    assert two >= one - 1e-6  # the same wire hangs lower on two hooks


@given(spacing=spacings, slack=st.floats(1, 500), share=st.floats(0, 0.9), uneven=st.floats(0, 40))
def test_the_wire_is_as_long_as_its_way_over_the_hooks(
    spacing: float, slack: float, share: float, uneven: float
) -> None:
    # Independent of the formula: walk from ring to hook to hook to ring and add up.
    hooks = share * spacing
    wire = hooks + math.hypot(spacing - hooks, uneven) + slack
    rise = kernel.rise_mm(Mm(spacing), Mm(wire), Mm(hooks), Mm(uneven))
    across = (spacing - hooks) / 2
    walked = math.hypot(across, rise + uneven / 2) + hooks + math.hypot(across, rise - uneven / 2)
    assert walked == pytest.approx(wire, rel=1e-9)
