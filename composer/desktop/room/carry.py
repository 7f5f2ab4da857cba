"""Pieces in hand: where they are while the hand moves, what has caught them, where they would go."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRect, QRectF, QTimer

from composer.catalogue import catalogue as catalogues
from composer.catalogue.names import obstacle_name
from composer.desktop.room.coordinates import from_scene
from composer.desktop.room.distances import Side, distances
from composer.desktop.room.overlaps import overlapping, shared
from composer.desktop.room.piece_item import PieceItem
from composer.desktop.room.put import Spot
from composer.desktop.units_shown import nudge_mm, number
from composer.findings.quick import quick_findings
from composer.geometry.nosing import stair_height_mm
from composer.geometry.rectangle import Rectangle
from composer.geometry.snapping import Catch, Guide, KeepOut, Neighbour, SnapSession, step
from composer.model import Key, Wall
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.room.scene import RoomScene
    from composer.desktop.room.view import RoomView


class Resting:
    """What hangs still during a drag, sorted once, so that a step looks only at what is near."""

    def __init__(self, boxes: Iterable[Rectangle]) -> None:
        self.boxes = sorted(boxes)
        self._lefts = [box.left for box in self.boxes]
        self._widest = max((box.width for box in self.boxes), default=0.0)

    def near(self, box: Rectangle) -> list[Rectangle]:
        """Those that could meet the box."""
        low = bisect_left(self._lefts, box.left - self._widest)
        high = bisect_left(self._lefts, box.right, lo=low)
        return [
            other
            for other in self.boxes[low:high]
            if other.right > box.left and other.top > box.bottom and other.bottom < box.top
        ]


READOUT_MS = 16
"""Chalk, distances and rulers follow at the rate of a screen; a hand's events may come ten times as often."""


class Carry:
    """One drag, or one picking up by key; it ends with :meth:`end` whatever becomes of it."""

    def __init__(self, room: RoomScene, view: RoomView, keys: tuple[Key, ...], lead: Key, grabbed: QPointF) -> None:
        self.keys = keys
        self._room = room
        self._view = view
        self._items: list[PieceItem] = [room.items_by_key[key] for key in keys]
        self._lead = room.items_by_key[lead]
        self._start = {item.key: item.box for item in self._items}
        self._whole = self._bounds(self._start)
        self._grabbed = from_scene(grabbed)
        self._moved = (0.0, 0.0)
        self._style = room.project.length_style
        self._spans: dict[str, Rectangle] = {}
        self._last: tuple[QPointF, bool] | None = None
        self._session = self._begin()
        room.show_traces((item.box, _name_of(item)) for item in self._items)
        self._resting = Resting(self._spans_of_pieces())
        self._around = [*self._resting.boxes, *self._boxes_of_obstacles()]
        room.overlaps.show(overlapping(self._resting.boxes))
        self._catches: tuple[Catch, ...] = ()
        self._hatched = False
        self._covered: QRect | None = None
        view.moved.connect(self._on_view_moved)
        self._readouts = QTimer()
        self._readouts.setSingleShot(True)
        self._readouts.setInterval(READOUT_MS)
        self._readouts.timeout.connect(self.show_readouts)
        for item in self._items:
            item.set_in_hand(True)

    def to(self, scene: QPointF, *, free: bool, straight: bool) -> None:
        """The hand is at a point of the scene now. ``free``: no rule holds; ``straight``: along one axis only."""
        self._last = (scene, straight)
        x, y = from_scene(scene)
        dx, dy = x - self._grabbed[0], y - self._grabbed[1]
        if straight:
            dx, dy = (dx, 0.0) if abs(dx) >= abs(dy) else (0.0, dy)
        over_wall = self._start[self._lead.key].moved(dx, dy).centre[1] > 0
        if free or not over_wall:
            self._show(self._whole_steps(dx, self._whole.left), self._whole_steps(dy, self._whole.bottom), ())
            return
        box = self._whole.moved(dx, dy)
        wall = self._room.wall
        assert wall is not None
        if wall.nosing is not None:
            self._session = self._session.with_guides(guides_of(wall, self._eye_mm(box)))
        scale = self._view.px_per_mm
        snap, self._session = step(self._session, box, scale)
        put_dx, put_dy = snap.box.left - self._whole.left, snap.box.bottom - self._whole.bottom
        catches = snap.catches
        if straight:
            put_dx, put_dy = (put_dx if dx else 0.0), (put_dy if dy else 0.0)
            catches = tuple(catch for catch in catches if (catch.axis == "x") == bool(dx))
        held = {catch.axis for catch in catches}
        put_dx = put_dx if "x" in held else self._whole_steps(put_dx, self._whole.left)
        put_dy = put_dy if "y" in held else self._whole_steps(put_dy, self._whole.bottom)
        self._show(put_dx, put_dy, catches)

    def again(self, *, free: bool, straight: bool) -> None:
        """A key went down or up while the hand was still."""
        if self._last is not None:
            self.to(self._last[0], free=free, straight=straight)

    def _whole_steps(self, way: float, start: float) -> float:
        """A way that ends on a whole millimetre, or sixteenth of an inch: a pointer knows no more than that."""
        if way == 0.0:
            return 0.0
        step = nudge_mm(self._room.project)
        return round((start + way) / step) * step - start

    def _eye_mm(self, box: Rectangle) -> float:
        """The eye line's height where the box hangs; on a stair it climbs."""
        wall = self._room.wall
        assert wall is not None
        return float(self._room.project.eye_line(wall).mm) + stair_height_mm(wall.nosing, box.centre[0])

    def by(self, across: float, up: float) -> None:
        """Moves by so many mm, no rule holding. From the floor, up leads to the eye line and down back."""
        dx, dy = self._moved
        lead = self._start[self._lead.key]
        wall = self._room.wall
        assert wall is not None
        now = lead.moved(dx, dy)
        if now.centre[1] <= 0 and up > 0:
            dy = self._eye_mm(now) - lead.centre[1]
        elif now.bottom + up < 0 < now.centre[1] and up < 0:
            dy = (self._whole.bottom if self._whole.top <= 0 else -self._whole.height - 60) - self._whole.bottom
        else:
            dx, dy = dx + across, dy + up
        self._show(dx, dy, ())

    def result(self) -> tuple[dict[Key, Spot], list[Key] | None]:
        """Where each piece would go, and the order of the floor when any lies there."""
        spots: dict[Key, Spot] = {}
        lying: list[tuple[float, Key]] = []
        shown = self._room.project.placement_by_piece
        for item in self._items:
            box = self._start[item.key].moved(*self._moved)
            if box.centre[1] > 0:
                if item.key in shown and self._moved == (0.0, 0.0):
                    spots[item.key] = (shown[item.key].left, shown[item.key].bottom)
                else:
                    spots[item.key] = (box.left, max(0.0, box.bottom))
            else:
                spots[item.key] = None
                lying.append((box.centre[0], item.key))
        if not lying or self._moved == (0.0, 0.0):
            return spots, None
        return spots, self._floor_order(lying)

    def _on_view_moved(self) -> None:
        self._covered = None

    def end(self) -> None:
        """Lets go; whoever ends it puts the items where they belong."""
        self._view.moved.disconnect(self._on_view_moved)
        self._readouts.stop()
        self._room.chalk.end()
        self._room.hide_traces()
        self._room.distances.hide()
        self._room.overlaps_in_hand.show(())
        for item in self._items:
            item.set_in_hand(False)
            item.set_trouble(False)

    def _floor_order(self, lying: list[tuple[float, Key]]) -> list[Key]:
        carried = {key for _, key in lying}
        order = [
            piece.key
            for piece in self._room.project.on_floor()
            if piece.key not in carried and piece.key not in self.keys
        ]
        for x, key in sorted(lying):
            places = self._room.floor_places
            before = sum(1 for other in order if other in places and places[other].centre[0] < x) if order else 0
            order.insert(before, key)
        return order

    def _show(self, dx: float, dy: float, catches: Sequence[Catch]) -> None:
        self._moved = (dx, dy)
        boxes = [self._start[item.key].moved(dx, dy) for item in self._items]
        wall = self._room.wall
        assert wall is not None
        whole = self._whole.moved(dx, dy)
        near = self._resting.near(whole)
        troubles = quick_findings(boxes, near, wall.corners)
        hatched = []
        before = self._covered if self._covered is not None else self._in_view()
        for item, box, trouble in zip(self._items, boxes, troubles, strict=True):
            item.put(box)
            item.set_trouble(box.centre[1] > 0 and (bool(trouble.meets) or trouble.outside))
            hatched += [shared(box, near[place]) for place in trouble.meets]
        # One rectangle around old and new place: where the region to paint is one, Qt copies pixels ten times faster.
        self._covered = self._in_view()
        self._view.viewport().update(before.united(self._covered))
        if hatched or self._hatched:
            self._room.overlaps_in_hand.show(hatched)
            self._hatched = bool(hatched)
        self._catches = tuple(catches)
        if not self._readouts.isActive():
            self._readouts.start()

    def _in_view(self) -> QRect:
        """What the items in hand cover of the viewport now."""
        whole = QRectF()
        for item in self._items:
            whole = whole.united(item.sceneBoundingRect())
        return self._view.mapFromScene(whole).boundingRect().adjusted(-3, -3, 3, 3)

    def show_readouts(self) -> None:
        """Brings up to date what is read beside the piece: chalk and its reasons, distances, rulers."""
        self._readouts.stop()
        wall = self._room.wall
        assert wall is not None
        whole, scale = self._whole.moved(*self._moved), self._view.px_per_mm
        self._room.chalk.show(self._catches, whole, self._spans, scale, self._style)
        self._room.chalk.show_reasons(
            self._catches, whole, float(wall.width.mm), scale, self._style, self._resting.near
        )
        self._show_distances(whole, float(wall.width.mm))
        self._view.carried.emit()

    def _show_distances(self, whole: Rectangle, width: float) -> None:
        """How far it is to what lies beside and below, but where a filled gap says so already."""
        if whole.centre[1] <= 0:
            self._room.distances.hide()
            return
        told: list[Side] = []
        for catch in self._catches:
            for gap in catch.gaps:
                if catch.axis == "x":
                    told.append("left" if gap.right <= whole.left + 1e-6 else "right")
                elif gap.top <= whole.bottom + 1e-6:
                    told.append("below")
        found = distances(whole, self._around, width, told)
        self._room.distances.show(
            [(distance, number(distance.length, self._style)) for distance in found], self._view.px_per_mm
        )

    def _boxes_of_obstacles(self) -> Iterator[Rectangle]:
        wall = self._room.wall
        assert wall is not None
        for obstacle in wall.obstacles:
            yield Rectangle.at(obstacle.left, obstacle.bottom, obstacle.width.mm, obstacle.height.mm)

    def _spans_of_pieces(self) -> Iterator[Rectangle]:
        assert self._room.wall is not None
        for piece, placement in self._room.project.hung_on(self._room.wall.key):
            if piece.key not in self.keys:
                yield Rectangle.at(placement.left, placement.bottom, *piece.size_mm(turned=placement.turned))

    @staticmethod
    def _bounds(boxes: dict[Key, Rectangle]) -> Rectangle:
        whole: Rectangle | None = None
        for box in boxes.values():
            whole = box if whole is None else whole.united(box)
        assert whole is not None
        return whole

    def _begin(self) -> SnapSession:
        project, wall = self._room.project, self._room.wall
        assert wall is not None
        neighbours = []
        for piece, placement in project.hung_on(wall.key):
            if piece.key in self.keys:
                continue
            box = Rectangle.at(placement.left, placement.bottom, *piece.size_mm(turned=placement.turned))
            name = str(piece.number)
            neighbours.append(Neighbour(name, box))
            self._spans[name] = box
        known = catalogues.of(project.catalogue)
        keep_outs = []
        for obstacle in wall.obstacles:
            box = Rectangle.at(obstacle.left, obstacle.bottom, obstacle.width.mm, obstacle.height.mm)
            margin = obstacle.margin.mm if obstacle.margin is not None else known.margin_mm(obstacle.kind)
            name = obstacle_name(obstacle.kind, obstacle.name)
            keep_outs.append(KeepOut(name, box, margin))
            self._spans[name] = box
        return SnapSession.begin(
            neighbours, gap=self._room.gap_mm, keep_outs=keep_outs, guides=guides_of(wall, project.eye_line(wall).mm)
        )


def _name_of(item: PieceItem) -> str:
    return say("{number} {name}", number=item.piece.number, name=item.piece.name)


def guides_of(wall: Wall, eye_line_mm: float) -> list[Guide]:
    """The lines of a wall on which pieces may lie: its middle, the eye line, its margins."""
    width, height = float(wall.width.mm), float(wall.height.mm)
    guides = [
        Guide("x", "centre", width / 2, "wall-middle", say("wall middle")),
        Guide("y", "centre", eye_line_mm, "eye-line", say("eye line")),
    ]
    if wall.edge_margin is not None:
        margin = float(wall.edge_margin.mm)
        guides += [
            Guide("x", "low", margin, "wall-margin", say("margin")),
            Guide("x", "high", width - margin, "wall-margin", say("margin")),
            Guide("y", "high", height - margin, "wall-margin", say("margin")),
        ]
    return guides
