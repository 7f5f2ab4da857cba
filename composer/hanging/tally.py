"""What a hanging takes along: pairs of strips, hooks, screws, bumpers, tools, counted over its pieces."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from composer.catalogue.catalogue import Catalogue
from composer.catalogue.records import Fixing
from composer.hanging.fixings import count_of
from composer.hanging.points import hang
from composer.model.hanger import StripSize
from composer.model.piece import Piece

BUMPERS_EACH = 2
"""One at each lower corner of a piece that hangs on a point (common practice)."""


@dataclass(slots=True)
class Tally:
    """Counts.

    Attributes:
        pairs: pairs of strips by class; two half pairs count as one.
        fixings: how many of each class.
        unchosen: pieces that need a fixing nobody has chosen yet, by number.
        bumpers: for pieces on nails, hooks and screws.
        ledges: pieces that stand on a ledge.
        drills_mm, plugs: what screws need: drill sizes, and plugs by size.
    """

    pairs: dict[StripSize, int] = field(default_factory=dict)
    fixings: dict[str, int] = field(default_factory=dict)
    unchosen: list[int] = field(default_factory=list)
    bumpers: int = 0
    ledges: int = 0
    drills_mm: set[float] = field(default_factory=set)
    plugs: dict[float, int] = field(default_factory=dict)

    @property
    def by_strips(self) -> bool:
        """Whether any piece hangs by strips."""
        return bool(self.pairs)


def tally(pieces: Iterable[tuple[Piece, bool]], catalogue: Catalogue) -> Tally:
    """The counts of pieces and whether each hangs a quarter turned."""
    made = Tally()
    for piece, turned in pieces:
        hanging = hang(piece, turned=turned, catalogue=catalogue)
        if hanging.strips is not None:
            plan = hanging.strips
            count = -(-plan.pairs // 2) if plan.half else plan.pairs
            made.pairs[plan.size] = made.pairs.get(plan.size, 0) + count
        elif hanging.kind == "ledge":
            made.ledges += 1
        elif hanging.kind not in (None, "strips"):
            made.bumpers += BUMPERS_EACH
            fixing = None if piece.hardware is None else catalogue.fixings.get(piece.hardware.fixing)
            if piece.hardware is None or fixing is None:
                made.unchosen.append(piece.number)
            else:
                _add(made, fixing, count_of(piece.hardware, fixing))
    return made


def _add(made: Tally, fixing: Fixing, count: int) -> None:
    made.fixings[fixing.id] = made.fixings.get(fixing.id, 0) + count
    if fixing.drill_mm is not None:
        made.drills_mm.add(fixing.drill_mm)
    if fixing.plug_mm is not None:
        made.plugs[fixing.plug_mm] = made.plugs.get(fixing.plug_mm, 0) + count
