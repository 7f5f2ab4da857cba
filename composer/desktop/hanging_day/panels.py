"""When it hangs wrong: what to do about it, where it really hangs, and whether the plan follows; the wait of strips."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from composer.catalogue import catalogue as catalogues
from composer.desktop.field_measures import bare_unit
from composer.desktop.fields import EntryField
from composer.desktop.hanging_day.buttons import LadderButton
from composer.desktop.hanging_day.panel_parts import BigLength, BigNumber, BigWords
from composer.desktop.hanging_day.session import DaySession
from composer.desktop.hanging_day.sizes import Sizes
from composer.desktop.hanging_day.telling import LETTERS, Label
from composer.desktop.theme import theme
from composer.editing.edits import EditRefused
from composer.hanging.points import hang
from composer.hangingday.cures import Complaint, cures
from composer.hangingday.noting import Measured, change_wait, note_measured, says_of, spots
from composer.hangingday.records import follow_the_wall
from composer.model import Key
from composer.paper.figures import figures_of
from composer.paper.hanging_list_rows import round_to
from composer.texts import say

COMPLAINTS: tuple[Complaint, ...] = ("crooked", "too-low", "too-high", "leans", "loose")


class Panel(QWidget):
    """Something in the place of the board, with a row of buttons below; Esc leads back.

    Signals:
        left: back to the piece.
    """

    left = Signal()

    def __init__(self, session: DaySession, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session = session
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QScrollArea.Shape.NoFrame)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.body = QWidget()
        self.area.setWidget(self.body)
        whole.addWidget(self.area, 1)
        self.foot = QHBoxLayout()
        whole.addLayout(self.foot)
        self.column = QVBoxLayout(self.body)
        self.title = BigWords(title, 32, semibold=True)
        self.column.addWidget(self.title)
        self.back = LadderButton(Label(say("Back to the piece"), say("Esc"), "back"))
        self.back.clicked.connect(self.left)
        self.foot.addWidget(self.back)
        self.foot.addStretch(1)

    def restyle(self) -> None:
        """The window has another size, or other colours."""
        sizes = Sizes.of(self)
        self.column.setContentsMargins(sizes.px(32), sizes.px(16), sizes.px(32), sizes.px(8))
        self.column.setSpacing(sizes.px(8))
        self.foot.setContentsMargins(sizes.px(32), sizes.px(14), sizes.px(32), sizes.px(14))
        self.foot.setSpacing(sizes.px(16))
        palette = self.palette()
        palette.setColor(palette.ColorRole.Window, theme().colour("surface"))
        self.setPalette(palette)
        self.body.setAutoFillBackground(True)
        for words in self.findChildren(BigWords):
            words.restyle()
        for field in self.findChildren(EntryField):
            field.restyle()
        for button in self.findChildren(LadderButton):
            button.updateGeometry()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The row of buttons stands on a band."""
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), theme().colour("surface_2"))
            painter.fillRect(0, self.area.height(), self.width(), 1, theme().colour("line"))

    def start(self) -> None:
        """Shown: whoever gets the keyboard first."""
        self.back.setFocus()


class TroublePanel(Panel):
    """One piece that hangs wrong."""

    def __init__(self, session: DaySession, key: Key, parent: QWidget | None = None) -> None:
        piece = session.project.piece_by_key[key]
        super().__init__(session, say("{number} {name} hangs wrong", number=piece.number, name=piece.name), parent)
        self.key = key
        self.complaint: Complaint | None = None
        self._ask()
        self.answers = BigWords("", 22)
        self.column.addWidget(self.answers)
        self._measures()
        self.column.addStretch(1)
        self.follow = LadderButton(Label(say("Let the plan follow"), say("its neighbours are set by it")))
        self.follow.clicked.connect(self.let_follow)
        self.note = LadderButton(Label(say("Note it"), say("where it really hangs"), "tick"), main=True)
        self.note.clicked.connect(self.note_it)
        self.foot.addWidget(self.follow)
        self.foot.addWidget(self.note)
        self._enable()

    def _ask(self) -> None:
        words = {
            "crooked": say("1  It is crooked"),
            "too-low": say("2  It is too low"),
            "too-high": say("3  It is too high"),
            "leans": say("4  Its top leans out"),
            "loose": say("5  It is loose"),
        }
        self.buttons: dict[Complaint, LadderButton] = {}
        row = QHBoxLayout()
        for complaint in COMPLAINTS:
            button = LadderButton(Label(words[complaint]))
            button.clicked.connect(partial(self._on_button, complaint))
            self.buttons[complaint] = button
            row.addWidget(button)
        self.column.addLayout(row)

    def _on_button(self, complaint: Complaint, _checked: bool = False) -> None:
        self.complain_of(complaint)

    def complain_of(self, complaint: Complaint) -> None:
        """Shows what to do about one thing that is wrong."""
        self.complaint = complaint
        for one, button in self.buttons.items():
            button.set_chosen(chosen=one == complaint)
        project = self.session.project
        piece, place = project.piece_by_key[self.key], project.placement_by_piece[self.key]
        hanging = hang(piece, turned=place.turned, catalogue=catalogues.of(project.catalogue))
        tried = cures(hanging, complaint)
        self.answers.setText("\n".join(f"{number}. {words}" for number, words in enumerate(tried, 1)))
        self.answers.setAccessibleName(self.answers.text())

    def _measures(self) -> None:
        project = self.session.project
        station = self.session.course.station(self.key)
        holes = bool(station is not None and station.row.block == "nails")
        figures = figures_of(project)
        heading = say("Where each hole really is") if holes else say("Where its lower left corner really is")
        self.column.addWidget(BigWords(heading, 24, semibold=True))
        self.fields: list[tuple[BigLength, BigLength]] = []
        grid = QGridLayout()
        bare = bare_unit(project.units)
        side = self.session.course.side
        heads = ("", side, say("above the level line (− below)"))
        for column, words in enumerate(heads):
            head = BigWords(words, 20, "pencil")
            head.setWordWrap(False)
            grid.addWidget(head, 0, column)
        planned = spots(project, self.key)
        for at, spot in enumerate(planned):
            letter = LETTERS[at] if len(planned) > 1 else ""
            grid.addWidget(BigWords(letter, 28, semibold=True), at + 1, 0)
            pair = []
            for column, (name, mm) in enumerate(((side, spot.distance_mm), (heads[2], spot.height_mm)), 1):
                field = BigLength(f"{letter} {name}".strip(), bare=bare, zero=True, minus=True)
                field.set_placeholder(figures.bare(round_to(mm, figures)))
                field.edited.connect(self._judge)
                field.committed.connect(self._judge)
                field.returned.connect(partial(self._next_after, field))
                grid.addWidget(field, at + 1, column, alignment=Qt.AlignmentFlag.AlignLeft)
                pair.append(field)
            self.fields.append((pair[0], pair[1]))
        grid.setColumnStretch(3, 1)
        self.column.addLayout(grid)
        self.verdict = BigWords(say("Grey is as planned. Type what your tape says."), 22, "pencil")
        self.column.addWidget(self.verdict)

    def _next_after(self, field: BigLength) -> None:
        flat = [one for pair in self.fields for one in pair]
        at = flat.index(field)
        if at + 1 < len(flat):
            flat[at + 1].setFocus()
        elif self.note.isEnabled():
            self.note.setFocus()

    def measured(self) -> Measured:
        """What stands in the fields, mm."""

        def mm(field: BigLength) -> float | None:
            value = field.typed()
            return None if value is None else float(value.mm)

        return [(mm(distance), mm(height)) for distance, height in self.fields]

    def _judge(self, _value: object = None) -> None:
        self._enable()
        try:
            words = says_of(self.session.project, self.key, self.measured())
        except EditRefused as refused:
            words = str(refused)
        if self._anything():
            self.verdict.setText(words)
            self.verdict.set_token("ink")
        else:
            self.verdict.setText(say("Grey is as planned. Type what your tape says."))
            self.verdict.set_token("pencil")

    def _anything(self) -> bool:
        return any(value is not None for pair in self.measured() for value in pair)

    def _enable(self) -> None:
        station = self.session.course.station(self.key)
        self.note.setEnabled(self._anything())
        self.follow.setEnabled(station is not None and station.reached == "hung")

    def note_it(self) -> None:
        """Keeps what was measured, as a step of the history."""
        for pair in self.fields:
            for field in pair:
                if not field.commit():
                    return
        session = self.session
        try:
            edit = note_measured(session.project, self.key, self.measured(), session.now())
        except EditRefused as refused:
            self.verdict.setText(str(refused))
            return
        if session.note(edit, say("Noted.")):
            self._enable()
            self.follow.setFocus()
        self.verdict.setText(
            say("{said} {verdict}", said=session.said, verdict=says_of(session.project, self.key, self.measured()))
        )

    def let_follow(self) -> None:
        """The plan takes the place where the piece hangs."""
        session = self.session
        try:
            edit = follow_the_wall(session.project, self.key)
        except EditRefused as refused:
            self.verdict.setText(str(refused))
            return
        if session.note(edit, say("The plan has it where it hangs. Templates of its neighbours are out of date.")):
            self.left.emit()
        else:
            self.verdict.setText(session.said)

    def start(self) -> None:
        """The first thing that may be wrong."""
        self.buttons["crooked"].setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """1 to 5: what is wrong; M: to the fields."""
        at = event.key() - Qt.Key.Key_1
        if 0 <= at < len(COMPLAINTS):
            self.complain_of(COMPLAINTS[at])
        elif event.key() == Qt.Key.Key_M:
            self.fields[0][0].setFocus()
        else:
            super().keyPressEvent(event)


class WaitPanel(Panel):
    """How long the packet wants strips to wait."""

    def __init__(self, session: DaySession, parent: QWidget | None = None) -> None:
        super().__init__(session, say("How long before hanging?"), parent)
        self.column.addWidget(
            BigWords(say("Minutes after the last press, by your packet. The packet wins."), 22, "pencil")
        )
        self.minutes = BigNumber(say("Minutes by your packet"), least=1, most=2880, whole=True)
        self.minutes.set_value(round(session.course.wait.total_seconds() / 60))
        self.minutes.returned.connect(self.take)
        row = QHBoxLayout()
        row.addWidget(self.minutes)
        row.addStretch(1)
        self.column.addLayout(row)
        self.problem = BigWords("", 20, "stop")
        self.column.addWidget(self.problem)
        self.minutes.complained.connect(self.problem.setText)
        self.column.addStretch(1)
        self.done = LadderButton(Label(say("Wait so long"), say("Enter"), "clock"), main=True)
        self.done.clicked.connect(self.take)
        self.foot.addWidget(self.done)

    def start(self) -> None:
        """The field."""
        self.minutes.setFocus()
        self.minutes.lineEdit().selectAll()

    def take(self) -> None:
        """Keeps the wait in the project's catalogue: its clock runs on from the last press."""
        if not self.minutes.commit() or self.minutes.value is None:
            return
        session = self.session
        keys = [station.key for station in session.course.strips]
        if float(self.minutes.value) * 60 == session.course.wait.total_seconds() or session.note(
            change_wait(session.project, keys, float(self.minutes.value)), ""
        ):
            self.left.emit()
        else:
            self.problem.setText(session.said)
