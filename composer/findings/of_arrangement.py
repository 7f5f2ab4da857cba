"""Checks of how the pieces of one wall stand to each other: gaps that look like mistakes, edges that nearly line up."""

from collections.abc import Sequence

from composer.arranging.measures import EXACT_MM, UNEASY, facing_pairs, near_misses
from composer.findings.of_place import rectangle_of
from composer.model import Finding, Piece, Placement

MOST = 40
"""More would bury what is serious; the widest off come first."""


def check_arrangement(hung: Sequence[tuple[Piece, Placement]], gap_mm: float, wall: str) -> tuple[Finding, ...]:
    """Uneven gaps and near misses between neighbours of one wall.

    A gap is uneven when it is narrower than the wanted one, or wider by less than six tenths of it: from
    there on it reads as meant.
    """
    boxes = [rectangle_of(piece, placement) for piece, placement in hung]
    numbers = [piece.number for piece, _ in hung]
    pairs = facing_pairs(boxes, max(2 * gap_mm, 1.0))
    found: list[tuple[float, Finding]] = []
    for pair in pairs:
        if pair.gap < gap_mm - EXACT_MM or gap_mm + EXACT_MM < pair.gap < UNEASY * gap_mm:
            found.append(
                (
                    -abs(pair.gap - gap_mm),
                    Finding(
                        level="note",
                        code="gap-uneven",
                        pieces=tuple(sorted((numbers[pair.first], numbers[pair.second]))),
                        wall=wall,
                        values=(("gap_mm", round(pair.gap, 6)), ("wanted_mm", gap_mm), ("axis", pair.axis)),
                    ),
                )
            )
    for miss in near_misses(boxes, pairs, gap_mm):
        found.append(
            (
                -abs(miss.off),
                Finding(
                    level="note",
                    code="near-miss",
                    pieces=tuple(sorted((numbers[miss.first], numbers[miss.second]))),
                    wall=wall,
                    values=(("off_mm", round(abs(miss.off), 6)), ("axis", miss.axis), ("edge", miss.edge)),
                ),
            )
        )
    found.sort(key=lambda one: (round(one[0], 6), one[1].pieces, one[1].code))
    return tuple(finding for _, finding in found[:MOST])
