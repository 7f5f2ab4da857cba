"""What is up on a wall now, from the records of what was hung: where each piece is, and every hole."""

from dataclasses import dataclass

from composer.catalogue.catalogue import Catalogue
from composer.geometry.rectangle import Rectangle
from composer.hanging.points import hang
from composer.model import HoleRecord, HungPiece, Piece, Placement, Project, Wall

AS_MEASURED_MM = 3.0
"""Points of a piece that hangs a quarter turned agree with its measures to this much."""


@dataclass(frozen=True, slots=True)
class OldHole:
    """A hole that can be used again; ``index`` counts the project's records of holes."""

    index: int
    record: HoleRecord

    @property
    def at(self) -> tuple[float, float]:
        """Where it is, wall mm."""
        return self.record.x, self.record.y


@dataclass(frozen=True, slots=True)
class UpNow:
    """A piece that hangs on the wall.

    Attributes:
        place: its outside, wall mm; None where the record holds no point and no arrangement helps.
        turned: hung a quarter turned.
        holes: indices of the records of holes it hangs on.
    """

    piece: Piece
    record: HungPiece
    place: Rectangle | None
    turned: bool
    holes: tuple[int, ...]


def old_holes(project: Project, wall: Wall) -> tuple[OldHole, ...]:
    """Holes of a wall that are not filled; a filled hole does not hold again."""
    return tuple(
        OldHole(index, record)
        for index, record in enumerate(project.as_hung.holes)
        if record.wall == wall.key and record.state != "filled"
    )


def up_on(project: Project, wall: Wall, catalogue: Catalogue) -> tuple[UpNow, ...]:
    """Pieces that hang on a wall, by number."""
    found = []
    for record in project.as_hung.items:
        if record.wall != wall.key or record.down is not None:
            continue
        if record.strips is not None and record.strips.reached == "stuck":
            continue  # strips on the frame alone: nothing is on the wall yet
        piece = project.piece_by_key[record.piece]
        planned = _planned(project, record)
        turned = _turned(piece, record, planned, catalogue)
        holes = tuple(
            index
            for index, hole in enumerate(project.as_hung.holes)
            if hole.piece == piece.key and hole.wall == wall.key and hole.state == "in-use"
        )
        found.append(UpNow(piece, record, _place(piece, record, planned, turned, catalogue), turned, holes))
    return tuple(sorted(found, key=lambda up: up.piece.number))


def _planned(project: Project, record: HungPiece) -> list[Placement]:
    """Where arrangements have the piece on that wall, the current one first."""
    ordered = [project.arrangement, *(one for one in project.arrangements if one is not project.arrangement)]
    places = [one.placement_of(record.piece) for one in ordered]
    return [place for place in places if place is not None and place.wall == record.wall]


def _turned(piece: Piece, record: HungPiece, planned: list[Placement], catalogue: Catalogue) -> bool:
    """Whether it hangs turned: as the points say, else as it is planned."""
    ways = [turned for turned in (False, True) if _points_fit(piece, record, turned, catalogue)]
    if len(ways) == 1:
        return ways[0]
    return bool(planned and planned[0].turned)


def _points_fit(piece: Piece, record: HungPiece, turned: bool, catalogue: Catalogue) -> bool:
    points = hang(piece, turned=turned, catalogue=catalogue).points
    if len(points) != len(record.points) or not points:
        return False
    (x, y), first = record.points[0], points[0]
    return all(
        abs((px - x) - (point.x - first.x)) <= AS_MEASURED_MM and abs((py - y) - (point.y - first.y)) <= AS_MEASURED_MM
        for (px, py), point in zip(record.points, points, strict=True)
    )


def _place(
    piece: Piece, record: HungPiece, planned: list[Placement], turned: bool, catalogue: Catalogue
) -> Rectangle | None:
    """Its outside: from the points as measured on the wall, averaged; else as planned."""
    size = piece.size_mm(turned=turned)
    points = hang(piece, turned=turned, catalogue=catalogue).points
    if points and len(points) == len(record.points):
        offs = [(x - point.x, y - point.y) for (x, y), point in zip(record.points, points, strict=True)]
        left, bottom = (sum(off[axis] for off in offs) / len(offs) for axis in (0, 1))
        return Rectangle.at(left, bottom, *size)
    return Rectangle.at(planned[0].left, planned[0].bottom, *size) if planned else None
