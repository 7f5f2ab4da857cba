"""The tools under the menu bar, and the choices of wall and arrangement at their right."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QComboBox, QLabel, QSizePolicy, QToolBar, QToolButton, QWidget

from composer.desktop import icons
from composer.desktop.actions import TABLE, TOOLBAR
from composer.desktop.theme import theme
from composer.model import Key
from composer.texts import say


class ToolBar(QToolBar):
    """Buttons with words; icons grow with the letters beside them."""

    def __init__(self, actions_by_name: Mapping[str, QAction]) -> None:
        super().__init__(say("Tools"))
        self._actions_by_name = actions_by_name
        self._tight = False
        self.setMovable(False)
        self.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.toggleViewAction().setVisible(False)
        for name in TOOLBAR:
            if name:
                self.addAction(actions_by_name[name])
            else:
                self.addSeparator()
        space = QWidget()
        space.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.addWidget(space)
        self.wall_choice, self.arrangement_choice = QComboBox(), QComboBox()
        self._labels: list[QAction] = []
        for words, choice in ((say("Wall"), self.wall_choice), (say("Arrangement"), self.arrangement_choice)):
            label = QLabel(words)
            choice.setToolTip(words)
            label.setContentsMargins(12, 0, 6, 0)
            label.setBuddy(choice)
            choice.setAccessibleName(words)
            choice.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
            choice.setMinimumHeight(28)
            self._labels.append(self.addWidget(label))
            self.addWidget(choice)

        more = self.findChild(QToolButton, "qt_toolbar_ext_button")
        if more is not None:  # Qt makes it half as wide as a target should be
            more.setMinimumWidth(24)

    def show_choices(
        self,
        walls: Iterable[tuple[Key, str]],
        wall: Key,
        arrangements: Iterable[tuple[Key, str]],
        arrangement: Key,
    ) -> None:
        """What can be chosen, keys with names, and what is shown."""
        for choice, records, current in (
            (self.wall_choice, walls, wall),
            (self.arrangement_choice, arrangements, arrangement),
        ):
            choice.clear()
            for key, name in records:
                choice.addItem(name, key)
            choice.setCurrentIndex(max(0, choice.findData(current)))

    def on_theme(self, *, everywhere: bool) -> None:
        """Colours or letters are others. ``everywhere``: also the icons that are in menus alone."""
        look = theme()
        line, surface = look.colour("line").name(), look.colour("surface").name()
        side = look.px(icons.SIZE)
        self.setIconSize(QSize(side, side))
        self.set_icons(everywhere=everywhere)
        edge, between, within = (4, 0, 3) if self._tight else (12, 6, 8)
        self.setStyleSheet(
            f"QToolBar {{ background: {surface}; border: 0; border-bottom: 1px solid {line};"
            f" spacing: {between}px; padding: 3px {max(12, edge)}px 3px {edge}px; }}"
            f"QToolBar::separator {{ background: {line}; width: 1px; margin: 4px 4px; }}"
            f"QToolButton {{ border: 0; border-radius: 3px; padding: 4px {within}px; min-height: 20px; }}"
            f"QToolButton:hover {{ background: {look.colour('surface_2').name()}; }}"
            f"QToolButton:focus {{ border: 2px solid {look.colour('chalk').name()}; }}"
        )

    def set_tight(self, tight: bool) -> None:
        """In a small window the words stand alone, closer together, and the choices are named by their tips."""
        if tight == self._tight:
            return
        self._tight = tight
        style = Qt.ToolButtonStyle
        self.setToolButtonStyle(style.ToolButtonTextOnly if tight else style.ToolButtonTextBesideIcon)
        for label in self._labels:
            label.setVisible(not tight)
        self.on_theme(everywhere=False)

    def set_icons(self, *, everywhere: bool) -> None:
        """Drawings in the ink and at the size in force."""
        for row in TABLE:
            if row.icon and (everywhere or row.name in TOOLBAR):
                self._actions_by_name[row.name].setIcon(icons.icon(row.icon))
