"""What became of the file of the picture shown, and what can be done about it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_row import LinkButton, Words
from composer.editing.print_edits import link_found
from composer.model import Picture
from composer.texts import say


class FileState(QWidget):
    """Part of the picture section; hidden while all is well."""

    def __init__(self, session: Session, wanted: Callable[[str], None], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._picture: Picture | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(2))
        self.words = Words("", 12, "warn")
        column.addWidget(self.words)
        self.take = LinkButton(say("Take the picture as it is now"))
        self.take.clicked.connect(self._on_take)
        column.addWidget(self.take)
        self.look_for = LinkButton(say("Find moved pictures in a folder"))
        self.look_for.clicked.connect(lambda _=False: wanted("find_pictures"))
        column.addWidget(self.look_for)
        self.hide()

    def show_state(self, picture: Picture | None, state: str) -> None:
        """Shows a picture's state; empty = all is well."""
        self._picture = picture
        self.setVisible(bool(state))
        self.take.setVisible(state == "changed")
        if state == "missing":
            self.words.setText(say("The file is not where the project says."))
        elif state == "changed":
            self.words.setText(say("The file holds another picture than when it was linked."))
        else:
            self.words.setText(state)

    def _on_take(self, _: bool = False) -> None:
        if self._picture is None:
            return
        folder = self._session.folder
        refusal = try_apply(self._session, link_found({self._picture.key: folder / self._picture.path}, folder))
        if refusal:
            self.words.setText(refusal)
