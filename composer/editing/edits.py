"""What an edit is: a sentence for undo, and a pure step from one project to the next."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeVar

from composer.model import BadRecord, Key, Piece, Project
from composer.texts import say, say_many
from composer.units import BadQuantity

_Made = TypeVar("_Made")


class EditRefused(ValueError):
    """The project cannot be changed so; the message is one finished sentence. Nothing has changed."""


class PieceLocked(EditRefused):
    """A locked piece would have had to move."""


@dataclass(frozen=True, slots=True)
class MergeKey:
    """Steps with equal keys undo as one.

    Attributes:
        family: what kind of step it is, such as ``nudge``.
        keys: the records it changes.
        gesture: number of the press, drag or visit to a field it belongs to.
    """

    family: str
    keys: tuple[Key, ...]
    gesture: int


@dataclass(frozen=True, slots=True)
class Edit:
    """A change, made before it is known whether it is possible.

    Attributes:
        text: what undo calls it: "Move 3 “Boats”".
        run: the step; pure, raises :class:`EditRefused`, gives the same object back when nothing changes.
        merge: with which steps it undoes as one; None = with none.
    """

    text: str
    run: Callable[[Project], Project]
    merge: MergeKey | None = None


def tried(make: Callable[[], _Made]) -> _Made:
    """What ``make`` makes; a record's own refusal becomes an edit's.

    Raises:
        EditRefused: with the sentence of the record or quantity that cannot be.
    """
    try:
        return make()
    except (BadRecord, BadQuantity) as refused:
        raise EditRefused(str(refused)) from None


def piece_of(project: Project, key: Key) -> Piece:
    """The piece with that key.

    Raises:
        EditRefused: when it is gone.
    """
    piece = project.piece_by_key.get(key)
    if piece is None:
        raise EditRefused(say("The piece is no longer there."))
    return piece


def what(project: Project, keys: Iterable[Key]) -> str:
    """Pieces as undo names them: ``3 “Boats”`` for one, ``4 pieces`` for several."""
    pieces = [project.piece_by_key[key] for key in dict.fromkeys(keys) if key in project.piece_by_key]
    if len(pieces) == 1:
        return say("{number} “{name}”", number=pieces[0].number, name=pieces[0].name)
    return say_many("{count} piece", "{count} pieces", len(pieces))
