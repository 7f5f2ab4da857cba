"""Where the main window and money meet: the foot of the list, and the window of costs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow
    from composer.desktop.money.foot import CostsFoot
    from composer.desktop.money.reckoning import Reckoning
    from composer.desktop.money.window import CostsWindow


class MoneyDesk(QObject):
    """Money of one main window; nothing of it is loaded before the window is up."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._reckoning: Reckoning | None = None
        self.foot: CostsFoot | None = None
        self.shown: CostsWindow | None = None

    @property
    def reckoning(self) -> Reckoning:
        """What everything costs; begins with the first question."""
        if self._reckoning is None:
            from composer.desktop.money.reckoning import Reckoning

            self._reckoning = Reckoning(self._window.opened, self)
            self._reckoning.start()
        return self._reckoning

    def start(self) -> None:
        """The main window is up: the total appears in the foot of its list."""
        from composer.desktop.money.foot import CostsFoot

        layout = self._window.list.layout()
        if self.foot is None and layout is not None:
            self.foot = CostsFoot(self.reckoning)
            self.foot.clicked.connect(lambda _=False: self.costs())
            layout.addWidget(self.foot)

    def costs(self) -> None:
        """The window of costs, beside the main window; one that is open comes to the front."""
        from composer.desktop.money.window import CostsWindow

        if self.shown is None:
            self.shown = CostsWindow(self._window.opened, self.reckoning, self._window)
            self.shown.shopping_wanted.connect(self._on_shopping)
            for name in ("undo", "redo", "save"):
                self.shown.addAction(self._window.actions_by_name[name])
        self.shown.show()
        self.shown.raise_()
        self.shown.activateWindow()

    def _on_shopping(self) -> None:
        from composer.desktop.printing.opening import open_paper

        open_paper(self._window, "shopping")

    def stop(self) -> None:
        """Before the main window goes."""
        if self._reckoning is not None:
            self._reckoning.stop()
        if self.shown is not None:
            self.shown.close()
