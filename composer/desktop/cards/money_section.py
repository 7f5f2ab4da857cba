"""What the whole costs: the total against the budget, the dearest lines, and ways to pay less."""

from __future__ import annotations

from decimal import Decimal
from functools import partial

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.costing.alternatives import Alternative, alternative_words, alternatives
from composer.costing.costs import Costs, costs_of
from composer.costing.shown import show_money, show_numbers
from composer.desktop.cards.card import Working
from composer.desktop.cards.extra_rows import ExtraRows
from composer.desktop.cards.price_rows import PriceRows, items_of
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_row import PushButton, Words
from composer.editing.money_edits import take_alternative
from composer.hanging.working import WrittenLine
from composer.model import Project
from composer.texts import say, say_many

MOST_LINES = 5

MOST_AT_ONCE = 60
"""With more pieces costs are added up only once the section is opened (mats are nested: half a second at 250)."""


class MoneySection:
    """Part of the wall card; costs are those of the current arrangement."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._known: tuple[Project, Costs] | None = None
        self._ways: tuple[Project, tuple[Alternative, ...]] | None = None
        self._lines: QVBoxLayout | None = None

    def costs(self) -> Costs:
        """Reckoned once for each project value."""
        project = self._session.project
        if self._known is None or self._known[0] is not project:
            self._known = (project, costs_of(project))
        return self._known[1]

    def build(self, column: QVBoxLayout) -> None:
        """Dearest lines, what has no price, ways to pay less."""
        self._working = Working()
        column.addWidget(self._working)
        self._note = Words("", 12, "pencil")
        column.addWidget(self._note)
        self._prices = PriceRows(self._session)
        column.addWidget(self._prices)
        self._extras = ExtraRows(self._session)
        column.addWidget(self._extras)
        self._find = PushButton(say("Look for ways to pay less"))
        self._find.clicked.connect(self._on_find)
        column.addWidget(self._find)
        self._lines = QVBoxLayout()
        self._lines.setSpacing(6)
        column.addLayout(self._lines)
        self.refresh()

    def refresh(self) -> None:
        """The lines as prices and pieces are now."""
        if self._lines is None:
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
        unpriced = len(costs.unpriced)
        words = say_many("{count} thing has no price yet.", "{count} things have no price yet.", unpriced)
        left = say("{amount} of it is left over afterwards.", amount=show_money(costs.left_worth, currency))
        self._note.setText(" ".join([*([words] if unpriced else []), *([left] if costs.total else [])]))
        self._note.setVisible(bool(self._note.text()))
        self._prices.show_items(items_of(costs))
        self._extras.refresh()
        self._show_ways()

    def _on_find(self, _: bool = False) -> None:
        project = self._session.project
        self._ways = (project, alternatives(project))
        self._show_ways()

    def _show_ways(self) -> None:
        if self._lines is None:
            return
        while (item := self._lines.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        if self._ways is None or self._ways[0] is not self._session.project:
            return
        project = self._session.project
        if not self._ways[1]:
            self._lines.addWidget(Words(say("None found: nothing cheaper holds, covers or fits."), 12, "pencil"))
        for way in self._ways[1]:
            row = QWidget()
            across = QHBoxLayout(row)
            across.setContentsMargins(0, 0, 0, 0)
            words = say(
                "{what}: saves {amount}",
                what=alternative_words(way, project),
                amount=show_money(way.saves, project.currency),
            )
            across.addWidget(Words(words, 14), 1)
            take = PushButton(say("Take"))
            take.setAccessibleName(say("Take: {what}", what=words))
            take.clicked.connect(partial(self._on_take, way))
            across.addWidget(take)
            self._lines.addWidget(row)

    def _on_take(self, way: Alternative, _: bool = False) -> None:
        refusal = try_apply(self._session, take_alternative(self._session.project, way))
        if refusal:
            self._note.setText(refusal)
            self._note.show()

    def sentence(self) -> str:
        """The total, and how it stands to the budget."""
        if len(self._session.project.pieces) > MOST_AT_ONCE and self._lines is None:
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
