"""What a piece costs."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout

from composer.costing.costs import costs_of
from composer.costing.shown import show_money
from composer.desktop.cards.bound import add_row
from composer.desktop.cards.card import Working
from composer.desktop.cards.piece_section import PieceSection
from composer.desktop.field_kinds import (
    CheckField,
    MoneyField,
)
from composer.desktop.field_row import Words
from composer.hanging.working import WrittenLine
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
        self._working = Working()
        column.addWidget(self._working)
        self._lacking = Words("", 12, "pencil")
        column.addWidget(self._lacking)
        self.refresh()

    def refresh(self) -> None:
        """What it costs by itself, line by line."""
        super().refresh()
        if not hasattr(self, "_lacking") or self._key not in self._session.project.piece_by_key:
            return
        project = self._session.project
        costs = costs_of(project, only=(self._piece.number,))
        self._working.show_lines(
            WrittenLine(
                line.name,
                say("{name} × {count}", name=line.name, count=line.need.count),
                show_money(line.cost, project.currency),
                (),
                say("Packs as sold; what is left over serves other pieces."),
            )
            for line in costs.lines
        )
        names = ", ".join(sorted({need.label or need.item for need in costs.unpriced}))
        self._lacking.setText(say("Without a price yet: {things}.", things=names) if names else "")
        self._lacking.setVisible(bool(names))


def cost_sentence(project: Project, key: Key) -> str:
    """What the piece costs by itself, and its frame."""
    piece = project.piece_by_key[key]
    costs = costs_of(project, only=(piece.number,))
    if costs.total:
        total = say("{currency} {amount}", currency=project.currency, amount=show_money(costs.total, project.currency))
        if piece.owned or piece.price is None:
            return say("{total} by itself.", total=total)
        frame = show_money(piece.price, project.currency)
        return say("{total} by itself, of which the frame is {frame}.", total=total, frame=frame)
    if piece.owned:
        return say("Already paid for.")
    return say("No price yet.")
