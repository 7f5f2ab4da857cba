"""What the checks find, each case placed by hand on a wall 3 600 × 2 500."""

from typing import Any

import pytest

from composer.findings import check, quick_findings
from composer.geometry.rectangle import Rectangle
from composer.model import (
    Arrangement,
    CatalogueChange,
    CatalogueNotes,
    Finding,
    Frame,
    Hanger,
    Obstacle,
    Override,
    Picture,
    PictureUse,
    Piece,
    Placement,
    Project,
    Wall,
)
from composer.units import Length, Mass

SAWTOOTH = Hanger(kind="sawtooth", drop=Length.of_mm(40))


def mm(value: float) -> Length:
    return Length.of_mm(value)


def piece(number: int, width: float = 400, height: float = 500, hanger: Hanger = SAWTOOTH, **more: Any) -> Piece:
    frame = {name: more.pop(name) for name in ("depth", "face", "lip") if name in more}
    lengths: dict[str, Any] = {name: mm(value) for name, value in frame.items()}
    return Piece(
        key=f"p{number}",
        number=number,
        name=more.pop("name", f"piece {number}"),
        frame=Frame(width=mm(width), height=mm(height), **lengths),
        hanger=hanger,
        **more,
    )


def at(number: int, left: float, bottom: float, *, turned: bool = False, wall: str = "w50") -> Placement:
    return Placement(piece=f"p{number}", wall=wall, left=float(left), bottom=float(bottom), turned=turned)


def project(pieces: list[Piece], places: list[Placement], obstacles: tuple[Obstacle, ...] = (), **more: Any) -> Project:
    wall = {name: more.pop(name) for name in ("outline", "surface", "no_holes") if name in more}
    return Project(
        title="test",
        next_key=100,
        next_number=50,
        walls=(Wall(key="w50", name="sofa wall", width=mm(3600), height=mm(2500), obstacles=obstacles, **wall),),
        pieces=tuple(pieces),
        arrangements=(Arrangement(key="h60", name="first", gap=mm(50), placements=tuple(places)),),
        current_arrangement="h60",
        **more,
    )


def thing(kind: Any, left: float, bottom: float, width: float, height: float, margin: float | None = None) -> Obstacle:
    return Obstacle(
        key="o70",
        kind=kind,
        left=float(left),
        bottom=float(bottom),
        width=mm(width),
        height=mm(height),
        margin=None if margin is None else mm(margin),
    )


def of_place(found: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Without what concerns people below and cables, which other tests are about."""
    return tuple(finding for finding in found if finding.code not in {"over-seat", "cable-zone"})


def brief(found: tuple[Finding, ...]) -> list[tuple[str, str, tuple[int, ...]]]:
    return [(finding.level, finding.code, finding.pieces) for finding in found]


def value(finding: Finding, name: str) -> Any:
    return dict(finding.values)[name]


def test_a_measured_wall_has_no_findings() -> None:
    # 400 wide at 100 and 550: 50 apart.
    assert check(project([piece(1), piece(2)], [at(1, 100, 1000), at(2, 550, 1000)])) == ()


def test_overlap_says_how_far() -> None:
    # 100…500 and 480…880 share 20 across; 1000…1500 and 1300…1800 share 200 up.
    (found,) = check(project([piece(1), piece(2)], [at(2, 480, 1300), at(1, 100, 1000)]))
    assert brief((found,)) == [("stop", "overlap", (1, 2))]
    assert (value(found, "across_mm"), value(found, "up_mm")) == (20, 200)


def test_touching_frames_do_not_overlap() -> None:
    found = check(project([piece(1), piece(2)], [at(1, 100, 1000), at(2, 500, 1000)]))
    assert brief(found) == [("note", "gap-uneven", (1, 2))]


def test_a_turned_piece_takes_its_turned_size() -> None:
    # Turned, 1 is 500 wide: 100…600, so it reaches 50 into 2 at 550.
    found = check(
        project([piece(1, hanger_turned=SAWTOOTH), piece(2)], [at(1, 100, 1000, turned=True), at(2, 550, 1000)])
    )
    assert brief(found) == [("stop", "overlap", (1, 2))]


def test_pieces_on_the_floor_overlap_nothing() -> None:
    assert check(project([piece(1), piece(2)], [])) == ()


@pytest.mark.parametrize(
    ("left", "bottom", "over"), [(-30, 1000, 30), (3300, 1000, 100), (100, 2100, 100), (100, -1, 1), (0, 2000, None)]
)
def test_what_reaches_beyond_the_wall(left: float, bottom: float, over: float | None) -> None:
    found = check(project([piece(1)], [at(1, left, bottom)]))
    if over is None:
        assert found == ()
        return
    assert brief(found) == [("stop", "outside-wall", (1,))]
    assert value(found[0], "over_mm") == over


SLOPE = ((0.0, 0.0), (3600.0, 0.0), (3600.0, 1800.0), (2400.0, 2500.0), (0.0, 2500.0))


@pytest.mark.parametrize(
    ("left", "inside"),
    # Under the slope from (2400, 2500) to (3600, 1800) the ceiling is 2500 − (x − 2400)·7/12.
    # A frame 500 high at 1800 has its top at 2300: its right edge may reach 2400 + 200·12/7 = 2742.857.
    [(2342.857, True), (2343, False)],
)
def test_a_sloped_ceiling_counts(left: float, inside: bool) -> None:
    found = check(project([piece(1)], [at(1, left, 1800)], outline=SLOPE))
    assert (brief(found) == []) is inside


def test_the_overhang_under_a_slope_is_taken_square_to_it() -> None:
    # Corner at (2942.857, 2300) is 200 right of the slope at that height: 200·sin(atan(7/12)) = 100.7.
    (found,) = check(project([piece(1)], [at(1, 2542.857, 1800)], outline=SLOPE))
    assert value(found, "over_mm") == pytest.approx(100.77, abs=0.01)


@pytest.mark.parametrize(
    ("kind", "left", "bottom", "expected"),
    [
        # Sofa 1000…3000, 0…850; usual margin 150, so from 1000 up it is free.
        ("sofa", 1500, 1000, []),
        ("sofa", 1500, 999, [("warn", "on-obstacle")]),
        ("sofa", 1500, 800, [("warn", "on-obstacle")]),
        # Beside it: the right edge may reach 850.
        ("sofa", 450, 300, []),
        ("sofa", 451, 300, [("warn", "on-obstacle")]),
        # A window is a hole in the wall: nothing hangs there; beside it 100 mm are kept.
        ("window", 1500, 800, [("stop", "on-obstacle")]),
        ("window", 1500, 949, [("warn", "on-obstacle")]),
        ("window", 1500, 950, []),
        # Devices stay reachable.
        ("thermostat", 1500, 800, [("warn", "covers-device"), ("warn", "on-obstacle")]),
        ("thermostat", 1500, 900, [("warn", "on-obstacle")]),
        ("shelf", 1500, 800, [("warn", "on-obstacle")]),
        ("other", 1500, 900, []),
    ],
)
def test_obstacles_by_kind(kind: str, left: float, bottom: float, expected: list[tuple[str, str]]) -> None:
    found = check(project([piece(1)], [at(1, left, bottom)], (thing(kind, 1000, 0, 2000, 850),)))
    assert [(level, code) for level, code, _ in brief(of_place(found))] == expected


def test_a_typed_margin_counts_also_when_it_is_nothing() -> None:
    bare = (thing("sofa", 1000, 0, 2000, 850, margin=0),)
    assert of_place(check(project([piece(1)], [at(1, 1500, 850)], bare))) == ()
    assert brief(of_place(check(project([piece(1)], [at(1, 1500, 849)], bare)))) == [("warn", "on-obstacle", (1,))]


@pytest.mark.parametrize(("bottom", "stands"), [(850, True), (851, True), (852, False), (849, True), (840, False)])
def test_a_piece_on_a_ledge_may_stand_on_a_shelf(bottom: float, stands: bool) -> None:
    shelf = (thing("shelf", 1000, 800, 2000, 50),)
    found = check(project([piece(1, hanger=Hanger(kind="ledge"))], [at(1, 1500, bottom)], shelf))
    assert (found == ()) is stands


def test_the_usual_margin_can_be_typed_over_for_the_project() -> None:
    notes = CatalogueNotes(changed=(CatalogueChange(entry="obstacle:sofa", field="margin_mm", value=60.0),))
    sofa = (thing("sofa", 1000, 0, 2000, 850),)
    assert of_place(check(project([piece(1)], [at(1, 1500, 910)], sofa, catalogue=notes))) == ()


def test_what_is_not_measured_is_a_note_on_the_floor_and_a_warning_on_the_wall() -> None:
    unknown = [piece(1, hanger=Hanger(kind="wire")), piece(2, hanger=Hanger())]
    assert brief(check(project(unknown, [at(2, 100, 1000)]))) == [
        ("warn", "not-measured", (2,)),
        ("note", "not-measured", (1,)),
    ]


@pytest.mark.parametrize(
    ("changes", "what"),
    [
        ({"width": 19}, "width"),
        ({"width": 20}, None),
        ({"width": 3000}, None),
        ({"height": 3001}, "height"),
        ({"face": 2.9}, "face"),
        ({"face": 121}, "face"),
        ({"face": 120}, None),
        ({"depth": 121}, "depth"),
        ({"depth": 3}, None),
    ],
)
def test_implausible_measures_are_accepted_with_a_remark(changes: dict[str, float], what: str | None) -> None:
    measures: dict[str, Any] = {**changes}
    one = piece(1, hanger=Hanger(kind="ledge"), **measures)
    found = check(project([one], []))
    assert [(finding.code, value(finding, "what")) for finding in found] == (
        [] if what is None else [("implausible", what)]
    )


@pytest.mark.parametrize(
    ("hanger", "expected"),
    [
        (Hanger(kind="sawtooth", drop=mm(501)), [("stop", "hanger-impossible")]),
        (Hanger(kind="sawtooth", drop=mm(4)), [("warn", "hook-shows")]),
        (
            Hanger(kind="wire", spacing=mm(300), wire=mm(340), ring_drop=mm(120), drop=mm(60)),
            [("warn", "drop-disagrees")],  # h = sqrt(170² − 150²) = 80, drop 40
        ),
        (Hanger(kind="strips"), [("warn", "not-measured")]),
    ],
)
def test_what_is_wrong_with_the_hanger(hanger: Hanger, expected: list[tuple[str, str]]) -> None:
    found = check(project([piece(1, hanger=hanger)], [at(1, 100, 1000)]))
    assert [(level, code) for level, code, _ in brief(found)] == expected


def test_a_turned_piece_without_a_hanger_for_it() -> None:
    found = check(project([piece(1)], [at(1, 100, 1000, turned=True)]))
    assert brief(found) == [("warn", "hanger-unknown-turned", (1,))]


STRIPS: dict[str, Any] = {"hanger": Hanger(kind="strips"), "face": 32, "lip": 6, "weight": Mass.from_text("0.5 kg")}


@pytest.mark.parametrize(
    ("surface", "holds"), [("painted-board", True), ("wallpaper", False), ("textured", False), ("masonry", False)]
)
def test_strips_need_smooth_paint(surface: str, holds: bool) -> None:
    found = check(project([piece(1, **STRIPS)], [at(1, 100, 1000)], surface=surface))
    assert brief(found) == ([] if holds else [("warn", "strip-wall", (1,))])


def test_no_holes_means_no_nails() -> None:
    both = [piece(1), piece(2, **STRIPS)]
    found = check(project(both, [at(1, 100, 1000), at(2, 600, 1000)], no_holes=True))
    assert brief(found) == [("warn", "holes-not-allowed", (1,))]


@pytest.mark.parametrize(
    ("bottom", "depth", "caution"), [(700, 101, True), (700, 100, False), (685, 101, False), (1900, 101, True)]
)
def test_deep_frames_in_a_passage(bottom: float, depth: float, caution: bool) -> None:
    # ADA 2010 Standards, 307.2.
    found = check(project([piece(1, depth=depth)], [at(1, 100, bottom)]))
    assert brief(found) == ([("note", "deep-in-passage", (1,))] if caution else [])


def test_names_paper_cannot_print() -> None:
    def unprintable(text: str) -> str:
        return "".join(sign for sign in text if ord(sign) > 0x5FF)

    found = check(project([piece(1, name="海 sea 海")], []), unprintable=unprintable)
    assert brief(found) == [("note", "name-not-printable", (1,))]
    assert value(found[0], "signs") == "海"


def test_pictures_that_are_gone() -> None:
    pictured = piece(1, uses=(PictureUse(picture="i80"),), current_use=0)
    one = project([pictured, piece(2)], [], pictures=(Picture(key="i80", path="boats.jpg"),))
    assert check(one) == ()
    assert brief(check(one, missing=lambda picture: picture.path == "boats.jpg")) == [("warn", "picture-missing", (1,))]
    assert check(one, missing=lambda picture: False) == ()


def test_own_entries_nobody_can_read_are_told() -> None:
    notes = CatalogueNotes(changed=(CatalogueChange(entry="strips-medium", field="rating_kg", value="much"),))
    assert brief(check(project([], [], catalogue=notes))) == [("note", "catalogue-unread", ())]


def test_order_is_stop_warn_note_then_number_then_code() -> None:
    pieces = [
        piece(1, hanger=Hanger()),
        piece(2, hanger=Hanger(kind="sawtooth", drop=mm(4)), depth=130),
        piece(3, hanger=Hanger(kind="sawtooth", drop=mm(600))),
        piece(4, width=10, hanger=Hanger(kind="sawtooth", drop=mm(4))),
    ]
    found = check(project(pieces, [at(2, 3500, 1000)]))
    assert brief(found) == [
        ("stop", "outside-wall", (2,)),
        ("stop", "hanger-impossible", (3,)),
        ("warn", "hook-shows", (2,)),
        ("warn", "implausible", (2,)),
        ("warn", "hook-shows", (4,)),
        ("warn", "implausible", (4,)),
        ("note", "not-measured", (1,)),
        ("note", "deep-in-passage", (2,)),
    ]


def test_a_stop_can_be_overridden_with_a_reason() -> None:
    reason = Override(code="overlap", pieces=("p2",), reason="they hang in two layers", when="2026-04-18T14:05:00Z")
    other = Override(code="outside-wall", pieces=("p1",), reason="not that one", when="2026-04-18T14:05:00Z")
    both = [piece(1), piece(2, hanger=Hanger(kind="sawtooth", drop=mm(4)))]
    found = check(project(both, [at(1, 100, 1000), at(2, 480, 1300)], overrides=(reason, other)))
    assert [(finding.code, finding.overridden) for finding in found] == [
        ("overlap", "they hang in two layers"),
        ("hook-shows", None),
    ]


def test_only_the_asked_arrangement_counts() -> None:
    one = project([piece(1), piece(2)], [at(1, 100, 1000), at(2, 480, 1300)])
    empty = Arrangement(key="h61", name="second", gap=mm(50))
    two = Project(
        title="test", next_key=100, next_number=50, walls=one.walls, pieces=one.pieces,
        arrangements=(*one.arrangements, empty), current_arrangement="h61",
    )  # fmt: skip
    assert check(two) == ()
    assert brief(check(two, "h60")) == [("stop", "overlap", (1, 2))]


def test_what_is_wrong_while_dragging() -> None:
    resting = [Rectangle.at(0, 0, 100, 100), Rectangle.at(200, 0, 100, 100)]
    wall = [(0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (0.0, 300.0)]
    moving = [Rectangle.at(90, 50, 120, 100), Rectangle.at(320, 250, 100, 100), Rectangle.at(100, 0, 100, 100)]
    assert quick_findings(moving, resting, wall) == (((0, 1), False), ((), True), ((), False))
