"""Walls to try arranging on: a plain one, one with a sofa, one under a slope above a stair with everything on it."""

from composer.arranging.room import Room
from composer.arranging.task import Size, Task
from composer.geometry.rectangle import Rectangle
from tests.arranging.frame_sets import frame_set

PLAIN = Room(((0.0, 0.0), (4200.0, 0.0), (4200.0, 2500.0), (0.0, 2500.0)))
BIG = Room(((0.0, 0.0), (9000.0, 0.0), (9000.0, 6000.0), (0.0, 6000.0)))

SOFA_BOX = Rectangle(750, 0, 2850, 850)
SOFA = Room(
    ((0.0, 0.0), (3600.0, 0.0), (3600.0, 2500.0), (0.0, 2500.0)),
    0.0,
    (SOFA_BOX.grown(150), Rectangle(3430, 1050, 3510, 1130).grown(100)),
)

# Ceiling slopes down on the left, a stair climbs on the right; sofa, switch, thermostat, door, margins included.
OBSTRUCTED = Room(
    ((0.0, 0.0), (3000.0, 0.0), (4200.0, 840.0), (4200.0, 2500.0), (900.0, 2500.0), (0.0, 1900.0)),
    0.0,
    (
        Rectangle(950, 0, 2450, 800).grown(100),
        Rectangle(2890, 1050, 2970, 1130).grown(60),
        Rectangle(2890, 1400, 2990, 1500).grown(60),
        Rectangle(0, 0, 700, 1750).grown(50),
    ),
)
OBSTRUCTED_SOFA = Rectangle(950, 0, 2450, 800)


def sizes_of(*sides: tuple[float, float]) -> tuple[Size, ...]:
    """Pieces of these widths and heights, mm, numbered from 1."""
    return tuple(Size(number, float(width), float(height)) for number, (width, height) in enumerate(sides, 1))


def plain(count: int, seed: int = 0) -> Task:
    """Made-up frames on the plain wall."""
    return Task(frame_set(count, seed), PLAIN, 50.0, 1450.0)


def big(count: int, seed: int = 0) -> Task:
    """Made-up frames on a wall that limits nothing."""
    return Task(frame_set(count, seed), BIG, 50.0, 3000.0)


def over_sofa(count: int, seed: int = 0) -> Task:
    """Made-up frames over a sofa."""
    return Task(frame_set(count, seed), SOFA, 50.0, 1450.0, furniture=SOFA_BOX)


def obstructed(sizes: tuple[Size, ...]) -> Task:
    """Frames on the wall with everything in the way."""
    return Task(sizes, OBSTRUCTED, 50.0, 1450.0, furniture=OBSTRUCTED_SOFA)
