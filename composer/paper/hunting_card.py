"""The hunting card, wallet size: second-hand sizes that would fill a place on this wall, and what to look at.

Cards are 85.6 × 54 mm (ISO/IEC 7810, ID-1), front and back side by side, to be cut out and folded.
Sizes stand in millimetres and in inches to the eighth, rounded inward: a frame that reads so fits.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from composer.catalogue import catalogue as catalogues
from composer.costing.costs import Costs
from composer.costing.left_over import still_hangs
from composer.costing.shown import show_money
from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Project, Wall
from composer.paper.drawing import Area, Drawing, line_step
from composer.paper.furniture import sheet_head, write_in_box
from composer.paper.primitives import HAIR_PT, LAY_DASH, THIN_PT, Dash, Page
from composer.paper.sheet_request import SheetRequest
from composer.rehang.hunting import HuntedPlace, hunted_places
from composer.texts import say
from composer.units import LengthStyle, show_length, show_mass

CARD = (85.6, 54.0)
"""ISO/IEC 7810, ID-1: 85.60 × 53.98 mm."""

MOST_PLACES = 3
SEAT_KG = 2.0
"""Above a seat nothing heavier (judgement, as the findings have it)."""

RABBET_MAT_MM, RABBET_MM = 7.0, 5.0
"""2 mm glass, 1.4 mm mat, print, 2.5 mm backing and a little; without the mat less (judgement)."""

_SEATS = frozenset({"sofa", "seat", "bed", "cot"})
_PAD = 4.0
_FOUND_MM = 26.0
_DASH: Dash = (1.2, 0.8)
_EIGHTH = 25.4 / 8


@dataclass(frozen=True, slots=True)
class _Weight:
    words: str
    kg: float


def build(project: Project, wall: Wall, arrangement: Arrangement, request: SheetRequest, costs: Costs) -> list[Page]:
    """One sheet of cards for a wall; none where no place is to be filled.

    Raises:
        SheetTooSmall: the paper is narrower than two cards.
    """
    places = hunted_places(project, wall, arrangement, MOST_PLACES)
    if not places:
        return []
    upright = request.turned(landscape=False)
    area = upright.expect(say("Hunting card"), 2 * CARD[0], 20 + CARD[1] + _FOUND_MM)
    drawing = Drawing()
    of = f"{project.title}, {wall.name}" if project.title else wall.name
    below = say(
        "Print at actual size: the ruler must read 80. Cut on the solid lines, fold on the dashed one, print outside."
    )
    top = sheet_head(drawing, area, say("Hunting card"), of, say("all alike; one for each coat"), below) - 6.0
    rows = max(1, min(4, int((top - area.bottom - _FOUND_MM) / CARD[1] + 1e-9)))
    left = area.left + (area.width - 2 * CARD[0]) / 2
    _cuts(drawing, area, left, top, rows)
    weights = _weights(project, wall, places, costs)
    flat = _flat_needed(project)
    for row in range(rows):
        upper = top - row * CARD[1]
        _front(drawing, left, upper, places, project, arrangement, wall, request.scale[0])
        _back(drawing, left + CARD[0], upper, weights, flat, request.scale[0])
    _found(drawing, area, top - rows * CARD[1])
    label = say("Hunting card")
    return [drawing.page(upright.size, label, (label, wall.name), area)]


def _cuts(drawing: Drawing, area: Area, left: float, top: float, rows: int) -> None:
    fold, right = left + CARD[0], left + 2 * CARD[0]
    bottom = top - rows * CARD[1]
    for x, dash in ((left, ()), (right, ()), (fold, LAY_DASH)):
        drawing.line(x, bottom - 3, x, top + 3, HAIR_PT if x != fold else THIN_PT, dash=dash)
    for row in range(rows + 1):
        y = top - row * CARD[1]
        drawing.line(max(area.left, left - 4), y, min(area.right, right + 4), y, HAIR_PT)
    drawing.text(fold + 1.6, top + 1.4, say("fold"), 9, within=CARD[0] - 4)


def _front(
    drawing: Drawing,
    left: float,
    top: float,
    places: Sequence[HuntedPlace],
    project: Project,
    arrangement: Arrangement,
    wall: Wall,
    factor: float,
) -> None:
    x, width = left + _PAD, CARD[0] - 2 * _PAD
    used = drawing.text(x, top - 5.0, say("Frames wanted"), 10, "bold", within=width * 0.42)
    prices = [place.piece.price for place in places if place.piece is not None and place.piece.price is not None]
    note = say("outside, width × height")
    if prices:
        note = say("outside, width × height · pay up to {amount}", amount=show_money(max(prices), project.currency))
    drawing.text(x + width, top - 5.0, note, 9, align="right", within=width - used - 2)
    drawing.line(x, top - 6.2, x + width, top - 6.2, THIN_PT)
    step = width / MOST_PLACES
    scale = max(max(one.place.width / (step - 8), one.place.height / 14.0) for one in places)
    for index, one in enumerate(places):
        _place(drawing, x + (index + 0.5) * step, top, step - 1.5, one, scale, _where(project, wall, arrangement, one))
    base = top - CARD[1]
    drawing.text(x, base + 6.2, say("mm, from the edge"), 9, within=32)
    for mark in range(81):
        long_tick = mark % 10 == 0
        high = 5.0 if mark in (50, 80) else 3.6 if long_tick else 2.6 if mark % 5 == 0 else 1.8
        at = left + mark * factor
        drawing.line(at, base, at, base + high, THIN_PT if long_tick else HAIR_PT)
        if mark in (50, 80):
            drawing.text(at, base + 6.2, str(mark), 9, "bold", "centre")


def _place(
    drawing: Drawing, middle: float, top: float, width: float, one: HuntedPlace, scale: float, where: str
) -> None:
    wide, high = one.place.width / scale, one.place.height / scale
    bottom = top - 21.6
    drawing.box(middle - wide / 2, bottom, wide, high)
    inner = (one.least_mm[0] / scale, one.least_mm[1] / scale)
    drawing.box(middle - inner[0] / 2, bottom + (high - inner[1]) / 2, *inner, HAIR_PT, dash=_DASH)
    if one.number is not None:
        size = min(12.0, inner[0] * 1.6, inner[1] * 1.6)
        drawing.text(middle, bottom + high / 2 - size * 0.12, str(one.number), size, "bold", "centre")
    y = bottom - 3.6
    drawing.text(middle, y, where, 9, align="centre", within=width)
    lines = (
        (_mm(math.floor(one.place.width + 1e-6), math.floor(one.place.height + 1e-6)), "bold", 10.0),
        (_inches(one.place.width, one.place.height, largest=True), "bold", 9.0),
        (
            say("from {size}", size=_mm(math.ceil(one.least_mm[0] - 1e-6), math.ceil(one.least_mm[1] - 1e-6))),
            "regular",
            9.0,
        ),
        (_inches(*one.least_mm, largest=False), "regular", 9.0),
    )
    for words, weight, size in lines:
        y -= 4.1
        drawing.text(middle, y, words, size, weight, "centre", within=width)  # type: ignore[arg-type]


def _mm(width: int, height: int) -> str:
    return f"{width}\u00a0×\u00a0{height}"


def _inches(width_mm: float, height_mm: float, *, largest: bool) -> str:
    """Inches to the eighth, rounded inward: the largest down, the smallest up."""
    style = LengthStyle("in", denominator=8)
    sides = []
    for side in (width_mm, height_mm):
        eighths = math.floor(side / _EIGHTH + 1e-9) if largest else math.ceil(side / _EIGHTH - 1e-9)
        sides.append(show_length(eighths * _EIGHTH, style).removesuffix("\u00a0in"))
    return f"{sides[0]}\u00a0×\u00a0{sides[1]}\u00a0in"


def _where(project: Project, wall: Wall, arrangement: Arrangement, one: HuntedPlace) -> str:
    """Where the place is, by the pieces beside it."""
    gap = float(arrangement.gap.mm)
    beside: list[tuple[float, str]] = []
    for piece, place in project.hung_on(wall.key, arrangement):
        if piece.number == one.number:
            continue
        other = Rectangle.at(place.left, place.bottom, *piece.size_mm(turned=place.turned))
        across, up = one.place.overlap(other)
        words = None
        if up > 0 and across <= 0:
            words = "right" if other.right <= one.place.left + 1e-6 else "left"
        elif across > 0 and up <= 0:
            words = "under" if other.bottom >= one.place.top - 1e-6 else "over"
        if words is not None and max(-across, -up) <= 3 * gap + 1e-6:
            beside.append(
                (max(-across, -up) - (0.01 if words in ("right", "under") else 0.0), f"{words} {piece.number}")
            )
    if not beside:
        return ""
    side, _, number = min(beside)[1].partition(" ")
    return {
        "right": say("right of {number}", number=number),
        "left": say("left of {number}", number=number),
        "under": say("under {number}", number=number),
        "over": say("above {number}", number=number),
    }[side]


def _weights(project: Project, wall: Wall, places: Sequence[HuntedPlace], costs: Costs) -> list[_Weight]:
    """What the hardware at hand carries, all in: strips left over, fixings left over or usual, a seat below."""
    known = catalogues.of(project.catalogue)
    found = []
    rest = still_hangs(project, costs)
    strips = next((one for one in rest if one.group == "strips" and one.carries_kg is not None), None)
    if strips is not None and strips.carries_kg is not None:
        words = say("strips at hand ({pairs} pairs), no glass", pairs=strips.pairs)
        found.append(_Weight(words, strips.carries_kg))
    else:
        medium = known.strip_classes["medium"]
        words = say("strips, medium, 2 pairs, no glass")
        found.append(_Weight(words, 2 * medium.rating_kg / known.strip_rules.margin))
    hooks = [one for one in rest if one.group == "fixing" and one.carries_kg]
    if not wall.no_holes:
        if hooks:
            best = max(hooks, key=lambda one: one.carries_kg or 0.0)
            found.append(_Weight(say("{fixing} at hand", fixing=best.name), best.carries_kg or 0.0))
        else:
            hook = known.fixings["hook-one-nail"]
            found.append(_Weight(say("one-nail hook, one point"), hook.load_kg or 0.0))
    if any(_above_seat(wall, one.place) for one in places):
        found.append(_Weight(say("above a seat, at most"), SEAT_KG))
    return found


def _above_seat(wall: Wall, place: Rectangle) -> bool:
    return any(
        one.kind in _SEATS and min(place.right, one.left + one.width.mm) > max(place.left, one.left)
        for one in wall.obstacles
    )


def _flat_needed(project: Project) -> float:
    """The least flat of a moulding's back for medium strips, mm."""
    known = catalogues.of(project.catalogue)
    return known.strip_classes["medium"].width_mm + known.strip_rules.least_inset_mm


def _back(drawing: Drawing, left: float, top: float, weights: Sequence[_Weight], flat: float, factor: float) -> None:
    x, width = left + _PAD, CARD[0] - 2 * _PAD
    drawing.text(x, top - 5.0, say("Greatest weight, all in"), 10, "bold", within=width)
    drawing.line(x, top - 6.2, x + width, top - 6.2, THIN_PT)
    y = top - 6.2
    for one in weights:
        y -= 4.0
        drawing.text(x, y, one.words, 9, within=width - 33)
        drawing.text(x + width - 18, y, show_mass(one.kg, "kg"), 10, "bold", "right", within=15)
        drawing.text(x + width, y, show_mass(_whole_ounces(one.kg), "lb"), 9, align="right", within=17)
    y -= 4.0
    drawing.text(x, y, say("A full litre carton and an apple weigh about 1.2 kg."), 9, within=width)
    checks = (
        say("Lies flat, does not rock. Both diagonals equal to 3 mm."),
        say("Corners tight when pushed. No fresh worm dust."),
        say("Flat of the back {mm} ({inches}) or more, or no strips.", mm=f"{flat:g}", inches=_inch(flat)),
        say(
            "Rabbet {mat} ({mat_inches}) deep with a mat, {bare} without.",
            mat=f"{RABBET_MAT_MM:g}",
            mat_inches=_inch(RABBET_MAT_MM),
            bare=f"{RABBET_MM:g}",
        ),
        say("Cracked glass is no matter: acrylic goes in."),
    )
    y -= 1.2
    for number, check in enumerate(checks, 1):
        y -= 3.75
        drawing.text(x, y, str(number), 9, "bold")
        drawing.text(x + 3.6, y, check, 9, within=width - 3.6)
    base = top - CARD[1]
    drawing.text(x, base + 6.2, say("inch"), 9, within=14)
    for mark in range(25):
        high = 5.0 if mark % 8 == 0 else 3.6 if mark % 4 == 0 else 2.2
        at = left + mark * _EIGHTH * factor
        drawing.line(at, base, at, base + high, THIN_PT if mark % 8 == 0 else HAIR_PT)
        if mark and mark % 8 == 0:
            drawing.text(at, base + 6.2, str(mark // 8), 9, "bold", "centre")


def _whole_ounces(kg: float) -> float:
    """Rounded down to the ounce: a greatest weight never grows."""
    return math.floor(kg / 0.028349523125 + 1e-9) * 0.028349523125


def _inch(mm: float) -> str:
    return show_length(math.ceil(mm / _EIGHTH - 1e-9) * _EIGHTH, LengthStyle("in", denominator=8))


def _found(drawing: Drawing, area: Area, top: float) -> None:
    base = top - 8.4
    used = drawing.text(area.left, base, say("Found"), 14, "bold", within=40)
    drawing.text(
        area.left + used + 6,
        base,
        say("type it in at home; letters as on the measuring sheet"),
        9,
        within=area.width - used - 8,
    )
    heads = (
        (say("place"), 1.0),
        (say("A width"), 1.4),
        (say("B height"), 1.4),
        (say("C depth"), 1.2),
        (say("F glass w"), 1.4),
        (say("G glass h"), 1.4),
        (say("H face"), 1.2),
        (say("K kg"), 1.2),
        (say("paid"), 1.6),
    )
    unit = (area.width - 2.0 * (len(heads) - 1)) / sum(share for _, share in heads)
    x = area.left
    rows = max(1, min(2, int((base - 5.4 - area.bottom) / 7.4)))
    for words, share in heads:
        drawing.text(x, base - line_step(9) - 0.6, words, 9, "semibold", within=share * unit)
        for row in range(rows):
            write_in_box(drawing, x, base - 12.4 - row * 7.4, share * unit, 6.4)
        x += share * unit + 2.0
