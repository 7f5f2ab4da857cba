"""The hanging list: what the person on the ladder reads, one side a wall where it can be.

Level line, drawing with numbers, a row a piece, tools, warnings. Numbers for the ladder have digits
4 mm high at least. In large print everything is drawn on lying paper, half as large again.
"""

import math
from collections.abc import Collection
from dataclasses import dataclass

from composer.catalogue import catalogue as catalogues
from composer.model import Arrangement, Project, Wall
from composer.paper.drawing import Area, Drawing, line_step, lines_of
from composer.paper.furniture import sheet_head
from composer.paper.hanging_list_rows import HangingList, Row, hanging_list
from composer.paper.hanging_list_table import UPRIGHT_MM, Table, columns_for, draw_rows
from composer.paper.hanging_list_wall import AROUND_BELOW, AROUND_LEFT, AROUND_RIGHT, draw_list_wall, shown_of
from composer.paper.primitives import THIN_PT, Page
from composer.paper.sheet_request import SheetRequest
from composer.paper.wall_drawing import of_wall
from composer.texts import say

_LEAST = (150.0, 180.0)
_SCALES = (10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0)
"""Scales of the drawing; a smaller one is no help on the ladder, so a second side is taken."""

_GAP = 3.0
_LARGE_HEAD_MM = 34.0
"""What the head of large print takes at most: its title and two lines about the level line."""


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
    columns = columns_for(area.width, imperial=made.figures.imperial)
    table = Table(area, max(1.0, min(area.width / UPRIGHT_MM, 1.5)) if large_print else 1.0, columns)
    job = _Job(project, made, table, paper, catalogues.of(project.catalogue), large_print=large_print)
    # Fewest sides, then the largest drawing.
    return min((job.pages(scale) for scale in job.scales()), key=len)


@dataclass(frozen=True, slots=True)
class _Job:
    """One wall's list in the making."""

    project: Project
    made: HangingList
    table: Table
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
                rest, y = draw_rows(drawing, self.table, self.made, rest, y, foot)
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


def _head(drawing: Drawing, table: Table, project: Project, made: HangingList, *, first: bool) -> float:
    area = table.area
    note = say("{unit} · left and right as you face the wall", unit=made.figures.all_in)
    level = made.level if first else say("Continued. {level}", level=made.level)
    if table.size == 1:
        return sheet_head(drawing, area, say("Hanging list"), of_wall(project, made.wall), note, level)
    rule = sheet_head(drawing, area, say("Hanging list"), of_wall(project, made.wall), note)
    size = table.pt(10)
    return drawing.paragraph(area.left, rule - line_step(size), level, area.width, size) + line_step(size) - 2.4


def _foot_width(table: Table) -> float:
    return (table.area.width - 8) / 2


def _foot_pt(made: HangingList, table: Table) -> float:
    """Size of the foot's words: smaller only where more warnings apply than a side holds."""
    size = table.pt(10)
    while size > 7 and _foot_at(made, table, size) > table.area.height - 40:
        size -= 0.5
    return size


def _foot_mm(made: HangingList, table: Table) -> float:
    return _foot_at(made, table, _foot_pt(made, table))


def _foot_at(made: HangingList, table: Table, size: float) -> float:
    width = _foot_width(table)
    left = lines_of(made.take, width, size) * line_step(size) + 2 * 6.4 * table.size
    right = sum(lines_of(sentence, width, size) * line_step(size) + 0.6 for sentence in made.mind)
    return 7.0 * table.size + max(left, right) + 1.5


def _foot(drawing: Drawing, table: Table, made: HangingList, top: float) -> None:
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
