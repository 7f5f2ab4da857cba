"""Opens the printing window from wherever paper is wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from composer.desktop.field_choices import ChoiceField
from composer.editing.project_edits import change_project_fields
from composer.model import Key, PaperChoice, Project
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow


def open_paper(
    window: MainWindow,
    kind: str,
    project: Project | None = None,
    only: tuple[int, ...] = (),
    wall: Key | None = None,
    selected: tuple[int, ...] = (),
) -> None:
    """One kind of paper.

    Args:
        window: to which it belongs.
        kind: of paper, shown first.
        project: what is printed; None = the open project as it is.
        only: numbers of the pieces chosen at first; none = all.
        wall: chosen at first; None = all.
        selected: numbers of pieces offered together, where all are chosen at first.
    """
    from composer.desktop.printing.window import PrintingWindow

    dialog = PrintingWindow(
        window.opened.project if project is None else project,
        kind=kind,
        chosen=only or selected,
        settings=window.settings,
        folder=window.opened.folder,
        parent=window,
    )
    if only:
        _choose(dialog.panel.pieces, tuple(only))
    if wall is not None:
        _choose(dialog.panel.wall, wall)

    def keep(choice: PaperChoice) -> None:
        window.opened.apply(change_project_fields(say("Choice of paper"), paper=choice))

    dialog.chose.connect(keep)
    window.files.ask.run(dialog)


def _choose(field: ChoiceField, value: object) -> None:
    """As a person would choose it."""
    row = next((row for row in range(field.count()) if field.itemData(row) == value), -1)
    if row >= 0:
        field.setCurrentIndex(row)
        field.activated.emit(row)
