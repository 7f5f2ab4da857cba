"""How a piece looks from the front: moulding with mitres, mat with its bevel, what the frame shows.

Drawn on whole device pixels, unantialiased but for the mitres, from one rectangle; the room and the
piece list use the same drawing.
"""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap, QPolygonF

from composer.desktop.theme import theme
from composer.model import Frame, Mat, Piece

USUAL_FACE_MM = 20.0
_WOODS = {
    "black": "#2F2C2A",
    "white": "#F0ECE4",
    "gold": "#B08A3E",
    "silver": "#A9A8A4",
    "oak": "#B98B52",
    "walnut": "#6B4A35",
    "pine": "#D2AE78",
    "ash": "#CDB894",
    "beech": "#C99F6C",
    "grey": "#8C8A86",
    "brown": "#7A5138",
}
_PRINTS = ("#8FA3AB", "#A8A58C", "#B59A86", "#7F8F86", "#A3909B", "#9A9488")
_MAT = QColor("#F7F4EC")


def moulding_colour(piece: Piece) -> QColor:
    """The moulding's colour as noted, by name or ``#RRGGBB``; else that of plain oak."""
    noted = (piece.frame.colour or "").strip().lower()
    if noted.startswith("#") and len(noted) == 7:
        return QColor(noted)
    words = f"{noted} {piece.frame.moulding or ''}"
    for name, value in _WOODS.items():
        if name in words:
            return QColor(value)
    return QColor(_WOODS["oak"])


def draw_shadow(painter: QPainter, box: QRectF, offsets: tuple[tuple[float, float, int], ...]) -> None:
    """Flat shadows without blur: (across, down, per cent of black), farthest first."""
    for across, down, percent in offsets:
        shade = QColor(40, 28, 16, round(255 * percent / 100))
        painter.fillRect(box.translated(across, down), shade)


AT_REST = ((1.0, 3.0, 12), (0.0, 1.5, 20))
IN_HAND = ((6.0, 10.0, 12), (3.0, 6.0, 18))
ON_FLOOR = ((0.0, 1.0, 20),)


def draw_piece(
    painter: QPainter,
    box: QRectF,
    piece: Piece,
    px_per_mm: float,
    *,
    turned: bool = False,
    picture: QPixmap | None = None,
) -> None:
    """The piece in ``box`` (device pixels) without tag or selection; the painter has no transform."""
    dark = theme().dark
    colour = moulding_colour(piece)
    face = (piece.frame.face.mm if piece.frame.face else min(USUAL_FACE_MM, piece.frame.width.mm / 8)) * px_per_mm
    face = max(2.0, min(face, box.width() / 2 - 1, box.height() / 2 - 1))
    inner = box.adjusted(face, face, -face, -face)
    inner = QRectF(round(inner.x()), round(inner.y()), round(inner.width()), round(inner.height()))
    painter.fillRect(box, colour)
    if inner.isValid():
        _draw_inside(painter, inner, piece, px_per_mm, turned=turned, picture=picture)
    if face >= 4:
        _draw_mitres(painter, box, inner, colour)
    if dark:
        painter.fillRect(box, QColor(0, 0, 0, 33))
    outline = QColor(237, 232, 225, 51) if dark else QColor(70, 45, 20, 46)
    painter.setPen(QPen(outline, 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(box.adjusted(0, 0, -1, -1))


def _draw_inside(
    painter: QPainter, inner: QRectF, piece: Piece, px_per_mm: float, *, turned: bool, picture: QPixmap | None
) -> None:
    window = inner
    if piece.mat is not None:
        painter.fillRect(inner, _MAT)
        window = _window(inner, piece, px_per_mm, turned=turned)
        window = QRectF(round(window.x()), round(window.y()), round(window.width()), round(window.height()))
    if window.width() < 2 or window.height() < 2:
        return
    if picture is not None and not picture.isNull():
        _draw_picture(painter, window, picture)
    else:
        painter.fillRect(window, QColor(_PRINTS[piece.number % len(_PRINTS)]))
        painter.fillRect(
            QRectF(window.x(), window.y() + window.height() * 0.62, window.width(), window.height() * 0.38),
            QColor(0, 0, 0, 26),
        )
    if piece.mat is not None and window.width() > 6:
        painter.setPen(QPen(QColor("#CFC8B9"), 1))
        painter.drawLine(window.topLeft(), window.topRight() - QPointF(1, 0))
        painter.drawLine(window.topLeft(), window.bottomLeft() - QPointF(0, 1))
        painter.setPen(QPen(QColor("#FFFFFF"), 1))
        painter.drawLine(window.bottomLeft(), window.bottomRight() - QPointF(1, 0))
        painter.drawLine(window.topRight(), window.bottomRight() - QPointF(0, 1))
    painter.setPen(QPen(QColor(0, 0, 0, 70), 1))
    painter.drawLine(inner.topLeft(), inner.topRight() - QPointF(1, 0))
    painter.drawLine(inner.topLeft(), inner.bottomLeft() - QPointF(0, 1))


def _draw_picture(painter: QPainter, window: QRectF, picture: QPixmap) -> None:
    """The picture, averaged down where it has more than twice the pixels: taking every other one would sparkle."""
    ratio = painter.device().devicePixelRatio()
    across, up = round(window.width() * ratio), round(window.height() * ratio)
    if picture.width() > 2 * across and across > 0 and up > 0:
        picture = picture.scaled(
            across, up, Qt.AspectRatioMode.IgnoreAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, True)
    painter.drawPixmap(window, picture, QRectF(picture.rect()))
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, False)


def _window(inner: QRectF, piece: Piece, px_per_mm: float, *, turned: bool) -> QRectF:
    """The mat's window to scale, wherever its borders put it; a usual border while it is not decided."""
    assert piece.mat is not None
    placed = mat_window_mm(piece.frame, piece.mat, turned)
    if placed is None:
        border = 0.18 * min(inner.width(), inner.height())
        return inner.adjusted(border, border, -border, -border)
    across, up, width, height = (part * px_per_mm for part in placed)
    middle = inner.center()
    window = QRectF(middle.x() + across - width / 2, middle.y() + up - height / 2, width, height)
    return window.intersected(inner)


@lru_cache(maxsize=4096)
def mat_window_mm(frame: Frame, mat: Mat, turned: bool) -> tuple[float, float, float, float] | None:
    """How far right of and below the frame's middle the window's middle is, its width and height, mm; None = not decided."""
    from composer.prints.mats import MatPlan, layout

    glass = frame.glass_mm
    if glass is None:
        return None
    made = layout(glass[::-1] if turned else glass, mat, "metric", turned=turned)
    if not isinstance(made, MatPlan):
        return None
    four = made.borders
    return (four.left - four.right) / 2, (four.top - four.bottom) / 2, *made.window_mm


def _draw_mitres(painter: QPainter, box: QRectF, inner: QRectF, colour: QColor) -> None:
    light, dark = colour.lighter(114), colour.darker(118)
    top = QPolygonF([box.topLeft(), box.topRight(), inner.topRight(), inner.topLeft()])
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour.lighter(105)))
    painter.drawPolygon(top)
    painter.setBrush(QColor(colour.darker(106)))
    painter.drawPolygon(QPolygonF([box.bottomLeft(), box.bottomRight(), inner.bottomRight(), inner.bottomLeft()]))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(QPen(colour.darker(135), 0.8))
    for outer, corner in (
        (box.topLeft(), inner.topLeft()),
        (box.topRight(), inner.topRight()),
        (box.bottomLeft(), inner.bottomLeft()),
        (box.bottomRight(), inner.bottomRight()),
    ):
        painter.drawLine(QLineF(outer, corner))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setPen(QPen(light, 1))
    painter.drawLine(box.topLeft(), box.topRight() - QPointF(1, 0))
    painter.drawLine(box.topLeft(), box.bottomLeft() - QPointF(0, 1))
    painter.setPen(QPen(dark, 1))
    painter.drawLine(box.bottomLeft() - QPointF(0, 1), box.bottomRight() - QPointF(1, 1))
    painter.drawLine(box.topRight() - QPointF(1, 0), box.bottomRight() - QPointF(1, 1))
