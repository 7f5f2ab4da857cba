"""The elevation and, about stops, the cut-paper list: what is printed, and that nothing is printed over anything."""

from typing import Any

import msgspec
import pytest

from composer.model import HardwareChoice, Obstacle, Override, Project
from composer.paper.kinds import PaperOptions, build
from composer.paper.primitives import Line, Page, Text
from composer.paper.sheets import Margins, sheet_named
from composer.units import Mass
from tests.paper.layout import outside, overlapping_texts, texts_on_lines
from tests.paper.sheet_projects import many, mm, nine

A_DAY = "2026-04-18T14:05:00Z"


def pages(project: Project, kind: str = "elevation", sheet: str = "a4") -> list[Page]:
    return list(build(project, kind, PaperOptions(sheet_named(sheet), Margins(10, 10, 10, 10))).document.pages)


def words(made: list[Page]) -> list[str]:
    return [item.text for page in made for item in page.items if isinstance(item, Text)]


def too_heavy(project: Project, *numbers: int) -> Project:
    """So heavy that no hook of the catalogue carries it."""
    pieces = [
        msgspec.structs.replace(piece, weight=Mass.of_kg(40), hardware=HardwareChoice(fixing="hook-slim"))
        if piece.number in numbers
        else piece
        for piece in project.pieces
    ]
    return msgspec.structs.replace(project, pieces=tuple(pieces))


def with_wall(project: Project, **fields: Any) -> Project:
    return msgspec.structs.replace(project, walls=(msgspec.structs.replace(project.walls[0], **fields),))


@pytest.mark.parametrize("kind", ["elevation", "cut-outs"])
def test_a_stop_is_printed_and_one_gone_on_against_with_its_reason(kind: str) -> None:
    assert "STOP" not in words(pages(nine(), kind))
    stopped = too_heavy(nine(), 1, 2)
    said = words(pages(stopped, kind))
    assert said.count("STOP") == 2
    assert any(text.startswith("Piece 1") for text in said)
    assert any(text.startswith("Piece 2") for text in said)
    reason = Override(code="overload", pieces=("p1",), reason="two more screws", when=A_DAY)
    said = words(pages(msgspec.structs.replace(stopped, overrides=(reason,)), kind))
    assert said.count("STOP") == 1
    assert "two more screws" in " ".join(said)


def test_templates_print_the_reason_a_stop_was_gone_on_against() -> None:
    reason = Override(code="overload", pieces=("p1",), reason="two more screws", when=A_DAY)
    made = msgspec.structs.replace(too_heavy(nine(), 1), overrides=(reason,))
    for kind in ("templates", "wall"):
        said = words(pages(made, kind, "a1"))
        assert "STOP" not in said
        assert "two more screws" in " ".join(said)


@pytest.mark.parametrize("kind", ["elevation", "cut-outs"])
@pytest.mark.parametrize("sheet", ["a4", "a3"])
def test_forty_stops_leave_room_for_the_rest(kind: str, sheet: str) -> None:
    made = pages(too_heavy(many(40), *range(1, 41)), kind, sheet)
    for page in made:
        assert outside(page) == []
        assert overlapping_texts(page) == []
    said = words(made[:1])
    (more,) = (text for text in said if text.endswith("stand on the hanging list."))
    named = sum(text.startswith("Piece ") for text in said)
    assert named + int(more.split()[0]) == 40


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_names_of_small_things_cross_no_line(units: str) -> None:
    # A switch on the eye line, one where the dimension of the pieces' lower edge runs out, one under a piece, one
    # in the corner, and a socket behind the sofa.
    spots = ((3200, 1420), (3300, 1055), (1500, 1010), (3555, 1700), (2860, 200), (30, 1440))
    switches = tuple(
        Obstacle(key=f"o{100 + index}", kind="switch", left=float(x), bottom=float(y), width=mm(80), height=mm(80))
        for index, (x, y) in enumerate(spots)
    )
    project = nine(units)
    (page,) = pages(with_wall(project, obstacles=(*project.walls[0].obstacles, *switches)))
    assert words([page]).count("switch") == 7
    assert not {"switch", "socket"} & set(texts_on_lines(page))  # pieces hide the line behind their numbers
    assert overlapping_texts(page) == []


def test_on_a_stair_the_eye_line_climbs() -> None:
    # First nosing (700, 180), last (2200, 1260): rise 180, going 250; eyes 1 450 above it (common practice).
    level = pages(nine())[0]
    stair = pages(with_wall(nine(), height=mm(3600), nosing=((700.0, 180.0), (2200.0, 1260.0))))[0]

    def dashed(page: Page) -> list[Line]:
        return [item for item in page.items if isinstance(item, Line) and len(item.dash) == 4]

    assert all(line.y1 == line.y2 for line in dashed(level))
    slanted = [line for line in dashed(stair) if line.y1 != line.y2]
    (climbing,) = slanted
    assert (climbing.y2 - climbing.y1) / (climbing.x2 - climbing.x1) == pytest.approx(180 / 250)
    # It ends 1 260 higher than it began, by the drawing's own width: the wall is 3 640 wide.
    ends = [line for line in dashed(stair) if line.y1 == line.y2]
    whole = max(line.x2 for line in ends) - min(line.x1 for line in ends) - 6
    assert max(line.y1 for line in ends) - min(line.y1 for line in ends) == pytest.approx(1260 * whole / 3640)
    assert any("above the nosing line" in text for text in words([stair]))
    assert outside(stair) == []
    assert overlapping_texts(stair) == []
