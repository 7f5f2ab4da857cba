"""Checks of how a piece will hang: pull in its wire, level, lean, the frame itself."""

from collections.abc import Iterable

from composer.catalogue.catalogue import Catalogue
from composer.hanging import balance
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.hanging.statics import WireStatics, wire_statics
from composer.hanging.tolerances import too_close_to_level
from composer.model import Finding, Piece
from composer.units import Deg, Mm

WIDE_MM = 500.0
"""A frame wider than this turns easily on one point (judgement)."""

UNEQUAL_MM = 0.5
"""Points that differ by less are level as far as a tape tells."""

FAR_UNEQUAL_MM = 10.0
"""Points that differ by more were probably measured wrongly (judgement)."""

LEAN_DEG = Deg(2.0)
"""A frame that leans out further than this is seen to (judgement)."""

SQUARE_MM = 2.0
"""Diagonals of a square frame differ by less (framers' common practice)."""


def check_balance(piece: Piece, turned: bool, hung: bool, catalogue: Catalogue) -> tuple[Finding, ...]:
    """How a piece will hang, as far as its back was measured; asked of hung pieces only."""
    if not hung:
        return ()
    hanging = hang(piece, turned=turned, catalogue=catalogue)
    wire = wire_statics(piece, catalogue, turned=turned) if hanging.kind == "wire" else None
    return (
        *_wire(piece, wire),
        *_one_point(piece, hanging, wire),
        *_pair(piece, hanging),
        *_lean(piece, wire),
        *_frame(piece),
    )


def _wire(piece: Piece, wire: WireStatics | None) -> Iterable[Finding]:
    if wire is None or not (wire.too_flat or wire.too_weak):
        return
    values: tuple[tuple[str, str | float], ...] = (("angle_deg", wire.angle_deg), ("times", wire.times))
    if wire.pull_kg is not None:
        values = (*values, ("pull_kg", wire.pull_kg))
    if wire.usable_kg is not None:
        values = (*values, ("usable_kg", wire.usable_kg), ("weak", "yes" if wire.too_weak else "no"))
    yield _warn("wire-tight", piece, (*values, ("wire_at_30_mm", wire.wire_at_30_mm)))


def _one_point(piece: Piece, hanging: PieceHanging, wire: WireStatics | None) -> Iterable[Finding]:
    if len(hanging.points) != 1:
        return
    point = hanging.points[0]
    if hanging.width_mm > WIDE_MM:
        values: tuple[tuple[str, str | float], ...] = (("width_mm", hanging.width_mm), ("most_mm", WIDE_MM))
        if wire is not None:
            values = (*values, ("stays_level", "yes" if wire.stays_level else "no"))
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


def _lean(piece: Piece, wire: WireStatics | None) -> Iterable[Finding]:
    if wire is not None and wire.lean_deg is not None and wire.lean_deg > LEAN_DEG:
        values = (("lean_deg", min(wire.lean_deg, 90.0)),)
        yield Finding(level="note", code="leans-forward", pieces=(piece.number,), values=values)


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
