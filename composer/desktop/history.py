"""The history: every step by its sentence, the latest below; a click goes back or forward to it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette, QUndoStack
from PySide6.QtWidgets import QDialog, QHBoxLayout, QUndoView, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_row import PushButton, Words
from composer.desktop.theme import theme
from composer.texts import say


class History(QDialog):
    """The steps of the open project; may stay open beside the work."""

    def __init__(self, stack: QUndoStack, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("History"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        column = QVBoxLayout(self)
        column.setContentsMargins(look.px(16), look.px(12), look.px(16), look.px(12))
        column.setSpacing(look.px(8))
        words = say("A step that is chosen is the last one done; later ones are taken back and stay in the list.")
        column.addWidget(Words(words, 12, "pencil"))
        self.steps = QUndoView()
        self.steps.setStack(stack)
        self.steps.setEmptyLabel(say("As it was opened"))
        self.steps.setAccessibleName(say("Steps"))
        self.steps.setWordWrap(True)
        self.steps.setFrameShape(QUndoView.Shape.NoFrame)
        column.addWidget(self.steps, 1)
        foot = QHBoxLayout()
        foot.addStretch(1)
        close = PushButton(say("Close"))
        close.clicked.connect(self.close)
        foot.addWidget(close)
        column.addLayout(foot)
        self.resize(look.px(420), look.px(480))
        theme().changed.connect(self._on_theme)
        self._on_theme()

    def _on_theme(self) -> None:
        self.steps.setFont(look.font(14))
        self.steps.setSpacing(look.px(3))
        palette = self.steps.palette()
        palette.setColor(QPalette.ColorRole.Base, look.colours().surface)
        self.steps.setPalette(palette)


def show_history(stack: QUndoStack, parent: QWidget) -> History:
    """Opens the history, or brings the open one to the front."""
    found = parent.findChild(History)
    history = found if isinstance(found, History) else History(stack, parent)
    history.show()
    history.raise_()
    return history
