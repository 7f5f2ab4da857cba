"""How many sheets cover a piece: the formula by hand, sets of frames, and any piece against a search through all grids."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, floor

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from composer.geometry.rectangle import Rectangle
from composer.paper.grid import Grid, Mark, TileSize
from composer.paper.kept_sheets import Economy
from composer.paper.tiling import choose, count

IN = 25.4
SHEETS = {
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "letter": (8.5 * IN, 11 * IN),
    "legal": (8.5 * IN, 14 * IN),
    "tabloid": (11 * IN, 17 * IN),
}
SET_A = [(6 * IN, 8 * IN), (8 * IN, 10 * IN), (11 * IN, 14 * IN), (12 * IN, 12 * IN), (16 * IN, 20 * IN), (500, 700)]
SET_B = [(130, 180), (190, 270), (240, 300), (330, 430), (400, 500), (500, 700)]


def ways(sheet: str, margin: float) -> list[tuple[float, float]]:
    """What a sheet prints upright and lying, with the same margin all round."""
    width, height = (side - 2 * margin for side in SHEETS[sheet])
    return [(width, height), (height, width)]


@pytest.mark.parametrize(("length", "sheets"), [(5, 1), (190, 1), (190.0001, 2), (370, 2), (370.01, 3), (550, 3)])
def test_sheets_in_a_row(length: float, sheets: int) -> None:
    # n sheets of 190 that share 10 reach over 190·n − 10·(n − 1): 190, 370, 550.
    assert count(length, 190, 10) == sheets


def test_a_corrected_printer_may_need_one_more() -> None:
    # 370 mm drawn × 1.003 are 371.11 mm; of two sheets 2·190 − 10·1.003 = 369.97 mm are left.
    assert count(370, 190 / 1.003, 10) == 3


def count_sheets(width: float, height: float, sheets: Iterable[tuple[float, float]], overlap: float) -> int:
    """The fewest sheets that cover a rectangle, upright or lying, marks not looked at."""
    return min(count(width, wide, overlap) * count(height, high, overlap) for wide, high in sheets)


@pytest.mark.parametrize(
    ("frames", "sheet", "margin", "sheets"),
    [
        (SET_A, "a4", 10, 25),
        (SET_A, "letter", 10, 25),
        (SET_B, "a4", 10, 22),
        (SET_B, "letter", 10, 23),
        (SET_A, "a4", 5, 23),
        (SET_A, "letter", 5, 24),
        (SET_A, "a3", 10, 14),
        (SET_A, "tabloid", 10, 12),
        (SET_A, "legal", 10, 21),
        ([(16 * IN, 20 * IN)], "tabloid", 10, 2),  # 2 · 259.4 − 10 = 508.8 is just enough for 508
        ([(8 * IN, 10 * IN)], "letter", 6.35, 1),  # 215.9 − 2 · 6.35 = 203.2
        ([(8 * IN, 10 * IN)], "letter", 6.36, 2),
    ],
)
def test_sets_of_frames(frames: list[tuple[float, float]], sheet: str, margin: float, sheets: int) -> None:
    # Sums done by hand with ceil((length − 10) / (printable − 10)), the better of upright and lying for each frame.
    assert sum(count_sheets(width, height, ways(sheet, margin), 10) for width, height in frames) == sheets


def sizes(sheet: str, margin: float = 10) -> list[TileSize]:
    return [TileSize(*area, way) for way, area in enumerate(ways(sheet, margin))]


def hand_points(width: float, height: float) -> list[Mark]:
    """One point at mid-width under 350 mm, else at a quarter and three quarters, 50 mm below the top; bare points."""
    across = [width / 2] if width < 350 else [width / 4, 3 * width / 4]
    return [Mark(x, height - 50, 0) for x in across]


def test_corners_and_points_alone_take_19_sheets_for_set_a() -> None:
    # By hand, a sheet kept where it owns a corner or a point: 1 + 2 + 4 + 4 + 4 + 4.
    kept = [
        len(choose(Rectangle(0, 0, w, h), hand_points(w, h), sizes("a4"), 10, economy="corners").kept) for w, h in SET_A
    ]
    assert kept == [1, 2, 4, 4, 4, 4]


@pytest.mark.parametrize(
    ("width", "height", "tiles", "grid", "kept"),
    [
        (1000, 1400, [TileSize(190, 277)], 36, 20),  # 6 × 6; the rim of it has 20
        (700, 1000, [TileSize(190, 277)], 16, 12),  # 4 × 4; rim 12
        (700, 1000, sizes("a4"), 16, 12),  # lying: 3 × 6 = 18, rim 14
    ],
)
def test_an_outline_leaves_out_the_blank_middle(
    width: float, height: float, tiles: list[TileSize], grid: int, kept: int
) -> None:
    found = choose(Rectangle(0, 0, width, height), [], tiles, 10, economy="outline")
    assert (found.rows * found.columns, len(found.kept)) == (grid, kept)


CROSS, RING = 6.0, 4.0


@dataclass(frozen=True)
class Job:
    """Any piece with its points, on any paper, at any correction."""

    width: float
    height: float
    marks: tuple[Mark, ...]
    sheet: tuple[float, float]
    margins: tuple[float, float, float, float]
    overlap: float
    scale: tuple[float, float]

    @property
    def sizes(self) -> list[TileSize]:
        left, bottom, right, top = self.margins
        wide, high = self.sheet
        return [
            TileSize(wide - left - right, high - bottom - top, 0),
            TileSize(high - left - right, wide - bottom - top, 1),
        ]

    def grid(self, economy: Economy = "full") -> Grid:
        return choose(
            Rectangle(0, 0, self.width, self.height),
            self.marks,
            self.sizes,
            self.overlap,
            scale=self.scale,
            economy=economy,
        )


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    width, height = draw(st.floats(30, 1600)), draw(st.floats(30, 1600))
    count_of_points = draw(st.integers(0, 2))
    marks = []
    for _ in range(count_of_points):
        x, y = draw(st.floats(0, width)), draw(st.floats(0, height))
        marks += [Mark(x, y, CROSS), Mark(x, y + draw(st.sampled_from([0.0, 18.0, -2.0])), RING)]
    return Job(
        width,
        height,
        tuple(marks),
        draw(st.sampled_from(list(SHEETS.values()))),
        tuple(draw(st.floats(0, 20)) for _ in range(4)),  # type: ignore[arg-type]
        draw(st.floats(0, 25)),
        (draw(st.floats(0.985, 1.015)), draw(st.floats(0.985, 1.015))),
    )


NEAR = 1e-5


def spans_of(job: Job, axis: int) -> list[tuple[float, float]]:
    """The marks' stretches along one axis in millimetres of the piece: their size on paper is not scaled."""
    return [
        ((m.x, m.y)[axis] - m.half / job.scale[axis], (m.x, m.y)[axis] + m.half / job.scale[axis]) for m in job.marks
    ]


def starts_exist(job: Job, axis: int, tile: float, number: int) -> bool:
    """Whether so many tiles can cover one axis with every mark whole on one: all places are tried where something fits exactly."""
    spans = spans_of(job, axis)
    side = (job.width, job.height)[axis]
    low, high = min([0.0, *(a for a, _ in spans)]), max([side, *(b for _, b in spans)])
    pitch = tile - job.overlap
    covered = tile + (number - 1) * pitch
    tries = {low, high - covered}
    tries |= {a - i * pitch for a, _ in spans for i in range(number)}
    tries |= {b - tile - i * pitch for _, b in spans for i in range(number)}

    def holds(start: float) -> bool:
        return (
            start <= low + NEAR
            and start + covered >= high - NEAR
            and all(
                any(start + i * pitch <= a + NEAR and start + i * pitch + tile >= b - NEAR for i in range(number))
                for a, b in spans
            )
        )

    return any(holds(start) for start in tries)


def fewest(job: Job) -> int:
    """The fewest sheets of any full grid, found by trying: the two axes do not depend on each other."""
    best = 10**9
    for size in job.sizes:
        rows_and_columns = []
        for axis, tile in ((0, size.width / job.scale[0]), (1, size.height / job.scale[1])):
            number = 1
            while not starts_exist(job, axis, tile, number):
                number += 1
            rows_and_columns.append(number)
        best = min(best, rows_and_columns[0] * rows_and_columns[1])
    return best


@settings(max_examples=150, deadline=None)
@given(jobs())
def test_no_grid_needs_fewer_sheets(job: Job) -> None:
    grid = job.grid()
    assert len(grid.kept) == grid.rows * grid.columns == fewest(job)


@settings(max_examples=150, deadline=None)
@given(jobs())
def test_sheets_cover_the_piece_and_share_the_overlap(job: Job) -> None:
    grid = job.grid()
    first, last = grid.tile(grid.rows, 1), grid.tile(1, grid.columns)
    assert first.left <= NEAR
    assert first.bottom <= NEAR
    assert last.right >= job.width - NEAR
    assert last.top >= job.height - NEAR
    for row in range(1, grid.rows + 1):
        for column in range(1, grid.columns + 1):
            tile = grid.tile(row, column)
            size = job.sizes[grid.way]
            assert (tile.width * job.scale[0], tile.height * job.scale[1]) == pytest.approx((size.width, size.height))
            if column < grid.columns:
                assert tile.right - grid.tile(row, column + 1).left >= job.overlap - NEAR
            if row < grid.rows:
                assert grid.tile(row + 1, column).top - tile.bottom >= job.overlap - NEAR


@settings(max_examples=150, deadline=None)
@given(jobs(), st.sampled_from(["full", "outline", "corners"]))
def test_every_mark_is_whole_where_the_printer_prints(job: Job, economy: Economy) -> None:
    grid = job.grid(economy)
    for mark in job.marks:
        across, up = mark.half / job.scale[0], mark.half / job.scale[1]
        assert any(
            tile.left - NEAR <= mark.x - across
            and mark.x + across <= tile.right + NEAR
            and tile.bottom - NEAR <= mark.y - up
            and mark.y + up <= tile.top + NEAR
            for tile in (grid.tile(*place) for place in grid.kept)
        )


@settings(max_examples=100, deadline=None)
@given(jobs())
def test_economies_never_cost_more_and_keep_what_they_promise(job: Job) -> None:
    full, outline, corners = (job.grid(economy) for economy in ("full", "outline", "corners"))
    assert len(corners.kept) <= len(outline.kept) <= len(full.kept)
    tiles = [outline.tile(*place) for place in outline.kept]
    for step in range(101):
        share = step / 100
        for x, y in (
            (0, share * job.height),
            (job.width, share * job.height),
            (share * job.width, 0),
            (share * job.width, job.height),
        ):
            assert any(t.left - NEAR <= x <= t.right + NEAR and t.bottom - NEAR <= y <= t.top + NEAR for t in tiles)
    for x in (0, job.width):
        for y in (0, job.height):
            assert any(
                t.left - NEAR <= x <= t.right + NEAR and t.bottom - NEAR <= y <= t.top + NEAR
                for t in (corners.tile(*place) for place in corners.kept)
            )


@given(st.floats(1, 5000), st.floats(60, 900), st.floats(0, 50))
def test_one_sheet_less_would_not_cover(length: float, tile: float, overlap: float) -> None:
    sheets = count(length, tile, overlap)
    assert sheets * tile - (sheets - 1) * overlap >= length * (1 - 1e-6)
    if sheets > 1:
        assert (sheets - 1) * tile - (sheets - 2) * overlap < length * (1 + 1e-6)
    # The same sum as a search, not a formula.
    exact = (length - overlap) / (tile - overlap)
    assert sheets in {max(1, floor(exact)), max(1, ceil(exact))}


def test_an_overlap_as_wide_as_the_sheet_is_an_error() -> None:
    with pytest.raises(ValueError):
        count(500, 190, 190)


def test_both_points_of_a_pair_come_on_one_sheet_where_slack_allows() -> None:
    # 406 × 508 with nails 152 and 254 from the left: three sheets of 190 reach over 550, so the slack is 144;
    # the middle sheet holds both from 108 to 298 or wherever it starts between 66 and 146 (crosses are 12 wide).
    marks = [Mark(152, 429, RING), Mark(254, 429, RING), Mark(152, 411, CROSS), Mark(254, 411, CROSS)]
    grid = choose(Rectangle(0, 0, 406, 508), marks, sizes("a4"), 10)
    assert (grid.columns, grid.rows) == (3, 2)
    assert any(
        tile.left <= 146 and tile.right >= 260 and tile.bottom <= 405 and tile.top >= 433
        for tile in (grid.tile(*place) for place in grid.kept)
    )
    # Head room: 30 mm of paper above the frame's top edge.
    assert grid.tile(1, 1).top >= 508 + 30 - NEAR


def test_a_mark_on_the_join_of_a_row_without_slack_takes_one_sheet_more() -> None:
    # Two sheets of 190 that share 10 reach over 370 exactly, so their join is at 180 to 190: a mark 24 wide in the
    # middle (173 to 197) is whole on neither. Three sheets leave 180 mm to choose from.
    tiles = [TileSize(190, 277)]
    assert choose(Rectangle(0, 0, 370, 200), [Mark(185, 100, 12)], tiles, 10).columns == 3
    assert choose(Rectangle(0, 0, 370, 200), [Mark(185, 100, 5)], tiles, 10).columns == 2


def test_a_length_that_fits_but_for_the_last_digit_of_a_float_takes_no_sheet_more() -> None:
    # 370 + 1e-10 is 370 for any paper: the grid starts where both ends are missed alike.
    grid = choose(Rectangle(0, 0, 370 + 1e-10, 200), [], [TileSize(190, 277)], 10)
    assert grid.columns == 2
    assert grid.left == pytest.approx(0, abs=1e-9)
