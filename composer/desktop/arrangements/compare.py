"""Two arrangements of one wall side by side: to one scale, with the plain words and the figures behind them."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QDialog, QFrame, QHBoxLayout, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from composer.arranging.from_project import quality_on
from composer.desktop import field_look as look
from composer.desktop.arrangements.small_wall import PictureOf, fitted, paint_wall, pieces_of
from composer.desktop.cards.session import try_apply
from composer.desktop.field_choices import ChoiceField
from composer.desktop.field_row import FieldRow, PushButton, Words
from composer.desktop.open_project import OpenProject
from composer.desktop.printing.ground import lay_ground
from composer.desktop.scroll_bars import slim
from composer.desktop.theme import theme
from composer.desktop.window_sizes import open_at
from composer.editing.project_edits import make_current
from composer.geometry.rectangle import Rectangle
from composer.model import Key
from composer.texts import say, say_many


class WallPicture(QWidget):
    """The whole wall with one arrangement, as large as there is room."""

    def __init__(self, opened: OpenProject, picture_of: PictureOf) -> None:
        super().__init__()
        self._opened, self._picture_of = opened, picture_of
        self.wall: Key = opened.project.walls[0].key
        self.arrangement: Key = opened.project.current_arrangement
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(240, 160)

    def sizeHint(self) -> QSize:
        """Of the wall's own shape."""
        return QSize(look.px(480), look.px(360))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Wall, things, pieces."""
        project = self._opened.project
        wall = project.wall_by_key.get(self.wall)
        if wall is None or self.arrangement not in project.arrangement_by_key:
            return
        region = Rectangle.at(0.0, 0.0, float(wall.width.mm), float(wall.height.mm))
        mapping = fitted(QRectF(self.rect()), region)
        with QPainter(self) as painter:
            paint_wall(
                painter,
                mapping.box(region),
                mapping,
                wall,
                pieces_of(project, self.wall, self.arrangement),
                eye_line_mm=float(project.eye_line(wall).mm),
                picture_of=self._picture_of,
            )


class Side(QWidget):
    """One of the two: which arrangement, its picture, its words."""

    def __init__(self, opened: OpenProject, picture_of: PictureOf, words: str) -> None:
        super().__init__()
        self._opened = opened
        column = QVBoxLayout(self)
        column.setContentsMargins(look.px(12), look.px(8), look.px(12), look.px(8))
        column.setSpacing(look.px(8))
        self.choice = ChoiceField(words, [])
        column.addWidget(FieldRow((words, self.choice)))
        self.picture = WallPicture(opened, picture_of)
        column.addWidget(self.picture, 1)
        self._lines = QVBoxLayout()
        self._lines.setSpacing(2)
        inside = QWidget()
        inside.setLayout(self._lines)
        self._inside = inside
        area = QScrollArea()
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setWidget(inside)
        slim(area)
        # The same on both sides, however much there is to say: the pictures above must be of one size.
        area.setFixedHeight(look.px(190))
        self._area = area
        column.addWidget(area)
        self.show_button = PushButton(say("Show this one on the wall"))
        self.show_button.clicked.connect(lambda _=False: self._show_it())
        column.addWidget(self.show_button)

    def _show_it(self) -> None:
        try_apply(self._opened, make_current(self._opened.project, self.picture.arrangement))

    def words(self) -> list[tuple[str, bool]]:
        """What is said of it, each with whether it is only a figure behind."""
        project, key, wall = self._opened.project, self.picture.arrangement, self.picture.wall
        arrangement = project.arrangement_by_key[key]
        hung = pieces_of(project, wall, key)
        count = say_many("{count} piece hangs here", "{count} pieces hang here", len(hung))
        found: list[tuple[str, bool]] = [
            (say("{count}, gap {gap}.", count=count, gap=arrangement.gap.text), False),
        ]
        quality = quality_on(project, wall, key)
        if quality is None:
            return found
        for line in (quality.gaps, quality.balance, quality.height):
            found += [(line.sentence, False), (line.why, True)]
        found += [(pair.sentence, False) for pair in quality.near_misses[:3]]
        return found

    def refresh(self) -> None:
        """As the project is now."""
        project = self._opened.project
        if self.picture.arrangement not in project.arrangement_by_key:
            self.picture.arrangement = project.current_arrangement
        self.choice.set_choices([(one.key, one.name) for one in project.arrangements])
        self.choice.set_value(self.picture.arrangement)
        while (item := self._lines.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for words, behind in self.words():
            self._lines.addWidget(Words(words, 12 if behind else 14, "pencil" if behind else "ink"))
        self._lines.addStretch(1)
        self.show_button.setEnabled(self.picture.arrangement != project.current_arrangement)
        lay_ground(self._inside, "surface")
        lay_ground(self._area.viewport(), "surface")
        self.picture.update()


class CompareWindow(QDialog):
    """May stay open beside the work and follows the project."""

    def __init__(self, opened: OpenProject, wall: Key, picture_of: PictureOf, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened, self.wall = opened, wall
        self.setWindowTitle(say("Compare arrangements"))
        self.setMinimumSize(look.px(640), look.px(440))
        open_at(self, look.px(1100), look.px(720))
        column = QVBoxLayout(self)
        column.setContentsMargins(look.px(4), look.px(8), look.px(4), look.px(8))
        self.note = Words("", 12, "pencil")
        self.note.setContentsMargins(look.px(12), 0, look.px(12), 0)
        across = QHBoxLayout()
        self.sides = (Side(opened, picture_of, say("Left")), Side(opened, picture_of, say("Right")))
        for side in self.sides:
            across.addWidget(side, 1)
            side.choice.committed.connect(lambda key, side=side: self._on_chosen(side, key))
        column.addWidget(self.note)
        column.addLayout(across, 1)
        opened.project_changed.connect(self._on_project)
        theme().changed.connect(self.refresh)
        self.sides[1].picture.arrangement = self._other()
        self.refresh()

    def _other(self) -> Key:
        shown = self._opened.project.current_arrangement
        return next((one.key for one in self._opened.project.arrangements if one.key != shown), shown)

    def show_wall(self, wall: Key) -> None:
        """Another wall; the arrangement shown in the room stands left."""
        self.wall = wall
        self.sides[0].picture.arrangement = self._opened.project.current_arrangement
        if self.sides[1].picture.arrangement == self.sides[0].picture.arrangement:
            self.sides[1].picture.arrangement = self._other()
        self.refresh()

    def _on_chosen(self, side: Side, key: object) -> None:
        if isinstance(key, str):
            side.picture.arrangement = key
            self.refresh()

    def _on_project(self, *_: object) -> None:
        if self.wall not in self._opened.project.wall_by_key:
            self.wall = self._opened.project.walls[0].key
        if self.isVisible():
            self.refresh()

    def refresh(self) -> None:
        """Both sides as the project is now."""
        wall = self._opened.project.wall_by_key[self.wall]
        words = say("{wall}, both to one scale.", wall=wall.name)
        if len(self._opened.project.arrangements) < 2:
            words = say("{wall}. There is one arrangement only: duplicate it first, then change one.", wall=wall.name)
        self.note.setText(words)
        for side in self.sides:
            side.picture.wall = self.wall
            side.refresh()

    def update_pictures(self, _keys: object) -> None:
        """Pictures have been read, or are gone."""
        for side in self.sides:
            side.picture.update()
