"""Whole packs against sums done by hand and against trying every combination."""

import itertools
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from composer.costing.packs import Offer, cents, cheapest

PACK_OF_28 = Offer(Decimal("9.80"), 28)


@pytest.mark.parametrize(("need", "packs", "left"), [(14, 1, 14), (28, 1, 0), (29, 2, 27), (0, 0, 0)])
def test_packs_are_whole(need: int, packs: int, left: int) -> None:
    """By the definition of rounding up: ceil(14/28), ceil(28/28), ceil(29/28), and nothing for no need."""
    purchase = cheapest(need, [PACK_OF_28])
    assert (purchase.packs, purchase.left_over) == (packs, left)
    assert purchase.cost == packs * Decimal("9.80")


def test_seventeen_pairs_in_packs_of_twelve() -> None:
    """By hand: two packs of 12 at 11.40 are 22.80; 17 of 24 pairs used are 11.40 · 17 / 12 = 16.15; 7 are left."""
    purchase = cheapest(17, [Offer(Decimal("11.40"), 12)])
    assert purchase.packs == 2
    assert purchase.cost == Decimal("22.80")
    assert cents(purchase.used) == Decimal("16.15")
    assert purchase.left_over == 7


def test_mixed_packs_are_chosen_by_what_is_paid_in_all() -> None:
    """By hand, 4 for 4.00 (1.00 a piece), 12 for 10.00 (0.83 a piece): 13 cost 14.00 mixed, 16.00 or 20.00 alone;
    for 4 the small pack is cheaper although each piece in it is dearer."""
    offers = [Offer(Decimal(4), 4), Offer(Decimal(10), 12)]
    mixed = cheapest(13, offers)
    assert mixed.cost == Decimal(14)
    assert [(one.offer.pack, one.packs) for one in mixed.bought] == [(12, 1), (4, 1)]
    assert mixed.left_over == 3
    assert mixed.used == 10 + Fraction(1)  # the large pack, and one of the four
    assert cheapest(4, offers).cost == Decimal(4)


def test_what_is_in_the_drawer_costs_nothing() -> None:
    purchase = cheapest(10, [Offer(Decimal("1.90"), 5)], in_drawer=6)
    assert (purchase.from_drawer, purchase.packs, purchase.cost, purchase.left_over) == (6, 1, Decimal("1.90"), 1)
    covered = cheapest(3, [], in_drawer=5)
    assert (covered.from_drawer, covered.cost, covered.used) == (3, Decimal(0), Fraction(0))


def test_a_need_nothing_covers_is_refused() -> None:
    with pytest.raises(ValueError, match="offer"):
        cheapest(1, [])


money = st.decimals(min_value=Decimal("0.01"), max_value=20, places=2)


@given(st.integers(0, 40), st.lists(st.tuples(money, st.integers(1, 15)), min_size=1, max_size=3))
def test_no_combination_of_packs_is_cheaper(need: int, listed: list[tuple[Decimal, int]]) -> None:
    offers = [Offer(*one) for one in listed]
    ranges = [range(-(-need // offer.pack) + 1) for offer in offers]
    covering = [
        (sum(count * offer.each for count, offer in zip(counts, offers, strict=True)), things - need)
        for counts in itertools.product(*ranges)
        if (things := sum(count * offer.pack for count, offer in zip(counts, offers, strict=True))) >= need
    ]
    purchase = cheapest(need, offers)
    assert (purchase.cost, purchase.left_over) == min(covering)
    assert 0 <= purchase.used <= purchase.cost


def test_cents_are_rounded_half_up_once() -> None:
    assert cents(Fraction(1, 200)) == Decimal("0.01")
    assert cents(Fraction(1, 3)) == Decimal("0.33")
    assert cents(Decimal("2.675")) == Decimal("2.68")
    assert str(cents(Fraction(7))) == "7.00"


def test_of_purchases_at_one_price_the_one_with_least_left_over_then_fewest_packs() -> None:
    """By hand, for 6: two packs of 3 or one of 6 or one of 8, all 4.00; nothing is left of the first two, one pack wins."""
    offers = [Offer(Decimal(2), 3), Offer(Decimal(4), 6), Offer(Decimal(4), 8)]
    found = cheapest(6, offers)
    assert [(one.offer.pack, one.packs) for one in found.bought] == [(6, 1)]
    assert (found.cost, found.left_over, found.packs) == (Decimal(4), 0, 1)
    # For 5 there is no choice without a rest: 6 leaves one, 8 leaves three.
    assert [(one.offer.pack, one.packs) for one in cheapest(5, offers).bought] == [(6, 1)]


def test_one_is_in_a_pack_where_nothing_else_is_said() -> None:
    assert cheapest(3, [Offer(Decimal("0.50"))]).packs == 3
    assert (cheapest(0, []).from_drawer, cheapest(0, []).left_over) == (0, 0)
