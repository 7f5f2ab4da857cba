"""Choosing and moving by hand: press, drag and release; or pick up, point or use the arrows, put down.

A drag moves items and chalk only; the project changes once, on release, and not at all when the
pieces are back where they were. Both ways of moving share one :class:`Carry`. Obstacles are moved
and sized by :class:`ObstacleDrag`.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QKeyEvent
from PySide6.QtWidgets import QApplication

from composer.desktop.room.obstacle_item import Handle
from composer.desktop.room.put import Spot, put_obstacles, put_pieces
from composer.desktop.room.rubber_band import BandDrag
from composer.desktop.room.spoken import names_of, place_of_obstacle, place_of_piece, place_of_several
from composer.desktop.units_shown import nudge_mm, style_of
from composer.editing.edits import Edit, EditRefused, MergeKey
from composer.geometry.rectangle import Rectangle
from composer.model import Key
from composer.texts import say, say_many

if TYPE_CHECKING:
    # Loaded with the first drag: the window is up sooner without them.
    from composer.desktop.room.carry import Carry
    from composer.desktop.room.obstacle_drag import ObstacleDrag
    from composer.desktop.room.view import RoomView

NUDGE_PAUSE_S = 1.0
"""After so long a rest the next arrow key begins a new step of undo."""

_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


class MoveTool:
    """The hand in the room."""

    def __init__(self, view: RoomView) -> None:
        self._view = view
        self._room = view.room
        self._pressed: QPointF | None = None
        self._pressed_key: Key | None = None
        self._narrow_to: Key | None = None
        self._band: BandDrag | None = None
        self._carry: Carry | None = None
        self._sizing: ObstacleDrag | None = None
        self._pressed_obstacle: tuple[Key, Handle | None] | None = None
        self._by_keys = False
        self._nudge_gesture = 0
        self._nudge_keys: tuple[Key, ...] = ()
        self._nudged_at = 0.0

    @property
    def carrying(self) -> bool:
        """Whether something is in hand."""
        return self._carry is not None or self._sizing is not None

    @property
    def dragging(self) -> bool:
        """Whether something is in hand with the button held."""
        return self._sizing is not None or (self._carry is not None and not self._by_keys)

    def choose_at(self, scene: QPointF) -> None:
        """Selects what lies at a point of the scene, unless it is selected already; nothing there lets go."""
        item = self._room.piece_at(scene) or self._room.obstacle_at(scene)
        if item is None:
            self._room.selection.clear()
        elif item.key not in self._room.selection:
            self._room.selection.set([item.key])

    # The pointer ---------------------------------------------------------------------------------

    def press(self, at: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """The left button went down at a point of the viewport."""
        if self._by_keys and self._carry is not None:
            self._carry.to(self._view.mapToScene(at.toPoint()), free=_free(modifiers), straight=False)
            self.put_down()
            return
        self._pressed = at
        self._narrow_to = None
        scene = self._view.mapToScene(at.toPoint())
        self._pressed_obstacle = self._room.handle_at(scene)
        if self._pressed_obstacle is not None:
            self._pressed_key = None
            return
        item = self._room.piece_at(scene)
        thing = None if item is not None else self._room.obstacle_at(scene)
        key = item.key if item is not None else thing.key if thing is not None else None
        self._pressed_key = item.key if item is not None else None
        if thing is not None:
            self._pressed_obstacle = (thing.key, None)
        selection = self._room.selection
        adds = bool(modifiers & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier))
        if key is None:
            if not adds:
                selection.clear()
            self._band = BandDrag(self._view, at.toPoint(), selection.pieces)
        elif adds:
            selection.toggle(key)
        elif key in selection:
            self._narrow_to = key
        else:
            selection.set([key])
        if key is not None:
            self._room.set_focus(key)

    def move(self, at: QPointF, modifiers: Qt.KeyboardModifier) -> bool:
        """The pointer moved; says whether that was a step of a drag."""
        if self._by_keys and self._carry is not None:
            self._carry.to(self._view.mapToScene(at.toPoint()), free=_free(modifiers), straight=False)
            return True
        if self._pressed is None:
            return False
        if self._band is not None:
            self._band.to(at.toPoint())
            return True
        if self._sizing is not None:
            self._size_to(at, modifiers)
            return True
        if self._carry is None:
            if (at - self._pressed).manhattanLength() < QApplication.startDragDistance():
                return True
            if self._pressed_obstacle is not None:
                from composer.desktop.room.obstacle_drag import ObstacleDrag

                key, handle = self._pressed_obstacle
                start = self._view.mapToScene(self._pressed.toPoint())
                self._sizing = ObstacleDrag(self._room, self._view, key, handle, start)
                self._size_to(at, modifiers)
                return True
            if not self._pick_up(self._view.mapToScene(self._pressed.toPoint())):
                self._pressed = None
                return True
        assert self._carry is not None
        straight = bool(modifiers & Qt.KeyboardModifier.ShiftModifier)
        self._carry.to(self._view.mapToScene(at.toPoint()), free=_free(modifiers), straight=straight)
        return True

    def release(self, at: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """The left button came up."""
        pressed, self._pressed = self._pressed, None
        if self._band is not None:
            self._band.end()
            self._band = None
            return
        if pressed is None:
            return
        if self._sizing is not None:
            self._end_sizing()
        elif self._carry is not None and not self._by_keys:
            self.put_down()
        elif self._narrow_to is not None:
            self._room.selection.set([self._narrow_to])

    def _size_to(self, at: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        assert self._sizing is not None
        straight = bool(modifiers & Qt.KeyboardModifier.ShiftModifier)
        self._sizing.to(self._view.mapToScene(at.toPoint()), free=_free(modifiers), straight=straight)
        self._view.hint.emit(self._sizing.words_of_size())

    def _end_sizing(self) -> None:
        drag, self._sizing = self._sizing, None
        assert drag is not None
        drag.end()
        self._view.hint.emit("")
        self._put_obstacles({drag.key: drag.box}, None)

    def _put_obstacles(self, boxes: dict[Key, Rectangle], merge: MergeKey | None) -> None:
        project = self._room.project
        self._run(put_obstacles(project, boxes, style_of(project), merge))
        for key in boxes:
            if (item := self._room.obstacles_by_key.get(key)) is not None:
                self._speak(place_of_obstacle(item.obstacle, item.box, project))

    # In hand -------------------------------------------------------------------------------------

    def pick_up(self) -> None:
        """Takes up what is selected, to be moved by arrows or pointed to its place."""
        keys = self._room.selection.pieces
        if not keys or self._carry is not None:
            return
        box = self._room.box_in_scene(keys)
        if not self._pick_up(box.center()):
            return
        self._by_keys = True
        assert self._carry is not None
        self._view.hint.emit(
            say("Arrows move it, or click where it shall go. Enter puts it down, Esc leaves it where it was.")
        )
        self._speak(say("In hand: {pieces}.", pieces=self._named()))

    def put_down(self) -> None:
        """Puts down what is in hand, as one step of undo."""
        carry, self._carry = self._carry, None
        self._by_keys = False
        if carry is None:
            return
        spots, order = carry.result()
        carry.end()
        self._view.hint.emit("")
        keys = carry.keys
        self._apply(spots, order, None)
        self._room.place_back(keys)
        self._speak_place(keys)

    def cancel(self) -> bool:
        """Puts everything back where it was; says whether anything was in hand."""
        carry, self._carry = self._carry, None
        self._by_keys = False
        self._pressed = None
        if self._band is not None:
            self._band.end()
            self._band = None
            return True
        if self._sizing is not None:
            self._sizing.end()
            self._sizing = None
            self._room.place_back(())
            self._view.hint.emit("")
            self._speak(say("Left where it was."))
            return True
        if carry is None:
            return False
        carry.end()
        self._room.place_back(carry.keys)
        self._view.hint.emit("")
        self._speak(say("Left where it was."))
        return True

    def _pick_up(self, scene: QPointF) -> bool:
        shown = self._room.project.placement_by_piece
        keys = [key for key in self._room.selection.pieces if key in self._room.items_by_key]
        if not keys:
            return False
        if any(key in shown and shown[key].locked for key in keys):
            self._view.hint.emit(say("A locked piece stays where it is. Unlock it first."))
            return False
        lead = self._pressed_key if self._pressed_key in keys else keys[0]
        from composer.desktop.room.carry import Carry

        self._carry = Carry(self._room, self._view, tuple(keys), lead, scene)
        words = say_many(
            "Moving {pieces}. Alt lets go of all rules, Esc puts it back.",
            "Moving {pieces}. Alt lets go of all rules, Esc puts them back.",
            len(keys),
            pieces=self._named(),
        )
        self._view.hint.emit(words)
        return True

    def _apply(self, spots: dict[Key, Spot], order: list[Key] | None, merge: MergeKey | None) -> None:
        self._run(put_pieces(self._room.opened.project, self._room.wall_key, spots, floor_order=order, merge=merge))

    def _run(self, edit: Edit) -> None:
        try:
            self._room.opened.apply(edit)
        except EditRefused as refused:
            self._view.hint.emit(str(refused))
            self._speak(str(refused))
            self._room.place_back(self._room.selection.pieces)

    # Keys ----------------------------------------------------------------------------------------

    def wants(self, event: QKeyEvent) -> bool:
        """Whether a key is the tool's now, also where a menu has it."""
        key = Qt.Key(event.key())
        if key in _ARROWS or key in {Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            return bool(self._room.selection.keys) or self.carrying
        return key == Qt.Key.Key_Escape or (key == Qt.Key.Key_Alt and self.carrying)

    def held(self, event: QKeyEvent, *, down: bool) -> bool:
        """Alt or Shift went down or up while something is in hand: the rules change at once, the hand being still."""
        drag = self._sizing or self._carry
        if drag is None or self._by_keys or event.key() not in {Qt.Key.Key_Alt, Qt.Key.Key_Shift}:
            return False
        modifiers = event.modifiers()
        alt, shift = _free(modifiers), bool(modifiers & Qt.KeyboardModifier.ShiftModifier)
        drag.again(
            free=down if event.key() == Qt.Key.Key_Alt else alt,
            straight=down if event.key() == Qt.Key.Key_Shift else shift,
        )
        return True

    def key(self, event: QKeyEvent) -> bool:
        """A key went down; says whether the tool used it."""
        key = Qt.Key(event.key())
        modifiers = event.modifiers()
        if key == Qt.Key.Key_Escape:
            if not self.cancel():
                self._room.selection.clear()
            return True
        if self.carrying and key in {Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.put_down()
            return True
        if key == Qt.Key.Key_Space and not event.isAutoRepeat():
            self.pick_up()
            return self.carrying
        if key in _ARROWS and self._sizing is None:
            return self._arrow(*_ARROWS[key], modifiers)
        return False

    def _arrow(self, across: int, up: int, modifiers: Qt.KeyboardModifier) -> bool:
        """What an arrow does: moves what is in hand, nudges what is selected, else pans."""
        step = nudge_mm(self._room.project)
        if modifiers & Qt.KeyboardModifier.ShiftModifier:
            step *= 10
        if modifiers & Qt.KeyboardModifier.ControlModifier:
            step *= 100
        if self._carry is not None:
            self._carry.by(across * step, up * step)
            self._view.reveal(self._room.box_in_scene(self._carry.keys))
            self._speak_place(self._carry.keys)
        elif self._room.selection.pieces:
            self._nudge(across * step, up * step)
        elif self._room.selection.obstacles:
            self._nudge_obstacles(across * step, up * step)
        else:
            self._view.pan(across, up)
        return True

    def tab(self, event: QKeyEvent) -> bool:
        """Tab and Shift+Tab go from piece to piece; past the last one the focus leaves the room."""
        if event.key() not in {Qt.Key.Key_Tab, Qt.Key.Key_Backtab} or self.carrying:
            return False
        order = self._room.order
        if not order:
            return False
        back = event.key() == Qt.Key.Key_Backtab
        here = self._room.focus_key
        place = (-1 if not back else len(order)) if here not in order else order.index(here)
        place += -1 if back else 1
        if not 0 <= place < len(order):
            self._room.set_focus(None)
            return False
        self.go_to(order[place])
        return True

    def go_to(self, key: Key) -> None:
        """The keyboard goes to a piece or an obstacle, which is selected, shown and spoken."""
        self._room.set_focus(key)
        self._room.selection.set([key])
        self._view.tell_focus()
        self._view.reveal(self._room.box_in_scene([key]))
        if key in self._room.items_by_key:
            self._speak_place((key,))
        else:
            item = self._room.obstacles_by_key[key]
            self._speak(place_of_obstacle(item.obstacle, item.box, self._room.project))

    def _nudge(self, across: float, up: float) -> None:
        shown = self._room.project.placement_by_piece
        keys = tuple(
            key for key in self._room.selection.pieces if key in shown and shown[key].wall == self._room.wall_key
        )
        if not keys:
            self._view.hint.emit(say("It lies on the floor. Space picks it up."))
            return
        spots: dict[Key, Spot] = {key: (shown[key].left + across, shown[key].bottom + up) for key in keys}
        self._apply(spots, None, self._nudge_merge("nudge", keys))
        self._speak_place(keys)
        self._view.reveal(self._room.box_in_scene(keys))

    def _nudge_obstacles(self, across: float, up: float) -> None:
        keys = tuple(key for key in self._room.selection.obstacles if key in self._room.obstacles_by_key)
        boxes = {key: self._room.obstacles_by_key[key].box for key in keys}
        low = min((box.bottom for box in boxes.values()), default=0.0)
        up = max(up, -low)
        moved = {key: box.moved(across, up) for key, box in boxes.items()}
        self._put_obstacles(moved, self._nudge_merge("nudge-obstacle", keys))

    def _nudge_merge(self, family: str, keys: tuple[Key, ...]) -> MergeKey:
        """Steps of the arrow keys are one step of undo until the hand rests."""
        now = time.monotonic()
        if keys != self._nudge_keys or now - self._nudged_at > NUDGE_PAUSE_S:
            from composer.desktop.fields import new_gesture

            self._nudge_gesture = new_gesture()
        self._nudge_keys, self._nudged_at = keys, now
        return MergeKey(family, keys, self._nudge_gesture)

    # Words ---------------------------------------------------------------------------------------

    def _named(self) -> str:
        return names_of(self._room.selection.pieces, self._room.project)

    def _speak_place(self, keys: tuple[Key, ...]) -> None:
        if len(keys) == 1 and keys[0] in self._room.items_by_key:
            item = self._room.items_by_key[keys[0]]
            self._speak(place_of_piece(item.piece, item.box, self._room.project))
        elif len(keys) > 1 and (box := self._room.selection_box()) is not None:
            self._speak(place_of_several(len(keys), box, self._room.project))

    def _speak(self, words: str) -> None:
        if QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self._view, words))
        self._view.said.emit(words)


def _free(modifiers: Qt.KeyboardModifier) -> bool:
    return bool(modifiers & Qt.KeyboardModifier.AltModifier)
