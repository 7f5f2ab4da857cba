"""The wall as a picture file in its own millimetres: SVG and PNG."""

from composer.catalogue import catalogue as catalogues
from composer.hanging.points import hang
from composer.model import Arrangement, Project, Wall
from composer.paper.drawing import Drawing
from composer.paper.primitives import (
    GREY,
    LIGHT_GREY,
    MM_PER_PT,
    WHITE,
    Circle,
    Item,
    Line,
    Polygon,
)
from composer.paper.raster import to_png
from composer.paper.svg import to_svg
from composer.paper.type_metrics import printable, text_width_mm
from composer.paper.wall_drawing import View, eye_line_of, name_of, of_wall, place_of

MOST_PIXELS = 8000


def _true_size(
    project: Project, wall: Wall, arrangement: Arrangement
) -> tuple[list[Item], list[tuple[str, list[Item]]]]:
    """The wall in its own millimetres: what lies below, and a group a piece."""
    stroke = 2.0 / MM_PER_PT
    view = View(0.0, 0.0, 1.0)
    below: list[Item] = [Polygon(tuple(wall.corners), width_pt=stroke)]
    for obstacle in wall.obstacles:
        part = Drawing()
        wide, high = float(obstacle.width.mm), float(obstacle.height.mm)
        part.box(obstacle.left, obstacle.bottom, wide, high, stroke, GREY, WHITE)
        size = min(60.0, high * 0.4) / MM_PER_PT
        if text_width_mm(printable(name_of(obstacle)), size) <= wide * 0.9:
            middle = obstacle.bottom + high / 2 - size * MM_PER_PT * 0.33
            part.text(obstacle.left + wide / 2, middle, name_of(obstacle), size, align="centre", grey=GREY)
        below += part.items
    for start, end in eye_line_of(wall, float(project.eye_line(wall).mm)):
        below.append(Line(*start, *end, stroke / 2, dash=(60.0, 12.0, 12.0, 12.0)))
    groups = []
    known = catalogues.of(project.catalogue)
    for piece, placement in project.hung_on(wall.key, arrangement):
        place, hanging = place_of(piece, placement), hang(piece, turned=placement.turned, catalogue=known)
        members: list[Item] = []
        part = Drawing()
        part.box(place.left, place.bottom, place.width, place.height, stroke, fill_grey=WHITE)
        if hanging.strips is not None:
            for strip in hanging.strips.places:
                part.box(
                    place.left + strip.left,
                    place.bottom + strip.bottom,
                    strip.width,
                    strip.height,
                    None,
                    fill_grey=LIGHT_GREY,
                )
        members += part.items
        members += [Circle(place.left + hole.x, place.bottom + hole.y, 8.0, stroke) for hole in hanging.holes]
        number = Drawing()
        size = min(90.0, place.height * 0.35, place.width * 0.45) / MM_PER_PT
        base = view.y(place.bottom + place.height * 0.42) - size * MM_PER_PT * 0.33
        number.text(place.centre[0], base, str(piece.number), size, "bold", "centre")
        groups.append((f"piece-{piece.number}", [*members, *number.items]))
    return below, groups


def wall_svg(project: Project, wall: Wall, arrangement: Arrangement) -> str:
    """The wall as SVG: 1 unit = 1 mm, y down, ``<g id="piece-N">`` with the outline as its first rectangle."""
    below, groups = _true_size(project, wall, arrangement)
    size = (float(wall.width.mm), float(wall.height.mm))
    return to_svg(size, printable(of_wall(project, wall)), below, groups)


def wall_png(project: Project, wall: Wall, arrangement: Arrangement) -> bytes:
    """The wall as PNG: 1 pixel = 1 mm, halved until neither side is over 8 000 pixels."""
    below, groups = _true_size(project, wall, arrangement)
    size = (float(wall.width.mm), float(wall.height.mm))
    per_mm = 1.0
    while max(size) * per_mm > MOST_PIXELS:
        per_mm /= 2
    items = [*below, *(item for _, members in groups for item in members)]
    return to_png(size, items, per_mm)
