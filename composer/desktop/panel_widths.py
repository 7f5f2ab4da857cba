"""How the width of the window is shared: list, room, card; what folds where there is little of it.

Below 1 180 pixels the list folds to numbers and thumbnails. Below 1 000 the card lies over the room and
is there on demand: F4, the button at the room's corner, or whatever asks for a card.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtGui import QKeyEvent, QPalette
from PySide6.QtWidgets import QSplitter, QWidget

from composer.desktop.piece_list import FOLDED_WIDTH
from composer.desktop.theme import theme
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow

LIST_WIDTH, CARD_WIDTH = 280, 328
SMALL_LIST_WIDTH, SMALL_CARD_WIDTH = 232, 320
SMALL_BELOW = 1400
FOLDED_BELOW, OVER_BELOW = 1180, 1000
ROOM_WIDTH = 560
"""The room is not narrower than this when the window opens, pixels."""
LEAST_ROOM = 320
"""What the room must have beside list and card at any size of the letters."""


class PanelWidths(QObject):
    """The three panels side by side, or what becomes of them in a small window."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._over = False
        self._button: QWidget | None = None
        window.selection.changed.connect(self._on_selected)

    @property
    def _across(self) -> QSplitter:
        return self._window.across

    @property
    def card_is_over(self) -> bool:
        """Whether the card, when it is shown, lies over the room."""
        return self._over

    def first(self) -> None:
        """Panels as they were last on such a screen, else by the window's width."""
        sizes = self._window.settings.splitter_sizes("across", self._screen_name())
        self.fit()
        if len(sizes) == 3 and not self._window.list.is_folded:
            self._across.setSizes(sizes)
        else:
            self._share()

    def fit(self) -> None:
        """The window has another size."""
        window = self._window
        width = window.width()
        window.toolbar.set_tight(width < theme().px(FOLDED_BELOW))
        # Large letters make wide panels, which leave no room to the room sooner.
        card = theme().px(SMALL_CARD_WIDTH) + LEAST_ROOM
        folded = width < max(FOLDED_BELOW, theme().px(SMALL_LIST_WIDTH) + card)
        over = width < max(OVER_BELOW, theme().px(FOLDED_WIDTH) + card)
        if window.list.is_folded != folded:
            window.list.set_folded(folded)
            self._share()
        if self._over != over:
            self._put_over(over=over)
        if self._over:
            self._place()

    def keep(self) -> None:
        """Remembers the widths, unless they are those of a window too small to choose any."""
        if not self._over and not self._window.list.is_folded:
            self._window.settings.keep_splitter_sizes("across", self._screen_name(), self._across.sizes())

    def show_card(self) -> None:
        """The keyboard goes to the card; where it lies over the room, it opens, and closes again."""
        card = self._window.card
        if self._over and card.isVisible():
            self._close()
            return
        self.open_card()
        if card.card is not None:
            card.card.setFocus(Qt.FocusReason.ShortcutFocusReason)
            card.card.focusNextChild()

    def open_card(self) -> None:
        """Something is asked for in the card: it is shown wherever it is."""
        if self._over:
            self._window.card.show()
            self._place()

    def _close(self) -> None:
        self._window.card.hide()
        self._place()
        self._window.view.setFocus()

    def _share(self) -> None:
        window = self._window
        left, right = (SMALL_LIST_WIDTH, SMALL_CARD_WIDTH) if window.width() < SMALL_BELOW else (LIST_WIDTH, CARD_WIDTH)
        # Large letters want wide panels, but the room keeps its own share.
        list_width, card_width = theme().px(left), theme().px(right)
        over = max(0, list_width + card_width + ROOM_WIDTH - window.width())
        list_width = max(window.list.minimumWidth(), min(window.list.maximumWidth(), list_width - over))
        self._across.setSizes([list_width, max(200, window.width() - list_width - card_width), card_width])

    def _put_over(self, *, over: bool) -> None:
        """Takes the card out of the row of panels, or puts it back."""
        from composer.desktop.list_parts import Tab

        self._over = over
        card = self._window.card
        if over:
            card.setParent(self._window.centralWidget())
            card.setAutoFillBackground(True)
            card.setBackgroundRole(QPalette.ColorRole.Window)
            card.installEventFilter(self)
            card.hide()
            if self._button is None:
                button = Tab(say("Card"), self._window.centralWidget())
                button.setAutoFillBackground(True)
                button.setCheckable(False)
                button.clicked.connect(self.show_card)
                self._button = button
            self._button.show()
            self._place()
            return
        card.removeEventFilter(self)
        self._across.addWidget(card)
        card.show()
        if self._button is not None:
            self._button.hide()
        self._share()

    def _place(self) -> None:
        """Card and button at the right edge of the room."""
        from composer.desktop.list_parts import FlatButton

        room = self._across.geometry()
        card, button = self._window.card, self._button
        width = min(theme().px(SMALL_CARD_WIDTH), room.width() - theme().px(48))
        card.setGeometry(QRect(room.right() + 1 - width, room.top(), width, room.height()))
        card.raise_()
        if isinstance(button, FlatButton):
            button.set_words(say("Close card") if card.isVisible() else say("Card"))
            button.resize(button.sizeHint())
            right = room.right() - (width if card.isVisible() else 0)
            button.move(right - button.width(), room.top() + theme().px(22))
            button.raise_()

    def on_theme(self) -> None:
        """The lines between the panels have the theme's colour; other letters want other widths."""
        # A style sheet here would have every field below painted over its own edge.
        ground = self._across.palette()
        ground.setColor(QPalette.ColorRole.Window, theme().colour("line"))
        for place in range(self._across.count()):
            self._across.handle(place).setPalette(ground)
            self._across.handle(place).setAutoFillBackground(True)
        if self._window.isVisible():
            self.fit()

    def _on_selected(self) -> None:
        """A card that was opened for something else gives the room back when that is let go of."""
        if self._over and self._window.card.isVisible() and not self._window.selection.keys:
            self._window.card.hide()
            self._place()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Esc in a card over the room closes it."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape:
            self._close()
            return True
        return False

    def _screen_name(self) -> str:
        screen = self._window.screen()
        return f"{screen.size().width()}x{screen.size().height()}" if screen is not None else "any"
