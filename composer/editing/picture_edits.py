"""Pictures linked to a project and shown in its pieces. The files themselves are never copied or changed."""

from __future__ import annotations

import contextlib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec

from composer.editing.edits import Edit, EditRefused, MergeKey, piece_of, tried, what
from composer.model import Key, Picture, PictureUse, Piece, Project
from composer.projectfile.errors import CannotRead
from composer.projectfile.picture_links import read_link, relative_path
from composer.texts import say, say_many

if TYPE_CHECKING:
    from composer.pictures.bringing_in import Brought


def link_pictures(
    project: Project,
    files: Sequence[Path],
    folder: Path,
    keys: Sequence[Key] = (),
    seen: Mapping[Path, Brought] | None = None,
) -> Edit:
    """Picture files linked by their path from the project's folder, and shown in pieces.

    Args:
        project: for the sentence.
        files: the picture files.
        folder: where the project's relative paths start.
        keys: pieces that show them: one file in all of these, several files one after the other.
            Files beyond the pieces are linked and shown nowhere yet.
        seen: what is known of files already, so that they are not read again.
    """

    def run(current: Project) -> Project:
        known = {picture.path: picture for picture in current.pictures}
        pictures, next_key, found = list(current.pictures), current.next_key, []
        for file in files:
            path = relative_path(file, folder)
            picture = known.get(path)
            if picture is None:
                picture = Picture(key=f"i{next_key}", path=path)
                found_before = None if seen is None else seen.get(file)
                if found_before is not None and found_before.facts is not None:
                    picture = _known(picture, found_before)
                else:
                    with contextlib.suppress(CannotRead):
                        picture = read_link(picture, folder)
                next_key += 1
                known[path] = picture
                pictures.append(picture)
            found.append(picture.key)
        shown = dict.fromkeys(keys, found[0]) if len(found) == 1 else dict(zip(keys, found, strict=False))
        pieces = tuple(_showing(piece, shown[piece.key]) if piece.key in shown else piece for piece in current.pieces)
        if next_key == current.next_key and pieces == current.pieces:
            return current
        return msgspec.structs.replace(current, pictures=tuple(pictures), pieces=pieces, next_key=next_key)

    if keys:
        text = say("Picture of {pieces}", pieces=what(project, keys))
    else:
        text = say_many("Link {count} picture", "Link {count} pictures", len(files))
    return Edit(text, lambda current: tried(lambda: run(current)))


def _known(picture: Picture, seen: Brought) -> Picture:
    assert seen.facts is not None
    return msgspec.structs.replace(
        picture, sha256=seen.sha256, size_bytes=seen.size_bytes, pixels=seen.facts.pixels, profile=seen.facts.profile
    )


def show_picture(project: Project, key: Key, picture: Key | None) -> Edit:
    """Another of the project's pictures shown in a piece; its crop and print are kept for when it comes back."""

    def run(current: Project) -> Project:
        piece = piece_of(current, key)
        changed = msgspec.structs.replace(piece, current_use=None) if picture is None else _showing(piece, picture)
        if changed == piece:
            return current
        pieces = tuple(changed if other.key == key else other for other in current.pieces)
        return msgspec.structs.replace(current, pieces=pieces)

    return Edit(say("Picture of {pieces}", pieces=what(project, (key,))), lambda current: tried(lambda: run(current)))


def _showing(piece: Piece, picture: Key) -> Piece:
    for place, use in enumerate(piece.uses):
        if use.picture == picture:
            return msgspec.structs.replace(piece, current_use=place)
    uses = (*piece.uses, PictureUse(picture=picture))
    return msgspec.structs.replace(piece, uses=uses, current_use=len(uses) - 1)


def change_picture(project: Project, key: Key, folder: Path, merge: MergeKey | None = None, **fields: Any) -> Edit:
    """Some fields of one picture; with another path its size and digest are read anew.

    Args:
        project: for the sentence.
        key: the picture.
        folder: where the project's relative paths start.
        merge: with which steps it undoes as one.
        fields: by their names in :class:`composer.model.Picture`.
    """
    name = project.picture_by_key[key].path.rsplit("/", 1)[-1] if key in project.picture_by_key else key

    def run(current: Project) -> Project:
        old = current.picture_by_key.get(key)
        if old is None:
            raise EditRefused(say("The picture is no longer there."))
        made = msgspec.structs.replace(old, **fields)
        if made.path != old.path:
            made = msgspec.structs.replace(made, sha256=None, size_bytes=None, pixels=None, profile=None)
            with contextlib.suppress(CannotRead):
                made = read_link(made, folder)
        if made == old:
            return current
        pictures = tuple(made if other.key == key else other for other in current.pictures)
        return msgspec.structs.replace(current, pictures=pictures)

    return Edit(say("Picture “{name}”", name=name), lambda current: tried(lambda: run(current)), merge)
