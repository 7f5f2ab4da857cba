"""Everything that is bought, shop by shop, with the fields for what it costs."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from composer.costing.items import FRAME, Shop, shop_name
from composer.costing.shown import show_money
from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.extra_rows import ExtraRows
from composer.desktop.cards.session import Session, merge_key
from composer.desktop.field_row import Words
from composer.desktop.field_words import MoneyField
from composer.desktop.money.entries import Entry, entries_of
from composer.desktop.money.line_row import COUNT_PX, EACH, HOME, MONEY_PX, NAME, PACK, PAID, TICK, TO_PAY, LineRow
from composer.desktop.money.reckoning import Sums
from composer.editing.money_edits import record_paid
from composer.texts import say


class Lines(QWidget):
    """The list; rows stay while the things are the same, so that nothing jumps while somebody types."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._sums: Sums | None = None
        self._shown: tuple[tuple[str, ...], ...] | None = None
        self.rows: dict[tuple[str, ...], LineRow] = {}
        self._shop_sums: dict[Shop, Words] = {}
        self._frames_paid: tuple[Bindings, MoneyField] | None = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(look.px(8))
        self._grid_box: QWidget | None = None
        self._column.addWidget(Words(say("Whatever else is to be bought"), 14, semibold=True))
        self.extras = ExtraRows(session)
        self._column.addWidget(self.extras)

    def show_sums(self, sums: Sums) -> None:
        """Other sums: the same rows where the things are the same."""
        self._sums = sums
        entries = entries_of(sums.project, sums.costs)
        keys = tuple(entry.key for entry in entries)
        if keys != self._shown:
            self._shown = keys
            self._build(entries, sums)
        else:
            for entry in entries:
                self.rows[entry.key].refresh(entry)
        for shop, words in self._shop_sums.items():
            words.setText(show_money(sums.costs.of_shop(shop), sums.costs.currency))
        if self._frames_paid is not None:
            self._frames_paid[0].refresh()
        self.extras.refresh()

    def rebuild(self) -> None:
        """Rows with other fields, or in another look."""
        if self._sums is not None:
            self._shown = None
            self.show_sums(self._sums)

    def _build(self, entries: list[Entry], sums: Sums) -> None:
        for row in self.rows.values():
            row.deleteLater()
        self.rows, self._shop_sums, self._frames_paid = {}, {}, None
        box = QWidget()
        grid = QGridLayout(box)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(look.px(8))
        grid.setVerticalSpacing(0)
        grid.setColumnStretch(NAME, 1)
        grid.setColumnMinimumWidth(EACH, look.px(MONEY_PX))
        grid.setColumnMinimumWidth(PACK, look.px(COUNT_PX + 8) + max(24, look.px(24)))
        grid.setColumnMinimumWidth(TO_PAY, look.px(64))
        self._heads(grid, sums.costs.currency)
        place, number, shop = 1, 0, None
        for entry in entries:
            if entry.shop != shop:
                shop, number = entry.shop, number + (1 if sums.costs.of_shop(entry.shop) > 0 else 0)
                counted = number if sums.costs.of_shop(shop) > 0 else None
                self._shop_head(grid, place, shop, counted)
                place += 1
            self.rows[entry.key] = LineRow(self._session, entry, grid, place, self.rebuild, self)
            place += 2
        if not entries:
            grid.addWidget(Words(say("Nothing has to be bought."), 14, "pencil"), place, NAME)
        if self._grid_box is not None:
            self._grid_box.hide()
            self._grid_box.deleteLater()
        self._grid_box = box
        self._column.insertWidget(0, box)

    def _heads(self, grid: QGridLayout, currency: str) -> None:
        for column, words in (
            (EACH, say("price, {currency}", currency=currency)),
            (PACK, say("for how many")),
            (HOME, say("at home")),
            (PAID, say("paid")),
            (TO_PAY, say("to pay")),
        ):
            head = Words(words, 12, "pencil")
            side = Qt.AlignmentFlag.AlignRight if column == TO_PAY else Qt.AlignmentFlag.AlignLeft
            head.setAlignment(side | Qt.AlignmentFlag.AlignBottom)
            grid.addWidget(head, 0, column)

    def _shop_head(self, grid: QGridLayout, place: int, shop: Shop, number: int | None) -> None:
        """The kind of shop with its number in the budget's line, and what is to be paid there."""
        head = QWidget()
        across = QHBoxLayout(head)
        across.setContentsMargins(0, look.px(12), 0, look.px(4))
        words = say("{number} {shop}", number=number, shop=shop_name(shop)) if number else shop_name(shop)
        across.addWidget(Words(words, 14, "pencil", semibold=True), 1)
        grid.addWidget(head, place, TICK, 1, 2)
        if shop == "second-hand":
            # One sum for all frames: that is what stands on the list that comes back from the shops.
            bindings, field = Bindings(self._session), MoneyField(say("Paid for frames"), currency="")
            field.setFixedWidth(look.px(MONEY_PX))
            bindings.bind(
                field,
                self._paid_for_frames,
                lambda value, gesture: record_paid(FRAME, value, None, merge_key("costs-paid-frames", "", gesture)),
            )
            self._frames_paid = (bindings, field)
            grid.addWidget(field, place, PAID, Qt.AlignmentFlag.AlignBottom)
        total = Words("", 14, "pencil", semibold=True)
        total.setWordWrap(False)
        total.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom)
        total.setContentsMargins(0, 0, 0, look.px(4))
        grid.addWidget(total, place, TO_PAY)
        self._shop_sums[shop] = total

    def _paid_for_frames(self) -> Decimal | None:
        return next((one.amount for one in self._session.project.money.paid if one.item.casefold() == FRAME), None)
