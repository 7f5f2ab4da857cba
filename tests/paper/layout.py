"""Checks any page: no text on another text, nothing that matters outside the printable rectangle."""

from collections.abc import Iterable
from itertools import combinations

from composer.paper.primitives import MM_PER_PT, Box, Circle, Item, Line, Page, Polygon, Text
from composer.paper.type_metrics import TextBox, text_box

NEAR_MM = 1e-6
TOUCHING_MM = 0.25
"""Ascender and descender boxes are larger than most ink; boxes may share so much."""


def ink_of(item: Item) -> TextBox:
    """The rectangle an item lies in, without half its line width."""
    if isinstance(item, Text):
        return text_box(item)
    if isinstance(item, Line):
        return TextBox(min(item.x1, item.x2), min(item.y1, item.y2), max(item.x1, item.x2), max(item.y1, item.y2))
    if isinstance(item, Box):
        return TextBox(item.left, item.bottom, item.left + item.width, item.bottom + item.height)
    if isinstance(item, Circle):
        return TextBox(item.x - item.radius, item.y - item.radius, item.x + item.radius, item.y + item.radius)
    assert isinstance(item, Polygon)
    xs, ys = [x for x, _ in item.points], [y for _, y in item.points]
    return TextBox(min(xs), min(ys), max(xs), max(ys))


def overlapping_texts(page: Page) -> list[tuple[str, str]]:
    """Pairs of texts whose boxes share more than a touch."""
    texts = [(item.text, text_box(item)) for item in page.items if isinstance(item, Text)]
    return [(first, second) for (first, a), (second, b) in combinations(texts, 2) if _meet(a, b)]


def _meet(a: TextBox, b: TextBox) -> bool:
    across = min(a.right, b.right) - max(a.left, b.left)
    up = min(a.top, b.top) - max(a.bottom, b.bottom)
    # Lines of one paragraph are closer than their full ascender-to-descender boxes.
    return across > TOUCHING_MM and up > 0.22 * min(a.top - a.bottom, b.top - b.bottom)


def outside(page: Page, items: Iterable[Item] | None = None, slack: float = 0.3) -> list[Item]:
    """Items that reach out of the printable rectangle."""
    assert page.printable is not None
    left, bottom, right, top = page.printable
    found = []
    for item in page.items if items is None else items:
        box = ink_of(item)
        if box.left < left - slack or box.bottom < bottom - slack or box.right > right + slack or box.top > top + slack:
            found.append(item)
    return found


def texts_on_lines(page: Page) -> list[str]:
    """Texts whose letters, from the base line to the capitals' height, are crossed by a level or upright stroke."""
    strokes = [stroke for item in page.items for stroke in _strokes(item)]
    found = []
    for item in page.items:
        if not isinstance(item, Text) or item.grey == 1.0:
            continue
        box, size = text_box(item), item.size_pt * MM_PER_PT
        if item.turn == 0:
            ink = TextBox(box.left + 0.1, item.y + 0.02 * size, box.right - 0.1, item.y + 0.62 * size)
        elif item.turn == 90:
            ink = TextBox(item.x - 0.62 * size, box.bottom + 0.1, item.x - 0.02 * size, box.top - 0.1)
        else:
            ink = TextBox(item.x + 0.02 * size, box.bottom + 0.1, item.x + 0.62 * size, box.top - 0.1)
        if any(
            left <= ink.right and right >= ink.left and low <= ink.top and high >= ink.bottom
            for left, low, right, high in strokes
        ):
            found.append(item.text)
    return found


def _strokes(item: Item) -> list[tuple[float, float, float, float]]:
    """The level and upright strokes of a line or box, as left, bottom, right, top."""
    if isinstance(item, Line) and (abs(item.x1 - item.x2) < NEAR_MM or abs(item.y1 - item.y2) < NEAR_MM):
        return [(min(item.x1, item.x2), min(item.y1, item.y2), max(item.x1, item.x2), max(item.y1, item.y2))]
    if isinstance(item, Box) and item.width_pt is not None:
        left, bottom, right, top = item.left, item.bottom, item.left + item.width, item.bottom + item.height
        return [
            (left, bottom, right, bottom),
            (left, top, right, top),
            (left, bottom, left, top),
            (right, bottom, right, top),
        ]
    return []
