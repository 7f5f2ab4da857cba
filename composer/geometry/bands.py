"""Stretches of one direction, found again by where they are: which of many may meet a given stretch.

The direction is cut into bands of one width, and each stretch is noted in every band it touches. Who
asks looks into a few bands only, so that it costs the same among ten as among a thousand.
"""

from collections.abc import Sequence
from math import floor, isfinite

MOST_BANDS = 64
"""A stretch that would be noted in more bands is looked at by everybody who asks."""


class Bands:
    """Stretches by the bands they touch; what is asked for comes in the order they were given.

    Args:
        stretches: low and high end of each, mm.
        width: of a band, mm; None = about as wide as the stretches are long.
    """

    __slots__ = ("_bands", "_everywhere", "_width")

    def __init__(self, stretches: Sequence[tuple[float, float]], width: float | None = None) -> None:
        lengths = sorted(high - low for low, high in stretches)
        self._width = max(1.0, lengths[len(lengths) // 2] if width is None and lengths else width or 1.0)
        self._bands: dict[int, list[int]] = {}
        self._everywhere: list[int] = []
        for place, (low, high) in enumerate(stretches):
            first, last = self.of(low), self.of(high)
            if last - first >= MOST_BANDS:
                self._everywhere.append(place)
                continue
            for band in range(first, last + 1):
                self._bands.setdefault(band, []).append(place)

    def of(self, at: float) -> int:
        """The number of the band in which a place lies."""
        return floor(at / self._width)

    def near(self, low: float, high: float) -> list[int]:
        """The places in the list of all stretches that may meet this one, ascending; some may not meet it."""
        bands = self._bands
        if not isfinite(high - low) or (high - low) / self._width > len(bands):
            found = {place for held in bands.values() for place in held}
        else:
            first, last = self.of(low), self.of(high)
            if first == last and not self._everywhere:
                return list(bands.get(first, ()))
            found = {place for band in range(first, last + 1) for place in bands.get(band, ())}
        return sorted(found.union(self._everywhere))
