"""Cutting a full-size drawing into sheets: how many, how they lie, and which of them are needed.

Plain floats in millimetres of the real piece. A grid has one pitch each way; neighbours share a
band as wide as the overlap. It covers the outline and every mark, and each mark (the square around
a cross or a ring) is whole on at least one sheet. So the start of the grid may lie anywhere in its
slack except where a mark would fall between two sheets; those stretches are cut out exactly.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from math import ceil

from composer.geometry.rectangle import Rectangle
from composer.paper.grid import SAME_MM, Grid, Mark, TileSize, holds, hull_of, mark_box
from composer.paper.kept_sheets import Economy, kept_of
from composer.paper.spans import Span, nearest, within, within_any, without

HEAD_ROOM_MM = 30.0
"""Paper wanted above the frame's top edge, for the sheet's head."""

ROOM_LEFT_MM, ROOM_RIGHT_MM = 34.0, 36.0
"""Wanted free on a sheet beside a point, for its dimensions and its numbers."""

CLEAR_OF_BAND_MM = 2.0
"""Wanted between a mark and the band shared with a neighbour, whose lines and words would cross it."""


def count(length: float, tile: float, overlap: float) -> int:
    """The fewest tiles of one row that cover ``length``: ceil((length − overlap) / (tile − overlap)).

    Raises:
        ValueError: the overlap leaves nothing of a tile.
    """
    if not 0 <= overlap < tile:
        raise ValueError(overlap)
    if length <= tile * (1 + 1e-9):
        return 1
    return max(1, ceil((length - overlap) / (tile - overlap) * (1 - 1e-9)))


def choose(
    outline: Rectangle,
    marks: Sequence[Mark],
    sizes: Sequence[TileSize],
    overlap: float,
    *,
    scale: tuple[float, float] = (1.0, 1.0),
    economy: Economy = "full",
    head_room: float = HEAD_ROOM_MM,
    pair: bool | None = None,
    shown: Sequence[Rectangle] = (),
) -> Grid:
    """The grid with the fewest sheets.

    Among these: both points of a pair on one sheet, then head room above the frame, then fewer joins;
    last, room beside the points and the smallest shift from the middle of the slack.

    Args:
        outline: of the piece (or the whole arrangement), in its own millimetres.
        marks: crosses and rings; a mark's size is that on paper and is not scaled.
        sizes: what a sheet covers on paper, for each way up.
        overlap: shared by neighbours, in millimetres of the piece.
        scale: paper millimetres drawn for one of the piece, across and up.
        economy: which sheets may be left out.
        head_room: wanted above the outline.
        pair: whether all marks are wanted on one sheet; None = when there are points at all.
        shown: rectangles whose edges or corners an economy keeps; none = the outline itself.
    """
    marks = tuple(marks)
    boxes = [mark_box(mark, scale) for mark in marks]
    hull = hull_of(outline, marks, scale)
    wanted_pair = bool(marks) if pair is None else pair
    best: tuple[tuple[float, ...], Grid] | None = None
    for size in sizes:
        across = _Axis(hull.left, hull.right, size.width / scale[0], overlap, [(b.left, b.right) for b in boxes])
        up = _Axis(hull.bottom, hull.top, size.height / scale[1], overlap, [(b.bottom, b.top) for b in boxes])
        for columns, rows in _counts(across, up, economy):
            wanted = _Wanted(outline, shown or (outline,), boxes, economy, wanted_pair, head_room)
            for found in _grids(wanted, size, (across, up), (columns, rows)):
                if best is None or found[0] < best[0]:
                    best = found
    assert best is not None
    return best[1]


@dataclass(frozen=True, slots=True)
class _Axis:
    """One direction: what is to be covered, a tile's length, and the marks' stretches."""

    low: float
    high: float
    tile: float
    overlap: float
    stretches: list[Span]

    @property
    def pitch(self) -> float:
        return self.tile - self.overlap

    def least(self) -> int:
        """The fewest tiles for which a start exists."""
        number = count(self.high - self.low, self.tile, self.overlap)
        while not self.starts(number):
            number += 1
        return number

    def starts(self, number: int) -> list[Span]:
        """Where the first tile may start: everything covered, every mark whole on some tile."""
        covered = number * self.tile - (number - 1) * self.overlap
        first, last = self.high - covered, self.low
        if first > last:
            # Equal but for rounding: exactly one place.
            first = last = (first + last) / 2 if first - last <= 1e-9 * max(1.0, covered) else first
        spans: list[Span] = [(first, last)] if first <= last else []
        for start, end in self.stretches:
            for join in range(1, number):
                # Start s splits the mark when tile join−1 ends before `end` and tile join begins after `start`.
                spans = without(spans, start - join * self.pitch, end - join * self.pitch - self.overlap)
        return [span for span in spans if span[1] - span[0] > -SAME_MM]

    def together(self, number: int) -> list[Span]:
        """Starts that leave all marks on one tile."""
        low, high = min(s for s, _ in self.stretches), max(e for _, e in self.stretches)
        return [
            (high - self.tile - i * self.pitch, low - i * self.pitch) for i in range(number) if high - low <= self.tile
        ]

    def roomy(self, number: int, before: float, after: float) -> list[Span]:
        """Starts that leave that much free on both sides of all marks, on the tile that holds them."""
        low, high = min(s for s, _ in self.stretches) - before, max(e for _, e in self.stretches) + after
        return [
            (high - self.tile - i * self.pitch, low - i * self.pitch) for i in range(number) if high - low <= self.tile
        ]

    def middle(self, number: int) -> float:
        """The start that shares the slack evenly."""
        return (self.low + self.high - number * self.tile + (number - 1) * self.overlap) / 2


def _counts(across: _Axis, up: _Axis, economy: Economy) -> list[tuple[int, int]]:
    columns, rows = across.least(), up.least()
    if economy == "full":
        return [(columns, rows)]
    # One more each way may leave out more than it adds where blank sheets are skipped.
    return list(product((columns, columns + 1), (rows, rows + 1)))


@dataclass(frozen=True, slots=True)
class _Wanted:
    """What a grid is chosen for."""

    outline: Rectangle
    shown: Sequence[Rectangle]
    boxes: list[Rectangle]
    economy: Economy
    pair: bool
    head_room: float


def _grids(
    wanted: _Wanted, size: TileSize, axes: tuple[_Axis, _Axis], counts: tuple[int, int]
) -> Iterable[tuple[tuple[float, ...], Grid]]:
    outline, boxes, economy, head_room = wanted.outline, wanted.boxes, wanted.economy, wanted.head_room
    across, up = axes
    columns, rows = counts
    lefts, bottoms = across.starts(columns), up.starts(rows)
    if not lefts or not bottoms:
        return
    covered_up = rows * up.tile - (rows - 1) * up.overlap
    for pair_across, pair_up in ((True, True), (False, False)) if wanted.pair else ((False, False),):
        some_left = within_any(lefts, across.together(columns)) if pair_across else lefts
        some_bottom = within_any(bottoms, up.together(rows)) if pair_up else bottoms
        if not some_left or not some_bottom:
            continue
        if wanted.pair:
            clear = across.overlap + CLEAR_OF_BAND_MM
            some_left = (
                within_any(some_left, across.roomy(columns, ROOM_LEFT_MM, ROOM_RIGHT_MM))
                or within_any(some_left, across.roomy(columns, clear, clear))
                or some_left
            )
        best_head = outline.top + head_room - covered_up
        head_starts = within(some_bottom, best_head, float("inf"))
        bottom = nearest(head_starts, best_head) if head_starts else max(end for _, end in some_bottom)
        for left in _tries(some_left, across.middle(columns), outline.left, economy):
            for low in _tries([(bottom, bottom)], bottom, bottom, economy) if head_starts else [bottom]:
                grid = Grid(columns, rows, left, low, across.tile, up.tile, across.overlap, size.way, ())
                kept = kept_of(grid, wanted.shown, boxes, economy)
                shortage = max(0.0, outline.top + head_room - (low + covered_up))
                together = _all_on_one(grid, boxes, kept) if wanted.pair else True
                shift = abs(left - across.middle(columns))
                rank = (
                    len(kept),
                    float(not together),
                    round(shortage, 6),
                    grid.joins,
                    round(shift, 6),
                    size.way,
                )
                yield rank, Grid(columns, rows, left, low, across.tile, up.tile, across.overlap, size.way, kept)


def _tries(spans: list[Span], middle: float, edge: float, economy: Economy) -> list[float]:
    tries = [nearest(spans, middle)]
    if economy != "full":
        tries += [nearest(spans, edge), *(end for span in spans for end in span)]
    return list(dict.fromkeys(tries))


def _all_on_one(grid: Grid, boxes: list[Rectangle], kept: tuple[tuple[int, int], ...]) -> bool:
    return any(all(holds(grid.tile(*place), box) for box in boxes) for place in kept)
