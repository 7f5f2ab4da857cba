"""The project's own catalogue: figures read off a packet, and classes of things the program does not know."""

from __future__ import annotations

import msgspec

from composer.catalogue import catalogue as catalogues
from composer.catalogue.catalogue import Catalogue, Record
from composer.editing.edits import Edit, EditRefused, tried
from composer.editing.relations import without_broken
from composer.model import CatalogueChange, CatalogueEntry, CatalogueNotes, Project
from composer.texts import say

OWN_KINDS = ("moulding", "glazing", "backing", "board", "paper", "fixing", "wire")
"""Kinds of classes a person may add."""

_WORDS = frozenset({"id", "size", "status", "size_status", "offset_status", "kind", "source", "name", "walls"})
"""Fields that are not figures."""


def figures_of(record: Record) -> tuple[str, ...]:
    """Names of the figures of a record that may be typed over, with their units: ``load_kg``, ``offset_mm``."""
    encoded = msgspec.structs.fields(type(record))
    return tuple(field.encode_name for field in encoded if field.encode_name not in _WORDS)


def record_named(known: Catalogue, entry: str) -> Record | None:
    """The record with that entry name, whatever its kind."""
    records: tuple[Record, ...] = (
        *known.strip_classes.values(),
        *known.fixings.values(),
        *known.wires.values(),
        *known.obstacles.values(),
        *known.mouldings.values(),
        *known.glazing.values(),
        *known.backings.values(),
        *known.boards.values(),
        *known.papers.values(),
        *known.hardware,
    )
    return next((record for record in records if record.entry == entry), None)


def type_over(entry: str, field: str, value: float | None) -> Edit:
    """A packet's figure over the catalogue's, in this project; None takes it back.

    Holes of pieces whose fixing was chosen before stay where they are: their offset is pinned.

    Raises (when run):
        EditRefused: no such entry or figure, or one that cannot be.
    """

    def run(project: Project) -> Project:
        record = record_named(catalogues.of(project.catalogue), entry)
        if record is None:
            raise EditRefused(say("The catalogue has no “{entry}”.", entry=entry[:60]))
        if field not in figures_of(record):
            raise EditRefused(
                say("“{entry}” has no figure “{field}”; it has {known}.", entry=entry, field=field[:40],
                    known=", ".join(figures_of(record)))
            )  # fmt: skip
        if value is not None and value < 0 and not field.startswith("offset"):
            raise EditRefused(say("A figure of “{entry}” cannot be negative: {value}.", entry=entry, value=value))
        kept = tuple(one for one in project.catalogue.changed if (one.entry, one.field) != (entry, field))
        if value is not None:
            kept = (*kept, CatalogueChange(entry=entry, field=field, value=value))
        return _with_notes(project, msgspec.structs.replace(project.catalogue, changed=kept))

    text = say("Take back a packet's figure") if value is None else say("Type a packet's figure over the catalogue's")
    return Edit(text, run)


def own_entry(
    kind: str, name_id: str, fields: dict[str, str | float], *, name: str | None = None, source: str | None = None
) -> Edit:
    """A class of the person's own, or more of its figures; what is not given stays as it was.

    Args:
        kind: one of :data:`OWN_KINDS`.
        name_id: its id, as a table or ``set`` writes it.
        fields: its figures by their names in the catalogue; ``walls`` of a fixing as words with spaces.
        name: what it is called; None = as before, at first its id.
        source: where the figures are from.

    Raises (when run):
        EditRefused: for a kind that takes none, or figures that make no class.
    """

    def run(project: Project) -> Project:
        if kind not in OWN_KINDS:
            raise EditRefused(say("Own entries are of a kind {kinds}.", kinds=", ".join(OWN_KINDS)))
        notes = project.catalogue
        old = next((one for one in notes.own if (one.kind, one.id) == (kind, name_id)), None)
        made = CatalogueEntry(
            id=name_id,
            kind=kind,
            name=name if name is not None else old.name if old else name_id,
            fields=tuple({**dict(old.fields if old else ()), **fields}.items()),
            source=source if source is not None else old.source if old else say("Your own entry."),
        )
        kept = tuple(one for one in notes.own if one is not old)
        return _with_notes(project, msgspec.structs.replace(notes, own=(*kept, made)))

    return Edit(
        say("Add “{name}” to the project's catalogue", name=name or name_id), lambda now: tried(lambda: run(now))
    )


def drop_own(kind: str, name_id: str) -> Edit:
    """Takes a class of the person's own away; a piece that names it keeps the name, with nothing known about it.

    Raises (when run):
        EditRefused: there is no such class.
    """

    def run(project: Project) -> Project:
        notes = project.catalogue
        old = next((one for one in notes.own if (one.kind, one.id) == (kind, name_id)), None)
        if old is None:
            raise EditRefused(say("The project has no class “{name}” of its own.", name=name_id[:60]))
        return _with_notes(
            project, msgspec.structs.replace(notes, own=tuple(one for one in notes.own if one is not old))
        )

    return Edit(say("Delete “{name}” from the project's catalogue", name=name_id[:60]), run)


def _with_notes(project: Project, notes: CatalogueNotes) -> Project:
    if notes == project.catalogue:
        return project
    before, after = catalogues.of(project.catalogue).unread, catalogues.of(notes).unread
    lost = [entry for entry in after if entry not in before]
    if lost:
        raise EditRefused(say("“{entry}” cannot be understood so: its figures make no such class.", entry=lost[0]))
    return without_broken(msgspec.structs.replace(project, catalogue=notes))
