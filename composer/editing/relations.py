"""Stored intent and the positions it must agree with.

Positions are the truth. A relation ("one gap after", "level with") says why they are so; as soon as
an edit leaves it untrue by more than a hundredth of a millimetre it is dropped.
"""

from __future__ import annotations

import msgspec

from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Ground, Key, LevelWith, Project, Relation, SpacedFrom

HOLDS_MM = 0.01
"""Finer than a pencil line by fifty times, coarser than the rounding of any sum of positions."""


def without_broken(project: Project) -> Project:
    """The project with only those relations that its positions bear out."""
    if not any(arrangement.relations for arrangement in project.arrangements):
        return project
    kept = tuple(_checked(project, arrangement) for arrangement in project.arrangements)
    if all(new is old for new, old in zip(kept, project.arrangements, strict=True)):
        return project
    return msgspec.structs.replace(project, arrangements=kept)


def _checked(project: Project, arrangement: Arrangement) -> Arrangement:
    places = places_of(project, arrangement)
    kept = tuple(relation for relation in arrangement.relations if holds(relation, project, arrangement, places))
    return (
        arrangement if len(kept) == len(arrangement.relations) else msgspec.structs.replace(arrangement, relations=kept)
    )


def places_of(project: Project, arrangement: Arrangement) -> dict[Key, tuple[Key, Rectangle]]:
    """Wall and rectangle of every hung piece, by its key."""
    found = {}
    for placement in arrangement.placements:
        size = project.piece_by_key[placement.piece].size_mm(turned=placement.turned)
        found[placement.piece] = (placement.wall, Rectangle.at(placement.left, placement.bottom, *size))
    return found


def holds(
    relation: Relation, project: Project, arrangement: Arrangement, places: dict[Key, tuple[Key, Rectangle]]
) -> bool:
    """Whether the positions bear a relation out within 0.01 mm."""
    if isinstance(relation, Ground):
        return relation.piece in places and _grounded(relation, project, *places[relation.piece])
    if relation.first not in places or relation.second not in places:
        return False
    (wall, one), (other_wall, other) = places[relation.first], places[relation.second]
    if wall != other_wall:
        return False
    if isinstance(relation, SpacedFrom):
        between = _at(other, relation.axis, "low") - _at(one, relation.axis, "high")
        return abs(between - arrangement.gap.mm) <= HOLDS_MM
    assert isinstance(relation, LevelWith)
    return abs(_at(one, relation.axis, relation.edge) - _at(other, relation.axis, relation.edge)) <= HOLDS_MM


def _grounded(relation: Ground, project: Project, wall_key: Key, place: Rectangle) -> bool:
    wall = project.wall_by_key[wall_key]
    sides = (0.0, float(wall.width.mm if relation.axis == "x" else wall.height.mm))
    if relation.to == "wall-middle":
        targets: tuple[float, ...] = (sum(sides) / 2,)
    elif relation.to == "eye-line":
        targets = (float(project.eye_line(wall).mm),) if relation.axis == "y" else ()
    elif relation.to == "wall-edge":
        targets = sides
    else:
        thing = next((obstacle for obstacle in wall.obstacles if obstacle.key == relation.to), None)
        if thing is None:
            return False
        its = Rectangle.at(thing.left, thing.bottom, thing.width.mm, thing.height.mm)
        targets = tuple(_at(its, relation.axis, edge) for edge in ("low", "centre", "high"))
    stands = _at(place, relation.axis, relation.edge)
    return any(abs(stands - target) <= HOLDS_MM for target in targets)


def _at(place: Rectangle, axis: str, edge: str) -> float:
    low, high = (place.left, place.right) if axis == "x" else (place.bottom, place.top)
    return {"low": low, "centre": (low + high) / 2, "high": high}[edge]
