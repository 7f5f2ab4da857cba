"""Choosing and moving by hand: press, drag and release; or pick up, point or use the arrows, put down.

A drag moves items and chalk only; the project changes once, on release, and not at all when the
pieces are back where they were. Both ways of moving share one :class:`Carry`. Obstacles are moved
and sized by :class:`ObstacleDrag`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication

from composer.desktop.room.held_keys import HELD, lets_go
from composer.desktop.room.nudging import ARROWS, Nudges, step_mm
from composer.desktop.room.obstacle_item import Handle
from composer.desktop.room.put import Spot, put_obstacles, put_pieces
from composer.desktop.room.rubber_band import BandDrag
from composer.desktop.room.voice import Voice
from composer.editing.edits import Edit, EditRefused, MergeKey
from composer.geometry.rectangle import Rectangle
from composer.model import Key
from composer.texts import say, say_many

if TYPE_CHECKING:
    # Loaded with the first drag: the window is up sooner without them.
    from composer.desktop.room.carry import Carry
    from composer.desktop.room.obstacle_drag import ObstacleDrag
    from composer.desktop.room.view import RoomView


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
        self.voice = Voice(view)
        self._nudges = Nudges(self, view)

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
            self._carry.to(self._view.mapToScene(at.toPoint()), free=lets_go(modifiers), straight=False)
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
            self._carry.to(self._view.mapToScene(at.toPoint()), free=lets_go(modifiers), straight=False)
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
        self._carry.to(self._view.mapToScene(at.toPoint()), free=lets_go(modifiers), straight=straight)
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
        self._sizing.to(self._view.mapToScene(at.toPoint()), free=lets_go(modifiers), straight=straight)
        self._view.hint.emit(self._sizing.words_of_size())

    def _end_sizing(self) -> None:
        drag, self._sizing = self._sizing, None
        assert drag is not None
        drag.end()
        self._view.hint.emit("")
        self.put_obstacles({drag.key: drag.box}, None)

    def put_obstacles(self, boxes: dict[Key, Rectangle], merge: MergeKey | None) -> None:
        """Obstacles to other places or sizes, as one step of undo, or joined to the last by ``merge``."""
        project = self._room.project
        self._run(put_obstacles(project, boxes, project.length_style, merge))
        for key in boxes:
            self.voice.place_of_obstacle(key)

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
        self.voice.say(say("In hand: {pieces}.", pieces=self.voice.names()))

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
        self.put_pieces(spots, order, None)
        self._room.place_back(keys)
        self.voice.place_of_pieces(keys)

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
            self.voice.say(say("Left where it was."))
            return True
        if carry is None:
            return False
        carry.end()
        self._room.place_back(carry.keys)
        self._view.hint.emit("")
        self.voice.say(say("Left where it was."))
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
            "Moving {pieces}. Alt or Ctrl lets go of all rules, Esc puts it back.",
            "Moving {pieces}. Alt or Ctrl lets go of all rules, Esc puts them back.",
            len(keys),
            pieces=self.voice.names(),
        )
        self._view.hint.emit(words)
        return True

    def put_pieces(self, spots: dict[Key, Spot], order: list[Key] | None, merge: MergeKey | None) -> None:
        """Pieces to the wall or the floor, as one step of undo, or joined to the last by ``merge``."""
        self._run(put_pieces(self._room.opened.project, self._room.wall_key, spots, floor_order=order, merge=merge))

    def _run(self, edit: Edit) -> None:
        try:
            self._room.opened.apply(edit)
        except EditRefused as refused:
            self._view.hint.emit(str(refused))
            self.voice.say(str(refused))
            self._room.place_back(self._room.selection.pieces)

    # Keys ----------------------------------------------------------------------------------------

    def wants(self, event: QKeyEvent) -> bool:
        """Whether a key is the tool's now, also where a menu has it."""
        key = Qt.Key(event.key())
        if key in ARROWS or key in {Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            return bool(self._room.selection.keys) or self.carrying
        return key == Qt.Key.Key_Escape or (key == Qt.Key.Key_Alt and self.carrying)

    def held(self, event: QKeyEvent, *, down: bool) -> bool:
        """Alt, Ctrl or Shift went down or up with something in hand: the rules change at once, the hand being still."""
        drag, own = self._sizing or self._carry, HELD.get(Qt.Key(event.key()))
        if drag is None or self._by_keys or own is None:
            return False
        # Platforms differ in whether the modifiers of such an event already count its own key.
        modifiers = event.modifiers() | own if down else event.modifiers() & ~own
        drag.again(free=lets_go(modifiers), straight=bool(modifiers & Qt.KeyboardModifier.ShiftModifier))
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
        if key in ARROWS and self._sizing is None:
            return self._arrow(*ARROWS[key], modifiers)
        return False

    def _arrow(self, across: int, up: int, modifiers: Qt.KeyboardModifier) -> bool:
        """What an arrow does: moves what is in hand, nudges what is selected, else pans."""
        step = step_mm(self._room.project, modifiers)
        if self._carry is not None:
            self._carry.by(across * step, up * step)
            self._view.reveal(self._room.box_in_scene(self._carry.keys))
            self.voice.place_of_pieces(self._carry.keys)
        elif self._room.selection.pieces:
            self._nudges.pieces(across * step, up * step)
        elif self._room.selection.obstacles:
            self._nudges.obstacles(across * step, up * step)
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
            self.voice.place_of_pieces((key,))
        else:
            self.voice.place_of_obstacle(key)
