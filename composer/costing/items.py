"""Things that are bought: their ids, what they are called, in which kind of shop they are found.

A price row names a thing by its id (``strips-medium``), by the name the program shows ("strips,
medium") or by the same words in another order ("medium strips"). Kinds of shops are generic: which
shop it is, the person knows.
"""

import re
from collections.abc import Iterable, Mapping
from functools import cached_property, lru_cache
from typing import Literal

from composer.catalogue.catalogue import Catalogue
from composer.catalogue.names import name_of
from composer.costing.packs import Offer
from composer.model import MoneyNotes
from composer.texts import N_, say, say_many

Group = Literal["print", "frame", "board", "small", "strips", "fixing", "glazing", "paper", "extra"]
Shop = Literal["print-lab", "second-hand", "framing", "hardware", "glass", "stationer", "other"]

SHOP_OF: dict[Group, Shop] = {
    "print": "print-lab",
    "frame": "second-hand",
    "board": "framing",
    "strips": "hardware",
    "fixing": "hardware",
    "small": "hardware",
    "glazing": "glass",
    "paper": "stationer",
    "extra": "other",
}

SHOPS: tuple[Shop, ...] = ("print-lab", "second-hand", "framing", "hardware", "glass", "stationer", "other")
"""In the order of the shopping list: what takes longest to come is ordered first."""

_SHOP_NAMES: dict[Shop, str] = {
    "print-lab": N_("Print lab"),
    "second-hand": N_("Frames, second-hand or new"),
    "framing": N_("Framing shop"),
    "hardware": N_("Hardware shop"),
    "glass": N_("Glass cutter"),
    "stationer": N_("Stationer"),
    "other": N_("Anywhere"),
}

FRAME, PAPER = "frame", "paper"
BUMPER, WIPE, TAPE = "bumper", "wipe", "hinging-tape"
FILLER, SANDPAPER, PAINT = "filler", "sandpaper", "touch-up-paint"

_SMALL_NAMES = {
    FRAME: N_("frame"),
    PAPER: N_("paper for the templates"),
    BUMPER: N_("bumpers, felt or clear, 10 mm across"),
    WIPE: N_("alcohol wipes"),
    TAPE: N_("hinging tape, gummed paper, metres"),
    FILLER: N_("filler, fine, small tube"),
    SANDPAPER: N_("sandpaper, fine, 180 grit"),
    PAINT: N_("paint of the wall, a small pot"),
}

_WORDS = re.compile(r"[^\W_]+")


def shop_name(shop: Shop) -> str:
    """A kind of shop, in generic words."""
    return say(_SHOP_NAMES[shop])


def item_name(group: Group, item: str, catalogue: Catalogue) -> str:
    """What a thing is called on the shopping list."""
    if group == "strips":
        for strip in catalogue.strip_classes.values():
            if strip.id == item:
                return say("{name}, for {rating} kg a pair", name=name_of(strip), rating=f"{strip.rating_kg:g}")
    if group == "fixing" and item in catalogue.fixings:
        return name_of(catalogue.fixings[item])
    if group == "glazing" and item in catalogue.glazing:
        return say("{glazing}, cut to size", glazing=name_of(catalogue.glazing[item]))
    return say(_SMALL_NAMES[item]) if item in _SMALL_NAMES else item


def counted(group: Group, item: str, count: int) -> str:
    """A number of a thing in the shop's own units: "3 hooks", "6 pairs", "1 board"."""
    if group == "strips":
        return say_many("{count} pair", "{count} pairs", count)
    if group == "board":
        return say_many("{count} board", "{count} boards", count)
    if group == "print":
        return say_many("{count} print", "{count} prints", count)
    if group == "glazing" or item == PAPER:
        return say_many("{count} sheet", "{count} sheets", count)
    if item == TAPE:
        return say_many("{count} m", "{count} m", count)
    return str(count)


@lru_cache(maxsize=4096)
def item_key(text: str) -> tuple[str, ...]:
    """The words of a thing's name, so that their order, capitals, signs and plurals do not matter."""
    plain = re.sub(r"(?<=\d)\s*[x×]\s*(?=\d)", "x", text.casefold())
    plain = re.sub(r"(?<=\d)\s+(?=(?:mm|cm|in)\b)", "", plain)
    words = _WORDS.findall(plain)
    return tuple(sorted(word[:-1] if len(word) > 3 and word.endswith("s") else word for word in words))


class PriceBook:
    """The project's prices and what is in its drawer, found by any of a thing's names."""

    def __init__(self, money: MoneyNotes) -> None:
        self._money = money

    @cached_property
    def _offers(self) -> dict[tuple[str, ...], list[Offer]]:
        found: dict[tuple[str, ...], list[Offer]] = {}
        for price in self._money.prices:
            found.setdefault(item_key(price.item), []).append(Offer(price.each, price.pack))
        return found

    @cached_property
    def _drawer(self) -> dict[tuple[str, ...], int]:
        found: dict[tuple[str, ...], int] = {}
        for one in self._money.in_drawer:
            key = item_key(one.item)
            found[key] = found.get(key, 0) + one.count
        return found

    def offers(self, names: Iterable[str]) -> tuple[Offer, ...]:
        """What the thing is sold in, by the first of its names that has a price; empty where nobody knows it."""
        return next((tuple(self._offers[key]) for key in map(item_key, names) if key in self._offers), ())

    def in_drawer(self, names: Iterable[str]) -> int:
        """How many of it are at home."""
        return Drawer(self._drawer).left(names)

    def drawer(self) -> "Drawer":
        """What is at home, to be taken from."""
        return Drawer(self._drawer)

    def unused(self, names: Iterable[str]) -> tuple[str, ...]:
        """Items with a price that no need has any of these names for."""
        known = {item_key(name) for name in names}
        return tuple(dict.fromkeys(price.item for price in self._money.prices if item_key(price.item) not in known))


class Drawer:
    """What is at home while needs are covered from it: nothing is taken twice."""

    def __init__(self, counts: Mapping[tuple[str, ...], int]) -> None:
        self._counts = dict(counts)

    def left(self, names: Iterable[str]) -> int:
        """How many of a thing are left, by any of its names."""
        return sum(self._counts.get(key, 0) for key in dict.fromkeys(map(item_key, names)))

    def take(self, names: Iterable[str], count: int) -> None:
        """Takes so many out, as far as they go."""
        for key in dict.fromkeys(map(item_key, names)):
            taken = min(count, self._counts.get(key, 0))
            if taken:
                self._counts[key] -= taken
                count -= taken


def names_of(group: Group, item: str, catalogue: Catalogue) -> tuple[str, ...]:
    """The names a price row may call a thing by; the id first."""
    names = [item]
    if group == "strips":
        names += [f"{item} pair", item.replace("strips", "strip pairs")]
        names += [name_of(strip) for strip in catalogue.strip_classes.values() if strip.id == item]
    elif group == "fixing" and item in catalogue.fixings:
        names.append(name_of(catalogue.fixings[item]))
    elif group == "glazing":
        names += [f"glazing:{item}", f"{item} cut to size"]
        if item in catalogue.glazing:
            names.append(name_of(catalogue.glazing[item]))
    elif item in _SMALL_NAMES:
        names.append(say(_SMALL_NAMES[item]).partition(",")[0])
    return tuple(dict.fromkeys(names))
