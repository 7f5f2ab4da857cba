"""Whatever a person may have typed: every check answers, every sentence is whole, and the hanging list agrees."""

import re
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from composer.catalogue import catalogue
from composer.findings import check, sentences
from composer.findings.sentences_of_offers import way_out, why_not
from composer.hanging.holding import holding
from composer.hanging.strip_ladder import ladder
from composer.model import Arrangement, Frame, Hanger, HardwareChoice, Obstacle, Piece, Placement, Project, Wall
from composer.units import Length, LengthStyle, Mass

maybe = st.none() | st.integers(1, 900).map(Length.of_mm)


@st.composite
def hangers(draw: Any) -> Hanger:
    return Hanger(
        kind=draw(st.sampled_from([None, "wire", "sawtooth", "d-rings", "keyholes", "strips", "cleat", "ledge"])),
        drop=draw(maybe),
        drop_right=draw(maybe),
        spacing=draw(maybe),
        offset=draw(st.none() | st.integers(-200, 200).map(Length.of_mm)),
        wire=draw(maybe),
        ring_drop=draw(maybe),
        hooks=draw(st.sampled_from([1, 2])),
        hook_spacing=draw(maybe),
        wire_class=draw(st.sampled_from([None, "wire-5", "nobodys"])),
        strip_half=draw(st.booleans()),
        strip_pairs=draw(st.sampled_from([None, 2, 4])),
    )


@st.composite
def pieces(draw: Any, number: int) -> Piece:
    width, height = draw(st.integers(60, 1400)), draw(st.integers(60, 1400))
    face = draw(st.none() | st.integers(3, min(width, height) // 2 - 1))
    fixings = [None, *catalogue.usual().fixings, "nobodys"]
    fixing = draw(st.sampled_from(fixings))
    return Piece(
        key=f"p{number}",
        number=number,
        name=f"piece {number}",
        frame=Frame(
            width=Length.of_mm(width),
            height=Length.of_mm(height),
            depth=draw(st.none() | st.integers(1, 200).map(Length.of_mm)),
            face=None if face is None else Length.of_mm(face),
            lip=None if face is None else Length.of_mm(draw(st.integers(0, face))),
            glazing=draw(st.sampled_from(["glass", "acrylic", "styrene", "none", "unknown"])),
            moulding=draw(st.sampled_from([None, "oak", "bamboo"])),
        ),
        hanger=draw(hangers()),
        hanger_turned=draw(st.none() | hangers()),
        weight=draw(st.none() | st.integers(1, 60000).map(lambda grams: Mass.from_text(f"{grams} g"))),
        hardware=None if fixing is None else HardwareChoice(fixing=fixing, count=draw(st.integers(1, 4))),
    )


@st.composite
def projects(draw: Any) -> Project:
    made = [draw(pieces(number)) for number in range(1, draw(st.integers(1, 4)) + 1)]
    kinds: list[Any] = draw(
        st.lists(
            st.sampled_from(["sofa", "bed", "cot", "seat", "door", "switch", "socket", "tap", "radiator", "shelf"]),
            max_size=4,
        )
    )
    things = tuple(
        Obstacle(
            key=f"o{60 + index}",
            kind=kind,
            left=float(draw(st.integers(0, 3000))),
            bottom=float(draw(st.integers(0, 1500))),
            width=Length.of_mm(draw(st.integers(20, 2000))),
            height=Length.of_mm(draw(st.integers(20, 1000))),
        )
        for index, kind in enumerate(kinds)
    )
    surfaces = ["painted-board", "plaster", "lath", "masonry", "wallpaper", "textured", "tile", "timber", "unknown"]
    wall = Wall(
        key="w50",
        name="wall",
        width=Length.of_mm(4000),
        height=Length.of_mm(2500),
        surface=draw(st.sampled_from(surfaces)),
        no_holes=draw(st.booleans()),
        stud_first=draw(st.none() | st.integers(0, 5000).map(Length.of_mm)),
        stud_spacing=draw(st.none() | st.integers(100, 9000).map(Length.of_mm)),
        nosing=draw(st.sampled_from([None, ((500.0, 100.0), (3000.0, 1800.0))])),
        left_end=draw(st.sampled_from(["corner", "free", "door"])),
        obstacles=things,
    )
    places = tuple(
        Placement(
            piece=piece.key,
            wall="w50",
            left=float(draw(st.integers(-200, 4000))),
            bottom=float(draw(st.integers(-200, 2600))),
            turned=draw(st.booleans()),
        )
        for piece in made
        if draw(st.booleans())
    )
    return Project(
        title="any",
        next_key=100,
        next_number=50,
        walls=(wall,),
        pieces=tuple(made),
        arrangements=(Arrangement(key="h80", name="first", gap=Length.of_mm(50), placements=places),),
        current_arrangement="h80",
        region=draw(st.sampled_from(["none", "uk", "us"])),
        quake=draw(st.booleans()),
    )


@given(project=projects(), unit=st.sampled_from(["mm", "in"]))
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_every_check_answers_in_whole_sentences(project: Project, unit: Any) -> None:
    style = LengthStyle(unit)
    for finding in check(project):
        for said in (sentences.text(finding, style), sentences.do(finding, style)):
            assert re.fullmatch(r"[A-Z“].*[.?)]", said), said
            assert not re.search(r"[{}]|  |None|nan|inf\b", said), said
    known = catalogue.of(project.catalogue)
    wall = project.walls[0]
    for piece in project.pieces:
        for turned in (False, True):
            found = holding(piece, wall, known, turned=turned, at=(500.0, 1000.0))
            assert (found.by == "nothing") is (found.why is not None)
            for offer in found.offers:
                assert offer.holds is (why_not(offer, style) == "")
            if found.proposed is not None:
                assert not wall.no_holes
                assert wall.surface in found.proposed.fixing.walls
                assert found.proposed.margin is not None
                assert found.proposed.margin >= 1 - 1e-9
            for rung in ladder(piece, wall, known, turned=turned):
                assert way_out(rung, style)
