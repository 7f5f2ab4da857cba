"""The piece list: every piece with its picture to one scale, what it measures, weighs, and where it is."""

from __future__ import annotations

from PySide6.QtCore import (
    QItemSelection,
    QItemSelectionModel,
    Signal,
)
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import (
    QAbstractItemView,
    QButtonGroup,
    QHBoxLayout,
    QLineEdit,
    QListView,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from composer.desktop import icons
from composer.desktop.field_row import Words
from composer.desktop.open_project import Change, OpenProject
from composer.desktop.piece_model import FILTERS, PieceModel
from composer.desktop.piece_rows import RowDelegate
from composer.desktop.selection import Selection
from composer.desktop.theme import theme
from composer.model import Key, Project
from composer.texts import say, say_many
from composer.units import MassUnit, show_mass


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
        self.model = PieceModel(opened, self)
        self.rows = QListView()
        self.rows.setModel(self.model)
        self.rows.setItemDelegate(RowDelegate(self.rows))
        self.rows.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.rows.setFrameShape(QListView.Shape.NoFrame)
        self.rows.setMouseTracking(True)
        self.rows.viewport().setBackgroundRole(QPalette.ColorRole.Window)
        self.rows.setUniformItemSizes(True)
        self.rows.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.rows.setAccessibleName(say("Pieces"))
        self.filter = QLineEdit()
        self.filter.setPlaceholderText(say("Filter by name, size, number"))
        self.filter.setAccessibleName(say("Filter"))
        self.filter.setClearButtonEnabled(True)
        self.filter.addAction(icons.icon("find"), QLineEdit.ActionPosition.LeadingPosition)
        head = QHBoxLayout()
        head.setContentsMargins(16, 8, 12, 0)
        head.addWidget(Words(say("Pieces"), 14, semibold=True))
        head.addStretch()
        add, paste = LinkButton(say("Add")), LinkButton(say("Paste rows"))
        head.addWidget(add)
        head.addSpacing(12)
        head.addWidget(paste)
        self.tabs = QButtonGroup(self)
        row = QHBoxLayout()
        row.setContentsMargins(12, 0, 12, 0)
        row.setSpacing(2)
        for place in FILTERS:
            tab = QToolButton()
            tab.setCheckable(True)
            tab.setAutoRaise(True)
            tab.setProperty("place", place)
            self.tabs.addButton(tab)
            row.addWidget(tab)
        row.addStretch()
        self.tabs.buttons()[0].setChecked(True)
        self.sum = Words("", 12, "pencil")
        self.sum.setContentsMargins(16, 8, 12, 8)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addLayout(head)
        field = QVBoxLayout()
        field.setContentsMargins(12, 0, 12, 0)
        field.addWidget(self.filter)
        column.addLayout(field)
        column.addLayout(row)
        column.addWidget(self.rows, 1)
        column.addWidget(self.sum)
        self.setMinimumWidth(200)
        add.clicked.connect(self.add_wanted)
        paste.clicked.connect(self.paste_wanted)
        self.filter.textChanged.connect(self._on_filter)
        self.tabs.buttonClicked.connect(self._on_filter)
        self.rows.selectionModel().selectionChanged.connect(self._on_rows)
        selection.changed.connect(self._on_selection)
        theme().changed.connect(self._on_theme)
        self.refresh()

    def on_change(self, before: Project, after: Project, change: Change) -> None:
        """Brings the rows of what changed up to date."""
        self._telling = True
        try:
            self.model.on_change(change)
        finally:
            self._telling = False
        self.refresh()
        self._on_selection()

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
            tab.setText(say("{name} {count}", name=names[place], count=self.model.count(place)))
            tab.setFont(theme().font(12, semibold=tab.isChecked()))
        pieces = self._opened.shown.pieces
        weighed = [piece.weight.exact_kg for piece in pieces if piece.weight is not None]
        words = say_many("{count} piece", "{count} pieces", len(pieces))
        if weighed:
            unit: MassUnit = "lb" if self._opened.shown.units == "imperial" else "kg"
            total = show_mass(sum(weighed, start=0 * weighed[0]), unit)
            words = say("{pieces}, {count} of them weighed: {weight}.", pieces=words, count=len(weighed), weight=total)
        self.sum.setText(words)

    def _on_filter(self, *_: object) -> None:
        chosen = self.tabs.checkedButton()
        self._telling = True
        try:
            self.model.set_filter(self.filter.text(), chosen.property("place") if chosen else "all")
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
        self.rows.doItemsLayout()
        self.refresh()
