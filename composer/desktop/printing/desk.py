"""What the menu Paper does: each kind of paper opens the printing window at it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow


class PaperDesk:
    """One method for each kind of paper in the menu, by the action's name."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window

    def templates(self) -> None:
        """Templates; pieces that are selected are offered alone."""
        self._open("templates")

    def hanging_list(self) -> None:
        """The list for hanging day."""
        self._open("hanging-list")

    def measuring_sheet(self) -> None:
        """What is still to measure."""
        self._open("measure")

    def cut_outs(self) -> None:
        """Sizes to cut from any paper."""
        self._open("cut-outs")

    def wall_sheet(self) -> None:
        """The whole arrangement, full size."""
        self._open("wall")

    def print_order(self) -> None:
        """Prints to order and how to trim them."""
        self._open("prints")

    def mat_list(self) -> None:
        """How the mats are cut."""
        self._open("mats")

    def shopping_list(self) -> None:
        """What is to be bought."""
        self._open("shopping")

    def elevation(self) -> None:
        """The wall to scale on one sheet."""
        self._open("elevation")

    def scale_check(self) -> None:
        """What a printer makes of a ruler."""
        self._open("scale-check")

    def _open(self, kind: str) -> None:
        from composer.desktop.printing.opening import open_paper

        project = self._window.opened.project
        selected = tuple(project.piece_by_key[key].number for key in self._window.selection.pieces)
        open_paper(self._window, kind, selected=selected)
