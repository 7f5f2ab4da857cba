"""A part of the print as large on the screen as it will be on paper, to be looked at from where the wall is."""

from __future__ import annotations

import io
from pathlib import Path

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QCloseEvent, QImage, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_row import PushButton, Words
from composer.desktop.workers import Workers
from composer.prints.plan import PrintPlan
from composer.texts import say

PATCH_MM = (130.0, 90.0)
"""How much of the print is shown at most."""
BAR_MM = 50.0
MM_PER_INCH = 25.4


class PatchWindow(QDialog):
    """Shows the patch once it is decoded; dragging shows another part of the print."""

    _made = Signal(QImage)
    _failed = Signal(str)

    def __init__(self, path: Path, planned: PrintPlan, distance: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("As sharp as the print will be"))
        screen = self.screen()
        self.screen_ppi = screen.physicalDotsPerInchX() if screen is not None else 96.0
        self._ratio = self.devicePixelRatioF()
        self._path, self._planned = path, planned
        self._workers = Workers(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(look.px(16), look.px(14), look.px(16), look.px(14))
        column.setSpacing(look.px(8))
        width, height = (min(part, side) for part, side in zip(PATCH_MM, planned.needed_mm, strict=True))
        self._patch_mm = (width, height)
        self.patch = Patch(QSize(self._px(width), self._px(height)))
        self.patch.moved.connect(self._on_moved)
        column.addWidget(self.patch)
        self.bar = Bar(BAR_MM * self.screen_ppi / MM_PER_INCH)
        column.addWidget(self.bar)
        self.words = Words(distance, 14)
        column.addWidget(self.words)
        note = say(
            "The system says this screen has {ppi} pixels an inch. Hold a ruler to the bar: if it is not 50 mm, step "
            "nearer or farther by as much.",
            ppi=f"{self.screen_ppi * self._ratio:.0f}",
        )
        column.addWidget(Words(note, 12, "pencil"))
        close = PushButton(say("Close"))
        close.clicked.connect(self.accept)
        column.addWidget(close, 0, Qt.AlignmentFlag.AlignRight)
        self._centre = (0.5, 0.5)
        self._made.connect(self.patch.show_image)
        self._failed.connect(self.words.setText)
        self._ask()

    def _px(self, mm: float) -> int:
        return round(mm * self.screen_ppi / MM_PER_INCH)

    def _ask(self) -> None:
        path, crop, centre = self._path, self._planned.crop, self._centre
        needed, patch, ppi = self._planned.needed_mm, self._patch_mm, self.screen_ppi * self._ratio
        if crop is None:
            return

        def run() -> None:
            from composer.pictures.decoding import true_size_patch
            from composer.pictures.refused import BadPicture

            made = io.BytesIO()
            try:
                true_size_patch(path, crop, needed, centre, patch, ppi).save(made, "PNG")
                answer = QImage.fromData(made.getvalue())
                self._made.emit(answer)
            except (BadPicture, OSError) as problem:
                self._failed.emit(str(problem))
            except RuntimeError:
                return  # the window has gone meanwhile

        self._workers.clear()
        self._workers.start(run)

    def _on_moved(self, across: float, down: float) -> None:
        """Dragged by pixels: another part of the print."""
        wide, high = self._planned.needed_mm
        x = self._centre[0] - across / self.screen_ppi * MM_PER_INCH / wide
        y = self._centre[1] - down / self.screen_ppi * MM_PER_INCH / high
        half = (self._patch_mm[0] / wide / 2, self._patch_mm[1] / high / 2)
        self._centre = (min(max(x, half[0]), 1 - half[0]), min(max(y, half[1]), 1 - half[1]))
        self._ask()

    def wait(self) -> None:
        """Until the patch is there."""
        self._workers.wait()

    def done(self, result: int) -> None:
        """No more decoding."""
        self._workers.stop()
        super().done(result)

    def closeEvent(self, event: QCloseEvent) -> None:
        """No more decoding."""
        self._workers.stop()
        super().closeEvent(event)


class Patch(QWidget):
    """The part itself, pixel for pixel."""

    moved = Signal(float, float)

    def __init__(self, size: QSize, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFixedSize(size)
        self.setCursor(Qt.CursorShape.OpenHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(say("A part of the print in its own size"))
        self.image = QImage()
        self._pressed: QPointF | None = None

    def show_image(self, image: QImage) -> None:
        """Another part."""
        self.image = image
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Without any smoothing of our own."""
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), look.colours().surface_2)
            if not self.image.isNull():
                painter.drawImage(QRectF(self.rect()), self.image)
            if self.hasFocus():
                painter.setPen(QPen(look.colours().chalk, 2))
                painter.drawRect(self.rect().adjusted(1, 1, -1, -1))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows show the part beside: a quarter of the patch on."""
        steps = {
            Qt.Key.Key_Left: (1, 0), Qt.Key.Key_Right: (-1, 0), Qt.Key.Key_Up: (0, 1), Qt.Key.Key_Down: (0, -1),
        }  # fmt: skip
        step = steps.get(Qt.Key(event.key()))
        if step is None:
            super().keyPressEvent(event)
            return
        self.moved.emit(step[0] * self.width() / 4, step[1] * self.height() / 4)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Takes hold."""
        self._pressed = event.position()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Lets go: that part is shown."""
        if self._pressed is not None:
            by = event.position() - self._pressed
            self._pressed = None
            self.moved.emit(by.x(), by.y())


class Bar(QWidget):
    """A bar of 50 mm, to hold a ruler to."""

    def __init__(self, wide_px: float, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.wide_px = wide_px
        self.setFixedHeight(look.px(22))
        self.setAccessibleName(say("A bar of 50 mm"))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Line, open ticks, its length behind it."""
        shades = look.colours()
        with QPainter(self) as painter:
            painter.setPen(QPen(shades.pencil, 1))
            y, reach = self.height() / 2, look.px(4)
            painter.drawLine(QPointF(0.5, y), QPointF(self.wide_px, y))
            for x in (0.5, self.wide_px):
                painter.drawLine(QPointF(x, y - reach), QPointF(x, y + reach))
            painter.setFont(look.font(12))
            left = round(self.wide_px) + look.px(8)
            room = self.rect().adjusted(left, 0, 0, 0)
            painter.drawText(room, int(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft), say("50 mm"))
