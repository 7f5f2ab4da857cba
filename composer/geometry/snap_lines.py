"""What may catch a dragged rectangle, sorted by where it is: neighbours, obstacles, lines of the wall.

Neighbours are noted band by band across an axis, each band as wide as they reach; within one their
edges and middles are sorted, so that a look at what is near costs the same among ten or a thousand.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import floor
from sys import maxsize
from typing import Literal, NamedTuple

from composer.geometry.bands import Bands
from composer.geometry.rectangle import Rectangle

Axis = Literal["x", "y"]
Edge = Literal["low", "centre", "high"]
Rule = Literal["gap", "keep-out", "eye-line", "wall-middle", "wall-margin", "thing-middle", "spacing", "edge", "centre"]

REACH_MM = 600.0
"""Edges and middles of pieces farther away than this (across the axis) do not catch."""


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
class Lines:
    """Everything that may catch along one axis, sorted by where it is."""

    axis: Axis
    gap: float
    spans: tuple[_Span, ...]
    bands: dict[int, "_Edges"]
    keep_outs: tuple[tuple[_Span, float], ...]
    keep_out_bands: Bands
    guides: tuple[Guide, ...]
    seconds: dict[tuple[_Span, bool], _Span | None]

    @classmethod
    def sort(
        cls, axis: Axis, neighbours: list[Neighbour], keep_outs: list[KeepOut], guides: list[Guide], gap: float
    ) -> "Lines":
        spans = tuple(_span(axis, box, name) for name, box in neighbours)
        across: dict[int, list[int]] = {}
        for place, span in enumerate(spans):
            for band in _bands(span.side_low, span.side_high):
                across.setdefault(band, []).append(place)
        blocked = tuple((_span(axis, box, name), margin) for name, box, margin in keep_outs)
        return cls(
            axis=axis,
            gap=gap,
            spans=spans,
            bands={band: _Edges.sort(spans, places) for band, places in across.items()},
            keep_outs=blocked,
            keep_out_bands=Bands([(span.low - margin, span.high + margin) for span, margin in blocked]),
            guides=tuple(guide for guide in guides if guide.axis == axis),
            seconds={},
        )

    def _facing(self, span: _Span, beside: float = 0.0) -> list["_Edges"]:
        """The edges of all that may face a span, or lie at most ``beside`` mm beside it."""
        found = (self.bands.get(band) for band in _bands(span.side_low - beside, span.side_high + beside))
        return [edges for edges in found if edges is not None]

    def candidates(self, box: Rectangle, reach: float) -> Iterator[tuple[float, Catch]]:
        """Every rule that would move the rectangle by at most ``reach`` mm, with how far its reference is."""
        moving = _span(self.axis, box, "")
        size = moving.high - moving.low
        facing = self._facing(moving)
        yield from self._gaps(moving, size, reach, facing)
        yield from self._alignments(moving, size, reach)
        yield from self._spacings(moving, size, reach, facing)
        for place in self.keep_out_bands.near(moving.low - reach, moving.high + reach):
            span, margin = self.keep_outs[place]
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

    def _gaps(self, moving: _Span, size: float, reach: float, facing: "list[_Edges]") -> Iterator[tuple[float, Catch]]:
        for place in _near([edges.by_high for edges in facing], moving.low - self.gap, reach):
            span = self.spans[place]
            if span.faces(moving.side_low, moving.side_high):
                gap = _gap_box(self.axis, span.high, span.high + self.gap, moving, span)
                yield 0.0, Catch(self.axis, "gap", span.high + self.gap, span.high, (span.name,), (gap,))
        for place in _near([edges.by_low for edges in facing], moving.high + self.gap, reach):
            span = self.spans[place]
            if span.faces(moving.side_low, moving.side_high):
                gap = _gap_box(self.axis, span.low - self.gap, span.low, moving, span)
                yield 0.0, Catch(self.axis, "gap", span.low - self.gap - size, span.low, (span.name,), (gap,))

    def _alignments(self, moving: _Span, size: float, reach: float) -> Iterator[tuple[float, Catch]]:
        beside = self._facing(moving, REACH_MM)
        for sorted_edges, at, offset, rule in (
            ([edges.by_low for edges in beside], moving.low, 0.0, "edge"),
            ([edges.by_high for edges in beside], moving.high, size, "edge"),
            ([edges.by_centre for edges in beside], (moving.low + moving.high) / 2, size / 2, "centre"),
        ):
            for place in _near(sorted_edges, at, reach):
                span = self.spans[place]
                away = max(span.side_low - moving.side_high, moving.side_low - span.side_high, 0.0)
                if away <= REACH_MM:
                    line = _line_of(span, offset, size)
                    yield (
                        away,
                        Catch(self.axis, "edge" if rule == "edge" else "centre", line - offset, line, (span.name,)),
                    )

    def _spacings(
        self, moving: _Span, size: float, reach: float, facing: "list[_Edges]"
    ) -> Iterator[tuple[float, Catch]]:
        """Equal distances of three: between two neighbours, or carrying on the distance of two."""
        before, after = self._before(moving, facing), self._after(moving, facing)
        if before is not None and after is not None:
            room = after.low - before.high - size
            low = before.high + room / 2
            if room > 0 and abs(low - moving.low) <= reach:
                yield 0.0, self._spacing(low, moving, (before, after), (before.high, low), (low + size, after.low))
        if before is not None and (second := self._second(before, before=True)) is not None:
            distance = before.low - second.high
            low = before.high + distance
            if distance > 0 and abs(low - moving.low) <= reach:
                yield 0.0, self._spacing(low, moving, (before, second), (before.high, low), (second.high, before.low))
        if after is not None and (second := self._second(after, before=False)) is not None:
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

    def _second(self, span: _Span, *, before: bool) -> _Span | None:
        """The neighbour of a neighbour, remembered: what hangs still is asked about at every step."""
        key = (span, before)
        if key not in self.seconds:
            look = self._before if before else self._after
            self.seconds[key] = look(span, self._facing(span))
        return self.seconds[key]

    def _before(self, moving: _Span, facing: "list[_Edges]") -> _Span | None:
        """The nearest neighbour that ends before ``moving`` begins and faces it, within reach."""
        found: list[_Span] = []
        spans, low, high = self.spans, moving.side_low, moving.side_high - 1e-6
        end = moving.low - REACH_MM
        for edges in facing:
            by_high = edges.by_high
            for place in range(bisect_right(by_high, (moving.low + 1e-6, len(spans))) - 1, -1, -1):
                at, index = by_high[place]
                if at < end:
                    break
                span = spans[index]
                if span.side_low < high and low < span.side_high - 1e-6:  # faces(), without a call for each
                    found.append(span)
                    break
        return max(found, key=_last, default=None)

    def _after(self, moving: _Span, facing: "list[_Edges]") -> _Span | None:
        """The nearest neighbour that begins after ``moving`` ends and faces it, within reach."""
        found: list[_Span] = []
        spans, low, high = self.spans, moving.side_low, moving.side_high - 1e-6
        end = moving.high + REACH_MM
        for edges in facing:
            by_low = edges.by_low
            for place in range(bisect_left(by_low, (moving.high - 1e-6, -1)), len(by_low)):
                at, index = by_low[place]
                if at > end:
                    break
                span = spans[index]
                if span.side_low < high and low < span.side_high - 1e-6:  # faces(), without a call for each
                    found.append(span)
                    break
        return min(found, key=_first, default=None)


# Of several that begin (or end) at one place the shortest comes first from either side, so that a mirrored wall
# catches alike.
def _first(span: _Span) -> tuple[float | str, ...]:
    return span


def _last(span: _Span) -> tuple[float | str, ...]:
    return span.high, span.low, -span.side_low, -span.side_high, span.name


class _Edges(NamedTuple):
    """The low edges, high edges and middles of one band, each sorted, with the places of their spans."""

    by_low: tuple[tuple[float, int], ...]
    by_high: tuple[tuple[float, int], ...]
    by_centre: tuple[tuple[float, int], ...]

    @classmethod
    def sort(cls, spans: Sequence[_Span], places: list[int]) -> "_Edges":
        low_first = sorted(places, key=lambda place: _first(spans[place]))
        high_last = sorted(places, key=lambda place: _last(spans[place]))
        return cls(
            by_low=tuple((spans[place].low, place) for place in low_first),
            by_high=tuple((spans[place].high, place) for place in high_last),
            by_centre=tuple(sorted(((spans[place].low + spans[place].high) / 2, place) for place in places)),
        )


def _bands(low: float, high: float) -> range:
    """The bands across an axis, each as wide as neighbours reach, that a stretch touches."""
    return range(floor(low / REACH_MM), floor(high / REACH_MM) + 1)


def _near(sorted_edges: Sequence[Sequence[tuple[float, int]]], at: float, reach: float) -> Iterable[int]:
    """The places of the edges within reach; one that stands in several bands comes once."""
    low, high = (at - reach, -1), (at + reach, maxsize)
    found = [index for edges in sorted_edges for _, index in edges[bisect_left(edges, low) : bisect_right(edges, high)]]
    return found if len(found) < 2 or len(sorted_edges) < 2 else dict.fromkeys(found)


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
