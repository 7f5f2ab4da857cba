"""Checks of what holds a piece on its wall: the fixing chosen, studs, cables, what is left of an old hanger."""

from collections.abc import Iterable

from composer.catalogue.catalogue import Catalogue
from composer.hanging.cables import zones_at
from composer.hanging.fixings import HOLLOW, carried_kg, count_of, needs_fixing
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.hanging.studs import BEHIND_MM, USABLE_MM, nearest_stud_mm
from composer.hanging.weight import weight_of
from composer.model import Finding, Piece, Placement, Wall


def check_fixing(
    piece: Piece, placement: Placement, wall: Wall, catalogue: Catalogue, region: str
) -> tuple[Finding, ...]:
    """Everything about the holes of one hung piece and what goes into them."""
    hanging = hang(piece, turned=placement.turned, catalogue=catalogue)
    return (
        *_chosen(piece, placement, wall, catalogue, hanging),
        *_cables(piece, placement, wall, region, hanging),
        *_old_hanger(piece, placement),
    )


def _chosen(
    piece: Piece, placement: Placement, wall: Wall, catalogue: Catalogue, hanging: PieceHanging
) -> Iterable[Finding]:
    if piece.hardware is None or not needs_fixing(hanging):
        return
    fixing = catalogue.fixings.get(piece.hardware.fixing)
    if fixing is None:
        yield _finding("warn", "fixing-unknown", piece, wall, (("fixing", piece.hardware.fixing),))
        return
    known = weight_of(piece, catalogue)
    count = count_of(piece.hardware, fixing)
    carried = carried_kg(fixing, count, wall, catalogue)
    if known is not None and carried is not None and carried < known.high - 1e-9:
        yield _finding(
            "stop",
            "overload",
            piece,
            wall,
            (
                ("fixing", fixing.id),
                ("own_name", fixing.name),
                ("count", count),
                ("capacity_kg", carried),
                ("weight_kg", known.high),
                ("measured", "yes" if known.measured else "no"),
            ),
        )
    if fixing.fixing_kind != "rail" and wall.surface not in fixing.walls:
        level = "warn" if wall.surface == "unknown" else "stop"
        named = (("fixing", fixing.id), ("own_name", fixing.name), ("surface", wall.surface))
        yield _finding(level, "fixing-wall", piece, wall, named)
    yield from _studs(piece, placement, wall, fixing.id, hanging)


def _studs(piece: Piece, placement: Placement, wall: Wall, fixing: str, hanging: PieceHanging) -> Iterable[Finding]:
    if wall.surface == "timber":
        return
    away = [nearest_stud_mm(wall, placement.left + hole.x) for hole in hanging.holes]
    known = [distance for distance in away if distance is not None]
    if fixing == "screw-stud":
        if not known:
            yield _finding("warn", "stud-missed", piece, wall, (("known", "no"),))
            return
        missed = [distance for distance in known if abs(distance) > USABLE_MM]
        if missed:
            nearest, farthest = min(missed, key=abs), max(missed, key=abs)
            values = (
                ("known", "yes"),
                ("away_mm", round(nearest, 6)),
                ("farthest_mm", round(abs(farthest), 6)),
                ("missed", len(missed)),
                ("points", len(known)),
            )
            yield _finding("warn", "stud-missed", piece, wall, values)
    elif fixing in HOLLOW and any(abs(distance) <= BEHIND_MM for distance in known):
        yield _finding("warn", "stud-there", piece, wall, (("fixing", fixing),))


def _cables(piece: Piece, placement: Placement, wall: Wall, region: str, hanging: PieceHanging) -> Iterable[Finding]:
    kinds: dict[str, None] = {}
    for hole in hanging.holes:
        for zone in zones_at(wall, region, placement.left + hole.x, placement.bottom + hole.y):
            kinds.setdefault(zone.kind)
    if kinds:
        yield _finding("warn", "cable-zone", piece, wall, (("zones", " ".join(kinds)), ("region", region)))


def _old_hanger(piece: Piece, placement: Placement) -> Iterable[Finding]:
    hanger = piece.hanger_turned if placement.turned else piece.hanger
    if hanger is None or hanger.kind != "strips":
        return
    left = [
        name
        for name, length in (
            ("wire", hanger.wire),
            ("drop", hanger.drop),
            ("ring-drop", hanger.ring_drop),
            ("spacing", hanger.spacing),
        )
        if length is not None
    ]
    if left:
        yield Finding(level="warn", code="old-hanger", pieces=(piece.number,), values=(("measures", " ".join(left)),))


def _finding(
    level: str, code: str, piece: Piece, wall: Wall, values: tuple[tuple[str, str | int | float], ...]
) -> Finding:
    return Finding(level=level, code=code, pieces=(piece.number,), wall=wall.key, values=values)  # type: ignore[arg-type]
