"""The forces in a wire and what they do to the frame: pull, side pull, level, lean. As far as its back was measured."""

import math
from dataclasses import dataclass

from composer.catalogue.catalogue import Catalogue
from composer.hanging import balance, kernel
from composer.hanging.points import hang
from composer.hanging.records import Amount, PieceHanging, Term, WorkingLine
from composer.hanging.weight import weight_of
from composer.model.hanger import Hanger
from composer.model.piece import Piece
from composer.texts import N_
from composer.units import Deg, Kg, Mm, N

HOOK_STANDS_OFF_MM, RING_BEHIND_MM = Mm(8.0), Mm(3.0)
"""From the wall to the wire on its hook, and from the frame's back to its ring, where nobody measured (judgement)."""

GOOD_DEG = 30.0
"""At this angle each side of a wire pulls with just the weight; 30 to 60° is a framer's rule."""


@dataclass(frozen=True, slots=True)
class WireStatics:
    """What a loaded wire does.

    Attributes:
        rise_mm: of the hooks above the rings.
        angle_deg: of the wire to the level.
        times: pull in the wire as a multiple of the weight.
        pull_kg, ring_pull_kg: pull in the wire and inward on each ring, in kilograms of load; None unweighed.
        side_pull_kg: sideways on each of two hooks; None for one hook or unweighed.
        usable_kg: what the wire may be pulled with by its class; None where no class is noted.
        stays_level: whether the frame on one hook swings back to level by itself; None on two hooks.
        lean_deg: how far it leans out without bumpers; None where its depth is not measured.
        wire_at_30_mm: how long a wire would hang it at 30°.
    """

    rise_mm: Mm
    angle_deg: Deg
    times: float
    pull_kg: Kg | None
    ring_pull_kg: Kg | None
    side_pull_kg: Kg | None
    usable_kg: Kg | None
    stays_level: bool | None
    lean_deg: Deg | None
    wire_at_30_mm: Mm

    @property
    def too_flat(self) -> bool:
        """Whether it stands below 15°."""
        return self.angle_deg < balance.LEAST_WIRE_DEG

    @property
    def too_weak(self) -> bool:
        """Whether it is pulled with more than its class takes."""
        return self.pull_kg is not None and self.usable_kg is not None and self.pull_kg > self.usable_kg


def wire_statics(piece: Piece, catalogue: Catalogue, *, turned: bool = False) -> WireStatics | None:
    """The forces of a piece on a wire; None for any other hanger, or where the rings are not measured."""
    hanger = piece.hanger_turned if turned else piece.hanger
    hanging = hang(piece, turned=turned, catalogue=catalogue)
    if hanger is None or hanger.spacing is None or not hanging.points:
        return None
    rise = rise_mm(hanger, hanging)
    if rise is None or hanging.drop_mm is None:
        return None
    spacing, hooks = hanger.spacing.mm, _hooks(hanger)
    angle = kernel.angle_deg(spacing, rise, hooks)
    known = weight_of(piece, catalogue)
    weight = None if known is None else kernel.weight_n(known.high)
    wire = catalogue.wires.get(hanger.wire_class or "")
    below = Mm(hanging.height_mm / 2 - hanging.drop_mm - rise)
    slope = math.tan(math.radians(GOOD_DEG))
    return WireStatics(
        rise_mm=rise,
        angle_deg=angle,
        times=float(kernel.tension_n(N(1.0), angle)),
        pull_kg=None if weight is None else _kg(kernel.tension_n(weight, angle)),
        ring_pull_kg=None if weight is None else _kg(kernel.ring_pull_n(weight, angle)),
        side_pull_kg=None if weight is None or not hooks else _kg(kernel.hook_side_pull_n(weight, angle)),
        usable_kg=None if wire is None else balance.usable_wire_kg(Kg(wire.breaking_kg)),
        stays_level=None if hanger.hooks == 2 else balance.stays_level(spacing, rise, below),
        lean_deg=_lean(piece, hanging, rise),
        wire_at_30_mm=kernel.wire_for_rise_mm(spacing, Mm((spacing - hooks) / 2 * slope), hooks),
    )


def rise_mm(hanger: Hanger, hanging: PieceHanging) -> Mm | None:
    """How far the loaded wire rises above its rings, mm, by its drops or its own measures; None when unknown."""
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


def statics_working(found: WireStatics, weight_kg: Kg) -> tuple[WorkingLine, ...]:
    """How the pull in the wire comes about."""
    weight = Amount(weight_kg, "kg")
    times = Amount(found.times, "times")
    return (
        WorkingLine(
            N_("pull on each side of the wire"),
            (weight, " × ", times),
            Amount(weight_kg * found.times, "kg"),
            (Term(weight, N_("weight of the piece")), Term(times, N_("1 over twice the sine of the wire's angle"))),
            N_("Two sides share the load along the wire (any statics textbook; OpenStax College Physics, section 4.5)"),
        ),
    )


def _hooks(hanger: Hanger) -> Mm:
    return hanger.hook_spacing.mm if hanger.hooks == 2 and hanger.hook_spacing is not None else Mm(0.0)


def _kg(force: N) -> Kg:
    return Kg(force / kernel.STANDARD_GRAVITY_M_S2)


def _lean(piece: Piece, hanging: PieceHanging, rise: Mm) -> Deg | None:
    if piece.frame.depth is None or hanging.drop_mm is None:
        return None
    return balance.forward_lean_deg(
        hanging.height_mm,
        piece.frame.depth.mm,
        Mm(hanging.height_mm - hanging.drop_mm - rise),
        rise,
        hook_stands_off=HOOK_STANDS_OFF_MM,
        ring_behind_back=RING_BEHIND_MM,
        bumper=Mm(0.0),
    )
