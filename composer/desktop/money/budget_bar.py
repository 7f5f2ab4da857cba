"""The budget as a line to scale: each kind of shop takes its share, what is left stays open."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from composer.costing.costs import Costs
from composer.costing.items import SHOPS, shop_name
from composer.costing.shown import show_money
from composer.desktop import field_look as look
from composer.texts import say


class BudgetBar(QWidget):
    """Shops by number, as their heads below have them; open and dashed is what may still be spent."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._parts: list[tuple[str, float]] = []
        self._whole = 0.0
        self._budget: float | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_costs(self, costs: Costs) -> None:
        """Other costs."""
        shops = [shop for shop in SHOPS if costs.of_shop(shop) > 0]
        self._parts = [(str(place + 1), float(costs.of_shop(shop))) for place, shop in enumerate(shops)]
        self._budget = None if costs.budget is None else float(costs.budget)
        self._whole = max(float(costs.total), self._budget or 0.0)
        words = ", ".join(
            say("{shop} {amount}", shop=shop_name(shop), amount=show_money(costs.of_shop(shop), costs.currency))
            for shop in shops
        )
        self.setAccessibleName(say("Where the money goes: {shops}", shops=words))
        self.setToolTip(words)
        self.setVisible(self._whole > 0)
        self.update()

    def sizeHint(self) -> QSize:
        """A thick line."""
        return QSize(look.px(200), look.px(22))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Parts in turn on surface-2 and field, their numbers where there is room."""
        if self._whole <= 0:
            return
        shades, x = look.colours(), 0.0
        across = (self.width() - 1) / self._whole
        with QPainter(self) as painter:
            painter.setFont(look.font(12, semibold=True))
            for place, (number, value) in enumerate(self._parts):
                box = QRectF(x + 0.5, 0.5, value * across, self.height() - 1)
                painter.setPen(QPen(shades.field_line, 1))
                painter.setBrush(shades.field if place % 2 else shades.surface_2)
                painter.drawRect(box)
                if box.width() > look.width_of(number, 12, semibold=True) + 6:
                    painter.setPen(shades.ink)
                    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, number)
                x += value * across
            painter.setBrush(Qt.BrushStyle.NoBrush)
            if self._budget is None:
                return
            end = self._budget * across
            if end > x + 1:
                painter.setPen(QPen(shades.field_line, 1, Qt.PenStyle.DashLine))
                painter.drawRect(QRectF(x + 0.5, 0.5, end - x, self.height() - 1))
            elif end < x - 1:
                painter.setPen(QPen(shades.stop, 2))
                painter.drawLine(
                    QRectF(end, 0, 0, self.height()).topLeft(), QRectF(end, 0, 0, self.height()).bottomLeft()
                )
