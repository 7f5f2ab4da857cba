"""Rectangles from sheets by cuts that run from edge to edge, as a knife along a straight edge makes them.

A sheet becomes a tree: each cut divides the part in hand in two. Several greedy orders and rules are
tried and the best kept; many blanks of one size are solved exactly (both are guillotine cutting:
Gilmore and Gomory, Operations Research 13, 1965). A knife takes nothing away.
"""

import random
from collections.abc import Iterator, Sequence

from composer.geometry.rectangle import Rectangle
from composer.prints.cut_tree import SAME_MM, Blank, CutLine, CutSheet, Edge, Node, Placed, finished, take
from composer.prints.cutting_alike import all_alike, most_from

__all__ = ["SAME_MM", "Blank", "CutLine", "CutSheet", "Edge", "Placed", "fits", "most_from", "pack"]

_TRIES = 240
"""Random orders tried beside the sorted ones, always the same ones."""

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
    best: list[Node] | None = None
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
    alike = all_alike(blanks, sheets, turning)
    if alike is not None and (best_score is None or _score(alike)[0] < best_score[0]):
        best = alike
    assert best is not None
    return [finished(node) for node in best]


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
) -> list[Node]:
    roots: list[Node] = []
    free: list[Node] = []
    for blank in order:
        spot = _spot(blank, free, rule, turning)
        while spot is None:
            width, height = sheets[min(len(roots), len(sheets) - 1)]
            node = Node(Rectangle(0.0, 0.0, width, height))
            roots.append(node)
            free.append(node)
            spot = _spot(blank, [node], rule, turning)
            if spot is None and len(roots) >= len(sheets):
                raise ValueError(blank.label)
        node, turned = spot
        free.remove(node)
        free += take(node, blank, turned, split)
    return [root for root in roots if any(leaf.holds for leaf in root.leaves())]


def _sides(blank: Blank, turning: bool) -> list[tuple[bool, float, float]]:
    ways = [(False, blank.width_mm, blank.height_mm)]
    if turning and abs(blank.width_mm - blank.height_mm) > SAME_MM:
        ways.append((True, blank.height_mm, blank.width_mm))
    return ways


def _spot(blank: Blank, free: Sequence[Node], rule: str, turning: bool) -> tuple[Node, bool] | None:
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


def _score(roots: list[Node]) -> tuple[float, ...]:
    """Fewer sheets first, then the largest part left over, then fewer cuts."""
    areas = [leaf.rect.width * leaf.rect.height for root in roots for leaf in root.leaves() if leaf.holds is None]
    leaves = sum(1 for root in roots for _ in root.leaves())
    return len(roots), -max(areas, default=0.0), leaves
