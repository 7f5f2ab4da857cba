"""The right-hand side: the card of what is selected. Its contents are built when first needed."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.desktop.field_row import Words
from composer.desktop.open_project import Change, OpenProject
from composer.desktop.room.scene import RoomScene
from composer.desktop.selection import Selection
from composer.desktop.units_shown import style_of
from composer.model import Key, Project
from composer.texts import say, say_many
from composer.units import show_length


class CardPanel(QWidget):
    """Shows a piece's card for one piece, a summary for several, the wall for none."""

    def __init__(
        self, opened: OpenProject, selection: Selection, room: RoomScene, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self._selection, self._room = opened, selection, room
        self._card: QWidget | None = None
        self._key: Key | None = None
        self._summary = QWidget()
        column = QVBoxLayout(self._summary)
        column.setContentsMargins(16, 12, 12, 12)
        column.setSpacing(6)
        self._title, self._text = Words("", 18, semibold=True), Words("", 14)
        self._note = Words("", 12, "pencil")
        for words in (self._title, self._text, self._note):
            column.addWidget(words)
        column.addStretch()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addWidget(self._summary)
        self.setMinimumWidth(260)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self.show_selected)
        selection.changed.connect(self._timer.start)
        self._timer.start()

    def on_change(self, before: Project, after: Project, change: Change) -> None:
        """A card follows by itself; the summary is written again, and a card without its piece goes."""
        if self._key is None or self._key not in after.piece_by_key:
            self._timer.start()

    def show_selected(self) -> None:
        """Shows the card of what is selected."""
        pieces = [key for key in self._selection.pieces if key in self._opened.project.piece_by_key]
        wanted = pieces[0] if len(pieces) == 1 else None
        if wanted != self._key or (wanted is not None and self._card is None):
            self._drop()
            if wanted is not None:
                from composer.desktop.cards.piece_card import PieceCard

                self._card = PieceCard(self._opened, wanted)
                self._column.addWidget(self._card)
            self._key = wanted
        self._summary.setVisible(wanted is None)
        if wanted is None:
            self._summarise(len(pieces))

    def _drop(self) -> None:
        card, self._card = self._card, None
        if card is not None:
            self._opened.project_changed.disconnect(card)
            self._column.removeWidget(card)
            card.hide()
            card.deleteLater()

    def _summarise(self, count: int) -> None:
        project, wall = self._opened.shown, self._room.wall
        if wall is None:
            return
        style = style_of(project)
        if count > 1:
            self._title.setText(say_many("{count} piece selected", "{count} pieces selected", count))
            box = self._room.selection_box()
            if box is not None:
                self._text.setText(
                    say(
                        "Together {width} × {height}.",
                        width=show_length(box.width, style),
                        height=show_length(box.height, style),
                    )
                )
            self._note.setText(say("Align, space out and swap are in the menu Piece."))
            return
        hung = len(project.hung_on(wall.key))
        self._title.setText(wall.name)
        self._text.setText(
            say(
                "{width} × {height}", width=show_length(wall.width.mm, style), height=show_length(wall.height.mm, style)
            )
        )
        eye = show_length(project.eye_line(wall).mm, style)
        gap = show_length(project.arrangement.gap.mm, style)
        hanging = say_many("{count} piece hangs here.", "{count} pieces hang here.", hung)
        self._note.setText(say("{hanging} Eye line {eye}, gap {gap}.", hanging=hanging, eye=eye, gap=gap))
