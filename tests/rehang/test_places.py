"""Places for pieces that come later, on walls small enough to work out by hand."""

import itertools
import random

import msgspec
import pytest

from composer.geometry.rectangle import Rectangle
from composer.model import Obstacle, Project
from composer.rehang.hunting import hunted_places
from composer.rehang.places import Surroundings, frames_that_fit, free_places, holes_in_group, sizes_at
from tests.rehang.walls import mm, nail, wall_of

FOUR = {1: (1000.0, 1300.0), 2: (1350.0, 1300.0), 3: (1000.0, 1000.0), 4: (1700.0, 1000.0)}
"""Frames 300 × 250, gap 50: an upper row of two, a lower row with its middle and the upper right empty."""


def four(**more: object) -> Project:
    pieces = [nail(n, 300, 250, 20) for n in range(1, 5)]
    return msgspec.structs.replace(wall_of(pieces, FOUR), **more)


def test_a_piece_of_the_same_size_goes_into_the_holes_first() -> None:
    """By hand: the lower middle (1350, 1000) is one gap from 2, 3 and 4; the upper right (1700, 1300) from 2 and 4."""
    project = four()
    places = free_places(project, project.walls[0], project.arrangement, (300.0, 250.0))
    assert places[0].place == Rectangle.at(1350, 1000, 300, 250)
    assert places[0].gaps == (2, 3, 4)
    assert places[0].grows_mm2 == 0
    assert places[1].place == Rectangle.at(1700, 1300, 300, 250)
    assert places[1].gaps == (2, 4)


def test_every_place_is_free_one_gap_from_a_neighbour_and_in_line() -> None:
    project = four()
    for size in ((300.0, 250.0), (200.0, 150.0), (420.0, 310.0)):
        places = free_places(project, project.walls[0], project.arrangement, size, 12)
        assert places
        for one in places:
            others = [Rectangle.at(*FOUR[n], 300, 250) for n in FOUR]
            away = [max(-across, -up) for across, up in (one.place.overlap(other) for other in others)]
            assert min(away) == pytest.approx(50), "nothing nearer than the gap, and something just there"
            assert one.lines


def test_walls_ends_and_obstacles_keep_pieces_away() -> None:
    sofa = Obstacle(key="o905", kind="sofa", left=900.0, bottom=0.0, width=mm(1200), height=mm(800), margin=mm(150))
    project = four()
    wall = msgspec.structs.replace(project.walls[0], obstacles=(sofa,), height=mm(1600))
    small = msgspec.structs.replace(project, walls=(wall,))
    for one in free_places(small, wall, small.arrangement, (300.0, 250.0), 30):
        assert one.place.top <= 1600 + 1e-6
        assert not one.place.meets(Rectangle(750, 0, 2250, 950))


def test_the_largest_that_fits_a_hole() -> None:
    """By hand: between 3 and 4, below 2: 1350 to 1650 across; from the group's lower edge 1000 to 1250."""
    project = four()
    found = sizes_at(project, project.walls[0], project.arrangement, 1500.0, 1100.0)
    assert found[0] == Rectangle(1350, 1000, 1650, 1250)
    assert sizes_at(project, project.walls[0], project.arrangement, 1100.0, 1400.0) == (), "piece 1 hangs there"


def test_holes_of_a_group() -> None:
    """By hand: the upper right is 1700 to 2000 across and 1300 to 1550 up; the lower middle as above."""
    project = four()
    around = Surroundings(project, project.walls[0], project.arrangement)
    assert set(holes_in_group(around)) == {Rectangle(1700, 1300, 2000, 1550), Rectangle(1350, 1000, 1650, 1250)}


def test_frames_on_the_floor_that_fit_a_place() -> None:
    pieces = [nail(n, 300, 250, 20) for n in range(1, 5)]
    pieces += [nail(5, 290, 240, 20), nail(6, 240, 300, 20), nail(7, 310, 200, 20)]
    project = wall_of(pieces, FOUR)
    fitting = frames_that_fit(project, project.arrangement, Rectangle.at(1350, 1000, 300, 250))
    assert [(one.piece.number, one.turned) for one in fitting] == [(6, True), (5, False)]
    assert fitting[0].spare_mm == (0, 10)


def test_what_to_look_for_second_hand() -> None:
    """By hand: piece 2 is not owned. Without it there is room from 1350 to 2000 across in the upper row, 1300 to 1550
    up, or the column 1350 to 1650 from 1000 to 1550; of each no more than 1.5 times the planned 300 × 250.

    So 450 × 250 or 300 × 375: 112 500 mm² each; the lower one is taken. A frame of two thirds is the least.
    """
    pieces = [nail(n, 300, 250, 20) for n in range(1, 5)]
    pieces[1] = msgspec.structs.replace(pieces[1], owned=False)
    project = wall_of(pieces, FOUR)
    places = hunted_places(project, project.walls[0], project.arrangement)
    assert places[0].number == 2
    assert places[0].place == Rectangle(1350, 1175, 1650, 1550)
    assert places[0].least_mm == pytest.approx((200, 250))
    assert places[0].takes(300, 250)
    assert not places[0].takes(301, 300)
    assert not places[0].takes(190, 300)
    # The upper right is a place of its own; the lower middle overlaps the place of 2, gap and all.
    assert [(one.number, one.place) for one in places[1:]] == [(None, Rectangle(1700, 1300, 2000, 1550))]


def test_holes_of_a_group_against_trying_every_rectangle() -> None:
    """Random groups: no rectangle between any four edges is free, within limits and larger than the first hole."""
    for seed in range(8):
        luck = random.Random(seed)
        places = {
            n: (float(luck.randrange(0, 2400, 50)), float(luck.randrange(300, 1700, 50)))
            for n in range(1, luck.randint(4, 7))
        }
        pieces = [nail(n, luck.choice([200, 300, 450]), luck.choice([200, 250, 400]), 20) for n in places]
        project = wall_of(pieces, places)
        around = Surroundings(project, project.walls[0], project.arrangement)
        group = around.group
        assert group is not None
        xs = sorted({group.left, group.right, *(x for one in around.blocked for x in (one.left, one.right))})
        ys = sorted({group.bottom, group.top, *(y for one in around.blocked for y in (one.bottom, one.top))})
        best = 0.0
        for left, right in itertools.combinations([x for x in xs if group.left <= x <= group.right], 2):
            for bottom, top in itertools.combinations([y for y in ys if group.bottom <= y <= group.top], 2):
                place = Rectangle(left, bottom, right, top)
                short, long = sorted((place.width, place.height))
                if short >= 150 and long <= 3 * short and not any(place.meets(other) for other in around.blocked):
                    best = max(best, place.width * place.height)
        found = holes_in_group(around)
        largest = max((one.width * one.height for one in found), default=0.0)
        # A hole cannot grow; a smaller part of a long one may still be within the limits of shape.
        assert largest <= best + 1e-6
        for one in found:
            assert around.is_free(one)
            assert not any(one.meets(other) for other in found if other is not one)
            for grown in (
                Rectangle(one.left - 1, one.bottom, one.right, one.top),
                Rectangle(one.left, one.bottom - 1, one.right, one.top),
                Rectangle(one.left, one.bottom, one.right + 1, one.top),
                Rectangle(one.left, one.bottom, one.right, one.top + 1),
            ):
                beyond = grown.left < group.left or grown.right > group.right
                beyond = beyond or grown.bottom < group.bottom or grown.top > group.top
                assert beyond or not around.is_free(grown), "it could grow"
