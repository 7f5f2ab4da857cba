"""What a person notes from the ladder: where a piece really hangs, and the wait their packet asks for."""

from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple

from composer.catalogue import catalogue as catalogues
from composer.editing.catalogue_edits import type_over
from composer.editing.edits import Edit, piece_of, what
from composer.editing.rehang_edits import record_up
from composer.hanging.points import hang
from composer.hangingday.course import instant
from composer.hangingday.cures import deviation, verdict
from composer.hangingday.records import planned_points, points_measured, record_hung, record_measured
from composer.model import Key, Project
from composer.paper.figures import figures_of
from composer.paper.template_subject import datum_of
from composer.texts import say


class Spot(NamedTuple):
    """A place to be measured: a hole, or the lower left corner of a piece without.

    Attributes:
        distance_mm: as planned, the way the wall's datum takes it.
        height_mm: as planned, from the level line, up is positive.
    """

    distance_mm: float
    height_mm: float


Measured = Sequence[tuple[float | None, float | None]]
"""Of each spot its distance and its height, mm; None where it was not measured."""


def spots(project: Project, key: Key) -> tuple[Spot, ...]:
    """What can be measured of a piece that hangs: each hole, else its lower left corner.

    Raises:
        EditRefused: it is gone.
        KeyError: it lies on the floor.
    """
    piece, placement = piece_of(project, key), project.placement_by_piece[key]
    datum = datum_of(project, project.wall_by_key[placement.wall])
    hanging = hang(piece, turned=placement.turned, catalogue=catalogues.of(project.catalogue))
    places = [(float(hole.x), float(hole.y)) for hole in hanging.holes] or [(0.0, 0.0)]

    def spot(x: float, y: float) -> Spot:
        across = placement.left + x
        away = datum.side_x - across if datum.side == "right" else across - datum.side_x
        return Spot(away, placement.bottom + y - datum.level_line)

    return tuple(spot(x, y) for x, y in places)


def real_points(project: Project, key: Key, measured: Measured) -> tuple[tuple[float, float], ...]:
    """Hanging points by what was measured, wall mm; what was not measured is as planned.

    Raises:
        EditRefused: the piece lies on the floor, or has another number of spots.
    """
    placement = project.placement_by_piece.get(key)
    piece = piece_of(project, key)
    known = catalogues.of(project.catalogue)
    if placement is not None and hang(piece, turned=placement.turned, catalogue=known).holes:
        return points_measured(project, key, measured, from_level=True)
    planned = planned_points(project, key)
    (meant,) = spots(project, key)
    distance, height = measured[0]
    assert placement is not None
    right = project.wall_by_key[placement.wall].datum.side == "right"
    dx = 0.0 if distance is None else (meant.distance_mm - distance if right else distance - meant.distance_mm)
    dy = 0.0 if height is None else height - meant.height_mm
    return tuple((x + dx, y + dy) for x, y in planned)


def note_measured(project: Project, key: Key, measured: Measured, now: datetime) -> Edit:
    """Where a piece really hangs; one that was not recorded as up yet is so from now on.

    Raises:
        EditRefused: the piece lies on the floor, or has another number of spots.
    """
    points, when = real_points(project, key, measured), instant(now)
    record = next((one for one in project.as_hung.items if one.piece == key and one.down is None), None)
    on_strips = record is not None and record.strips is not None
    if record is None:
        made = record_up(project, (key,), when, {key: points})
    elif on_strips and record.strips is not None and record.strips.reached != "hung":
        first, then = record_hung(project, key, when), record_measured(project, key, points, when)
        made = Edit("", lambda current: then.run(first.run(current)))
    else:
        made = record_measured(project, key, points, when)
    return Edit(say("Note where {pieces} hangs", pieces=what(project, (key,))), made.run)


def says_of(project: Project, key: Key, measured: Measured) -> str:
    """One sentence about what was measured: good, or what is off and whether it is seen.

    Raises:
        EditRefused: see :func:`real_points`.
    """
    planned = planned_points(project, key)
    found = deviation(planned, real_points(project, key, measured))
    spacing = abs(planned[-1][0] - planned[0][0]) if len(planned) == 2 else 0.0
    reach = max(abs(spot.distance_mm) for spot in spots(project, key))
    return verdict(found, spacing, figures_of(project), reach)


def change_wait(project: Project, keys: Sequence[Key], minutes: float) -> Edit:
    """Another wait before hanging on strips, as the packets of these pieces' strips say.

    Raises (when run):
        EditRefused: a wait that cannot be.
    """
    known = catalogues.of(project.catalogue)
    sizes = set()
    for key in keys:
        placement = project.placement_by_piece.get(key)
        turned = placement is not None and placement.turned
        plan = hang(piece_of(project, key), turned=turned, catalogue=known).strips
        if plan is not None:
            sizes.add(plan.size)
    edits = [type_over(known.strip_classes[size].entry, "wait_min", minutes) for size in sorted(sizes)]

    def run(current: Project) -> Project:
        for edit in edits:
            current = edit.run(current)
        return current

    return Edit(say("Change the wait of strips"), run)
