"""The edits a hand makes in the room: pieces put on the wall, moved there, or laid on the floor; obstacles."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from composer.editing.edits import Edit, EditRefused, MergeKey, tried, what
from composer.editing.relations import without_broken
from composer.geometry.rectangle import Rectangle
from composer.model import Key, Obstacle, Placement, Project, position
from composer.texts import say, say_many
from composer.units import Length, LengthStyle

Spot = tuple[float, float] | None
"""Lower left corner on the wall, mm; None = on the floor."""


def put_pieces(
    project: Project,
    wall: Key,
    spots: Mapping[Key, Spot],
    *,
    floor_order: Sequence[Key] | None = None,
    merge: MergeKey | None = None,
) -> Edit:
    """Puts each piece where it shall be; a locked piece that would move is refused.

    Args:
        project: as it is now, for the words of undo.
        wall: where the ones with a place hang.
        spots: by piece.
        floor_order: the floor from left to right afterwards; None = as it was.
        merge: with which steps it undoes as one.
    """

    def run(now: Project) -> Project:
        return tried(lambda: _put(now, wall, spots, floor_order))

    return Edit(_words(project, spots), run, merge)


def _words(project: Project, spots: Mapping[Key, Spot]) -> str:
    named = what(project, spots)
    hung = project.placement_by_piece
    if all(spot is None for spot in spots.values()):
        return say("Take down {pieces}", pieces=named)
    if not any(key in hung for key in spots):
        return say("Hang {pieces}", pieces=named)
    return say("Move {pieces}", pieces=named)


def _put(project: Project, wall: Key, spots: Mapping[Key, Spot], floor_order: Sequence[Key] | None) -> Project:
    arrangement = project.arrangement
    placements: list[Placement] = []
    rest = dict(spots)
    for placement in arrangement.placements:
        if placement.piece not in rest:
            placements.append(placement)
            continue
        spot = rest.pop(placement.piece)
        if spot is None:
            if placement.locked:
                raise EditRefused(say("A locked piece stays where it is. Unlock it first."))
            continue
        left, bottom = position(spot[0]), position(spot[1])
        if (left, bottom, wall) == (placement.left, placement.bottom, placement.wall):
            placements.append(placement)
            continue
        if placement.locked:
            raise EditRefused(say("A locked piece stays where it is. Unlock it first."))
        placements.append(msgspec.structs.replace(placement, wall=wall, left=left, bottom=bottom))
    for key, spot in rest.items():
        if spot is not None and key in project.piece_by_key:
            placements.append(Placement(piece=key, wall=wall, left=position(spot[0]), bottom=position(spot[1])))
    hung = {placement.piece for placement in placements}
    order = arrangement.floor_order if floor_order is None else tuple(floor_order)
    order = tuple(key for key in order if key not in hung)
    still = _same(placements, arrangement.placements)
    if still and order == arrangement.floor_order:
        return project
    kept = arrangement.placements if still else tuple(placements)
    changed = msgspec.structs.replace(arrangement, placements=kept, floor_order=order)
    arrangements = tuple(changed if other.key == changed.key else other for other in project.arrangements)
    return without_broken(msgspec.structs.replace(project, arrangements=arrangements))


def _same(placements: Sequence[Placement], before: Sequence[Placement]) -> bool:
    return len(placements) == len(before) and all(one is other for one, other in zip(placements, before, strict=True))


def put_obstacles(
    project: Project, boxes: Mapping[Key, Rectangle], style: LengthStyle, merge: MergeKey | None = None
) -> Edit:
    """Obstacles moved or sized by hand, mm; a side that keeps its size keeps its figure as it was typed."""

    def run(now: Project) -> Project:
        return tried(lambda: _put_obstacles(now, boxes, style))

    names = [record.name or record.kind for key in boxes if (record := project.obstacle_by_key.get(key)) is not None]
    if len(names) == 1:
        return Edit(say("Move the obstacle “{name}”", name=names[0]), run, merge)
    return Edit(say_many("Move {count} obstacle", "Move {count} obstacles", len(names)), run, merge)


def _put_obstacles(project: Project, boxes: Mapping[Key, Rectangle], style: LengthStyle) -> Project:
    def put(obstacle: Obstacle) -> Obstacle:
        box = boxes.get(obstacle.key)
        if box is None:
            return obstacle
        fields: dict[str, object] = {}
        for name, size in (("width", box.width), ("height", box.height)):
            if abs(getattr(obstacle, name).mm - size) > 1e-3:
                fields[name] = Length.of_mm(round(size, 3), style.unit)
        for name, at in (("left", box.left), ("bottom", box.bottom)):
            if position(at) != getattr(obstacle, name):
                fields[name] = position(at)
        return msgspec.structs.replace(obstacle, **fields) if fields else obstacle

    walls = []
    for wall in project.walls:
        made = tuple(put(obstacle) for obstacle in wall.obstacles)
        same = all(one is other for one, other in zip(made, wall.obstacles, strict=True))
        walls.append(wall if same else msgspec.structs.replace(wall, obstacles=made))
    if all(one is other for one, other in zip(walls, project.walls, strict=True)):
        return project
    return without_broken(msgspec.structs.replace(project, walls=tuple(walls)))
