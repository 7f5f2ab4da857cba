"""Edits that take over what arranging found: adopt a sketch, true up, mend a near miss, change the gap and stay.

All change the current arrangement only, in one step of undo, and store why the pieces are where they are.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

import msgspec

from composer.arranging.from_project import furniture_of, hung_of, room_of
from composer.arranging.intent import relations_of, solved_again
from composer.arranging.measures import EXACT_MM, NearMiss, facing_pairs
from composer.arranging.patterns import pattern_name
from composer.arranging.room import Room, shift_is_free
from composer.arranging.settling import CENTRED_MM, Found
from composer.arranging.task import ABOVE_LEAST_MM, ABOVE_MOST_MM, Task, box_around
from composer.arranging.true_up import CannotTrueUp, TruedUp, true_up
from composer.editing.edits import Edit, EditRefused, MergeKey
from composer.editing.placing import Spot, put, swap, with_current
from composer.editing.relations import holds, places_of
from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Ground, Key, MadeBy, Project, Relation
from composer.texts import say


def adopt(project: Project, wall: Key, task: Task, found: Found) -> Edit:
    """A finished arrangement onto the wall; its relations and how it was made are stored with it.

    Raises (when run):
        EditRefused: when a piece or the wall is gone, or a size has changed since.
    """
    by_number = {piece.number: piece.key for piece in project.pieces}
    numbers = [size.number for size in task.sizes]
    spots = {
        by_number[number]: Spot(wall, box.left, box.bottom)
        for number, box in zip(numbers, found.layout, strict=True)
        if number in by_number
    }

    def run(current: Project) -> Project:
        after = put(current, spots).run(current)
        for size in task.sizes:
            piece = after.piece_by_number.get(size.number)
            placed = None if piece is None else after.placement_by_piece.get(piece.key)
            if piece is None or placed is None or piece.size_mm(turned=placed.turned) != (size.width, size.height):
                raise EditRefused(say("The pieces have changed since; look for arrangements again."))
        made_by = MadeBy(pattern=found.pattern, seed=found.seed, steps=found.steps)
        return with_intent(after, wall, made_by=made_by)

    return Edit(say("Arrange as: {pattern}", pattern=pattern_name(found.pattern)), run)


def with_intent(project: Project, wall: Key, *, made_by: MadeBy | None = None) -> Project:
    """The project with the relations of one wall's pieces stored anew, those of other walls as they were."""
    arrangement = project.arrangement
    places = _on_wall(project, wall)
    kept = tuple(one for one in arrangement.relations if not _about(one, places))
    record = project.wall_by_key[wall]
    found = relations_of(
        places,
        float(arrangement.gap.mm),
        eye_line=float(project.eye_line(record).mm),
        middle=float(record.width.mm) / 2,
    )
    everybody = places_of(project, arrangement)
    true = tuple(one for one in found if holds(one, project, arrangement, everybody))

    def change(current: Arrangement) -> Arrangement:
        return msgspec.structs.replace(
            current, relations=(*kept, *true), made_by=current.made_by if made_by is None else made_by
        )

    return with_current(project, change)


def _about(relation: Relation, places: Mapping[Key, Rectangle]) -> bool:
    return relation.piece in places if isinstance(relation, Ground) else relation.first in places


def _on_wall(project: Project, wall: Key) -> dict[Key, Rectangle]:
    everybody = places_of(project, project.arrangement)
    ordered = sorted(everybody, key=lambda key: project.piece_by_key[key].number)
    return {key: everybody[key][1] for key in ordered if everybody[key][0] == wall}


def truing_up(project: Project, wall: Key, *, strength: float = 0.5, only: Collection[Key] | None = None) -> TruedUp:
    """What truing up would do to one wall, to be shown before anybody accepts it.

    Raises:
        EditRefused: when it cannot be done within 60 mm and with what is locked.
    """
    record = project.wall_by_key[wall]
    numbers = None if only is None else [project.piece_by_key[key].number for key in only]
    try:
        return true_up(
            hung_of(project, wall),
            room_of(project, record),
            float(project.arrangement.gap.mm),
            strength=strength,
            only=numbers,
        )
    except CannotTrueUp as stuck:
        raise EditRefused(_no_room(stuck.numbers)) from None


def _no_room(numbers: Sequence[int]) -> str:
    return say(
        "Around {pieces} there is no room to make the gaps: locked pieces stay, no piece is moved by over 60 mm. "
        "Move or unlock one of them first.",
        pieces=", ".join(f"#{number}" for number in numbers),
    )


def accept_true_up(project: Project, wall: Key, answer: TruedUp) -> Edit:
    """The moves that truing up has shown."""
    by_number = {piece.number: piece.key for piece in project.pieces}
    after = {one.number: box for one, box in zip(hung_of(project, wall), answer.boxes, strict=True)}
    spots = {
        by_number[move.number]: Spot(wall, after[move.number].left, after[move.number].bottom) for move in answer.moves
    }

    def run(current: Project) -> Project:
        if not spots:
            return current
        return with_intent(put(current, spots).run(current), wall)

    return Edit(say("True up"), run)


def keeping(edit: Edit, text: str | None = None, merge: MergeKey | None = None) -> Edit:
    """An edit of the gap, of sizes or of who hangs where, after which every wall's relations are solved anew.

    Raises (when run):
        EditRefused: what the edit itself refuses, or when there is no room for the same arrangement.
    """

    def run(current: Project) -> Project:
        relations = _intended(current)
        after = edit.run(current)
        if after is current or not relations:
            return after
        if after.current_arrangement != current.current_arrangement:
            return after
        for wall in after.walls:
            after = _solved(current, after, wall.key, relations)
        return after

    return Edit(edit.text if text is None else text, run, edit.merge if merge is None else merge)


def _intended(project: Project) -> tuple[Relation, ...]:
    """Stored relations first, then those that hold besides: a wall laid out by hand has gaps and lines too."""
    full = project
    for wall in project.walls:
        full = with_intent(full, wall.key)
    return (*project.arrangement.relations, *full.arrangement.relations)


def swap_keeping(project: Project, one: Key, other: Key) -> Edit:
    """Two pieces change places and the arrangement is solved anew for their sizes."""
    exchanged = {one: other, other: one}
    inner = swap(project, one, other)

    def run(current: Project) -> Project:
        relations = tuple(_renamed(relation, exchanged) for relation in _intended(current))
        after = inner.run(current)
        if after is current:
            return after
        for wall in after.walls:
            after = _solved(after, after, wall.key, relations)
        return after

    return Edit(inner.text, run)


def _renamed(relation: Relation, names: Mapping[Key, Key]) -> Relation:
    if isinstance(relation, Ground):
        return msgspec.structs.replace(relation, piece=names.get(relation.piece, relation.piece))
    return msgspec.structs.replace(
        relation,
        first=names.get(relation.first, relation.first),
        second=names.get(relation.second, relation.second),
    )


def _solved(before: Project, after: Project, wall: Key, relations: Sequence[Relation]) -> Project:
    """``after`` with one wall's relations solved for its sizes and gap, the group's middle where it was."""
    places = _on_wall(after, wall)
    if not any(_about(relation, places) for relation in relations):
        return after
    old = {key: box for key, box in _on_wall(before, wall).items() if key in places}
    start = {key: old.get(key, places[key]) for key in places}
    sizes = {key: (box.width, box.height) for key, box in places.items()}
    up = after.up()
    fixed = frozenset(key for key in places if after.placement_by_piece[key].locked or key in up)
    record = after.wall_by_key[wall]
    room = room_of(after, record)
    gap = float(after.arrangement.gap.mm)
    try:
        found = solved_again(start, sizes, relations, gap, room, fixed=fixed)
    except CannotTrueUp as stuck:
        numbers = sorted(after.piece_by_key[list(places)[index]].number for index in stuck.numbers)
        raise EditRefused(_no_room(numbers)) from None
    if not fixed:
        lifted = _lifted(before, after, wall, start, relations)
        found = _back_in_place(start, found, furniture_of(record), room, lifted)
    spots = {key: Spot(wall, box.left, box.bottom) for key, box in found.items() if key not in fixed}
    return with_intent(put(after, spots).run(after), wall)


def _lifted(
    before: Project, after: Project, wall: Key, places: Mapping[Key, Rectangle], relations: Sequence[Relation]
) -> float:
    """How far the eye line has moved under a group that hangs by it, mm."""
    if wall not in before.wall_by_key:
        return 0.0
    old, new = (float(one.eye_line(one.wall_by_key[wall]).mm) for one in (before, after))
    held = any(isinstance(one, Ground) and one.to == "eye-line" and one.piece in places for one in relations)
    if held or abs(box_around(places.values()).centre[1] - old) <= CENTRED_MM:
        return new - old
    return 0.0


def _back_in_place(
    before: Mapping[Key, Rectangle],
    after: dict[Key, Rectangle],
    furniture: Rectangle | None,
    room: Room,
    lifted: float,
) -> dict[Key, Rectangle]:
    """The group's middle where it was, lifted with its eye line.

    Over furniture its lower edge stays, when that hung as far above it as is usual.
    """
    old, new = box_around(before.values()), box_around(after.values())
    dx, dy = old.centre[0] - new.centre[0], old.centre[1] - new.centre[1] + lifted
    if furniture is not None and ABOVE_LEAST_MM <= old.bottom - furniture.top <= ABOVE_MOST_MM and not lifted:
        dy = old.bottom - new.bottom
    if not shift_is_free(room, list(after.values()), (), 0.0, dx, dy):
        return after
    return {key: box.moved(dx, dy) for key, box in after.items()}


def shift_group(wall: Key, *, above_mm: float, merge: MergeKey | None = None) -> Edit:
    """All pieces of one wall as one group to ``above_mm`` above the furniture it hangs over.

    Raises (when run):
        EditRefused: without furniture, with a locked piece, or where that is not free.
    """

    def run(current: Project) -> Project:
        record = current.wall_by_key[wall]
        furniture, places = furniture_of(record), _on_wall(current, wall)
        if furniture is None or not places:
            raise EditRefused(say("Nothing hangs over furniture on this wall."))
        dy = furniture.top + above_mm - box_around(places.values()).bottom
        if not shift_is_free(room_of(current, record), list(places.values()), (), 0.0, 0.0, dy):
            raise EditRefused(say("At that height something is in the way."))
        spots = {key: Spot(wall, box.left, box.bottom + dy) for key, box in places.items()}
        return put(current, spots).run(current)

    return Edit(say("Change the height above the furniture"), run, merge)


def mend(wall: Key, first: Key, second: Key, miss: NearMiss) -> Edit:
    """A near miss lined up: the one of the two moves that may and that leaves more gaps exact.

    Raises (when run):
        EditRefused: when both are locked or neither can move there.
    """

    def run(current: Project) -> Project:
        places = _on_wall(current, wall)
        if first not in places or second not in places:
            raise EditRefused(say("One of the two no longer hangs there."))
        room, gap = room_of(current, current.wall_by_key[wall]), float(current.arrangement.gap.mm)
        edge = {("x", "low"): 0, ("x", "high"): 2, ("y", "low"): 1, ("y", "high"): 3}[miss.axis, miss.edge]
        off = places[second][edge] - places[first][edge]
        up = current.up()
        ways: list[tuple[int, int, Key, Rectangle]] = []
        for rank, (key, by) in enumerate(((second, -off), (first, off))):
            if current.placement_by_piece[key].locked or key in up:
                continue
            box = places[key].moved(by, 0) if miss.axis == "x" else places[key].moved(0, by)
            others = [place for other, place in places.items() if other != key]
            if not room.free(*box) or any(box.meets(place) for place in others):
                continue
            boxes = [box if other == key else place for other, place in places.items()]
            exact = sum(1 for pair in facing_pairs(boxes, gap + 1) if abs(pair.gap - gap) <= EXACT_MM)
            ways.append((-exact, rank, key, box))
        if not ways:
            raise EditRefused(say("Neither of the two can move there: locked, or something is in the way."))
        _, _, key, box = min(ways)
        return with_intent(put(current, {key: Spot(wall, box.left, box.bottom)}).run(current), wall)

    return Edit(say("Line up two edges"), run)
