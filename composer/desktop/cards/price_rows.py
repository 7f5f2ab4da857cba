"""What each thing costs and how many lie in the drawer, to be typed where the costs are read."""

from __future__ import annotations

from decimal import Decimal
from functools import partial
from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.costing.costs import Costs
from composer.costing.items import item_key
from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.session import Session, merge_key
from composer.desktop.field_row import FieldRow, Words
from composer.desktop.field_words import MoneyField, NumberField
from composer.editing.edits import Edit
from composer.editing.money_edits import set_in_drawer, set_price
from composer.model import Price
from composer.texts import say

Item = tuple[str, str]
"""How a price row calls it, and how it is called for reading."""


def items_of(costs: Costs) -> tuple[Item, ...]:
    """Everything that is bought, with or without a price yet, but for frames: theirs stands with the piece."""
    found: dict[str, str] = {}
    for need in costs.unpriced:
        if need.group != "frame":
            found.setdefault(need.item, need.label or need.item)
    for line in costs.lines:
        if line.need.group != "frame" and line.need.each is None:
            found.setdefault(line.need.item, line.name)
    return tuple(sorted(found.items(), key=lambda pair: pair[1]))


class PriceRows(QWidget):
    """A price, its pack and the drawer for each thing."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._bindings = Bindings(session)
        self._shown: tuple[Item, ...] = ()
        self._rows: list[QWidget] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(look.px(4))

    def show_items(self, items: tuple[Item, ...]) -> None:
        """A row for each; typed text stays while the things are the same."""
        if items != self._shown:
            self._shown = items
            for row in self._rows:
                self._column.removeWidget(row)
                row.hide()
                row.deleteLater()
            self._rows, self._bindings = [], Bindings(self._session)
            for item, name in items:
                self._add(item, name)
        self._bindings.refresh()

    def _add(self, item: str, name: str) -> None:
        heading = Words(name, 14)
        price = MoneyField(say("Price of {thing}", thing=name), currency=self._session.project.currency)
        pack = NumberField(say("In a pack of {thing}", thing=name), least=1, most=10_000, whole=True)
        drawer = NumberField(say("In the drawer of {thing}", thing=name), least=0, most=10_000, whole=True)
        self._bindings.bind(price, partial(self._each, item), partial(self._price, item, None))
        self._bindings.bind(pack, partial(self._pack, item), partial(self._packed, item))
        self._bindings.bind(drawer, partial(self._here, item), partial(self._drawer, item))
        row = FieldRow((say("Price"), price), (say("In a pack"), pack), (say("In the drawer"), drawer))
        for widget in (heading, row):
            self._column.addWidget(widget)
            self._rows.append(widget)

    def _offers(self, item: str) -> list[Price]:
        """What it is sold in."""
        key = item_key(item)
        return [one for one in self._session.project.money.prices if item_key(one.item) == key]

    def _known(self, item: str) -> Price | None:
        return next(iter(self._offers(item)), None)

    def _each(self, item: str) -> Decimal | None:
        known = self._known(item)
        return None if known is None else known.each

    def _pack(self, item: str) -> int | None:
        known = self._known(item)
        return None if known is None else known.pack

    def _here(self, item: str) -> int | None:
        folded = item.casefold()
        found = (one.count for one in self._session.project.money.in_drawer if one.item.casefold() == folded)
        return next(found, None)

    def _price(self, item: str, pack: int | None, value: Any, gesture: int) -> Edit:
        known = self._known(item)
        packed = pack or (known.pack if known is not None else 1)
        offers = [] if value is None else [Price(item=item, each=value, pack=packed)]
        offers += self._offers(item)[1:]  # packs of other sizes are typed in the window of costs
        return set_price(item, offers, merge_key(f"price-{item}", "", gesture))

    def _packed(self, item: str, value: Any, gesture: int) -> Edit:
        return self._price(item, int(value or 1), self._each(item), gesture)

    def _drawer(self, item: str, value: Any, gesture: int) -> Edit:
        return set_in_drawer(item, int(value or 0), merge_key(f"drawer-{item}", "", gesture))
