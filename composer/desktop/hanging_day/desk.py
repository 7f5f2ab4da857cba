"""Where the window and hanging day meet: opens the full screen, and says when strips that wait may be hung."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication

from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.hanging_day.screen import HangingDay
    from composer.desktop.main_window import MainWindow
    from composer.model import Key, Project

ABOUT = "hanging-day"
LONGEST_MS = 24 * 60 * 60 * 1000


class DayDesk(QObject):
    """Hanging day of one main window; costs nothing while no strips are about."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self.screen: HangingDay | None = None
        self.now: Callable[[], datetime] = _here_and_now
        self.sound: Callable[[], None] = QApplication.beep
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.call)
        window.opened.file_changed.connect(self.look)
        window.opened.project_changed.connect(self._on_project)

    def open(self, wall: Key | None = None) -> HangingDay:
        """The full screen for a wall; None = the wall shown. One that is open comes to the front."""
        from composer.desktop.hanging_day.screen import HangingDay

        window = self._window
        if self.screen is None:
            window.view.tool.cancel()
            window.notices.drop(ABOUT)
            self._timer.stop()
            self.screen = HangingDay(
                window.opened,
                wall or window.room.wall_key,
                now=self.now,
                picture_of=window.pictures.of,
                sound=self.sound,
                parent=window,
            )
            self.screen.left.connect(self._on_left)
            self.screen.showFullScreen()
        self.screen.activateWindow()
        return self.screen

    def _on_left(self) -> None:
        self.screen = None
        self.look()
        self._window.activateWindow()

    def _on_project(self, before: Project | None, after: Project, _change: object) -> None:
        if self.screen is None and (before is None or before.as_hung is not after.as_hung):
            self.look()

    def look(self) -> None:
        """Whether strips are under way on a wall, and says how far they are."""
        self._timer.stop()
        if self.screen is not None:
            return
        wall = self._under_way()
        if wall is None:
            self._window.notices.drop(ABOUT)
            return
        from composer.hangingday import day as days

        project, now = self._window.opened.project, self.now()
        day = days.begin(project, wall, now)
        course = days.course(project, day)
        name = project.wall_by_key[wall].name
        if day.phase == "wait" and course.opens is not None:
            time = f"{course.opens.astimezone(now.tzinfo):%H:%M}"
            words = say("The strips on “{wall}” wait: hang all from {time}.", wall=name, time=time)
            left = (course.opens - now).total_seconds() * 1000
            self._timer.start(max(0, min(LONGEST_MS, round(left))))
        elif day.phase == "hang":
            words = say("The strips on “{wall}” have waited: hang all.", wall=name)
        else:
            words = say("Hanging day on “{wall}” has begun and goes on where it stopped.", wall=name)
        answers: list[tuple[str, Callable[[], object]]] = [(say("Hanging day"), partial(self.open, wall))]
        if not self._window.opened.is_clean:
            # The clock goes on in the file: what is not saved is not counted after a restart.
            answers.append((say("Save"), self._window.files.save))
        self._window.notices.show_notice(ABOUT, words, answers)

    def call(self) -> None:
        """The wait is over while the full screen is closed: sound and sign."""
        self.look()
        if self._under_way() is not None and not self._timer.isActive():
            self.sound()
            QApplication.alert(self._window)

    def _under_way(self) -> Key | None:
        """The wall whose strips were begun and are not all up; None = none."""
        for item in self._window.opened.project.as_hung.items:
            if item.down is None and item.strips is not None and item.strips.reached != "hung":
                return item.wall if item.wall in self._window.opened.project.wall_by_key else None
        return None


def _here_and_now() -> datetime:
    return datetime.now().astimezone()
