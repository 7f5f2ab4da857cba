"""The words of each step of the day: what to do now, its numbers, what the buttons say."""

from __future__ import annotations

from datetime import datetime, timedelta

from composer.catalogue import catalogue as catalogues
from composer.desktop.hanging_day.progress import (
    chip_of,
    count_of,
    full_strength,
    left_out,
    minutes_of,
    passes_of,
    spelled,
    time_of,
    ways_from,
)
from composer.desktop.hanging_day.telling import LETTERS, ClockFace, Figure, Label, Mind, Told
from composer.hanging.points import hang
from composer.hangingday.course import Course, Station
from composer.hangingday.day import Day, Phase, press_left, stations, wait_left
from composer.model import Key, Project
from composer.paper.figures import figures_of
from composer.paper.hanging_list_rows import round_to
from composer.texts import say, say_many


def tell(
    project: Project,
    wall: Key,
    day: Day,
    course: Course,
    now: datetime,
    *,
    calling: bool = False,
    done: bool = False,
    said: str = "",
    minds: tuple[Mind, ...] = (),
) -> Told:
    """What to show.

    Args:
        project: whose wall.
        wall: its key.
        day, course: where the person is, and what there is to do.
        now: the time; moments are told in its zone.
        calling: whether a clock has run out unanswered.
        done: whether the piece in hand has come through this phase before.
        said: what the last key led to, where it did nothing.
        minds: what was found about the piece in hand.
    """
    name = project.wall_by_key[wall].name
    head: dict[str, object] = {
        "wall": name,
        "count": count_of(course),
        "passes": passes_of(day.phase, course, now),
        "said": said,
    }
    if day.phase == "wait":
        return _waiting(head, course, now)
    if day.phase == "done":
        return _finished(head, project, course, now)
    station = course.station(day.piece or "")
    if station is None:
        return Told(**head)  # type: ignore[arg-type]
    common = {
        **head,
        "chips": tuple(chip_of(one, day) for one in stations(course, day.phase)),
        "number": station.number,
        "name": station.name,
        "how": _how(station, day.phase),
        "minds": minds,
        **ways_from(day, course),
    }
    made = _been(project, station, course, now) if done else _step(project, station, day, course, now, calling=calling)
    if not made.get("second_is") and len(stations(course, day.phase)) > 1 and not done:
        other = say("In hanging order") if day.left_to_right else say("Left to right")
        made |= {"second": Label(other, say("O, the other order")), "second_is": "order"}
    return Told(**common, **made)  # type: ignore[arg-type]


def _step(
    project: Project, station: Station, day: Day, course: Course, now: datetime, *, calling: bool
) -> dict[str, object]:
    if day.phase == "nails":
        return _nails(project, station, day, course)
    if day.phase == "stick":
        return _stick(project, station)
    if day.phase == "press":
        return _press(project, station, day, course, now, calling=calling)
    return _hang(station, calling=calling)


def _how(station: Station, phase: Phase) -> str:
    if phase == "nails":
        return say("{how}: {held} · {weight}", how=station.row.how, held=station.row.held, weight=station.row.weighs)
    return say("{how}: {held}", how=station.row.how, held=station.row.held)


def _checks(station: Station) -> str:
    return say("Check: {gaps}.", gaps=", ".join(station.checks)) if station.checks else ""


def _place(project: Project, station: Station, course: Course, at: int, *, pairs: bool) -> tuple[Figure, ...]:
    """Distance and height of a hole, of the middle of a strip, or of the lower left corner."""
    marks = station.pairs if pairs else station.row.marks
    mark = marks[min(at, len(marks) - 1)]
    down = mark.from_level.startswith("−")
    height = mark.from_level.lstrip("+−")
    label = say("below the level line") if down else say("above the level line")
    floor = say("{height} above the floor", height=mark.above_floor)
    unit = figures_of(project).unit
    return (
        Figure(say("{where}, {unit}", where=course.side, unit=unit), mark.from_side),
        Figure(say("{where}, {unit}", where=label, unit=unit), height, floor),
    )


def _hole_name(station: Station, at: int) -> str:
    return LETTERS[at % len(LETTERS)] if station.points > 1 else ""


def _nails(project: Project, station: Station, day: Day, course: Course) -> dict[str, object]:
    if day.point < station.points:
        letter = _hole_name(station, day.point)
        after = day.point + 1
        then = say("Space, then hang it") if after == station.points else say("Space, then the next")
        lead = say("Hole {letter} of {count}", letter=letter, count=station.points) if letter else say("The hole")
        words = say("{letter} is in", letter=letter) if letter else say("It is in the wall")
        return {
            "lead": lead,
            "figures": _place(project, station, course, day.point, pairs=False),
            "checks": _checks(station),
            # No band on the screen means none: the detector is named before every piece's first hole.
            "note": "" if day.point else say("First a detector: cables and pipes."),
            "lines": left_out(course),
            "main": Label(words, then, "tick"),
            "second": Label(say("Once more"), say("R, the hole before")) if day.point else Label(""),
            "second_is": "again" if day.point else "",
        }
    ledge = station.points == 0
    return {
        "lead": say("Stand it on its ledge") if ledge else say("Hang it and level it"),
        "note": say("Its lower left corner comes here.") if ledge else say("Level on the frame, not on the wire."),
        "figures": _place(project, station, course, 0, pairs=False) if ledge else (),
        "checks": _checks(station),
        "main": Label(say("{number} is up", number=station.number), say("Space, when it is level"), "tick"),
        "second": Label(say("It hangs wrong"), say("H, what to do")),
        "second_is": "wrong",
    }


def _stick(project: Project, station: Station) -> dict[str, object]:
    return {
        "figures": _on_its_back(project, station.key),
        "small": True,
        "lead": say("Stick {held} on its back", held=station.row.held),
        "note": say(
            "Wipe the frame with alcohol, let it dry. One half of each pair where the drawing shows, tabs down; press hard."
        ),
        "lines": (say("A test strip first: old paint may come off with it. The packet wins."),),
        "main": Label(say("Strips are on"), say("Space, then the next"), "tick"),
    }


def _on_its_back(project: Project, key: Key) -> tuple[Figure, ...]:
    """Where the strips sit on the frame: in from its edge, below its top, above its lower edge."""
    place = project.placement_by_piece[key]
    known = catalogues.of(project.catalogue)
    hanging = hang(project.piece_by_key[key], turned=place.turned, catalogue=known)
    plan, figures = hanging.strips, figures_of(project)
    if plan is None or not plan.places:
        return ()

    def words(mm: float) -> str:
        return figures.full(round_to(mm, figures))

    below = hanging.height_mm - max(strip.top for strip in plan.places)
    made = [
        Figure(say("in from the edge"), words(plan.inset_mm)),
        Figure(say("upper ones below the top"), words(below)),
    ]
    if plan.pairs > 2:
        above = min(strip.bottom for strip in plan.places)
        made.append(Figure(say("lower ones above the lower edge"), words(above)))
    return tuple(made)


def _press(
    project: Project, station: Station, day: Day, course: Course, now: datetime, *, calling: bool
) -> dict[str, object]:
    letter = LETTERS[day.point % len(LETTERS)]
    seconds = int(course.press.total_seconds())
    left = press_left(day, course, now)
    waiting = sum(one.reached in ("open", "stuck") for one in course.strips) - 1
    after = say_many("{count} piece after this.", "{count} pieces after this.", waiting) if waiting > 0 else ""
    last = say("Then one wait for all: {words}.", words=spelled(course.wait))
    made: dict[str, object] = {
        "figures": _place(project, station, course, day.point, pairs=True),
        "small": True,
        "checks": _checks(station),
        "lines": (say("{first} {then}", first=after, then=last) if after else last,),
        "lead": say("Pair {letter} of {count}", letter=letter, count=station.points),
        "note": say("The other half's middle comes here, tabs down. Press with the flat of the thumb, all along."),
    }
    if left is None:
        made["clock"] = ClockFace(str(seconds), "s", 0.0)
        made["main"] = Label(say("Press {letter} now", letter=letter), say("Space starts the clock"))
        if day.point:
            made |= {"second": Label(say("Once more"), say("R, the pair before")), "second_is": "again"}
        return made
    running = -(-left.total_seconds() // 1)
    over = left <= timedelta(0)
    made["clock"] = ClockFace(f"{running:.0f}", "s", 1 - left / course.press, over)
    made["lead"] = say("Press {letter}, hard", letter=letter) if not over else say("Enough. Let go.")
    if calling or over:
        made["note"] = ""
        made["call"] = say("{letter} has been pressed for {seconds} s.", letter=letter, seconds=seconds)
    note = say("Space, then the next") if over else say("at 0 it sounds")
    made["main"] = Label(say("{letter} is pressed", letter=letter), note, "tick" if over else "clock", over)
    made |= {"second": Label(say("Once more"), say("R, {seconds} s again", seconds=seconds)), "second_is": "again"}
    return made


def _hang(station: Station, *, calling: bool) -> dict[str, object]:
    return {
        "lead": say("Hang it on its strips"),
        "note": say("Set its halves on those of the wall, then press each corner until it clicks."),
        "checks": _checks(station),
        "call": say("The wait is over: hang all.") if calling else "",
        "main": Label(say("{number} is up", number=station.number), say("Space, when it is level"), "tick"),
        "second": Label(say("It hangs wrong"), say("H, what to do")),
        "second_is": "wrong",
    }


def _been(project: Project, station: Station, course: Course, now: datetime) -> dict[str, object]:
    """A piece that was looked at again."""
    if station.reached == "hung":
        lines = full_strength(course, now) if station.by_strips else ()
        return {
            "lead": say("It is up"),
            "note": _should_be(station),
            "figures": _place(project, station, course, 0, pairs=False),
            "checks": _checks(station),
            "lines": lines,
            "main": Label(say("Go on"), say("Space, to what is not done yet"), "next"),
            "second": Label(say("It hangs wrong"), say("H, what to do")),
            "second_is": "wrong",
        }
    pressed = station.pressed is not None
    return {
        "lead": say("Its strips are on the wall") if pressed else say("Its strips are on its back"),
        "note": say("Pressed at {time}.", time=time_of(station.pressed, now)) if station.pressed is not None else "",
        "checks": _checks(station),
        "main": Label(say("Go on"), say("Space, to what is not done yet"), "next"),
    }


def _should_be(station: Station) -> str:
    """What the figures of a piece that is up are for."""
    if station.row.block == "nails":
        return say("Hole A should be here. Note where it really is, if it is not.")
    return say("Its lower left corner should be here. Note where it really is, if it is not.")


def _waiting(head: dict[str, object], course: Course, now: datetime) -> Told:
    left = wait_left(course, now)
    opens = course.opens
    assert opens is not None and course.last_pressed is not None
    last = max((one for one in course.strips if one.pressed is not None), key=lambda one: one.pressed or now)
    time = time_of(opens, now)
    over = left <= timedelta(0)
    papers = sum(one.points for one in course.strips)
    return Told(
        **head,  # type: ignore[arg-type]
        lead=say("Hang all from {time}", time=time) if not over else say("Hang all now"),
        note=say(
            "{wait} after the last, {number} {name}, pressed at {time}",
            wait=spelled(course.wait).capitalize(),
            number=last.number,
            name=last.name,
            time=time_of(course.last_pressed, now),
        ),
        clock=ClockFace(
            minutes_of(left),
            say("min to go"),
            1 - left / course.wait if course.wait else 1.0,
            over,
            say("it is {time}", time=time_of(now, now)),
        ),
        lines=full_strength(course, now)
        if over
        else (
            say("Meanwhile: take the papers down, wipe the glass on both sides."),
            say_many(
                "Look at the frames: {count} tab down, to be reached with two fingers.",
                "Look at the frames: {count} tabs down, each to be reached with two fingers.",
                papers,
            ),
            say("You may close the program. The clock goes on; open it again, and at {time} it calls.", time=time),
            *full_strength(course, now),
        ),
        call=say("The wait is over: hang all.") if over else "",
        main=Label(
            say("Hang all"),
            say("Space") if over else say("opens at {time}", time=time),
            "tick" if over else "clock",
            over,
        ),
        second=Label(say("Change the wait"), say("W, the packet wins")),
        second_is="wait",
        back=say("pass before"),
    )


def _finished(head: dict[str, object], project: Project, course: Course, now: datetime) -> Told:
    any_here = bool(course.nails or course.strips)
    lines = [*full_strength(course, now), *left_out(course)]
    if any_here:
        lines.append(say("The arrow to the left goes back to a piece, to note where it hangs or to put it right."))
    return Told(
        **head,  # type: ignore[arg-type]
        lead=say("All is up") if any_here else say("Nothing is to be hung on this wall yet"),
        note=say("Take back still takes back each step.")
        if any_here
        else say("Drag frames from the floor to the wall first."),
        lines=tuple(lines),
        main=Label(say("Leave"), say("Space or Esc")),
        back=(say("a piece that is up") if any_here else None),
    )
