"""Scales of the room: in pixels a millimetre, chosen so that equal gaps look equal."""

from __future__ import annotations

from PySide6.QtGui import QScreen

from composer.texts import say

LEAST_OF_FIT = 0.8
"""A scale with whole gaps is taken unless it wastes more than a fifth of the room."""
SMALLEST, LARGEST = 0.01, 20.0
"""Pixels a millimetre."""


def whole_gaps(scale: float, gap_mm: float, ratio: float, *, down: bool = False) -> float | None:
    """The nearest scale, or the nearest below, at which a gap is a whole number of device pixels.

    Args:
        scale: in pixels a millimetre.
        gap_mm: the gap.
        ratio: device pixels a pixel.
        down: not above ``scale``.
    """
    pixels = scale * gap_mm * ratio
    whole = int(pixels + 1e-9) if down else round(pixels)
    return whole / gap_mm / ratio if gap_mm > 0 and whole >= 1 else None


def fitting(largest: float, gap_mm: float, ratio: float) -> float:
    """The scale to show all of something that fits at ``largest``: with whole gaps where that wastes little."""
    scale = max(SMALLEST, min(largest, LARGEST))
    whole = whole_gaps(scale, gap_mm, ratio, down=True)
    return whole if whole is not None and whole >= LEAST_OF_FIT * scale else scale


def dots_per_mm(screen: QScreen | None) -> float:
    """Of a screen, as the system says; 96 to the inch where it does not."""
    return (screen.physicalDotsPerInchX() if screen is not None else 96.0) / 25.4


def scale_words(px_per_mm: float, dots_per_mm: float) -> str:
    """The scale as on a drawing: 1 : 16."""
    ratio = dots_per_mm / px_per_mm
    if ratio >= 0.95:
        return say("scale 1 : {ratio}", ratio=f"{ratio:.0f}" if ratio >= 9.5 else f"{ratio:.1f}")
    return say("scale {ratio} : 1", ratio=f"{1 / ratio:.1f}")
