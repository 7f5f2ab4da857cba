"""The full-size templates of a project: which pieces, on which sheets, in which order."""

from collections.abc import Iterator
from dataclasses import replace

from composer.model import Arrangement, Project
from composer.paper import locator
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.nesting import Part, nest
from composer.paper.page_index import IndexEntry, PageIndex
from composer.paper.primitives import Page
from composer.paper.sheet_request import SheetRequest
from composer.paper.sheets import Side, sides, upright
from composer.paper.template_map import map_page
from composer.paper.template_nested import NestedPiece, nested_page
from composer.paper.template_points import points_pages
from composer.paper.template_subject import Subject, subjects
from composer.paper.template_tile import draw_tile
from composer.paper.tiling import HEAD_ROOM_MM, Economy, Grid, TileSize, choose, holds, hull_of, mark_box

Made = tuple[Page, tuple[IndexEntry, ...]]

ROLL_FOOT_MM = 2.0
"""Paper left below the last line on a roll."""


def templates(project: Project, arrangement: Arrangement, paper: FullSizePaper) -> tuple[list[Page], PageIndex]:
    """All template pages and their index; no pages when there is no piece to print.

    Hung pieces come first, by number. Pieces that fit on one sheet share sheets.
    """
    chosen = subjects(project, arrangement, paper.only, paper.walls)
    made: list[Made] = []
    for part in _in_order(chosen, paper):
        made += part
    return collect(made, paper)


def collect(made: list[Made], paper: FullSizePaper) -> tuple[list[Page], PageIndex]:
    """Pages with their entries numbered as they stand in the file."""
    pages = [page for page, _ in made]
    entries = tuple(replace(entry, page=number) for number, (_, of_page) in enumerate(made, 1) for entry in of_page)
    sheet = (paper.sheet.width_mm, paper.sheet.height_mm)
    return pages, PageIndex(sheet, paper.scale, entries)


def _in_order(chosen: list[Subject], paper: FullSizePaper) -> Iterator[list[Made]]:
    """Runs of pages in the order of printing; nested sheets stand where their first piece would."""
    plain = [subject for subject in chosen if not subject.on_strips]
    nested = [s for s in plain if paper.economy != "points" and fits_one(s, paper)]
    sheets = {pieces[0].subject.piece.number: (pieces, side) for pieces, side in _nested_sheets(nested, paper)}
    together = {subject.piece.number for subject in nested}
    for subject in chosen:
        number = subject.piece.number
        if subject.on_strips:
            yield locator_pages(subject, paper)
        elif number in sheets:
            pieces, side = sheets[number]
            alone = len(pieces) == 1 and not pieces[0].view.rotated
            yield tile_pages(subject, paper) if alone else [nested_page(pieces, side)]
        elif number not in together:
            yield points_pages(subject, paper) if _points_only(subject, paper) else tile_pages(subject, paper)


def _points_only(subject: Subject, paper: FullSizePaper) -> bool:
    return paper.economy == "points" and bool(subject.hanging.points)


def locator_pages(subject: Subject, paper: FullSizePaper) -> list[Made]:
    """A strip piece's locator."""
    size = (paper.sheet.width_mm, paper.sheet.height_mm or _locator_length(subject, paper))
    request = SheetRequest(size, paper.margins, paper.sheet.name, paper.scale)
    return [(page, () if entry is None else (entry,)) for page, entry in locator.locator_pages(subject, request)]


def _locator_length(subject: Subject, paper: FullSizePaper) -> float:
    high = subject.height * paper.scale[1] + locator.HEAD_MM + locator.NUMBERS_MM + locator.L_THICK_MM + ROLL_FOOT_MM
    return min(5080.0, max(300.0, high + paper.margins.bottom + paper.margins.top))


def tile_sizes(paper: FullSizePaper) -> tuple[list[TileSize], list[Side]]:
    """What a sheet covers, for each way up."""
    ways = list(sides(paper.sheet, paper.margins))
    return [TileSize(*side.area, way) for way, side in enumerate(ways)], ways


def roll_side(paper: FullSizePaper, high: float) -> Side:
    """A page cut from the roll, as long as ``high`` on paper needs; at most the longest page."""
    length = min(5080.0, high + paper.margins.bottom + paper.margins.top)
    return upright(paper.sheet, paper.margins, length)


def grid_for(subject: Subject, paper: FullSizePaper) -> tuple[Grid, Side]:
    """The grid of a piece and the way up of its sheets."""
    economy: Economy = paper.economy if paper.economy != "points" else "full"
    if paper.sheet.is_roll:
        hull = hull_of(subject.outline, subject.marks, paper.scale)
        top = max(hull.top, subject.height + HEAD_ROOM_MM)
        side = roll_side(paper, (top - hull.bottom) * paper.scale[1] + ROLL_FOOT_MM)
        grid = choose(
            subject.outline, subject.marks, [TileSize(*side.area)], paper.overlap, scale=paper.scale, economy=economy
        )
        return grid, side
    sizes, ways = tile_sizes(paper)
    grid = choose(subject.outline, subject.marks, sizes, paper.overlap, scale=paper.scale, economy=economy)
    return grid, ways[grid.way]


def tile_pages(subject: Subject, paper: FullSizePaper) -> list[Made]:
    """Map and tiles of one piece; the tile with its points carries steps and numbers."""
    grid, side = grid_for(subject, paper)
    order = sorted(grid.kept, key=lambda place: (-_marks_on(subject, grid, place, paper), place))
    done: dict[tuple[int, int], Made] = {}
    tell = True
    for place in order:
        tile = draw_tile(subject, grid, place, side, paper.scale, tell=tell)
        tell = tell and not tile.told
        done[place] = (tile.page, (tile.entry,))
    pages = [done[place] for place in grid.kept]
    if len(grid.kept) > 1:
        return [(map_page(subject, grid, side, paper.scale), ()), *pages]
    return pages


def _marks_on(subject: Subject, grid: Grid, place: tuple[int, int], paper: FullSizePaper) -> int:
    return sum(holds(grid.tile(*place), mark_box(mark, paper.scale)) for mark in subject.marks)


def parts_of(subject: Subject, paper: FullSizePaper) -> Part:
    """What a piece takes on paper, upright and turned."""
    sx, sy = paper.scale
    hull = hull_of(subject.outline, subject.marks, (sx, sy))
    other = hull_of(subject.outline, subject.marks, (sy, sx))
    return Part(subject.piece.number, (hull.width * sx, hull.height * sy), (other.height * sx, other.width * sy))


def _ways(paper: FullSizePaper) -> tuple[Side, ...]:
    return (roll_side(paper, 5080.0),) if paper.sheet.is_roll else sides(paper.sheet, paper.margins)


def fits_one(subject: Subject, paper: FullSizePaper) -> bool:
    """Whether the piece fits on one sheet, one way or the other."""
    part = parts_of(subject, paper)
    areas = [side.area for side in _ways(paper)]
    return any(w <= area[0] + 1e-6 and h <= area[1] + 1e-6 for area in areas for w, h in (part.size, part.turned_size))


def _nested_sheets(nested: list[Subject], paper: FullSizePaper) -> list[tuple[list[NestedPiece], Side]]:
    """Pieces that fit on one sheet, placed several to a sheet; each sheet's pieces by order of printing."""
    ways = _ways(paper)
    by_number = {subject.piece.number: subject for subject in nested}
    placed = nest([parts_of(subject, paper) for subject in nested], [side.area for side in ways])
    result = []
    for sheet, way in enumerate(placed.ways):
        side = roll_side(paper, placed.lengths[sheet]) if paper.sheet.is_roll else ways[way]
        on_it = sorted(
            (place for place in placed.places if place.sheet == sheet), key=lambda p: list(by_number).index(p.key)
        )
        result.append(([NestedPiece.at(by_number[place.key], place, side, paper.scale) for place in on_it], side))
    return result
