"""A painter that writes and draws in the sizes of the full screen and the colours in force."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from composer.desktop.hanging_day.sizes import Sizes, digit_share
from composer.desktop.theme import theme

Align = Qt.AlignmentFlag
TOP_LEFT = Align.AlignLeft | Align.AlignTop
MIDDLE_LEFT = Align.AlignLeft | Align.AlignVCenter
MIDDLE_RIGHT = Align.AlignRight | Align.AlignVCenter
CENTRE = Align.AlignCenter


LEAST_PX = 12.0
"""No text is made smaller than this to fit."""


class Ink:
    """Writes on a widget."""

    def __init__(self, painter: QPainter, sizes: Sizes) -> None:
        self.painter, self.sizes = painter, sizes

    def words(
        self,
        box: QRectF,
        text: str,
        size: float,
        token: str = "ink",
        *,
        semibold: bool = False,
        align: Align = TOP_LEFT,
    ) -> None:
        """A text in a box, wrapped; smaller where even so it would not fit, at last with an ellipsis."""
        pixels = self.sizes.text_px(size)
        flags = int(align.value) | int(Qt.TextFlag.TextWordWrap.value)
        font = self.sizes.exact_font(pixels, semibold=semibold)
        while pixels > LEAST_PX and not _fits(QFontMetricsF(font), box, flags, text):
            pixels = max(LEAST_PX, pixels - 1)
            font = self.sizes.exact_font(pixels, semibold=semibold)
        metrics = QFontMetricsF(font)
        if not _fits(metrics, box, flags, text):
            lines = max(1, int(box.height() // metrics.height()))
            text = metrics.elidedText(
                text, Qt.TextElideMode.ElideRight, box.width() * lines * (0.9 if lines > 1 else 1.0)
            )
            if lines == 1:
                flags = int(align.value)
        self.painter.setFont(font)
        self.painter.setPen(theme().colour(token))
        self.painter.drawText(box, flags, text)

    def digits(self, at: QPointF, text: str, high: float, token: str = "ink") -> float:
        """A number whose figures are ``high`` pixels, its lower left corner at a point; how wide it is."""
        self.painter.setPen(theme().colour(token))
        x = at.x()
        for part, font in number_parts(self.sizes, text, high):
            self.painter.setFont(font)
            self.painter.drawText(QPointF(x, at.y()), part)
            x += QFontMetricsF(font).horizontalAdvance(part)
        return x - at.x()

    def line(self, x1: float, y1: float, x2: float, y2: float, token: str = "line", width: float = 1) -> None:
        """A straight line."""
        self.painter.setPen(QPen(theme().colour(token), width))
        self.painter.drawLine(QPointF(x1, y1), QPointF(x2, y2))

    def box(self, box: QRectF, edge: str, fill: str | None = None, width: float = 1, *, dashed: bool = False) -> None:
        """A rectangle, its edge inside."""
        pen = QPen(theme().colour(edge), width)
        if dashed:
            pen.setDashPattern([3, 3])
        self.painter.setPen(pen)
        self.painter.setBrush(theme().colour(fill) if fill else QColor(0, 0, 0, 0))
        half = width / 2
        self.painter.drawRoundedRect(box.adjusted(half, half, -half, -half), 3, 3)
        self.painter.setBrush(Qt.BrushStyle.NoBrush)

    def bar(self, box: QRectF, share: float) -> None:
        """How much of a wait has passed."""
        self.box(box, "field_line", "field")
        inner = box.adjusted(1, 1, -1, -1)
        inner.setWidth(inner.width() * max(0.0, min(1.0, share)))
        self.painter.fillRect(inner, theme().colour("accent"))

    def sign(self, name: str, middle: QPointF, size: float, token: str = "ink") -> None:
        """A tick, a clock or an arrow around a point, ``size`` pixels wide."""
        painter, half = self.painter, size / 2
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        pen = QPen(theme().colour(token), max(1.5, size / 10))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        x, y = middle.x(), middle.y()
        if name == "tick":
            painter.drawPolyline(
                [QPointF(x - half, y), QPointF(x - half * 0.3, y + half * 0.65), QPointF(x + half, y - half * 0.65)]
            )
        elif name == "clock":
            painter.drawEllipse(middle, half, half)
            painter.drawPolyline([QPointF(x, y - half * 0.6), QPointF(x, y), QPointF(x + half * 0.45, y + half * 0.3)])
        elif name in ("back", "next"):
            way = -1 if name == "back" else 1
            painter.drawPolyline(
                [
                    QPointF(x - way * half * 0.4, y - half * 0.8),
                    QPointF(x + way * half * 0.4, y),
                    QPointF(x - way * half * 0.4, y + half * 0.8),
                ]
            )
        painter.restore()


def _fits(metrics: QFontMetricsF, box: QRectF, flags: int, text: str) -> bool:
    found = metrics.boundingRect(box, flags, text)
    return bool(found.height() <= box.height() + 0.5 and found.width() <= box.width() + 0.5)


SLASH_SHARE = 0.74
"""A fraction's stroke reaches above and below its figures; so much smaller it keeps to their height."""


def number_parts(sizes: Sizes, text: str, high: float) -> list[tuple[str, QFont]]:
    """A number's parts, each with its font, so that its figures are ``high`` pixels."""
    pixels = high / digit_share()
    figures = sizes.exact_font(pixels, semibold=True)
    stroke = sizes.exact_font(pixels * SLASH_SHARE, semibold=True)
    parts: list[tuple[str, QFont]] = []
    for at, part in enumerate(text.split("/")):
        if at:
            parts.append(("/", stroke))
        parts.append((part, figures))
    return parts


def number_width(sizes: Sizes, text: str, high: float) -> float:
    """How wide a number is, pixels."""
    return sum(QFontMetricsF(font).horizontalAdvance(part) for part, font in number_parts(sizes, text, high))
