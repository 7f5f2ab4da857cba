"""Every sheet, for many projects, papers and languages: texts keep apart and stay on the paper."""

from collections.abc import Iterator
from typing import Any

import msgspec
import pytest

from composer.model import Project
from composer.paper.kinds import PaperOptions, build
from composer.paper.primitives import Line, Page, Text
from composer.paper.sheets import Margins, sheet_named
from composer.paper.type_metrics import missing_glyphs
from composer.texts import PSEUDO_LANGUAGE, use_language
from tests.paper.layout import outside, overlapping_texts
from tests.paper.sheet_projects import LONG_NAMES, many, nine, one

OURS = ("cut-outs", "measure", "elevation", "scale-check")

PROJECTS: dict[str, Any] = {
    "nine": nine,
    "imperial": lambda: nine("imperial"),
    "long names": lambda: nine(names=LONG_NAMES),
    "one": one,
    "fourteen": lambda: many(14),
    "forty": lambda: many(40),
}


@pytest.fixture(params=["en", PSEUDO_LANGUAGE])
def language(request: pytest.FixtureRequest) -> Iterator[str]:
    use_language(request.param)
    yield request.param
    use_language(None)


def paper(sheet: str, margin: float = 10.0) -> PaperOptions:
    return PaperOptions(sheet_named(sheet), Margins(margin, margin, margin, margin))


def pages_of(project: Project, kind: str, options: PaperOptions) -> list[Page]:
    return list(build(project, kind, options).document.pages)


@pytest.mark.parametrize("sheet", ["a4", "letter", "a3"])
@pytest.mark.parametrize("which", PROJECTS)
@pytest.mark.parametrize("kind", OURS)
def test_texts_keep_apart_and_inside(kind: str, which: str, sheet: str, language: str) -> None:
    pages = pages_of(PROJECTS[which](), kind, paper(sheet))
    assert pages
    for page in pages:
        assert overlapping_texts(page) == []
        if kind == "scale-check":
            # Combs lie outside on purpose: they find out where the printer ends (common practice, no source).
            combs = [item for item in page.items if isinstance(item, Line | Text) and item in outside(page)]
            assert len(combs) >= 4 * 12 * 0.7
            continue
        assert outside(page) == []


@pytest.mark.parametrize("kind", OURS)
def test_every_sign_is_in_the_font(kind: str) -> None:
    for page in pages_of(nine(names=LONG_NAMES), kind, paper("a4")):
        for item in page.items:
            if isinstance(item, Text):
                assert missing_glyphs(item.text) == ()


def test_a_name_that_cannot_be_printed_stands_as_boxes_beside_its_number() -> None:
    page = pages_of(nine(names=LONG_NAMES), "cut-outs", paper("a4"))[0]
    texts = [item.text for item in page.items if isinstance(item, Text)]
    assert "▯ bell" in texts
    assert "3" in texts


def test_forty_pieces_are_all_there_once() -> None:
    project = many(40)
    for kind in ("cut-outs", "measure"):
        names = [
            item.text
            for page in pages_of(project, kind, paper("a4"))
            for item in page.items
            if isinstance(item, Text) and item.text.startswith("piece ")
        ]
        assert sorted(names) == sorted(piece.name for piece in project.pieces)


def test_a_measured_piece_has_no_box_and_a_missing_number_has_one() -> None:
    from composer.paper.primitives import Box

    project = nine()
    before = pages_of(project, "measure", paper("a4"))
    weighed = msgspec.structs.replace(project.pieces[3], weight=project.pieces[0].weight)
    after = pages_of(
        msgspec.structs.replace(project, pieces=(*project.pieces[:3], weighed, *project.pieces[4:])),
        "measure",
        paper("a4"),
    )
    boxes = [sum(isinstance(item, Box) for page in pages for item in page.items) for pages in (before, after)]
    assert boxes[0] - boxes[1] == 1
