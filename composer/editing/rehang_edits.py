"""What is up: recording it, taking it down, filling holes; and taking what a rehang plan offers.

A record of what hangs is kept for each piece and wall; when a piece comes down the record stays, with
the moment. Holes are recorded apart from pieces and outlive them: in use, open, filled.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import msgspec

from composer.catalogue import catalogue as catalogues
from composer.editing.edits import Edit, EditRefused, PieceLocked, piece_of, tried, what
from composer.editing.placing import Spot, put
from composer.editing.relations import without_broken
from composer.hanging.points import hang
from composer.model import (
    AsHung,
    HoleRecord,
    HungPiece,
    HungStrips,
    Instant,
    Key,
    Picture,
    PictureUse,
    Placement,
    Pos,
    Project,
    position,
)
from composer.rehang.plan import RehangPlan
from composer.texts import say, say_many

SAME_HOLE_MM = 1.0
"""A nail this near to an open hole is in that hole."""

Points = Sequence[tuple[float, float]]


def record_up(
    project: Project, keys: Iterable[Key], when: Instant, measured: Mapping[Key, Points] | None = None
) -> Edit:
    """Pieces hang now as the current arrangement has them, or as measured on the wall.

    Args:
        project: for the sentence.
        keys: pieces that hang.
        when: the moment, UTC.
        measured: where the points of a piece really are, wall mm, in the order of its hanging points;
            its holes are moved along.

    Raises (when run):
        EditRefused: for a piece on the floor.
    """
    meant = tuple(dict.fromkeys(keys))
    found = {} if measured is None else dict(measured)

    def run(current: Project) -> Project:
        as_hung = current.as_hung
        for key in meant:
            piece = piece_of(current, key)
            place = current.placement_by_piece.get(key)
            if place is None:
                raise EditRefused(say("Piece {number} lies on the floor: hang it first.", number=piece.number))
            as_hung = _with_up(_with_down(as_hung, key, when), current, place, when, found.get(key))
        return _with_record(current, as_hung)

    return Edit(say("Record {pieces} as up", pieces=what(project, meant)), lambda current: tried(lambda: run(current)))


def _with_up(as_hung: AsHung, project: Project, place: Placement, when: Instant, measured: Points | None) -> AsHung:
    piece, known = project.piece_by_key[place.piece], catalogues.of(project.catalogue)
    hanging = hang(piece, turned=place.turned, catalogue=known)
    planned = [(place.left + point.x, place.bottom + point.y) for point in hanging.points]
    points = planned if measured is None else list(measured)
    if len(points) != len(planned):
        raise EditRefused(
            say_many(
                "Piece {number} has {count} hanging point.",
                "Piece {number} has {count} hanging points.",
                len(planned),
                number=piece.number,
            )
        )
    offs = [(x - px, y - py) for (x, y), (px, py) in zip(points, planned, strict=True)]
    strips = None
    if hanging.strips is not None:
        strips = HungStrips(size=hanging.strips.size, pairs=hanging.strips.pairs, reached="hung", pressed=when)
    record = HungPiece(
        piece=piece.key,
        wall=place.wall,
        when=when,
        points=tuple((position(x), position(y)) for x, y in points),
        strips=strips,
    )
    holes = as_hung.holes
    for hole, off in zip(hanging.holes, offs, strict=False):
        holes = _with_hole(
            holes,
            place.wall,
            position(place.left + hole.x + off[0]),
            position(place.bottom + hole.y + off[1]),
            piece.key,
        )
    return msgspec.structs.replace(as_hung, items=(*as_hung.items, record), holes=holes)


def _with_hole(holes: tuple[HoleRecord, ...], wall: Key, x: Pos, y: Pos, piece: Key) -> tuple[HoleRecord, ...]:
    """A nail in the open hole that is there, else in a new one."""
    for place, hole in enumerate(holes):
        near = abs(hole.x - x) <= SAME_HOLE_MM and abs(hole.y - y) <= SAME_HOLE_MM
        if (
            hole.wall == wall
            and near
            and hole.state != "filled"
            and not (hole.state == "in-use" and hole.piece != piece)
        ):
            used = msgspec.structs.replace(hole, state="in-use", piece=piece)
            return (*holes[:place], used, *holes[place + 1 :])
    return (*holes, HoleRecord(wall=wall, x=x, y=y, state="in-use", piece=piece))


def record_down(project: Project, keys: Iterable[Key], when: Instant) -> Edit:
    """Pieces have come down: their records get the moment, their holes stay in the wall, open."""
    meant = tuple(dict.fromkeys(keys))

    def run(current: Project) -> Project:
        as_hung = current.as_hung
        for key in meant:
            as_hung = _with_down(as_hung, key, when)
        return _with_record(current, as_hung)

    return Edit(
        say("Record {pieces} as down", pieces=what(project, meant)), lambda current: tried(lambda: run(current))
    )


def _with_down(as_hung: AsHung, key: Key, when: Instant) -> AsHung:
    if not any(item.piece == key and item.down is None for item in as_hung.items):
        return as_hung
    items = tuple(
        msgspec.structs.replace(item, down=when) if item.piece == key and item.down is None else item
        for item in as_hung.items
    )
    holes = tuple(
        msgspec.structs.replace(hole, state="open") if hole.piece == key and hole.state == "in-use" else hole
        for hole in as_hung.holes
    )
    return AsHung(items=items, holes=holes)


def _with_record(project: Project, as_hung: AsHung) -> Project:
    return project if as_hung == project.as_hung else msgspec.structs.replace(project, as_hung=as_hung)


def set_holes(indices: Iterable[int], state: str) -> Edit:
    """Holes, by their place among the project's records, filled or open again.

    Raises (when run):
        EditRefused: for a hole a piece hangs on, and one that is not there.
    """
    meant = frozenset(indices)

    def run(current: Project) -> Project:
        holes = list(current.as_hung.holes)
        for index in meant:
            if not 0 <= index < len(holes):
                raise EditRefused(say("The hole is no longer there."))
            if holes[index].state == "in-use":
                raise EditRefused(say("A piece hangs on that hole: take it down first."))
            holes[index] = msgspec.structs.replace(holes[index], state="filled" if state == "filled" else "open")
        return _with_record(current, msgspec.structs.replace(current.as_hung, holes=tuple(holes)))

    text = (
        say_many("Fill {count} hole", "Fill {count} holes", len(meant))
        if state == "filled"
        else say_many("Reopen {count} hole", "Reopen {count} holes", len(meant))
    )
    return Edit(text, run)


def add_hole(wall: Key, x: float, y: float) -> Edit:
    """A hole that is in the wall already, at wall mm; whoever made it."""

    def run(current: Project) -> Project:
        if wall not in current.wall_by_key:
            raise EditRefused(say("The wall is no longer there."))
        made = HoleRecord(wall=wall, x=position(x), y=position(y), state="open")
        return _with_record(current, msgspec.structs.replace(current.as_hung, holes=(*current.as_hung.holes, made)))

    return Edit(say("Note a hole in the wall"), lambda current: tried(lambda: run(current)))


def carry_out(plan: RehangPlan, when: Instant) -> Edit:
    """The plan has been done: what came down is down, what went up is up, what was to be filled is filled.

    The arrangement that was planned must be the current one, with the plan's places taken.
    """

    def run(current: Project) -> Project:
        as_hung = current.as_hung
        touched = [change for change in plan.changes if change.action != "stay"]
        for change in touched:
            as_hung = _with_down(as_hung, change.piece.key, when)
        for change in touched:
            if change.then is None:
                continue
            place = Placement(
                piece=change.piece.key,
                wall=plan.wall.key,
                left=position(change.then.left),
                bottom=position(change.then.bottom),
                turned=change.turned,
            )
            as_hung = _with_up(as_hung, current, place, when, None)
        filled = {one.hole.index for one in plan.fill}
        holes = tuple(
            msgspec.structs.replace(hole, state="filled") if index in filled and hole.state == "open" else hole
            for index, hole in enumerate(as_hung.holes)
        )
        return _with_record(current, msgspec.structs.replace(as_hung, holes=holes))

    return Edit(say("Record the rehang as done"), lambda current: tried(lambda: run(current)))


def take_places(project: Project, arrangement: Key, plan: RehangPlan) -> Edit:
    """The arrangement's pieces go where the plan has them, so that templates show the old holes.

    Raises (when run):
        PieceLocked: a locked piece would move.
    """
    places = {
        change.piece.key: (change.then.left, change.then.bottom) for change in plan.changes if change.then is not None
    }
    shifted = any(plan.moved_all)

    def moved(current: Project, place: Placement) -> Placement:
        if place.piece not in places or place.wall != plan.wall.key:
            return place
        left, bottom = (position(mm) for mm in places[place.piece])
        if (left, bottom) == (place.left, place.bottom):
            return place
        if place.locked:
            number = current.piece_by_key[place.piece].number
            raise PieceLocked(say("Piece {number} is locked and stays where it is. Unlock it first.", number=number))
        return msgspec.structs.replace(place, left=left, bottom=bottom)

    def run(current: Project) -> Project:
        old = current.arrangement_by_key.get(arrangement)
        if old is None:
            raise EditRefused(say("The arrangement is no longer there."))
        placements = tuple(moved(current, place) for place in old.placements)
        if placements == old.placements:
            return current
        made = msgspec.structs.replace(old, placements=placements)
        arrangements = tuple(made if other is old else other for other in current.arrangements)
        return without_broken(msgspec.structs.replace(current, arrangements=arrangements))

    text = say("Shift the arrangement onto old holes") if shifted else say("Put pieces onto old holes")
    return Edit(text, lambda current: tried(lambda: run(current)))


def swap_picture(project: Project, key: Key, use: int) -> Edit:
    """Another of the pictures the frame may show; the frame, its place and its holes stay as they are."""

    def run(current: Project) -> Project:
        piece = piece_of(current, key)
        made = tried(lambda: msgspec.structs.replace(piece, current_use=use, stage=_without_print(piece.stage)))
        if made == piece or use == piece.current_use:
            return current
        return _with_piece(current, key, made)

    return Edit(say("Swap the picture of {pieces}", pieces=what(project, (key,))), run)


def _without_print(stage: str | None) -> str | None:
    """A frame whose picture changes waits for a print again."""
    return None if stage in ("print-ordered", "print-here", "framed", "ready") else stage


def new_picture(project: Project, key: Key, path: str, label: str = "") -> Edit:
    """A picture file the frame shows from now on; the earlier ones stay with it."""

    def run(current: Project) -> Project:
        piece = piece_of(current, key)
        known = next((picture for picture in current.pictures if picture.path == path), None)
        pictures, next_key = current.pictures, current.next_key
        if known is None:
            known = Picture(key=f"i{next_key}", path=path)
            pictures, next_key = (*pictures, known), next_key + 1
        made = msgspec.structs.replace(
            piece,
            uses=(*piece.uses, PictureUse(picture=known.key, label=label)),
            current_use=len(piece.uses),
            stage=_without_print(piece.stage),
        )
        return msgspec.structs.replace(
            current,
            pictures=pictures,
            next_key=next_key,
            pieces=tuple(made if other.key == key else other for other in current.pieces),
        )

    return Edit(
        say("Swap the picture of {pieces}", pieces=what(project, (key,))), lambda current: tried(lambda: run(current))
    )


def _with_piece(project: Project, key: Key, made: object) -> Project:
    pieces = tuple(made if other.key == key else other for other in project.pieces)
    return msgspec.structs.replace(project, pieces=pieces)


def hang_at(project: Project, key: Key, wall: Key, left: float, bottom: float, *, turned: bool = False) -> Edit:
    """A piece from the floor into a place found for it."""
    return put(project, {key: Spot(wall, left, bottom, turned)})
