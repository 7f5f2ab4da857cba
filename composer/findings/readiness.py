"""What a piece is ready for, and what is still to be measured for the next paper only.

A piece *can be placed* once its width and height are known (a piece without them does not exist),
*can be hung* once its hanger is measured and its weight is known, *can be costed* once its price and
the size of its glass are. Nothing of a later stage is asked before.
"""

from typing import Literal

from composer.catalogue.catalogue import Catalogue
from composer.findings.measures import listed
from composer.hanging.points import hang
from composer.model import Piece
from composer.texts import N_, say

Ready = Literal["placed", "hung", "costed"]

_READY = {"placed": N_("can be placed"), "hung": N_("can be hung"), "costed": N_("can be costed")}


def stage(piece: Piece, *, turned: bool = False, catalogue: Catalogue | None = None) -> Ready:
    """The last stage the piece has reached."""
    if for_hanging(piece, turned=turned, catalogue=catalogue):
        return "placed"
    return "hung" if for_costing(piece) else "costed"


def stage_words(reached: Ready) -> str:
    """What a stage is called."""
    return say(_READY[reached])


def missing(piece: Piece, *, turned: bool = False, catalogue: Catalogue | None = None) -> tuple[str, ...]:
    """What the next stage still needs, by the names of the inventory table; empty when all is known."""
    return for_hanging(piece, turned=turned, catalogue=catalogue) or for_costing(piece)


def missing_words(piece: Piece, *, turned: bool = False, catalogue: Catalogue | None = None) -> str:
    """The same as a list in words; empty when nothing is missing."""
    return listed(missing(piece, turned=turned, catalogue=catalogue))


def for_hanging(piece: Piece, *, turned: bool = False, catalogue: Catalogue | None = None) -> tuple[str, ...]:
    """What is still to be measured before the piece can be hung."""
    lacking: list[str] = []
    for problem in hang(piece, turned=turned, catalogue=catalogue).problems:
        if problem.code == "not-measured":
            lacking += str(problem.value("missing")).split()
        elif problem.code == "hanger-unknown-turned":
            lacking.append("hanger")
    if piece.weight is None and "weight" not in lacking:
        lacking.append("weight")
    return tuple(lacking)


def for_costing(piece: Piece) -> tuple[str, ...]:
    """What is still to be known before the piece can be costed."""
    lacking = []
    if piece.price is None and not piece.owned:
        lacking.append("price")
    if piece.frame.glass_mm is None:
        lacking.append("face")
    return tuple(lacking)
