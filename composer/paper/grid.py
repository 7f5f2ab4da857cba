"""A grid of sheets over a drawing, and the marks that must be whole on one of them.

Plain floats in millimetres of the real piece.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from composer.geometry.rectangle import Rectangle

SAME_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Mark:
    """A cross or ring that must be whole on one sheet: its middle and half its size, on paper, mm."""

    x: float
    y: float
    half: float


@dataclass(frozen=True, slots=True)
class TileSize:
    """What one sheet covers, on paper: width and height that can be printed, and which way up it is."""

    width: float
    height: float
    way: int = 0


@dataclass(frozen=True, slots=True)
class Grid:
    """A grid of sheets over a drawing, in millimetres of the piece.

    Attributes:
        columns, rows: of the full grid.
        left, bottom: of the lowest left sheet's printable rectangle.
        width, height: of one printable rectangle.
        overlap: shared by neighbours.
        way: which way up of the sheet was taken (its place in the sizes offered).
        kept: sheets to print as (row, column) from 1, row 1 on top, in reading order.
    """

    columns: int
    rows: int
    left: float
    bottom: float
    width: float
    height: float
    overlap: float
    way: int
    kept: tuple[tuple[int, int], ...]

    def tile(self, row: int, column: int) -> Rectangle:
        """The printable rectangle of one sheet, in the piece's coordinates."""
        left = self.left + (column - 1) * (self.width - self.overlap)
        bottom = self.bottom + (self.rows - row) * (self.height - self.overlap)
        return Rectangle(left, bottom, left + self.width, bottom + self.height)

    @property
    def joins(self) -> int:
        """How many pairs of neighbours there are to join."""
        return self.rows * (self.columns - 1) + self.columns * (self.rows - 1)


def hull_of(outline: Rectangle, marks: Iterable[Mark], scale: tuple[float, float] = (1.0, 1.0)) -> Rectangle:
    """The rectangle around outline and marks, in the piece's millimetres."""
    hull = outline
    for mark in marks:
        hull = hull.united(mark_box(mark, scale))
    return hull


def holds(tile: Rectangle, box: Rectangle) -> bool:
    """Whether the box lies wholly in the tile, to a millionth of a millimetre."""
    return (
        box.left >= tile.left - SAME_MM
        and box.right <= tile.right + SAME_MM
        and box.bottom >= tile.bottom - SAME_MM
        and box.top <= tile.top + SAME_MM
    )


def mark_box(mark: Mark, scale: tuple[float, float]) -> Rectangle:
    """The square around a mark in the piece's millimetres; its size on paper is not scaled."""
    across, up = mark.half / scale[0], mark.half / scale[1]
    return Rectangle(mark.x - across, mark.y - up, mark.x + across, mark.y + up)
