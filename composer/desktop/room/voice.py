"""What the room tells a screen reader, and whoever listens in its place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent

from composer.desktop.room.spoken import names_of, place_of_obstacle, place_of_piece, place_of_several
from composer.model import Key

if TYPE_CHECKING:
    from composer.desktop.room.view import RoomView


class Voice:
    """Says each step of what is done in the room, so that it can be followed without seeing it."""

    def __init__(self, view: RoomView) -> None:
        self._view, self._room = view, view.room

    def say(self, words: str) -> None:
        """Says a sentence that is finished."""
        if QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self._view, words))
        self._view.said.emit(words)

    def names(self) -> str:
        """The pieces selected, by name."""
        return names_of(self._room.selection.pieces, self._room.project)

    def place_of_pieces(self, keys: tuple[Key, ...]) -> None:
        """Says where pieces are now."""
        if len(keys) == 1 and keys[0] in self._room.items_by_key:
            item = self._room.items_by_key[keys[0]]
            self.say(place_of_piece(item.piece, item.box, self._room.project))
        elif len(keys) > 1 and (box := self._room.selection_box()) is not None:
            self.say(place_of_several(len(keys), box, self._room.project))

    def place_of_obstacle(self, key: Key) -> None:
        """Says where an obstacle is now."""
        if (item := self._room.obstacles_by_key.get(key)) is not None:
            self.say(place_of_obstacle(item.obstacle, item.box, self._room.project))
