"""Ways to pay less: each sum done by hand, and none that saves nothing."""

from decimal import Decimal
from typing import Any

import msgspec
import pytest

from composer.costing.alternatives import Alternative, alternative_words, alternatives
from composer.costing.choices import BadChoice, with_choices
from composer.costing.costs import costs_of
from composer.costing.left_over import still_hangs
from composer.model import Choice, HardwareChoice, InDrawer, Project
from composer.paper.print_rows import order_lines, print_rows
from tests.costing.projects import euro, mm, piece, price, project

BOARD = {"surface": "painted-board"}


def ways(of: Project) -> dict[str, Alternative]:
    return {one.way: one for one in alternatives(of)}


def five_pairs(**wall: object) -> Project:
    """Three pieces on two pairs each: six pairs, two packs of four at 4.95; one-nail hooks, five for 1.90."""
    return project(
        *(piece(n, owned=True) for n in (1, 2, 3)),
        wall=dict(wall),
        prices=(price("strips-medium", "4.95", 4), price("hook-one-nail", "1.90", 5)),
    )


def test_one_piece_on_a_hook_saves_a_pack_of_strips() -> None:
    """By hand: four pairs are one pack: 9.90 becomes 4.95 + 1.90 = 6.85, so 3.05 less."""
    one = ways(five_pairs(**BOARD))["nail"]
    assert (one.saves, one.value) == (euro("3.05"), "hook-one-nail")
    assert len(one.numbers) == 1
    assert alternative_words(one, five_pairs()) == f"{one.numbers[0]} on a one-nail hook, no strips"


def test_no_hook_where_no_hole_is_allowed_or_the_wall_is_unknown() -> None:
    assert "nail" not in ways(five_pairs(no_holes=True, **BOARD))
    assert "nail" not in ways(five_pairs(surface="unknown"))


def test_acrylic_for_glass_needs_fewer_strips() -> None:
    """By hand: 1.1 kg with glass asks for 2.2 kg, four pairs of medium (3.6); with acrylic 1.65, two pairs (1.8).

    A pack holds two pairs: 2 · 3.00 becomes 1 · 3.00, an owned frame's sheet of acrylic is 1.20: 1.80 less.
    """
    heavy = project(
        piece(1, owned=True, kg=1.1, frame={"glazing": "glass"}),
        prices=(price("strips-medium", "3.00", 2), price("acrylic", "1.20")),
    )
    assert costs_of(heavy).total == euro("6.00")
    one = ways(heavy)["glazing"]
    assert one.saves == euro("1.80")
    after = with_choices(heavy, one.choices)
    assert costs_of(after).total == euro("4.20")
    assert [extra.what for extra in after.money.extras] == ["acrylic, cut to 252 × 352 mm, piece 1"]
    back = with_choices(after, [Choice(of="glazing", piece="p1", value="glass")])
    assert back.money.extras == ()


def test_a_hook_that_is_left_over_serves_another_piece() -> None:
    """By hand: two-nail hooks come in fours, three are needed; the one left over spares a one-nail hook at 1.90."""
    two = HardwareChoice(fixing="hook-two-nails", count=1)
    one = HardwareChoice(fixing="hook-one-nail", count=1)
    pieces = [piece(n, kind="sawtooth", owned=True, hardware=two) for n in (1, 2, 3)]
    pieces.append(piece(4, kind="sawtooth", owned=True, hardware=one))
    found = ways(
        project(*pieces, wall=dict(BOARD), prices=(price("hook-two-nails", "2.20", 4), price("hook-one-nail", "1.90")))
    )["left-over"]
    assert (found.saves, found.numbers, found.value) == (euro("1.90"), (4,), "hook-two-nails")


def test_a_stock_that_covers_is_proposed_for_a_dearer_one() -> None:
    """By hand: a glass of 252 × 352 mm is covered by 11 × 14 in (279.4 × 355.6) at 3.10; 12 × 18 in costs 4.60."""
    shown = piece(1, owned=True, kind="ledge", print_price="9.99")
    use = msgspec.structs.replace(
        shown.uses[0], print=msgspec.structs.replace(shown.uses[0].print, stock="12x18in", price=None)
    )
    dear = project(
        msgspec.structs.replace(shown, uses=(use,)), prices=(price("12x18in", "4.60"), price("11x14in", "3.10"))
    )
    one = ways(dear)["stock"]
    assert (one.saves, one.value) == (euro("1.50"), "11x14in")


def four_small_prints(**money: Any) -> Project:
    """Four frames whose glass is 100 × 150 mm: each print is a 4 × 6 in (101.6 × 152.4)."""
    glass = {"width": mm(140), "height": mm(190), "glass_width": mm(100), "glass_height": mm(150)}
    pieces = [piece(n, owned=True, kind="ledge", frame=glass, print_price="9.99") for n in range(1, 5)]
    shown = []
    for one in pieces:
        (use,) = one.uses
        made = msgspec.structs.replace(use, print=msgspec.structs.replace(use.print, stock=None, price=None))
        shown.append(msgspec.structs.replace(one, uses=(made,)))
    return project(*shown, **money)


def test_four_small_prints_share_one_larger_sheet() -> None:
    """By hand: 11 × 14 in lying is 355.6 × 279.4 mm; 32 mm of white leave 323.6 × 247.4: two by two of 150 × 100.

    Four 4 × 6 in at 1.20 are 4.80, one 11 × 14 in is 3.10: 1.70 less.
    """
    single = four_small_prints(prices=(price("4x6in", "1.20"), price("11x14in", "3.10")))
    assert costs_of(single).total == euro("4.80")
    one = ways(single)["shared"]
    assert (one.saves, one.numbers, one.value) == (euro("1.70"), (1, 2, 3, 4), "11x14in")
    after = with_choices(single, one.choices)
    (line,) = costs_of(after).lines
    assert (line.need.count, line.need.pieces, line.cost) == (1, (1, 2, 3, 4), euro("3.10"))
    assert costs_of(after).of_piece(1) == euro("0.78"), "a quarter of 3.10, half up"
    (ordered,) = order_lines(print_rows(after, after.arrangement, None), after)
    assert (ordered.count, ordered.stock, ordered.each) == (1, "11x14in", euro("3.10"))
    back = with_choices(after, [Choice(of="stock", piece=f"p{n}", value="") for n in range(1, 5)])
    assert costs_of(back).total == euro("4.80")


def test_a_print_that_shares_with_nobody_has_a_sheet_of_its_own() -> None:
    single = four_small_prints(prices=(price("4x6in", "1.20"), price("11x14in", "3.10")))
    alone = with_choices(single, [Choice(of="stock", piece="p1", value="shared 11x14in")])
    assert costs_of(alone).total == euro("4.80")


def test_nothing_is_proposed_that_saves_nothing() -> None:
    """A whole pack is bought either way: one pair less saves nothing at the counter."""
    cheap = project(
        piece(1, owned=True), wall=dict(BOARD), prices=(price("strips-medium", "1.00", 4), price("nail", "1.50"))
    )
    assert alternatives(cheap) == ()


def test_every_saving_is_what_the_costs_really_fall_by() -> None:
    for one in alternatives(five_pairs(**BOARD)):
        base = five_pairs(**BOARD)
        assert costs_of(base).total - costs_of(with_choices(base, one.choices)).total == one.saves
        assert one.saves > Decimal(0)


def test_a_choice_for_a_piece_that_is_gone_is_refused() -> None:
    with pytest.raises(BadChoice, match="no longer there"):
        with_choices(five_pairs(), [Choice(of="glazing", piece="p77", value="acrylic")])
    with pytest.raises(BadChoice, match="not a fixing"):
        with_choices(five_pairs(), [Choice(of="fixing", piece="p1", value="chewing gum")])


def test_what_is_left_over_would_still_hang() -> None:
    """By hand: of two packs with four pairs two are left: 2 · 0.9 kg / 1.5 = 1.2 kg. Hooks: by their load."""
    left = project(
        *(piece(n, owned=True) for n in (1, 2, 3)),
        piece(4, kind="sawtooth", owned=True, hardware=HardwareChoice(fixing="hook-one-nail", count=1)),
        prices=(price("strips-medium", "4.95", 4), price("hook-one-nail", "1.90", 5)),
        in_drawer=(InDrawer(item="hook-one-nail", count=0),),
    )
    strips, hooks = still_hangs(left, costs_of(left))
    assert (strips.count, strips.pieces, strips.pairs) == (2, 1, 2)
    assert strips.carries_kg == pytest.approx(1.2)
    assert (hooks.count, hooks.pieces, hooks.carries_kg) == (4, 4, 6.8)
