"""Somebody on a ladder: a project on disk, a watch the test holds, ears, and the keys of the real window."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from composer.desktop.hanging_day.desk import DayDesk
from composer.desktop.hanging_day.screen import HangingDay
from composer.desktop.main_window import MainWindow
from composer.desktop.settings import Settings
from composer.model import Project
from tests.desktop.hands import choose_by_keys, press

SAMPLES = Path(__file__).parents[2] / "samples"
START = datetime(2026, 4, 18, 14, 0, tzinfo=UTC)
KEY = Qt.Key


class Watch:
    """The clock on the person's arm."""

    def __init__(self) -> None:
        self.time = START

    def __call__(self) -> datetime:
        return self.time

    def goes_on(self, **span: float) -> None:
        self.time += timedelta(**span)


class Person:
    """Somebody with a project on disk, a watch, and ears."""

    def __init__(self, qtbot: QtBot, folder: Path, sample: str, answers: Callable[[], object]) -> None:
        self._qtbot, self._folder, self._answers = qtbot, folder, answers
        self.file = folder / f"{sample}.wallwright"
        shutil.copyfile(SAMPLES / f"{sample}.wallwright", self.file)
        self.watch = Watch()
        self.heard: list[datetime] = []
        self.window: MainWindow
        self.starts()

    def starts(self) -> None:
        """The program, on the file."""
        self.window = MainWindow(Settings(self._folder / "settings"))
        self.window.files.ask = self._answers()  # type: ignore[assignment]
        self.desk.now = self.watch
        self.desk.sound = lambda: self.heard.append(self.watch.time)
        self.window.resize(1280, 720)
        self.window.show()
        self._qtbot.waitExposed(self.window)
        self.window.files.open_path(self.file)
        QApplication.processEvents()

    def leaves_the_program(self) -> None:
        self.window.files.ask = self._answers()  # type: ignore[assignment]
        self.window.close()
        self.window.recovery.discard()
        self.window.deleteLater()
        application = QApplication.instance()
        assert application is not None
        application.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
        QApplication.processEvents()

    @property
    def desk(self) -> DayDesk:
        return self.window.commands.day

    @property
    def screen(self) -> HangingDay:
        assert self.desk.screen is not None
        return self.desk.screen

    @property
    def project(self) -> Project:
        return self.window.opened.project

    @property
    def phase(self) -> str:
        return self.screen.session.day.phase

    def begins(self) -> None:
        """Hanging day, from the menu."""
        choose_by_keys(self._qtbot, self.window, "Wall", "hanging_day")
        self._qtbot.waitUntil(lambda: self.screen.isActiveWindow(), timeout=5000)

    def looks(self, **span: float) -> None:
        """Time goes by, and the screen's own look at the clock comes."""
        self.watch.goes_on(**span)
        self.screen.session.tick()
        QApplication.processEvents()

    def space(self, **span: float) -> None:
        self.looks(**span)
        press(KEY.Key_Space)
