"""The grid of sheets for a piece or a whole wall on the paper asked for, and how one sheet of it lies."""

from collections.abc import Sequence

from composer.geometry.rectangle import Rectangle
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.grid import Grid, Mark, TileSize, hull_of
from composer.paper.page_index import IndexEntry, IndexHole, IndexPoint
from composer.paper.sheets import Side
from composer.paper.template_view import View
from composer.paper.tiling import HEAD_ROOM_MM, choose

ROLL_FOOT_MM = 2.0
"""Paper left below the last line on a roll."""


def grid_on(
    paper: FullSizePaper,
    outline: Rectangle,
    marks: Sequence[Mark],
    *,
    head_room: float = HEAD_ROOM_MM,
    pair: bool | None = None,
    shown: Sequence[Rectangle] = (),
) -> tuple[Grid, Side]:
    """The grid with the fewest sheets and the way up of these; a roll is cut as long as it needs.

    The other parameters are those of :func:`composer.paper.tiling.choose`.
    """
    economy = "full" if paper.economy == "points" else paper.economy
    if paper.sheet.is_roll:
        hull = hull_of(outline, marks, paper.scale)
        top = max(hull.top, outline.top + head_room)
        ways: tuple[Side, ...] = (paper.cut((top - hull.bottom) * paper.scale[1] + ROLL_FOOT_MM),)
    else:
        ways = paper.ways
    sizes = [TileSize(*side.area, way) for way, side in enumerate(ways)]
    grid = choose(
        outline,
        marks,
        sizes,
        paper.overlap,
        scale=paper.scale,
        economy=economy,
        head_room=head_room,
        pair=pair,
        shown=shown,
    )
    return grid, ways[grid.way]


def view_of(grid: Grid, place: tuple[int, int], side: Side, scale: tuple[float, float]) -> View:
    """How a sheet of the grid lies on its page: its printable corner on the page's printable corner."""
    tile = grid.tile(*place)
    left, bottom, _, _ = side.printable
    origin = (tile.left - left / scale[0], tile.bottom - bottom / scale[1])
    return View(origin, scale, Rectangle(*side.printable), (side.width, side.height))


def entry_of(
    view: View,
    label: str,
    piece: int | None,
    place: tuple[int, int],
    of: tuple[int, int],
    points: tuple[IndexPoint, ...],
    holes: tuple[IndexHole, ...],
) -> IndexEntry:
    """The index's record of a page, as page 1."""
    return IndexEntry(
        page=1,
        piece=piece,
        label=label,
        row=place[0],
        column=place[1],
        of=of,
        origin=view.origin,
        rotated=view.rotated,
        printable=view.printable,
        size=view.size,
        points=points,
        holes=holes,
    )
