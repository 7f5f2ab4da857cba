"""The piece list: every piece with its picture to one scale, what it measures, weighs, and where it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from PySide6.QtCore import (
    QItemSelection,
    QItemSelectionModel,
    Qt,
    Signal,
)
from PySide6.QtGui import QPalette, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QButtonGroup,
    QHBoxLayout,
    QListView,
    QVBoxLayout,
    QWidget,
)

from composer.desktop import field_look as look
from composer.desktop.field_row import Words
from composer.desktop.list_parts import FilterLine, FlatButton, SortHead, Tab
from composer.desktop.open_project import Change, OpenProject
from composer.desktop.piece_model import FILTERS, ORDERS, PieceModel
from composer.desktop.piece_rows import NARROW, RowDelegate
from composer.desktop.scroll_bars import slim
from composer.desktop.selection import Selection
from composer.desktop.theme import theme
from composer.hanging.weight import weight_of
from composer.model import Key, Piece, Project
from composer.texts import say, say_many
from composer.units import show_mass

QWIDGETSIZE_MAX = (1 << 24) - 1
"""As Qt has it: no limit."""

LEAST_WIDTH = 200
FOLDED_WIDTH = 64


class PieceList(QWidget):
    """The panel: head, filter, tabs, rows, sum.

    Signals:
        add_wanted, paste_wanted: the links in the head.
    """

    add_wanted = Signal()
    paste_wanted = Signal()

    def __init__(self, opened: OpenProject, selection: Selection, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        from composer.desktop.field_row import LinkButton

        self._opened, self._selection = opened, selection
        self._telling = False
        self.is_folded = False
        """Whether only numbers and thumbnails are shown."""
        self.model = PieceModel(opened, self)
        self.rows = QListView()
        self.rows.setModel(self.model)
        self.rows.setItemDelegate(RowDelegate(self.rows))
        self.rows.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.rows.setFrameShape(QListView.Shape.NoFrame)
        self.rows.setMouseTracking(True)
        self.rows.viewport().setBackgroundRole(QPalette.ColorRole.Window)
        self.rows.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        slim(self.rows)
        self.rows.setResizeMode(QListView.ResizeMode.Adjust)
        self.rows.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.rows.setAccessibleName(say("Pieces"))
        self.filter = FilterLine(say("Filter by name, size, number"))
        self._head = QWidget()
        head = QHBoxLayout(self._head)
        head.setContentsMargins(16, 8, 12, 0)
        head.addWidget(Words(say("Pieces"), 14, semibold=True))
        head.addStretch()
        add, paste = LinkButton(say("Add")), LinkButton(say("Paste rows"))
        head.addWidget(add)
        head.addSpacing(12)
        head.addWidget(paste)
        self.tabs = QButtonGroup(self)
        self._tab_row = self._button_row([Tab() for _ in FILTERS], self.tabs, FILTERS, "place")
        self.sorts = QButtonGroup(self)
        heads = [SortHead(words) for words in (say("No."), say("Piece"), say("Size"), say("Where"))]
        self._sort_row = self._button_row(heads, self.sorts, ORDERS, "order")
        for sort in heads:
            sort.setAccessibleName(say("Sort by {what}", what=sort.text()))
            sort.setToolTip(sort.accessibleName())
        self.sum = Words("", 12, semibold=True)
        self.sum.setContentsMargins(16, 8, 12, 0)
        self.drop_hint = Words(say("Drop picture files or a table here to add more."), 12, "pencil")
        self.drop_hint.setContentsMargins(16, 0, 12, 8)
        self.empty = Words("", 14, "pencil")
        self.empty.setContentsMargins(16, 16, 12, 0)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self._head)
        field = QVBoxLayout()
        field.setContentsMargins(12, 0, 12, 0)
        field.addWidget(self.filter)
        column.addLayout(field)
        column.addWidget(self._tab_row)
        column.addWidget(self._sort_row)
        column.addWidget(self.empty)
        column.addWidget(self.rows, 1)
        column.addWidget(self.sum)
        column.addWidget(self.drop_hint)
        self.setMinimumWidth(LEAST_WIDTH)
        add.clicked.connect(self.add_wanted)
        paste.clicked.connect(self.paste_wanted)
        self.filter.textChanged.connect(self._on_filter)
        self.tabs.buttonClicked.connect(self._on_filter)
        self.sorts.buttonClicked.connect(self._on_sort)
        self.rows.selectionModel().selectionChanged.connect(self._on_rows)
        selection.changed.connect(self._on_selection)
        theme().changed.connect(self._on_theme)
        self.refresh()

    def _button_row(
        self, buttons: Sequence[FlatButton], group: QButtonGroup, names: Sequence[str], about: str
    ) -> QWidget:
        """Buttons of which one is chosen, each knowing what it stands for."""
        box = QWidget()
        row = QHBoxLayout(box)
        row.setContentsMargins(12, 0, 8, 0)
        row.setSpacing(2)
        for button, name in zip(buttons, names, strict=True):
            button.setProperty(about, name)
            group.addButton(button)
            row.addWidget(button)
        row.addStretch()
        buttons[0].setChecked(True)
        return box

    def on_change(self, before: Project, after: Project, change: Change) -> None:
        """Brings the rows of what changed up to date."""
        self._telling = True
        try:
            self.model.on_change(change)
        finally:
            self._telling = False
        self.refresh()
        self._on_selection()

    def show_pictures(self, _keys: object) -> None:
        """Pictures came or went."""
        self.rows.viewport().update()

    def set_levels(self, levels: dict[Key, str]) -> None:
        """The most serious finding of each piece."""
        self._telling = True
        try:
            self.model.set_levels(levels)
        finally:
            self._telling = False
        self.refresh()
        self._on_selection()

    def refresh(self) -> None:
        """Counts and sum."""
        names = {"all": say("All"), "wall": say("Wall"), "floor": say("Floor"), "findings": say("Findings")}
        for tab in self.tabs.buttons():
            place = tab.property("place")
            assert isinstance(tab, Tab)
            tab.set_words(say("{name} {count}", name=names[place], count=self.model.count(place)))
        project = self._opened.shown
        chosen = [project.piece_by_key[key] for key in self._selection.pieces if key in project.piece_by_key]
        counted = chosen if len(chosen) > 1 else list(project.pieces)
        words = say_many("{count} piece", "{count} pieces", len(counted))
        if len(chosen) > 1:
            words = say("{pieces} selected of {all}", pieces=words, all=len(project.pieces))
        self.sum.setText(say("{pieces}.", pieces=self._with_weight(words, counted)))
        self.empty.setText(self._why_empty())
        self.empty.setVisible(not self.model.keys and not self.is_folded)
        filled = bool(project.pieces) and not self.is_folded
        for part in (self._head, self.sum, self.drop_hint):
            part.setVisible(not self.is_folded)
        if self.is_folded:
            for part in self._added():
                part.hide()
        self._tab_row.setVisible(filled and not self.model.grouped)
        self._sort_row.setVisible(filled)
        self.sorts.buttons()[-1].setVisible(not self.model.grouped)
        self.filter.setVisible(filled)

    def _with_weight(self, words: str, pieces: list[Piece]) -> str:
        """How many, and what they weigh where it is known or can be estimated."""
        unit = self._opened.shown.mass_unit
        weights = [weight for piece in pieces if (weight := weight_of(piece)) is not None]
        if not weights:
            return words
        mass = show_mass(sum(weight.kg for weight in weights), unit)
        if len(weights) < len(pieces):
            return say("{pieces}, {count} of them {mass}", pieces=words, count=len(weights), mass=mass)
        if not all(weight.measured for weight in weights):
            return say("{pieces}, about {mass}", pieces=words, mass=mass)
        return say("{pieces}, {mass}", pieces=words, mass=mass)

    def _why_empty(self) -> str:
        if not self._opened.shown.pieces:
            return say("No pieces yet. Add the first frame, paste rows, or drop a table here.")
        return "" if self.model.keys else say("No piece matches the filter.")

    def _on_filter(self, *_: object) -> None:
        chosen = self.tabs.checkedButton()
        self._telling = True
        try:
            self.model.set_filter(self.filter.text(), chosen.property("place") if chosen else "all")
        finally:
            self._telling = False
        self.refresh()
        self._on_selection()

    def _on_sort(self, button: QAbstractButton) -> None:
        self._telling = True
        try:
            self.model.set_order(button.property("order"))
        finally:
            self._telling = False
        self._on_selection()

    def set_folded(self, folded: bool) -> None:
        """Shows numbers and thumbnails alone, so narrow that the room keeps its share; names are tips then."""
        self.is_folded = self.model.folded = folded
        if folded:
            self.setFixedWidth(look.px(FOLDED_WIDTH))
        else:
            self.setMinimumWidth(LEAST_WIDTH)
            self.setMaximumWidth(QWIDGETSIZE_MAX)
            for part in self._added():
                part.show()
        self.refresh()
        self.rows.doItemsLayout()

    def _added(self) -> Iterator[QWidget]:
        """What others have put below the rows."""
        column = self.layout()
        assert column is not None
        for place in range(column.indexOf(self.drop_hint) + 1, column.count()):
            item = column.itemAt(place)
            if item is not None and (part := item.widget()) is not None:
                yield part

    def resizeEvent(self, event: QResizeEvent) -> None:
        """A narrow list is grouped by place instead of naming it in every row."""
        super().resizeEvent(event)
        narrow = self.width() < look.px(NARROW)
        if narrow != self.model.grouped:
            self._telling = True
            try:
                self.model.set_grouped(narrow)
            finally:
                self._telling = False
            self.refresh()
            self._on_selection()

    def _on_rows(self, *_: object) -> None:
        if self._telling:
            return
        shown = set(self.model.keys)
        picked = {index.row() for index in self.rows.selectedIndexes()}
        hidden = [key for key in self._selection.pieces if key not in shown]
        self._selection.set([*hidden, *(key for row, key in enumerate(self.model.keys) if row in picked)])

    def _on_selection(self) -> None:
        self.refresh()
        wanted = {row for row, key in enumerate(self.model.keys) if key in self._selection}
        rows = self.rows.selectionModel()
        if wanted == {index.row() for index in self.rows.selectedIndexes()}:
            return
        marked = QItemSelection()
        for row in sorted(wanted):
            marked.select(self.model.index(row), self.model.index(row))
        self._telling = True
        try:
            rows.select(marked, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        finally:
            self._telling = False
        if len(wanted) == 1:
            index = self.model.index(next(iter(wanted)))
            self.rows.scrollTo(index)
            rows.setCurrentIndex(index, QItemSelectionModel.SelectionFlag.NoUpdate)

    def _on_theme(self) -> None:
        if self.is_folded:
            self.setFixedWidth(look.px(FOLDED_WIDTH))
        self.rows.doItemsLayout()
        self.refresh()
