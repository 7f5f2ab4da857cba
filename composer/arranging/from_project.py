"""A task made from a project: which pieces, which stay, what is kept free, where the group belongs."""

from collections.abc import Collection

from composer.arranging.quality import Quality, quality_of
from composer.arranging.room import Room
from composer.arranging.task import Size, Still, Task, box_around
from composer.arranging.true_up import Hung
from composer.catalogue import catalogue as catalogues
from composer.geometry.rectangle import Rectangle
from composer.model import Key, Obstacle, Project, Wall
from composer.units import LengthStyle

FURNITURE_LEAST_MM = 900.0
"""Narrower things, a chair or a side table, are stepped around; no group is centred over them (judgement)."""

FURNITURE = ("sofa", "bed", "table", "seat")
"""What a group hangs over; nothing is hung over a cot on purpose."""


def task_of(
    project: Project,
    wall: Key,
    *,
    pieces: Collection[Key] | None = None,
    keep: Collection[Key] = (),
    move_hung: bool = False,
    gap_mm: float | None = None,
    eye_line_mm: float | None = None,
    above_mm: float | None = None,
    width_mm: float | None = None,
) -> Task:
    """What the current arrangement asks for on one wall.

    Args:
        project: with its current arrangement.
        wall: key of the wall.
        pieces: which are to be hung; None = all on the floor and all of this wall.
        keep: pieces of this wall that stay where they are, beside those that are locked.
        move_hung: pieces recorded as up may move too.
        gap_mm, eye_line_mm: None = the arrangement's gap, the wall's eye line.
        above_mm: wanted from the furniture up to the lowest frame.
        width_mm: wanted width of the group.
    """
    record = project.wall_by_key[wall]
    up = frozenset() if move_hung else project.up()
    sizes: list[Size] = []
    still: list[Still] = []
    for piece in sorted(project.pieces, key=lambda one: one.number):
        placed = project.placement_by_piece.get(piece.key)
        width, height = piece.size_mm(turned=placed is not None and placed.turned)
        if placed is not None and placed.wall != wall:
            continue
        chosen = pieces is None or piece.key in pieces
        stays = placed is not None and (placed.locked or piece.key in up or piece.key in keep or not chosen)
        if placed is not None and stays:
            still.append(Still(piece.number, Rectangle.at(placed.left, placed.bottom, width, height)))
        elif chosen:
            sizes.append(Size(piece.number, width, height))
    return Task(
        sizes=tuple(sizes),
        room=room_of(project, record),
        gap=float(project.arrangement.gap.mm) if gap_mm is None else gap_mm,
        eye_line=float(project.eye_line(record).mm) if eye_line_mm is None else eye_line_mm,
        still=tuple(still),
        furniture=furniture_of(record),
        above=above_mm,
        width=width_mm,
        nosing=record.nosing,
        style=LengthStyle("mm", decimals=0) if project.units == "metric" else LengthStyle("in", project.fraction),
    )


def hung_of(project: Project, wall: Key, arrangement: Key | None = None) -> list[Hung]:
    """The pieces of one wall by number, as truing up and the group card take them.

    Locked pieces and, in the current arrangement, those recorded as up are fixed.
    """
    chosen = project.arrangement if arrangement is None else project.arrangement_by_key[arrangement]
    up = project.up() if chosen is project.arrangement else frozenset()
    return [
        Hung(
            piece.number,
            Rectangle.at(placed.left, placed.bottom, *piece.size_mm(turned=placed.turned)),
            placed.locked or piece.key in up,
        )
        for piece, placed in project.hung_on(wall, chosen)
    ]


def quality_on(
    project: Project, wall: Key, arrangement: Key | None = None, *, pieces: Collection[Key] | None = None
) -> Quality | None:
    """What may be said of the pieces of one wall, or of some of them, in any arrangement; None without any."""
    chosen = project.arrangement if arrangement is None else project.arrangement_by_key[arrangement]
    record = project.wall_by_key[wall]
    numbers = None if pieces is None else {project.piece_by_key[key].number for key in pieces}
    hung = [one for one in hung_of(project, wall, chosen.key) if numbers is None or one.number in numbers]
    return quality_of(
        hung,
        float(chosen.gap.mm),
        _eye_line_under(project, record, hung),
        furniture=furniture_of(record),
        style=project.length_style,
    )


def _eye_line_under(project: Project, wall: Wall, hung: list[Hung]) -> float:
    """The eye line where a group hangs: above the floor, along a stair above its nosings, mm."""
    eye_line = float(project.eye_line(wall).mm)
    if wall.nosing is None or not hung:
        return eye_line
    (x1, y1), (x2, y2) = wall.nosing
    return y1 + (y2 - y1) * (box_around(one.box for one in hung).centre[0] - x1) / (x2 - x1) + eye_line


def room_of(project: Project, wall: Wall) -> Room:
    """The free part of a wall: obstacles with their margins, the margin along its edges."""
    known = catalogues.of(project.catalogue)
    return Room(
        corners=tuple((float(x), float(y)) for x, y in wall.corners),
        edge_margin=0.0 if wall.edge_margin is None else float(wall.edge_margin.mm),
        keep_outs=tuple(
            _box(obstacle).grown(
                float(known.margin_mm(obstacle.kind) if obstacle.margin is None else obstacle.margin.mm)
            )
            for obstacle in wall.obstacles
        ),
    )


def furniture_of(wall: Wall) -> Rectangle | None:
    """The widest piece of furniture of 90 cm or more that ends below half the wall's height, or None."""
    found = [
        _box(obstacle)
        for obstacle in wall.obstacles
        if obstacle.kind in FURNITURE
        and float(obstacle.width.mm) >= FURNITURE_LEAST_MM
        and obstacle.bottom + float(obstacle.height.mm) < float(wall.height.mm) / 2
    ]
    return max(found, key=lambda box: (box.width, -box.left), default=None)


def _box(obstacle: Obstacle) -> Rectangle:
    return Rectangle.at(obstacle.left, obstacle.bottom, float(obstacle.width.mm), float(obstacle.height.mm))
