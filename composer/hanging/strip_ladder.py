"""What to do where a moulding's back is too narrow for strips, from the best to the last resort."""

from dataclasses import dataclass
from typing import Any, Literal

import msgspec

from composer.catalogue.catalogue import Catalogue
from composer.hanging.points import hang
from composer.hanging.strips import flat_mm
from composer.model.hanger import StripSize
from composer.model.piece import Piece
from composer.model.wall import Wall
from composer.units import Kg, Length, Mm

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
    if not _too_narrow(piece, turned, catalogue):
        return ()
    return (
        _smaller(piece, turned, catalogue),
        _filler(piece, flat, turned, catalogue),
        Rung("nails", works=wall is None or not wall.no_holes),
        _halves(piece, turned, catalogue),
    )


def _too_narrow(piece: Piece, turned: bool, catalogue: Catalogue) -> bool:
    problems = hang(piece, turned=turned, catalogue=catalogue).problems
    return any(problem.code == "strip-width" for problem in problems)


def _with_hanger(piece: Piece, turned: bool, **fields: Any) -> Piece:
    hanger = piece.hanger_turned if turned else piece.hanger
    assert hanger is not None
    changed = msgspec.structs.replace(hanger, **fields)
    if turned:
        return msgspec.structs.replace(piece, hanger_turned=changed)
    return msgspec.structs.replace(piece, hanger=changed)


def _smaller(piece: Piece, turned: bool, catalogue: Catalogue) -> Rung:
    plan = hang(_with_hanger(piece, turned, strip_size=None), turned=turned, catalogue=catalogue).strips
    if plan is None:
        return Rung("smaller", works=False)
    return Rung("smaller", works=True, size=plan.size, capacity_kg=plan.capacity_kg)


def _filler(piece: Piece, flat: Mm, turned: bool, catalogue: Catalogue) -> Rung:
    """A pad that makes the flat as wide as the class needs that would carry the piece."""
    frame = piece.frame
    for strip in sorted(catalogue.strip_classes.values(), key=lambda one: one.width_mm):
        needed = strip.width_mm + catalogue.strip_rules.least_inset_mm
        # The same piece with a moulding as broad as moulding and filler: does this class carry it then?
        broad = msgspec.structs.replace(frame, face=Length.of_mm(needed), lip=Length.of_mm(0), sight_width=None)
        try:
            tried = _with_hanger(msgspec.structs.replace(piece, frame=broad), turned, strip_size=strip.size)
        except ValueError:
            continue
        plan = hang(tried, turned=turned, catalogue=catalogue).strips
        if plan is not None:
            return Rung(
                "filler", works=True, size=strip.size, filler_mm=Mm(needed - flat), capacity_kg=plan.capacity_kg
            )
    return Rung("filler", works=False)


def _halves(piece: Piece, turned: bool, catalogue: Catalogue) -> Rung:
    plan = hang(
        _with_hanger(piece, turned, strip_half=True, strip_size=None), turned=turned, catalogue=catalogue
    ).strips
    if plan is None:
        return Rung("halves", works=False)
    return Rung("halves", works=True, size=plan.size, capacity_kg=plan.capacity_kg)
