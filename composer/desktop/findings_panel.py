"""What is wrong or left to do, most serious first; folded, its head is the window's status line."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRect, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import (
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from composer.desktop.field_row import Words
from composer.desktop.open_project import Change, OpenProject
from composer.desktop.room.piece_item import draw_level
from composer.desktop.theme import theme
from composer.desktop.units_shown import style_of
from composer.findings import sentences
from composer.findings.cache import FindingsCache
from composer.model import Finding, Key, Project
from composer.texts import say, say_many

LEVELS = ("stop", "warn", "note")
ROW = 26
ROWS_SHOWN = 3


def level_word(level: str) -> str:
    """The level in a word."""
    return {"stop": say("Stop"), "warn": say("Warn"), "note": say("Note")}[level]


def count_words(level: str, count: int) -> str:
    """How many there are of a level."""
    if level == "stop":
        return say_many("{count} stop", "{count} stops", count)
    if level == "warn":
        return say_many("{count} warn", "{count} warns", count)
    return say_many("{count} note", "{count} notes", count)


class FindingRow(QStyledItemDelegate):
    """Draws one finding: sign and word, piece, sentence, what to do."""

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        """One line each."""
        return QSize(200, theme().px(ROW))

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Draws it."""
        look, box = theme(), QRect(option.rect)
        level, numbers, name, text, do = index.data(Qt.ItemDataRole.UserRole)
        painter.save()
        state = option.state
        if state & (QStyle.StateFlag.State_MouseOver | QStyle.StateFlag.State_Selected):
            painter.fillRect(box, look.colour("surface_2"))
        middle = box.center().y()
        draw_level(painter, QRectF(16, middle - 8, 16, 16), level, plate=False)
        painter.setFont(look.font(12, semibold=True))
        painter.setPen(look.colour({"stop": "stop", "warn": "warn"}.get(level, "pencil")))
        left = 38
        painter.drawText(
            QRect(left, box.top(), look.px(46), box.height()), Qt.AlignmentFlag.AlignVCenter, level_word(level)
        )
        left += look.px(46)
        painter.setFont(look.font(14))
        painter.setPen(look.colour("ink"))
        metrics = QFontMetrics(look.font(14))
        who = f"{numbers}  {name}".strip()
        width = look.px(170)
        painter.drawText(
            QRect(left, box.top(), width, box.height()),
            Qt.AlignmentFlag.AlignVCenter,
            metrics.elidedText(who, Qt.TextElideMode.ElideRight, width - 8),
        )
        left += width
        room = box.right() - 16 - left
        text_width = min(metrics.horizontalAdvance(text), max(120, round(room * 0.62)))
        painter.drawText(
            QPointF(left, middle + metrics.ascent() / 2 - 1),
            metrics.elidedText(text, Qt.TextElideMode.ElideRight, text_width),
        )
        rest = room - text_width - 24
        if do and rest > 60:
            painter.setPen(look.colour("chalk"))
            painter.drawText(
                QPointF(left + text_width + 24, middle + metrics.ascent() / 2 - 1),
                metrics.elidedText(do, Qt.TextElideMode.ElideRight, rest),
            )
        painter.restore()


class FindingsPanel(QWidget):
    """Head with counts, hint and scale; rows below.

    Signals:
        go_to: keys of the pieces of the finding clicked.
        levels_changed: carries the most serious level of each piece, by key.
        fit_wanted, life_size_wanted, closer_wanted, farther_wanted: the buttons of the scale.
    """

    go_to = Signal(object)
    levels_changed = Signal(object)
    fit_wanted = Signal()
    life_size_wanted = Signal()
    closer_wanted = Signal()
    farther_wanted = Signal()

    def __init__(self, opened: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._cache = FindingsCache()
        self.findings: tuple[Finding, ...] = ()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self.check)
        self.fold = QToolButton()
        self.fold.setCheckable(True)
        self.fold.setAutoRaise(True)
        self.fold.setText(say("Findings"))
        self.fold.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.fold.setArrowType(Qt.ArrowType.RightArrow)
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
            button.setMinimumSize(28, 26)
            button.clicked.connect(signal)
            head.addWidget(button)
        self.rows = QListWidget()
        self.rows.setFrameShape(QListWidget.Shape.NoFrame)
        self.rows.setMouseTracking(True)
        self.rows.viewport().setBackgroundRole(QPalette.ColorRole.Window)
        self.rows.setItemDelegate(FindingRow(self.rows))
        self.rows.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
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
        self.fold.setArrowType(Qt.ArrowType.DownArrow if is_open else Qt.ArrowType.RightArrow)
        self.rows.setVisible(is_open)
        self.rows.setFixedHeight(theme().px(ROW) * ROWS_SHOWN + 6)

    def on_change(self, before: Project, after: Project, change: Change) -> None:
        """What was found may no longer hold: look again once this turn of events is over."""
        self._timer.start()

    def check(self) -> None:
        """Runs the checks that are stale and shows what they found."""
        project = self._opened.shown
        found = self._cache.check(project)
        if found == self.findings and self.rows.count() == len(found):
            return
        self.findings = found
        style = style_of(project)
        self.rows.clear()
        for finding in found:
            text, do = sentences.text(finding, style), sentences.do(finding, style)
            numbers = ", ".join(str(number) for number in finding.pieces)
            name = self._name(finding, project)
            item = QListWidgetItem()
            item.setData(Qt.ItemDataRole.UserRole, (finding.level, numbers, name, text, do))
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
            self.go_to.emit([known[number].key for number in self.findings[row].pieces if number in known])

    def _on_theme(self) -> None:
        self.set_open(is_open=self.fold.isChecked())
        self.rows.doItemsLayout()


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
        words = sum(34 + metrics.horizontalAdvance(count_words(level, n)) for level, n in self._counts.items() if n)
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
                    draw_level(painter, QRectF(x, middle - 8, 16, 16), level, plate=False)
                    painter.setPen(look.colour("ink"))
                    words = count_words(level, count)
                    painter.drawText(QPointF(x + 20, middle + metrics.ascent() / 2 - 1), words)
                    x += 34 + metrics.horizontalAdvance(words)
            if x == 0:
                painter.setPen(look.colour("pencil"))
                painter.drawText(QPointF(0, middle + metrics.ascent() / 2 - 1), say("nothing found"))
