"""Where the main window and the next change meet: the actions, old holes on the wall, questions for a place."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint, Qt
from PySide6.QtWidgets import QMenu

from composer.editing.edits import Edit, EditRefused
from composer.geometry.rectangle import Rectangle
from composer.model import Key, Piece, Project
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.change.finding import Fitting, Spot
    from composer.desktop.change.hole_marks import HoleMarks
    from composer.desktop.change.place_marks import PlaceMarks
    from composer.desktop.change.window import ChangeWindow
    from composer.desktop.main_window import MainWindow


class ChangeDesk(QObject):
    """The next change of one main window; one method for each action, by the action's name."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._opened = window.opened
        self.shown: ChangeWindow | None = None
        self.holes: HoleMarks | None = None
        self._marks: PlaceMarks | None = None
        self.menu: QMenu | None = None

    def start(self) -> None:
        """The main window is up: old holes appear."""
        from composer.desktop.change.hole_marks import HoleMarks

        if self.holes is None:
            self.holes = HoleMarks(self._window.room, self._opened, self)
            self._window.view.moved.connect(self._on_moved)
            self.holes.refresh()
            self._opened.project_changed.connect(self._on_change)

    @property
    def marks(self) -> PlaceMarks:
        """Outlines in the room, and questions for a place."""
        if self._marks is None:
            from composer.desktop.change.place_marks import PlaceMarks

            self._marks = PlaceMarks(self._window.view, self)
            self._marks.ended.connect(lambda: self._window.say_hint(""))
        return self._marks

    def _ask(self) -> PlaceMarks:
        """Ready for a question: nothing else has the pointer."""
        self._window.cropping.leave()
        return self.marks

    def stop(self) -> None:
        """Before the main window goes."""
        if self.shown is not None:
            self.shown.stop()
            self.shown.close()

    def _on_change(self, *_: object) -> None:
        """Places are of the project as it was."""
        if self._marks is not None:
            self._marks.end()

    def _on_moved(self) -> None:
        """Another wall is fitted into view when it is shown: with it come other holes, and no places."""
        if self.holes is not None:
            self.holes.refresh()
        if self._marks is not None and self._marks.wall != self._window.room.wall_key:
            self._marks.end()

    def _apply(self, edit: Edit) -> bool:
        try:
            return self._opened.apply(edit)
        except EditRefused as refused:
            self._window.say_hint(str(refused))
            return False

    # The window ----------------------------------------------------------------------------------

    def next_change(self) -> None:
        """What is up, and the rehang plan; one that is open comes to the front."""
        from composer.desktop.change.window import ChangeWindow

        if self.shown is None:
            self.shown = ChangeWindow(self._opened, self._window.room.wall_key, self._window)
            self.shown.paper_wanted.connect(self._on_paper)
            self.shown.piece_chosen.connect(lambda key: self._window.show_keys((key,)))
            for name in ("undo", "redo", "save"):
                self.shown.addAction(self._window.actions_by_name[name])
        self.shown.show()
        self.shown.raise_()
        self.shown.activateWindow()

    def _on_paper(self, kind: str, target: str, only: tuple[int, ...]) -> None:
        from composer.desktop.change.planning import with_target_shown
        from composer.desktop.printing.opening import open_paper

        assert self.shown is not None
        project = with_target_shown(self._opened.project, target)
        open_paper(self._window, kind, project, tuple(only), self.shown.wall)

    # What is up ----------------------------------------------------------------------------------

    def record_up(self) -> None:
        """The selected pieces hang now, where the arrangement has them."""
        from composer.desktop.change.planning import now_instant
        from composer.editing.rehang_edits import record_up

        project, up = self._opened.project, self._opened.project.up()
        hung = project.placement_by_piece
        keys = [key for key in self._window.selection.pieces if key in hung and key not in up]
        if not keys:
            self._window.say_hint(say("All of them are noted as up already."))
            return
        if self._apply(record_up(project, keys, now_instant())):
            self._window.say_hint(say("Noted as up, with their holes. Another day is noted under Next Change."))

    def record_down(self) -> None:
        """The selected pieces have come down; their holes stay noted."""
        from composer.desktop.change.planning import now_instant
        from composer.editing.rehang_edits import record_down

        project, up = self._opened.project, self._opened.project.up()
        keys = [key for key in self._window.selection.pieces if key in up]
        if not keys:
            self._window.say_hint(say("None of them is noted as up."))
            return
        if self._apply(record_down(project, keys, now_instant())):
            self._window.say_hint(say("Noted as down. Their holes stay noted until they are filled."))

    # Pieces that come later ----------------------------------------------------------------------

    def free_places(self) -> None:
        """Where the selected piece of the floor could go."""
        from composer.desktop.change.finding import spots_for

        project, wall = self._opened.project, self._window.room.wall_key
        key = self._window.selection.pieces[0]
        piece = project.piece_by_key[key]
        if key in project.placement_by_piece:
            self._window.say_hint(say("{number} hangs already: take it down first.", number=piece.number))
            return
        if not project.hung_on(wall, project.arrangement):
            self._window.say_hint(say("Free places keep the gap to what hangs. Hang a first piece anywhere."))
            return
        spots = spots_for(project, wall, piece)
        if not spots:
            self._window.say_hint(
                say("No place for {number} keeps the gap and lines up with a neighbour.", number=piece.number)
            )
            return
        self._ask().offer([(spot.place, spot.words) for spot in spots], partial(self._take, key, spots))
        self._window.say_hint(
            say(
                "Free places for {number}: click one, or arrows and Enter. Esc ends.",
                number=piece.number,
            ),
            stays=True,
        )

    def _take(self, key: Key, spots: Sequence[Spot], number: int) -> None:
        self._hang(key, spots[number])

    def _hang(self, key: Key, spot: Spot) -> None:
        from composer.editing.rehang_edits import hang_at

        place = spot.place
        edit = hang_at(
            self._opened.project, key, self._window.room.wall_key, place.left, place.bottom, turned=spot.turned
        )
        if self._apply(edit):
            self._window.show_keys((key,))

    def frames_that_fit(self) -> None:
        """Asks for a place of the wall, then says which frames of the floor fit there."""
        wall = self._window.room.wall
        if wall is None:
            return
        eye = float(self._opened.project.eye_line(wall).mm)
        self._ask().ask_point((float(wall.width.mm) / 2, eye), self.show_fitting)
        self._window.say_hint(
            say("Click a bare place of the wall, or move the cross by arrows and press Enter."), stays=True
        )

    def show_fitting(self, x: float, y: float) -> None:
        """What would fit at a point of the wall, and a menu of the frames that do."""
        from composer.desktop.change.finding import fitting, place_at

        project, wall = self._opened.project, self._window.room.wall_key
        places = place_at(project, wall, x, y)
        if not places:
            self._window.say_hint(
                say("Nothing fits there: something hangs or stands there, or the gap around it is kept.")
            )
            return
        found = fitting(project, wall, places)
        self._ask().show_only([(places[0], say("up to {size}", size=_size(project, places[0])))])
        menu = QMenu(say("Frames that fit here"), self._window)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for one in found:
            menu.addAction(_fitting_words(project, one)).triggered.connect(
                lambda _=False, one=one: self._hang(one.piece.key, one.spot)
            )
        if not found:
            menu.addAction(
                say("None of the frames on the floor fits: up to {size}", size=_size(project, places[0]))
            ).setEnabled(False)
        menu.aboutToHide.connect(self.marks.end)
        self.menu = menu
        view = self._window.view
        menu.popup(view.viewport().mapToGlobal(view.mapFromScene(x, -y)))

    # Another picture in the same frame -----------------------------------------------------------

    def swap_picture(self) -> None:
        """A menu of the pictures the selected frame may show, and another file."""
        project = self._opened.project
        piece = project.piece_by_key[self._window.selection.pieces[0]]
        menu = QMenu(say("Swap the picture"), self._window)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for place, use in enumerate(piece.uses):
            action = menu.addAction(_use_words(project, piece, place))
            action.setCheckable(True)
            action.setChecked(place == piece.current_use)
            action.triggered.connect(partial(self._swap, piece.key, place))
            action.setObjectName(use.picture)
        if piece.uses:
            menu.addSeparator()
        menu.addAction(say("Another file…")).triggered.connect(partial(self._swap_file, piece.key))
        self.menu = menu
        view, box = self._window.view, self._window.room.box_in_scene([piece.key])
        at = view.mapFromScene(box.center()) if not box.isEmpty() else QPoint(40, 40)
        menu.popup(view.viewport().mapToGlobal(at))

    def _swap(self, key: Key, use: int, _: bool = False) -> None:
        from composer.editing.rehang_edits import swap_picture

        if self._apply(swap_picture(self._opened.project, key, use)):
            self._say_swapped(key)

    def _swap_file(self, key: Key, _: bool = False) -> None:
        from composer.desktop.intake import PICTURE_ENDINGS

        endings = " ".join(f"*{ending}" for ending in sorted(PICTURE_ENDINGS))
        path = self._window.files.ask.open_path(
            self._window, say("Another picture"), say("Pictures ({endings})", endings=endings)
        )
        if path is not None:
            self.swap_to(key, path)

    def swap_to(self, key: Key, path: Path) -> None:
        """A picture file in a frame that stays as it is."""
        from composer.editing.picture_edits import link_pictures
        from composer.editing.rehang_edits import new_picture
        from composer.projectfile.picture_links import relative_path

        project, folder = self._opened.project, self._window.project_folder()
        swap = new_picture(project, key, relative_path(path, folder))
        link = link_pictures(project, [path], folder)
        if self._apply(Edit(swap.text, lambda current: swap.run(link.run(current)))):
            self._say_swapped(key)

    def _say_swapped(self, key: Key) -> None:
        number = self._opened.project.piece_by_key[key].number
        self._window.say_hint(
            say("{number}: a new print is to be ordered and trimmed. Frame, place and holes stay.", number=number)
        )


def _size(project: Project, place: Rectangle) -> str:
    from composer.paper.figures import figures_of

    return figures_of(project).size_in_words(place.width, place.height)


def _fitting_words(project: Project, one: Fitting) -> str:
    from composer.paper.figures import figures_of

    figures, piece = figures_of(project), one.piece
    across, up = (figures.bare(max(0.0, mm)) for mm in one.spare_mm)
    size = figures.size(*piece.size_mm(turned=one.spot.turned))
    words = say("{number} {name}", number=piece.number, name=piece.name)
    if one.spot.turned:
        return say("{piece}, turned, {size}: {across} and {up} to spare", piece=words, size=size, across=across, up=up)
    return say("{piece}, {size}: {across} and {up} to spare", piece=words, size=size, across=across, up=up)


def _use_words(project: Project, piece: Piece, place: int) -> str:
    use = piece.uses[place]
    picture = project.picture_by_key.get(use.picture)
    name = "" if picture is None else Path(picture.path).name
    if use.label and name:
        return say("{label} ({file})", label=use.label, file=name)
    return use.label or name or say("picture {number}", number=place + 1)
