"""The two short tables beside the inventory: what stands at a wall, and what things cost."""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import get_args

from composer.model import BadRecord, InDrawer, Obstacle, ObstacleKind, Price, Units, position
from composer.projectfile.cells import BadCell, Reading, folded, plain_text, read_typed_length
from composer.projectfile.columns import header_of
from composer.projectfile.delimited import read_rows, unguarded
from composer.projectfile.errors import BadTable
from composer.texts import say
from composer.units import BadQuantity, Length, read_money

_OBSTACLE = ("kind", "name", "left", "bottom", "width", "height", "depth", "margin")
_PRICE = ("item", "each", "pack", "in-drawer")
_KINDS: dict[str, ObstacleKind] = {folded(kind): kind for kind in get_args(ObstacleKind)}


@dataclass(frozen=True, slots=True)
class PriceList:
    """Prices and what is already at home."""

    prices: tuple[Price, ...]
    in_drawer: tuple[InDrawer, ...]


def read_obstacles(path: str | os.PathLike[str], units: Units, next_key: int) -> tuple[Obstacle, ...]:
    """Reads ``kind,name,left,bottom,width,height,depth,margin``; keys count on from ``next_key``.

    Name, depth and margin may be missing or empty: not named, not measured, the kind's usual margin.

    Raises:
        BadTable: with file, row and column.
        CannotRead: when the file is missing or cannot be read.
    """
    found = []
    for place, row in enumerate(_rows(Path(path), _OBSTACLE, ("kind", "left", "bottom", "width", "height"))):
        try:
            found.append(
                Obstacle(
                    key=f"o{next_key + place}",
                    kind=row.kind(),
                    name=plain_text(unguarded(row.text("name"))),
                    left=position(row.length("left", units, minus=True).mm),
                    bottom=position(row.length("bottom", units, minus=True).mm),
                    width=row.length("width", units),
                    height=row.length("height", units),
                    depth=row.length("depth", units, zero=True) if row.text("depth") else None,
                    margin=row.length("margin", units, zero=True) if row.text("margin") else None,
                )
            )
        except BadRecord as error:
            raise row.bad("name", str(error)) from None
    return tuple(found)


def read_prices(path: str | os.PathLike[str]) -> PriceList:
    """Reads ``item,each,pack,in-drawer``: ``pack`` pieces of an item cost ``each``.

    An empty pack is one piece; an empty price only tells what is in the drawer. An item may stand in
    several rows, one for each size of its packs.

    Raises:
        BadTable: with file, row and column.
        CannotRead: when the file is missing or cannot be read.
    """
    prices: list[Price] = []
    drawer: list[InDrawer] = []
    seen: set[tuple[str, int]] = set()
    for row in _rows(Path(path), _PRICE, ("item",)):
        item = plain_text(unguarded(row.text("item")))
        if not item:
            raise row.bad("item", say("It cannot stay empty: the id or name of a thing is expected."))
        pack = row.count("pack", 1) or 1
        if (item.casefold(), pack) in seen:
            raise row.bad("item", say("“{item}” is there twice.", item=item[:40]))
        seen.add((item.casefold(), pack))
        try:
            if row.text("each"):
                prices.append(Price(item=item, each=row.money("each"), pack=pack))
            elif row.text("pack"):
                raise row.bad("each", say("A pack needs its price."))
            if row.text("in-drawer"):
                if any(one.item.casefold() == item.casefold() for one in drawer):
                    raise row.bad("in-drawer", say("What is at home of “{item}” is there twice.", item=item[:40]))
                drawer.append(InDrawer(item=item, count=row.count("in-drawer", 0)))
        except BadRecord as error:
            raise row.bad("item", str(error)) from None
    return PriceList(tuple(prices), tuple(drawer))


@dataclass(frozen=True, slots=True)
class _Row:
    path: Path
    number: int
    cells: dict[str, str]
    units: dict[str, str | None]

    def text(self, column: str) -> str:
        return self.cells.get(folded(column), "")

    def bad(self, column: str, what: str) -> BadTable:
        sentence = say(
            "“{path}”, row {row}, column {column}: {what}", path=self.path, row=self.number, column=column, what=what
        )
        return BadTable(sentence, self.number, column)

    def kind(self) -> ObstacleKind:
        kind = _KINDS.get(folded(self.text("kind")))
        if kind is None:
            raise self.bad(
                "kind",
                say(
                    "“{found}” is not one of {choices}.",
                    found=self.text("kind")[:40],
                    choices=", ".join(_KINDS.values()),
                ),
            )
        return kind

    def length(self, column: str, units: Units, *, zero: bool = False, minus: bool = False) -> Length:
        reading = Reading(units, self.units.get(folded(column)))
        try:
            return read_typed_length(self.text(column), reading, zero=zero, minus=minus)
        except BadQuantity as error:
            raise self.bad(column, str(error)) from None

    def money(self, column: str) -> Decimal:
        try:
            return read_money(self.text(column))
        except BadQuantity as error:
            raise self.bad(column, str(error)) from None

    def count(self, column: str, least: int) -> int:
        text = self.text(column)
        if not text:
            return least
        if not (text.isascii() and text.isdigit() and len(text) <= 6 and int(text) >= least):
            raise self.bad(
                column, say("“{found}” is not a whole number of {least} or more.", found=text[:40], least=least)
            )
        return int(text)


def _rows(path: Path, known: tuple[str, ...], needed: tuple[str, ...]) -> Iterator[_Row]:
    rows = read_rows(path)
    first = next(rows, None)
    if first is None:
        raise BadTable(
            say("“{path}” is empty; a header with {columns} is expected.", path=path, columns=", ".join(needed))
        )
    names, units = _headers(path, first[1], {folded(name): name for name in known})
    for name in needed:
        if folded(name) not in names:
            raise BadTable(say("“{path}” has no column “{column}”.", path=path, column=name), 1, name)
    for number, cells in rows:
        found = {name: cell.strip() for name, cell in zip(names, cells, strict=False)}
        row = _Row(path, number, found, units)
        if any(cell.strip() for cell in cells[len(names) :]):
            raise row.bad(str(len(names) + 1), say("It has no header."))
        yield row


def _headers(path: Path, cells: list[str], known: dict[str, str]) -> tuple[list[str], dict[str, str | None]]:
    names: list[str] = []
    units: dict[str, str | None] = {}
    for cell in cells:
        plain, unit = cell, None
        if "[" in cell:
            try:
                # Any length column of the inventory knows how a unit beside a header is written.
                unit = header_of(f"width [{cell.rpartition('[')[2].rstrip(' ]')}]")[1]
            except BadCell as error:
                raise BadTable(say("“{path}”, row 1: {what}", path=path, what=str(error)), 1, cell) from None
            plain = cell.rpartition("[")[0]
        name = folded(plain)
        if name and name not in known:
            raise BadTable(
                say(
                    "“{path}” has a column “{column}” that means nothing here; {columns} are known.",
                    path=path,
                    column=cell.strip()[:40],
                    columns=", ".join(known.values()),
                ),
                1,
                cell,
            )
        if name and name in names:
            raise BadTable(
                say("“{path}”: the column “{column}” is there twice.", path=path, column=cell.strip()), 1, cell
            )
        names.append(name)
        units[name] = unit
    return names, units
