"""A bar above the room for what concerns the file: read-only, changed on disk, a copy left behind."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_row import LinkButton, Words
from composer.texts import say

Do = Callable[[], object]


class NoticeBar(QWidget):
    """Notices one below the other, each with what can be done about it; empty, it takes no room."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._notices: dict[str, QWidget] = {}
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self.hide()

    def show_notice(
        self, about: str, sentence: str, answers: Sequence[tuple[str, Do]] = (), *, can_close: bool = True
    ) -> None:
        """Shows a notice; an earlier one about the same thing goes.

        Args:
            about: what it is about, such as ``disk``.
            sentence: for the person.
            answers: words of a link, and what it does; each takes the notice away first.
            can_close: it may be taken away without an answer.
        """
        self.drop(about)
        notice = _Notice(sentence)
        for words, do in answers:
            notice.add(words, partial(self._answer, about, do))
        if can_close:
            notice.add(say("Close"), partial(self.drop, about))
        self._notices[about] = notice
        self._column.addWidget(notice)
        self.show()
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, sentence))

    def reword(self, about: str, sentence: str) -> None:
        """Other words on a notice that is shown, such as how far something is; not announced again."""
        notice = self._notices.get(about)
        if isinstance(notice, _Notice):
            notice.words.setText(sentence)

    def sentence(self, about: str) -> str:
        """What is said about a thing now; empty when nothing is."""
        notice = self._notices.get(about)
        return notice.words.text() if isinstance(notice, _Notice) else ""

    def links(self, about: str) -> list[LinkButton]:
        """The answers offered about a thing."""
        notice = self._notices.get(about)
        return notice.links if isinstance(notice, _Notice) else []

    def drop(self, about: str) -> None:
        """Takes a notice away."""
        notice = self._notices.pop(about, None)
        if notice is not None:
            self._column.removeWidget(notice)
            notice.hide()
            notice.deleteLater()
        self.setVisible(bool(self._notices))

    def _answer(self, about: str, do: Do) -> None:
        self.drop(about)
        do()


class _Notice(QWidget):
    def __init__(self, sentence: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.links: list[LinkButton] = []
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(look.px(16), look.px(4), look.px(12), look.px(5))
        self._row.setSpacing(look.px(16))
        self.words = Words(sentence, 14)
        self._row.addWidget(self.words, 1)

    def add(self, words: str, do: Do) -> None:
        """One more answer."""
        link = LinkButton(words)
        link.clicked.connect(lambda _=False: do())
        self.links.append(link)
        self._row.addWidget(link)

    def paintEvent(self, event: QPaintEvent) -> None:
        """On the accent's wash, with a bar at the left as a selected row has."""
        shades = look.colours()
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), shades.accent_wash)
            painter.fillRect(0, 0, 3, self.height(), shades.accent)
            painter.fillRect(0, self.height() - 1, self.width(), 1, shades.line)
