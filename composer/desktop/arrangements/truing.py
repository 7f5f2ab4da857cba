"""Truing up in one main window: the card, arrows of what would move, and one piece alone after it was dropped."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPointF, QTimer

from composer.arranging.true_up import TruedUp, reach_of
from composer.desktop.arrangements.arrows import LEAST_MM, Arrows
from composer.desktop.arrangements.true_up_card import TrueUpCard
from composer.desktop.cards.session import try_apply
from composer.desktop.room.coordinates import to_scene
from composer.desktop.units_shown import number
from composer.editing.arranging_edits import accept_true_up, truing_up
from composer.editing.edits import EditRefused
from composer.editing.relations import places_of
from composer.model import Key, Project
from composer.texts import say
from composer.units import Mm, show_length

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow
    from composer.desktop.open_project import Change

USUAL_STRENGTH = 0.5
SETTLE_MS = 30
ROOM_PX = 70
"""Left around the group for arrows and their figures."""
WORTH_IT = 1.15
"""For less than this the room stays as it is."""


class Truing(QObject):
    """Open while moves are shown and not yet accepted."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window, self._opened = window, window.opened
        self.strength = USUAL_STRENGTH
        self._only_selected = False
        self._open = self._came_near = self._far = self._card_was_shut = False
        self.answer: TruedUp | None = None
        self.arrows = Arrows(window.room)
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(SETTLE_MS)
        self._soon.timeout.connect(self.refresh)
        self._opened.project_changed.connect(self._on_project)
        window.view.moved.connect(self._on_moved)
        window.selection.changed.connect(self._on_selection)

    @property
    def is_open(self) -> bool:
        """Whether moves are shown."""
        return self._open

    @property
    def card(self) -> TrueUpCard | None:
        """The card, while open."""
        card = self._window.card.card
        return card if isinstance(card, TrueUpCard) else None

    def open(self) -> None:
        """Shows what truing up the wall would move."""
        self._open, self._only_selected = True, False
        self._wall = self._window.room.wall_key
        self._window.say_hint("")
        self._window.card.stand_in(self._make_card)
        self._card_was_shut = self._window.card.isHidden()
        self._window.widths.open_card()
        self._far = True
        if self.card is not None:
            self.card.strength.ruler.setFocus()

    def _make_card(self) -> TrueUpCard:
        card = TrueUpCard(self.strength, some=bool(self._selected()))
        card.scope.set_value(self._only_selected)
        card.strength_wanted.connect(self._on_strength)
        card.scope_wanted.connect(self._on_scope)
        card.accepted.connect(self.accept)
        card.left.connect(self.close)
        self._soon.start(0)
        return card

    def close(self) -> None:
        """The wall as it is."""
        if not self._open:
            return
        self._open = False
        self._soon.stop()
        self.answer = None
        self.arrows.end()
        self._window.card.stand_in(None)
        if self._card_was_shut and self._window.widths.card_is_over and self._window.card.isVisible():
            self._window.widths.show_card()  # which shuts it
        self._window.view.setFocus()
        if self._came_near:
            self._came_near = False
            self._window.view.fit()

    def _come_near(self) -> None:
        """The group as large as the room shows it, so that arrows of neighbours stand apart; the wall is fitted later."""
        view, room = self._window.view, self._window.room
        placed = self._opened.project.placement_by_piece
        box = room.box_in_scene([key for key, at in placed.items() if at.wall == self._wall])
        if box.isEmpty() or not view.is_fitted:
            return
        port, card = view.viewport(), self._window.card
        covered = card.width() if self._window.widths.card_is_over and card.isVisible() else 0
        across = port.width() - covered - 2 * ROOM_PX
        scale = min(across / box.width(), (port.height() - 2 * ROOM_PX) / box.height())
        if scale > view.px_per_mm * WORTH_IT:
            self._came_near = True
            view.zoom_to(scale)
            view.centerOn(box.center() + QPointF(covered / 2 / scale, 0))
            view.moved.emit()

    def accept(self) -> None:
        """The moves shown, as one step of undo."""
        if self.answer is None or not self.answer.moves:
            return
        edit = accept_true_up(self._opened.project, self._wall, self.answer)
        self.close()
        self._window.say_hint(try_apply(self._opened, edit) or say("Trued up. Undo puts everything back."))

    # What would move -------------------------------------------------------------------------------

    def _selected(self) -> list[Key]:
        placed = self._opened.project.placement_by_piece
        wall = self._window.room.wall_key
        return [key for key in self._window.selection.pieces if key in placed and placed[key].wall == wall]

    def _on_strength(self, strength: float) -> None:
        self.strength = strength
        self._soon.start()

    def _on_scope(self, selected: bool) -> None:
        self._only_selected = selected
        self._soon.start()

    def refresh(self) -> None:
        """Works the moves out anew and shows them."""
        card, project = self.card, self._opened.project
        if card is None or not self._open:
            return
        if self._far:
            # Not before the room has the size it will have: the strip of sketches may just have closed.
            self._far = False
            self._come_near()
        only = self._selected() if self._only_selected else None
        refusal = ""
        try:
            self.answer = truing_up(project, self._wall, strength=self.strength, only=only)
        except EditRefused as refused:
            self.answer, refusal = None, str(refused)
        style, known = project.length_style, project.piece_by_number
        moves = () if self.answer is None else self.answer.moves
        places = places_of(project, project.arrangement)
        self.arrows.show(
            (
                to_scene(*places[known[move.number].key][1].centre),
                move.dx,
                move.dy,
                number(abs(move.dx), style),
                number(abs(move.dy), style),
            )
            for move in moves
        )
        card.show_answer(
            show_length(Mm(reach_of(self.strength).reach), style),
            [_sentence(project, known[move.number].key, move.dx, move.dy) for move in moves],
            refusal,
        )

    def _on_project(self, *_: object) -> None:
        if self._open:
            if self._wall not in self._opened.project.wall_by_key:
                self.close()
            else:
                self._soon.start()

    def _on_selection(self) -> None:
        if self._open and self._only_selected:
            self._soon.start()

    def _on_moved(self) -> None:
        if self._open and self._window.room.wall_key != self._wall:
            self.close()

    # One piece alone -------------------------------------------------------------------------------

    def only_selected(self) -> None:
        """The selected pieces alone, at once and as one step; everything else stays."""
        keys, wall, project = self._selected(), self._window.room.wall_key, self._opened.project
        try:
            answer = truing_up(project, wall, strength=self.strength, only=keys)
        except EditRefused as refused:
            self._window.say_hint(str(refused))
            return
        if not answer.moves:
            self._window.say_hint(say("It is true already, or too far off: nothing has moved."))
            return
        refusal = try_apply(self._opened, accept_true_up(project, wall, answer))
        known = self._opened.project.piece_by_number
        words = [_sentence(self._opened.project, known[one.number].key, one.dx, one.dy) for one in answer.moves]
        self._window.say_hint(refusal or say("Trued up: {moves}", moves="; ".join(words)))

    def offer_after_drop(self, before: Project, after: Project, change: Change) -> str:
        """What truing up the one piece that was just dropped would do, as a sentence; empty = nothing."""
        moved = change.placements.keys
        if len(moved) != 1 or before is None or change.pieces.keys or change.arrangement:
            return ""
        (key,) = moved
        placed = after.placement_by_piece.get(key)
        if placed is None or placed.locked or placed.wall != self._window.room.wall_key:
            return ""
        try:
            answer = truing_up(after, placed.wall, strength=self.strength, only=[key])
        except EditRefused:
            return ""
        return _sentence(after, key, answer.moves[0].dx, answer.moves[0].dy) if answer.moves else ""


def _sentence(project: Project, key: Key, dx: float, dy: float) -> str:
    piece, style = project.piece_by_key[key], project.length_style
    across, up = show_length(Mm(abs(dx)), style), show_length(Mm(abs(dy)), style)
    ways = {
        (1, 0): say("{number} {name}: {across} right", number=piece.number, name=piece.name, across=across),
        (-1, 0): say("{number} {name}: {across} left", number=piece.number, name=piece.name, across=across),
        (0, 1): say("{number} {name}: {up} up", number=piece.number, name=piece.name, up=up),
        (0, -1): say("{number} {name}: {up} down", number=piece.number, name=piece.name, up=up),
        (1, 1): say("{number} {name}: {across} right, {up} up", number=piece.number, name=piece.name, across=across, up=up),
        (1, -1): say("{number} {name}: {across} right, {up} down", number=piece.number, name=piece.name, across=across, up=up),
        (-1, 1): say("{number} {name}: {across} left, {up} up", number=piece.number, name=piece.name, across=across, up=up),
        (-1, -1): say("{number} {name}: {across} left, {up} down", number=piece.number, name=piece.name, across=across, up=up),
    }  # fmt: skip
    return ways.get((_sign(dx), _sign(dy)), "")


def _sign(mm: float) -> int:
    return 0 if abs(mm) < LEAST_MM else 1 if mm > 0 else -1
