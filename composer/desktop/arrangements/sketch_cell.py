"""One sketch: a small picture to scale, a letter, what it is in a plain sentence."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QEnterEvent, QFocusEvent, QKeyEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from composer.arranging.patterns import pattern_name
from composer.arranging.sketches import Sketch
from composer.desktop import field_look as look
from composer.desktop.arrangements.small_wall import Drawn, PictureOf, fitted, paint_wall
from composer.desktop.field_row import LinkButton
from composer.geometry.rectangle import Rectangle
from composer.model import Wall
from composer.texts import say

WIDTH, PICTURE_WIDTH, PICTURE_HEIGHT = 230, 208, 129
SMALL = 0.8
"""Of that, where the window is low."""
AROUND = 31
"""Above, between and below picture and words."""
ASPECT = PICTURE_WIDTH / PICTURE_HEIGHT
MOST_WIDE = 1.4
"""Large letters make a cell wider, but no wider than this: the picture is not of letters."""


class SketchCell(QAbstractButton):
    """A proposal that can be pointed at and taken.

    Signals:
        pointed: the pointer or the keyboard came to it.
        left: or went.
        stepped: an arrow key, −1 or 1.
        vary_wanted: others like it are wanted.
    """

    pointed = Signal()
    left = Signal()
    stepped = Signal(int)
    vary_wanted = Signal()

    def __init__(
        self,
        letter: str,
        sketch: Sketch,
        wall: Wall,
        pieces: list[Drawn],
        eye_line_mm: float,
        where: str,
        picture_of: PictureOf,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.letter, self.sketch, self.pieces = letter, sketch, pieces
        # A size is not torn apart at the end of a line.
        self._sentence = sketch.sentence.replace(" × ", "\u00a0×\u00a0")
        self._wall, self._eye_line, self._where, self._picture_of = wall, eye_line_mm, where, picture_of
        self._region = Rectangle.at(0.0, 0.0, 1000.0, 1000.0)
        self.current = self.hangs = self._small = False
        self.vary = LinkButton(say("Vary"), self)
        self.vary.setToolTip(say("Looks for others of this outline."))
        self.vary.setAccessibleName(say("Vary sketch {letter}", letter=letter))
        self.vary.clicked.connect(self.vary_wanted)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._name()

    def _name(self) -> None:
        name = say("Sketch {letter}, {pattern}", letter=self.letter, pattern=pattern_name(self.sketch.found.pattern))
        self.setAccessibleName(name)
        words = self.sketch.sentence
        if self.hangs:
            words = say("{sentence} Hangs so now.", sentence=words)
        self.setAccessibleDescription(words)
        self.setToolTip(words)

    def show_region(self, region: Rectangle) -> None:
        """The part of the wall that all sketches show, so that all are at one scale."""
        self._region = region
        self.update()

    def set_small(self, *, small: bool) -> None:
        """A smaller picture, where the window is low."""
        self._small = small
        self.update()

    def set_current(self, *, current: bool) -> None:
        """Whether it is the one previewed on the wall."""
        if current != self.current:
            self.current = current
            self.update()

    def set_hangs(self, *, hangs: bool) -> None:
        """Whether the pieces hang so now."""
        if hangs != self.hangs:
            self.hangs = hangs
            self._name()
            self.update()

    @property
    def px_per_mm(self) -> float:
        """Scale of the picture."""
        return self._picture().width() / self._region.width

    def _wide(self) -> float:
        return min(MOST_WIDE, look.scale())

    def _picture(self) -> QRectF:
        wide, part = round(PICTURE_WIDTH * self._wide()), SMALL if self._small else 1.0
        return QRectF((self.width() - wide) // 2, 11, wide, round(PICTURE_HEIGHT * part))

    def _lines(self) -> tuple[int, int, int]:
        """Heights of name, sentence and place, pixels."""
        width = round(PICTURE_WIDTH * self._wide())
        return (
            max(24, look.px(24)),
            look.height_of(self._sentence, 12, width),
            look.height_of(self._where or " ", 12, width),
        )

    def sizeHint(self) -> QSize:
        """A picture and three texts below."""
        return QSize(round(WIDTH * self._wide()), round(self._picture().height()) + AROUND + sum(self._lines()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The link stands at the right of the name."""
        super().resizeEvent(event)
        self._place_link()

    def _place_link(self) -> None:
        picture, size = self._picture(), self.vary.sizeHint()
        self.vary.setGeometry(
            round(picture.right()) - size.width(), round(picture.bottom()) + 6, size.width(), size.height()
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        """Wash and a double edge where it is the one on the wall now."""
        shades, picture = look.colours(), self._picture()
        with QPainter(self) as painter:
            box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
            if self.current:
                painter.fillRect(box, shades.accent_wash)
                painter.setPen(QPen(shades.accent, 2))
                painter.drawRect(box.adjusted(1, 1, -1, -1))
            elif self.hangs:
                painter.setPen(QPen(shades.field_line, 1))
                painter.drawRect(box.adjusted(0.5, 0.5, -0.5, -0.5))
            paint_wall(
                painter,
                picture,
                fitted(picture, self._region),
                self._wall,
                self.pieces,
                eye_line_mm=self._eye_line,
                picture_of=self._picture_of,
            )
            painter.setPen(shades.ink if self.isEnabled() else shades.pencil)
            name, sentence, where = self._lines()
            left, width, top = round(picture.left()), round(picture.width()), round(picture.bottom()) + 6
            flags = Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap
            painter.setFont(look.font(14, semibold=True))
            middle = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(QRect(left, top, width, name), middle, self.letter)
            painter.setFont(look.font(14))
            across = left + look.width_of(self.letter, 14, semibold=True) + look.px(6)
            painter.drawText(
                QRect(across, top, left + width - across, name),
                middle,
                pattern_name(self.sketch.found.pattern),
            )
            painter.setFont(look.font(12))
            painter.drawText(QRect(left, top + name, width, sentence), flags, self._sentence)
            painter.setPen(shades.pencil)
            painter.drawText(
                QRect(left, top + name + sentence, width, where),
                flags,
                say("Hangs so now.") if self.hangs else self._where,
            )
            if self.hasFocus():
                painter.setPen(QPen(shades.chalk, 2))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRect(QRectF(self.rect()).adjusted(5, 5, -5, -5))

    def enterEvent(self, event: QEnterEvent) -> None:
        """The pointer comes."""
        super().enterEvent(event)
        self.pointed.emit()

    def leaveEvent(self, event: QEvent) -> None:
        """The pointer goes."""
        super().leaveEvent(event)
        self.left.emit()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """The keyboard comes."""
        super().focusInEvent(event)
        self.pointed.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """The keyboard goes."""
        super().focusOutEvent(event)
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes it as Space does, arrows go to its neighbours, V varies it."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        elif event.key() in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self.stepped.emit(-1 if event.key() == Qt.Key.Key_Left else 1)
        elif event.key() == Qt.Key.Key_V:
            self.vary_wanted.emit()
        else:
            super().keyPressEvent(event)
