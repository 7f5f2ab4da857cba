"""Less paper: points alone, corners alone, small pieces together, the whole wall; and what each sheet then says."""

from typing import Any

import pytest

from composer.paper.full_size_paper import FullSizePaper
from composer.paper.page_index import PageIndex
from composer.paper.pdf import to_pdf
from composer.paper.primitives import Document, Page, Polygon, Text
from composer.paper.sheets import sheet_named
from composer.paper.templates import templates
from composer.paper.whole_wall import whole_wall
from composer.texts import PSEUDO_LANGUAGE, say, use_language
from tests.paper.pdf_reading import read_pages
from tests.paper.sheet_projects import CORNERS, SIZES, at, hanger, many, nine, piece, project

IN = 25.4
SET_A = [(6 * IN, 8 * IN), (8 * IN, 10 * IN), (11 * IN, 14 * IN), (12 * IN, 12 * IN), (16 * IN, 20 * IN), (500, 700)]


def made(hung: Any, sheet: str = "a4", **options: Any) -> tuple[list[Page], PageIndex]:
    pages, index = templates(hung, hung.arrangement, FullSizePaper(sheet_named(sheet), **options))
    return list(pages), index


def words(page: Page) -> list[str]:
    return [item.text for item in page.items if isinstance(item, Text)]


def set_a() -> Any:
    """Six frames, one point 50 mm down at mid-width under 350 mm wide, else two at a quarter and three quarters."""
    frames = [
        piece(
            number,
            f"Frame {number}",
            width,
            height,
            hanger("sawtooth", drop=50) if width < 350 else hanger("d-rings", drop=50, spacing=width / 2),
        )
        for number, (width, height) in enumerate(SET_A, 1)
    ]
    return project(frames, [at(number, 100 + 510 * number, 1200) for number in range(1, 7)], wall=(4000, 2500))


@pytest.mark.parametrize("sheet", ["a4", "letter"])
def test_points_alone_take_six_sheets_for_six_frames(sheet: str) -> None:
    # The widest pair is 250 apart; with 2 × 6 mm of cross 262 ≤ 277 (A4 lying) and ≤ 259.4 (letter lying)? 262 > 259.4:
    # the pair of the last frame takes two letter sheets.
    pages, index = made(set_a(), sheet, economy="points")
    assert len(pages) == (6 if sheet == "a4" else 7)
    assert [entry.piece for entry in index.pages] == [1, 2, 3, 4, 5, 6] + ([] if sheet == "a4" else [6])


def test_a_pair_too_far_apart_takes_a_sheet_a_point() -> None:
    hung = project([piece(1, "Long", 900, 300, hanger("d-rings", drop=60, spacing=700))], [at(1, 300, 1000)])
    pages, index = made(hung, economy="points")
    assert [(entry.label, entry.of, len(entry.points)) for entry in index.pages] == [
        ("1-A1", (1, 2), 1),
        ("1-B1", (1, 2), 1),
    ]
    # Where the nails go, by hand: middle 300 + 450 ± 350, top 1 300 − 60.
    for page, across in zip(pages, ("400", "1\u00a0100"), strict=True):
        assert across in words(page)
        assert "1\u00a0240" in words(page)


def test_what_a_points_sheet_says_can_be_checked_on_it() -> None:
    pages, index = made(nine(), economy="points", only=frozenset({2}))
    (page,), (entry,) = pages, index.pages
    # The two nails of piece 2, by hand: middle 1 986 + 203 ± 51; hole 18 above the seat at 1 223 + 508 − 97.
    for number in ("2\u00a0138", "2\u00a0240", "1\u00a0652", "1\u00a0634", "1\u00a0731"):
        assert number in words(page)
    lengths = {
        round(abs(x1 - x2) + abs(y1 - y2), 3)
        for x1, y1, x2, y2 in read_pages(to_pdf(Document("test", pages)))[0].lines
        if x1 == pytest.approx(x2, abs=1e-3) or y1 == pytest.approx(y2, abs=1e-3)
    }
    assert 150.0 in lengths  # the check ruler
    assert 102.0 in lengths  # between the nails
    assert entry.points[1].page_x - entry.points[0].page_x == pytest.approx(102)


def lowest_tip(page: Page) -> tuple[float, float]:
    """The lowest corner of the filled triangles on a page."""
    triangles = [item for item in page.items if isinstance(item, Polygon) and len(item.points) == 3]
    return min((point for item in triangles for point in item.points), key=lambda point: point[1])


def test_corner_sheets_say_how_far_apart_they_lie() -> None:
    pages, index = made(set_a(), economy="corners", only=frozenset({6}))
    grid = index.pages[0].of
    assert len(index.pages) < grid[0] * grid[1]
    for page, entry in zip(pages, index.pages, strict=True):
        below = [e for e in index.pages if e.column == entry.column and e.row > entry.row]
        if not below or min(e.row for e in below) == entry.row + 1:
            continue
        other = min(below, key=lambda e: e.row)
        # The tips lie on the lower printable edges of both sheets, at the same place across.
        tips = [lowest_tip(pages[e.page - 1]) for e in (entry, other)]
        assert tips[0][0] == pytest.approx(tips[1][0])
        assert [y for _, y in tips] == pytest.approx([e.printable[1] for e in (entry, other)])
        apart = (entry.origin[1] + tips[0][1]) - (other.origin[1] + tips[1][1])
        text = " ".join(words(page)).replace("\u00a0", " ")
        assert f"No sheet below. From the tip at this sheet's lower edge to the tip of {other.label}" in text
        assert f"{apart:.1f}".removesuffix(".0") in text
        break
    else:
        raise AssertionError("no sheet is left out")


def test_small_pieces_share_sheets_and_each_can_be_cut_out() -> None:
    hung = project(
        [piece(n, f"Card {n}", 88.9, 127, hanger("sawtooth", drop=20)) for n in range(1, 6)],
        [at(n, 100.0 + 150 * n, 1200) for n in range(1, 6)],
    )
    pages, index = made(hung, "letter")
    # Four of 3 1/2 × 5 in lie on a letter sheet inside 10 mm; the fifth takes another.
    assert [sum(entry.page == number for entry in index.pages) for number in (1, 2)] == [4, 1]
    assert all((entry.of, entry.row, entry.column) == ((1, 1), 1, 1) for entry in index.pages)
    assert len(pages) == 2
    for entry in index.pages:
        assert f"{entry.piece}  Card {entry.piece}" in words(pages[entry.page - 1])


def test_pieces_on_the_floor_come_last_and_have_no_heights() -> None:
    hung = project(
        [
            piece(1, "Below", 300, 400, hanger("sawtooth", drop=40)),
            piece(2, "Up", 300, 400, hanger("sawtooth", drop=40)),
        ],
        [at(2, 500, 1200)],
    )
    pages, index = made(hung)
    assert list(dict.fromkeys(entry.piece for entry in index.pages)) == [2, 1]
    for page, entry in zip(pages, index.pages, strict=True):
        assert ("above floor" in words(page)) == (entry.piece == 2 and bool(entry.points))


def test_chosen_pieces_alone_are_printed() -> None:
    _, index = made(nine(), only=frozenset({3, 7}))
    assert {entry.piece for entry in index.pages} == {3, 7}


@pytest.mark.parametrize("economy", ["full", "outline"])
@pytest.mark.parametrize("sheet", ["a4", "roll-24in"])
def test_the_whole_wall_shows_every_edge_of_every_piece(sheet: str, economy: str) -> None:
    hung = nine()
    paper = FullSizePaper(sheet_named(sheet), economy=economy)  # type: ignore[arg-type]
    pages, index = whole_wall(hung, hung.arrangement, paper)
    strokes = read_pages(to_pdf(Document("test", pages)))
    for (left, bottom), (width, height) in zip(CORNERS, SIZES, strict=True):
        edges = (
            (0, left, bottom, bottom + height), (0, left + width, bottom, bottom + height),
            (1, bottom, left, left + width), (1, bottom + height, left, left + width),
        )  # fmt: skip
        for axis, where, low, high in edges:
            found = []
            for entry in index.pages:
                ox, oy = entry.origin
                for x1, y1, x2, y2 in strokes[entry.page - 1].lines:
                    a, b = (x1 + ox, y1 + oy), (x2 + ox, y2 + oy)
                    if abs(a[axis] - where) < 0.05 and abs(b[axis] - where) < 0.05:
                        found.append((min(a[1 - axis], b[1 - axis]), max(a[1 - axis], b[1 - axis])))
            reached = float(low)
            for start, end in sorted(found):
                if start <= reached + 1e-3:
                    reached = max(reached, end)
            assert reached >= high - 1e-3
    assert all(entry.piece is None and entry.label.startswith("W-") for entry in index.pages)


@pytest.mark.parametrize("economy", ["full", "outline", "corners", "points"])
@pytest.mark.parametrize("sheet", ["a4", "letter", "roll-24in"])
def test_every_full_size_page_asks_for_actual_size(sheet: str, economy: str) -> None:
    # Readers may scale in spite of the file's own wish (ISO 32000-1, table 150, calls it a preset of a dialogue).
    for hung in (nine(), nine("imperial"), many(14)):
        pages, index = made(hung, sheet, economy=economy)
        for number in {entry.page for entry in index.pages}:
            assert "actual size" in " ".join(words(pages[number - 1])), pages[number - 1].label
    if economy != "points":
        wall_pages, _ = whole_wall(nine(), nine().arrangement, FullSizePaper(sheet_named(sheet)))
        for page in wall_pages:
            assert "actual size" in " ".join(words(page)), page.label


def test_steps_and_numbers_stand_somewhere_for_every_piece() -> None:
    for hung in (nine(), many(14), nine("imperial")):
        for sheet in ("a4", "letter", "a3", "roll-24in", "legal"):
            pages, index = made(hung, sheet)
            for placed in hung.pieces:
                own = [
                    page
                    for number, page in enumerate(pages, 1)
                    if any(entry.page == number and entry.piece == placed.number for entry in index.pages)
                    or page.label.startswith(f"{placed.number}-")
                ]
                alone = [page for page in own if "+" not in page.label]
                assert own
                if alone and max(placed.frame.width.mm, placed.frame.height.mm) > 200:
                    assert any("In this order" in words(page) for page in alone), f"{placed.name} on {sheet}"


@pytest.mark.parametrize("sheet", ["a4", "letter", "30x40cm"])
def test_steps_and_numbers_are_printed_once_a_piece(sheet: str) -> None:
    use_language(PSEUDO_LANGUAGE)
    try:
        steps, numbers = say("In this order"), say("Numbers of this piece")
        for placed in nine().pieces:
            if placed.hanger.kind == "strips":
                continue
            pages, _ = made(nine(), sheet, only=frozenset({placed.number}))
            tiles = [page for page in pages if not page.label.endswith(say("{number}-map", number=placed.number))]
            assert sum(words(page).count(steps) for page in tiles) == 1
            assert sum(words(page).count(numbers) for page in tiles) <= 1
    finally:
        use_language(None)


def test_distances_of_marks_are_told_finely_enough_to_judge_the_scale() -> None:
    # Marks lie in the middles of the two bands of 10 mm, so one printable width less 10 mm apart; what is said must
    # lie within half a 64th of an inch (0.2 mm, 0.1 %) of that.
    pages, index = made(nine("imperial"), "letter", only=frozenset({2}))
    told = next(text for page in pages for text in [" ".join(words(page))] if "apart across" in text)
    across = told.split("marks: ")[1].split(" apart across")[0].replace("\u00a0", " ")
    whole, _, part = across.partition(" ")
    inches = float(whole) + (float(part.split("/")[0]) / float(part.split("/")[1]) if part else 0.0)
    entry = index.pages[0]
    drawn = entry.printable[2] - entry.printable[0] - 10.0
    assert inches * 25.4 == pytest.approx(drawn, abs=25.4 / 128 + 1e-6)
