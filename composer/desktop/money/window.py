"""The window of costs: the budget to scale, every line with its price, and ways to pay less beside them.

It may stay open beside the work; everything in it follows the project, and every change in it is a
step of the project's own history.
"""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QCloseEvent, QHideEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QBoxLayout, QDialog, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from composer.costing.costs import Costs
from composer.costing.packs import cents
from composer.costing.shown import show_money
from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.field_row import Columns, Labelled, PushButton, Words
from composer.desktop.field_words import MoneyField
from composer.desktop.money.budget_bar import BudgetBar
from composer.desktop.money.lines import Lines
from composer.desktop.money.reckoning import Reckoning, Sums
from composer.desktop.money.rest import Dearest, still_words
from composer.desktop.money.scenarios import NewScenario, ScenarioTable
from composer.desktop.money.ways import WaysList
from composer.desktop.open_project import OpenProject
from composer.desktop.printing.ground import lay_ground
from composer.desktop.scroll_bars import slim
from composer.desktop.theme import theme
from composer.desktop.window_sizes import open_at
from composer.editing.project_edits import set_budget
from composer.paper.figures import figures_of
from composer.texts import say, say_many

SIDE_PX, BESIDE_FROM_PX = 352, 1010
"""Ways and scenarios stand beside the lines from this width on, below them in a narrower window."""


class CostsWindow(QDialog):
    """Everything about money.

    Signals:
        shopping_wanted: the shopping list is to be printed.
        table_wanted, paid_wanted: it is to be written as a table, and read back.
        prices_wanted: a price list is to be read.
    """

    shopping_wanted = Signal()
    table_wanted = Signal()
    paid_wanted = Signal()
    prices_wanted = Signal()

    def __init__(self, opened: OpenProject, reckoning: Reckoning, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened, self._reckoning = opened, reckoning
        self._bindings = Bindings(opened)
        self.setWindowTitle(say("Costs"))
        self.setMinimumSize(look.px(560), look.px(360))
        self._lay_out()
        open_at(self, look.px(1180), look.px(780))
        reckoning.summed.connect(self.show_sums)
        reckoning.ways_found.connect(self.ways.show_ways)
        theme().changed.connect(self._on_theme)
        if reckoning.sums is not None:
            self.show_sums(reckoning.sums)

    # Layout ---------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._head())
        area = QScrollArea()
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        slim(area)
        inside = QWidget()
        lay_ground(inside, "surface")
        self._inside = inside
        self._across = QBoxLayout(QBoxLayout.Direction.LeftToRight, inside)
        self._across.setContentsMargins(look.px(20), look.px(8), look.px(20), look.px(16))
        self._across.setSpacing(look.px(28))
        self.lines = Lines(self._opened)
        main = QVBoxLayout()
        main.addWidget(self.lines)
        main.addStretch(1)
        self._across.addLayout(main, 1)
        self._across.addWidget(self._side())
        area.setWidget(inside)
        self._area = area
        column.addWidget(area, 1)
        column.addWidget(self._foot())
        lay_ground(self, "surface")

    def _head(self) -> QWidget:
        head = QWidget()
        column = QVBoxLayout(head)
        column.setContentsMargins(look.px(20), look.px(12), look.px(20), look.px(10))
        column.setSpacing(look.px(6))
        self.budget = MoneyField(say("Budget"), currency=self._opened.project.currency)
        self._bindings.bind(self.budget, lambda: self._opened.project.money.budget, lambda value, _: set_budget(value))
        self.to_pay, self.to_spare, self.left, self.paid = (Words("", 18, semibold=True) for _ in range(4))
        row = Columns(gap=look.px(20))
        row.addWidget(Labelled(say("Budget"), self.budget))
        self._spare_label = self._figure(row, say("to spare"), self.to_spare)
        self._figure(row, say("to pay"), self.to_pay)
        self._figure(row, say("of it left over afterwards"), self.left)
        self._figure(row, say("paid so far"), self.paid)
        column.addLayout(row)
        self.message = Words("", 12, "stop")
        self.message.hide()
        self.budget.complained.connect(self._complain)
        column.addWidget(self.message)
        self.bar = BudgetBar()
        column.addWidget(self.bar)
        self.lacking = Words("", 12, "warn")
        column.addWidget(self.lacking)
        return head

    @staticmethod
    def _figure(row: Columns, words: str, figure: Words) -> Words:
        figure.setWordWrap(False)
        box = Labelled(words, figure)
        row.addWidget(box)
        return box.label

    def _side(self) -> QWidget:
        side = QWidget()
        column = QVBoxLayout(side)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(8))
        self.dearest_title = self._title(column, say("Dearest"))
        self.dearest = Dearest()
        column.addWidget(self.dearest)
        self._title(column, say("Cheaper, same wall"))
        self.ways = WaysList(self._opened)
        column.addWidget(self.ways)
        self._title(column, say("Scenarios"))
        self.table = ScenarioTable(self._opened)
        column.addWidget(self.table)
        self.new = NewScenario(self._opened, lambda: self.ways.choices)
        self.ways.ticked.connect(self.new.refresh)
        column.addWidget(self.new)
        self.rest_title = self._title(column, say("What is left over would still hang"))
        self.rest = Words("", 14)
        column.addWidget(self.rest)
        column.addStretch(1)
        self._side_box = side
        return side

    @staticmethod
    def _title(column: QVBoxLayout, words: str) -> Words:
        title = Words(words, 14, semibold=True)
        title.setContentsMargins(0, look.px(8), 0, 0)
        column.addWidget(title)
        return title

    def _foot(self) -> QWidget:
        foot = QWidget()
        row = QHBoxLayout(foot)
        row.setContentsMargins(look.px(20), look.px(8), look.px(20), look.px(8))
        self.note = Words(say("Whole packs count. The packet’s own figure wins over ours."), 12, "pencil")
        row.addWidget(self.note, 1)
        self.read_prices = PushButton(say("Read prices"))
        self.read_prices.setToolTip(say("Reads a price list: a table with the columns item, each, pack, in-drawer."))
        self.read_prices.clicked.connect(self.prices_wanted)
        row.addWidget(self.read_prices)
        self.save_table, self.read_paid = PushButton(say("Save as table")), PushButton(say("Read what was paid"))
        self.save_table.setToolTip(say("Writes the shopping list as CSV, with a column for what you pay."))
        self.read_paid.setToolTip(say("Reads such a table back, once its column “paid” is filled in."))
        self.save_table.clicked.connect(self.table_wanted)
        self.read_paid.clicked.connect(self.paid_wanted)
        row.addWidget(self.save_table)
        row.addWidget(self.read_paid)
        self.shopping = PushButton(say("Shopping list"))
        self.shopping.setToolTip(say("Prints what is to be bought, with room for what you pay."))
        self.shopping.clicked.connect(self.shopping_wanted)
        self.close_button = PushButton(say("Close"))
        self.close_button.clicked.connect(self.close)
        row.addWidget(self.shopping)
        row.addWidget(self.close_button)
        return foot

    def _arrange(self) -> None:
        beside = self.width() >= look.px(BESIDE_FROM_PX)
        way = QBoxLayout.Direction.LeftToRight if beside else QBoxLayout.Direction.TopToBottom
        self._across.setDirection(way)
        if beside:
            self._side_box.setFixedWidth(look.px(SIDE_PX))
        else:
            self._side_box.setMinimumWidth(0)
            self._side_box.setMaximumWidth(16_777_215)

    # What is shown --------------------------------------------------------------------------------

    def show_sums(self, sums: Sums) -> None:
        """Other sums."""
        costs = sums.costs
        self._bindings.refresh()
        self.budget.set_suffix(costs.currency)
        self.to_pay.setText(show_money(costs.total, costs.currency))
        self.left.setText(show_money(costs.left_worth, costs.currency))
        paid = cents(sum((one.amount for one in sums.project.money.paid), Decimal(0)))
        self.paid.setText(show_money(paid, costs.currency) if sums.project.money.paid else "–")
        self._show_spare(costs)
        self.bar.show_costs(costs)
        self.lacking.setText(_lacking(costs.prices_lacking))
        self.lacking.setVisible(bool(costs.unpriced))
        self.lines.show_sums(sums)
        self.dearest.show_costs(costs)
        self.dearest_title.setVisible(self.dearest.isVisibleTo(self))
        self.table.show_sums(sums)
        figures = figures_of(sums.project)
        self.rest.setText("\n".join(still_words(one, figures) for one in sums.rest))
        for widget in (self.rest, self.rest_title):
            widget.setVisible(bool(sums.rest))
        self.new.refresh()

    def _show_spare(self, costs: Costs) -> None:
        spare = costs.to_spare
        over = spare is not None and spare < 0
        self.to_spare.setText("–" if spare is None else show_money(abs(spare), costs.currency))
        self.to_spare.set_shade("stop" if over else "ink")
        self._spare_label.setText(say("over the budget") if over else say("to spare"))

    def say(self, words: str, shade: str = "pencil") -> None:
        """A sentence in the foot."""
        self.note.set_shade(shade)  # type: ignore[arg-type]  # one of the shades
        self.note.setText(words)

    def _complain(self, sentence: str) -> None:
        self.message.setText(sentence)
        self.message.setVisible(bool(sentence))

    def _on_theme(self) -> None:
        for widget in (self, self._inside):
            lay_ground(widget, "surface")
        self.lines.rebuild()
        self._arrange()

    # Events ---------------------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        """Ways to pay less are looked for while somebody reads them."""
        super().showEvent(event)
        self._arrange()
        self._reckoning.reckon()
        self._reckoning.look_for_ways(wanted=True)

    def hideEvent(self, event: QHideEvent) -> None:
        """Nobody reads them."""
        super().hideEvent(event)
        self._reckoning.look_for_ways(wanted=False)

    def closeEvent(self, event: QCloseEvent) -> None:
        """What is being typed is taken first."""
        focused = self.focusWidget()
        if focused is not None:
            focused.clearFocus()
        super().closeEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Beside each other, or one below the other."""
        super().resizeEvent(event)
        self._arrange()


def _lacking(count: int) -> str:
    return say_many(
        "{count} thing has no price yet and is in no sum: type it below.",
        "{count} things have no price yet and are in no sum: type them below.",
        count,
    )
