"""The rows of the costs: what is needed, shop by shop, in an order that typing a price does not change."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from composer.catalogue import catalogue as catalogues
from composer.costing.costs import Costs, Line
from composer.costing.items import SHOP_OF, SHOPS, PriceBook, Shop, counted, item_name, names_of
from composer.costing.need import Need
from composer.costing.packs import Offer
from composer.costing.shown import show_money, show_numbers
from composer.model import Key, Project
from composer.texts import say, say_many

MOST_FRAMES = 60
"""Of more frames that are to be bought those of one price share a row: nobody reads a hundred rows of frames."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One row.

    Attributes:
        key: what it is, the same before and after it has a price.
        name: what it is called.
        line: what covers it; None while nobody knows its price.
        piece: the frame's own piece: each frame has a row.
        handy: usually at home already; bought only where it has a price.
    """

    key: tuple[str, ...]
    shop: Shop
    need: Need
    name: str
    line: Line | None = None
    piece: Key | None = None
    handy: bool = False

    @property
    def own_price(self) -> bool:
        """Whether its price stands with the thing itself: a frame's, a print's, an extra's."""
        return self.need.each is not None

    @property
    def to_pay(self) -> Decimal | None:
        """What is to be paid; None while nobody knows."""
        if self.line is None:
            return None
        if self.piece is not None:
            return self.need.each if self.need.each is not None else self.line.cost / self.line.need.count
        return self.line.cost


def entries_of(project: Project, costs: Costs) -> list[Entry]:
    """All rows but extras, which have rows of their own; what is usually at home comes last in its shop."""
    known = catalogues.of(project.catalogue)
    found: list[Entry] = []
    needs = [*(line.need for line in costs.lines), *costs.unpriced]
    single = sum(need.count for need in needs if need.group == "frame") <= MOST_FRAMES
    for line in costs.lines:
        found += _entries(project, line.need, line.name, line, single=single)
    for need in costs.unpriced:
        name = need.label or item_name(need.group, need.item, known)
        found += _entries(project, need, name, None, single=single)
    for need in costs.handy:
        name = need.label or item_name(need.group, need.item, known)
        found += [replace(one, handy=True) for one in _entries(project, need, name, None)]
    groups = list(SHOP_OF)
    found.sort(key=lambda one: (SHOPS.index(one.shop), groups.index(one.need.group), one.need.pieces, one.name))
    return found


def _entries(project: Project, need: Need, name: str, line: Line | None, *, single: bool = True) -> list[Entry]:
    if need.group == "extra":
        return []
    shop = SHOP_OF[need.group]
    if need.group != "frame" or not single:
        # A print with a price of its own and one without are two rows of one item.
        own = () if need.each is None else (str(need.each),)
        return [Entry((need.group, need.item, *own), shop, need, _capital(name), line)]
    rows = []
    for number, _ in need.shares:
        piece = project.piece_by_number[number]
        alone = replace(need, count=1, shares=((number, 1),))
        words = say("Frame {number} {name}", number=number, name=piece.name) if piece.name else None
        rows.append(
            Entry(
                ("frame", piece.key), shop, alone, words or say("Frame {number}", number=number), line, piece=piece.key
            )
        )
    return rows


def _capital(name: str) -> str:
    return name[:1].upper() + name[1:]


def names_for(project: Project, need: Need) -> tuple[str, ...]:
    """All names a price row may call a need by."""
    return need.also or names_of(need.group, need.item, catalogues.of(project.catalogue))


def offers_for(project: Project, need: Need) -> tuple[Offer, ...]:
    """What the thing is sold in, as typed so far."""
    return PriceBook(project.money).offers(names_for(project, need))


def at_home(project: Project, need: Need) -> int:
    """How many of it are in the drawer."""
    return PriceBook(project.money).in_drawer(names_for(project, need))


def note_of(entry: Entry, currency: str) -> str:
    """Below the name: how many for which pieces, what to buy, what becomes of it."""
    need, line = entry.need, entry.line
    words: list[str] = []
    if entry.piece is None:
        count = counted(need.group, need.item, need.count)
        pieces = show_numbers(need.pieces)
        words.append(
            say("{count} for {pieces}.", count=count, pieces=pieces)
            if need.pieces
            else say("{count} in all.", count=count)
        )
    if line is None:
        if entry.handy:
            words.append(say("Usually at home; it counts once it has a price."))
        elif need.at_home:
            words.append(say_many("{count} at home.", "{count} at home.", need.at_home))
        return " ".join(words)
    if entry.piece is None:
        words += _bought(line, currency)
        if entry.own_price:
            words.append(
                say("The price stands with each piece.")
                if need.group == "frame"
                else say("Its price stands with the picture.")
            )
    return " ".join(words)


def _bought(line: Line, currency: str) -> list[str]:
    purchase, words = line.purchase, []
    if purchase.from_drawer:
        words.append(
            say("All at home.")
            if purchase.from_drawer == purchase.need
            else say_many("{count} at home.", "{count} at home.", purchase.from_drawer)
        )
    packs = " + ".join(
        f"{one.packs}\u00a0×\u00a0{one.offer.pack}" if one.offer.pack > 1 else str(one.packs) for one in purchase.bought
    )
    if packs:
        words.append(say("Buy {packs}.", packs=packs))
    if line.left_worth > 0 and purchase.bought:
        used = show_money(Decimal(line.used.numerator) / Decimal(line.used.denominator), currency)
        worth = show_money(Decimal(line.left_worth.numerator) / Decimal(line.left_worth.denominator), currency)
        if purchase.left_over:
            left = counted(line.need.group, line.need.item, purchase.left_over)
            words.append(say("{used} used up; {left} left over, worth {worth}.", used=used, left=left, worth=worth))
        else:
            words.append(say("{used} used up; the rest is worth {worth}.", used=used, worth=worth))
    return words
