"""Costs in the window, by real clicks and keys; every sum is worked out by hand beside it."""

import threading
from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from composer.desktop.cards.wall_card import WallCard
from composer.desktop.main_window import MainWindow
from composer.desktop.money import reckoning
from composer.desktop.money.reckoning import Ways
from composer.desktop.money.window import CostsWindow
from composer.desktop.money.words import amount
from composer.model import (
    Choice,
    Extra,
    HardwareChoice,
    MoneyNotes,
    Picture,
    PictureUse,
    Price,
    PrintChoice,
    Project,
    Scenario,
)
from composer.units import Length
from tests.desktop.conftest import Answers, room_project
from tests.desktop.hands import bring_to_front, button, choose_by_mouse, click, enter, named, press

# Hooks: three are needed (1, 2, 3), a pack of five costs 1.90: 1.90 to pay, 3/5 of it = 1.14 used up, 0.76 left.
# Frame 4 costs 6.00 and brings no glass: a sheet of glass is 5.00, of acrylic 3.00. A spirit level is 8.00.
# Together 1.90 + 6.00 + 5.00 + 8.00 = 20.90; of a budget of 25.00 that leaves 4.10.
PRICES = (
    Price(item="hook-one-nail", each=Decimal("1.90"), pack=5),
    Price(item="glass", each=Decimal("5.00")),
    Price(item="acrylic", each=Decimal("3.00")),
)
MONEY = MoneyNotes(budget=Decimal("25.00"), prices=PRICES, extras=(Extra(what="spirit level", each=Decimal("8.00")),))


def money_project(money: MoneyNotes = MONEY) -> Project:
    hook = HardwareChoice(fixing="hook-one-nail", count=1, hook_offset=Length.from_text("0 mm"))
    replace = msgspec.structs.replace
    pieces = []
    for piece in room_project().pieces:
        if piece.number == 4:
            frame = replace(piece.frame, glazing="glass")
            pieces.append(replace(piece, frame=frame, price=Decimal("6.00"), owned=False))
        else:
            pieces.append(replace(piece, owned=True, hardware=hook))
    return room_project(pieces=tuple(pieces), money=money)


@pytest.fixture
def costs(window: MainWindow, qtbot: QtBot) -> Iterator[CostsWindow]:
    """The window of costs on that project, everything added up."""
    window.opened.open(money_project(), None)
    window.money.costs()
    shown = window.money.shown
    assert shown is not None
    qtbot.waitExposed(shown)
    bring_to_front(qtbot, shown)
    settle(window)
    yield shown
    shown.close()


def settle(window: MainWindow) -> None:
    """Until everything is added up and found."""
    QApplication.processEvents()
    window.money.reckoning.wait()
    QApplication.processEvents()


def test_the_foot_of_the_list_says_what_there_is_to_pay(window: MainWindow, costs: CostsWindow) -> None:
    foot = window.money.foot
    assert foot is not None and foot.isVisible()
    assert foot.accessibleName() == "Costs: €\u00a020.90 to pay, 4.10 to spare"
    costs.close()
    click(foot)
    assert costs.isVisible()


def test_costs_are_in_the_menu(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    choose_by_mouse(qtbot, window, "Arrangement", "costs")
    assert window.money.shown is not None and window.money.shown.isVisible()
    window.money.shown.close()
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_F9)
    assert window.money.shown.isVisible()


def test_the_budget_is_typed_and_undone(window: MainWindow, costs: CostsWindow) -> None:
    assert (costs.to_pay.text(), costs.to_spare.text()) == ("20.90", "4.10")
    enter(named(costs, "Budget"), "20")
    settle(window)
    # 20.90 − 20.00
    assert costs.to_spare.text() == "0.90"
    assert window.money.foot is not None
    assert window.money.foot.accessibleName() == "Costs: €\u00a020.90 to pay, 0.90 over the budget"
    click(costs.close_button)
    window.commands.undo()
    settle(window)
    assert window.opened.project.money.budget == Decimal("25.00")


def test_undo_by_key_works_in_the_window_of_costs(window: MainWindow, costs: CostsWindow) -> None:
    enter(named(costs, "Budget"), "30")
    costs.close_button.setFocus()
    press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.opened.project.money.budget == Decimal("25.00")


def test_each_line_says_what_is_bought_used_up_and_left_over(costs: CostsWindow) -> None:
    row = costs.lines.rows["fixing", "hook-one-nail"]
    assert row.note.text() == "3 for 1 to 3. Buy 1\u00a0×\u00a05. 1.14 used up; 2 left over, worth 0.76."
    assert row.to_pay.text() == "1.90"
    assert costs.left.text() == "0.76"
    assert costs.rest.text().startswith("One-nail hook: 2 for as many hanging points of up to ")


def test_what_has_no_price_asks_for_it_in_place(window: MainWindow, costs: CostsWindow) -> None:
    window.opened.open(money_project(msgspec.structs.replace(MONEY, prices=PRICES[1:])), None)
    settle(window)
    row = costs.lines.rows["fixing", "hook-one-nail"]
    assert row.to_pay.text() == "price?"
    assert "1 thing has no price yet" in costs.lacking.text()
    enter(named(costs, "Price of One-nail hook"), "1.90", end=Qt.Key.Key_Tab)
    enter(named(costs, "In a pack of One-nail hook"), "5")
    settle(window)
    assert costs.lines.rows["fixing", "hook-one-nail"] is row, "the row under the caret must not be made anew"
    assert row.to_pay.text() == "1.90"
    assert not costs.lacking.isVisible()
    assert window.opened.stack.undoText() == "Change the price of “hook-one-nail”"
    assert window.opened.project.money.prices[-1] == PRICES[0]


def test_a_pack_may_be_typed_before_its_price(window: MainWindow, costs: CostsWindow) -> None:
    window.opened.open(money_project(msgspec.structs.replace(MONEY, prices=PRICES[1:])), None)
    settle(window)
    enter(named(costs, "In a pack of One-nail hook"), "5", end=Qt.Key.Key_Tab)
    enter(named(costs, "Price of One-nail hook"), "1.90")
    settle(window)
    assert window.opened.project.money.prices[-1] == PRICES[0]


def test_two_pack_sizes_are_mixed(window: MainWindow, costs: CostsWindow) -> None:
    click(button(costs, "Another pack size of One-nail hook"))
    settle(window)
    QApplication.processEvents()
    enter(named(costs, "In a pack of One-nail hook, pack 2"), "2", end=Qt.Key.Key_Tab)
    enter(named(costs, "Price of One-nail hook, pack 2"), "0.60")
    settle(window)
    # Three hooks: two packs of two at 0.60 are 1.20, cheaper than one of five at 1.90.
    assert costs.lines.rows["fixing", "hook-one-nail"].to_pay.text() == "1.20"
    assert sorted((one.pack, one.each) for one in window.opened.project.money.prices if "hook" in one.item) == [
        (2, Decimal("0.60")),
        (5, Decimal("1.90")),
    ]


def test_a_tick_puts_what_was_bought_into_the_drawer(window: MainWindow, costs: CostsWindow) -> None:
    click(button(costs, "One-nail hook is at home"))
    settle(window)
    assert costs.lines.rows["fixing", "hook-one-nail"].to_pay.text() == "0.00"
    # A whole pack came home.
    assert [(one.item, one.count) for one in window.opened.project.money.in_drawer] == [("hook-one-nail", 5)]
    assert costs.to_pay.text() == "19.00"
    click(button(costs, "One-nail hook is at home"))
    settle(window)
    assert costs.to_pay.text() == "20.90"


def test_some_at_home_are_taken_first(window: MainWindow, costs: CostsWindow) -> None:
    enter(named(costs, "At home of One-nail hook"), "1")
    settle(window)
    assert "1 at home. Buy 1\u00a0×\u00a05." in costs.lines.rows["fixing", "hook-one-nail"].note.text()


def test_a_frame_is_priced_and_had(window: MainWindow, costs: CostsWindow) -> None:
    enter(named(costs, "Price of Frame 4 Frame 4"), "7.50")
    settle(window)
    assert window.opened.project.piece_by_number[4].price == Decimal("7.50")
    assert costs.to_pay.text() == "22.40"  # 20.90 + 1.50
    click(button(costs, "Frame 4 Frame 4 is at home"))
    settle(window)
    assert window.opened.project.piece_by_number[4].owned
    # Without the frame and its glass: 1.90 + 8.00
    assert costs.to_pay.text() == "9.90"


def test_what_was_paid_is_noted(window: MainWindow, costs: CostsWindow) -> None:
    assert costs.paid.text() == "–"
    enter(named(costs, "Paid for One-nail hook"), "2.10")
    settle(window)
    assert costs.paid.text() == "2.10"
    enter(named(costs, "Paid for frames"), "5.00")
    settle(window)
    assert costs.paid.text() == "7.10"


def test_a_wrong_amount_keeps_its_text_and_says_why(window: MainWindow, costs: CostsWindow) -> None:
    field = named(costs, "Price of One-nail hook")
    enter(field, "cheap")
    row = costs.lines.rows["fixing", "hook-one-nail"]
    assert row.message.isVisible() and "cheap" in row.message.text()
    assert window.opened.project == money_project()


def test_a_cheaper_way_is_one_click_and_one_undo(window: MainWindow, costs: CostsWindow) -> None:
    take = button(costs, "Take: 4 with acrylic for glass: lighter, saves 2.00")  # 5.00 − 3.00
    click(take)
    assert window.opened.project.piece_by_number[4].frame.glazing == "acrylic"
    assert window.opened.stack.undoText() == "4 with acrylic for glass: lighter"
    settle(window)
    assert costs.to_pay.text() == "18.90"
    window.commands.undo()
    assert window.opened.project == money_project()


def test_looking_for_ways_never_holds_the_window_up(
    window: MainWindow, costs: CostsWindow, monkeypatch: pytest.MonkeyPatch
) -> None:
    real: Callable[[Project], Ways] = reckoning.ways_of
    go, begun, asked = threading.Event(), threading.Event(), []

    def slow(project: Project) -> Ways:
        asked.append(project)
        begun.set()
        assert go.wait(20)
        return real(project)

    monkeypatch.setattr(reckoning, "ways_of", slow)
    enter(named(costs, "Budget"), "30")
    window.money.reckoning.reckon()
    assert begun.wait(20)
    # It is still looking; the window takes what is typed all the same.
    assert costs.ways.note.text() == "Looking for ways to pay less …"
    enter(named(costs, "Budget"), "31")
    assert window.opened.project.money.budget == Decimal("31.00")
    window.money.reckoning.reckon()
    go.set()
    settle(window)
    found = window.money.reckoning.ways
    assert found is not None and found.project is window.opened.project is asked[-1]
    assert [way.saves for way in found.found] == [Decimal("2.00")]


def test_nobody_looks_for_ways_while_the_window_is_closed(window: MainWindow, costs: CostsWindow) -> None:
    costs.close()
    window.opened.open(money_project(MoneyNotes(budget=Decimal("1.00"))), None)
    settle(window)
    found = window.money.reckoning.ways
    assert found is None or found.project is not window.opened.project


def test_a_scenario_is_kept_compared_taken_and_deleted(window: MainWindow, costs: CostsWindow) -> None:
    costs.resize(1180, 1000)
    enter(named(costs, "Name of the scenario"), "new frames", end=Qt.Key.Key_Tab)
    enter(named(costs, "Every frame still to buy, each"), "12", end=Qt.Key.Key_Tab)
    click(button(costs, "Keep as a scenario"))
    assert window.opened.project.money.scenarios == (
        Scenario(name="new frames", choices=(Choice(of="frame-price", piece="p4", value="12.00"),)),
    )
    settle(window)
    columns = window.money.reckoning.sums
    assert columns is not None and columns.columns is not None
    # 20.90 − 6.00 + 12.00 = 26.90, so 6.00 more; its frame pays off up to 20.90 − 14.90 = 6.00.
    assert [column.costs.total for column in columns.columns] == [Decimal("20.90"), Decimal("26.90")]
    texts = [label.text() for label in costs.table.findChildren(type(costs.to_pay)) if label.isVisible()]
    assert texts.count("6.00") == 3  # how frames stand as it is, the difference, the break-even
    click(costs.table.links["take new frames"])
    assert window.opened.project.piece_by_number[4].price == Decimal("12.00")
    assert window.opened.stack.undoText() == "Take the scenario “new frames”"
    settle(window)
    click(costs.table.links["delete new frames"])
    settle(window)
    assert not window.opened.project.money.scenarios
    assert costs.table.note.text().startswith("None kept yet.")


def test_a_ticked_way_becomes_part_of_a_scenario(window: MainWindow, costs: CostsWindow) -> None:
    click(button(costs, "For a scenario: 4 with acrylic for glass: lighter"))
    enter(named(costs, "Name of the scenario"), "lighter")
    click(button(costs, "Keep as a scenario"))
    (kept,) = window.opened.project.money.scenarios
    assert kept.choices == (Choice(of="glazing", piece="p4", value="acrylic"),)


def test_a_scenario_without_a_name_or_a_difference_is_refused(costs: CostsWindow) -> None:
    click(button(costs, "Keep as a scenario"))
    assert costs.new.what.text().startswith("Nothing is different yet")
    click(button(costs, "For a scenario: 4 with acrylic for glass: lighter"))
    click(button(costs, "Keep as a scenario"))
    assert costs.new.what.text().startswith("A scenario needs a name")


def test_the_list_goes_out_as_a_table_and_comes_back(window: MainWindow, costs: CostsWindow, tmp_path: Path) -> None:
    answers = window.files.ask
    assert isinstance(answers, Answers)
    answers.path = tmp_path / "list.csv"
    click(costs.save_table)
    rows = answers.path.read_text(encoding="utf-8-sig").splitlines()
    place = next(number for number, row in enumerate(rows) if "hook-one-nail" in row)
    rows[place] += "2.05"  # the last column is what was paid
    answers.path.write_text("\n".join(rows), encoding="utf-8")
    click(costs.read_paid)
    assert [(one.item, one.amount) for one in window.opened.project.money.paid] == [("hook-one-nail", Decimal("2.05"))]
    assert costs.note.text() == "1 amount is read."
    answers.path.write_text("nonsense", encoding="utf-8")
    click(costs.read_paid)
    assert "no column" in costs.note.text()


def test_a_price_list_is_read(window: MainWindow, costs: CostsWindow, tmp_path: Path) -> None:
    answers = window.files.ask
    assert isinstance(answers, Answers)
    answers.path = tmp_path / "prices.csv"
    answers.path.write_text("item,each,pack,in-drawer\nhook-one-nail,2.40,4,\nbumper,1.80,16,2\n", encoding="utf-8")
    click(costs.read_prices)
    settle(window)
    assert costs.note.text() == "2 prices are read."
    # Hooks are 2.40 now; of eight bumpers two are there, and a pack of sixteen is bought: 20.90 + 0.50 + 1.80.
    assert costs.to_pay.text() == "23.20"
    assert window.opened.stack.undoText() == "Add prices"
    answers.path.write_text("item,each\nhook-one-nail,dear\n", encoding="utf-8")
    click(costs.read_prices)
    assert "row 2" in costs.note.text() and window.opened.stack.undoText() == "Add prices"


def test_the_shopping_list_is_offered_for_printing(window: MainWindow, costs: CostsWindow) -> None:
    from composer.desktop.printing.window import PrintingWindow

    click(costs.shopping)
    answers = window.files.ask
    assert isinstance(answers, Answers)
    dialog = answers.dialogs[-1]
    assert isinstance(dialog, PrintingWindow) and dialog.panel.kind.value == "shopping"
    dialog.close()


def test_amounts_by_sign_or_code() -> None:
    # ISO 4217 codes; signs only where everybody reads them as that currency.
    assert amount(Decimal("43.57"), "EUR") == "€\u00a043.57"
    assert amount(Decimal("1200"), "SEK") == "SEK\u00a01\u00a0200.00"
    assert amount(Decimal("980"), "JPY") == "¥\u00a0980"


def wall_card(window: MainWindow) -> WallCard:
    """The wall's card with its section of money open, and no other."""
    window.selection.clear()
    QApplication.processEvents()
    card = window.card.card
    assert isinstance(card, WallCard)
    for name, section in card.sections.items():
        section.set_open(name == "money")
    QApplication.processEvents()
    return card


def test_the_walls_card_leads_to_the_costs(window: MainWindow, qtbot: QtBot) -> None:
    window.opened.open(money_project(), None)
    card = wall_card(window)
    bring_to_front(qtbot, window)
    link = button(card, "All costs, and ways to pay less")
    card.ensureWidgetVisible(link)
    click(link)
    assert window.money.shown is not None and window.money.shown.isVisible()


def test_a_price_typed_in_the_card_keeps_other_pack_sizes(window: MainWindow, qtbot: QtBot) -> None:
    more = (*PRICES, Price(item="hook-one-nail", each=Decimal("0.60"), pack=2))
    window.opened.open(money_project(msgspec.structs.replace(MONEY, prices=more)), None)
    card = wall_card(window)
    bring_to_front(qtbot, window)
    field = named(card, "Price of one-nail hook")
    card.ensureWidgetVisible(field)
    enter(field, "2.20")
    found = [(one.pack, one.each) for one in window.opened.project.money.prices if one.item == "hook-one-nail"]
    assert found == [(5, Decimal("2.20")), (2, Decimal("0.60"))]


def test_frames_that_never_pay_off(window: MainWindow, costs: CostsWindow) -> None:
    scenario = Scenario(
        name="dear",
        choices=(
            Choice(of="frame-price", piece="p4", value="12.00"),
            Choice(of="frame-price", piece="p1", value="12.00"),
        ),
    )
    money = msgspec.structs.replace(MONEY, scenarios=(scenario,))
    window.opened.open(money_project(money), None)
    settle(window)
    # Two frames at 12.00: 20.90 − 6.00 + 24.00 = 38.90; both may cost (20.90 − 14.90) ÷ 2 = 3.00 each.
    texts = {label.text() for label in costs.table.findChildren(type(costs.to_pay)) if label.isVisible()}
    assert {"38.90", "18.00", "3.00"} <= texts
    owned = tuple(msgspec.structs.replace(piece, owned=True) for piece in money_project(money).pieces)
    window.opened.open(msgspec.structs.replace(money_project(money), pieces=owned), None)
    settle(window)
    # All frames are there: as it is costs 9.90; frames that are bought could only cost more.
    texts = {label.text() for label in costs.table.findChildren(type(costs.to_pay)) if label.isVisible()}
    assert "never" in texts


def test_very_many_pieces_are_added_up_only_on_demand(window: MainWindow, qtbot: QtBot) -> None:
    window.money.start()
    window.opened.open(money_project(), None)
    settle(window)
    foot = window.money.foot
    assert foot is not None and "20.90" in foot.accessibleName()
    one = room_project().pieces[0]
    many = tuple(
        msgspec.structs.replace(one, key=f"p{100 + number}", number=100 + number, owned=True) for number in range(260)
    )
    project = money_project()
    window.opened.open(
        msgspec.structs.replace(project, pieces=(*project.pieces, *many), next_number=400, next_key=400), None
    )
    qtbot.wait(2 * reckoning.QUIET_MS)
    assert foot.accessibleName() == "Costs", "an old sum must not stand there"
    assert not window.money.reckoning.job.is_busy
    window.money.costs()
    settle(window)
    assert "20.90" in foot.accessibleName()


def test_a_print_with_a_price_of_its_own_says_where_that_stands(window: MainWindow, costs: CostsWindow) -> None:
    project = money_project()
    use = PictureUse(picture="i50", print=PrintChoice(stock="8x10in", price=Decimal("1.20")))
    pieces = tuple(
        msgspec.structs.replace(piece, uses=(use,), current_use=0) if piece.number == 1 else piece
        for piece in project.pieces
    )
    picture = Picture(key="i50", path="boats.jpg", pixels=(4000, 3000))
    window.opened.open(msgspec.structs.replace(project, pieces=pieces, pictures=(picture,), next_key=60), None)
    settle(window)
    row = costs.lines.rows["print", "8x10in", "1.20"]
    assert row.to_pay.text() == "1.20"
    assert "Its price stands with the picture." in row.note.text()
    assert not row.tick.isVisible()


def test_very_many_frames_share_a_row(window: MainWindow, costs: CostsWindow) -> None:
    project, one = money_project(), room_project().pieces[0]
    many = tuple(
        msgspec.structs.replace(one, key=f"p{100 + number}", number=100 + number, price=Decimal("3.00"))
        for number in range(80)
    )
    window.opened.open(
        msgspec.structs.replace(project, pieces=(*project.pieces, *many), next_key=300, next_number=300), None
    )
    settle(window)
    row = costs.lines.rows["frame", "frame", "3.00"]
    assert row.to_pay.text() == "240.00"  # 80 × 3.00
    assert "The price stands with each piece." in row.note.text()
    assert len(costs.lines.rows) < 20
