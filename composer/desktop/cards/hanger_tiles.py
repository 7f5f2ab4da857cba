"""The ways to hang as little backs to choose from."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QGridLayout, QSizePolicy, QWidget

from composer.catalogue.names import hanger_name
from composer.desktop import field_look as look
from composer.model import HangerKind
from composer.texts import say

KINDS: tuple[HangerKind, ...] = ("wire", "d-rings", "sawtooth", "keyholes", "strips", "cleat", "ledge")


class HangerTiles(QWidget):
    """One tile a kind; arrows move between them, the chosen one has a 2 px ink edge and a semibold word."""

    chosen = Signal(str)

    def __init__(self, kinds: Sequence[HangerKind] = KINDS, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("How it hangs"))
        self.tiles: dict[str, _Tile] = {}
        group = QButtonGroup(self)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(look.px(6))
        columns = 4 if look.scale() < 1.3 else 3 if look.scale() < 1.7 else 2
        for place, kind in enumerate(kinds):
            tile = _Tile(kind)
            group.addButton(tile)
            tile.clicked.connect(partial(self._on_clicked, kind))
            grid.addWidget(tile, place // columns, place % columns)
            self.tiles[kind] = tile
        self._group = group

    def set_value(self, kind: str | None) -> None:
        """Shows the kind chosen, or none."""
        self._group.setExclusive(False)
        for name, tile in self.tiles.items():
            tile.setChecked(name == kind)
        self._group.setExclusive(True)

    @property
    def value(self) -> str | None:
        """The kind chosen."""
        return next((name for name, tile in self.tiles.items() if tile.isChecked()), None)

    def _on_clicked(self, kind: HangerKind, _: bool = False) -> None:
        self.chosen.emit(kind)


class _Tile(QAbstractButton):
    def __init__(self, kind: HangerKind, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._kind = kind
        self.setText(hanger_name(kind).capitalize() if kind != "d-rings" else hanger_name(kind))
        self.setAccessibleName(say("hangs by {hanger}", hanger=hanger_name(kind)))
        self.setToolTip(self.text())
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(max(look.px(68), look.width_of(self.text(), 12, semibold=True) + look.px(8)), look.px(58))

    def minimumSizeHint(self) -> QSize:
        return QSize(look.width_of(self.text(), 12, semibold=True) + look.px(6), look.px(58))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        shades = look.colours()
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            width = 2 if self.isChecked() or self.hasFocus() else 1
            edge = (
                shades.chalk
                if self.hasFocus()
                else shades.ink
                if self.isChecked() or self.underMouse()
                else shades.field_line
            )
            painter.setPen(QPen(edge, width))
            painter.setBrush(shades.surface_2 if self.isChecked() else shades.field)
            inset = width / 2
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), 3, 3)
            painter.setFont(look.font(12, semibold=self.isChecked()))
            painter.setPen(shades.ink)
            high = painter.fontMetrics().height()
            words = QRectF(2, self.height() - high - look.px(3), self.width() - 4, high)
            painter.drawText(words, Qt.AlignmentFlag.AlignCenter, self.text())
            wide = look.px(40)
            draw_little_back(painter, QRectF((self.width() - wide) / 2, look.px(6), wide, look.px(28)), self._kind)


def draw_little_back(painter: QPainter, box: QRectF, kind: HangerKind) -> None:
    """A frame from behind with one kind of hanger; a sign, not to scale."""
    shades = look.colours()
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(shades.ink, 1))
    painter.drawRect(box)
    painter.setPen(QPen(shades.pencil, 1))
    painter.drawRect(box.adjusted(4, 4, -4, -4))
    painter.setPen(QPen(shades.ink, 1.6))
    painter.setBrush(shades.ink)
    left, right, top, third = box.left() + 3, box.right() - 3, box.top(), box.height() / 3
    middle = box.center().x()
    if kind == "wire":
        painter.drawPolyline(
            QPolygonF([QPointF(left, top + third), QPointF(middle, top + third / 2), QPointF(right, top + third)])
        )
        for x in (left, right):
            painter.drawEllipse(QPointF(x, top + third), 2, 2)
    elif kind == "d-rings":
        painter.setBrush(shades.field)
        for x in (left, right):
            painter.drawEllipse(QPointF(x, top + third / 2), 2.4, 2.4)
            painter.drawLine(QPointF(x, top + third / 2 + 3), QPointF(x, top + third))
    elif kind == "sawtooth":
        teeth = [QPointF(middle - 9 + 3 * place, top + (2 if place % 2 else 5)) for place in range(7)]
        painter.drawPolyline(QPolygonF([QPointF(middle - 9, top + 2), *teeth, QPointF(middle + 9, top + 2)]))
    elif kind == "keyholes":
        for x in (left, right):
            painter.drawEllipse(QPointF(x, top + third), 1.8, 1.8)
            painter.drawLine(QPointF(x, top + third / 2), QPointF(x, top + third))
    elif kind == "strips":
        painter.setBrush(shades.accent_wash)
        for x in (left - 1, right - 3):
            painter.drawRect(QRectF(x, top + 3, 4, third))
    elif kind == "cleat":
        painter.drawRect(QRectF(left + 3, top + third / 2, box.width() - 12, 3))
    else:
        painter.drawRect(QRectF(box.left() - 5, box.bottom() + 1, box.width() + 10, 3))
