"""Where cables may run unseen in a wall, by what is known from outside.

In the United Kingdom BS 7671, regulation 522.6.202, lets cables less than 50 mm deep run only within
150 mm of the top of the wall, within 150 mm of an angle between two walls, and straight up, down or
sideways from an accessory. Elsewhere accessories are still fed along one of their two lines as a
rule, so those are shown in every region. No zone says that there is no cable outside it.
"""

from collections.abc import Iterable
from typing import Literal, NamedTuple

from composer.geometry.rectangle import Rectangle
from composer.model.wall import Wall
from composer.units import Mm

ZONE_MM = Mm(150.0)
"""Width of the zones along the top and along corners (BS 7671, regulation 522.6.202)."""

BESIDE_MM = Mm(50.0)
"""What a zone reaches beyond an accessory's plate on each side (judgement)."""

ACCESSORIES = frozenset({"switch", "socket", "thermostat"})
"""Things on a wall that a cable leads to."""

ZoneKind = Literal["top", "corner", "column", "row"]


class CableZone(NamedTuple):
    """A part of the wall where a cable may run.

    Attributes:
        kind: along the top, along a corner, above and below an accessory, or beside one.
        corners: its outline on the wall, mm, anticlockwise; a parallelogram under a sloping top, else a rectangle.
        obstacle: key of the accessory, or empty.
    """

    kind: ZoneKind
    corners: tuple[tuple[float, float], ...]
    obstacle: str = ""

    @property
    def area(self) -> Rectangle:
        """The rectangle around it, mm."""
        xs, ys = [x for x, _ in self.corners], [y for _, y in self.corners]
        return Rectangle(min(xs), min(ys), max(xs), max(ys))


def _upright(kind: ZoneKind, area: Rectangle, obstacle: str = "") -> CableZone:
    left, bottom, right, top = area
    return CableZone(kind, ((left, bottom), (right, bottom), (right, top), (left, top)), obstacle)


def cable_zones(wall: Wall, region: str) -> tuple[CableZone, ...]:
    """The zones of one wall, to be drawn; ``region`` is the project's (``uk`` adds top and corners)."""
    return tuple(_zones(wall, region))


def zones_at(wall: Wall, region: str, x: float, y: float) -> tuple[CableZone, ...]:
    """The zones a hole at that point of the wall, mm, lies in."""
    found = [zone for zone in _zones(wall, region) if zone.kind != "top" and _strictly_within(zone.area, x, y)]
    if region == "uk":
        top = top_at(wall.corners, x)
        if top is not None and y > top - ZONE_MM:
            found += [
                zone for zone in _zones(wall, region) if zone.kind == "top" and zone.area.left <= x <= zone.area.right
            ][:1]
    return tuple(found)


def top_at(corners: tuple[tuple[float, float], ...], x: float) -> float | None:
    """How high the wall is straight above ``x``, mm; None beside it."""
    heights = []
    for (x1, y1), (x2, y2) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if min(x1, x2) <= x <= max(x1, x2):
            heights += [y1, y2] if x1 == x2 else [y1 + (y2 - y1) * (x - x1) / (x2 - x1)]
    return max(heights, default=None)


def _strictly_within(area: Rectangle, x: float, y: float) -> bool:
    return area.left < x < area.right and area.bottom < y < area.top


def _zones(wall: Wall, region: str) -> Iterable[CableZone]:
    width, height = float(wall.width.mm), float(wall.height.mm)
    if region == "uk":
        for (x1, y1), (x2, y2) in _upper_edges(wall):
            yield CableZone("top", ((x1, y1 - ZONE_MM), (x2, y2 - ZONE_MM), (x2, y2), (x1, y1)))
        if wall.left_end == "corner":
            yield _upright("corner", Rectangle(0.0, 0.0, ZONE_MM, height))
        if wall.right_end == "corner":
            yield _upright("corner", Rectangle(width - ZONE_MM, 0.0, width, height))
    for obstacle in wall.obstacles:
        if obstacle.kind not in ACCESSORIES:
            continue
        left, right = obstacle.left - BESIDE_MM, obstacle.left + obstacle.width.mm + BESIDE_MM
        bottom, top = obstacle.bottom - BESIDE_MM, obstacle.bottom + obstacle.height.mm + BESIDE_MM
        yield _upright("column", Rectangle(left, 0.0, right, height), obstacle.key)
        yield _upright("row", Rectangle(0.0, bottom, width, top), obstacle.key)


def _upper_edges(wall: Wall) -> Iterable[tuple[tuple[float, float], tuple[float, float]]]:
    """The wall's upper edges, each from left to right."""
    corners = wall.corners
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        # Anticlockwise: the upper edge runs from right to left.
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        highest = top_at(corners, middle[0])
        if start[0] > end[0] and highest is not None and abs(highest - middle[1]) < 1e-6:
            yield end, start
