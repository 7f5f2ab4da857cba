"""A wide frame's locator that saves paper: a sheet for each lower corner instead of the whole outline."""

from collections.abc import Iterator
from typing import NamedTuple

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Drawing
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.furniture import numbered_steps, point_cross
from composer.paper.locator_back import draw_back, steps
from composer.paper.locator_parts import (
    HEAD_MM,
    L_ARM_MM,
    L_THICK_MM,
    NUMBERS_MM,
    draw_corners,
    draw_head,
    draw_numbers,
    entry_on,
    has_glass,
)
from composer.paper.page_index import IndexEntry, label_of
from composer.paper.page_run import PageRun
from composer.paper.primitives import THIN_PT, Page
from composer.paper.room import Room
from composer.paper.stops import draw_stops
from composer.paper.template_parts import place_ruler
from composer.paper.template_subject import Subject
from composer.paper.template_view import View
from composer.texts import N_, say

_ROLL_PRINT_MM = 277.0
"""Print of a corner sheet cut from a roll: as much as an A4 sheet has."""

_INSET_MM = L_THICK_MM + 4
"""From the sheet's printable edge to the outline."""

_TITLES = {"both": N_("Locator"), "left": N_("Left corner"), "right": N_("Right corner")}


class _Corner(NamedTuple):
    """One sheet: which corner it holds and where it stands among the others."""

    which: str
    place: tuple[int, int]
    of: tuple[int, int]
    view: View
    entry: IndexEntry


def corner_run(subject: Subject, paper: FullSizePaper) -> PageRun:
    """A sheet a lower corner (or one for both), and upper ones as far as strips' middles need them."""
    sheets = list(_corners(subject, paper))
    return PageRun(tuple((sheet.entry,) for sheet in sheets), lambda: [_draw(subject, sheet) for sheet in sheets])


def _corners(subject: Subject, paper: FullSizePaper) -> Iterator[_Corner]:
    side = paper.cut(_ROLL_PRINT_MM) if paper.sheet.is_roll else paper.ways[0]
    area, (sx, sy) = Rectangle(*side.printable), paper.scale
    reach = area.height - HEAD_MM - NUMBERS_MM - L_THICK_MM
    rows = 2 if any(point.y * sy + 6 > reach for point in subject.hanging.points) else 1
    columns = 1 if subject.width * sx + 2 * L_THICK_MM <= area.width else 2
    for row in range(1, rows + 1):
        for column in range(1, columns + 1):
            which = "both" if columns == 1 else "left" if column == 1 else "right"
            if which == "both":
                ox = -(area.left + (area.width - subject.width * sx) / 2) / sx
            else:
                ox = -(area.left + _INSET_MM) / sx if which == "left" else subject.width - (area.right - _INSET_MM) / sx
            lower = row == rows
            oy = -(area.bottom + NUMBERS_MM + L_THICK_MM) / sy if lower else subject.height - (area.top - HEAD_MM) / sy
            view = View((ox, oy), paper.scale, area, (side.width, side.height))
            place, of = (row, column), (rows, columns)
            yield _Corner(which, place, of, view, entry_on(subject, view, place, of))


def _draw(subject: Subject, sheet: _Corner) -> Page:
    view, which, points = sheet.view, sheet.which, sheet.entry.points
    area, drawing = view.printable, Drawing()
    outline = view.rectangle(subject.outline)
    left, bottom, right, top = outline
    low, high = max(bottom, area.bottom), min(top, area.top - HEAD_MM)
    near, far = max(left, area.left), min(right, area.right)
    lower = sheet.place[0] == sheet.of[0]
    draw_head(drawing, area, subject, say(_TITLES[which]))
    for side, edge in (("left", left), ("right", right)):
        if which in (side, "both"):
            drawing.line(edge, low, edge, high, THIN_PT)
    if lower:
        drawing.line(near, bottom, far, bottom, THIN_PT)
        draw_corners(drawing, outline, area, which)
        draw_numbers(drawing, subject, area.left + _INSET_MM, area.right - _INSET_MM, bottom - L_THICK_MM, which)
    if top <= area.top - HEAD_MM + 1e-6:
        drawing.line(near, top, far, top, THIN_PT)
    for point in points:
        point_cross(drawing, point.page_x, point.page_y)
    middle = (near + far) / 2
    room = Rectangle(
        max([p.page_x for p in points if p.page_x < middle], default=near - 3) + 9,
        low + 8,
        min([p.page_x for p in points if p.page_x >= middle], default=far + 3) - 9,
        high - 5,
    )
    ruler = Room(room)
    place_ruler(drawing, ruler, subject, view.scale[0])
    room = room._replace(bottom=max([taken.top for taken in ruler.taken], default=room.bottom))
    _write(drawing, subject, room, which, lower=lower, rows=sheet.of[0])
    label = sheet.entry.label
    return Page(view.size, tuple(drawing.items), label, (subject.heading, label), view.area)


def _write(drawing: Drawing, subject: Subject, room: Rectangle, which: str, *, lower: bool, rows: int) -> None:
    """Steps on the left sheet, the back of the frame on the right one."""
    if not lower:
        words = say("Upper part: the crosses are the strips' middles, only for checking the frame's back.")
        drawing.paragraph(room.left, room.top - 4, words, room.width, 10)
        return
    top = room.top
    if which != "right":
        ruled = say(
            "The arms of the black corner are {arm} long: measure them first.", arm=subject.figures.bare(L_ARM_MM)
        )
        first = say("Tape this sheet to the wall by its numbers, the lower line level.")
        if which == "left":
            first = say(
                "Tape this sheet and {other} by their numbers, {width} from one upright line to the other, lower lines level.",
                other=label_of(subject.piece.number, rows, 2),
                width=subject.figures.bare(subject.width),
            )
        drawing.text(room.left, top - 4, say("In this order"), 14, "bold", within=room.width)
        y = draw_stops(drawing, subject.stops, room.left, top - 11, room.width)
        top = numbered_steps(drawing, room.left, y, room.width, [ruled, first, *steps()[1:]]) - 6
    if which != "left":
        drawing_room = room._replace(top=top)
        draw_back(drawing, drawing_room, subject.hanging, subject.figures, glass=has_glass(subject))
