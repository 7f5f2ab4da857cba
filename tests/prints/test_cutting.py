"""Mats from boards by cuts that run right through: replayed with a knife that knows nothing else."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from composer.geometry.rectangle import Rectangle
from composer.model import EvenBorders, Mat, MatLayer
from composer.prints.cutting_list import CuttingList, Window, cut_all
from composer.prints.guillotine import Blank, CutSheet, most_from, pack
from composer.prints.mats import MatBorders, MatPlan, layout
from composer.prints.stock import board_sheets
from composer.units import Length
from tests.paper.sheet_projects import piece

INCH = 25.4
BOARD = (40 * INCH, 32 * INCH)


# Optima by exhaustive guillotine search with turning, counted outside this program; area bounds beside them.
@pytest.mark.parametrize(
    ("blank", "sheet", "count"),
    [
        ((5, 7), (32, 40), 36),
        ((8, 10), (32, 40), 16),
        ((11, 14), (32, 40), 6),
        ((12, 12), (32, 40), 6),
        ((12, 16), (32, 40), 6),
        ((16, 20), (32, 40), 4),
        ((18, 24), (32, 40), 2),
        ((20, 24), (32, 40), 2),
        ((5, 7), (40, 60), 68),
        ((8, 10), (40, 60), 30),
        ((11, 14), (40, 60), 14),
        ((16, 20), (40, 60), 6),
        ((5, 7), (31.5, 39.5), 33),
        ((8, 10), (31.5, 39.5), 12),
        ((11, 14), (31.5, 39.5), 6),
        ((12, 16), (31.5, 39.5), 5),
        ((16, 20), (31.5, 39.5), 2),
        ((20, 24), (31.5, 39.5), 1),
    ],
)
def test_how_many_of_one_size(blank: tuple[float, float], sheet: tuple[float, float], count: int) -> None:
    size, board = (blank[0] * INCH, blank[1] * INCH), (sheet[0] * INCH, sheet[1] * INCH)
    assert most_from(board, size) == count
    blanks = [Blank(str(number), *size) for number in range(count)]
    cut = pack(blanks, [board])
    assert len(cut) == 1
    replay(cut[0])
    assert len(pack([*blanks, Blank("one more", *size)], [board])) == 2


def replay(sheet: CutSheet) -> dict[str, Rectangle]:
    """Cuts the sheet as printed: each cut divides exactly one part in hand, right through."""
    parts = [Rectangle(0, 0, sheet.width_mm, sheet.height_mm)]
    for cut in sheet.cuts:
        matching = [part for part in parts if part == pytest.approx(cut.part)]
        assert len(matching) == 1
        part = matching[0]
        parts.remove(part)
        whole = part.width if cut.edge == "left" else part.height
        assert cut.mark_mm + cut.check_mm == pytest.approx(whole)
        assert 0 < cut.mark_mm < whole
        if cut.edge == "left":
            at = part.left + cut.mark_mm
            parts += [part._replace(right=at), part._replace(left=at)]
        else:
            at = part.bottom + cut.mark_mm
            parts += [part._replace(top=at), part._replace(bottom=at)]
    found: dict[str, Rectangle] = {}
    for one in sheet.placed:
        matching = [part for part in parts if max(abs(a - b) for a, b in zip(part, one.place, strict=True)) < 1e-4]
        assert len(matching) == 1, one.blank.label
        parts.remove(matching[0])
        wide, high = one.blank.width_mm, one.blank.height_mm
        expected = (high, wide) if one.turned else (wide, high)
        assert (matching[0].width, matching[0].height) == pytest.approx(expected)
        found[one.blank.label] = matching[0]
    assert len(parts) == len(sheet.left_over)
    gives = [label for cut in sheet.cuts for label in cut.gives]
    assert sorted(gives) == sorted(found) or len(found) == 1
    return found


def test_the_mixed_set_takes_one_board() -> None:
    # 2 × 80 + 2 × 154 + 320 + 144 = 932 of 1 280 square inches.
    sizes = [(8, 10), (8, 10), (11, 14), (11, 14), (16, 20), (12, 12)]
    blanks = [Blank(str(number), w * INCH, h * INCH) for number, (w, h) in enumerate(sizes, 1)]
    cut = pack(blanks, [BOARD])
    assert len(cut) == 1
    found = replay(cut[0])
    assert sorted(found) == ["1", "2", "3", "4", "5", "6"]
    areas = [place.width * place.height for place in found.values()]
    assert sum(areas) / INCH**2 == pytest.approx(932)
    assert cut[0].used == pytest.approx(932 / 1280)
    places = list(found.values())
    assert not any(a.meets(b) for index, a in enumerate(places) for b in places[:index])


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.integers(40, 800), st.integers(40, 800)), min_size=1, max_size=9))
def test_any_set_is_cut_whole_and_apart(sizes: list[tuple[int, int]]) -> None:
    blanks = [Blank(str(number), w, h) for number, (w, h) in enumerate(sizes)]
    sheets = pack(blanks, [BOARD])
    labels: list[str] = []
    for sheet in sheets:
        found = replay(sheet)
        labels += found
        board = Rectangle(0, 0, sheet.width_mm, sheet.height_mm).grown(1e-6)
        for place in found.values():
            assert board.left <= place.left and place.right <= board.right
            assert board.bottom <= place.bottom and place.top <= board.top
        places = list(found.values())
        assert not any(a.meets(b) for index, a in enumerate(places) for b in places[:index])
    assert sorted(labels) == sorted(blank.label for blank in blanks)
    area = sum(w * h for w, h in sizes)
    assert len(sheets) >= area / (BOARD[0] * BOARD[1])


def test_a_blank_larger_than_the_sheet_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^big$"):
        pack([Blank("big", 1200, 100)], [BOARD])


def window(number: int, outer: tuple[float, float], border: float, colour: str = "white") -> Window:
    mat = Mat(
        layers=(MatLayer(board="mat-4-ply", colour=colour),),
        borders=EvenBorders(border=Length.of_mm(border)),
    )
    made = layout(outer, mat, "metric")
    assert isinstance(made, MatPlan)
    return Window(
        str(number), piece(number, "x", *outer), made, made.layers[0], outer, made.window_mm,
        MatBorders(border, border, border, border),
    )  # fmt: skip


def all_cut(made: CuttingList) -> list[str]:
    labels: list[str] = []
    for board in made.boards:
        labels += replay(board.cut)
    for fall_out in made.fall_outs:
        labels += replay(fall_out.cut)
    return sorted(labels)


def test_a_small_mat_is_cut_from_a_window_of_its_own_colour() -> None:
    windows = [
        window(2, (359, 461), 50),  # window 259 × 361
        window(9, (155, 242), 30),
        window(8, (148, 217), 36, "grey"),
    ]
    made = cut_all(windows, board_sheets())
    assert [(one.window, [p.blank.label for p in one.cut.placed]) for one in made.fall_outs] == [("2", ["9"])]
    assert made.window("2").makes == "9"
    assert made.counts == {("mat-4-ply", "white", "32x40in"): 1, ("mat-4-ply", "grey", "32x40in"): 1}
    assert all_cut(made) == ["2", "8", "9"]
    assert [board.name for board in made.boards] == ["A", "B"]


def test_a_mat_is_not_cut_from_the_fall_out_of_a_mat_that_is_one_itself() -> None:
    windows = [window(1, (500, 600), 50), window(2, (400, 500), 50), window(3, (290, 390), 50)]
    made = cut_all(windows, board_sheets())
    assert all_cut(made) == ["1", "2", "3"]
    hosts = {one.window for one in made.fall_outs}
    inside = {placed.blank.label for one in made.fall_outs for placed in one.cut.placed}
    assert not hosts & inside
    assert hosts


def test_a_large_mat_takes_a_large_board_and_one_beyond_every_board_is_named() -> None:
    windows = [window(1, (900, 1200), 60), window(2, (300, 300), 60), window(3, (1100, 1600), 60)]
    made = cut_all(windows, board_sheets())
    assert [one.label for one in made.too_large] == ["3"]
    assert made.counts == {("mat-4-ply", "white", "40x60in"): 1}
    assert all_cut(made) == ["1", "2"]
