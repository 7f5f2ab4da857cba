"""The rule for correcting a printer's scale by what was read off the scale check."""

from __future__ import annotations

from dataclasses import dataclass

from composer.paper.scale_check import CORRECTABLE, GOOD_MM, causes
from composer.texts import say

READING_ERROR_MM = GOOD_MM
"""The scale check asks for readings to half a millimetre (1/32 in): a smaller difference is none."""


@dataclass(frozen=True, slots=True)
class Correction:
    """What follows from one reading.

    Attributes:
        factor: draw factor, nominal ÷ measured; 1 where nothing is to be corrected.
        sentence: why it is so.
        refused: the reading cannot be a printer's own error.
    """

    factor: float
    sentence: str
    refused: bool = False


def correct(nominal_mm: float, measured_mm: float, sheet: str, size_mm: tuple[float, float]) -> Correction:
    """The draw factor for one direction.

    A difference within the reading error of the ruler is left alone; one beyond 1.5 % comes from a
    setting such as "fit to page", and the likely one is named.

    Args:
        nominal_mm: what the ruler on the scale check stands for.
        measured_mm: what was read with a steel ruler.
        sheet, size_mm: the paper, to name the likely cause.
    """
    if nominal_mm <= 0 or measured_mm <= 0:
        return Correction(1.0, say("Type what you measured."), refused=True)
    factor = nominal_mm / measured_mm
    off = measured_mm / nominal_mm - 1
    if abs(measured_mm - nominal_mm) <= READING_ERROR_MM + 1e-9:
        return Correction(1.0, say("Within what a ruler can be read to: nothing to correct."))
    if abs(factor - 1) > CORRECTABLE + 1e-9:
        percent = f"{off * 100:+.1f}".replace("-", "−")
        likely = _likely(measured_mm / nominal_mm, sheet, size_mm)
        sentence = say("{percent} % is no printer's error but a setting that scales.", percent=percent)
        if likely:
            sentence = say("{sentence} Likely: {cause}.", sentence=sentence, cause=likely)
        return Correction(1.0, sentence, refused=True)
    return Correction(factor, say("Drawn × {factor}, so that it prints true.", factor=f"{factor:.4f}"))


def _likely(printed: float, sheet: str, size_mm: tuple[float, float]) -> str:
    """The cause whose factor lies nearest, when it is near at all."""
    found = sorted(causes(sheet, size_mm), key=lambda cause: abs(cause.factor - printed))
    return found[0].words.rstrip(".") if found and abs(found[0].factor - printed) < 0.006 else ""
