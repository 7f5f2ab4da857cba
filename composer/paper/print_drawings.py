"""Small drawings of prints to scale: what is kept, what is waste, where the bars are."""

from collections.abc import Iterable

from composer.paper.drawing import Drawing
from composer.paper.primitives import HAIR_PT, LIGHT_GREY, THIN_PT, WHITE, Photo
from composer.paper.type_metrics import text_width_mm
from composer.prints.marks import BAR_MM, SheetLayout

SCALES = (10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0)

_LEAST_PHOTO_MM = 9.0
_WIDEST_MM, _HIGHEST_MM = 42.0, 50.0


def drawing_scale(layouts: Iterable[SheetLayout]) -> float:
    """One scale for all drawings, 1 : 10 or the next round one at which the largest has room."""
    needed = max(
        (max(layout.width_mm / _WIDEST_MM, layout.height_mm / _HIGHEST_MM) for layout in layouts), default=SCALES[0]
    )
    return next((scale for scale in SCALES if scale >= needed - 1e-9), needed)


def draw_print(
    drawing: Drawing,
    left: float,
    top: float,
    layout: SheetLayout,
    scale: float,
    number: int,
    photo: bytes | None = None,
) -> None:
    """The sheet with its upper left corner there, its waste grey, picture and number in the part that is kept."""
    wide, high = layout.width_mm / scale, layout.height_mm / scale
    waste = max(layout.waste.values()) > 1e-6
    drawing.box(left, top - high, wide, high, THIN_PT, fill_grey=LIGHT_GREY if waste else WHITE)
    kept_left, kept_top = left + layout.left / scale, top - layout.top / scale
    kept = (layout.kept_mm[0] / scale, layout.kept_mm[1] / scale)
    if waste:
        drawing.box(kept_left, kept_top - kept[1], *kept, THIN_PT, fill_grey=WHITE)
    if photo is not None and min(kept) >= _LEAST_PHOTO_MM:
        drawing.add(Photo(kept_left, kept_top - kept[1], *kept, photo))
        drawing.box(kept_left, kept_top - kept[1], *kept, THIN_PT)
        wide_number = text_width_mm(str(number), 10, "bold") + 1.6
        drawing.box(kept_left, kept_top - kept[1], wide_number, 4.4, THIN_PT, fill_grey=WHITE)
        drawing.text(kept_left + wide_number / 2, kept_top - kept[1] + 1.0, str(number), 10, "bold", "centre")
    else:
        size = min(16.0, max(8.0, min(kept) * 1.4))
        needed = text_width_mm(str(number), size, "bold")
        middle = (kept_left + kept[0] / 2, kept_top - kept[1] / 2 - size * 0.12)
        if needed > kept[0] - 0.6:  # too small a part for its number: in the middle of the sheet
            middle = (left + wide / 2, top - high / 2 - size * 0.12)
            drawing.box(middle[0] - needed / 2 - 0.5, middle[1] - 0.6, needed + 1.0, 3.4, None, fill_grey=WHITE)
        drawing.text(*middle, str(number), size, "bold", "centre")
    tick = 0.55
    for way, start, line in layout.bars:
        if way == "across":
            x, y = left + start / scale, top - line / scale
            drawing.line(x, y, x + BAR_MM / scale, y, THIN_PT)
            for end in (x, x + BAR_MM / scale):
                drawing.line(end, y - tick, end, y + tick, HAIR_PT)
        else:
            x, y = left + line / scale, top - start / scale
            drawing.line(x, y, x, y - BAR_MM / scale, THIN_PT)
            for end in (y, y - BAR_MM / scale):
                drawing.line(x - tick, end, x + tick, end, HAIR_PT)
