"""Parts that sheets share: heads, dimension lines, rulers, tables, steps, boxes to write in."""

from collections.abc import Sequence

from composer.paper.drawing import Area, Drawing, line_step, lines_of
from composer.paper.figures import Figures
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT, Weight, arrow_up
from composer.paper.type_metrics import fitting_size, printable, text_width_mm
from composer.texts import say

MM_PER_INCH = 25.4
TICK_MM = 1.1
HEAD_MM = 17.5
"""Height of a list sheet's head, from the printable edge to below its rule."""


def sheet_head(drawing: Drawing, area: Area, title: str, of: str, note: str, below: str = "") -> float:
    """Title, what it belongs to, a note on the right, one sentence below; returns the y of its rule."""
    base = area.top - 7.5
    size = fitting_size(printable(title), area.width * 0.42, 18, "bold", 11)
    used = drawing.text(area.left, base, title, size, "bold", within=area.width * 0.42)
    noted = min(text_width_mm(printable(note), 9), area.width * 0.37)
    lines = min(2, lines_of(note, noted + 0.01, 9))
    drawing.paragraph(area.right, base + 0.6 + (lines - 1) * 2.4, note, noted + 0.01, 9, align="right", most=2)
    room = area.width - used - noted - 11
    if room > 12:
        drawing.text(area.left + used + 6, base, of, 14, "semibold", within=room)
    rule = base - 4.5
    if below:
        after = drawing.paragraph(area.left, base - 8.2, below, area.width, 10, most=3)
        rule = after + line_step(10) - 3.2
    drawing.line(area.left, rule, area.right, rule, THICK_PT)
    return rule


def tick(drawing: Drawing, x: float, y: float, width_pt: float = THIN_PT) -> None:
    """The open 45° tick that ends a dimension line."""
    drawing.line(x - TICK_MM, y - TICK_MM, x + TICK_MM, y + TICK_MM, width_pt)


def dimension_across(drawing: Drawing, x1: float, x2: float, y: float, label: str, size_pt: float = 9) -> None:
    """A dimension line with open ticks, the number above its middle; beside it where there is no room."""
    drawing.line(x1, y, x2, y, HAIR_PT)
    tick(drawing, x1, y)
    tick(drawing, x2, y)
    wide = text_width_mm(printable(label), size_pt, "semibold")
    if wide <= x2 - x1 - 1:
        drawing.text((x1 + x2) / 2, y + 1.1, label, size_pt, "semibold", "centre")
    else:
        drawing.text(x2 + 2, y + 1.1, label, size_pt, "semibold")


def dimension_up(drawing: Drawing, x: float, y1: float, y2: float, label: str, size_pt: float = 9) -> None:
    """The same, upright; the number is read from the right and stands left of the line."""
    drawing.line(x, y1, x, y2, HAIR_PT)
    tick(drawing, x, y1)
    tick(drawing, x, y2)
    wide = text_width_mm(printable(label), size_pt, "semibold")
    if wide <= abs(y2 - y1) - 1:
        drawing.text(x - 1.1, (y1 + y2) / 2, label, size_pt, "semibold", "centre", turn=90)
    else:
        drawing.text(x - 1.1, max(y1, y2) + 2, label, size_pt, "semibold", turn=90)


def hole_ring(drawing: Drawing, x: float, y: float) -> None:
    """Where the nail goes: a ring 8 mm across with a dot."""
    drawing.circle(x, y, 4.0, THICK_PT)
    drawing.circle(x, y, 0.6, None, fill_grey=0.0)


def point_cross(drawing: Drawing, x: float, y: float) -> None:
    """Where the frame bears: two strokes of exactly 12 mm that cross at their middles."""
    drawing.line(x - 6, y, x + 6, y, THIN_PT)
    drawing.line(x, y - 6, x, y + 6, THIN_PT)


def black_label(drawing: Drawing, x: float, y: float, text: str, size_pt: float = 9) -> float:
    """White capitals on black, the base line at ``y``; returns the label's width, mm."""
    wide = text_width_mm(printable(text), size_pt, "bold") + 3
    drawing.box(x, y - 1.1, wide, 4.6, None, fill_grey=0.0)
    drawing.text(x + 1.5, y, text, size_pt, "bold", grey=1.0)
    return wide


def nail_here(drawing: Drawing, x: float, y: float) -> float:
    """The label of a hole."""
    return black_label(drawing, x, y, say("NAIL HERE"))


def this_side_up(drawing: Drawing, x: float, bottom: float, words_below: bool = True) -> None:
    """The filled arrow every sheet that goes on the wall carries, with its words below or at its right."""
    if words_below:
        drawing.text(x, bottom, say("THIS SIDE UP"), 9, "bold", "centre", within=34)
        drawing.add(arrow_up(x, bottom + 5.5))
    else:
        drawing.add(arrow_up(x, bottom, 12))
        drawing.text(x + 8, bottom + 4.6, say("THIS SIDE UP"), 9, "bold", within=24)


def numbered_steps(
    drawing: Drawing, left: float, top: float, width: float, steps: Sequence[str], size_pt: float = 10, gap: float = 1.4
) -> float:
    """Steps with their numbers, the first base line at ``top``; returns the base line below the last."""
    for number, step in enumerate(steps, 1):
        drawing.text(left, top, str(number), size_pt, "bold")
        top = drawing.paragraph(left + 5, top, step, width - 5, size_pt) - gap
    return top


def steps_height(width: float, steps: Sequence[str], size_pt: float = 10, gap: float = 1.4) -> float:
    """How much room the steps will take, mm."""
    return sum(lines_of(step, width - 5, size_pt) * line_step(size_pt) + gap for step in steps)


def table_rows(
    drawing: Drawing,
    left: float,
    right: float,
    top: float,
    rows: Sequence[tuple[str, str]],
    row_mm: float = 7.0,
    value_pt: float = 12,
) -> float:
    """Rows of words and a bold number at the right, a grey hairline below each; returns the y of the last line."""
    for words, value in rows:
        wide = drawing.text(right, top - row_mm + 2, value, value_pt, "bold", "right", within=(right - left) * 0.6)
        drawing.text(left, top - row_mm + 2, words, 10, within=right - left - wide - 2)
        top -= row_mm
        drawing.line(left, top, right, top, HAIR_PT, GREY)
    return top


def column_head(
    drawing: Drawing, x: float, y: float, words: str, width: float, align: str = "left", weight: Weight = "semibold"
) -> None:
    """Up to two lines of small words whose last base line is ``y``."""
    lines = min(2, lines_of(words, width, 9, weight))
    side = "right" if align == "right" else "centre" if align == "centre" else "left"
    drawing.paragraph(x, y + (lines - 1) * line_step(9), words, width, 9, weight, side, most=2)  # type: ignore[arg-type]


def write_in_box(drawing: Drawing, left: float, bottom: float, width: float, height: float = 6.4) -> None:
    """An empty box: write here."""
    drawing.box(left, bottom, width, height, THIN_PT)


def not_needed(drawing: Drawing, x: float, y: float) -> None:
    """The short grey dash that says: nothing to write here."""
    drawing.line(x - 2, y, x + 2, y, THIN_PT, GREY)


def check_ruler(
    drawing: Drawing, left: float, bottom: float, figures: Figures, room: float, factor: float = 1.0
) -> float:
    """A ruler to measure before anything else: 150 mm or 6 in, shorter where there is less room.

    Args:
        left, bottom: where its zero and its numbers stand, mm.
        figures: gives the unit.
        room: how much there is across, mm.
        factor: draw factor of a corrected printer; the ruler is drawn longer or shorter by it.

    Returns:
        Its nominal length, mm; 0 when there was no room for any ruler.
    """
    step, major = (MM_PER_INCH / 2, 2) if figures.imperial else (10.0, 5)
    lengths = [6, 5, 4, 3, 2] if figures.imperial else [150, 100, 50]
    unit_mm = MM_PER_INCH if figures.imperial else 1.0
    tail = 12.0
    length = next((size for size in lengths if size * unit_mm * factor + tail <= room), 0)
    if not length:
        return 0.0
    nominal = length * unit_mm
    base = bottom + 5.5
    right = left + nominal * factor
    drawing.line(left, base, right, base, THIN_PT)
    for index in range(round(nominal / step) + 1):
        x = left + index * step * factor
        long_tick = index % major == 0
        drawing.line(x, base, x, base + (5 if long_tick else 2.6), THIN_PT if long_tick else HAIR_PT)
        if long_tick:
            last = index * step >= nominal - 1e-9
            drawing.text(
                x,
                bottom,
                f"{index * step / unit_mm:.0f}" + (f"\u00a0{figures.unit}" if last else ""),
                9,
                "semibold",
                "centre",
            )
    if figures.imperial:
        words = say("Check ruler {length} in. Good: within {slack} in", length=length, slack="1/64")
    else:
        words = say(
            "Check ruler {length} mm. Good: {low} to {high}",
            length=length,
            low=f"{length - 0.5:g}",
            high=f"{length + 0.5:g}",
        )
    reads = say("it reads")
    wide = text_width_mm(printable(reads), 9) + 16
    drawing.text(left, base + 7.4, words, 9, "semibold", within=right - left - wide - 3)
    drawing.text(right - 14, base + 7.4, reads, 9, align="right", within=wide)
    drawing.line(right - 13, base + 7, right, base + 7, THIN_PT)
    return nominal
