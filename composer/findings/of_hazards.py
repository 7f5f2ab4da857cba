"""Where a piece can hurt somebody or be hurt: beds, cots, seats, heat, damp, doors."""

from collections.abc import Iterable

from composer.catalogue.catalogue import Catalogue
from composer.findings.of_place import rectangle_of
from composer.findings.things_near import FAR_MM, obstacle_rectangle, things_near
from composer.geometry.rectangle import Rectangle
from composer.hanging.points import hang
from composer.hanging.weight import weight_of
from composer.model import Finding, Level, Obstacle, Piece, Placement, Wall
from composer.units import Kg

LIGHT_KG = Kg(2.0)
"""Over people nothing heavier (judgement; earthquake campaigns ask for soft art only over beds and sofas)."""

SOFT_KG = Kg(0.2)
"""Unglazed and no heavier: paper or textile (judgement)."""

STRIPS_OVER_SEAT_KG = Kg(5.0)
"""Nothing heavier hangs on strips over somebody's head (judgement)."""

ABOVE_BACK_MM = 150.0
"""Between a seat's back and the frame, so that no head touches it (common practice: 6 to 8 in)."""

DAMP_REACH_MM = FAR_MM
"""Splashes and steam from a tap reach about so far (judgement)."""

DOOR_LEAF_MM = 900.0
"""Width of a door leaf that swings against the end of a wall (common sizes are 760 to 930 mm)."""

DOOR_TOP_MM = 2100.0

BESIDE_COT_MM = 150.0
"""A piece that falls does not fall plumb: so much beside a cot counts as over it (judgement)."""

_LEAST = 1e-6


def check_hazards(piece: Piece, placement: Placement, wall: Wall, catalogue: Catalogue) -> tuple[Finding, ...]:
    """What can go wrong below or beside one hung piece."""
    place = rectangle_of(piece, placement)
    found: list[Finding] = []
    for obstacle, _, _ in things_near(wall.obstacles, place, catalogue):
        check = _CHECKS.get(obstacle.kind)
        if check is not None:
            found += check(piece, placement, place, wall, obstacle, catalogue)
    return (*_once(found), *_ends(piece, place, wall))


def _once(found: Iterable[Finding]) -> Iterable[Finding]:
    """The most serious of each code: two seats under one piece are one warning."""
    worst: dict[str, Finding] = {}
    for finding in found:
        kept = worst.get(finding.code)
        if kept is None or finding.order < kept.order:
            worst[finding.code] = finding
    return worst.values()


def _is_over(place: Rectangle, thing: Rectangle, beside: float = 0.0) -> bool:
    across = min(place.right, thing.right + beside) - max(place.left, thing.left - beside)
    return across > _LEAST and place.top > thing.top + _LEAST


def _weight(piece: Piece, catalogue: Catalogue) -> Kg | None:
    known = weight_of(piece, catalogue)
    return None if known is None else known.high


def _cot(
    piece: Piece, placement: Placement, place: Rectangle, wall: Wall, obstacle: Obstacle, catalogue: Catalogue
) -> Iterable[Finding]:
    weight = _weight(piece, catalogue)
    soft = piece.frame.glazing == "none" and weight is not None and weight <= SOFT_KG
    if _is_over(place, obstacle_rectangle(obstacle), BESIDE_COT_MM) and not soft:
        yield _finding("stop", "over-cot", piece, wall, obstacle, (("soft_kg", SOFT_KG),))


def _bed(
    piece: Piece, placement: Placement, place: Rectangle, wall: Wall, obstacle: Obstacle, catalogue: Catalogue
) -> Iterable[Finding]:
    if not _is_over(place, obstacle_rectangle(obstacle)):
        return
    weight = _weight(piece, catalogue)
    hanger = piece.hanger_turned if placement.turned else piece.hanger
    reasons = []
    if piece.frame.glazing == "glass":
        reasons.append("glass")
    if weight is not None and weight > LIGHT_KG:
        reasons.append("heavy")
    if hanger is not None and hanger.kind == "strips":
        reasons.append("strips")
    values: tuple[tuple[str, str | float], ...] = (
        ("reasons", " ".join(reasons)),
        ("weight_kg", weight or 0.0),
        ("light_kg", LIGHT_KG),
    )
    yield _finding("stop" if reasons else "warn", "over-bed", piece, wall, obstacle, values)


def _seat(
    piece: Piece, placement: Placement, place: Rectangle, wall: Wall, obstacle: Obstacle, catalogue: Catalogue
) -> Iterable[Finding]:
    thing = obstacle_rectangle(obstacle)
    if not _is_over(place, thing):
        return
    weight = _weight(piece, catalogue)
    hanging = hang(piece, turned=placement.turned, catalogue=catalogue)
    above = place.bottom - thing.top
    reasons = []
    if piece.frame.glazing == "glass":
        reasons.append("glass")
    elif piece.frame.glazing == "unknown":
        reasons.append("glazing-unknown")
    if weight is None:
        reasons.append("weight-unknown")
    elif weight > LIGHT_KG:
        reasons.append("heavy")
    if hanging.kind == "strips":
        reasons.append("strips")
    elif len(hanging.points) == 1:
        reasons.append("one-point")
    if above < ABOVE_BACK_MM - _LEAST:
        reasons.append("close")
    if not reasons:
        return
    too_heavy = hanging.kind == "strips" and weight is not None and weight > STRIPS_OVER_SEAT_KG
    values: tuple[tuple[str, str | float], ...] = (
        ("reasons", " ".join(reasons)),
        ("weight_kg", weight or 0.0),
        ("light_kg", LIGHT_KG),
        ("most_kg", STRIPS_OVER_SEAT_KG),
        ("above_mm", round(above, 6)),
        ("wanted_mm", ABOVE_BACK_MM),
    )
    yield _finding("stop" if too_heavy else "warn", "over-seat", piece, wall, obstacle, values)


def _radiator(
    piece: Piece, placement: Placement, place: Rectangle, wall: Wall, obstacle: Obstacle, catalogue: Catalogue
) -> Iterable[Finding]:
    if _is_over(place, obstacle_rectangle(obstacle)):
        yield _finding("warn", "heat-or-damp", piece, wall, obstacle, ())


def _tap(
    piece: Piece, placement: Placement, place: Rectangle, wall: Wall, obstacle: Obstacle, catalogue: Catalogue
) -> Iterable[Finding]:
    if place.meets(obstacle_rectangle(obstacle).grown(DAMP_REACH_MM), least=_LEAST):
        yield _finding("warn", "heat-or-damp", piece, wall, obstacle, (("reach_mm", DAMP_REACH_MM),))


def _door(
    piece: Piece, placement: Placement, place: Rectangle, wall: Wall, obstacle: Obstacle, catalogue: Catalogue
) -> Iterable[Finding]:
    thing = obstacle_rectangle(obstacle)
    away = max(place.left - thing.right, thing.left - place.right)
    if 0 <= away < thing.width and place.bottom < thing.top:
        yield _finding("note", "door-swing", piece, wall, obstacle, (("leaf_mm", thing.width),))


def _ends(piece: Piece, place: Rectangle, wall: Wall) -> Iterable[Finding]:
    for end, away in ((wall.left_end, place.left), (wall.right_end, float(wall.width.mm) - place.right)):
        if end == "door" and away < DOOR_LEAF_MM and place.bottom < DOOR_TOP_MM:
            yield Finding(
                level="note",
                code="door-swing",
                pieces=(piece.number,),
                wall=wall.key,
                values=(("kind", "door"), ("name", ""), ("leaf_mm", DOOR_LEAF_MM)),
            )
            return


_CHECKS = {
    "cot": _cot,
    "bed": _bed,
    "sofa": _seat,
    "seat": _seat,
    "radiator": _radiator,
    "tap": _tap,
    "door": _door,
}


def _finding(
    level: Level, code: str, piece: Piece, wall: Wall, obstacle: Obstacle, values: tuple[tuple[str, str | float], ...]
) -> Finding:
    return Finding(
        level=level,
        code=code,
        pieces=(piece.number,),
        wall=wall.key,
        values=(("kind", obstacle.kind), ("name", obstacle.name), *values),
    )
