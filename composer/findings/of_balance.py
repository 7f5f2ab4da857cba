"""Checks of how a piece will hang: pull in its wire, level, lean, the frame itself."""

import math
from collections.abc import Iterable

from composer.catalogue.catalogue import Catalogue
from composer.hanging import balance, kernel
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.hanging.tolerances import too_close_to_level
from composer.hanging.weight import weight_of
from composer.model import Finding, Hanger, Piece
from composer.units import Deg, Kg, Mm, N

WIDE_MM = 500.0
"""A frame wider than this turns easily on one point (judgement)."""

UNEQUAL_MM = 0.5
"""Points that differ by less are level as far as a tape tells."""

FAR_UNEQUAL_MM = 10.0
"""Points that differ by more were probably measured wrongly (judgement)."""

LEAN_DEG = Deg(2.0)
"""A frame that leans out further than this is seen to (judgement)."""

HOOK_STANDS_OFF_MM, RING_BEHIND_MM = Mm(8.0), Mm(3.0)
"""From the wall to the wire on its hook, and from the frame's back to its ring, where nobody measured (judgement)."""

SQUARE_MM = 2.0
"""Diagonals of a square frame differ by less (framers' common practice)."""


def check_balance(piece: Piece, turned: bool, hung: bool, catalogue: Catalogue) -> tuple[Finding, ...]:
    """How a piece will hang, as far as its back was measured; asked of hung pieces only."""
    if not hung:
        return ()
    hanging = hang(piece, turned=turned, catalogue=catalogue)
    hanger = piece.hanger_turned if turned else piece.hanger
    known = weight_of(piece, catalogue)
    weight = None if known is None else known.high
    found: list[Finding] = []
    if hanger is not None and hanging.points:
        found += _wire(piece, hanger, hanging, weight, catalogue)
        found += _one_point(piece, hanger, hanging)
        found += _pair(piece, hanging)
        found += _lean(piece, hanger, hanging)
    return (*found, *_frame(piece))


def rise_of_wire_mm(hanger: Hanger, hanging: PieceHanging) -> Mm | None:
    """How far the loaded wire rises above its rings, mm, by its measures or by the drops; None when unknown."""
    if hanger.kind != "wire" or hanging.drop_mm is None:
        return None
    if hanger.ring_drop is not None:
        right = hanger.ring_drop if hanger.ring_drop_right is None else hanger.ring_drop_right
        rise = (hanger.ring_drop.mm + right.mm) / 2 - hanging.drop_mm
        return Mm(rise) if rise > 0 else None
    if hanger.wire is None or hanger.spacing is None:
        return None
    try:
        return kernel.rise_mm(hanger.spacing.mm, hanger.wire.mm, _hooks(hanger))
    except kernel.Impossible:
        return None


def _hooks(hanger: Hanger) -> Mm:
    return hanger.hook_spacing.mm if hanger.hooks == 2 and hanger.hook_spacing is not None else Mm(0.0)


def _wire(
    piece: Piece, hanger: Hanger, hanging: PieceHanging, weight: Kg | None, catalogue: Catalogue
) -> Iterable[Finding]:
    rise = rise_of_wire_mm(hanger, hanging)
    if rise is None or hanger.spacing is None:
        return
    angle = kernel.angle_deg(hanger.spacing.mm, rise, _hooks(hanger))
    times = kernel.tension_n(N(1.0), angle)
    pull = None if weight is None else Kg(times * weight)
    wire = catalogue.wires.get(hanger.wire_class or "")
    usable = None if wire is None else balance.usable_wire_kg(Kg(wire.breaking_kg))
    weak = pull is not None and usable is not None and pull > usable
    if angle >= balance.LEAST_WIRE_DEG and not weak:
        return
    values: tuple[tuple[str, str | float], ...] = (("angle_deg", angle), ("times", times))
    if pull is not None:
        values = (*values, ("pull_kg", pull))
    if usable is not None:
        values = (*values, ("usable_kg", usable), ("weak", "yes" if weak else "no"))
    # The length that would hang it at 30°, where each side pulls with just the weight.
    at_30 = kernel.wire_for_rise_mm(
        hanger.spacing.mm,
        Mm((hanger.spacing.mm - _hooks(hanger)) / 2 * math.tan(math.radians(30))),
        _hooks(hanger),
    )
    yield _warn("wire-tight", piece, (*values, ("wire_at_30_mm", at_30)))


def _one_point(piece: Piece, hanger: Hanger, hanging: PieceHanging) -> Iterable[Finding]:
    if len(hanging.points) != 1:
        return
    point = hanging.points[0]
    rise = rise_of_wire_mm(hanger, hanging)
    if hanging.width_mm > WIDE_MM:
        values: tuple[tuple[str, str | float], ...] = (("width_mm", hanging.width_mm), ("most_mm", WIDE_MM))
        if rise is not None and hanger.spacing is not None and hanging.drop_mm is not None:
            below = Mm(hanging.height_mm / 2 - hanging.drop_mm - rise)
            values = (
                *values,
                ("stays_level", "yes" if balance.stays_level(hanger.spacing.mm, rise, below) else "no"),
            )
        yield _warn("one-hook-wide", piece, values)
    off = Mm(point.x - hanging.width_mm / 2)
    tilt = balance.tilt_of_hanger_off_centre_deg(off, Mm(point.y - hanging.height_mm / 2))
    if tilt > balance.LEVEL_DEG:
        side = "right" if off > 0 else "left"
        yield _warn("hangs-askew", piece, (("off_mm", abs(off)), ("side", side), ("tilt_deg", tilt)))


def _pair(piece: Piece, hanging: PieceHanging) -> Iterable[Finding]:
    if len(hanging.points) != 2 or hanging.points[0].what not in {"hook", "ring", "keyhole"}:
        return
    left, right = hanging.points
    spacing, difference = Mm(right.x - left.x), Mm(left.y - right.y)
    if abs(difference) >= UNEQUAL_MM and spacing > 0:
        yield Finding(
            level="warn" if abs(difference) > FAR_UNEQUAL_MM else "note",
            code="unequal-hooks",
            pieces=(piece.number,),
            values=(
                ("difference_mm", abs(difference)),
                ("higher", "left" if difference > 0 else "right"),
                ("tilt_deg", balance.tilt_of_pair_deg(difference, spacing)),
                ("far", "yes" if abs(difference) > FAR_UNEQUAL_MM else "no"),
            ),
        )
    if too_close_to_level(spacing):
        yield Finding(
            level="note",
            code="pair-close",
            pieces=(piece.number,),
            values=(
                ("spacing_mm", spacing),
                ("limit_mm", balance.pair_limit_mm(spacing)),
                ("what", hanging.points[0].what),
            ),
        )


def _lean(piece: Piece, hanger: Hanger, hanging: PieceHanging) -> Iterable[Finding]:
    rise = rise_of_wire_mm(hanger, hanging)
    if rise is None or hanging.drop_mm is None or piece.frame.depth is None:
        return
    rings = Mm(hanging.height_mm - hanging.drop_mm - rise)
    lean = balance.forward_lean_deg(
        hanging.height_mm,
        piece.frame.depth.mm,
        rings,
        rise,
        hook_stands_off=HOOK_STANDS_OFF_MM,
        ring_behind_back=RING_BEHIND_MM,
        bumper=Mm(0.0),
    )
    if lean > LEAN_DEG:
        yield Finding(
            level="note", code="leans-forward", pieces=(piece.number,), values=(("lean_deg", min(lean, 90.0)),)
        )


def _frame(piece: Piece) -> Iterable[Finding]:
    frame = piece.frame
    if frame.diagonal_rising is not None and frame.diagonal_falling is not None:
        difference = abs(frame.diagonal_rising.mm - frame.diagonal_falling.mm)
        if difference > SQUARE_MM:
            yield _warn("out-of-square", piece, (("difference_mm", difference), ("most_mm", SQUARE_MM)))
    if frame.condition.strip():
        condition = " ".join(frame.condition.split())[:120]
        yield Finding(level="note", code="frame-condition", pieces=(piece.number,), values=(("condition", condition),))


def _warn(code: str, piece: Piece, values: tuple[tuple[str, str | float], ...]) -> Finding:
    return Finding(level="warn", code=code, pieces=(piece.number,), values=values)
