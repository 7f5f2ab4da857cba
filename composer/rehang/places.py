"""Places for pieces that come later: where one of a size keeps gap and alignments, what size a place takes.

All in wall millimetres. A place is free when the wall's outline holds it, nothing that hangs is nearer
than the gap, and no obstacle's margin is touched.
"""

import itertools
from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from composer.catalogue import catalogue as catalogues
from composer.catalogue.catalogue import Catalogue
from composer.geometry.outline import contains
from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Key, Piece, Project, Wall

LEAST_MM = 150.0
"""Nothing smaller is worth a place (judgement)."""

LONGEST_TO_SHORTEST = 3.0
"""A longer strip of wall is no place for a frame (judgement)."""

_NEAR = 1e-6


@dataclass(frozen=True, slots=True)
class FreePlace:
    """A place for a piece of a given size.

    Attributes:
        place: its outside.
        gaps: numbers of the pieces it stands one gap from.
        lines: numbers of the pieces it shares an edge or a centre line with.
        grows_mm2: how much larger the box around the group becomes.
    """

    place: Rectangle
    gaps: tuple[int, ...]
    lines: tuple[int, ...]
    grows_mm2: float


@dataclass(frozen=True, slots=True)
class FittingFrame:
    """A piece on the floor that fits a place; ``turned`` = only a quarter turned."""

    piece: Piece
    turned: bool
    spare_mm: tuple[float, float]


class Surroundings:
    """What hangs and stands at a wall in one arrangement, as far as it keeps others away."""

    def __init__(self, project: Project, wall: Wall, arrangement: Arrangement, without: Collection[Key] = ()) -> None:
        known: Catalogue = catalogues.of(project.catalogue)
        self.wall = wall
        self.gap = float(arrangement.gap.mm)
        self.hung: list[tuple[Piece, Rectangle]] = [
            (piece, Rectangle.at(place.left, place.bottom, *piece.size_mm(turned=place.turned)))
            for piece, place in project.hung_on(wall.key, arrangement)
            if piece.key not in without
        ]
        self.kept_free = [
            Rectangle.at(one.left, one.bottom, one.width.mm, one.height.mm).grown(
                known.margin_mm(one.kind) if one.margin is None else one.margin.mm
            )
            for one in wall.obstacles
        ]
        self.edge = 0.0 if wall.edge_margin is None else float(wall.edge_margin.mm)

    @property
    def group(self) -> Rectangle | None:
        """The box around all that hangs."""
        around: Rectangle | None = None
        for _, place in self.hung:
            around = place if around is None else around.united(place)
        return around

    @cached_property
    def blocked(self) -> list[Rectangle]:
        """Everything a piece may not reach into: frames grown by the gap, obstacles by their margin."""
        return [*(place.grown(self.gap) for _, place in self.hung), *self.kept_free]

    def is_free(self, place: Rectangle) -> bool:
        """Whether a piece may hang there."""
        if any(place.meets(other) for other in self.blocked):
            return False
        return contains(self.wall.corners, place.grown(self.edge))


def free_places(
    project: Project,
    wall: Wall,
    arrangement: Arrangement,
    size_mm: tuple[float, float],
    most: int = 8,
) -> tuple[FreePlace, ...]:
    """Places for a piece of that size one gap from a neighbour and in line with one, the best first.

    Best: in line with and one gap from most pieces, then where the group grows least.
    """
    around = Surroundings(project, wall, arrangement)
    group = around.group
    if group is None:
        return ()
    found = []
    for place in _one_gap_away(around, size_mm):
        if not around.is_free(place):
            continue
        gaps = tuple(piece.number for piece, other in around.hung if _one_gap(place, other, around.gap))
        lines = tuple(piece.number for piece, other in around.hung if _in_line(place, other))
        if gaps and lines:
            grown = group.united(place)
            grows = grown.width * grown.height - group.width * group.height
            found.append(FreePlace(place, gaps, lines, round(grows, 3)))
    found.sort(key=lambda one: (-len(one.gaps) - len(set(one.lines)), one.grows_mm2, one.place))
    return tuple(_apart(found, most))


def _one_gap_away(around: Surroundings, size_mm: tuple[float, float]) -> set[Rectangle]:
    """Places of that size that face a piece one gap away and, along it, stand where some piece's lines are."""
    width, height = size_mm
    lefts = sorted(_starts([(one.left, one.right) for _, one in around.hung], width, around.gap))
    bottoms = sorted(_starts([(one.bottom, one.top) for _, one in around.hung], height, around.gap))
    found: set[Rectangle] = set()
    for _, other in around.hung:
        beside = bottoms[bisect_right(bottoms, other.bottom - height) : bisect_left(bottoms, other.top)]
        for left in (other.right + around.gap, other.left - around.gap - width):
            found |= {Rectangle.at(round(left, 6), bottom, width, height) for bottom in beside}
        above = lefts[bisect_right(lefts, other.left - width) : bisect_left(lefts, other.right)]
        for bottom in (other.top + around.gap, other.bottom - around.gap - height):
            found |= {Rectangle.at(left, round(bottom, 6), width, height) for left in above}
    return found


def _starts(spans: Iterable[tuple[float, float]], size: float, gap: float) -> set[float]:
    """Low edges that stand one gap from a span, or share its low edge, middle or high edge."""
    starts: set[float] = set()
    for low, high in spans:
        starts |= {low, high - size, (low + high - size) / 2, high + gap, low - gap - size}
    return {round(start, 6) for start in starts}


def _one_gap(place: Rectangle, other: Rectangle, gap: float) -> bool:
    """Whether the two face each other exactly one gap apart."""
    across, up = place.overlap(other)
    beside = abs(-across - gap) <= _NEAR and up > _NEAR
    above = abs(-up - gap) <= _NEAR and across > _NEAR
    return beside or above


def _in_line(place: Rectangle, other: Rectangle) -> bool:
    pairs = (
        (place.left, other.left),
        (place.right, other.right),
        (place.centre[0], other.centre[0]),
        (place.bottom, other.bottom),
        (place.top, other.top),
        (place.centre[1], other.centre[1]),
    )
    return any(abs(one - two) <= _NEAR for one, two in pairs)


def _apart(found: Sequence[FreePlace], most: int) -> list[FreePlace]:
    """The best of those that overlap each other by more than half are one place."""
    kept: list[FreePlace] = []
    for one in found:
        if len(kept) == most:
            break
        if not any(_mostly_same(one.place, other.place) for other in kept):
            kept.append(one)
    return kept


def _mostly_same(one: Rectangle, other: Rectangle) -> bool:
    across, up = one.overlap(other)
    return across > 0 and up > 0 and across * up > 0.5 * one.width * one.height


def largest_around(around: Surroundings, inside: Rectangle, limit: Rectangle) -> tuple[Rectangle, ...]:
    """The free rectangles around ``inside`` and within ``limit`` that cannot grow, the largest first.

    Empty where ``inside`` itself is not free. On a wall with slanting edges a rectangle is kept only
    where the outline holds it.
    """
    if not around.is_free(inside):
        return ()
    limit = limit.united(inside)
    blocked = [other for other in around.blocked if other.meets(limit)]
    edge = around.edge
    box = Rectangle(edge, edge, around.wall.width.mm - edge, around.wall.height.mm - edge)
    low_x, high_x = max(limit.left, min(box.left, inside.left)), min(limit.right, max(box.right, inside.right))
    low_y, high_y = max(limit.bottom, min(box.bottom, inside.bottom)), min(limit.top, max(box.top, inside.top))
    lefts = {low_x, inside.left, *(other.right for other in blocked if low_x <= other.right <= inside.left + _NEAR)}
    rights = {high_x, inside.right, *(other.left for other in blocked if inside.right - _NEAR <= other.left <= high_x)}
    slants = {(x, y) for x, y in around.wall.corners}
    lefts |= {x for x, _ in slants if low_x <= x <= inside.left}
    rights |= {x for x, _ in slants if inside.right <= x <= high_x}
    found = set()
    for left, right in itertools.product(lefts, rights):
        between = [other for other in blocked if min(right, other.right) - max(left, other.left) > _NEAR]
        bottom = max([low_y, *(other.top for other in between if other.top <= inside.bottom + _NEAR)])
        top = min([high_y, *(other.bottom for other in between if other.bottom >= inside.top - _NEAR)])
        place = Rectangle(left, bottom, right, top)
        if min(place.width, place.height) > _NEAR and around.is_free(place):
            found.add(place)
    maximal = [one for one in found if not any(other != one and _holds(other, one) for other in found)]
    return tuple(sorted(maximal, key=lambda one: (-one.width * one.height, one)))


def _holds(outer: Rectangle, inner: Rectangle) -> bool:
    return (
        outer.left <= inner.left + _NEAR
        and outer.bottom <= inner.bottom + _NEAR
        and outer.right >= inner.right - _NEAR
        and outer.top >= inner.top - _NEAR
    )


def sizes_at(project: Project, wall: Wall, arrangement: Arrangement, x: float, y: float) -> tuple[Rectangle, ...]:
    """What would fit at a point of the wall: free rectangles that cannot grow, the largest first.

    They keep within the box around the group, one place beyond it where the point lies outside.
    """
    around = Surroundings(project, wall, arrangement)
    group = around.group
    whole = Rectangle(0.0, 0.0, wall.width.mm, wall.height.mm)
    inside = Rectangle(x, y, x, y)
    limit = whole if group is None or not group.holds(x, y) else group
    return largest_around(around, inside, limit)


def frames_that_fit(
    project: Project, arrangement: Arrangement, place: Rectangle, tolerance_mm: float = 0.0
) -> tuple[FittingFrame, ...]:
    """Which of the pieces on the floor fit a place, those that fill it best first; upright before turned."""
    found = []
    for piece in project.on_floor(arrangement):
        for turned in (False, True):
            width, height = piece.size_mm(turned=turned)
            spare = (place.width - width, place.height - height)
            if min(spare) >= -tolerance_mm - _NEAR:
                found.append(FittingFrame(piece, turned, spare))
                break
    return tuple(sorted(found, key=lambda one: (one.spare_mm[0] + one.spare_mm[1], one.piece.number)))


def holes_in_group(around: Surroundings, least_mm: float = LEAST_MM, most: int = 3) -> tuple[Rectangle, ...]:
    """Free rectangles within the box around the group that cannot grow, no two overlapping, the largest first.

    Found on a grid of all edges: row by row, the largest rectangles below a skyline of free cells.
    """
    group = around.group
    if group is None:
        return ()
    kept: list[Rectangle] = []
    for one in sorted(_free_in(group, around.blocked), key=lambda place: (-place.width * place.height, place)):
        short, long = sorted((one.width, one.height))
        if short < least_mm or long > LONGEST_TO_SHORTEST * short or any(one.meets(other) for other in kept):
            continue
        if around.is_free(one):
            kept.append(one)
            if len(kept) == most:
                break
    return tuple(kept)


def _free_in(box: Rectangle, blocked: Sequence[Rectangle]) -> set[Rectangle]:
    """Every rectangle within ``box`` that meets nothing blocked and cannot grow."""
    inside = [other for other in blocked if other.meets(box)]
    xs = sorted(
        {box.left, box.right, *(x for one in inside for x in (one.left, one.right) if box.left < x < box.right)}
    )
    ys = sorted(
        {box.bottom, box.top, *(y for one in inside for y in (one.bottom, one.top) if box.bottom < y < box.top)}
    )
    free = [[True] * (len(xs) - 1) for _ in range(len(ys) - 1)]
    for one in inside:
        for row in range(bisect_left(ys, max(one.bottom, box.bottom)), bisect_left(ys, min(one.top, box.top))):
            for column in range(bisect_left(xs, max(one.left, box.left)), bisect_left(xs, min(one.right, box.right))):
                free[row][column] = False
    found: set[Rectangle] = set()
    depth = [0] * (len(xs) - 1)
    for row, cells in enumerate(free):
        depth = [depth[column] + 1 if cell else 0 for column, cell in enumerate(cells)]
        above = free[row + 1] if row + 1 < len(free) else None
        for first, last, rows in _below_skyline(depth):
            if above is None or not all(above[first:last]):
                found.add(Rectangle(xs[first], ys[row + 1 - rows], xs[last], ys[row + 1]))
    return found


def _below_skyline(depth: Sequence[int]) -> Iterable[tuple[int, int, int]]:
    """First column, column after the last, and depth of each rectangle that is as wide as its depth allows."""
    stack: list[tuple[int, int]] = []
    for column, high in enumerate([*depth, 0]):
        start = column
        while stack and stack[-1][1] > high:
            start, tall = stack.pop()
            yield start, column, tall
        if high and (not stack or stack[-1][1] < high):
            stack.append((start, high))
