"""Windows seen from the back, each above its four borders, and the fall-outs that become mats again."""

from collections.abc import Sequence
from dataclasses import dataclass

from composer.paper.drawing import Drawing
from composer.paper.figures import Figures
from composer.paper.mat_boards import draw_cut_sheet, draw_ring, top_arrow
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT
from composer.prints.cutting_list import CuttingList, FallOut, Window
from composer.texts import say

LABELS_MM = 24.0
ROW_MM = 6.0
_ROWS = 4
_LEAST_WINDOW_MM, _LEAST_FALL_OUT_MM = 22.0, 42.0
_GAP_MM = 2.4
_ABOVE_MM = 6.4
"""Above a drawing stands its size."""


@dataclass(frozen=True, slots=True)
class Column:
    """One drawing with what stands below it: a window, or a fall-out to be cut."""

    window: Window | None
    fall_out: FallOut | None
    width: float
    height: float
    scale: float

    @property
    def rows(self) -> int:
        """Rows of text below it."""
        return _ROWS if self.fall_out is None else max(_ROWS, len(self.fall_out.cut.cuts) + 2)


def columns_of(made: CuttingList, scale: float, fall_out_scale: float) -> list[Column]:
    """Windows by number; a window whose fall-out is used is followed by that and by what it makes."""
    inside = {label: one for one in made.fall_outs for label in (one.window,)}
    follows = {placed.blank.label for one in made.fall_outs for placed in one.cut.placed}
    large = {window.label for window in made.too_large}
    columns: list[Column] = []
    for window in made.windows:
        if window.label in follows or window.label in large:
            continue
        columns.append(_of_window(window, scale))
        fall_out = inside.get(window.label)
        if fall_out is not None:
            wide = max(fall_out.cut.width_mm / fall_out_scale, _LEAST_FALL_OUT_MM)
            columns.append(Column(None, fall_out, wide, fall_out.cut.height_mm / fall_out_scale, fall_out_scale))
            columns += [_of_window(made.window(placed.blank.label), scale) for placed in fall_out.cut.placed]
    return columns


def _of_window(window: Window, scale: float) -> Column:
    wide = max(window.outer_mm[0] / scale, _LEAST_WINDOW_MM)
    return Column(window, None, wide, window.outer_mm[1] / scale, scale)


def bands_of(columns: Sequence[Column], width: float) -> list[list[Column]]:
    """As many side by side as have room beside the labels."""
    bands: list[list[Column]] = []
    used = 0.0
    for column in columns:
        needed = column.width + _GAP_MM
        if not bands or used + needed > width - LABELS_MM + _GAP_MM:
            bands.append([])
            used = 0.0
        bands[-1].append(column)
        used += needed
    return bands


def band_height(band: Sequence[Column]) -> float:
    """How much room a band takes, mm."""
    return _ABOVE_MM + max(column.height for column in band) + 1.5 + ROW_MM * max(column.rows for column in band) + 1.5


def draw_band(
    drawing: Drawing, left: float, top: float, width: float, band: Sequence[Column], figures: Figures
) -> float:
    """A band of windows over their figures; returns the y below."""
    floor = top - _ABOVE_MM - max(column.height for column in band)
    rows_top = floor - 1.5
    count = max(column.rows for column in band)
    bottom = rows_top - ROW_MM * count
    labels = (say("left, right"), say("top"), say("bottom"), say("check window"))
    for index, label in enumerate(labels):
        size = 9 if index == 3 else 10
        drawing.text(left, rows_top - ROW_MM * index - ROW_MM / 2 - 1.4, label, size, within=LABELS_MM - 1.5)
    spare = width - LABELS_MM - sum(column.width for column in band)
    gap = min(12.0, spare / max(1, len(band)))
    x = left + LABELS_MM
    stops = [left]
    for column in band:
        if column.window is not None:
            _window(drawing, x, floor, rows_top, column, figures)
        else:
            _fall_out(drawing, x, floor, rows_top, column, figures)
            stops += [x - gap / 2 + 0.5, x + column.width + gap / 2 - 0.5]
        x += column.width + gap
    stops.append(left + width)
    for index in range(1, _ROWS):
        y = rows_top - ROW_MM * index
        for start, end in zip(stops[::2], stops[1::2], strict=True):
            drawing.line(start, y, min(end, left + width), y, HAIR_PT, GREY)
    drawing.line(left, bottom, left + width, bottom, THICK_PT)
    return bottom


def _window(drawing: Drawing, x: float, floor: float, rows_top: float, column: Column, figures: Figures) -> None:
    window, scale = column.window, column.scale
    assert window is not None
    wide, high = window.outer_mm[0] / scale, window.outer_mm[1] / scale
    middle = x + column.width / 2
    left = middle - wide / 2
    drawing.box(left, floor, wide, high, THIN_PT)
    four = window.borders
    drawing.box(
        left + four.left / scale,
        floor + four.bottom / scale,
        window.opening_mm[0] / scale,
        window.opening_mm[1] / scale,
        THIN_PT,
    )
    border = four.top / scale
    if border >= 2.6:
        top_arrow(drawing, middle, floor + high - (border - 2.2) / 2)
    size = min(16.0, max(8.0, min(window.opening_mm) / scale * 1.1))
    centre = left + (four.left + window.opening_mm[0] / 2) / scale
    drawing.text(
        centre,
        floor + (four.bottom + window.opening_mm[1] / 2) / scale - size * 0.12,
        window.label,
        size,
        "bold",
        "centre",
        within=max(4.0, window.opening_mm[0] / scale - 1),
    )
    drawing.text(middle, floor + high + 1.4, figures.size(*window.outer_mm), 9, align="centre", within=column.width + 2)
    sides = figures.bare(four.left)
    if abs(four.left - four.right) > 0.05:
        sides = f"{sides} | {figures.bare(four.right)}"
    for index, text in enumerate((sides, figures.bare(four.top), figures.bare(four.bottom))):
        base = rows_top - ROW_MM * index - ROW_MM / 2 - 1.8
        drawing.text(middle, base, text, 14, "bold", "centre", within=column.width + 2)
    base = rows_top - ROW_MM * 3 - ROW_MM / 2 - 1.3
    drawing.text(middle, base, figures.size(*window.opening_mm), 9, align="centre", within=column.width + 2)


def _fall_out(drawing: Drawing, x: float, floor: float, rows_top: float, column: Column, figures: Figures) -> None:
    fall_out, scale = column.fall_out, column.scale
    assert fall_out is not None
    cut = fall_out.cut
    wide, high = cut.width_mm / scale, cut.height_mm / scale
    middle = x + column.width / 2
    draw_cut_sheet(drawing, middle - wide / 2, floor, cut, scale, figures)
    drawing.box(middle - wide / 2, floor, wide, high, THIN_PT)
    words = say("Window of {label}, bevel off", label=fall_out.window)
    drawing.text(middle, floor + high + 3.0, words, 9, "bold", "centre", within=column.width + 2)
    y = rows_top
    for one in cut.cuts:
        near, far = (say("left"), say("right")) if one.edge == "left" else (say("bottom"), say("top"))
        base = y - ROW_MM / 2 - 1.4
        draw_ring(drawing, x + 2.65, y - ROW_MM / 2, one.number)
        drawing.text(x + 6.5, base, near, 9, within=11.5)
        drawing.text(x + column.width - 14, base - 0.2, figures.bare(one.mark_mm), 12, "bold", "right", within=9.5)
        checked = f"{far} {figures.bare(one.check_mm)}"
        drawing.text(x + column.width, base, checked, 8, align="right", within=13)
        y -= ROW_MM
    labels = ", ".join(placed.blank.label for placed in cut.placed)
    drawing.text(
        middle,
        y - ROW_MM / 2 - 1.4,
        say("makes mat {labels}", labels=labels),
        10,
        "bold",
        "centre",
        within=column.width + 3,
    )
