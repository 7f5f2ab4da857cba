"""Blocks of text on a full-size sheet that find their own free place: steps, numbers with notes, stops."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from composer.paper.drawing import Drawing, line_step
from composer.paper.furniture import black_label, numbered_steps, steps_height, table_rows
from composer.paper.primitives import THICK_PT, THIN_PT
from composer.paper.room import Room
from composer.paper.stops import Stop
from composer.paper.type_metrics import printable, wrap
from composer.texts import say

CLEAR_MM = 4.0
"""Between a block and whatever else stands on the sheet, so that each reads as one."""

BESIDE_MM = 8.0

_PAIRS = ((78.0, 76.0, 10.0, 7.0), (70.0, 68.0, 10.0, 7.0), (62.0, 60.0, 9.0, 6.2))
"""Widths of steps and table side by side, size of the steps, height of a row."""

_STACKS = ((78.0, 10.0, 7.0), (62.0, 9.0, 6.2))

_ALONE = (
    (78.0, 10.0, 7.0),
    (120.0, 10.0, 7.0),
    (58.0, 10.0, 7.0),
    (53.0, 10.0, 6.6),
    (62.0, 9.0, 6.2),
    (47.0, 8.0, 6.0),
)


@dataclass(frozen=True, slots=True)
class Told:
    """What one sheet of a piece says at length.

    Attributes:
        steps: the order of work.
        rows: words and number.
        notes: small sentences below the rows.
    """

    steps: Sequence[str]
    rows: Sequence[tuple[str, str]]
    notes: Sequence[str]


class Due(NamedTuple):
    """Which blocks of a piece have not found a sheet with room yet."""

    steps: bool = True
    table: bool = True


def place_told(drawing: Drawing, room: Room, told: Told, due: Due) -> Due:
    """Steps and numbers: side by side above the ruler, else one below the other, else each where it fits.

    Returns what is still due.
    """
    if due != Due():
        return Due(
            due.steps and not place_steps(drawing, room, told), due.table and not place_table(drawing, room, told)
        )
    for steps_wide, table_wide, size, row_mm in _PAIRS:
        high = max(_steps_high(told, steps_wide, size), _table_high(told, table_wide, row_mm))
        wide = steps_wide + BESIDE_MM + table_wide
        place = room.find(wide, high, low=True, clear=CLEAR_MM)
        if place is not None:
            _draw_steps(drawing, place.left, place.top, told, steps_wide, size)
            _draw_table(drawing, place.right - table_wide, place.top, told, table_wide, row_mm)
            room.take(place)
            return Due(steps=False, table=False)
    for wide, size, row_mm in _STACKS:
        steps_high = _steps_high(told, wide, size)
        place = room.find(wide, steps_high + BESIDE_MM + _table_high(told, wide, row_mm), clear=CLEAR_MM)
        if place is not None:
            _draw_steps(drawing, place.left, place.top, told, wide, size)
            _draw_table(drawing, place.left, place.top - steps_high - BESIDE_MM, told, wide, row_mm)
            room.take(place)
            return Due(steps=False, table=False)
    return Due(not place_steps(drawing, room, told), not place_table(drawing, room, told))


def place_steps(drawing: Drawing, room: Room, told: Told, widest: float = 120.0) -> bool:
    """ "In this order" and its steps; False when there is no room for them on this sheet."""
    for clear in (CLEAR_MM, 1.0):
        for wide, size, _ in _ALONE:
            high = _steps_high(told, wide, size)
            place = room.find(wide, high, clear=clear) if wide <= widest else None
            if place is not None:
                _draw_steps(drawing, place.left, place.top, told, wide, size)
                room.take(place.grown(1))
                return True
    return False


def place_table(drawing: Drawing, room: Room, told: Told, widest: float = 78.0, *, right: bool = False) -> bool:
    """ "Numbers of this piece" with notes below, at the left or at the right; False when there is no room."""
    for tried in (told, Told(told.steps, told.rows, ())):
        for clear in (CLEAR_MM, 1.0):
            for wide, _, row_mm in _ALONE:
                if not 50 <= wide <= widest:
                    continue
                high = _table_high(tried, wide, row_mm)
                place = room.find_right(wide, high, clear=clear) if right else room.find(wide, high, clear=clear)
                if place is not None:
                    _draw_table(drawing, place.left, place.top, tried, wide, row_mm)
                    room.take(place.grown(1))
                    return True
    return False


def place_stops(drawing: Drawing, room: Room, stops: Sequence[Stop]) -> bool:
    """What forbids to hang the piece like this, under a black STOP; what was gone on against, with the reason.

    False when there is no room.
    """
    if not stops:
        return True
    inset = 18.0 if any(stop.stands for stop in stops) else 2.0
    for width in (150.0, 100.0, 76.0, 56.0):
        lines = [line for stop in stops for line in wrap(printable(stop.text), width - inset - 2, 10, "semibold")]
        high = max(8.0, len(lines) * line_step(10) + 4)
        place = room.find(width, high)
        if place is None:
            continue
        drawing.box(place.left, place.bottom, place.width, place.height, THICK_PT)
        if inset > 2:
            black_label(drawing, place.left + 2, place.top - 5.5, say("STOP"))
        for index, line in enumerate(lines):
            drawing.text(place.left + inset, place.top - 5.5 - index * line_step(10), line, 10, "semibold")
        room.take(place.grown(2))
        return True
    return False


def _steps_high(told: Told, wide: float, size_pt: float) -> float:
    return 12.0 + steps_height(wide, told.steps, size_pt)


def _draw_steps(drawing: Drawing, left: float, top: float, told: Told, wide: float, size_pt: float) -> None:
    drawing.line(left, top, left + wide, top, THIN_PT)
    drawing.text(left, top - 6, say("In this order"), 14, "bold", within=wide)
    numbered_steps(drawing, left, top - 13, wide, told.steps, size_pt)


def _note_lines(told: Told, wide: float) -> list[str]:
    return [line for note in told.notes for line in wrap(printable(note), wide, 9)]


def _table_high(told: Told, wide: float, row_mm: float) -> float:
    lines = len(_note_lines(told, wide)) * line_step(9)
    rows = 9.5 + len(told.rows) * row_mm if told.rows else 0.0
    return rows + (lines + 4 if lines else 0.0)


def _draw_table(drawing: Drawing, left: float, top: float, told: Told, wide: float, row_mm: float) -> None:
    y = top
    if told.rows:
        drawing.line(left, top, left + wide, top, THIN_PT)
        drawing.text(left, top - 6, say("Numbers of this piece"), 14, "bold", within=wide)
        y = table_rows(drawing, left, left + wide, top - 8.5, told.rows, row_mm)
    for line in _note_lines(told, wide):
        y -= line_step(9)
        drawing.text(left, y - 1.5, line, 9)
