"""Walls and what stands on or before them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import msgspec

from composer.editing.edits import Edit, EditRefused, MergeKey, tried
from composer.editing.relations import without_broken
from composer.model import Ground, Key, Obstacle, Project, Wall, position
from composer.model.project import USUAL_EYE_LINE
from composer.texts import say, say_many
from composer.units import Length

Point = tuple[float, float]


def wall_of(project: Project, key: Key) -> Wall:
    """The wall with that key.

    Raises:
        EditRefused: when it is gone.
    """
    wall = project.wall_by_key.get(key)
    if wall is None:
        raise EditRefused(say("The wall is no longer there."))
    return wall


def _replace(project: Project, wall: Wall) -> Project:
    walls = tuple(wall if other.key == wall.key else other for other in project.walls)
    return without_broken(tried(lambda: msgspec.structs.replace(project, walls=walls)))


def add_wall(name: str, width: Length, height: Length) -> Edit:
    """One more wall, bare, with the usual eye line of the project's units written down."""

    def run(project: Project) -> Project:
        wall = Wall(
            key=f"w{project.next_key}",
            name=name,
            width=width,
            height=height,
            eye_line=Length.from_text(USUAL_EYE_LINE[project.units]),
        )
        return msgspec.structs.replace(project, walls=(*project.walls, wall), next_key=project.next_key + 1)

    return Edit(say("Add the wall “{name}”", name=name), lambda project: tried(lambda: run(project)))


def change_wall_fields(project: Project, key: Key, merge: MergeKey | None = None, **fields: Any) -> Edit:
    """Some fields of one wall, by their names in :class:`composer.model.Wall`."""
    name = wall_of(project, key).name

    def run(current: Project) -> Project:
        wall = wall_of(current, key)
        made = tried(lambda: msgspec.structs.replace(wall, **fields))
        return current if made == wall else _replace(current, made)

    return Edit(say("Change the wall “{name}”", name=name), run, merge)


def set_outline(project: Project, key: Key, corners: Iterable[Point] | None) -> Edit:
    """The wall's corners in mm, from anywhere and in either direction; None = a plain rectangle.

    They are brought to the usual form: anticlockwise from the lower left, x from 0. Where the box
    around them is not the wall's width and height, these follow.
    """
    name = wall_of(project, key).name
    given = None if corners is None else tuple(corners)

    def run(current: Project) -> Project:
        wall = wall_of(current, key)
        if given is None:
            return _replace(current, tried(lambda: msgspec.structs.replace(wall, outline=None)))
        outline = tried(lambda: _in_usual_form(given))
        fields: dict[str, Any] = {"outline": outline}
        for field, ends in (("width", [x for x, _ in outline]), ("height", [y for _, y in outline])):
            length: Length = getattr(wall, field)
            if ends and abs(max(ends) - length.mm) > 1e-3 and max(ends) > 0:
                fields[field] = Length.of_mm(max(ends))
        return _replace(current, tried(lambda: msgspec.structs.replace(wall, **fields)))

    return Edit(say("Change the outline of the wall “{name}”", name=name), run)


def _in_usual_form(corners: tuple[Point, ...]) -> tuple[Point, ...]:
    if len(corners) < 3:
        return corners
    doubled = sum(
        x * following[1] - following[0] * y
        for (x, y), following in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
    turned = corners if doubled >= 0 else corners[::-1]
    left, low = min(x for x, _ in turned), min(y for _, y in turned)
    shifted = [(position(x - left), position(y - low)) for x, y in turned]
    first = min(range(len(shifted)), key=lambda place: (shifted[place][1], shifted[place][0]))
    return tuple(shifted[first:] + shifted[:first])


def delete_wall(project: Project, key: Key) -> Edit:
    """A wall with all that stands on it; its pieces go to the floor in every arrangement.

    What was recorded as hanging there, and its holes, go with it. The last wall stays.
    """
    name = wall_of(project, key).name

    def run(current: Project) -> Project:
        wall_of(current, key)
        if len(current.walls) == 1:
            raise EditRefused(say("A project has at least one wall."))
        arrangements = tuple(
            msgspec.structs.replace(
                arrangement, placements=tuple(place for place in arrangement.placements if place.wall != key)
            )
            for arrangement in current.arrangements
        )
        as_hung = msgspec.structs.replace(
            current.as_hung,
            items=tuple(item for item in current.as_hung.items if item.wall != key),
            holes=tuple(hole for hole in current.as_hung.holes if hole.wall != key),
        )
        walls = tuple(wall for wall in current.walls if wall.key != key)
        return without_broken(msgspec.structs.replace(current, walls=walls, arrangements=arrangements, as_hung=as_hung))

    return Edit(say("Delete the wall “{name}”", name=name), run)


def add_obstacles(project: Project, wall: Key, obstacles: Iterable[Callable[[Key], Obstacle]]) -> Edit:
    """More obstacles on a wall, each made from the key it is given."""
    makers = tuple(obstacles)

    def run(current: Project) -> Project:
        record = wall_of(current, wall)
        if not makers:
            return current
        made = tuple(make(f"o{current.next_key + place}") for place, make in enumerate(makers))
        changed = msgspec.structs.replace(record, obstacles=(*record.obstacles, *made))
        walls = tuple(changed if other.key == wall else other for other in current.walls)
        return msgspec.structs.replace(current, walls=walls, next_key=current.next_key + len(made))

    wall_of(project, wall)
    text = say_many("Add {count} obstacle", "Add {count} obstacles", len(makers))
    return Edit(text, lambda current: tried(lambda: run(current)))


def change_obstacle(project: Project, key: Key, merge: MergeKey | None = None, **fields: Any) -> Edit:
    """Some fields of one obstacle, by their names in :class:`composer.model.Obstacle`."""

    def change(obstacle: Obstacle) -> Obstacle | None:
        return msgspec.structs.replace(obstacle, **fields)

    return Edit(_named(project, key, "Change"), lambda current: _with_obstacle(current, key, change), merge)


def delete_obstacle(project: Project, key: Key) -> Edit:
    """An obstacle, and the intent that held pieces to it."""

    def run(current: Project) -> Project:
        arrangements = tuple(
            msgspec.structs.replace(
                arrangement,
                relations=tuple(
                    one for one in arrangement.relations if not (isinstance(one, Ground) and one.to == key)
                ),
            )
            for arrangement in current.arrangements
        )
        after = _with_obstacle(current, key, lambda _: None)
        return (
            after if arrangements == current.arrangements else msgspec.structs.replace(after, arrangements=arrangements)
        )

    return Edit(_named(project, key, "Delete"), run)


def _named(project: Project, key: Key, verb: str) -> str:
    found = project.obstacle_by_key.get(key)
    name = "" if found is None else found.name or found.kind
    if verb == "Move":
        return say("Move the obstacle “{name}”", name=name)
    if verb == "Delete":
        return say("Delete the obstacle “{name}”", name=name)
    return say("Change the obstacle “{name}”", name=name)


def _with_obstacle(project: Project, key: Key, change: Callable[[Obstacle], Obstacle | None]) -> Project:
    for wall in project.walls:
        for old in wall.obstacles:
            if old.key == key:
                made = tried(lambda old=old: change(old))  # type: ignore[misc]
                if made == old:
                    return project
                kept = tuple(
                    record
                    for record in (made if other is old else other for other in wall.obstacles)
                    if record is not None
                )
                return _replace(project, msgspec.structs.replace(wall, obstacles=kept))
    raise EditRefused(say("The obstacle is no longer there."))
