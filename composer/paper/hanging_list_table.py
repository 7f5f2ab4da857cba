"""The hanging list's table: columns, heads, a row a piece, numbers for the ladder at one size whatever the paper.

On narrow paper first the words get less room, then the seat's column goes, at last the one to write in.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from composer.paper.drawing import Area, Drawing, line_step, lines_of
from composer.paper.hanging_list_rows import Block, HangingList, Row
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT, Weight
from composer.texts import say

LADDER_PT = 18.0
"""Size of the numbers read on the ladder: digits 0.635 em high, so 4.03 mm (Source Sans Pro)."""

UPRIGHT_MM = 190.0
"""Width the table was drawn for: A4 upright within 10 mm margins. Wider papers stretch it."""

_LEAST_WORDS_MM = 22.0
"""Names, and what holds a piece, take two lines of nine points in so much."""


class Columns(NamedTuple):
    """Columns of a table 190 mm wide: right edges of what is right-aligned (number, level, floor, side, seat), left
    edges of the rest; then widths."""

    number: float
    piece: float
    level: float
    floor: float
    side: float
    seat: float
    held: float
    up: float
    hung: float
    piece_wide: float
    held_wide: float
    ladder_wide: tuple[float, float, float]
    seat_wide: float = 12.0
    hung_wide: float = 11.5


_METRIC = Columns(7.0, 10.0, 70.5, 94.0, 119.0, 132.0, 135.0, 171.0, 178.5, 36.5, 34.5, (24.0, 22.5, 24.0))
_INCHES = Columns(7.0, 9.5, 67.5, 92.5, 121.0, 134.5, 136.5, 171.5, 178.5, 30.0, 33.5, (27.1, 24.2, 27.6))
"""Mixed numbers with sixteenths take more room than millimetres."""


def columns_for(width: float, *, imperial: bool) -> Columns:
    """The columns of a table so wide, mm; those of numbers for the ladder never get narrower."""
    usual = _INCHES if imperial else _METRIC
    lack = UPRIGHT_MM - width
    if lack <= 0:
        return usual
    words = usual.piece_wide + usual.held_wide
    most = words - 2 * _LEAST_WORDS_MM
    seat = usual.seat - usual.side if lack > most else 0.0
    hung = usual.hung_wide if lack - seat > most else 0.0
    piece = (lack - seat - hung) * usual.piece_wide / words
    held = (lack - seat - hung) * usual.held_wide / words
    return usual._replace(
        level=usual.level - piece,
        floor=usual.floor - piece,
        side=usual.side - piece,
        seat=usual.seat - piece,
        held=usual.held - piece - seat,
        up=usual.up - piece - seat - held,
        hung=usual.hung - piece - seat - held,
        piece_wide=usual.piece_wide - piece,
        held_wide=usual.held_wide - held,
        seat_wide=0.0 if seat else usual.seat_wide,
        hung_wide=0.0 if hung else usual.hung_wide,
    )


@dataclass(frozen=True, slots=True)
class Table:
    """Where the columns stand, page mm, and how much larger than usual the type is."""

    area: Area
    size: float
    columns: Columns

    def x(self, mm: float) -> float:
        """A column's place on the page."""
        return self.area.left + self.wide(mm)

    def wide(self, mm: float) -> float:
        """A column's width."""
        return mm * max(1.0, self.area.width / UPRIGHT_MM)

    def pt(self, size: float) -> float:
        """A size of type."""
        return size * self.size

    @property
    def ladder_mm(self) -> float:
        """Height of one line of ladder numbers."""
        return 7.1 * self.size

    @property
    def small_mm(self) -> float:
        """Height of one line of small words."""
        return line_step(9 * self.size)

    def lines(self, words: str, width: float, weight: Weight = "regular") -> int:
        """How many lines small words take, two at most."""
        return min(2, lines_of(words, self.wide(width), self.pt(9), weight))

    def row_mm(self, row: Row) -> float:
        """Height of a row: its numbers, or the small words beside them."""
        words = max(
            self.lines(row.name, self.columns.piece_wide, "semibold") + self.lines(row.how, self.columns.piece_wide),
            self.lines(row.held, self.columns.held_wide) + self.lines(row.weighs, self.columns.held_wide),
        )
        return max(len(row.marks) * self.ladder_mm, words * self.small_mm + 0.4) + 1.3


def _heads_mm(table: Table) -> float:
    return 2 * table.small_mm + 2.8


def draw_rows(
    drawing: Drawing, table: Table, made: HangingList, rows: Sequence[Row], top: float, foot: float
) -> tuple[list[Row], float]:
    """As many rows as there is room for; gives back the rest and the y below the last."""
    area = table.area
    rest = list(rows)
    y = top
    block: Block | None = None
    if not rest:
        return [], y
    drawing.line(area.left, y, area.right, y, THICK_PT)
    while rest:
        row = rest[0]
        head = _heads_mm(table) if row.block != block else 0.0
        last = len(rest) == 1
        if y - head - table.row_mm(row) - (foot if last else 0.0) < area.bottom - 1e-6 and y < top:
            break
        if row.block != block:
            y = _block_head(drawing, table, made, row.block, y, head)
            block = row.block
        y = _row(drawing, table, row, y)
        drawing.line(area.left, y, area.right, y, HAIR_PT, GREY)
        rest = rest[1:]
    drawing.line(area.left, y, area.right, y, THICK_PT)
    return rest, y


def _block_head(drawing: Drawing, table: Table, made: HangingList, block: Block, top: float, height: float) -> float:
    at, columns = table.x, table.columns
    numbers = ", ".join(str(number) for number in sorted(row.number for row in made.of_block(block)))
    if block == "nails":
        first = (say("piece"), say("how it hangs"))
        heads = (
            (columns.level, say("NAIL from"), say("level line")),
            (columns.floor, say("NAIL above"), say("floor")),
            (columns.side, say("NAIL"), made.side),
            (columns.seat, say("seat"), say("ab. floor")),
        )
    else:
        if block == "unknown":
            first = (say("Not measured yet."), say("Edges only: {numbers}", numbers=numbers))
        elif any(one.on_strips for one in made.subjects):
            first = (say("No holes."), say("Do {numbers} together.", numbers=numbers))
        else:
            first = (say("No holes."), "")
        heads = (
            (columns.level, say("LOWER EDGE"), say("from level line")),
            (columns.floor, say("LOWER EDGE"), say("above floor")),
            (columns.side, say("LEFT EDGE"), made.side),
            (columns.seat, "", ""),
        )
    upper, lower = top - table.small_mm - 0.6, top - 2 * table.small_mm - 0.6
    size = table.pt(9)
    if block == made.rows[0].block:
        drawing.text(at(0.5), upper, say("No."), size, "semibold", within=table.wide(9))
    drawing.text(at(columns.piece), upper, first[0], size, "semibold", within=table.wide(columns.piece_wide + 0.5))
    drawing.text(at(columns.piece), lower, first[1], size, "semibold", within=table.wide(columns.piece_wide + 0.5))
    for x, above, below in heads:
        wide = table.wide(columns.seat_wide if x == columns.seat else 22.5)
        if not wide:
            continue
        drawing.text(at(x), upper, above, size, "semibold", "right", within=wide)
        drawing.text(at(x), lower, below, size, "semibold", "right", within=wide)
    drawing.text(at(columns.held), upper, say("held by"), size, "semibold", within=table.wide(columns.held_wide))
    drawing.text(at(columns.held), lower, say("weight"), size, "semibold", within=table.wide(columns.held_wide))
    if block == made.rows[0].block:
        drawing.text(at(columns.up), upper, say("up"), size, "semibold", within=table.wide(6.5))
        if columns.hung_wide:
            drawing.text(at(columns.hung), upper, say("as"), size, "semibold", within=table.wide(columns.hung_wide))
            drawing.text(at(columns.hung), lower, say("hung"), size, "semibold", within=table.wide(columns.hung_wide))
    drawing.line(table.area.left, top - height, table.area.right, top - height, THIN_PT)
    return top - height


def _row(drawing: Drawing, table: Table, row: Row, top: float) -> float:
    at, columns, height = table.x, table.columns, table.row_mm(row)
    middle = top - height / 2
    number_base = middle - LADDER_PT * table.size * 0.112
    drawing.text(at(columns.number), number_base, str(row.number), table.pt(18), "bold", "right", within=table.wide(7))
    _small(drawing, table, columns.piece, middle, row.name, row.how, columns.piece_wide, "semibold")
    bold = "bold" if row.block != "unknown" else "regular"
    base = middle + (len(row.marks) - 1) * table.ladder_mm / 2 - LADDER_PT * table.size * 0.112
    for mark in row.marks:
        numbers = (mark.from_level, mark.above_floor, mark.from_side)
        for x, words, wide in zip(
            (columns.level, columns.floor, columns.side), numbers, columns.ladder_wide, strict=True
        ):
            drawing.text(at(x), base, words, table.pt(LADDER_PT), bold, "right", within=table.wide(wide))  # type: ignore[arg-type]
        if columns.seat_wide:
            seat_wide = table.wide(columns.seat_wide)
            drawing.text(at(columns.seat), base, mark.seat, table.pt(10), align="right", within=seat_wide)
        base -= table.ladder_mm
    _small(drawing, table, columns.held, middle, row.held, row.weighs, columns.held_wide)
    box = 4.8 * table.size
    drawing.box(at(columns.up), middle - box / 2, box, box, THIN_PT)
    for index in range(len(row.marks) if columns.hung_wide else 0):
        line = middle + (len(row.marks) - 1) * table.ladder_mm / 2 - index * table.ladder_mm - 2.6 * table.size
        drawing.line(at(columns.hung), line, table.area.right, line, THIN_PT)
    return top - height


def _small(
    drawing: Drawing,
    table: Table,
    column: float,
    middle: float,
    first: str,
    second: str,
    width: float,
    weight: Weight = "regular",
) -> None:
    """Two small paragraphs, one below the other, about the row's middle; each one or two lines."""
    size, step = table.pt(9), table.small_mm
    above = table.lines(first, width, weight)
    lines = above + table.lines(second, width)
    y = middle + (lines - 1) * step / 2 - size * 0.112
    drawing.paragraph(table.x(column), y, first, table.wide(width), size, weight, most=2)
    drawing.paragraph(table.x(column), y - above * step, second, table.wide(width), size, most=2)
