"""How a row of the piece list is drawn."""

from __future__ import annotations

from PySide6.QtCore import (
    QPointF,
    QRect,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import (
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
)

from composer.desktop import icons
from composer.desktop.piece_model import THUMBNAIL, Index, PieceModel, size_of
from composer.desktop.room.drawing import draw_piece
from composer.desktop.room.piece_item import draw_level
from composer.desktop.theme import theme
from composer.model import Piece
from composer.texts import say
from composer.units import MassUnit, show_mass

ROW_HEIGHT = 50


class RowDelegate(QStyledItemDelegate):
    """Draws a row."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """One height for all rows."""
        return QSize(160, max(theme().px(ROW_HEIGHT), THUMBNAIL + 6))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Number, picture, name over size and weight, finding, place."""
        model = index.model()
        assert isinstance(model, PieceModel)
        look, box = theme(), option.rect
        state = option.state
        piece = model.project.piece_by_key[model.keys[index.row()]]
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        painter.save()
        ground = "accent_wash" if chosen else "surface_2" if state & QStyle.StateFlag.State_MouseOver else "surface"
        painter.fillRect(box, look.colour(ground))
        if chosen:
            painter.fillRect(QRect(box.left(), box.top(), 3, box.height()), look.colour("accent"))
        painter.setPen(look.colour("line"))
        painter.drawLine(box.bottomLeft(), box.bottomRight())
        left = box.left() + 12
        painter.setFont(look.font(14, semibold=True))
        painter.setPen(look.colour("ink"))
        number_width = look.px(22)
        painter.drawText(
            QRect(left, box.top(), number_width, box.height()), Qt.AlignmentFlag.AlignVCenter, str(piece.number)
        )
        left += number_width
        self._thumbnail(painter, QRect(left, box.top(), THUMBNAIL, box.height()), piece, model)
        left += THUMBNAIL + 10
        where = model.where(piece.key)
        metrics = QFontMetrics(look.font(12))
        where_width = 22 + max(metrics.horizontalAdvance(word) for word in (say("floor"), say("locked"), say("wall")))
        right = box.right() - 10 - where_width
        self._place(painter, QRect(right, box.top(), where_width, box.height()), where)
        level = model.level(piece.key)
        if level is not None:
            right -= 20
            draw_level(painter, QRectF(right, box.center().y() - 8, 16, 16), level, plate=False)
        self._words(painter, QRect(left, box.top(), right - left - 6, box.height()), piece, model)
        if state & QStyle.StateFlag.State_HasFocus and state & QStyle.StateFlag.State_KeyboardFocusChange:
            painter.setPen(QPen(look.colour("chalk"), 2))
            painter.drawRect(box.adjusted(1, 1, -2, -2))
        painter.restore()

    def _thumbnail(self, painter: QPainter, box: QRect, piece: Piece, model: PieceModel) -> None:
        width, height = (max(4, round(side * model.px_per_mm)) for side in piece.size_mm())
        left, top = box.center().x() - width // 2, box.center().y() - height // 2
        painter.save()
        draw_piece(painter, QRectF(left, top, width, height), piece, model.px_per_mm)
        painter.restore()

    def _words(self, painter: QPainter, box: QRect, piece: Piece, model: PieceModel) -> None:
        look = theme()
        upper, lower = QFontMetrics(look.font(14)), QFontMetrics(look.font(12))
        top = box.center().y() - (upper.height() + lower.height()) // 2
        painter.setFont(look.font(14))
        painter.setPen(look.colour("ink"))
        name = upper.elidedText(piece.name, Qt.TextElideMode.ElideRight, box.width())
        painter.drawText(QPointF(box.left(), top + upper.ascent()), name)
        parts = size_of(piece, model.project)
        if piece.weight is not None:
            unit: MassUnit = "lb" if model.project.units == "imperial" else "kg"
            parts = say("{size}, {weight}", size=parts, weight=show_mass(piece.weight.exact_kg, unit))
        painter.setFont(look.font(12))
        painter.setPen(look.colour("pencil"))
        parts = lower.elidedText(parts, Qt.TextElideMode.ElideRight, box.width())
        painter.drawText(QPointF(box.left(), top + upper.height() + lower.ascent()), parts)

    def _place(self, painter: QPainter, box: QRect, where: str) -> None:
        look = theme()
        drawing = {say("floor"): "floor", say("locked"): "lock"}.get(where, "wall")
        icons.icon(drawing).paint(painter, QRect(box.left(), box.center().y() - 7, 14, 14))
        painter.setFont(look.font(12))
        painter.setPen(look.colour("pencil"))
        painter.drawText(box.adjusted(20, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, where)
