"""The piece list: every piece with its picture to one scale, what it measures, weighs, and where it is."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFontMetrics, QPainter, QPalette, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QButtonGroup,
    QHBoxLayout,
    QLineEdit,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from composer.desktop import icons
from composer.desktop.field_row import Words
from composer.desktop.open_project import Change, OpenProject
from composer.desktop.room.drawing import draw_piece
from composer.desktop.room.piece_item import draw_level
from composer.desktop.selection import Selection
from composer.desktop.theme import theme
from composer.desktop.units_shown import number, style_of
from composer.model import Key, Piece, Project
from composer.texts import say, say_many
from composer.units import MassUnit, show_mass

Index = QModelIndex | QPersistentModelIndex
ROW_HEIGHT = 50
THUMBNAIL = 44
LARGEST_PX_PER_MM = 0.08
FILTERS = ("all", "wall", "floor", "findings")


class PieceModel(QAbstractListModel):
    """The pieces that the filter lets through, in the order chosen."""

    def __init__(self, opened: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._words = ""
        self._place = "all"
        self._order = "number"
        self._levels: dict[Key, str] = {}
        self.keys: list[Key] = []
        self.px_per_mm = LARGEST_PX_PER_MM
        self.read()

    @property
    def project(self) -> Project:
        """What is shown."""
        return self._opened.shown

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 (Qt's signature)
        """How many rows there are."""
        return 0 if parent.isValid() else len(self.keys)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """The name for readers; the key for ourselves."""
        if not index.isValid() or index.row() >= len(self.keys):
            return None
        piece = self.project.piece_by_key[self.keys[index.row()]]
        if role == Qt.ItemDataRole.UserRole:
            return piece.key
        if role in {Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole}:
            return say(
                "{number} {name}, {size}, {where}",
                number=piece.number,
                name=piece.name,
                size=size_of(piece, self.project),
                where=self.where(piece.key),
            )
        if role == Qt.ItemDataRole.ToolTipRole:
            return piece.name
        return None

    def where(self, key: Key) -> str:
        """Where the piece is, in a word."""
        placement = self.project.placement_by_piece.get(key)
        if placement is None:
            return say("floor")
        return say("locked") if placement.locked else say("wall")

    def level(self, key: Key) -> str | None:
        """The most serious finding about the piece."""
        return self._levels.get(key)

    def count(self, place: str) -> int:
        """How many pieces a filter would show."""
        return sum(1 for piece in self.project.pieces if self._is_at(piece.key, place))

    def set_filter(self, words: str, place: str) -> None:
        """Shows what matches all the words (number, name, size) and is there."""
        self._words, self._place = words.casefold(), place
        self.read()

    def set_order(self, order: str) -> None:
        """By number, name, size or place."""
        self._order = order
        self.read()

    def set_levels(self, levels: dict[Key, str]) -> None:
        """The most serious finding of each piece."""
        if levels != self._levels:
            self._levels = levels
            if self._place == "findings":
                self.read()
            elif self.keys:
                self.dataChanged.emit(self.index(0), self.index(len(self.keys) - 1))

    def on_change(self, change: Change) -> None:
        """Rows of what changed; all of them when the list itself is another."""
        if self._wanted() != self.keys or change.fields:
            self.read()
            return
        touched = change.touched
        for row, key in enumerate(self.keys):
            if key in touched:
                self.dataChanged.emit(self.index(row), self.index(row))

    def read(self) -> None:
        """Reads the list anew."""
        self.beginResetModel()
        self.keys = self._wanted()
        largest = max((max(piece.size_mm()) for piece in self.project.pieces), default=1.0)
        self.px_per_mm = min(LARGEST_PX_PER_MM, THUMBNAIL / largest)
        self.endResetModel()

    def _wanted(self) -> list[Key]:
        pieces = [
            piece for piece in self.project.pieces if self._is_at(piece.key, self._place) and self._matches(piece)
        ]
        return [piece.key for piece in sorted(pieces, key=self._rank)]

    def _rank(self, piece: Piece) -> tuple[Any, ...]:
        if self._order == "name":
            return (piece.name.casefold(), piece.number)
        if self._order == "size":
            width, height = piece.size_mm()
            return (-width * height, piece.number)
        if self._order == "where":
            return (piece.key not in self.project.placement_by_piece, piece.number)
        return (piece.number,)

    def _is_at(self, key: Key, place: str) -> bool:
        if place == "wall":
            return key in self.project.placement_by_piece
        if place == "floor":
            return key not in self.project.placement_by_piece
        return place == "all" or key in self._levels

    def _matches(self, piece: Piece) -> bool:
        text = (
            f"{piece.number} {piece.name} {size_of(piece, self.project)}".casefold()
            .replace("\u202f", "")
            .replace("\u00a0", " ")
        )
        return all(word in text for word in self._words.split())


def size_of(piece: Piece, project: Project) -> str:
    """Width by height as shown."""
    style = style_of(project)
    return say(
        "{width} × {height}", width=number(piece.frame.width.mm, style), height=number(piece.frame.height.mm, style)
    )


class RowDelegate(QStyledItemDelegate):
    """Draws a row."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """One height for all rows."""
        return QSize(160, max(theme().px(ROW_HEIGHT), THUMBNAIL + 6))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Number, picture, name over size and weight, finding, place."""
        model = index.model()
        assert isinstance(model, PieceModel)
        look, box = theme(), option.rect
        state = option.state
        piece = model.project.piece_by_key[model.keys[index.row()]]
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        painter.save()
        ground = "accent_wash" if chosen else "surface_2" if state & QStyle.StateFlag.State_MouseOver else "surface"
        painter.fillRect(box, look.colour(ground))
        if chosen:
            painter.fillRect(QRect(box.left(), box.top(), 3, box.height()), look.colour("accent"))
        painter.setPen(look.colour("line"))
        painter.drawLine(box.bottomLeft(), box.bottomRight())
        left = box.left() + 12
        painter.setFont(look.font(14, semibold=True))
        painter.setPen(look.colour("ink"))
        number_width = look.px(22)
        painter.drawText(
            QRect(left, box.top(), number_width, box.height()), Qt.AlignmentFlag.AlignVCenter, str(piece.number)
        )
        left += number_width
        self._thumbnail(painter, QRect(left, box.top(), THUMBNAIL, box.height()), piece, model)
        left += THUMBNAIL + 10
        where = model.where(piece.key)
        metrics = QFontMetrics(look.font(12))
        where_width = 22 + max(metrics.horizontalAdvance(word) for word in (say("floor"), say("locked"), say("wall")))
        right = box.right() - 10 - where_width
        self._place(painter, QRect(right, box.top(), where_width, box.height()), where)
        level = model.level(piece.key)
        if level is not None:
            right -= 20
            draw_level(painter, QRectF(right, box.center().y() - 8, 16, 16), level, plate=False)
        self._words(painter, QRect(left, box.top(), right - left - 6, box.height()), piece, model)
        if state & QStyle.StateFlag.State_HasFocus and state & QStyle.StateFlag.State_KeyboardFocusChange:
            painter.setPen(QPen(look.colour("chalk"), 2))
            painter.drawRect(box.adjusted(1, 1, -2, -2))
        painter.restore()

    def _thumbnail(self, painter: QPainter, box: QRect, piece: Piece, model: PieceModel) -> None:
        width, height = (max(4, round(side * model.px_per_mm)) for side in piece.size_mm())
        left, top = box.center().x() - width // 2, box.center().y() - height // 2
        painter.save()
        draw_piece(painter, QRectF(left, top, width, height), piece, model.px_per_mm)
        painter.restore()

    def _words(self, painter: QPainter, box: QRect, piece: Piece, model: PieceModel) -> None:
        look = theme()
        upper, lower = QFontMetrics(look.font(14)), QFontMetrics(look.font(12))
        top = box.center().y() - (upper.height() + lower.height()) // 2
        painter.setFont(look.font(14))
        painter.setPen(look.colour("ink"))
        name = upper.elidedText(piece.name, Qt.TextElideMode.ElideRight, box.width())
        painter.drawText(QPointF(box.left(), top + upper.ascent()), name)
        parts = size_of(piece, model.project)
        if piece.weight is not None:
            unit: MassUnit = "lb" if model.project.units == "imperial" else "kg"
            parts = say("{size}, {weight}", size=parts, weight=show_mass(piece.weight.exact_kg, unit))
        painter.setFont(look.font(12))
        painter.setPen(look.colour("pencil"))
        parts = lower.elidedText(parts, Qt.TextElideMode.ElideRight, box.width())
        painter.drawText(QPointF(box.left(), top + upper.height() + lower.ascent()), parts)

    def _place(self, painter: QPainter, box: QRect, where: str) -> None:
        look = theme()
        drawing = {say("floor"): "floor", say("locked"): "lock"}.get(where, "wall")
        icons.icon(drawing).paint(painter, QRect(box.left(), box.center().y() - 7, 14, 14))
        painter.setFont(look.font(12))
        painter.setPen(look.colour("pencil"))
        painter.drawText(box.adjusted(20, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, where)


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
