"""Rectangles from sheets by cuts that run from edge to edge, as a knife along a straight edge makes them.

A sheet becomes a tree: each cut divides the part in hand in two. Several greedy orders and rules are
tried and the best kept; many blanks of one size are solved exactly (both are guillotine cutting:
Gilmore and Gomory, Operations Research 13, 1965). A knife takes nothing away.
"""

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from composer.geometry.rectangle import Rectangle

SAME_MM = 1e-6
_TRIES = 240
"""Random orders tried beside the sorted ones, always the same ones."""

Edge = Literal["left", "bottom"]


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle to be cut: width and height as it will hang, mm, and what it is called."""

    label: str
    width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class Placed:
    """A blank on its sheet; ``turned`` = its top points left."""

    blank: Blank
    place: Rectangle
    turned: bool


@dataclass(frozen=True, slots=True)
class CutLine:
    """One cut, right through the part in hand.

    Attributes:
        number: its place in the order, from 1 on each sheet.
        part: what is cut, on the sheet, mm.
        edge: from which edge of the part it is measured: a cut from the left is upright.
        mark_mm: distance from that edge.
        check_mm: distance from the far edge; both make the part.
        gives: labels of the blanks that are finished by it.
    """

    number: int
    part: Rectangle
    edge: Edge
    mark_mm: float
    check_mm: float
    gives: tuple[str, ...]

    @property
    def ends(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Both ends on the sheet, mm."""
        if self.edge == "left":
            x = self.part.left + self.mark_mm
            return (x, self.part.bottom), (x, self.part.top)
        y = self.part.bottom + self.mark_mm
        return (self.part.left, y), (self.part.right, y)


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One sheet: what is cut from it, in which order, and what is left over."""

    width_mm: float
    height_mm: float
    placed: tuple[Placed, ...]
    cuts: tuple[CutLine, ...]
    left_over: tuple[Rectangle, ...]

    @property
    def used(self) -> float:
        """Share of the sheet that becomes blanks, 0…1."""
        area = sum(one.place.width * one.place.height for one in self.placed)
        return area / (self.width_mm * self.height_mm)


@dataclass(slots=True, eq=False)
class _Node:
    """A part in the making: cut in two, holding a blank, or free."""

    rect: Rectangle
    holds: Placed | None = None
    edge: Edge | None = None
    first: "_Node | None" = None
    second: "_Node | None" = None

    def cut(self, edge: Edge, at: float) -> "tuple[_Node, _Node | None]":
        """Divides the part; where nothing would be left on the far side there is no cut."""
        left, bottom, right, top = self.rect
        size = self.rect.width if edge == "left" else self.rect.height
        if at >= size - SAME_MM:
            return self, None
        if edge == "left":
            one, other = Rectangle(left, bottom, left + at, top), Rectangle(left + at, bottom, right, top)
        else:
            one, other = Rectangle(left, bottom, right, bottom + at), Rectangle(left, bottom + at, right, top)
        self.edge, self.first, self.second = edge, _Node(one), _Node(other)
        return self.first, self.second

    def leaves(self) -> "Iterator[_Node]":
        if self.first is None or self.second is None:
            yield self
        else:
            yield from self.first.leaves()
            yield from self.second.leaves()


_RULES = ("short-side", "area", "long-side")
_SPLITS = ("shorter-rest", "longer-rest", "upright", "across")


def fits(blanks: Sequence[Blank], sheet: tuple[float, float]) -> bool:
    """Whether a quick look finds all the blanks on one sheet; turned where that helps."""
    if sum(blank.width_mm * blank.height_mm for blank in blanks) > sheet[0] * sheet[1] + SAME_MM:
        return False
    least, most = sorted(sheet)
    if any(
        min(blank.width_mm, blank.height_mm) > least + SAME_MM or max(blank.width_mm, blank.height_mm) > most + SAME_MM
        for blank in blanks
    ):
        return False
    order = sorted(blanks, key=lambda blank: (-blank.width_mm * blank.height_mm, blank.label))
    return any(len(_greedy(order, [sheet], rule, split, True)) == 1 for rule in _RULES for split in _SPLITS)


def pack(blanks: Sequence[Blank], sheets: Sequence[tuple[float, float]], *, turning: bool = True) -> list[CutSheet]:
    """Cuts every blank from as few sheets as can be found.

    Args:
        blanks: what is needed.
        sheets: width and height of the first, second … sheet, mm; the last one is repeated.
        turning: whether a blank may lie a quarter turned.

    Raises:
        ValueError: a blank is larger than every sheet.
    """
    if not blanks:
        return []
    best: list[_Node] | None = None
    best_score: tuple[float, ...] | None = None
    for order in _orders(blanks):
        for rule in _RULES:
            for split in _SPLITS:
                tried = _greedy(order, sheets, rule, split, turning)
                score = _score(tried)
                if best_score is None or score < best_score:
                    best, best_score = tried, score
        if best_score is not None and best_score[0] <= _least_sheets(blanks, sheets) and len(blanks) > 40:
            break
    alike = _all_alike(blanks, sheets, turning)
    if alike is not None and (best_score is None or _score(alike)[0] < best_score[0]):
        best = alike
    assert best is not None
    return [_finished(node) for node in best]


def _least_sheets(blanks: Sequence[Blank], sheets: Sequence[tuple[float, float]]) -> int:
    area, count = sum(blank.width_mm * blank.height_mm for blank in blanks), 0
    while area > SAME_MM:
        width, height = sheets[min(count, len(sheets) - 1)]
        area -= width * height
        count += 1
    return count


def _orders(blanks: Sequence[Blank]) -> Iterator[list[Blank]]:
    keys = (
        lambda blank: blank.width_mm * blank.height_mm,
        lambda blank: max(blank.width_mm, blank.height_mm),
        lambda blank: min(blank.width_mm, blank.height_mm),
        lambda blank: blank.width_mm + blank.height_mm,
    )
    for key in keys:
        yield sorted(blanks, key=lambda blank, key=key: (-key(blank), blank.label))  # type: ignore[misc]
    if 2 < len(blanks) <= 40:
        chance = random.Random(len(blanks))
        shuffled = sorted(blanks, key=lambda blank: (-blank.width_mm * blank.height_mm, blank.label))
        for _ in range(_TRIES // len(blanks) + 4):
            chance.shuffle(shuffled)
            yield list(shuffled)


def _greedy(
    order: Sequence[Blank], sheets: Sequence[tuple[float, float]], rule: str, split: str, turning: bool
) -> list[_Node]:
    roots: list[_Node] = []
    free: list[_Node] = []
    for blank in order:
        spot = _spot(blank, free, rule, turning)
        while spot is None:
            width, height = sheets[min(len(roots), len(sheets) - 1)]
            node = _Node(Rectangle(0.0, 0.0, width, height))
            roots.append(node)
            free.append(node)
            spot = _spot(blank, [node], rule, turning)
            if spot is None and len(roots) >= len(sheets):
                raise ValueError(blank.label)
        node, turned = spot
        free.remove(node)
        free += _take(node, blank, turned, split)
    return [root for root in roots if any(leaf.holds for leaf in root.leaves())]


def _sides(blank: Blank, turning: bool) -> list[tuple[bool, float, float]]:
    ways = [(False, blank.width_mm, blank.height_mm)]
    if turning and abs(blank.width_mm - blank.height_mm) > SAME_MM:
        ways.append((True, blank.height_mm, blank.width_mm))
    return ways


def _spot(blank: Blank, free: Sequence[_Node], rule: str, turning: bool) -> tuple[_Node, bool] | None:
    best, spot = None, None
    for node in free:
        room = node.rect
        for turned, width, height in _sides(blank, turning):
            across, up = room.width - width, room.height - height
            if across < -SAME_MM or up < -SAME_MM:
                continue
            short, long = min(across, up), max(across, up)
            area = room.width * room.height - width * height
            score = {"short-side": (short, long), "long-side": (long, short), "area": (area, short)}[rule]
            if best is None or score < best:
                best, spot = score, (node, turned)
    return spot


def _take(node: _Node, blank: Blank, turned: bool, split: str) -> list[_Node]:
    """Puts the blank into the part's lower left corner; the free parts left come back."""
    width, height = (blank.height_mm, blank.width_mm) if turned else (blank.width_mm, blank.height_mm)
    across, up = node.rect.width - width, node.rect.height - height
    upright = {
        "shorter-rest": across >= up,
        "longer-rest": across < up,
        "upright": True,
        "across": False,
    }[split]
    cuts: list[tuple[Edge, float]] = [("left", width), ("bottom", height)]
    rest: list[_Node] = []
    for edge, at in cuts if upright else cuts[::-1]:
        node, other = node.cut(edge, at)
        if other is not None:
            rest.append(other)
    node.holds = Placed(blank, Rectangle.at(node.rect.left, node.rect.bottom, width, height), turned)
    return rest


def _score(roots: list[_Node]) -> tuple[float, ...]:
    """Fewer sheets first, then the largest part left over, then fewer cuts."""
    areas = [leaf.rect.width * leaf.rect.height for root in roots for leaf in root.leaves() if leaf.holds is None]
    leaves = sum(1 for root in roots for _ in root.leaves())
    return len(roots), -max(areas, default=0.0), leaves


def most_from(sheet: tuple[float, float], blank: tuple[float, float]) -> int:
    """How many blanks of one size a sheet gives by guillotine cuts, either way round: the exact optimum."""
    return _exact(*sheet, *blank)[0]


@lru_cache(maxsize=64)
def _exact(
    width: float, height: float, wide: float, high: float
) -> "tuple[int, dict[tuple[float, float], tuple[int, Edge | None, float]]]":
    """The optimum, and for each part that can occur its count and the cut that gives it.

    Cuts only at sums of the blank's sides: any pattern can be pushed left and down until it is so
    (normal patterns: Herz, IBM Journal of Research and Development 16, 1972).
    """
    table: dict[tuple[float, float], tuple[int, Edge | None, float]] = {}

    def steps(length: float) -> list[float]:
        found = {
            round(i * wide + j * high, 6)
            for i in range(int(length / wide + SAME_MM) + 1)
            for j in range(int((length - i * wide) / high + SAME_MM) + 1)
        }
        return sorted(found)

    across, up = steps(width), steps(height)

    def fitting(length: float, lengths: list[float]) -> float:
        return max(step for step in lengths if step <= length + SAME_MM)

    def solve(w: float, h: float) -> int:
        w, h = fitting(w, across), fitting(h, up)
        if (w, h) in table:
            return table[w, h][0]
        count = int(any(w + SAME_MM >= a and h + SAME_MM >= b for a, b in ((wide, high), (high, wide))))
        best: tuple[int, Edge | None, float] = (count, None, 0.0)
        table[w, h] = best
        if count:
            for edge, lengths, length in (("left", across, w), ("bottom", up, h)):
                for at in lengths:
                    if 0 < at <= length / 2 + SAME_MM:
                        parts = ((at, h), (w - at, h)) if edge == "left" else ((w, at), (w, h - at))
                        both = solve(*parts[0]) + solve(*parts[1])
                        if both > best[0]:
                            best = (both, edge, at)  # type: ignore[assignment]
        table[w, h] = best
        return best[0]

    return solve(width, height), table


def _all_alike(blanks: Sequence[Blank], sheets: Sequence[tuple[float, float]], turning: bool) -> list[_Node] | None:
    """The exact answer where all blanks have one size and all sheets are alike; None otherwise."""
    sizes = {tuple(sorted((round(blank.width_mm, 6), round(blank.height_mm, 6)))) for blank in blanks}
    if len(sizes) != 1 or len(set(sheets)) != 1 or not turning:
        return None
    (width, height), (wide, high) = sheets[0], sizes.pop()
    count, table = _exact(width, height, wide, high)
    if not count or len(table) > 20_000:
        return None
    waiting = list(blanks)
    roots: list[_Node] = []
    while waiting:
        root = _Node(Rectangle(0.0, 0.0, width, height))
        roots.append(root)
        _fill(root, table, waiting)
    return roots


def _fill(
    node: _Node, table: "dict[tuple[float, float], tuple[int, Edge | None, float]]", waiting: list[Blank]
) -> None:
    widths, heights = {key[0] for key in table}, {key[1] for key in table}
    key = (
        max(step for step in widths if step <= node.rect.width + SAME_MM),
        max(step for step in heights if step <= node.rect.height + SAME_MM),
    )
    count, edge, at = table.get(key, (0, None, 0.0))
    if not count or not waiting:
        return
    if edge is not None:
        first, second = node.cut(edge, at)
        _fill(first, table, waiting)
        if second is not None:
            _fill(second, table, waiting)
        return
    blank = waiting.pop(0)
    turned = blank.width_mm > node.rect.width + SAME_MM or blank.height_mm > node.rect.height + SAME_MM
    _take(node, blank, turned, "shorter-rest")


def _finished(root: _Node) -> CutSheet:
    cuts: list[CutLine] = []
    left_over: list[Rectangle] = []
    placed: list[Placed] = []

    def walk(node: _Node) -> None:
        if node.first is None or node.second is None:
            if node.holds is not None:
                placed.append(node.holds)
            else:
                left_over.append(node.rect)
            return
        halves = (node.first, node.second)
        if not any(leaf.holds for half in halves for leaf in half.leaves()):
            left_over.append(node.rect)  # nothing is needed from it: no cut
            return
        assert node.edge is not None
        mark = node.first.rect.width if node.edge == "left" else node.first.rect.height
        whole = node.rect.width if node.edge == "left" else node.rect.height
        gives = tuple(half.holds.blank.label for half in halves if half.holds is not None)
        cuts.append(CutLine(len(cuts) + 1, node.rect, node.edge, mark, whole - mark, gives))
        for half in halves:
            walk(half)

    walk(root)
    return CutSheet(root.rect.width, root.rect.height, tuple(placed), tuple(cuts), tuple(left_over))
