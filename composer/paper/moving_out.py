"""Moving out: the page of an emptied wall for tenant and landlord. What comes down, what is filled, who has seen it."""

from collections.abc import Sequence
from dataclasses import dataclass

from composer.catalogue import catalogue as catalogues
from composer.model import Project, Wall
from composer.paper.drawing import Area, Drawing
from composer.paper.figures import Figures, figures_of
from composer.paper.furniture import column_head, numbered_steps, sheet_head, steps_height
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT, Page
from composer.paper.rehang_drawing import draw_now, strip_of
from composer.paper.rehang_words import pull_strips_words
from composer.paper.sheet_request import SheetRequest
from composer.paper.template_subject import Datum, datum_of
from composer.paper.wall_drawing import of_wall
from composer.rehang.filling import HoleSize, diameter_of_hole, size_of
from composer.rehang.plan import RehangPlan
from composer.texts import say, say_many

_LEAST = (180.0, 230.0)
_ROW_MM, _HEADS_MM, _HEAD_MM = 6.2, 10.4, 8.4
_HANDOVER_MM = 44.0


@dataclass(frozen=True, slots=True)
class _Row:
    """One hole to fill, or one piece on strips."""

    piece: str
    height: str
    side: str
    what: str
    do: str


def build(project: Project, wall: Wall, request: SheetRequest, plan: RehangPlan) -> list[Page]:
    """One page, more only where there are very many holes.

    Raises:
        SheetTooSmall: the paper is narrower than about A4.
    """
    upright = request.turned(landscape=False)
    area = upright.expect(say("Moving out"), *_LEAST)
    figures, datum = figures_of(project), datum_of(project, wall)
    rows, sizes = _rows(project, plan, datum, figures)
    pages: list[Page] = []
    drawing, y = _begin(project, wall, area, plan, figures, first=True)
    y = _elevation(drawing, area, y, plan, datum, figures, len(rows))
    y = _heads(drawing, area, y, datum)
    steps = _steps(plan, sizes)
    foot = _HEAD_MM + steps_height(area.width, steps) + 4
    for row in rows:
        if y - _ROW_MM < area.bottom:
            pages.append(_page(drawing, upright, area, wall, len(pages)))
            drawing, y = _begin(project, wall, area, plan, figures, first=False)
            y = _heads(drawing, area, y, datum)
        y = _draw(drawing, area, y, row)
    drawing.line(area.left, y, area.right, y, THICK_PT)
    if y - foot - _HANDOVER_MM < area.bottom:
        pages.append(_page(drawing, upright, area, wall, len(pages)))
        drawing, y = _begin(project, wall, area, plan, figures, first=False)
    drawing.text(area.left, y - 7.4, say("In this order"), 14, "bold", within=area.width)
    y = numbered_steps(drawing, area.left, y - 7.4 - 6.0, area.width, steps)
    _handover(drawing, area, y)
    pages.append(_page(drawing, upright, area, wall, len(pages)))
    return pages


def _page(drawing: Drawing, request: SheetRequest, area: Area, wall: Wall, done: int) -> Page:
    label = say("Moving out {number}", number=done + 1)
    return drawing.page(request.size, label, (say("Moving out"), wall.name, label), area)


def _begin(
    project: Project, wall: Wall, area: Area, plan: RehangPlan, figures: Figures, *, first: bool
) -> tuple[Drawing, float]:
    drawing = Drawing()
    below = _summary(plan) if first else say("Continued.")
    note = say("{unit} · left and right as you face the wall", unit=figures.all_in)
    return drawing, sheet_head(drawing, area, say("Moving out"), of_wall(project, wall), note, below)


def _summary(plan: RehangPlan) -> str:
    pieces = say_many("{count} piece comes down", "{count} pieces come down", len(plan.of("down")))
    holes = say_many("{count} hole to fill", "{count} holes to fill", len(plan.fill))
    strips = say_many("{count} pair of strips to pull", "{count} pairs of strips to pull", plan.strips_lost)
    return say(
        "{pieces} · {holes} · {strips}. One page for tenant and landlord.", pieces=pieces, holes=holes, strips=strips
    )


def _elevation(
    drawing: Drawing, area: Area, y: float, plan: RehangPlan, datum: Datum, figures: Figures, rows: int
) -> float:
    most = max(24.0, min(70.0, y - area.bottom - rows * _ROW_MM - 100))
    strip = strip_of(plan, datum.level_line, area.left + 30, area.width - 33, most)
    if strip is None:
        return y - 4
    base = y - 5 - strip.height
    draw_now(drawing, plan, strip, base, datum.level_line, figures)
    return base - 4


def _size_words(size: HoleSize, diameter: float, figures: Figures) -> tuple[str, str]:
    """What made the hole, and what is done with it."""
    wide = figures.full(diameter)
    if size == "nail":
        return say("nail, {wide}", wide=wide), say("pull the nail, fill once")
    if size == "plug":
        return say("plug, {wide}", wide=wide), say("draw the plug or push it in, fill twice")
    return say("anchor, {wide}", wide=wide), say("screw it out or push it in, patch, fill twice")


def _rows(project: Project, plan: RehangPlan, datum: Datum, figures: Figures) -> tuple[list[_Row], frozenset[HoleSize]]:
    known = catalogues.of(project.catalogue)
    rows: list[_Row] = []
    sizes: set[HoleSize] = set()
    for one in sorted(plan.fill, key=lambda one: one.hole.at):
        hole = one.hole.record
        piece = None if hole.piece is None else project.piece_by_key.get(hole.piece)
        diameter = diameter_of_hole(project, hole, known)
        size = size_of(diameter)
        sizes.add(size)
        what, do = _size_words(size, diameter, figures)
        name = say("old hole") if piece is None else say("{number} {name}", number=piece.number, name=piece.name)
        rows.append(_Row(name, figures.bare(hole.y), datum.distance(hole.x, figures), what, do))
    for change in plan.of("down"):
        if change.strips_lost is None:
            continue
        name = say("{number} {name}", number=change.number, name=change.piece.name)
        pairs = say_many("strips, {count} pair", "strips, {count} pairs", change.strips_lost.pairs)
        side = height = ""
        if change.now is not None:
            height, side = figures.bare(change.now.bottom), datum.distance(change.now.left, figures)
        rows.append(_Row(name, height, side, pairs, say("pull straight down; edges of the frame given")))
    return rows, frozenset(sizes)


def _steps(plan: RehangPlan, sizes: frozenset[HoleSize]) -> list[str]:
    steps = [say("Take the pieces down, the heaviest with two people. Keep hooks and nails for the next wall.")]
    if plan.strips_lost:
        steps.append(pull_strips_words())
    if "nail" in sizes:
        steps.append(say("Nail holes: press fine filler in with a knife, a little proud; let it dry."))
    if sizes & {"plug", "anchor"}:
        steps.append(
            say("Plugs and anchors: out, or flush and below the face; fill in two goes, each dry before the next.")
        )
    if plan.fill:
        steps.append(
            say("Sand flush with 180 grit, dust, touch up with the wall’s own paint; a small roller hides best.")
        )
    steps.append(
        say("Take a picture of the bare wall in daylight. Ask the landlord before you paint more than the spots.")
    )
    return steps[:6]


def _heads(drawing: Drawing, area: Area, top: float, datum: Datum) -> float:
    share = area.width / 190.0
    drawing.line(area.left, top, area.right, top, THICK_PT)
    base = top - _HEADS_MM + 2.0
    column_head(drawing, area.left, base, say("piece"), 40)
    column_head(drawing, area.left + 72 * share, base, say("above floor"), 18, "right")
    column_head(drawing, area.left + 92 * share, base, datum.side_words(), 18, "right")
    column_head(drawing, area.left + 97 * share, base, say("what is there"), 26)
    column_head(drawing, area.left + 124 * share, base, say("what to do"), 26)
    column_head(drawing, area.right, base, say("filled, painted"), 16, "right")
    drawing.line(area.left, top - _HEADS_MM, area.right, top - _HEADS_MM, THICK_PT)
    return top - _HEADS_MM


def _draw(drawing: Drawing, area: Area, top: float, row: _Row) -> float:
    share = area.width / 190.0
    base = top - _ROW_MM + 2.0
    drawing.text(area.left, base, row.piece, 10, "semibold", within=54 * share)
    drawing.text(area.left + 72 * share, base, row.height, 10, "bold", "right", within=17)
    drawing.text(area.left + 92 * share, base, row.side, 10, "bold", "right", within=17)
    drawing.text(area.left + 97 * share, base, row.what, 9, within=25 * share)
    drawing.text(area.left + 124 * share, base, row.do, 9, within=52 * share)
    for x in (area.right - 11, area.right - 4.6):
        drawing.box(x, base - 1.0, 4.2, 4.2, THIN_PT)
    drawing.line(area.left, top - _ROW_MM, area.right, top - _ROW_MM, HAIR_PT, GREY)
    return top - _ROW_MM


def _handover(drawing: Drawing, area: Area, top: float) -> None:
    """Who has seen the wall, and how it was."""
    words = say("Handed over")
    drawing.text(area.left, top - 6.0, words, 14, "bold", within=60)
    y = top - 6.0 - 4.0
    checks = (
        say("all holes filled and sanded"),
        say("touched up with the wall’s own paint"),
        say("no traces of strips"),
        say("rest of the paint left in the flat"),
    )
    half = area.width / 2
    for place, check in enumerate(checks):
        x, row = area.left + (place % 2) * half, y - (place // 2) * 6.4
        drawing.box(x + 0.3, row - 4.4, 4.4, 4.4, THIN_PT)
        drawing.text(x + 8, row - 3.4, check, 10, within=half - 12)
    y -= 2 * 6.4 + 8.0
    fields: Sequence[str] = (say("date"), say("tenant"), say("landlord"))
    width = (area.width - 16) / 3
    for place, field in enumerate(fields):
        x = area.left + place * (width + 8)
        drawing.line(x, y, x + width, y, THIN_PT)
        drawing.text(x, y - 3.8, field, 9, within=width)
    y -= 11.0
    noted = say("noted")
    used = drawing.text(area.left, y, noted, 9, within=24)
    drawing.line(area.left + used + 3, y - 0.6, area.right, y - 0.6, THIN_PT)
