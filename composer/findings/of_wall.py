"""Checks of a wall with all that hangs on it: what it is covered with, stairs, heavy pieces, earthquakes."""

from collections.abc import Iterable, Sequence

from composer.catalogue.catalogue import Catalogue
from composer.hanging.points import hang
from composer.hanging.shaking import HOOK_KG, STUD_KG, asked_for
from composer.hanging.weight import weight_of
from composer.model import Finding, Piece, Placement, Wall
from composer.units import Kg

TWO_PEOPLE_KG = Kg(3.0)
"""Heavier pieces are lifted by two, one of them below (judgement)."""

TWO_PEOPLE_SIDE_MM = 1000.0
"""So are pieces longer than this (judgement)."""

OLD_COATINGS = frozenset({"textured", "lath", "plaster"})
"""Surfaces that may be old: textured coatings held asbestos into the 1980s and later, old paint holds lead."""


def check_wall(
    wall: Wall, hung: Sequence[tuple[Piece, bool]], catalogue: Catalogue, quake: bool
) -> tuple[Finding, ...]:
    """What concerns a wall as a whole, wherever on it its pieces hang; each says which pieces it is about.

    Args:
        wall: the wall.
        hung: its pieces, and whether each hangs a quarter turned.
        catalogue: the figures that count.
        quake: whether earthquake advice is wanted.
    """
    pieces = [piece for piece, _ in hung]
    return (
        *_coating(wall, hung, catalogue),
        *_heavy(wall, pieces, catalogue),
        *(_shaking(wall, pieces, catalogue) if quake else ()),
    )


def _coating(wall: Wall, hung: Sequence[tuple[Piece, bool]], catalogue: Catalogue) -> Iterable[Finding]:
    if wall.surface not in OLD_COATINGS or wall.no_holes:
        return
    holed = [piece.number for piece, turned in hung if hang(piece, turned=turned, catalogue=catalogue).holes]
    if holed:
        yield Finding(
            level="warn" if wall.surface == "textured" else "note",
            code="old-coating",
            pieces=tuple(sorted(holed)),
            wall=wall.key,
            values=(("wall", wall.name), ("surface", wall.surface)),
        )


def _heavy(wall: Wall, pieces: Iterable[Piece], catalogue: Catalogue) -> Iterable[Finding]:
    heavy = []
    for piece in pieces:
        known = weight_of(piece, catalogue)
        if (known is not None and known.high > TWO_PEOPLE_KG) or max(piece.size_mm()) > TWO_PEOPLE_SIDE_MM:
            heavy.append(piece.number)
    if heavy:
        yield Finding(
            level="note",
            code="two-people",
            pieces=tuple(sorted(heavy)),
            wall=wall.key,
            values=(("heavy_kg", TWO_PEOPLE_KG), ("long_mm", TWO_PEOPLE_SIDE_MM)),
        )


def check_stairs(wall: Wall, hung: Sequence[tuple[Piece, Placement]]) -> tuple[Finding, ...]:
    """Which pieces hang over a stair."""
    if wall.nosing is None:
        return ()
    start, end = sorted(x for x, _ in wall.nosing)
    over = [
        piece.number
        for piece, placement in hung
        if placement.left < end and placement.left + piece.size_mm(turned=placement.turned)[0] > start
    ]
    if not over:
        return ()
    values = (("wall", wall.name),)
    return (Finding(level="note", code="over-stairs", pieces=tuple(sorted(over)), wall=wall.key, values=values),)


def _shaking(wall: Wall, pieces: Iterable[Piece], catalogue: Catalogue) -> Iterable[Finding]:
    asked: dict[str, list[int]] = {}
    for piece in pieces:
        known = weight_of(piece, catalogue)
        if known is not None:
            asked.setdefault(asked_for(known.high), []).append(piece.number)
    for what, numbers in asked.items():
        yield Finding(
            level="note" if what == "hook" else "warn",
            code="quake-advice",
            pieces=tuple(sorted(numbers)),
            wall=wall.key,
            values=(("what", what), ("hook_kg", HOOK_KG), ("stud_kg", STUD_KG)),
        )
