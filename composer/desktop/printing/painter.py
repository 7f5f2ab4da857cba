"""Paints the sheets' own primitives with Qt: for the preview, and at true scale on a printer.

The PDF is drawn from the same records elsewhere, so preview, paper and PDF cannot differ.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QMarginsF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFont, QImage, QPageLayout, QPageSize, QPainter, QPen, QPolygonF

from composer.desktop.theme import FAMILY
from composer.paper.primitives import MM_PER_PT, Box, Circle, Item, Line, Page, Photo, Polygon, Text

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

_WEIGHTS = {"regular": QFont.Weight.Normal, "semibold": QFont.Weight.DemiBold, "bold": QFont.Weight.Bold}
_FONT_UNIT = 100
"""Type is laid out a hundred times as large and scaled down: at 1 unit a millimetre, hinting would spoil it."""


def paint_page(painter: QPainter, page: Page, *, hairline_mm: float = 0.0) -> None:
    """Paints a page on a painter whose unit is 1 mm, origin at the page's upper left corner, y down.

    Args:
        painter: already scaled.
        page: what to paint.
        hairline_mm: no line is thinner than this, so that a small preview shows every line.
    """
    for item in page.items:
        _paint(painter, item, page.size[1], hairline_mm)


def _grey(share: float) -> QColor:
    return QColor.fromRgbF(share, share, share)


def _pen(width_pt: float | None, grey: float, dash: Sequence[float], hairline: float) -> QPen:
    if width_pt is None:
        return QPen(Qt.PenStyle.NoPen)
    width = max(width_pt * MM_PER_PT, hairline)
    pen = QPen(_grey(grey), width)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if dash:
        pen.setDashPattern([length / width for length in dash])
    return pen


def _paint(painter: QPainter, item: Item, height: float, hairline: float) -> None:
    if isinstance(item, Text):
        _paint_text(painter, item, height)
        return
    if isinstance(item, Line):
        painter.setPen(_pen(item.width_pt, item.grey, item.dash, hairline))
        painter.drawLine(QLineF(item.x1, height - item.y1, item.x2, height - item.y2))
        return
    if isinstance(item, Photo):
        place = QRectF(item.left, height - item.bottom - item.height, item.width, item.height)
        painter.drawImage(place, QImage.fromData(item.jpeg))
        return
    dash = item.dash if isinstance(item, Box) else ()
    painter.setPen(_pen(item.width_pt, item.grey, dash, hairline))
    painter.setBrush(Qt.BrushStyle.NoBrush if item.fill_grey is None else _grey(item.fill_grey))
    if isinstance(item, Box):
        painter.drawRect(QRectF(item.left, height - item.bottom - item.height, item.width, item.height))
    elif isinstance(item, Circle):
        painter.drawEllipse(QPointF(item.x, height - item.y), item.radius, item.radius)
    elif isinstance(item, Polygon):
        points = QPolygonF([QPointF(x, height - y) for x, y in item.points])
        if item.closed:
            painter.drawPolygon(points)
        else:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPolyline(points)


def _paint_text(painter: QPainter, item: Text, height: float) -> None:
    font = QFont(FAMILY)
    font.setPixelSize(max(1, round(item.size_pt * MM_PER_PT * _FONT_UNIT)))
    font.setWeight(_WEIGHTS[item.weight])
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    painter.save()
    painter.translate(item.x, height - item.y)
    painter.rotate(-item.turn)
    painter.scale(1 / _FONT_UNIT, 1 / _FONT_UNIT)
    painter.setFont(font)
    painter.setPen(_grey(item.grey))
    wide = painter.fontMetrics().horizontalAdvance(item.text)
    shift = {"left": 0.0, "centre": wide / 2, "right": float(wide)}[item.align]
    painter.drawText(QPointF(-shift, 0.0), item.text)
    painter.restore()


def page_layout(page: Page) -> QPageLayout:
    """The page as a printer is asked for it: its true size in mm, no margins of the system's own."""
    width, height = page.size
    landscape = width > height
    size = QPageSize(QSizeF(min(width, height), max(width, height)), QPageSize.Unit.Millimeter)
    way = QPageLayout.Orientation.Landscape if landscape else QPageLayout.Orientation.Portrait
    layout = QPageLayout(size, way, QMarginsF(0, 0, 0, 0), QPageLayout.Unit.Millimeter)
    layout.setMode(QPageLayout.Mode.FullPageMode)
    return layout


class PrintRun:
    """Sheets sent to a printer one by one, at true scale: a millimetre of the sheet is resolution ÷ 25.4 dots.

    Args:
        printer: a real printer, or one set to write a file.
        pages: what to print.
    """

    def __init__(self, printer: QPrinter, pages: Sequence[Page]) -> None:
        self._printer, self._pages = printer, pages
        self.sent = 0
        printer.setFullPage(True)
        printer.setPageMargins(QMarginsF(0, 0, 0, 0), QPageLayout.Unit.Millimeter)
        if pages:
            printer.setPageLayout(page_layout(pages[0]))
        self._painter = QPainter()
        self.is_open = bool(pages) and self._painter.begin(printer)

    @property
    def count(self) -> int:
        """Sheets in all."""
        return len(self._pages)

    def print_next(self) -> bool:
        """Sends one sheet; says whether there are more."""
        page = self._pages[self.sent]
        if self.sent:
            self._printer.setPageLayout(page_layout(page))
            self._printer.newPage()
        self._painter.save()
        dots = self._printer.resolution() / 25.4
        self._painter.scale(dots, dots)
        paint_page(self._painter, page)
        self._painter.restore()
        self.sent += 1
        return self.sent < self.count

    def close(self) -> None:
        """Hands what was sent to the printer."""
        if self._painter.isActive():
            self._painter.end()


def real_printers() -> list[str]:
    """Names of the printers the system knows; empty means only a file can be written."""
    from PySide6.QtPrintSupport import QPrinterInfo

    return list(QPrinterInfo.availablePrinterNames())
