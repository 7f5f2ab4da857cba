"""An obstacle in hand: moved as a whole, or sized by one of its handles."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF

from composer.desktop.room.coordinates import from_scene
from composer.desktop.room.distances import distances
from composer.desktop.room.obstacle_item import Handle
from composer.desktop.units_shown import number
from composer.geometry.rectangle import Rectangle
from composer.model import Key

if TYPE_CHECKING:
    from composer.desktop.room.scene import RoomScene
    from composer.desktop.room.view import RoomView

LEAST_MM = 10.0
FLOOR_PX = 8.0
"""Nearer to the floor than this, it stands on it."""


class ObstacleDrag:
    """One drag of one obstacle; it ends with :meth:`end` whatever becomes of it."""

    def __init__(self, room: RoomScene, view: RoomView, key: Key, handle: Handle | None, grabbed: QPointF) -> None:
        self.key = key
        self.handle = handle
        self._room, self._view = room, view
        self._item = room.obstacles_by_key[key]
        self._start = self._item.box
        self._box = self._start
        self._grabbed = from_scene(grabbed)
        self._style = room.project.length_style
        self._grid = 12.7 if self._style.unit == "in" else 10.0
        self._last: tuple[QPointF, bool] | None = None

    @property
    def box(self) -> Rectangle:
        """Where it is now, mm."""
        return self._box

    def to(self, scene: QPointF, *, free: bool, straight: bool) -> None:
        """The hand is at a point of the scene. Edges keep to whole centimetres or half inches unless ``free``."""
        self._last = (scene, straight)
        x, y = from_scene(scene)
        dx, dy = x - self._grabbed[0], y - self._grabbed[1]
        if self.handle is None:
            if straight:
                dx, dy = (dx, 0.0) if abs(dx) >= abs(dy) else (0.0, dy)
            self._box = self._moved(dx, dy, free=free)
        else:
            self._box = self._sized(dx, dy, free=free)
        self._item.put(self._box)
        self._show_distances()
        self._view.carried.emit()

    def again(self, *, free: bool, straight: bool) -> None:
        """A key went down or up while the hand was still."""
        if self._last is not None:
            self.to(self._last[0], free=free, straight=straight)

    def end(self) -> None:
        """Lets go."""
        self._room.distances.hide()

    def _on_grid(self, value: float, *, free: bool) -> float:
        return round(value) if free else round(value / self._grid) * self._grid

    def _moved(self, dx: float, dy: float, *, free: bool) -> Rectangle:
        left = self._start.left if dx == 0 else self._on_grid(self._start.left + dx, free=free)
        bottom = self._start.bottom if dy == 0 else self._on_grid(self._start.bottom + dy, free=free)
        if not free and abs(bottom) * self._view.px_per_mm < FLOOR_PX:
            bottom = 0.0
        return Rectangle.at(left, max(0.0, bottom), self._start.width, self._start.height)

    def _sized(self, dx: float, dy: float, *, free: bool) -> Rectangle:
        assert self.handle is not None
        left, bottom, right, top = self._start
        if "left" in self.handle:
            left = min(self._on_grid(left + dx, free=free), right - LEAST_MM)
        if "right" in self.handle:
            right = max(self._on_grid(right + dx, free=free), left + LEAST_MM)
        if "bottom" in self.handle:
            bottom = max(0.0, min(self._on_grid(bottom + dy, free=free), top - LEAST_MM))
        if "top" in self.handle:
            top = max(self._on_grid(top + dy, free=free), bottom + LEAST_MM)
        return Rectangle(left, bottom, right, top)

    def _show_distances(self) -> None:
        wall = self._room.wall
        assert wall is not None
        found = distances(self._box, (), float(wall.width.mm))
        self._room.distances.show(
            [(distance, number(distance.length, self._style)) for distance in found], self._view.px_per_mm
        )

    def words_of_size(self) -> str:
        """Its size as it would be now."""
        from composer.texts import say

        return say(
            "{width} × {height}, {left} from the left, {bottom} from the floor",
            width=number(self._box.width, self._style),
            height=number(self._box.height, self._style),
            left=number(self._box.left, self._style),
            bottom=number(self._box.bottom, self._style),
        )
