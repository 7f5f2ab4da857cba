"""Small parts of a full-size sheet that find their own free place: label, arrow, map, ruler, numbers."""

import itertools
from collections.abc import Sequence

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import LEAST_PT, Drawing, line_step
from composer.paper.furniture import (
    black_label,
    check_ruler,
    nail_here,
    this_side_up,
)
from composer.paper.grid import Grid
from composer.paper.page_index import column_letters
from composer.paper.primitives import GREY, HAIR_PT, LIGHT_GREY, MM_PER_PT, THICK_PT, THIN_PT, Weight
from composer.paper.room import Room
from composer.paper.template_subject import Subject
from composer.paper.type_metrics import printable, text_width_mm, wrap
from composer.texts import say

LABEL_PT, NAME_PT = 28.0, 18.0
MAP_MM = (28.0, 24.0)
"""Room for the order map; the head above the frame's top edge is 26 mm high at most."""
RULER_HEIGHT_MM = 21.0


def place_label(drawing: Drawing, room: Room, label: str, sheet_words: str, lines: Sequence[str]) -> None:
    """The sheet's label, large, and beside it the piece's name and what it is; smaller where there is less room."""
    for label_pt, names_wide in ((LABEL_PT, 66.0), (LABEL_PT, 54.0), (22.0, 44.0), (20.0, 0.0), (14.0, 0.0)):
        wide = max(text_width_mm(printable(label), label_pt, "bold"), text_width_mm(printable(sheet_words), 9))
        whole = wide + (6 + names_wide if names_wide else 0)
        place = room.find(whole + 3, 22 if names_wide else 15)
        if place is None:
            continue
        base = place.top - label_pt * MM_PER_PT * 0.85 - (4 if names_wide else 0)
        drawing.text(place.left + 3, base, label, label_pt, "bold")
        drawing.text(place.left + 3, base - 6, sheet_words, 9, within=wide)
        if names_wide:
            x = place.left + 3 + wide + 6
            drawing.text(x, place.top - 7.5, lines[0], NAME_PT, "semibold", within=names_wide)
            for index, line in enumerate(lines[1:]):
                drawing.text(x, place.top - 14 - index * 5.6, line, 10, within=names_wide)
        room.take(place.grown(1))
        return


def place_arrow(drawing: Drawing, room: Room) -> None:
    """THIS SIDE UP with its arrow."""
    wide = min(34.0, text_width_mm(printable(say("THIS SIDE UP")), 9, "bold")) + 2
    place = room.find_right(wide, 22)
    if place is not None:
        this_side_up(drawing, (place.left + place.right) / 2, place.bottom + 1)
        room.take(place.grown(1))


def place_map(drawing: Drawing, room: Room, grid: Grid, outline: Rectangle, here: tuple[int, int]) -> None:
    """The order map: all sheets, the frame thick, this sheet shaded."""
    if grid.rows * grid.columns == 1:
        return
    wide, high = MAP_MM
    place = room.find_right(wide + 2, high)
    if place is not None:
        draw_map(drawing, Rectangle(place.left + 1, place.bottom, place.right - 1, place.top), grid, outline, here)
        room.take(place.grown(1))


def draw_map(
    drawing: Drawing,
    area: Rectangle,
    grid: Grid,
    outline: Rectangle,
    here: tuple[int, int] | None,
    size_pt: float = 9,
    frames: Sequence[Rectangle] = (),
) -> float:
    """The grid to scale in the area, right-aligned at its top; returns paper mm drawn for one of the piece.

    ``frames`` are the pieces of a whole wall, drawn thin; the letters keep clear of all edges.
    """
    whole = grid.tile(1, 1).united(grid.tile(grid.rows, grid.columns))
    factor = min(area.width / whole.width, area.height / whole.height)
    left, bottom = area.right - whole.width * factor, area.top - whole.height * factor

    def at(box: Rectangle) -> Rectangle:
        return Rectangle(
            left + (box.left - whole.left) * factor,
            bottom + (box.bottom - whole.bottom) * factor,
            left + (box.right - whole.left) * factor,
            bottom + (box.top - whole.bottom) * factor,
        )

    if here is not None:
        box = at(grid.tile(*here))
        drawing.box(box.left, box.bottom, box.width, box.height, None, fill_grey=LIGHT_GREY)
    for place in grid.kept:
        box = at(grid.tile(*place))
        drawing.box(box.left, box.bottom, box.width, box.height, HAIR_PT, GREY)
        if box.width > 6 and box.height > 4:
            words = f"{column_letters(place[1])}{place[0]}"
            within = _clear_of(box, [at(outline), *(at(frame) for frame in frames)])
            x, y = within.centre
            size = min(size_pt, (within.height - 0.6) / MM_PER_PT / 0.75)
            if size >= LEAST_PT:
                weight: Weight = "bold" if place == here else "regular"
                drawing.text(x, y - 0.35 * size * MM_PER_PT, words, size, weight, "centre", within=within.width - 1)
    for piece in frames:
        box = at(piece)
        drawing.box(box.left, box.bottom, box.width, box.height)
    frame = at(outline)
    drawing.box(frame.left, frame.bottom, frame.width, frame.height, THICK_PT)
    return factor


def _clear_of(box: Rectangle, frames: Sequence[Rectangle]) -> Rectangle:
    """The largest part of a small sheet that no edge of a frame crosses: there its letters stand."""
    near = [frame for frame in frames if box.meets(frame)]
    xs = sorted({box.left, box.right, *(x for f in near for x in (f.left, f.right) if box.left < x < box.right)})
    ys = sorted({box.bottom, box.top, *(y for f in near for y in (f.bottom, f.top) if box.bottom < y < box.top)})
    parts = [
        Rectangle(left, bottom, right, top)
        for left, right in itertools.pairwise(xs)
        for bottom, top in itertools.pairwise(ys)
    ]
    return max(parts, key=lambda part: (min(part.width, 2 * part.height), part.width * part.height))


def place_ruler(drawing: Drawing, room: Room, subject: Subject, factor: float) -> float:
    """The check ruler with the words that matter, the longest that fits; returns its nominal length."""
    words = say("Print at actual size (100 %).")
    sizes = [25.4 * n for n in (6, 4)] if subject.figures.imperial else [150.0, 100.0]
    for size in sizes:
        wide = size * factor + 18
        place = room.find(wide, RULER_HEIGHT_MM, low=True)
        if place is None:
            continue
        length = check_ruler(drawing, place.left + 3, place.bottom + 5.2, subject.figures, wide - 3, factor)
        drawing.text(place.left + 3, place.bottom + 1, words, 9, within=wide - 4)
        room.take(place.grown(1))
        return length
    return _place_short_ruler(drawing, room, subject, factor, words)


def _place_short_ruler(drawing: Drawing, room: Room, subject: Subject, factor: float, words: str) -> float:
    """A short bar with its length, where there is no room for the long ruler."""
    short = 50.8 if subject.figures.imperial else 50.0
    for size in (short, short / 2):
        said = say("{length} between the ends. {words}", length=subject.figures.full(size), words=words)
        lines = wrap(printable(said), max(size * factor, 40.0), 8)
        wide = max(size * factor, *(text_width_mm(line, 8) for line in lines)) + 2
        place = room.find(wide, 5 + len(lines) * line_step(8), low=True)
        if place is None:
            continue
        y = place.top - 2
        drawing.line(place.left + 1, y, place.left + 1 + size * factor, y, THIN_PT)
        for x in (place.left + 1, place.left + 1 + size * factor):
            drawing.line(x, y - 1.5, x, y + 1.5, THIN_PT)
        for index, line in enumerate(lines):
            drawing.text(place.left + 1, y - 5 - index * line_step(8), line, 8)
        room.take(place.grown(1))
        return size
    place = room.find(text_width_mm(printable(words), 8) + 1, 4, low=True)
    if place is not None:
        drawing.text(place.left, place.bottom + 1, words, 8)
        room.take(place.grown(1))
    return 0.0


def place_numbers(
    drawing: Drawing,
    room: Room,
    at: tuple[float, float],
    numbers: Sequence[tuple[str, str, float]],
    label: str | None,
) -> bool:
    """The numbers of one point beside it: to its right, else to its left, else a little higher or lower.

    Args:
        drawing: the sheet.
        room: what is free on it.
        at: the hole, or the hanging point where there is none.
        numbers: words, number, and the number's size in points.
        label: ``nail`` for the black NAIL HERE, other words for a plain black label, None for none.
    """
    for shrink in (1.0, 0.72, 0.5):
        sizes = [max(10.0, size * shrink) for _, _, size in numbers]
        small = 9 if shrink > 0.6 else 8
        wide = max(
            *(text_width_mm(printable(words), small) for words, _, _ in numbers),
            *(text_width_mm(printable(text), size, "bold") for (_, text, _), size in zip(numbers, sizes, strict=True)),
            text_width_mm(printable(say("NAIL HERE") if label == "nail" else label), 9, "bold") + 3 if label else 0.0,
        )
        drops = [max(size * MM_PER_PT * 0.92, 5.2 * shrink) for size in sizes]
        steps = [drop + 6.0 * (1 if shrink > 0.6 else 0.8) for drop in drops]
        head = 9.0 if label else 4.0
        high = head + sum(steps) - 3.2
        for up in (12.0, 6.0, 20.0, 0.0, 28.0, -8.0, 40.0, -14.0):
            for left in (at[0] + 8, at[0] - 8 - wide):
                place = Rectangle(left, at[1] + up - high, left + wide, at[1] + up)
                if not room.is_free(place):
                    continue
                y = place.top - 3.5
                if label == "nail":
                    nail_here(drawing, left, y)
                elif label:
                    black_label(drawing, left, y, label)
                y = place.top - head
                for (words, text, _), size, drop, step in zip(numbers, sizes, drops, steps, strict=True):
                    drawing.text(left, y, words, small)
                    drawing.text(left, y - drop, text, size, "bold")
                    y -= step
                room.take(place.grown(1))
                return True
    return False
