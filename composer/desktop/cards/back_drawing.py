"""The back of a frame, drawn to scale: how it hangs, and the measure being typed filled in chalk.

Left and right are as one sees them here, behind the frame; a point the model puts left of the
middle (as seen from the front) is therefore drawn right of it.
"""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.back_painting import Back, BackPainting
from composer.texts import say
from composer.units import Mm, show_length


class BackDrawing(QWidget):
    """The large back under the choice of hangers."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._back: Back | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("The back of the frame"))

    def show_back(self, back: Back | None) -> None:
        """Shows another back."""
        self._back = back
        self.setVisible(back is not None)
        if back is not None:
            self.setAccessibleDescription(described(back))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Room for a frame of any shape with its dimensions."""
        return QSize(look.px(300), look.px(224))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draws the back."""
        if self._back is None:
            return
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            BackPainting(painter, QRectF(self.rect()), self._back).draw()


def described(back: Back) -> str:
    """The same in words, for those who do not see it."""
    size = say(
        "{width} wide, {height} high, seen from behind.",
        width=show_length(Mm(back.hanging.width_mm), back.style),
        height=show_length(Mm(back.hanging.height_mm), back.style),
    )
    points = [
        say(
            "{across} from the left here, {down} below the top edge.",
            across=show_length(Mm(back.hanging.width_mm - point.x), back.style),
            down=show_length(Mm(back.hanging.height_mm - point.y), back.style),
        )
        for point in reversed(back.hanging.points)
    ]
    return " ".join([size, *points])


__all__ = ["Back", "BackDrawing", "described"]
