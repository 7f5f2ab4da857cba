"""The middle of the screen: the piece and the wall at the left, what to do and its figures at the right."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from composer.desktop.hanging_day.ink import CENTRE, MIDDLE_LEFT, MIDDLE_RIGHT, Ink, number_width
from composer.desktop.hanging_day.piece_drawing import Shown, draw_piece
from composer.desktop.hanging_day.sizes import Sizes
from composer.desktop.hanging_day.telling import Chip, ClockFace, Figure, Mind, Told
from composer.desktop.hanging_day.wall_drawing import WallDrawing
from composer.desktop.room.piece_item import draw_level
from composer.desktop.theme import theme
from composer.texts import say

LEFT, GAP, SIDE = 358.0, 62.0, 32.0
"""The left column, between the columns, and at both sides, for the usual screen."""

SMALL_DIGIT = 28.0
"""Height of figures that only check what a paper shows."""


@dataclass(frozen=True, slots=True)
class Block:
    """A part of the right column; those with a higher ``rank`` go first where the screen is low."""

    height: float
    draw: Callable[[float], None]
    rank: int = 0
    after: float = 12.0


class Board(QWidget):
    """Paints what :class:`Told` says."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._told = Told("", "")
        self._piece: Shown | None = None
        self._wall: WallDrawing | None = None
        self.digit_px = 0.0
        """Height of the leading figures as last painted, pixels."""
        self.left_out = 0
        """Parts that the screen had no room for, as last painted."""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def show_told(self, told: Told, piece: Shown | None, wall: WallDrawing | None) -> None:
        """Shows another moment."""
        self._told, self._piece, self._wall = told, piece, wall
        self.setAccessibleName(told.spoken)
        self.update()

    def sizeHint(self) -> QSize:
        """Whatever is left."""
        sizes = Sizes.of(self)
        return QSize(sizes.px(1216), sizes.px(600))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Left the drawings, right the words."""
        sizes = Sizes.of(self)
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), theme().colour("surface"))
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            ink = Ink(painter, sizes)
            whole = QRectF(self.rect()).adjusted(sizes.px(SIDE), sizes.px(16), -sizes.px(SIDE), -sizes.px(14))
            left = sizes.px(LEFT) if self._piece is not None else round(whole.width() * 0.46)
            column = QRectF(whole.left(), whole.top(), left, whole.height())
            self._draw_left(ink, column)
            start = whole.left() + left + sizes.px(GAP if self._piece is not None else 40)
            self._draw_right(ink, QRectF(start, whole.top(), whole.right() - start, whole.height()))

    def _draw_left(self, ink: Ink, column: QRectF) -> None:
        if self._piece is None:
            if self._wall is not None:
                self._wall.draw(ink, column)
            return
        gap = ink.sizes.px(14)
        # The back with its strips leads in its pass: it gets more of the height.
        share = 0.62 if self._piece.back else 0.53
        high = (column.height() - gap) * share
        draw_piece(ink, QRectF(column.left(), column.top(), column.width(), high), self._piece)
        if self._wall is not None:
            self._wall.draw(ink, column.adjusted(0, high + gap, 0, 0))

    # The right column ---------------------------------------------------------------------------

    def _draw_right(self, ink: Ink, column: QRectF) -> None:
        blocks, wanted, dropped = self._fitted(ink, column)
        over = _over(blocks, column)
        self.digit_px, self.left_out = wanted, dropped
        y = column.top()
        spare = max(0.0, -over) / max(1, len(blocks))
        for block in blocks:
            block.draw(y)
            y += block.height + block.after + min(spare, ink.sizes.px(14))

    def _fitted(self, ink: Ink, column: QRectF) -> tuple[list[Block], float, int]:
        """The parts that fit, the height of figures, and how many parts were left out.

        Figures larger than 24 mm shrink to that first; then the least important parts go; only then
        do figures shrink further.
        """
        large, least = ink.sizes.digit_px, min(ink.sizes.digit_mm_px, ink.sizes.digit_px)
        wanted = large
        while True:
            blocks = self._blocks(ink, column, wanted)
            if wanted > least and _over(blocks, column) > 0:
                wanted = max(least, wanted - 4)
                continue
            dropped = 0
            while _over(blocks, column) > 0 and any(block.rank for block in blocks):
                blocks.remove(max(blocks, key=lambda block: block.rank))
                dropped += 1
            if _over(blocks, column) <= 0 or wanted <= ink.sizes.px(60):
                return blocks, wanted, dropped
            wanted = least = wanted - 4

    def _blocks(self, ink: Ink, column: QRectF, digit: float) -> list[Block]:
        told, blocks = self._told, []
        if told.call or told.said:
            blocks.append(self._call(ink, column))
        if told.chips:
            blocks.append(self._chips(ink, column))
        if told.number is not None:
            blocks.append(self._name(ink, column))
        blocks += [self._mind(ink, column, one) for one in told.minds]
        blocks.append(self._lead(ink, column))
        if told.figures and told.small:
            blocks.append(self._figures_beside(ink, column))
        else:
            blocks += [self._figure(ink, column, one, digit) for one in told.figures]
        if told.clock is not None:
            blocks.append(self._clock(ink, column, digit))
        if told.checks:
            blocks.append(self._sentence(ink, column, told.checks, 24 if told.figures else 32, 2))
        blocks += [self._sentence(ink, column, line, 20, 3 + place) for place, line in enumerate(told.lines)]
        return blocks

    def _call(self, ink: Ink, column: QRectF) -> Block:
        """A clock has run out: a whole band in the accent; a word about the last key: the same in pale."""
        sizes, words = ink.sizes, self._told.call or self._told.said
        calls = bool(self._told.call)
        high = sizes.height(words, 24, column.width() - sizes.px(70), semibold=True) + sizes.px(16)

        def draw(y: float) -> None:
            box = QRectF(column.left(), y, column.width(), high)
            ink.painter.fillRect(box, theme().colour("accent" if calls else "accent_wash"))
            token = "on_fill" if calls else "ink"
            if calls:
                ink.sign("clock", QPointF(box.left() + sizes.px(32), box.center().y()), sizes.px(26), token)
            left = sizes.px(60 if calls else 16)
            ink.words(box.adjusted(left, 0, -8, 0), words, 24, token, semibold=True, align=MIDDLE_LEFT)

        return Block(high, draw, 0, sizes.px(10))

    def _chips(self, ink: Ink, column: QRectF) -> Block:
        sizes, told = ink.sizes, self._told
        high = max(sizes.px(44), sizes.text_px(20) * 1.5)
        gap = sizes.px(8)
        wide = max(sizes.px(64), sizes.text_px(20) * 3.2)
        fits = max(1, int((column.width() + gap) // (wide + gap)))
        now = next((at for at, one in enumerate(told.chips) if one.state == "now"), 0)
        first = max(0, min(now - fits // 2, len(told.chips) - fits))
        shown = told.chips[first : first + fits]

        def draw(y: float) -> None:
            for place, chip in enumerate(shown):
                self._chip(ink, QRectF(column.left() + place * (wide + gap), y, wide, high), chip)

        return Block(high, draw, 1, sizes.px(12))

    def _chip(self, ink: Ink, box: QRectF, chip: Chip) -> None:
        edge = {"done": "ok", "waiting": "warn", "now": "accent", "open": "field_line"}[chip.state]
        token = {"done": "ok", "waiting": "warn", "now": "on_fill", "open": "ink"}[chip.state]
        ink.box(box, edge, "accent" if chip.state == "now" else "surface")
        sign = {"done": "tick", "waiting": "clock"}.get(chip.state)
        number = box if sign is None else box.adjusted(0, 0, -box.width() * 0.38, 0)
        ink.words(number, str(chip.number), 20, token, semibold=True, align=CENTRE)
        if sign is not None:
            size = min(ink.sizes.px(16), box.height() * 0.4)
            ink.sign(sign, QPointF(box.right() - box.width() * 0.28, box.center().y()), size, token)

    def _name(self, ink: Ink, column: QRectF) -> Block:
        sizes, told = ink.sizes, self._told
        side = sizes.px(76)
        room = column.width() - side - sizes.px(20)
        name_high = sizes.text_px(32) * 1.25
        how_high = min(sizes.height(told.how, 20, room), sizes.text_px(20) * 2.7)
        high = max(float(side), name_high + how_high)

        def draw(y: float) -> None:
            box = QRectF(column.left(), y, side, side)
            ink.painter.fillRect(box, theme().colour("accent"))
            ink.words(box, str(told.number), 48, "on_fill", semibold=True, align=CENTRE)
            left = box.right() + sizes.px(20)
            ink.words(QRectF(left, y, room, name_high), told.name, 32, semibold=True, align=MIDDLE_LEFT)
            ink.words(QRectF(left, y + name_high, room, how_high), told.how, 20, "pencil")

        return Block(high, draw, 0, sizes.px(10))

    def _mind(self, ink: Ink, column: QRectF, mind: Mind) -> Block:
        """What is wrong with hanging it so: sign, word and sentence in a box; nothing drives it out."""
        sizes = ink.sizes
        words = say("Stop: {words}", words=mind.words) if mind.level == "stop" else mind.words
        room = column.width() - sizes.px(66)
        text_high = sizes.height(words, 20, room)
        high = text_high + sizes.px(14)

        def draw(y: float) -> None:
            box = QRectF(column.left(), y, column.width(), high)
            ink.box(box, mind.level, "surface", 2)
            side = sizes.px(30)
            sign = QRectF(box.left() + sizes.px(14), box.center().y() - side / 2, side, side)
            draw_level(ink.painter, sign, mind.level, plate=False)
            text = QRectF(box.left() + sizes.px(54), y, room, high)
            ink.words(text, words, 20, "ink", align=MIDDLE_LEFT)

        return Block(high, draw, 0, sizes.px(10))

    def _lead(self, ink: Ink, column: QRectF) -> Block:
        sizes, told = ink.sizes, self._told
        rule = sizes.px(8) if told.number is not None else 0
        size = 28 if told.number is not None else 36
        lead_high = sizes.height(told.lead, size, column.width(), semibold=True)
        start = sizes.width(told.lead, size, semibold=True) + sizes.px(28)
        beside = bool(told.note) and start + sizes.width(told.note, 22) <= column.width()
        note_high = sizes.height(told.note, 22, column.width()) if told.note and not beside else 0.0
        high = rule + lead_high + note_high

        def draw(y: float) -> None:
            if rule:
                ink.line(column.left(), y, column.right(), y, "field_line")
            box = QRectF(column.left(), y + rule, column.width(), lead_high)
            ink.words(box, told.lead, size, semibold=True)
            if beside:
                ink.words(box.adjusted(start, 0, 2, 0), told.note, 22, "pencil", align=MIDDLE_LEFT)
            elif told.note:
                below = QRectF(column.left(), y + rule + lead_high, column.width(), note_high)
                ink.words(below, told.note, 22, "pencil")

        return Block(high, draw, 0, sizes.px(10))

    def _figure(self, ink: Ink, column: QRectF, figure: Figure, digit: float) -> Block:
        """The label above the number, so that the number has the whole width."""
        sizes = ink.sizes
        label_high = sizes.text_px(22) * 1.25
        wide = number_width(sizes, figure.number, digit)
        high_of_digits = digit * min(1.0, column.width() / max(1.0, wide))
        high = label_high + high_of_digits + sizes.px(10)

        def draw(y: float) -> None:
            label = sizes.width(figure.label, 22, semibold=True) + sizes.px(4)
            box = QRectF(column.left(), y, min(label, column.width()), label_high)
            ink.words(box, figure.label, 22, semibold=True, align=MIDDLE_LEFT)
            if figure.note:
                note = QRectF(box.right() + sizes.px(16), y, column.right() - box.right() - sizes.px(16), label_high)
                ink.words(note, figure.note, 20, "pencil", align=MIDDLE_LEFT)
            ink.digits(QPointF(column.left(), y + label_high + high_of_digits), figure.number, high_of_digits)

        return Block(high, draw, 0, sizes.px(10))

    def _figures_beside(self, ink: Ink, column: QRectF) -> Block:
        """Both numbers on one line, their labels above."""
        sizes, figures = ink.sizes, self._told.figures
        label_high = sizes.text_px(20) * 1.25
        digit = sizes.px(SMALL_DIGIT)
        each = column.width() / len(figures)

        def draw(y: float) -> None:
            for place, figure in enumerate(figures):
                left = column.left() + place * each
                label = QRectF(left, y, each - 8, label_high)
                ink.words(label, figure.label, 20, "pencil", align=MIDDLE_LEFT)
                ink.digits(QPointF(left, y + label_high + digit + sizes.px(4)), figure.number, digit)

        return Block(label_high + digit + sizes.px(6), draw, 0, sizes.px(10))

    def _clock(self, ink: Ink, column: QRectF, digit: float) -> Block:
        """The running number, its unit, and a bar."""
        sizes, clock = ink.sizes, self._told.clock
        assert clock is not None
        bar = sizes.px(14)
        high = digit + sizes.px(14) + bar

        def draw(y: float) -> None:
            self._draw_clock(ink, column, y, digit, clock)

        return Block(high, draw, 0, sizes.px(12))

    @staticmethod
    def _draw_clock(ink: Ink, column: QRectF, y: float, digit: float, clock: ClockFace) -> None:
        sizes = ink.sizes
        if clock.over:
            middle = QPointF(column.left() + digit * 0.6, y + digit / 2)
            ink.sign("tick", middle, digit, "ok")
        else:
            wide = ink.digits(QPointF(column.left(), y + digit), clock.number, digit)
            unit = QRectF(column.left() + wide + sizes.px(14), y, column.width() - wide - sizes.px(14), digit)
            ink.words(
                unit, clock.unit, 36, semibold=True, align=Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom
            )
        if clock.note:
            high = sizes.text_px(22) * 1.3
            note = QRectF(column.left() + column.width() * 0.7, y + digit - high, column.width() * 0.3, high)
            ink.words(note, clock.note, 22, "pencil", align=MIDDLE_RIGHT)
        bar = QRectF(column.left(), y + digit + sizes.px(14), column.width(), sizes.px(14))
        ink.bar(bar, clock.share)

    def _sentence(self, ink: Ink, column: QRectF, words: str, size: float, rank: int) -> Block:
        high = ink.sizes.height(words, size, column.width())

        def draw(y: float) -> None:
            ink.words(QRectF(column.left(), y, column.width(), high), words, size, "ink" if size > 20 else "pencil")

        return Block(high, draw, rank, ink.sizes.px(6))


def _over(blocks: list[Block], column: QRectF) -> float:
    """How much higher than the column they are, pixels."""
    return sum(block.height + block.after for block in blocks) - column.height()
