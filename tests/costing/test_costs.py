"""Costs of whole projects against budgets worked out by hand, to the cent."""

from decimal import Decimal

import msgspec
import pytest

from composer.costing.costs import Costs, costs_of, rows_of
from composer.costing.scenarios import break_even, side_by_side
from composer.model import (
    Choice,
    EvenBorders,
    Extra,
    Frame,
    HardwareChoice,
    InDrawer,
    Mat,
    MatLayer,
    PictureUse,
    Piece,
    Project,
    Scenario,
)
from composer.units import Length
from tests.costing.projects import euro, piece, price, project


def line(costs: Costs, item: str) -> tuple[Decimal, Decimal, int]:
    """Cost, used up and left over of the rows of one item."""
    rows = [row for row in rows_of(costs) if row.line.need.item == item]
    return (
        sum((r.cost for r in rows), euro("0")),
        sum((r.used for r in rows), euro("0")),
        sum(r.left_over for r in rows),
    )


def eight_frames(price_each: str) -> Project:
    """Eight frames, eight prints at 2.70, all on medium strips: seven with two pairs, one with four: 18 pairs.

    A pack holds twelve pairs at 11.40. One pair is in the drawer, so 17 are to be bought.
    """
    pieces = [piece(n, price=euro(price_each), print_price="2.70") for n in range(1, 8)]
    pieces.append(piece(8, price=euro(price_each), print_price="2.70", hanger={"strip_pairs": 4}))
    return project(
        *pieces,
        prices=(price("strips-medium", "11.40", 12),),
        in_drawer=(InDrawer(item="strips-medium", count=1),),
    )


def test_each_frame_lacks_a_price_of_its_own() -> None:
    """Two frames of no price are two prices to ask for; all else asks once for each item."""
    costs = costs_of(project(piece(1), piece(2)))
    lacking = {(need.group, need.item): need.count for need in costs.unpriced}
    assert lacking["frame", "frame"] == 2
    assert costs.prices_lacking == len(lacking) + 1


def test_the_budget_of_eight_second_hand_frames() -> None:
    """By hand: frames 8 · 3.50 = 28.00; prints 8 · 2.70 = 21.60; 17 pairs are two packs, 22.80.

    To pay 28.00 + 21.60 + 22.80 = 72.40. Used up: of the strips 11.40 · 17 / 12 = 16.15, so 65.75.
    """
    costs = costs_of(eight_frames("3.50"))
    assert costs.total == euro("72.40")
    assert costs.used == euro("65.75")
    assert costs.left_worth == euro("6.65")
    assert line(costs, "strips-medium") == (euro("22.80"), euro("16.15"), 7)
    assert line(costs, "frame") == (euro("28.00"), euro("28.00"), 0)
    assert costs.unpriced == ()


def test_break_even_with_the_same_prints_and_strips_is_the_new_frames_price() -> None:
    """By hand: (8 · 12.00 + rest − rest) / 8 = 12.00, whatever the rest costs."""
    assert break_even(costs_of(eight_frames("3.50")), costs_of(eight_frames("12.00"))) == euro("12.00")
    assert break_even(costs_of(project(piece(1, owned=True))), costs_of(eight_frames("12.00"))) is None


def test_break_even_counts_what_else_differs() -> None:
    """By hand: second-hand frames that need a sheet of acrylic at 2.40 each pay off up to 12.00 − 2.40 = 9.60."""
    old = eight_frames("3.50")
    sheets = (price("acrylic", "2.40"), *old.money.prices)
    bare = msgspec.structs.replace(old, money=msgspec.structs.replace(old.money, prices=sheets))
    assert costs_of(bare).of_group("glazing") == euro("19.20")
    assert break_even(costs_of(bare), costs_of(eight_frames("12.00"))) == euro("9.60")


def own_budget() -> Project:
    """Six pieces of every kind; see the test for the sums."""
    nail = HardwareChoice(fixing="hook-one-nail", count=1)
    pair = HardwareChoice(fixing="hook-one-nail", count=2)
    return project(
        piece(1, owned=True),
        piece(2, kind="strips", kg=1.1, price=euro("4.25"), print_price="1.99"),
        piece(3, kind="sawtooth", price=euro("4.25"), hardware=nail, hanger={"drop": None}, print_price="1.99"),
        piece(4, kind="d-rings", price=euro("9.90"), hardware=pair, print_price="3.49"),
        piece(5, kind="strips", owned=True, print_price="3.49", stage="print-here"),
        piece(6, kind="ledge", price=euro("0.50")),
        budget=euro("45.00"),
        prices=(
            price("strips, medium", "4.95", 4),
            price("One-nail hooks", "1.90", 2),
            price("hook-one-nail", "6.50", 10),
            price("bumpers", "1.80", 16),
            price("tea", "3.00"),
        ),
        in_drawer=(InDrawer(item="wipe", count=4),),
        extras=(Extra(what="pencil", each=euro("0.85"), count=2),),
    )


def test_a_budget_of_our_own_agrees_to_the_cent() -> None:
    """Worked by hand, prices invented.

    Frames not owned: 2 and 3 at 4.25, 4 at 9.90, 6 at 0.50: 8.50 + 9.90 + 0.50 = 18.90, all used up.
    Prints: 2, 3 at 1.99, 4 at 3.49; that of 5 is here: 3.98 + 3.49 = 7.47, all used up.
    Strips: 1, 2 and 5 take two pairs each, 6 pairs, packs of 4 at 4.95: two packs, 9.90; 2 pairs left;
      used up 4.95 · 6 / 4 = 7.425.
    Hooks: 1 + 2 = 3, two packs of 2 at 1.90 are 3.80 (ten for 6.50 are dearer); 1 left; used 1.90 · 3 / 2 = 2.85.
    Bumpers: two each for 3 and 4, one pack of 16 at 1.80; 12 left; used 1.80 · 4 / 16 = 0.45.
    Wipes: two each for 1, 2 and 5: six, four of them in the drawer and no price: not in the sum.
    Extras: 2 · 0.85 = 1.70.
    To pay: 18.90 + 7.47 + 9.90 + 3.80 + 1.80 + 1.70 = 43.57; 1.43 to spare of 45.00.
    Used up: 18.90 + 7.47 + 7.425 + 2.85 + 0.45 + 1.70 = 38.795, half up 38.80.
    """
    costs = costs_of(own_budget())
    assert costs.of_group("frame") == euro("18.90")
    assert costs.of_group("print") == euro("7.47")
    assert line(costs, "strips-medium") == (euro("9.90"), euro("7.43"), 2)
    assert line(costs, "hook-one-nail") == (euro("3.80"), euro("2.85"), 1)
    assert line(costs, "bumper") == (euro("1.80"), euro("0.45"), 12)
    assert line(costs, "pencil") == (euro("1.70"), euro("1.70"), 0)
    assert costs.total == euro("43.57")
    assert costs.used == euro("38.80")
    assert costs.to_spare == euro("1.43")
    assert [(need.item, need.count) for need in costs.handy] == [("wipe", 6)]
    assert costs.unused_prices == ("tea",)
    assert [one.cost for one in costs.dearest(3)] == [euro("9.90"), euro("9.90"), euro("8.50")]


def test_what_each_piece_uses_up_adds_up() -> None:
    """Piece 2: 4.25 + 1.99 + 2 of 6 pairs (2.475) + nothing else = 8.715, half up 8.72."""
    costs = costs_of(own_budget())
    assert costs.of_piece(2) == euro("8.72")
    assert costs.of_piece(1) == euro("2.48")
    assert costs.of_piece(99) is None


def test_nothing_is_paid_for_what_is_owned_or_at_home() -> None:
    owned = project(piece(1, owned=True), in_drawer=(InDrawer(item="strips-medium", count=9),))
    costs = costs_of(owned)
    assert (costs.total, costs.used) == (euro("0.00"), euro("0.00"))
    assert line(costs, "strips-medium") == (euro("0.00"), euro("0.00"), 7)


def test_what_has_no_price_is_said_and_not_summed() -> None:
    costs = costs_of(project(piece(1), piece(2, price=euro("3.00"))))
    # Glass 300 − 60 + 12 = 252 × 352 mm: 11 × 14 in (279 × 356) is the smallest print that covers.
    assert [(need.item, need.count) for need in costs.unpriced] == [
        ("11x14in", 2),
        ("frame", 1),
        ("strips-medium", 4),
    ]
    assert costs.total == euro("3.00")


def test_two_half_strips_are_one() -> None:
    """A pair cut lengthwise makes two half pairs: three pieces with two half pairs each take three pairs."""
    pieces = [piece(n, kg=0.3, owned=True, hanger={"strip_half": True, "strip_size": "medium"}) for n in (1, 2, 3)]
    costs = costs_of(project(*pieces, prices=(price("strips-medium", "4.00", 4),)))
    (strips,) = costs.lines
    assert (strips.need.count, strips.left_over, strips.cost) == (3, 1, euro("4.00"))


@pytest.mark.parametrize("words", ["strips-medium", "Strips, medium", "medium strips", "STRIPS MEDIUM"])
def test_a_price_is_found_by_id_or_name(words: str) -> None:
    assert costs_of(project(piece(1, owned=True), prices=(price(words, "5.00", 4),))).total == euro("5.00")


def test_scenarios_stand_side_by_side_on_equal_terms() -> None:
    """By hand: new frames at 12.00 for 3.50 cost 8 · 8.50 = 68.00 more; all else stays."""
    choices = tuple(Choice(of="frame-price", piece=f"p{n}", value="12.00") for n in range(1, 9))
    old = eight_frames("3.50")
    both = msgspec.structs.replace(
        old, money=msgspec.structs.replace(old.money, scenarios=(Scenario(name="new frames", choices=choices),))
    )
    now, new = side_by_side(both)
    assert (now.costs.total, new.costs.total) == (euro("72.40"), euro("140.40"))
    assert new.difference == euro("68.00")
    assert new.of("strips") == now.of("strips")


def test_mixed_packs_are_a_row_each() -> None:
    """By hand: 13 hooks from packs of 12 at 10.00 and 4 at 4.00: one of each; 3 left of the small one, 1.00 used."""
    pieces = [
        piece(n, kind="sawtooth", owned=True, hardware=HardwareChoice(fixing="hook-slim", count=1))
        for n in range(1, 14)
    ]
    prices = (price("hook-slim", "10.00", 12), price("hook-slim", "4.00", 4))
    large, small = rows_of(costs_of(project(*pieces, prices=prices)))
    assert (large.each, large.pack, large.packs, large.used, large.left_over) == (euro("10"), 12, 1, euro("10"), 0)
    assert (small.each, small.pack, small.packs, small.used, small.left_over) == (euro("4"), 4, 1, euro("1"), 3)


def matted(number: int, width_in: float, height_in: float) -> Piece:
    """A piece whose glass is so large, with a mat whose window is only 2 in across; its print is here."""
    glass = {"glass_width": Length.from_text(f"{width_in:g} in"), "glass_height": Length.from_text(f"{height_in:g} in")}
    outside = {"width": Length.from_text(f"{width_in + 2:g} in"), "height": Length.from_text(f"{height_in + 2:g} in")}
    mat = Mat(
        layers=(MatLayer(board="mat-4-ply", colour="white"),),
        borders=EvenBorders(border=Length.from_text(f"{min(width_in, height_in) / 2 - 1:g} in")),
    )
    return piece(number, kind="ledge", owned=True, stage="print-here", frame={**outside, **glass}, mat=mat)


def test_mats_are_charged_by_their_share_of_a_board() -> None:
    """By hand: 2 of 8 × 10, 2 of 11 × 14, 16 × 20 and 12 × 12 in are 932 of the 1 280 in² of one 32 × 40 in sheet.

    At 7.20 a sheet: to pay 7.20, used up 7.20 · 932 / 1280 = 5.2425, so 5.24. The 16 × 20 alone: 7.20 · 320 / 1280.
    """
    sizes = [(8, 10), (8, 10), (11, 14), (11, 14), (16, 20), (12, 12)]
    pieces = [matted(number, *size) for number, size in enumerate(sizes, 1)]
    costs = costs_of(project(*pieces, prices=(price("mat-4-ply white", "7.20"),)))
    (board,) = costs.lines
    assert (board.need.item, board.need.count) == ("mat-4-ply white 32x40in", 1)
    assert board.cost == euro("7.20")
    assert costs.used == euro("5.24")
    assert costs.of_piece(5) == euro("1.80")


def test_one_board_in_the_drawer_serves_one_colour_only() -> None:
    """Two mats of two colours take a board each; one board of any colour is at home: one is bought."""
    white, grey = matted(1, 11, 14), matted(2, 11, 14)
    assert grey.mat is not None
    layer = MatLayer(board="mat-4-ply", colour="grey")
    grey = msgspec.structs.replace(grey, mat=msgspec.structs.replace(grey.mat, layers=(layer,)))
    at_home = (InDrawer(item="mat-4-ply", count=1),)
    costs = costs_of(project(white, grey, prices=(price("mat-4-ply", "7.20"),), in_drawer=at_home))
    assert costs.of_group("board") == euro("7.20")


def test_a_print_no_stock_covers_is_named_in_the_projects_units() -> None:
    """A frame 60 in wide has glass of 59 3/4 in, more than any stock sheet has."""
    wide = Frame(
        width=Length.from_text("60 in"),
        height=Length.from_text("30 in"),
        lip=Length.from_text("1/4 in"),
        glass_width=Length.from_text("59 3/4 in"),
        glass_height=Length.from_text("29 3/4 in"),
    )
    uses = (PictureUse(picture="i900"),)
    own = msgspec.structs.replace(piece(1), frame=wide, uses=uses, current_use=0)
    inches = msgspec.structs.replace(project(own), units="imperial")
    labels = [one.label for one in costs_of(inches).unpriced]
    assert "Print 59\u00a03/4\u00a0in × 29\u00a03/4\u00a0in" in labels
