"""Edits of one record: the sentence for undo, and a pure change of that record alone.

A card changes one field of one record at a time. The record checks itself when it is made anew, so
a refusal comes out as the record's own sentence.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import msgspec

from composer.catalogue.pinning import pinned_for
from composer.editing.edits import Edit, EditRefused, MergeKey, PieceLocked, tried
from composer.editing.relations import without_broken
from composer.model import Arrangement, Hanger, Key, Piece, Placement, Project, Wall, position
from composer.texts import say


def change_piece(key: Key, text: str, change: Callable[[Piece], Piece], merge: MergeKey | None = None) -> Edit:
    """One piece made anew by ``change``.

    Raises (when run):
        EditRefused: with the record's own sentence, or when the piece is gone.
    """

    def run(project: Project) -> Project:
        piece = project.piece_by_key.get(key)
        if piece is None:
            raise EditRefused(say("The piece is no longer there."))
        made = tried(lambda: change(piece))
        if made == piece:
            return project
        pieces = tuple(made if other.key == key else other for other in project.pieces)
        return _whole(project, pieces=pieces, catalogue=pinned_for(project.catalogue, (made,)))

    return Edit(text, run, merge)


def change_frame(key: Key, text: str, merge: MergeKey | None = None, **fields: Any) -> Edit:
    """Some fields of a piece's frame."""

    def change(piece: Piece) -> Piece:
        return msgspec.structs.replace(piece, frame=msgspec.structs.replace(piece.frame, **fields))

    return change_piece(key, text, change, merge)


def change_hanger(key: Key, text: str, merge: MergeKey | None = None, *, turned: bool = False, **fields: Any) -> Edit:
    """Some fields of the hanger that counts the way the piece hangs."""

    def change(piece: Piece) -> Piece:
        if not turned:
            return msgspec.structs.replace(piece, hanger=msgspec.structs.replace(piece.hanger, **fields))
        hanger = msgspec.structs.replace(piece.hanger_turned or Hanger(), **fields)
        return msgspec.structs.replace(piece, hanger_turned=hanger)

    return change_piece(key, text, change, merge)


def change_wall(key: Key, text: str, change: Callable[[Wall], Wall], merge: MergeKey | None = None) -> Edit:
    """One wall made anew by ``change``."""

    def run(project: Project) -> Project:
        wall = project.wall_by_key.get(key)
        if wall is None:
            raise EditRefused(say("The wall is no longer there."))
        made = tried(lambda: change(wall))
        if made == wall:
            return project
        walls = tuple(made if other.key == key else other for other in project.walls)
        return _whole(project, walls=walls)

    return Edit(text, run, merge)


def change_project(text: str, merge: MergeKey | None = None, **fields: Any) -> Edit:
    """Some fields of the project itself."""

    def run(project: Project) -> Project:
        return _whole(project, **fields)

    return Edit(text, run, merge)


def change_arrangement(text: str, change: Callable[[Arrangement], Arrangement], merge: MergeKey | None = None) -> Edit:
    """The current arrangement made anew by ``change``."""

    def run(project: Project) -> Project:
        made = tried(lambda: change(project.arrangement))
        if made == project.arrangement:
            return project
        arrangements = tuple(made if a.key == made.key else a for a in project.arrangements)
        return _whole(project, arrangements=arrangements)

    return Edit(text, run, merge)


def put_at(text: str, places: Mapping[Key, tuple[float, float]], merge: MergeKey | None = None) -> Edit:
    """Hung pieces put with their lower left corners at these places, mm; a locked one is refused."""

    def moved(placement: Placement) -> Placement:
        if placement.piece not in places:
            return placement
        left, bottom = (position(mm) for mm in places[placement.piece])
        if placement.locked and (left, bottom) != (placement.left, placement.bottom):
            raise PieceLocked(say("A locked piece stays where it is. Unlock it first."))
        return msgspec.structs.replace(placement, left=left, bottom=bottom)

    def change(arrangement: Arrangement) -> Arrangement:
        return msgspec.structs.replace(arrangement, placements=tuple(moved(place) for place in arrangement.placements))

    return change_arrangement(text, change, merge)


def _whole(project: Project, **fields: Any) -> Project:
    """The project with these fields, and only those relations its positions still bear out."""
    return without_broken(tried(lambda: msgspec.structs.replace(project, **fields)))
