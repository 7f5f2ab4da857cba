"""The full-size templates of a project: which pieces, on which sheets, in which order."""

from collections.abc import Iterator, Sequence

from composer.model import Arrangement, Project
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.grid import hull_of
from composer.paper.locator import locator_run
from composer.paper.nesting import Part, nest
from composer.paper.page_index import PageIndex
from composer.paper.page_run import PageRun, collect
from composer.paper.primitives import Page
from composer.paper.sheets import Side
from composer.paper.template_nested import NestedPiece, nested_run
from composer.paper.template_points import points_run
from composer.paper.template_subject import Subject, subjects
from composer.paper.template_tile import tile_run


def templates(project: Project, arrangement: Arrangement, paper: FullSizePaper) -> tuple[Sequence[Page], PageIndex]:
    """All template pages and their index; no pages when there is no piece to print.

    Hung pieces come first, by number. Pieces that fit on one sheet share sheets.
    """
    chosen = subjects(project, arrangement, paper.only, paper.walls)
    return collect(list(_in_order(chosen, paper)), paper)


def _in_order(chosen: list[Subject], paper: FullSizePaper) -> Iterator[PageRun]:
    """Runs of pages in the order of printing; nested sheets stand where their first piece would."""
    nested = [s for s in chosen if not s.on_strips and paper.economy != "points" and fits_one(s, paper)]
    sheets = {pieces[0].subject.piece.number: (pieces, side) for pieces, side in _nested_sheets(nested, paper)}
    together = {subject.piece.number for subject in nested}
    for subject in chosen:
        number = subject.piece.number
        if subject.on_strips:
            yield locator_run(subject, paper)
        elif number in sheets:
            pieces, side = sheets[number]
            alone = len(pieces) == 1 and not pieces[0].view.rotated
            yield tile_run(subject, paper) if alone else nested_run(pieces, side)
        elif number not in together:
            points_only = paper.economy == "points" and bool(subject.hanging.points)
            yield points_run(subject, paper) if points_only else tile_run(subject, paper)


def part_of(subject: Subject, paper: FullSizePaper) -> Part:
    """What a piece takes on paper, upright and turned."""
    sx, sy = paper.scale
    hull = hull_of(subject.outline, subject.marks, (sx, sy))
    other = hull_of(subject.outline, subject.marks, (sy, sx))
    return Part(subject.piece.number, (hull.width * sx, hull.height * sy), (other.height * sx, other.width * sy))


def fits_one(subject: Subject, paper: FullSizePaper) -> bool:
    """Whether the piece fits on one sheet, one way or the other."""
    part = part_of(subject, paper)
    areas = [side.area for side in paper.ways]
    return any(w <= area[0] + 1e-6 and h <= area[1] + 1e-6 for area in areas for w, h in (part.size, part.turned_size))


def _nested_sheets(nested: list[Subject], paper: FullSizePaper) -> Iterator[tuple[list[NestedPiece], Side]]:
    """Pieces that fit on one sheet, placed several to a sheet; each sheet's pieces by order of printing."""
    ways = paper.ways
    order = {subject.piece.number: index for index, subject in enumerate(nested)}
    placed = nest([part_of(subject, paper) for subject in nested], [side.area for side in ways])
    for sheet, way in enumerate(placed.ways):
        side = paper.cut(placed.lengths[sheet]) if paper.sheet.is_roll else ways[way]
        on_it = sorted((place for place in placed.places if place.sheet == sheet), key=lambda place: order[place.key])
        yield [NestedPiece.at(nested[order[place.key]], place, side, paper.scale) for place in on_it], side
