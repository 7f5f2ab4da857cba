"""The working beside each number: its terms add up, and it reads as a sum in the project's units."""

import re
from typing import Any

import pytest

from composer.geometry.rectangle import Rectangle
from composer.hanging.points import hang
from composer.hanging.records import Amount, WorkingLine
from composer.hanging.working import in_words, on_the_floor, on_the_wall
from composer.model import Frame, Hanger, HardwareChoice, Piece
from composer.units import Length, LengthStyle, Mass

METRIC = LengthStyle("mm")


def mm(value: float) -> Length:
    return Length.of_mm(value)


def made(width: float = 400, height: float = 500, hardware: HardwareChoice | None = None, **hanger: Any) -> Piece:
    fields: dict[str, Any] = {
        name: mm(value) if isinstance(value, int | float) and name != "hooks" else value
        for name, value in hanger.items()
    }
    return Piece(
        key="p1",
        number=1,
        name="boats",
        frame=Frame(width=mm(width), height=mm(height), face=mm(32), lip=mm(6)),
        hanger=Hanger(**fields),
        hardware=hardware,
        weight=Mass.from_text("0.5 kg"),
    )


def plain(text: str) -> str:
    """Without units and with ordinary spaces: what a person would type into a calculator."""
    text = re.sub(r"(?<=\d)[\u00a0\u202f\u2009 ](?=\d)", "", text)
    return re.sub(r"[\u00a0\u202f\u2009 ]*(mm|kg)", "", text)


def evaluated(line: WorkingLine) -> float:
    """The expression as a calculator takes it, from its exact numbers."""
    text = "".join(part if isinstance(part, str) else repr(part.value) for part in line.parts)
    for sign, python in (("−", "-"), ("×", "*"), ("÷", "/"), ("²", "**2"), ("√", "root")):
        text = text.replace(sign, python)
    assert re.fullmatch(r"[-+*/()\d. e]*", text.replace("root", "")), text
    return float(eval(text, {"root": lambda value: value**0.5}))  # only digits and signs, checked above


def test_the_height_of_a_point_reads_as_a_sum() -> None:
    # Middle at 1 450, half of 500, drop 40.
    (line,) = in_words(on_the_wall(hang(made(kind="sawtooth", drop=40)), Rectangle.at(0, 1200, 400, 500)), METRIC)
    assert plain(line.sum) == "1450 + 250 − 40 = 1660"
    assert [plain(number) for number, _ in line.terms] == ["1450", "250", "40"]
    assert all(what for _, what in line.terms)
    assert line.why


def test_on_the_floor_it_counts_from_the_lower_edge() -> None:
    (line,) = in_words(on_the_floor(hang(made(kind="sawtooth", drop=40))), METRIC)
    assert plain(line.sum) == "500 − 40 = 460"


def test_the_hole_has_its_own_line() -> None:
    screw = HardwareChoice(fixing="plug-masonry", hook_offset=Length.from_text("-2 mm"))
    hanging = hang(made(kind="d-rings", drop=72, drop_right=74, spacing=260, hardware=screw))
    lines = in_words(on_the_wall(hanging, Rectangle.at(0, 1200, 400, 500)), METRIC)
    assert [plain(line.sum) for line in lines] == [
        "1450 + 250 − 72 = 1628",
        "1628 − 2 = 1626",
        "1450 + 250 − 74 = 1626",
        "1626 − 2 = 1624",
    ]


def test_a_wire_shows_how_its_drop_comes_about() -> None:
    # The 3-4-5 wire: √((500/2)² − (400/2)²) = 150; 160 − 150 = 10.
    hanging = hang(made(width=450, kind="wire", spacing=400, wire=500, ring_drop=160))
    lines = in_words(hanging.working, METRIC)
    assert [plain(line.sum) for line in lines] == ["√((500 ÷ 2)² − (400 ÷ 2)²) = 150", "160 − 150 = 10"]


def test_a_packet_of_strips_shows_flat_rating_and_margin() -> None:
    lines = in_words(hang(made(kind="strips")).working, METRIC)
    # 32 − 6; four pairs of 0.9 kg, as 500 is longer than 450; 1.5 times 0.5 kg.
    assert [plain(line.sum).replace("0.90", "0.9").replace("3.60", "3.6").replace("0.50", "0.5") for line in lines] == [
        "32 − 6 = 26",
        "4 × 0.9 = 3.6",
        "1.5 × 0.5 = 0.75",
    ]


@pytest.mark.parametrize(
    "hanger",
    [
        {"kind": "wire", "spacing": 300, "wire": 400, "ring_drop": 160, "offset": -12},
        {"kind": "wire", "spacing": 300, "wire": 400, "ring_drop": 160, "hooks": 2, "hook_spacing": 110},
        {"kind": "wire", "spacing": 300, "wire": 400, "ring_drop": 160, "ring_drop_right": 171},
        {
            "kind": "wire", "spacing": 300, "wire": 400, "ring_drop": 160, "ring_drop_right": 149, "hooks": 2,
            "hook_spacing": 110,
        },
        {"kind": "cleat", "drop": 60, "offset": 3},
        {"kind": "strips"},
        {"kind": "keyholes", "drop": 25, "drop_right": 27, "spacing": 300},
        {"kind": "ledge"},
    ],
)  # fmt: skip
def test_every_line_comes_out_when_calculated(hanger: dict[str, Any]) -> None:
    hanging = hang(made(**hanger))
    lines = (*hanging.working, *on_the_wall(hanging, Rectangle.at(0, 1200, 400, 500)), *on_the_floor(hanging))
    assert lines or hanger["kind"] == "ledge"
    for line in lines:
        assert evaluated(line) == pytest.approx(line.result.value, abs=1e-9)
        shown = [part for part in line.parts if isinstance(part, Amount)]
        named = [term.amount for term in line.terms]
        assert set(shown) == set(named)


def test_inches_are_shown_as_fractions() -> None:
    piece = Piece(
        key="p1",
        number=1,
        name="museum",
        frame=Frame(width=Length.from_text("30 in"), height=Length.from_text("40 in")),
        hanger=Hanger(kind="sawtooth", drop=Length.from_text("8 1/2 in")),
    )
    # Middle at 58 in, half of 40 in, drop 8 1/2 in: 69 1/2 in.
    place = Rectangle.at(0, (58 - 20) * 25.4, 30 * 25.4, 40 * 25.4)
    (line,) = in_words(on_the_wall(hang(piece), place), LengthStyle("in"))
    assert re.sub(r"[\u00a0\u202f\u2009]", " ", line.sum).startswith("58")
    assert "69 1/2" in re.sub(r"[\u00a0\u202f\u2009]", " ", line.result)
