"""What pasted rows were taken for: each column with its meaning, each row with its pieces or what is wrong.

Nothing is added before the person says so. Cells can be typed over and columns taken for something
else; rows that cannot be read stay here while the others are added.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from composer.catalogue.names import hanger_name
from composer.desktop import field_look as look
from composer.desktop.field_choices import ChoiceField
from composer.desktop.field_row import PushButton, Words
from composer.desktop.scroll_bars import slim
from composer.desktop.window_sizes import open_at
from composer.editing.pasted_rows import LEFT_OUT, ROW, ReadRow, Understood, column_names, is_known, read_rows
from composer.model import Project
from composer.texts import say, say_many
from composer.units import Mm, show_length

Add = Callable[[Sequence[ReadRow]], bool]


class PasteWindow(QDialog):
    """A preview of pasted rows.

    Args:
        project: whose units and catalogue they are read in.
        taken: the rows and a first guess at the columns.
        add: adds the rows that can be read; says whether it did.
    """

    def __init__(self, project: Project, taken: Understood, add: Add, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        from composer.catalogue import catalogue

        self._project, self._add = project, add
        self._catalogue = catalogue.of(project.catalogue)
        self._taken = taken
        self.rows: tuple[ReadRow, ...] = ()
        self._filling = False
        self.setWindowTitle(say("Paste rows"))
        column = QVBoxLayout(self)
        column.setContentsMargins(look.px(20), look.px(16), look.px(20), look.px(16))
        column.setSpacing(look.px(8))
        column.addWidget(Words(say("How the rows were understood"), 18, semibold=True))
        self.sum = Words("", 14)
        column.addWidget(self.sum)
        self.table = QTableWidget()
        self.table.setAccessibleName(say("Pasted rows"))
        self.table.setFont(look.font(14))
        slim(self.table)
        self.table.setWordWrap(True)
        self.table.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )
        self.table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        corner = look.colours().surface_2.name()
        self.table.setStyleSheet(f"QTableCornerButton::section {{ background: {corner}; border: 0; }}")
        for header in (self.table.horizontalHeader(), self.table.verticalHeader()):
            header.setStyleSheet(_flat_header())
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.table.itemChanged.connect(self._on_cell)
        column.addWidget(self.table, 1)
        column.addWidget(
            Words(say("Wrong cells can be typed over here. What a column is can be chosen above it."), 12, "pencil")
        )
        foot = QHBoxLayout()
        self.note = Words("", 12, "ok")
        foot.addWidget(self.note, 1)
        close = PushButton(say("Cancel"))
        close.clicked.connect(self.reject)
        self.go = PushButton(say("Add"), main=True)
        self.go.clicked.connect(self._on_add)
        foot.addWidget(close)
        foot.addWidget(self.go)
        column.addLayout(foot)
        open_at(self, look.px(1060), look.px(520))
        self._fill()
        self.go.setFocus()

    def take_column(self, place: int, meaning: str) -> None:
        """Takes a column for another one; what stands twice then is said in the rows."""
        columns = list(self._taken.columns)
        columns[place] = meaning
        self._taken = Understood(self._taken.cells, self._taken.head, tuple(columns), self._taken.units)
        self._read()

    def _fill(self) -> None:
        """Builds the table anew: the choice of columns, the cells, room for the result."""
        self._filling = True
        taken, wide = self._taken, len(self._taken.columns)
        self.table.clear()
        self.table.setRowCount(len(taken.cells) + 1)
        self.table.setColumnCount(wide + 1)
        heads = [taken.head[place] if taken.head else say("column {place}", place=place + 1) for place in range(wide)]
        if taken.columns == (ROW,):
            heads = [say("as typed")]
        self.table.setHorizontalHeaderLabels([*heads, say("becomes")])
        first = 2 if taken.head else 1
        labels = [str(first + place) for place in range(len(taken.cells))]
        self.table.setVerticalHeaderLabels([say("is"), *labels])
        for place in range(wide):
            self.table.setCellWidget(0, place, self._choice(place, heads[place]))
        nothing = QTableWidgetItem("")
        nothing.setFlags(Qt.ItemFlag.NoItemFlags)
        self.table.setItem(0, wide, nothing)
        for row, cells in enumerate(taken.cells, start=1):
            for place, cell in enumerate(cells):
                self.table.setItem(row, place, QTableWidgetItem(cell))
            result = QTableWidgetItem("")
            result.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            self.table.setItem(row, wide, result)
        for place in range(wide):
            chosen = self.table.cellWidget(0, place)
            words = look.width_of(chosen.currentText(), 14) if isinstance(chosen, ChoiceField) else 0
            least = look.px(420 if taken.columns == (ROW,) else 104)
            self.table.setColumnWidth(place, max(least, words + look.px(44)))
        self._filling = False
        self._read()

    def _choice(self, place: int, head: str) -> ChoiceField:
        meaning = self._taken.columns[place]
        if meaning == ROW:
            choices: list[tuple[object, str]] = [(ROW, say("one frame a line"))]
        else:
            choices = [(name, name) for name in column_names()]
            own = meaning if meaning and not is_known(meaning) else head
            choices += [(own, say("kept as “{name}”", name=own)), (LEFT_OUT, say("left out"))]
            if meaning and is_known(meaning) and meaning not in column_names():
                choices.insert(0, (meaning, say("{name}, not needed", name=meaning)))
        field = ChoiceField(say("What “{head}” is", head=head), choices)
        field.set_value(meaning)
        field.committed.connect(partial(self.take_column, place))
        return field

    def _on_cell(self, item: QTableWidgetItem) -> None:
        if self._filling or item.row() == 0 or item.column() >= len(self._taken.columns):
            return
        cells = [list(row) for row in self._taken.cells]
        cells[item.row() - 1][item.column()] = item.text().strip()
        self._taken = Understood(
            tuple(tuple(row) for row in cells), self._taken.head, self._taken.columns, self._taken.units
        )
        self._read()

    def _read(self) -> None:
        """Reads every row and says beside it what it becomes."""
        self.rows = read_rows(self._taken, self._project.units, self._catalogue)
        shades = look.colours()
        self._filling = True
        for place, row in enumerate(self.rows, start=1):
            item = self._result(place)
            item.setText(row.problem or self._becomes(row))
            item.setToolTip(item.text())
            item.setForeground(QColor(shades.stop if row.problem else shades.ink))
        self._filling = False
        self._fit_rows()
        good, wrong = sum(len(row.pieces) for row in self.rows), sum(1 for row in self.rows if row.problem)
        words = say_many("{count} piece can be added.", "{count} pieces can be added.", good)
        if wrong:
            words = say(
                "{words} {explained}",
                words=words,
                explained=say_many(
                    "{count} row cannot be read yet; it says why.",
                    "{count} rows cannot be read yet; each says why.",
                    wrong,
                ),
            )
        self.sum.setText(words)
        self.go.setText(say_many("Add {count} piece", "Add {count} pieces", good))
        self.go.setAccessibleName(self.go.text())
        self.go.updateGeometry()
        self.go.setEnabled(good > 0)

    def _result(self, row: int) -> QTableWidgetItem:
        item = self.table.item(row, len(self._taken.columns))
        return item if item is not None else QTableWidgetItem("")

    def _fit_rows(self) -> None:
        """The last column takes the room that is left, rows as many lines as their words."""
        plain = max(look.px(30), 24)
        wide = len(self._taken.columns)
        rest = self.table.viewport().width() - sum(self.table.columnWidth(place) for place in range(wide))
        self.table.setColumnWidth(wide, max(look.px(240), rest - 2))
        self.table.resizeRowsToContents()
        for place in range(self.table.rowCount()):
            self.table.setRowHeight(place, max(plain, self.table.rowHeight(place)))

    def _becomes(self, row: ReadRow) -> str:
        style, first = self._project.length_style, row.pieces[0].piece
        size = say(
            "{width} × {height}",
            width=show_length(Mm(first.frame.width.mm), style),
            height=show_length(Mm(first.frame.height.mm), style),
        )
        words = say("{name}, {size}", name=first.name, size=size)
        if first.hanger.kind is not None:
            words = say("{words}, {hanger}", words=words, hanger=hanger_name(first.hanger.kind))
        if len(row.pieces) > 1:
            words = say("{count} pieces: {words}", count=len(row.pieces), words=words)
        return words

    def _on_add(self, _: bool = False) -> None:
        good = [row for row in self.rows if not row.problem]
        if not good or not self._add(good):
            return
        left = tuple(cells for cells, row in zip(self._taken.cells, self.rows, strict=True) if row.problem)
        if not left:
            self.accept()
            return
        added = sum(len(row.pieces) for row in good)
        self.note.setText(
            say_many(
                "{count} piece added; what is left can be mended here.",
                "{count} pieces added; what is left can be mended here.",
                added,
            )
        )
        self._taken = Understood(left, self._taken.head, self._taken.columns, self._taken.units)
        self._fill()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Rows grow where a sentence wraps."""
        super().resizeEvent(event)
        if self.table.rowCount():
            self._fit_rows()

    def showEvent(self, event: QShowEvent) -> None:
        """Widths are known only now."""
        super().showEvent(event)
        self._fit_rows()


def _flat_header() -> str:
    """Heads of rows and columns without the style's gradient."""
    shades = look.colours()
    return (
        f"QHeaderView {{ background: {shades.surface_2.name()}; border: 0; }}"
        f"QHeaderView::section {{ background: {shades.surface_2.name()}; color: {shades.pencil.name()};"
        f" border: 0; border-right: 1px solid {shades.line.name()}; border-bottom: 1px solid {shades.line.name()};"
        f" padding: {look.px(3)}px {look.px(6)}px; font-size: {look.px(12)}px; }}"
    )
