"""Pinning: the figures a plan was made with go into the project, so that a later catalogue moves nothing."""

from collections.abc import Iterable

import msgspec

from composer.catalogue.catalogue import Catalogue, Record, of
from composer.model.notes import CatalogueEntry, CatalogueNotes
from composer.model.piece import Piece

_WORDS = frozenset({"id", "name", "kind", "source", "walls"})
"""Fields that say what a record is, not how much."""


def pinned_for(notes: CatalogueNotes, pieces: Iterable[Piece]) -> CatalogueNotes:
    """The notes with the figures of every class these pieces use, as they count now.

    What is pinned already stays as it is; the person's own entries are in the notes anyway; a figure
    typed off a packet is a change of its own, so the figure below it is what is pinned. The same
    notes come back where nothing is new.
    """
    shipped = of(msgspec.structs.replace(notes, changed=()))
    have = {(entry.kind, entry.id) for entry in (*notes.pinned, *notes.own)}
    made = []
    for piece in pieces:
        for record in _used_by(piece, shipped):
            if (record.kind, record.id) not in have:
                have.add((record.kind, record.id))
                made.append(_entry(record))
    return msgspec.structs.replace(notes, pinned=(*notes.pinned, *made)) if made else notes


def _used_by(piece: Piece, catalogue: Catalogue) -> list[Record]:
    """The classes whose figures decide what a piece weighs, how its strips sit and what holds it."""
    frame, hanger = piece.frame, piece.hanger
    boards = () if piece.mat is None else piece.mat.layers
    paper = None if piece.current_use is None else piece.uses[piece.current_use].print.paper
    found = (
        catalogue.mouldings.get(frame.moulding or ""),
        catalogue.glazing.get(frame.glazing),
        catalogue.backings.get(frame.backing or ""),
        *(catalogue.boards.get(layer.board) for layer in boards),
        catalogue.papers.get(paper or ""),
        catalogue.wires.get(hanger.wire_class or ""),
        None if piece.hardware is None else catalogue.fixings.get(piece.hardware.fixing),
        *(catalogue.strip_classes.values() if hanger.kind == "strips" else ()),
    )
    return [record for record in found if record is not None]


def _entry(record: Record) -> CatalogueEntry:
    fields = tuple(
        (field, value)
        for field, value in msgspec.to_builtins(record).items()
        if field not in _WORDS and isinstance(value, int | float | str)
    )
    return CatalogueEntry(id=record.id, kind=record.kind, name=record.name, fields=fields, source=record.source)
