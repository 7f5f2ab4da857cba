"""The wall as seen from the front, to scale: outline, what stands before it, pieces, dimensions, eye line.

The same drawing serves the elevation sheet, the picture files and, at a smaller scale, other sheets.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from composer.catalogue import catalogue as catalogues
from composer.geometry.rectangle import Rectangle
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.model import Arrangement, Obstacle, Piece, Placement, Project, Wall
from composer.paper.drawing import Drawing, line_step
from composer.paper.figures import Figures, figures_of
from composer.paper.furniture import dimension_across, dimension_up, sheet_head
from composer.paper.primitives import (
    CENTRE_DASH,
    GREY,
    HAIR_PT,
    LIGHT_GREY,
    MM_PER_PT,
    THICK_PT,
    THIN_PT,
    WHITE,
    Circle,
    Item,
    Line,
    Page,
    Polygon,
)
from composer.paper.raster import to_png
from composer.paper.sheet_request import SheetRequest
from composer.paper.svg import to_svg
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import N_, say

ROUND_SCALES = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 250, 300, 400, 500, 1000)
"""Scales a ruler reads without a sum (common practice; no source)."""

MOST_PIXELS = 8000

OBSTACLE_NAMES = {
    "sofa": N_("sofa"),
    "bed": N_("bed"),
    "cot": N_("cot"),
    "seat": N_("seat"),
    "table": N_("table"),
    "door": N_("door"),
    "window": N_("window"),
    "switch": N_("switch"),
    "socket": N_("socket"),
    "tap": N_("tap"),
    "radiator": N_("radiator"),
    "thermostat": N_("thermostat"),
    "grille": N_("grille"),
    "detector": N_("detector"),
    "shelf": N_("shelf"),
    "stair-rail": N_("stair rail"),
    "other": N_("obstacle"),
}


@dataclass(frozen=True, slots=True)
class View:
    """How wall millimetres fall on a page: page = origin + wall / scale."""

    left: float
    bottom: float
    scale: float

    def x(self, wall_x: float) -> float:
        """Across on the page, mm."""
        return self.left + wall_x / self.scale

    def y(self, wall_y: float) -> float:
        """Up on the page, mm."""
        return self.bottom + wall_y / self.scale


def round_scale(width_mm: float, height_mm: float, room: tuple[float, float]) -> float:
    """The largest drawing with a round scale that fits; beyond the list, whole thousands."""
    needed = max(width_mm / max(room[0], 1e-6), height_mm / max(room[1], 1e-6))
    return float(next((scale for scale in ROUND_SCALES if scale >= needed - 1e-9), -(-needed // 1000) * 1000))


def place_of(piece: Piece, placement: Placement) -> Rectangle:
    """Where a piece hangs, wall mm."""
    return Rectangle.at(placement.left, placement.bottom, *piece.size_mm(turned=placement.turned))


def group_of(hung: Sequence[tuple[Piece, Placement]]) -> Rectangle | None:
    """The rectangle around all pieces of a wall."""
    around: Rectangle | None = None
    for piece, placement in hung:
        place = place_of(piece, placement)
        around = place if around is None else around.united(place)
    return around


def name_of(obstacle: Obstacle) -> str:
    """What an obstacle is called on paper."""
    return obstacle.name or say(OBSTACLE_NAMES[obstacle.kind])


def draw_wall(drawing: Drawing, wall: Wall, view: View, text_pt: float = 9.0) -> None:
    """Outline, floor and obstacles."""
    corners = tuple((view.x(x), view.y(y)) for x, y in wall.corners)
    drawing.add(Polygon(corners, width_pt=THIN_PT))
    for obstacle in wall.obstacles:
        wide, high = obstacle.width.mm / view.scale, obstacle.height.mm / view.scale
        left, bottom = view.x(obstacle.left), view.y(obstacle.bottom)
        small = wide < 12 or high < 5
        drawing.box(left, bottom, wide, high, THIN_PT, 0.0 if small else GREY)
        name = printable(name_of(obstacle))
        if not small and text_width_mm(name, text_pt) <= wide - 2:
            drawing.text(left + wide / 2, bottom + high / 2 - text_pt * 0.12, name, text_pt, align="centre")
        elif small:
            _name_small(drawing, wall, obstacle, view, name, text_pt)
    floor_left, floor_right = view.x(0), view.x(wall.width.mm)
    drawing.line(floor_left - 3, view.y(0), floor_right + 3, view.y(0), THICK_PT)


def _name_small(drawing: Drawing, wall: Wall, obstacle: Obstacle, view: View, name: str, text_pt: float) -> None:
    """A name beside what is too small to hold it: below, above, right or left, wherever it crosses no edge."""
    width, high = min(24.0, text_width_mm(name, text_pt)), line_step(text_pt) * 0.85
    box = Rectangle.at(
        view.x(obstacle.left), view.y(obstacle.bottom), obstacle.width.mm / view.scale, obstacle.height.mm / view.scale
    )
    middle, level = box.centre
    lefts = (middle - width / 2, box.left, box.right - width)
    tries = (
        *(Rectangle.at(left, box.bottom - high - 0.6, width, high) for left in lefts),
        *(Rectangle.at(left, box.top + 0.6, width, high) for left in lefts),
        Rectangle.at(box.right + 1, level - high / 2, width, high),
        Rectangle.at(box.left - 1 - width, level - high / 2, width, high),
    )
    others = [
        Rectangle.at(view.x(o.left), view.y(o.bottom), o.width.mm / view.scale, o.height.mm / view.scale)
        for o in wall.obstacles
        if o is not obstacle
    ]
    inside = Rectangle(view.x(0), view.y(0), view.x(wall.width.mm), view.y(wall.height.mm))
    free = (
        place
        for place in tries
        if inside.holds(place.left, place.bottom)
        and inside.holds(place.right, place.top)
        and not any(place.meets(other) for other in others)
    )
    place = next(free, tries[0])
    drawing.text(place.left, place.bottom + 0.25 * high, name, text_pt, within=width + 0.01)


def piece_items(piece: Piece, place: Rectangle, view: View, hanging: PieceHanging, number_pt: float) -> list[Item]:
    """One piece: its outline, its number, its holes or strips."""
    part = Drawing()
    wide, high = place.width / view.scale, place.height / view.scale
    left, bottom = view.x(place.left), view.y(place.bottom)
    part.box(left, bottom, wide, high, THIN_PT, fill_grey=WHITE)
    if hanging.strips is not None:
        for strip in hanging.strips.places:
            part.box(
                left + strip.left / view.scale,
                bottom + strip.bottom / view.scale,
                strip.width / view.scale,
                strip.height / view.scale,
                HAIR_PT,
                fill_grey=GREY,
            )
    for hole in hanging.holes:
        radius = min(0.8, wide / 8, high / 8)
        part.circle(left + hole.x / view.scale, bottom + hole.y / view.scale, radius, HAIR_PT)
    size = min(number_pt, high * 0.5 / MM_PER_PT, wide * 0.8 / max(0.5, len(str(piece.number)) * 0.53 * MM_PER_PT))
    part.text(
        left + wide / 2, bottom + high * 0.42 - size * 0.33 * MM_PER_PT, str(piece.number), size, "bold", "centre"
    )
    return part.items


def draw_pieces(
    drawing: Drawing,
    hung: Sequence[tuple[Piece, Placement]],
    view: View,
    known: catalogues.Catalogue,
    number_pt: float = 14.0,
) -> None:
    """All pieces of a wall; ``known`` is the catalogue that counts in the project."""
    for piece, placement in hung:
        hanging = hang(piece, turned=placement.turned, catalogue=known)
        drawing.add(*piece_items(piece, place_of(piece, placement), view, hanging, number_pt))


def draw_eye_line(drawing: Drawing, wall: Wall, height_mm: float, view: View, figures: Figures) -> None:
    """The level line at eye height, its name at the right, its height at the left."""
    y = view.y(height_mm)
    left, right = view.x(0), view.x(wall.width.mm)
    drawing.line(left - 3, y, right + 3, y, THIN_PT, dash=CENTRE_DASH)
    drawing.text(left - 4, y - 1.1, figures.bare(height_mm), 9, "semibold", "right")
    drawing.text(right + 4, y - 1.1, say("eye line"), 9, "semibold", within=16)


def draw_dimensions(drawing: Drawing, wall: Wall, group: Rectangle | None, view: View, figures: Figures) -> None:
    """Chains below and at the right: wall, group, what is left on both sides."""
    width, height = float(wall.width.mm), float(wall.height.mm)
    below = view.bottom - 6
    if group is not None:
        stops = [0.0, group.left, group.right, width]
        for x in stops:
            drawing.line(view.x(x), view.bottom - 1, view.x(x), below - 2, HAIR_PT, GREY)
        for first, second in itertools.pairwise(stops):
            if second - first > 1e-6:
                dimension_across(drawing, view.x(first), view.x(second), below, figures.bare(second - first))
        below -= 7
    dimension_across(drawing, view.x(0), view.x(width), below, figures.bare(width))
    out = view.x(width) + 24
    if group is not None:
        heights = [0.0, group.bottom, group.top, height]
        for y in heights:
            start = view.x(group.right if 0 < y < height else width) + 1
            drawing.line(start, view.y(y), out + 2, view.y(y), HAIR_PT, GREY)
        for first, second in itertools.pairwise(heights):
            if second - first > 1e-6:
                dimension_up(drawing, out, view.y(first), view.y(second), figures.bare(second - first))
        out += 8
    dimension_up(drawing, out, view.y(0), view.y(height), figures.bare(height))


_AROUND = (22.0, 24.0, 40.0, 6.0)
"""What eye line and dimensions take left, below, right and above of the wall, mm."""


def build(project: Project, wall: Wall, arrangement: Arrangement, request: SheetRequest) -> list[Page]:
    """One sheet with the whole wall to a round scale, upright or lying, whichever draws it larger.

    Raises:
        SheetTooSmall: the paper has no room for a wall with its dimensions.
    """
    width, height = float(wall.width.mm), float(wall.height.mm)
    best: tuple[float, SheetRequest] | None = None
    for landscape in (False, True):
        tried = request.turned(landscape=landscape)
        scale = round_scale(width, height, _room(tried))
        if best is None or scale < best[0]:
            best = scale, tried
    assert best is not None
    scale, chosen = best
    area = chosen.expect(say("Elevation"), 110, 110)
    figures = figures_of(project)
    drawing = Drawing()
    hung = project.hung_on(wall.key, arrangement)
    eye = float(project.eye_line(wall).mm)
    note = say("{unit} · drawn 1 : {scale}", unit=figures.all_in, scale=f"{scale:.0f}")
    below = say(
        "{count} pieces, gap {gap}, eye line {eye} above floor. Left and right as you face the wall.",
        count=len(hung),
        gap=figures.bare(arrangement.gap.mm),
        eye=figures.bare(eye),
    )
    rule = sheet_head(drawing, area, say("Elevation"), of_wall(project, wall), note, below)
    room = _room(chosen)
    left = area.left + _AROUND[0] + (room[0] - width / scale) / 2
    free = rule - _AROUND[3] - area.bottom - _AROUND[1] - height / scale
    view = View(left, area.bottom + _AROUND[1] + max(0.0, free / 2), scale)
    draw_wall(drawing, wall, view)
    draw_eye_line(drawing, wall, eye, view, figures)
    draw_dimensions(drawing, wall, group_of(hung), view, figures)
    draw_pieces(drawing, hung, view, catalogues.of(project.catalogue))
    return [drawing.page(chosen.size, say("Elevation"), (say("Elevation"), wall.name), area)]


def _room(request: SheetRequest) -> tuple[float, float]:
    area = request.area
    return area.width - _AROUND[0] - _AROUND[2], area.height - 28 - _AROUND[1] - _AROUND[3]


def of_wall(project: Project, wall: Wall) -> str:
    """Title and wall, as they stand in a sheet's head."""
    if not project.title:
        return wall.name
    return say("{title}, {wall}", title=project.title, wall=wall.name)


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
    eye = float(project.eye_line(wall).mm)
    if 0 < eye < wall.height.mm:
        below.append(Line(0.0, eye, float(wall.width.mm), eye, stroke / 2, dash=(60.0, 12.0, 12.0, 12.0)))
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
