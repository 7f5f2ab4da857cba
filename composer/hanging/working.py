"""The working: how each computed number came about, and where its rule comes from.

Lines are built from plain numbers beside the computing itself; :func:`in_words` writes them in the
project's units, e.g. "1 450 + 250 − 40 = 1 660". Every length is rounded for showing only, so the
last digit of a sum may look one off; nothing is computed from what is shown.
"""

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from composer.hanging.balance import peel_kg
from composer.hanging.records import Amount, PieceHanging, StripPlan, Term, WorkingLine
from composer.model.hanger import Hanger
from composer.texts import N_, say
from composer.units import Kg, Length, LengthStyle, Mm, show_length, show_mass

if TYPE_CHECKING:
    from composer.geometry.rectangle import Rectangle

_WIRE = N_("Triangle of a loaded wire, no friction (any statics textbook; OpenStax College Physics, section 4.5)")
_WIRE_TWO = N_("The wire runs level between two hooks, no friction (derived from the triangle of one hook)")
_WIRE_UNEQUAL = N_("The hook lies on the ellipse about two unlevel rings (derived from the wire's length)")
_POINT = N_("Height of the middle, plus half the frame, minus the drop (museum practice)")
_POINT_BELOW = N_("From the frame's lower edge: its height minus the drop")
_HOLE = N_("The nail sits higher than the hook's seat; measure your own hook")
_ACROSS = N_("Middle of the frame, plus how far the hanger sits to the right")
_RAIL = N_("Rail 100 mm shorter than the frame, at least half of it, where nothing was measured (common practice)")
_FLAT = N_("What the moulding covers beyond the rabbet: strips must sit wholly on it")
_STRIPS = N_(
    "Rating of a pair off the packet's class; 1.5 times the weight, twice with glass (common practice, no standard)"
)


class WrittenLine(NamedTuple):
    """A working in words: "drop", "161 − 64", "97", ((“161”, “top edge to the rings”), …), the rule."""

    what: str
    expression: str
    result: str
    terms: tuple[tuple[str, str], ...]
    why: str

    @property
    def sum(self) -> str:
        """Expression and result as one sum: "1 450 + 250 − 40 = 1 660"."""
        return say("{expression} = {result}", expression=self.expression, result=self.result)


def in_words(lines: Iterable[WorkingLine], style: LengthStyle) -> tuple[WrittenLine, ...]:
    """The lines in the project's units and the person's language."""
    return tuple(_written(line, style) for line in lines)


def on_the_wall(hanging: PieceHanging, place: "Rectangle") -> tuple[WorkingLine, ...]:
    """How the height of each point and hole above the floor comes about, for a piece hung at ``place``."""
    return tuple(_point_lines(hanging, (place.bottom + place.top) / 2))


def on_the_floor(hanging: PieceHanging) -> tuple[WorkingLine, ...]:
    """The same from the piece's own lower edge, for a piece that hangs nowhere yet."""
    return tuple(_point_lines(hanging, None))


def _point_lines(hanging: PieceHanging, centre: float | None) -> Iterable[WorkingLine]:
    seen: set[float] = set()
    for point in hanging.points:
        drop = hanging.height_mm - point.y
        if drop in seen or point.what == "ledge":
            continue
        seen.add(drop)
        down = ("−", drop, N_("top edge down to the strip's middle") if point.what == "strip" else _DROP)
        if centre is None:
            line = _sum(_ABOVE_EDGE, _POINT_BELOW, ("+", hanging.height_mm, _HEIGHT), down)
        else:
            half = ("+", hanging.height_mm / 2, _HALF)
            line = _sum(_ABOVE_FLOOR, _POINT, ("+", centre, _CENTRE), half, down)
        yield line
        if hanging.hook_offset_mm:
            sign = "+" if hanging.hook_offset_mm > 0 else "−"
            seat_to_hole = (sign, abs(hanging.hook_offset_mm), _SEAT_TO_HOLE)
            yield _sum(N_("hole"), _HOLE, ("+", line.result.value, N_("hanging point")), seat_to_hole)


def wire_working(spacing: Mm, wire: Mm, hooks: Mm, left: Mm, right: Mm, rise: Mm, drop: Mm) -> tuple[WorkingLine, ...]:
    """How a wire's drop follows from its length and its rings."""
    loose, apart = wire - hooks, spacing - hooks
    terms = [Term(Amount(wire), N_("length of the wire")), Term(Amount(spacing), N_("between the rings"))]
    if hooks:
        terms.append(Term(Amount(hooks), N_("between the hooks")))
    half_wire: tuple[str | Amount, ...] = (
        ("((", Amount(wire), " − ", Amount(hooks), ") ÷ 2)²") if hooks else ("(", Amount(wire), " ÷ 2)²")
    )
    half_apart: tuple[str | Amount, ...] = (
        ("((", Amount(spacing), " − ", Amount(hooks), ") ÷ 2)²") if hooks else ("(", Amount(spacing), " ÷ 2)²")
    )
    why = _WIRE_TWO if hooks else _WIRE
    parts: tuple[str | Amount, ...] = ("√(", *half_wire, " − ", *half_apart, ")")
    mean: WorkingLine | None = None
    if left != right:
        why = _WIRE_UNEQUAL
        uneven = abs(left - right)
        terms.append(Term(Amount(uneven), N_("one ring lower than the other")))
        uneven_half = ("(", Amount(uneven), " ÷ 2)²")
        factor = Amount(1 - (uneven / loose) ** 2, "times")
        terms.append(Term(factor, N_("1 minus the square of that difference over the free wire")))
        parts = ("√((", *half_wire, " − ", *half_apart, " − ", *uneven_half, ") ÷ ", factor, ")")
        mean = WorkingLine(
            what=N_("mean drop of the rings"),
            parts=("(", Amount(left), " + ", Amount(right), ") ÷ 2"),
            result=Amount((left + right) / 2),
            terms=(
                Term(Amount(left), N_("top edge to the left ring")),
                Term(Amount(right), N_("top edge to the right ring")),
            ),
            why=why,
        )
    assert loose > apart
    rising = WorkingLine(N_("rise of the wire"), parts, Amount(rise), tuple(terms), why)
    last = _sum(
        N_("drop"),
        N_("The wire rises towards the top edge when it is loaded"),
        ("+", (left + right) / 2, N_("top edge to the rings")),
        ("−", rise, N_("rise of the wire")),
    )
    assert abs(last.result.value - drop) < 1e-6
    return (rising, last) if mean is None else (rising, mean, last)


def offset_working(hanger: Hanger, width: Mm) -> tuple[WorkingLine, ...]:
    """How the middle of an off-centre hanger comes about."""
    if hanger.offset is None or not hanger.offset.mm or hanger.kind == "ledge":
        return ()
    offset = hanger.offset.mm
    sign = "+" if offset > 0 else "−"
    side = N_("the hanger's middle lies right of it") if offset > 0 else N_("the hanger's middle lies left of it")
    return (
        _sum(
            N_("middle of the hanger from the left edge"),
            _ACROSS,
            ("+", width / 2, N_("middle of the frame")),
            (sign, abs(offset), side),
        ),
    )


def rail_working(width: Mm, length: Mm) -> tuple[WorkingLine, ...]:
    """How long a cleat's wall rail is taken to be when nobody measured it."""
    frame = Term(Amount(width), N_("width of the frame"))
    if length == width / 2:
        return (WorkingLine(N_("length of the wall rail"), (Amount(width), " ÷ 2"), Amount(length), (frame,), _RAIL),)
    shorter = Term(Amount(100.0), N_("the rail is that much shorter"))
    parts = (Amount(width), " − ", Amount(100.0))
    return (WorkingLine(N_("length of the wall rail"), parts, Amount(length), (frame, shorter), _RAIL),)


_PEEL = N_("Weight times how far its middle stands off the wall, over the height of the upper strips (lever)")


def peel_working(plan: StripPlan, depth: Length | None) -> tuple[WorkingLine, ...]:
    """How hard the frame's own depth pulls its upper strips off the wall, as a share of its weight."""
    if depth is None or plan.weight_kg is None or not plan.places:
        return ()
    above = max(place.centre[1] for place in plan.places)
    off = Mm(depth.mm / 2)
    weight = Amount(plan.weight_kg, "kg")
    pull = peel_kg(Kg(plan.weight_kg), off, Mm(above))
    terms = (
        Term(weight, N_("weight of the piece")),
        Term(Amount(off), N_("half its depth")),
        Term(Amount(above), N_("lower edge to the upper strips")),
    )
    parts = (weight, " × ", Amount(off), " ÷ ", Amount(above))
    return (WorkingLine(N_("pull away from the wall"), parts, Amount(pull, "kg"), terms, _PEEL),)


def strips_working(plan: StripPlan, face: Length | None, lip: Length | None) -> tuple[WorkingLine, ...]:
    """How strips were found to fit and to carry the piece."""
    lines = []
    if face is not None and lip is not None:
        lines.append(
            _sum(
                N_("flat of the moulding's back"),
                _FLAT,
                ("+", face.mm, N_("face of the moulding")),
                ("−", lip.mm, N_("its lip over the rabbet")),
            )
        )
    pair = Amount(plan.rating_kg, "kg")
    pairs = Amount(plan.pairs, "times")
    lines.append(
        WorkingLine(
            N_("what the strips carry"),
            (pairs, " × ", pair),
            Amount(plan.capacity_kg, "kg"),
            (Term(pairs, N_("pairs of strips")), Term(pair, N_("one pair by its packet's class"))),
            _STRIPS,
        )
    )
    if plan.weight_kg is not None:
        margin, weight = Amount(plan.margin, "times"), Amount(plan.weight_kg, "kg")
        lines.append(
            WorkingLine(
                N_("what they must carry"),
                (margin, " × ", weight),
                Amount(plan.margin * plan.weight_kg, "kg"),
                (Term(margin, N_("margin")), Term(weight, N_("weight of the piece"))),
                _STRIPS,
            )
        )
    return tuple(lines)


_ABOVE_FLOOR = N_("hanging point above the floor")
_ABOVE_EDGE = N_("hanging point above the lower edge")
_HEIGHT = N_("height of the frame")
_DROP = N_("drop")
_CENTRE = N_("middle of the frame above the floor")
_HALF = N_("half the frame's height")
_SEAT_TO_HOLE = N_("from the hook's seat to its hole")


def _sum(what: str, why: str, *terms: tuple[str, float, str]) -> WorkingLine:
    parts: list[str | Amount] = []
    total = 0.0
    for sign, mm, _ in terms:
        if parts or sign == "−":
            parts.append(f" {sign} " if parts else sign)
        parts.append(Amount(mm))
        total += mm if sign == "+" else -mm
    return WorkingLine(what, tuple(parts), Amount(total), tuple(Term(Amount(mm), name) for _, mm, name in terms), why)


def _written(line: WorkingLine, style: LengthStyle) -> WrittenLine:
    return WrittenLine(
        what=say(line.what),
        expression="".join(part if isinstance(part, str) else _shown(part, style) for part in line.parts),
        result=_shown(line.result, style),
        terms=tuple((_shown(term.amount, style), say(term.what)) for term in line.terms),
        why=say(line.why),
    )


def _shown(amount: Amount, style: LengthStyle) -> str:
    if amount.unit == "mm":
        return show_length(Mm(amount.value), style)
    if amount.unit == "kg":
        return show_mass(Kg(amount.value), "lb" if style.unit == "in" else "kg")
    return f"{amount.value:.4g}"
