"""Checks of pieces against each other on one wall, by a sweep over their left edges."""

from collections.abc import Iterable, Sequence

from composer.findings.of_place import rectangle_of
from composer.geometry.rectangle import Rectangle
from composer.model import Finding, Piece, Placement


def check_pairs(hung: Sequence[tuple[Piece, Placement]], wall: str) -> tuple[Finding, ...]:
    """Which pieces of one wall overlap; touching edges do not count."""
    numbered = [(rectangle_of(piece, placement), piece.number) for piece, placement in hung]
    return tuple(
        Finding(
            level="stop",
            code="overlap",
            pieces=(min(first, second), max(first, second)),
            wall=wall,
            values=(("across_mm", round(across, 6)), ("up_mm", round(up, 6))),
        )
        for first, second, across, up in overlapping(numbered)
    )


def overlapping(numbered: Iterable[tuple[Rectangle, int]]) -> Iterable[tuple[int, int, float, float]]:
    """Pairs of overlapping rectangles with how far they reach into each other across and up, mm.

    Rectangles are taken by their left edges; only those whose right edge lies beyond the newest left
    edge are compared with it, so a wall of pieces side by side costs little more than sorting them.
    """
    open_ones: list[tuple[Rectangle, int]] = []
    for place, number in sorted(numbered):
        open_ones = [other for other in open_ones if other[0].right > place.left]
        for other, other_number in open_ones:
            if place.meets(other):
                across, up = place.overlap(other)
                yield other_number, number, across, up
        open_ones.append((place, number))
