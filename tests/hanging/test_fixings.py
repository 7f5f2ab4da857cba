"""What holds twenty mixed pieces on two walls, against a table worked by hand; strips' ways out; totals."""

from typing import Any

import pytest

from composer.catalogue import catalogue
from composer.findings.sentences_of_offers import way_out, why_not
from composer.hanging.fixings import carried_kg, count_of, offers, usual_count
from composer.hanging.holding import Holding, holding
from composer.hanging.points import hang
from composer.hanging.strip_ladder import ladder
from composer.hanging.studs import nearest_stud_mm
from composer.hanging.tally import tally
from composer.model import Frame, Hanger, HardwareChoice, Piece, Wall
from composer.units import Length, LengthStyle, Mass


def mm(value: float) -> Length:
    return Length.of_mm(value)


BOARD = Wall(
    key="w1",
    name="board",
    width=mm(4000),
    height=mm(2500),
    surface="painted-board",
    stud_first=mm(400),
    stud_spacing=mm(600),
)
MASONRY = Wall(key="w2", name="chimney", width=mm(4000), height=mm(2500), surface="masonry")


def piece(kind: Any, kg: float | None, *, width: float = 400, fixing: str | None = None, **hanger: Any) -> Piece:
    frame: dict[str, Any] = {name: mm(hanger.pop(name)) for name in ("face", "lip") if name in hanger}
    measures: dict[str, Any] = {
        name: mm(value) if isinstance(value, float) else value for name, value in hanger.items()
    }
    return Piece(
        key="p1",
        number=1,
        name="mill",
        frame=Frame(width=mm(width), height=mm(440), **frame),
        hanger=Hanger(kind=kind, **measures),
        weight=None if kg is None else Mass.from_text(f"{kg} kg"),
        hardware=None if fixing is None else HardwareChoice(fixing=fixing, count=1),
    )


def one(kg: float) -> Piece:
    return piece("wire", kg, drop=60.0)


def two(kg: float) -> Piece:
    return piece("wire", kg, drop=60.0, hooks=2, hook_spacing=200.0)


def sawtooth(kg: float) -> Piece:
    return piece("sawtooth", kg, drop=12.0)


def rings(kg: float) -> Piece:
    return piece("d-rings", kg, drop=60.0, spacing=300.0)


def keyholes(kg: float) -> Piece:
    return piece("keyholes", kg, drop=25.0, spacing=300.0)


def cleat(kg: float) -> Piece:
    return piece("cleat", kg, drop=50.0, spacing=300.0)


def strips(kg: float) -> Piece:
    return piece("strips", kg, face=34.0, lip=6.0)


LEDGE = piece("ledge", 3)

# Working loads (catalogue, each with its source): slim hook 5, one nail 6.8, two nails 11.3, three nails 20,
# bare nail in board 1.5, plug in board 5, self-drilling 10, toggle 20, plug in masonry 15 kg. Two of them carry
# a load over 0.6. Hooks stand 15 to 26 mm above the point, so at 12 mm of drop they show; nails and screws do not.
TWENTY: list[tuple[Wall, Piece, str]] = [
    (BOARD, one(2.2), "hook-slim"),  # 2.2 ≤ 5
    (BOARD, one(6.0), "hook-one-nail"),  # 5 < 6 ≤ 6.8
    (BOARD, two(10.0), "hook-one-nail"),  # 5/0.6 = 8.3 < 10 ≤ 6.8/0.6 = 11.3
    (BOARD, one(15.0), "hook-three-nails"),  # 11.3 < 15 ≤ 20
    (BOARD, sawtooth(1.2), "nail-board"),  # 1.2 ≤ 1.5
    (BOARD, sawtooth(3.0), "plug-board"),  # 1.5 < 3; hooks show; 3 ≤ 5
    (BOARD, rings(8.0), "hook-slim"),  # 8 ≤ 8.3
    (BOARD, keyholes(4.0), "plug-board"),  # no hook fits a keyhole; nails 1.5/0.6 = 2.5 < 4 ≤ 8.3
    (BOARD, cleat(12.0), "cleat-rail"),  # two self-drilling: 10/0.6 = 16.7
    (BOARD, strips(0.6), "strips"),  # 1.5 · 0.6 = 0.9 ≤ two medium pairs, 1.8
    (BOARD, LEDGE, "ledge"),
    (BOARD, one(26.0), "too-weak"),  # one fixing in board: 20 at most
    (MASONRY, one(5.0), "plug-masonry"),
    (MASONRY, rings(22.0), "plug-masonry"),  # 15/0.6 = 25
    (MASONRY, sawtooth(1.0), "plug-masonry"),
    (MASONRY, keyholes(20.0), "plug-masonry"),
    (MASONRY, cleat(24.0), "cleat-rail"),  # two plugs: 25
    (MASONRY, LEDGE, "ledge"),
    (MASONRY, strips(0.5), "strip-wall"),  # packets: smooth paint, never bare masonry
    (MASONRY, one(16.0), "too-weak"),  # one plug: 15
]


def answer(found: Holding) -> str:
    if found.by == "fixing":
        assert found.proposed is not None
        return found.proposed.fixing.id
    return found.why or "" if found.by == "nothing" else found.by


def held(wall: Wall, of: Piece) -> Holding:
    # At 520 no hole (520 + 50 … 520 + 350) comes within 19 mm of the studs at 400 and 1000.
    return holding(of, wall, catalogue.usual(), at=(520.0, 1200.0))


def test_twenty_pieces_on_two_walls() -> None:
    found = [held(wall, of) for wall, of, _ in TWENTY]
    assert [answer(one_of) for one_of in found] == [expected for _, _, expected in TWENTY]
    assert sum(one_of.by != "nothing" for one_of in found) >= 16
    for one_of in found:
        if one_of.proposed is not None:
            assert one_of.proposed.margin is not None
            assert one_of.proposed.margin >= 1
        for offer in one_of.offers:
            assert offer.holds == (why_not(offer) == "")


def test_nothing_is_chosen_by_itself() -> None:
    assert hang(one(2.2)).holes[0].y == hang(one(2.2)).points[0].y
    assert one(2.2).hardware is None


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"no_holes": True}, "no-holes"),
        ({"surface": "unknown"}, "wall-unknown"),
        ({"surface": "tile"}, None),
    ],
)
def test_walls_that_may_have_no_holes_or_are_unknown(change: dict[str, Any], why: str | None) -> None:
    import msgspec

    found = held(msgspec.structs.replace(BOARD, **change), one(2.2))
    assert (None if found.by == "fixing" else found.why) == why


def test_what_nobody_weighed_or_measured_gets_no_hardware() -> None:
    assert held(BOARD, piece("wire", None, drop=60.0)).why == "weight-unknown"
    assert held(BOARD, piece("wire", 2.0)).why == "no-points"
    assert held(BOARD, piece(None, 2.0)).why == "not-measured"


def test_every_other_class_says_why_not() -> None:
    said = {offer.fixing.id: why_not(offer, LengthStyle("mm")) for offer in held(BOARD, one(6.0)).offers}
    assert said["hook-one-nail"] == ""
    assert "5" in said["hook-slim"]
    assert "6" in said["hook-slim"]
    assert "painted plasterboard" in said["plug-masonry"]
    assert "wire" in said["cleat-rail"]
    # Middle of the piece at 720; studs at 400 and 1000: 280 away.
    assert "280" in said["screw-stud"]


def test_a_screw_is_offered_where_it_meets_a_stud() -> None:
    known = catalogue.usual()
    at_stud = {offer.fixing.id: offer for offer in offers(one(15), hang(one(15)), BOARD, known, (800.0, 1200.0))}
    assert at_stud["screw-stud"].holds
    assert at_stud["toggle"].why_not == "stud-there"


@pytest.mark.parametrize(("x", "away"), [(400, 0), (699, -299), (701, 299), (0, 400), (3990, -190), (4100, -300)])
def test_the_nearest_stud(x: float, away: float) -> None:
    # Studs at 400, 1000, … 3400, and 4000 at the wall's end; none beyond it.
    assert nearest_stud_mm(BOARD, x) == {3990: 10, 4100: -100}.get(int(x), away)


def test_the_ways_out_where_a_moulding_is_too_narrow() -> None:
    # Flat 22 − 6 = 16: medium needs 16 + 3 = 19, so a filler 3 mm wide; halves need 8 + 3 = 11 and carry
    # two medium half pairs, 0.9 kg ≥ 1.5 · 0.5.
    narrow = piece("strips", 0.5, face=22.0, lip=6.0)
    smaller, filler, nails, halves = ladder(narrow, BOARD, catalogue.usual())
    assert (smaller.works, nails.works) == (False, True)
    assert (filler.works, filler.filler_mm, filler.size) == (True, 3.0, "medium")
    assert (halves.works, halves.size) == (True, "medium")
    assert halves.capacity_kg == pytest.approx(0.9)
    assert filler.capacity_kg == pytest.approx(1.8)  # two whole pairs of 0.9
    assert ladder(narrow, None, catalogue.usual())[2].works  # nails, where nothing is known of the wall
    assert "3\u00a0mm" in way_out(filler)
    assert "void" in way_out(halves)


def test_a_smaller_class_is_the_first_way_out() -> None:
    # Large needs 19 + 3 = 22; the flat is 20, and medium needs 19.
    chosen = piece("strips", 0.5, face=26.0, lip=6.0, strip_size="large")
    smaller = ladder(chosen, BOARD, catalogue.usual())[0]
    assert (smaller.works, smaller.size) == (True, "medium")


def test_no_ladder_where_strips_fit() -> None:
    assert ladder(strips(0.5), BOARD, catalogue.usual()) == ()


def test_what_to_take_along() -> None:
    import msgspec

    hung = [
        (msgspec.structs.replace(two(5), hardware=HardwareChoice(fixing="hook-slim", count=2)), False),
        (msgspec.structs.replace(keyholes(5), hardware=HardwareChoice(fixing="plug-masonry", count=2)), False),
        (one(2), False),
        (strips(0.5), False),
        (strips(0.5), False),
        (piece("strips", 0.5, face=22.0, lip=6.0, strip_half=True), False),
        (LEDGE, False),
    ]
    counts = tally(hung, catalogue.usual())
    # Two pairs each, and two half pairs are cut from one pair.
    assert counts.pairs == {"medium": 5}
    assert counts.fixings == {"hook-slim": 2, "plug-masonry": 2}
    assert (counts.unchosen, counts.bumpers, counts.ledges) == ([1], 6, 1)
    assert (counts.drills_mm, counts.plugs) == ({6.0}, {6.0: 2})


def test_a_cleat_has_one_rail_whatever_was_written() -> None:
    """Both its points are on one rail with two screws: two self-drilling ones 10 / 0.6 = 16.7 kg (common practice)."""
    import msgspec

    known = catalogue.usual()
    rail = known.fixings["cleat-rail"]
    assert usual_count(rail, 2) == 1
    assert usual_count(known.fixings["hook-slim"], 2) == 2
    offered = offers(cleat(12.0), hang(cleat(12.0)), BOARD, known)
    assert [offer.count for offer in offered if offer.fixing.id == "cleat-rail"] == [1]
    for written in (1, 2):
        chosen = HardwareChoice(fixing="cleat-rail", count=written)
        hung = msgspec.structs.replace(cleat(12.0), hardware=chosen)
        assert tally([(hung, False)], known).fixings == {"cleat-rail": 1}
        assert carried_kg(rail, count_of(chosen, rail), BOARD, known) == pytest.approx(10 / 0.6)


def test_no_ladder_for_what_is_not_stuck_or_has_no_face() -> None:
    assert ladder(one(2), BOARD, catalogue.usual()) == ()
    assert ladder(strips(0.5), BOARD, catalogue.usual(), turned=True) == ()  # the back is not measured that way up
    assert ladder(piece("strips", 0.5), BOARD, catalogue.usual()) == ()


def test_no_filler_carries_what_no_strip_carries() -> None:
    # The strongest class carries four pairs of 1.8 kg on packets: 7.2 kg < 1.5 · 30 kg, however broad the flat.
    heavy = piece("strips", 30, face=22.0, lip=6.0, strip_size="large")
    ways = {rung.way: rung for rung in ladder(heavy, BOARD, catalogue.usual())}
    assert ways == {} or (ways["filler"].works, ways["filler"].filler_mm) == (False, None)
