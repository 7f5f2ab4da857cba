"""How a row of the piece list is drawn, and how high it must be for its words.

A name that does not fit one line takes two; nothing a person typed is cut. Where the list is narrow
it is grouped by place, under heads drawn on each group's first row, and weights drop out.
"""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from composer.desktop import field_look as look
from composer.desktop import icons
from composer.desktop.piece_model import THUMBNAIL, Index, PieceModel, place_words
from composer.desktop.room.drawing import draw_piece
from composer.desktop.room.piece_item import draw_level
from composer.desktop.theme import theme
from composer.model import Piece

ROW_HEIGHT, NARROW_ROW_HEIGHT = 50, 44
HEAD_HEIGHT = 26
"""Of the head of a group."""

NARROW = 260
"""A list narrower than this, at 100 % text, is grouped."""

WRAP = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap)


@lru_cache(maxsize=4096)
def _height(words: str, size: int, width: int, percent: int) -> int:
    """As :func:`field_look.height_of`, remembered: a long list asks for every row again and again."""
    return look.height_of(words, size, width)


def height_of(words: str, size: int, width: int) -> int:
    """How high words stand in a row of that width, pixels; none when there are none."""
    return _height(words, size, width, theme().text_percent) if words else 0


class _Places:
    """Where the parts of a row lie."""

    def __init__(self, box: QRect, model: PieceModel, row: int) -> None:
        self.head = QRect(
            box.left(), box.top(), box.width(), look.px(HEAD_HEIGHT) if model.head(row) and not model.folded else 0
        )
        body = box.adjusted(0, self.head.height(), 0, 0)
        self.body = body
        self.place = QRect()
        if model.folded:
            # The number over the thumbnail, the finding's sign beside it.
            high = look.px(18)
            side = look.px(16)
            self.number = QRect(body.left() + 8, body.top() + 3, body.width() - 8, high)
            self.level = QRect(body.right() - 4 - side, body.top() + 4, side, side)
            self.picture = QRect(body.left() + 4, self.number.bottom() + 2, body.width() - 8, THUMBNAIL)
            self.words = QRect()
            return
        left = body.left() + 12
        self.number = QRect(left, body.top(), look.px(22), body.height())
        left = self.number.right() + 1
        side = THUMBNAIL if not model.grouped else THUMBNAIL - 4
        self.picture = QRect(left, body.top(), side, body.height())
        left = self.picture.right() + 9
        right = body.right() - 10
        if not model.grouped:
            wide = look.px(20) + 2 + max(QFontMetrics(look.font(12)).horizontalAdvance(word) for word in place_words())
            self.place = QRect(right - wide, body.top(), wide, body.height())
            right -= wide + 2
        side = look.px(16)
        self.level = QRect(right - side, body.center().y() - side // 2, side, side)
        if model.level(model.keys[row]) is not None:
            right -= side + 4
        self.words = QRect(left, body.top() + 5, max(40, right - left), body.height() - 10)


class RowDelegate(QStyledItemDelegate):
    """Draws a row: number, picture, name over size and weight, what is lacking, finding, place."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """As high as the words need at the width of the list."""
        model = index.model()
        view = self.parent()
        assert isinstance(model, PieceModel) and isinstance(view, QListView)
        if model.folded:
            return QSize(look.px(48), look.px(18) + THUMBNAIL + 12)
        width = view.viewport().width()
        places = _Places(QRect(0, 0, width, 1000), model, index.row())
        piece = model.project.piece_by_key[model.keys[index.row()]]
        wide = places.words.width()
        high = height_of(piece.name, 14, wide)
        high += sum(height_of(words, 12, wide) for words in (model.size_words(piece), model.lacking(piece)))
        least = look.px(NARROW_ROW_HEIGHT if model.grouped else ROW_HEIGHT)
        return QSize(100, max(least, THUMBNAIL + 6, high + 10) + places.head.height())

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Draws it."""
        model = index.model()
        assert isinstance(model, PieceModel)
        shades, box, state = look.colours(), QRect(option.rect), option.state
        piece = model.project.piece_by_key[model.keys[index.row()]]
        places = _Places(box, model, index.row())
        painter.save()
        if places.head.height():
            self._head(painter, places.head, model, index.row())
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        over = bool(state & QStyle.StateFlag.State_MouseOver)
        body = places.body
        painter.fillRect(body, shades.accent_wash if chosen else shades.surface_2 if over else shades.surface)
        if chosen:
            painter.fillRect(QRect(body.left(), body.top(), 3, body.height()), shades.accent)
        painter.setPen(shades.line)
        painter.drawLine(body.bottomLeft(), body.bottomRight())
        painter.setFont(look.font(14, semibold=True))
        painter.setPen(shades.ink)
        painter.drawText(places.number, Qt.AlignmentFlag.AlignVCenter, str(piece.number))
        self._thumbnail(painter, places.picture, piece, model)
        if not model.folded:
            self._words(painter, places.words, piece, model)
        if (level := model.level(piece.key)) is not None:
            draw_level(painter, QRectF(places.level), level, plate=False)
        if not model.grouped and not model.folded:
            self._place(painter, places.place, model, piece)
        if state & QStyle.StateFlag.State_HasFocus and state & QStyle.StateFlag.State_KeyboardFocusChange:
            painter.setPen(QPen(shades.chalk, 2))
            painter.drawRect(body.adjusted(1, 1, -2, -2))
        painter.restore()

    def _head(self, painter: QPainter, box: QRect, model: PieceModel, row: int) -> None:
        shades, (words, drawing, count) = look.colours(), model.head(row) or ("", "", 0)
        painter.fillRect(box, shades.surface_2)
        painter.setPen(shades.line)
        painter.drawLine(box.bottomLeft(), box.bottomRight())
        side = look.px(14)
        icons.icon(drawing).paint(painter, QRect(box.left() + 12, box.center().y() - side // 2, side, side))
        painter.setFont(look.font(12, semibold=True))
        painter.setPen(shades.ink)
        painter.drawText(box.adjusted(18 + side, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, words)
        left = 26 + side + look.width_of(words, 12, semibold=True)
        painter.setFont(look.font(12))
        painter.setPen(shades.pencil)
        painter.drawText(box.adjusted(left, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, str(count))

    def _thumbnail(self, painter: QPainter, box: QRect, piece: Piece, model: PieceModel) -> None:
        width, height = (max(4, round(side * model.px_per_mm)) for side in piece.size_mm())
        left, top = box.center().x() - width // 2, box.center().y() - height // 2
        painter.save()
        picture = model.picture_of(piece.key)
        draw_piece(painter, QRectF(left, top, width, height), piece, model.px_per_mm, picture=picture)
        painter.restore()

    def _words(self, painter: QPainter, box: QRect, piece: Piece, model: PieceModel) -> None:
        shades = look.colours()
        lines = [(piece.name, 14, shades.ink), (model.size_words(piece), 12, shades.pencil)]
        if lacking := model.lacking(piece):
            lines.append((lacking, 12, shades.pencil))
        heights = [height_of(words, size, box.width()) for words, size, _ in lines]
        top = box.center().y() - sum(heights) // 2 + 1
        for (words, size, shade), high in zip(lines, heights, strict=True):
            painter.setFont(look.font(size))
            painter.setPen(shade)
            painter.drawText(QRectF(box.left(), top, box.width(), high + 1), WRAP, words)
            top += high

    def _place(self, painter: QPainter, box: QRect, model: PieceModel, piece: Piece) -> None:
        words, drawing = model.where(piece.key), model.drawing_of_place(piece.key)
        side = look.px(14)
        icons.icon(drawing).paint(painter, QRect(box.left(), box.center().y() - side // 2, side, side))
        painter.setFont(look.font(12))
        painter.setPen(look.colours().pencil)
        at = QPointF(box.left() + look.px(20), box.center().y() + QFontMetrics(look.font(12)).ascent() / 2 - 1)
        painter.drawText(at, words)
