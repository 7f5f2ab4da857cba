"""The hanging list: what the person on the ladder reads, one side a wall where it can be.

Level line, drawing with numbers, a row a piece, tools, warnings. Numbers for the ladder have digits
4 mm high at least. In large print everything is drawn on lying paper, half as large again.
"""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from composer.catalogue import catalogue as catalogues
from composer.model import Arrangement, Project, Wall
from composer.paper.drawing import Area, Drawing, line_step, lines_of
from composer.paper.furniture import sheet_head
from composer.paper.hanging_list_rows import Block, HangingList, Row, hanging_list
from composer.paper.hanging_list_wall import AROUND_BELOW, AROUND_LEFT, AROUND_RIGHT, draw_list_wall, shown_of
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT, Page, Weight
from composer.paper.sheet_request import SheetRequest
from composer.paper.wall_drawing import of_wall
from composer.texts import say

LADDER_PT = 18.0
"""Size of the numbers read on the ladder: digits 0.635 em high, so 4.03 mm (Source Sans Pro)."""

_LEAST = (150.0, 180.0)
_UPRIGHT_MM = 190.0
"""Width the table was drawn for: A4 upright within 10 mm margins. Other papers stretch it."""

_SCALES = (10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0)
"""Scales of the drawing; a smaller one is no help on the ladder, so a second side is taken."""

_GAP = 3.0
_LARGE_HEAD_MM = 34.0
"""What the head of large print takes at most: its title and two lines about the level line."""


class _Columns(NamedTuple):
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


_METRIC = _Columns(7.0, 10.0, 70.5, 94.0, 119.0, 132.0, 135.0, 171.0, 178.5, 36.5, 34.5, (24.0, 22.5, 24.0))
_INCHES = _Columns(7.0, 9.5, 67.5, 92.5, 121.0, 134.5, 136.5, 171.5, 178.5, 30.0, 33.5, (27.1, 24.2, 27.6))
"""Mixed numbers with sixteenths take more room than millimetres."""


@dataclass(frozen=True, slots=True)
class _Table:
    """Where the columns stand, page mm, and how much larger than usual the type is."""

    area: Area
    size: float
    columns: _Columns

    def x(self, mm: float) -> float:
        """A column's place, drawn for a table 190 mm wide."""
        return self.area.left + mm * self.area.width / _UPRIGHT_MM

    def wide(self, mm: float) -> float:
        """A column's width."""
        return mm * self.area.width / _UPRIGHT_MM

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


def build(
    project: Project,
    wall: Wall,
    arrangement: Arrangement,
    request: SheetRequest,
    only: Collection[int] | None = None,
    *,
    left_to_right: bool = False,
    large_print: bool = False,
) -> list[Page]:
    """The list of one wall; empty when nothing hangs there.

    Raises:
        SheetTooSmall: the paper is much smaller than A5.
    """
    made = hanging_list(project, wall, arrangement, only, left_to_right=left_to_right)
    if made is None:
        return []
    paper = request.turned(landscape=large_print)
    area = paper.expect(say("Hanging list"), *(_LEAST if not large_print else _LEAST[::-1]))
    columns = _INCHES if made.figures.imperial else _METRIC
    table = _Table(area, max(1.0, min(area.width / _UPRIGHT_MM, 1.5)) if large_print else 1.0, columns)
    job = _Job(project, made, table, paper, catalogues.of(project.catalogue), large_print=large_print)
    # Fewest sides, then the largest drawing.
    return min((job.pages(scale) for scale in job.scales()), key=len)


@dataclass(frozen=True, slots=True)
class _Job:
    """One wall's list in the making."""

    project: Project
    made: HangingList
    table: _Table
    paper: SheetRequest
    known: catalogues.Catalogue
    large_print: bool

    def scales(self) -> list[float]:
        """Scales to draw the wall at, the largest first; the smallest one where none leaves room for the table."""
        area = self.table.area
        shown = shown_of(self.made)
        room = area.height - _LARGE_HEAD_MM - AROUND_BELOW - 2 * _GAP if self.large_print else area.height * 0.62
        needed = max(shown.width / (area.width - AROUND_LEFT - AROUND_RIGHT), shown.height / room)
        return [scale for scale in _SCALES if scale >= needed] or [math.ceil(needed / 25) * 25.0]

    def pages(self, scale: float) -> list[Page]:
        """All sides, with the wall drawn at that scale."""
        pages: list[Page] = []
        rest: list[Row] = list(self.made.rows)
        foot = _foot_mm(self.made, self.table)
        while True:
            drawing = Drawing()
            y = _head(drawing, self.table, self.project, self.made, first=not pages)
            if not pages:
                y = self._wall(drawing, y, scale)
            drawn = self.large_print and not pages
            foot_alone = not rest
            if not drawn:
                rest, y = _rows(drawing, self.table, self.made, rest, y, foot)
            done = not drawn and not rest and (foot_alone or y - foot >= self.table.area.bottom - 1e-6)
            if done:
                _foot(drawing, self.table, self.made, y)
            pages.append(_page(drawing, self.paper, self.made.wall, self.table.area, len(pages)))
            if done:
                return pages

    def _wall(self, drawing: Drawing, top: float, scale: float) -> float:
        number_pt = 14.0 * self.table.size
        below = draw_list_wall(drawing, self.made, self.table.area, top - _GAP, scale, self.known, number_pt)
        return below - _GAP


def _page(drawing: Drawing, paper: SheetRequest, wall: Wall, area: Area, index: int) -> Page:
    label = say("Hanging list {number}", number=index + 1)
    return drawing.page(paper.size, label, (say("Hanging list"), wall.name, label), area)


def _head(drawing: Drawing, table: _Table, project: Project, made: HangingList, *, first: bool) -> float:
    area = table.area
    note = say("{unit} · left and right as you face the wall", unit=made.figures.all_in)
    level = made.level if first else say("Continued. {level}", level=made.level)
    if table.size == 1:
        return sheet_head(drawing, area, say("Hanging list"), of_wall(project, made.wall), note, level)
    rule = sheet_head(drawing, area, say("Hanging list"), of_wall(project, made.wall), note)
    size = table.pt(10)
    return drawing.paragraph(area.left, rule - line_step(size), level, area.width, size) + line_step(size) - 2.4


# --- The table -------------------------------------------------------------------------------------


def _heads_mm(table: _Table) -> float:
    return 2 * table.small_mm + 2.8


def _rows(
    drawing: Drawing, table: _Table, made: HangingList, rows: Sequence[Row], top: float, foot: float
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


def _block_head(drawing: Drawing, table: _Table, made: HangingList, block: Block, top: float, height: float) -> float:
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
    drawing.text(at(columns.piece), upper, first[0], size, "semibold", within=table.wide(37))
    drawing.text(at(columns.piece), lower, first[1], size, "semibold", within=table.wide(37))
    for x, above, below in heads:
        wide = table.wide(12 if x == columns.seat else 22.5)
        drawing.text(at(x), upper, above, size, "semibold", "right", within=wide)
        drawing.text(at(x), lower, below, size, "semibold", "right", within=wide)
    drawing.text(at(columns.held), upper, say("held by"), size, "semibold", within=table.wide(34))
    drawing.text(at(columns.held), lower, say("weight"), size, "semibold", within=table.wide(34))
    if block == made.rows[0].block:
        drawing.text(at(columns.up), upper, say("up"), size, "semibold", within=table.wide(6.5))
        drawing.text(at(columns.hung), upper, say("as"), size, "semibold", within=table.wide(11.5))
        drawing.text(at(columns.hung), lower, say("hung"), size, "semibold", within=table.wide(11.5))
    drawing.line(table.area.left, top - height, table.area.right, top - height, THIN_PT)
    return top - height


def _row(drawing: Drawing, table: _Table, row: Row, top: float) -> float:
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
        drawing.text(at(columns.seat), base, mark.seat, table.pt(10), align="right", within=table.wide(12))
        base -= table.ladder_mm
    _small(drawing, table, columns.held, middle, row.held, row.weighs, columns.held_wide)
    box = 4.8 * table.size
    drawing.box(at(columns.up), middle - box / 2, box, box, THIN_PT)
    for index in range(len(row.marks)):
        line = middle + (len(row.marks) - 1) * table.ladder_mm / 2 - index * table.ladder_mm - 2.6 * table.size
        drawing.line(at(columns.hung), line, table.area.right, line, THIN_PT)
    return top - height


def _small(
    drawing: Drawing,
    table: _Table,
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


# --- The foot --------------------------------------------------------------------------------------


def _foot_width(table: _Table) -> float:
    return (table.area.width - 8) / 2


def _foot_pt(made: HangingList, table: _Table) -> float:
    """Size of the foot's words: smaller only where more warnings apply than a side holds."""
    size = table.pt(10)
    while size > 7 and _foot_at(made, table, size) > table.area.height - 40:
        size -= 0.5
    return size


def _foot_mm(made: HangingList, table: _Table) -> float:
    return _foot_at(made, table, _foot_pt(made, table))


def _foot_at(made: HangingList, table: _Table, size: float) -> float:
    width = _foot_width(table)
    left = lines_of(made.take, width, size) * line_step(size) + 2 * 6.4 * table.size
    right = sum(lines_of(sentence, width, size) * line_step(size) + 0.6 for sentence in made.mind)
    return 7.0 * table.size + max(left, right) + 1.5


def _foot(drawing: Drawing, table: _Table, made: HangingList, top: float) -> None:
    width, size, area = _foot_width(table), _foot_pt(made, table), table.area
    y = top - 5.6 * table.size
    drawing.text(area.left, y, say("Take with you"), table.pt(12), "semibold")
    below = drawing.paragraph(area.left, y - line_step(size) - 0.6, made.take, width, size)
    box = 4.2 * table.size
    drawing.box(area.left, below - box + 1.4 * table.size, box, box, THIN_PT)
    check = say("Ruler on the templates read true")
    drawing.text(area.left + box + 2, below - box + 2.4 * table.size, check, size, "semibold", within=width - box - 2)
    drawing.text(area.left, below - box - 3.6 * table.size, made.good_enough, size, "semibold", within=width)
    if made.mind:
        x = area.left + width + 8
        drawing.text(x, y, say("Mind"), table.pt(12), "semibold")
        y -= line_step(size) + 0.6
        for sentence in made.mind:
            y = drawing.paragraph(x, y, sentence, width, size) - 0.6
