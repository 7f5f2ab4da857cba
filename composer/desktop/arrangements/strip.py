"""The strip of sketches below the room: head with progress and links, one cell for each sketch."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.arrangements.sketch_cell import AROUND, PICTURE_HEIGHT, SMALL, SketchCell
from composer.desktop.field_row import LinkButton, Words
from composer.desktop.printing.ground import lay_ground
from composer.desktop.scroll_bars import slim
from composer.geometry.rectangle import Rectangle
from composer.texts import say

LOW_PX = 800
"""Below this height of the window pictures are smaller."""


class ProgressLine(QWidget):
    """How far the search is, as a thin line; nothing when none runs."""

    def __init__(self) -> None:
        super().__init__()
        self.setFixedHeight(3)
        self.setAccessibleName(say("Progress of the search"))
        self.share: float | None = None

    def show_share(self, share: float | None) -> None:
        """0 to 1, or None."""
        self.share = share
        self.setAccessibleDescription("" if share is None else say("{percent} %", percent=round(100 * share)))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Chalk on a hairline."""
        shades = look.colours()
        with QPainter(self) as painter:
            painter.fillRect(QRect(0, 1, self.width(), 1), shades.line)
            if self.share is not None:
                painter.fillRect(QRect(0, 0, round(self.width() * self.share), 3), shades.chalk)


class SketchStrip(QWidget):
    """Sketches beside each other, all at one scale.

    Signals:
        pointed: a cell that is pointed at or has the keyboard; None when no longer any.
        taken: a cell was clicked, or Enter was pressed on it.
        vary_wanted: others like a cell are wanted.
        again_wanted, stop_wanted, close_wanted: the links of the head.
    """

    pointed = Signal(object)
    taken = Signal(object)
    vary_wanted = Signal(object)
    again_wanted = Signal()
    stop_wanted = Signal()
    close_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.cells: list[SketchCell] = []
        self._latest: SketchCell | None = None
        self.setAccessibleName(say("Sketches"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self.progress = ProgressLine()
        column.addWidget(self.progress)
        column.addWidget(self._head())
        self.area = QScrollArea()
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setWidgetResizable(True)
        slim(self.area)
        self.area.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._inside = QWidget()
        self._row = QHBoxLayout(self._inside)
        self._row.setContentsMargins(8, 4, 8, 4)
        self._row.setSpacing(4)
        self._row.addStretch(1)
        self.area.setWidget(self._inside)
        column.addWidget(self.area)
        self.empty = Words("", 14, "pencil")
        self.empty.setContentsMargins(look.px(16), look.px(12), look.px(16), look.px(12))
        self.empty.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        column.addWidget(self.empty)
        self.on_theme()

    def _head(self) -> QWidget:
        head = QWidget()
        row = QHBoxLayout(head)
        row.setContentsMargins(look.px(16), 2, look.px(12), 2)
        row.setSpacing(look.px(16))
        self.title = Words(say("Sketches"), 14, semibold=True)
        self.title.setWordWrap(False)
        self.words = Words("", 12, "pencil")
        self.words.setWordWrap(False)
        row.addWidget(self.title)
        row.addWidget(self.words)
        row.addStretch(1)
        self.again = LinkButton(say("Look again"))
        self.stop = LinkButton(say("Stop looking"))
        self.close_link = LinkButton(say("Close"))
        for link, signal in (
            (self.again, self.again_wanted),
            (self.stop, self.stop_wanted),
            (self.close_link, self.close_wanted),
        ):
            link.clicked.connect(signal)
            row.addWidget(link)
        self._head_box = head
        return head

    def on_theme(self) -> None:
        """Grounds and heights of the scheme and text size in force."""
        lay_ground(self._head_box, "surface_2")
        lay_ground(self._inside, "surface")
        lay_ground(self.area.viewport(), "surface")
        lay_ground(self, "surface")
        self._fit()

    @property
    def is_small(self) -> bool:
        """Whether the window is so low that pictures give way to the room."""
        return self.window().height() < LOW_PX * look.scale()

    # Cells ----------------------------------------------------------------------------------------

    def clear(self, keep: int = 0) -> None:
        """No sketches, or only the first few."""
        gone = self.cells[keep:]
        for cell in gone:
            cell.blockSignals(True)
        if any(cell.hasFocus() for cell in gone):
            self.setFocus()
        for cell in gone:
            self._row.removeWidget(cell)
            cell.hide()
            cell.deleteLater()
        del self.cells[keep:]
        self._fit()

    def add(self, cell: SketchCell) -> None:
        """One more at the end."""
        self._row.insertWidget(len(self.cells), cell)
        self.cells.append(cell)
        cell.pointed.connect(lambda: self._on_pointed(cell))
        cell.left.connect(self._on_left)
        cell.clicked.connect(lambda _=False: self.taken.emit(cell))
        cell.stepped.connect(lambda by: self._step(cell, by))
        cell.vary_wanted.connect(lambda: self.vary_wanted.emit(cell))
        cell.show()
        self._fit()
        if self.hasFocus():
            cell.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_region(self, region: Rectangle) -> None:
        """What all pictures show."""
        for cell in self.cells:
            cell.show_region(region)

    def update_pictures(self, _keys: object) -> None:
        """Pictures have been read, or are gone."""
        for cell in self.cells:
            cell.update()

    def show_empty(self, words: str) -> None:
        """Words instead of sketches."""
        self.empty.setText(words)
        self._fit()

    def _fit(self) -> None:
        self.area.setVisible(bool(self.cells))
        self.empty.setVisible(not self.cells)
        for cell in self.cells:
            cell.set_small(small=self.is_small)
        picture = round(PICTURE_HEIGHT * (SMALL if self.is_small else 1))
        usual = picture + AROUND + max(24, look.px(24)) + 3 * look.height_of("X", 12, 100)
        high = max([usual, *(cell.sizeHint().height() for cell in self.cells)])
        for cell in self.cells:
            cell.setFixedSize(cell.sizeHint().width(), high)
        scroll = self.area.horizontalScrollBar().sizeHint().height()
        # As high without sketches: the room above must not jump.
        self.area.setFixedHeight(high + 8 + scroll)
        self.empty.setFixedHeight(high + 8 + scroll)

    def _step(self, cell: SketchCell, by: int) -> None:
        place = self.cells.index(cell) + by
        if 0 <= place < len(self.cells):
            self.cells[place].setFocus(Qt.FocusReason.TabFocusReason)

    def _on_pointed(self, cell: SketchCell) -> None:
        self._latest = cell
        self.area.ensureWidgetVisible(cell, 12, 0)
        self.pointed.emit(cell)

    def _on_left(self) -> None:
        # Once the neighbour has got pointer or keyboard, so that nothing flickers in between.
        QTimer.singleShot(0, self, self._look_round)

    def _look_round(self) -> None:
        under = [cell for cell in self.cells if cell.underMouse()]
        focused = [cell for cell in self.cells if cell.hasFocus() or cell.vary.hasFocus()]
        held: list[SketchCell | None] = [*under, *focused]
        # Whichever of pointer and keyboard moved last leads: a mouse at rest does not hold the keyboard back.
        self._latest = self._latest if self._latest in held else next(iter(held), None)
        self.pointed.emit(self._latest)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The window may be lower now."""
        super().resizeEvent(event)
        self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc closes the strip; arrows go to the first sketch."""
        if event.key() == Qt.Key.Key_Escape:
            self.close_wanted.emit()
        elif event.key() in (Qt.Key.Key_Right, Qt.Key.Key_Down) and self.cells:
            self.cells[0].setFocus(Qt.FocusReason.TabFocusReason)
        else:
            super().keyPressEvent(event)
