"""Sketches in one main window: the strip, the card beside it, previews on the wall, the search behind them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QVBoxLayout

from composer.arranging.sketches import NotOffered, Sketch
from composer.arranging.task import WIDTH_MOST, Task
from composer.desktop.arrangements.arrange_card import ArrangeCard
from composer.desktop.arrangements.ghosts import Ghosts
from composer.desktop.arrangements.search import SketchSearch
from composer.desktop.arrangements.sketch_cell import ASPECT, SMALL, SketchCell
from composer.desktop.arrangements.sketch_places import cell_of, hang_so, places_in
from composer.desktop.arrangements.small_wall import region_of
from composer.desktop.arrangements.strip import SketchStrip
from composer.desktop.arrangements.wishes import Wishes
from composer.desktop.cards.session import try_apply
from composer.desktop.theme import theme
from composer.editing.arranging_edits import adopt
from composer.geometry.rectangle import Rectangle
from composer.model import Key
from composer.texts import say, say_many

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow

MOST, MOST_VARIATIONS = 12, 6
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


class Sketching(QObject):
    """Open while somebody looks for an arrangement.

    Signals:
        closed: the strip has gone.
    """

    closed = Signal()

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window, self._opened = window, window.opened
        self.wishes = self._new_wishes()
        self.seed = 0
        self._asked: Task | None = None
        self._refused: dict[str, str] = {}
        self._current: SketchCell | None = None
        self._open = False
        self.search = SketchSearch(self)
        self.search.progressed.connect(self._on_progress)
        self.search.sketched.connect(self._on_sketch)
        self.search.refused.connect(self._on_refused)
        self.search.ended.connect(self._on_end)
        self.ghosts = Ghosts(window.view, self)
        self.strip = SketchStrip()
        centre = window.centralWidget()
        middle = None if centre is None else centre.layout()
        assert isinstance(middle, QVBoxLayout)
        middle.insertWidget(middle.indexOf(window.findings), self.strip)
        self.strip.hide()
        self.strip.pointed.connect(self.preview)
        self.strip.taken.connect(self.take)
        self.strip.vary_wanted.connect(self.vary)
        self.strip.again_wanted.connect(self.look_again)
        self.strip.stop_wanted.connect(self.search.cancel)
        self.strip.close_wanted.connect(self.close)
        self._opened.project_changed.connect(self._on_project)
        window.selection.changed.connect(self._show_card)
        window.view.moved.connect(self._on_moved)
        window.pictures.ready.connect(self.strip.update_pictures)
        theme().changed.connect(self.strip.on_theme)

    def _new_wishes(self) -> Wishes:
        window = self._window
        return Wishes(self._opened, window.selection, window.room.wall_key, self._on_wish, self.look)

    @property
    def wall(self) -> Key:
        """Which wall is arranged."""
        return self.wishes.wall

    # Opening and closing ---------------------------------------------------------------------------

    @property
    def is_open(self) -> bool:
        """Whether sketches are shown."""
        return self._open

    @property
    def card(self) -> ArrangeCard | None:
        """The card beside the strip."""
        card = self._window.card.card
        return card if isinstance(card, ArrangeCard) else None

    def open(self) -> None:
        """Shows the strip and begins to look; in an open one, looks again."""
        if self.is_open:
            self.look_again()
            return
        self._open = True
        self.wishes, self.seed = self._new_wishes(), 0
        self._window.findings.set_open(is_open=False)
        self._window.card.stand_in(self._make_card)
        self.strip.show()
        self.strip.setFocus()
        self.look()

    def close(self) -> None:
        """The window as it was; the search ends."""
        if not self.is_open:
            return
        self._open = False
        self.search.cancel()
        self.strip.hide()
        self.preview(None)
        self.strip.clear()
        self._window.card.stand_in(None)
        self._window.view.setFocus()
        self._window.say_hint("")
        self.closed.emit()

    def stop(self) -> None:
        """The window closes: no process is left."""
        self.ghosts.end()
        self.search.stop()

    def _make_card(self) -> ArrangeCard:
        wall = self._opened.project.wall_by_key[self.wall]
        task = self.task()
        card = ArrangeCard(task, imperial=self._opened.project.units == "imperial", wall_mm=task.room.bounds.width)
        card.gap_wanted.connect(self.wishes.gap)
        card.width_wanted.connect(self.wishes.width)
        card.above_wanted.connect(self.wishes.above)
        card.free_wanted.connect(self.wishes.as_usual)
        card.only_wanted.connect(self.wishes.only_selected)
        card.keep_wanted.connect(self.wishes.keep)
        card.rested.connect(self.look)
        card.setAccessibleName(say("Arrange {wall}", wall=wall.name))
        self._fill(card)
        return card

    # Looking ---------------------------------------------------------------------------------------

    def task(self) -> Task:
        """What is asked now, of the project as it is."""
        return self.wishes.task()

    def look(self) -> None:
        """Looks for sketches of what is asked now."""
        if not self.is_open:
            return
        self._current = None
        self.ghosts.end()
        self.strip.clear()
        self._refused = {}
        self._asked = task = self.task()
        self._show_card()
        if not task.sizes:
            self._settle(say("There is nothing to arrange: every piece of this wall stays where it is."))
            return
        self.search.ask(task, "sketches", seed=self.seed, most=MOST)
        self._searching()

    def look_again(self) -> None:
        """Others, with the next seed."""
        if self._asked is not None and self._asked.fingerprint == self.task().fingerprint and self.strip.cells:
            self.seed += 1
        self.look()

    def vary(self, cell: SketchCell) -> None:
        """Others of the outline of a sketch, which stays as A."""
        task = self.task()
        if self._asked is None or self._asked.fingerprint != task.fingerprint:
            self.look()
            return
        liked = cell.sketch
        self.look_at_one(liked, task)
        self.search.ask(task, "variations", like=(liked.found,), seed=self.seed, most=MOST_VARIATIONS)
        self._searching()
        self.seed += 1

    def look_at_one(self, sketch: Sketch, task: Task) -> None:
        """Only this sketch, as A."""
        self.ghosts.end()
        self.strip.clear()
        self._current, self._asked = None, task
        self.strip.setFocus()
        self._add(sketch)

    def _searching(self) -> None:
        self.strip.progress.show_share(0.0)
        self.strip.stop.show()
        self.strip.again.hide()
        self.strip.words.setText(say("Looking …"))
        self.strip.show_empty(say("Looking for arrangements …"))

    def _settle(self, nothing: str = "") -> None:
        self.strip.progress.show_share(None)
        self.strip.stop.hide()
        self.strip.again.show()
        self._show_words()
        self.strip.show_empty(nothing or say("Nothing was found."))

    def _show_words(self) -> None:
        count, cell = len(self.strip.cells), self._current
        if cell is not None and self.ghosts.shown and self.ghosts.note.isHidden():
            words = say("Preview of {letter}: a click hangs it so, Esc leaves everything.", letter=cell.letter)
        elif self.search.searching:
            words = say("Looking …")
        else:
            words = say_many("{count} arrangement, to scale.", "{count} that differ, all at one scale.", count)
        self.strip.words.setText(words if count or self.search.searching else "")

    def _on_progress(self, share: float) -> None:
        self.strip.progress.show_share(share)

    def _on_sketch(self, sketch: Sketch, mark: str) -> None:
        # What was found for another wall, other sizes or another gap is not shown at all.
        if self.is_open and self._asked is not None and mark == self._asked.fingerprint:
            self._add(sketch)

    def _on_refused(self, answer: NotOffered) -> None:
        self._refused[answer.pattern] = answer.reason
        self._show_card()

    def _on_end(self, how: str, reason: str) -> None:
        if self.is_open:
            self._settle(reason if how == "impossible" else say("Stopped.") if how == "cancelled" else "")
            self._show_card()

    def _add(self, sketch: Sketch) -> None:
        assert self._asked is not None
        letter = LETTERS[len(self.strip.cells) % len(LETTERS)]
        self.strip.add(
            cell_of(letter, sketch, self._asked, self._opened.project, self.wall, self._window.room.picture_of)
        )
        boxes = [drawn.box for one in self.strip.cells for drawn in one.pieces]
        self.strip.show_region(region_of(boxes, self._asked.furniture, ASPECT / (SMALL if self.strip.is_small else 1)))
        self._mark_hanging()
        self._show_card()

    # Previewing and taking -------------------------------------------------------------------------

    def _places(self, cell: SketchCell) -> dict[Key, Rectangle]:
        assert self._asked is not None
        return places_in(cell.sketch, self._asked, self._opened.project)

    def preview(self, cell: SketchCell | None) -> None:
        """Shows a sketch on the wall; None = the wall as it is."""
        if cell is self._current and (cell is None or self.ghosts.shown):
            return
        if cell is not None and (not self.is_open or cell not in self.strip.cells):
            return
        for one in self.strip.cells:
            one.set_current(current=one is cell)
        self._current = cell
        if cell is None or self._window.room.wall_key != self.wall:
            self.ghosts.end()
            self._show_words()
            return
        assert self._asked is not None
        title = say("Preview of {letter}", letter=cell.letter)
        words = say("Dashed: where the pieces are now. Click to hang it so. Esc leaves everything as it is.")
        self.ghosts.show(self._places(cell), title, words, self._asked.style)
        self._show_words()

    def take(self, cell: SketchCell) -> None:
        """Hangs the pieces as in a sketch, as one step of undo, if it still fits the project."""
        task = self.task()
        if self._asked is None or task.fingerprint != self._asked.fingerprint:
            self._stale()
            return
        self.ghosts.end()
        refusal = try_apply(self._opened, adopt(self._opened.project, self.wall, task, cell.sketch.found))
        if refusal:
            self._window.say_hint(refusal)
            return
        self._mark_hanging()
        words = say("Hung as sketch {letter}. Undo puts everything back.", letter=cell.letter)
        self._window.say_hint(words)
        self._window.view.said.emit(words)

    def _stale(self) -> None:
        self.ghosts.end()
        self.strip.clear()
        self._current = None
        self.search.cancel()
        self._settle(say("The wall or its pieces have changed: these sketches no longer fit. Look again."))

    def _mark_hanging(self) -> None:
        for cell in self.strip.cells:
            cell.set_hangs(hangs=hang_so(self._places(cell), self._opened.project, self.wall))

    # What changes meanwhile ------------------------------------------------------------------------

    def _on_wish(self) -> None:
        """A slider moves: what was found is of the wish before; others are looked for once it rests."""
        self._on_project()

    def _on_project(self, *_: object) -> None:
        if not self.is_open:
            return
        if self.wall not in self._opened.project.wall_by_key:
            self.close()
            return
        self.ghosts.end()
        if self._asked is None or self.task().fingerprint != self._asked.fingerprint:
            self._stale()
        else:
            self._mark_hanging()
        self._show_card()

    def _on_moved(self) -> None:
        if self.is_open and self._window.room.wall_key != self.wall:
            self.close()

    def _show_card(self) -> None:
        card = self.card
        if card is not None and self.is_open:
            self._fill(card)

    def _fill(self, card: ArrangeCard) -> None:
        project = self._opened.project
        task = self._asked or self.task()
        now = self.task()
        chosen = self.wishes.choosable()
        card.show_pieces(
            len(now.sizes),
            tuple(one.number for one in now.still),
            selected=bool(self.wishes.selected() - self.wishes.kept),
            choosable=bool(chosen) and chosen != self.wishes.only,
        )
        card.show_kept(kept=bool(self.wishes.kept) or self.wishes.only is not None)
        card.show_note(self.wishes.note)
        found = WIDTH_MOST * now.furniture.width if now.furniture is not None else now.room.bounds.width / 2
        card.show_wishes(float(project.arrangement.gap.mm), self.wishes.width_mm, self.wishes.above_mm, found)
        shown: dict[str, int] = {}
        if task.fingerprint == now.fingerprint:
            for cell in self.strip.cells:
                shown[cell.sketch.found.pattern] = shown.get(cell.sketch.found.pattern, 0) + 1
        card.show_patterns(shown, self._refused)
