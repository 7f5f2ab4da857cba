"""The history: every step by its sentence, the latest below; a click goes back or forward to it."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QPainter, QPalette, QUndoStack
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QUndoView,
    QVBoxLayout,
    QWidget,
)

from composer.desktop import field_look as look
from composer.desktop.field_row import PushButton, Words
from composer.desktop.theme import theme
from composer.desktop.window_sizes import open_at
from composer.texts import say


class _Step(QStyledItemDelegate):
    """A step as one line; the one that is done last on the wash, with the accent bar."""

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(100, max(24, look.height_of("X", 14, 1000) + look.px(8)))

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        shades, box = look.colours(), QRect(option.rect)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.fillRect(box, shades.accent_wash if chosen else shades.surface)
        if chosen:
            painter.fillRect(QRect(box.left(), box.top(), 3, box.height()), shades.accent)
        painter.setFont(look.font(14, semibold=chosen))
        painter.setPen(shades.ink)
        words = painter.fontMetrics().elidedText(
            str(index.data()), Qt.TextElideMode.ElideRight, box.width() - look.px(20)
        )
        painter.drawText(box.adjusted(look.px(10), 0, -look.px(10), 0), Qt.AlignmentFlag.AlignVCenter, words)
        painter.restore()


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
        self.steps.setItemDelegate(_Step(self.steps))
        self.steps.setFrameShape(QUndoView.Shape.NoFrame)
        column.addWidget(self.steps, 1)
        foot = QHBoxLayout()
        foot.addStretch(1)
        close = PushButton(say("Close"))
        close.clicked.connect(self.close)
        foot.addWidget(close)
        column.addLayout(foot)
        open_at(self, look.px(420), look.px(480))
        theme().changed.connect(self._on_theme)
        self._on_theme()

    def _on_theme(self) -> None:
        self.steps.setFont(look.font(14))
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
