"""The full screen of a hanging day: head, board, buttons; keys; the clock that looks every second; sound and sign."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QCloseEvent,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QShortcut,
)
from PySide6.QtWidgets import QApplication, QHBoxLayout, QStackedLayout, QVBoxLayout, QWidget

from composer.catalogue import catalogue as catalogues
from composer.desktop.hanging_day.board import Board
from composer.desktop.hanging_day.buttons import LadderButton
from composer.desktop.hanging_day.head import Head
from composer.desktop.hanging_day.panels import Panel, TroublePanel, WaitPanel
from composer.desktop.hanging_day.piece_drawing import Shown
from composer.desktop.hanging_day.session import Clock, DaySession, clock_on_the_wall
from composer.desktop.hanging_day.sizes import Sizes
from composer.desktop.hanging_day.steps import tell
from composer.desktop.hanging_day.telling import Label, Told
from composer.desktop.hanging_day.wall_drawing import PictureOf, WallDrawing
from composer.desktop.open_project import OpenProject
from composer.desktop.theme import theme
from composer.hanging.points import hang
from composer.model import Key
from composer.paper.figures import figures_of
from composer.texts import say

LOOK_MS = 250
"""So often the clock is looked at; figures change once a second, nothing else ever moves."""

CALLS, CALL_EVERY_MS = 10, 3000
"""A clock that ran out sounds so often, so far apart, until a key is pressed."""


KEYS = {"again": Qt.Key.Key_R, "wrong": Qt.Key.Key_H, "wait": Qt.Key.Key_W, "order": Qt.Key.Key_O}
"""Letters that press the second button, by what it does."""


class HangingDay(QWidget):
    """One wall's day in a window of its own.

    Args:
        opened: the project; each step that leaves a record is one step of its history.
        wall: whose day.
        now: gives the time, with its zone.
        picture_of: what frames show.
        sound: makes one sound.

    Signals:
        left: the window was closed.
    """

    left = Signal()

    def __init__(
        self,
        opened: OpenProject,
        wall: Key,
        *,
        now: Clock = clock_on_the_wall,
        picture_of: PictureOf | None = None,
        sound: Callable[[], None] = QApplication.beep,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.session = DaySession(opened, wall, now, self)
        self._picture_of, self._sound = picture_of, sound
        self._sounds_left = 0
        self._spoken = ""
        self.head, self.board = Head(), Board()
        self.back = LadderButton(Label(say("Back"), "", "back"))
        self.second = LadderButton()
        self.main = LadderButton(main=True)
        self.forward = LadderButton(Label(say("Next"), "", "next"))
        self.panel: Panel | None = None
        self._lay_out()
        self.told = Told("", "")
        self._connect()
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self.session.tick)
        self._timer.start()
        self._again = QTimer(self)
        self._again.setInterval(CALL_EVERY_MS)
        self._again.timeout.connect(self._sound_again)
        self.resize(1280, 800)
        self.refresh()
        self.main.setFocus()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        # The screen decides how large it is, not what stands on it.
        column.setSizeConstraint(QVBoxLayout.SizeConstraint.SetNoConstraint)
        column.addWidget(self.head)
        self._middle = QWidget()
        self._stack = QStackedLayout(self._middle)
        page = QWidget()
        inner = QVBoxLayout(page)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.setSpacing(0)
        inner.addWidget(self.board, 1)
        self._foot = Foot()
        self._row = QHBoxLayout(self._foot)
        for button, stretch in ((self.back, 3), (self.second, 3), (self.main, 5), (self.forward, 3)):
            self._row.addWidget(button, stretch)
        inner.addWidget(self._foot)
        self._stack.addWidget(page)
        column.addWidget(self._middle, 1)

    def _connect(self) -> None:
        self.session.changed.connect(self.refresh)
        self.session.called.connect(self._on_called)
        self.main.clicked.connect(self.do)
        self.back.clicked.connect(lambda _=False: self.session.take("back"))
        self.forward.clicked.connect(lambda _=False: self.session.take("next"))
        self.second.clicked.connect(self.do_second)
        self.head.take_back.clicked.connect(self.session.take_back)
        self.head.leave.clicked.connect(self.close)
        for key in (QKeySequence.StandardKey.Undo,):
            QShortcut(key, self).activated.connect(self.session.take_back)
        theme().changed.connect(self._restyle)

    # What is shown --------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Shows the day as it is now."""
        session = self.session
        if session.wall not in session.project.wall_by_key:
            self.close()
            return
        now = session.now()
        told = tell(
            session.project,
            session.wall,
            session.day,
            session.course,
            now,
            calling=session.calling,
            done=session.is_done_with(),
            said=session.said,
            minds=session.minds,
        )
        same = told == self.told
        self.told = told
        self.head.show_told(told, session.takes_back)
        if not same:
            self.board.show_told(told, self._piece(), self._wall())
        self._show_buttons(told)
        self.setWindowTitle(f"{told.call or told.lead} – Wallwright")
        if not told.call:
            self._again.stop()
        self._speak(told)

    def _show_buttons(self, told: Told) -> None:
        self.main.show_label(told.main)
        had = self.focusWidget()
        self.second.show_label(told.second)
        self._keep_place(self.second, shown=bool(told.second_is))
        self.back.show_label(Label(say("Back"), told.back or "", "back"))
        self._keep_place(self.back, shown=told.back is not None)
        self.forward.show_label(Label(say("Next"), told.forward or "", "next"))
        self._keep_place(self.forward, shown=told.forward is not None)
        if self.panel is None and (had is None or not had.isVisible() or not had.isEnabled()):
            self.main.setFocus()

    @staticmethod
    def _keep_place(button: LadderButton, *, shown: bool) -> None:
        """A button that leads nowhere is gone, but the others stay where the hand knows them."""
        policy = button.sizePolicy()
        if not policy.retainSizeWhenHidden():
            policy.setRetainSizeWhenHidden(True)
            button.setSizePolicy(policy)
        button.setVisible(shown)

    def _piece(self) -> Shown | None:
        session = self.session
        station, day = session.station, session.day
        if station is None:
            return None
        project = session.project
        piece, place = project.piece_by_key[station.key], project.placement_by_piece[station.key]
        hanging = hang(piece, turned=place.turned, catalogue=catalogues.of(project.catalogue))
        leads = day.phase in ("nails", "press") and not session.is_done_with()
        return Shown(hanging, figures_of(project), day.point if leads else None, back=day.phase == "stick")

    def _wall(self) -> WallDrawing:
        session = self.session
        return WallDrawing(
            session.project,
            session.project.wall_by_key[session.wall],
            session.course,
            in_hand=session.day.piece,
            strips=session.day.phase == "wait",
            picture_of=self._picture_of,
        )

    def _speak(self, told: Told) -> None:
        """Readers hear each step once; not every second of a clock."""
        words = told.call or " ".join((str(told.number or ""), told.lead, told.main.words))
        if session_said := self.session.said:
            words = session_said
        if words != self._spoken:
            self._spoken = words
            text = self.session.said or told.spoken
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self.board, text))

    def _restyle(self) -> None:
        sizes = Sizes.of(self)
        self._row.setContentsMargins(sizes.px(32), sizes.px(14), sizes.px(32), sizes.px(14))
        self._row.setSpacing(sizes.px(16))
        self.head.restyle()
        for button in self.findChildren(LadderButton):
            button.updateGeometry()
            button.update()
        self.head.passes.updateGeometry()
        if self.panel is not None:
            self.panel.restyle()
        self.board.update()
        self.update()

    # What is done ---------------------------------------------------------------------------------

    def do(self) -> None:
        """The main action."""
        if self.session.day.phase == "done":
            self.close()
            return
        self.session.do()
        self.main.setFocus()

    def do_second(self) -> None:
        """The other action of the step."""
        what = self.told.second_is
        if what == "again":
            self.session.take("again")
            self.main.setFocus()
        elif what == "wrong" and self.session.day.piece is not None:
            self._show_panel(TroublePanel(self.session, self.session.day.piece))
        elif what == "order":
            self.session.set_order(left_to_right=not self.session.day.left_to_right)
            self.main.setFocus()
        elif what == "wait":
            self._show_panel(WaitPanel(self.session))

    def _show_panel(self, panel: Panel) -> None:
        self.panel = panel
        panel.left.connect(self.leave_panel)
        self._stack.addWidget(panel)
        self._stack.setCurrentWidget(panel)
        panel.restyle()
        panel.start()

    def leave_panel(self) -> None:
        """Back to the piece."""
        panel, self.panel = self.panel, None
        if panel is not None:
            self._stack.setCurrentIndex(0)
            self._stack.removeWidget(panel)
            panel.hide()
            panel.deleteLater()
        self.refresh()
        self.main.setFocus()

    def _on_called(self) -> None:
        """A clock has run out: a sound now and again, the sign on the board, the window asks for attention."""
        self._sounds_left = CALLS
        self._sound_again()
        self._again.start()
        QApplication.alert(self)

    def _sound_again(self) -> None:
        if self._sounds_left <= 0:
            self._again.stop()
            return
        self._sounds_left -= 1
        self._sound()

    # Window ---------------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space or Enter does, arrows look about, Backspace takes back, Esc leaves; letters by the step."""
        key = event.key()
        if event.isAutoRepeat() and key not in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            return
        if key == Qt.Key.Key_Escape:
            if self.panel is not None:
                self.leave_panel()
            else:
                self.close()
        elif self.panel is not None:
            super().keyPressEvent(event)
        elif key in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.do()
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self.session.take("back" if key == Qt.Key.Key_Left else "next")
        elif key == Qt.Key.Key_Backspace:
            self.session.take_back()
        elif key == KEYS.get(self.told.second_is):
            self.do_second()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Everything grows with the window."""
        super().resizeEvent(event)
        self._restyle()

    def changeEvent(self, event: QEvent) -> None:
        """On another screen millimetres are other pixels."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ScreenChangeInternal:
            self._restyle()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The ground."""
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), theme().colour("surface"))

    def closeEvent(self, event: QCloseEvent) -> None:
        """The clocks go on without it."""
        self._timer.stop()
        self._again.stop()
        super().closeEvent(event)
        self.left.emit()


class Foot(QWidget):
    """The band under the buttons."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """A band with a line above."""
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), theme().colour("surface_2"))
            painter.fillRect(0, 0, self.width(), 1, theme().colour("line"))
