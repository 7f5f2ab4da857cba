"""What is to be arranged, in plain numbers: sizes, what stays, the wall, the gap, the wanted heights.

A task is made from a project and one of its walls. It is small, never changes and can be sent to
another process; its fingerprint tells later whether an answer still fits the project.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from hashlib import sha256
from math import fsum
from typing import NamedTuple

from composer.arranging.room import Room, free_intervals
from composer.geometry.rectangle import Rectangle
from composer.hanging.furniture import ABOVE_MM, WIDTH_SHARES
from composer.units import LengthStyle, Mm, show_length

ABOVE_LEAST_MM, ABOVE_MOST_MM = float(ABOVE_MM[0]), 250.0
"""From furniture up to the lowest frame (common practice, no source)."""

WIDTH_LEAST, WIDTH_MOST = WIDTH_SHARES


class Size(NamedTuple):
    """A piece to be hung: its number, its width and height as it will hang, mm."""

    number: int
    width: float
    height: float


class Still(NamedTuple):
    """A piece that stays where it is."""

    number: int
    box: Rectangle


TALL_MM = 400.0
"""What is lower is stepped around by a group; what is taller ends a stretch of wall."""

WHOLE_MM = LengthStyle("mm", decimals=0)

Layout = tuple[Rectangle, ...]
"""A place for each size of a task, in the same order."""

Nosing = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class Task:
    """One wall to be arranged.

    Attributes:
        sizes: the pieces to be hung, by number.
        room: the wall and what is kept free on it.
        gap: wanted between neighbouring frames, mm.
        eye_line: wanted height of the group's middle, mm.
        still: pieces that stay.
        furniture: the sofa, bed, table or seat the group belongs to; None = it hangs by the eye line.
        middle: where the group's middle is wanted across; None = over the furniture, else in the wall's free run.
        above: wanted from the furniture up to the lowest frame, mm; None = 150 to 250, as the eye line asks.
        width: wanted width of the group, mm; None = as the furniture and the wall suggest.
        nosing: the line along a stair's nosings.
        style: how sentences show lengths.
    """

    sizes: tuple[Size, ...]
    room: Room
    gap: float
    eye_line: float
    still: tuple[Still, ...] = ()
    furniture: Rectangle | None = None
    middle: float | None = None
    above: float | None = None
    width: float | None = None
    nosing: Nosing | None = None
    style: LengthStyle = WHOLE_MM

    def shown(self, mm: float) -> str:
        """A length as sentences about this task show it."""
        return show_length(Mm(mm), self.style)

    @cached_property
    def still_boxes(self) -> tuple[Rectangle, ...]:
        """Where the pieces are that stay."""
        return tuple(one.box for one in self.still)

    @cached_property
    def grown_area(self) -> float:
        """Area of all frames to be hung, each with half a gap around it, mm²."""
        return fsum((size.width + self.gap) * (size.height + self.gap) for size in self.sizes)

    @cached_property
    def focus(self) -> tuple[float, float]:
        """Where the middle of the group is wanted: across by :attr:`middle`, up by the eye line, mm.

        Along a stair the eye climbs too: there the eye line is taken above the nosings in the middle of the flight.
        """
        if self.middle is not None:
            return self.middle, self.eye_line
        if self.furniture is not None:
            return self.furniture.centre[0], self.eye_line
        if self.nosing is not None:
            (x1, y1), (x2, y2) = sorted(self.nosing)
            bounds = self.room.bounds
            middle = (max(x1, bounds.left) + min(x2, bounds.right)) / 2
            return middle, y1 + (y2 - y1) * (middle - x1) / (x2 - x1) + self.eye_line
        return self._free_run, self.eye_line

    @cached_property
    def _free_run(self) -> float:
        """Middle of the widest stretch at eye level between the outline, doors, windows and tall things."""
        bounds = self.room.bounds
        low = min(max(self.eye_line, bounds.bottom), bounds.top)
        tall = tuple(out for out in self.room.keep_outs if out.height >= TALL_MM)
        line = Room(self.room.corners, self.room.edge_margin, tall).blocked("x", low - 1, low + 1, 1.0)
        runs = [
            (round(end - start, 6), -start, (start + end + 1) / 2)
            for start, end in free_intervals(line, bounds.left, bounds.right - 1)
            if self.room.free(start, low, start + 1, low + 0.1) or end - start > 1
        ]
        return max(runs)[2] if runs else bounds.centre[0]

    def wanted_bottom(self, height: float) -> float:
        """Where the lower edge of a group of that height is wanted, mm.

        Its middle lies on the eye line; over furniture it is lowered or raised to hang 150 to 250 mm above it.
        """
        bottom = self.focus[1] - height / 2
        if self.furniture is None:
            return bottom
        top = self.furniture.top
        if self.above is not None:
            return top + self.above
        return min(max(bottom, top + ABOVE_LEAST_MM), top + ABOVE_MOST_MM)

    @cached_property
    def fingerprint(self) -> str:
        """The same for two tasks that ask the same; differs as soon as a size, a place or a wish does."""
        parts: Iterable[object] = (
            self.sizes,
            self.room.corners,
            self.room.edge_margin,
            self.room.keep_outs,
            self.gap,
            self.eye_line,
            self.still,
            self.furniture,
            self.middle,
            self.above,
            self.width,
            self.nosing,
        )
        return sha256(repr(tuple(parts)).encode()).hexdigest()[:32]


def box_around(boxes: Iterable[Rectangle]) -> Rectangle:
    """The smallest rectangle around all of them; there must be one at least."""
    found = iter(boxes)
    whole = next(found)
    for box in found:
        whole = whole.united(box)
    return whole
