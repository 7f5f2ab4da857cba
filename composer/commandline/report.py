"""The report: a project as plain values, millimetres and kilograms, keys in a fixed order.

What a piece does not have is null. Scripts rely on the keys, so whatever else the sheets print comes only when asked for.
"""

from collections.abc import Sequence
from typing import Any

from composer.catalogue import catalogue as catalogues
from composer.catalogue.catalogue import Catalogue
from composer.commandline.report_costs import costs_as_printed, costs_json, piece_cost, rehang_json, unpriced_json
from composer.commandline.report_prints import mat_part, print_part
from composer.geometry.rectangle import Rectangle
from composer.hanging.fixings import carried_kg, count_of, needs_fixing
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging, StripPlan
from composer.hanging.weight import weight_of
from composer.model import Arrangement, Piece, Placement, Project, Wall
from composer.prints.plan import PiecePlan, plan

FORMAT = 1


def build(
    project: Project, arrangement: Arrangement, findings: list[dict[str, Any]], *, more: bool = False
) -> dict[str, Any]:
    """The report of one arrangement.

    Args:
        project: the project.
        arrangement: whose places.
        findings: as JSON has them.
        more: what has no price yet, and the way from what is up, too.
    """
    known = catalogues.of(project.catalogue)
    costs = costs_as_printed(project, arrangement)
    floor = sorted(project.on_floor(arrangement), key=lambda piece: piece.number)
    walls = [_wall(project, wall, arrangement, known) for wall in project.walls]
    lying = [_piece(plan(project, piece, arrangement), None, None, known) for piece in floor]
    for piece in (*lying, *(hung for wall in walls for hung in wall["pieces"])):
        piece["cost"] = piece_cost(costs, piece["number"])
    extra = {"unpriced": unpriced_json(costs), "rehang": rehang_json(project, arrangement)} if more else {}
    return {
        "program": "wallwright",
        "format": FORMAT,
        "units": project.units,
        "currency": project.currency,
        "arrangement": arrangement.name,
        "walls": walls,
        "floor": lying,
        "costs": costs_json(costs),
        "findings": findings,
        **extra,
    }


def _wall(project: Project, wall: Wall, arrangement: Arrangement, known: Catalogue) -> dict[str, Any]:
    hung = project.hung_on(wall.key, arrangement)
    return {
        "name": wall.name,
        "width": _number(wall.width.mm),
        "height": _number(wall.height.mm),
        "eye_line": _number(project.eye_line(wall).mm),
        "pieces": [_piece(plan(project, piece, arrangement), placement, wall, known) for piece, placement in hung],
        "group": _group(hung),
    }


def _group(hung: Sequence[tuple[Piece, Placement]]) -> dict[str, Any] | None:
    box: Rectangle | None = None
    for piece, placement in hung:
        place = Rectangle.at(placement.left, placement.bottom, *piece.size_mm(turned=placement.turned))
        box = place if box is None else box.united(place)
    return None if box is None else {**_edges(box), "centre": [_number(part) for part in box.centre]}


def _edges(place: Rectangle | None) -> dict[str, Any]:
    if place is None:
        return {"left": None, "bottom": None, "right": None, "top": None}
    return {
        "left": _number(place.left),
        "bottom": _number(place.bottom),
        "right": _number(place.right),
        "top": _number(place.top),
    }


def _piece(planned: PiecePlan, placement: Placement | None, wall: Wall | None, known: Catalogue) -> dict[str, Any]:
    piece = planned.piece
    turned = placement is not None and placement.turned
    hanging = hang(piece, turned=turned, catalogue=known)
    width, height = piece.size_mm(turned=turned)
    place = None if placement is None else Rectangle.at(placement.left, placement.bottom, width, height)
    at = (0.0, 0.0) if place is None else (place.left, place.bottom)
    return {
        "number": piece.number,
        "name": piece.name,
        "width": _number(width),
        "height": _number(height),
        "turned": turned,
        **_edges(place),
        "locked": placement is not None and placement.locked,
        "weight": _weight(piece, known),
        "hanger": hanging.kind or piece.hanger.kind,
        "hanging_points": _points(hanging, at),
        "holes": [{"x": _number(at[0] + hole.x), "y": _number(at[1] + hole.y)} for hole in hanging.holes],
        "strips": None if hanging.strips is None else _strips(hanging.strips, at),
        "fixing": _fixing(piece, hanging, wall, known),
        "print": print_part(planned.print, _number),
        "mat": mat_part(planned.mat, _number),
    }


def _fixing(piece: Piece, hanging: PieceHanging, wall: Wall | None, known: Catalogue) -> dict[str, Any] | None:
    """What the person chose to hold the piece; margin over the high end of its weight, null where not known."""
    chosen = piece.hardware
    if chosen is None or not needs_fixing(hanging):
        return None
    fixing, weight = known.fixings.get(chosen.fixing), weight_of(piece, known)
    count = chosen.count if fixing is None else count_of(chosen, fixing)
    capacity = None if fixing is None else carried_kg(fixing, count, wall, known)
    return {
        "what": chosen.fixing,
        "count": count,
        "capacity_kg": None if capacity is None else _number(capacity),
        "margin": None if capacity is None or weight is None else _number(capacity / weight.high),
    }


def _weight(piece: Piece, known: Catalogue) -> dict[str, Any] | None:
    weight = weight_of(piece, known)
    if weight is None:
        return None
    return {
        "kg": _number(weight.kg),
        "low": _number(weight.low),
        "high": _number(weight.high),
        "measured": weight.measured,
    }


def _points(hanging: PieceHanging, at: tuple[float, float]) -> list[dict[str, Any]]:
    return [
        {"x": _number(at[0] + point.x), "y": _number(at[1] + point.y), "what": point.what} for point in hanging.points
    ]


def _strips(plan: StripPlan, at: tuple[float, float]) -> dict[str, Any]:
    return {
        "size": plan.size,
        "pairs": plan.pairs,
        "half": plan.half,
        "capacity_kg": _number(plan.capacity_kg),
        "places": [[_number(part) for part in place.moved(*at)] for place in plan.places],
    }


def _number(value: float) -> float | int:
    """To a millionth; a whole number is written as one, and there is no minus nought."""
    rounded = round(float(value), 6) + 0.0
    return int(rounded) if rounded.is_integer() else rounded
