"""The map: how the sheets of one piece lie together, before the sheets themselves."""

from collections.abc import Callable, Sequence

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Area, Drawing
from composer.paper.furniture import (
    dimension_across,
    dimension_up,
    numbered_steps,
    sheet_head,
    steps_height,
    table_rows,
)
from composer.paper.grid import Grid
from composer.paper.primitives import Page
from composer.paper.sheets import Side
from composer.paper.template_parts import draw_map
from composer.paper.template_subject import Subject
from composer.paper.template_words import frame_words, numbers_table
from composer.texts import say, say_many

SMALL_MM = 120.0
"""A page smaller than this carries the map alone."""

ROW_MM = 7.0
"""Height of a row of numbers."""


def map_page(subject: Subject, grid: Grid, side: Side) -> Page:
    """The map of a piece's sheets, with its numbers; no full-size line stands on it."""
    title = f"{subject.piece.number}  {subject.piece.name}"
    count = len(grid.kept)
    of = say_many("{count} sheet", "{count} sheets", count)
    words = say("{frame}. {place}.", frame=frame_words(subject), place=subject.place_name)
    steps = [
        say("Print at actual size (100 %). Measure the ruler on the first sheet before anything else."),
        say("Cut each sheet along its solid edge lines only: left and top, where it has a neighbour."),
        say("Lay each cut edge on the neighbour's dashed line, marks on marks, row by row. Tape."),
        say(
            "Measure the whole: {size}.",
            size=subject.figures.size_in_words(subject.width, subject.height),
        ),
    ]
    rows = [
        (say("sheets, across × down"), f"{grid.columns} × {grid.rows}"),
        (say("overlap of neighbours"), subject.figures.full(grid.overlap)),
        *numbers_table(subject),
    ]

    def dimension(drawing: Drawing, frame: Rectangle, around: Rectangle) -> None:
        below, beside = around.bottom - 12, around.right + 12
        dimension_across(drawing, frame.left, frame.right, below, subject.figures.bare(subject.width))
        dimension_up(drawing, beside, frame.bottom, frame.top, subject.figures.bare(subject.height))

    label = say("{number}-map", number=subject.piece.number)
    return draw_map_page(
        side, title, of, words, grid, subject.outline, steps, rows, label, (subject.heading, say("Map")), dimension
    )


def draw_map_page(
    side: Side,
    title: str,
    of: str,
    words: str,
    grid: Grid,
    outline: Rectangle,
    steps: list[str],
    rows: list[tuple[str, str]],
    label: str,
    bookmark: tuple[str, ...],
    more: Callable[[Drawing, Rectangle, Rectangle], None] | None = None,
    frames: Sequence[Rectangle] = (),
) -> Page:
    """A map page: head, the grid to scale, steps and numbers side by side or one below the other."""
    drawing = Drawing()
    left, bottom, right, top = side.printable
    top = min(top, bottom + 420.0) if top - bottom > 900 else top
    area = Area(left, bottom, right, top)
    rule = sheet_head(drawing, area, title, of, say("map, not full size"), words)
    lying = area.width > area.height
    # Beside the map on a lying sheet, below it on an upright one, where at least 40 mm are left for the map.
    room = rule - bottom - (0.0 if lying else 64.0)
    column = area.width * 0.4 if lying else (area.width - 10) / 2
    steps_high = steps_height(column, steps) + (19.0 if lying else 12.0)
    if min(area.width, area.height) < SMALL_MM or steps_high > room:
        draw_map(drawing, Rectangle(left, bottom, right, rule - 3), grid, outline, None, 10, frames)
        return drawing.page((side.width, side.height), label, bookmark, area)
    rows = rows[: max(0, int((room - (steps_high if lying else 4.0)) / ROW_MM))]
    text_high = max(steps_high, len(rows) * ROW_MM + 4)
    if lying:
        box = Rectangle(left + 4, bottom + 8, left + area.width * 0.56, rule - 6)
    else:
        box = Rectangle(left + 4, bottom + text_high + 24, right - 22, rule - 6)
    factor = draw_map(drawing, box, grid, outline, None, 12, frames)
    whole = grid.tile(1, 1).united(grid.tile(grid.rows, grid.columns))
    map_left, map_bottom = box.right - whole.width * factor, box.top - whole.height * factor
    frame = Rectangle(
        map_left + (outline.left - whole.left) * factor,
        map_bottom + (outline.bottom - whole.bottom) * factor,
        map_left + (outline.right - whole.left) * factor,
        map_bottom + (outline.top - whole.bottom) * factor,
    )
    if more is not None and not lying:
        more(drawing, frame, Rectangle(map_left, map_bottom, box.right, box.top))
    if lying:
        x = right - column
        drawing.text(x, rule - 10, say("In this order"), 14, "bold", within=column)
        y = numbered_steps(drawing, x, rule - 17, column, steps)
        table_rows(drawing, x, right, y - 2, rows, ROW_MM)
    else:
        y = bottom + text_high
        drawing.text(left, y - 3, say("In this order"), 14, "bold", within=column)
        numbered_steps(drawing, left, y - 10, column, steps)
        table_rows(drawing, right - column, right, y + 2, rows, ROW_MM)
    return drawing.page((side.width, side.height), label, bookmark, area)
