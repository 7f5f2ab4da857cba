"""Where the main window and arranging meet: one method for each action, by the action's name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent

from composer.desktop.open_project import Change
from composer.editing.edits import Edit, EditRefused
from composer.model import Project
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.arrangements.compare import CompareWindow
    from composer.desktop.arrangements.sketching import Sketching
    from composer.desktop.arrangements.truing import Truing
    from composer.desktop.main_window import MainWindow


AFTER_DROP_MS = 120
"""The drop itself is painted first."""


class ArrangeDesk(QObject):
    """Arranging in one main window; nothing of it is loaded before it is asked for."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window, self._opened = window, window.opened
        self._sketching: Sketching | None = None
        self._truing: Truing | None = None
        self.compared: CompareWindow | None = None
        self._drop = QTimer(self)
        self._drop.setSingleShot(True)
        self._drop.timeout.connect(self._on_dropped)
        self._dropped: tuple[Project, Project, Change] | None = None
        window.view.installEventFilter(self)
        window.view.viewport().installEventFilter(self)

    @property
    def sketching(self) -> Sketching:
        """Sketches; made when first asked for."""
        if self._sketching is None:
            from composer.desktop.arrangements.sketching import Sketching

            self._sketching = Sketching(self._window)
        return self._sketching

    @property
    def truing(self) -> Truing:
        """Truing up; made when first asked for."""
        if self._truing is None:
            from composer.desktop.arrangements.truing import Truing

            self._truing = Truing(self._window)
        return self._truing

    def stop(self) -> None:
        """Before the main window goes."""
        self._drop.stop()
        if self._truing is not None:
            self._truing.close()
        if self._sketching is not None:
            self._sketching.stop()
        if self.compared is not None:
            self.compared.close()

    def _apply(self, edit: Edit) -> bool:
        try:
            return self._opened.apply(edit)
        except EditRefused as refused:
            self._window.say_hint(str(refused))
            return False

    # Sketches and truing up ------------------------------------------------------------------------

    def arrange(self) -> None:
        """Sketches to choose from."""
        if self._truing is not None:
            self._truing.close()
        self._window.view.tool.cancel()
        if not self._opened.project.pieces:
            self._window.say_hint(say("There is nothing to arrange yet: add frames first."))
            return
        if self._window.cropping.tool is not None:
            self._window.cropping.leave()
        self.sketching.open()

    def true_up(self) -> None:
        """What would move, to be accepted; again closes it."""
        if self._sketching is not None:
            self._sketching.close()
        self._window.view.tool.cancel()
        if self.truing.is_open:
            self.truing.close()
        else:
            self.truing.open()

    def true_up_piece(self) -> None:
        """The selected pieces alone."""
        self.truing.only_selected()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """While something is previewed, Esc and Enter in the room mean that, unless a piece is in hand.

        A press in the room is meant for the pieces themselves, never for a preview of them.
        """
        if event.type() == QEvent.Type.MouseButtonPress and self._sketching is not None:
            self._sketching.preview(None)
            return False
        if isinstance(event, QKeyEvent) and event.type() in (QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress):
            return self._key(event)
        return False

    def _key(self, event: QKeyEvent) -> bool:
        truing = self._truing is not None and self._truing.is_open
        sketching = self._sketching is not None and self._sketching.is_open
        if not (truing or sketching) or self._window.view.tool.carrying or event.modifiers():
            return False
        enter = truing and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if event.key() != Qt.Key.Key_Escape and not enter:
            return False
        if event.type() == QEvent.Type.ShortcutOverride:
            event.accept()
        elif enter:
            self.truing.accept()
        elif truing:
            self.truing.close()
        else:
            self.sketching.close()
        return True

    # After a drop ----------------------------------------------------------------------------------

    def on_project(self, before: Project, after: Project, change: Change) -> None:
        """One piece was put somewhere: a moment later it is told how truing it up alone would move it."""
        if self._opened.shown is self._opened.project and len(change.placements.keys) == 1:
            self._dropped = (before, after, change)
            self._drop.start(AFTER_DROP_MS)

    def _on_dropped(self) -> None:
        dropped, self._dropped = self._dropped, None
        stack = self._opened.stack
        if dropped is None or dropped[1] is not self._opened.project or not stack.canUndo() or stack.canRedo():
            return  # undone, or gone on
        if (self._sketching is not None and self._sketching.is_open) or self.truing.is_open:
            return
        words = self.truing.offer_after_drop(*dropped)
        if words:
            keys = self._window.actions_by_name["true_up_piece"].shortcut().toString()
            self._window.say_hint(say("{keys} trues it up alone: {move}.", keys=keys, move=words))

    # Several arrangements --------------------------------------------------------------------------

    def _name_like(self, wanted: str) -> str:
        names = {one.name for one in self._opened.project.arrangements}
        if wanted not in names:
            return wanted
        count = 2
        while (name := say("{name} {number}", name=wanted, number=count)) in names:
            count += 1
        return name

    def new_arrangement(self) -> None:
        """An empty one, every piece on the floor."""
        from composer.editing.project_edits import add_arrangement

        count = len(self._opened.project.arrangements) + 1
        self._apply(add_arrangement(self._name_like(say("Arrangement {number}", number=count))))

    def duplicate_arrangement(self) -> None:
        """A copy of the one shown, which is shown from now on."""
        from composer.editing.project_edits import add_arrangement

        shown = self._opened.project.arrangement
        name = self._name_like(say("{name}, copy", name=shown.name))
        if self._apply(add_arrangement(name, shown.key)):
            self._window.say_hint(say("“{name}” is shown now; the other one stays as it was.", name=name))

    def rename_arrangement(self) -> None:
        """Another name for the one shown."""
        from composer.editing.project_edits import change_arrangement_fields

        shown = self._opened.project.arrangement
        name = self._window.files.ask.line(
            self._window, say("Rename the arrangement"), say("Name of “{name}”", name=shown.name)
        )
        if name is not None and name.strip():
            self._apply(change_arrangement_fields(self._opened.project, shown.key, name=name.strip()))

    def delete_arrangement(self) -> None:
        """The one shown; undo brings it back."""
        from composer.editing.project_edits import delete_arrangement

        self._apply(delete_arrangement(self._opened.project, self._opened.project.current_arrangement))

    def compare_arrangements(self) -> None:
        """Two arrangements of the wall shown, side by side."""
        from composer.desktop.arrangements.compare import CompareWindow

        if self.compared is None:
            self.compared = CompareWindow(
                self._opened, self._window.room.wall_key, self._window.room.picture_of, self._window
            )
            self._window.pictures.ready.connect(self.compared.update_pictures)
            for name in ("undo", "redo", "save"):
                self.compared.addAction(self._window.actions_by_name[name])
        self.compared.show_wall(self._window.room.wall_key)
        self.compared.show()
        self.compared.raise_()
        self.compared.activateWindow()
