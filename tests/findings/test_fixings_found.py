"""What is found about wires, points, frames, fixings, studs and cables."""

from typing import Any

import msgspec
import pytest

from composer.findings import check
from composer.findings.sentences import do
from composer.hanging.cables import cable_zones
from composer.hanging.weight import weight_of
from composer.model import Finding, Frame, Hanger, HardwareChoice, Piece, Project, Wall
from composer.units import Mass
from tests.findings.test_findings import at, mm, project, thing


def piece(hanger: Hanger, width: float = 400, *, kg: str = "2 kg", fixing: str | None = None, **frame: Any) -> Piece:
    return Piece(
        key="p1",
        number=1,
        name="mill",
        frame=Frame(width=mm(width), height=mm(500), **{name: _length(value) for name, value in frame.items()}),
        hanger=hanger,
        weight=Mass.from_text(kg),
        hardware=None if fixing is None else HardwareChoice(fixing=fixing, count=1),
    )


def _length(value: Any) -> Any:
    return mm(value) if isinstance(value, int | float) else value


def on_wall(one: Piece, left: float = 1000, bottom: float = 1200, **wall: Any) -> dict[str, Finding]:
    region = wall.pop("region", "none")
    things = wall.pop("things", ())
    made: Project = project([one], [at(1, left, bottom)], things)
    walls = (msgspec.structs.replace(made.walls[0], **{"surface": "painted-board", **wall}),)
    made = msgspec.structs.replace(made, walls=walls, region=region)
    return {finding.code: finding for finding in check(made)}


def wire(length: float, spacing: float = 300, **more: Any) -> Hanger:
    return Hanger(kind="wire", spacing=mm(spacing), wire=mm(length), ring_drop=mm(120), **more)


@pytest.mark.parametrize(
    ("length", "tight"),
    # θ = acos(s/L): 300/310 → 14.6° (tight), 300/311 → 15.3°.
    [(304, True), (310, True), (311, False), (340, False)],
)
def test_a_wire_is_tight_below_15_degrees(length: float, tight: bool) -> None:
    assert ("wire-tight" in on_wall(piece(wire(length)))) is tight


def test_a_tight_wire_says_how_hard_it_pulls() -> None:
    values = dict(on_wall(piece(wire(304)))["wire-tight"].values)
    # L/(4h): h = sqrt(152² − 150²) = 24.58; 304/98.3 = 3.092. At 30° the wire is 300/cos 30° = 346.4 long.
    assert values["times"] == pytest.approx(3.092, abs=1e-3)
    assert values["wire_at_30_mm"] == pytest.approx(346.41, abs=0.01)


def test_a_weak_wire_is_found_by_its_breaking_load() -> None:
    # 300/340: θ 28.07°, T/W = 1/(2 sin θ) = 1.0625. A wire sold for 5 kg breaks at 20 and takes 5.
    weak = on_wall(piece(wire(340, wire_class="wire-5"), kg="5 kg"))
    assert dict(weak["wire-tight"].values)["pull_kg"] == pytest.approx(5 * 1.0625, abs=1e-3)
    assert "wire-tight" not in on_wall(piece(wire(340, wire_class="wire-5"), kg="4.7 kg"))


def test_a_wide_frame_on_one_hook() -> None:
    assert "one-hook-wide" not in on_wall(piece(wire(340), width=500))
    values = dict(on_wall(piece(wire(340), width=501))["one-hook-wide"].values)
    # h = sqrt(170² − 150²) = 80; c = 250 − 120 = 130: 10 400 < 22 500.
    assert values["stays_level"] == "no"
    assert "one-hook-wide" not in on_wall(piece(wire(340, hooks=2, hook_spacing=mm(200)), width=501))


@pytest.mark.parametrize(("offset", "tilts"), [(1, False), (2, True), (-5, True)])
def test_a_hanger_off_the_middle_tilts_the_frame(offset: float, tilts: bool) -> None:
    # 500 high, drop 40: 210 above the middle; atan(1/210) = 0.27°, atan(2/210) = 0.55°; 0.3° is our limit.
    hanger = Hanger(kind="sawtooth", drop=mm(40), offset=mm(offset))
    assert ("hangs-askew" in on_wall(piece(hanger))) is tilts


def test_unequal_rings_are_said_with_the_side_that_is_higher() -> None:
    def rings(right: float) -> Hanger:
        return Hanger(kind="d-rings", drop=mm(60), drop_right=mm(right), spacing=mm(300))

    assert "unequal-hooks" not in on_wall(piece(rings(60.4)))
    lower = on_wall(piece(rings(63)))["unequal-hooks"]
    assert (lower.level, dict(lower.values)["higher"]) == ("note", "left")
    assert dict(lower.values)["tilt_deg"] == pytest.approx(0.573, abs=1e-3)  # asin(3/300)
    assert dict(on_wall(piece(rings(50)))["unequal-hooks"].values)["higher"] == "right"
    assert on_wall(piece(rings(75)))["unequal-hooks"].level == "warn"


@pytest.mark.parametrize(("spacing", "close"), [(102, True), (189, True), (191, False)])
def test_a_pair_too_close_to_level(spacing: float, close: bool) -> None:
    # 1 mm is 0.3° over 191 mm.
    hanger = wire(420, 300, hooks=2, hook_spacing=mm(spacing))
    assert ("pair-close" in on_wall(piece(hanger))) is close


def test_a_frame_out_of_square() -> None:
    hanger = Hanger(kind="sawtooth", drop=mm(40))
    assert "out-of-square" in on_wall(piece(hanger, diagonal_rising=640, diagonal_falling=642.1))
    assert "out-of-square" not in on_wall(piece(hanger, diagonal_rising=640, diagonal_falling=641.9))


@pytest.mark.parametrize(
    ("fixing", "kg", "level"),
    # One-nail hook: half of 30 lb, 6.8 kg (catalogue).
    [("hook-one-nail", "6.8 kg", None), ("hook-one-nail", "6.81 kg", "stop"), ("hook-three-nails", "20 kg", None)],
)
def test_a_chosen_hook_must_carry_the_weight_once(fixing: str, kg: str, level: str | None) -> None:
    found = on_wall(piece(wire(340), kg=kg, fixing=fixing)).get("overload")
    assert (None if found is None else found.level) == level


def test_an_estimate_counts_with_its_high_end() -> None:
    # Nobody measured glass and backing: their high end is a quarter above the usual thickness.
    hanger = Hanger(kind="sawtooth", drop=mm(40))
    oak: dict[str, Any] = {"moulding": "oak", "glazing": "glass", "face": 30, "moulding_thickness": 20, "lip": 6}
    estimated = msgspec.structs.replace(piece(hanger, width=920, fixing="hook-slim", **oak), weight=None)
    weight = weight_of(estimated)
    assert weight is not None
    assert weight.kg < 5 < weight.high  # the slim hook carries 5 kg
    values = dict(on_wall(estimated)["overload"].values)
    assert (values["weight_kg"], values["measured"]) == (weight.high, "no")


def test_a_frame_that_leans_out() -> None:
    # Rings at the middle of a deep frame: m = 500 − 250, λ = 80, t 40: (80·20 + 8·250 + 3·330)/(250·330 − 80·250)
    # = 4590/62500 = 0.0734 rad = 4.2°; rings at 100 down: (1600 + 3200 + 1440)/(192000 − 20000) = 2.1°.
    low = Hanger(kind="wire", spacing=mm(300), wire=mm(340), ring_drop=mm(250))
    found = on_wall(piece(low, depth=40))["leans-forward"]
    assert dict(found.values)["lean_deg"] == pytest.approx(4.208, abs=0.01)
    assert "leans-forward" not in on_wall(piece(wire(340), depth=18))


@pytest.mark.parametrize(
    ("surface", "level"), [("painted-board", None), ("masonry", "stop"), ("tile", "stop"), ("unknown", "warn")]
)
def test_a_hook_holds_in_its_kinds_of_wall_only(surface: str, level: str | None) -> None:
    found = on_wall(piece(wire(340), fixing="hook-one-nail"), surface=surface).get("fixing-wall")
    assert (None if found is None else found.level) == level


@pytest.mark.parametrize(
    ("left", "away"),
    # Studs at 400, 1000, 1600 …; the hole of a 400 wide piece with one hook lies at left + 200.
    [(800, None), (813, None), (787, None), (813.5, -13.5), (780, 20)],
)
def test_a_screw_must_meet_its_stud(left: float, away: float | None) -> None:
    studs: dict[str, Any] = {"stud_first": mm(400), "stud_spacing": mm(600)}
    found = on_wall(piece(wire(340), fixing="screw-stud"), left=left, **studs).get("stud-missed")
    assert (None if found is None else dict(found.values)["away_mm"]) == away


def test_a_screw_for_studs_nobody_found() -> None:
    assert dict(on_wall(piece(wire(340), fixing="screw-stud"))["stud-missed"].values)["known"] == "no"
    assert "stud-missed" not in on_wall(piece(wire(340), fixing="screw-stud"), surface="timber")


def test_an_anchor_for_hollows_does_not_go_into_a_stud() -> None:
    studs: dict[str, Any] = {"stud_first": mm(400), "stud_spacing": mm(600)}
    assert "stud-there" in on_wall(piece(wire(340), fixing="toggle"), left=815, **studs)
    assert "stud-there" not in on_wall(piece(wire(340), fixing="toggle"), left=820, **studs)


def test_what_is_left_of_an_old_hanger_under_strips() -> None:
    old = Hanger(kind="strips", drop=mm(60), spacing=mm(300))
    assert dict(on_wall(piece(old, face=34, lip=6))["old-hanger"].values)["measures"] == "drop spacing"
    assert "old-hanger" not in on_wall(piece(Hanger(kind="strips"), face=34, lip=6))


SAWTOOTH = Hanger(kind="sawtooth", drop=mm(20))


def zones(left: float, bottom: float, **wall: Any) -> list[str]:
    found = on_wall(piece(SAWTOOTH), left=left, bottom=bottom, **wall).get("cable-zone")
    return [] if found is None else str(dict(found.values)["zones"]).split()


@pytest.mark.parametrize(
    ("hole", "expected"),
    [
        # BS 7671, regulation 522.6.202: within 150 mm of the top of a wall 2 400 high, of a corner between walls.
        ((1800, 2251), ["top"]),
        ((1800, 2249), []),
        ((149, 1000), ["corner"]),
        ((151, 1000), []),
        ((3600 - 149, 1000), ["corner"]),
        # Above and level with a socket whose plate lies at 2000…2086, 300…386; 50 mm beside it (judgement).
        ((2040, 1500), ["column"]),
        ((1949, 1500), []),
        ((1951, 1500), ["column"]),
        ((1000, 340), ["row"]),
        ((1000, 437), []),
    ],
)
def test_zones_where_cables_may_run(hole: tuple[float, float], expected: list[str]) -> None:
    socket = (thing("socket", 2000, 300, 86, 86),)
    # The hole is 200 right of the piece's left edge and 480 above its lower one.
    at_hole = (hole[0] - 200, hole[1] - 480)
    assert zones(*at_hole, region="uk", height=mm(2400), things=socket) == expected


def test_corners_only_where_walls_meet_and_zones_by_region() -> None:
    assert zones(-60, 500, region="uk", left_end="free") == []
    assert zones(-60, 500, region="none") == []
    assert zones(1800, 2000, region="us") == []
    socket = (thing("socket", 2000, 300, 86, 86),)
    assert zones(1840, 1000, region="none", things=socket) == ["column"]


def test_the_top_of_a_sloping_wall_slopes() -> None:
    slope = ((0.0, 0.0), (3600.0, 0.0), (3600.0, 1500.0), (0.0, 2500.0))
    # Above x = 1800 the wall ends at 2000: 1851 lies in the zone, 1849 does not.
    assert zones(1600, 1851 - 480, region="uk", outline=slope) == ["top"]
    assert zones(1600, 1849 - 480, region="uk", outline=slope) == []


def test_strips_make_no_hole_and_meet_no_cable() -> None:
    socket = (thing("socket", 1000, 300, 86, 86),)
    assert "cable-zone" not in on_wall(piece(Hanger(kind="strips"), face=34, lip=6), region="uk", things=socket)


def test_a_narrow_moulding_is_told_which_ways_out_hold_it() -> None:
    # Flat 22 − 6 = 16: medium needs 19, so 3 mm of filler; four pairs (500 high) carry 3.6 kg, half pairs 1.8 kg.
    narrow = on_wall(piece(Hanger(kind="strips"), kg="0.5 kg", face=22, lip=6))["strip-width"]
    said = do(narrow).replace("\u00a0", " ")
    for words in ("filler 3 mm", "3.6 kg", "nails", "lengthwise", "1.8 kg"):
        assert words in said
    # 2 kg wants 3 kg of strips: half pairs of large carry 3.6 kg; 4 kg wants 6, which no halves carry.
    heavy = on_wall(piece(Hanger(kind="strips"), kg="4 kg", face=22, lip=6))["strip-width"]
    assert "lengthwise" not in do(heavy)


def test_cords_from_a_picture_rail_need_no_hole() -> None:
    nailed = on_wall(piece(wire(340), fixing="hook-one-nail"), no_holes=True, region="uk", bottom=1950)
    assert {"holes-not-allowed", "cable-zone"} <= set(nailed)
    railed = on_wall(piece(wire(340), fixing="rail-cord"), no_holes=True, region="uk", bottom=1950)
    assert not {"holes-not-allowed", "cable-zone", "fixing-wall"} & set(railed)


def test_bands_to_draw_follow_the_wall() -> None:
    # A level part 1 000 wide at 2 500, then a slope down to 1 500 at 3 600; corner left, open end right.
    wall = Wall(
        key="w50",
        name="attic",
        width=mm(3600),
        height=mm(2500),
        outline=((0.0, 0.0), (3600.0, 0.0), (3600.0, 1500.0), (1000.0, 2500.0), (0.0, 2500.0)),
        right_end="free",
        obstacles=(thing("switch", 2000, 1000, 80, 80),),
    )
    bands = {(zone.kind, zone.corners) for zone in cable_zones(wall, "uk")}
    assert bands == {
        ("top", ((0.0, 2350.0), (1000.0, 2350.0), (1000.0, 2500.0), (0.0, 2500.0))),
        ("top", ((1000.0, 2350.0), (3600.0, 1350.0), (3600.0, 1500.0), (1000.0, 2500.0))),
        ("corner", ((0.0, 0.0), (150.0, 0.0), (150.0, 2500.0), (0.0, 2500.0))),
        ("column", ((1950.0, 0.0), (2130.0, 0.0), (2130.0, 2500.0), (1950.0, 2500.0))),
        ("row", ((0.0, 950.0), (3600.0, 950.0), (3600.0, 1130.0), (0.0, 1130.0))),
    }
    assert {zone.kind for zone in cable_zones(wall, "none")} == {"column", "row"}
