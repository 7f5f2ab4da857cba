"""Whole packs: how many to buy of which, what that costs, what is used up and what is left over.

Packs are chosen by what is paid in all, not by what one costs in each: two small packs may be
cheaper than a large one with a better price per piece. Money is exact (Decimal and Fraction) and
rounded half up to the cent only when it is shown.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import NamedTuple

CENT = Decimal("0.01")
NOTHING = Decimal(0)


class Offer(NamedTuple):
    """What a shop sells: ``pack`` of a thing together for ``each``."""

    each: Decimal
    pack: int = 1


class Bought(NamedTuple):
    """So many packs of one offer."""

    offer: Offer
    packs: int

    @property
    def cost(self) -> Decimal:
        """What they cost."""
        return self.offer.each * self.packs

    @property
    def things(self) -> int:
        """How many things are in them."""
        return self.offer.pack * self.packs


@dataclass(frozen=True, slots=True)
class Purchase:
    """What is bought so that a need is covered.

    Attributes:
        need: how many are needed.
        from_drawer: how many of them are already at home; nothing is paid for these.
        bought: packs of each offer taken, largest packs first.
        left_over: how many of what was bought are not needed.
    """

    need: int
    from_drawer: int = 0
    bought: tuple[Bought, ...] = ()
    left_over: int = 0

    @property
    def cost(self) -> Decimal:
        """To pay."""
        return sum((one.cost for one in self.bought), NOTHING)

    @property
    def packs(self) -> int:
        """How many packs, of all offers."""
        return sum(one.packs for one in self.bought)

    @property
    def used(self) -> Fraction:
        """Money's worth of what is used up: all that is paid but the share of what is left over.

        What is left over lies in the smallest pack bought: were there more, that pack would not
        have been bought.
        """
        if not self.bought:
            return Fraction(0)
        smallest = min((one.offer for one in self.bought), key=lambda offer: offer.pack)
        return Fraction(self.cost) - Fraction(smallest.each) * self.left_over / smallest.pack


def cheapest(need: int, offers: Iterable[Offer], in_drawer: int = 0) -> Purchase:
    """The packs that cover a need for the least money; what is in the drawer is used first.

    Of several purchases at the same price the one that leaves least over, then with fewest packs.
    Exact: dynamic programming over how many are still missing.

    Args:
        need: how many are needed, 0 or more.
        offers: at least one, unless the drawer covers the need.
        in_drawer: how many are at home.

    Raises:
        ValueError: for a need nothing covers.
    """
    from_drawer = min(need, in_drawer)
    missing = need - from_drawer
    if missing <= 0:
        return Purchase(need, from_drawer)
    choices = sorted(set(offers), key=lambda offer: (-offer.pack, offer.each))
    if not choices:
        raise ValueError("nothing is on offer")
    counts = _fewest_money(missing, choices)
    bought = tuple(Bought(offer, count) for offer, count in zip(choices, counts, strict=True) if count)
    left_over = sum(one.things for one in bought) - missing
    return Purchase(need, from_drawer, bought, left_over)


class _Best(NamedTuple):
    """The best way to cover a number: compared by money, then things, then packs."""

    cost: Decimal
    things: int
    packs: int
    last: int


def _fewest_money(missing: int, choices: Sequence[Offer]) -> list[int]:
    best = [_Best(NOTHING, 0, 0, -1)]
    for wanted in range(1, missing + 1):
        ways = []
        for place, offer in enumerate(choices):
            before = best[max(0, wanted - offer.pack)]
            ways.append(
                _Best(before.cost + offer.each, before.things + offer.pack, before.packs + 1, place),
            )
        best.append(min(ways))
    counts = [0] * len(choices)
    while missing > 0:
        place = best[missing].last
        counts[place] += 1
        missing -= choices[place].pack
    return counts


def cents(amount: Fraction | Decimal) -> Decimal:
    """An amount to the cent, half up."""
    if isinstance(amount, Decimal):
        return amount.quantize(CENT, ROUND_HALF_UP)
    hundredths = (amount * 100 + Fraction(1, 2)).__floor__()
    return Decimal(hundredths) / 100 + Decimal("0.00")
