"""What the actions do, but for files: edits of the selection, views of the room."""

from __future__ import annotations

from types import ModuleType
from typing import TYPE_CHECKING

from composer.desktop.actions import (
    ALWAYS,
    ANY,
    ARRANGEMENTS,
    DIRTY,
    HUNG,
    ONE,
    PICTURED,
    REDO,
    SEVERAL,
    TABLE,
    THING,
    TWO,
    UNDO,
    WALLS,
)
from composer.desktop.hanging_day.desk import DayDesk
from composer.editing.edits import Edit, EditRefused
from composer.model import Key
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow
    from composer.editing import placing

ZOOM_STEP = 1.25
TEXT_STEP = 25


class Commands:
    """One method for each action, by the action's name."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window
        self._opened = window.opened
        self._selection = window.selection
        self.day = DayDesk(window)

    @property
    def _placing(self) -> ModuleType:
        """The edits of places, loaded with the first of them."""
        from composer.editing import placing

        return placing

    def update_rules(self) -> None:
        """Which actions can be used now."""
        window, stack = self._window, self._opened.stack
        pieces = self._selection.pieces
        hung = self._hung()
        holds = {
            ALWAYS: True,
            ANY: bool(pieces),
            ONE: len(pieces) == 1,
            PICTURED: len(pieces) == 1 and self._shows_picture(pieces[0]),
            TWO: len(pieces) == 2,
            SEVERAL: len(hung) > 1,
            HUNG: bool(hung),
            UNDO: stack.canUndo(),
            REDO: stack.canRedo(),
            DIRTY: not self._opened.is_clean,
            THING: bool(self._selection.keys),
            WALLS: len(self._opened.project.walls) > 1,
            ARRANGEMENTS: len(self._opened.project.arrangements) > 1,
        }
        for row in TABLE:
            window.actions_by_name[row.name].setEnabled(holds[row.rule])
        undo, redo = window.actions_by_name["undo"], window.actions_by_name["redo"]
        undo.setText(say("Undo {what}", what=stack.undoText()) if stack.canUndo() else say("Undo"))
        redo.setText(say("Redo {what}", what=stack.redoText()) if stack.canRedo() else say("Redo"))
        for action, words in ((undo, say("Undo")), (redo, say("Redo"))):
            action.setIconText(words)

    def _shows_picture(self, key: Key) -> bool:
        piece = self._opened.project.piece_by_key.get(key)
        return piece is not None and piece.current_use is not None

    def _hung(self) -> list[Key]:
        shown = self._opened.project.placement_by_piece
        return [key for key in self._selection.pieces if key in shown]

    def _apply(self, edit: Edit) -> None:
        try:
            self._opened.apply(edit)
        except EditRefused as refused:
            self._window.say_hint(str(refused))

    def undo(self) -> None:
        """Takes the last step back and shows what it was about."""
        touched = self._opened.touched_by_step(self._opened.stack.index() - 1)
        self._opened.stack.undo()
        self._window.show_touched(touched)

    def redo(self) -> None:
        """Makes the step again and shows what it is about."""
        touched = self._opened.touched_by_step(self._opened.stack.index())
        self._opened.stack.redo()
        self._window.show_touched(touched)

    def history(self) -> None:
        """All steps, to go back to any of them."""
        from composer.desktop.history import show_history

        show_history(self._opened.stack, self._window)

    def select_all(self) -> None:
        """All pieces that are shown."""
        self._selection.set(
            piece.key for piece in self._opened.project.pieces if piece.key in self._window.room.items_by_key
        )

    def select_none(self) -> None:
        """Nothing."""
        self._selection.clear()

    def duplicate(self) -> None:
        """Copies of pieces on the floor, else copies of obstacles beside them."""
        if self._selection.pieces:
            from composer.editing import piece_edits

            self._apply(piece_edits.duplicate(self._opened.project, self._selection.pieces))
        else:
            self._window.walls.duplicate_obstacles(self._selection.obstacles)

    def delete(self) -> None:
        """Out of the project; undo brings it back."""
        self._window.walls.delete_things(self._selection.pieces, self._selection.obstacles)

    def pick_up(self) -> None:
        """Takes the selection in hand."""
        self._window.view.setFocus()
        self._window.view.tool.pick_up()

    def take_down(self) -> None:
        """To the floor."""
        self._apply(self._placing.take_down(self._opened.project, self._hung()))

    def turn(self) -> None:
        """A quarter."""
        self._apply(self._placing.turn(self._opened.project, self._hung()))

    def lock(self) -> None:
        """Locks; unlocks when all of them are locked."""
        shown = self._opened.project.placement_by_piece
        hung = self._hung()
        self._apply(self._placing.lock(self._opened.project, hung, not all(shown[key].locked for key in hung)))

    def swap(self) -> None:
        """Two pieces change places, and the arrangement stays the same one for their sizes."""
        from composer.editing.arranging_edits import swap_keeping

        one, other = self._selection.pieces
        self._apply(swap_keeping(self._opened.project, one, other))

    def _align(self, line: placing.Line) -> None:
        self._apply(self._placing.align(self._opened.project, self._hung(), line))

    def align_left(self) -> None:
        """Left edges in line."""
        self._align("left")

    def align_centre(self) -> None:
        """Middles under each other."""
        self._align("centre")

    def align_right(self) -> None:
        """Right edges in line."""
        self._align("right")

    def align_top(self) -> None:
        """Top edges in line."""
        self._align("top")

    def align_middle(self) -> None:
        """Middles at one height."""
        self._align("middle")

    def align_bottom(self) -> None:
        """Bottom edges in line."""
        self._align("bottom")

    def space_across(self) -> None:
        """Equal gaps across."""
        self._apply(self._placing.space_out(self._opened.project, self._hung(), "x"))

    def space_up(self) -> None:
        """Equal gaps above each other."""
        self._apply(self._placing.space_out(self._opened.project, self._hung(), "y"))

    def gap_across(self) -> None:
        """One gap apart across."""
        project = self._opened.project
        self._apply(self._placing.set_gaps(project, self._hung(), "x", float(project.arrangement.gap.mm)))

    def gap_up(self) -> None:
        """One gap apart above each other."""
        project = self._opened.project
        self._apply(self._placing.set_gaps(project, self._hung(), "y", float(project.arrangement.gap.mm)))

    def zoom_in(self) -> None:
        """Larger."""
        self._window.view.zoom_by(ZOOM_STEP)

    def zoom_out(self) -> None:
        """Smaller."""
        self._window.view.zoom_by(1 / ZOOM_STEP)

    def zoom_fit(self) -> None:
        """The whole wall."""
        self._window.view.fit()

    def zoom_life(self) -> None:
        """1 : 1."""
        self._window.view.one_to_one()

    def toggle_findings(self) -> None:
        """Opens or folds the findings."""
        self._window.findings.set_open(is_open=not self._window.findings.fold.isChecked())

    def larger_text(self) -> None:
        """Text a step larger."""
        self._window.set_text_percent(self._window.settings.text_percent + TEXT_STEP)

    def smaller_text(self) -> None:
        """Text a step smaller."""
        self._window.set_text_percent(self._window.settings.text_percent - TEXT_STEP)

    def look_system(self) -> None:
        """As the system says."""
        self._window.choose_scheme("system")

    def look_light(self) -> None:
        """Light."""
        self._window.choose_scheme("light")

    def look_dark(self) -> None:
        """Dark."""
        self._window.choose_scheme("dark")

    def add_piece(self) -> None:
        """Asks for a frame's width and height in one line and lays it on the floor."""
        self._window.ask_piece()

    def hanging_day(self) -> None:
        """The full screen of the wall shown."""
        self.day.open()

    def manual(self) -> None:
        """The manual, beside the window."""
        from composer.desktop.manual import show_manual

        show_manual(self._window)

    def about(self) -> None:
        """Version and licences."""
        from composer.desktop.manual import about_box

        self._window.files.ask.run(about_box(self._window))
