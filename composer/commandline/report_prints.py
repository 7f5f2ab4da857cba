"""The report's print and mat of a piece, as it hangs."""

from collections.abc import Callable
from typing import Any

from composer.prints.mats import MatPlan
from composer.prints.plan import PrintPlan

Number = Callable[[float], float | int]


def print_part(printed: PrintPlan | None, number: Number) -> dict[str, Any] | None:
    """Needed size, stock, trim and density; null where the glass is not known."""
    if printed is None:
        return None
    fit, crop = printed.fit, printed.crop

    def pair(two: tuple[float, float]) -> list[float | int]:
        return [number(part) for part in two]

    return {
        "needed": pair(printed.needed_mm),
        "stock": None if fit is None else pair((fit.width_mm, fit.height_mm)),
        "stock_name": None if fit is None else fit.stock.id,
        "trim": None if fit is None else pair((max(0.0, fit.trim_mm[0]), max(0.0, fit.trim_mm[1]))),
        "trim_from": None if fit is None else printed.trim_from,
        "ppi": None if printed.ppi is None else number(printed.ppi),
        "pixels": None if printed.pixels is None else list(printed.pixels),
        "crop_pixels": None if crop is None else pair((crop.width, crop.height)),
    }


def mat_part(mat: MatPlan | None, number: Number) -> dict[str, Any] | None:
    """The board, its window and its borders; null without a mat, or while it is undecided."""
    if mat is None:
        return None
    four = mat.borders
    return {
        "outer": [number(side) for side in mat.outer_mm],
        "window": [number(side) for side in mat.window_mm],
        "borders": {
            "top": number(four.top),
            "bottom": number(four.bottom),
            "left": number(four.left),
            "right": number(four.right),
        },
    }
