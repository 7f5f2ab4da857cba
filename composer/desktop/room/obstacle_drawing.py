"""Plain drawings of furniture and fittings: flats with thin edges, as in a joiner's elevation."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from composer.desktop.theme import theme


def draw_obstacle(painter: QPainter, box: QRectF, kind: str) -> None:
    """The thing in ``box``, device pixels."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    _DRAWINGS.get(kind, _plain)(painter, box)


def _flat(light: str, dark: str) -> QColor:
    return QColor(dark if theme().dark else light)


def _sage(step: int = 0) -> QColor:
    return (_flat("#979C8A", "#6E7364"), _flat("#A7AC9B", "#7C8172"), _flat("#B1B6A6", "#878C7D"))[step]


def _wood() -> QColor:
    return _flat("#7B6A58", "#6A5A49")


def _edge() -> QPen:
    return QPen(_flat("#7A7F6E", "#4E5247"), 1)


def _block(painter: QPainter, box: QRectF, fill: QColor, radius: float = 0) -> None:
    painter.setPen(_edge())
    painter.setBrush(fill)
    if radius:
        painter.drawRoundedRect(box, radius, radius)
    else:
        painter.drawRect(box.adjusted(0, 0, -1, -1))


def _part(box: QRectF, left: float, top: float, right: float, bottom: float) -> QRectF:
    """A part of the box by fractions of its size."""
    return QRectF(
        QPointF(round(box.x() + left * box.width()), round(box.y() + top * box.height())),
        QPointF(round(box.x() + right * box.width()), round(box.y() + bottom * box.height())),
    )


def _sofa(painter: QPainter, box: QRectF) -> None:
    for left in (0.02, 0.94):
        painter.fillRect(_part(box, left, 0.88, left + 0.03, 1), _wood())
    _block(painter, _part(box, 0.04, 0, 0.96, 0.6), _sage(0), 4)
    for place in range(3):
        left = 0.09 + place * 0.82 / 3
        _block(painter, _part(box, left, 0.05, left + 0.82 / 3, 0.48), _sage(1), 4)
        _block(painter, _part(box, left, 0.48, left + 0.82 / 3, 0.7), _sage(2), 4)
    _block(painter, _part(box, 0.04, 0.7, 0.96, 0.89), _sage(0))
    for left in (0.0, 0.9):
        _block(painter, _part(box, left, 0.28, left + 0.1, 0.89), _sage(1), 4)


def _bed(painter: QPainter, box: QRectF) -> None:
    for left in (0.02, 0.94):
        painter.fillRect(_part(box, left, 0.85, left + 0.04, 1), _wood())
    _block(painter, _part(box, 0, 0, 1, 0.7), _wood(), 3)
    for left in (0.08, 0.54):
        _block(painter, _part(box, left, 0.28, left + 0.38, 0.52), _flat("#F3EFE7", "#B9B3A8"), 4)
    _block(painter, _part(box, 0.01, 0.5, 0.99, 0.88), _sage(1), 4)


def _cot(painter: QPainter, box: QRectF) -> None:
    painter.setPen(QPen(_wood(), 2))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(_part(box, 0, 0, 1, 0.9))
    bars = max(4, int(box.width() // 9))
    for bar in range(1, bars):
        x = round(box.x() + box.width() * bar / bars)
        painter.drawLine(QPointF(x, box.y()), QPointF(x, box.y() + 0.9 * box.height()))
    for left in (0.0, 0.97):
        painter.fillRect(_part(box, left, 0.9, left + 0.03, 1), _wood())


def _seat(painter: QPainter, box: QRectF) -> None:
    for left in (0.04, 0.9):
        painter.fillRect(_part(box, left, 0.6, left + 0.06, 1), _wood())
    _block(painter, _part(box, 0.06, 0, 0.94, 0.55), _sage(1), 3)
    _block(painter, _part(box, 0, 0.5, 1, 0.64), _sage(2), 3)


def _table(painter: QPainter, box: QRectF) -> None:
    for left in (0.03, 0.91):
        painter.fillRect(_part(box, left, 0.05, left + 0.06, 1), _wood())
    painter.fillRect(_part(box, 0.06, 0.72, 0.94, 0.77), _flat("#A98F6F", "#7D6A52"))
    _block(painter, _part(box, 0, 0, 1, 0.1), _flat("#B0997A", "#86725A"))


def _door(painter: QPainter, box: QRectF) -> None:
    _block(painter, box, _flat("#F4F0E9", "#4A4641"))
    _block(painter, box.adjusted(5, 5, -5, 0), _flat("#EBE6DD", "#403C38"))
    painter.setBrush(_wood())
    painter.setPen(Qt.PenStyle.NoPen)
    painter.drawEllipse(QPointF(box.x() + box.width() * 0.88, box.y() + box.height() * 0.52), 3, 3)


def _window(painter: QPainter, box: QRectF) -> None:
    _block(painter, box, _flat("#FBF8F4", "#5A554F"))
    glass = box.adjusted(5, 5, -5, -5)
    _block(painter, glass, _flat("#DCE4E6", "#2C3338"))
    middle = round(glass.center().x())
    painter.fillRect(QRectF(middle - 2, glass.y(), 4, glass.height()), _flat("#FBF8F4", "#5A554F"))


def _plate(painter: QPainter, box: QRectF) -> None:
    _block(painter, box, _flat("#FBF8F4", "#C9C2B8"), 2)
    _block(painter, _part(box, 0.3, 0.25, 0.7, 0.75), _flat("#F1EDE7", "#B4ADA3"))


def _socket(painter: QPainter, box: QRectF) -> None:
    _block(painter, box, _flat("#FBF8F4", "#C9C2B8"), 2)
    painter.setBrush(_flat("#E6E1DA", "#A59E94"))
    painter.drawEllipse(box.center(), box.width() * 0.3, box.width() * 0.3)


def _radiator(painter: QPainter, box: QRectF) -> None:
    _block(painter, box, _flat("#F7F4EF", "#6A655E"), 2)
    ribs = max(3, int(box.width() // 10))
    painter.setPen(_edge())
    for rib in range(1, ribs):
        x = round(box.x() + box.width() * rib / ribs)
        painter.drawLine(QPointF(x, box.y() + 4), QPointF(x, box.bottom() - 4))


def _shelf(painter: QPainter, box: QRectF) -> None:
    _block(painter, box, _flat("#B0997A", "#86725A"))


def _round(painter: QPainter, box: QRectF) -> None:
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(_edge())
    painter.setBrush(_flat("#FBF8F4", "#C9C2B8"))
    painter.drawEllipse(box)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


def _grille(painter: QPainter, box: QRectF) -> None:
    _block(painter, box, _flat("#F1EDE7", "#5A554F"))
    painter.setPen(_edge())
    for y in range(round(box.y()) + 4, round(box.bottom()) - 2, 5):
        painter.drawLine(QPointF(box.x() + 3, y), QPointF(box.right() - 4, y))


def _rail(painter: QPainter, box: QRectF) -> None:
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(QPen(_wood(), 4))
    painter.drawLine(box.bottomLeft(), box.topRight())
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


def _plain(painter: QPainter, box: QRectF) -> None:
    painter.setPen(QPen(theme().colour("pencil"), 1))
    painter.setBrush(QColor(theme().colour("surface_2")))
    painter.drawRect(box.adjusted(0, 0, -1, -1))


_DRAWINGS: dict[str, Callable[[QPainter, QRectF], None]] = {
    "sofa": _sofa,
    "bed": _bed,
    "cot": _cot,
    "seat": _seat,
    "table": _table,
    "door": _door,
    "window": _window,
    "switch": _plate,
    "thermostat": _plate,
    "socket": _socket,
    "tap": _round,
    "detector": _round,
    "radiator": _radiator,
    "shelf": _shelf,
    "grille": _grille,
    "stair-rail": _rail,
}
