"""Several prints on one larger sheet (multi-up), cut apart along lines that run from edge to edge.

Around the prints stays white for marks and a check bar, so a sheet carries less than its size.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from composer.prints.guillotine import Blank, CutSheet, pack
from composer.prints.plan import PiecePlan
from composer.prints.stock import StockSize, stock_named

NEAR_MM, FAR_MM = 12.0, 20.0
"""White around the prints: above and left for marks alone, below and right for a bar as well."""


@dataclass(frozen=True, slots=True)
class SharedStock:
    """Sheets of one stock and paper that several prints share.

    Attributes:
        cuts: one a sheet; blanks are labelled with the pieces' numbers.
        plans: of the pieces, by number.
    """

    stock: StockSize
    paper: str
    cuts: tuple[CutSheet, ...]
    plans: tuple[PiecePlan, ...]

    @property
    def numbers(self) -> tuple[int, ...]:
        """Numbers of the pieces."""
        return tuple(plan.piece.number for plan in self.plans)


def room_mm(stock: StockSize) -> tuple[float, float]:
    """What a sheet has room for, lying: its long side across."""
    return stock.height_mm - NEAR_MM - FAR_MM, stock.width_mm - NEAR_MM - FAR_MM


def on_sheets(needed: Sequence[tuple[int, tuple[float, float]]], stock: StockSize) -> list[CutSheet] | None:
    """Prints, by piece number and needed size, on as few sheets as can be found; None where one is too large."""
    room = room_mm(stock)
    if min(room) <= 0:
        return None
    try:
        return pack([Blank(str(number), *size) for number, size in needed], [room])
    except ValueError:
        return None


def shared_stocks(plans: Iterable[PiecePlan], sizes: Sequence[StockSize]) -> list[SharedStock]:
    """The shared sheets the person chose, by stock and paper.

    A print that shares with nobody, or whose size or shared stock is not known, has a sheet of its own.
    """
    groups: dict[tuple[str, str], list[PiecePlan]] = defaultdict(list)
    for plan in plans:
        if plan.use is not None and plan.print is not None and plan.use.print.shared:
            groups[plan.use.print.shared, plan.use.print.paper or ""].append(plan)
    found = []
    for (name, paper), members in groups.items():
        stock = stock_named(sizes, name)
        needed = [(plan.piece.number, plan.print.needed_mm) for plan in members if plan.print is not None]
        cuts = None if stock is None or len(members) < 2 else on_sheets(needed, stock)
        if stock is not None and cuts:
            found.append(SharedStock(stock, paper, tuple(cuts), tuple(members)))
    return found
