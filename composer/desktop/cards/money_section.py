"""What the whole costs: the total against the budget, the dearest lines, what each thing costs."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from PySide6.QtWidgets import QVBoxLayout

from composer.costing.costs import Costs, costs_of
from composer.costing.shown import show_money, show_numbers
from composer.desktop.cards.card import Working
from composer.desktop.cards.extra_rows import ExtraRows
from composer.desktop.cards.price_rows import PriceRows, items_of
from composer.desktop.cards.session import Session
from composer.desktop.field_row import LinkButton, Words
from composer.hanging.working import WrittenLine
from composer.model import Project
from composer.texts import say, say_many

MOST_LINES = 5

MOST_AT_ONCE = 60
"""With more pieces costs are added up only once the section is opened (mats are nested: half a second at 250)."""


class MoneySection:
    """Part of the wall card; costs are those of the current arrangement.

    Args:
        session: the open project.
        wanted: told the action a link stands for.
    """

    def __init__(self, session: Session, wanted: Callable[[str], None]) -> None:
        self._session, self._wanted = session, wanted
        self._known: tuple[Project, Costs] | None = None
        self._built = False

    def costs(self) -> Costs:
        """Reckoned once for each project value."""
        project = self._session.project
        if self._known is None or self._known[0] is not project:
            self._known = (project, costs_of(project))
        return self._known[1]

    def build(self, column: QVBoxLayout) -> None:
        """Dearest lines, what has no price, prices; ways to pay less have a window of their own."""
        self._working = Working()
        column.addWidget(self._working)
        self._note = Words("", 12, "pencil")
        column.addWidget(self._note)
        self._prices = PriceRows(self._session)
        column.addWidget(self._prices)
        self._extras = ExtraRows(self._session)
        column.addWidget(self._extras)
        ways = LinkButton(say("All costs, and ways to pay less"))
        ways.clicked.connect(lambda _=False: self._wanted("costs"))
        column.addWidget(ways)
        self._built = True
        self.refresh()

    def refresh(self) -> None:
        """The lines as prices and pieces are now."""
        if not self._built:
            return
        costs, currency = self.costs(), self._session.project.currency
        written = [
            WrittenLine(
                line.name,
                say("{name} × {count}", name=line.name, count=line.need.count),
                show_money(line.cost, currency),
                (),
                say("for {pieces}", pieces=show_numbers(line.need.pieces))
                if line.need.shares
                else say("for the whole"),
            )
            for line in costs.dearest(MOST_LINES)
        ]
        self._working.show_lines(written)
        unpriced = costs.prices_lacking
        words = say_many("{count} thing has no price yet.", "{count} things have no price yet.", unpriced)
        left = say("{amount} of it is left over afterwards.", amount=show_money(costs.left_worth, currency))
        self._note.setText(" ".join([*([words] if unpriced else []), *([left] if costs.total else [])]))
        self._note.setVisible(bool(self._note.text()))
        self._prices.show_items(items_of(costs))
        self._extras.refresh()

    def sentence(self) -> str:
        """The total, and how it stands to the budget."""
        if len(self._session.project.pieces) > MOST_AT_ONCE and not self._built:
            return say("Open it to add everything up.")
        costs = self.costs()
        currency = self._session.project.currency
        if not costs.lines and not costs.unpriced:
            return say("Nothing to buy.")
        if not costs.total:
            return say("No prices yet.")
        total = show_money(costs.total, currency)
        spare = costs.to_spare
        if spare is None:
            return say("{currency} {total} to pay.", currency=currency, total=total)
        if spare < Decimal(0):
            over = show_money(-spare, currency)
            return say("{currency} {total} to pay, {over} over the budget.", currency=currency, total=total, over=over)
        left = show_money(spare, currency)
        return say("{currency} {total} to pay, {left} of the budget left.", currency=currency, total=total, left=left)
