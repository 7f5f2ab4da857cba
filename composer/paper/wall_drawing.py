"""The wall as seen from the front, to scale: outline, what stands before it, lines at eye height, pieces.

The same drawing serves the elevation and, at smaller scales, other sheets.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce

from composer.catalogue import catalogue as catalogues
from composer.geometry.nosing import eye_line_parts
from composer.geometry.rectangle import Rectangle
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.model import Obstacle, Piece, Placement, Project, Wall
from composer.paper.drawing import Drawing, line_step
from composer.paper.primitives import (
    GREY,
    HAIR_PT,
    LAY_DASH,
    MM_PER_PT,
    THICK_PT,
    THIN_PT,
    WHITE,
    Item,
    Polygon,
)
from composer.paper.room import crosses, reach
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import N_, say

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
    """Outline, floor, a stair's nosing line, obstacles; the names of small ones are for :func:`name_small_obstacles`."""
    corners = tuple((view.x(x), view.y(y)) for x, y in wall.corners)
    drawing.add(Polygon(corners, width_pt=THIN_PT))
    for obstacle in wall.obstacles:
        box, small = _on_page(obstacle, view), _is_small(obstacle, view)
        drawing.box(box.left, box.bottom, box.width, box.height, THIN_PT, 0.0 if small else GREY)
        name = printable(name_of(obstacle))
        if not small and text_width_mm(name, text_pt) <= box.width - 2:
            middle, level = box.centre
            drawing.text(middle, level - text_pt * 0.12, name, text_pt, align="centre")
    if wall.nosing is not None:
        (x1, y1), (x2, y2) = wall.nosing
        drawing.line(view.x(x1), view.y(y1), view.x(x2), view.y(y2), THIN_PT, GREY, LAY_DASH)
    floor_left, floor_right = view.x(0), view.x(wall.width.mm)
    drawing.line(floor_left - 3, view.y(0), floor_right + 3, view.y(0), THICK_PT)


def eye_line_of(wall: Wall, eye_mm: float) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """The line at eye height as straight parts, wall mm: level, or climbing with the stair; none above the wall."""
    return eye_line_parts(wall.nosing, (float(wall.width.mm), float(wall.height.mm)), eye_mm)


def _on_page(obstacle: Obstacle, view: View) -> Rectangle:
    wide, high = obstacle.width.mm / view.scale, obstacle.height.mm / view.scale
    return Rectangle.at(view.x(obstacle.left), view.y(obstacle.bottom), wide, high)


def _is_small(obstacle: Obstacle, view: View) -> bool:
    box = _on_page(obstacle, view)
    return box.width < 12 or box.height < 5


def name_small_obstacles(drawing: Drawing, wall: Wall, view: View, text_pt: float = 9.0) -> None:
    """Names beside what is too small to hold them, where they cross nothing that is drawn already."""
    for obstacle in wall.obstacles:
        if _is_small(obstacle, view):
            name = printable(name_of(obstacle))
            width, high = min(24.0, text_width_mm(name, text_pt)), line_step(text_pt) * 0.85
            place = _beside(drawing, wall, _on_page(obstacle, view), (width, high), view)
            drawing.text(place.left, place.bottom + 0.25 * high, name, text_pt, within=width + 0.01)


def _beside(drawing: Drawing, wall: Wall, box: Rectangle, size: tuple[float, float], view: View) -> Rectangle:
    """Below, above, right or left of a thing, as near as its name crosses nothing; where it always does, below."""
    width, high = size
    middle, level = box.centre
    lefts = (middle - width / 2, box.left, box.right - width)
    inside = Rectangle(view.x(0), view.y(0), view.x(wall.width.mm), view.y(wall.height.mm))
    tries = [
        place
        for away in (0.6, 2.0, 3.5, 5.0)
        for place in (
            *(Rectangle.at(left, box.bottom - high - away, width, high) for left in lefts),
            *(Rectangle.at(left, box.top + away, width, high) for left in lefts),
            *(Rectangle.at(box.right + 0.4 + away, level + up - high / 2, width, high) for up in (0.0, 2.0, -2.0)),
            *(
                Rectangle.at(box.left - 0.4 - away - width, level + up - high / 2, width, high)
                for up in (0.0, 2.0, -2.0)
            ),
        )
    ]
    around = reduce(Rectangle.united, tries).grown(1.0)
    near = [item for item in drawing.items if reach(item).grown(0.5).meets(around)]
    for place in tries:
        within = inside.holds(place.left, place.bottom) and inside.holds(place.right, place.top)
        if within and not any(crosses(item, place) for item in near):
            return place
    return tries[0]


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


def of_wall(project: Project, wall: Wall) -> str:
    """Title and wall, as they stand in a sheet's head."""
    if not project.title:
        return wall.name
    return say("{title}, {wall}", title=project.title, wall=wall.name)
