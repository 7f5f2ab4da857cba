"""Arrow keys on what is selected: small steps, joined to one step of undo until the hand rests."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from composer.desktop.room.put import Spot
from composer.desktop.units_shown import nudge_mm
from composer.editing.edits import MergeKey
from composer.model import Key, Project
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.room.move_tool import MoveTool
    from composer.desktop.room.view import RoomView

NUDGE_PAUSE_S = 1.0
"""After so long a rest the next arrow key begins a new step of undo."""

ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


def step_mm(project: Project, modifiers: Qt.KeyboardModifier) -> float:
    """How far an arrow goes: a millimetre or a sixteenth of an inch, with Shift ten times as far, with Ctrl a hundred."""
    step = nudge_mm(project)
    if modifiers & Qt.KeyboardModifier.ShiftModifier:
        step *= 10
    if modifiers & Qt.KeyboardModifier.ControlModifier:
        step *= 100
    return step


class Nudges:
    """Moves what is selected, and knows which steps belong together."""

    def __init__(self, tool: MoveTool, view: RoomView) -> None:
        self._tool, self._view, self._room = tool, view, view.room
        self._gesture = 0
        self._keys: tuple[Key, ...] = ()
        self._at = 0.0

    def pieces(self, across: float, up: float) -> None:
        """The selected pieces of this wall, by so many mm."""
        shown = self._room.project.placement_by_piece
        keys = tuple(
            key for key in self._room.selection.pieces if key in shown and shown[key].wall == self._room.wall_key
        )
        if not keys:
            self._view.hint.emit(say("It lies on the floor. Space picks it up."))
            return
        spots: dict[Key, Spot] = {key: (shown[key].left + across, shown[key].bottom + up) for key in keys}
        self._tool.put_pieces(spots, None, self._merge("nudge", keys))
        self._tool.voice.place_of_pieces(keys)
        self._view.reveal(self._room.box_in_scene(keys))

    def obstacles(self, across: float, up: float) -> None:
        """The selected obstacles, by so many mm; none goes below the floor."""
        keys = tuple(key for key in self._room.selection.obstacles if key in self._room.obstacles_by_key)
        boxes = {key: self._room.obstacles_by_key[key].box for key in keys}
        low = min((box.bottom for box in boxes.values()), default=0.0)
        up = max(up, -low)
        moved = {key: box.moved(across, up) for key, box in boxes.items()}
        self._tool.put_obstacles(moved, self._merge("nudge-obstacle", keys))

    def _merge(self, family: str, keys: tuple[Key, ...]) -> MergeKey:
        now = time.monotonic()
        if keys != self._keys or now - self._at > NUDGE_PAUSE_S:
            from composer.desktop.fields import new_gesture

            self._gesture = new_gesture()
        self._keys, self._at = keys, now
        return MergeKey(family, keys, self._gesture)
