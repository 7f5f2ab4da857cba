"""The rehang plan of one wall: from what is up to an arrangement, or to the empty wall.

Numbers are wall millimetres. A piece stays where it is when its new place is within the tolerance of
where it hangs: it is not touched. Everything else moves, comes down or goes up; its holes are old
ones where they serve, and new ones where they do not. What is left of the old holes is filled.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from composer.catalogue import catalogue as catalogues
from composer.catalogue.catalogue import Catalogue
from composer.geometry.rectangle import Rectangle
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.model import Arrangement, HungStrips, Key, Piece, Placement, Project, Wall
from composer.rehang.now import OldHole, UpNow, old_holes, up_on
from composer.rehang.order import Work, in_order
from composer.rehang.reuse import TOLERANCE_MM, Point, Reuse, Wanted, best_reuse
from composer.rehang.shift import MOST_SHIFT_MM, best_shift

Action = Literal["stay", "move", "down", "up"]

HIDDEN_MM = 10.0
"""A hole this far inside a frame's edge is hidden behind it (judgement)."""

NOTHING_OFF: Point = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class HoleUse:
    """Where a nail of a piece goes; ``old``: the hole that serves again, None = a new one."""

    x: float
    y: float
    old: OldHole | None = None


@dataclass(frozen=True, slots=True)
class Change:
    """What happens to one piece.

    Attributes:
        action: ``stay``, ``move``, ``down`` or ``up``.
        now: where it hangs, None = not up, or nobody knows where.
        then: where it will hang, ``off`` included; None = it comes down.
        off: how far that is from its exact place, so that an old hole serves, mm across and up.
        turned: hung a quarter turned, then.
        holes: where its nails go.
        hanging: how it hangs, then (for one that comes down: now).
        strips_lost: strips that are pulled and spent, None = none.
    """

    piece: Piece
    action: Action
    now: Rectangle | None
    then: Rectangle | None
    off: Point = NOTHING_OFF
    turned: bool = False
    holes: tuple[HoleUse, ...] = ()
    hanging: PieceHanging | None = None
    strips_lost: HungStrips | None = None

    @property
    def number(self) -> int:
        """The piece's number."""
        return self.piece.number

    @property
    def new_holes(self) -> tuple[HoleUse, ...]:
        """Nails that need a new hole."""
        return tuple(hole for hole in self.holes if hole.old is None)

    @property
    def used_again(self) -> tuple[HoleUse, ...]:
        """Nails that go into an old hole."""
        return tuple(hole for hole in self.holes if hole.old is not None)

    @property
    def strips_needed(self) -> int:
        """Pairs of new strips; 0 for a piece that is not touched."""
        strips = None if self.hanging is None else self.hanging.strips
        return 0 if strips is None or self.action in ("stay", "down") else strips.pairs


@dataclass(frozen=True, slots=True)
class ToFill:
    """An old hole nobody needs; ``behind``: number of the piece that will hide it, None = it shows."""

    hole: OldHole
    behind: int | None = None


@dataclass(frozen=True, slots=True)
class RehangPlan:
    """Everything to do on one wall.

    Attributes:
        changes: every piece that is up or shall be, by number.
        work: what is done with them, one after the other.
        most_aside: how many pieces lie aside at once, besides the one in hand.
        fill: old holes nobody needs.
        moved_all: how far the whole arrangement is shifted from where it is planned.
        tolerance_mm: how far off its place a piece may hang for an old hole.
    """

    wall: Wall
    changes: tuple[Change, ...]
    work: tuple[Work, ...]
    most_aside: int
    fill: tuple[ToFill, ...]
    moved_all: Point
    tolerance_mm: float

    def of(self, action: Action) -> tuple[Change, ...]:
        """The pieces something happens to."""
        return tuple(change for change in self.changes if change.action == action)

    @property
    def used_again(self) -> int:
        """Old holes that serve again, those of pieces that stay included."""
        return sum(len(change.used_again) for change in self.changes)

    @property
    def new_holes(self) -> int:
        """Holes to make."""
        return sum(len(change.new_holes) for change in self.changes)

    @property
    def strips_lost(self) -> int:
        """Pairs of strips that are pulled."""
        return sum(change.strips_lost.pairs for change in self.changes if change.strips_lost is not None)

    @property
    def templates_for(self) -> tuple[int, ...]:
        """Numbers of the pieces that need a template or locator: new holes, or new strips."""
        return tuple(change.number for change in self.changes if change.new_holes or change.strips_needed)

    @property
    def nothing_to_do(self) -> bool:
        """Whether every piece stays and no hole is to be filled."""
        return all(change.action == "stay" for change in self.changes) and not self.fill

    @property
    def empties(self) -> bool:
        """Whether the wall is bare afterwards: moving out."""
        return not any(change.then is not None for change in self.changes)


@dataclass(frozen=True, slots=True)
class ShiftOffer:
    """A shift of all pieces that saves holes: how far, and the plan with it."""

    shift: Point
    plan: RehangPlan
    saves: int


def plan_rehang(
    project: Project,
    wall: Wall,
    target: Arrangement | None,
    tolerance_mm: float = TOLERANCE_MM,
    moved_all: Point = NOTHING_OFF,
) -> RehangPlan:
    """The plan from what is up to ``target``; None = to the empty wall."""
    return _Planner(project, wall, target).plan(tolerance_mm, moved_all)


def offer_shift(
    project: Project,
    wall: Wall,
    target: Arrangement,
    tolerance_mm: float = TOLERANCE_MM,
    most_mm: float = MOST_SHIFT_MM,
) -> ShiftOffer | None:
    """The shift of the whole arrangement with which most old holes serve; None where none saves a hole.

    A locked piece or one that would leave the wall is no matter here: the edit that takes the offer
    looks at these.
    """
    planner = _Planner(project, wall, target)
    plain = planner.plan(tolerance_mm, NOTHING_OFF)
    found = best_shift(planner.wanted, [hole.at for hole in planner.old], tolerance_mm, most_mm)
    if found.count <= plain.used_again:
        return None
    return ShiftOffer(found.moved_all, planner.plan(tolerance_mm, found.moved_all), found.count - plain.used_again)


class _Planner:
    """What is up, what is wanted, and the holes between them."""

    def __init__(self, project: Project, wall: Wall, target: Arrangement | None) -> None:
        self.project, self.wall = project, wall
        self.known: Catalogue = catalogues.of(project.catalogue)
        self.old = old_holes(project, wall)
        self.up: Mapping[Key, UpNow] = {up.piece.key: up for up in up_on(project, wall, self.known)}
        self.target: Mapping[Key, Placement] = {
            place.piece: place for place in (() if target is None else target.placements) if place.wall == wall.key
        }
        self.hanging = {
            key: hang(project.piece_by_key[key], turned=place.turned, catalogue=self.known)
            for key, place in self.target.items()
        }
        indices = {hole.index: place for place, hole in enumerate(self.old)}
        self.wanted = [
            Wanted(
                key,
                tuple((place.left + hole.x, place.bottom + hole.y) for hole in self.hanging[key].holes),
                tuple(indices[index] for index in self.up[key].holes if index in indices) if key in self.up else (),
            )
            for key, place in self.target.items()
            if self.hanging[key].holes
        ]

    def plan(self, tolerance: float, moved_all: Point) -> RehangPlan:
        """The plan with the whole arrangement shifted by ``moved_all``."""
        reuse = best_reuse(self.wanted, [hole.at for hole in self.old], tolerance, moved_all)
        changes = [self._change(key, reuse, tolerance, moved_all) for key in {**self.up, **self.target}]
        changes.sort(key=lambda change: change.number)
        used = {hole.old.index for change in changes for hole in change.holes if hole.old is not None}
        fill = tuple(ToFill(hole, _behind(hole, changes)) for hole in self.old if hole.index not in used)
        work, aside = _work(changes, self.up)
        return RehangPlan(self.wall, tuple(changes), work, aside, fill, moved_all, tolerance)

    def _change(self, key: Key, reuse: Reuse, tolerance: float, moved_all: Point) -> Change:
        piece, up, place = self.project.piece_by_key[key], self.up.get(key), self.target.get(key)
        now = None if up is None else up.place
        lost = None if up is None else up.record.strips
        if place is None:
            assert up is not None
            hanging = hang(piece, turned=up.turned, catalogue=self.known)
            return Change(piece, "down", now, None, turned=up.turned, hanging=hanging, strips_lost=lost)
        hanging = self.hanging[key]
        off = reuse.shift.get(key, NOTHING_OFF)
        exact = Rectangle.at(place.left, place.bottom, hanging.width_mm, hanging.height_mm).moved(*moved_all)
        holes = self._holes(key, reuse, off, moved_all)
        if up is not None and now is not None and self._stays(up, place, now, exact, holes, tolerance):
            off = (now.left - exact.left, now.bottom - exact.bottom)
            holes = holes if up.holes else ()  # it hangs: whatever holds it needs no new hole
            return Change(piece, "stay", now, now, off, place.turned, holes, hanging)
        action: Action = "up" if up is None else "move"
        return Change(piece, action, now, exact.moved(*off), off, place.turned, holes, hanging, lost)

    def _holes(self, key: Key, reuse: Reuse, off: Point, moved_all: Point) -> tuple[HoleUse, ...]:
        place = self.target[key]
        taken = reuse.taken.get(key, ())
        found = []
        for hole, index in zip(self.hanging[key].holes, taken, strict=False):
            if index is not None:
                found.append(HoleUse(*self.old[index].at, self.old[index]))
            else:
                found.append(
                    HoleUse(place.left + hole.x + moved_all[0] + off[0], place.bottom + hole.y + moved_all[1] + off[1])
                )
        return tuple(found)

    def _stays(
        self,
        up: UpNow,
        place: Placement,
        now: Rectangle,
        exact: Rectangle,
        holes: Sequence[HoleUse],
        tolerance: float,
    ) -> bool:
        """Within the tolerance of its new place, the same way up, and its own nails not given away."""
        if up.turned != place.turned:
            return False
        across, along = now.left - exact.left, now.bottom - exact.bottom
        if (across**2 + along**2) ** 0.5 > tolerance + 1e-6:
            return False
        return {hole.old.index for hole in holes if hole.old is not None} == set(up.holes)


def _behind(hole: OldHole, changes: Sequence[Change]) -> int | None:
    """The piece that will hang over a hole, well inside its edges."""
    for change in changes:
        if change.then is not None and change.then.grown(-HIDDEN_MM).holds(*hole.at):
            return change.number
    return None


def _work(changes: Sequence[Change], up: Mapping[Key, UpNow]) -> tuple[tuple[Work, ...], int]:
    owner = {index: key for key, one in up.items() for index in one.holes}
    waits: dict[Key, frozenset[Key]] = {}
    leaving = [change for change in changes if change.action in ("move", "down")]
    for change in changes:
        if change.action not in ("move", "up") or change.then is None:
            continue
        blockers = {
            other.piece.key
            for other in leaving
            if other is not change and other.now is not None and other.now.meets(change.then, least=0.5)
        }
        taken = {owner[hole.old.index] for hole in change.used_again if hole.old and hole.old.index in owner}
        waits[change.piece.key] = frozenset(blockers | taken - {change.piece.key})
    keys = {
        action: [change.piece.key for change in changes if change.action == action] for action in ("down", "move", "up")
    }
    return in_order(keys["down"], keys["move"], keys["up"], waits)
