"""The rules of snapping a second time, as plainly as they can be said: every reference is looked at, nothing is sorted.

Slow on purpose. The figures are written here again, so that a change of one is noticed: caught within 8 px, held to
12 px and preferred by 3 px; edges and middles catch from at most 600 mm away across, each millimetre costs 0.002 px;
what is within 0.3 mm is shown together (our own rules; common practice, no source).
"""

from collections.abc import Iterable, Sequence
from typing import Any, Literal, NamedTuple

from composer.geometry.rectangle import Rectangle

Axis = Literal["x", "y"]
COSTS_PX = {
    "gap": 0.0, "keep-out": 0.0, "wall-margin": 0.0, "eye-line": 0.5, "wall-middle": 1.0, "thing-middle": 1.0,
    "spacing": 1.0, "edge": 1.5, "centre": 2.5,
}  # fmt: skip
A_HAIR = 1e-6


class Rule(NamedTuple):
    axis: str
    rule: str
    at: float
    line: float
    names: tuple[str, ...]
    gaps: tuple[Rectangle, ...]
    away: float


class Scene(NamedTuple):
    """What stays where it is: (name, box), (name, box, margin), (axis, edge, at, rule, name)."""

    still: Sequence[tuple[str, Rectangle]]
    things: Sequence[tuple[str, Rectangle, float]]
    lines: Sequence[tuple[str, str, float, str, str]]
    gap: float


class Seen(NamedTuple):
    """A box seen along an axis."""

    low: float
    high: float
    left: float
    right: float
    name: str = ""


def seen(axis: str, box: Rectangle, name: str = "") -> Seen:
    if axis == "x":
        return Seen(box.left, box.right, box.bottom, box.top, name)
    return Seen(box.bottom, box.top, box.left, box.right, name)


def face(one: Seen, other: Seen) -> bool:
    return min(one.right, other.right) - max(one.left, other.left) > A_HAIR


def between(axis: str, low: float, high: float, one: Seen, other: Seen) -> Rectangle:
    """The white space from low to high, as wide as both face each other."""
    ends = sorted((max(one.left, other.left), min(one.right, other.right)))
    return Rectangle(low, ends[0], high, ends[1]) if axis == "x" else Rectangle(ends[0], low, ends[1], high)


def nearest_before(held: Seen, others: Iterable[Seen]) -> Seen | None:
    """Of those that end before, face, and are at most 600 mm away: the one that ends last; of several the shortest."""
    fitting = [o for o in others if o.high <= held.low + A_HAIR and face(o, held) and o.high >= held.low - 600]
    return max(fitting, key=lambda o: (o.high, o.low, -o.left, -o.right, o.name), default=None)


def nearest_after(held: Seen, others: Iterable[Seen]) -> Seen | None:
    fitting = [o for o in others if o.low >= held.high - A_HAIR and face(o, held) and o.low <= held.high + 600]
    return min(fitting, key=lambda o: (o.low, o.high, o.left, o.right, o.name), default=None)


def rules(scene: Scene, axis: str, box: Rectangle) -> Iterable[Rule]:
    held = seen(axis, box)
    size = held.high - held.low
    others = [seen(axis, other, name) for name, other in scene.still]
    for o in others:
        if face(o, held):
            for low, line, white in (
                (o.high + scene.gap, o.high, (o.high, o.high + scene.gap)),
                (o.low - scene.gap - size, o.low, (o.low - scene.gap, o.low)),
            ):
                yield Rule(axis, "gap", low, line, (o.name,), (between(axis, *white, held, o),), 0.0)
        away = max(0.0, o.left - held.right, held.left - o.right)
        if away <= 600:
            yield Rule(axis, "edge", o.low, o.low, (o.name,), (), away)
            yield Rule(axis, "edge", o.high - size, o.high, (o.name,), (), away)
            middle = (o.low + o.high) / 2
            yield Rule(axis, "centre", middle - size / 2, middle, (o.name,), (), away)
    before, after = nearest_before(held, others), nearest_after(held, others)
    if before and after and after.low - before.high > size:
        low = before.high + (after.low - before.high - size) / 2
        whites = ((before.high, low, before), (low + size, after.low, after))
        yield equal(axis, low, (before, after), whites, held)
    second = before and nearest_before(before, others)
    if before and second and before.low > second.high:
        low = before.high + (before.low - second.high)
        yield equal(axis, low, (before, second), ((before.high, low, before), (second.high, before.low, second)), held)
    second = after and nearest_after(after, others)
    if after and second and second.low > after.high:
        low = after.low - (second.low - after.high) - size
        yield equal(
            axis, low, (after, second), ((low + size, after.low, after), (after.high, second.low, second)), held
        )
    for name, thing, margin in scene.things:
        t = seen(axis, thing, name)
        if min(t.right, held.right + margin) - max(t.left, held.left - margin) > A_HAIR:
            for low, line, white in (
                (t.high + margin, t.high, (t.high, t.high + margin)),
                (t.low - margin - size, t.low, (t.low - margin, t.low)),
            ):
                yield Rule(axis, "keep-out", low, line, (name,), (between(axis, *white, held, t),), 0.0)
        if axis == "x" and t.right <= held.left + A_HAIR:
            middle = (t.low + t.high) / 2
            yield Rule(axis, "thing-middle", (t.low + t.high - size) / 2, middle, (name,), (), 0.0)
    for of, edge, at, rule, name in scene.lines:
        if of == axis:
            yield Rule(axis, rule, at - {"low": 0, "centre": size / 2, "high": size}[edge], at, (name,), (), 0.0)


def equal(
    axis: str, low: float, named: tuple[Seen, Seen], whites: Sequence[tuple[float, float, Seen]], held: Seen
) -> Rule:
    gaps = tuple(between(axis, start, end, held, named[at]) for at, (start, end, _) in enumerate(whites))
    return Rule(axis, "spacing", low, low, (named[0].name, named[1].name), gaps, 0.0)


def best(scene: Scene, axis: str, box: Rectangle, px: float, held: Sequence[Any]) -> Rule | None:
    low = box.left if axis == "x" else box.bottom
    ranked = []
    for rule in rules(scene, axis, box):
        keeps = any((h.axis, h.rule, h.names, h.at) == (axis, rule.rule, rule.names, rule.at) for h in held)
        distance = abs(rule.at - low) * px
        if distance <= (12 if keeps else 8):
            score = distance + COSTS_PX[rule.rule] + 0.002 * rule.away - 3 * keeps
            ranked.append(((round(score, 6), rule.at, rule.names), rule))
    return min(ranked, key=lambda one: one[0])[1] if ranked else None


def put(
    scene: Scene, box: Rectangle, px: float, held: Sequence[Any]
) -> tuple[Rectangle, set[Rule], tuple[Rule | None, Rule | None]]:
    """Where the box goes, every rule that holds there, what moved it across and up; up is settled first, and again if across undid it."""

    def still(rule: Rule, place: Rectangle) -> bool:
        low = place.left if rule.axis == "x" else place.bottom
        return any(r[:4] == rule[:4] for r in rules(scene, rule.axis, place) if abs(r.at - low) <= 0.3)

    up = best(scene, "y", box, px, held)
    bottom = box.bottom if up is None else up.at
    across = best(scene, "x", box.moved(0, bottom - box.bottom), px, held)
    left = box.left if across is None else across.at
    if up and across and not still(up, box.moved(left - box.left, bottom - box.bottom)):
        up = best(scene, "y", box.moved(left - box.left, 0), px, held)
        bottom = box.bottom if up is None else up.at
        if not still(across, box.moved(left - box.left, bottom - box.bottom)):
            across, left = None, box.left
    place = box.moved(left - box.left, bottom - box.bottom)
    together: set[Rule] = set()
    for chosen in (across, up):
        if chosen is not None:
            low = place.left if chosen.axis == "x" else place.bottom
            near = (r for r in rules(scene, chosen.axis, place) if abs(r.at - low) <= 0.3)
            together |= {r for r in near if abs(r.at - chosen.at) <= 0.3}
    return place, together, (across, up)
