"""Removable strips: which class, how many pairs, and where they sit on the back of the frame.

No public standard rates strips as picture hangers. Ratings, sizes and rules are the catalogue's
defaults of generic classes; the packet's own figures, typed over in the project, win.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from composer.catalogue.catalogue import Catalogue
from composer.catalogue.records import StripClass, StripRules, StripSizeName
from composer.geometry.rectangle import Rectangle
from composer.hanging.records import Problem, StripPlan, Value, WorkingLine
from composer.hanging.weight import weight_of
from composer.hanging.working import peel_working, strips_working
from composer.model.finding import Level
from composer.model.hanger import Hanger
from composer.model.piece import Piece
from composer.model.project import USUAL_LIP
from composer.units import Kg, Length, Mm

_GRID_MM = 1e-6

_FIRST_CHOICE: tuple[StripSizeName, ...] = ("medium", "large", "small")
"""Medium unless weight or size asks for large; small only where the moulding is too narrow for both."""


@dataclass(frozen=True, slots=True)
class _Case:
    """What strips have to hold, and on what."""

    width: Mm
    height: Mm
    flat: Mm
    depth: Mm | None
    glass: bool
    weight: Kg | None
    half: bool
    pairs: int | None
    rules: StripRules

    @property
    def margin(self) -> float:
        return self.rules.margin_glass if self.glass else self.rules.margin

    def strip_width(self, strip: StripClass) -> float:
        return strip.width_mm / 2 if self.half else strip.width_mm

    def rating(self, strip: StripClass) -> float:
        return strip.rating_kg / 2 if self.half else strip.rating_kg

    def flat_needed(self, strip: StripClass) -> float:
        return self.strip_width(strip) + self.rules.least_inset_mm

    def height_needed(self, strip: StripClass, pairs: int) -> float:
        on_a_side = pairs // 2
        return on_a_side * strip.length_mm + (on_a_side - 1) * self.rules.apart_mm + 2 * self.rules.least_inset_mm


def plan(
    piece: Piece, hanger: Hanger, width: Mm, height: Mm, catalogue: Catalogue, flat: Mm | None = None
) -> tuple[StripPlan | None, tuple[Problem, ...], tuple[WorkingLine, ...]]:
    """The strips for a piece as hung, or None with the reason.

    Args:
        piece: gives moulding, depth, glazing and weight.
        hanger: gives what the person decided: size, pairs, halves.
        width, height: as hung, mm.
        catalogue: the classes with the figures that count here.
        flat: the flat of the back, mm, where a filler makes it broader; None = the moulding's own.
    """
    flat = flat_mm(piece) if flat is None else flat
    if flat is None:
        return None, (Problem("not-measured", "warn", (("missing", "face"),)),), ()
    known = weight_of(piece, catalogue)
    weight = None if known is None else known.high
    case = _Case(
        width=width,
        height=height,
        flat=flat,
        depth=None if piece.frame.depth is None else piece.frame.depth.mm,
        glass=piece.frame.glazing == "glass",
        weight=weight,
        half=hanger.strip_half,
        pairs=hanger.strip_pairs,
        rules=catalogue.strip_rules,
    )
    sizes = _FIRST_CHOICE if hanger.strip_size is None else (hanger.strip_size,)
    classes = [catalogue.strip_classes[size] for size in sizes]
    refusals = []
    for strip in classes:
        outcome = _try(case, strip)
        if isinstance(outcome, int):
            made = _planned(case, strip, outcome)
            unknown = (Problem("not-measured", "warn", (("missing", "weight"),)),) if weight is None else ()
            working = (*strips_working(made, piece.frame.face, piece.frame.lip), *peel_working(made, piece.frame.depth))
            return made, unknown, working
        refusals.append(outcome)
    return None, (_best_refusal(refusals),), ()


def flat_mm(piece: Piece) -> Mm | None:
    """Flat of the moulding's back, where strips stick, mm: face − lip; None when the face is unknown.

    Without a face the glass as measured from the back gives it: (outside − rabbet opening) / 2, or
    the sight size does: (outside − sight) / 2 − lip; the narrower of both ways counts.
    """
    frame = piece.frame
    lip = (frame.lip or Length.from_text(USUAL_LIP["metric"])).mm
    if frame.face is not None:
        return Mm(frame.face.mm - lip)
    allowance = 0.0 if frame.allowance is None else frame.allowance.mm
    flats = []
    for outside, glass, sight in (
        (frame.width, frame.glass_width, frame.sight_width),
        (frame.height, frame.glass_height, frame.sight_height),
    ):
        if glass is not None:
            flats.append((outside.mm - glass.mm - allowance) / 2)
        elif sight is not None:
            flats.append((outside.mm - sight.mm) / 2 - lip)
    return Mm(min(flats)) if flats else None


def _try(case: _Case, strip: StripClass) -> int | Problem:
    """How many pairs of this class hold the piece, or why none do."""
    if case.flat + _GRID_MM < case.flat_needed(strip):
        return _refuse(
            "strip-width",
            strip,
            flat_mm=case.flat,
            needed_mm=case.flat_needed(strip),
            half="yes" if case.half else "no",
        )
    if case.height + _GRID_MM < case.height_needed(strip, 2):
        return _refuse("strip-length", strip, height_mm=case.height, needed_mm=case.height_needed(strip, 2))
    if not strip.takes(case.width, case.height):
        return _refuse(
            "strip-size", strip, largest_short_mm=strip.largest_short_mm, largest_long_mm=strip.largest_long_mm
        )
    carried = 0.0 if case.weight is None else case.margin * case.weight / case.rating(strip)
    room = 4 if case.height + _GRID_MM >= case.height_needed(strip, 4) else 2
    pairs = case.pairs or min(_usual_pairs(case, strip, carried), room if carried <= room else 4)
    if pairs > room:
        return _refuse("strip-length", strip, height_mm=case.height, needed_mm=case.height_needed(strip, pairs))
    if carried > min(pairs, strip.most_pairs) + _GRID_MM:
        assert case.weight is not None
        return _refuse(
            "overload",
            strip,
            weight_kg=case.weight,
            margin=case.margin,
            pairs=pairs,
            capacity_kg=pairs * case.rating(strip),
        )
    return pairs


def _usual_pairs(case: _Case, strip: StripClass, carried: float) -> int:
    rules = case.rules
    four = (
        max(case.width, case.height) > rules.four_above_side_mm
        or (case.depth is not None and case.depth > rules.four_above_depth_mm)
        or (
            case.glass
            and case.weight is not None
            and case.weight > rules.four_for_glass_above_share * 2 * case.rating(strip)
        )
        or math.ceil(carried - _GRID_MM) > 2
    )
    return 4 if four else 2


def _planned(case: _Case, strip: StripClass, pairs: int) -> StripPlan:
    width, length = case.strip_width(strip), strip.length_mm
    inset = _inset(case.rules, case.flat - width)
    rating = case.rating(strip)
    return StripPlan(
        size=strip.size,
        pairs=pairs,
        half=case.half,
        capacity_kg=Kg(pairs * rating),
        rating_kg=Kg(rating),
        width_mm=Mm(width),
        length_mm=Mm(length),
        inset_mm=Mm(inset),
        flat_mm=case.flat,
        flat_needed_mm=Mm(case.flat_needed(strip)),
        weight_kg=case.weight,
        margin=case.margin,
        places=tuple(_places(case, width, length, inset, pairs)),
    )


def _inset(rules: StripRules, spare: float) -> float:
    """Distance from the outer edge: as wished where the flat allows it, else so that the strip sits in its middle."""
    return max(rules.least_inset_mm, min(rules.inset_mm, spare / 2))


def _places(case: _Case, width: float, length: float, inset: float, pairs: int) -> Iterable[Rectangle]:
    """Upper strips near the upper corners; lower ones two thirds down, else as near to that as there is room."""
    rules = case.rules
    on_a_side = pairs // 2
    spare = case.height - on_a_side * length - (on_a_side - 1) * rules.apart_mm
    upper = case.height - _inset(rules, spare) - length
    bottoms = [upper]
    if pairs == 4:
        wished = case.height * rules.lower_height_share - length / 2
        bottoms.append(max(rules.least_inset_mm, min(wished, upper - rules.apart_mm - length)))
    for left in (inset, case.width - inset - width):
        for bottom in bottoms:
            yield Rectangle.at(left, bottom, width, length)


_LEVELS: dict[str, Level] = {"overload": "stop", "strip-size": "stop", "strip-length": "warn", "strip-width": "warn"}
"""Too heavy or too large for strips can hurt someone; a frame with no room for them just stays unplanned."""


def _refuse(code: str, strip: StripClass, **values: Value) -> Problem:
    return Problem(code, _LEVELS[code], (("size", strip.size), *values.items()))


def _best_refusal(refusals: list[Problem]) -> Problem:
    """Of the reasons why each class failed, the one a person can do most about.

    A class that fits the moulding but cannot carry the piece says more than one that is too wide;
    of several, the strongest, the largest or the narrowest class is named.
    """
    order = ("overload", "strip-size", "strip-length", "strip-width")

    def helpful(refusal: Problem) -> tuple[int, float]:
        numbers = dict(refusal.values)
        nearest = -float(numbers.get("capacity_kg", numbers.get("largest_long_mm", 0.0)))
        return order.index(refusal.code), nearest or float(numbers.get("needed_mm", 0.0))

    return min(refusals, key=helpful)
