"""The hanging list, read as a person reads it: from the text on the paper alone."""

import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import msgspec
import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from composer.catalogue import catalogue as catalogues
from composer.commandline import main
from composer.hanging.points import hang
from composer.model import Datum, HardwareChoice, Override, Project, position
from composer.paper.hanging_list import build
from composer.paper.hanging_list_rows import HangingList, hanging_list
from composer.paper.hanging_list_table import LADDER_PT
from composer.paper.kinds import PaperOptions
from composer.paper.primitives import Page, Text
from composer.paper.sheets import Margins, sheet_named
from composer.paper.type_metrics import font_file
from composer.projectfile import store
from composer.texts import PSEUDO_LANGUAGE, use_language
from composer.units import Length, Mass
from tests.findings.test_any_wall import projects
from tests.paper.layout import outside, overlapping_texts
from tests.paper.sheet_projects import LONG_NAMES, many, nine, one

SAMPLES = Path(__file__).parents[2] / "samples"

NUMBER = r"(?:\d{1,3}(?:\u202f\d{3})+|\d+)"
ROW = re.compile(rf"(?<!\S)([+−]{NUMBER}|0)\s({NUMBER})\s({NUMBER})\s({NUMBER})(?=\s)")
"""Four numbers in the text's order: from the level line (always signed), above the floor, from the corner, the seat."""


def plain(words: str) -> float:
    """A number as printed, read without the program: signs of thousands out, a true minus."""
    return float(re.sub(r"[\u00a0\u202f\u2009 ]", "", words).replace("−", "-"))


def printed(name: str, tmp_path: Path, *options: str) -> PdfReader:
    target = tmp_path / "list.pdf"
    assert main(["paper", str(SAMPLES / f"{name}.wallwright"), "hanging-list", "-o", str(target), *options]) == 0
    return PdfReader(target)


def reported_holes(name: str, capsys: pytest.CaptureFixture[str]) -> list[tuple[float, float]]:
    capsys.readouterr()
    assert main(["report", str(SAMPLES / f"{name}.wallwright")]) == 0
    walls = json.loads(capsys.readouterr().out)["walls"]
    return [(hole["x"], hole["y"]) for wall in walls for piece in wall["pieces"] for hole in piece["holes"]]


def test_the_stair_is_given_back_hole_by_hole_from_the_text_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    reader = printed("stair-wall", tmp_path)
    assert len(reader.pages) == 1
    text = reader.pages[0].extract_text()
    level = re.search(r"Level line ([\d\s\u202f]+) above floor", text)
    assert level is not None
    read = []
    for match in ROW.finditer(text):
        from_level, above_floor, from_corner, _ = (plain(words) for words in match.groups())
        assert from_level + plain(level[1]) == above_floor
        read.append((from_corner, above_floor))
    holes = reported_holes("stair-wall", capsys)
    assert len(read) == len(holes) == 7  # one hook, a nail, two rings, two keyholes, one hook
    for (x, y), (hole_x, hole_y) in zip(sorted(read), sorted(holes), strict=True):
        assert abs(x - hole_x) <= 1
        assert abs(y - hole_y) <= 1


def test_digits_for_the_ladder_are_four_millimetres_high() -> None:
    # Height of each digit in the typeface itself, by fontTools; 1 pt = 25.4/72 mm (ISO 32000-1).
    font = TTFont(str(font_file("bold")))
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    for digit in "0123456789":
        pen = BoundsPen(glyphs)
        glyphs[names[ord(digit)]].draw(pen)
        assert pen.bounds is not None
        high = (pen.bounds[3] - max(0, pen.bounds[1])) / font["head"].unitsPerEm * LADDER_PT * 25.4 / 72
        assert high >= 4.0, digit


def pages(project: Project, sheet: str = "a4", **options: Any) -> list[Page]:
    made = PaperOptions(sheet_named(sheet), Margins(10, 10, 10, 10))
    wall = project.walls[0]
    return build(project, wall, project.arrangement, made.request(), **options)


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_every_number_of_the_ladder_keeps_its_size(units: str) -> None:
    # Nail, level and corner numbers are never set smaller to fit; the three columns hold the longest of them.
    (page, *_) = pages(nine(units))
    ladder = [item for item in page.items if isinstance(item, Text) and item.weight == "bold" and item.align == "right"]
    assert len(ladder) >= 6 * 3
    assert {item.size_pt for item in ladder} == {LADDER_PT}


@pytest.mark.parametrize("which", ["nine", "imperial", "corridor", "stair", "long names", "forty"])
@pytest.mark.parametrize(("sheet", "margin"), [("17x25cm", 10), ("a4", 20), ("letter", 30), ("18x24cm", 12)])
@pytest.mark.parametrize("language", ["en", PSEUDO_LANGUAGE])
def test_on_narrow_paper_too(which: str, sheet: str, margin: float, language: str) -> None:
    # 150 mm inside the margins is the least: seat and room to write go before a digit gets smaller.
    project = PROJECTS[which]()
    options = PaperOptions(sheet_named(sheet), Margins(margin, margin, margin, margin))
    use_language(language)
    try:
        made = build(project, project.walls[0], project.arrangement, options.request())
    finally:
        use_language(None)
    ladder = [
        item
        for page in made
        for item in page.items
        if isinstance(item, Text) and item.weight == "bold" and item.align == "right"
    ]
    assert {item.size_pt for item in ladder} == {LADDER_PT}
    for page in made:
        assert outside(page) == []
        assert overlapping_texts(page) == []


@pytest.mark.parametrize("name", ["stair-wall", "sofa-wall", "corridor-inches"])
def test_each_sample_is_one_side(name: str, tmp_path: Path) -> None:
    assert len(printed(name, tmp_path).pages) == 1


PROJECTS: dict[str, Any] = {
    "nine": nine,
    "imperial": lambda: nine("imperial"),
    "long names": lambda: nine(names=LONG_NAMES),
    "one": one,
    "fourteen": lambda: many(14),
    "forty": lambda: many(40),
    "stair": lambda: store.load(SAMPLES / "stair-wall.wallwright").project,
    "corridor": lambda: store.load(SAMPLES / "corridor-inches.wallwright").project,
}


@pytest.mark.parametrize("language", ["en", PSEUDO_LANGUAGE])
@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("sheet", ["a4", "letter", "a3"])
@pytest.mark.parametrize("which", PROJECTS)
def test_texts_keep_apart_and_inside(which: str, sheet: str, large: bool, language: str) -> None:
    use_language(language)
    try:
        made = pages(PROJECTS[which](), sheet, large_print=large)
    finally:
        use_language(None)
    assert made
    for page in made:
        assert outside(page) == []
        assert overlapping_texts(page) == []


def test_as_few_sides_as_there_can_be() -> None:
    # Forty rows of a hook each are two sides, the second not almost empty; each piece stands there once.
    made = pages(many(40))
    assert len(made) == 2
    names = [item.text for page in made for item in page.items if isinstance(item, Text) and item.weight == "semibold"]
    assert sorted(name for name in names if name.startswith("piece ")) == sorted(
        piece.name for piece in many(40).pieces
    )


def test_many_warnings_never_leave_the_paper() -> None:
    # Every piece with a stop of its own: heavier than its hook carries.
    heavy = [
        msgspec.structs.replace(piece, weight=Mass.of_kg(40), hardware=HardwareChoice(fixing="hook-slim"))
        for piece in many(40).pieces
    ]
    made = pages(msgspec.structs.replace(many(40), pieces=tuple(heavy)))
    assert sum(isinstance(item, Text) and item.text.startswith("STOP.") for page in made for item in page.items) == 40
    for page in made:
        assert outside(page) == []


def rows(project: Project, **options: Any) -> HangingList:
    made = hanging_list(project, project.walls[0], project.arrangement, **options)
    assert made is not None
    return made


def test_nails_come_first_then_edges_and_what_is_not_measured() -> None:
    # 4 has no hanger, 6 no drop; 7, 8 and 9 hang by strips.
    made = rows(nine())
    assert [row.block for row in made.rows] == ["nails"] * 4 + ["edges"] * 3 + ["unknown"] * 2
    assert sorted(row.number for row in made.of_block("nails")) == [1, 2, 3, 5]
    assert sorted(row.number for row in made.of_block("unknown")) == [4, 6]


def test_order_from_the_middle_outward_or_from_left_to_right() -> None:
    # Middles of the nailed ones: 1 at 1 686, 2 at 2 189, 3 at 1 221, 5 at 904; the group's is 1 750.
    assert [row.number for row in rows(nine()).of_block("nails")] == [1, 2, 3, 5]
    assert [row.number for row in rows(nine(), left_to_right=True).of_block("nails")] == [5, 3, 1, 2]


def test_a_stair_is_hung_from_the_bottom_up() -> None:
    project = store.load(SAMPLES / "stair-wall.wallwright").project
    assert [row.number for row in rows(project).rows] == [1, 2, 3, 4, 5]
    wall = project.walls[0]
    assert wall.nosing is not None
    (x1, y1), (x2, y2) = wall.nosing
    falling = msgspec.structs.replace(wall, nosing=((x1, y2), (x2, y1)))
    assert [row.number for row in rows(msgspec.structs.replace(project, walls=(falling,))).rows] == [5, 4, 3, 2, 1]


def with_datum(project: Project, datum: Datum) -> Project:
    return msgspec.structs.replace(project, walls=(msgspec.structs.replace(project.walls[0], datum=datum),))


@pytest.mark.parametrize(
    ("datum", "side", "distances"),
    # Piece 3 has one nail: its middle 1 056 + 165 = 1 221 from the left corner of a wall 3 640 wide.
    [
        (Datum(), "from left corner", "1221"),
        (Datum(side="right"), "from right corner", "2419"),
        (Datum(side="plumb", plumb=Length.of_mm(1750)), "from plumb line", "-529"),
    ],
)
def test_distances_run_from_one_place(datum: Datum, side: str, distances: str) -> None:
    made = rows(with_datum(nine(), datum))
    (three,) = [row for row in made.rows if row.number == 3]
    assert made.side == side
    assert plain(three.marks[0].from_side) == float(distances)


def test_heights_are_signed_from_the_level_line_with_the_floor_beside() -> None:
    # Piece 3: lower edge 1 262, 430 high, drop 80, hook 18: nail 1 630; the level line at 1 400 is typed.
    made = rows(with_datum(nine(), Datum(height="line", line=Length.of_mm(1400))))
    (three,) = [row for row in made.rows if row.number == 3]
    mark = three.marks[0]
    assert (plain(mark.above_floor), plain(mark.seat)) == (1630, 1612)
    assert mark.from_level == "+230"
    assert "1\u00a0400" in made.level.replace("\u202f", "\u00a0").replace("\u2009", "\u00a0")
    # The switch's middle lies at 1 050: 350 below.
    assert "350 above the middle of the switch" in made.level


def test_inches_are_whole_sixteenths_and_agree_with_each_other() -> None:
    made = rows(nine("imperial"))

    def inches(words: str) -> Fraction:
        sign = -1 if words.startswith("−") else 1
        return sign * sum(map(Fraction, re.split(r"\s+", re.sub("[+−]", "", words))), Fraction(0))

    assert sum(len(row.marks) for row in made.rows) > 9
    for row in made.rows:
        for mark in row.marks:
            assert inches(mark.from_level) + 57 == inches(mark.above_floor)
            assert (inches(mark.from_side) * 16).denominator == 1


def test_only_warnings_that_apply() -> None:
    project = store.load(SAMPLES / "stair-wall.wallwright").project
    said = " ".join(rows(project).mind)
    assert "stair" in said
    assert "Strips" not in said
    assert "seat" not in said
    assert "Strips" in " ".join(rows(nine()).mind)


def test_a_stop_stands_first_and_an_overridden_one_with_its_reason() -> None:
    project = store.load(SAMPLES / "stair-wall.wallwright").project
    heavy = msgspec.structs.replace(project.pieces[0], weight=type(project.pieces[0].weight).from_text("30 kg"))  # type: ignore[union-attr]
    stopped = msgspec.structs.replace(project, pieces=(heavy, *project.pieces[1:]))
    assert rows(stopped).mind[0].startswith("STOP. Piece 1")
    reason = Override(
        code="overload", pieces=("p" + heavy.key[1:],), reason="two more screws", when="2026-04-18T14:05:00Z"
    )
    overridden = rows(msgspec.structs.replace(stopped, overrides=(reason,))).mind
    assert not any(line.startswith("STOP") for line in overridden)
    assert any(line.endswith("two more screws") for line in overridden)


def test_printed_tolerances_of_a_close_pair_are_a_millimetre() -> None:
    # Piece 2's hooks are 102 apart: 0.3° is 0.5 mm, less than a nail wanders; 1 mm is printed and putty advised.
    made = rows(nine())
    assert "pair level ±1," in made.good_enough
    assert "every gap 50 ±2" in made.good_enough
    assert any("putty" in line for line in made.mind if line.startswith("2:"))


def test_what_to_take_counts_everything_once() -> None:
    take = rows(store.load(SAMPLES / "stair-wall.wallwright").project).take.replace("\u00a0", " ")
    # Pieces 1 (one-nail hook), 2 (nail), 3 (two slim hooks), 4 (two plugs), 5 (slim hook): all five with bumpers.
    for words in ("1 × one-nail hook", "1 nail 2.0 × 40", "3 × slim nail hook", "2 screws 4 × 40, plugs 6", "drill 6",
                  "10 bumpers", "hammer", "screwdriver"):  # fmt: skip
        assert words in take
    assert "wipes" not in take


def test_sizes_of_nails_say_their_unit_where_the_sheet_speaks_inches() -> None:
    made = rows(store.load(SAMPLES / "corridor-inches.wallwright").project)
    assert "1 nail 2.0 × 40 mm" in made.take
    (one_nail,) = [row for row in made.rows if row.number == 1]
    assert one_nail.held == "1 nail 2.0 × 40 mm"


def test_large_print_is_half_as_large_again(tmp_path: Path) -> None:
    made = pages(store.load(SAMPLES / "stair-wall.wallwright").project, large_print=True)
    assert len(made) == 2
    assert made[0].size[0] > made[0].size[1]
    largest = max(item.size_pt for item in made[1].items if isinstance(item, Text))
    assert largest >= 1.4 * LADDER_PT
    assert len(printed("stair-wall", tmp_path, "--large-print").pages) == 2


def test_plain_text_has_every_number_in_sentences(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "list.txt"
    assert main(["paper", str(SAMPLES / "stair-wall.wallwright"), "hanging-list", "-o", str(target)]) == 0
    text = target.read_text(encoding="utf-8")
    read = [
        (plain(side), plain(floor))
        for floor, side in re.findall(rf"({NUMBER}) above floor \([^)]*\), ({NUMBER}) from left corner", text)
    ]
    holes = reported_holes("stair-wall", capsys)
    assert len(read) == len(holes)
    for (x, y), (hole_x, hole_y) in zip(sorted(read), sorted(holes), strict=True):
        assert max(abs(x - hole_x), abs(y - hole_y)) <= 1


def test_only_the_hanging_list_is_plain_text(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "list.txt"
    assert main(["paper", str(SAMPLES / "stair-wall.wallwright"), "elevation", "-o", str(target)]) == 2
    assert not target.exists()
    assert main(["paper", str(SAMPLES / "empty-wall.wallwright"), "hanging-list", "-o", str(target)]) == 1
    assert not target.exists()


@given(
    shift=st.tuples(st.floats(-300, 300), st.floats(-300, 300)),
    side=st.sampled_from(["left", "right", "plumb"]),
    line=st.floats(900, 2100),
    units=st.sampled_from(["metric", "imperial"]),
)
@settings(max_examples=30, deadline=None)
def test_printed_numbers_lead_back_to_the_holes(shift: tuple[float, float], side: Any, line: float, units: Any) -> None:
    """Wherever the group hangs and whatever numbers are taken from: a person with a tape finds each hole to half a
    step of the tape (half a millimetre, half a sixteenth of an inch)."""
    project = nine(units)
    step = 1.0 if units == "metric" else 25.4 / 16
    placements = tuple(
        msgspec.structs.replace(place, left=position(place.left + shift[0]), bottom=position(place.bottom + shift[1]))
        for place in project.arrangement.placements
    )
    arrangement = msgspec.structs.replace(project.arrangement, placements=placements)
    project = msgspec.structs.replace(project, arrangements=(arrangement,))
    datum = Datum(height="line", line=Length.of_mm(round(line)), side=side, plumb=Length.of_mm(1750))
    made = rows(with_datum(project, datum))

    def mm(words: str) -> float:
        if units == "metric":
            return plain(words)
        sign = -1 if words.startswith("−") else 1
        return sign * float(sum(map(Fraction, re.split(r"\s+", re.sub("[+−]", "", words))), Fraction(0))) * 25.4

    known = catalogues.of(project.catalogue)
    for row in made.of_block("nails"):
        piece = project.piece_by_number[row.number]
        place = project.placement_by_piece[piece.key]
        for mark, hole in zip(row.marks, hang(piece, catalogue=known).holes, strict=True):
            x, y = mm(mark.from_side), mm(mark.above_floor)
            start = {"left": 0.0, "right": 3640.0, "plumb": 1750.0}[side]
            x = start - x if side == "right" else start + x
            assert abs(x - (place.left + hole.x)) <= step / 2 + 1e-6
            assert abs(y - (place.bottom + hole.y)) <= step / 2 + 1e-6


@given(project=projects(), large=st.booleans())
@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_nothing_leaves_the_paper_wherever_pieces_hang(project: Project, large: bool) -> None:
    for page in pages(project, large_print=large):
        assert outside(page) == []
