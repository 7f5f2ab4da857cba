"""Locators of pieces on strips: outline, black corners, strips' middles, and the back as one sees it from behind."""

from typing import Any

import pytest

from composer.model import Hanger, Project
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.page_index import IndexEntry, PageIndex
from composer.paper.pdf import to_pdf
from composer.paper.primitives import Box, Document, Page, Text
from composer.paper.sheets import sheet_named
from composer.paper.templates import templates
from tests.paper.layout import outside, overlapping_texts
from tests.paper.pdf_reading import read_pages
from tests.paper.sheet_projects import at, piece, project

SMALL, WIDE, LARGE = (178.0, 229.0), (400.0, 240.0), (550.0, 700.0)
STRIP = (16.0, 70.0)
"""Medium strips as shipped; the packet in hand counts (common practice, no source)."""

INSET, THICK, ARM = 5.0, 4.0, 34.0


def on_strips(size: tuple[float, float], kg: float = 0.4) -> Project:
    framed = piece(1, "Postcard", *size, Hanger(kind="strips"), face=32, kg=kg)
    return project([framed], [at(1, 700, 1000)])


def made(size: tuple[float, float], **options: Any) -> tuple[list[Page], PageIndex]:
    sheet = options.pop("sheet", "a4")
    hung = on_strips(size, options.pop("kg", 0.4))
    pages, index = templates(hung, hung.arrangement, FullSizePaper(sheet_named(sheet), **options))
    return list(pages), index


def middles(size: tuple[float, float]) -> list[tuple[float, float]]:
    """Two strips 5 mm inside the upper corners: their middles from the piece's lower left corner."""
    width, height = size
    y = height - INSET - STRIP[1] / 2
    return [(INSET + STRIP[0] / 2, y), (width - INSET - STRIP[0] / 2, y)]


def black(page: Page) -> list[tuple[float, float, float, float]]:
    """Filled black boxes as left, bottom, right, top; the labels with words on them left out."""
    words = [item for item in page.items if isinstance(item, Text) and item.grey == 1.0]
    boxes = [
        (box.left, box.bottom, box.left + box.width, box.bottom + box.height)
        for box in page.items
        if isinstance(box, Box) and box.fill_grey == 0.0
    ]
    return [b for b in boxes if not any(b[0] <= w.x <= b[2] and b[1] <= w.y <= b[3] for w in words)]


def in_piece(box: tuple[float, float, float, float], entry: IndexEntry) -> tuple[float, float, float, float]:
    ox, oy = entry.origin
    return (box[0] + ox, box[1] + oy, box[2] + ox, box[3] + oy)


@pytest.mark.parametrize("economy", ["full", "outline", "corners", "points"])
@pytest.mark.parametrize("sheet", ["a4", "letter", "roll-24in", "a3"])
@pytest.mark.parametrize("size", [SMALL, WIDE])
def test_each_strip_s_middle_is_a_whole_cross_somewhere(size: tuple[float, float], sheet: str, economy: str) -> None:
    pages, index = made(size, sheet=sheet, economy=economy)
    strokes = read_pages(to_pdf(Document("test", pages)))
    seen = set()
    for entry in index.pages:
        crosses = [cross[:2] for cross in strokes[entry.page - 1].crosses()]
        assert len(crosses) == len(entry.points)
        for number, (x, y) in enumerate(middles(size)):
            on_page = (x - entry.origin[0], y - entry.origin[1])
            if any(cross == pytest.approx(on_page, abs=0.05) for cross in crosses):
                seen.add(number)
        assert entry.holes == ()
    assert seen == {0, 1}


@pytest.mark.parametrize("economy", ["full", "outline", "corners", "points"])
@pytest.mark.parametrize("size", [SMALL, WIDE, LARGE])
def test_the_black_corners_lie_outside_the_outline(size: tuple[float, float], economy: str) -> None:
    pages, index = made(size, economy=economy)
    width, _ = size
    boxes = [in_piece(box, entry) for entry in index.pages for box in black(pages[entry.page - 1])]
    assert boxes
    near = 1e-6
    for left, bottom, right, top in boxes:
        assert right <= near or left >= width - near or top <= near, "nothing black lies inside the outline"
        assert left >= -THICK - near
        assert right <= width + THICK + near
        assert bottom >= -THICK - near
        assert top <= ARM + near
    # Together they reach from the corners as far as the arms are long, on both sides.
    for x in (-THICK / 2, width + THICK / 2):
        for y in (-THICK + 0.1, 1.0, ARM - 0.1):
            assert any(b[0] <= x <= b[2] and b[1] <= y <= b[3] for b in boxes)
    for x in (0.5, ARM - 0.5, width - 0.5, width - ARM + 0.5):
        assert any(b[0] <= x <= b[2] and b[1] <= -THICK / 2 <= b[3] for b in boxes)


def edges_covered(size: tuple[float, float], pages: list[Page], index: PageIndex) -> bool:
    strokes = read_pages(to_pdf(Document("test", pages)))
    width, height = size
    stretches: dict[str, list[tuple[float, float]]] = {"left": [], "right": [], "bottom": [], "top": []}
    for entry in index.pages:
        ox, oy = entry.origin
        for x1, y1, x2, y2 in strokes[entry.page - 1].lines:
            a, b = (x1 + ox, y1 + oy), (x2 + ox, y2 + oy)
            for name, axis, where in (
                ("left", 0, 0.0), ("right", 0, width), ("bottom", 1, 0.0), ("top", 1, height)
            ):  # fmt: skip
                if abs(a[axis] - where) < 0.05 and abs(b[axis] - where) < 0.05:
                    stretches[name].append((min(a[1 - axis], b[1 - axis]), max(a[1 - axis], b[1 - axis])))
    for name, found in stretches.items():
        reached = 0.0
        for low, high in sorted(found):
            if low <= reached + 1e-3:
                reached = max(reached, high)
        if reached < (height if name in ("left", "right") else width) - 1e-3:
            return False
    return True


@pytest.mark.parametrize("sheet", ["a4", "letter", "roll-24in"])
@pytest.mark.parametrize("size", [SMALL, WIDE, LARGE])
def test_in_full_the_outline_is_complete_over_the_sheets(size: tuple[float, float], sheet: str) -> None:
    for economy in ("full", "outline"):
        assert edges_covered(size, *made(size, sheet=sheet, economy=economy)), economy


def test_an_outline_leaves_out_the_blank_middle_of_a_large_one() -> None:
    full, outline = made(LARGE)[1].pages, made(LARGE, economy="outline")[1].pages
    assert len(outline) < len(full)
    assert outline[0].of == full[0].of


def test_a_wide_piece_takes_two_sheets_for_its_corners() -> None:
    pages, index = made(WIDE, economy="corners")
    assert len(pages) == 2
    assert [entry.label for entry in index.pages] == ["1-A1", "1-B1"]
    left, right = index.pages
    # Each sheet holds its lower corner whole, four millimetres of black outside it included.
    assert left.origin[0] <= -THICK - left.printable[0]
    assert right.origin[0] + right.printable[2] >= WIDE[0] + THICK


def test_on_a_roll_the_page_is_as_wide_as_the_roll() -> None:
    for size in (SMALL, WIDE, LARGE, (900.0, 300.0)):
        for economy in ("full", "corners", "points"):
            pages, index = made(size, sheet="roll-24in", economy=economy)
            assert all(page.size[0] == pytest.approx(609.6) for page in pages)
            assert all(entry.size[0] == pytest.approx(609.6) for entry in index.pages)


def test_the_back_is_mirrored() -> None:
    pages, _ = made(SMALL)
    letters = {
        item.text: item.x for page in pages for item in page.items if isinstance(item, Text) and item.text in ("L", "R")
    }
    # From behind, the strip that is right on the wall is on the left.
    assert letters["R"] < letters["L"]


@pytest.mark.parametrize("sheet", ["a4", "letter", "roll-24in", "a3", "30x40cm"])
@pytest.mark.parametrize("size", [(90, 90), SMALL, WIDE, LARGE])
def test_the_back_and_its_numbers_are_always_printed(size: tuple[float, float], sheet: str) -> None:
    for economy in ("full", "outline", "corners", "points"):
        pages, index = made(size, sheet=sheet, economy=economy)
        words = [item.text for page in pages for item in page.items if isinstance(item, Text)]
        for wanted in ("BACK of the frame", "In this order", "frame flat, needed"):
            assert wanted in words, f"{wanted} on {sheet}, {economy}"
        # The wall's numbers: lower left corner 700 from the left, lower edge 1 000 above the floor.
        assert "700" in words
        assert "1\u202f000" in words or "1\u00a0000" in words
        assert {entry.page for entry in index.pages} <= set(range(1, len(pages) + 1))
        for page in pages:
            assert overlapping_texts(page) == []
            assert outside(page) == []
