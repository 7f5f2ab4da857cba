"""Templates and whole walls: no text on a text, none on a line, nothing outside what the printer prints."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import msgspec
import pytest

from composer.paper.kept_sheets import Economy
from composer.paper.kinds import PaperOptions, build
from composer.paper.primitives import Page, Text
from composer.paper.sheets import sheet_named
from composer.projectfile import store
from composer.texts import PSEUDO_LANGUAGE, use_language
from tests.paper.layout import outside, overlapping_texts, texts_on_lines
from tests.paper.sheet_projects import LONG_NAMES, many, nine
from tests.paper.twelve_frames import twelve

SAMPLES = Path(__file__).resolve().parents[2] / "samples"

PROJECTS: dict[str, Any] = {
    "nine": nine,
    "inches": lambda: nine("imperial"),
    "long names": lambda: nine(names=LONG_NAMES),
    "twelve": twelve,
    "many small": lambda: many(14),
    **{path.stem: lambda path=path: store.load(path).project for path in SAMPLES.glob("*-*.wallwright")},
}


@pytest.fixture(params=["en", PSEUDO_LANGUAGE])
def language(request: pytest.FixtureRequest) -> Iterator[str]:
    use_language(request.param)
    yield request.param
    use_language(None)


def look_through(pages: Any) -> None:
    assert len(pages)
    for page in pages:
        _look_at(page)


def _look_at(page: Page) -> None:
    assert overlapping_texts(page) == [], page.label
    assert texts_on_lines(page) == [], page.label
    assert outside(page) == [], page.label


@pytest.mark.parametrize("sheet", ["a4", "letter", "roll-24in", "30x40cm"])
@pytest.mark.parametrize("which", [name for name in PROJECTS if name != "empty-wall"])
def test_templates_are_tidy(which: str, sheet: str, language: str) -> None:
    look_through(build(PROJECTS[which](), "templates", PaperOptions(sheet_named(sheet))).document.pages)


@pytest.mark.parametrize("economy", ["outline", "corners", "points"])
@pytest.mark.parametrize("which", ["nine", "inches", "long names", "twelve", "sofa-wall"])
def test_economies_are_tidy(which: str, economy: Economy, language: str) -> None:
    options = PaperOptions(sheet_named("a4"), economy=economy)
    look_through(build(PROJECTS[which](), "templates", options).document.pages)


@pytest.mark.parametrize("sheet", ["a4", "roll-36in"])
@pytest.mark.parametrize("which", ["nine", "inches", "sofa-wall"])
def test_whole_walls_are_tidy(which: str, sheet: str, language: str) -> None:
    pages = build(PROJECTS[which](), "wall", PaperOptions(sheet_named(sheet))).document.pages
    assert pages
    for page in pages:
        assert overlapping_texts(page) == [], page.label
        assert outside(page) == [], page.label


@pytest.mark.parametrize("margin", [3.0, 18.0])
def test_other_margins_are_tidy(margin: float) -> None:
    from composer.paper.sheets import Margins

    options = PaperOptions(sheet_named("a4"), Margins(margin, margin, margin, margin), overlap_mm=margin)
    look_through(build(nine(), "templates", options).document.pages)


@pytest.mark.parametrize("which", ["nine", "inches", "stair-wall", "corridor-inches"])
def test_wherever_the_top_edge_is_named_its_height_stands_beside_it(which: str) -> None:
    project = PROJECTS[which]()
    seen = 0
    for page in build(project, "templates", PaperOptions(sheet_named("a4"))).document.pages:
        texts = [item for item in page.items if isinstance(item, Text)]
        if any(one.text.endswith("on the floor") for one in texts):
            continue  # not hung yet, so it has no height
        for head in texts:
            if head.text == "TOP EDGE OF THE FRAME":
                near = [
                    one.text for one in texts if one.text.endswith(" above floor.") and 0 <= head.y - one.y < 3 * 4.6
                ]
                assert len(near) == 1, page.label
                seen += 1
    assert seen >= 4


def test_one_nail_is_one_and_two_are_two() -> None:
    said = [
        item.text
        for page in build(nine(), "templates", PaperOptions(sheet_named("a4"))).document.pages
        for item in page.items
        if isinstance(item, Text)
    ]
    # 3 hangs on one hook and 5 by its sawtooth; 1 on two rings, 2 on two hooks; 4 and 6 are not measured.
    assert said.count("nail above floor") == said.count("nail from left corner") == 2
    assert said.count("nails above floor") == said.count("nails from left corner") == 2


def test_a_project_without_a_title_has_only_the_wall_in_the_head() -> None:
    titled = nine()
    plain = msgspec.structs.replace(titled, title="")
    named = titled.walls[0].name
    with_title, without = (
        {
            item.text
            for item in build(project, "templates", PaperOptions(sheet_named("a4"))).document.pages[0].items
            if isinstance(item, Text)
        }
        for project in (titled, plain)
    )
    assert f"{titled.title}, {named}" in with_title
    assert named in without
    assert not [text for text in without if text.startswith(",")]
