"""Stock sizes and board sheets: what is sold, what it costs, each size compared in millimetres only.

A size sold in centimetres is often the inch sheet: "13 × 18 cm" is delivered as 127 × 177.8 mm, so a
name never says whether a print fits.
"""

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from composer.model import CatalogueNotes, Money, MoneyNotes, Price, Units
from composer.resources import resource

StockList = Literal["inch", "metric", "own"]


@dataclass(frozen=True, slots=True)
class StockSize:
    """One size a lab sells.

    Attributes:
        id: as scripts and file names write it, e.g. ``8x10in``.
        width_mm, height_mm: as delivered, the shorter side first.
        list: where it is offered: ``metric`` sizes in metric projects only.
        sold_as: what it is called where sizes are sold in centimetres; empty = as its id.
    """

    id: str
    width_mm: float
    height_mm: float
    list: StockList = "own"
    sold_as: str = ""

    @property
    def area_mm2(self) -> float:
        """Area, mm²."""
        return self.width_mm * self.height_mm

    @property
    def shown(self) -> str:
        """Its name for reading: ``8 × 10 in``."""
        return shown_size(self.id)


@dataclass(frozen=True, slots=True)
class BoardSheet:
    """A sheet of mat board as sold, mm."""

    id: str
    width_mm: float
    height_mm: float


@lru_cache(maxsize=1)
def _shipped() -> tuple[tuple[StockSize, ...], tuple[BoardSheet, ...], str]:
    read = json.loads(resource("catalogue/stock.json").read_text(encoding="utf-8"))
    sizes = tuple(StockSize(**record) for record in read["sizes"])
    return sizes, tuple(BoardSheet(**record) for record in read["boards"]), read["source"]


def source() -> str:
    """Where the shipped sizes come from."""
    return _shipped()[2]


@lru_cache(maxsize=32)
def stock_sizes(units: Units, notes: CatalogueNotes | None = None) -> tuple[StockSize, ...]:
    """The sizes offered in a project: inch sizes in imperial ones, inch and metric sizes in metric ones.

    The project's own entries of kind ``stock`` (fields ``width_mm``, ``height_mm``, or ``sold`` = ``no``)
    are added, or stand in for the shipped size of the same id.
    """
    sizes = {size.id: size for size in _shipped()[0] if size.list == "inch" or units == "metric"}
    for entry in () if notes is None else (*notes.pinned, *notes.own):
        if entry.kind != "stock":
            continue
        fields = dict(entry.fields)
        if fields.get("sold") == "no":
            sizes.pop(entry.id, None)
            continue
        own = _own(entry.id, fields)
        if own is not None:
            sizes[entry.id] = own
    return tuple(sorted(sizes.values(), key=lambda size: (size.area_mm2, size.id)))


def _own(id_: str, fields: dict[str, str | float]) -> StockSize | None:
    try:
        short, long = sorted((float(fields["width_mm"]), float(fields["height_mm"])))
    except (KeyError, ValueError):
        return None
    return StockSize(id_, short, long) if 0 < short <= long < 1e5 else None


def board_sheets(notes: CatalogueNotes | None = None) -> tuple[BoardSheet, ...]:
    """Mat board sheets, the small one first; own entries have kind ``board-sheet``."""
    sheets = {sheet.id: sheet for sheet in _shipped()[1]}
    for entry in () if notes is None else (*notes.pinned, *notes.own):
        own = _own(entry.id, dict(entry.fields)) if entry.kind == "board-sheet" else None
        if own is not None:
            sheets[entry.id] = BoardSheet(own.id, own.width_mm, own.height_mm)
    return tuple(sorted(sheets.values(), key=lambda sheet: sheet.width_mm * sheet.height_mm))


def stock_named(sizes: Iterable[StockSize], name: str) -> StockSize | None:
    """The size of that id or that name of sale, however it is written: ``8 × 10 in``, ``8X10in``."""
    wanted = folded(name)
    sizes = tuple(sizes)
    return next((size for size in sizes if folded(size.id) == wanted), None) or next(
        (size for size in sizes if size.sold_as and folded(size.sold_as) == wanted), None
    )


@lru_cache(maxsize=512)
def folded(name: str) -> str:
    """A name of a size as it is compared."""
    return re.sub(r"[\s_]+", "", name.replace("×", "x").casefold())


def shown_size(id_: str) -> str:
    """``8x10in`` as ``8 × 10 in``, with no-break spaces; other names as they are, A sizes as ``A4``."""
    found = re.fullmatch(r"([\d.]+)x([\d.]+)(in|cm|mm)", id_)
    if found:
        return f"{found[1]}\u00a0×\u00a0{found[2]}\u00a0{found[3]}"
    return id_.upper() if re.fullmatch(r"[ab]\d", id_) else id_


def price_of(size: StockSize, paper: str | None, money: MoneyNotes) -> Money | None:
    """What one print costs by the project's price list; None = not in it.

    An item is named as the size (``8x10in``, or as it is sold, ``20x25cm``), with the paper after it
    where the price is for that paper only (``8x10in lustre``). The price of the paper wins.
    """
    prices = _by_name(money.prices)
    names = (folded(size.id), folded(size.sold_as)) if size.sold_as else (folded(size.id),)
    for ending in (folded(paper), "") if paper else ("",):
        for name in names:
            if name + ending in prices:
                return prices[name + ending]
    return None


@lru_cache(maxsize=32)
def _by_name(prices: tuple[Price, ...]) -> dict[str, Money]:
    """What one of each item costs; of an item listed twice the first counts."""
    found: dict[str, Money] = {}
    for price in prices:
        found.setdefault(folded(price.item.removeprefix("print ")), price.each / price.pack)
    return found


def delivered(size: StockSize, width_mm: float, height_mm: float) -> StockSize:
    """The same size with the sides the lab really delivers, mm."""
    short, long = sorted((width_mm, height_mm))
    return replace(size, width_mm=short, height_mm=long, list="own")
