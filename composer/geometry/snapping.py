"""Which rules catch a rectangle while it is dragged: gaps, edges, middles, the eye line, margins.

Pure Python and bisection over lines sorted once at the press, so a step costs the same among ten
pieces or a thousand. Both axes choose independently, but for one thing: a gap only counts between
rectangles that face each other where they end up.

Distances are judged in screen pixels, since that is what the hand feels. A rule catches within
8 px and, once it has caught, lets go only beyond 12 px and yields to another rule only when that
one is 3 px better: without this hysteresis a nearly still hand makes the piece flicker.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from composer.geometry.rectangle import Rectangle

Axis = Literal["x", "y"]
Edge = Literal["low", "centre", "high"]
Rule = Literal["gap", "keep-out", "eye-line", "wall-middle", "wall-margin", "thing-middle", "spacing", "edge", "centre"]

CATCH_PX = 8.0
RELEASE_PX = 12.0
HELD_BONUS_PX = 3.0
NEARNESS_PX_PER_MM = 0.002
REACH_MM = 600.0
"""Edges and middles of pieces farther away than this (across the axis) do not catch."""
TOGETHER_MM = 0.3
"""Rules whose places differ by less than this are shown together."""

PENALTY_PX: dict[Rule, float] = {
    "gap": 0.0,
    "keep-out": 0.0,
    "wall-margin": 0.0,
    "eye-line": 0.5,
    "wall-middle": 1.0,
    "thing-middle": 1.0,
    "spacing": 1.0,
    "edge": 1.5,
    "centre": 2.5,
}


class Neighbour(NamedTuple):
    """A piece that stays where it is."""

    name: str
    box: Rectangle


class KeepOut(NamedTuple):
    """Something to stay clear of by ``margin`` mm: a switch, a sofa's back."""

    name: str
    box: Rectangle
    margin: float


class Guide(NamedTuple):
    """A line of the wall on which an edge or the centre of a rectangle may lie."""

    axis: Axis
    edge: Edge
    at: float
    rule: Rule
    name: str


class Catch(NamedTuple):
    """One rule that holds for the rectangle where it was put.

    Attributes:
        axis: the direction in which the rule holds the rectangle.
        rule: what kind of rule.
        at: where the rectangle's low edge is held, mm.
        line: coordinate of the chalk line along the axis, mm.
        names: what the rectangle is held to, nearest first.
        gaps: the gaps to fill on the drawing; empty for lines.
    """

    axis: Axis
    rule: Rule
    at: float
    line: float
    names: tuple[str, ...]
    gaps: tuple[Rectangle, ...] = ()


class Snap(NamedTuple):
    """Where the rectangle goes, and every rule that holds there, strongest first."""

    box: Rectangle
    catches: tuple[Catch, ...]


@dataclass(frozen=True, slots=True)
class SnapSession:
    """One drag: what may catch, sorted at the press, and what holds at the moment."""

    across: "_Lines"
    up: "_Lines"
    held: tuple[Catch, ...] = ()

    @classmethod
    def begin(
        cls,
        neighbours: Iterable[Neighbour],
        *,
        gap: float,
        keep_outs: Iterable[KeepOut] = (),
        guides: Iterable[Guide] = (),
    ) -> "SnapSession":
        """A session for the press; the moving pieces are not among ``neighbours``. ``gap`` in mm."""
        still, blocked, lines = list(neighbours), list(keep_outs), list(guides)
        return cls(
            across=_Lines.sort("x", still, blocked, lines, gap),
            up=_Lines.sort("y", still, blocked, lines, gap),
        )

    def with_guides(self, guides: Iterable[Guide]) -> "SnapSession":
        """The session with other lines of the wall; what holds goes on holding while its line does."""
        lines = list(guides)
        return replace(
            self,
            across=replace(self.across, guides=tuple(guide for guide in lines if guide.axis == "x")),
            up=replace(self.up, guides=tuple(guide for guide in lines if guide.axis == "y")),
        )


def step(session: SnapSession, box: Rectangle, px_per_mm: float) -> tuple[Snap, SnapSession]:
    """Where the rules put the rectangle the hand holds at ``box``, and the session for the next move.

    Args:
        session: of this drag.
        box: the moving selection's bounding rectangle as the pointer has it, mm.
        px_per_mm: the drawing's present scale.
    """
    up = _choose(session.up, box, px_per_mm, session.held)
    lifted = box if up is None else box.moved(0, up.at - box.bottom)
    across = _choose(session.across, lifted, px_per_mm, session.held)
    put = lifted if across is None else lifted.moved(across.at - lifted.left, 0)
    if up is not None and across is not None and not _still_holds(session.up, up, put):
        up = _choose(session.up, put.moved(0, box.bottom - put.bottom), px_per_mm, session.held)
        put = put.moved(0, (box.bottom if up is None else up.at) - put.bottom)
        if not _still_holds(session.across, across, put):
            across, put = None, put.moved(box.left - put.left, 0)
    catches = []
    for lines, chosen in ((session.across, across), (session.up, up)):
        if chosen is not None:
            near = (catch for _, catch in lines.candidates(put, TOGETHER_MM))
            together = [catch for catch in near if abs(catch.at - chosen.at) <= TOGETHER_MM]
            catches += _strongest_first(together, chosen)
    held = tuple(catch._replace(gaps=()) for catch in (across, up) if catch is not None)
    return Snap(put, tuple(catches)), replace(session, held=held)


def _choose(lines: "_Lines", box: Rectangle, px_per_mm: float, held: Sequence[Catch]) -> Catch | None:
    low = box.left if lines.axis == "x" else box.bottom
    best: tuple[float, float, tuple[str, ...]] | None = None
    chosen = None
    holding = {(catch.rule, catch.names, catch.at) for catch in held if catch.axis == lines.axis}
    for nearness, catch in lines.candidates(box, RELEASE_PX / px_per_mm):
        distance = abs(catch.at - low) * px_per_mm
        is_held = (catch.rule, catch.names, catch.at) in holding
        if distance > (RELEASE_PX if is_held else CATCH_PX):
            continue
        score = distance + PENALTY_PX[catch.rule] + NEARNESS_PX_PER_MM * nearness - HELD_BONUS_PX * is_held
        rank = (round(score, 6), catch.at, catch.names)
        if best is None or rank < best:
            best, chosen = rank, catch
    return chosen


def _strongest_first(catches: list[Catch], chosen: Catch) -> list[Catch]:
    return sorted(catches, key=lambda catch: (catch[:5] != chosen[:5], PENALTY_PX[catch.rule], catch.names))


def _still_holds(lines: "_Lines", chosen: Catch, box: Rectangle) -> bool:
    return any(catch[:4] == chosen[:4] for _, catch in lines.candidates(box, TOGETHER_MM))


class _Span(NamedTuple):
    """A neighbour seen along one axis: its extent there, and its extent across."""

    low: float
    high: float
    side_low: float
    side_high: float
    name: str

    def faces(self, side_low: float, side_high: float) -> bool:
        return self.side_low < side_high - 1e-6 and side_low < self.side_high - 1e-6


@dataclass(frozen=True, slots=True)
class _Lines:
    """Everything that may catch along one axis, sorted by where it is."""

    axis: Axis
    gap: float
    spans: tuple[_Span, ...]
    by_low: tuple[tuple[float, int], ...]
    by_high: tuple[tuple[float, int], ...]
    by_centre: tuple[tuple[float, int], ...]
    keep_outs: tuple[tuple[_Span, float], ...]
    guides: tuple[Guide, ...]

    @classmethod
    def sort(
        cls, axis: Axis, neighbours: list[Neighbour], keep_outs: list[KeepOut], guides: list[Guide], gap: float
    ) -> "_Lines":
        spans = tuple(_span(axis, box, name) for name, box in neighbours)
        return cls(
            axis=axis,
            gap=gap,
            spans=spans,
            # Of several that begin (or end) at one place the shortest is met first from either side, so that a
            # mirrored wall catches alike.
            by_low=tuple(
                (span.low, place) for place, span in sorted(enumerate(spans), key=lambda one: (one[1][:4], one[0]))
            ),
            by_high=tuple(
                (span.high, place)
                for place, span in sorted(
                    enumerate(spans),
                    key=lambda one: (one[1].high, one[1].low, -one[1].side_low, -one[1].side_high, one[0]),
                )
            ),
            by_centre=tuple(sorted(((span.low + span.high) / 2, place) for place, span in enumerate(spans))),
            keep_outs=tuple((_span(axis, box, name), margin) for name, box, margin in keep_outs),
            guides=tuple(guide for guide in guides if guide.axis == axis),
        )

    def candidates(self, box: Rectangle, reach: float) -> Iterator[tuple[float, Catch]]:
        """Every rule that would move the rectangle by at most ``reach`` mm, with how far its reference is."""
        moving = _span(self.axis, box, "")
        size = moving.high - moving.low
        yield from self._gaps(moving, size, reach)
        yield from self._alignments(moving, size, reach)
        yield from self._spacings(moving, size, reach)
        for span, margin in self.keep_outs:
            if span.faces(moving.side_low - margin, moving.side_high + margin):
                for low, line, edge in (
                    (span.high + margin, span.high, (span.high, span.high + margin)),
                    (span.low - margin - size, span.low, (span.low - margin, span.low)),
                ):
                    if abs(low - moving.low) <= reach:
                        gap = _gap_box(self.axis, *edge, moving, span)
                        yield 0.0, Catch(self.axis, "keep-out", low, line, (span.name,), (gap,))
            low = (span.low + span.high - size) / 2
            if self.axis == "x" and abs(low - moving.low) <= reach and span.side_high <= moving.side_low + 1e-6:
                yield 0.0, Catch(self.axis, "thing-middle", low, (span.low + span.high) / 2, (span.name,))
        for guide in self.guides:
            low = guide.at - {"low": 0.0, "centre": size / 2, "high": size}[guide.edge]
            if abs(low - moving.low) <= reach:
                yield 0.0, Catch(self.axis, guide.rule, low, guide.at, (guide.name,))

    def _gaps(self, moving: _Span, size: float, reach: float) -> Iterator[tuple[float, Catch]]:
        for place in _near(self.by_high, moving.low - self.gap, reach):
            span = self.spans[place]
            if span.faces(moving.side_low, moving.side_high):
                gap = _gap_box(self.axis, span.high, span.high + self.gap, moving, span)
                yield 0.0, Catch(self.axis, "gap", span.high + self.gap, span.high, (span.name,), (gap,))
        for place in _near(self.by_low, moving.high + self.gap, reach):
            span = self.spans[place]
            if span.faces(moving.side_low, moving.side_high):
                gap = _gap_box(self.axis, span.low - self.gap, span.low, moving, span)
                yield 0.0, Catch(self.axis, "gap", span.low - self.gap - size, span.low, (span.name,), (gap,))

    def _alignments(self, moving: _Span, size: float, reach: float) -> Iterator[tuple[float, Catch]]:
        for edges, at, offset, rule in (
            (self.by_low, moving.low, 0.0, "edge"),
            (self.by_high, moving.high, size, "edge"),
            (self.by_centre, (moving.low + moving.high) / 2, size / 2, "centre"),
        ):
            for place in _near(edges, at, reach):
                span = self.spans[place]
                away = max(span.side_low - moving.side_high, moving.side_low - span.side_high, 0.0)
                if away <= REACH_MM:
                    line = _line_of(span, offset, size)
                    yield (
                        away,
                        Catch(self.axis, "edge" if rule == "edge" else "centre", line - offset, line, (span.name,)),
                    )

    def _spacings(self, moving: _Span, size: float, reach: float) -> Iterator[tuple[float, Catch]]:
        """Equal distances of three: between two neighbours, or carrying on the distance of two."""
        before, after = self._before(moving), self._after(moving)
        if before is not None and after is not None:
            room = after.low - before.high - size
            low = before.high + room / 2
            if room > 0 and abs(low - moving.low) <= reach:
                yield 0.0, self._spacing(low, moving, (before, after), (before.high, low), (low + size, after.low))
        if before is not None and (second := self._before(before)) is not None:
            distance = before.low - second.high
            low = before.high + distance
            if distance > 0 and abs(low - moving.low) <= reach:
                yield 0.0, self._spacing(low, moving, (before, second), (before.high, low), (second.high, before.low))
        if after is not None and (second := self._after(after)) is not None:
            distance = second.low - after.high
            low = after.low - distance - size
            if distance > 0 and abs(low - moving.low) <= reach:
                yield (
                    0.0,
                    self._spacing(low, moving, (after, second), (low + size, after.low), (after.high, second.low)),
                )

    def _spacing(
        self,
        low: float,
        moving: _Span,
        names: tuple[_Span, _Span],
        first: tuple[float, float],
        second: tuple[float, float],
    ) -> Catch:
        gaps = (_gap_box(self.axis, *first, moving, names[0]), _gap_box(self.axis, *second, moving, names[1]))
        return Catch(self.axis, "spacing", low, low, (names[0].name, names[1].name), gaps)

    def _before(self, moving: _Span) -> _Span | None:
        """The nearest neighbour that ends before ``moving`` begins and faces it, within reach."""
        place = bisect_right(self.by_high, (moving.low + 1e-6, len(self.spans)))
        while place > 0:
            place -= 1
            high, index = self.by_high[place]
            if high < moving.low - REACH_MM:
                return None
            if self.spans[index].faces(moving.side_low, moving.side_high):
                return self.spans[index]
        return None

    def _after(self, moving: _Span) -> _Span | None:
        """The nearest neighbour that begins after ``moving`` ends and faces it, within reach."""
        for place in range(bisect_left(self.by_low, (moving.high - 1e-6, -1)), len(self.by_low)):
            low, index = self.by_low[place]
            if low > moving.high + REACH_MM:
                return None
            if self.spans[index].faces(moving.side_low, moving.side_high):
                return self.spans[index]
        return None


def _near(edges: Sequence[tuple[float, int]], at: float, reach: float) -> Iterator[int]:
    first = bisect_left(edges, (at - reach, -1))
    for place in range(first, len(edges)):
        value, index = edges[place]
        if value > at + reach:
            return
        yield index


def _line_of(span: _Span, offset: float, size: float) -> float:
    if offset == 0:
        return span.low
    return span.high if offset == size else (span.low + span.high) / 2


def _span(axis: Axis, box: Rectangle, name: str) -> _Span:
    if axis == "x":
        return _Span(box.left, box.right, box.bottom, box.top, name)
    return _Span(box.bottom, box.top, box.left, box.right, name)


def _gap_box(axis: Axis, low: float, high: float, one: _Span, other: _Span) -> Rectangle:
    """The strip between two facing rectangles, as wide as the stretch along which they face."""
    side_low, side_high = max(one.side_low, other.side_low), min(one.side_high, other.side_high)
    if side_low > side_high:
        side_low, side_high = side_high, side_low
    if axis == "x":
        return Rectangle(low, side_low, high, side_high)
    return Rectangle(side_low, low, side_high, high)
