"""The records keep together what must hold together, and say in a sentence what does not."""

from fractions import Fraction

import msgspec
import pytest

from composer.model import (
    Arrangement,
    BadRecord,
    Crop,
    Frame,
    Hanger,
    Obstacle,
    Piece,
    Placement,
    Project,
    Wall,
    position,
)
from composer.units import Length


def length(text: str) -> Length:
    return Length.from_text(text)


def frame(**changes: object) -> Frame:
    fields: dict[str, object] = {"width": length("400 mm"), "height": length("500 mm")}
    return Frame(**{**fields, **changes})  # type: ignore[arg-type]


def project(**changes: object) -> Project:
    fields: dict[str, object] = {
        "title": "Hall",
        "next_key": 10,
        "next_number": 3,
        "walls": (Wall(key="w1", name="Hall", width=length("3 m"), height=length("2.5 m")),),
        "pieces": tuple(Piece(key=f"p{n + 2}", number=n, name=f"no. {n}", frame=frame()) for n in (1, 2)),
        "arrangements": (Arrangement(key="h2", name="first", gap=length("50 mm")),),
        "current_arrangement": "h2",
    }
    return Project(**{**fields, **changes})  # type: ignore[arg-type]


def hung(*places: Placement) -> tuple[Arrangement, ...]:
    return (Arrangement(key="h2", name="first", gap=length("50 mm"), placements=places),)


def test_positions_lie_on_a_grid_that_holds_every_sixty_fourth_of_an_inch() -> None:
    for count in range(64 * 120):
        exact = Fraction(count, 64) * Fraction(254, 10)
        assert position(float(exact)) == float(exact)
    assert str(position(-0.0)) == "0.0"
    for bad in (float("nan"), float("inf"), 100_001.0):
        with pytest.raises(BadRecord):
            position(bad)


def test_sight_opening_and_glass_follow_the_framers_sums() -> None:
    # 300 x 400 outside, face 20, lip 6: opening 272 x 372, glass 269 x 369 (worked by hand:
    # 300 - 40 = 260; 260 + 12 = 272; 272 - 3 = 269).
    pine = frame(
        width=length("300 mm"),
        height=length("400 mm"),
        face=length("20 mm"),
        lip=length("6 mm"),
        allowance=length("3 mm"),
    )
    assert pine.sight_mm == (260, 360)
    assert pine.opening_mm == (272, 372)
    assert pine.glass_mm == (269, 369)
    # An 8 x 10 in content with face 1, lip 1/4, allowance 1/8 has a frame 9 5/8 x 11 5/8 outside.
    inches = frame(
        width=length("9 5/8 in"),
        height=length("11 5/8 in"),
        face=length("1 in"),
        lip=length("1/4 in"),
        allowance=length("1/8 in"),
    )
    assert inches.sight_mm == pytest.approx((7.625 * 25.4, 9.625 * 25.4), abs=1e-9)
    assert inches.glass_mm == pytest.approx((8 * 25.4, 10 * 25.4), abs=1e-9)


def test_measured_sizes_win_and_missing_ones_stay_unknown() -> None:
    measured = frame(
        face=length("20 mm"), lip=length("6 mm"), sight_width=length("355 mm"), glass_height=length("471 mm")
    )
    assert measured.sight_mm == (355, 460)
    assert measured.glass_mm == (367, 471)
    assert frame().sight_mm is None
    assert frame().glass_mm is None
    assert frame(glass_width=length("380 mm"), glass_height=length("480 mm")).glass_mm == (380, 480)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: frame(width=length("0 mm")), "width must be more than nothing"),
        (lambda: frame(face=length("200 mm")), "leaves nothing of a frame"),
        (lambda: frame(face=length("5 mm"), lip=length("6 mm")), "lip .* cannot be wider"),
        (lambda: Hanger(drop=length("-3 mm")), "drop cannot be negative"),
        (lambda: Crop(zoom=0.5), "zoom is 1 to 100"),
        (lambda: Crop(centre=(0.5, 1.2)), "centre lies within"),
        (lambda: Piece(key="p1", number=1, name=" ", frame=frame()), "needs a name"),
        (lambda: Piece(key="w1", number=1, name="a", frame=frame()), "key “w1” is not “p”"),
        (lambda: Piece(key="p1", number=1, name="a\x07", frame=frame()), "control character"),
        (lambda: Piece(key="p1", number=1, name="e\u0301", frame=frame()), "composed Unicode"),
        (lambda: Piece(key="p1", number=1, name="a", frame=frame(), current_use=0), "picture it does not have"),
        (lambda: Placement(piece="p1", wall="w1", left=0.1 + 1e-9, bottom=0), "finer than a millionth"),
    ],
)
def test_a_record_that_cannot_be_is_refused_in_a_sentence(make: object, words: str) -> None:
    with pytest.raises(BadRecord, match=words):
        make()  # type: ignore[operator]


def outline(*corners: tuple[float, float]) -> Wall:
    return Wall(key="w1", name="Stair", width=length("3600 mm"), height=length("2500 mm"), outline=corners)


def test_outlines() -> None:
    assert len(outline((0, 0), (3600, 0), (3600, 1800), (2400, 2500), (0, 2500)).corners) == 5
    for corners, words in (
        (((0, 0), (0, 2500), (3600, 2500), (3600, 0)), "anticlockwise"),
        (((0, 0), (3600, 2500), (3600, 0), (0, 2500)), "crosses"),
        (((0, 0), (3000, 0), (3000, 2500), (0, 2500)), "is 3000 by 2500 mm"),
        (((10, 0), (3610, 0), (3610, 2500)), "start at 0"),
    ):
        with pytest.raises(BadRecord, match=words):
            outline(*corners)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"arrangements": hung(Placement(piece="p9", wall="w1", left=0, bottom=0))}, "mentioned but not there"),
        ({"arrangements": hung(Placement(piece="p3", wall="w7", left=0, bottom=0))}, "mentioned but not there"),
        ({"current_arrangement": "h3"}, "mentioned but not there"),
        ({"next_key": 4}, "next key"),
        ({"next_number": 2}, "next piece number"),
        ({"currency": "eur"}, "three capital letters"),
        ({"walls": ()}, "at least one wall"),
    ],
)
def test_a_project_resolves_every_reference(changes: dict[str, object], words: str) -> None:
    with pytest.raises(BadRecord, match=words):
        project(**changes)


def test_a_piece_hangs_once_and_names_and_keys_are_single() -> None:
    place = Placement(piece="p3", wall="w1", left=0, bottom=0)
    with pytest.raises(BadRecord, match="hangs twice"):
        hung(place, msgspec.structs.replace(place, left=5.0))
    wall = Wall(key="w1", name="Hall", width=length("3 m"), height=length("2.5 m"))
    with pytest.raises(BadRecord, match="used twice"):
        project(walls=(wall, msgspec.structs.replace(wall, key="w8", name="hall")))
    with pytest.raises(BadRecord, match="key “w1” is used twice"):
        project(walls=(wall, msgspec.structs.replace(wall, name="other")))
    knob = Obstacle(key="o1", kind="switch", left=0, bottom=0, width=length("80 mm"), height=length("80 mm"))
    with pytest.raises(BadRecord, match="key “o1” is used twice"):
        project(walls=(msgspec.structs.replace(wall, obstacles=(knob, knob)),))


def test_what_hangs_and_what_lies() -> None:
    plan = project(arrangements=hung(Placement(piece="p4", wall="w1", left=10, bottom=20)))
    assert [piece.number for piece in plan.on_floor()] == [1]
    assert [(piece.number, place.left) for piece, place in plan.hung_on("w1")] == [(2, 10)]
    assert float(plan.eye_line(plan.walls[0]).mm) == 1450
    assert project(units="imperial").eye_line(plan.walls[0]).mm == pytest.approx(57 * 25.4)
    assert plan.up() == frozenset()


def test_looked_up_tables_do_not_count_when_comparing() -> None:
    one, other = project(), project()
    assert one.piece_by_key["p3"].number == 1
    assert one == other
    assert msgspec.structs.replace(one, title="Other").piece_by_key == one.piece_by_key
