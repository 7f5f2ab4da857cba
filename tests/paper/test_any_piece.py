"""Any piece on any paper: pages come out, every point stands whole on one of them, nothing leaves the printable area."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from composer.hanging.points import hang
from composer.model import Piece, Project
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.kept_sheets import Economy
from composer.paper.sheets import BadSheet, Margins, sheet_named
from composer.paper.templates import templates
from composer.paper.whole_wall import whole_wall
from tests.paper.layout import outside, overlapping_texts
from tests.paper.sheet_projects import at, hanger, piece, project


def mm(low: float, high: float) -> st.SearchStrategy[float]:
    """Hundredths of a millimetre."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda hundredths: hundredths / 100)


SIDES = st.one_of(mm(30, 400), mm(400, 1500))


@st.composite
def pieces(draw: st.DrawFn, number: int) -> Piece:
    width, height = draw(SIDES), draw(SIDES)
    kind = draw(st.sampled_from(["wire", "sawtooth", "d-rings", "keyholes", "strips", "cleat", "ledge", None]))
    drop = draw(mm(0, height))
    lengths: dict[str, Any] = {}
    if kind in ("d-rings", "keyholes", "cleat"):
        lengths = {"drop": drop, "spacing": draw(mm(1, width))}
    elif kind in ("wire", "sawtooth"):
        lengths = {"drop": drop, "offset": draw(mm(-width / 2, width / 2))}
    if kind == "wire" and draw(st.booleans()):
        lengths |= {"hooks": 2, "hook_spacing": draw(mm(1, width))}
    return piece(
        number,
        draw(st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=60)).strip() or "no name",
        width,
        height,
        hanger(kind, **lengths) if kind else None,
        face=draw(mm(6, min(60.0, min(width, height) / 2 - 1))),
        kg=draw(st.floats(0.05, 5)),
        offset=draw(st.sampled_from([None, 0, 18, -2])),
    )


@st.composite
def projects(draw: st.DrawFn) -> Project:
    some = [draw(pieces(number)) for number in range(1, draw(st.integers(1, 3)) + 1)]
    places = [at(p.number, draw(mm(0, 3000)), draw(mm(0, 2000))) for p in some if draw(st.booleans())]
    return project(some, places, units=draw(st.sampled_from(["metric", "imperial"])))


@st.composite
def papers(draw: st.DrawFn) -> FullSizePaper:
    sheet = sheet_named(draw(st.sampled_from(["a4", "letter", "a3", "roll-24in", "13x18cm", "30x40cm", "legal"])))
    economies: list[Economy] = ["full", "outline", "corners", "points"]
    economy = draw(st.sampled_from(economies))
    margins = Margins(*(draw(mm(0, 20)) for _ in range(4)))
    scale = (draw(st.floats(0.985, 1.015)), draw(st.floats(0.985, 1.015)))
    return FullSizePaper(sheet, margins, draw(mm(0, 20)), economy, scale)


# The same tries each time, so that a green main stays green; more examples look further.
@settings(max_examples=80, deadline=None, derandomize=True)
@given(projects(), papers())
def test_any_piece_on_any_paper(hung: Project, paper: FullSizePaper) -> None:
    pages, index = templates(hung, hung.arrangement, paper)
    assert {entry.piece for entry in index.pages} == {p.number for p in hung.pieces}
    for placed in hung.pieces:
        points = hang(placed).points
        listed = {(p.x, p.y) for entry in index.pages if entry.piece == placed.number for p in entry.points}
        assert listed == {(p.x, p.y) for p in points}
    for page in pages:
        assert outside(page) == [], page.label
        assert overlapping_texts(page) == [], page.label
    for entry in index.pages:
        left, bottom, right, top = entry.printable
        marks = [(p.page_x, p.page_y, 6) for p in entry.points] + [(h.page_x, h.page_y, 4) for h in entry.holes]
        for x, y, half in marks:
            assert left + half <= x + 1e-5
            assert x <= right - half + 1e-5
            assert bottom + half <= y + 1e-5
            assert y <= top - half + 1e-5


@settings(max_examples=25, deadline=None, derandomize=True)
@given(projects(), papers())
def test_any_wall_on_any_paper(hung: Project, paper: FullSizePaper) -> None:
    pages, index = whole_wall(hung, hung.arrangement, paper)
    if not hung.arrangement.placements:
        assert not pages
        return
    if len(pages) > 150:
        return  # a hundred and fifty sheets tell nothing that fifty do not
    listed = {(p.x, p.y) for entry in index.pages for p in entry.points}
    wanted = sum(len(hang(hung.piece_by_key[place.piece]).points) for place in hung.arrangement.placements)
    assert len(listed) <= wanted
    for page in pages:
        assert outside(page) == [], page.label


def test_an_overlap_that_leaves_too_little_of_a_sheet_is_refused_before_anything_is_drawn() -> None:
    with pytest.raises(BadSheet):
        FullSizePaper(sheet_named("13x18cm"), Margins(10, 10, 10, 10), 40.0)
