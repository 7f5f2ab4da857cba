"""Balance, lean, wire classes, peel, tape and tolerances against textbooks, statutes and limits."""

import math

import pytest

from composer.hanging import balance, kernel, tolerances
from composer.units import Deg, Kg, Mm


@pytest.mark.parametrize(("below", "level"), [(260.0, False), (266.0, False), (267.0, True), (270.0, True)])
def test_a_frame_on_one_hook_is_stable_beyond_a_limit(below: float, level: bool) -> None:
    # s 400, L 500: h 150, so the limit is c = 200²/150 = 266.67 (ellipse argument).
    rise = kernel.rise_mm(Mm(400.0), Mm(500.0))
    assert balance.stays_level(Mm(400.0), rise, Mm(below)) is level


def test_rings_at_the_corners_are_stable_up_to_the_angle_of_the_diagonals() -> None:
    # The published puzzle of the unstable picture: rings at the top corners, wire angle at the nail at
    # most that of the diagonals. Width 400, height 300: c = 150, so h must exceed 200²/150 = 266.67;
    # the diagonals' half angle from upright: atan(200/150) = 53.13°, the wire's: atan(200/h).
    for rise, stable in ((266.0, False), (267.5, True)):
        assert balance.stays_level(Mm(400.0), Mm(rise), Mm(150.0)) is stable
    assert math.degrees(math.atan(200 / 266.6667)) + math.degrees(math.atan(200 / 150)) == pytest.approx(90, abs=1e-3)


def test_scanning_the_potential_energy_finds_the_same_limit() -> None:
    # Independent: the hook runs on the ellipse |F1 H| + |F2 H| = L about the rings; the frame hangs
    # with its middle straight below the hook, so its height below the hook is |H C|, C the middle.
    # Level is stable where |H C| has its local maximum.
    half_s, half_l = 200.0, 250.0
    half_h = math.sqrt(half_l**2 - half_s**2)

    def depth(turn: float, below: float) -> float:
        x, y = half_l * math.sin(turn), half_h * math.cos(turn)
        return math.hypot(x, y + below)

    for below in (200.0, 260.0, 270.0, 400.0):
        stable = depth(0.0, below) > depth(0.01, below)
        assert balance.stays_level(Mm(400.0), Mm(half_h), Mm(below)) is stable


def test_a_hook_off_the_middle_tilts_the_frame() -> None:
    # atan(5/325), by table of tangents 0.8814°.
    assert balance.tilt_of_hanger_off_centre_deg(Mm(5.0), Mm(325.0)) == pytest.approx(0.8814, abs=1e-3)
    assert balance.tilt_of_hanger_off_centre_deg(Mm(-5.0), Mm(325.0)) == pytest.approx(0.8814, abs=1e-3)
    assert balance.tilt_of_hanger_off_centre_deg(Mm(0.0), Mm(0.0)) == pytest.approx(0)
    assert balance.tilt_of_hanger_off_centre_deg(Mm(1.0), Mm(0.0)) == pytest.approx(180)


def test_two_millimetres_on_a_pair_200_apart() -> None:
    # asin(2/200) = 0.573°, just under the 0.6° people see (Vision Research 1990).
    tilt = balance.tilt_of_pair_deg(Mm(2.0), Mm(200.0))
    assert tilt == pytest.approx(0.573, abs=1e-3)
    assert tilt < balance.SEEN_TILT_DEG


@pytest.mark.parametrize(("spacing", "limit"), [(100, 0.524), (200, 1.047), (300, 1.571), (400, 2.094)])
def test_how_level_a_pair_must_be(spacing: float, limit: float) -> None:
    # spacing · tan 0.3°, tan 0.3° = 0.0052360.
    assert balance.pair_limit_mm(Mm(spacing)) == pytest.approx(limit, abs=1e-3)


def lean(free: float, bumper: float, stand_off: float = 8.0, behind: float = 3.0) -> float:
    return balance.forward_lean_deg(
        Mm(700.0),
        Mm(25.0),
        Mm(525.0),
        Mm(free),
        hook_stands_off=Mm(stand_off),
        ring_behind_back=Mm(behind),
        bumper=Mm(bumper),
    )


def test_lean_of_a_frame_hung_straight_on_its_hooks() -> None:
    # λ → 0: (p − b + q)/m = 8/525 rad = 0.873°.
    assert lean(0.0, 0.0, behind=0.0) == pytest.approx(0.873, abs=0.01)


@pytest.mark.parametrize(("bumper", "degrees"), [(0.0, 1.296), (8.0, 0.445), (11.0, 0.126)])
def test_lean_of_a_frame_on_a_wire(bumper: float, degrees: float) -> None:
    # H 700, t 25, m 525, λ 40, p 8, q 3. By hand for b = 0:
    # (40·12.5 + 8·525 + 3·565) / (525·565 − 40·350) = 6 395 / 282 625 = 0.022627 rad = 1.296°.
    assert lean(40.0, bumper) == pytest.approx(degrees, abs=0.01)


def test_lean_solved_without_small_angles() -> None:
    # Independent: three unknown forces and the tilt, solved by bisection on the moment about the bottom edge.
    height, depth, m, wire, stand, behind, bumper = 700.0, 25.0, 525.0, 40.0, 8.0, 3.0, 0.0

    def moment(tilt: float) -> float:
        sine, cosine = math.sin(tilt), math.cos(tilt)
        # Back plane starts at the lower back edge, `bumper` off the wall, and leans out by the tilt.
        ring = (bumper + m * sine - behind * cosine, m * cosine + behind * sine)
        middle = bumper + height / 2 * sine + depth / 2 * cosine
        out = ring[0] - stand
        up = math.sqrt(max(1e-12, wire * wire - out * out))
        pull = (out / up, 1.0)
        # The wire pulls the ring up (weight 1) and to the wall; moment about the lower back edge.
        return 1.0 * (middle - bumper) - pull[1] * (ring[0] - bumper) - pull[0] * ring[1]

    low, high = 0.0, 0.2
    for _ in range(80):
        half = (low + high) / 2
        low, high = (half, high) if moment(half) > 0 else (low, half)
    assert lean(40.0, 0.0) == pytest.approx(math.degrees(low), abs=0.02)


@pytest.mark.parametrize(("share", "pounds"), [(4.0, 17.0), (3.0, 22.67)])
def test_a_wire_that_breaks_at_68_pounds(share: float, pounds: float) -> None:
    # Two framing trade pages: sold for 16 lb as braided wire (a quarter), for 20 lb as coated cable (a third).
    assert balance.usable_wire_kg(Kg(68.0), share) == pytest.approx(pounds, abs=0.05)


def test_peel_at_the_upper_strips() -> None:
    # 2 kg · 9.80665 · 15 / 300.
    assert balance.peel_kg(Kg(2.0), Mm(15.0), Mm(300.0)) * 9.80665 == pytest.approx(0.981, abs=1e-3)


def test_plain_foam_tape() -> None:
    # A tape maker's rule: 60 cm² a kilogram for good; 25 mm wide tape: 240 mm a kilogram.
    area = balance.foam_tape_mm2(Kg(2.0))
    assert area == 120 * 100
    assert area / 25 == 480


def test_two_hooks_never_count_twice() -> None:
    # Each of two is reckoned with 60 % of the weight: 6 kg hooks carry 10, not 12.
    assert balance.each_of_kg(Kg(6.0), 1) == pytest.approx(6)
    assert balance.each_of_kg(Kg(6.0), 2) == pytest.approx(10)


@pytest.mark.parametrize(
    ("metres", "tape", "hook", "error"),
    [
        (1.45, "II", False, 0.7),
        (1.45, "II", True, 0.9),
        (5, "II", False, 1.3),
        (10, "I", False, 1.1),
        (10, "II", False, 2.3),
        (10, "III", False, 4.6),
    ],
)
def test_tapes_by_their_class(metres: float, tape: tolerances.TapeClass, hook: bool, error: float) -> None:
    # Directive 2014/32/EU, annex X (MI-008): ±(a + b L), L rounded up to whole metres, + c from the hook.
    assert tolerances.tape_error_mm(Mm(metres * 1000), tape, from_hook=hook) == pytest.approx(error, abs=1e-9)


def test_a_spirit_level_of_half_a_millimetre_a_metre() -> None:
    # Levels are sold as 0.5 mm/m = 0.029°.
    assert tolerances.slope_deg(0.5) == pytest.approx(0.0286, abs=1e-4)


def test_errors_of_a_hanging_day_add_up() -> None:
    # Frame height, drop, tape from its hook, pencil, nail, seat: by hand sqrt(3.56) and the plain sum.
    assert tolerances.likely_error_mm(tolerances.ON_THE_DAY_MM) == pytest.approx(1.887, abs=1e-3)
    assert sum(tolerances.ON_THE_DAY_MM) == pytest.approx(4.4, abs=1e-9)
    assert tolerances.GAP_MM == 2.0


@pytest.mark.parametrize("spacing", [60.0, 150.0, 191.0, 200.0, 300.0, 420.0, 900.0])
def test_printed_tolerances_are_never_finer_than_a_nail_nor_coarser_than_what_is_level(spacing: float) -> None:
    printed = tolerances.pair_tolerance_mm(Mm(spacing))
    assert printed >= 1.0
    if not tolerances.too_close_to_level(Mm(spacing)):
        assert balance.tilt_of_pair_deg(printed, Mm(spacing)) <= balance.LEVEL_DEG + 0.002
    else:
        assert balance.pair_limit_mm(Mm(spacing)) < 1.0


def test_what_an_oak_frame_would_need_to_hang_level_by_itself() -> None:
    # 500 × 700 with rings 175 down: c = 175, h 95.9, so h·c = 16 785 against (440/2)² = 48 400.
    rise = kernel.rise_mm(Mm(440.0), Mm(480.0))
    assert rise * 175 == pytest.approx(16785, abs=1)
    assert not balance.stays_level(Mm(440.0), rise, Mm(175.0))
    assert balance.LEAST_WIRE_DEG < kernel.angle_deg(Mm(440.0), rise) < Deg(30)
