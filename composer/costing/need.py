"""One need: so many of one thing, for which pieces."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from composer.costing.items import Group

HAS_ITS_PRINT = frozenset({"print-here", "framed", "ready"})
"""Stages at which a piece's print is there."""

HAS_ITS_MAT = frozenset({"framed", "ready"})
"""Stages at which its mat is cut."""


@dataclass(frozen=True, slots=True)
class Need:
    """So many of one thing.

    Attributes:
        group: what kind of thing it is.
        item: its id, by which a price row names it.
        shares: number of each piece and how many it takes.
        count: how many in all, in the shop's units; more than the shares only by rounding up.
        each: a price that stands beside the thing itself (a frame's, a print's, an extra's).
        worth: for what is cut from something larger: the share of the whole that is used, 0 to 1.
        handy: useful, usually at home; it is bought only where it has a price.
        cut: sizes to be cut to, width and height in mm, in the order of the shares.
        left_sizes: what is left of boards, width and height in mm.
        label: what it is called on the list; empty = by its id.
        also: other names a price row may call it by, the most special first.
        at_home: how many of a need without a price are in the drawer all the same.
    """

    group: Group
    item: str
    count: int
    shares: tuple[tuple[int, int], ...] = ()
    each: Decimal | None = None
    worth: Fraction | None = None
    handy: bool = False
    cut: tuple[tuple[float, float], ...] = ()
    left_sizes: tuple[tuple[float, float], ...] = ()
    label: str = ""
    also: tuple[str, ...] = ()
    at_home: int = 0

    @property
    def pieces(self) -> tuple[int, ...]:
        """Numbers of the pieces it is for."""
        return tuple(number for number, _ in self.shares)
