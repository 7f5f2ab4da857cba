"""The upper part of the measuring sheet: the back of a frame with letters, what they mean, and the wall so far."""

from composer.model import Wall
from composer.paper.drawing import Area, Drawing, line_step, lines_of
from composer.paper.figures import Figures
from composer.paper.furniture import tick, write_in_box
from composer.paper.primitives import BLACK, GREY, HAIR_PT, THICK_PT, THIN_PT, WHITE, Line
from composer.paper.wall_drawing import View
from composer.texts import N_, say

BLOCK_MM = 82.0
"""Its height."""

_LEGEND = (
    ("A", N_("width, outside of the frame")),
    ("B", N_("height, outside of the frame")),
    ("C", N_("depth, front of the frame to the wall")),
    (
        "D",
        N_(
            "drop: top edge down to where the frame bears. Wire: pull it up as the hooks will, one finger for "
            "one hook, two for two. Rings: measure both."
        ),
    ),
    ("E", N_("between the two rings or keyholes, middles")),
    ("F", N_("glass width, seen from the back with the backing off")),
    ("G", N_("glass height")),
    ("H", N_("face: width of the moulding, seen from the front")),
    ("K", N_("weight, all in: on the scales with it, then without")),
)


def lettered(drawing: Drawing, x: float, y: float, letter: str, radius: float = 2.7) -> None:
    """A letter in a circle, as it stands in the drawing, the legend and the table's head."""
    drawing.circle(x, y, radius, THIN_PT, fill_grey=WHITE)
    drawing.text(x, y - 1.15, letter, 9, "bold", "centre")


def draw_block(drawing: Drawing, area: Area, rule: float, wall: Wall, figures: Figures) -> None:
    """The upper part of a sheet, below its head's rule."""
    bottom = rule - BLOCK_MM
    extra = min(40.0, area.width - 255.0)
    back = Area(area.left, bottom, area.left + 92, rule)
    _back(drawing, back)
    _legend(drawing, Area(area.left + 98, bottom + 3, area.left + 166 + extra * 0.75, rule - 2))
    _wall(drawing, Area(area.right - 84, bottom, area.right, rule), wall, figures)


def _back(drawing: Drawing, room: Area) -> None:
    """The back of a frame with wire, rings, glass and the letters."""
    left, right = room.left + 22, room.left + 80
    top, bottom = room.top - 15, room.top - 69
    drawing.box(left, bottom, right - left, top - bottom, THICK_PT)
    drawing.box(left + 7, bottom + 7, right - left - 14, top - bottom - 14, THIN_PT)
    drawing.box(left + 4, bottom + 4, right - left - 8, top - bottom - 8, HAIR_PT, dash=(1.6, 1.0))
    drawing.text(left + 9.5, top - 11, say("TOP"), 8, "bold", within=14)
    ring_y, hook_y = top - 20, top - 11
    a, b = left + 3.5, right - 3.5
    hook_a, hook_b = left + 23, right - 23
    for x1, y1, x2, y2 in ((a, ring_y, hook_a, hook_y), (hook_a, hook_y, hook_b, hook_y), (hook_b, hook_y, b, ring_y)):
        drawing.line(x1, y1, x2, y2, THIN_PT)
    for x in (hook_a, hook_b):
        drawing.line(x, hook_y, x, hook_y - 4, THIN_PT)
        drawing.circle(x, hook_y, 0.6, None, fill_grey=BLACK)
    for x in (a, b):
        drawing.circle(x, ring_y, 1.3, THIN_PT, fill_grey=WHITE)
    across = (
        (left, right, top + 6.5, "A", (top, bottom)),
        (a, b, ring_y - 9, "E", (ring_y - 1.5, ring_y - 10.5)),
        (left + 4, right - 4, ring_y - 21, "F", None),
    )
    for x1, x2, y, letter, reach in across:
        if reach is not None:
            for x in (x1, x2):
                drawing.line(
                    x, reach[0] + (1 if letter == "A" else 0), x, y + (1.5 if letter == "A" else -1.5), HAIR_PT, GREY
                )
        _dimension(drawing, (x1, y), (x2, y), letter)
    _dimension(drawing, (left - 9, bottom), (left - 9, top), "B")
    for y in (bottom, top):
        drawing.line(left - 10.5, y, left - 0.5, y, HAIR_PT, GREY)
    _dimension(drawing, (right + 8, bottom + 4), (right + 8, top - 4), "G")
    for y in (bottom + 4, top - 4):
        drawing.line(right - 3.5, y, right + 9.5, y, HAIR_PT, GREY)
    _dimension(drawing, (hook_b + 7, hook_y), (hook_b + 7, top), "D")
    drawing.line(hook_b + 1, hook_y, hook_b + 8.5, hook_y, HAIR_PT, GREY)
    y = bottom - 3.5
    for x in (left, left + 7):
        drawing.line(x, bottom, x, y - 1.5, HAIR_PT, GREY)
        tick(drawing, x, y)
    drawing.line(left, y, left + 11, y, HAIR_PT)
    lettered(drawing, left + 13.5, y, "H")
    words = say("This is the BACK. Its left side is the RIGHT side on the wall.")
    drawing.text(room.left, room.bottom + 2.6, words, 9, "bold", within=room.width)


def _dimension(drawing: Drawing, start: tuple[float, float], end: tuple[float, float], letter: str) -> None:
    drawing.add(Line(*start, *end, HAIR_PT))
    tick(drawing, *start)
    tick(drawing, *end)
    lettered(drawing, (start[0] + end[0]) / 2, (start[1] + end[1]) / 2, letter)


def _legend(drawing: Drawing, room: Area) -> None:
    width = room.width - 8
    texts = [(letter, say(words)) for letter, words in _LEGEND]
    size = 9.0
    while size > 7 and sum(_legend_height(text, width, size) for _, text in texts) > room.height:
        size -= 0.5
    spare = room.height - sum(_legend_height(text, width, size) for _, text in texts)
    y = room.top - 4
    for letter, text in texts:
        lettered(drawing, room.left + 3, y, letter)
        after = drawing.paragraph(room.left + 8, y - 1.1, text, width, size)
        used = y - 1.1 - after
        y -= max(6.0, used + 2.0) + min(1.2, max(0.0, spare / len(texts)))


def _legend_height(text: str, width: float, size: float) -> float:
    return max(6.0, lines_of(text, width, size) * line_step(size) + 2.0)


def _wall(drawing: Drawing, room: Area, wall: Wall, figures: Figures) -> None:
    """The wall as known so far, with boxes for a second measure of each direction and for depths."""
    used = drawing.text(room.left, room.top - 7, say("The wall"), 14, "semibold", within=room.width * 0.55)
    drawing.text(room.left + used + 3, room.top - 7, say("facing it"), 9, within=room.width - used - 4)
    width, height = float(wall.width.mm), float(wall.height.mm)
    scale = max(width / (room.width - 8), height / (room.height - 36))
    wide, high = width / scale, height / scale
    left = room.left + (room.width - wide) / 2
    bottom = room.bottom + 16 + (room.height - 36 - high) / 2
    view = View(left, bottom, scale)
    corners = [(view.x(x), view.y(y)) for x, y in wall.corners]
    for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], corners[0]], strict=True):
        drawing.line(x1, y1, x2, y2, THIN_PT)
    drawing.line(left - 3, bottom, left + wide + 3, bottom, THICK_PT)
    for obstacle in wall.obstacles:
        w, h = float(obstacle.width.mm) / scale, float(obstacle.height.mm) / scale
        x, y = view.x(obstacle.left), view.y(obstacle.bottom)
        drawing.box(x, y, w, h, THIN_PT, GREY)
    _labelled_box(drawing, (room.left + room.right) / 2, bottom + high + 2, say("width at ceiling"), room.width / 2)
    words = say("width at floor {width}, height {height}", width=figures.bare(width), height=figures.bare(height))
    drawing.text((room.left + room.right) / 2, bottom - 5, words, 9, align="centre", within=room.width)
    box_y = bottom + high - 12
    drawing.text(left + 2, box_y + 7.6, say("height left"), 9, within=wide / 2 - 4)
    write_in_box(drawing, left + 2, box_y, 17)
    drawing.text(left + wide - 2, box_y + 7.6, say("height right"), 9, align="right", within=wide / 2 - 4)
    write_in_box(drawing, left + wide - 19, box_y, 17)
    words = say("Draw in sockets, doors, pipes, slopes, and write left and bottom beside them.")
    if wall.obstacles:
        words = say("Draw in what is missing: sockets, doors, pipes, slopes.")
    drawing.paragraph(room.left, room.bottom + 2.6, words, room.width, 9, "bold", most=1)


def _labelled_box(drawing: Drawing, middle: float, bottom: float, words: str, room: float) -> None:
    drawing.text(middle - 1, bottom + 1.9, words, 9, align="right", within=room - 4)
    write_in_box(drawing, middle + 1, bottom, 17)
