"""The day as a state machine: where the person is, what the main key does, and the record it leaves.

Nails go piece by piece: each nail, then "it hangs, level". Strips go in passes: stick them on all
frames, press all on the wall, wait one hour for all after the last press, hang all; more weight only
after a day. Every step takes the project, the event and the time, and gives the next day and the
edit to run; nothing here reads a clock.
"""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Literal

from composer.editing.edits import Edit
from composer.editing.rehang_edits import record_up
from composer.hangingday.course import Course, Station, course_of, instant
from composer.hangingday.records import record_hung, record_pressed, record_stuck
from composer.model import Key, Project
from composer.texts import say

Phase = Literal["nails", "stick", "press", "wait", "hang", "done"]
PHASES: tuple[Phase, ...] = ("nails", "stick", "press", "wait", "hang", "done")

Event = Literal["do", "again", "next", "back"]
"""``do``: the main action (Space, Enter) · ``again``: press the same pair once more · ``next``, ``back``: look at
another piece without recording anything."""


@dataclass(frozen=True, slots=True)
class Day:
    """Where the person is.

    Attributes:
        wall: whose day.
        phase: what is done now.
        piece: the piece in hand; None while waiting and when all is done.
        point: which of its nails or pairs; for nails, as many as it has means "hang it".
        press_began: when the pair in hand was begun to be pressed; None = not yet.
        left_to_right: the order of the pieces.
    """

    wall: Key
    phase: Phase
    piece: Key | None = None
    point: int = 0
    press_began: datetime | None = None
    left_to_right: bool = False


@dataclass(frozen=True, slots=True)
class Step:
    """What came of an event: the next day, the edit to run, and what is said, e.g. why nothing happened."""

    day: Day
    edit: Edit | None = None
    said: str = ""


def begin(project: Project, wall: Key, now: datetime, *, left_to_right: bool = False) -> Day:
    """The day as it stands by the project's records and the time; also after the program was closed."""
    course = course_of(project, wall, left_to_right=left_to_right)
    return _at(course, Day(wall, "nails", left_to_right=left_to_right), now)


def course(project: Project, day: Day) -> Course:
    """What there is to do, with how far each piece has come."""
    return course_of(project, day.wall, left_to_right=day.left_to_right)


def _at(course: Course, day: Day, now: datetime) -> Day:
    """The first thing that is not done yet."""
    for phase, wanted in (("nails", "hung"), ("stick", "stuck"), ("press", "pressed")):
        for station in stations(course, phase):  # type: ignore[arg-type]
            if not _has(station, wanted):
                return replace(day, phase=phase, piece=station.key, point=0, press_began=None)  # type: ignore[arg-type]
    if any(station.reached != "hung" for station in course.strips):
        if course.opens is not None and now < course.opens:
            return replace(day, phase="wait", piece=None, point=0, press_began=None)
        first = next(station for station in course.strips if station.reached != "hung")
        return replace(day, phase="hang", piece=first.key, point=0, press_began=None)
    return replace(day, phase="done", piece=None, point=0, press_began=None)


_ORDER = ("open", "stuck", "pressed", "hung")


def _has(station: Station, wanted: str) -> bool:
    return _ORDER.index(station.reached) >= _ORDER.index(wanted)


def stations(course: Course, phase: Phase) -> tuple[Station, ...]:
    """The pieces a phase goes through."""
    if phase == "nails":
        return course.nails
    return course.strips if phase in ("stick", "press", "hang") else ()


def done_in(course: Course, phase: Phase) -> int:
    """How many pieces have come through a phase."""
    wanted = {"nails": "hung", "stick": "stuck", "press": "pressed", "hang": "hung"}.get(phase)
    return 0 if wanted is None else sum(_has(station, wanted) for station in stations(course, phase))


def press_left(day: Day, course: Course, now: datetime) -> timedelta | None:
    """How long the pair in hand is still to be pressed; None before it is begun, 0 when it is enough."""
    if day.phase != "press" or day.press_began is None:
        return None
    return max(timedelta(0), day.press_began + course.press - now)


def wait_left(course: Course, now: datetime) -> timedelta:
    """How long until everything on strips may be hung."""
    return timedelta(0) if course.opens is None else max(timedelta(0), course.opens - now)


def calls(day: Day, course: Course, before: datetime, now: datetime) -> bool:
    """Whether a clock ran out between two looks at the time: then it sounds and shows a sign."""
    ends: list[datetime] = []
    if day.phase == "press" and day.press_began is not None:
        ends.append(day.press_began + course.press)
    if day.phase == "wait" and course.opens is not None:
        ends.append(course.opens)
    return any(before < end <= now for end in ends)


def take(project: Project, day: Day, event: Event, now: datetime) -> Step:
    """What an event does.

    Args:
        project: as it is now; run the step's edit on it before the next event.
        day: where the person is.
        event: what they did.
        now: the time, with its zone.
    """
    made = course(project, day)
    if event in ("next", "back"):
        return Step(_moved(made, day, event == "next"))
    station = None if day.piece is None else made.station(day.piece)
    if day.phase == "wait":
        return _waited(made, day, now) if event == "do" else Step(day)
    if station is None:
        return Step(_at(made, day, now))
    if day.phase == "press":
        return _pressed(project, made, day, station, event, now)
    if event == "again":
        return Step(replace(day, point=max(0, day.point - 1)))
    if day.phase == "nails" and day.point < station.points:
        return Step(replace(day, point=day.point + 1))
    if day.phase == "nails":
        return _recorded(project, day, record_up(project, (station.key,), instant(now)), now)
    if day.phase == "stick":
        return _recorded(project, day, record_stuck(project, station.key, instant(now)), now)
    if day.phase == "hang":
        return _recorded(project, day, record_hung(project, station.key, instant(now)), now)
    return Step(day)


def _pressed(project: Project, course: Course, day: Day, station: Station, event: Event, now: datetime) -> Step:
    if event == "again":
        point = day.point if day.press_began is not None else max(0, day.point - 1)
        return Step(replace(day, point=point, press_began=now))
    left = press_left(day, course, now)
    if left is None:
        return Step(replace(day, press_began=now))
    if left > timedelta(0):
        seconds = -(-left.total_seconds() // 1)
        return Step(day, said=say("Keep pressing: {seconds} s to go.", seconds=f"{seconds:.0f}"))
    if day.point + 1 < station.points:
        return Step(replace(day, point=day.point + 1, press_began=None))
    return _recorded(project, day, record_pressed(project, station.key, instant(now)), now)


def _waited(course: Course, day: Day, now: datetime) -> Step:
    left = wait_left(course, now)
    if left > timedelta(0):
        minutes = -(-left.total_seconds() // 60)
        return Step(day, said=say("Not yet: {minutes} min to go.", minutes=f"{minutes:.0f}"))
    return Step(_at(course, day, now))


def _recorded(project: Project, day: Day, edit: Edit, now: datetime) -> Step:
    """The edit, and the next thing of the same phase, else of the next."""
    after = edit.run(project)
    made = course(after, day)
    wanted = {"nails": "hung", "stick": "stuck", "press": "pressed", "hang": "hung"}[day.phase]
    keys = [station.key for station in stations(made, day.phase)]
    start = keys.index(day.piece) if day.piece in keys else -1
    # On from the piece in hand, then round: a piece that was left out comes last.
    for station in (*stations(made, day.phase)[start + 1 :], *stations(made, day.phase)[: start + 1]):
        if not _has(station, wanted):
            return Step(replace(day, piece=station.key, point=0, press_began=None), edit)
    return Step(_at(made, day, now), edit)


def _moved(course: Course, day: Day, forward: bool) -> Day:
    if day.phase in ("wait", "done"):
        if forward:
            return day
        phase: Phase = "press" if course.strips else "nails"
        last = stations(course, phase)
        return replace(day, phase=phase, piece=last[-1].key, point=0, press_began=None) if last else day
    keys = [station.key for station in stations(course, day.phase)]
    at = keys.index(day.piece) if day.piece in keys else 0
    if 0 <= at + (1 if forward else -1) < len(keys):
        return replace(day, piece=keys[at + (1 if forward else -1)], point=0, press_began=None)
    if not forward and day.phase in ("press", "stick"):
        before: Phase = "stick" if day.phase == "press" else "nails"
        last = stations(course, before)
        if last:
            return replace(day, phase=before, piece=last[-1].key, point=0, press_began=None)
    return day
