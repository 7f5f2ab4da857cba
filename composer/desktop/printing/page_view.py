"""One sheet on the screen: fitted into its place, or at its true size."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from composer.desktop import field_look as look
from composer.desktop.printing.painter import paint_page
from composer.paper.primitives import Page
from composer.texts import say


class PageView(QWidget):
    """Paper stays white in the dark scheme: it shows what will be printed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._page: Page | None = None
        self._words = ""
        self.setMinimumSize(look.px(240), look.px(240))
        self.setAccessibleName(say("Preview"))

    def show_page(self, page: Page | None, words: str = "") -> None:
        """Shows a page, or the sentence why there is none."""
        self._page, self._words = page, words
        self.setAccessibleDescription(words if page is None else page.label)
        self.update()

    def sizeHint(self) -> QSize:
        """As in the window."""
        return QSize(look.px(536), look.px(520))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The page with its printable edge, or the sentence."""
        shades = look.colours()
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            if self._page is None:
                painter.setFont(look.font(14))
                painter.setPen(shades.pencil)
                painter.drawText(self.rect(), int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap), self._words)
                return
            width, height = self._page.size
            scale = min((self.width() - 4) / width, (self.height() - 4) / height)
            left = (self.width() - width * scale) / 2
            painter.translate(left, 2)
            painter.scale(scale, scale)
            painter.fillRect(QRectF(0, 0, width, height), Qt.GlobalColor.white)
            painter.setClipRect(QRectF(0, 0, width, height))
            paint_page(painter, self._page, hairline_mm=0.6 / scale)
            painter.setPen(QPen(shades.field_line, 1 / scale))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setClipping(False)
            painter.drawRect(QRectF(0, 0, width, height))
