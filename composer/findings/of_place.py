"""Checks of one hung piece against its wall: outline, obstacles, kind of wall."""

import math
from collections.abc import Iterable

from composer.catalogue.catalogue import Catalogue
from composer.findings.things_near import things_near
from composer.geometry.nosing import stair_height_mm
from composer.geometry.outline import contains
from composer.geometry.rectangle import Rectangle
from composer.hanging.holding import STRIPS_NEED_SMOOTH
from composer.hanging.kernel import stands_into_passage
from composer.model import Finding, Level, Piece, Placement, Wall
from composer.units import Mm

NAILLESS = frozenset({"strips", "ledge"})
"""Hangers that need no hole of their own under each piece."""

LEDGES = frozenset({"shelf", "table"})
STANDS_MM = 1.0
"""A piece on a ledge stands on a shelf or a table when its bottom edge is this near to the top of it."""

_TOUCHING_MM = 1e-6


def rectangle_of(piece: Piece, placement: Placement) -> Rectangle:
    """The piece's outside on the wall, mm."""
    width, height = piece.size_mm(turned=placement.turned)
    return Rectangle.at(placement.left, placement.bottom, width, height)


def check_place(piece: Piece, placement: Placement, wall: Wall, catalogue: Catalogue) -> tuple[Finding, ...]:
    """Everything about where one piece hangs that needs no other piece."""
    place = rectangle_of(piece, placement)
    return (
        *_outside(piece, place, wall),
        *_obstacles(piece, placement, place, wall, catalogue),
        *_surface(piece, placement, wall, catalogue),
        *_passage(piece, place, wall),
    )


def _outside(piece: Piece, place: Rectangle, wall: Wall) -> Iterable[Finding]:
    if contains(wall.corners, place):
        return
    yield Finding(
        level="stop",
        code="outside-wall",
        pieces=(piece.number,),
        wall=wall.key,
        values=(("wall", wall.name), ("over_mm", round(_overhang_mm(place, wall), 6))),
    )


def _overhang_mm(place: Rectangle, wall: Wall) -> float:
    """How far the farthest corner of the piece lies outside the outline, mm; 0 when only an edge is cut."""
    corners = wall.corners
    farthest = 0.0
    for x in (place.left, place.right):
        for y in (place.bottom, place.top):
            if not contains(corners, Rectangle(x, y, x, y)):
                ends = zip(corners, (*corners[1:], corners[0]), strict=True)
                farthest = max(farthest, min(_distance(x, y, start, end) for start, end in ends))
    return farthest


def _distance(x: float, y: float, start: tuple[float, float], end: tuple[float, float]) -> float:
    """From a point to a segment."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    along = ((x - start[0]) * dx + (y - start[1]) * dy) / (dx * dx + dy * dy)
    along = min(1.0, max(0.0, along))
    return math.hypot(x - start[0] - along * dx, y - start[1] - along * dy)


def _kind_of_hanger(piece: Piece, placement: Placement) -> str | None:
    hanger = piece.hanger_turned if placement.turned else piece.hanger
    return None if hanger is None else hanger.kind


def _obstacles(
    piece: Piece, placement: Placement, place: Rectangle, wall: Wall, catalogue: Catalogue
) -> Iterable[Finding]:
    stands_on_a_ledge = _kind_of_hanger(piece, placement) == "ledge"
    for obstacle, itself, margin in things_near(wall.obstacles, place, catalogue):
        if not place.meets(itself.grown(margin), least=_TOUCHING_MM):
            continue
        if stands_on_a_ledge and obstacle.kind in LEDGES and abs(place.bottom - itself.top) <= STANDS_MM:
            continue
        across, up = place.overlap(itself)
        covered = across > _TOUCHING_MM and up > _TOUCHING_MM
        stands = catalogue.obstacles[obstacle.kind].stands
        level: Level = "stop" if covered and stands == "opening" else "warn"
        values: tuple[tuple[str, str | int | float], ...] = (
            ("obstacle", obstacle.key),
            ("kind", obstacle.kind),
            ("name", obstacle.name),
            ("stands", stands),
            ("margin_mm", margin),
            ("margin_is", "usual" if obstacle.margin is None else "typed"),
        )
        if covered:
            values = (*values, ("covered", "yes"), ("reach_mm", round(min(across, up), 6)))
        else:
            away = math.hypot(max(0.0, -across), max(0.0, -up))
            values = (*values, ("covered", "no"), ("away_mm", round(away, 6)))
        yield Finding(level=level, code="on-obstacle", pieces=(piece.number,), wall=wall.key, values=values)
        if covered and stands == "device":
            yield Finding(level="warn", code="covers-device", pieces=(piece.number,), wall=wall.key, values=values)


def _surface(piece: Piece, placement: Placement, wall: Wall, catalogue: Catalogue) -> Iterable[Finding]:
    kind = _kind_of_hanger(piece, placement)
    if kind == "strips" and wall.surface in STRIPS_NEED_SMOOTH:
        yield Finding(
            level="warn",
            code="strip-wall",
            pieces=(piece.number,),
            wall=wall.key,
            values=(("surface", wall.surface), ("wall", wall.name)),
        )
    chosen = None if piece.hardware is None else catalogue.fixings.get(piece.hardware.fixing)
    on_a_rail = chosen is not None and chosen.fixing_kind == "rail"
    if wall.no_holes and kind is not None and kind not in NAILLESS and not on_a_rail:
        yield Finding(
            level="warn",
            code="holes-not-allowed",
            pieces=(piece.number,),
            wall=wall.key,
            values=(("hanger", kind), ("wall", wall.name)),
        )


def _passage(piece: Piece, place: Rectangle, wall: Wall) -> Iterable[Finding]:
    depth = piece.frame.depth
    bottom = Mm(place.bottom - stair_height_mm(wall.nosing, place.centre[0]))
    if depth is not None and stands_into_passage(bottom, depth.mm):
        yield Finding(
            level="note",
            code="deep-in-passage",
            pieces=(piece.number,),
            wall=wall.key,
            values=(("depth_mm", depth.mm), ("bottom_mm", bottom)),
        )
