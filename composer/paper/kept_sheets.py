"""Which sheets of a grid are printed: all, those with a stretch of an edge, or those with a corner or a mark."""

from collections.abc import Sequence
from itertools import product
from typing import Literal

from composer.geometry.rectangle import Rectangle
from composer.paper.grid import SAME_MM, Grid, holds

Economy = Literal["full", "outline", "corners", "points"]


def kept_of(
    grid: Grid, shown: Sequence[Rectangle], boxes: list[Rectangle], economy: Economy
) -> tuple[tuple[int, int], ...]:
    """The sheets an economy prints, as (row, column) in reading order.

    Args:
        grid: all sheets.
        shown: rectangles whose edges (``outline``) or corners (``corners``) are kept.
        boxes: around marks; each is whole on at least one kept sheet.
        economy: ``full`` keeps every sheet.
    """
    places = list(product(range(1, grid.rows + 1), range(1, grid.columns + 1)))
    if economy == "full":
        return tuple(places)
    if economy == "outline":
        kept = {place for place in places if any(_meets_edge(_owned(grid, place), box) for box in shown)}
    else:
        kept = {_owner(grid, x, y) for box in shown for x in (box.left, box.right) for y in (box.bottom, box.top)}
    for box in boxes:
        if not any(holds(grid.tile(*place), box) for place in kept):
            whole = [place for place in places if holds(grid.tile(*place), box)]
            owner = _owner(grid, *box.centre)
            kept.add(owner if owner in whole else whole[0])
    return tuple(sorted(kept))


def _owner(grid: Grid, x: float, y: float) -> tuple[int, int]:
    """The one sheet a point belongs to: sheets own up to the next one's start, the last the rest."""
    column = 1 + min(grid.columns - 1, max(0, int((x - grid.left + SAME_MM) // (grid.width - grid.overlap))))
    top = grid.tile(1, 1).top
    row = 1 + min(grid.rows - 1, max(0, int((top - y + SAME_MM) // (grid.height - grid.overlap))))
    return row, column


def _owned(grid: Grid, place: tuple[int, int]) -> Rectangle:
    tile = grid.tile(*place)
    right = tile.right if place[1] == grid.columns else tile.right - grid.overlap
    bottom = tile.bottom if place[0] == grid.rows else tile.bottom + grid.overlap
    return Rectangle(tile.left, bottom, right, tile.top)


def _meets_edge(area: Rectangle, outline: Rectangle) -> bool:
    """Whether a stretch of the outline's four edges lies in the area."""
    near = SAME_MM
    across = area.left < outline.right - near and area.right > outline.left + near
    up = area.bottom < outline.top - near and area.top > outline.bottom + near
    on_vertical = any(area.left - near <= x < area.right - near for x in (outline.left, outline.right)) or (
        abs(area.right - outline.right) <= near
    )
    on_level = any(area.bottom + near < y <= area.top + near for y in (outline.bottom, outline.top)) or (
        abs(area.bottom - outline.bottom) <= near
    )
    return (on_vertical and up) or (on_level and across)
