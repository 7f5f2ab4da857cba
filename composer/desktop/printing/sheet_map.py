"""The sheets as they will be taped together, one little map a piece; sheets left out are crossed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QHelpEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QToolTip, QWidget

from composer.desktop import field_look as look
from composer.geometry.rectangle import Rectangle
from composer.model import Project
from composer.paper.page_index import IndexEntry, column_letters
from composer.texts import say, say_many


@dataclass(frozen=True, slots=True)
class PieceSheets:
    """The sheets of one piece, or of the whole wall.

    Attributes:
        number: of the piece, None for the wall.
        outline: what is printed, mm in the index's own coordinates.
        entries: the sheets there are.
        left_out: row and column of the sheets with nothing to mark on them.
    """

    number: int | None
    outline: Rectangle
    entries: tuple[IndexEntry, ...]
    left_out: tuple[tuple[int, int], ...]

    @property
    def shared(self) -> bool:
        """Whether it lies on a sheet together with others, or on one of its own size."""
        return any(entry.rotated for entry in self.entries)

    @property
    def joins(self) -> int:
        """Seams to tape: sheets beside or above each other whose printed parts meet."""
        areas = {(entry.row, entry.column): page_area(entry) for entry in self.entries}

        def meets(one: tuple[int, int], other: tuple[int, int]) -> bool:
            if other not in areas:
                return False
            a, b = areas[one], areas[other]
            return a.left <= b.right and b.left <= a.right and a.bottom <= b.top and b.bottom <= a.top

        return sum(meets((r, c), (r, c + 1)) + meets((r, c), (r + 1, c)) for r, c in areas)


def sheets_of(entries: Sequence[IndexEntry], project: Project) -> tuple[PieceSheets, ...]:
    """The index by pieces, in the order of the pages."""
    numbers = dict.fromkeys(entry.piece for entry in entries)
    return tuple(_of_piece(number, [e for e in entries if e.piece == number], project) for number in numbers)


def _of_piece(number: int | None, entries: list[IndexEntry], project: Project) -> PieceSheets:
    rows, columns = entries[0].of
    present = {(entry.row, entry.column) for entry in entries}
    missing = [(r, c) for r in range(1, rows + 1) for c in range(1, columns + 1) if (r, c) not in present]
    if number is None:
        areas = [page_area(entry) for entry in entries]
        outline = Rectangle(
            min(a.left for a in areas),
            min(a.bottom for a in areas),
            max(a.right for a in areas),
            max(a.top for a in areas),
        )
    else:
        piece = project.piece_by_number[number]
        place = project.placement_by_piece.get(piece.key)
        width, height = piece.size_mm(turned=place is not None and place.turned)
        outline = Rectangle(0.0, 0.0, width, height)
    return PieceSheets(number, outline, tuple(entries), tuple(missing) if entries[0].of != (1, 1) else ())


def page_area(entry: IndexEntry) -> Rectangle:
    """The printable part of a sheet in the piece's coordinates, mm, scale correction aside."""
    left, bottom, right, top = entry.printable
    ox, oy = entry.origin
    if entry.rotated:  # page = (−y − ox, x − oy)
        return Rectangle(bottom + oy, -right - ox, top + oy, -left - ox)
    return Rectangle(left + ox, bottom + oy, right + ox, top + oy)


class SheetMap(QWidget):
    """All maps at one scale; a click or the arrow keys choose a sheet.

    Signals:
        chosen: page number, from 1.
    """

    chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._groups: tuple[PieceSheets, ...] = ()
        self._places: list[tuple[QRectF, IndexEntry]] = []
        self._page = 1
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(say("As they are taped together"))
        self.setMinimumWidth(look.px(280))

    def show_sheets(self, groups: tuple[PieceSheets, ...]) -> None:
        """Shows other sheets."""
        self._groups = groups
        self.setAccessibleDescription(" ".join(caption(group) for group in groups))
        self.setMinimumHeight(self._lay_out(None))
        self.update()

    def show_page(self, page: int) -> None:
        """Marks the sheet that is previewed."""
        self._page = page
        self.update()

    def sizeHint(self) -> QSize:
        """As in the window."""
        return QSize(look.px(468), self.minimumHeight())

    def resizeEvent(self, event: object) -> None:
        """More maps side by side in a wider window."""
        high = self._lay_out(None)
        if high != self.minimumHeight():
            self.setMinimumHeight(high)

    def _columns(self) -> int:
        return max(1, min(4, self.width() // look.px(140)))

    def _lay_out(self, painter: QPainter | None) -> int:
        """Draws, or only measures; the height in pixels."""
        self._places = []
        if not self._groups:
            return look.px(60)
        gap, columns = look.px(16), self._columns()
        cell = (self.width() - gap * (columns + 1)) / columns
        widest = max(
            max(area.right for area in self._areas(g)) - min(area.left for area in self._areas(g)) for g in self._groups
        )
        scale = cell / max(widest, 400.0)
        y = float(gap)
        for start in range(0, len(self._groups), columns):
            row = self._groups[start : start + columns]
            heights = [self._height(group) * scale for group in row]
            for place, group in enumerate(row):
                self._draw(painter, group, gap + place * (cell + gap), y + max(heights) - heights[place], scale, cell)
            y += max(heights) + look.px(40)
        return round(y)

    def _areas(self, group: PieceSheets) -> list[Rectangle]:
        areas = [page_area(entry) for entry in group.entries]
        return [*areas, *(self._missing(group, place) for place in group.left_out), group.outline]

    def _height(self, group: PieceSheets) -> float:
        areas = self._areas(group)
        return max(area.top for area in areas) - min(area.bottom for area in areas)

    def _missing(self, group: PieceSheets, place: tuple[int, int]) -> Rectangle:
        """Where a sheet left out would lie: in its neighbours' row and column."""
        row, column = place
        across = next((page_area(e) for e in group.entries if e.column == column), None)
        up = next((page_area(e) for e in group.entries if e.row == row), None)
        first = page_area(group.entries[0])
        known = (
            {e.column: page_area(e).left for e in group.entries},
            {e.row: page_area(e).bottom for e in group.entries},
        )
        left = across.left if across else _between(known[0], column, first.width)
        bottom = up.bottom if up else _between(known[1], row, -first.height)
        return Rectangle(left, bottom, left + first.width, bottom + first.height)

    def _draw(
        self, painter: QPainter | None, group: PieceSheets, x: float, y: float, scale: float, cell: float
    ) -> None:
        areas = self._areas(group)
        left, top = min(area.left for area in areas), max(area.top for area in areas)

        def at(area: Rectangle) -> QRectF:
            return QRectF(
                x + (area.left - left) * scale, y + (top - area.top) * scale, area.width * scale, area.height * scale
            )

        boxes = [(at(page_area(entry)), entry) for entry in group.entries]
        self._places += boxes
        if painter is None:
            return
        shades = look.colours()
        painter.setFont(look.font(12))
        for place in group.left_out:
            box = at(self._missing(group, place))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(shades.field_line, 1, Qt.PenStyle.DashLine))
            painter.drawRect(box)
            reach, centre = look.px(6), box.center()
            painter.setPen(QPen(shades.pencil, 1))
            painter.drawLine(centre + QPointF(-reach, -reach), centre + QPointF(reach, reach))
            painter.drawLine(centre + QPointF(-reach, reach), centre + QPointF(reach, -reach))
        for box, _ in boxes:
            painter.setPen(QPen(shades.field_line, 1))
            painter.setBrush(shades.field)
            painter.drawRect(box)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(shades.ink, 2))
        painter.drawRect(at(group.outline))
        painter.setPen(QPen(shades.ink, 1))
        reach = look.px(4)
        for box, entry in boxes:
            for point in entry.points:
                spot = QPointF(x + (point.x - left) * scale, y + (top - point.y) * scale)
                painter.drawLine(spot - QPointF(reach, 0), spot + QPointF(reach, 0))
                painter.drawLine(spot - QPointF(0, reach), spot + QPointF(0, reach))
            label = f"{column_letters(entry.column)}{entry.row}" if entry.of != (1, 1) else ""
            if label and box.width() > look.width_of(label, 12):
                painter.setPen(shades.pencil)
                painter.drawText(box, Qt.AlignmentFlag.AlignCenter, label)
                painter.setPen(QPen(shades.ink, 1))
        for box, entry in boxes:
            if entry.page == self._page:
                painter.setPen(QPen(shades.accent, 2))
                painter.drawRect(box)
        words = caption(group)
        foot = QRectF(x, y + self._height(group) * scale + look.px(5), cell, look.px(20))
        current = any(entry.page == self._page for entry in group.entries)
        number = "" if group.number is None else str(group.number)
        if number:
            tag = QRectF(
                foot.left(), foot.top(), max(look.px(20), look.width_of(number, 12, semibold=True) + 8), look.px(20)
            )
            painter.setPen(QPen(shades.accent if current else shades.line, 1))
            painter.setBrush(shades.accent if current else shades.surface)
            painter.drawRect(tag)
            painter.setPen(shades.on_fill if current else shades.ink)
            painter.setFont(look.font(12, semibold=True))
            painter.drawText(tag, Qt.AlignmentFlag.AlignCenter, number)
            foot.setLeft(tag.right() + look.px(6))
        painter.setFont(look.font(12))
        painter.setPen(shades.ink)
        shown = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, round(foot.width()))
        painter.drawText(foot, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, shown)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Every map, and the focus mark."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), look.colours().surface_2)
            self._lay_out(painter)
            if self.hasFocus():
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(look.colours().chalk, 2))
                painter.drawRect(self.rect().adjusted(1, 1, -2, -2))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Chooses the sheet under the pointer."""
        for box, entry in self._places:
            if box.contains(event.position()):
                self.chosen.emit(entry.page)
                return

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and right go through the sheets."""
        step = {Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1}.get(
            Qt.Key(event.key())
        )
        pages = sorted({entry.page for _, entry in self._places})
        if step is None or not pages:
            super().keyPressEvent(event)
            return
        place = pages.index(self._page) + step if self._page in pages else 0
        self.chosen.emit(pages[max(0, min(len(pages) - 1, place))])

    def event(self, event: QEvent) -> bool:
        """The whole label as a tooltip."""
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            entry = next((e for box, e in self._places if box.contains(QPointF(event.pos()))), None)
            QToolTip.showText(event.globalPos(), "" if entry is None else entry.label)
            return True
        return super().event(event)


def _between(known: dict[int, float], wanted: int, fallback: float) -> float:
    """The place of a row or column no sheet of which is there, from the others."""
    ordered = sorted(known)
    if len(ordered) > 1:
        step = (known[ordered[-1]] - known[ordered[0]]) / (ordered[-1] - ordered[0])
        return known[ordered[0]] + (wanted - ordered[0]) * step
    return known[ordered[0]] + (wanted - ordered[0]) * fallback


def caption(group: PieceSheets) -> str:
    """How many sheets, how many left out: "4 sheets, 2 left out"."""
    if group.shared or group.entries[0].of == (1, 1):
        return say("on one sheet")
    sheets = say_many("{count} sheet", "{count} sheets", len(group.entries))
    if group.left_out:
        return say("{sheets}, {count} left out", sheets=sheets, count=len(group.left_out))
    return sheets
