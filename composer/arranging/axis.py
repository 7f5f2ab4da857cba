"""Places along one axis: keep distances, satisfy as many equations as they are worth, move as little as may be.

Movement is counted as the sum of absolute values (L1), so that one frame set wrong moves back alone
instead of shifting all others a little. Frames tied by equations move as one class, a class goes to the
median of where its frames were; what it would come too near to is pushed along.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

SAME_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Separation:
    """``second`` lies at least ``least`` mm after ``first`` (low edge to low edge)."""

    first: int
    second: int
    least: float


@dataclass(frozen=True, slots=True)
class Equation:
    """``second`` shall lie exactly ``off`` mm after ``first`` (low edge to low edge).

    ``worth``: how much more movement in all, mm, it may cost.
    """

    first: int
    second: int
    off: float
    worth: float


class Infeasible(Exception):
    """The distances cannot all be kept within the bounds.

    Attributes:
        members: indices between which there is no room.
    """

    def __init__(self, members: Sequence[int]) -> None:
        super().__init__(members)
        self.members = tuple(members)


class AxisSolver:
    """The frames of one axis with what must hold and where each of them may be.

    Args:
        wishes: where each low edge is now, mm.
        low, high: bounds of each; equal ones for what never moves.
        separations: distances that must be kept.

    Raises:
        Infeasible: when the distances leave somebody no room.
    """

    def __init__(
        self,
        wishes: Sequence[float],
        low: Sequence[float],
        high: Sequence[float],
        separations: Sequence[Separation],
    ) -> None:
        self._wishes = list(wishes)
        count = len(self._wishes)
        self._low, self._high = _tightened(list(low), list(high), separations)
        self._after: list[list[tuple[int, float]]] = [[] for _ in range(count)]
        self._before: list[list[tuple[int, float]]] = [[] for _ in range(count)]
        for one in separations:
            self._after[one.first].append((one.second, one.least))
            self._before[one.second].append((one.first, one.least))
        self._members: list[list[int]] = [[index] for index in range(count)]
        self._class = list(range(count))
        self.at = [min(max(wish, self._low[i]), self._high[i]) for i, wish in enumerate(self._wishes)]
        """Where each low edge is, mm; all distances are kept."""
        self._part(separations)

    def _part(self, separations: Sequence[Separation]) -> None:
        """Frames that are too near moved apart, the worst first."""
        count = len(self.at)
        for _ in range(4 * count + 4 * len(separations)):
            worst, off = None, SAME_MM
            for one in separations:
                short = self.at[one.first] + one.least - self.at[one.second]
                if short > off:
                    worst, off = one, short
            if worst is None:
                return
            group = {index: self.at[index] - self.at[worst.first] for index in self._members[self._class[worst.first]]}
            for index in self._members[self._class[worst.second]]:
                group[index] = worst.least + self.at[index] - self.at[worst.second]
            moved = self._pushed(group)
            if moved is None:
                break
            for index, at in moved.items():
                self.at[index] = at
        self._from_bounds(separations)

    def _from_bounds(self, separations: Sequence[Separation]) -> None:
        """Any arrangement that keeps all distances, when moving the worst apart went in circles."""
        order = sorted(range(len(self.at)), key=lambda index: (self._low[index], index))
        for index in order:
            self.at[index] = min(max(self._wishes[index], self._low[index]), self._high[index])
        for _ in range(len(order) + 1):
            changed = False
            for one in separations:
                least = self.at[one.first] + one.least
                if self.at[one.second] < least - SAME_MM:
                    self.at[one.second] = least
                    changed = True
            if not changed:
                break
        for _ in range(len(order) + 1):
            changed = False
            for index in order:
                if self.at[index] > self._high[index] + SAME_MM:
                    self.at[index] = self._high[index]
                    changed = True
            for one in separations:
                most = self.at[one.second] - one.least
                if self.at[one.first] > most + SAME_MM:
                    self.at[one.first] = most
                    changed = True
            if not changed:
                return
        raise Infeasible(order)

    def accept(self, equation: Equation) -> bool:
        """Ties two frames together, if that costs no more movement than it is worth; says whether it did.

        An equation that holds already, by those accepted before, costs nothing.
        """
        first, second = equation.first, equation.second
        off = equation.off
        if self._class[first] == self._class[second]:
            return abs(self.at[second] - self.at[first] - off) <= 1e-4
        group = {index: self.at[index] - self.at[first] for index in self._members[self._class[first]]}
        for index in self._members[self._class[second]]:
            group[index] = off + self.at[index] - self.at[second]
        moved = self._pushed(group)
        if moved is None:
            return False
        before = fsum(abs(self.at[index] - self._wishes[index]) for index in moved)
        after = fsum(abs(at - self._wishes[index]) for index, at in moved.items())
        if round(after - before, 6) > equation.worth:
            return False
        for index, at in moved.items():
            self.at[index] = at
        into, gone = self._class[first], self._class[second]
        for index in self._members[gone]:
            self._class[index] = into
        self._members[into] += self._members[gone]
        self._members[gone] = []
        return True

    def relax(self) -> None:
        """Classes moved back towards where their frames were, as far as their neighbours let them."""
        for _ in range(3):
            changed = False
            for members in self._members:
                if not members:
                    continue
                base = self.at[members[0]]
                offs = {index: self.at[index] - base for index in members}
                low = max(self._low[index] - off for index, off in offs.items())
                high = min(self._high[index] - off for index, off in offs.items())
                for index, off in offs.items():
                    for other, least in self._after[index]:
                        if other not in offs:
                            high = min(high, self.at[other] - least - off)
                    for other, least in self._before[index]:
                        if other not in offs:
                            low = max(low, self.at[other] + least - off)
                if low > high:
                    continue
                to = min(max(_median([self._wishes[index] - off for index, off in offs.items()], base), low), high)
                if abs(to - base) > SAME_MM:
                    changed = True
                    for index, off in offs.items():
                        self.at[index] = to + off
            if not changed:
                return

    def _pushed(self, group: dict[int, float]) -> dict[int, float] | None:
        """Where a group of frames with fixed offsets goes, together with all it pushes along; None = nowhere."""
        for _ in range(len(self.at) + 1):
            low = max(self._low[index] - off for index, off in group.items())
            high = min(self._high[index] - off for index, off in group.items())
            if low > high + SAME_MM:
                return None
            start = self.at[next(iter(group))] - group[next(iter(group))]
            base = min(max(_median([self._wishes[index] - off for index, off in group.items()], start), low), high)
            worst: tuple[float, int, float] | None = None
            for index, off in group.items():
                here = base + off
                for other, least in self._after[index]:
                    if other in group:
                        if group[other] - off < least - 1e-4:
                            return None
                    elif here + least - self.at[other] > (SAME_MM if worst is None else worst[0]):
                        worst = (here + least - self.at[other], other, off + least)
                for other, least in self._before[index]:
                    if other in group:
                        continue
                    if self.at[other] + least - here > (SAME_MM if worst is None else worst[0]):
                        worst = (self.at[other] + least - here, other, off - least)
            if worst is None:
                return {index: base + off for index, off in group.items()}
            _, pushed, at = worst
            for index in self._members[self._class[pushed]]:
                group[index] = at + self.at[index] - self.at[pushed]
        return None


def _median(values: list[float], near: float) -> float:
    """The median; of the two middle ones of an even number whatever lies between them nearest to ``near``."""
    values.sort()
    half = len(values) // 2
    if len(values) % 2:
        return values[half]
    return min(max(near, values[half - 1]), values[half])


def _tightened(
    low: list[float], high: list[float], separations: Sequence[Separation]
) -> tuple[list[float], list[float]]:
    """Bounds narrowed by the distances to everybody else's bounds.

    Raises:
        Infeasible: when somebody is left no room.
    """
    came_from: dict[int, int] = {}
    for _ in range(len(low) + 1):
        changed = False
        for one in separations:
            if low[one.first] + one.least > low[one.second] + SAME_MM:
                low[one.second] = low[one.first] + one.least
                came_from[one.second] = one.first
                changed = True
            if high[one.second] - one.least < high[one.first] - SAME_MM:
                high[one.first] = high[one.second] - one.least
                came_from[one.first] = one.second
                changed = True
        for index in range(len(low)):
            if low[index] > high[index] + 1e-4:
                raise Infeasible(_chain(came_from, index))
        if not changed:
            break
    for index in range(len(low)):
        if low[index] > high[index]:
            low[index] = high[index] = (low[index] + high[index]) / 2
    return low, high


def _chain(came_from: dict[int, int], index: int) -> list[int]:
    found = [index]
    while index in came_from and came_from[index] not in found and len(found) < 4:
        index = came_from[index]
        found.append(index)
    return sorted(found)
