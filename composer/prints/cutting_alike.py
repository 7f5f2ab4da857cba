"""Blanks of one size from a sheet: the exact optimum, by the recursion of Gilmore and Gomory (1965)."""

from collections.abc import Sequence
from functools import lru_cache

from composer.geometry.rectangle import Rectangle
from composer.prints.cut_tree import SAME_MM, Blank, Edge, Node, take


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


def all_alike(blanks: Sequence[Blank], sheets: Sequence[tuple[float, float]], turning: bool) -> list[Node] | None:
    """The exact answer where all blanks have one size and all sheets are alike; None otherwise."""
    sizes = {tuple(sorted((round(blank.width_mm, 6), round(blank.height_mm, 6)))) for blank in blanks}
    if len(sizes) != 1 or len(set(sheets)) != 1 or not turning:
        return None
    (width, height), (wide, high) = sheets[0], sizes.pop()
    count, table = _exact(width, height, wide, high)
    if not count or len(table) > 20_000:
        return None
    waiting = list(blanks)
    roots: list[Node] = []
    while waiting:
        root = Node(Rectangle(0.0, 0.0, width, height))
        roots.append(root)
        _fill(root, table, waiting)
    return roots


def _fill(node: Node, table: "dict[tuple[float, float], tuple[int, Edge | None, float]]", waiting: list[Blank]) -> None:
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
    take(node, blank, turned, "shorter-rest")
