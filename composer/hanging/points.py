"""Where a piece bears on the wall and where the holes go: the seven hangers.

Left and right are as seen from the front. A drop runs from the frame's top edge down to the loaded
point, so a point's height above the piece's lower edge is ``height − drop``.
"""

from collections.abc import Callable
from dataclasses import dataclass

from composer.catalogue.catalogue import Catalogue, usual
from composer.hanging import kernel, strips
from composer.hanging.records import SHOWS_MM, HangingPoint, Hole, PieceHanging, Problem, Value, What, WorkingLine
from composer.hanging.working import offset_working, rail_working, wire_working
from composer.model.hanger import Hanger
from composer.model.piece import Piece
from composer.units import Length, Mm

DISAGREE_MM = 3.0
"""A measured drop and the one its wire gives may differ by this much (common practice, no source)."""

BEYOND_MM = 1e-6
"""Measures are compared on the grid of positions."""


def hang(piece: Piece, *, turned: bool = False, catalogue: Catalogue | None = None) -> PieceHanging:
    """How the piece hangs: points, holes, strips, problems and the working.

    Args:
        piece: the piece as measured.
        turned: hung a quarter turned; its hanger must have been measured for that way up.
        catalogue: the project's own catalogue (``catalogue.of(project.catalogue)``), where packet
            figures were typed over; None = as it ships.
    """
    width, height = piece.size_mm(turned=turned)
    hanger = piece.hanger_turned if turned else piece.hanger
    if hanger is None:
        return PieceHanging(Mm(width), Mm(height), problems=(Problem("hanger-unknown-turned", "warn"),))
    if hanger.kind is None:
        return PieceHanging(Mm(width), Mm(height), problems=(missing("hanger"),))
    known = usual() if catalogue is None else catalogue
    if hanger.kind == "strips":
        return _on_strips(piece, hanger, Mm(width), Mm(height), known)
    found = _FINDERS[hanger.kind](_Back(Mm(width), Mm(height), hanger))
    return _with_holes(found, piece, Mm(width), Mm(height), hanger, known)


def missing(*what: str) -> Problem:
    """The problem of measures nobody has taken yet, by their names in the inventory table."""
    return Problem("not-measured", "warn", (("missing", " ".join(what)),))


def impossible(why: str, **values: Value) -> Problem:
    """The problem of a hanger whose measures contradict the frame or each other."""
    return Problem("hanger-impossible", "stop", (("why", why), *values.items()))


@dataclass(frozen=True, slots=True)
class _Back:
    """The back of the frame: its size as hung, and the hanger on it."""

    width: Mm
    height: Mm
    hanger: Hanger

    @property
    def middle(self) -> Mm:
        return Mm(self.width / 2 + _mm(self.hanger.offset))

    def at(self, x: float, drop: float, what: What) -> HangingPoint:
        return HangingPoint(Mm(x), Mm(self.height - drop), what)


@dataclass(frozen=True, slots=True)
class _Found:
    """What a hanger's own measures give, before fixing and frame are looked at."""

    points: tuple[HangingPoint, ...] = ()
    problems: tuple[Problem, ...] = ()
    working: tuple[WorkingLine, ...] = ()
    drop: Mm | None = None
    computed: bool = False
    computed_drop: Mm | None = None


def _wire(back: _Back) -> _Found:
    hanger = back.hanger
    hooks = hanger.hook_spacing.mm if hanger.hooks == 2 and hanger.hook_spacing is not None else Mm(0.0)
    if hanger.spacing is not None and hanger.spacing.mm / 2 + abs(_mm(hanger.offset)) > back.width / 2 + BEYOND_MM:
        return _Found(problems=(impossible("beside", spacing_mm=hanger.spacing.mm, width_mm=back.width),))
    lacks = _lacking_for_wire(hanger)
    if hanger.spacing is not None and hanger.wire is not None and hanger.wire.exact_mm <= hanger.spacing.exact_mm:
        return _Found(problems=(impossible("taut", wire_mm=hanger.wire.mm, spacing_mm=hanger.spacing.mm),))
    if hanger.spacing is not None and hooks > hanger.spacing.mm:
        return _Found(problems=(impossible("hooks-apart", hooks_mm=hooks, spacing_mm=hanger.spacing.mm),))
    if lacks:
        return _Found(problems=(missing(*lacks),))
    computed, working = _wire_drop(hanger, hooks)
    if computed is None and hanger.drop is None:
        # Longer than the level way between the rings, yet not than the way between unlevel ones.
        return _Found(problems=(impossible("taut", wire_mm=_mm(hanger.wire), spacing_mm=_mm(hanger.spacing)),))
    drop, problems = _chosen_drop(hanger, hooks, computed)
    if hanger.hooks == 2:
        points = tuple(back.at(back.middle + side * hooks / 2, drop, "hook") for side in (-1, 1))
    else:
        points = (back.at(back.middle, drop, "hook"),)
    return _Found(points, problems, working, drop, computed=hanger.drop is None, computed_drop=computed)


def _lacking_for_wire(hanger: Hanger) -> list[str]:
    """What a wire still needs: a drop, or all of its geometry; and with two hooks their spacing."""
    geometry = {"wire": hanger.wire, "spacing": hanger.spacing, "ring-drop": hanger.ring_drop}
    lacks = []
    if hanger.drop is None:
        begun = hanger.wire is not None or hanger.ring_drop is not None
        lacks = [name for name, length in geometry.items() if length is None] if begun else ["drop"]
    if hanger.hooks == 2 and hanger.hook_spacing is None:
        lacks.append("hook-spacing")
    return lacks


def _wire_drop(hanger: Hanger, hooks: Mm) -> tuple[Mm | None, tuple[WorkingLine, ...]]:
    """The drop by the wire's own measures with its working, or None where they are missing or taut."""
    if hanger.wire is None or hanger.spacing is None or hanger.ring_drop is None:
        return None, ()
    wire, spacing, left = hanger.wire.mm, hanger.spacing.mm, hanger.ring_drop.mm
    right = left if hanger.ring_drop_right is None else hanger.ring_drop_right.mm
    try:
        rise = kernel.rise_mm(spacing, wire, hooks, Mm(left - right))
    except kernel.Impossible:
        return None, ()
    drop = Mm((left + right) / 2 - rise)
    return drop, wire_working(spacing, wire, hooks, left, right, rise, drop)


def _chosen_drop(hanger: Hanger, hooks: Mm, computed: Mm | None) -> tuple[Mm, tuple[Problem, ...]]:
    """The drop that counts (the measured one wins) and what is to be said about it."""
    if hanger.drop is None:
        assert computed is not None
        return computed, ()
    drop = hanger.drop.mm
    if computed is None:
        one_finger = Problem("drop-one-finger", "note", (("drop_mm", drop), ("hooks_mm", hooks)))
        return drop, (one_finger,) if hanger.hooks == 2 else ()
    if abs(drop - computed) <= DISAGREE_MM + BEYOND_MM:
        return drop, ()
    values: tuple[tuple[str, Value], ...] = (("measured_mm", drop), ("computed_mm", computed), ("hooks", hanger.hooks))
    if hanger.hooks == 2:
        by_one_finger, _ = _wire_drop(hanger, Mm(0.0))
        if by_one_finger is not None and abs(drop - by_one_finger) <= DISAGREE_MM:
            values = (*values, ("one_finger", "yes"))
    return drop, (Problem("drop-disagrees", "warn", values),)


def _sawtooth(back: _Back) -> _Found:
    drop = back.hanger.drop
    if drop is None:
        return _Found(problems=(missing("drop"),))
    return _Found((back.at(back.middle, drop.mm, "notch"),), drop=drop.mm)


def _rings(back: _Back) -> _Found:
    return _pair(back, "ring")


def _keyholes(back: _Back) -> _Found:
    return _pair(back, "keyhole")


def _pair(back: _Back, what: What) -> _Found:
    hanger = back.hanger
    lacks = [name for name, length in (("drop", hanger.drop), ("spacing", hanger.spacing)) if length is None]
    if hanger.drop is None or hanger.spacing is None:
        return _Found(problems=(missing(*lacks),))
    right = hanger.drop if hanger.drop_right is None else hanger.drop_right
    reach = hanger.spacing.mm / 2
    points = (
        back.at(back.middle - reach, hanger.drop.mm, what),
        back.at(back.middle + reach, right.mm, what),
    )
    return _Found(points, drop=hanger.drop.mm)


def _cleat(back: _Back) -> _Found:
    hanger = back.hanger
    if hanger.drop is None:
        return _Found(problems=(missing("drop"),))
    working: tuple[WorkingLine, ...] = ()
    if hanger.spacing is not None:
        length = hanger.spacing.mm
    else:
        length = Mm(max(back.width - 100.0, back.width / 2))
        working = rail_working(back.width, length)
    points = (
        back.at(back.middle - length / 2, hanger.drop.mm, "cleat"),
        back.at(back.middle + length / 2, hanger.drop.mm, "cleat"),
    )
    return _Found(points, working=working, drop=hanger.drop.mm)


def _ledge(back: _Back) -> _Found:
    points = tuple(HangingPoint(Mm(back.width * share), Mm(0.0), "ledge") for share in (0.25, 0.75))
    return _Found(points)


_FINDERS: dict[str, Callable[[_Back], _Found]] = {
    "wire": _wire,
    "sawtooth": _sawtooth,
    "d-rings": _rings,
    "keyholes": _keyholes,
    "cleat": _cleat,
    "ledge": _ledge,
}


def _with_holes(
    found: _Found, piece: Piece, width: Mm, height: Mm, hanger: Hanger, catalogue: Catalogue
) -> PieceHanging:
    offset = Mm(0.0) if hanger.kind == "ledge" else _hook_offset(piece, catalogue)
    cannot = _off_the_frame(found, width, height)
    if cannot:
        return PieceHanging(width, height, hanger.kind, problems=(*found.problems, cannot))
    bored = () if _on_a_rail(piece, catalogue) else found.points
    holes = tuple(Hole(point.x, Mm(point.y + offset)) for point in bored if point.what != "ledge")
    shows = _showing(found, holes, width, height)
    measured = offset_working(hanger, width)
    return PieceHanging(
        width_mm=width,
        height_mm=height,
        kind=hanger.kind,
        points=found.points,
        holes=holes,
        drop_mm=found.drop,
        drop_is=None if found.drop is None else "computed" if found.computed else "measured",
        computed_drop_mm=found.computed_drop,
        hook_offset_mm=offset,
        problems=(*found.problems, *shows),
        working=(*found.working, *measured) if found.points else (),
    )


def _hook_offset(piece: Piece, catalogue: Catalogue) -> Mm:
    """From the seat up to the hole, mm: 0 until a fixing is chosen, then as pinned with it, else its class's."""
    if piece.hardware is None:
        return Mm(0.0)
    if piece.hardware.hook_offset is not None:
        return piece.hardware.hook_offset.mm
    return catalogue.hook_offset_mm(piece.hardware.fixing) or Mm(0.0)


def _on_a_rail(piece: Piece, catalogue: Catalogue) -> bool:
    """Whether cords from a picture rail were chosen: they make no hole."""
    chosen = None if piece.hardware is None else catalogue.fixings.get(piece.hardware.fixing)
    return chosen is not None and chosen.fixing_kind == "rail"


def _off_the_frame(found: _Found, width: Mm, height: Mm) -> Problem | None:
    """Whether a point lies where there is no frame: below it, or beside it (a wall rail only shows there)."""
    for point in found.points:
        if point.y < -BEYOND_MM:
            return impossible("below", drop_mm=height - point.y, height_mm=height)
        if point.what != "cleat" and not -BEYOND_MM <= point.x <= width + BEYOND_MM:
            return impossible("beside", x_mm=point.x, width_mm=width)
    return None


def _showing(found: _Found, holes: tuple[Hole, ...], width: Mm, height: Mm) -> tuple[Problem, ...]:
    """Whether hook or nail would stand above the frame or just below its edge, or a rail beside it."""
    if not holes:
        return ()
    highest = max(point.y for point in found.points)
    below_edge = height - max(highest, *(hole.y for hole in holes))
    if below_edge < SHOWS_MM - BEYOND_MM:
        return (Problem("hook-shows", "warn", (("below_edge_mm", below_edge), ("edge", "top"))),)
    if found.points[0].what == "cleat":
        inside = min(found.points[0].x, width - found.points[-1].x)
        if inside < SHOWS_MM - BEYOND_MM:
            return (Problem("hook-shows", "warn", (("below_edge_mm", inside), ("edge", "side"))),)
    return ()


def _on_strips(piece: Piece, hanger: Hanger, width: Mm, height: Mm, catalogue: Catalogue) -> PieceHanging:
    plan, problems, working = strips.plan(piece, hanger, width, height, catalogue)
    points: tuple[HangingPoint, ...] = ()
    if plan is not None:
        points = tuple(HangingPoint(Mm(x), Mm(y), "strip") for x, y in (place.centre for place in plan.places))
    return PieceHanging(width, height, "strips", points, strips=plan, problems=problems, working=working)


def _mm(length: Length | None) -> float:
    return 0.0 if length is None else length.mm
