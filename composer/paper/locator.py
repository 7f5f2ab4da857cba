"""Locators: paper that holds a frame's place on the wall while its strips are pressed on.

The outline is drawn full size with two filled corners (L) outside it. The inside is cut away; the
ring stays up, and the frame's lower corners stand in the two black corners. A frame wider than the
sheet takes several sheets taped together, or, to save paper, one for each corner.
"""

from typing import NamedTuple

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Drawing
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.furniture import numbered_steps, point_cross, steps_height
from composer.paper.locator_back import draw_back, least_height, steps
from composer.paper.locator_corners import corner_run
from composer.paper.locator_parts import (
    HEAD_MM,
    L_THICK_MM,
    NUMBERS_MM,
    card_page,
    draw_corners,
    draw_head,
    draw_numbers,
    entry_on,
    has_glass,
)
from composer.paper.locator_tiles import tiled_run
from composer.paper.page_run import PageRun
from composer.paper.primitives import HAIR_PT, THIN_PT, Page
from composer.paper.sheets import Side
from composer.paper.stops import draw_stops
from composer.paper.template_grid import ROLL_FOOT_MM
from composer.paper.template_subject import Subject
from composer.paper.template_view import View
from composer.paper.template_words import measure_step
from composer.texts import say

_BESIDE_MM = 62.0
"""Least width of a column of text beside a small frame."""

_CENTRED_MM = 80.0
"""On a sheet much wider than the frame, such as a roll, the frame stands this far from the left."""

_NUMBERS_MM = 118.0
"""Least width of the numbers below the frame."""

_ROLL_LEAST_MM = 280.0
"""A page cut from a roll has room for steps and back beside the frame."""


def locator_run(subject: Subject, paper: FullSizePaper) -> PageRun:
    """The locator of a piece on strips: one sheet where it fits, else sheets to be taped or a sheet a corner.

    Every strip's middle stands as a whole cross on at least one sheet.
    """
    side = _one_side(subject, paper)
    if side is not None:
        layout = _Layout.on(subject, side, paper.scale)
        # Tried once to see whether the back has room too: the number of pages must be known before.
        _, complete = _draw(subject, layout)
        entry = entry_on(subject, layout.view)

        def draw() -> list[Page]:
            page, _ = _draw(subject, layout)
            return [page] if complete else [page, card_page(subject, layout.view)]

        return PageRun(((entry,),) if complete else ((entry,), ()), draw)
    return tiled_run(subject, paper) if paper.economy in ("full", "outline") else corner_run(subject, paper)


def _one_side(subject: Subject, paper: FullSizePaper) -> Side | None:
    """The way up of the sheet that holds the whole locator; None when none does."""
    sx, sy = paper.scale
    wide = subject.width * sx + 2 * L_THICK_MM
    high = subject.height * sy + HEAD_MM + NUMBERS_MM + L_THICK_MM
    ways = (paper.cut(max(_ROLL_LEAST_MM, high + ROLL_FOOT_MM)),) if paper.sheet.is_roll else paper.ways
    return next((w for w in ways if wide <= w.area[0] + 1e-6 and high <= w.area[1] + 1e-6), None)


class _Layout(NamedTuple):
    """Where the outline stands on the sheet, and whether text stands beside it or inside it."""

    view: View
    outline: Rectangle
    beside: bool
    inside: bool

    @classmethod
    def on(cls, subject: Subject, side: Side, scale: tuple[float, float]) -> "_Layout":
        area = Rectangle(*side.printable)
        sx, sy = scale
        wide, high = subject.width * sx, subject.height * sy
        free = area.width - wide - 2 * L_THICK_MM
        # The numbers below a narrower frame would run into a column beside it.
        beside = free - 10 >= _BESIDE_MM and wide >= _NUMBERS_MM - 8
        left = area.left + L_THICK_MM + (2 if beside else min(free / 2, _CENTRED_MM))
        spare = area.height - HEAD_MM - NUMBERS_MM - L_THICK_MM - high
        inside = wide >= 118 and high >= 162
        bottom = area.bottom + NUMBERS_MM + L_THICK_MM + (spare / 2 if inside and not beside else spare)
        view = View((-left / sx, -bottom / sy), scale, area, (side.width, side.height))
        return cls(view, view.rectangle(subject.outline), beside, inside)


def _draw(subject: Subject, layout: _Layout) -> tuple[Page, bool]:
    """The sheet, and whether the back of the frame had room on it."""
    view, outline = layout.view, layout.outline
    area, drawing = view.printable, Drawing()
    entry = entry_on(subject, view)
    left, bottom, right, top = outline
    draw_head(drawing, area, subject, say("Locator"))
    # Four strokes: the outline's edges are what a tape and a script look for.
    for x1, y1, x2, y2 in (
        (left, bottom, right, bottom),
        (left, top, right, top),
        (left, bottom, left, top),
        (right, bottom, right, top),
    ):
        drawing.line(x1, y1, x2, y2, THIN_PT)
    drawing.line(max(area.left, left - 6), bottom, left, bottom, HAIR_PT)
    drawing.line(right, bottom, min(area.right, right + 6), bottom, HAIR_PT)
    draw_corners(drawing, outline, area)
    for point in entry.points:
        point_cross(drawing, point.page_x, point.page_y)
    numbers_left = max(area.left, min(left, area.right - _NUMBERS_MM - 10))
    draw_numbers(drawing, subject, numbers_left, max(right, numbers_left + _NUMBERS_MM), bottom - L_THICK_MM)
    room, back = _rooms(layout, [(point.page_x, point.page_y) for point in entry.points])
    complete = _fill(drawing, subject, room, back, inside=layout.inside and not layout.beside)
    page = Page(view.size, tuple(drawing.items), entry.label, (subject.heading, entry.label), view.area)
    return page, complete


def _rooms(layout: _Layout, crosses: list[tuple[float, float]]) -> tuple[Rectangle, Rectangle | None]:
    """Where the steps and, if it is elsewhere, the back of the frame go."""
    area, (left, bottom, right, top) = layout.view.printable, layout.outline
    if layout.beside:
        start = right + L_THICK_MM + 8
        return Rectangle(start, area.bottom, min(area.right - 2, start + 190), area.top - HEAD_MM), None
    if layout.inside:
        middle = layout.outline.centre[0]
        edge_left = max([x for x, _ in crosses if x < middle], default=left) + 9
        edge_right = min([x for x, _ in crosses if x > middle], default=right) - 9
        lowest = min([y for _, y in crosses], default=top) - 8
        narrow = Rectangle(max(edge_left, left + 6), bottom + 4, min(edge_right, right - 6), top - 4)
        if lowest - bottom > layout.outline.height * 0.6:
            return narrow, Rectangle(left + 6, bottom + 5, right - 6, lowest)
        return narrow, None
    below = bottom - L_THICK_MM - NUMBERS_MM
    split = area.left + min(area.width * 0.4, 90.0)
    return (
        Rectangle(area.left + 6, area.bottom, split - 4, below),
        Rectangle(split + 2, area.bottom, min(area.right - 4, split + 130), below),
    )


def _fill(drawing: Drawing, subject: Subject, room: Rectangle, back: Rectangle | None, *, inside: bool) -> bool:
    """Steps first, then the back of the frame below or beside them; says whether both had room."""
    texts = [measure_step(subject), *steps()]
    if back is not None and not inside and steps_height(room.width, texts, 8) + 20 > room.height:
        # On a small sheet the steps take the whole width, and the back goes on a card.
        room, back = room._replace(right=back.right), None
    y = room.top - 4
    used = drawing.text(room.left, y, say("In this order"), 14, "bold", within=room.width)
    if inside:
        hint = say("Cut out this inside; keep it as the card for the back.")
        if room.width - used > 62:
            drawing.text(room.right, y, hint, 9, "semibold", "right", within=room.width - used - 5)
        else:
            y = drawing.paragraph(room.left, y - 5.5, hint, room.width, 9, "semibold") + 4.5
    y = draw_stops(drawing, subject.stops, room.left, y - 6.5, room.width)
    size = 10.0
    wanted = room.height * (0.45 if back is None else 1.0)
    while size > 8 and steps_height(room.width, texts, size) > wanted:
        size -= 0.5
    y = numbered_steps(drawing, room.left, y, room.width, texts, size)
    y = drawing.paragraph(room.left, y, say("Crosses: the strips' middles, only for checking."), room.width, 9) + 2
    if back is None:
        back = Rectangle(room.left, room.bottom, room.right, y - 3)
    elif inside:
        back = back._replace(top=min(back.top, y - 3))
    if inside:
        drawing.line(back.left, back.top, back.right, back.top, HAIR_PT)
        back = back._replace(top=back.top - 3)
    if back.height < least_height(back.width):
        return False
    draw_back(drawing, back, subject.hanging, subject.figures, glass=has_glass(subject))
    return True
