"""Sets of numbers made of closed intervals: where a grid of tiles may start."""

from collections.abc import Iterable

Span = tuple[float, float]

TOUCH_MM = 1e-9


def without(spans: Iterable[Span], low: float, high: float) -> list[Span]:
    """The spans less the open interval from ``low`` to ``high``; its ends stay."""
    left: list[Span] = []
    if high - low <= TOUCH_MM:
        return list(spans)
    for start, end in spans:
        if end <= low or start >= high:
            left.append((start, end))
            continue
        if start <= low:
            left.append((start, low))
        if end >= high:
            left.append((high, end))
    return left


def within(spans: Iterable[Span], low: float, high: float) -> list[Span]:
    """What of the spans lies from ``low`` to ``high``."""
    cut = ((max(start, low), min(end, high)) for start, end in spans)
    return [(start, end) for start, end in cut if end - start >= -TOUCH_MM]


def within_any(spans: Iterable[Span], wanted: Iterable[Span]) -> list[Span]:
    """What the two sets share."""
    kept = list(wanted)
    return [part for span in spans for part in within(kept, *span)]


def nearest(spans: Iterable[Span], to: float) -> float:
    """The number of the set that lies nearest to ``to``; the lower one of two."""
    return min((min(max(to, start), max(start, end)) for start, end in spans), key=lambda x: (abs(x - to), x))
