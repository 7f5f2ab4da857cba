"""How tiles are joined: bands shared by neighbours, cut and lay lines, register marks, distances to the next sheet."""

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import LEAST_PT, Drawing
from composer.paper.figures import Figures
from composer.paper.grid import Grid
from composer.paper.primitives import GREY, HAIR_PT, LAY_DASH, THIN_PT
from composer.paper.room import Room
from composer.paper.spans import Span
from composer.paper.template_view import View
from composer.paper.type_metrics import fitting_size, printable
from composer.texts import say

REGISTER_ARM_MM, REGISTER_RADIUS_MM = 4.0, 1.5
BELOW_TOP_MM = 40.0
"""Registers of the top row keep below the sheet's head."""

LEAST_BAND_MM = 4.0
"""A narrower band has no room for words."""

Name = Callable[[int, int], str]


@dataclass(frozen=True, slots=True)
class Joins:
    """What one tile shares with its neighbours: band widths on paper, mm, 0 where there is no neighbour."""

    left: float
    bottom: float
    right: float
    top: float

    def inner(self, area: Rectangle) -> Rectangle:
        """What the bands leave of the printable rectangle."""
        return Rectangle(area.left + self.left, area.bottom + self.bottom, area.right - self.right, area.top - self.top)


def joins_of(grid: Grid, place: tuple[int, int], scale: tuple[float, float]) -> Joins:
    """The bands of a tile; a neighbour that is left out shares none."""
    row, column = place
    across, up = grid.overlap * scale[0], grid.overlap * scale[1]
    return Joins(
        across if (row, column - 1) in grid.kept else 0.0,
        up if (row + 1, column) in grid.kept else 0.0,
        across if (row, column + 1) in grid.kept else 0.0,
        up if (row - 1, column) in grid.kept else 0.0,
    )


def draw_joins(
    drawing: Drawing, view: View, grid: Grid, place: tuple[int, int], name: Name, edges: Sequence[Rectangle]
) -> None:
    """Bands with their sentences: the left and top inner edges are cut, right and bottom are laid under.

    The sentences keep clear of ``edges``: rectangles on the page, around pieces and marks.
    """
    area, bands = view.printable, joins_of(grid, place, view.scale)
    row, column = place
    marks = register_marks(view, grid, place)
    for x, y in marks:
        _register(drawing, x, y, min(REGISTER_ARM_MM, max(0.0, grid.overlap * min(view.scale) / 2 - 0.5)))
    left, bottom = area.left + bands.left, area.bottom + bands.bottom
    right, top = area.right - bands.right, area.top - bands.top
    if bands.left:
        drawing.line(area.left, area.bottom, area.left, area.top, THIN_PT)
        drawing.line(left, area.bottom, left, area.top, HAIR_PT, GREY)
        band = Rectangle(area.left, area.bottom, left, area.top)
        _upright_words(drawing, band, _clear_up(band, marks, edges), _cut_words(name(row, column - 1)))
    if bands.right:
        drawing.line(right, area.bottom, right, area.top, THIN_PT, dash=LAY_DASH)
        drawing.line(area.right, area.bottom, area.right, area.top, HAIR_PT, GREY)
        band = Rectangle(right, area.bottom, area.right, area.top)
        _upright_words(drawing, band, _clear_up(band, marks, edges), _lay_words(name(row, column + 1)))
    if bands.top:
        drawing.line(area.left, area.top, area.right, area.top, THIN_PT)
        drawing.line(area.left, top, area.right, top, HAIR_PT, GREY)
        band = Rectangle(area.left, top, area.right, area.top)
        _level_words(drawing, band, _clear_across(band, edges), _cut_words(name(row - 1, column)))
    if bands.bottom:
        drawing.line(area.left, bottom, area.right, bottom, THIN_PT, dash=LAY_DASH)
        drawing.line(area.left, area.bottom, area.right, area.bottom, HAIR_PT, GREY)
        band = Rectangle(area.left, area.bottom, area.right, bottom)
        _level_words(drawing, band, _clear_across(band, edges), _lay_words(name(row + 1, column)))


def _cut_words(sheet: str) -> tuple[str, str]:
    """What to do with a band that is laid on the neighbour; in full, and for a short band."""
    return say("cut along the outer line, lay this band on {sheet}", sheet=sheet), say("cut, on {sheet}", sheet=sheet)


def _lay_words(sheet: str) -> tuple[str, str]:
    """What to do with a band the neighbour is laid on; in full, and for a short band."""
    return say("lay the cut edge of {sheet} on the dashed line", sheet=sheet), say("{sheet} here", sheet=sheet)


def _fitting(choices: Sequence[str], room: float) -> tuple[str, float] | None:
    """The first words that fit in 7 points or more, and their size; None when none do."""
    for words in choices:
        size = fitting_size(printable(words), room, 9, "semibold", 0)
        if size >= LEAST_PT:
            return words, size
    return None


def _upright_words(drawing: Drawing, band: Rectangle, stretch: Span, choices: Sequence[str]) -> None:
    low, high = stretch
    fitting = _fitting(choices, high - low - 4)
    if band.width >= LEAST_BAND_MM and fitting is not None:
        words, size = fitting
        drawing.text(band.centre[0] + 1.1, (low + high) / 2, words, size, "semibold", "centre", turn=90)


def _level_words(drawing: Drawing, band: Rectangle, stretch: Span, choices: Sequence[str]) -> None:
    left, right = stretch
    fitting = _fitting(choices, right - left - 4)
    if band.height >= LEAST_BAND_MM and fitting is not None:
        words, size = fitting
        drawing.text((left + right) / 2, band.centre[1] - 1.1, words, size, "semibold", "centre")


def _clear_across(band: Rectangle, edges: Sequence[Rectangle]) -> Span:
    """The widest stretch of a level band between register marks and the pieces' own edges."""
    met = [edge for edge in edges if edge.bottom < band.top and edge.top > band.bottom]
    return _widest((band.left + 14, band.right - 14), [x for edge in met for x in (edge.left, edge.right)])


def _clear_up(band: Rectangle, marks: list[tuple[float, float]], edges: Sequence[Rectangle]) -> Span:
    """The longest stretch of an upright band, likewise."""
    met = [edge for edge in edges if edge.left < band.right and edge.right > band.left]
    between = [y for _, y in marks] + [y for edge in met for y in (edge.bottom, edge.top)]
    return _widest((band.bottom + 12, band.top - 12), between)


def _widest(ends: Span, between: list[float]) -> Span:
    low, high = ends
    stops = [low, *sorted(stop for stop in between if low < stop < high), high]
    start, end = max(itertools.pairwise(stops), key=lambda pair: (pair[1] - pair[0], pair[0]))
    return (start + (5 if start in between else 0), end - (5 if end in between else 0))


def register_marks(view: View, grid: Grid, place: tuple[int, int]) -> list[tuple[float, float]]:
    """Register marks of a tile on its page: the same points of the piece on both sheets of a join."""
    row, column = place
    tile, bands = grid.tile(row, column), joins_of(grid, place, view.scale)
    half = grid.overlap / 2
    if half < 1.5:
        return []
    top = tile.top - (BELOW_TOP_MM if row == 1 and tile.height > 2 * BELOW_TOP_MM else half)
    left, bottom, right = tile.left + half, tile.bottom + half, tile.right - half
    spots: list[tuple[float, float]] = []
    if bands.left:
        spots += [(left, top), (left, bottom)]
    if bands.right:
        spots += [(right, top), (right, bottom)]
    if bands.bottom:
        spots += [(left, bottom), (right, bottom)]
    if bands.top:
        spots += [(left, tile.top - half), (right, tile.top - half)]
    return [view.at(x, y) for x, y in dict.fromkeys(spots)]


def register_distances(grid: Grid, place: tuple[int, int], figures: Figures) -> tuple[str, str] | None:
    """How far apart a tile's register marks are, across and up; None when they do not show both."""
    if grid.overlap < 3:
        return None
    row, _ = place
    tile, bands = grid.tile(*place), joins_of(grid, place, (1.0, 1.0))
    wide = tile.width - grid.overlap
    low, high = (
        tile.bottom + grid.overlap / 2,
        tile.top - (BELOW_TOP_MM if row == 1 and tile.height > 2 * BELOW_TOP_MM else grid.overlap / 2),
    )
    if not ((bands.left and bands.right) or ((bands.bottom or bands.top) and (bands.left or bands.right))):
        return None
    return figures.to_check(wide), figures.to_check(high - low)


def _register(drawing: Drawing, x: float, y: float, arm: float) -> None:
    drawing.circle(x, y, min(REGISTER_RADIUS_MM, arm), HAIR_PT)
    drawing.line(x - arm, y, x + arm, y, HAIR_PT)
    drawing.line(x, y - arm, x, y + arm, HAIR_PT)


def take_bands(room: Room, view: View, grid: Grid, place: tuple[int, int]) -> None:
    """Register marks that reach out of their band are kept free of text."""
    for x, y in register_marks(view, grid, place):
        room.take(Rectangle(x, y, x, y).grown(REGISTER_ARM_MM + 1))
