"""The course of a day on one wall: its stations in hanging order, with the numbers the paper has, and what is done."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Literal

from composer.catalogue import catalogue as catalogues
from composer.geometry.rectangle import Rectangle
from composer.model import HungPiece, Instant, Key, Project
from composer.paper.figures import Figures
from composer.paper.hanging_list_rows import HangingList, Mark, Row, hanging_list, round_to
from composer.paper.template_subject import Subject
from composer.texts import say

Reached = Literal["open", "stuck", "pressed", "hung"]

NEAR_MM = 400.0
"""Neighbours further away are no check for the eye (judgement)."""


@dataclass(frozen=True, slots=True)
class Station:
    """One piece of the day.

    Attributes:
        key, number, name: the piece.
        row: what the hanging list says of it: size, numbers of each hole or of its edges, what holds it, weight.
        pairs: for strips, where the middle of each wall half goes, left to right, upper before lower.
        by_strips: whether it hangs by strips.
        reached: how far it has come.
        pressed: when the last of its strips was pressed on the wall.
        checks: distances to its neighbours, as sentences.
    """

    key: Key
    number: int
    name: str
    row: Row
    pairs: tuple[Mark, ...]
    by_strips: bool
    reached: Reached
    pressed: datetime | None
    checks: tuple[str, ...]

    @property
    def points(self) -> int:
        """Nails to drive, or pairs of strips to press; 0 for a piece on a ledge."""
        return len(self.pairs) if self.by_strips else len(self.row.marks) if self.row.block == "nails" else 0


@dataclass(frozen=True, slots=True)
class Course:
    """What there is to do on a wall.

    Attributes:
        nails: pieces on nails, screws, rails or ledges, in hanging order.
        strips: pieces on strips, in hanging order.
        unmeasured: numbers of pieces nobody can hang yet.
        press: how long each pair is pressed.
        wait: how long all wait after the last press.
        full: when the strips have their full strength, after the last press.
        level, side: the level line's sentence and what distances are taken from.
    """

    nails: tuple[Station, ...]
    strips: tuple[Station, ...]
    unmeasured: tuple[int, ...]
    press: timedelta
    wait: timedelta
    full: timedelta
    level: str
    side: str

    @property
    def last_pressed(self) -> datetime | None:
        """When the last strip of all was pressed; None while none is."""
        return max((one.pressed for one in self.strips if one.pressed is not None), default=None)

    @property
    def opens(self) -> datetime | None:
        """When everything on strips may be hung: one hour for all, after the last press."""
        return None if self.last_pressed is None else self.last_pressed + self.wait

    @property
    def strong(self) -> datetime | None:
        """When more weight may come on them."""
        return None if self.last_pressed is None else self.last_pressed + self.full

    def station(self, key: Key) -> Station | None:
        """The station of a piece."""
        return next((one for one in (*self.nails, *self.strips) if one.key == key), None)


def course_of(project: Project, wall: Key, *, left_to_right: bool = False) -> Course:
    """The course of a wall in the current arrangement; empty where nothing hangs there.

    Raises:
        KeyError: there is no such wall.
    """
    found = project.wall_by_key[wall]
    made = hanging_list(project, found, project.arrangement, left_to_right=left_to_right)
    if made is None:
        return Course((), (), (), timedelta(seconds=30), timedelta(hours=1), timedelta(hours=24), "", "")
    records = {item.piece: item for item in project.as_hung.items if item.down is None and item.wall == wall}
    by_number = {one.piece.number: one for one in made.subjects}
    stations = []
    for row in made.rows:
        if row.block != "unknown":
            subject = by_number[row.number]
            stations.append(_station(row, subject, made, records.get(subject.piece.key)))
    press, wait, full = _times(project, made)
    return Course(
        nails=tuple(one for one in stations if not one.by_strips),
        strips=tuple(one for one in stations if one.by_strips),
        unmeasured=tuple(row.number for row in made.of_block("unknown")),
        press=press,
        wait=wait,
        full=full,
        level=made.level,
        side=made.side,
    )


def _station(row: Row, subject: Subject, made: HangingList, record: HungPiece | None) -> Station:
    reached: Reached = "open"
    pressed = None
    if record is not None:
        reached = "hung" if record.strips is None else record.strips.reached
        pressed = None if record.strips is None or record.strips.pressed is None else moment(record.strips.pressed)
    if reached == "stuck":
        pressed = None
    return Station(
        key=subject.piece.key,
        number=row.number,
        name=row.name,
        row=row,
        pairs=_pairs(subject, made),
        by_strips=subject.on_strips,
        reached=reached,
        pressed=pressed,
        checks=checks(subject, made.subjects, made.figures),
    )


def _pairs(subject: Subject, made: HangingList) -> tuple[Mark, ...]:
    plan = subject.hanging.strips
    if plan is None:
        return ()
    figures, datum = made.figures, made.datum
    marks = []
    for place in plan.places:
        x, y = place.centre
        above = round_to(subject.bottom + y, figures)
        marks.append(
            Mark(
                figures.signed(above - round_to(datum.level_line, figures)),
                figures.bare(above),
                datum.distance(round_to(subject.left + x, figures), figures),
            )
        )
    return tuple(marks)


def _times(project: Project, made: HangingList) -> tuple[timedelta, timedelta, timedelta]:
    """The longest of what the packets of the classes used say."""
    known = catalogues.of(project.catalogue)
    used = {one.hanging.strips.size for one in made.subjects if one.hanging.strips is not None}
    classes = [known.strip_classes[size] for size in used] or list(known.strip_classes.values())
    return (
        timedelta(seconds=max(one.press_s for one in classes)),
        timedelta(minutes=max(one.wait_min for one in classes)),
        timedelta(hours=max(one.full_h for one in classes)),
    )


def checks(subject: Subject, others: Sequence[Subject], figures: Figures) -> tuple[str, ...]:
    """What the eye checks a piece by once it is up: its gaps to the nearest neighbour on each side."""
    place = _place(subject)
    nearest: dict[str, tuple[float, float, int]] = {}
    for other in others:
        if other is subject:
            continue
        there = _place(other)
        beside = min(place.top, there.top) - max(place.bottom, there.bottom)
        over = min(place.right, there.right) - max(place.left, there.left)
        for side, gap, together in (
            ("right", place.left - there.right, beside),
            ("left", there.left - place.right, beside),
            ("above", place.bottom - there.top, over),
            ("below", there.bottom - place.top, over),
        ):
            # Of neighbours equally near, the one that runs alongside the longest.
            found = (round(gap, 3), -together, other.piece.number)
            if together > 0 and 0 <= gap <= NEAR_MM and (side not in nearest or found < nearest[side]):
                nearest[side] = found
    sentences = {
        "right": lambda gap, number: say("{gap} to the right of {number}", gap=gap, number=number),
        "left": lambda gap, number: say("{gap} to the left of {number}", gap=gap, number=number),
        "above": lambda gap, number: say("{gap} above {number}", gap=gap, number=number),
        "below": lambda gap, number: say("{gap} below {number}", gap=gap, number=number),
    }
    return tuple(
        sentences[side](figures.bare(round_to(gap, figures)), number) for side, (gap, _, number) in nearest.items()
    )


def _place(subject: Subject) -> Rectangle:
    return Rectangle.at(subject.left, subject.bottom, subject.width, subject.height)


def moment(instant: Instant) -> datetime:
    """A recorded moment."""
    return datetime.strptime(instant, "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=UTC)


def instant(now: datetime) -> Instant:
    """A moment as it is recorded, UTC, to the second."""
    return now.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
