"""True up: gaps made exact and nearly aligned edges aligned, with the least movement.

Who must keep clear of whom is read off the frames as they hang: each pair is kept apart along the axis in
which it is farther apart, in the order of its middles. Then every equation that nearly holds (a gap, a
shared edge, a shared centre line) is tried, the nearest first, and kept when the movement it costs is no
more than it is worth. This is repeated until nothing moves any more, so a second run moves nothing.
"""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from composer.arranging.axis import AxisSolver, Equation, Infeasible, Separation
from composer.arranging.measures import FACING_MM
from composer.arranging.room import Room, free_intervals
from composer.geometry.rectangle import Rectangle

MOST_MM = 60.0
"""No piece is moved farther."""

GAP_WORTH, GAP_WORTH_PER_MM, LONGEST_MM = 30.0, 0.05, 300.0
EDGE_WORTH, CENTRE_WORTH = 15.0, 10.0
"""What an equation is worth, in mm of movement, at strength 0.5 half of what it then counts."""

STILL_MM = 0.002
"""A piece that would move by less stays exactly where it is."""

HOLDS_MM = 0.01
"""What is off by less holds; it is kept before anything new is tried, so a finished hang is left alone."""

ROUNDS = 12


class Reach(NamedTuple):
    """How far off an equation may be to be tried, mm, and how much its worth counts."""

    reach: float
    factor: float


def reach_of(strength: float) -> Reach:
    """What a strength from 0 (gentle) to 1 (strict) means; 0.5 is the usual one."""
    strength = min(1.0, max(0.0, strength))
    if strength <= 0.5:
        return Reach(10 + 100 * strength, 0.5 + 3 * strength)
    return Reach(60 + 60 * (strength - 0.5), 2 + 8 * (strength - 0.5))


class Hung(NamedTuple):
    """A piece where it hangs; ``fixed`` ones never move."""

    number: int
    box: Rectangle
    fixed: bool = False


class Move(NamedTuple):
    """What truing up would move, and how far, mm."""

    number: int
    dx: float
    dy: float


@dataclass(frozen=True, slots=True)
class TruedUp:
    """The answer, before anybody accepts it.

    Attributes:
        boxes: where each piece would hang, in the order given.
        moves: of the pieces that would move.
    """

    boxes: tuple[Rectangle, ...]
    moves: tuple[Move, ...]


class CannotTrueUp(Exception):
    """Not possible within 60 mm and these locks.

    Attributes:
        numbers: of the pieces between which there is no room.
    """

    def __init__(self, numbers: Sequence[int]) -> None:
        super().__init__(numbers)
        self.numbers = tuple(numbers)


def true_up(
    hung: Sequence[Hung], room: Room, gap: float, *, strength: float = 0.5, only: Collection[int] | None = None
) -> TruedUp:
    """What truing up would do to the pieces of one wall.

    Args:
        hung: all pieces of the wall.
        room: the wall.
        gap: wanted, mm.
        strength: from 0 (gentle) to 1 (strict).
        only: numbers of the pieces that may move; None = all that are not fixed.

    Raises:
        CannotTrueUp: when pieces cannot be parted by a gap without moving a fixed one, or one by over 60 mm.
    """
    start = [one.box for one in hung]
    fixed = [one.fixed or (only is not None and one.number not in only) for one in hung]
    reach = reach_of(strength)
    boxes = list(start)
    # Once nothing moves seen from the start, look again from where things are now: a second run would.
    for _ in range(4):
        again = _steady(boxes, start, fixed, hung, room, gap, reach)
        fresh = _steady(again, again, fixed, hung, room, gap, reach)
        boxes = again
        if _same(fresh, again):
            break
        for place, (new, old) in enumerate(zip(fresh, start, strict=True)):
            if math.hypot(new.left - old.left, new.bottom - old.bottom) > MOST_MM + 1e-6:
                fixed[place] = True
        boxes = [old if fixed[place] else new for place, (new, old) in enumerate(zip(fresh, again, strict=True))]
    moves = []
    final = []
    for one, box in zip(hung, boxes, strict=True):
        dx, dy = box.left - one.box.left, box.bottom - one.box.bottom
        if max(abs(dx), abs(dy)) <= STILL_MM:
            final.append(one.box)
            continue
        left, bottom = round(box.left, 6), round(box.bottom, 6)
        final.append(Rectangle.at(left, bottom, one.box.width, one.box.height))
        moves.append(Move(one.number, left - one.box.left, bottom - one.box.bottom))
    return TruedUp(tuple(final), tuple(moves))


def _same(one: Sequence[Rectangle], other: Sequence[Rectangle]) -> bool:
    return all(
        abs(a.left - b.left) <= STILL_MM and abs(a.bottom - b.bottom) <= STILL_MM
        for a, b in zip(one, other, strict=True)
    )


def _steady(
    boxes: Sequence[Rectangle],
    start: Sequence[Rectangle],
    fixed: Sequence[bool],
    hung: Sequence[Hung],
    room: Room,
    gap: float,
    reach: Reach,
) -> list[Rectangle]:
    """Rounds of :func:`_round` until nothing moves; nobody farther than 60 mm from ``start``."""
    now = list(boxes)
    held = list(fixed)
    for _ in range(ROUNDS):
        try:
            new = _round(now, start, held, room, gap, reach)
        except Infeasible as stuck:
            raise CannotTrueUp(sorted({hung[index].number for index in stuck.members})) from None
        spoilt = [
            place
            for place, (box, old) in enumerate(zip(new, now, strict=True))
            if not room.free(*box) and room.free(*old)
        ]
        if spoilt:
            for place in spoilt:
                held[place] = True
            continue
        if _same(new, now):
            return now
        now = new
    return now


def _round(
    boxes: Sequence[Rectangle],
    start: Sequence[Rectangle],
    fixed: Sequence[bool],
    room: Room,
    gap: float,
    reach: Reach,
) -> list[Rectangle]:
    pairs = topology(boxes, gap)
    now = list(boxes)
    plans = [way_out(box, room) for box in boxes]
    for axis in (0, 1):
        low, high = bounds_along(now, start, fixed, room, axis, plans)
        separations = [
            Separation(first, second, now[first][axis + 2] - now[first][axis] + gap)
            for which, first, second in pairs
            if which == axis and not (fixed[first] and fixed[second])
        ]
        solver = AxisSolver([box[axis] for box in now], low, high, separations)
        for equation in _equations(boxes, pairs, fixed, axis, gap, reach):
            solver.accept(equation)
        solver.relax()
        now = [
            box.moved(at - box.left, 0) if axis == 0 else box.moved(0, at - box.bottom)
            for box, at in zip(now, solver.at, strict=True)
        ]
    return now


def topology(boxes: Sequence[Rectangle], gap: float, farthest: float = MOST_MM) -> list[tuple[int, int, int]]:
    """Axis, first and second of every pair that could come too near when nobody moves farther than that, mm."""
    found = []
    for i, one in enumerate(boxes):
        for j in range(i + 1, len(boxes)):
            other = boxes[j]
            across = max(other.left - one.right, one.left - other.right)
            up = max(other.bottom - one.top, one.bottom - other.top)
            if max(across, up) >= gap + 2 * farthest:
                continue
            axis = 0 if across >= up else 1
            order = one.centre[axis] < other.centre[axis] or (one.centre[axis] == other.centre[axis])
            found.append((axis, i, j) if order else (axis, j, i))
    return found


def way_out(box: Rectangle, room: Room) -> int | None:
    """For a piece that is in the way of something: along which axis it gets out of it; -1 = not within 60 mm."""
    if room.free(*box):
        return None
    ways = []
    for axis in (0, 1):
        low, high, size = box[1 - axis], box[3 - axis], box[axis + 2] - box[axis]
        free = free_intervals(
            room.blocked("x" if axis == 0 else "y", low, high, size), box[axis] - MOST_MM, box[axis] + MOST_MM
        )
        if free:
            ways.append((min(max(0.0, start - box[axis], box[axis] - end) for start, end in free), axis))
    return min(ways)[1] if ways else -1


def bounds_along(
    now: Sequence[Rectangle],
    start: Sequence[Rectangle],
    fixed: Sequence[bool],
    room: Room,
    axis: int,
    plans: Sequence[int | None],
    farthest: float = MOST_MM,
) -> tuple[list[float], list[float]]:
    """Where each low edge may be along ``axis``: free of the wall's things, so far at most from the start in all."""
    lows, highs = [], []
    for place, box in enumerate(now):
        at, old = box[axis], start[place][axis]
        if fixed[place] or plans[place] == -1:
            lows.append(at)
            highs.append(at)
            continue
        spent = 0.0 if axis == 0 else abs(box.left - start[place].left)
        most = math.sqrt(max(0.0, farthest * farthest - spent * spent))
        low, high = old - most, old + most
        if not (plans[place] == 1 and axis == 0):
            size = box[axis + 2] - box[axis]
            blocked = room.blocked("x" if axis == 0 else "y", box[1 - axis], box[3 - axis], size)
            free = free_intervals(blocked, low, high)
            if free:
                low, high = min(free, key=lambda one: (max(0.0, one[0] - at, at - one[1]), one[0]))
            else:
                low = high = min(max(at, low), high)
        lows.append(low)
        highs.append(high)
    return lows, highs


def _equations(
    boxes: Sequence[Rectangle],
    pairs: Sequence[tuple[int, int, int]],
    fixed: Sequence[bool],
    axis: int,
    gap: float,
    reach: Reach,
) -> list[Equation]:
    """Everything that nearly holds along one axis: what holds already, then what is least off for its worth."""
    found: list[tuple[bool, float, int, int, Equation]] = []

    def add(first: int, second: int, off: float, worth: float) -> None:
        away = abs(boxes[second][axis] - boxes[first][axis] - off)
        if away <= reach.reach:
            worth *= reach.factor
            found.append(
                (away > HOLDS_MM, round(away - worth / 2, 6), first, second, Equation(first, second, off, worth))
            )

    for which, first, second in pairs:
        if fixed[first] and fixed[second]:
            continue
        one, other = boxes[first], boxes[second]
        side = 1 - axis
        in_line = min(one[side + 2], other[side + 2]) - max(one[side], other[side])
        size, other_size = one[axis + 2] - one[axis], other[axis + 2] - other[axis]
        if which == axis:
            if in_line >= FACING_MM and not _hidden(boxes, first, second, axis):
                add(first, second, size + gap, GAP_WORTH + GAP_WORTH_PER_MM * min(LONGEST_MM, in_line))
            continue
        apart_by = max(other[side] - one[side + 2], one[side] - other[side + 2])
        if apart_by <= 2 * gap + reach.reach:
            add(first, second, 0.0, EDGE_WORTH)
            add(first, second, size - other_size, EDGE_WORTH)
            add(first, second, (size - other_size) / 2, CENTRE_WORTH)
    found.sort(key=lambda one: one[:4])
    return [one[4] for one in found]


def _hidden(boxes: Sequence[Rectangle], first: int, second: int, axis: int) -> bool:
    """Whether a third frame stands between two that face each other along ``axis``."""
    side = 1 - axis
    one, other = boxes[first], boxes[second]
    low, high = max(one[side], other[side]), min(one[side + 2], other[side + 2])
    between = (one[axis + 2], other[axis])
    for place, third in enumerate(boxes):
        if place in (first, second) or third[axis] < between[0] - 1 or third[axis + 2] > between[1] + 1:
            continue
        if min(high, third[side + 2]) - max(low, third[side]) > (high - low) - FACING_MM:
            return True
    return False
