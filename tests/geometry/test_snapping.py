"""Laws of snapping, by random walls; the worked cases are sums anyone can do by hand."""

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from composer.geometry.rectangle import Rectangle
from composer.geometry.snapping import (
    CATCH_PX,
    RELEASE_PX,
    Catch,
    Guide,
    KeepOut,
    Neighbour,
    SnapSession,
    step,
)

SCALE = 0.24
"""px per mm: a 3.2 m wall in a middling window."""

grid = st.integers(0, 3000).map(float)
sizes = st.integers(60, 700).map(float)
boxes = st.builds(Rectangle.at, grid, grid, sizes, sizes)
neighbours = st.lists(boxes, max_size=8).map(lambda found: [Neighbour(f"{n}", box) for n, box in enumerate(found)])
scales = st.sampled_from([0.05, 0.12, 0.24, 1.0, 3.0])


def begin(still: list[Neighbour], **more: object) -> SnapSession:
    return SnapSession.begin(still, gap=50.0, **more)  # type: ignore[arg-type]


def rules(catches: tuple[Catch, ...], axis: str) -> list[tuple[str, tuple[str, ...]]]:
    return [(catch.rule, catch.names) for catch in catches if catch.axis == axis]


def test_a_gap_is_caught_exactly_and_only_where_the_frames_face() -> None:
    still = [Neighbour("6", Rectangle.at(1000, 1200, 300, 400))]
    snap, _ = step(begin(still), Rectangle.at(1361, 1300, 200, 200), SCALE)
    assert snap.box.left == 1350
    assert rules(snap.catches, "x") == [("gap", ("6",))]
    assert snap.catches[0].gaps == (Rectangle(1300, 1300, 1350, 1500),)
    above, _ = step(begin(still), Rectangle.at(1361, 1900, 200, 200), SCALE)
    assert above.box.left == 1361


def test_eye_line_wall_middle_and_margin() -> None:
    guides = [
        Guide("x", "centre", 1600, "wall-middle", "wall middle"),
        Guide("y", "centre", 1450, "eye-line", "eye line"),
        Guide("x", "low", 100, "wall-margin", "margin"),
    ]
    snap, _ = step(begin([], guides=guides), Rectangle.at(1490, 1230, 200, 400), SCALE)
    assert snap.box == Rectangle.at(1500, 1250, 200, 400)
    assert {catch.rule for catch in snap.catches} == {"wall-middle", "eye-line"}
    snap, _ = step(begin([], guides=guides), Rectangle.at(110, 300, 200, 400), SCALE)
    assert snap.box.left == 100


def test_the_middle_of_a_sofa_holds_what_hangs_above_it() -> None:
    sofa = KeepOut("sofa", Rectangle.at(700, 0, 2000, 840), 150)
    snap, _ = step(begin([], keep_outs=[sofa]), Rectangle.at(1510, 1004, 400, 300), SCALE)
    assert snap.box == Rectangle.at(1500, 990, 400, 300)
    assert {catch.rule for catch in snap.catches} == {"thing-middle", "keep-out"}


def test_equal_spacing_between_two_and_carrying_on() -> None:
    row = [Neighbour("1", Rectangle.at(0, 1000, 200, 300)), Neighbour("2", Rectangle.at(700, 1000, 200, 300))]
    snap, _ = step(begin(row), Rectangle.at(356, 1020, 200, 300), SCALE)
    assert snap.box.left == 350
    assert rules(snap.catches, "x")[0][0] == "spacing"
    pair = [Neighbour("1", Rectangle.at(0, 1000, 200, 300)), Neighbour("2", Rectangle.at(290, 1000, 200, 300))]
    snap, _ = step(begin(pair), Rectangle.at(575, 1011, 100, 300), SCALE)
    assert snap.box.left == 580
    assert snap.catches[0].gaps == (Rectangle(490, 1000, 580, 1300), Rectangle(200, 1000, 290, 1300))


@given(neighbours, boxes, scales)
@settings(max_examples=300)
def test_it_never_moves_farther_than_the_hand_feels(still: list[Neighbour], box: Rectangle, scale: float) -> None:
    snap, session = step(begin(still), box, scale)
    assert abs(snap.box.left - box.left) * scale <= CATCH_PX + 1e-9
    assert abs(snap.box.bottom - box.bottom) * scale <= CATCH_PX + 1e-9
    again, _ = step(session, box, scale)
    assert abs(again.box.left - box.left) * scale <= RELEASE_PX + 1e-9


@given(neighbours, boxes, scales)
@settings(max_examples=300)
def test_a_still_hand_keeps_what_it_has(still: list[Neighbour], box: Rectangle, scale: float) -> None:
    snap, session = step(begin(still), box, scale)
    again, held = step(session, box, scale)
    assert again.box == snap.box
    assert held.held == session.held


@given(neighbours, boxes, scales)
@settings(max_examples=300)
def test_every_rule_it_names_holds_where_the_piece_ends(still: list[Neighbour], box: Rectangle, scale: float) -> None:
    snap, _ = step(begin(still), box, scale)
    by_name = {neighbour.name: neighbour.box for neighbour in still}
    for catch in snap.catches:
        low, high = (snap.box.left, snap.box.right) if catch.axis == "x" else (snap.box.bottom, snap.box.top)
        other = by_name[catch.names[0]]
        olow, ohigh = (other.left, other.right) if catch.axis == "x" else (other.bottom, other.top)
        if catch.rule == "gap":
            assert min(abs(low - ohigh - 50), abs(olow - high - 50)) <= 0.31
            side = 1 if catch.axis == "x" else 0
            assert snap.box.overlap(other)[side] > 0
        elif catch.rule == "edge":
            assert min(abs(low - olow), abs(high - ohigh)) <= 0.31
        elif catch.rule == "centre":
            assert abs(low + high - olow - ohigh) / 2 <= 0.31


def mirrored(box: Rectangle) -> Rectangle:
    return Rectangle(-box.right, box.bottom, -box.left, box.top)


@given(neighbours, boxes)
@example(  # two end at one place, and only the shorter leaves room for a third before it
    [
        Neighbour("0", Rectangle(0, 0, 60, 60)),
        Neighbour("1", Rectangle(0, 0, 693, 60)),
        Neighbour("2", Rectangle(115, 0, 693, 60)),
    ],
    Rectangle.at(748, 0, 60, 60),
)
@settings(max_examples=300)
def test_a_mirrored_wall_is_caught_at_the_same_distance(still: list[Neighbour], box: Rectangle) -> None:
    snap, _ = step(begin(still), box, SCALE)
    other = [Neighbour(name, mirrored(stays)) for name, stays in still]
    turned, _ = step(begin(other), mirrored(box), SCALE)
    assert abs(turned.box.left - mirrored(box).left) == pytest.approx(abs(snap.box.left - box.left), abs=1e-6)


def test_hysteresis_holds_to_twelve_pixels_and_catches_at_eight() -> None:
    guides = [Guide("x", "low", 1000, "wall-margin", "margin")]
    session = begin([], guides=guides)
    snap, _ = step(session, Rectangle.at(1010, 0, 200, 200), 1.0)
    assert snap.box.left == 1010
    snap, held = step(session, Rectangle.at(1007, 0, 200, 200), 1.0)
    assert snap.box.left == 1000
    snap, held = step(held, Rectangle.at(1011, 0, 200, 200), 1.0)
    assert snap.box.left == 1000
    snap, held = step(held, Rectangle.at(1013, 0, 200, 200), 1.0)
    assert snap.box.left == 1013
    assert held.held == ()


def test_other_lines_of_the_wall_while_a_piece_is_held() -> None:
    first = Guide("y", "centre", 1450, "eye-line", "eye line")
    session = begin([Neighbour("6", Rectangle.at(1000, 1200, 300, 400))], guides=[first])
    lines = [Guide("y", "centre", 1600, "eye-line", "eye line"), Guide("x", "low", 500, "wall-margin", "margin")]
    snap, _ = step(session.with_guides(lines), Rectangle.at(503, 1395, 200, 400), SCALE)
    assert (snap.box.left, snap.box.centre[1]) == (500, 1600)
    gone, _ = step(session.with_guides(lines), Rectangle.at(2000, 1246, 200, 400), SCALE)
    assert gone.box.bottom == 1246  # the first line is no more


def test_what_one_direction_moves_may_free_the_other() -> None:
    # Far above the neighbour its gap along x counts for nothing; a row away it does. The piece is lifted by the
    # neighbour's upper edge until both face; then the gap pulls it across, and both hold where it ends.
    still = [Neighbour("6", Rectangle.at(1000, 1000, 300, 300))]
    for bottom in range(1290, 1310):
        snap, _ = step(begin(still), Rectangle.at(1345, float(bottom), 200, 200), 1.0)
        for catch in snap.catches:
            if catch.rule == "gap":
                side = 1 if catch.axis == "x" else 0
                assert snap.box.overlap(still[0].box)[side] > 0
