"""Searching by fixed numbers of steps, so that a slow machine finds the same arrangement, only later.

Whatever decides uses sums, products and square roots alone, which are the same to the last bit on every
machine; longer sums are taken by ``math.fsum``, as Python's own ``sum`` rounds differently since 3.12.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from random import Random
from typing import TypeVar

_Item = TypeVar("_Item")


class Cancelled(Exception):
    """The person no longer wants the answer."""


@dataclass
class Control:
    """What a search tells on its way, and how it is stopped.

    Attributes:
        progress: called with a share from 0 to 1, never falling.
        cancelled: asked often; once it says yes the search ends with :class:`Cancelled`.
    """

    progress: Callable[[float], None] = lambda _: None
    cancelled: Callable[[], bool] = lambda: False
    _from: float = field(default=0.0, init=False)
    _to: float = field(default=1.0, init=False)

    def step(self, done: int, total: int) -> None:
        """One more step of ``total`` in the present stretch.

        Raises:
            Cancelled: when the person has cancelled.
        """
        if self.cancelled():
            raise Cancelled
        self.progress(self._from + (self._to - self._from) * done / max(1, total))

    def part(self, start: float, end: float) -> "Control":
        """The same control for a part of the work, given as shares of this one's stretch."""
        made = Control(self.progress, self.cancelled)
        width = self._to - self._from
        made._from, made._to = self._from + width * start, self._from + width * end
        return made


def shuffled(items: Iterable[_Item], dice: Random) -> list[_Item]:
    """The items in a random order (Fisher and Yates), by ``Random.random`` alone, which is the same everywhere."""
    mixed = list(items)
    for place in range(len(mixed) - 1, 0, -1):
        other = below(place + 1, dice)
        mixed[place], mixed[other] = mixed[other], mixed[place]
    return mixed


def below(count: int, dice: Random) -> int:
    """A whole number from 0 up to and without ``count``."""
    return int(dice.random() * count)


def bell(dice: Random) -> float:
    """Roughly normal with mean 0 and deviation 1: three uniform numbers summed, no logarithm."""
    return (dice.random() + dice.random() + dice.random() - 1.5) * 2


def by_size(areas: Sequence[float], dice: Random | None = None, noise: float = 0.0) -> list[int]:
    """Indices, the biggest first; with ``noise`` the order is shaken by that share of the sizes."""
    if dice is None or noise == 0:
        return sorted(range(len(areas)), key=lambda index: (-areas[index], index))
    shaken = [area * max(0.05, 1 + noise * bell(dice)) for area in areas]
    return sorted(range(len(areas)), key=lambda index: (-shaken[index], index))
