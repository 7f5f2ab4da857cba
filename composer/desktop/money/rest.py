"""What is left over and what it would still hang; and the dearest lines."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from composer.costing.costs import Costs
from composer.costing.items import counted
from composer.costing.left_over import StillHangs
from composer.costing.shown import show_money, show_numbers
from composer.desktop import field_look as look
from composer.desktop.field_row import Words
from composer.paper.figures import Figures
from composer.texts import say, say_many

DEAREST = 3


def still_words(one: StillHangs, figures: Figures) -> str:
    """What the rest of one line is good for, in one sentence with its sum."""
    name = one.name[:1].upper() + one.name[1:]
    if one.group == "strips" and one.carries_kg is not None:
        return say_many(
            "{name}: {left}, {count} more piece of up to {weight} without glass ({pairs} × {rating} kg ÷ 1.5).",
            "{name}: {left}, {count} more pieces of up to {weight} each without glass ({pairs} × {rating} kg ÷ 1.5).",
            one.pieces,
            name=name,
            left=counted("strips", one.item, one.count),
            weight=figures.mass(one.carries_kg),
            pairs=one.pairs,
            rating=f"{one.rating_kg:g}",
        )
    if one.group == "board":
        sizes = ", ".join(figures.size(*(float(round(side)) for side in size)) for size in one.sizes[:3])
        return say("{name}: {sizes} for more mats.", name=name, sizes=sizes)
    if one.carries_kg is None:
        return say_many(
            "{name}: {count} for one more hanging point.",
            "{name}: {count} for as many hanging points.",
            one.count,
            name=name,
        )
    return say_many(
        "{name}: {count} for one more hanging point of up to {weight}.",
        "{name}: {count} for as many hanging points of up to {weight} each.",
        one.count,
        name=name,
        weight=figures.mass(one.carries_kg),
    )


class Dearest(QWidget):
    """The lines that cost most."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(look.px(12))
        self._grid.setVerticalSpacing(look.px(2))
        self._grid.setColumnStretch(0, 1)

    def show_costs(self, costs: Costs) -> None:
        """Other costs; hides itself where nothing costs anything."""
        while (item := self._grid.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        dearest = costs.dearest(DEAREST)
        for row, line in enumerate(dearest):
            name = line.name[:1].upper() + line.name[1:]
            words = (
                say("{name}, for {pieces}", name=name, pieces=show_numbers(line.need.pieces))
                if line.need.pieces
                else name
            )
            self._grid.addWidget(Words(words, 14), row, 0)
            cost = Words(show_money(line.cost, costs.currency), 14, semibold=True)
            cost.setWordWrap(False)
            self._grid.addWidget(cost, row, 1, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        self.setVisible(bool(dearest))
