"""What is wrong or left to do, most serious first; folded, its head is the window's status line."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPalette, QResizeEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from composer.desktop.field_row import Words
from composer.desktop.finding_rows import ROW, FindingRow, Shown, level_word
from composer.desktop.list_parts import FoldButton
from composer.desktop.open_project import Change, OpenProject
from composer.desktop.room.piece_item import draw_level
from composer.desktop.scroll_bars import slim
from composer.desktop.theme import theme
from composer.model import Finding, Key, Picture, Project
from composer.texts import say, say_many

if TYPE_CHECKING:
    # The checks are loaded with the first sweep, after the window has been painted.
    from composer.findings.cache import FindingsCache

LEVELS = ("stop", "warn", "note")
ROWS_SHOWN = 3
"""So many lines are open at once; further ones are scrolled to."""

SECTION_OF = {
    "not-measured": "hanging", "drop-disagrees": "hanging", "hanger-unknown-turned": "hanging",
    "hanger-impossible": "hanging", "hook-shows": "hanging", "wire-tight": "hanging", "one-hook-wide": "hanging",
    "unequal-hooks": "hanging", "overload": "hanging", "strip-wall": "hanging", "strip-width": "hanging",
    "old-hanger": "hanging", "stud-missed": "hanging", "implausible": "frame", "low-ppi": "picture",
    "no-stock": "picture", "picture-missing": "picture", "picture-changed": "picture", "picture-unreadable": "picture",
    "stock-short": "picture", "print-touches-glass": "mat", "stack-too-deep": "mat", "mat-impossible": "mat",
    "mat-undecided": "mat",
    "over-budget": "cost",
}  # fmt: skip
"""The section of the card where a finding can be mended, by its code."""


def count_words(level: str, count: int) -> str:
    """How many there are of a level."""
    if level == "stop":
        return say_many("{count} stop", "{count} stops", count)
    if level == "warn":
        return say_many("{count} warn", "{count} warns", count)
    return say_many("{count} note", "{count} notes", count)


class FindingsPanel(QWidget):
    """Head with counts, hint and scale; rows below.

    Signals:
        go_to: keys of the pieces of the finding clicked, and the section of their card that it is about.
        levels_changed: carries the most serious level of each piece, by key.
        fit_wanted, life_size_wanted, closer_wanted, farther_wanted: the buttons of the scale.
    """

    go_to = Signal(object, str)
    levels_changed = Signal(object)
    fit_wanted = Signal()
    life_size_wanted = Signal()
    closer_wanted = Signal()
    farther_wanted = Signal()

    def __init__(self, opened: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._cache: FindingsCache | None = None
        self._started = False
        self.findings: tuple[Finding, ...] = ()
        self.missing: Callable[[Picture], str] | None = None
        """Says what became of a picture's file."""
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self.check)
        self.fold = FoldButton(say("Findings"))
        self.counts = Counts()
        self.hint = Words("", 12, "pencil")
        self.hint.setWordWrap(False)
        self.scale = Words("", 12, "pencil")
        self.scale.setWordWrap(False)
        head = QHBoxLayout()
        head.setContentsMargins(8, 2, 12, 2)
        head.setSpacing(8)
        head.addWidget(self.fold)
        head.addWidget(self.counts)
        head.addStretch(1)
        head.addWidget(self.hint)
        head.addSpacing(8)
        head.addWidget(self.scale)
        self._buttons: list[QToolButton] = []
        for words, name, signal in (
            (say("Fit"), say("Show the whole wall"), self.fit_wanted),
            (say("1 : 1"), say("Life size"), self.life_size_wanted),
            ("−", say("Smaller"), self.farther_wanted),
            ("+", say("Larger"), self.closer_wanted),
        ):
            button = QToolButton()
            button.setText(words)
            button.setAccessibleName(name)
            button.setToolTip(name)
            button.setMinimumSize(theme().px(32), max(24, theme().px(26)))
            self._buttons.append(button)
            button.clicked.connect(signal)
            head.addWidget(button)
        self.rows = QListWidget()
        self.rows.setFrameShape(QListWidget.Shape.NoFrame)
        self.rows.setMouseTracking(True)
        self.rows.viewport().setBackgroundRole(QPalette.ColorRole.Window)
        self.rows.setItemDelegate(FindingRow(self.rows))
        self.rows.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.rows.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        self.rows.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        slim(self.rows)
        self.rows.setAccessibleName(say("Findings"))
        self.rows.itemActivated.connect(self._on_row)
        self.rows.itemClicked.connect(self._on_row)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 1, 0, 0)
        column.setSpacing(0)
        column.addLayout(head)
        column.addWidget(self.rows)
        self.fold.toggled.connect(self.set_open)
        theme().changed.connect(self._on_theme)
        self.set_open(is_open=False)

    def set_open(self, is_open: bool) -> None:
        """Rows or the head alone."""
        self.fold.setChecked(is_open)
        self.rows.setVisible(is_open)
        self._fit()

    def _fit(self) -> None:
        """As high as what was found, up to three lines of it."""
        heights = [self.rows.sizeHintForRow(row) for row in range(min(self.rows.count(), ROWS_SHOWN))]
        self.rows.setFixedHeight(min(sum(heights), theme().px(ROW) * (ROWS_SHOWN + 2)) + 6 if heights else 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Sentences wrap at the new width."""
        super().resizeEvent(event)
        self.rows.doItemsLayout()
        self._fit()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The head lies on surface-2 under a line; the rows on surface."""
        look = theme()
        with QPainter(self) as painter:
            high = self.rows.y() if self.rows.isVisible() else self.height()
            painter.fillRect(0, 0, self.width(), high, look.colour("surface_2"))
            painter.fillRect(0, 0, self.width(), 1, look.colour("line"))

    def on_change(self, before: Project, after: Project, change: Change) -> None:
        """What was found may no longer hold: look again once this turn of events is over."""
        self.check_soon()

    def check_soon(self) -> None:
        """Looks again once this turn of events is over."""
        if self._started:
            self._timer.start()

    def start(self) -> None:
        """The window has been painted: from now on it looks."""
        self._started = True
        self.check_soon()

    def stop(self) -> None:
        """The window closes: nobody will read what a sweep still to come would find."""
        self._timer.stop()

    def check(self) -> None:
        """Runs the checks that are stale and shows what they found."""
        project = self._opened.shown
        from composer.findings import sentences
        from composer.findings.cache import FindingsCache
        from composer.paper.unprintable import unprintable

        if self._cache is None:
            self._cache = FindingsCache(unprintable, self.missing)
        found = self._cache.check(project)
        if found == self.findings and self.rows.count() == len(found):
            return
        self.findings = found
        style = project.length_style
        self.rows.clear()
        for finding in found:
            text, do = sentences.text(finding, style), sentences.do(finding, style)
            numbers = ", ".join(str(number) for number in finding.pieces)
            name = self._name(finding, project)
            item = QListWidgetItem()
            item.setData(Qt.ItemDataRole.UserRole, Shown(finding.level, numbers, name, text, do))
            item.setData(
                Qt.ItemDataRole.AccessibleTextRole,
                say(
                    "{level}: {who} {text} {do}",
                    level=level_word(finding.level),
                    who=f"{numbers} {name}",
                    text=text,
                    do=do,
                ),
            )
            item.setToolTip(f"{text}\n{do}")
            self.rows.addItem(item)
        self._fit()
        self.counts.show_counts({level: sum(1 for one in found if one.level == level) for level in LEVELS})
        self.levels_changed.emit(levels_by_piece(found, project))

    def _name(self, finding: Finding, project: Project) -> str:
        if len(finding.pieces) == 1 and finding.pieces[0] in project.piece_by_number:
            return project.piece_by_number[finding.pieces[0]].name
        if not finding.pieces and finding.wall in project.wall_by_key:
            return project.wall_by_key[str(finding.wall)].name
        return ""

    def _on_row(self, item: QListWidgetItem) -> None:
        row = self.rows.row(item)
        if 0 <= row < len(self.findings):
            known = self._opened.shown.piece_by_number
            finding = self.findings[row]
            keys = [known[number].key for number in finding.pieces if number in known]
            self.go_to.emit(keys, SECTION_OF.get(finding.code, ""))

    def _on_theme(self) -> None:
        for button in self._buttons:
            button.setMinimumSize(theme().px(32), max(24, theme().px(26)))
        self.rows.doItemsLayout()
        self.set_open(is_open=self.fold.isChecked())


def levels_by_piece(findings: tuple[Finding, ...], project: Project) -> dict[Key, str]:
    """The most serious level of each piece; findings come sorted, so the first one counts."""
    levels: dict[Key, str] = {}
    for finding in findings:
        for number in finding.pieces:
            if number in project.piece_by_number:
                levels.setdefault(project.piece_by_number[number].key, finding.level)
    return levels


class Counts(QWidget):
    """Signs with their counts."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._counts = dict.fromkeys(LEVELS, 0)

    def show_counts(self, counts: dict[str, int]) -> None:
        """Shows these."""
        self._counts = counts
        self.setAccessibleName(", ".join(count_words(level, count) for level, count in counts.items() if count))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """As wide as its words."""
        metrics = QFontMetrics(theme().font(12))
        words = sum(
            theme().px(34) + metrics.horizontalAdvance(count_words(level, n)) for level, n in self._counts.items() if n
        )
        return QSize(words or metrics.horizontalAdvance(say("nothing found")) + 8, max(24, metrics.height()))

    def minimumSizeHint(self) -> QSize:
        """Never cut."""
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draws them."""
        look = theme()
        with QPainter(self) as painter:
            painter.setFont(look.font(12))
            metrics = QFontMetrics(look.font(12))
            x, middle = 0, self.height() / 2
            for level, count in self._counts.items():
                if count:
                    side = look.px(16)
                    draw_level(painter, QRectF(x, middle - side / 2, side, side), level, plate=False)
                    painter.setPen(look.colour("ink"))
                    words = count_words(level, count)
                    painter.drawText(QPointF(x + look.px(20), middle + metrics.ascent() / 2 - 1), words)
                    x += look.px(34) + metrics.horizontalAdvance(words)
            if x == 0:
                painter.setPen(look.colour("pencil"))
                painter.drawText(QPointF(0, middle + metrics.ascent() / 2 - 1), say("nothing found"))
