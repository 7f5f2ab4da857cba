"""How fields stand in a card: a label above each, one sentence below, as many side by side as fit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from PySide6.QtCore import QEvent, QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QHBoxLayout,
    QLabel,
    QLayout,
    QLayoutItem,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from composer.desktop import field_look as look
from composer.desktop.field_frame import HEIGHT
from composer.desktop.fields import EntryField, new_gesture

Shade = Literal["ink", "pencil", "chalk", "stop", "warn", "ok"]


class Words(QLabel):
    """A text in one of the sizes and shades; wraps, can be selected, follows the scheme."""

    def __init__(
        self,
        text: str = "",
        size: int = 14,
        shade: Shade = "ink",
        *,
        semibold: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        self._size, self._shade, self._semibold = size, shade, semibold
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        self.setText(text)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.restyle()

    def set_shade(self, shade: Shade) -> None:
        """Another shade, e.g. stop for a sentence of what is wrong."""
        self._shade = shade
        self.restyle()

    def restyle(self) -> None:
        """Takes font and colour from the look."""
        self.setFont(look.font(self._size, semibold=self._semibold))
        colour = getattr(look.colours(), self._shade)
        palette = self.palette()
        if palette.color(QPalette.ColorRole.WindowText) != colour:
            palette.setColor(QPalette.ColorRole.WindowText, colour)
            self.setPalette(palette)

    def changeEvent(self, event: QEvent) -> None:
        """Follows the scheme and the size of text."""
        super().changeEvent(event)
        if event.type() in (
            QEvent.Type.ApplicationPaletteChange,
            QEvent.Type.PaletteChange,
            QEvent.Type.ApplicationFontChange,
        ):
            self.restyle()


class _Button(QAbstractButton):
    """Space and Return do what a click does."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return as well, which a bare button of the toolkit leaves to its dialog."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.isAutoRepeat():
            self.click()
            event.accept()
            return
        super().keyPressEvent(event)


class LinkButton(_Button):
    """An action written as a chalk link, 24 pixels high at least."""

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setText(words)
        self.setAccessibleName(words)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """The words and a little room for the focus mark."""
        return QSize(look.width_of(self.text(), 14) + look.px(4), max(24, look.px(24)))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Chalk words; underlined under the pointer, framed by keyboard focus."""
        shades = look.colours()
        with QPainter(self) as painter:
            font = look.font(14)
            font.setUnderline(self.underMouse())
            painter.setFont(font)
            painter.setPen(shades.chalk if self.isEnabled() else shades.pencil)
            room = self.rect().adjusted(look.px(2), 0, 0, 0)
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.text())
            if self.hasFocus():
                painter.setPen(QPen(shades.chalk, 1))
                painter.drawRect(self.rect().adjusted(0, 0, -1, -1))


class PushButton(_Button):
    """A button with words; ``main`` fills it with the accent, one in a dialog."""

    def __init__(self, words: str, *, main: bool = False, strong: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._main, self._strong = main, strong or main
        self.setText(words)
        self.setAccessibleName(words)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Words with 14 px at their sides."""
        return QSize(look.width_of(self.text(), 14, semibold=self._strong) + look.px(28), max(24, look.px(32)))

    def paintEvent(self, event: QPaintEvent) -> None:
        """At rest, under the pointer, by keyboard, not now."""
        shades = look.colours()
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            box = QRectF(self.rect()).adjusted(2.5, 2.5, -2.5, -2.5)
            filled = self._main and self.isEnabled()
            painter.setBrush(shades.accent if filled else shades.surface_2 if self.underMouse() else shades.surface)
            edge = shades.accent if filled else shades.ink if self.underMouse() or self._strong else shades.field_line
            painter.setPen(QPen(edge if self.isEnabled() else shades.line, 1))
            painter.drawRoundedRect(box, 3, 3)
            if self.hasFocus():
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(shades.chalk, 2))
                painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)
            painter.setFont(look.font(14, semibold=self._strong))
            painter.setPen(shades.on_fill if filled else shades.ink if self.isEnabled() else shades.pencil)
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.text())


class Segments(QWidget):
    """Two to four choices side by side; the chosen one is semibold with a 2 px line below."""

    committed = Signal(object)

    def __init__(self, name: str, choices: Sequence[tuple[object, str]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.gesture = new_gesture()
        self.setAccessibleName(name)
        self._choices = tuple(choices)
        self._value: object = None
        row = QHBoxLayout(self)
        row.setContentsMargins(1, 1, 1, 1)
        row.setSpacing(0)
        self.buttons = [_Segment(name, words, self) for _, words in self._choices]
        for button, (value, _) in zip(self.buttons, self._choices, strict=True):
            button.clicked.connect(lambda _=False, value=value: self._choose(value))
            row.addWidget(button, max(1, len(button.text())))

    @property
    def value(self) -> object:
        """What is chosen, None for nothing yet."""
        return self._value

    def set_value(self, value: object) -> None:
        """Shows a choice made elsewhere."""
        self._value = value
        for button, (offered, _) in zip(self.buttons, self._choices, strict=True):
            button.setChecked(offered == value)

    def _choose(self, value: object) -> None:
        self.set_value(value)
        self.gesture = new_gesture()
        self.committed.emit(value)

    def paintEvent(self, event: QPaintEvent) -> None:
        """One edge round all."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(look.colours().field_line, 1))
            painter.setBrush(look.colours().field)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 3, 3)


class _Segment(QAbstractButton):
    def __init__(self, name: str, words: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setText(words)
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(f"{name}: {words}")
        self.setToolTip(words)

    def sizeHint(self) -> QSize:
        return QSize(look.width_of(self.text(), 14, semibold=True) + look.px(12), max(24, look.px(HEIGHT - 2)))

    def minimumSizeHint(self) -> QSize:
        return QSize(look.width_of(self.text(), 14, semibold=True) + look.px(6), self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        shades = look.colours()
        with QPainter(self) as painter:
            if self.isChecked() or self.underMouse():
                painter.fillRect(self.rect(), shades.surface_2)
            if self.isChecked():
                painter.fillRect(0, self.height() - 2, self.width(), 2, shades.ink)
            if self.hasFocus():
                painter.setPen(QPen(shades.chalk, 2))
                painter.drawRect(self.rect().adjusted(1, 1, -2, -2))
            painter.setFont(look.font(14, semibold=self.isChecked()))
            painter.setPen(shades.ink if self.isEnabled() else shades.pencil)
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.text())


class Columns(QLayout):
    """Equal columns, as many as fit; at 200 % text a row of four becomes two rows of two."""

    def __init__(self, parent: QWidget | None = None, gap: int = 8) -> None:
        super().__init__(parent)
        self._gap = gap
        self._entries: list[QLayoutItem] = []
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        """One more column."""
        self._entries.append(item)

    def count(self) -> int:
        """How many stand in it."""
        return len(self._entries)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """The entry at a place."""
        return self._entries[index] if 0 <= index < len(self._entries) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """Takes an entry out."""
        return self._entries.pop(index) if 0 <= index < len(self._entries) else None

    def hasHeightForWidth(self) -> bool:
        """The height follows from how many columns fit."""
        return True

    def heightForWidth(self, width: int) -> int:
        """The height at a width."""
        return self._lay(QRect(0, 0, width, 0), moving=False)

    def setGeometry(self, rect: QRect) -> None:
        """Places everything."""
        super().setGeometry(rect)
        self._lay(rect, moving=True)

    def sizeHint(self) -> QSize:
        """All side by side."""
        shown = self._shown()
        width = sum(entry.sizeHint().width() for entry in shown) + self._gap * max(0, len(shown) - 1)
        return QSize(width, max((entry.sizeHint().height() for entry in shown), default=0))

    def minimumSize(self) -> QSize:
        """One column."""
        shown = self._shown()
        return QSize(
            max((entry.minimumSize().width() for entry in shown), default=0),
            max((entry.minimumSize().height() for entry in shown), default=0),
        )

    def _shown(self) -> list[QLayoutItem]:
        return [entry for entry in self._entries if not entry.isEmpty()]

    def _lay(self, rect: QRect, *, moving: bool) -> int:
        shown = self._shown()
        if not shown:
            return 0
        least = max(entry.minimumSize().width() for entry in shown)
        columns = max(1, min(len(shown), (rect.width() + self._gap) // (least + self._gap)))
        while columns > 1 and len(shown) % columns and len(shown) > columns and columns - len(shown) % columns > 1:
            columns -= 1
        width = (rect.width() - self._gap * (columns - 1)) // columns
        y = rect.y()
        for start in range(0, len(shown), columns):
            row = shown[start : start + columns]
            heights = [e.heightForWidth(width) if e.hasHeightForWidth() else e.sizeHint().height() for e in row]
            if moving:
                for place, entry in enumerate(row):
                    entry.setGeometry(
                        QRect(QPoint(rect.x() + place * (width + self._gap), y), QSize(width, max(heights)))
                    )
            y += max(heights) + self._gap
        return y - self._gap - rect.y()


class Labelled(QWidget):
    """A field under its name."""

    def __init__(self, words: str, field: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.field = field
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        self.label = Words(words, 12, "pencil")
        self.label.setBuddy(field)
        column.addStretch(1)
        column.addWidget(self.label)
        column.addWidget(field)

    def minimumSizeHint(self) -> QSize:
        """As narrow as the field allows; the label wraps."""
        longest = max((look.width_of(word, 12) for word in self.label.text().split()), default=0)
        return QSize(max(self.field.minimumSizeHint().width(), longest + 2), super().minimumSizeHint().height())


class FieldRow(QWidget):
    """Fields with their names, and one line below for what is wrong."""

    def __init__(self, *fields: tuple[str, QWidget], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        self._columns = Columns(gap=look.px(8))
        column.addLayout(self._columns)
        self.message = Words("", 12, "pencil")
        self.message.hide()
        column.addWidget(self.message)
        self.fields: list[QWidget] = []
        for words, field in fields:
            self.add(words, field)

    def add(self, words: str, field: QWidget) -> Labelled:
        """One more field with its name."""
        box = Labelled(words, field)
        self._columns.addWidget(box)
        self.fields.append(field)
        if isinstance(field, EntryField):
            field.complained.connect(self.complain)
        return box

    def complain(self, sentence: str) -> None:
        """Shows a sentence under the fields; empty takes it away."""
        sentence = sentence or next((f.wrong for f in self.fields if isinstance(f, EntryField) and f.wrong), "")
        self._say(sentence, "stop")

    def _say(self, sentence: str, shade: Shade) -> None:
        self.message.set_shade(shade)
        self.message.setText(sentence)
        self.message.setVisible(bool(sentence))


__all__ = ["Columns", "FieldRow", "Labelled", "LinkButton", "PushButton", "Segments", "Shade", "Words"]
