"""The catalogue as one project sees it: what ships, then what the project pinned, added and typed over.

The order matters. A pinned record keeps the figures a saved plan was made with, so that a newer
program does not move an old wall; a figure typed off the packet wins over both.
"""

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property, lru_cache, partial
from typing import TypeVar

import msgspec

from composer.catalogue import shipped
from composer.catalogue.records import (
    MATERIAL_WEIGHTS,
    Fixing,
    HardwareMass,
    Material,
    ObstacleClass,
    StripClass,
    StripRules,
    StripSizeName,
    WireClass,
)
from composer.model.notes import CatalogueEntry, CatalogueNotes
from composer.units import Mm

Record = StripClass | Fixing | WireClass | ObstacleClass | Material | HardwareMass
_R = TypeVar("_R", StripClass, Fixing, WireClass, ObstacleClass, Material, HardwareMass)

_MATERIAL_KINDS = ("moulding", "glazing", "backing", "board", "paper")


class Catalogue:
    """Every class of thing with the figures that count for one project; made by :func:`of`."""

    def __init__(self, notes: CatalogueNotes) -> None:
        self._notes = notes
        self._refused: list[str] = []

    @cached_property
    def unread(self) -> tuple[str, ...]:
        """Entries of the project that could not be understood; they are left alone and not used."""
        if not (self._notes.changed or self._notes.own or self._notes.pinned):
            return ()
        fresh = Catalogue(self._notes)
        for name in _LISTS:
            getattr(fresh, name)
        known = {record.entry for name in _LISTS for record in _records(getattr(fresh, name))}
        lost = [change.entry for change in self._notes.changed if change.entry not in known]
        return tuple(dict.fromkeys((*fresh._refused, *lost)))

    @cached_property
    def strip_classes(self) -> dict[StripSizeName, StripClass]:
        """Strips by size, small to large."""
        usual = shipped.strips().classes
        by_size = {record.size: record for record in usual}
        sizes = {record.entry: record.size for record in usual}
        for entry, record in self._effective(usual, StripClass).items():
            if sizes.get(entry, record.size) == record.size:  # a class cannot become another one's size
                by_size[record.size] = record
        return by_size

    @cached_property
    def strip_rules(self) -> StripRules:
        """How strips are counted and placed."""
        return shipped.strips().rules

    @cached_property
    def fixings(self) -> dict[str, Fixing]:
        """Fixings by id."""
        return self._by_id(shipped.fixings().fixings, Fixing)

    @cached_property
    def wires(self) -> dict[str, WireClass]:
        """Picture wires by id."""
        return self._by_id(shipped.wires().wires, WireClass)

    @cached_property
    def obstacles(self) -> dict[str, ObstacleClass]:
        """Kinds of obstacles by their name."""
        return self._by_id(shipped.obstacles().kinds, ObstacleClass)

    @cached_property
    def mouldings(self) -> dict[str, Material]:
        """Mouldings' materials by id: what the column ``moulding`` takes."""
        return self._by_id(shipped.materials().mouldings, Material, "moulding")

    @cached_property
    def glazing(self) -> dict[str, Material]:
        """Glazing by id."""
        return self._by_id(shipped.materials().glazing, Material, "glazing")

    @cached_property
    def backings(self) -> dict[str, Material]:
        """Backings by id: what the column ``backing`` takes."""
        return self._by_id(shipped.materials().backings, Material, "backing")

    @cached_property
    def boards(self) -> dict[str, Material]:
        """Mat boards by id."""
        return self._by_id(shipped.materials().boards, Material, "board")

    @cached_property
    def papers(self) -> dict[str, Material]:
        """Papers a print may be on, by id."""
        return self._by_id(shipped.materials().papers, Material, "paper")

    @cached_property
    def hardware(self) -> tuple[HardwareMass, ...]:
        """What hanging hardware weighs, small frames first."""
        return tuple(self._effective(shipped.materials().hardware, HardwareMass).values())

    def hook_offset_mm(self, fixing: str) -> Mm | None:
        """From the seat up to the hole, mm; None for a fixing nobody knows."""
        record = self.fixings.get(fixing)
        return None if record is None else Mm(record.offset_mm)

    def margin_mm(self, kind: str) -> Mm:
        """What to keep free around an obstacle of that kind, mm."""
        record = self.obstacles.get(kind) or self.obstacles["other"]
        return Mm(record.margin_mm)

    def _by_id(self, given: Iterable[_R], kind: type[_R], entry_kind: str | None = None) -> dict[str, _R]:
        return {record.id: record for record in self._effective(given, kind, entry_kind).values()}

    def _effective(self, given: Iterable[_R], kind: type[_R], entry_kind: str | None = None) -> dict[str, _R]:
        """Records by their entry name with the project's own figures laid over them."""
        records = {record.entry: record for record in given}
        wanted = entry_kind or kind.kind
        for entry in (*self._notes.pinned, *self._notes.own):
            if entry.kind == wanted:
                name = f"{entry.kind}:{entry.id}" if wanted in (*_MATERIAL_KINDS, "obstacle", "hardware") else entry.id
                known = records.get(name)
                self._lay(records, name, partial(_from_entry, entry, known, kind))
        for change in self._notes.changed:
            known = records.get(change.entry)
            if known is not None:
                fields: dict[str, str | float] = {change.field: change.value, "status": "packet"}
                self._lay(records, change.entry, partial(_with_fields, known, fields, kind))
        return records

    def _lay(self, records: dict[str, _R], name: str, make: Callable[[], _R]) -> None:
        try:
            records[name] = make()
        except (msgspec.ValidationError, ValueError):
            self._refused.append(name)


_LISTS = (
    "strip_classes",
    "fixings",
    "wires",
    "obstacles",
    "mouldings",
    "glazing",
    "backings",
    "boards",
    "papers",
    "hardware",
)


def _records(listed: "dict[str, Record] | tuple[Record, ...]") -> Iterable[Record]:
    return listed.values() if isinstance(listed, dict) else listed


def _with_fields(known: _R, fields: Mapping[str, str | float | None], kind: type[_R]) -> _R:
    """``known`` with some fields replaced, checked against its type as if read from a file."""
    return msgspec.convert({**msgspec.to_builtins(known), **_whole(fields)}, kind)


def _whole(fields: Mapping[str, str | float | None]) -> dict[str, str | float | int | None]:
    """The same with whole numbers as such: a project's notes keep every number as a float."""
    return {
        name: int(value) if isinstance(value, float) and value.is_integer() else value for name, value in fields.items()
    }


def _from_entry(entry: CatalogueEntry, known: _R | None, kind: type[_R]) -> _R:
    fields: dict[str, str | float | None] = {**dict(entry.fields), "name": entry.name}
    if entry.source:
        fields["source"] = entry.source
    if known is not None:
        if isinstance(known, Material) and any(weight in fields for weight in MATERIAL_WEIGHTS):
            fields = {**dict.fromkeys(MATERIAL_WEIGHTS), **fields}
        return _with_fields(known, fields, kind)
    start: dict[str, object] = {"status": "own", "source": entry.source}
    if kind is Material:
        start["kind"] = entry.kind
    start["kind" if kind is ObstacleClass else "id"] = entry.id
    if kind is Fixing:
        # Until its figures are typed; and notes hold words and numbers only, so a list is words with spaces.
        start |= {"load_kg": None, "offset_mm": 0.0}
        start["walls"] = str(fields.pop("walls", "") or "").split()
    return msgspec.convert({**start, **_whole(fields)}, kind)


@lru_cache(maxsize=16)
def of(notes: CatalogueNotes) -> Catalogue:
    """The catalogue of the project with these notes; the same notes give the same object."""
    return Catalogue(notes)


def usual() -> Catalogue:
    """The catalogue as it ships."""
    return of(CatalogueNotes())
