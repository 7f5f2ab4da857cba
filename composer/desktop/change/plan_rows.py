"""The rows of a rehang plan in the order of work, and what is to be bought for it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from composer.catalogue import catalogue as catalogues
from composer.costing.items import counted, item_name
from composer.costing.shown import show_money, show_numbers
from composer.desktop import field_look as look
from composer.desktop.change.plan_drawing import Sign
from composer.desktop.change.planning import Planned
from composer.desktop.field_row import Words
from composer.paper.rehang_words import Row
from composer.rehang.order import Act
from composer.texts import say

SIGNS: dict[Act, str] = {"down": "minus", "aside": "minus", "move": "arrow", "hang": "arrow", "up": "plus"}


class Grid(QWidget):
    """A table of words, filled anew each time."""

    def __init__(self, stretch: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.grid = QGridLayout(self)
        self.grid.setContentsMargins(0, 0, 0, 0)
        self.grid.setHorizontalSpacing(look.px(12))
        self.grid.setVerticalSpacing(look.px(4))
        self.grid.setColumnStretch(stretch, 1)

    def clear(self) -> None:
        """Takes everything out."""
        while (item := self.grid.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()

    def words(
        self, row: int, column: int, text: str, size: int = 14, shade: str = "ink", *, strong: bool = False
    ) -> Words:
        """A text that wraps."""
        made = Words(text, size, shade, semibold=strong)  # type: ignore[arg-type]  # one of the shades
        self.grid.addWidget(made, row, column, Qt.AlignmentFlag.AlignTop)
        return made

    def figures(self, row: int, column: int, lines: Sequence[str], *, strong: bool = True, shade: str = "ink") -> None:
        """Numbers below each other, at the right."""
        made = Words("\n".join(lines), 14, shade, semibold=strong)  # type: ignore[arg-type]  # one of the shades
        made.setWordWrap(False)
        made.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        self.grid.addWidget(made, row, column, Qt.AlignmentFlag.AlignTop)


class WorkRows(Grid):
    """What is done with which piece, one row after the other."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(2, parent)
        for column in (6, 7):
            self.grid.setColumnStretch(column, 1)

    def show_plan(self, planned: Planned) -> None:
        """Another plan."""
        self.clear()
        if not planned.rows:
            self.words(0, 2, say("No piece moves, comes down or goes up."), shade="pencil")
            return
        heads = ("", "", say("piece"), say("from level line"), say("above floor"), planned.datum.side_words())
        for column, words in enumerate((*heads, say("hole"), say("fixing"))):
            head = self.words(0, column, words, 12, "pencil")
            if 3 <= column <= 5:
                head.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom)
        for place, row in enumerate(planned.rows, 1):
            self._add(place, row)

    def _add(self, place: int, row: Row) -> None:
        self.figures(place, 0, [str(row.number)])
        self.grid.addWidget(Sign(SIGNS[row.act], row.way), place, 1, Qt.AlignmentFlag.AlignTop)
        how = {"down": say("comes down"), "aside": say("laid aside")}.get(row.act, row.how)
        self.words(place, 2, say("{name}\n{how}", name=row.name or say("no name"), how=how))
        shade = "pencil" if row.light else "ink"
        for column, texts in ((3, [s.line for s in row.spots]), (4, [s.floor for s in row.spots])):
            self.figures(place, column, texts, strong=not row.light, shade=shade)
        self.figures(place, 5, [spot.side for spot in row.spots], strong=not row.light, shade=shade)
        holes = list(dict.fromkeys(words for _, words in row.holes))
        if row.edges:
            holes.insert(0, say("bottom and left edge"))
        self.words(place, 6, "\n".join(holes), 12).setMinimumWidth(look.px(110))
        self.words(place, 7, "\n".join(words for words in row.fixing if words), 12).setMinimumWidth(look.px(110))


class ToBuy(Grid):
    """What the change needs that is not there."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, parent)

    def show_plan(self, planned: Planned) -> bool:
        """Another plan; says whether there is anything in it."""
        self.clear()
        costs, known = planned.costs, catalogues.of(planned.project.catalogue)
        rows: list[tuple[str, str, str, str]] = []
        for line in costs.lines:
            have = str(line.purchase.from_drawer) if line.purchase.from_drawer else ""
            pay = show_money(line.cost, costs.currency) if line.cost else "–"
            need = line.need
            rows.append((_named(line.name, need.pieces), counted(need.group, need.item, need.count), have, pay))
        for need in (*costs.unpriced, *costs.handy):
            name = need.label or item_name(need.group, need.item, known)
            pay = say("at home?") if need.handy else say("price?")
            have = str(need.at_home or "")
            rows.append((_named(name, need.pieces), counted(need.group, need.item, need.count), have, pay))
        if not rows:
            return False
        for column, words in ((1, say("need")), (2, say("have")), (3, say("to pay"))):
            head = self.words(0, column, words, 12, "pencil")
            head.setAlignment(Qt.AlignmentFlag.AlignRight)
        for place, row in enumerate(rows, 1):
            self.words(place, 0, row[0])
            for column in (1, 2, 3):
                self.figures(place, column, [row[column]], strong=column == 3)
        if costs.lines:
            self.words(len(rows) + 1, 0, say("Together"), strong=True)
            self.figures(len(rows) + 1, 3, [show_money(costs.total, costs.currency)])
        return True


def _named(name: str, pieces: Sequence[int]) -> str:
    name = name[:1].upper() + name[1:]
    return say("{what} ({pieces})", what=name, pieces=show_numbers(pieces)) if pieces else name
