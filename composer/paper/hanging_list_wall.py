"""The hanging list's drawing of the wall: numbers, level line, running dimensions from one corner and the floor."""

from composer.catalogue.catalogue import Catalogue
from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Area, Drawing
from composer.paper.furniture import tick
from composer.paper.hanging_list_rows import HangingList, round_to
from composer.paper.primitives import CENTRE_DASH, GREY, HAIR_PT, THIN_PT
from composer.paper.type_metrics import printable, text_width_mm
from composer.paper.wall_drawing import View, draw_wall, name_small_obstacles, piece_items
from composer.texts import say

AROUND_BELOW = 9.0
"""Room for the dimensions below the floor, mm."""

AROUND_LEFT, AROUND_RIGHT = 20.0, 20.0
"""Room at both sides for the level line's height and name, and for the scale, mm."""

_TEXT_PT = 9.0


def draw_list_wall(
    drawing: Drawing,
    made: HangingList,
    area: Area,
    top: float,
    scale: float,
    known: Catalogue,
    number_pt: float,
) -> float:
    """The wall hanging from ``top``, in the middle of the sheet; gives back the y below its dimensions."""
    shown = shown_of(made)
    middle = (area.left + AROUND_LEFT + area.right - AROUND_RIGHT) / 2
    view = View(middle - shown.centre[0] / scale, top - shown.top / scale, scale)
    draw_wall(drawing, made.wall, view)
    _level_line(drawing, made, view)
    for subject in made.subjects:
        place = Rectangle.at(subject.left, subject.bottom, subject.width, subject.height)
        drawing.add(*piece_items(subject.piece, place, view, subject.hanging, number_pt))
    words = say("drawn 1 : {scale}", scale=f"{scale:g}")
    drawing.text(
        view.x(shown.left) - 4, view.y(shown.bottom) + 1.0, words, _TEXT_PT, align="right", within=AROUND_LEFT - 4
    )
    _across(drawing, made, view, view.y(shown.bottom) - 4.0)
    _up(drawing, made, view, view.x(shown.right) + 2.2)
    name_small_obstacles(drawing, made.wall, view)
    return view.y(shown.bottom) - AROUND_BELOW


def shown_of(made: HangingList) -> Rectangle:
    """What is drawn, wall mm: the wall, and what reaches beyond it."""
    shown = Rectangle(0.0, 0.0, float(made.wall.width.mm), float(made.wall.height.mm))
    for thing in made.wall.obstacles:
        shown = shown.united(Rectangle.at(thing.left, thing.bottom, thing.width.mm, thing.height.mm))
    return shown.united(Rectangle(*_group(made)))


def _level_line(drawing: Drawing, made: HangingList, view: View) -> None:
    y = view.y(made.datum.level_line)
    shown = shown_of(made)
    left, right = view.x(shown.left), view.x(shown.right)
    drawing.line(left - 3, y, right + 3, y, THIN_PT, dash=CENTRE_DASH)
    height = made.figures.bare(round_to(made.datum.level_line, made.figures))
    drawing.text(left - 4, y - 1.1, height, _TEXT_PT, "semibold", "right", within=AROUND_LEFT - 4)
    drawing.text(right + 4, y - 1.1, say("level line"), _TEXT_PT, "semibold", within=AROUND_RIGHT - 4)


def _group(made: HangingList) -> tuple[float, float, float, float]:
    lefts = [one.left for one in made.subjects]
    rights = [one.left + one.width for one in made.subjects]
    bottoms = [one.bottom for one in made.subjects]
    tops = [one.bottom + one.height for one in made.subjects]
    return min(lefts), min(bottoms), max(rights), max(tops)


def _across(drawing: Drawing, made: HangingList, view: View, y: float) -> None:
    """Running dimensions below: from the corner (or plumb line) to the group's edges, each from the same place."""
    left, _, right, _ = _group(made)
    datum = made.datum
    drawing.line(view.x(0), y, view.x(float(made.wall.width.mm)), y, HAIR_PT)
    tick(drawing, view.x(datum.side_x), y)
    written = -1e9
    for x in sorted((left, right)):
        at = view.x(x)
        drawing.line(at, y + 3.4, at, y - 1.2, HAIR_PT, GREY)
        tick(drawing, at, y)
        words = datum.distance(round_to(x, made.figures), made.figures)
        wide = text_width_mm(printable(words), _TEXT_PT, "semibold")
        start = max(at - wide / 2, written + 1.5)
        drawing.text(start, y - 3.6, words, _TEXT_PT, "semibold")
        written = start + wide


def _up(drawing: Drawing, made: HangingList, view: View, x: float) -> None:
    """Running dimensions at the right: from the floor to the group's lower and upper edges."""
    _, bottom, right, top = _group(made)
    level = view.y(made.datum.level_line)
    drawing.line(x, view.y(0), x, view.y(top), HAIR_PT)
    tick(drawing, x, view.y(0))
    written = -1e9
    for y in (bottom, top):
        at = view.y(y)
        drawing.line(view.x(right) + 0.8, at, x + 1.2, at, HAIR_PT, GREY)
        tick(drawing, x, at)
        # Beside its tick, but clear of the level line's name and of the number below.
        base = at - 1.1
        if abs(at - level) < 3.6:
            base = level - 1.1 + (3.8 if at >= level else -3.8)
        base = max(base, written + 3.6)
        words = made.figures.bare(round_to(y, made.figures))
        drawing.text(x + 2.4, base, words, _TEXT_PT, "semibold", within=AROUND_RIGHT - 4)
        written = base
