"""Where pieces go: hang, lay down, move, turn, lock, swap, line up, space out.

All of these change the current arrangement only. Coordinates are wall millimetres, y up; a place is
the lower left corner of the piece as hung. A piece that is locked stays: an edit that would move it
is refused, one that puts it where it is already changes nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Literal, NamedTuple

import msgspec

from composer.editing.edits import Edit, EditRefused, MergeKey, PieceLocked, piece_of, tried, what
from composer.editing.relations import places_of, without_broken
from composer.editing.spacing import Ends, Span, around_anchor, by_centres, by_gaps
from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Key, Placement, Project, position
from composer.texts import say

Axis = Literal["x", "y"]
Line = Literal["left", "centre", "right", "top", "middle", "bottom"]
"""What pieces are lined up by: left, centre, right across; top, middle, bottom up and down."""


class Spot(NamedTuple):
    """A place on a wall, mm; ``turned`` None = as the piece is."""

    wall: Key
    left: float
    bottom: float
    turned: bool | None = None


Spots = Mapping[Key, Spot | None]
"""Where each piece goes; None = onto the floor."""


def put(project: Project, spots: Spots, text: str | None = None, merge: MergeKey | None = None) -> Edit:
    """Pieces to places on walls or onto the floor, in one step.

    Raises (when run):
        PieceLocked: a locked piece would move.
        EditRefused: a piece or wall is gone, or a place lies beyond 100 m.
    """
    wanted = dict(spots)
    title = text or _text_for(project, wanted)
    return Edit(title, lambda current: _put(current, wanted), merge)


def _text_for(project: Project, spots: Spots) -> str:
    names = what(project, spots)
    if all(spot is None for spot in spots.values()):
        return say("Take {pieces} down", pieces=names)
    if not any(key in project.placement_by_piece for key in spots):
        return say("Hang {pieces}", pieces=names)
    return say("Move {pieces}", pieces=names)


def _put(project: Project, spots: Spots) -> Project:
    old = {placement.piece: placement for placement in project.arrangement.placements}
    new = dict(old)
    for key, spot in spots.items():
        piece = piece_of(project, key)
        before = old.get(key)
        if spot is None:
            new.pop(key, None)
        else:
            if spot.wall not in project.wall_by_key:
                raise EditRefused(say("The wall is no longer there."))
            new[key] = _placement(key, spot, before)
        if before is not None and before.locked and new.get(key) != before:
            raise PieceLocked(
                say(
                    "Piece {number} “{name}” is locked and stays where it is. Unlock it first.",
                    number=piece.number,
                    name=piece.name,
                )
            )
    if new == old:
        return project
    return with_placements(project, new.values())


def _placement(key: Key, spot: Spot, before: Placement | None) -> Placement:
    turned = spot.turned if spot.turned is not None else before is not None and before.turned
    left, bottom = tried(lambda: (position(spot.left), position(spot.bottom)))
    made = Placement(
        piece=key,
        wall=spot.wall,
        left=left,
        bottom=bottom,
        turned=turned,
        locked=before is not None and before.locked,
    )
    return before if made == before and before is not None else made


def with_placements(project: Project, placements: Iterable[Placement]) -> Project:
    """The project with these placements in its current arrangement and only relations that still hold."""
    kept = tuple(placements)
    hung = {placement.piece for placement in kept}

    def change(arrangement: Arrangement) -> Arrangement:
        floor = tuple(key for key in arrangement.floor_order if key not in hung)
        return msgspec.structs.replace(arrangement, placements=kept, floor_order=floor)

    return without_broken(with_current(project, change))


def with_current(project: Project, change: Callable[[Arrangement], Arrangement]) -> Project:
    """The project with its current arrangement made anew by ``change``."""
    current = project.arrangement
    made = tried(lambda: change(current))
    if made == current:
        return project
    arrangements = tuple(made if other is current else other for other in project.arrangements)
    return tried(lambda: msgspec.structs.replace(project, arrangements=arrangements))


def move(project: Project, keys: Iterable[Key], dx: float, dy: float, merge: MergeKey | None = None) -> Edit:
    """Hung pieces by (dx, dy) mm; those on the floor stay there."""
    moving = tuple(dict.fromkeys(keys))

    def run(current: Project) -> Project:
        placed = current.placement_by_piece
        return _put(
            current,
            {
                key: Spot(placed[key].wall, placed[key].left + dx, placed[key].bottom + dy)
                for key in moving
                if key in placed
            },
        )

    return Edit(say("Move {pieces}", pieces=what(project, moving)), run, merge)


def take_down(project: Project, keys: Iterable[Key], before: Key | None = None) -> Edit:
    """Pieces onto the floor, in the order given, left of the floor piece ``before`` or at the right end."""
    moving = tuple(dict.fromkeys(keys))

    def run(current: Project) -> Project:
        after = _put(current, dict.fromkeys(moving))
        lying = [piece.key for piece in after.on_floor() if piece.key not in moving]
        index = lying.index(before) if before in lying else len(lying)
        order = (*lying[:index], *moving, *lying[index:])
        if order == tuple(piece.key for piece in current.on_floor()):
            return after
        return with_current(after, lambda arrangement: msgspec.structs.replace(arrangement, floor_order=order))

    hung = any(key in project.placement_by_piece for key in moving)
    pieces = what(project, moving)
    return Edit(say("Take {pieces} down", pieces=pieces) if hung else say("Move {pieces}", pieces=pieces), run)


def turn(project: Project, keys: Iterable[Key]) -> Edit:
    """Hung pieces a quarter turn about their middles; a second turn puts them back."""
    turning = tuple(dict.fromkeys(keys))

    def run(current: Project) -> Project:
        places = places_of(current, current.arrangement)
        spots = {}
        for key in turning:
            piece = piece_of(current, key)
            if key not in places:
                raise EditRefused(
                    say("Piece {number} lies on the floor; hang it before turning it.", number=piece.number)
                )
            wall, place = places[key]
            turned = not current.placement_by_piece[key].turned
            spots[key] = _centred(wall, place.centre, piece.size_mm(turned=turned), turned)
        return _put(current, spots)

    return Edit(say("Turn {pieces}", pieces=what(project, turning)), run)


def _centred(wall: Key, centre: tuple[float, float], size: tuple[float, float], turned: bool | None = None) -> Spot:
    return Spot(wall, centre[0] - size[0] / 2, centre[1] - size[1] / 2, turned)


def lock(project: Project, keys: Iterable[Key], locked: bool = True) -> Edit:
    """Hung pieces locked where they are, or unlocked."""
    meant = frozenset(keys)

    def run(current: Project) -> Project:
        placements = tuple(
            msgspec.structs.replace(place, locked=locked) if place.piece in meant and place.locked != locked else place
            for place in current.arrangement.placements
        )
        return with_current(current, lambda arrangement: msgspec.structs.replace(arrangement, placements=placements))

    pieces = what(project, meant)
    return Edit(say("Lock {pieces}", pieces=pieces) if locked else say("Unlock {pieces}", pieces=pieces), run)


def swap(project: Project, one: Key, other: Key) -> Edit:
    """Two pieces change places: each one's middle goes where the other's was.

    If one of them lies on the floor, the other is taken down for it.
    """

    def run(current: Project) -> Project:
        places = places_of(current, current.arrangement)
        spots: dict[Key, Spot | None] = {}
        for key, partner in ((one, other), (other, one)):
            piece = piece_of(current, key)
            if partner not in places:
                spots[key] = None
                continue
            wall, place = places[partner]
            placed = current.placement_by_piece.get(key)
            turned = placed is not None and placed.turned
            spots[key] = _centred(wall, place.centre, piece.size_mm(turned=turned), turned)
        return _put(current, spots)

    first, second = (what(project, (key,)) for key in (one, other))
    return Edit(say("Swap {first} and {second}", first=first, second=second), run)


def align(project: Project, keys: Iterable[Key], line: Line, anchor: Key | None = None) -> Edit:
    """Hung pieces of one wall lined up by an edge or a centre line.

    They line up with ``anchor``; without one with the first locked piece among them, else with the
    outermost edge on that side, or the middle of the box around all of them.
    """
    meant = tuple(dict.fromkeys(keys))

    def run(current: Project) -> Project:
        wall, places = _one_wall(current, meant)
        axis: Axis = "x" if line in ("left", "centre", "right") else "y"
        spans = {key: _span(place, axis) for key, place in places.items()}
        holder = anchor if anchor in spans else _locked(current, spans)
        target = _target(line, [spans[holder]] if holder is not None else list(spans.values()))
        lows = {key: target - _reach(line, span) for key, span in spans.items() if key != holder}
        return _put(current, _along(axis, wall, places, lows))

    return Edit(say("Line up {pieces}", pieces=what(project, meant)), run)


def _target(line: Line, spans: Sequence[Span]) -> float:
    low, high = min(span.low for span in spans), max(span.high for span in spans)
    return {"low": low, "middle": (low + high) / 2, "high": high}[_SIDE[line]]


def _reach(line: Line, span: Span) -> float:
    """From a piece's low edge to the line it is lined up by."""
    return {"low": 0.0, "middle": span.size / 2, "high": span.size}[_SIDE[line]]


_SIDE: dict[Line, Literal["low", "middle", "high"]] = {
    "left": "low",
    "centre": "middle",
    "right": "high",
    "bottom": "low",
    "middle": "middle",
    "top": "high",
}


def space_out(
    project: Project,
    keys: Iterable[Key],
    axis: Axis,
    *,
    within: Literal["pieces", "wall"] | Span = "pieces",
    ends: Ends = 0.0,
    by: Literal["gaps", "centres"] = "gaps",
) -> Edit:
    """Hung pieces of one wall spaced out evenly, in the order they stand in.

    Args:
        project: for the names in the sentence.
        keys: the pieces.
        axis: across (x) or up and down (y).
        within: between the outer two as they stand, over the whole wall, or between two coordinates.
        ends: what stays free at both ends: ``gap``, ``half-gap`` or millimetres.
        by: equal gaps, or equal steps from centre to centre.
    """
    meant = tuple(dict.fromkeys(keys))

    def run(current: Project) -> Project:
        wall, places = _one_wall(current, meant)
        ordered = sorted(places, key=lambda key: (_span(places[key], axis).centre, key))
        spans = [_span(places[key], axis) for key in ordered]
        room = _room(current, wall, axis, spans, within)
        shared = by_gaps if by == "gaps" else by_centres
        lows = shared([span.size for span in spans], room, ends)
        return _put(current, _along(axis, wall, places, dict(zip(ordered, lows, strict=True))))

    return Edit(say("Space out {pieces}", pieces=what(project, meant)), run)


def _room(
    project: Project, wall: Key, axis: Axis, spans: Sequence[Span], within: Literal["pieces", "wall"] | Span
) -> Span:
    if isinstance(within, Span):
        return within
    if within == "wall":
        record = project.wall_by_key[wall]
        return Span(0.0, float(record.width.mm if axis == "x" else record.height.mm))
    return Span(min(span.low for span in spans), max(span.high for span in spans))


def set_gaps(project: Project, keys: Iterable[Key], axis: Axis, gap_mm: float, anchor: Key | None = None) -> Edit:
    """Hung pieces of one wall set one exact gap apart, in order; ``anchor`` stays.

    Without an anchor the first locked piece stays, else the first piece from the left or the bottom.
    """
    meant = tuple(dict.fromkeys(keys))

    def run(current: Project) -> Project:
        wall, places = _one_wall(current, meant)
        ordered = sorted(places, key=lambda key: (_span(places[key], axis).centre, key))
        spans = [_span(places[key], axis) for key in ordered]
        holder = anchor if anchor in places else _locked(current, ordered)
        lows = around_anchor(spans, ordered.index(holder) if holder is not None else 0, gap_mm)
        return _put(current, _along(axis, wall, places, dict(zip(ordered, lows, strict=True))))

    return Edit(say("Set the gaps of {pieces}", pieces=what(project, meant)), run)


def _span(place: Rectangle, axis: Axis) -> Span:
    return Span(place.left, place.right) if axis == "x" else Span(place.bottom, place.top)


def _locked(project: Project, keys: Iterable[Key]) -> Key | None:
    return next((key for key in keys if project.placement_by_piece[key].locked), None)


def _along(axis: Axis, wall: Key, places: Mapping[Key, Rectangle], lows: Mapping[Key, float]) -> dict[Key, Spot]:
    if axis == "x":
        return {key: Spot(wall, low, places[key].bottom) for key, low in lows.items()}
    return {key: Spot(wall, places[key].left, low) for key, low in lows.items()}


def _one_wall(project: Project, keys: Sequence[Key]) -> tuple[Key, dict[Key, Rectangle]]:
    """The wall all pieces hang on, and their rectangles.

    Raises:
        EditRefused: when one lies on the floor or they hang on several walls.
    """
    places = places_of(project, project.arrangement)
    lying = [piece_of(project, key).number for key in keys if key not in places]
    if lying or not keys:
        raise EditRefused(say("Only pieces that hang on the wall can be lined up."))
    walls = {places[key][0] for key in keys}
    if len(walls) != 1:
        raise EditRefused(say("Only pieces on the same wall can be lined up."))
    return walls.pop(), {key: places[key][1] for key in keys}
