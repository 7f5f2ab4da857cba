"""The menus of the window: made from the table of actions, some filled when they are opened."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint, QPointF, Qt, QTimer
from PySide6.QtWidgets import QMenu

from composer.desktop.actions import MENUS, PIECE, TABLE, WALL
from composer.desktop.room.coordinates import from_scene
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow

OF_PIECES = (
    "pick_up", "take_down", "free_places", "", "turn", "lock", "crop", "swap", "swap_picture", "", "record_up",
    "record_down", "", "duplicate", "delete",
)  # fmt: skip
OF_OBSTACLES = ("duplicate", "delete")
OF_THE_ROOM = ("add_piece", "select_all", "", "zoom_fit", "zoom_life")
"""What the menu of a place in the room offers; an empty name is a line."""


class Menus:
    """The menu bar, and the menu of a place in the room."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window
        titles = with_mnemonics([say(name) for name in MENUS])
        self.by_name: dict[str, QMenu] = {
            name: window.menuBar().addMenu(title) for name, title in zip(MENUS, titles, strict=True)
        }
        for row in TABLE:
            menu = self.by_name[row.menu]
            if row.line_above:
                menu.addSeparator()
            if row.submenu:
                key = f"{row.menu}/{row.submenu}"
                if key not in self.by_name:
                    self.by_name[key] = menu.addMenu(say(row.submenu))
                menu = self.by_name[key]
            menu.addAction(window.actions_by_name[row.name])
            if row.name == "open":
                self.recent = menu.addMenu(say("Open Recent"))
        self.obstacles = QMenu(say("Add Obstacle"), window)
        self.by_name[WALL].insertMenu(window.actions_by_name["next_wall"], self.obstacles)
        self.obstacles.aboutToShow.connect(self._fill_obstacles)
        self.other_walls = self.by_name[PIECE].addMenu(say("Hang on Another Wall"))
        self.other_walls.aboutToShow.connect(self._fill_other_walls)
        for name in MENUS:
            self.by_name[name].menuAction().setVisible(not self.by_name[name].isEmpty())
        self.fill_recent()

    def update_rules(self) -> None:
        """Which of the menus can be used now."""
        walls, pieces = self._window.opened.project.walls, self._window.selection.pieces
        self.other_walls.menuAction().setEnabled(bool(pieces) and len(walls) > 1)

    def fill_recent(self) -> None:
        """The menu of projects opened lately."""
        self.recent.clear()
        for path in self._window.settings.recent_files:
            action = self.recent.addAction(path.name)
            action.setToolTip(str(path))
            action.triggered.connect(partial(self._open_recent, path))
        self.recent.setEnabled(not self.recent.isEmpty())

    def _open_recent(self, path: Path, _checked: bool = False) -> None:
        if self._window.files.may_leave():
            self._window.files.open_path(path)

    def _fill_obstacles(self) -> None:
        self._add_kinds(self.obstacles, None)

    def _add_kinds(self, menu: QMenu, at: tuple[float, float] | None) -> None:
        from composer.catalogue.names import obstacle_name
        from composer.desktop.cards.obstacle_list import KINDS

        menu.clear()
        for kind in KINDS:
            action = menu.addAction(obstacle_name(kind).capitalize())
            action.triggered.connect(partial(_without_argument, partial(self._window.walls.add_obstacle, kind, at)))

    def _fill_other_walls(self) -> None:
        self.other_walls.clear()
        for wall in self._window.opened.project.walls:
            if wall.key != self._window.room.wall_key:
                action = self.other_walls.addAction(wall.name)
                action.triggered.connect(partial(_without_argument, partial(self._window.walls.hang_on, wall.key)))

    def show_at(self, at: QPoint, place: QPointF) -> None:
        """What can be done with what lies at a place of the room."""
        window = self._window
        menu = QMenu(window)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        chosen = window.selection
        for name in OF_PIECES if chosen.pieces else OF_OBSTACLES if chosen.obstacles else OF_THE_ROOM:
            if name:
                menu.addAction(window.actions_by_name[name])
            else:
                menu.addSeparator()
        if not chosen.keys:
            self._add_kinds(menu.addMenu(say("Add Obstacle")), from_scene(place))
            fits = menu.addAction(window.actions_by_name["frames_that_fit"].text())
            # Its answer is a menu, too, and a menu that closes takes one that opens meanwhile with it.
            ask = partial(window.change.show_fitting, *from_scene(place))
            fits.triggered.connect(partial(_once_gone, menu, window, ask))
        elif chosen.pieces and len(window.opened.project.walls) > 1:
            menu.addMenu(self.other_walls)
        menu.popup(at)


def _without_argument(method: Callable[[], object], _checked: bool = False) -> None:
    method()


def _once_gone(menu: QMenu, window: MainWindow, do: Callable[[], object], _checked: bool = False) -> None:
    """Does it when the menu chosen from is closed and deleted, however long that takes."""

    def soon(_gone: QObject) -> None:
        QTimer.singleShot(0, window, do)

    menu.destroyed.connect(soon)


def with_mnemonics(titles: Sequence[str]) -> list[str]:
    """Titles with a letter to press with Alt, a different one each: the first of its own that is still free."""
    taken: set[str] = set()
    made = []
    for title in titles:
        place = next(
            (at for at, letter in enumerate(title) if letter.isalpha() and letter.casefold() not in taken), None
        )
        if place is None:
            made.append(title)
            continue
        taken.add(title[place].casefold())
        made.append(f"{title[:place]}&{title[place:]}")
    return made
