"""Pieces themselves: duplicate, delete, measure, choose what holds them."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from composer.catalogue import catalogue as catalogues
from composer.catalogue.pinning import pinned_for
from composer.editing.edits import Edit, EditRefused, piece_of, tried, what
from composer.editing.relations import without_broken
from composer.model import (
    Arrangement,
    AsHung,
    Ground,
    HardwareChoice,
    HoleRecord,
    Key,
    MoneyNotes,
    Override,
    Piece,
    Project,
    Relation,
)
from composer.texts import say
from composer.units import Length


def replace_piece(project: Project, piece: Piece) -> Project:
    """The project with this record in place of the one with the same key; broken relations are dropped.

    The figures of the classes it uses are pinned, so that a later catalogue changes no plan.
    """
    pieces = tuple(piece if other.key == piece.key else other for other in project.pieces)
    notes = pinned_for(project.catalogue, (piece,))
    return without_broken(tried(lambda: msgspec.structs.replace(project, pieces=pieces, catalogue=notes)))


def duplicate(project: Project, keys: Iterable[Key]) -> Edit:
    """Copies of pieces, on the floor, with numbers of their own; what one was measured the copy is, too."""
    meant = tuple(dict.fromkeys(keys))

    def run(current: Project) -> Project:
        copies = tuple(
            msgspec.structs.replace(
                piece_of(current, key),
                key=f"p{current.next_key + place}",
                number=current.next_number + place,
                name=say("{name} (copy)", name=piece_of(current, key).name)[:200],
            )
            for place, key in enumerate(meant)
        )
        if not copies:
            return current
        return msgspec.structs.replace(
            current,
            pieces=(*current.pieces, *copies),
            next_key=current.next_key + len(copies),
            next_number=current.next_number + len(copies),
        )

    return Edit(say("Duplicate {pieces}", pieces=what(project, meant)), lambda current: tried(lambda: run(current)))


def delete(project: Project, keys: Iterable[Key]) -> Edit:
    """Pieces and all that mentions them, in every arrangement.

    What was overridden or planned for a piece goes with it. Its holes stay in the wall's record: they
    are open now and belong to nobody. Numbers are not used again.
    """
    gone = frozenset(keys)

    def run(current: Project) -> Project:
        if not any(piece.key in gone for piece in current.pieces):
            return current
        return msgspec.structs.replace(
            current,
            pieces=tuple(piece for piece in current.pieces if piece.key not in gone),
            arrangements=tuple(_arrangement_without(arrangement, gone) for arrangement in current.arrangements),
            as_hung=_as_hung_without(current.as_hung, gone),
            overrides=tuple(one for one in current.overrides if not gone.intersection(one.pieces)),
            money=_money_without(current.money, gone),
        )

    return Edit(say("Delete {pieces}", pieces=what(project, gone)), run)


def _mentions(relation: Relation, gone: frozenset[Key]) -> bool:
    if isinstance(relation, Ground):
        return relation.piece in gone
    return relation.first in gone or relation.second in gone


def _arrangement_without(arrangement: Arrangement, gone: frozenset[Key]) -> Arrangement:
    return msgspec.structs.replace(
        arrangement,
        placements=tuple(place for place in arrangement.placements if place.piece not in gone),
        floor_order=tuple(key for key in arrangement.floor_order if key not in gone),
        relations=tuple(relation for relation in arrangement.relations if not _mentions(relation, gone)),
    )


def _as_hung_without(as_hung: AsHung, gone: frozenset[Key]) -> AsHung:
    def orphaned(hole: HoleRecord) -> HoleRecord:
        if hole.piece not in gone:
            return hole
        return msgspec.structs.replace(hole, piece=None, state="open" if hole.state == "in-use" else hole.state)

    return msgspec.structs.replace(
        as_hung,
        items=tuple(item for item in as_hung.items if item.piece not in gone),
        holes=tuple(orphaned(hole) for hole in as_hung.holes),
    )


def _money_without(money: MoneyNotes, gone: frozenset[Key]) -> MoneyNotes:
    scenarios = tuple(
        msgspec.structs.replace(
            scenario, choices=tuple(choice for choice in scenario.choices if choice.piece not in gone)
        )
        for scenario in money.scenarios
    )
    return msgspec.structs.replace(money, scenarios=scenarios)


def choose_fixing(project: Project, key: Key, fixing: str) -> Edit:
    """What holds the piece on the wall, by its catalogue id; "" takes the choice back.

    The offset from hook to hole is written into the choice: a later catalogue never moves a hole
    that is already drilled. As many are taken as the piece has hanging points, at least one; a cleat has one rail.

    Raises (when run):
        EditRefused: for an id the catalogue does not know.
    """

    def run(current: Project) -> Project:
        from composer.hanging.fixings import usual_count
        from composer.hanging.points import hang

        piece = piece_of(current, key)
        if not fixing:
            return replace_piece(current, msgspec.structs.replace(piece, hardware=None))
        known = catalogues.of(current.catalogue)
        offset = known.hook_offset_mm(fixing)
        if offset is None:
            raise EditRefused(say("“{fixing}” is not a fixing of the catalogue.", fixing=fixing[:40]))
        placement = current.placement_by_piece.get(key)
        points = hang(piece, turned=placement is not None and placement.turned, catalogue=known).points
        count = usual_count(known.fixings[fixing], len(points))
        chosen = HardwareChoice(fixing=fixing, count=count, hook_offset=Length.of_mm(float(offset)))
        return replace_piece(current, msgspec.structs.replace(piece, hardware=chosen))

    pieces = what(project, (key,))
    return Edit(say("Choose the fixing of {pieces}", pieces=pieces), run)


def override(project: Project, key: Key, code: str, reason: str, when: str) -> Edit:
    """Goes on against a stop of a piece, for a reason of at least three letters; "" takes it back.

    Args:
        project: for the sentence.
        key: the piece.
        code: the finding's code.
        reason: what is printed beside the stop on the paper.
        when: the moment, UTC, ISO 8601 to the second.
    """

    def run(current: Project) -> Project:
        piece_of(current, key)
        kept = tuple(one for one in current.overrides if not (one.code == code and one.pieces == (key,)))
        if reason:
            made = tried(lambda: Override(code=code, pieces=(key,), reason=reason, when=when))
            kept = (*kept, made)
        return current if kept == current.overrides else msgspec.structs.replace(current, overrides=kept)

    pieces = what(project, (key,))
    return Edit(say("Override a stop of {pieces}", pieces=pieces), run)
