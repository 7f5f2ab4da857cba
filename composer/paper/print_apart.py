"""Sheets that several prints share: the white off first, then the cuts in their order, as on the cutting list."""

from collections.abc import Sequence

from composer.paper.figures import Figures
from composer.paper.furniture import not_needed, write_in_box
from composer.paper.mat_boards import CUT_ROW_MM, LIST_HEAD_MM, draw_cut_row, draw_cut_sheet, draw_list_head
from composer.paper.primitives import GREY, HAIR_PT, LIGHT_GREY, THICK_PT, THIN_PT, WHITE
from composer.paper.print_flow import PrintFlow
from composer.prints.guillotine import CutLine, CutSheet
from composer.prints.marks import BAR_MM
from composer.prints.sharing import FAR_MM, NEAR_MM, SharedStock
from composer.prints.stock import shown_size
from composer.texts import say, say_many

SCALES = (4.0, 5.0, 7.5, 10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0)
_WIDEST_MM, _HIGHEST_MM = 84.0, 72.0
_NAME_MM = 6.0
_BARS_MM = 11.0
_HEAD_MM = 12.0


def has_bar(one: SharedStock) -> bool:
    """Whether its sheets have room for a bar to measure."""
    return one.stock.height_mm >= BAR_MM + 2 * NEAR_MM


def white_step(figures: Figures) -> str:
    """What comes off a shared sheet before anything else."""
    return say(
        "A sheet with several prints: first cut off its white, {near} left and above, {far} right and below, "
        "the long side lying. Then cut by the numbers.",
        near=figures.bare(NEAR_MM),
        far=figures.bare(FAR_MM),
    )


def draw_apart(flow: PrintFlow, together: Sequence[SharedStock]) -> None:
    """Each shared sheet with its cuts beside it."""
    sheets = [(one, cut) for one in together for cut in one.cuts]
    scale = _scale(together)
    for index, (one, cut) in enumerate(sheets):
        high = _NAME_MM + max(one.stock.width_mm / scale + _BARS_MM, LIST_HEAD_MM + CUT_ROW_MM * len(cut.cuts)) + 3.0
        flow.room(high + (_HEAD_MM if index == 0 else 0.0))
        if index == 0:
            base = flow.y - 9.5
            words = say_many("Cut this sheet apart", "Cut these {count} sheets apart", len(sheets))
            used = flow.drawing.text(flow.area.left, base, words, 14, "semibold", within=flow.area.width * 0.6)
            note = say("drawn 1 : {scale}", scale=f"{scale:g}")
            flow.drawing.text(flow.area.right, base, note, 9, align="right", within=flow.area.width - used - 6)
            flow.y -= _HEAD_MM
        _sheet(flow, one, cut, scale)
        flow.y -= high
        last = index == len(sheets) - 1
        weight, grey = (THICK_PT, 0.0) if last else (HAIR_PT, GREY)
        flow.drawing.line(flow.area.left, flow.y, flow.area.right, flow.y, weight, grey)


def _scale(together: Sequence[SharedStock]) -> float:
    needed = max(max(one.stock.height_mm / _WIDEST_MM, one.stock.width_mm / _HIGHEST_MM) for one in together)
    return next((scale for scale in SCALES if scale >= needed - 1e-9), needed)


def _sheet(flow: PrintFlow, one: SharedStock, cut: CutSheet, scale: float) -> None:
    pen, left, top = flow.drawing, flow.area.left, flow.y - _NAME_MM
    size = shown_size(one.stock.id)
    name = say("{size}, {paper}", size=size, paper=one.paper) if one.paper else size
    wide, high = one.stock.height_mm / scale, one.stock.width_mm / scale
    pen.text(left, top + 1.6, name, 10, "bold", within=_WIDEST_MM)
    pen.box(left, top - high, wide, high, THIN_PT, fill_grey=LIGHT_GREY)
    inner = (left + NEAR_MM / scale, top - high + FAR_MM / scale)
    pen.box(*inner, cut.width_mm / scale, cut.height_mm / scale, THIN_PT, fill_grey=WHITE)
    draw_cut_sheet(pen, *inner, cut, scale, flow.figures)
    base = top - high - 7.6
    used = pen.text(left, base + 1.6, say("bar reads across, up"), 9, within=_WIDEST_MM - 30)
    for index, side in enumerate((one.stock.height_mm, one.stock.width_mm)):
        x = left + used + 3 + 14.0 * index
        if side >= BAR_MM + 2 * NEAR_MM:
            write_in_box(pen, x, base, 11.4)
        else:
            not_needed(pen, x + 5.7, base + 3.2)
    start = left + _WIDEST_MM + 6
    width = flow.area.right - start
    y = draw_list_head(pen, start, top + 4.0, width)
    for line in cut.cuts:
        y = draw_cut_row(pen, start, y, width, line, flow.figures, gives=_gives)


def _gives(cut: CutLine) -> str:
    return say("print {numbers}", numbers=", ".join(cut.gives))
