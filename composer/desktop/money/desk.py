"""Where the main window and money meet: the foot of the list, and the window of costs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from composer.texts import say, say_many

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
            self.shown.table_wanted.connect(self._on_table)
            self.shown.paid_wanted.connect(self._on_paid)
            self.shown.prices_wanted.connect(self._on_prices)
            for name in ("undo", "redo", "save"):
                self.shown.addAction(self._window.actions_by_name[name])
        self.shown.show()
        self.shown.raise_()
        self.shown.activateWindow()

    def _on_shopping(self) -> None:
        from composer.desktop.printing.opening import open_paper

        open_paper(self._window, "shopping")

    def _on_table(self) -> None:
        from composer.projectfile.errors import ProjectFileError
        from composer.projectfile.shopping_table import shopping_bytes
        from composer.projectfile.store import write_atomic

        assert self.shown is not None
        sums, ask = self.reckoning.sums, self._window.files.ask
        name = say("{title}-shopping.csv", title=self._window.opened.project.title or say("wall"))
        path = ask.save_path(self.shown, say("Save the shopping list"), name, say("Tables (*.csv)"))
        if path is None or sums is None:
            return
        try:
            write_atomic(path, shopping_bytes(sums.project, sums.costs))
        except ProjectFileError as problem:
            self.shown.say(str(problem), "stop")
        else:
            self.shown.say(say("“{name}” is written.", name=path.name), "ok")

    def _on_paid(self) -> None:
        from composer.editing.money_edits import record_paid_list
        from composer.projectfile.errors import ProjectFileError
        from composer.projectfile.shopping_table import read_paid

        assert self.shown is not None
        path = self._window.files.ask.open_path(self.shown, say("Read what was paid"), say("Tables (*.csv)"))
        if path is None:
            return
        try:
            amounts = {row.item: row.amount for row in read_paid(path)}
        except ProjectFileError as problem:
            self.shown.say(str(problem), "stop")
            return
        if not amounts:
            self.shown.say(say("Nothing stands in the column “paid” of “{name}”.", name=path.name), "warn")
            return
        from composer.desktop.cards.session import try_apply

        refusal = try_apply(self._window.opened, record_paid_list(amounts))
        count = say_many("{count} amount is read.", "{count} amounts are read.", len(amounts))
        self.shown.say(refusal or count, "stop" if refusal else "ok")

    def _on_prices(self) -> None:
        from composer.desktop.cards.session import try_apply
        from composer.editing.project_edits import add_prices
        from composer.projectfile.errors import ProjectFileError
        from composer.projectfile.lists import read_prices

        assert self.shown is not None
        path = self._window.files.ask.open_path(self.shown, say("Read prices"), say("Tables (*.csv)"))
        if path is None:
            return
        try:
            read = read_prices(path)
        except ProjectFileError as problem:
            self.shown.say(str(problem), "stop")
            return
        refusal = try_apply(self._window.opened, add_prices(read.prices, read.in_drawer))
        count = say_many("{count} price is read.", "{count} prices are read.", len(read.prices))
        self.shown.say(refusal or count, "stop" if refusal else "ok")

    def stop(self) -> None:
        """Before the main window goes."""
        if self._reckoning is not None:
            self._reckoning.stop()
        if self.shown is not None:
            self.shown.close()
