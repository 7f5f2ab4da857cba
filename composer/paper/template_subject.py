"""What full-size paper is about: pieces with their points, their place on the wall, and how numbers read."""

from collections.abc import Collection
from dataclasses import dataclass

from composer.catalogue import catalogue as catalogues
from composer.findings.cache import checked
from composer.geometry.rectangle import Rectangle
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.hanging.weight import PieceWeight, weight_of
from composer.model import Arrangement, Piece, Placement, Project, Wall
from composer.paper.figures import Figures, figures_of
from composer.paper.grid import Mark
from composer.paper.stops import Stop, stops_among
from composer.texts import say

CROSS_HALF_MM, RING_HALF_MM = 6.0, 4.0


@dataclass(frozen=True, slots=True)
class Datum:
    """Where the numbers of one hung piece are taken from, in wall millimetres.

    Attributes:
        side: left, right or plumb.
        side_x: the corner or plumb line distances are taken from.
        line: height of the level line heights are taken from; None = the floor.
        level_line: height of the wall's level line.
    """

    side: str
    side_x: float
    line: float | None
    level_line: float

    def height_words(self) -> str:
        """What heights are taken from."""
        return say("above floor") if self.line is None else say("from level line")

    def side_words(self) -> str:
        """What distances are taken from."""
        if self.side == "right":
            return say("from right corner")
        return say("from plumb line") if self.side == "plumb" else say("from left corner")

    def height(self, y: float, figures: Figures) -> str:
        """A height as read on the day."""
        return figures.bare(y) if self.line is None else figures.signed(y - self.line)

    def distance(self, x: float, figures: Figures) -> str:
        """A distance as read on the day."""
        if self.side == "right":
            return figures.bare(self.side_x - x)
        return figures.signed(x - self.side_x) if self.side == "plumb" else figures.bare(x - self.side_x)


@dataclass(frozen=True, slots=True)
class Subject:
    """One piece to be printed full size.

    Attributes:
        left, bottom: its lower left corner on the wall, mm; None on the floor.
        datum: how its numbers read; None on the floor.
        stops: what forbids to hang it so, and what was gone on against.
    """

    piece: Piece
    placement: Placement | None
    wall: Wall | None
    hanging: PieceHanging
    weight: PieceWeight | None
    datum: Datum | None
    stops: tuple[Stop, ...]
    figures: Figures
    title: str

    @property
    def width(self) -> float:
        """As hung, mm."""
        return float(self.hanging.width_mm)

    @property
    def height(self) -> float:
        """As hung, mm."""
        return float(self.hanging.height_mm)

    @property
    def outline(self) -> Rectangle:
        """The piece in its own coordinates."""
        return Rectangle(0.0, 0.0, self.width, self.height)

    @property
    def on_strips(self) -> bool:
        """Whether it hangs by strips and needs a locator instead of a template."""
        return self.hanging.strips is not None

    @property
    def left(self) -> float:
        """Its left edge on the wall, mm (0 on the floor)."""
        return self.placement.left if self.placement else 0.0

    @property
    def bottom(self) -> float:
        """Its lower edge on the wall, mm (0 on the floor)."""
        return self.placement.bottom if self.placement else 0.0

    @property
    def marks(self) -> tuple[Mark, ...]:
        """Crosses and rings in the piece's coordinates."""
        return (
            *(Mark(point.x, point.y, CROSS_HALF_MM) for point in self.hanging.points),
            *(Mark(hole.x, hole.y, RING_HALF_MM) for hole in self.hanging.holes),
        )

    @property
    def heading(self) -> str:
        """Number and name, the piece's entry among the bookmarks."""
        return f"{self.piece.number} {self.piece.name}"

    @property
    def place_name(self) -> str:
        """Project and wall, or the floor; a project without a title has only the place."""
        if not self.title:
            return say("On the floor") if self.wall is None else self.wall.name
        if self.wall is None:
            return say("{title}, on the floor", title=self.title)
        return say("{title}, {wall}", title=self.title, wall=self.wall.name)

    def hanger_words(self) -> str:
        """How it hangs, in a few words."""
        kind = self.hanging.kind
        if kind is None or (not self.hanging.points and not self.on_strips):
            return say("hanging point not measured yet")
        if kind == "wire":
            return say("wire on two hooks") if len(self.hanging.points) == 2 else say("wire on one hook")
        return {
            "sawtooth": say("sawtooth"),
            "d-rings": say("D-rings"),
            "keyholes": say("keyholes"),
            "strips": say("on strips, no holes"),
            "cleat": say("cleat"),
            "ledge": say("on a ledge"),
        }[kind]


def subjects(
    project: Project,
    arrangement: Arrangement,
    only: Collection[int] | None = None,
    walls: Collection[str] | None = None,
) -> list[Subject]:
    """The pieces to print: hung ones first, by number, then those on the floor, by number.

    Args:
        project: the project.
        arrangement: whose places count.
        only: piece numbers; None = all.
        walls: wall keys; None = all walls and the floor.
    """
    known = catalogues.of(project.catalogue)
    figures = figures_of(project)
    places = {placement.piece: placement for placement in arrangement.placements}
    stops: dict[int, list[Stop]] = {}
    for stop in stops_among(checked(project, arrangement.key), figures):
        for number in stop.pieces:
            stops.setdefault(number, []).append(stop)
    chosen = []
    for piece in sorted(project.pieces, key=lambda piece: (piece.key not in places, piece.number)):
        placement = places.get(piece.key)
        if only is not None and piece.number not in only:
            continue
        if walls is not None and (placement is None or placement.wall not in walls):
            continue
        wall = project.wall_by_key[placement.wall] if placement else None
        chosen.append(
            Subject(
                piece=piece,
                placement=placement,
                wall=wall,
                hanging=hang(piece, turned=placement.turned if placement else False, catalogue=known),
                weight=weight_of(piece, known),
                datum=datum_of(project, wall) if wall else None,
                stops=tuple(stops.get(piece.number, ())),
                figures=figures,
                title=project.title,
            )
        )
    return chosen


def datum_of(project: Project, wall: Wall) -> Datum:
    """Where heights and distances on this wall are taken from."""
    level_line = float((wall.datum.line or project.eye_line(wall)).mm)
    side_x = {"left": 0.0, "right": float(wall.width.mm)}.get(wall.datum.side, 0.0)
    if wall.datum.side == "plumb" and wall.datum.plumb is not None:
        side_x = float(wall.datum.plumb.mm)
    return Datum(wall.datum.side, side_x, level_line if wall.datum.height == "line" else None, level_line)
