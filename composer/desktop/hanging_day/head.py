"""The head of the screen: wall and count, the passes of the day, and the way out."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from composer.desktop.hanging_day.buttons import LadderButton
from composer.desktop.hanging_day.ink import MIDDLE_LEFT, Ink
from composer.desktop.hanging_day.sizes import Sizes
from composer.desktop.hanging_day.telling import Label, Pass, Told
from composer.desktop.theme import theme
from composer.texts import say


class Head(QWidget):
    """Where the person is in the day."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.passes = Passes()
        self.take_back = LadderButton(Label(say("Take back")))
        self.leave = LadderButton(Label(say("Leave")))
        self._row = QHBoxLayout(self)
        self._row.addWidget(self.passes, 1)
        self._row.addWidget(self.take_back)
        self._row.addWidget(self.leave)
        self.restyle()

    def restyle(self) -> None:
        """The window has another size."""
        sizes = Sizes.of(self)
        self._row.setContentsMargins(sizes.px(32), sizes.px(6), sizes.px(32), sizes.px(6))
        self._row.setSpacing(sizes.px(8))

    def show_told(self, told: Told, takes_back: str) -> None:
        """Shows where the day has come to, and what taking a step back would undo; empty = there is none."""
        self.passes.show_told(told)
        self.take_back.setEnabled(bool(takes_back))
        words = say("Take back: {what}", what=takes_back) if takes_back else say("Take back")
        self.take_back.setAccessibleName(words)
        self.take_back.setToolTip(words if takes_back else "")

    def paintEvent(self, event: QPaintEvent) -> None:
        """A band with a line below."""
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), theme().colour("surface_2"))
            painter.fillRect(0, self.height() - 1, self.width(), 1, theme().colour("line"))


class Passes(QWidget):
    """The wall's name, then a box a pass: done with a tick, the present one in the accent."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._told = Told("", "")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_told(self, told: Told) -> None:
        """Shows other passes."""
        self._told = told
        states = {"done": say("done"), "now": say("now"), "open": say("to come"), "waiting": say("waiting")}
        parts = [
            say("{name}, {note}, {state}", name=one.name, note=one.note, state=states[one.state]) for one in told.passes
        ]
        self.setAccessibleName("; ".join([told.wall, told.count, *parts]))
        self.update()

    def sizeHint(self) -> QSize:
        """Two lines."""
        sizes = Sizes.of(self)
        return QSize(sizes.px(600), max(sizes.px(58), round(sizes.text_px(17) * 1.3 + sizes.text_px(14) * 1.35) + 10))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The name, and as many boxes as there are passes, all of one width."""
        sizes, told = Sizes.of(self), self._told
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            ink = Ink(painter, sizes)
            whole = QRectF(self.rect())
            name_wide = min(
                whole.width() * 0.3,
                max(sizes.width(told.wall, 17, semibold=True), sizes.width(told.count, 15)) + sizes.px(20),
            )
            self._two(ink, QRectF(0, 0, name_wide, whole.height()), told.wall, told.count, "ink", 17, 15)
            if not told.passes:
                return
            gap = sizes.px(8)
            room = whole.width() - name_wide - gap * len(told.passes)
            wides = self._wides(sizes, room)
            left = name_wide + gap + max(0.0, (room - sum(wides)) / 2)
            for place, (one, wide) in enumerate(zip(told.passes, wides, strict=True), 1):
                number = place if len(told.passes) > 1 else None
                self._pass(ink, QRectF(left, 0, wide, whole.height()), number, one)
                left += wide + gap

    def _wides(self, sizes: Sizes, room: float) -> list[float]:
        """How wide each box is: all with words, or where that is too much only the present one."""
        passes = self._told.passes
        around = sizes.px(30) + sizes.px(28) + sizes.px(24)
        wanted = [max(sizes.width(one.name, 17, semibold=True), sizes.width(one.note, 14)) + around for one in passes]
        if sum(wanted) <= room:
            each = min(sizes.px(230), room / len(passes))
            return [max(each, want) for want in wanted] if sum(max(each, w) for w in wanted) <= room else wanted
        bare = float(sizes.px(30) + sizes.px(40))
        now = next((at for at, one in enumerate(passes) if one.state == "now"), None)
        if now is None:
            return [min(bare, room / len(passes))] * len(passes)
        rest = room - bare * (len(passes) - 1)
        return [min(wanted[now], max(bare, rest)) if at == now else bare for at in range(len(passes))]

    def _two(self, ink: Ink, box: QRectF, name: str, note: str, token: str, size: float, small: float) -> None:
        high, low = ink.sizes.text_px(size) * 1.3, ink.sizes.text_px(small) * 1.3
        top = box.center().y() - (high + low) / 2
        above = QRectF(box.left(), top, box.width(), high)
        ink.words(above, name, size, token, semibold=True, align=MIDDLE_LEFT)
        below = QRectF(box.left(), top + high, box.width(), low)
        ink.words(below, note, small, "pencil", align=MIDDLE_LEFT)

    def _pass(self, ink: Ink, box: QRectF, number: int | None, one: Pass) -> None:
        sizes = ink.sizes
        edge = {"done": "ok", "now": "accent"}.get(one.state, "field_line")
        ink.box(box, edge, "surface", 3 if one.state == "now" else 1)
        token = {"done": "ok", "now": "accent"}.get(one.state, "ink")
        side = sizes.px(30) if number is not None else 0
        inner = box.adjusted(sizes.px(10), 2, -sizes.px(8), -2)
        if number is not None:
            place = QRectF(inner.left(), inner.top(), side, inner.height())
            ink.words(place, str(number), 22, token, semibold=True, align=MIDDLE_LEFT)
        right = sizes.px(28) if one.state == "done" else 0
        text = inner.adjusted(side, 0, -right, 0)
        if box.width() > sizes.px(76):
            self._two(ink, text, one.name, one.note, "ink", 17, 14)
        if right:
            ink.sign("tick", QPointF(inner.right() - sizes.px(12), box.center().y()), sizes.px(16), "ok")
