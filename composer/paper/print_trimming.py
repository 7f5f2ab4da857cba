"""What to do at home: measure the bar, cut, and which prints may stay whole under their mats."""

from collections.abc import Sequence

from composer.costing.shown import show_money, show_numbers
from composer.paper.figures import Figures
from composer.paper.furniture import not_needed, numbered_steps, steps_height, write_in_box
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT
from composer.paper.print_apart import has_bar, white_step
from composer.paper.print_drawings import draw_print
from composer.paper.print_flow import PrintFlow
from composer.paper.print_rows import PrintRow
from composer.prints.marks import BAR_HIGH_MM, BAR_LOW_MM
from composer.prints.sharing import SharedStock
from composer.texts import say, say_many

_LABELS_MM = 24.0
_FIGURE_ROWS_MM = (4.6, 4.9, 4.6, 4.6, 8.2)
"""Heights of the rows below a drawing: sheet, what to keep, waste right, waste below, the box."""


def draw_at_home(
    flow: PrintFlow, kept: Sequence[PrintRow], trim: Sequence[PrintRow], together: Sequence[SharedStock] = ()
) -> None:
    """What to measure, then what to cut; ``together`` are the sheets that several prints share."""
    steps = _steps(flow, kept, trim, together)
    flow.room(16 + steps_height(flow.area.width, steps, gap=0.5) + 30)
    pen = flow.drawing
    base = flow.y - 10.5
    cutting = bool(trim or together)
    heading = say("At home: first the bar, then the knife") if cutting else say("At home: measure the bar")
    pen.text(flow.area.left, base, heading, 14, "semibold", within=flow.area.width * 0.62)
    note = say("drawn 1 : {scale}, the waste is grey", scale=f"{flow.scale:g}")
    pen.text(flow.area.right, base, note, 9, align="right", within=flow.area.width * 0.34)
    flow.y = numbered_steps(pen, flow.area.left, base - 6.0, flow.area.width, steps, gap=0.5) + 1.5


def _steps(
    flow: PrintFlow, kept: Sequence[PrintRow], trim: Sequence[PrintRow], together: Sequence[SharedStock]
) -> list[str]:
    low, high = f"{BAR_LOW_MM:g}", f"{BAR_HIGH_MM:g}"
    barred = [row for row in kept if row.layout is not None and row.layout.bars]
    bare = [row for row in kept if row.layout is not None and not row.layout.bars]
    steps: list[str] = []
    if barred or any(has_bar(one) for one in together):
        steps.append(
            say(
                "Measure the bar in the waste: {bar}. {low} to {high} is good. Else the lab has scaled the print: "
                "cut nothing, have it printed again.",
                bar=say("50 mm (1 31/32 in)") if flow.figures.imperial else say("50 mm"),
                low=low,
                high=high,
            )
        )
    if bare:
        sizes = [flow.figures.size(*row.layout.kept_mm) for row in bare if row.layout is not None]
        numbers = show_numbers(row.piece.number for row in bare)
        shown = ", ".join(sizes[:8]) + ("…" if len(sizes) > 8 else "")
        steps.append(say("No bar ({numbers})? Then measure the picture itself: {sizes}.", numbers=numbers, sizes=shown))
    if trim:
        steps.append(
            say(
                "Cut right of the picture first, then below. Always measure what you keep, from the left and from "
                "the top edge."
            )
        )
    if together:
        steps.append(white_step(flow.figures))
    return steps


def draw_trimming(flow: PrintFlow, rows: Sequence[PrintRow]) -> None:
    """Prints with something to cut off, a row each; their names stand below each other."""
    widest = max(row.layout.width_mm for row in rows if row.layout is not None) / flow.scale
    name_x = flow.area.left + max(30.0 * flow.share, widest + 4)
    flow.room(14 + _trim_height(rows[0], flow.scale))
    _trim_heads(flow, rows)
    for index, row in enumerate(rows):
        height = _trim_height(row, flow.scale)
        if flow.y - height < flow.area.bottom:
            flow.room(height)
            _trim_heads(flow, rows)
        _trim_row(flow, row, height, name_x)
        last = index == len(rows) - 1
        weight, grey = (THICK_PT, 0.0) if last else (HAIR_PT, GREY)
        flow.drawing.line(flow.area.left, flow.y, flow.area.right, flow.y, weight, grey)


def _trim_heads(flow: PrintFlow, rows: Sequence[PrintRow]) -> None:
    pen = flow.drawing
    base = flow.y - 8.0
    words = say_many("Trim this one", "Trim these {count}", len(rows))
    used = pen.text(flow.area.left, base - 1.5, words, 14, "semibold", within=44 * flow.share)
    if all(row.planned.mat is None for row in rows):
        note, room = say("they have no mat"), 66 * flow.share - used - 8
        if room > 15:
            pen.text(flow.area.left + used + 5, base - 1.5, note, 9, within=room)
    heads = (
        (94, "right", 20, (say("keep from"), say("left edge"))),
        (116, "right", 20, (say("keep from"), say("top edge"))),
        (134, "right", 16, (say("waste"), say("right"))),
        (151, "right", 15, (say("waste"), say("below"))),
        (155, "left", 23, (say("bar reads"), say("across, up"))),
        (190, "right", 9, (say("done"),)),
    )
    for x, align, width, lines in heads:
        for index, line in enumerate(lines):
            pen.text(flow.x(x), base - 3.6 * index, line, 9, "semibold", align, within=width * flow.share)  # type: ignore[arg-type]
    flow.y = base - 6.6
    pen.line(flow.area.left, flow.y, flow.area.right, flow.y, THIN_PT)


def _trim_row(flow: PrintFlow, row: PrintRow, height: float, name_x: float) -> None:
    pen, layout = flow.drawing, row.layout
    assert layout is not None and row.printed.fit is not None
    middle = flow.y - height / 2
    draw_print(
        pen,
        flow.area.left,
        middle + layout.height_mm / flow.scale / 2,
        layout,
        flow.scale,
        row.piece.number,
        flow.photos.get(row.piece.key),
    )
    name_room = flow.x(94) - name_x - 18
    pen.text(name_x, middle + 1.0, row.piece.name, 10, "semibold", within=name_room)
    pen.text(name_x, middle - 3.4, _order_words(row, flow.project.currency), 9, within=name_room)
    base = middle - 1.7
    kept = layout.kept_mm
    pen.text(flow.x(94), base, flow.figures.bare(kept[0]), 14, "bold", "right", within=17)
    pen.text(flow.x(116), base, flow.figures.bare(kept[1]), 14, "bold", "right", within=20)
    if row.usual_corner:
        waste = layout.waste
        pen.text(flow.x(134), base + 0.3, flow.figures.bare(waste["right"]), 10, align="right", within=16)
        pen.text(flow.x(151), base + 0.3, flow.figures.bare(waste["bottom"]), 10, align="right", within=15)
    else:
        pen.paragraph(flow.x(118.5), base + 3.6, _elsewhere(row, flow.figures), 33.5 * flow.share, 8, most=3)
    ways = [way for way, _, _ in layout.bars]
    for x, way in ((155.0, "across"), (168.0, "up")):
        if way in ways:
            write_in_box(pen, flow.x(x), middle - 3.2, 11.4)
        else:
            not_needed(pen, flow.x(x) + 5.7, middle)
    write_in_box(pen, flow.x(190) - 6.5, middle - 2.3, 4.6, 4.6)
    flow.y -= height


def draw_whole(flow: PrintFlow, rows: Sequence[PrintRow], *, others: bool) -> None:
    """Prints that need no knife, several side by side; ``others`` = some do."""
    bands = _bands(rows, flow.scale, flow.area.width - _LABELS_MM)
    for index, band in enumerate(bands):
        highest = max(row.layout.height_mm / flow.scale for row in band if row.layout is not None)
        flow.room(highest + sum(_FIGURE_ROWS_MM) + 18)
        if index == 0:
            base = flow.y - 9.0
            count = len(rows)
            words = say_many("This one may stay whole", "These {count} may stay whole", count)
            if not others:
                words = say_many("It may stay whole", "All {count} may stay whole", count)
            used = flow.drawing.text(flow.area.left, base, words, 14, "semibold", within=80 * flow.share)
            note = say("the mat hides what is beyond the window. Measure the bar all the same.")
            if all(row.planned.mat is None for row in rows):
                note = say("there is nothing to cut off.")
            flow.drawing.text(flow.area.left + used + 5, base, note, 9, within=flow.area.width - used - 6)
            flow.y = base - 3.5
        _band(flow, band, highest)


def _band(flow: PrintFlow, band: Sequence[PrintRow], highest: float) -> None:
    pen = flow.drawing
    floor = flow.y - 2.0 - highest
    heights = _FIGURE_ROWS_MM
    labels = (say("sheet, paper"), say("to keep"), say("waste right"), say("waste below"), say("bar reads"))
    widths = [_column(row, flow.scale) for row in band]
    gap = min(9.0, (flow.area.width - _LABELS_MM - sum(widths)) / len(band))
    x = flow.area.left + _LABELS_MM
    y = floor - 1.0
    tops = []
    for label, height in zip(labels, heights, strict=True):
        tops.append(y)
        base = y - height / 2 - 1.3
        pen.text(flow.area.left, base, label, 9, within=_LABELS_MM - 1.5)
        y -= height
    for row, width in zip(band, widths, strict=True):
        layout = row.layout
        assert layout is not None and row.printed.fit is not None
        middle = x + width / 2
        left = middle - layout.width_mm / flow.scale / 2
        draw_print(
            pen,
            left,
            floor + layout.height_mm / flow.scale,
            layout,
            flow.scale,
            row.piece.number,
            flow.photos.get(row.piece.key),
        )
        paper = row.use.print.paper
        sheet = row.printed.fit.stock.shown
        words = say("{sheet}, {paper}", sheet=sheet, paper=paper) if paper else sheet
        waste = layout.waste
        figures = flow.figures
        right = figures.bare(waste["right"]) if row.usual_corner else _both(figures, waste["left"], waste["right"])
        below = figures.bare(waste["bottom"]) if row.usual_corner else _both(figures, waste["top"], waste["bottom"])
        texts = (words, figures.size(*layout.kept_mm), right, below)
        for index, text in enumerate(texts):
            weight = "bold" if index == 1 else "regular"
            base = tops[index] - heights[index] / 2 - 1.3
            pen.text(middle, base, text, 9, weight, "centre", within=width)  # type: ignore[arg-type]
        if layout.bars:
            write_in_box(pen, middle - 6, tops[4] - heights[4] + 0.9, 12)
        else:
            not_needed(pen, middle, tops[4] - heights[4] / 2)
        x += width + gap
    flow.y = y
    pen.line(flow.area.left, flow.y, flow.area.right, flow.y, THICK_PT)


def _order_words(row: PrintRow, currency: str) -> str:
    assert row.printed.fit is not None
    parts = [row.printed.fit.stock.shown]
    if row.use.print.paper:
        parts.append(row.use.print.paper)
    if row.printed.price is not None:
        parts.append(show_money(row.printed.price, currency))
    return ", ".join(parts)


def _elsewhere(row: PrintRow, figures: Figures) -> str:
    """Where the waste is when it is not right and below only."""
    assert row.layout is not None
    names = {"left": say("left"), "top": say("top"), "right": say("right"), "bottom": say("below")}
    parts = [f"{names[side]} {figures.bare(mm)}" for side, mm in row.layout.waste.items() if mm > 1e-6]
    return say("Cut off {parts}", parts=", ".join(parts))


def _both(figures: Figures, one: float, other: float) -> str:
    return f"{figures.bare(one)} | {figures.bare(other)}"


def _trim_height(row: PrintRow, scale: float) -> float:
    assert row.layout is not None
    return max(15.0, row.layout.height_mm / scale + 3.6)


def _column(row: PrintRow, scale: float) -> float:
    assert row.layout is not None
    return max(22.0, row.layout.width_mm / scale)


def _bands(rows: Sequence[PrintRow], scale: float, width: float) -> list[list[PrintRow]]:
    """As many side by side as have room."""
    bands: list[list[PrintRow]] = []
    used = 0.0
    for row in rows:
        needed = _column(row, scale) + 3.0
        if not bands or used + needed > width + 3.0:
            bands.append([])
            used = 0.0
        bands[-1].append(row)
        used += needed
    return bands
