"""How many pixels per inch a print needs from where it is looked at, and how large a picture may be printed.

ISO 8596: acuity 1.0 resolves a gap of one minute of arc. Density tags in files never count: only
pixels over millimetres do.
"""

import math
from typing import Literal

from composer.prints.stock import StockSize

MM_PER_INCH = 25.4
LEAST_PPI = 100.0
"""Below this a print is soft from wherever it is seen (trade guides; common practice)."""
SAFETY = 1.5
"""Young eyes reach acuity 1.5 (general optometry), so this many times the figure of acuity 1.0."""
USUAL_DISTANCE_MM = 1500.0
"""Taken where nobody said from where the wall is looked at (judgement): then only the least counts."""

Verdict = Literal["crisp", "good", "fine", "from-1-m", "soft"]


def acuity_ppi(distance_mm: float, acuity: float = 1.0) -> float:
    """Pixels per inch that an eye just resolves: 25.4 · V ÷ (d · tan 1′), ISO 8596."""
    return MM_PER_INCH * acuity / (distance_mm * math.tan(math.radians(1 / 60)))


def acuity_distance_mm(ppi: float, acuity: float = 1.0) -> float:
    """From how far no pixels are seen any more, mm."""
    return MM_PER_INCH * acuity / (ppi * math.tan(math.radians(1 / 60)))


def needed_ppi(distance_mm: float | None) -> float:
    """What a print must have: 1.5 × the acuity figure at this distance, never below 100."""
    return max(LEAST_PPI, SAFETY * acuity_ppi(USUAL_DISTANCE_MM if distance_mm is None else distance_mm))


def ppi_of(crop_pixels: tuple[float, float], size_mm: tuple[float, float]) -> float:
    """Pixels per inch of the axis that has fewer."""
    return min(pixels / mm * MM_PER_INCH for pixels, mm in zip(crop_pixels, size_mm, strict=True))


def verdict(ppi: float) -> Verdict:
    """What the figure is good for (trade guides agree within a band; common practice)."""
    for least, word in _VERDICTS:
        if ppi >= least:
            return word
    return "soft"


_VERDICTS: tuple[tuple[float, Verdict], ...] = ((300, "crisp"), (200, "good"), (150, "fine"), (100, "from-1-m"))


def largest_mm(pixels: tuple[float, float], ppi: float) -> tuple[float, float]:
    """The largest print the pixels carry at that density, mm."""
    return pixels[0] / ppi * MM_PER_INCH, pixels[1] / ppi * MM_PER_INCH


def largest_stock(pixels: tuple[float, float], ppi: float, sizes: tuple[StockSize, ...]) -> StockSize | None:
    """The largest stock size the whole picture fills at that density; None = none."""
    best: StockSize | None = None
    for size in sizes:
        for sides in ((size.width_mm, size.height_mm), (size.height_mm, size.width_mm)):
            carries = ppi_of(pixels, sides) >= ppi * (1 - 1e-9)
            if carries and (best is None or size.area_mm2 > best.area_mm2):
                best = size
    return best
