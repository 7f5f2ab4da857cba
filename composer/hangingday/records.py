"""The records a day leaves: strips on frames, on the wall, hung; and where pieces really hang, as measured."""

from collections.abc import Callable, Sequence

import msgspec

from composer.catalogue import catalogue as catalogues
from composer.editing.edits import Edit, EditRefused, piece_of, tried, what
from composer.editing.record_edits import put_at
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.model import AsHung, HungPiece, HungStrips, Instant, Key, Placement, Project, position
from composer.paper.template_subject import datum_of
from composer.texts import say

Points = Sequence[tuple[float, float]]


def planned_points(project: Project, key: Key) -> tuple[tuple[float, float], ...]:
    """Where the hanging points of a piece are meant to be, wall mm.

    Raises:
        EditRefused: the piece lies on the floor.
    """
    placement, hanging = _hung(project, key)
    return tuple((placement.left + point.x, placement.bottom + point.y) for point in hanging.points)


def record_stuck(project: Project, key: Key, when: Instant) -> Edit:
    """The strips of a piece stick on its frame."""
    text = say("Note strips on {pieces}", pieces=what(project, (key,)))
    return _strips(text, key, lambda old, fresh: fresh if old is None else old, when)


def record_pressed(project: Project, key: Key, when: Instant) -> Edit:
    """The strips of a piece are pressed on the wall; the last press of all starts the hour."""

    def made(old: HungPiece | None, fresh: HungPiece) -> HungPiece:
        base = old or fresh
        assert base.strips is not None
        strips = msgspec.structs.replace(base.strips, reached="pressed", pressed=when)
        return msgspec.structs.replace(base, when=when, strips=strips)

    return _strips(say("Note strips of {pieces} as pressed", pieces=what(project, (key,))), key, made, when)


def record_hung(project: Project, key: Key, when: Instant) -> Edit:
    """A piece hangs on its strips; when they were pressed stays known, for their full strength."""

    def made(old: HungPiece | None, fresh: HungPiece) -> HungPiece:
        base = old or fresh
        assert base.strips is not None
        strips = msgspec.structs.replace(base.strips, reached="hung", pressed=base.strips.pressed or when)
        return msgspec.structs.replace(base, when=when, strips=strips)

    return _strips(say("Record {pieces} as up", pieces=what(project, (key,))), key, made, when)


def _strips(text: str, key: Key, made: Callable[[HungPiece | None, HungPiece], HungPiece], when: Instant) -> Edit:
    def run(project: Project) -> Project:
        placement, hanging = _hung(project, key)
        if hanging.strips is None:
            number = piece_of(project, key).number
            raise EditRefused(say("Piece {number} does not hang by strips.", number=number))
        fresh = HungPiece(
            piece=key,
            wall=placement.wall,
            when=when,
            points=tuple((position(x), position(y)) for x, y in planned_points(project, key)),
            strips=HungStrips(size=hanging.strips.size, pairs=hanging.strips.pairs, reached="stuck"),
        )
        old = _record(project, key)
        if old is not None and (old.strips is None or old.wall != placement.wall):
            raise EditRefused(
                say(
                    "Piece {number} is recorded as up elsewhere: take it down first.",
                    number=piece_of(project, key).number,
                )
            )
        new = made(old, fresh)
        kept = tuple(item for item in project.as_hung.items if item is not old)
        as_hung = msgspec.structs.replace(project.as_hung, items=(*kept, new))
        return project if new == old else msgspec.structs.replace(project, as_hung=as_hung)

    return Edit(text, lambda project: tried(lambda: run(project)))


def record_measured(project: Project, key: Key, points: Points, when: Instant) -> Edit:
    """Where the points of a piece that is up really are; its holes move along, none is added.

    Raises (when run):
        EditRefused: the piece is not up, or has another number of points.
    """

    def run(current: Project) -> Project:
        old = _record(current, key)
        if old is None:
            raise EditRefused(say("Piece {number} is not up yet.", number=piece_of(current, key).number))
        if len(points) != len(old.points):
            number = piece_of(current, key).number
            raise EditRefused(say("Piece {number} has {count} hanging points.", number=number, count=len(old.points)))
        new = msgspec.structs.replace(old, points=tuple((position(x), position(y)) for x, y in points), when=when)
        offs = [(x - ox, y - oy) for (x, y), (ox, oy) in zip(new.points, old.points, strict=True)]
        items = tuple(new if item is old else item for item in current.as_hung.items)
        return msgspec.structs.replace(current, as_hung=_with_holes_moved(current.as_hung, items, key, offs))

    pieces = what(project, (key,))
    return Edit(say("Note where {pieces} hangs", pieces=pieces), lambda current: tried(lambda: run(current)))


def _with_holes_moved(
    as_hung: AsHung, items: tuple[HungPiece, ...], key: Key, offs: Sequence[tuple[float, float]]
) -> AsHung:
    mine = sorted(
        (index for index, hole in enumerate(as_hung.holes) if hole.piece == key and hole.state == "in-use"),
        key=lambda index: as_hung.holes[index].x,
    )
    holes = list(as_hung.holes)
    for index, (dx, dy) in zip(mine, offs, strict=False):
        hole = holes[index]
        holes[index] = msgspec.structs.replace(hole, x=position(hole.x + dx), y=position(hole.y + dy))
    return AsHung(items=items, holes=tuple(holes))


def points_measured(
    project: Project, key: Key, nails: Sequence[tuple[float | None, float | None]], *, from_level: bool
) -> tuple[tuple[float, float], ...]:
    """Hanging points by what was measured of their nails on the wall; what was not measured is as planned.

    Args:
        project: gives the plan and what distances and heights are taken from.
        key: the piece.
        nails: distance and height of each nail, mm, in the order of the list: distance as the wall's datum takes
            it, height from the level line (up is positive) or above the floor.
        from_level: whether heights are from the level line.

    Raises:
        EditRefused: the piece lies on the floor, or has another number of nails.
    """
    placement, hanging = _hung(project, key)
    if len(nails) != len(hanging.holes):
        number = piece_of(project, key).number
        raise EditRefused(say("Piece {number} has {count} nails.", number=number, count=len(hanging.holes)))
    datum = datum_of(project, project.wall_by_key[placement.wall])
    found = []
    for (distance, height), point, hole in zip(nails, hanging.points, hanging.holes, strict=True):
        x = placement.left + point.x
        if distance is not None:
            x = datum.side_x - distance if datum.side == "right" else datum.side_x + distance
        y = placement.bottom + point.y
        if height is not None:
            y = (height + datum.level_line if from_level else height) - (hole.y - point.y)
        found.append((x, y))
    return tuple(found)


def follow_the_wall(project: Project, key: Key) -> Edit:
    """The plan takes the place where the piece really hangs, so that neighbours are set by what is up.

    Raises (when run):
        EditRefused: the piece is not up. PieceLocked: it is locked.
    """
    old = _record(project, key)
    planned = planned_points(project, key)
    if old is None or not planned or len(old.points) != len(planned):
        raise EditRefused(say("Piece {number} is not up yet.", number=piece_of(project, key).number))
    count = len(planned)
    dx = sum(x - px for (x, _), (px, _) in zip(old.points, planned, strict=True)) / count
    dy = sum(y - py for (_, y), (_, py) in zip(old.points, planned, strict=True)) / count
    placement = project.placement_by_piece[key]
    text = say("Plan {pieces} where it hangs", pieces=what(project, (key,)))
    return put_at(text, {key: (placement.left + dx, placement.bottom + dy)})


def _record(project: Project, key: Key) -> HungPiece | None:
    return next((item for item in project.as_hung.items if item.piece == key and item.down is None), None)


def _hung(project: Project, key: Key) -> tuple[Placement, PieceHanging]:
    piece = piece_of(project, key)
    placement = project.placement_by_piece.get(key)
    if placement is None:
        raise EditRefused(say("Piece {number} lies on the floor: hang it first.", number=piece.number))
    known = catalogues.of(project.catalogue)
    return placement, hang(piece, turned=placement.turned, catalogue=known)
