"""Every finding says what, where and what to do, in the project's units."""

import re
from decimal import Decimal
from typing import Any

import msgspec
import pytest

from composer.findings import check, sentences
from composer.findings.sentences import do, text
from composer.model import (
    Arrangement,
    CatalogueChange,
    CatalogueNotes,
    Extra,
    Finding,
    Frame,
    Hanger,
    HardwareChoice,
    MoneyNotes,
    Obstacle,
    Picture,
    PictureUse,
    Piece,
    Placement,
    Project,
    Wall,
)
from composer.units import Length, LengthStyle, Mass
from tests.findings.print_case import everything_inside


def mm(value: float) -> Length:
    return Length.of_mm(value)


def piece(number: int, hanger: Hanger, width: float = 400, kg: str = "1 kg", **frame: Any) -> Piece:
    lengths: dict[str, Any] = {name: mm(value) for name, value in frame.items()}
    return Piece(
        key=f"p{number}",
        number=number,
        name="海" if number == 1 else f"piece {number}",
        frame=Frame(width=mm(width), height=mm(500), **lengths),
        hanger=hanger,
        weight=Mass.from_text(kg),
        uses=(PictureUse(picture="i400"),),
        current_use=0,
    )


WIRE: dict[str, Any] = {"kind": "wire", "spacing": mm(300), "wire": mm(340), "ring_drop": mm(120)}


@pytest.fixture(scope="module")
def everything() -> tuple[Finding, ...]:
    """One project in which nearly everything is wrong."""
    hangers = [
        Hanger(),
        Hanger(kind="wire"),
        Hanger(kind="sawtooth", drop=mm(600)),
        Hanger(kind="sawtooth", drop=mm(4)),
        Hanger(kind="wire", spacing=mm(300), wire=mm(300), ring_drop=mm(100)),
        Hanger(kind="wire", spacing=mm(300), wire=mm(400), ring_drop=mm(100), hooks=2, hook_spacing=mm(310)),
        Hanger(kind="d-rings", spacing=mm(500), drop=mm(60)),
        Hanger(**WIRE, drop=mm(60)),
        Hanger(**WIRE, drop=mm(40), hooks=2, hook_spacing=mm(150)),
        Hanger(kind="wire", drop=mm(60), hooks=2, hook_spacing=mm(150)),
        Hanger(kind="cleat", drop=mm(60), spacing=mm(420)),
        Hanger(kind="cleat", drop=mm(60), spacing=mm(390)),
        Hanger(**WIRE, drop=mm(0)),
    ]
    pieces = [piece(number, hanger) for number, hanger in enumerate(hangers, start=1)]
    pieces += [
        piece(20, Hanger(kind="strips"), face=20, lip=6),
        piece(21, Hanger(kind="strips"), face=32, lip=6, kg="9 kg"),
        piece(22, Hanger(kind="strips"), width=1000, face=32, lip=6),
        piece(23, Hanger(kind="sawtooth", drop=mm(40)), depth=130, width=3001),
        Piece(
            key="p24",
            number=24,
            name="low",
            frame=Frame(width=mm(300), height=mm(51), face=mm(25), lip=mm(6)),
            hanger=Hanger(kind="strips"),
        ),
        Piece(
            key="p25",
            number=25,
            name="unweighed",
            frame=Frame(width=mm(300), height=mm(400), face=mm(32), lip=mm(6)),
            hanger=Hanger(kind="strips"),
        ),
    ]
    places = [Placement(piece=p.key, wall="w300", left=float(60 * n), bottom=900.0) for n, p in enumerate(pieces)]
    places[3] = Placement(piece="p4", wall="w300", left=3400.0, bottom=900.0, turned=True)
    obstacles: list[tuple[Any, str, float, float, Length | None]] = [
        ("sofa", "", 0.0, 800, None),
        ("sofa", "grandmother's sofa", 400.0, 1000, None),
        ("window", "", 800.0, 1000, None),
        ("switch", "", 1200.0, 1000, mm(30)),
        ("shelf", "", 2600.0, 880, mm(40)),
    ]
    things = tuple(
        Obstacle(
            key=f"o{500 + n}",
            kind=kind,
            name=name,
            left=left,
            bottom=0.0,
            width=mm(300),
            height=mm(tall),
            margin=margin,
        )
        for n, (kind, name, left, tall, margin) in enumerate(obstacles)
    )
    wall = Wall(
        key="w300",
        name="sofa wall",
        width=mm(3600),
        height=mm(2500),
        obstacles=things,
        surface="wallpaper",
        no_holes=True,
    )
    project = Project(
        title="海",
        next_key=1000,
        next_number=50,
        walls=(wall,),
        pieces=tuple(pieces),
        pictures=(Picture(key="i400", path="boats.jpg"),),
        arrangements=(Arrangement(key="h600", name="first", gap=mm(50), placements=tuple(places)),),
        current_arrangement="h600",
        catalogue=CatalogueNotes(changed=(CatalogueChange(entry="strips-medium", field="rating_kg", value="much"),)),
    )
    first = check(project, unprintable=lambda text: "海" if "海" in text else "", missing=lambda picture: True)
    return (*first, *second(), *everything_inside())


def second() -> tuple[Finding, ...]:
    """Another, in which what holds the pieces and what is below them is wrong."""
    hangers: list[tuple[Hanger, str | None, str]] = [
        (
            Hanger(kind="wire", spacing=mm(300), wire=mm(304), ring_drop=mm(250), wire_class="wire-5"),
            "hook-slim",
            "6 kg",
        ),
        (Hanger(kind="wire", spacing=mm(300), wire=mm(304), ring_drop=mm(250)), "nobodys", "1 kg"),
        (Hanger(kind="sawtooth", drop=mm(40), offset=mm(8)), "screw-stud", "10 kg"),
        (Hanger(kind="sawtooth", drop=mm(40), offset=mm(-8)), "toggle", "1 kg"),
        (Hanger(kind="d-rings", drop=mm(40), drop_right=mm(43), spacing=mm(150)), "plug-masonry", "30 kg"),
        (Hanger(kind="d-rings", drop=mm(60), drop_right=mm(43), spacing=mm(150)), "screw-stud", "1 kg"),
        (Hanger(kind="strips", drop=mm(40)), None, "5.5 kg"),
    ]
    pieces = []
    for number, (hanger, fixing, kg) in enumerate(hangers, start=31):
        made = piece(number, hanger, width=520, kg=kg, depth=30, face=34, lip=6)
        frame = msgspec.structs.replace(
            made.frame,
            condition="upper joint open",
            diagonal_rising=mm(700),
            diagonal_falling=mm(706),
            glazing="glass" if number % 2 else "acrylic",
        )
        hardware = None if fixing is None else HardwareChoice(fixing=fixing)
        pieces.append(msgspec.structs.replace(made, name="mill", frame=frame, hardware=hardware))
    places = tuple(
        Placement(piece=one.key, wall="w300", left=float(555 * index), bottom=1204.0 if index == 1 else 1200.0)
        for index, one in enumerate(pieces)
    )
    kinds: list[tuple[Any, float]] = [
        ("cot", 0), ("bed", 555), ("sofa", 1110), ("seat", 3330), ("radiator", 1665), ("tap", 2220), ("switch", 2775),
        ("door", 3100),
    ]  # fmt: skip
    things = tuple(
        Obstacle(key=f"o{500 + n}", kind=kind, left=float(left), bottom=400.0, width=mm(300), height=mm(600))
        for n, (kind, left) in enumerate(kinds)
    )
    wall = Wall(
        key="w300",
        name="board",
        width=mm(5000),
        height=mm(2500),
        obstacles=things,
        surface="textured",
        stud_first=mm(260 + 1665 - 8),
        stud_spacing=mm(600),
        nosing=((100.0, 100.0), (900.0, 900.0)),
        left_end="door",
    )
    lath = Wall(key="w301", name="lath", width=mm(5000), height=mm(2500), surface="lath")
    project = Project(
        title="second",
        next_key=1000,
        next_number=50,
        walls=(wall, lath),
        pieces=tuple(pieces),
        pictures=(Picture(key="i400", path="boats.jpg"),),
        arrangements=(Arrangement(key="h600", name="first", gap=mm(50), placements=places),),
        current_arrangement="h600",
        quake=True,
        money=MoneyNotes(budget=Decimal("1.00"), extras=(Extra(what="drill", each=Decimal("40.00")),)),
    )
    return check(project)


def test_the_case_meets_every_code(everything: tuple[Finding, ...]) -> None:
    assert {finding.code for finding in everything} == set(sentences.CODES)


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
def test_every_finding_says_what_and_what_to_do(everything: tuple[Finding, ...], unit: Any) -> None:
    style = LengthStyle(unit)
    for finding in everything:
        for sentence in (text(finding, style), do(finding, style)):
            assert re.fullmatch(r"[A-Z“].*[.?)]", sentence), sentence
            assert not re.search(r"[{}]|  |None|_", sentence), sentence
        for number in finding.pieces:
            assert str(number) in text(finding, style)


def test_different_findings_of_one_piece_read_differently(everything: tuple[Finding, ...]) -> None:
    said = [text(finding) for finding in everything]
    assert len(set(said)) == len(said)


def test_an_overlap_names_the_shorter_way_out() -> None:
    found = Finding(level="stop", code="overlap", pieces=(1, 4), values=(("across_mm", 20.0), ("up_mm", 200.0)))
    assert "20" in do(found)
    assert "sideways" in do(found)


def test_a_code_of_a_newer_program_is_named() -> None:
    assert "too-new" in text(Finding(level="note", code="too-new"))
