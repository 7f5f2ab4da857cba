"""Where sheets are left out: how far apart the printed ones lie, and the tips that distance is measured between."""

from composer.paper.drawing import Drawing
from composer.paper.figures import Figures
from composer.paper.grid import Grid
from composer.paper.room import Room
from composer.paper.template_joins import Name
from composer.paper.template_lines import place_words
from composer.paper.template_view import View
from composer.texts import say

TIP_MM = (3.0, 2.0)
"""How long a tip is, and half its width."""

ALONG_MM = 22.0
"""From the sheet's printable corner to the tip, the same on both sheets."""


def draw_gaps(
    drawing: Drawing, room: Room, view: View, grid: Grid, place: tuple[int, int], figures: Figures, name: Name
) -> None:
    """The tips of a sheet that has a gap beside it, and the distance to the next sheet on the right and below."""
    row, column = place
    tile = grid.tile(row, column)
    columns = sorted(c for r, c in grid.kept if r == row)
    rows = sorted(r for r, c in grid.kept if c == column)
    if _has_gap(columns, column):
        _tip_left(drawing, view)
    if _has_gap(rows, row):
        _tip_down(drawing, view)
    after = next((c for c in columns if c > column), None)
    if after is not None and after > column + 1:
        words = say(
            "No sheet on the right. From the tip at this sheet's left edge to the tip of {sheet}: {distance}.",
            sheet=name(row, after),
            distance=figures.full(grid.tile(row, after).left - tile.left),
        )
        place_words(drawing, room, words)
    below = next((r for r in rows if r > row), None)
    if below is not None and below > row + 1:
        words = say(
            "No sheet below. From the tip at this sheet's lower edge to the tip of {sheet}: {distance}.",
            sheet=name(below, column),
            distance=figures.full(tile.bottom - grid.tile(below, column).bottom),
        )
        place_words(drawing, room, words)


def _has_gap(kept: list[int], here: int) -> bool:
    """Whether the next kept one, on either side, is not the neighbour."""
    index = kept.index(here)
    before, after = kept[index - 1 : index], kept[index + 1 : index + 2]
    return any(here - other > 1 for other in before) or any(other - here > 1 for other in after)


def _tip_left(drawing: Drawing, view: View) -> None:
    x, y = view.printable.left, view.printable.bottom + ALONG_MM
    long, half = TIP_MM
    drawing.filled((x, y), (x + long, y + half), (x + long, y - half))


def _tip_down(drawing: Drawing, view: View) -> None:
    x, y = view.printable.left + ALONG_MM, view.printable.bottom
    long, half = TIP_MM
    drawing.filled((x, y), (x - half, y + long), (x + half, y + long))
