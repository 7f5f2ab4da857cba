"""Money edits: one step each, taken back as one, refused with a sentence."""

from decimal import Decimal

import msgspec
import pytest

from composer.costing.alternatives import alternatives
from composer.costing.costs import costs_of
from composer.editing.edits import EditRefused
from composer.editing.money_edits import (
    delete_scenario,
    into_drawer,
    keep_scenario,
    record_paid,
    record_paid_list,
    set_extras,
    set_in_drawer,
    set_price,
    take_alternative,
    take_choices,
    take_scenario,
)
from composer.editing.rehang_edits import new_picture, swap_picture
from composer.model import Choice, Extra, InDrawer, Price, Project
from tests.costing.projects import euro, piece, price, project


def wall() -> Project:
    """Three pieces on two pairs each, strips in fours at 4.95, hooks in fives at 1.90: 9.90 to pay."""
    return project(
        *(piece(n, owned=True) for n in (1, 2, 3)),
        wall={"surface": "painted-board"},
        prices=(price("strips-medium", "4.95", 4), price("hook-one-nail", "1.90", 5)),
    )


def test_taking_a_cheaper_way_saves_what_it_promised() -> None:
    start = wall()
    one = alternatives(start)[0]
    edit = take_alternative(start, one)
    after = edit.run(start)
    assert costs_of(start).total - costs_of(after).total == one.saves == euro("3.05")
    assert edit.text == "1 on a one-nail hook, no strips"
    assert after.pieces[0].hanger.kind == "sawtooth"
    assert start.pieces[0].hanger.kind == "strips", "the old value is what undo goes back to"


def test_a_choice_that_is_so_already_changes_nothing() -> None:
    start = wall()
    same = take_choices("glazing", [Choice(of="glazing", piece="p1", value="acrylic")])
    assert same.run(start) is start


def test_a_choice_that_means_nothing_is_refused_in_words() -> None:
    with pytest.raises(EditRefused, match="Piece 1 has no mat"):
        take_choices("mat", [Choice(of="mat", piece="p1", value="mat-4-ply white")]).run(wall())
    with pytest.raises(EditRefused, match="not an amount"):
        take_choices("price", [Choice(of="frame-price", piece="p1", value="cheap")]).run(wall())


def test_scenarios_are_kept_taken_and_deleted() -> None:
    dear = keep_scenario("new frames", [Choice(of="frame-price", piece="p1", value="12.00")]).run(wall())
    taken = take_scenario(dear, "new frames").run(dear)
    assert (taken.pieces[0].price, taken.pieces[0].owned) == (euro("12.00"), False)
    assert costs_of(taken).of_group("frame") == euro("12.00")
    gone = delete_scenario("new frames").run(dear)
    assert gone.money.scenarios == ()
    with pytest.raises(EditRefused, match="no longer there"):
        take_scenario(gone, "new frames")


def test_an_items_offers_are_replaced_as_a_whole() -> None:
    start = set_price("Hook-one-nail", [Price(item="hook-one-nail", each=euro("3.00"), pack=10)]).run(wall())
    assert [(one.item, one.pack) for one in start.money.prices] == [("strips-medium", 4), ("hook-one-nail", 10)]
    assert set_price("hook-one-nail", []).run(start).money.prices == start.money.prices[:1]


def test_an_item_is_the_same_however_it_is_written() -> None:
    # The price list calls them "strips-medium"; words in another order, capitals and plurals do not matter.
    start = set_price("Medium strips", [Price(item="Medium strips", each=euro("5.25"), pack=4)]).run(wall())
    assert [(one.item, one.each) for one in start.money.prices] == [
        (one.item, one.each) for one in wall().money.prices if one.item != "strips-medium"
    ] + [("Medium strips", euro("5.25"))]
    here = set_in_drawer("medium strip", 2).run(set_in_drawer("strips-medium", 5).run(wall()))
    assert [(one.item, one.count) for one in here.money.in_drawer] == [("medium strip", 2)]


def test_a_list_that_was_filled_in_is_read_back_as_one_step() -> None:
    before = record_paid("frame", euro("4.00")).run(record_paid("bumper", euro("1.00")).run(wall()))
    after = record_paid_list({"Bumper": euro("1.80"), "filler": euro("3.20")}).run(before)
    assert {one.item: one.amount for one in after.money.paid} == {
        "frame": euro("4.00"),
        "Bumper": euro("1.80"),
        "filler": euro("3.20"),
    }


def test_what_is_left_over_goes_into_the_drawer() -> None:
    start = set_in_drawer("strips-medium", 1).run(wall())
    after = into_drawer([InDrawer(item="Strips-medium", count=3), InDrawer(item="bumper", count=4)]).run(start)
    assert [(one.item, one.count) for one in after.money.in_drawer] == [("strips-medium", 4), ("bumper", 4)]
    assert set_in_drawer("strips-medium", 0).run(start).money.in_drawer == ()


def test_what_was_paid_is_noted_and_taken_back() -> None:
    paid = record_paid("strips-medium", euro("9.50"), "2026-03-01T10:00:00Z").run(wall())
    assert [(one.item, one.amount) for one in paid.money.paid] == [("strips-medium", euro("9.50"))]
    assert record_paid("strips-medium", None).run(paid).money.paid == ()
    with pytest.raises(EditRefused):
        record_paid("strips-medium", Decimal(-1)).run(wall())


def test_extras_cost_what_they_say() -> None:
    start = set_extras([Extra(what="drill bit", each=euro("2.10"), count=2)]).run(wall())
    assert costs_of(start).of_group("extra") == euro("4.20")


def test_swapping_the_picture_keeps_frame_place_and_holes() -> None:
    """The print is to be ordered anew; nothing else of the piece or the wall changes."""
    framed = project(piece(1, owned=True, print_price="2.00", stage="framed"))
    assert costs_of(framed).of_group("print") == 0
    other = new_picture(framed, "p1", "snow.jpg", "winter").run(framed)
    (changed,) = other.pieces
    assert (changed.frame, changed.hanger, changed.mat) == (framed.pieces[0].frame, framed.pieces[0].hanger, None)
    assert (len(changed.uses), changed.current_use, changed.stage) == (2, 1, None)
    assert other.as_hung == framed.as_hung
    assert [picture.path for picture in other.pictures] == ["boats.jpg", "snow.jpg"]
    priced = msgspec.structs.replace(
        other, money=msgspec.structs.replace(other.money, prices=(price("11x14in", "3.10"),))
    )
    assert costs_of(priced).of_group("print") == euro("3.10"), "the glass of 252 × 352 mm takes 11 × 14 in"
    back = swap_picture(other, "p1", 0).run(other)
    assert back.pieces[0].current_use == 0
    with pytest.raises(EditRefused):
        swap_picture(other, "p1", 7).run(other)
