"""How a finding is drawn in the panel: sign and word, piece, sentence, what to do. Long sentences wrap."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from composer.desktop import field_look as look
from composer.desktop.piece_model import Index
from composer.desktop.piece_rows import WRAP, height_of
from composer.desktop.room.piece_item import draw_level
from composer.texts import say

ROW = 26
"""Of one line, pixels at 100 %."""


def level_word(level: str) -> str:
    """The level in a word."""
    return {"stop": say("Stop"), "warn": say("Warn"), "note": say("Note")}[level]


@dataclass(frozen=True, slots=True)
class Shown:
    """What a row says."""

    level: str
    numbers: str
    name: str
    text: str
    do: str


class _Columns:
    """Where the parts of a row lie in a list of some width; the action stands right after the sentence."""

    def __init__(self, width: int) -> None:
        self.word = 16 + look.px(22)
        self.who = self.word + look.px(46)
        self.who_width = min(look.px(190), max(look.px(90), (width - self.who) // 5))
        self.text = self.who + self.who_width + look.px(10)
        rest = max(look.px(160), width - self.text - look.px(12))
        self.text_width = min(look.px(560), rest * 46 // 100)
        self.do = self.text + self.text_width + look.px(20)
        self.do_width = max(look.px(60), width - self.do - look.px(12))


class FindingRow(QStyledItemDelegate):
    """Draws one finding."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """As many lines as the longest part needs."""
        view = self.parent()
        assert isinstance(view, QListView)
        shown: Shown = index.data(Qt.ItemDataRole.UserRole)
        columns = _Columns(view.viewport().width())
        high = max(
            height_of(shown.text, 14, columns.text_width),
            height_of(shown.do, 14, columns.do_width),
            height_of(who(shown), 14, columns.who_width),
        )
        return QSize(100, max(look.px(ROW), high + look.px(6)))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Draws it."""
        shades, box = look.colours(), QRect(option.rect)
        shown: Shown = index.data(Qt.ItemDataRole.UserRole)
        columns = _Columns(box.width())
        painter.save()
        if option.state & (QStyle.StateFlag.State_MouseOver | QStyle.StateFlag.State_Selected):
            painter.fillRect(box, shades.surface_2)
        first = box.top() + look.px(ROW) // 2
        side = look.px(16)
        draw_level(painter, QRectF(16, first - side / 2, side, side), shown.level, plate=False)
        painter.setFont(look.font(12, semibold=True))
        painter.setPen({"stop": shades.stop, "warn": shades.warn}.get(shown.level, shades.pencil))
        line = QRect(columns.word, box.top(), look.px(46), look.px(ROW))
        painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, level_word(shown.level))
        painter.setFont(look.font(14))
        top = box.top() + (look.px(ROW) - height_of("X", 14, 1000)) // 2
        for words, left, width, shade in (
            (who(shown), columns.who, columns.who_width, shades.ink),
            (shown.text, columns.text, columns.text_width, shades.ink),
            (shown.do, columns.do, columns.do_width, shades.chalk),
        ):
            painter.setPen(shade)
            painter.drawText(QRect(left, top, width, box.bottom() - top + 1), WRAP, words)
        painter.restore()


def who(shown: Shown) -> str:
    """Numbers and name of what it is about."""
    return f"{shown.numbers}  {shown.name}".strip()
