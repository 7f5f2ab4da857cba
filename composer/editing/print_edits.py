"""What a frame shows and how: crop, print, mat; where pictures come from, and where they went."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from composer.editing.edits import Edit, EditRefused, MergeKey, piece_of, tried, what
from composer.editing.piece_edits import replace_piece
from composer.model import Crop, Key, Mat, Picture, PictureUse, Piece, Project
from composer.projectfile.errors import CannotRead
from composer.projectfile.picture_links import read_link, relative_path
from composer.texts import say, say_many


def change_use(
    project: Project, key: Key, text: str, change: Callable[[PictureUse], PictureUse], merge: MergeKey | None = None
) -> Edit:
    """The picture a piece shows now, made anew by ``change``.

    Raises (when run):
        EditRefused: the piece shows no picture, or with the record's own sentence.
    """

    def run(current: Project) -> Project:
        piece = piece_of(current, key)
        if piece.current_use is None:
            raise EditRefused(say("Piece {number} shows no picture yet.", number=piece.number))
        uses = list(piece.uses)
        made = tried(lambda: change(uses[piece.current_use or 0]))
        if made == uses[piece.current_use]:
            return current
        uses[piece.current_use] = made
        return replace_piece(current, replace(piece, uses=tuple(uses)))

    return Edit(text, run, merge)


def crop_picture(project: Project, key: Key, merge: MergeKey | None = None, **fields: Any) -> Edit:
    """Some of centre, zoom, turn and tilt of what a piece shows; see :class:`composer.model.Crop`."""
    text = say("Crop of {pieces}", pieces=what(project, (key,)))
    return change_use(project, key, text, lambda use: replace(use, crop=replace(use.crop, **fields)), merge)


def crop_anew(project: Project, key: Key, crop: Crop, merge: MergeKey | None = None) -> Edit:
    """Another crop altogether; the usual one shows the middle as large as it goes."""
    text = say("Crop of {pieces}", pieces=what(project, (key,)))
    return change_use(project, key, text, lambda use: replace(use, crop=crop), merge)


def choose_print(project: Project, key: Key, merge: MergeKey | None = None, **fields: Any) -> Edit:
    """Some of stock, paper, cut, edge and price of a piece's print; see :class:`composer.model.PrintChoice`."""
    text = say("Print of {pieces}", pieces=what(project, (key,)))
    return change_use(project, key, text, lambda use: replace(use, print=replace(use.print, **fields)), merge)


def label_use(project: Project, key: Key, place: int, label: str) -> Edit:
    """What tells one of a piece's pictures from the others: "summer"."""

    def run(current: Project) -> Project:
        piece = piece_of(current, key)
        uses = list(piece.uses)
        if not 0 <= place < len(uses):
            raise EditRefused(say("Piece {number} has no such picture.", number=piece.number))
        uses[place] = tried(lambda: replace(uses[place], label=label))
        made = replace(piece, uses=tuple(uses))
        return current if made == piece else replace_piece(current, made)

    return Edit(say("Picture of {pieces}", pieces=what(project, (key,))), run)


def change_mat(project: Project, key: Key, merge: MergeKey | None = None, **fields: Any) -> Edit:
    """Some fields of a piece's mat, which gets one where it has none; see :class:`composer.model.Mat`."""

    def change(piece: Piece) -> Piece:
        return replace(piece, mat=replace(piece.mat or Mat(), **fields))

    return _piece_changed(project, key, change, merge)


def take_mat_away(project: Project, key: Key) -> Edit:
    """No mat any more."""
    return _piece_changed(project, key, lambda piece: replace(piece, mat=None), None)


def _piece_changed(project: Project, key: Key, change: Callable[[Piece], Piece], merge: MergeKey | None) -> Edit:
    def run(current: Project) -> Project:
        piece = piece_of(current, key)
        made = tried(lambda: change(piece))
        return current if made == piece else replace_piece(current, made)

    return Edit(say("Mat of {pieces}", pieces=what(project, (key,))), run, merge)


def note_origin(key: Key, source: str | None = None, licence: str | None = None) -> Edit:
    """Where a picture comes from and what may be done with it, as printed on the order; None = as it is."""

    def change(picture: Picture) -> Picture:
        return replace(
            picture,
            source=picture.source if source is None else source,
            licence=picture.licence if licence is None else licence,
        )

    return Edit(say("Source of a picture"), lambda current: _with_picture(current, key, change))


def link_found(found: Mapping[Key, Path], folder: Path) -> Edit:
    """Pictures found again elsewhere, or accepted as they are now: their paths and contents anew.

    Args:
        found: where each picture's file is, by the picture's key; see ``pictures.whereabouts.find_moved``.
        folder: the project's.

    Raises (when run):
        EditRefused: a file cannot be read.
    """

    def run(current: Project) -> Project:
        for key, path in found.items():

            def anew(picture: Picture, path: Path = path) -> Picture:
                try:
                    return read_link(replace(picture, path=relative_path(path, folder)), folder)
                except CannotRead as refused:
                    raise EditRefused(str(refused)) from None

            current = _with_picture(current, key, anew)
        return current

    return Edit(say_many("Link {count} picture anew", "Link {count} pictures anew", len(found)), run)


def _with_picture(project: Project, key: Key, change: Callable[[Picture], Picture]) -> Project:
    picture = project.picture_by_key.get(key)
    if picture is None:
        raise EditRefused(say("The picture is no longer there."))
    made = tried(lambda: change(picture))
    if made == picture:
        return project
    pictures = tuple(made if other.key == key else other for other in project.pictures)
    return tried(lambda: replace(project, pictures=pictures))
