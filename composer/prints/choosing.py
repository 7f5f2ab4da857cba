"""The stock print that covers a needed size, what is cut off it, and what to do where none covers.

A print covers if both its sides, in either orientation, are at least what is needed; compared in
millimetres, never by name. The cheapest wins, without prices the one of least area.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from composer.model import Money
from composer.prints.stock import StockSize

SAME_MM = 1e-6
"""Sizes that differ by less are the same size."""

SHORT_MM = 3.0 + SAME_MM
"""A print short by up to this much may still do: lip or mat hides the edge (judgement)."""

Cut = Literal["centred", "left", "right", "top", "bottom"]


@dataclass(frozen=True, slots=True)
class Fit:
    """A stock size laid under the needed size, in the print's orientation.

    Attributes:
        width_mm, height_mm: of the sheet as it lies.
        trim_mm: what is to be cut off width and height in all; negative = short by that much.
        price: of one, None = not in the price list.
    """

    stock: StockSize
    width_mm: float
    height_mm: float
    trim_mm: tuple[float, float]
    price: Money | None

    @property
    def covers(self) -> bool:
        """Whether it is large enough both ways."""
        return min(self.trim_mm) >= 0.0

    @property
    def short_mm(self) -> tuple[float, float]:
        """How much is missing across and up, mm; 0 where nothing is."""
        return max(0.0, -self.trim_mm[0]), max(0.0, -self.trim_mm[1])


@dataclass(frozen=True, slots=True)
class Advice:
    """One way out where no stock size covers.

    Attributes:
        kind: ``short`` (a size short by up to 3 mm), ``mat-down`` (a mat with a smaller window lets a
            stock size do), ``larger`` (the largest sheet and what it lacks) or ``custom`` (have it made).
        fit: the size it is about; None for ``custom``.
        window_mm: for ``mat-down``: the largest window that size fills.
    """

    kind: Literal["short", "mat-down", "larger", "custom"]
    fit: Fit | None = None
    window_mm: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Choice:
    """The answer for one needed size: the best that covers, others that do, and ways out if none does."""

    needed_mm: tuple[float, float]
    best: Fit | None
    runners_up: tuple[Fit, ...]
    advice: tuple[Advice, ...]


PriceOf = Callable[[StockSize], Money | None]


def no_prices(_: StockSize) -> Money | None:
    """A price list that is empty."""
    return None


def fit_of(stock: StockSize, needed_mm: tuple[float, float], price: Money | None = None) -> Fit:
    """The sheet laid the way in which it covers, else in which it is short by least."""
    fits = []
    sides = (stock.width_mm, stock.height_mm)
    for width, height in dict.fromkeys((sides, sides[::-1])):
        trim = (_exact(width - needed_mm[0]), _exact(height - needed_mm[1]))
        fits.append(Fit(stock, width, height, trim, price))
    return max(fits, key=lambda fit: (min(fit.trim_mm) >= 0, min(0.0, *fit.trim_mm), -abs(fit.trim_mm[0])))


def _exact(mm: float) -> float:
    return 0.0 if abs(mm) <= SAME_MM else mm


def choose(
    needed_mm: tuple[float, float],
    sizes: Sequence[StockSize],
    price_of: PriceOf = no_prices,
    *,
    overlap_mm: float | None = None,
    most_runners_up: int = 3,
) -> Choice:
    """The print to order for a needed size.

    Args:
        needed_mm: width and height the print must at least have.
        sizes: what is sold.
        price_of: gives the price of one, None where unknown; sizes with a price come before those without.
        overlap_mm: how far the mat covers the print each side, None = there is no mat; for the advice.
        most_runners_up: how many others that cover are named.
    """
    fits = [fit_of(size, needed_mm, price_of(size)) for size in sizes]
    covering = sorted((fit for fit in fits if fit.covers), key=_cheapest_first)
    best = covering[0] if covering else None
    advice: list[Advice] = [Advice("short", fit) for fit in _short(fits, best)]
    if best is None:
        advice += _ways_out(fits, overlap_mm)
    return Choice(needed_mm, best, tuple(covering[1 : 1 + most_runners_up]), tuple(advice))


def nearest_short(needed_mm: tuple[float, float], sizes: Sequence[StockSize]) -> Fit | None:
    """The size that does not cover and is short by least in all; to show why a smaller one will not do."""
    fits = [fit for size in sizes if not (fit := fit_of(size, needed_mm)).covers]
    return min(fits, key=lambda fit: (sum(fit.short_mm), fit.stock.area_mm2), default=None)


def _cheapest_first(fit: Fit) -> tuple[object, ...]:
    own_metric = fit.stock.list == "metric"
    return fit.price is None, fit.price or 0, fit.stock.area_mm2, own_metric, fit.stock.id


def _short(fits: Sequence[Fit], best: Fit | None) -> list[Fit]:
    """Sizes that miss by 3 mm at most and are no dearer than the best: worth a look under lip and mat."""
    near = [
        fit
        for fit in fits
        if not fit.covers
        and max(fit.short_mm) <= SHORT_MM
        and (best is None or _cheapest_first(fit) < _cheapest_first(best))
    ]
    return sorted(near, key=_cheapest_first)[:2]


def _ways_out(fits: Sequence[Fit], overlap_mm: float | None) -> list[Advice]:
    ways: list[Advice] = []
    largest = max(fits, key=lambda fit: (fit.stock.area_mm2, fit.stock.id), default=None)
    if largest is not None:
        covered = overlap_mm or 0.0
        window = (largest.width_mm - 2 * covered, largest.height_mm - 2 * covered)
        wanted = (largest.width_mm - largest.trim_mm[0], largest.height_mm - largest.trim_mm[1])
        window = (min(window[0], wanted[0] - 2 * covered), min(window[1], wanted[1] - 2 * covered))
        ways.append(Advice("mat-down", largest, window))
        ways.append(Advice("larger", largest))
    ways.append(Advice("custom"))
    return ways


def sides_cut(trim_mm: tuple[float, float], cut: Cut) -> str:
    """Which edges are cut off, as words: ``right bottom`` by default, ``even``, or empty for nothing.

    ``cut`` says where the picture lies on the sheet; ``left`` means upper left, so that two cuts do.
    """
    if max(trim_mm) <= SAME_MM:
        return ""
    if cut == "centred":
        return "even"
    across = "left" if cut == "right" else "right"
    up = "top" if cut == "bottom" else "bottom"
    words = [across] if trim_mm[0] > SAME_MM else []
    words += [up] if trim_mm[1] > SAME_MM else []
    return " ".join(words)


def picture_on_sheet(fit: Fit, cut: Cut) -> tuple[float, float]:
    """Distance of the picture's left and top edge from the sheet's, mm."""
    across, down = (max(0.0, trim) for trim in fit.trim_mm)
    if cut == "centred":
        return across / 2, down / 2
    return (across if cut == "right" else 0.0), (down if cut == "bottom" else 0.0)
