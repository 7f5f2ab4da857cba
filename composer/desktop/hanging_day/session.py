"""The day on the screen: the state machine with a project, a clock, and a way back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from PySide6.QtCore import QObject, Signal

from composer.desktop.hanging_day.telling import Mind
from composer.desktop.open_project import Change, OpenProject
from composer.editing.edits import Edit, EditRefused
from composer.findings import sentences
from composer.findings.cache import FindingsCache
from composer.hangingday import day as days
from composer.hangingday.course import Course, Station
from composer.hangingday.day import Day, Event
from composer.model import Finding, Key, Project
from composer.paper.figures import figures_of
from composer.texts import say

MOST_STOPS = 2
"""So many are shown on the ladder; the window's findings list all."""

Clock = Callable[[], datetime]


def clock_on_the_wall() -> datetime:
    """The time here, with its zone."""
    return datetime.now().astimezone()


class DaySession(QObject):
    """One wall's day.

    Args:
        opened: the project; every step that leaves a record is one step of its history.
        wall: whose day.
        now: gives the time, with its zone.

    Signals:
        changed: something is to be shown anew.
        called: a clock has run out: it is to sound.
    """

    changed = Signal()
    called = Signal()

    def __init__(
        self, opened: OpenProject, wall: Key, now: Clock = clock_on_the_wall, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.opened, self.wall, self.now = opened, wall, now
        self.said = ""
        self.calling = False
        """Whether a clock has run out and nobody has answered yet."""
        self._seen = now()
        self._steps: list[tuple[Day, int]] = []
        self._course: tuple[Project, bool, Course] | None = None
        self._found: tuple[Project, tuple[Finding, ...]] | None = None
        self._findings = FindingsCache()
        self._busy = False
        self.day = days.begin(opened.project, wall, self._seen)
        opened.project_changed.connect(self._on_project)

    @property
    def project(self) -> Project:
        """As it is now."""
        return self.opened.project

    @property
    def course(self) -> Course:
        """What there is to do, with how far each piece has come."""
        project, order = self.project, self.day.left_to_right
        if self._course is None or self._course[0] is not project or self._course[1] != order:
            self._course = (project, order, days.course(project, self.day))
        return self._course[2]

    @property
    def station(self) -> Station | None:
        """The piece in hand."""
        return None if self.day.piece is None else self.course.station(self.day.piece)

    @property
    def minds(self) -> tuple[Mind, ...]:
        """What was found about the piece in hand: stops nobody has overridden, then cables near a hole to come."""
        station = self.station
        if station is None or self.is_done_with():
            return ()
        if self._found is None or self._found[0] is not self.project:
            self._found = (self.project, self._findings.check(self.project))
        mine = [one for one in self._found[1] if station.number in one.pieces]
        style = figures_of(self.project).style
        stops = [one for one in mine if one.level == "stop" and one.overridden is None]
        before_a_hole = self.day.phase == "nails" and self.day.point < station.points
        cables = [one for one in mine if one.code == "cable-zone"] if before_a_hole else []
        return (
            *(Mind("stop", sentences.text(one, style)) for one in stops[:MOST_STOPS]),
            *(Mind("warn", sentences.text(one, style)) for one in cables[:1]),
        )

    @property
    def takes_back(self) -> str:
        """What taking a step back would undo, in words; empty where there is no step of this day."""
        if not self._steps:
            return ""
        _, index = self._steps[-1]
        return self.opened.stack.undoText() if self.opened.stack.index() > index else say("the last step")

    def do(self) -> None:
        """The main action; on a piece that is done already, on to what is not."""
        if self.is_done_with():
            self._go(days.begin(self.project, self.wall, self.now(), left_to_right=self.day.left_to_right))
        else:
            self.take("do")

    def is_done_with(self) -> bool:
        """Whether the piece in hand has come through this phase before."""
        station = self.station
        if station is None:
            return False
        after: dict[str, tuple[str, ...]] = {
            "nails": ("hung",),
            "stick": ("stuck", "pressed", "hung"),
            "press": ("pressed", "hung"),
            "hang": ("hung",),
        }
        pressing = self.day.phase == "press" and self.day.press_began is not None
        return not pressing and station.reached in after.get(self.day.phase, ())

    def take(self, event: Event) -> None:
        """Something the person did; its record is one step of the history."""
        day, index = self.day, self.opened.stack.index()
        step = days.take(self.project, day, event, self.now())
        if step.edit is not None and not self.apply(step.edit):
            return
        self.calling = False
        self.said = step.said
        if step.day != day:
            if event in ("do", "again"):
                self._steps.append((day, index))
            self.day = step.day
        self.changed.emit()

    def apply(self, edit: Edit) -> bool:
        """Runs an edit; False where it was refused, with the reason said."""
        self._busy = True
        try:
            self.opened.apply(edit)
        except EditRefused as refused:
            self.said = str(refused)
            self.changed.emit()
            return False
        finally:
            self._busy = False
        return True

    def note(self, edit: Edit, said: str) -> bool:
        """Runs an edit that leaves the day where it is, such as where a piece really hangs."""
        index = self.opened.stack.index()
        if not self.apply(edit):
            return False
        if self.opened.stack.index() != index:
            self._steps.append((self.day, index))
        self.said = said
        self.changed.emit()
        return True

    def take_back(self) -> None:
        """The last step of this day as if it had not been; its record goes with it."""
        if not self._steps:
            return
        words = self.takes_back
        day, index = self._steps.pop()
        self._busy = True
        try:
            while self.opened.stack.index() > index and self.opened.stack.canUndo():
                self.opened.stack.undo()
        finally:
            self._busy = False
        # A press that was interrupted so is begun anew: nobody knows how long it was held.
        self._go(_not_pressing(day), say("Taken back: {what}.", what=words))

    def set_order(self, *, left_to_right: bool) -> None:
        """Pieces from left to right, or in the order of the list."""
        self._go(days.begin(self.project, self.wall, self.now(), left_to_right=left_to_right))

    def _go(self, day: Day, said: str = "") -> None:
        self.day, self.said, self.calling = day, said, False
        self.changed.emit()

    def tick(self) -> None:
        """Another look at the time."""
        before, now = self._seen, self.now()
        self._seen = now
        if days.calls(self.day, self.course, before, now):
            self.calling = True
            self.said = ""
            self.called.emit()
        self.changed.emit()

    def _on_project(self, before: Project, after: Project, change: Change) -> None:
        if self._busy or self.wall not in self.project.wall_by_key:
            return
        # Somebody changed it elsewhere, or took a step back there: what is next is found anew.
        self._steps.clear()
        self._go(days.begin(self.project, self.wall, self.now(), left_to_right=self.day.left_to_right))


def _not_pressing(day: Day) -> Day:
    from dataclasses import replace

    return replace(day, press_began=None)
