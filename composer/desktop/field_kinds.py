"""Fields for lengths, positions, masses, money, numbers and words, and the choices."""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal

from PySide6.QtCore import QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QPlainTextEdit, QStyleOptionComboBox, QStylePainter, QWidget

from composer.desktop import field_look as look
from composer.desktop.fields import HEIGHT, EntryField, new_gesture
from composer.desktop.units_shown import number
from composer.texts import say
from composer.units import Length, LengthStyle, Mass, Mm, read_length, read_mass, read_money, show_length

SIXTEENTH_MM = Fraction(127, 80)
"""One sixteenth of an inch, exactly."""

System = Literal["metric", "imperial"]


def bare_unit(system: System) -> str:
    """What a bare number in a card means: the unit its field shows."""
    return "mm" if system == "metric" else "in"


def step_mm(unit: str) -> Fraction:
    """One step: 1 mm, or 1/16 in where inches stand."""
    return SIXTEENTH_MM if unit in ("in", "ft") else Fraction(1)


def other_unit(mm: float, unit: str) -> str:
    """The same length in the other system: “≈ 16 1/4 in” beside millimetres, and the reverse."""
    style = LengthStyle("mm") if unit in ("in", "ft") else LengthStyle("in")
    return say("≈ {length}", length=show_length(Mm(mm), style))


class LengthField(EntryField):
    """A length as typed; empty means "not measured" where ``needed`` is False."""

    def __init__(
        self,
        name: str,
        *,
        bare: str,
        needed: bool = False,
        zero: bool = False,
        minus: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        self._bare = bare
        self._needed = needed
        self._zero = zero
        self._minus = minus
        super().__init__(name, parent)
        self.set_suffix(bare)

    def read(self, text: str) -> Length | None:
        """The length, in its own unit; None for an empty field that may be empty."""
        if not text.strip():
            if self._needed:
                raise ValueError(say("{name} cannot stay empty. Try 61.5 cm or 24 1/4 in.", name=self.accessibleName()))
            return None
        metric = self._bare in ("mm", "cm", "m")
        return read_length(text, bare=self._bare, fractions_need_unit=metric, zero=self._zero, minus=self._minus)

    def written(self, value: Any) -> str:
        """A number alone where the field's own unit is meant, else the text with its unit."""
        if value is None:
            return ""
        if value.unit == self._bare:
            return str(value.text).removesuffix(f" {self._bare}")
        return str(value.text)

    def _suffix_shown(self) -> str:
        text = self.lineEdit().text().strip()
        return self._suffix if not text or text[-1].isdigit() else ""

    def remark(self, value: Any) -> str:
        """The length in the other system."""
        return "" if value is None else other_unit(value.mm, value.unit)

    @property
    def can_step(self) -> bool:
        """Lengths step by 1 mm or 1/16 in."""
        return True

    def stepped(self, value: Any, steps: int) -> Any:
        """On to the next whole step of the grid of its unit."""
        unit = self._bare if value is None else value.unit
        step = step_mm(unit)
        start = Fraction(0) if value is None else value.exact_mm
        places = start / step
        moved = (math.floor(places) if steps > 0 else math.ceil(places)) + steps
        mm = moved * step
        if (mm < 0 and not self._minus) or (mm == 0 and not (self._zero or self._minus)):
            return value
        return Length.of_mm(mm, unit)


class PositionField(EntryField):
    """A coordinate on the wall, float millimetres, shown and typed in the rulers' unit."""

    def __init__(self, name: str, *, style: LengthStyle, bare: str, parent: QWidget | None = None) -> None:
        self._style = style
        self._bare = bare
        super().__init__(name, parent)

    def read(self, text: str) -> float | None:
        """The coordinate, mm; a minus lies left of the wall's corner or below its foot."""
        if not text.strip():
            raise ValueError(say("{name} cannot stay empty: type a distance.", name=self.accessibleName()))
        plain = text.replace("−", "-")
        metric = self._bare in ("mm", "cm", "m")
        return float(read_length(plain, bare=self._bare, fractions_need_unit=metric, zero=True, minus=True).mm)

    def written(self, value: Any) -> str:
        """As the ruler writes it, without the unit that stands in the label."""
        if value is None:
            return ""
        return number(value, self._style)

    def remark(self, value: Any) -> str:
        """The same in the other system."""
        return "" if value is None else other_unit(value, self._bare)

    @property
    def can_step(self) -> bool:
        """Positions step as arrows nudge."""
        return True

    def stepped(self, value: Any, steps: int) -> Any:
        """Exactly one step further: a nudge keeps the odd tenth."""
        return None if value is None else float(value + steps * float(step_mm(self._bare)))


class MassField(EntryField):
    """A weight with its unit."""

    def read(self, text: str) -> Mass | None:
        """The weight; None for an empty field: it is then estimated."""
        return read_mass(text) if text.strip() else None

    def written(self, value: Any) -> str:
        """As it was typed."""
        return "" if value is None else str(value.text)

    def remark(self, value: Any) -> str:
        """The same in the other system: pounds beside kilograms."""
        if value is None:
            return ""
        if value.unit in ("lb", "oz"):
            return say("≈ {mass}", mass=f"{value.kg:.3g} kg")
        return say("≈ {mass}", mass=f"{value.kg / 0.45359237:.3g} lb")


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
    """A line of words."""

    def __init__(self, name: str, *, needed: bool = False, parent: QWidget | None = None) -> None:
        self._needed = needed
        super().__init__(name, parent)

    def read(self, text: str) -> str:
        """The words, in composed form and without blanks around them."""
        import unicodedata

        words = unicodedata.normalize("NFC", text).strip()
        if not words and self._needed:
            raise ValueError(say("{name} cannot stay empty.", name=self.accessibleName()))
        return words

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


class ChoiceField(QComboBox):
    """One of a few words; the wheel does nothing without focus."""

    committed = Signal(object)

    def __init__(self, name: str, choices: Iterable[tuple[Any, str]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.gesture = new_gesture()
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(4)
        self.set_choices(choices)
        self.restyle()
        self.activated.connect(self._on_activated)

    def set_choices(self, choices: Iterable[tuple[Any, str]]) -> None:
        """The values with their words, in order."""
        self.clear()
        for value, words in choices:
            self.addItem(words, userData=value)
        self._value = self.currentData()

    @property
    def value(self) -> Any:
        """What is chosen."""
        return self._value

    def set_value(self, value: Any) -> None:
        """Shows what was chosen elsewhere; a value that is not offered is shown as it is written."""
        place = next((row for row in range(self.count()) if self.itemData(row) == value), -1)
        if place < 0 and value is not None:
            self.addItem(str(value), userData=value)
            place = self.count() - 1
        self._value = value
        self.setCurrentIndex(place)
        self.setToolTip(self.currentText())

    def _on_activated(self, row: int) -> None:
        value = self.itemData(row)
        self.setToolTip(self.currentText())
        if value != self._value:
            self._value = value
            self.committed.emit(value)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Without focus the wheel belongs to the panel behind."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A visit is one gesture."""
        self.gesture = new_gesture()
        super().focusInEvent(event)

    def restyle(self) -> None:
        """Takes font and height from the look."""
        self.setFont(look.font(14))
        self.setFixedHeight(max(look.px(HEIGHT), self.fontMetrics().height() + look.px(8)))

    def sizeHint(self) -> QSize:
        """As wide as its longest word, within reason."""
        widest = max(
            (self.fontMetrics().horizontalAdvance(self.itemText(row)) for row in range(self.count())), default=0
        )
        return QSize(min(widest + look.px(36), look.px(240)), self.height())

    def minimumSizeHint(self) -> QSize:
        """Long words are cut with an ellipsis and shown whole as a tooltip."""
        return QSize(min(self.sizeHint().width(), look.px(84)), self.height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Field, edge, words and an open arrow."""
        shades = look.colours()
        with QStylePainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            edge, width = look.edge(self)
            painter.setPen(QPen(edge, width))
            painter.setBrush(shades.field if self.isEnabled() else shades.surface_2)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(width / 2, width / 2, -width / 2, -width / 2), 3, 3)
            option = QStyleOptionComboBox()
            self.initStyleOption(option)
            room = self.rect().adjusted(look.px(8), 0, -look.px(24), 0)
            painter.setPen(shades.ink if self.isEnabled() else shades.pencil)
            words = self.fontMetrics().elidedText(self.currentText(), Qt.TextElideMode.ElideRight, room.width())
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
            x, y, reach = self.width() - look.px(14), self.height() / 2 - look.px(1), look.px(4)
            painter.setPen(QPen(shades.pencil, 1.4))
            corners = [(x - reach, y - reach / 2), (x, y + reach / 2), (x + reach, y - reach / 2)]
            painter.drawPolyline([QPointF(*corner) for corner in corners])


class CheckField(QCheckBox):
    """Yes or no."""

    committed = Signal(object)

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(words, parent)
        self.gesture = new_gesture()
        self.setAccessibleName(words)
        self.restyle()
        self.clicked.connect(self._on_clicked)

    def _on_clicked(self, checked: bool) -> None:
        self.committed.emit(checked)

    @property
    def value(self) -> bool:
        """Whether it is ticked."""
        return self.isChecked()

    def set_value(self, value: Any) -> None:
        """Shows what was decided elsewhere."""
        self.setChecked(bool(value))

    def sizeHint(self) -> QSize:
        """Box, words and room around."""
        return QSize(look.width_of(self.text(), 14) + look.px(28), max(24, look.px(24)))

    def minimumSizeHint(self) -> QSize:
        """The same: words are never cut."""
        return self.sizeHint()

    def hitButton(self, pos: QPoint) -> bool:
        """The words can be clicked, too."""
        return bool(self.rect().contains(pos))

    def paintEvent(self, event: QPaintEvent) -> None:
        """A box with a tick, the words beside it."""
        shades, side = look.colours(), look.px(16)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            edge, width = look.edge(self)
            top = (self.height() - side) / 2
            box = QRectF(width / 2 + 1, top, side, side)
            painter.setPen(QPen(edge, width))
            painter.setBrush(shades.field)
            painter.drawRoundedRect(box, 2, 2)
            if self.isChecked():
                painter.setPen(QPen(shades.ink, 2))
                left, middle = box.left(), box.center().y()
                painter.drawPolyline(
                    [
                        QPointF(left + side * 0.22, middle),
                        QPointF(left + side * 0.42, middle + side * 0.22),
                        QPointF(left + side * 0.8, middle - side * 0.24),
                    ]
                )
            painter.setPen(shades.ink if self.isEnabled() else shades.pencil)
            painter.setFont(look.font(14))
            words = self.rect().adjusted(side + look.px(8), 0, 0, 0)
            painter.drawText(words, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.text())

    def restyle(self) -> None:
        """A target of at least 24 pixels."""
        self.setFont(look.font(14))
        self.setMinimumHeight(max(24, look.px(24)))

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A visit is one gesture."""
        self.gesture = new_gesture()
        super().focusInEvent(event)


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
