"""Where aligned and spaced-out pieces go, along one axis; plain sums over plain numbers in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

Ends = Literal["gap", "half-gap"] | float
"""What is left free at both ends: as much as between two pieces, half of it, or so many millimetres."""


class Span(NamedTuple):
    """From ``low`` to ``high`` along one axis, mm."""

    low: float
    high: float

    @property
    def size(self) -> float:
        """Its length, mm."""
        return self.high - self.low

    @property
    def centre(self) -> float:
        """Its middle, mm."""
        return (self.low + self.high) / 2


def gap_between(sizes: Sequence[float], room: float, ends: Ends) -> float:
    """The equal gap that fills ``room``; negative when the pieces do not fit, and then they overlap.

    With n pieces there are n − 1 gaps between them and two ends: n + 1 gaps when the ends are whole
    gaps, n when they are half gaps, n − 1 when the ends are fixed.
    """
    free = room - sum(sizes)
    count = len(sizes)
    if ends == "gap":
        return free / (count + 1)
    if ends == "half-gap":
        return free / count
    return (free - 2 * ends) / (count - 1) if count > 1 else 0.0


def by_gaps(sizes: Sequence[float], within: Span, ends: Ends = 0.0) -> list[float]:
    """Low edges of pieces, in order, with equal gaps from one end of the span to the other.

    A single piece between fixed ends stands in the middle.
    """
    if len(sizes) == 1:
        return [within.centre - sizes[0] / 2]
    gap = gap_between(sizes, within.size, ends)
    start = {"gap": gap, "half-gap": gap / 2}[ends] if isinstance(ends, str) else ends
    return with_gap(sizes, within.low + start, gap)


def by_centres(sizes: Sequence[float], within: Span, ends: Ends = 0.0) -> list[float]:
    """Low edges of pieces, in order, whose centres stand equally far apart.

    With ``gap`` or ``half-gap`` ends the span's ends count as one whole or half a step from the
    first and last centre; with fixed ends the outer pieces' outer edges lie that far inside.
    """
    count = len(sizes)
    if count == 1:
        return [within.centre - sizes[0] / 2]
    if isinstance(ends, str):
        step = within.size / (count + 1 if ends == "gap" else count)
        first = within.low + (step if ends == "gap" else step / 2)
    else:
        first = within.low + ends + sizes[0] / 2
        step = (within.high - ends - sizes[-1] / 2 - first) / (count - 1)
    return [first + place * step - size / 2 for place, size in enumerate(sizes)]


def with_gap(sizes: Sequence[float], start: float, gap: float) -> list[float]:
    """Low edges of pieces, in order, one gap apart, the first one at ``start``."""
    lows = []
    for size in sizes:
        lows.append(start)
        start += size + gap
    return lows


def around_anchor(spans: Sequence[Span], anchor: int, gap: float) -> list[float]:
    """Low edges of pieces, in order, one gap apart, the one at index ``anchor`` staying where it is."""
    sizes = [span.size for span in spans]
    start = spans[anchor].low - sum(size + gap for size in sizes[:anchor])
    return with_gap(sizes, start, gap)
