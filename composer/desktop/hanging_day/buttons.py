"""Buttons to be hit from a ladder: two lines of words and a sign, 44 pixels high at least."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from composer.desktop.hanging_day.ink import CENTRE, Ink
from composer.desktop.hanging_day.sizes import Sizes
from composer.desktop.hanging_day.telling import Label
from composer.desktop.theme import theme
from composer.texts import say

_OF_THE_SCREEN = (
    Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Backspace, Qt.Key.Key_Escape,
)  # fmt: skip


NOTHING = Label("")


class LadderButton(QAbstractButton):
    """One step; ``main`` is filled with the accent."""

    def __init__(self, label: Label = NOTHING, *, main: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._main, self.label, self._chosen = main, label, False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Fixed)
        self.show_label(label)

    def show_label(self, label: Label) -> None:
        """Other words."""
        changed = label != self.label or self.text() != label.words
        self.label = label
        self.setText(label.words)
        self.setAccessibleName(f"{label.words}. {label.note}" if label.note else label.words)
        if changed:
            self.updateGeometry()
            self.update()

    def set_chosen(self, *, chosen: bool) -> None:
        """Whether it is the one of several that is shown."""
        self._chosen = chosen
        self.setAccessibleDescription(say("chosen") if chosen else "")
        self.update()

    def sizeHint(self) -> QSize:
        """Both lines, a sign, and room around."""
        sizes = Sizes.of(self)
        words = sizes.width(self.label.words, 28 if self.label.note else 18, semibold=bool(self.label.note))
        note = sizes.width(self.label.note, 17)
        sign = sizes.px(52) if self.label.sign else 0
        high = sizes.target(84) if self.label.note else sizes.target(44)
        if self.label.note:
            high = max(high, round(sizes.text_px(28) * 1.25 + sizes.text_px(17) * 1.3 + sizes.px(16)))
        else:
            high = max(high, round(sizes.text_px(18) * 1.3 + sizes.px(16)))
        return QSize(round(max(words, note) + sign + sizes.px(36)), high)

    def minimumSizeHint(self) -> QSize:
        """The same: words are never cut."""
        return self.sizeHint()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space and Enter press it; arrows, Backspace and Esc are the screen's."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if not event.isAutoRepeat():
                self.click()
        elif event.key() in _OF_THE_SCREEN:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Filled when it is the one to press; dashed when it is not open yet."""
        sizes = Sizes.of(self)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            ink = Ink(painter, sizes)
            whole = QRectF(self.rect())
            box = whole.adjusted(3, 3, -3, -3)
            ready = self.label.ready
            filled = self._main and ready and self.isEnabled()
            fill = "accent" if filled else "surface_2" if self.underMouse() or self.isDown() else "surface"
            if not self.isEnabled():
                ink.box(box, "line")
            else:
                ink.box(box, "accent" if filled else "field_line", fill, dashed=not ready)
            if self._chosen:
                painter.fillRect(box.adjusted(0, box.height() - 4, 0, 0), theme().colour("accent"))
            if self.hasFocus():
                ink.box(whole, "chalk", width=2)
            token = "on_fill" if filled else "ink" if ready and self.isEnabled() else "pencil"
            self._write(ink, box, token, filled=filled)

    def _write(self, ink: Ink, box: QRectF, token: str, *, filled: bool) -> None:
        sizes, label = ink.sizes, self.label
        if label.sign:
            size, place = sizes.px(24), sizes.px(34)
            x = box.right() - place if label.sign == "next" else box.left() + place
            ink.sign(label.sign, QPointF(x, box.center().y()), size, token)
            room = sizes.px(52)
            box = box.adjusted(0, 0, -room, 0) if label.sign == "next" else box.adjusted(room, 0, 0, 0)
        box = box.adjusted(sizes.px(4), 0, -sizes.px(4), 0)
        if not label.note:
            ink.words(box, label.words, 18, token, align=CENTRE)
            return
        high, low = sizes.text_px(28) * 1.25, sizes.text_px(17) * 1.3
        top = box.center().y() - (high + low) / 2
        ink.words(QRectF(box.left(), top, box.width(), high), label.words, 28, token, semibold=True, align=CENTRE)
        note = token if filled else "pencil"
        ink.words(QRectF(box.left(), top + high, box.width(), low), label.note, 17, note, align=CENTRE)
