"""The obstacles of a wall that can matter to one piece: those near it, found without looking at all of them."""

from collections.abc import Iterator
from typing import NamedTuple

from composer.catalogue.catalogue import Catalogue
from composer.geometry.bands import Bands
from composer.geometry.rectangle import Rectangle
from composer.model import Obstacle
from composer.units import Mm

FAR_MM = 600.0
"""No check looks farther across than this, its margin, or the obstacle's own width beside an obstacle."""

_MOST_WALLS = 64


class Thing(NamedTuple):
    """An obstacle with its place on the wall and what is to be kept free around it, mm."""

    obstacle: Obstacle
    itself: Rectangle
    margin: Mm


class _Sorted(NamedTuple):
    obstacles: tuple[Obstacle, ...]
    catalogue: Catalogue
    things: tuple[Thing, ...]
    bands: Bands


_sorted: dict[int, _Sorted] = {}


def obstacle_rectangle(obstacle: Obstacle) -> Rectangle:
    """The obstacle itself on the wall, mm."""
    return Rectangle.at(obstacle.left, obstacle.bottom, obstacle.width.mm, obstacle.height.mm)


def margin_of(obstacle: Obstacle, catalogue: Catalogue) -> Mm:
    """What to keep free around it, mm: as typed, else the usual margin of its kind."""
    return catalogue.margin_mm(obstacle.kind) if obstacle.margin is None else obstacle.margin.mm


def things_near(obstacles: tuple[Obstacle, ...], place: Rectangle, catalogue: Catalogue) -> Iterator[Thing]:
    """Those of a wall's obstacles that stand near enough to the left or right of a piece, in their order.

    How the obstacles are sorted is kept for as long as the very same ones are asked about.
    """
    kept = _sorted.get(id(obstacles))
    if kept is None or kept.obstacles is not obstacles or kept.catalogue is not catalogue:
        kept = _sort(obstacles, catalogue)
        if len(_sorted) >= _MOST_WALLS:
            _sorted.clear()
        _sorted[id(obstacles)] = kept
    things = kept.things
    return (things[at] for at in kept.bands.near(place.left, place.right))


def _sort(obstacles: tuple[Obstacle, ...], catalogue: Catalogue) -> _Sorted:
    things = tuple(Thing(one, obstacle_rectangle(one), margin_of(one, catalogue)) for one in obstacles)
    stretches = []
    for _, itself, margin in things:
        reach = max(FAR_MM, margin, itself.width)
        stretches.append((itself.left - reach, itself.right + reach))
    return _Sorted(obstacles, catalogue, things, Bands(stretches, FAR_MM))
