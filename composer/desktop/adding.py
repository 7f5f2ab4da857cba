"""Pieces from typed lines: one quick row each."""

from __future__ import annotations

from collections.abc import Iterable

from composer.editing.creating import Numbered
from composer.editing.quick_row import QuickRow, read_row
from composer.model import Key, Piece, Project
from composer.model.project import USUAL_UNIT
from composer.texts import say


def pieces_from(rows: Iterable[str], project: Project) -> list[Numbered]:
    """What makes a piece of each line.

    Raises:
        BadQuantity: when a line is no row; the sentence says what was expected.
    """
    return [_Maker(read_row(row, bare=USUAL_UNIT[project.units])) for row in rows]


class _Maker:
    def __init__(self, row: QuickRow) -> None:
        self._row = row

    def __call__(self, key: Key, number: int) -> Piece:
        row = self._row
        return Piece(
            key=key,
            number=number,
            name=row.name or say("Piece {number}", number=number),
            frame=row.frame,
            hanger=row.hanger,
            weight=row.weight,
        )
