"""What to do where a moulding's back is too narrow for strips, from the best to the last resort."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from composer.catalogue.catalogue import Catalogue
from composer.hanging.records import StripPlan
from composer.hanging.strips import flat_mm, plan
from composer.model.hanger import Hanger, StripSize
from composer.model.piece import Piece
from composer.model.wall import Wall
from composer.units import Kg, Mm

Way = Literal["smaller", "filler", "nails", "halves"]


@dataclass(frozen=True, slots=True)
class Rung:
    """One way out.

    Attributes:
        way: a smaller class; a filler glued flush with the moulding; nails instead; strips cut lengthwise.
        works: whether it would hold the piece here.
        size: the class of strips meant.
        filler_mm: how wide the filler must be, so that strip and inset have their flat.
        capacity_kg: what the strips would carry; half the packet's figure for halves, and its word is void.
    """

    way: Way
    works: bool
    size: StripSize | None = None
    filler_mm: Mm | None = None
    capacity_kg: Kg | None = None


def ladder(piece: Piece, wall: Wall | None, catalogue: Catalogue, *, turned: bool = False) -> tuple[Rung, ...]:
    """The ways out, in the order to try them; empty where strips fit as they are, or the face is unknown."""
    hanger = piece.hanger_turned if turned else piece.hanger
    flat = flat_mm(piece)
    if hanger is None or hanger.kind != "strips" or flat is None:
        return ()
    width, height = (Mm(side) for side in piece.size_mm(turned=turned))

    def tried(size: StripSize | None, half: bool, broad: Mm | None = None) -> StripPlan | None:
        decided = Hanger(kind="strips", strip_size=size, strip_pairs=hanger.strip_pairs, strip_half=half)
        return plan(piece, decided, width, height, catalogue, broad)[0]

    refused = plan(piece, hanger, width, height, catalogue)[1]
    if not any(problem.code == "strip-width" for problem in refused):
        return ()
    return (
        _rung("smaller", tried(None, half=False)),
        _filler(flat, catalogue, tried),
        Rung("nails", works=wall is None or not wall.no_holes),
        _rung("halves", tried(None, half=True)),
    )


def _rung(way: Way, made: StripPlan | None) -> Rung:
    if made is None:
        return Rung(way, works=False)
    return Rung(way, works=True, size=made.size, capacity_kg=made.capacity_kg)


def _filler(
    flat: Mm, catalogue: Catalogue, tried: Callable[[StripSize | None, bool, Mm | None], StripPlan | None]
) -> Rung:
    """A pad that makes the flat as broad as the narrowest class needs that then carries the piece."""
    for strip in sorted(catalogue.strip_classes.values(), key=lambda one: (one.width_mm, one.rating_kg)):
        needed = Mm(strip.width_mm + catalogue.strip_rules.least_inset_mm)
        made = tried(strip.size, False, needed)
        if made is not None:
            return Rung("filler", True, made.size, Mm(needed - flat), made.capacity_kg)
    return Rung("filler", works=False)
