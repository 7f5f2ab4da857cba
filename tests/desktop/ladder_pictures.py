"""Hanging day in the states a person on a ladder meets, with a clock that stands where it is put."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import msgspec
from PySide6.QtWidgets import QApplication, QWidget

from composer.desktop.hanging_day.panels import TroublePanel
from composer.desktop.hanging_day.screen import HangingDay
from composer.desktop.main_window import MainWindow
from composer.editing.edits import Edit
from composer.editing.wall_edits import add_obstacles
from composer.model import Obstacle, Project
from composer.units import Length


class Ladder:
    """The full screen of a window, and the time on it."""

    def __init__(self, window: MainWindow) -> None:
        self._time = datetime(2026, 4, 18, 14, 0, tzinfo=UTC)
        desk = window.commands.day
        desk.now, desk.sound = lambda: self._time, _quiet
        self.screen: HangingDay = desk.open()
        self.screen.showNormal()
        self.screen.resize(window.size())
        QApplication.processEvents()

    def goes_on(self, **span: float) -> None:
        self._time += timedelta(**span)
        self.screen.session.tick()

    def until(self, phase: str) -> None:
        while self.screen.session.day.phase != phase:
            if self.screen.session.day.phase == "press":
                self.screen.do()
                self.goes_on(seconds=30)
            self.screen.do()
            self.goes_on(seconds=20)


def _quiet() -> None:
    """Nobody wants to hear it here."""


def _state(make: Callable[[Ladder], None]) -> Callable[[MainWindow], QWidget]:
    def shown(window: MainWindow) -> QWidget:
        ladder = Ladder(window)
        make(ladder)
        return ladder.screen

    return shown


def _second_hole(ladder: Ladder) -> None:
    for _ in range(5):  # 1 and 2 hang, the first ring of 3 is done
        ladder.screen.do()


def _level_it(ladder: Ladder) -> None:
    for _ in range(6):
        ladder.screen.do()


def _first(ladder: Ladder) -> None:
    """As it opens."""


def _stick(ladder: Ladder) -> None:
    ladder.screen.do()


def _press(ladder: Ladder) -> None:
    ladder.until("press")
    ladder.screen.do()
    ladder.goes_on(seconds=30)
    ladder.screen.do()
    ladder.screen.do()
    ladder.goes_on(seconds=12)


def _too_early(ladder: Ladder) -> None:
    _press(ladder)
    ladder.screen.do()


def _pressed(ladder: Ladder) -> None:
    _press(ladder)
    ladder.goes_on(seconds=18)


def _wait(ladder: Ladder) -> None:
    ladder.until("wait")
    ladder.goes_on(minutes=22)


def _waited(ladder: Ladder) -> None:
    _wait(ladder)
    ladder.goes_on(minutes=40)


def _hang(ladder: Ladder) -> None:
    _waited(ladder)
    ladder.screen.do()
    ladder.screen.do()


def _done(ladder: Ladder) -> None:
    _waited(ladder)
    ladder.until("done")


def _seen_again(ladder: Ladder) -> None:
    _hang(ladder)
    ladder.screen.session.take("back")


def _wrong(ladder: Ladder) -> None:
    _level_it(ladder)
    ladder.screen.do_second()
    panel = ladder.screen.panel
    assert isinstance(panel, TroublePanel)
    panel.complain_of("crooked")
    field = panel.fields[0][1]
    field.setFocus()
    field.lineEdit().setText("1180")
    field.lineEdit().textEdited.emit("1180")


def _over_a_cot(window: MainWindow) -> QWidget:
    """A cot in the place of the sofa: whoever hangs there is stopped."""

    def run(project: Project) -> Project:
        (wall,) = project.walls
        things = tuple(
            msgspec.structs.replace(one, kind="cot") if one.kind == "sofa" else one for one in wall.obstacles
        )
        return msgspec.structs.replace(project, walls=(msgspec.structs.replace(wall, obstacles=things),))

    window.opened.apply(Edit("A cot", run))
    ladder = Ladder(window)
    _press(ladder)
    return ladder.screen


def _near_a_cable(window: MainWindow) -> QWidget:
    """A socket under the first nail."""

    def make(key: str) -> Obstacle:
        plate = Length.from_text("80 mm")
        return Obstacle(key=key, kind="socket", left=1260, bottom=300, width=plate, height=plate)

    window.opened.apply(add_obstacles(window.opened.project, window.room.wall_key, [make]))
    return Ladder(window).screen


def _change_wait(ladder: Ladder) -> None:
    _wait(ladder)
    ladder.screen.do_second()


Make = Callable[[MainWindow], QWidget]

LADDER: tuple[tuple[str, Make, str], ...] = (
    ("hole", _state(_second_hole), "stair-wall"),
    ("level-it", _state(_level_it), "stair-wall"),
    ("inches", _state(_first), "corridor-inches"),
    ("stick", _state(_stick), "sofa-wall"),
    ("press", _state(_press), "sofa-wall"),
    ("too-early", _state(_too_early), "sofa-wall"),
    ("pressed", _state(_pressed), "sofa-wall"),
    ("wait", _state(_wait), "sofa-wall"),
    ("waited", _state(_waited), "sofa-wall"),
    ("hang", _state(_hang), "sofa-wall"),
    ("seen-again", _state(_seen_again), "sofa-wall"),
    ("done", _state(_done), "sofa-wall"),
    ("wrong", _state(_wrong), "stair-wall"),
    ("change-wait", _state(_change_wait), "sofa-wall"),
    ("nothing", _state(_first), "empty-wall"),
    ("stop", _over_a_cot, "sofa-wall"),
    ("cable", _near_a_cable, "stair-wall"),
)
"""Name of a state, how it comes about, and the sample wall."""

LARGEST = ("hole", "inches", "too-early", "wait", "wrong", "stop", "cable")
"""Those with the most on them, looked at with 200 % text, too."""
