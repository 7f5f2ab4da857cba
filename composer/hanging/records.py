"""The answer of :func:`composer.hanging.points.hang`: points, holes, strips, problems and working.

All coordinates are millimetres from the piece's own lower left corner as hung, y up.
"""

from dataclasses import dataclass
from typing import Literal, NamedTuple

from composer.geometry.rectangle import Rectangle
from composer.model.finding import Level
from composer.units import Kg, Mm

What = Literal["hook", "ring", "notch", "keyhole", "strip", "cleat", "ledge"]
Value = str | int | float

NO_OFFSET = Mm(0.0)

SHOWS_MM = 10.0
"""Hardware nearer than this to the frame's edge is likely to be seen (judgement)."""


class HangingPoint(NamedTuple):
    """Where the frame bears: on a hook, by a ring, a notch, a keyhole, a strip, a rail or a ledge."""

    x: Mm
    y: Mm
    what: What


class Hole(NamedTuple):
    """Where the nail or screw goes: the hanging point moved by the fixing's own offset."""

    x: Mm
    y: Mm


class Problem(NamedTuple):
    """Something about the hanger itself, whatever wall it hangs on; ``values`` fill its sentence."""

    code: str
    level: Level
    values: tuple[tuple[str, Value], ...] = ()

    def value(self, name: str) -> Value | None:
        """One of the values, or None."""
        return next((value for key, value in self.values if key == name), None)


class Amount(NamedTuple):
    """A number with its unit: millimetres, kilograms, or a bare factor."""

    value: float
    unit: Literal["mm", "kg", "times"] = "mm"


class Term(NamedTuple):
    """One number of a working and what it is (an untranslated catalogue entry)."""

    amount: Amount
    what: str


class WorkingLine(NamedTuple):
    """How one number came about.

    Attributes:
        what: what the result is (an untranslated catalogue entry).
        parts: the expression in order: signs as text, and the numbers.
        result: what comes out.
        terms: what each number is, in the order of the expression.
        why: where the rule comes from (an untranslated catalogue entry).
    """

    what: str
    parts: tuple[str | Amount, ...]
    result: Amount
    terms: tuple[Term, ...]
    why: str


@dataclass(frozen=True, slots=True)
class StripPlan:
    """Which strips a piece hangs by, how many, and where each pair sits.

    Attributes:
        size: class of strips.
        pairs: 2 or 4.
        half: strips cut lengthwise; half the width and half the rating, and the packet's word is void.
        capacity_kg: what all pairs carry together by the packet.
        rating_kg: what one pair as used here carries.
        width_mm, length_mm: of one strip as used here, without its tab.
        inset_mm: from the frame's outer edge to the strip.
        flat_mm: flat of the moulding's back: face − lip.
        flat_needed_mm: the least flat such strips need.
        weight_kg: the weight it was counted with (the high one when estimated), None = unknown.
        margin: factor wanted between capacity and weight.
        places: one upright rectangle a pair, tabs down; from left to right, upper before lower.
    """

    size: Literal["small", "medium", "large"]
    pairs: int
    half: bool
    capacity_kg: Kg
    rating_kg: Kg
    width_mm: Mm
    length_mm: Mm
    inset_mm: Mm
    flat_mm: Mm
    flat_needed_mm: Mm
    weight_kg: Kg | None
    margin: float
    places: tuple[Rectangle, ...]


@dataclass(frozen=True, slots=True)
class PieceHanging:
    """How a piece hangs, from its own lower left corner; no wall is needed for it.

    Attributes:
        width_mm, height_mm: as hung; a turned piece has them swapped.
        kind: how it hangs, None when nobody has looked yet (or not for this way up).
        points: from left to right; empty when they cannot be known.
        holes: one a point, empty for strips and ledge.
        strips: the plan for strips, None for any other hanger or where strips cannot be used.
        drop_mm: the drop that was used, left of two; None when there is none.
        drop_is: whether that drop was ``measured`` or ``computed`` from the wire.
        computed_drop_mm: what the wire's own measures give, also where the measured drop was used.
        hook_offset_mm: from seat to hole, 0 until a fixing is chosen.
        problems: what is wrong or missing.
        working: how the numbers came about.
    """

    width_mm: Mm
    height_mm: Mm
    kind: str | None = None
    points: tuple[HangingPoint, ...] = ()
    holes: tuple[Hole, ...] = ()
    strips: StripPlan | None = None
    drop_mm: Mm | None = None
    drop_is: Literal["measured", "computed"] | None = None
    computed_drop_mm: Mm | None = None
    hook_offset_mm: Mm = NO_OFFSET
    problems: tuple[Problem, ...] = ()
    working: tuple[WorkingLine, ...] = ()
