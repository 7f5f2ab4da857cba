"""Why the pieces are where they are, as relations, and finding the places again when a size or the gap changes.

Positions are the truth; relations say which gaps are wanted and which lines are shared. When a frame turns
out 3 mm wider or the gap becomes 52 mm, the same relations are solved anew, so the arrangement stays the
same one instead of a search finding another.
"""

from collections.abc import Mapping, Sequence

from composer.arranging.axis import AxisSolver, Equation, Infeasible, Separation
from composer.arranging.measures import facing_pairs
from composer.arranging.room import Axis, Room
from composer.arranging.true_up import CannotTrueUp, bounds_along, topology, way_out
from composer.geometry.rectangle import Rectangle
from composer.geometry.snapping import Edge
from composer.model import Ground, Key, LevelWith, Relation, SpacedFrom

HOLDS_MM = 0.01
FARTHEST_MM = 1500.0
ALL_WORTH = 1e9
_AXES: tuple[tuple[Axis, int, int], ...] = (("x", 0, 2), ("y", 1, 3))


def relations_of(
    places: Mapping[Key, Rectangle], gap: float, *, eye_line: float | None = None, middle: float | None = None
) -> tuple[Relation, ...]:
    """The relations that pin the pieces of one wall down, no more than are needed along each axis.

    Gaps come before edges, edges before centre lines; of equals what runs along the longer stretch.

    Args:
        places: of each piece.
        gap: wanted, mm.
        eye_line, middle: of the wall, mm; pieces whose middle lies on one are held by it.
    """
    keys = list(places)
    boxes = [places[key] for key in keys]
    found: list[Relation] = []
    pairs = facing_pairs(boxes, gap + 1)
    for axis, low, high in _AXES:
        owner = list(range(len(keys)))

        def joined(first: int, second: int, owner: list[int] = owner) -> bool:
            one, other = _find(owner, first), _find(owner, second)
            owner[one] = other
            return one != other

        exact = [pair for pair in pairs if pair.axis == axis and abs(pair.gap - gap) <= HOLDS_MM]
        for pair in sorted(exact, key=lambda one: (-round(one.length, 3), one.first, one.second)):
            if joined(pair.first, pair.second):
                found.append(SpacedFrom(axis=axis, first=keys[pair.first], second=keys[pair.second]))
        lines: list[tuple[int, float, int, int, Edge]] = []
        for i, one in enumerate(boxes):
            for j in range(i + 1, len(boxes)):
                other = boxes[j]
                away = max(other[0] - one[2], one[0] - other[2], other[1] - one[3], one[1] - other[3])
                if away > 2 * gap + 0.6:
                    continue
                lows, highs = other[low] - one[low], other[high] - one[high]
                offs: tuple[tuple[int, Edge, float], ...] = (
                    (0, "low", lows),
                    (0, "high", highs),
                    (1, "centre", (lows + highs) / 2),
                )
                lines += [(rank, round(away, 3), i, j, edge) for rank, edge, off in offs if abs(off) <= HOLDS_MM]
        for _, _, i, j, edge in sorted(lines):
            if joined(i, j):
                found.append(LevelWith(axis=axis, edge=edge, first=keys[i], second=keys[j]))
        line = middle if axis == "x" else eye_line
        for key, box in zip(keys, boxes, strict=True):
            if line is not None and abs((box[low] + box[high]) / 2 - line) <= HOLDS_MM:
                found.append(
                    Ground(axis=axis, edge="centre", piece=key, to="wall-middle" if axis == "x" else "eye-line")
                )
                break
    return tuple(found)


def _find(owner: list[int], index: int) -> int:
    while owner[index] != index:
        owner[index] = owner[owner[index]]
        index = owner[index]
    return index


def solved_again(
    places: Mapping[Key, Rectangle],
    sizes: Mapping[Key, tuple[float, float]],
    relations: Sequence[Relation],
    gap: float,
    room: Room,
    *,
    fixed: frozenset[Key] = frozenset(),
) -> dict[Key, Rectangle]:
    """The same arrangement with other sizes or another gap.

    Args:
        places: where the pieces hang now.
        sizes: what they measure from now on.
        relations: stored intent; what cannot hold any more is left out, the last ones first.
        gap: from now on, mm.
        room: the wall.
        fixed: pieces that never move; one that grows does so about its middle.

    Raises:
        CannotTrueUp: when there is no room; its numbers are places in ``places``.
    """
    keys = list(places)
    index_of = {key: index for index, key in enumerate(keys)}
    old = [places[key] for key in keys]
    start = [
        box if _measures(box, sizes[key]) else _about_middle(box, *sizes[key])
        for key, box in zip(keys, old, strict=True)
    ]
    held = [key in fixed for key in keys]
    now = list(start)
    pairs = topology(old, gap, FARTHEST_MM)
    plans = [way_out(box, room) for box in start]
    # What is in the way of something already must not keep everybody else from being solved.
    loose = [None if plan is not None else plan for plan in plans]
    for axis in (0, 1):
        low, high = bounds_along(now, start, held, room, axis, loose, FARTHEST_MM)
        separations = [
            Separation(first, second, now[first][axis + 2] - now[first][axis] + gap)
            for which, first, second in pairs
            if which == axis and not (held[first] and held[second])
        ]
        try:
            solver = AxisSolver([box[axis] for box in now], low, high, separations)
        except Infeasible as stuck:
            raise CannotTrueUp(stuck.members) from None
        for relation in relations:
            equation = _equation(relation, axis, now, index_of, gap)
            if equation is not None:
                solver.accept(equation)
        solver.relax()
        now = [
            box.moved(at - box.left, 0) if axis == 0 else box.moved(0, at - box.bottom)
            for box, at in zip(now, solver.at, strict=True)
        ]
    return dict(zip(keys, now, strict=True))


def _measures(box: Rectangle, size: tuple[float, float]) -> bool:
    return abs(box.width - size[0]) < 1e-6 and abs(box.height - size[1]) < 1e-6


def _about_middle(box: Rectangle, width: float, height: float) -> Rectangle:
    x, y = box.centre
    return Rectangle.at(x - width / 2, y - height / 2, width, height)


def _equation(
    relation: Relation, axis: int, now: Sequence[Rectangle], index_of: Mapping[Key, int], gap: float
) -> Equation | None:
    if isinstance(relation, Ground) or relation.axis != "xy"[axis]:
        return None
    if relation.first not in index_of or relation.second not in index_of:
        return None
    first, second = index_of[relation.first], index_of[relation.second]
    size = now[first][axis + 2] - now[first][axis]
    if isinstance(relation, SpacedFrom):
        return Equation(first, second, size + gap, ALL_WORTH)
    other = now[second][axis + 2] - now[second][axis]
    off = {"low": 0.0, "high": size - other, "centre": (size - other) / 2}[relation.edge]
    return Equation(first, second, off, ALL_WORTH)
