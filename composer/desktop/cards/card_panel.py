"""The place at the right where the card of what is selected stands."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QPaintEvent, QPixmap
from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.desktop.cards.session import Session
from composer.desktop.selection import Selection
from composer.desktop.theme import theme
from composer.model import Key, Picture
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.cards.card import Card


class CardPanel(QWidget):
    """Shows the piece card for one piece, the group card for several, else the wall card.

    A card is made once the panel has been painted: loading its fields would delay the window's first picture.

    Signals:
        drafted: size in mm of the frame being typed, or None, for its outline on the floor.
        wanted: name of an action that a link of the card stands for.
        pointed: key of the obstacle whose fields have focus, or empty.
        sample_wanted, open_wanted: links of the card beside a new wall's questions.
    """

    drafted = Signal(object)
    sample_wanted = Signal()
    open_wanted = Signal()
    wanted = Signal(str)
    pointed = Signal(str)

    def __init__(
        self, session: Session, selection: Selection, wall: Callable[[], Key], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._session, self._selection, self._wall = session, selection, wall
        self._adding = False
        self._wall_first = False
        self._asking = False
        self._instead: Callable[[], Card] | None = None
        self._started = False
        self._shown: tuple[object, ...] = ()
        self._open: str | None = None
        self.card: Card | None = None
        self.file_state: Callable[[Picture], str] = _all_well
        """Says what became of a picture's file."""
        self.picture_of: Callable[[Key], QPixmap | None] = _no_picture
        """Gives what shows of a piece's picture."""
        self.setAccessibleName(say("Card"))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        selection.changed.connect(self._on_selected)
        session.project_changed.connect(self._on_changed)
        theme().changed.connect(self.rebuild)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Painted for the first time: now a card is made."""
        super().paintEvent(event)
        if not self._started:
            QTimer.singleShot(0, self, self._start)

    def _start(self) -> None:
        if not self._started:
            self._started = True
            self.refresh()

    def ask_for_frame(self) -> None:
        """Shows the form of a new frame until one is added or something is selected."""
        from composer.desktop.cards.first_frame import FirstFrame

        self._adding = True
        self._started = True
        self.refresh()
        if isinstance(self.card, FirstFrame):
            self.card.width_field.setFocus()

    def ask_for_wall(self, asking: bool) -> None:
        """Shows what helps to answer the questions on a new wall, as long as they are asked."""
        if asking != self._asking:
            self._asking, self._wall_first = asking, False
            self.refresh()

    def stand_in(self, make: Callable[[], Card] | None) -> None:
        """Shows another card, whatever is selected, until told None; made anew in another scheme."""
        self._instead = make
        self._adding = False
        self._started = True
        self.rebuild()

    def on_finding(self, _keys: object, section: str) -> None:
        """A finding was clicked, its pieces are selected: the section that mends it opens."""
        if section:
            self.open_section(section)

    def open_section(self, name: str) -> None:
        """Opens a section of the card shown, such as ``hanging``."""
        from composer.desktop.cards.piece_card import PieceCard

        if isinstance(self.card, PieceCard) and name in self.card.sections:
            self.card.open_only(name)

    def show_again(self, *_: object) -> None:
        """The card shown reads what lies beside the project again, such as the state of a file."""
        from composer.desktop.cards.piece_card import PieceCard

        if isinstance(self.card, PieceCard):
            self.card.refresh()

    def rebuild(self) -> None:
        """Makes the card anew, in another scheme, text size or unit."""
        self._shown = ()
        self.refresh()

    def _on_selected(self) -> None:
        if self._selection.keys:
            self._adding = False
        self.refresh()

    def _on_changed(self, before: object, after: object, _change: object) -> None:
        if getattr(before, "units", None) != getattr(after, "units", None):
            self._shown = ()
        self.refresh()

    def refresh(self) -> None:
        """The card that fits the selection; the one shown stays when it still fits."""
        if not self._started:
            return
        from composer.desktop.cards.piece_card import PieceCard

        project = self._session.project
        pieces = tuple(key for key in self._selection.pieces if key in project.piece_by_key)
        wall = self._wall() if self._wall() in project.wall_by_key else project.walls[0].key
        wanted: tuple[object, ...]
        if self._instead is not None and not self._adding:
            wanted = ("instead",)
        elif self._asking and not self._adding:
            wanted = ("new",)
        elif self._adding or not (project.pieces or self._selection.keys or self._wall_first):
            wanted = ("frame",)
        elif len(pieces) > 1:
            wanted = ("group", *pieces)
        elif pieces:
            wanted = ("piece", *pieces)
        else:
            wanted = ("wall", wall)
        if wanted == self._shown:
            return
        self._shown = wanted
        if isinstance(self.card, PieceCard):
            self._open = next((name for name, section in self.card.sections.items() if section.is_open), None)
        self._replace(self._made(wanted, pieces, wall))

    def _made(self, wanted: tuple[object, ...], pieces: tuple[Key, ...], wall: Key) -> Card:
        if wanted[0] == "instead" and self._instead is not None:
            return self._instead()
        if wanted[0] == "frame":
            from composer.desktop.cards.first_frame import FirstFrame

            form = FirstFrame(self._session)
            form.drafted.connect(self.drafted)
            form.added.connect(self._on_added)
            form.wall_wanted.connect(self._on_wall_wanted)
            return form
        if wanted[0] == "new":
            from composer.desktop.cards.new_wall import NewWall

            beside = NewWall(self._session)
            beside.sample_wanted.connect(self.sample_wanted)
            beside.open_wanted.connect(self.open_wanted)
            return beside
        if wanted[0] == "group":
            from composer.desktop.cards.group_card import GroupCard

            return GroupCard(self._session, pieces)
        if wanted[0] == "piece":
            from composer.desktop.cards.piece_card import PieceCard

            card = PieceCard(self._session, pieces[0], self.file_state, self.picture_of)
            card.wanted.connect(self.wanted)
            if self._open:
                card.open_only(self._open)
            return card
        from composer.desktop.cards.wall_card import WallCard

        made = WallCard(self._session, wall)
        made.pointed.connect(self.pointed)
        made.wanted.connect(self.wanted)
        return made

    def _on_wall_wanted(self) -> None:
        self._adding, self._wall_first = False, True
        self.refresh()

    def _replace(self, card: Card) -> None:
        layout = self.layout()
        assert layout is not None
        if self.card is not None:
            layout.removeWidget(self.card)
            self.card.hide()
            self.card.deleteLater()
            self.drafted.emit(None)
        self.card = card
        layout.addWidget(card)

    def _on_added(self, key: Key) -> None:
        if not key:
            self._adding = True
            return
        self._adding = False
        self._selection.set([key])
        self.refresh()


def _all_well(_: Picture) -> str:
    return ""


def _no_picture(_: Key) -> QPixmap | None:
    return None
