"""Finds what a person names: a piece, a wall, an arrangement."""

import unicodedata
from collections.abc import Sequence
from typing import TypeVar

from composer.commandline.answers import Refused
from composer.commandline.near import suggestion
from composer.model import Arrangement, Piece, Project, Wall
from composer.texts import say

_Named = TypeVar("_Named", Wall, Arrangement)


def piece_named(project: Project, name: str) -> Piece:
    """The piece with that number, else that exact name, else that name whatever its capitals.

    Raises:
        Refused: when there is none, or several; then they are listed.
    """
    wanted = _plain(name)
    if wanted.isascii() and wanted.isdigit():
        for piece in project.pieces:
            if piece.number == int(wanted):
                return piece
    for found in (
        [piece for piece in project.pieces if piece.name == wanted],
        [piece for piece in project.pieces if piece.name.casefold() == wanted.casefold()],
    ):
        if len(found) == 1:
            return found[0]
        if found:
            candidates = ", ".join(f"{piece.number} “{piece.name}”" for piece in found[:12])
            raise Refused(
                say(
                    "“{name}” names several pieces: {candidates}. Give the number.",
                    name=name[:40],
                    candidates=candidates,
                )
            )
    known = [piece.name for piece in project.pieces]
    if wanted.isdigit():
        known = [str(piece.number) for piece in project.pieces]
    raise Refused(say("there is no piece “{name}”. {hint}", name=name[:40], hint=suggestion(wanted, known)))


def wall_named(project: Project, name: str | None) -> Wall:
    """The wall of that name; the first one when none is named.

    Raises:
        Refused: when there is none; those there are, are listed.
    """
    if name is None:
        return project.walls[0]
    found = _among(project.walls, name)
    if found is None:
        hint = suggestion(_plain(name), [wall.name for wall in project.walls])
        raise Refused(say("there is no wall “{name}”. {hint}", name=name[:40], hint=hint))
    return found


def arrangement_named(project: Project, name: str | None) -> Arrangement:
    """The arrangement of that name; the current one when none is named.

    Raises:
        Refused: when there is none; those there are, are listed.
    """
    if name is None:
        return project.arrangement
    found = _among(project.arrangements, name)
    if found is None:
        hint = suggestion(_plain(name), [arrangement.name for arrangement in project.arrangements])
        raise Refused(say("there is no arrangement “{name}”. {hint}", name=name[:40], hint=hint))
    return found


def _among(records: Sequence[_Named], name: str) -> _Named | None:
    """By exact name, else ignoring case; names within a project differ in more than case."""
    wanted = _plain(name)
    for record in records:
        if record.name == wanted:
            return record
    for record in records:
        if record.name.casefold() == wanted.casefold():
            return record
    return None


def _plain(name: str) -> str:
    return unicodedata.normalize("NFC", name).strip()
