"""What a reader is told about things in the room: which one, how large, where; the same words everywhere."""

from __future__ import annotations

from collections.abc import Sequence

from composer.catalogue.names import obstacle_name
from composer.desktop.units_shown import number
from composer.geometry.rectangle import Rectangle
from composer.model import Key, Obstacle, Piece, Project
from composer.texts import say, say_many


def names_of(keys: Sequence[Key], project: Project) -> str:
    """One piece by number and name, several by how many they are."""
    if len(keys) == 1:
        piece = project.piece_by_key[keys[0]]
        return say("{number} {name}", number=piece.number, name=piece.name)
    return say_many("{count} piece", "{count} pieces", len(keys))


def place_of_piece(piece: Piece, box: Rectangle, project: Project) -> str:
    """Where a piece is: on the floor, or how far from the left and from the floor."""
    if box.centre[1] <= 0:
        return say("{number} {name}, on the floor", number=piece.number, name=piece.name)
    style = project.length_style
    return say(
        "{number} {name}, {left} from the left, {bottom} from the floor",
        number=piece.number,
        name=piece.name,
        left=number(box.left, style),
        bottom=number(box.bottom, style),
    )


def place_of_several(count: int, box: Rectangle, project: Project) -> str:
    """Where several pieces are together."""
    style = project.length_style
    return say(
        "{count} pieces, from {left} to {right} from the left, from {bottom} to {top} from the floor",
        count=count,
        left=number(box.left, style),
        right=number(box.right, style),
        bottom=number(box.bottom, style),
        top=number(box.top, style),
    )


def place_of_obstacle(obstacle: Obstacle, box: Rectangle, project: Project) -> str:
    """Where an obstacle stands and how large it is."""
    style = project.length_style
    return say(
        "{name}, {width} by {height}, {left} from the left, {bottom} from the floor",
        name=obstacle_name(obstacle.kind, obstacle.name),
        width=number(box.width, style),
        height=number(box.height, style),
        left=number(box.left, style),
        bottom=number(box.bottom, style),
    )


def size_of_piece(box: Rectangle, project: Project) -> str:
    """Width by height as it hangs."""
    style = project.length_style
    return say("{width} by {height}", width=number(box.width, style), height=number(box.height, style))
