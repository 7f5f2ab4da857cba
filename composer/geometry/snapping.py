"""Which rules catch a rectangle while it is dragged: gaps, edges, middles, the eye line, margins.

Pure Python and bisection over lines sorted once at the press, band by band across the axis, so a step
costs the same among ten pieces or a thousand. Both axes choose independently, but for one thing: a gap only counts between
rectangles that face each other where they end up.

Distances are judged in screen pixels, since that is what the hand feels. A rule catches within
8 px and, once it has caught, lets go only beyond 12 px and yields to another rule only when that
one is 3 px better: without this hysteresis a nearly still hand makes the piece flicker.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from composer.geometry.rectangle import Rectangle
from composer.geometry.snap_lines import Axis, Catch, Edge, Guide, KeepOut, Lines, Neighbour, Rule

__all__ = ["Axis", "Catch", "Edge", "Guide", "KeepOut", "Neighbour", "Rule", "Snap", "SnapSession", "step"]

CATCH_PX = 8.0
RELEASE_PX = 12.0
HELD_BONUS_PX = 3.0
NEARNESS_PX_PER_MM = 0.002
TOGETHER_MM = 0.3
"""Rules whose places differ by less than this are shown together."""

PENALTY_PX: dict[Rule, float] = {
    "gap": 0.0,
    "keep-out": 0.0,
    "wall-margin": 0.0,
    "eye-line": 0.5,
    "wall-middle": 1.0,
    "thing-middle": 1.0,
    "spacing": 1.0,
    "edge": 1.5,
    "centre": 2.5,
}


class Snap(NamedTuple):
    """Where the rectangle goes, and every rule that holds there, strongest first."""

    box: Rectangle
    catches: tuple[Catch, ...]


@dataclass(frozen=True, slots=True)
class SnapSession:
    """One drag: what may catch, sorted at the press, and what holds at the moment."""

    across: Lines
    up: Lines
    held: tuple[Catch, ...] = ()

    @classmethod
    def begin(
        cls,
        neighbours: Iterable[Neighbour],
        *,
        gap: float,
        keep_outs: Iterable[KeepOut] = (),
        guides: Iterable[Guide] = (),
    ) -> "SnapSession":
        """A session for the press; the moving pieces are not among ``neighbours``. ``gap`` in mm."""
        still, blocked, lines = list(neighbours), list(keep_outs), list(guides)
        return cls(
            across=Lines.sort("x", still, blocked, lines, gap),
            up=Lines.sort("y", still, blocked, lines, gap),
        )

    def with_guides(self, guides: Iterable[Guide]) -> "SnapSession":
        """The session with other lines of the wall; what holds goes on holding while its line does."""
        lines = list(guides)
        return replace(
            self,
            across=replace(self.across, guides=tuple(guide for guide in lines if guide.axis == "x")),
            up=replace(self.up, guides=tuple(guide for guide in lines if guide.axis == "y")),
        )


def step(session: SnapSession, box: Rectangle, px_per_mm: float) -> tuple[Snap, SnapSession]:
    """Where the rules put the rectangle the hand holds at ``box``, and the session for the next move.

    Args:
        session: of this drag.
        box: the moving selection's bounding rectangle as the pointer has it, mm.
        px_per_mm: the drawing's present scale.
    """
    up = _choose(session.up, box, px_per_mm, session.held)
    lifted = box if up is None else box.moved(0, up.at - box.bottom)
    across = _choose(session.across, lifted, px_per_mm, session.held)
    put = lifted if across is None else lifted.moved(across.at - lifted.left, 0)
    if up is not None and across is not None and not _still_holds(session.up, up, put):
        up = _choose(session.up, put.moved(0, box.bottom - put.bottom), px_per_mm, session.held)
        put = put.moved(0, (box.bottom if up is None else up.at) - put.bottom)
        if not _still_holds(session.across, across, put):
            across, put = None, put.moved(box.left - put.left, 0)
    catches = []
    for lines, chosen in ((session.across, across), (session.up, up)):
        if chosen is not None:
            near = (catch for _, catch in lines.candidates(put, TOGETHER_MM))
            together = [catch for catch in near if abs(catch.at - chosen.at) <= TOGETHER_MM]
            catches += _strongest_first(together, chosen)
    held = tuple(catch._replace(gaps=()) for catch in (across, up) if catch is not None)
    return Snap(put, tuple(catches)), SnapSession(session.across, session.up, held)


def _choose(lines: Lines, box: Rectangle, px_per_mm: float, held: Sequence[Catch]) -> Catch | None:
    low = box.left if lines.axis == "x" else box.bottom
    best: tuple[float, float, tuple[str, ...]] | None = None
    chosen = None
    holding = {(catch.rule, catch.names, catch.at) for catch in held if catch.axis == lines.axis}
    for nearness, catch in lines.candidates(box, RELEASE_PX / px_per_mm):
        distance = abs(catch.at - low) * px_per_mm
        is_held = (catch.rule, catch.names, catch.at) in holding
        if distance > (RELEASE_PX if is_held else CATCH_PX):
            continue
        score = distance + PENALTY_PX[catch.rule] + NEARNESS_PX_PER_MM * nearness - HELD_BONUS_PX * is_held
        rank = (round(score, 6), catch.at, catch.names)
        if best is None or rank < best:
            best, chosen = rank, catch
    return chosen


def _strongest_first(catches: list[Catch], chosen: Catch) -> list[Catch]:
    return sorted(catches, key=lambda catch: (catch[:5] != chosen[:5], PENALTY_PX[catch.rule], catch.names))


def _still_holds(lines: Lines, chosen: Catch, box: Rectangle) -> bool:
    return any(catch[:4] == chosen[:4] for _, catch in lines.candidates(box, TOGETHER_MM))
