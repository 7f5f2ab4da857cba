"""Points and holes of the seven hangers, each worked by hand from the piece's lower left corner.

The frame of most cases is 400 wide and 500 high: middle 200, top edge 500.
"""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from composer.catalogue import catalogue
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.model import CatalogueChange, CatalogueNotes, Frame, Hanger, HardwareChoice, Piece
from composer.units import Length


def mm(value: float) -> Length:
    return Length.of_mm(value)


def made(width: Any = 400, height: Any = 500, hardware: HardwareChoice | None = None, **hanger: Any) -> Piece:
    """A piece with that hanger; numbers are millimetres, texts lengths as typed."""

    def length(value: Any) -> Any:
        return Length.from_text(value) if isinstance(value, str) else mm(value)

    fields = {name: value if name in {"kind", "hooks"} else length(value) for name, value in hanger.items()}
    return Piece(
        key="p1",
        number=1,
        name="boats",
        frame=Frame(width=length(width), height=length(height)),
        hanger=Hanger(**fields),
        hardware=hardware,
    )


def spots(hanging: PieceHanging) -> list[tuple[float, float, str]]:
    return [(round(x, 6), round(y, 6), what) for x, y, what in hanging.points]


def holes(hanging: PieceHanging) -> list[tuple[float, float]]:
    return [(round(x, 6), round(y, 6)) for x, y in hanging.holes]


def codes(hanging: PieceHanging) -> list[str]:
    return [problem.code for problem in hanging.problems]


def missing(hanging: PieceHanging) -> list[str]:
    return [str(problem.value("missing")) for problem in hanging.problems if problem.code == "not-measured"]


@pytest.mark.parametrize(
    ("hanger", "expected"),
    [
        # 500 − 40 = 460 above the lower edge; the middle of 400 is 200.
        ({"kind": "wire", "drop": 40}, [(200, 460, "hook")]),
        ({"kind": "wire", "drop": 40, "offset": -7}, [(193, 460, "hook")]),
        # Two hooks 120 apart: 200 ± 60.
        ({"kind": "wire", "drop": 40, "hooks": 2, "hook_spacing": 120}, [(140, 460, "hook"), (260, 460, "hook")]),
        ({"kind": "sawtooth", "drop": 12}, [(200, 488, "notch")]),
        ({"kind": "sawtooth", "drop": 12, "offset": 5}, [(205, 488, "notch")]),
        # Rings 260 apart: 200 ± 130, 80 down on both sides.
        ({"kind": "d-rings", "drop": 80, "spacing": 260}, [(70, 420, "ring"), (330, 420, "ring")]),
        # Unequal: left ring 72 down, right ring 74 down, hanger 6 left of the middle.
        (
            {"kind": "d-rings", "drop": 72, "drop_right": 74, "spacing": 260, "offset": -6},
            [(64, 428, "ring"), (324, 426, "ring")],
        ),
        ({"kind": "keyholes", "drop": 25, "spacing": 300}, [(50, 475, "keyhole"), (350, 475, "keyhole")]),
        (
            {"kind": "keyholes", "drop": 25, "drop_right": 22.5, "spacing": 300},
            [(50, 475, "keyhole"), (350, 477.5, "keyhole")],
        ),
        # Rail as measured: 200 ± 110. Not measured: 400 − 100 = 300 long, so 50 and 350.
        ({"kind": "cleat", "drop": 60, "spacing": 220}, [(90, 440, "cleat"), (310, 440, "cleat")]),
        ({"kind": "cleat", "drop": 60}, [(50, 440, "cleat"), (350, 440, "cleat")]),
        ({"kind": "ledge"}, [(100, 0, "ledge"), (300, 0, "ledge")]),
    ],
)
def test_points_of_each_hanger(hanger: dict[str, Any], expected: list[tuple[float, float, str]]) -> None:
    hanging = hang(made(**hanger))
    assert spots(hanging) == expected
    assert [problem for problem in hanging.problems if problem.level != "note"] == []


def test_the_rail_of_a_narrow_frame_is_half_its_width() -> None:
    # 150 − 100 = 50 is less than 150/2 = 75: 75 ± 37.5.
    assert spots(hang(made(width=150, kind="cleat", drop=60))) == [(37.5, 440, "cleat"), (112.5, 440, "cleat")]


def test_a_museum_example_of_two_rings_sideways() -> None:
    # Everson Museum of Art: edge at 36 in, rings 2 in in and 26 in apart, so hooks at 38 and 64 in.
    piece = made(width="30 in", height="40 in", kind="d-rings", drop="8 in", spacing="26 in")
    assert [(36 * 25.4 + x) / 25.4 for x, _, _ in hang(piece).points] == pytest.approx([38, 64], abs=1e-9)


def test_unequal_rings_each_keep_their_own_height() -> None:
    # Top edge 1 750 on the wall; rings 100 and 103 down hang at 1 650 and 1 647.
    hanging = hang(made(height=500, kind="d-rings", drop=100, drop_right=103, spacing=260))
    assert [1250 + y for _, y, _ in hanging.points] == [1650, 1647]


def test_the_drop_of_a_wire_is_computed_from_its_length() -> None:
    # An oak frame 500 × 700, rings 440 apart and 175 down, wire 480: h = sqrt(240² − 220²) = 95.917, d = 79.083.
    hanging = hang(made(width=500, height=700, kind="wire", spacing=440, wire=480, ring_drop=175))
    (point,) = hanging.points
    assert (point.x, point.what) == (250.0, "hook")
    assert point.y == pytest.approx(700 - 79.083, abs=1e-3)
    assert hanging.drop_is == "computed"


def test_two_hooks_have_the_drop_of_two_hooks() -> None:
    # The same wire on hooks 220 apart: h = sqrt(130² − 110²) = 69.282, d = 105.718; hooks at 250 ± 110.
    hanging = hang(
        made(width=500, height=700, kind="wire", spacing=440, wire=480, ring_drop=175, hooks=2, hook_spacing=220)
    )
    assert [round(x, 6) for x, _, _ in hanging.points] == [140, 360]
    assert [y for _, y, _ in hanging.points] == pytest.approx([700 - 105.718] * 2, abs=1e-3)


def test_unlevel_rings_of_a_wire_use_their_mean() -> None:
    # 3-4-5 with level rings at 160 and 160: wire 500 over 400 rises 150, drop 10. With rings 150 and 170 the
    # wire must be as long as its way: checked by walking it from ring to hook to ring.
    hanging = hang(made(kind="wire", spacing=390, wire=500, ring_drop=150, ring_drop_right=170))
    (point,) = hanging.points
    down = 500 - point.y
    walked = ((195**2 + (150 - down) ** 2) ** 0.5) + ((195**2 + (170 - down) ** 2) ** 0.5)
    assert walked == pytest.approx(500, abs=1e-9)


@pytest.mark.parametrize(
    ("hanger", "lacking"),
    [
        ({}, "hanger"),
        ({"kind": "wire"}, "drop"),
        ({"kind": "wire", "wire": 480}, "spacing ring-drop"),
        ({"kind": "wire", "wire": 480, "spacing": 300}, "ring-drop"),
        ({"kind": "wire", "drop": 40, "hooks": 2}, "hook-spacing"),
        ({"kind": "wire", "hooks": 2}, "drop hook-spacing"),
        ({"kind": "sawtooth"}, "drop"),
        ({"kind": "d-rings", "drop": 80}, "spacing"),
        ({"kind": "d-rings"}, "drop spacing"),
        ({"kind": "keyholes", "spacing": 80, "drop_right": 3}, "drop"),
        ({"kind": "cleat"}, "drop"),
        ({"kind": "strips"}, "face"),
    ],
)
def test_what_is_not_measured_gives_no_points_and_says_what(hanger: dict[str, Any], lacking: str) -> None:
    hanging = hang(made(**hanger))
    assert (hanging.points, hanging.holes, hanging.strips) == ((), (), None)
    assert missing(hanging) == [lacking]
    assert codes(hanging) == ["not-measured"]


@pytest.mark.parametrize(
    ("hanger", "why"),
    [
        ({"kind": "wire", "spacing": 300, "wire": 300, "ring_drop": 100}, "taut"),
        ({"kind": "wire", "spacing": 300, "wire": 250, "ring_drop": 100}, "taut"),
        ({"kind": "wire", "spacing": 300, "wire": 250, "drop": 40}, "taut"),
        ({"kind": "wire", "spacing": 300, "wire": 300, "drop": 40}, "taut"),
        # 150² + 100² > 305² / 4: the straight way between unlevel rings is longer than the wire.
        ({"kind": "wire", "spacing": 300, "wire": 305, "ring_drop": 100, "ring_drop_right": 200}, "taut"),
        (
            {"kind": "wire", "spacing": 300, "wire": 400, "ring_drop": 100, "hooks": 2, "hook_spacing": 310},
            "hooks-apart",
        ),
        ({"kind": "wire", "spacing": 410, "wire": 500, "ring_drop": 200}, "beside"),
        ({"kind": "wire", "drop": 501}, "below"),
        ({"kind": "sawtooth", "drop": 600}, "below"),
        ({"kind": "sawtooth", "drop": 12, "offset": 201}, "beside"),
        ({"kind": "d-rings", "drop": 80, "spacing": 402}, "beside"),
        ({"kind": "d-rings", "drop": 80, "drop_right": 501, "spacing": 300}, "below"),
        ({"kind": "keyholes", "drop": 80, "spacing": 300, "offset": 51}, "beside"),
    ],
)
def test_what_cannot_be_gives_no_points_and_stops(hanger: dict[str, Any], why: str) -> None:
    hanging = hang(made(**hanger))
    assert (hanging.points, hanging.holes) == ((), ())
    stops = [problem for problem in hanging.problems if problem.level == "stop"]
    assert [(problem.code, problem.value("why")) for problem in stops] == [("hanger-impossible", why)]


@pytest.mark.parametrize(("drop", "shows"), [(0, True), (9, True), (9.999, True), (10, False), (500, False)])
def test_hardware_within_10_mm_of_the_edge_shows(drop: float, shows: bool) -> None:
    hanging = hang(made(kind="sawtooth", drop=drop))
    assert (codes(hanging) == ["hook-shows"]) is shows
    assert spots(hanging) == [(200, 500 - drop, "notch")]


def test_a_nail_that_reaches_above_the_edge_shows() -> None:
    # Drop 15, hook 20 from seat to hole: the nail stands 5 above the frame, 505 from its lower edge.
    hanging = hang(made(kind="wire", drop=15, hardware=HardwareChoice(fixing="hook-one-nail", hook_offset=mm(20))))
    assert holes(hanging) == [(200, 505)]
    (problem,) = hanging.problems
    assert (problem.code, problem.level, problem.value("below_edge_mm")) == ("hook-shows", "warn", -5)


def test_a_wire_so_long_that_its_hook_shows_above_the_frame() -> None:
    # 3-4-5: wire 500 over 400 rises 150; rings 100 down would put the hook 50 above the top edge.
    hanging = hang(made(kind="wire", spacing=400, wire=500, ring_drop=100))
    assert spots(hanging) == [(200, 550, "hook")]
    assert codes(hanging) == ["hook-shows"]


def test_a_rail_wider_than_the_frame_shows_beside_it() -> None:
    hanging = hang(made(kind="cleat", drop=60, spacing=410))
    assert codes(hanging) == ["hook-shows"]
    assert len(hanging.points) == 2


@pytest.mark.parametrize(
    ("measured", "disagrees"), [(79, False), (82.08, False), (82.09, True), (76.09, False), (76.07, True)]
)
def test_the_measured_drop_wins_and_is_compared(measured: float, disagrees: bool) -> None:
    # The wire gives 79.083 (see above); 3 mm either way is allowed.
    hanging = hang(made(width=500, height=700, kind="wire", spacing=440, wire=480, ring_drop=175, drop=measured))
    assert spots(hanging) == [(250, round(700 - measured, 6), "hook")]
    assert codes(hanging) == (["drop-disagrees"] if disagrees else [])
    assert hanging.drop_is == "measured"
    assert hanging.computed_drop_mm == pytest.approx(79.083, abs=1e-3)


def test_a_drop_by_one_finger_on_two_hooks_is_recognised() -> None:
    # One finger gives 79.083, two hooks 220 apart 105.718: measured 79 was taken with one finger.
    hanging = hang(
        made(
            width=500, height=700, kind="wire", spacing=440, wire=480, ring_drop=175, drop=79, hooks=2, hook_spacing=220
        )
    )
    (problem,) = hanging.problems
    assert (problem.code, problem.value("one_finger")) == ("drop-disagrees", "yes")
    assert problem.value("computed_mm") == pytest.approx(105.718, abs=1e-3)


def test_a_drop_on_two_hooks_with_nothing_to_compare_is_asked_about() -> None:
    hanging = hang(made(kind="wire", drop=40, hooks=2, hook_spacing=120))
    assert [(problem.code, problem.level) for problem in hanging.problems] == [("drop-one-finger", "note")]


@pytest.mark.parametrize(
    ("hardware", "expected"),
    [
        (None, [(70, 420), (330, 418)]),
        (HardwareChoice(fixing="hook-one-nail", hook_offset=Length.from_text("20 mm")), [(70, 440), (330, 438)]),
        # A ring bears on the upper side of a 4 mm screw: its middle lies 2 lower.
        (HardwareChoice(fixing="plug-masonry", hook_offset=Length.from_text("-2 mm")), [(70, 418), (330, 416)]),
        # Not pinned: the catalogue's own offset, 18 for a one-nail hook.
        (HardwareChoice(fixing="hook-one-nail"), [(70, 438), (330, 436)]),
        (HardwareChoice(fixing="something of my own"), [(70, 420), (330, 418)]),
    ],
)
def test_holes_follow_the_fixing_and_points_do_not(
    hardware: HardwareChoice | None, expected: list[tuple[float, float]]
) -> None:
    hanging = hang(made(kind="d-rings", drop=80, drop_right=82, spacing=260, hardware=hardware))
    assert holes(hanging) == expected
    assert spots(hanging) == [(70, 420, "ring"), (330, 418, "ring")]


def test_the_packet_typed_over_moves_a_hole_that_is_not_pinned() -> None:
    notes = CatalogueNotes(changed=(CatalogueChange(entry="hook-one-nail", field="offset_mm", value=25.0),))
    piece = made(kind="wire", drop=40, hardware=HardwareChoice(fixing="hook-one-nail"))
    assert holes(hang(piece, catalogue=catalogue.of(notes))) == [(200, 485)]


def test_ledge_and_strips_need_no_hole() -> None:
    assert hang(made(kind="ledge", hardware=HardwareChoice(fixing="nail"))).holes == ()


def test_a_turned_piece_uses_the_hanger_measured_for_that_way_up() -> None:
    upright = made(kind="wire", drop=40)
    turned = hang(upright, turned=True)
    assert (turned.width_mm, turned.height_mm) == (500.0, 400.0)
    assert (turned.points, codes(turned)) == ((), ["hanger-unknown-turned"])
    both = Piece(
        key="p1", number=1, name="boats", frame=upright.frame, hanger=upright.hanger,
        hanger_turned=Hanger(kind="sawtooth", drop=mm(15)),
    )  # fmt: skip
    # Turned, the frame is 500 wide and 400 high: middle 250, 400 − 15 = 385.
    assert spots(hang(both, turned=True)) == [(250, 385, "notch")]


sizes = st.integers(60, 3000)


@given(width=sizes, height=sizes, share=st.floats(0, 1), spread=st.floats(0.01, 1))
def test_a_symmetric_frame_hangs_symmetrically(width: int, height: int, share: float, spread: float) -> None:
    hanging = hang(made(width, height, kind="d-rings", drop=round(share * height, 3), spacing=round(spread * width, 3)))
    (left, right) = hanging.points
    assert left.x + right.x == pytest.approx(width, abs=1e-9)
    assert left.y == right.y


@given(sixteenths=st.integers(16, 800), drop=st.integers(1, 16), wide=st.integers(20, 900))
def test_inches_and_millimetres_give_the_same_nail(sixteenths: int, drop: int, wide: int) -> None:
    def both(count: int) -> tuple[str, str]:
        return f"{count}/16 in", f"{count * 25.4 / 16:.6f} mm"

    (width_in, width_mm), (height_in, height_mm), (drop_in, drop_mm) = both(wide), both(sixteenths), both(drop)
    inches = hang(made(width_in, height_in, kind="sawtooth", drop=drop_in))
    metric = hang(made(width_mm, height_mm, kind="sawtooth", drop=drop_mm))
    assert [*inches.points[0][:2]] == pytest.approx([*metric.points[0][:2]], abs=0.01)


def test_a_drop_on_two_hooks_that_fits_neither_way_of_measuring() -> None:
    # One finger 79.083, two hooks 105.718 (as above); 92 is 13 off either. OpenStax statics as in the kernel.
    hanging = hang(
        made(
            width=500, height=700, kind="wire", spacing=440, wire=480, ring_drop=175, drop=92, hooks=2, hook_spacing=220
        )
    )
    (problem,) = hanging.problems
    assert (problem.code, problem.value("one_finger")) == ("drop-disagrees", None)


def test_what_just_fits_the_frame_is_no_fault() -> None:
    """The frame is 400 by 500: rings, hooks and seats may lie on its very edge."""
    assert codes(hang(made(kind="wire", spacing=300, drop=40, offset=50))) == []  # 150 + 50 = 200
    assert codes(hang(made(kind="wire", spacing=300, drop=40, offset=51))) == ["hanger-impossible"]
    assert spots(hang(made(kind="wire", drop=500))) == [(200, 0, "hook")]
    assert spots(hang(made(kind="sawtooth", drop=12, offset=200))) == [(400, 488, "notch")]
    assert spots(hang(made(kind="sawtooth", drop=12, offset=-200))) == [(0, 488, "notch")]
    assert codes(hang(made(kind="sawtooth", drop=12, offset=-201))) == ["hanger-impossible"]
    below = hang(made(kind="wire", drop=501)).problems[0]
    assert (below.value("drop_mm"), below.value("height_mm")) == (501, 500)


def test_hooks_as_far_apart_as_the_rings_hang_the_wire_in_two_plumb_lines() -> None:
    # Wire 400, 300 of it level between the hooks: 50 on either side, so the rings hang 50 below the hooks.
    hanging = hang(made(kind="wire", spacing=300, wire=400, ring_drop=100, hooks=2, hook_spacing=300))
    assert spots(hanging) == [(50, 450, "hook"), (350, 450, "hook")]


@pytest.mark.parametrize("measured", [53, 47])
def test_a_drop_is_one_finger_s_to_3_mm(measured: float) -> None:
    # 3-4-5: wire 500 over 400 rises 150; rings 200 down give 50 with one finger. Two hooks 100 apart: 400 over 300
    # rises sqrt(200² − 150²) = 132.288, so 67.712.
    wire: dict[str, Any] = {"kind": "wire", "spacing": 400, "wire": 500, "ring_drop": 200, "hooks": 2}
    (near,) = hang(made(**wire, hook_spacing=100, drop=measured)).problems
    assert (near.code, near.value("one_finger")) == ("drop-disagrees", "yes")
    (off,) = hang(made(**wire, hook_spacing=100, drop=measured + (0.01 if measured > 50 else -0.01))).problems
    assert off.value("one_finger") is None


@pytest.mark.parametrize(("drop", "agrees"), [(53, True), (53.001, False), (47, True), (46.999, False)])
def test_3_mm_off_is_still_the_same_drop(drop: float, agrees: bool) -> None:
    # 3-4-5 as above: 50. Three millimetres are what a tape and a stretched wire differ by (judgement).
    found = codes(hang(made(kind="wire", spacing=400, wire=500, ring_drop=200, drop=drop)))
    assert found == ([] if agrees else ["drop-disagrees"])


def test_what_was_measured_is_called_so_and_a_ledge_has_no_hook() -> None:
    assert hang(made(kind="sawtooth", drop=12)).drop_is == "measured"
    assert hang(made(kind="wire", spacing=400, wire=500, ring_drop=200)).drop_is == "computed"
    nail = HardwareChoice(fixing="hook-one-nail", hook_offset=mm(20))
    assert hang(made(kind="ledge", hardware=nail)).hook_offset_mm == 0.0


def test_cords_from_a_rail_leave_the_wall_whole() -> None:
    hanging = hang(made(kind="d-rings", drop=80, spacing=260, hardware=HardwareChoice(fixing="rail-cord", count=2)))
    assert (len(hanging.points), hanging.holes) == (2, ())


def test_the_higher_of_two_seats_shows_even_where_both_holes_lie_lower() -> None:
    # Seats 5 and 100 below the edge, the screw 20 under each ring.
    screw = HardwareChoice(fixing="plug-masonry", count=2, hook_offset=mm(-20))
    (shows,) = hang(made(kind="d-rings", drop=5, drop_right=100, spacing=260, hardware=screw)).problems
    assert (shows.code, shows.value("below_edge_mm"), shows.value("edge")) == ("hook-shows", 5, "top")


@pytest.mark.parametrize(
    ("spacing", "offset", "inside"), [(380, 0, None), (381, 0, 9.5), (380, 5, 5), (380, -5, 5), (300, 0, None)]
)
def test_a_rail_nearer_than_10_mm_to_one_side_shows(spacing: float, offset: float, inside: float | None) -> None:
    # 400 wide: (400 − 380) / 2 = 10 on both sides; 5 to one side leaves 5 there.
    problems = hang(made(kind="cleat", drop=60, spacing=spacing, offset=offset)).problems
    assert [(one.code, one.value("below_edge_mm"), one.value("edge")) for one in problems] == (
        [] if inside is None else [("hook-shows", inside, "side")]
    )
