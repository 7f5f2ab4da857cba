"""How far the day has come: counts, passes, the order of pieces, where the arrows lead, times in words."""

from __future__ import annotations

from datetime import datetime, timedelta

from composer.desktop.hanging_day.telling import Chip, Pass, State
from composer.hangingday.course import Course, Station
from composer.hangingday.day import Day, Phase, done_in, stations, wait_left
from composer.texts import say, say_many


def count_of(course: Course) -> str:
    """How many pieces are up, wait, and are to go."""
    all_of_them = (*course.nails, *course.strips)
    up = sum(one.reached == "hung" for one in all_of_them)
    waiting = sum(one.reached == "pressed" for one in all_of_them)
    left = len(all_of_them) - up - waiting
    if waiting and not left:
        return say("{up} up, {waiting} waiting", up=up, waiting=waiting)
    if waiting:
        return say("{up} up, {waiting} waiting, {left} to go", up=up, waiting=waiting, left=left)
    return say("{up} up, {left} to go", up=up, left=left)


def passes_of(phase: Phase, course: Course, now: datetime) -> tuple[Pass, ...]:
    """The passes this wall has, in order."""
    order: list[Phase] = ["nails"] if course.nails else []
    if course.strips:
        order += ["stick", "press", "wait", "hang"]
    names = {
        "nails": say("Nails"),
        "stick": say("Stick on frames"),
        "press": say("Press on the wall"),
        "wait": _long_wait(course),
        "hang": say("Hang all"),
    }
    made = []
    for one in order:
        total = len(stations(course, one))
        through = done_in(course, one)
        if one == "wait":
            over = course.opens is not None and all(piece.reached in ("pressed", "hung") for piece in course.strips)
            is_done, note = over and wait_left(course, now) == timedelta(0), _wait_note(course, now)
        else:
            is_done, note = through == total, say("{done} of {total}", done=through, total=total)
        if one == "hang" and not is_done and course.opens is not None and now < course.opens:
            note = say("from {time}", time=time_of(course.opens, now))
        state: State = "now" if one == phase else "done" if is_done else "open"
        made.append(Pass(names[one], note, state))
    return tuple(made)


def _long_wait(course: Course) -> str:
    if course.wait == timedelta(hours=1):
        return say("Wait one hour")
    return say("Wait {minutes} min", minutes=minutes_of(course.wait))


def _wait_note(course: Course, now: datetime) -> str:
    if course.last_pressed is None or any(one.reached in ("open", "stuck") for one in course.strips):
        return say("after the last press")
    gone = min(course.wait, max(timedelta(0), now - course.last_pressed))
    return say("{gone} of {all} min", gone=int(gone.total_seconds() // 60), all=int(course.wait.total_seconds() // 60))


def chip_of(station: Station, day: Day) -> Chip:
    """A piece in the order of a pass."""
    if station.key == day.piece:
        return Chip(station.key, station.number, "now")
    if day.phase == "stick":
        return Chip(station.key, station.number, "open" if station.reached == "open" else "done")
    if station.reached == "hung":
        return Chip(station.key, station.number, "done")
    return Chip(station.key, station.number, "waiting" if station.reached == "pressed" else "open")


def ways_from(day: Day, course: Course) -> dict[str, object]:
    """Where the arrows lead from here."""
    here = stations(course, day.phase)
    at = next((place for place, one in enumerate(here) if one.key == day.piece), 0)
    back = f"{here[at - 1].number} {here[at - 1].name}" if at > 0 else None
    if back is None and day.phase == "press":
        back = say("pass before")
    elif back is None and day.phase == "stick" and course.nails:
        back = say("nails")
    forward = f"{here[at + 1].number} {here[at + 1].name}" if at + 1 < len(here) else None
    return {"back": back, "forward": forward}


def time_of(moment: datetime, now: datetime) -> str:
    """The time of day of a moment, in the zone of another."""
    return f"{moment.astimezone(now.tzinfo):%H:%M}"


def minutes_of(span: timedelta) -> str:
    """A span in whole minutes, begun ones counted."""
    return f"{-(-span.total_seconds() // 60):.0f}"


def spelled(span: timedelta) -> str:
    """A wait in words."""
    if span == timedelta(hours=1):
        return say("one hour")
    return say("{minutes} min", minutes=minutes_of(span))


def full_strength(course: Course, now: datetime) -> tuple[str, ...]:
    """When more weight may come on the strips, as a sentence; nothing once that is past."""
    strong = course.strong
    if strong is None or strong <= now:
        return ()
    there = strong.astimezone(now.tzinfo)
    day = say("today") if there.date() == now.date() else say("tomorrow")
    if (there.date() - now.date()).days > 1:
        day = f"{there:%Y-%m-%d}"
    return (
        say(
            "The strips have their full strength {day}, {time}. No more weight before.", day=day, time=f"{there:%H:%M}"
        ),
    )


def left_out(course: Course) -> tuple[str, ...]:
    """Pieces nobody can hang yet, as a sentence; nothing where there are none."""
    if not course.unmeasured:
        return ()
    numbers = ", ".join(str(number) for number in course.unmeasured)
    return (
        say_many(
            "Left out, because its back was not measured or it cannot be held so: {numbers}. The findings say more.",
            "Left out, because their backs were not measured or they cannot be held so: {numbers}. The findings say more.",
            len(course.unmeasured),
            numbers=numbers,
        ),
    )
