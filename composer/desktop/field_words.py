"""Fields for words, plain numbers and money."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Any

from PySide6.QtCore import QRectF, QSize, Signal
from PySide6.QtGui import QFocusEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QPlainTextEdit, QWidget

from composer.desktop import field_look as look
from composer.desktop.fields import EntryField, new_gesture
from composer.texts import say
from composer.units import read_money


class MoneyField(EntryField):
    """An amount in the project's one currency."""

    def __init__(self, name: str, *, currency: str, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self.set_suffix(currency)

    def read(self, text: str) -> Decimal | None:
        """The amount; None for an empty field: nobody asked yet."""
        return read_money(text) if text.strip() else None

    def written(self, value: Any) -> str:
        """With two decimals."""
        return "" if value is None else f"{value:.2f}"


class TextField(EntryField):
    """A line of words; an empty one is no words, or None where ``optional``."""

    def __init__(
        self, name: str, *, needed: bool = False, optional: bool = False, parent: QWidget | None = None
    ) -> None:
        self._needed, self._optional = needed, optional
        super().__init__(name, parent)

    def read(self, text: str) -> str | None:
        """The words, in composed form and without blanks around them."""
        import unicodedata

        words = unicodedata.normalize("NFC", text).strip()
        if not words and self._needed:
            raise ValueError(say("{name} cannot stay empty.", name=self.accessibleName()))
        return None if self._optional and not words else words

    def sizeHint(self) -> QSize:
        """Words want room."""
        return QSize(look.px(180), self.height())


class NumberField(EntryField):
    """A plain number between two limits."""

    def __init__(
        self, name: str, *, least: float, most: float, whole: bool = False, parent: QWidget | None = None
    ) -> None:
        self._least, self._most, self._whole = least, most, whole
        super().__init__(name, parent)

    def read(self, text: str) -> float | int | None:
        """The number; None for an empty field."""
        plain = text.strip().replace(",", ".").replace("−", "-")
        if not plain:
            return None
        try:
            number = int(plain) if self._whole else float(plain)
        except ValueError:
            number = math.nan
        if not self._least <= number <= self._most:
            raise ValueError(
                say(
                    "“{typed}” is not a number from {least} to {most}.",
                    typed=text.strip()[:20],
                    least=f"{self._least:g}",
                    most=f"{self._most:g}",
                )
            )
        return number

    def written(self, value: Any) -> str:
        """Without needless decimals."""
        return "" if value is None else f"{value:g}"

    @property
    def can_step(self) -> bool:
        """Whole numbers step by one."""
        return self._whole

    def stepped(self, value: Any, steps: int) -> Any:
        """Within the limits."""
        return int(min(self._most, max(self._least, (value or 0) + steps)))


class NoteField(QPlainTextEdit):
    """Several lines of words, committed when the person leaves; Tab leaves."""

    committed = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.gesture = new_gesture()
        self._value = ""
        self.setAccessibleName(name)
        self.setTabChangesFocus(True)
        self.setFrameShape(QPlainTextEdit.Shape.NoFrame)
        self.restyle()

    @property
    def value(self) -> str:
        """The committed words."""
        return self._value

    @property
    def is_pending(self) -> bool:
        """Whether something is typed that is not committed."""
        return self.toPlainText() != self._value

    def set_value(self, value: Any) -> None:
        """Shows words from elsewhere unless the person is typing."""
        pending = self.is_pending
        self._value = str(value or "")
        if not pending and self.toPlainText() != self._value:
            self.setPlainText(self._value)

    def commit(self) -> bool:
        """Takes the words as they stand."""
        import unicodedata

        words = unicodedata.normalize("NFC", self.toPlainText()).strip()[:5000]
        if words != self._value:
            self._value = words
            self.committed.emit(words)
        return True

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A visit is one gesture."""
        self.gesture = new_gesture()
        super().focusInEvent(event)
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Leaving commits."""
        super().focusOutEvent(event)
        self.commit()
        self.viewport().update()

    def restyle(self) -> None:
        """Three lines high."""
        self.setFont(look.font(14))
        self.setFixedHeight(3 * self.fontMetrics().height() + look.px(14))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Words in a field's edge."""
        shades = look.colours()
        with QPainter(self.viewport()) as painter:
            edge, width = look.edge(self)
            painter.fillRect(self.viewport().rect(), shades.field)
            painter.setPen(QPen(edge, width))
            inset = width / 2
            painter.drawRect(QRectF(self.viewport().rect()).adjusted(inset, inset, -inset, -inset))
        super().paintEvent(event)
