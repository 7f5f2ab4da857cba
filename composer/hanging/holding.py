"""What holds one piece on one wall: its strips, a ledge, or what can go into the wall for it."""

from dataclasses import dataclass
from typing import Literal

from composer.catalogue.catalogue import Catalogue
from composer.hanging.fixings import Offer, needs_fixing, offers, proposal
from composer.hanging.points import hang
from composer.hanging.records import StripPlan
from composer.model.piece import Piece
from composer.model.wall import Wall

STRIPS_NEED_SMOOTH = frozenset({"wallpaper", "textured", "masonry"})
"""Walls that removable strips do not hold on: packets ask for smooth, sound paint or varnish."""

HeldBy = Literal["strips", "ledge", "fixing", "nothing"]


@dataclass(frozen=True, slots=True)
class Holding:
    """What can hold a piece here.

    Attributes:
        by: ``nothing`` where neither strips nor any fixing can, or nobody knows how it hangs.
        why: code of the reason for ``nothing``: a finding's code, or :class:`Offer`'s ``why_not``.
        strips: the plan, for strips.
        proposed: the fixing one click takes; the person's own choice is another matter.
        offers: every class of fixing with its margin, or why not.
    """

    by: HeldBy
    why: str | None = None
    strips: StripPlan | None = None
    proposed: Offer | None = None
    offers: tuple[Offer, ...] = ()


def holding(
    piece: Piece, wall: Wall, catalogue: Catalogue, *, turned: bool = False, at: tuple[float, float] | None = None
) -> Holding:
    """What can hold the piece on that wall.

    Args:
        piece: as measured.
        wall: where it hangs.
        catalogue: the figures that count in the project.
        turned: hung a quarter turned.
        at: its lower left corner on the wall, mm; None = not hung yet.
    """
    hanging = hang(piece, turned=turned, catalogue=catalogue)
    if hanging.kind == "ledge":
        return Holding("ledge")
    if hanging.kind == "strips":
        if hanging.strips is None:
            return Holding("nothing", hanging.problems[0].code)
        if wall.surface in STRIPS_NEED_SMOOTH:
            return Holding("nothing", "strip-wall", hanging.strips)
        return Holding("strips", strips=hanging.strips)
    if not needs_fixing(hanging):
        return Holding("nothing", hanging.problems[0].code if hanging.problems else "not-measured")
    offered = offers(piece, hanging, wall, catalogue, at)
    chosen = proposal(offered)
    if chosen is not None:
        return Holding("fixing", proposed=chosen, offers=offered)
    return Holding("nothing", _nearest_reason(offered), offers=offered)


_TELLING = ("no-points", "no-holes", "wall-unknown", "weight-unknown", "too-weak", "stud-there", "stud-missed")


def _nearest_reason(offered: tuple[Offer, ...]) -> str:
    """Of why each class fails, what says most about the piece rather than about the class."""
    reasons = {offer.why_not for offer in offered}
    return next((reason for reason in _TELLING if reason in reasons), "wall-kind")
