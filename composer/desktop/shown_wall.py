"""Which wall and arrangement the room shows, and going to pieces wherever they hang."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from composer.desktop.open_project import existing
from composer.model import Key
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow


class ShownWall(QObject):
    """Keeps room, card and the two choices of the toolbar at one wall."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window, self._opened = window, window.opened
        window.toolbar.wall_choice.activated.connect(self._on_wall_chosen)
        window.toolbar.arrangement_choice.activated.connect(self._on_arrangement_chosen)

    def fill_choices(self) -> None:
        """Walls and arrangements as they are now."""
        shown = self._opened.shown
        self._window.toolbar.show_choices(
            [(wall.key, wall.name) for wall in shown.walls],
            self._window.room.wall_key,
            [(arrangement.key, arrangement.name) for arrangement in shown.arrangements],
            shown.current_arrangement,
        )

    def show(self, key: Key) -> None:
        """Shows another wall, whole."""
        self._window.room.show_wall(key)
        self.fill_choices()
        self._window.card.refresh()
        self._window.view.fit()

    def of_piece(self, key: Key) -> None:
        """Chosen in the list: the wall on which it hangs is shown, the piece in view."""
        window = self._window
        placement = self._opened.shown.placement_by_piece.get(key)
        if placement is not None and placement.wall != window.room.wall_key:
            window.room.wall_key = placement.wall
            window.room.show_project(self._opened.shown)
            self.fill_choices()
            window.view.fit()
        window.view.reveal(window.room.box_in_scene([key]))

    def go_to(self, keys: Iterable[Key]) -> None:
        """Selects pieces and brings them into view, changing the wall where needed."""
        found = existing(keys, self._opened.shown)
        if not found:
            return
        placement = self._opened.shown.placement_by_piece.get(found[0])
        if placement is not None and placement.wall != self._window.room.wall_key:
            self.show(placement.wall)
        self._window.selection.set(found)
        self._window.view.reveal(self._window.room.box_in_scene(found))

    def _on_wall_chosen(self, row: int) -> None:
        self.show(self._window.toolbar.wall_choice.itemData(row))

    def _on_arrangement_chosen(self, row: int) -> None:
        from composer.editing.record_edits import change_project

        key = self._window.toolbar.arrangement_choice.itemData(row)
        if key != self._opened.project.current_arrangement:
            name = self._opened.project.arrangement_by_key[key].name
            self._opened.apply(change_project(say("Show arrangement “{name}”", name=name), current_arrangement=key))
