"""One thing that is bought: a tick when it is at home, its name and sum, and the fields for its price."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from composer.costing.packs import Offer
from composer.costing.shown import show_money
from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.session import Session, merge_key
from composer.desktop.field_choices import CheckField
from composer.desktop.field_frame import HEIGHT
from composer.desktop.field_row import LinkButton, Words
from composer.desktop.field_words import MoneyField, NumberField
from composer.desktop.fields import EntryField
from composer.desktop.money.entries import Entry, at_home, note_of, offers_for
from composer.editing.edits import Edit
from composer.editing.money_edits import record_paid, set_in_drawer, set_price
from composer.editing.record_edits import change_piece
from composer.model import Price
from composer.texts import say

TICK, NAME, EACH, PACK, HOME, PAID, TO_PAY = range(7)
"""The columns of the list."""

MONEY_PX, COUNT_PX, TOP_PX = 76, 60, 5
"""Widths of fields at 100 %, and how far the words stand below a field's upper edge."""


class LineRow(QObject):
    """Lays itself into a row of the list's grid, and its complaints into the row below.

    Args:
        again: called when the row needs other fields than it has.
    """

    def __init__(
        self, session: Session, entry: Entry, grid: QGridLayout, row: int, again: Callable[[], None], parent: QObject
    ) -> None:
        super().__init__(parent)
        self._session, self._entry, self._again = session, entry, again
        self._bindings = Bindings(session)
        self._packs_typed: dict[int, int] = {}
        self.name = Words(entry.name, 14, semibold=True)
        self.note = Words("", 12, "pencil")
        self.to_pay = Words("", 14, semibold=True)
        self.to_pay.setWordWrap(False)
        self.to_pay.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        self.to_pay.setContentsMargins(0, look.px(TOP_PX), 0, 0)
        self.message = Words("", 12, "stop")
        self.message.hide()
        box = QWidget()
        words = QVBoxLayout(box)
        words.setContentsMargins(0, look.px(TOP_PX), 0, look.px(8))
        words.setSpacing(0)
        words.addWidget(self.name)
        words.addWidget(self.note)
        words.addStretch(1)
        grid.addWidget(box, row, NAME)
        grid.addWidget(self.to_pay, row, TO_PAY)
        grid.addWidget(self.message, row + 1, NAME, 1, TO_PAY)
        self.fields: list[EntryField] = []
        self.tick = CheckField("")
        self.tick.setAccessibleName(say("{thing} is at home", thing=entry.name))
        self.tick.setToolTip(say("Ticked: it is at home, nothing is to be paid."))
        self._bindings.bind(self.tick, self._is_home, lambda value, _: self._tick(bool(value)))
        self.tick.setMinimumHeight(max(24, look.px(HEIGHT)))
        grid.addWidget(self.tick, row, TICK, Qt.AlignmentFlag.AlignTop)
        # What has a price of its own is not taken from the drawer: a print that is here is told by its piece.
        self.tick.setVisible(entry.piece is not None or not entry.own_price)
        self._add_fields(grid, row)
        self.refresh(entry)

    def _add_fields(self, grid: QGridLayout, row: int) -> None:
        entry, name = self._entry, self._entry.name
        if entry.piece is not None:
            price = self._money(say("Price of {thing}", thing=name))
            self._bind(grid, row, EACH, price, self._frame_price, self._set_frame_price)
            return
        if not entry.own_price:
            self._add_offers(grid, row)
            home = self._count(say("At home of {thing}", thing=name), least=0)
            self._bind(grid, row, HOME, home, self._home, self._set_home)
        paid = self._money(say("Paid for {thing}", thing=name))
        self._bind(grid, row, PAID, paid, self._paid, self._set_paid)

    def _add_offers(self, grid: QGridLayout, row: int) -> None:
        """A price and its pack for each size it is sold in; the last pair may be a new one."""
        name = self._entry.name
        offers = offers_for(self._session.project, self._entry.need) or (Offer(0, 1),)  # type: ignore[arg-type]
        self._shown_offers = len(offers)
        lines = QGridLayout()
        lines.setContentsMargins(0, 0, 0, look.px(6))
        lines.setHorizontalSpacing(look.px(8))
        lines.setVerticalSpacing(look.px(4))
        for place in range(len(offers)):
            more = place > 0
            price = self._money(
                say("Price of {thing}, pack {number}", thing=name, number=place + 1)
                if more
                else say("Price of {thing}", thing=name)
            )
            pack = self._count(
                say("In a pack of {thing}, pack {number}", thing=name, number=place + 1)
                if more
                else say("In a pack of {thing}", thing=name)
            )
            self._bind(lines, place, 0, price, partial(self._each, place), partial(self._set_each, place))
            self._bind(lines, place, 1, pack, partial(self._pack, place), partial(self._set_pack, place))
        self.more = LinkButton("+")
        policy = self.more.sizePolicy()
        policy.setRetainSizeWhenHidden(True)
        self.more.setSizePolicy(policy)
        self.more.setFixedSize(max(24, look.px(24)), max(24, look.px(HEIGHT)))
        self.more.setAccessibleName(say("Another pack size of {thing}", thing=name))
        self.more.setToolTip(say("It is sold in packs of another size, too."))
        self.more.clicked.connect(self._on_more)
        lines.addWidget(self.more, len(offers) - 1, 2)
        lines.setColumnMinimumWidth(2, max(24, look.px(24)))
        lines.setRowStretch(len(offers), 1)
        grid.addLayout(lines, row, EACH, 1, 2)

    def _money(self, name: str) -> MoneyField:
        field = MoneyField(name, currency="")
        field.setFixedWidth(look.px(MONEY_PX))
        return field

    def _count(self, name: str, least: int = 1) -> NumberField:
        field = NumberField(name, least=least, most=10_000, whole=True)
        field.setFixedWidth(look.px(COUNT_PX))
        return field

    def _bind(self, grid: QGridLayout, row: int, column: int, field: EntryField, get: Any, make: Any) -> None:
        self._bindings.bind(field, get, make)
        field.complained.connect(self._complain)
        self.fields.append(field)
        grid.addWidget(field, row, column, Qt.AlignmentFlag.AlignTop)

    def refresh(self, entry: Entry) -> None:
        """The same thing as it is now."""
        self._entry = entry
        offers = offers_for(self._session.project, entry.need)
        if entry.piece is None and not entry.own_price and max(1, len(offers)) != self._shown_offers:
            self._again()
            return
        currency = self._session.project.currency
        self.note.setText(note_of(entry, currency))
        self.note.setVisible(bool(self.note.text()))
        pay = entry.to_pay
        self.to_pay.setText(("" if entry.handy else say("price?")) if pay is None else show_money(pay, currency))
        self.to_pay.set_shade("warn" if pay is None else "ink")
        if hasattr(self, "more"):
            self.more.setVisible(bool(offers))
        self._bindings.refresh()

    def _complain(self, sentence: str) -> None:
        self.message.setText(sentence or next((field.wrong for field in self.fields if field.wrong), ""))
        self.message.setVisible(bool(self.message.text()))

    # What stands there, and what typing makes of it -----------------------------------------------

    def _merge(self, what: str, gesture: int) -> Any:
        return merge_key(f"costs-{what}-{'-'.join(self._entry.key)}", "", gesture)

    def _is_home(self) -> bool:
        entry = self._entry
        if entry.piece is not None:
            piece = self._session.project.piece_by_key.get(entry.piece)
            return piece is not None and piece.owned
        return self._home_count() >= entry.need.count

    def _home_count(self) -> int:
        return at_home(self._session.project, self._entry.need)

    def _tick(self, home: bool) -> Edit:
        """What was bought is at home, all of its packs; without the tick nothing is."""
        entry = self._entry
        if entry.piece is not None:
            text = say("Have {thing}", thing=entry.name) if home else say("Still to buy: {thing}", thing=entry.name)
            return change_piece(entry.piece, text, lambda piece: _owned(piece, home))
        bought = 0 if entry.line is None else sum(one.things for one in entry.line.purchase.bought)
        return self._drawer(max(entry.need.count, self._home_count() + bought) if home else 0)

    def _drawer(self, count: int, gesture: int = 0) -> Edit:
        need, project = self._entry.need, self._session.project
        elsewhere = self._home_count() - _under(project, need.item)
        return set_in_drawer(need.item, max(0, count - elsewhere), self._merge("home", gesture) if gesture else None)

    def _home(self) -> int | None:
        return self._home_count() or None

    def _set_home(self, value: Any, gesture: int) -> Edit:
        return self._drawer(int(value or 0), gesture)

    def _offer(self, place: int) -> Offer | None:
        offers = offers_for(self._session.project, self._entry.need)
        return offers[place] if place < len(offers) else None

    def _each(self, place: int) -> Any:
        offer = self._offer(place)
        return None if offer is None else offer.each

    def _pack(self, place: int) -> int | None:
        offer = self._offer(place)
        return self._packs_typed.get(place) if offer is None else offer.pack

    def _set_each(self, place: int, value: Any, gesture: int) -> Edit:
        pack = self._pack(place) or 1
        return self._set_offer(place, None if value is None else Offer(value, pack), gesture)

    def _set_pack(self, place: int, value: Any, gesture: int) -> Edit:
        offer = self._offer(place)
        if offer is None:
            self._packs_typed[place] = int(value or 1)  # without a price it is no offer yet
            return Edit("", lambda project: project)
        return self._set_offer(place, Offer(offer.each, int(value or 1)), gesture)

    def _set_offer(self, place: int, offer: Offer | None, gesture: int) -> Edit:
        offers: list[Offer | None] = list(offers_for(self._session.project, self._entry.need))
        offers[place : place + 1] = [offer]
        item = self._entry.need.item
        rows = [Price(item=item, each=one.each, pack=one.pack) for one in offers if one is not None]
        return set_price(item, rows, self._merge("price", gesture))

    def _on_more(self, _: bool = False) -> None:
        """One more pack size, to be typed over: as many again for twice as much saves nothing and costs nothing."""
        offers = offers_for(self._session.project, self._entry.need)
        if not offers:
            return
        last, item = offers[-1], self._entry.need.item
        made = [*offers, Offer(last.each * 2, last.pack * 2)]
        rows = [Price(item=item, each=one.each, pack=one.pack) for one in made]
        self._session.apply(set_price(item, rows))

    def _frame_price(self) -> Any:
        piece = self._session.project.piece_by_key.get(self._entry.piece or "")
        return None if piece is None else piece.price

    def _set_frame_price(self, value: Any, gesture: int) -> Edit:
        assert self._entry.piece is not None
        text = say("Change the price of “{item}”", item=self._entry.name)
        return change_piece(self._entry.piece, text, lambda piece: _priced(piece, value), self._merge("frame", gesture))

    def _paid(self) -> Any:
        item = self._entry.need.item.casefold()
        return next((one.amount for one in self._session.project.money.paid if one.item.casefold() == item), None)

    def _set_paid(self, value: Any, gesture: int) -> Edit:
        return record_paid(self._entry.need.item, value, None, self._merge("paid", gesture))


def _under(project: Any, item: str) -> int:
    from composer.costing.items import PriceBook

    return PriceBook(project.money).in_drawer((item,))


def _owned(piece: Any, owned: bool) -> Any:
    from msgspec.structs import replace

    return replace(piece, owned=owned)


def _priced(piece: Any, price: Any) -> Any:
    from msgspec.structs import replace

    return replace(piece, price=price)
