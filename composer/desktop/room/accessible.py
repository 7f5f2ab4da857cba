"""The room for a screen reader: every piece and obstacle of the wall, by name, size, place and findings.

Qt gives a scene no accessible children of its own; this hands out an interface for the view and one
for each thing in it, read from the project and from what is drawn. Where Qt's own interfaces answer
"none", so do these; the binding's types do not know that.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QPoint, QRect
from PySide6.QtGui import QAccessible, QAccessibleEvent, QAccessibleInterface, QColor, QWindow
from PySide6.QtWidgets import QWidget

from composer.catalogue.names import obstacle_name
from composer.desktop.room.obstacle_item import ObstacleItem
from composer.desktop.room.piece_item import PieceItem
from composer.desktop.room.spoken import place_of_obstacle, place_of_piece, size_of_piece
from composer.model import Key
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.room.view import RoomView

_interfaces: dict[int, RoomInterface] = {}
"""By the view's address: Qt keeps no reference to what a factory made in Python."""


def interface_of(view: RoomView) -> RoomInterface:
    """What Qt asks about the view; made once for each."""
    found = _interfaces.get(id(view))
    if found is None or not found.isValid():
        found = RoomInterface(view)
        _interfaces[id(view)] = found
        view.destroyed.connect(partial(_forget, id(view)))
    return found


def _forget(address: int, _view: QObject | None = None) -> None:
    _interfaces.pop(address, None)


class RoomInterface(QAccessibleInterface):
    """The room: a canvas whose children are what hangs, lies or stands in it."""

    def __init__(self, view: RoomView) -> None:
        super().__init__()
        self._view = view
        self._children: dict[Key, ThingInterface] = {}

    def _keys(self) -> list[Key]:
        return self._view.room.order

    def _child(self, key: Key) -> ThingInterface:
        found = self._children.get(key)
        if found is None:
            found = ThingInterface(self._view, key, self)
            QAccessible.registerAccessibleInterface(found)
            self._children[key] = found
        return found

    def forget(self) -> None:
        """Children of things that are gone."""
        known = set(self._keys())
        for key in [key for key in self._children if key not in known]:
            del self._children[key]

    def isValid(self) -> bool:
        """Whether the view still exists."""
        from shiboken6 import isValid

        return bool(isValid(self._view))

    def object(self) -> QObject:
        """The view."""
        return self._view

    def window(self) -> QWindow | None:  # type: ignore[override]
        """The window it is in."""
        return self._view.window().windowHandle()

    def role(self) -> QAccessible.Role:
        """A canvas."""
        return QAccessible.Role.Canvas

    def text(self, what: QAccessible.Text) -> str:
        """Which wall, and how much is on it."""
        wall = self._view.room.wall
        if what == QAccessible.Text.Name:
            return say("Room: {wall}", wall=wall.name if wall is not None else "")
        if what == QAccessible.Text.Description:
            words = say("The wall to scale, the floor below it. Tab goes from piece to piece, Space picks one up.")
            bands = self._view.room.cables.in_words
            return say("{words} {bands}", words=words, bands=bands) if bands else words
        return ""

    def setText(self, what: QAccessible.Text, text: str) -> None:
        """Nothing of it can be written."""

    def state(self) -> QAccessible.State:
        """Focusable, and focused while no piece is."""
        made = QAccessible.State()
        _set(made, focusable=True, focused=self._view.hasFocus() and self._view.room.focus_key is None)
        return made

    def rect(self) -> QRect:
        """On the screen."""
        port = self._view.viewport()
        return QRect(port.mapToGlobal(QPoint(0, 0)), port.size())

    def parent(self) -> QAccessibleInterface | None:  # type: ignore[override]
        """What holds the view."""
        return QAccessible.queryAccessibleInterface(self._view.parentWidget() or self._view.window())

    def childCount(self) -> int:
        """Pieces and obstacles shown."""
        return len(self._keys())

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]
        """In the order of Tab."""
        keys = self._keys()
        return self._child(keys[index]) if 0 <= index < len(keys) else None

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        """Its place in that order."""
        keys = self._keys()
        return keys.index(child.key) if isinstance(child, ThingInterface) and child.key in keys else -1

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]
        """What is drawn at a point of the screen."""
        scene = self._view.mapToScene(self._view.viewport().mapFromGlobal(QPoint(x, y)))
        item = self._view.room.piece_at(scene) or self._view.room.obstacle_at(scene)
        return None if item is None else self._child(item.key)

    def focusChild(self) -> QAccessibleInterface | None:  # type: ignore[override]
        """Where the keyboard is."""
        key = self._view.room.focus_key
        return self._child(key) if key is not None and key in self._keys() else None

    def backgroundColor(self) -> QColor:
        """Not told."""
        return QColor()

    def foregroundColor(self) -> QColor:
        """Not told."""
        return QColor()

    def virtual_hook(self, id_: int, data: Any) -> None:
        """Qt's door for later versions; nothing here."""


class ThingInterface(QAccessibleInterface):
    """A piece or an obstacle."""

    def __init__(self, view: RoomView, key: Key, room: RoomInterface) -> None:
        super().__init__()
        self._view, self.key, self._room = view, key, room

    def _item(self) -> PieceItem | ObstacleItem | None:
        room = self._view.room
        return room.items_by_key.get(self.key) or room.obstacles_by_key.get(self.key)

    def isValid(self) -> bool:
        """Whether it is still shown."""
        return self._room.isValid() and self._item() is not None

    def object(self) -> QObject | None:  # type: ignore[override]
        """It is no QObject."""
        return None

    def window(self) -> QWindow | None:  # type: ignore[override]
        """The window it is in."""
        return self._room.window()

    def role(self) -> QAccessible.Role:
        """A graphic."""
        return QAccessible.Role.Graphic

    def text(self, what: QAccessible.Text) -> str:
        """Name: number, name and place; description: size, state and findings."""
        item, project = self._item(), self._view.room.project
        if isinstance(item, PieceItem):
            if what == QAccessible.Text.Name:
                return place_of_piece(item.piece, item.box, project)
            if what == QAccessible.Text.Description:
                parts = [size_of_piece(item.box, project)]
                parts += [say("locked")] if item.locked else []
                parts += [say("it is up")] if item.up else []
                return "; ".join([*parts, *self._view.room.sentences_of(self.key)])
        elif isinstance(item, ObstacleItem):
            if what == QAccessible.Text.Name:
                return place_of_obstacle(item.obstacle, item.box, project)
            if what == QAccessible.Text.Description:
                return obstacle_name(item.obstacle.kind)
        return ""

    def setText(self, what: QAccessible.Text, text: str) -> None:
        """Nothing of it can be written here; the card has the fields."""

    def state(self) -> QAccessible.State:
        """Selectable and movable; focused where the keyboard is."""
        made = QAccessible.State()
        room = self._view.room
        _set(
            made,
            focusable=True,
            selectable=True,
            selected=self.key in room.selection,
            focused=self._view.hasFocus() and room.focus_key == self.key,
        )
        return made

    def rect(self) -> QRect:
        """On the screen."""
        box = self._view.room.box_in_scene([self.key])
        shown = self._view.mapFromScene(box).boundingRect()
        return QRect(self._view.viewport().mapToGlobal(shown.topLeft()), shown.size())

    def parent(self) -> QAccessibleInterface | None:  # type: ignore[override]
        """The room."""
        return self._room

    def childCount(self) -> int:
        """None."""
        return 0

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]
        """None."""
        return None

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        """None."""
        return -1

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]
        """None."""
        return None

    def focusChild(self) -> QAccessibleInterface | None:  # type: ignore[override]
        """None."""
        return None

    def backgroundColor(self) -> QColor:
        """Not told."""
        return QColor()

    def foregroundColor(self) -> QColor:
        """Not told."""
        return QColor()

    def virtual_hook(self, id_: int, data: Any) -> None:
        """Qt's door for later versions; nothing here."""


def _set(
    state: QAccessible.State,
    *,
    focusable: bool = False,
    focused: bool = False,
    selectable: bool = False,
    selected: bool = False,
) -> None:
    for name, value in (
        ("focusable", focusable),
        ("focused", focused),
        ("selectable", selectable),
        ("selected", selected),
    ):
        setattr(state, name, int(value))


def tell_order_changed(view: QWidget) -> None:
    """Things came or went: a reader asks again."""
    interface = _interfaces.get(id(view))
    if interface is not None:
        interface.forget()
    QAccessible.updateAccessibility(QAccessibleEvent(view, QAccessible.Event.ObjectReorder))


def tell_focus(view: RoomView) -> None:
    """The keyboard is at another piece or obstacle."""
    if view.hasFocus() and view.room.focus_key in view.room.order:
        event = QAccessibleEvent(view, QAccessible.Event.Focus)
        event.setChild(view.room.order.index(view.room.focus_key))
        QAccessible.updateAccessibility(event)
