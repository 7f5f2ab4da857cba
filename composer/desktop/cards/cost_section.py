"""What a piece costs."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout

from composer.desktop.cards.bound import add_row
from composer.desktop.cards.piece_section import PieceSection
from composer.desktop.field_kinds import (
    CheckField,
    MoneyField,
)
from composer.model import Key, Project
from composer.texts import say


class CostSection(PieceSection):
    """What the frame cost."""

    def build(self, column: QVBoxLayout) -> None:
        """Price and whether it is paid."""
        price = MoneyField(say("Price of the frame"), currency=self._session.project.currency)
        add_row(column, self._bind_piece(price, "price", say("Price of the frame")))
        owned = CheckField(say("Already paid for"))
        self._bind_piece(owned, "owned", say("already paid for"))
        column.addWidget(owned)


def cost_sentence(project: Project, key: Key) -> str:
    """The frame's price in one sentence."""
    piece = project.piece_by_key[key]
    if piece.price is None:
        return say("Already paid for.") if piece.owned else say("No price yet.")
    amount = say("{currency} {amount}", currency=project.currency, amount=f"{piece.price:.2f}")
    return (
        say("Frame {amount}, already paid for.", amount=amount)
        if piece.owned
        else say("Frame {amount}.", amount=amount)
    )
