"""Now above Then: two small elevations with the same x, and the signs on them.

Thin solid, light number: stays · dashed, arrow: moves · dashed, minus: comes down · thick, plus: goes
up. A dot is a hole that serves again, a cross one to fill, a ring with a dot a new one.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Drawing
from composer.paper.figures import Figures
from composer.paper.furniture import dimension_across
from composer.paper.primitives import (
    CENTRE_DASH,
    GREY,
    HAIR_PT,
    MM_PER_PT,
    SOLID,
    THICK_PT,
    THIN_PT,
    WHITE,
    Dash,
    Polygon,
)
from composer.paper.rehang_words import Mark
from composer.paper.type_metrics import text_width_mm
from composer.rehang.order import Act
from composer.rehang.plan import Change, RehangPlan
from composer.texts import say

SCALES = (10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0)
DASHED: Dash = (1.6, 1.0)
Sign = Literal["arrow", "minus", "plus", "none"]


@dataclass(frozen=True, slots=True)
class Strip:
    """The part of the wall both drawings show: its height range, the scale, where x = 0 falls, where words begin."""

    bottom: float
    top: float
    scale: float
    left: float
    edge: float

    @property
    def height(self) -> float:
        """On the page, mm."""
        return (self.top - self.bottom) / self.scale


def strip_of(plan: RehangPlan, level_line: float, left: float, width: float, most_height: float) -> Strip | None:
    """How both drawings fit; None where the paper is too small for any scale."""
    around: Rectangle | None = None
    for change in plan.changes:
        for place in (change.now, change.then):
            if place is not None:
                around = place if around is None else around.united(place)
    for hole in plan.fill:
        spot = Rectangle(*hole.hole.at, *hole.hole.at)
        around = spot if around is None else around.united(spot)
    if around is None:
        return None
    bottom, top = min(around.bottom, level_line) - 60, max(around.top, level_line) + 60
    wide = float(plan.wall.width.mm)
    for scale in SCALES:
        if wide / scale <= width and (top - bottom) / scale <= most_height:
            return Strip(bottom, top, scale, left + (width - wide / scale) / 2, left - 30)
    return None


def draw_now(
    drawing: Drawing, plan: RehangPlan, strip: Strip, base: float, level_line: float, figures: Figures
) -> None:
    """What is up, the strip's lower edge at ``base``."""
    _ground(drawing, plan, strip, base, level_line, figures, say("Now"))
    for change in plan.changes:
        if change.now is not None:
            sign: Sign = "none" if change.action == "stay" else "minus" if change.action == "down" else "arrow"
            _piece(drawing, strip, base, change.now, change, sign, moving=change.action in ("move", "down"))
    used = {hole.old.index for change in plan.changes for hole in change.used_again if hole.old is not None}
    for one in plan.fill:
        fill_mark(drawing, *_at(strip, base, *one.hole.at))
    for change in plan.changes:
        for hole in change.used_again:
            if hole.old is not None and hole.old.index in used:
                again_mark(drawing, *_at(strip, base, *hole.old.at))


def draw_then(
    drawing: Drawing, plan: RehangPlan, strip: Strip, base: float, level_line: float, figures: Figures
) -> None:
    """What shall be up."""
    _ground(drawing, plan, strip, base, level_line, figures, say("Then"))
    for change in plan.changes:
        if change.then is not None:
            sign: Sign = "none" if change.action == "stay" else "plus" if change.action == "up" else "arrow"
            _piece(drawing, strip, base, change.then, change, sign, thick=change.action == "up")
    for one in plan.fill:
        fill_mark(drawing, *_at(strip, base, *one.hole.at))
    for change in plan.changes:
        for hole in change.holes:
            mark = new_mark if hole.old is None else again_mark
            mark(drawing, *_at(strip, base, hole.x, hole.y))


def dimensions_below(drawing: Drawing, plan: RehangPlan, strip: Strip, base: float, figures: Figures) -> None:
    """Left of the group, the group, right of it, as they will be."""
    places = [change.then for change in plan.changes if change.then is not None]
    if not places:
        return
    left, right = min(place.left for place in places), max(place.right for place in places)
    stops = [0.0, left, right, float(plan.wall.width.mm)]
    for x in stops:
        drawing.line(strip.left + x / strip.scale, base - 1, strip.left + x / strip.scale, base - 6.5, HAIR_PT, GREY)
    y = base - 5.5
    for place, (first, second) in enumerate(itertools.pairwise(stops)):
        if second - first <= 1e-6:
            continue
        start, end = strip.left + first / strip.scale, strip.left + second / strip.scale
        label = figures.bare(second - first)
        if text_width_mm(label, 9, "semibold") <= end - start - 1:
            dimension_across(drawing, start, end, y, label)
            continue
        # No room between the ticks: outside at the left, below at the right, so that no number meets the next.
        dimension_across(drawing, start, end, y, "")
        if place == 0:
            drawing.text(start - 2, y + 1.1, label, 9, "semibold", "right")
        else:
            drawing.text(end, y - 3.4, label, 9, "semibold", "right")


def _at(strip: Strip, base: float, x: float, y: float) -> tuple[float, float]:
    return strip.left + x / strip.scale, base + (y - strip.bottom) / strip.scale


def _ground(
    drawing: Drawing, plan: RehangPlan, strip: Strip, base: float, level_line: float, figures: Figures, title: str
) -> None:
    left, right, edge = strip.left, strip.left + float(plan.wall.width.mm) / strip.scale, strip.edge
    for x in (left, right):
        drawing.line(x, base, x, base + strip.height, THIN_PT)
    y = base + (level_line - strip.bottom) / strip.scale
    drawing.line(left - 2, y, right + 2, y, HAIR_PT, dash=CENTRE_DASH)
    drawing.text(left - 3, y - 1.1, figures.bare(level_line), 9, "semibold", "right", within=14)
    drawing.text(edge, base + strip.height - 4.6, title, 14, "bold", within=17)
    drawing.text(edge, base + strip.height - 8.8, f"1\u00a0:\u00a0{strip.scale:g}", 9, within=16)


def _piece(
    drawing: Drawing,
    strip: Strip,
    base: float,
    place: Rectangle,
    change: Change,
    sign: Sign,
    *,
    moving: bool = False,
    thick: bool = False,
) -> None:
    x, y = _at(strip, base, place.left, place.bottom)
    wide, high = place.width / strip.scale, place.height / strip.scale
    drawing.box(x, y, wide, high, THICK_PT if thick else THIN_PT, fill_grey=WHITE, dash=DASHED if moving else SOLID)
    size = min(12.0, high * 0.75 / MM_PER_PT, wide * 0.8 / max(0.5, len(str(change.number)) * 0.53 * MM_PER_PT))
    weight: Literal["regular", "bold"] = "regular" if sign == "none" else "bold"
    number_mm = len(str(change.number)) * 0.53 * size * MM_PER_PT
    middle_x, middle_y = x + wide / 2, y + high * 0.42
    beside = sign != "none" and wide >= number_mm + 6
    below = sign != "none" and not beside and high >= size * MM_PER_PT + 5.5
    shift = -2.6 if beside else 0.0
    lift = 1.8 if below else 0.0
    drawing.text(
        middle_x + shift, middle_y + lift - size * 0.33 * MM_PER_PT, str(change.number), size, weight, "centre"
    )
    if beside or below:
        at = (middle_x + number_mm / 2 + 0.4, middle_y) if beside else (middle_x, middle_y - size * MM_PER_PT * 0.42)
        draw_sign(drawing, *at, sign, _way(change))


def _way(change: Change) -> tuple[float, float]:
    if change.now is None or change.then is None:
        return (1.0, 0.0)
    return change.then.left - change.now.left, change.then.bottom - change.now.bottom


def draw_sign(drawing: Drawing, x: float, y: float, sign: Sign, way: tuple[float, float] = (1.0, 0.0)) -> None:
    """An arrow that points the true way, a minus or a plus, 3.4 mm across."""
    half = 1.7
    if sign == "minus":
        drawing.line(x - half, y, x + half, y, THICK_PT)
    elif sign == "plus":
        drawing.line(x - half, y, x + half, y, THICK_PT)
        drawing.line(x, y - half, x, y + half, THICK_PT)
    elif sign == "arrow":
        length = math.hypot(*way) or 1.0
        ux, uy = way[0] / length, way[1] / length
        tip = (x + ux * half, y + uy * half)
        neck = (x + ux * 0.1, y + uy * 0.1)
        drawing.line(x - ux * half, y - uy * half, *neck, THICK_PT)
        drawing.add(
            Polygon(
                (tip, (neck[0] - uy * 1.2, neck[1] + ux * 1.2), (neck[0] + uy * 1.2, neck[1] - ux * 1.2)), fill_grey=0.0
            )
        )


def sign_of(act: Act) -> Sign:
    """The sign of an act."""
    return {"down": "minus", "aside": "minus", "move": "arrow", "hang": "arrow", "up": "plus"}[act]  # type: ignore[return-value]


def again_mark(drawing: Drawing, x: float, y: float) -> None:
    """A hole that serves again."""
    drawing.circle(x, y, 0.7, None, fill_grey=0.0)


def fill_mark(drawing: Drawing, x: float, y: float) -> None:
    """A hole to fill."""
    drawing.line(x - 0.9, y - 0.9, x + 0.9, y + 0.9, THIN_PT)
    drawing.line(x - 0.9, y + 0.9, x + 0.9, y - 0.9, THIN_PT)


def new_mark(drawing: Drawing, x: float, y: float) -> None:
    """A new hole."""
    drawing.circle(x, y, 1.1, THIN_PT, fill_grey=WHITE)
    drawing.circle(x, y, 0.35, None, fill_grey=0.0)


def draw_mark(drawing: Drawing, x: float, y: float, mark: Mark) -> None:
    """The mark of a hole; nothing for none."""
    if mark != "none":
        {"again": again_mark, "fill": fill_mark, "new": new_mark}[mark](drawing, x, y)


def legend(drawing: Drawing, left: float, right: float, y: float, plan: RehangPlan) -> None:
    """The signs with their numbers, in one row whose middle is at ``y``."""
    boxes: Sequence[tuple[Sign, str, int]] = (
        ("none", say("stay"), len(plan.of("stay"))),
        ("arrow", say("move"), len(plan.of("move"))),
        ("minus", say("down"), len(plan.of("down"))),
        ("plus", say("up"), len(plan.of("up"))),
    )
    marks: Sequence[tuple[Mark, str, int]] = (
        ("again", say("used again"), plan.used_again),
        ("fill", say("to fill"), len(plan.fill)),
        ("new", say("new"), plan.new_holes),
    )
    width = right - left
    step, start = width * 0.128, left
    for sign, words, count in boxes:
        drawing.box(
            start,
            y - 2.4,
            8.6,
            4.8,
            THICK_PT if sign == "plus" else THIN_PT,
            dash=DASHED if sign in ("arrow", "minus") else SOLID,
        )
        draw_sign(drawing, start + 4.3, y, sign)
        drawing.text(start + 10.2, y - 1.3, say("{count} {what}", count=count, what=words), 10, within=step - 11.4)
        start += step
    start += 2
    used = drawing.text(start, y - 1.3, say("holes"), 10, within=14)
    start += used + 4
    step = (right - start) / 3
    for mark, words, count in marks:
        draw_mark(drawing, start, y, mark)
        drawing.text(start + 2.4, y - 1.3, say("{count} {what}", count=count, what=words), 10, within=step - 4.4)
        start += step
