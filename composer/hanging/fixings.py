"""What can hold a piece on its wall, with what margin, and why the rest cannot.

Working loads are the catalogue's defaults of generic classes, their margin already in them; so a
fixing is enough when it carries the high end of the weight, and no margin is taken twice. Nothing is
chosen here: :func:`proposal` is what one click takes.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from composer.catalogue.catalogue import Catalogue
from composer.catalogue.records import Fixing
from composer.hanging.balance import each_of_kg
from composer.hanging.records import SHOWS_MM, PieceHanging, Value
from composer.hanging.studs import BEHIND_MM, USABLE_MM, nearest_stud_mm
from composer.hanging.weight import weight_of
from composer.model.hanger import HardwareChoice
from composer.model.piece import Piece
from composer.model.wall import Wall
from composer.units import Kg, Mm

WhyNot = Literal[
    "no-points",
    "no-holes",
    "wall-unknown",
    "wall-kind",
    "hanger",
    "weight-unknown",
    "too-weak",
    "stud-unknown",
    "stud-missed",
    "stud-there",
    "rail-needed",
]

HELD_BY: dict[str, tuple[str, ...]] = {
    "wire": ("hook", "nail", "screw", "rail"),
    "sawtooth": ("nail", "hook", "screw"),
    "d-rings": ("hook", "nail", "screw", "rail"),
    "keyholes": ("nail", "screw"),
    "cleat": ("cleat",),
}
"""Kinds of fixings each hanger goes on, the handiest first; a keyhole needs a head it can slip over."""

HOLLOW = frozenset({"plug-board", "anchor-self-drilling", "toggle"})
"""Fixings that open behind a board: timber behind it keeps them from doing so."""

_RAIL_SCREWS: dict[str, str] = {
    "painted-board": "anchor-self-drilling",
    "wallpaper": "anchor-self-drilling",
    "textured": "anchor-self-drilling",
    "lath": "toggle",
    "masonry": "plug-masonry",
    "plaster": "plug-masonry",
    "tile": "plug-masonry",
    "timber": "screw-stud",
}
"""What a cleat's wall rail is screwed on with."""

RAIL_SCREWS = 2
"""In how many places a cleat's wall rail is screwed on (common practice; no source)."""

_ENOUGH = 1e-9


@dataclass(frozen=True, slots=True)
class Offer:
    """One class of fixing for one piece.

    Attributes:
        fixing: the class.
        count: how many; one a hanging point, one rail a cleat.
        capacity_kg: what they carry together; two do not count twice.
        margin: capacity over the high end of the weight; None where either is unknown.
        why_not: why it cannot hold here, None where it can.
        values: what the sentence of ``why_not`` mentions.
        shows: its hole would come out above the frame or just below its edge.
    """

    fixing: Fixing
    count: int
    capacity_kg: Kg | None
    margin: float | None
    why_not: WhyNot | None = None
    values: tuple[tuple[str, Value], ...] = ()
    shows: bool = False

    @property
    def holds(self) -> bool:
        """Whether it can hold the piece here."""
        return self.why_not is None


def needs_fixing(hanging: PieceHanging) -> bool:
    """Whether anything in the wall holds the piece: strips and ledges need nothing under each piece."""
    return hanging.kind is not None and hanging.kind in HELD_BY


def usual_count(fixing: Fixing, points: int) -> int:
    """How many a piece takes: one a hanging point, but one rail for both points of a cleat."""
    return 1 if fixing.fixing_kind == "cleat" else max(1, points)


def count_of(choice: HardwareChoice, fixing: Fixing) -> int:
    """How many were chosen; a cleat has one rail, whatever a project of before says."""
    return 1 if fixing.fixing_kind == "cleat" else choice.count


def offers(
    piece: Piece,
    hanging: PieceHanging,
    wall: Wall,
    catalogue: Catalogue,
    at: tuple[float, float] | None = None,
) -> tuple[Offer, ...]:
    """Every class of the catalogue for this piece on that wall, those that hold it first.

    Args:
        piece: gives the weight.
        hanging: how it hangs, from its own lower left corner.
        wall: where.
        catalogue: the classes with the figures that count in the project.
        at: where its lower left corner hangs, mm; None = not hung yet, so studs cannot be compared.
    """
    if not needs_fixing(hanging):
        return ()
    known = weight_of(piece, catalogue)
    weight = None if known is None else known.high
    made = [_offer(fixing, weight, hanging, wall, catalogue, at) for fixing in catalogue.fixings.values()]
    wanted = HELD_BY[hanging.kind or ""]

    def order(offer: Offer) -> tuple[bool, bool, int, float]:
        kind = offer.fixing.fixing_kind
        return not offer.holds, offer.shows, wanted.index(kind) if kind in wanted else 9, offer.capacity_kg or 0.0

    return tuple(sorted(made, key=order))


def proposal(offered: Iterable[Offer]) -> Offer | None:
    """The handiest class that holds without showing and, of its kind, the least; None where nothing holds."""
    return next((offer for offer in offered if offer.holds), None)


def carried_kg(fixing: Fixing, count: int, wall: Wall | None, catalogue: Catalogue) -> Kg | None:
    """What so many of a fixing carry together, kg; a rail carries what its two screws do, None = unknown."""
    load = fixing.load_kg
    if load is None and wall is not None and fixing.fixing_kind == "cleat":
        screw = catalogue.fixings.get(_RAIL_SCREWS.get(wall.surface, ""))
        load, count = (None if screw is None else screw.load_kg), RAIL_SCREWS
    return None if load is None else each_of_kg(Kg(load), count)


def _offer(
    fixing: Fixing,
    weight: Kg | None,
    hanging: PieceHanging,
    wall: Wall,
    catalogue: Catalogue,
    at: tuple[float, float] | None,
) -> Offer:
    count = usual_count(fixing, len(hanging.points))
    capacity = carried_kg(fixing, count, wall, catalogue)
    margin = None if capacity is None or weight is None else capacity / weight
    why, values = _why_not(fixing, hanging, wall, at)
    if why is None and weight is None:
        why = "weight-unknown"
    elif why is None and (margin is None or margin < 1 - _ENOUGH):
        why, values = "too-weak", (("capacity_kg", capacity or 0.0), ("weight_kg", weight or 0.0))
    highest = max((point.y for point in hanging.points), default=Mm(0.0))
    shows = hanging.height_mm - highest - max(0.0, fixing.offset_mm) < SHOWS_MM
    return Offer(fixing, count, capacity, margin, why, values, shows)


def _why_not(
    fixing: Fixing, hanging: PieceHanging, wall: Wall, at: tuple[float, float] | None
) -> tuple[WhyNot | None, tuple[tuple[str, Value], ...]]:
    if fixing.fixing_kind not in HELD_BY[hanging.kind or ""]:
        return "hanger", (("hanger", hanging.kind or ""),)
    if not hanging.points:
        return "no-points", ()
    if fixing.fixing_kind == "rail":
        return "rail-needed", ()
    if wall.no_holes:
        return "no-holes", (("wall", wall.name),)
    if wall.surface == "unknown":
        return "wall-unknown", (("wall", wall.name),)
    if wall.surface not in fixing.walls:
        return "wall-kind", (("surface", wall.surface),)
    return _by_studs(fixing, hanging, wall, at)


def _by_studs(
    fixing: Fixing, hanging: PieceHanging, wall: Wall, at: tuple[float, float] | None
) -> tuple[WhyNot | None, tuple[tuple[str, Value], ...]]:
    if fixing.id == "screw-stud" and wall.surface == "timber":
        return None, ()
    away = [] if at is None else [nearest_stud_mm(wall, at[0] + hole.x) for hole in hanging.holes]
    known = [distance for distance in away if distance is not None]
    if fixing.id == "screw-stud":
        if not known:
            return "stud-unknown", ()
        farthest = max(known, key=abs)
        if abs(farthest) > USABLE_MM:
            return "stud-missed", (("away_mm", round(farthest, 6)),)
    elif fixing.id in HOLLOW and any(abs(distance) <= BEHIND_MM for distance in known):
        return "stud-there", ()
    return None, ()
