"""Print order, trimming sheet and cutting list: what stands on them, and that it has room."""

import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace
from PIL import Image

from composer.model import Project
from composer.paper.kinds import NothingToPrint, PaperOptions, build
from composer.paper.primitives import Circle, Page, Photo, Text
from composer.paper.sheets import Margins, sheet_named
from composer.paper.type_metrics import missing_glyphs
from composer.prints.cutting_list import cutting_list
from composer.prints.plan import plan
from composer.prints.sharing import shared_stocks
from composer.prints.stock import stock_sizes
from composer.texts import PSEUDO_LANGUAGE, use_language
from tests.paper.layout import outside, overlapping_texts
from tests.paper.print_projects import everywhere, framed, many, nine, project_of, together
from tests.paper.sheet_projects import LONG_NAMES
from tests.paper.sheet_projects import nine as without_pictures

PROJECTS: dict[str, Any] = {
    "nine": nine,
    "imperial": lambda: nine("imperial"),
    "long names": lambda: nine(names=LONG_NAMES),
    "everywhere": everywhere,
    "everywhere, imperial": lambda: everywhere("imperial"),
    "forty": lambda: many(40),
    "together": together,
    "together, imperial": lambda: together("imperial"),
}


@pytest.fixture(params=["en", PSEUDO_LANGUAGE])
def language(request: pytest.FixtureRequest) -> Iterator[str]:
    use_language(request.param)
    yield request.param
    use_language(None)


def pages_of(project: Project, kind: str, sheet: str = "a4", **more: Any) -> list[Page]:
    options = PaperOptions(sheet_named(sheet), Margins(10.0, 10.0, 10.0, 10.0), **more)
    return list(build(project, kind, options).document.pages)


def texts(pages: list[Page]) -> list[str]:
    return [item.text.replace("\u00a0", " ") for page in pages for item in page.items if isinstance(item, Text)]


@pytest.mark.parametrize("sheet", ["a4", "letter", "a3"])
@pytest.mark.parametrize("which", PROJECTS)
@pytest.mark.parametrize("kind", ["prints", "mats"])
def test_texts_keep_apart_and_inside(kind: str, which: str, sheet: str, language: str) -> None:
    for page in pages_of(PROJECTS[which](), kind, sheet):
        assert overlapping_texts(page) == []
        assert outside(page) == []
        for item in page.items:
            if isinstance(item, Text):
                assert missing_glyphs(item.text) == ()


def test_the_order_adds_up() -> None:
    said = texts(pages_of(nine(), "prints"))
    # By hand: window + 6 or the glass; the cheapest priced size that covers, else the least area.
    # 1: 355 × 255 in 11 × 14. 2: 265 × 367 has no price: 30 × 40 cm. 3: 203 × 303 in 8 × 12. 4: 151 × 150 in 6 × 8.
    # 5: 173 × 223 and 6: 223 × 172 in 8 × 10. 7: 123 × 174 and 8: 151 × 82 in 5 × 7. 9: 101 × 188 in 6 × 8.
    assert (
        "Actual size. No enlarging, no fitting, not borderless, no correction. The white strip at the edges belongs to it."
        in " ".join(said)
    )
    total = 3.90 + 1.69 + 0.79 * 2 + 1.49 * 2 + 0.59 * 2
    assert f"{total:.2f}" in said
    assert "1 without a price" in said
    assert {"11 × 14 in", "30 × 40 cm", "8 × 12 in", "8 × 10 in", "6 × 8 in", "5 × 7 in"} <= set(said)
    assert any("05_…grandmother, 06_…crane" in text for text in said)


def test_what_to_keep_stands_large_and_what_needs_no_knife_is_told() -> None:
    pages = pages_of(nine(), "prints")
    large = {item.text for page in pages for item in page.items if isinstance(item, Text) and item.size_pt == 14}
    assert {"173", "223", "172", "123", "174"} <= large  # 5, 6 and 7 have no mat: their glass is kept
    said = texts(pages)
    assert any(text.startswith("Trim these ") for text in said)
    assert any("may stay whole" in text for text in said)
    # 7 is trimmed by 4.0 and 3.8 mm, which is too narrow for a bar.
    assert any(text.startswith("No bar (") and "7" in text and "123 × 174" in text for text in said)


def test_shared_sheets_are_cut_apart_by_their_numbers() -> None:
    """12 × 18 in is 304.8 × 457.2 mm: lying, less 12 left and above and 20 right and below, 425.2 × 272.8."""
    project = together()
    plans = [plan(project, piece, project.arrangement) for piece in project.pieces]
    sheets = shared_stocks(plans, stock_sizes("metric", project.catalogue))
    assert sorted(one.numbers for one in sheets) == [(1, 2, 3), (4, 5)]
    pages = pages_of(project, "prints")
    said = texts(pages)
    assert "Cut these 2 sheets apart" in said
    assert "cut off its white, 12 left and above, 20 right and below" in " ".join(said)
    cuts = [cut for one in sheets for sheet in one.cuts for cut in sheet.cuts]
    rings = sum(isinstance(item, Circle) for page in pages for item in page.items)
    assert rings == 2 * len(cuts)  # on the drawing and in the list
    (large,) = (one.cuts for one in sheets if one.numbers == (1, 2, 3))
    assert (large[0].width_mm, large[0].height_mm) == pytest.approx((425.2, 272.8))
    # Each is won by one cut, and stands neither among what is trimmed nor among what stays whole.
    for number in range(1, 6):
        assert sum(bool(re.search(rf"^print (\d, )*{number}(, \d)*$", text)) for text in said) == 1
    assert "Trim this one" in said or "This one may stay whole" in said
    # A knife along the printed numbers, in their order, frees every print: replayed on the sheet's white-free part.
    for one in sheets:
        for sheet in one.cuts:
            for cut in sheet.cuts:
                for placed in sheet.placed:
                    x1, y1, x2, y2 = placed.place
                    (a, b), (c, d) = cut.ends
                    crossed = x1 < a - 1e-6 < c < x2 - 1e-6 if cut.edge == "bottom" else False
                    assert not crossed
                    if cut.edge == "left" and x1 + 1e-6 < a < x2 - 1e-6:
                        assert d <= y1 + 1e-6 or b >= y2 - 1e-6
                    if cut.edge == "bottom" and y1 + 1e-6 < b < y2 - 1e-6:
                        assert c <= x1 + 1e-6 or a >= x2 - 1e-6


def test_names_of_what_is_trimmed_begin_below_each_other() -> None:
    """Wide and narrow thumbnails alike: the fourth piece's sheet lies, the others stand."""
    sizes = ((90, 160), (160, 90), (100, 220), (240, 180))
    pieces = [framed(number, f"frame {number}", size, None) for number, size in enumerate(sizes, 1)]
    pages = pages_of(project_of(pieces), "prints")
    starts = {
        round(item.x, 3)
        for page in pages
        for item in page.items
        if isinstance(item, Text) and item.weight == "semibold" and item.size_pt <= 10 and item.text in NAMES_TRIMMED
    }
    assert len(starts) == 1


NAMES_TRIMMED = {f"frame\u00a0{number}" for number in range(1, 5)} | {f"frame {number}" for number in range(1, 5)}


def test_origins_and_waste_elsewhere_are_said() -> None:
    said = " ".join(texts(pages_of(everywhere(), "prints")))
    assert "1, 4, 7 city archive, free of rights" in said
    # 203.2 − 180 = 23.2 and 254 − 220 = 34.
    assert "Cut off left 23.2, below 34" in said
    assert "Cut off left 11.6, top 17, right 11.6, below 17" in said
    assert "to measure" in said


def test_every_cut_is_listed_with_its_ring_once() -> None:
    for project in (nine(), everywhere(), many(40)):
        pages = pages_of(project, "mats")
        rings = sum(isinstance(item, Circle) for page in pages for item in page.items)
        made = cutting_list(project)
        cuts = [cut for board in made.boards for cut in board.cut.cuts]
        cuts += [cut for fall_out in made.fall_outs for cut in fall_out.cut.cuts]
        assert rings == 2 * len(cuts)  # on the drawing and in the list


def test_marks_and_checks_of_the_list_are_those_of_the_cuts() -> None:
    project = nine()
    pages = pages_of(project, "mats")
    said = texts(pages)
    made = cutting_list(project)
    assert made.boards and made.windows
    for board in made.boards:
        for cut in board.cut.cuts:
            near, far = ("left", "right") if cut.edge == "left" else ("bottom", "top")
            assert f"{round(cut.mark_mm, 1):g}" in said
            assert f"{far} {round(cut.check_mm, 1):g}" in said
            assert near in said
    for window in made.windows:
        four = window.borders
        assert {f"{four.top:g}", f"{four.bottom:g}", f"{four.left:g}"} <= set(said)
        assert f"{window.opening_mm[0]:g} × {window.opening_mm[1]:g}" in said


def test_a_fall_out_makes_the_mat_of_9() -> None:
    # Window of 2: 359 − 100 by 461 − 100; mat 9 is 155 × 242 and white like 2.
    said = texts(pages_of(nine(), "mats"))
    assert any(re.fullmatch(r"Window of [23], bevel off", text) for text in said)
    assert "makes mat 9" in said


def test_a_mat_beyond_every_board_is_named_and_no_mat_no_list() -> None:
    said = " ".join(texts(pages_of(everywhere(), "mats")))
    assert "Mat 8 is larger than every board" in said
    bare = project_of([framed(1, "bare", (200, 250), None)])
    with pytest.raises(NothingToPrint):
        pages_of(bare, "mats")
    with pytest.raises(NothingToPrint):
        pages_of(without_pictures(), "prints")
    with pytest.raises(NothingToPrint):
        pages_of(nine(), "prints", only=frozenset({77}))


def test_the_contact_sheet_shows_what_each_print_keeps(tmp_path: Path) -> None:
    # Left half red, right half blue; 7 is missing, 8 is no picture.
    image = Image.new("RGB", (600, 400), (220, 20, 20))
    image.paste((20, 20, 220), (300, 0, 600, 400))
    for number in (1, 2, 3, 4, 5, 6, 9):
        image.save(tmp_path / f"{number}.jpg")
    (tmp_path / "8.jpg").write_bytes(b"words")
    project = nine()
    pages = pages_of(project, "prints", folder=tmp_path)
    photos = [item for page in pages for item in page.items if isinstance(item, Photo)]
    shapes = {round(photo.width / photo.height, 2) for photo in photos}
    # 5 keeps its glass, 173 × 223; 6 its 223 × 172.
    assert {round(173 / 223, 2), round(223 / 172, 2)} <= shapes
    assert len(pages) == 2
    for photo in photos:
        with Image.open(io.BytesIO(photo.jpeg)) as shown:
            assert shown.width / shown.height == pytest.approx(photo.width / photo.height, rel=0.02)
            left, right = shown.getpixel((5, shown.height // 2)), shown.getpixel((shown.width - 5, shown.height // 2))
        assert left[0] > 180 > 90 > left[2]  # type: ignore[index]
        assert right[2] > 180 > 90 > right[0]  # type: ignore[index]


def test_an_order_of_two_pages_has_its_contact_sheet_on_the_first(tmp_path: Path) -> None:
    project = many(12)
    for piece in project.pieces:
        Image.new("RGB", (60, 40), (200, 100, 0)).save(tmp_path / f"{piece.number}.jpg")
    pages = pages_of(project, "prints", folder=tmp_path)
    first = [item for item in pages[0].items if isinstance(item, Photo)]
    assert len(first) == 12
    assert "What they show" in texts(pages[:1])
    left, bottom, right, top = pages[0].printable or (0, 0, 0, 0)
    for photo in first:
        assert left <= photo.left and photo.left + photo.width <= right + 1e-6
        assert bottom <= photo.bottom and photo.bottom + photo.height <= top + 1e-6
    assert overlapping_texts(pages[0]) == []


def test_what_is_done_is_not_asked_for_again() -> None:
    def staged(stage: Any) -> str:
        project = nine()
        pieces = tuple(replace(piece, stage=stage) if piece.number == 5 else piece for piece in project.pieces)
        return " ".join(texts(pages_of(replace(project, pieces=pieces), "prints")))

    here = staged("print-here")
    assert "05_…" not in here and "Grandmother" in here  # nothing to order, still to be trimmed
    framed_already = staged("framed")
    assert "05_…" not in framed_already and "Grandmother" not in framed_already
    assert "05_…grandmother" in staged("print-ordered")
