"""Where a piece could go, and which frames a place takes; nothing here knows Qt."""

from __future__ import annotations

from dataclasses import dataclass

from composer.costing.shown import show_numbers
from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Key, Piece, Project, Wall
from composer.rehang.places import FreePlace, frames_that_fit, free_places, sizes_at
from composer.texts import say

MOST_PLACES = 6
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
"""Free places have letters, because numbers belong to pieces."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place for one piece; ``turned``: hung a quarter turned."""

    place: Rectangle
    words: str
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Fitting:
    """A frame of the floor and where it would hang in a place."""

    piece: Piece
    spot: Spot
    spare_mm: tuple[float, float]


def spots_for(project: Project, wall: Key, piece: Piece) -> tuple[Spot, ...]:
    """Free places for a piece, the best first; turned only where there is none upright."""
    record, arrangement = project.wall_by_key[wall], project.arrangement
    for turned in (False, True):
        found = free_places(project, record, arrangement, piece.size_mm(turned=turned), MOST_PLACES)
        if found:
            return tuple(
                Spot(one.place, _words(LETTERS[number], one, turned=turned), turned) for number, one in enumerate(found)
            )
    return ()


def _words(letter: str, one: FreePlace, *, turned: bool) -> str:
    gaps, lines = show_numbers(one.gaps), show_numbers(one.lines)
    if turned:
        return say("{letter}, turned: one gap to {gaps}, in line with {lines}", letter=letter, gaps=gaps, lines=lines)
    return say("{letter}: one gap to {gaps}, in line with {lines}", letter=letter, gaps=gaps, lines=lines)


def place_at(project: Project, wall: Key, x: float, y: float) -> tuple[Rectangle, ...]:
    """The largest places around a point of a wall, which cannot grow; none where something hangs or stands."""
    return sizes_at(project, project.wall_by_key[wall], project.arrangement, x, y)


def fitting(project: Project, wall: Key, places: tuple[Rectangle, ...]) -> tuple[Fitting, ...]:
    """Which frames of the floor fit one of the places, those that fill it best first."""
    record, arrangement = project.wall_by_key[wall], project.arrangement
    found: dict[Key, Fitting] = {}
    for place in places:
        for one in frames_that_fit(project, arrangement, place):
            before = found.get(one.piece.key)
            if before is None or sum(one.spare_mm) < sum(before.spare_mm):
                spot = spot_within(project, record, arrangement, place, one.piece, turned=one.turned)
                found[one.piece.key] = Fitting(one.piece, spot, one.spare_mm)
    return tuple(sorted(found.values(), key=lambda one: (sum(one.spare_mm), one.piece.number)))


def spot_within(
    project: Project, wall: Wall, arrangement: Arrangement, place: Rectangle, piece: Piece, *, turned: bool
) -> Spot:
    """Where a piece hangs in a place: one gap from a neighbour and in line with one, else in its middle."""
    width, height = size = piece.size_mm(turned=turned)
    for one in free_places(project, wall, arrangement, size, most=40):
        box = one.place
        within = box.left >= place.left - 1e-6 and box.right <= place.right + 1e-6
        if within and box.bottom >= place.bottom - 1e-6 and box.top <= place.top + 1e-6:
            return Spot(box, "", turned)
    across, up = round(place.left + (place.width - width) / 2), round(place.bottom + (place.height - height) / 2)
    left = min(max(float(across), place.left), place.right - width)
    bottom = min(max(float(up), place.bottom), place.top - height)
    return Spot(Rectangle.at(left, bottom, width, height), "", turned)
