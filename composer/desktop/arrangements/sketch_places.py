"""Where the pieces of a sketch would hang, as cells draw them and as the project knows them."""

from __future__ import annotations

from collections.abc import Mapping

from composer.arranging.sketches import Sketch
from composer.arranging.task import Task, box_around
from composer.desktop.arrangements.sketch_cell import SketchCell
from composer.desktop.arrangements.small_wall import Drawn, PictureOf
from composer.geometry.rectangle import Rectangle
from composer.model import Key, Project
from composer.texts import say

SAME_MM = 0.01


def cell_of(letter: str, sketch: Sketch, task: Task, project: Project, wall: Key, picture_of: PictureOf) -> SketchCell:
    """A cell with the pieces that would move and those of the wall that stay."""
    record = project.wall_by_key[wall]
    known, placed = project.piece_by_number, project.placement_by_piece
    moved = zip((size.number for size in task.sizes), sketch.found.layout, strict=True)
    pieces = [
        Drawn(known[number], box, turned=(at := placed.get(known[number].key)) is not None and at.turned)
        for number, box in (*moved, *task.still)
        if number in known
    ]
    return SketchCell(
        letter, sketch, record, pieces, float(project.eye_line(record).mm), where_words(task, sketch), picture_of
    )


def places_in(sketch: Sketch, task: Task, project: Project) -> dict[Key, Rectangle]:
    """Where each piece that would move would hang, mm."""
    known = project.piece_by_number
    return {
        known[size.number].key: box
        for size, box in zip(task.sizes, sketch.found.layout, strict=True)
        if size.number in known
    }


def hang_so(places: Mapping[Key, Rectangle], project: Project, wall: Key) -> bool:
    """Whether all of them hang just there."""
    placed = project.placement_by_piece
    return all(
        (at := placed.get(key)) is not None
        and at.wall == wall
        and abs(at.left - box.left) <= SAME_MM
        and abs(at.bottom - box.bottom) <= SAME_MM
        for key, box in places.items()
    )


def where_words(task: Task, sketch: Sketch) -> str:
    """How high it would hang, in one sentence."""
    box = box_around(sketch.found.layout)
    if task.furniture is not None and box.bottom >= task.furniture.top:
        return say("{length} above the furniture.", length=task.shown(box.bottom - task.furniture.top))
    return say("Its middle {length} above the floor.", length=task.shown(box.centre[1]))
