"""States of the windows of costs and of the next change, for the pictures that are looked at and checked."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from msgspec.structs import replace
from PySide6.QtCore import QSize
from PySide6.QtWidgets import QApplication, QWidget

from composer.desktop.main_window import MainWindow
from composer.desktop.theme import theme
from composer.editing.edits import Edit
from composer.editing.money_edits import keep_scenario, set_extras, set_in_drawer, set_price
from composer.editing.placing import take_down
from composer.editing.project_edits import set_budget
from composer.editing.record_edits import change_piece
from composer.model import Choice, Extra, Piece, Price

Make = Callable[[MainWindow], QWidget | None]
State = tuple[str, Make, str]
"""Name, how it is made, and the sample it begins with."""

PRICES = {
    "30x40cm": (("2.10", 1),), "12x18in": (("1.90", 1),), "8x12in": (("0.90", 1),), "30x30cm": (("1.80", 1),),
    "strips-medium": (("4.95", 4), ("9.00", 10)), "mat-4-ply 32x40in": (("7.20", 1),), "wipe": (("1.50", 10),),
    "hook-one-nail": (("1.90", 5),), "bumper": (("1.80", 16),), "glass": (("5.00", 1),), "acrylic": (("3.20", 1),),
}  # fmt: skip
"""Invented."""


def _to_buy(piece: Piece) -> Piece:
    """A frame that is still to be bought and whose glass has a price of its own."""
    frame = replace(piece.frame, glazing="glass")
    return replace(piece, owned=False, price=Decimal("4.00"), frame=frame)


def _edits(window: MainWindow) -> list[Edit]:
    pieces = window.opened.project.pieces
    return [
        set_budget(Decimal("55.00")),
        *(
            set_price(item, [Price(item=item, each=Decimal(each), pack=pack) for each, pack in rows])
            for item, rows in PRICES.items()
        ),
        *(change_piece(piece.key, "Frame to buy", _to_buy) for piece in pieces[4:6]),
        set_in_drawer("strips-large", 8),
        keep_scenario("no mats", [Choice(of="mat", piece=piece.key, value="none") for piece in pieces if piece.mat]),
        keep_scenario("new frames", [Choice(of="frame-price", piece=piece.key, value="12.00") for piece in pieces]),
        set_extras([Extra(what="spirit level", each=Decimal("8.00"))]),
    ]


def costs(window: MainWindow, *, bare: bool = False) -> QWidget:
    """Everything priced but two prints, scenarios beside each other; or nothing priced yet."""
    if not bare:
        for edit in _edits(window):
            window.opened.apply(edit)
    window.money.costs()
    window.money.reckoning.wait()
    QApplication.processEvents()
    shown = window.money.shown
    assert shown is not None
    _size(window, shown, (1180, 780))
    return shown


def _size(window: MainWindow, shown: QWidget, usual: tuple[int, int]) -> None:
    """As large as usual at 100 % on a large screen, else as the screen allows."""
    small = window.width() < 1440 or theme().text_percent > 100
    shown.resize(window.size() if small else QSize(*usual))


def costs_bare(window: MainWindow) -> QWidget:
    """No price is known yet."""
    return costs(window, bare=True)


def costs_foot(window: MainWindow) -> None:
    """The total in the foot of the list, over the budget."""
    for edit in _edits(window):
        window.opened.apply(edit)
    window.opened.apply(set_budget(Decimal("20.00")))
    window.money.start()
    window.money.reckoning.wait()


def _change(window: MainWindow, page: str, target: str | None = None) -> QWidget:
    window.change.next_change()
    shown = window.change.shown
    assert shown is not None
    shown.show_page(page)
    if target is not None:
        shown.show_target(target)
    shown.wait()
    _size(window, shown, (1080, 780))
    return shown


def plan(window: MainWindow) -> QWidget:
    """Nine pieces are up, eleven shall be."""
    return _change(window, "plan")


def out(window: MainWindow) -> QWidget:
    """To the empty wall."""
    return _change(window, "plan", "")


def up(window: MainWindow) -> QWidget:
    """What is up, one piece being measured."""
    shown = _change(window, "up")
    assert window.change.shown is not None
    window.change.shown.up.measure(window.opened.project.piece_by_number[2].key)
    return shown


def nothing_up(window: MainWindow) -> QWidget:
    """A wall nobody has noted anything of."""
    return _change(window, "up")


def free_places(window: MainWindow) -> None:
    """Where 4 could go."""
    window.change.start()
    window.selection.set([window.opened.project.piece_by_number[4].key])
    window.change.free_places()


def fitting(window: MainWindow) -> None:
    """The place 12 left, and old holes beside it."""
    project = window.opened.project
    key = project.piece_by_number[12].key
    place = project.placement_by_piece[key]
    window.change.start()
    window.opened.apply(take_down(project, [key]))
    QApplication.processEvents()
    window.change.show_fitting(place.left + 100, place.bottom + 100)


WINDOWS: tuple[State, ...] = (
    ("costs", costs, "sofa-wall"),
    ("change-plan", plan, "changing-wall"),
    ("change-up", up, "changing-wall"),
)
"""In four looks each: light, dark, 1280 × 720, text at 150 %."""

OTHERS: tuple[State, ...] = (
    ("costs-bare", costs_bare, "corridor-inches"),
    ("costs-foot", costs_foot, "sofa-wall"),
    ("change-out", out, "changing-wall"),
    ("change-nothing-up", nothing_up, "corridor-inches"),
    ("free-places", free_places, "changing-wall"),
    ("frames-that-fit", fitting, "changing-wall"),
)
