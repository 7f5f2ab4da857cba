"""An empty project asks on the wall itself: how wide, how high."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.desktop.theme import theme

if TYPE_CHECKING:
    from composer.desktop.cards.first_frame import WallQuestions
    from composer.desktop.main_window import MainWindow

WIDTH_PX = 300


class WallQuestion(QWidget):
    """The two questions, on a ground in the wall's colour in the middle of the wall, until they are answered.

    They are asked of a new project only: one without file, pieces, obstacles or history.
    """

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window.view)
        self._window = window
        self._questions: WallQuestions | None = None
        self._answered = False
        self._started = False
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 12)
        self.setAttribute(Qt.WidgetAttribute.WA_NoMousePropagation, True)
        self.hide()
        window.view.moved.connect(self._place)
        window.opened.project_changed.connect(self.refresh)
        window.opened.file_changed.connect(self._on_file)
        theme().changed.connect(self._rebuild)

    @property
    def questions(self) -> WallQuestions | None:
        """The fields, while they are asked."""
        return self._questions

    @property
    def _wanted(self) -> bool:
        opened = self._window.opened
        project = opened.project
        return (
            self._started
            and not self._answered
            and opened.path is None
            and opened.stack.count() == 0
            and not project.pieces
            and len(project.walls) == 1
            and not project.walls[0].obstacles
        )

    def start(self) -> None:
        """The window has been painted: from now on it asks."""
        self._started = True
        self.refresh()

    def refresh(self, *_: object) -> None:
        """Asks, or no longer."""
        if not self._wanted:
            if self._questions is not None:
                self._drop()
                self.hide()
                self._window.card.ask_for_wall(False)
            return
        if self._questions is None:
            from composer.desktop.cards.first_frame import WallQuestions

            self._questions = WallQuestions(self._window.opened, self._window.opened.project.walls[0].key, self)
            self._questions.answered.connect(self._on_answered)
            layout = self.layout()
            assert layout is not None
            layout.addWidget(self._questions)
            self._window.card.ask_for_wall(True)
            self.show()
            self._place()
            self._questions.width_field.setFocus()

    def _drop(self) -> None:
        layout = self.layout()
        if self._questions is not None and layout is not None:
            layout.removeWidget(self._questions)
            self._questions.hide()
            self._questions.deleteLater()
        self._questions = None

    def _rebuild(self) -> None:
        if self._questions is not None:
            self._drop()
            self.refresh()

    def _on_file(self) -> None:
        self._answered = False
        self.refresh()

    def _on_answered(self) -> None:
        # The answer may be the very size the wall has already, which is no step of history.
        self._answered = True
        self.refresh()
        self._window.ask_piece()

    def _place(self) -> None:
        if self._questions is None:
            return
        width = theme().px(WIDTH_PX)
        self.setFixedWidth(width)
        self.adjustSize()
        room, view = self._window.room, self._window.view
        extent, wall = room.extent, room.wall
        height = float(wall.height.mm) if wall is not None else 0.0
        middle = view.mapFromScene(QPointF(extent.center().x(), -height / 2))
        self.move(middle.x() - width // 2, max(4, middle.y() - self.height() // 2))
        self.raise_()

    def paintEvent(self, event: QPaintEvent) -> None:
        """A ground in the wall's colour, with a thin edge."""
        look = theme()
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), look.colour("wall"))
            painter.setPen(QPen(look.colour("room_line"), 1))
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
