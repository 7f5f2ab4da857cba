"""Shopping list, hunting card, rehang plan, moving out: figures as computed, room for every text, true rulers."""

import itertools
import math
import re
from collections.abc import Callable, Iterator

import msgspec
import pytest

from composer.commandline.report_costs import costs_json, rehang_json
from composer.costing.costs import costs_of
from composer.costing.shown import show_numbers
from composer.model import Project
from composer.paper.hunting_card import CARD
from composer.paper.kinds import NothingToPrint, PaperOptions, build
from composer.paper.pdf import to_pdf
from composer.paper.primitives import Line, Page, Text
from composer.paper.rehang import LADDER_PT
from composer.paper.sheets import sheet_named
from composer.texts import PSEUDO_LANGUAGE, use_language
from tests.paper.layout import outside, overlapping_texts
from tests.paper.money_projects import eleven, emptied, mixed_change, priced
from tests.paper.pdf_reading import read_pages
from tests.rehang.walls import nail, wall_of


@pytest.fixture(params=["en", PSEUDO_LANGUAGE])
def language(request: pytest.FixtureRequest) -> Iterator[str]:
    use_language(request.param)
    yield request.param
    use_language(None)


def pages_of(project: Project, kind: str, sheet: str = "a4") -> list[Page]:
    return list(build(project, kind, PaperOptions(sheet_named(sheet))).document.pages)


def texts_of(pages: list[Page]) -> list[str]:
    return [item.text.replace("\u00a0", " ") for page in pages for item in page.items if isinstance(item, Text)]


CASES: dict[str, tuple[str, Callable[[str], Project]]] = {
    "shopping": ("shopping", priced),
    "over budget": ("shopping", lambda units: priced(units, "40.00")),
    "eleven": ("rehang", eleven),
    "mixed": ("rehang", mixed_change),
    "moving out": ("rehang", lambda units: emptied(mixed_change(units))),
}


@pytest.mark.parametrize("units", ["metric", "imperial"])
@pytest.mark.parametrize("case", CASES)
def test_texts_keep_apart_and_inside(case: str, units: str, language: str) -> None:
    kind, make = CASES[case]
    for sheet in ("a4", "letter"):
        pages = pages_of(make(units), kind, sheet)
        assert pages
        for page in pages:
            assert overlapping_texts(page) == []
            assert outside(page) == []


def test_many_pieces_go_on_over_sheets_and_nothing_is_lost() -> None:
    pieces = [nail(n, 200, 150, 20) for n in range(1, 61)]
    first = {n: (100.0 + 230 * ((n - 1) % 15), 600.0 + 200 * ((n - 1) // 15)) for n in range(1, 61)}
    second = {n: (left + 60, bottom + 40) for n, (left, bottom) in first.items()}
    project = wall_of(pieces, first, second)
    for made in (project, emptied(project)):
        pages = pages_of(made, "rehang")
        assert 2 <= len(pages) <= 5
        found = texts_of(pages)
        for page in pages:
            assert overlapping_texts(page) == []
            assert outside(page) == []
        for piece in pieces:
            assert any(piece.name in text for text in found)


def test_every_figure_of_the_list_is_in_the_report() -> None:
    """Money with two decimals on the list: each is a figure of the report, a sum of some, or a difference."""
    project = priced()
    costs = costs_of(project)
    report = costs_json(costs)
    known = {report["total"], report["used"], costs.budget, costs.to_spare, costs.left_worth}
    for line in report["lines"]:
        known |= {line["each"], line["used"], line["cost"], round(line["cost"] - line["used"], 2)}
    prints = [
        line
        for line in report["lines"]
        if ("in" in line["what"] and "lustre" in line["what"]) or "8x12" in line["what"]
    ]
    known |= {round(sum(line["cost"] for line in prints), 2)}
    known |= {costs.of_shop(line.shop) for line in costs.lines}
    words = {f"{float(value):.2f}" for value in known}
    shopping = pages_of(project, "shopping")[0]
    cheaper = [item.y for item in shopping.items if isinstance(item, Text) and item.text == "Cheaper, same wall"]
    money = [
        item.text
        for item in shopping.items
        if isinstance(item, Text) and re.fullmatch(r"\d+\.\d\d", item.text) and item.y > cheaper[0]
    ]
    assert len(money) > 30
    assert set(money) <= words


def test_what_is_bought_stands_on_the_list() -> None:
    project = priced()
    found = texts_of(pages_of(project, "shopping"))
    for line in costs_of(project).lines:
        if line.group != "print" and line.purchase.packs:
            name = line.name.replace("\u00a0", " ")
            assert name[:1].upper() + name[1:] in found
    assert "62.80" in found
    assert "2.20" in found, "to spare of 65.00"
    over = texts_of(pages_of(priced(budget="60.00"), "shopping"))
    assert "too dear by" in over
    assert "2.80" in over


def test_the_hunting_card_is_true_to_scale_and_rounds_inward() -> None:
    """ISO/IEC 7810: 85.6 × 54 mm. An inch is 25.4 mm; eighths of the largest size are rounded down, of the least up."""
    project = priced()
    document = build(project, "shopping", PaperOptions(sheet_named("a4"))).document
    card = list(document.pages)[-1]
    words = texts_of([card])
    assert words.count("Frames wanted") == 4
    strokes = read_pages(to_pdf(document))[-1]
    ticks = sorted(
        {round(x1, 2) for x1, y1, x2, y2 in strokes.lines if abs(x1 - x2) < 1e-6 and abs(abs(y1 - y2) - 5.0) < 0.02}
    )
    fifty, eighty = ticks[0], ticks[1]
    assert eighty - fifty == pytest.approx(30, abs=0.02)
    levels = sorted(
        {
            round(y1, 2)
            for x1, y1, x2, y2 in strokes.lines
            if abs(y1 - y2) < 1e-6 and abs(x1 - x2) == pytest.approx(2 * CARD[0] + 8, abs=0.05)
        }
    )
    assert [b - a for a, b in itertools.pairwise(levels)] == pytest.approx([54] * 4, abs=0.02)
    checked = 0
    for place, text in enumerate(words):
        size = re.fullmatch(r"(from )?(\d+) × (\d+)", text)
        if size:
            for mm, part in zip(size.groups()[1:], words[place + 1].removesuffix(" in").split(" × "), strict=True):
                # Both are rounded inward from the same size, millimetres by less than one.
                if size[1]:
                    assert int(mm) - 1 < inches(part) * 25.4 < int(mm) + 25.4 / 8
                else:
                    assert int(mm) - 25.4 / 8 < inches(part) * 25.4 < int(mm) + 1
                checked += 1
    assert checked >= 16


def inches(text: str) -> float:
    """``10 5/8`` as a number."""
    whole, _, fraction = text.rpartition(" ") if "/" in text else (text, "", "0/1")
    top, below = fraction.split("/")
    return int(whole or 0) + int(top) / int(below)


def test_nails_on_the_plan_are_those_of_the_report() -> None:
    project = eleven()
    (plan,) = rehang_json(project, project.arrangement)
    (page,) = pages_of(project, "rehang")
    ladder = [
        item.text.replace("\u00a0", "") for item in page.items if isinstance(item, Text) and item.size_pt == LADDER_PT
    ]
    for piece in plan["pieces"]:
        if piece["do"] not in ("move", "up"):
            continue
        for hole in piece["holes"]:
            assert f"{hole['y']:g}" in ladder
            assert f"{hole['x']:g}" in ladder
    assert (plan["used_again"], plan["new_holes"], len(plan["fill"])) == (8, 3, 1)
    found = texts_of([page])
    assert "8 used again" in found
    assert "3 new" in found
    # Digits of Source Sans Pro are 0.635 em high (measured from the font for the hanging list): 4 mm and more.
    assert LADDER_PT * 0.635 * 25.4 / 72 >= 4.0


def test_templates_are_asked_for_only_where_something_changes() -> None:
    found = " ".join(texts_of(pages_of(eleven(), "rehang")))
    assert "Print templates and locators of 9, 11, 12 only." in found


def test_moving_out_lists_every_hole_and_every_strip_and_asks_for_both_names() -> None:
    project = emptied(mixed_change())
    pages = pages_of(project, "rehang")
    assert len(pages) == 1, "one page for tenant and landlord"
    found = texts_of(pages)
    for hole in project.as_hung.holes:
        assert f"{hole.y:,.0f}".replace(",", " ") in found
        assert f"{hole.x:,.0f}".replace(",", " ") in found
    assert found.count("strips, 2 pairs") == 2
    assert {"tenant", "landlord", "Handed over"} <= set(found)


def test_a_wall_that_is_as_planned_gives_the_page_for_moving_out() -> None:
    project = wall_of([nail(1, 300, 250, 20)], {1: (500.0, 1300.0)})
    assert "Moving out" in texts_of(pages_of(project, "rehang"))


def test_nothing_up_is_nothing_to_rehang_and_nothing_needed_nothing_to_buy() -> None:
    project = wall_of([nail(1, 300, 250, 20)], {1: (500.0, 1300.0)})
    bare = msgspec.structs.replace(project, as_hung=type(project.as_hung)())
    with pytest.raises(NothingToPrint, match="Nothing is recorded as up"):
        pages_of(bare, "rehang")
    ready = msgspec.structs.replace(project.pieces[0], hardware=None, stage="ready")
    with pytest.raises(NothingToPrint, match="nothing to buy"):
        pages_of(msgspec.structs.replace(project, pieces=(ready,)), "shopping")


def test_lines_of_the_plan_are_drawn_to_one_scale() -> None:
    """Now and Then share x and scale: the wall's ends stand above each other."""
    (page,) = pages_of(eleven(), "rehang")
    uprights = [
        item for item in page.items if isinstance(item, Line) and item.x1 == item.x2 and abs(item.y1 - item.y2) > 25
    ]
    assert len({round(line.x1, 3) for line in uprights}) == 2
    ends = sorted({line.x1 for line in uprights})
    scale = 4000 / (ends[1] - ends[0])
    assert math.isclose(scale, round(scale), abs_tol=1e-6)


def test_runs_of_numbers() -> None:
    assert show_numbers([3, 1, 2, 7, 9, 8, 12]) == "1 to 3, 7 to 9, 12"
    assert show_numbers([4, 5]) == "4, 5"
