"""Words and fields of the panels beside the ladder: large, and to be hit with a thumb."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_measures import LengthField
from composer.desktop.field_words import NumberField
from composer.desktop.fields import EntryField
from composer.desktop.hanging_day.sizes import Sizes
from composer.desktop.theme import theme


class BigWords(QLabel):
    """A text that wraps, in a size of the full screen."""

    def __init__(
        self,
        text: str = "",
        size: float = 22,
        token: str = "ink",
        *,
        semibold: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._size, self._token, self._semibold = size, token, semibold
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        self.setText(text)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def restyle(self) -> None:
        """Font and colour of now."""
        self.setFont(Sizes.of(self).font(self._size, semibold=self._semibold))
        palette = self.palette()
        palette.setColor(QPalette.ColorRole.WindowText, theme().colour(self._token))
        self.setPalette(palette)

    def set_token(self, token: str) -> None:
        """Another colour."""
        self._token = token
        self.restyle()


class BigLength(LengthField):
    """A length to be typed on the ladder."""

    @property
    def can_step(self) -> bool:
        """No: a thumb would step it unseen."""
        return False

    def restyle(self) -> None:
        """Larger than in a card."""
        _enlarge(self)

    def sizeHint(self) -> QSize:
        """Room for a long one."""
        return _wide(self)

    def minimumSizeHint(self) -> QSize:
        """The same."""
        return _wide(self)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Field, edge and unit."""
        _paint(self, self._suffix_shown())


class BigNumber(NumberField):
    """A number to be typed on the ladder."""

    @property
    def can_step(self) -> bool:
        """No: a thumb would step it unseen."""
        return False

    def restyle(self) -> None:
        """Larger than in a card."""
        _enlarge(self)

    def sizeHint(self) -> QSize:
        """Room for a long one."""
        return _wide(self)

    def minimumSizeHint(self) -> QSize:
        """The same."""
        return _wide(self)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Field, edge and unit."""
        _paint(self, self._suffix_shown())


def _enlarge(field: EntryField) -> None:
    sizes = Sizes.of(field)
    font = sizes.font(24)
    field.setFont(font)
    line = field.lineEdit()
    line.setFont(font)
    look.plain_line(line)
    field.setFixedHeight(max(sizes.target(48), round(sizes.text_px(24) * 1.7)))
    field._place()


def _wide(field: EntryField) -> QSize:
    sizes = Sizes.of(field)
    return QSize(round(sizes.width("1 722 15/16 in", 24)) + sizes.px(24), field.height())


def _paint(field: EntryField, suffix: str) -> None:
    sizes, colours = Sizes.of(field), look.colours()
    with QPainter(field) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        edge, width = look.edge(field, wrong=bool(field.wrong))
        painter.setPen(QPen(edge, width))
        painter.setBrush(colours.field if field.isEnabled() else colours.surface_2)
        inset = width / 2
        painter.drawRoundedRect(QRectF(field.rect()).adjusted(inset, inset, -inset, -inset), 3, 3)
        if suffix:
            painter.setFont(sizes.font(18))
            painter.setPen(colours.pencil)
            box = QRectF(field.rect()).adjusted(0, 0, -sizes.px(12), 0)
            painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, suffix)
