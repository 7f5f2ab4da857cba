"""A whole day by keys alone, with clocks held by the test: nails piece by piece, strips in passes, a restart in the hour.

Times are the packets' usual words (common practice): press 30 s, wait an hour, a day before more weight.
"""

import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

import msgspec
import pytest

from composer.editing.edits import EditRefused
from composer.hanging.points import hang
from composer.hangingday.course import course_of, instant, moment
from composer.hangingday.cures import cures, deviation, verdict
from composer.hangingday.day import Day, Event, begin, calls, course, done_in, press_left, stations, take, wait_left
from composer.hangingday.records import (
    follow_the_wall,
    planned_points,
    points_measured,
    record_hung,
    record_measured,
    record_pressed,
    record_stuck,
)
from composer.model import CatalogueChange, Project
from composer.paper.figures import figures_of
from composer.projectfile import store

SAMPLES = Path(__file__).parents[2] / "samples"
START = datetime(2026, 4, 18, 14, 0, tzinfo=UTC)


def sample(name: str) -> Project:
    return store.load(SAMPLES / f"{name}.wallwright").project


class Person:
    """Somebody with a watch, who does one thing after the other."""

    def __init__(self, project: Project) -> None:
        self.project, self.now = project, START
        self.wall = project.walls[0].key
        self.day = begin(project, self.wall, self.now)
        self.said = ""

    def does(self, event: Event = "do", after: float = 0.0) -> Day:
        self.now += timedelta(seconds=after)
        step = take(self.project, self.day, event, self.now)
        if step.edit is not None:
            self.project = step.edit.run(self.project)
        self.day, self.said = step.day, step.said
        return self.day

    def phase(self) -> str:
        return self.day.phase

    def number(self) -> int | None:
        return None if self.day.piece is None else self.project.piece_by_key[self.day.piece].number

    def restarts(self, after: float = 0.0) -> Day:
        """Closes the program, waits, opens it: only the project and the time are left."""
        self.now += timedelta(seconds=after)
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "day.wallwright"
            store.save(path, self.project)
            self.project = store.load(path).project
        self.day = begin(self.project, self.wall, self.now)
        return self.day


def test_a_stair_of_nails_from_the_bottom_up() -> None:
    person = Person(sample("stair-wall"))
    order = []
    while person.day.phase == "nails":
        order.append(person.number())
        station = course(person.project, person.day).station(person.day.piece or "")
        assert station is not None
        for nail in range(station.points):
            assert person.day.point == nail
            person.does()
        assert person.day.point == station.points
        assert station.key not in person.project.up()
        person.does(after=60)
    assert order == [1, 2, 3, 4, 5]
    assert person.day == Day(person.wall, "done")
    assert person.project.up() == {piece.key for piece in person.project.pieces}
    # Seven holes: one hook, a nail, two rings, two keyholes, one hook.
    assert len(person.project.as_hung.holes) == 7


def test_a_piece_left_out_comes_last_and_looking_about_records_nothing() -> None:
    person = Person(sample("stair-wall"))
    before = person.project
    looked = []
    for event in ("next", "next", "back", "back", "back"):
        person.does(event)
        looked.append(person.number())
    assert looked == [2, 3, 2, 1, 1]
    assert person.project is before
    person.does("next")  # 2 first, 1 left out
    for expected in (3, 4, 5, 1):
        while person.number() != expected:
            person.does()
    assert person.project.up() == {piece.key for piece in person.project.pieces if piece.number != 1}


def through_stick(person: Person) -> None:
    while person.day.phase == "stick":
        person.does(after=60)


def test_strips_go_in_passes_with_one_hour_for_all() -> None:
    person = Person(sample("sofa-wall"))
    assert person.phase() == "stick"
    through_stick(person)
    assert person.phase() == "press"
    assert done_in(course(person.project, person.day), "stick") == 6
    assert person.project.up() == frozenset()  # on their frames only: nothing is on the wall yet
    presses = 0
    while person.day.phase == "press":
        person.does()  # begins to press
        assert press_left(person.day, course(person.project, person.day), person.now) == timedelta(seconds=30)
        person.does(after=30)
        presses += 1
    # 4 + 2 + 4 + 4 + 2 + 2 pairs on the six pieces of the sample.
    assert presses == 18
    assert person.day.phase == "wait"
    last = person.now
    made = course(person.project, person.day)
    assert made.last_pressed == last.replace(microsecond=0)
    assert (made.opens, made.strong) == (last + timedelta(hours=1), last + timedelta(hours=24))

    person.does(after=22 * 60)
    assert person.day.phase == "wait"
    assert "38 min" in person.said
    assert person.restarts(after=10 * 60).phase == "wait"  # closed in the middle of the hour
    assert wait_left(course(person.project, person.day), person.now) == timedelta(minutes=28)
    assert not calls(person.day, course(person.project, person.day), last, person.now)
    person.does(after=28 * 60 - 1)
    assert person.day.phase == "wait"
    before, person.now = person.now, person.now + timedelta(seconds=1)
    assert calls(person.day, course(person.project, person.day), before, person.now)
    person.does()
    assert person.phase() == "hang"
    hung = 0
    while person.phase() == "hang":
        person.does(after=30)
        hung += 1
    assert (hung, person.phase()) == (6, "done")
    assert len(person.project.up()) == 6
    assert person.project.as_hung.holes == ()
    # When they were pressed stays known: a day before more weight.
    assert course(person.project, person.day).strong == last + timedelta(hours=24)


def test_a_press_is_never_ended_early_without_a_word() -> None:
    person = Person(sample("sofa-wall"))
    through_stick(person)
    person.does()
    held = person.day
    person.does(after=12)
    assert person.day == held
    assert "18 s" in person.said
    person.does("again", after=5)  # thirty seconds anew
    assert press_left(person.day, course(person.project, person.day), person.now) == timedelta(seconds=30)
    assert person.does(after=29).point == 0
    before, now = person.now, person.now + timedelta(seconds=1)
    assert calls(person.day, course(person.project, person.day), before, now)
    assert person.does(after=1).point == 1
    assert person.day.press_began is None
    assert person.does("again").point == 0  # the pair before once more
    assert person.day.press_began == person.now


def test_a_restart_between_presses_comes_back_to_the_piece_in_hand() -> None:
    person = Person(sample("sofa-wall"))
    through_stick(person)
    first = person.number()
    station = course(person.project, person.day).station(person.day.piece or "")
    assert station is not None
    for _ in range(station.points):
        person.does()
        person.does(after=30)
    second = person.number()
    assert second != first
    person.does()
    person.restarts(after=3600)
    assert (person.day.phase, person.number(), person.day.point) == ("press", second, 0)


def test_the_packet_decides_how_long() -> None:
    project = sample("sofa-wall")
    changed = (
        CatalogueChange(entry="strips-medium", field="press_s", value=45.0),
        CatalogueChange(entry="strips-large", field="wait_min", value=90.0),
    )
    notes = msgspec.structs.replace(project.catalogue, changed=changed)
    made = course_of(msgspec.structs.replace(project, catalogue=notes), project.walls[0].key)
    # The longest of what the classes used say.
    assert (made.press, made.wait) == (timedelta(seconds=45), timedelta(minutes=90))


def test_back_from_the_hour_goes_to_the_last_press() -> None:
    person = Person(sample("sofa-wall"))
    through_stick(person)
    while person.day.phase == "press":
        person.does()
        person.does(after=30)
    person.does("back")
    strips = stations(course(person.project, person.day), "press")
    assert (person.day.phase, person.day.piece) == ("press", strips[-1].key)
    assert person.does("next") == person.day


def test_numbers_are_those_of_the_paper_and_checks_those_of_the_wall() -> None:
    project = sample("sofa-wall")
    made = course_of(project, project.walls[0].key)
    low_tide = next(one for one in made.strips if one.number == 1)
    # Lower left corner 1 094, 1 343; 405 × 507; medium strips 16 × 70, 4 mm in (flat 24, its middle): the upper
    # left one's middle lies 4 + 8 = 12 in and 5 + 35 = 40 down: 1 106 and 1 343 + 507 − 40 = 1 810.
    upper = max(low_tide.pairs, key=lambda mark: (float(mark.above_floor.replace("\u00a0", "")), -1))
    assert upper.above_floor.replace("\u00a0", "") == "1810"
    assert "1106" in {mark.from_side.replace("\u00a0", "") for mark in low_tide.pairs}
    # 50 mm between all pieces of the sample.
    assert set(low_tide.checks) == {"50 to the left of 4", "50 above 2"}


def test_an_empty_wall_is_done_at_once() -> None:
    project = sample("empty-wall")
    assert begin(project, project.walls[0].key, START).phase == "done"


def test_where_a_piece_really_hangs_moves_its_holes_and_the_plan_may_follow() -> None:
    person = Person(sample("stair-wall"))
    for _ in range(5):
        person.does()
    key = next(piece.key for piece in person.project.pieces if piece.number == 1)
    (planned,) = planned_points(person.project, key)
    off = record_measured(person.project, key, [(planned[0] + 2, planned[1] - 4)], instant(START)).run(person.project)
    before, after = (next(hole for hole in one.as_hung.holes if hole.piece == key) for one in (person.project, off))
    assert (after.x - before.x, after.y - before.y) == (2, -4)
    assert len(off.as_hung.holes) == len(person.project.as_hung.holes)
    follows = follow_the_wall(off, key).run(off)
    place, old = follows.placement_by_piece[key], off.placement_by_piece[key]
    assert (place.left - old.left, place.bottom - old.bottom) == (2, -4)


def test_nails_measured_on_the_wall_become_points() -> None:
    # Piece 3 of the stair: nails planned at 1 965 and 2 325 from the left corner, 2 634 and 2 631 above the floor
    # (two slim hooks, 15 from seat to nail), the level line at 1 450.
    project = sample("stair-wall")
    key = next(piece.key for piece in project.pieces if piece.number == 3)
    planned = planned_points(project, key)
    (left, right) = points_measured(project, key, [(1967.0, 1183.0), (None, None)], from_level=True)
    assert left == pytest.approx((1967, 1450 + 1183 - 15))
    assert right == planned[1]
    ((_, low), _) = points_measured(project, key, [(None, 2630.0), (None, None)], from_level=False)
    assert low == pytest.approx(2630 - 15)
    with pytest.raises(EditRefused):
        points_measured(project, key, [(None, None)], from_level=True)


def test_a_tape_tells_no_more_than_its_own_error() -> None:
    # Class II over 6 m, from its hook: 0.3 + 6 · 0.2 + 0.2 = 1.7 mm.
    found = deviation([(6000, 0)], [(6001.6, 0)])
    assert verdict(found, 300, figures_of(sample("stair-wall")), 6000) == "Good: nobody sees that."
    assert "right" in verdict(found, 300, figures_of(sample("stair-wall")), 1000)


def test_records_that_cannot_be_are_refused() -> None:
    project = sample("stair-wall")
    key = project.pieces[0].key
    for edit in (record_stuck(project, key, instant(START)), record_measured(project, key, [(0, 0)], instant(START))):
        with pytest.raises(EditRefused):
            edit.run(project)
    sofa = sample("sofa-wall")
    lying = next(piece.key for piece in sofa.pieces if piece.key not in sofa.placement_by_piece)
    with pytest.raises(EditRefused):
        record_pressed(sofa, lying, instant(START)).run(sofa)


def test_pressed_pieces_hold_their_place_and_are_hung_once() -> None:
    project = sample("sofa-wall")
    key = project.pieces[0].key
    stuck = record_stuck(project, key, instant(START)).run(project)
    assert key not in stuck.up()
    pressed = record_pressed(stuck, key, instant(START)).run(stuck)
    assert key in pressed.up()
    hung = record_hung(pressed, key, instant(START + timedelta(hours=1))).run(pressed)
    (record,) = hung.as_hung.items
    assert record.strips is not None
    assert (record.strips.reached, record.strips.pressed) == ("hung", instant(START))
    assert moment(record.when) == START + timedelta(hours=1)


@pytest.mark.parametrize(
    ("measured", "says"),
    # Two points 300 apart. 0.3° is 1.57 mm, 0.6° 3.14 mm: the limits of levelling and of what is seen.
    [
        ([(0, 0), (300, 0)], "Good."),
        ([(1.4, 1), (301.4, 1)], "Good: nobody sees that."),
        ([(0, 2), (300, 0)], "Its left point is 2 too high against the right one. Few people see it."),
        ([(0, 0), (300, 4)], "Its right point is 4 too high against the left one. That is seen."),
        ([(0, -4), (300, -4)], "It hangs 4 too low."),
        ([(0, 3), (300, 3)], "It hangs 3 too high."),
        ([(2, 0), (302, 0)], "It hangs 2 too far right."),
        ([(-2.5, 0), (297.5, 0)], "It hangs 2.5 too far left."),
    ],
)
def test_what_is_said_of_a_measured_piece(measured: list[tuple[float, float]], says: str) -> None:
    found = deviation([(0, 0), (300, 0)], measured)
    assert verdict(found, 300, figures_of(sample("stair-wall"))) == says


@pytest.mark.parametrize("name", ["stair-wall", "sofa-wall"])
def test_every_complaint_has_a_cure(name: str) -> None:
    for piece in sample(name).pieces:
        for complaint in ("crooked", "too-low", "too-high", "leans", "loose"):
            tried = cures(hang(piece), complaint)
            assert tried
            assert all(sentence.endswith(".") for sentence in tried)
