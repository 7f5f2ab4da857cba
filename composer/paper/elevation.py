"""The elevation: the wall with its pieces to a round scale, dimensions, eye line, and what forbids to hang it so."""

import itertools
from collections.abc import Sequence

from composer.catalogue import catalogue as catalogues
from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Project, Wall
from composer.paper.drawing import Drawing
from composer.paper.figures import Figures, figures_of
from composer.paper.furniture import dimension_across, dimension_up, sheet_head
from composer.paper.primitives import CENTRE_DASH, GREY, HAIR_PT, THIN_PT, Page
from composer.paper.sheet_request import SheetRequest
from composer.paper.stops import Stop, draw_stops, listed, stops_of
from composer.paper.wall_drawing import (
    View,
    draw_pieces,
    draw_wall,
    eye_line_of,
    group_of,
    name_small_obstacles,
    of_wall,
)
from composer.texts import say, say_many

ROUND_SCALES = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 250, 300, 400, 500, 1000)
"""Scales a ruler reads without a sum (common practice; no source)."""


def round_scale(width_mm: float, height_mm: float, room: tuple[float, float]) -> float:
    """The largest drawing with a round scale that fits; beyond the list, whole thousands."""
    needed = max(width_mm / max(room[0], 1e-6), height_mm / max(room[1], 1e-6))
    return float(next((scale for scale in ROUND_SCALES if scale >= needed - 1e-9), -(-needed // 1000) * 1000))


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


def _draw_eye_line(drawing: Drawing, wall: Wall, height_mm: float, view: View, figures: Figures) -> None:
    """The line at eye height, its height over the floor or the stair at the left, its name at the right."""
    parts = eye_line_of(wall, height_mm)
    if not parts:
        return
    ends = [(view.x(x), view.y(y)) for part in parts for x, y in part]
    for (x1, y1), (x2, y2) in zip(ends[::2], ends[1::2], strict=True):
        drawing.line(x1, y1, x2, y2, THIN_PT, dash=CENTRE_DASH)
    left, right = view.x(0), view.x(wall.width.mm)
    (first_x, first_y), (last_x, last_y) = ends[0], ends[-1]
    if first_x <= left + 1e-6:
        drawing.line(left - 3, first_y, left, first_y, THIN_PT, dash=CENTRE_DASH)
        drawing.text(
            left - 4, first_y - 1.1, figures.bare(parts[0][0][1]), 9, "semibold", "right", within=_AROUND[0] - 5
        )
    if last_x >= right - 1e-6:
        drawing.line(right, last_y, right + 3, last_y, THIN_PT, dash=CENTRE_DASH)
        drawing.text(right + 4, last_y - 1.1, say("eye line"), 9, "semibold", within=16)


_AROUND = (22.0, 24.0, 40.0, 6.0)
"""What eye line and dimensions take left, below, right and above of the wall, mm."""

_HEAD_MM = 28.0
_STOPS_SHARE = 0.3
"""Stops take no more of the sheet's height than this; the hanging list has them all."""


def build(project: Project, wall: Wall, arrangement: Arrangement, request: SheetRequest) -> list[Page]:
    """One sheet with the whole wall to a round scale, upright or lying, whichever draws it larger.

    Raises:
        SheetTooSmall: the paper has no room for a wall with its dimensions.
    """
    figures = figures_of(project)
    hung = project.hung_on(wall.key, arrangement)
    stops = stops_of(project, arrangement, [piece.number for piece, _ in hung], figures)
    chosen = min(
        (request.turned(landscape=landscape) for landscape in (False, True)), key=lambda way: _scale(wall, way, stops)
    )
    scale = _scale(wall, chosen, stops)
    area = chosen.expect(say("Elevation"), 110, 110)
    drawing = Drawing()
    note = say("{unit} · drawn 1 : {scale}", unit=figures.all_in, scale=f"{scale:.0f}")
    eye = float(project.eye_line(wall).mm)
    rule = sheet_head(
        drawing,
        area,
        say("Elevation"),
        of_wall(project, wall),
        note,
        _below(wall, len(hung), arrangement, eye, figures),
    )
    shown, high = _stops_on(chosen, stops)
    if shown:
        draw_stops(drawing, shown, area.left, rule - 5.0, area.width)
        rule -= high
    width, height = float(wall.width.mm), float(wall.height.mm)
    room = _room(chosen, high)
    left = area.left + _AROUND[0] + (room[0] - width / scale) / 2
    free = rule - _AROUND[3] - area.bottom - _AROUND[1] - height / scale
    view = View(left, area.bottom + _AROUND[1] + max(0.0, free / 2), scale)
    draw_wall(drawing, wall, view)
    _draw_eye_line(drawing, wall, eye, view, figures)
    draw_dimensions(drawing, wall, group_of(hung), view, figures)
    draw_pieces(drawing, hung, view, catalogues.of(project.catalogue))
    name_small_obstacles(drawing, wall, view)
    return [drawing.page(chosen.size, say("Elevation"), (say("Elevation"), wall.name), area)]


def _below(wall: Wall, count: int, arrangement: Arrangement, eye: float, figures: Figures) -> str:
    values = {"gap": figures.bare(arrangement.gap.mm), "eye": figures.bare(eye)}
    if wall.nosing is None:
        return say_many(
            "{count} piece, gap {gap}, eye line {eye} above floor. Left and right as you face the wall.",
            "{count} pieces, gap {gap}, eye line {eye} above floor. Left and right as you face the wall.",
            count,
            **values,
        )
    return say_many(
        "{count} piece, gap {gap}, eye line {eye} above the nosing line. Left and right as you face the wall.",
        "{count} pieces, gap {gap}, eye line {eye} above the nosing line. Left and right as you face the wall.",
        count,
        **values,
    )


def _scale(wall: Wall, request: SheetRequest, stops: Sequence[Stop]) -> float:
    return round_scale(float(wall.width.mm), float(wall.height.mm), _room(request, _stops_on(request, stops)[1]))


def _stops_on(request: SheetRequest, stops: Sequence[Stop]) -> tuple[tuple[Stop, ...], float]:
    """The stops this paper has room for, and how high they are."""
    return listed(stops, request.area.width, request.area.height * _STOPS_SHARE)


def _room(request: SheetRequest, stops_mm: float) -> tuple[float, float]:
    area = request.area
    return area.width - _AROUND[0] - _AROUND[2], area.height - _HEAD_MM - stops_mm - _AROUND[1] - _AROUND[3]
