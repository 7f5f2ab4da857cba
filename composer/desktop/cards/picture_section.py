"""The picture a piece shows: which of the project's, where its file lies, what may be done with it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QVBoxLayout

from composer.desktop.cards.bound import add_row
from composer.desktop.cards.choice_rows import ChoiceRows, Offered
from composer.desktop.cards.file_state import FileState
from composer.desktop.cards.piece_section import PieceSection
from composer.desktop.cards.print_fields import PrintFields, print_words
from composer.desktop.cards.session import Session, merge_key, try_apply
from composer.desktop.field_kinds import ChoiceField, TextField
from composer.desktop.field_row import FieldRow, LinkButton, Words
from composer.editing.edits import Edit
from composer.editing.picture_edits import change_picture, show_picture
from composer.editing.print_edits import label_use
from composer.model import Key, Picture, PictureUse, Project
from composer.texts import say


class PictureSection(PieceSection):
    """Which picture the frame shows; a frame may have several, and shows one.

    Args:
        wanted: asks for an action by its name.
        file_state: says what became of a picture's file.
        picture_of: gives what shows of a piece's picture.
    """

    def __init__(
        self,
        session: Session,
        key: Key,
        wanted: Callable[[str], None],
        file_state: Callable[[Picture], str] | None = None,
        picture_of: Callable[[Key], QPixmap | None] | None = None,
    ) -> None:
        super().__init__(session, key)
        self._wanted, self._file_state = wanted, file_state
        self._picture_of = picture_of or _no_picture

    def build(self, column: QVBoxLayout) -> None:
        """The choice, and the facts of the one chosen."""
        self._shows = ChoiceField(say("Shows"), [])
        self._bindings.bind(
            self._shows,
            self._shown_key,
            lambda value, _: show_picture(self._session.project, self._key, value),
        )
        add_row(column, (say("Shows"), self._shows))
        self.facts = Words("", 12, "pencil")
        column.addWidget(self.facts)
        self.seasons = ChoiceRows(say("Pictures of this frame"))
        self.seasons.taken.connect(self._on_season)
        column.addWidget(self.seasons)
        self.place = LinkButton(say("Place it in its frame"))
        self.place.clicked.connect(lambda _=False: self._wanted("crop"))
        column.addWidget(self.place)
        self.file = FileState(self._session, self._wanted)
        column.addWidget(self.file)
        self._hint = Words(say("Drop a picture file on the piece, or link files by File, Add Pictures."), 12, "pencil")
        column.addWidget(self._hint)
        self._print = PrintFields(self._session, self._key, self._wanted, self._picture_of)
        column.addWidget(self._print)
        label = TextField(say("What for"))
        label.set_placeholder(say("such as summer"))
        path = TextField(say("File"), needed=True)
        self._rows: list[FieldRow] = [
            add_row(column, self._bind_use(label, "label"), self._bind_picture(path, "path")),
            add_row(
                column,
                self._bind_picture(TextField(say("Source")), "source"),
                self._bind_picture(TextField(say("Licence")), "licence"),
            ),
        ]
        self.refresh()

    def _kept(self) -> list[Offered]:
        """The pictures this frame keeps, of which one shows now; nothing where there is only one."""
        uses, pictures = self._piece.uses, self._session.project.picture_by_key
        if len(uses) < 2:
            return []
        rows = []
        for place, use in enumerate(uses, start=1):
            file = pictures[use.picture].path.rsplit("/", 1)[-1]
            note = say("{place} of {count}", place=place, count=len(uses))
            if use.label:
                note = say("{note}: {file}", note=note, file=file)
            rows.append(Offered(use.picture, use.label or file, note))
        return rows

    def _on_season(self, picture: str) -> None:
        try_apply(self._session, show_picture(self._session.project, self._key, picture))

    def _use(self) -> PictureUse | None:
        piece = self._piece
        return None if piece.current_use is None else piece.uses[piece.current_use]

    def _shown_key(self) -> Key | None:
        use = self._use()
        return None if use is None else use.picture

    def _picture(self) -> Picture | None:
        use = self._use()
        return None if use is None else self._session.project.picture_by_key[use.picture]

    def _bind_use(self, field: TextField, name: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            return label_use(self._session.project, self._key, self._piece.current_use or 0, str(value or ""))

        self._bindings.bind(field, lambda: getattr(self._use(), name, ""), make)
        return field.accessibleName(), field

    def _bind_picture(self, field: TextField, name: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            picture = self._shown_key() or ""
            key = merge_key(f"picture-{name}", picture, gesture)
            folder = self._session.folder
            return change_picture(self._session.project, picture, folder, key, **{name: value})

        self._bindings.bind(field, lambda: getattr(self._picture(), name, ""), make)
        return field.accessibleName(), field

    def refresh(self) -> None:
        """The project's pictures as they are now; those of this piece by what they are for."""
        if not hasattr(self, "_rows") or self._key not in self._session.project.piece_by_key:
            return
        labels = {use.picture: use.label for use in self._piece.uses}
        choices: list[tuple[Any, str]] = [(None, say("no picture"))]
        for other in self._session.project.pictures:
            name = other.path.rsplit("/", 1)[-1]
            label = labels.get(other.key)
            choices.append((other.key, say("{label}: {file}", label=label, file=name) if label else name))
        self._shows.set_choices(choices)
        super().refresh()
        self.seasons.show_offers(self._kept(), self._shown_key())
        picture = self._picture()
        self.facts.setText("" if picture is None else _facts(picture))
        self.facts.setVisible(bool(self.facts.text()))
        for part in (*self._rows, self.place):
            part.setVisible(picture is not None)
        self._hint.setVisible(picture is None)
        self.file.show_state(picture, "" if picture is None or self._file_state is None else self._file_state(picture))
        self._print.refresh()


def _facts(picture: Picture) -> str:
    """How many pixels it has, and whose it is."""
    if picture.pixels is None:
        return picture.source
    words = say("{width} × {height} pixels", width=picture.pixels[0], height=picture.pixels[1])
    return say("{pixels}, {source}", pixels=words, source=picture.source) if picture.source else words


def _no_picture(_: Key) -> QPixmap | None:
    return None


def picture_sentence(project: Project, key: Key) -> str:
    """The picture in one sentence."""
    piece = project.piece_by_key[key]
    if piece.current_use is None:
        return say("No picture chosen yet.")
    if words := print_words(project, key):
        return words
    picture = project.picture_by_key[piece.uses[piece.current_use].picture]
    name = picture.path.rsplit("/", 1)[-1]
    if picture.pixels is None:
        return say("{file}.", file=name)
    return say("{file}, {width} × {height} pixels.", file=name, width=picture.pixels[0], height=picture.pixels[1])
