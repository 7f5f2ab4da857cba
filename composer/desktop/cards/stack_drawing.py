"""What lies behind the lip, cut through the lower rail: moulding, glazing, mat, print, back, and the room left."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_row import Words
from composer.desktop.room.piece_item import faded
from composer.desktop.units_shown import number
from composer.model import Frame
from composer.prints.fitting import SPARE_MM, Filling
from composer.texts import say
from composer.units import LengthStyle

HIGH_PX = 128
MOULDING_PX, LAYERS_PX = 76, 96
USUAL_DEPTH_MM = 20.0
LABEL_PX = 17
ZIGZAG_PX = 5


class StackDrawing(QWidget):
    """The section: front above, wall below, so that layers lie in the order in which they are laid in."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._filling: Filling | None = None
        self._frame: Frame | None = None
        self._style = LengthStyle("mm")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("Section through the lower rail, front above, wall below"))

    def show_filling(self, filling: Filling, frame: Frame, style: LengthStyle) -> None:
        """Shows another stack."""
        self._filling, self._frame, self._style = filling, frame, style
        self.setAccessibleDescription("; ".join(labels(filling, style)))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """High enough for the section and for a label a layer."""
        rows = 0 if self._filling is None else len(labels(self._filling, self._style))
        return QSize(look.px(280), max(look.px(HIGH_PX), rows * look.px(LABEL_PX)) + look.px(24))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Moulding, layers, free room, labels."""
        if self._filling is None or self._frame is None:
            return
        shades, filling, frame = look.colours(), self._filling, self._frame
        rabbet = filling.rabbet_mm or max(filling.thick_mm + SPARE_MM, 8.0)
        depth = float(frame.depth.mm) if frame.depth is not None else max(USUAL_DEPTH_MM, rabbet + 4)
        deepest = max(depth, depth - rabbet + filling.thick_mm)
        scale = look.px(HIGH_PX) / deepest
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(look.font(12))
            painter.setPen(shades.pencil)
            top = look.px(18)
            words = QRectF(0, 0, self.width(), look.px(16))
            painter.drawText(words, Qt.AlignmentFlag.AlignLeft, say("front above, wall below"))
            painter.translate(2, top)
            self._draw_moulding(painter, depth * scale, rabbet * scale)
            self._draw_layers(painter, filling, (depth - rabbet) * scale, depth * scale, scale)

    def _draw_moulding(self, painter: QPainter, depth: float, rabbet: float) -> None:
        """An L: the moulding's whole depth, and the lip in front of the rabbet."""
        shades, wide, lip = look.colours(), look.px(MOULDING_PX), look.px(14)
        front = depth - rabbet
        shape = QPolygonF(
            [QPointF(0, 0), QPointF(wide, 0), QPointF(wide, front), QPointF(wide - lip, front),
             QPointF(wide - lip, depth), QPointF(0, depth)]
        )  # fmt: skip
        painter.setPen(QPen(shades.ink, 1.2))
        painter.setBrush(shades.surface)
        painter.drawPolygon(shape)
        painter.setBrush(QBrush(faded(shades.pencil, 70), Qt.BrushStyle.BDiagPattern))
        painter.drawPolygon(shape)

    def _draw_layers(self, painter: QPainter, filling: Filling, front: float, back: float, scale: float) -> None:
        shades = look.colours()
        left, right = look.px(MOULDING_PX - 14) + 2.0, look.px(MOULDING_PX - 14) + 2.0 + look.px(LAYERS_PX)
        fills = {
            "glazing": faded(shades.chalk, 14),
            "mat": QColor("#F7F4EC"),
            "print": shades.ink,
            "backing": shades.line,
        }
        middles: list[float] = []
        y = front
        for part in filling.parts:
            high = part.mm * scale
            box = QRectF(left, y, right - left, max(1.0, high))
            painter.setPen(QPen(shades.ink, 0.8))
            painter.setBrush(fills[part.what])
            painter.drawRect(box)
            middles.append(box.center().y())
            y += high
        if (over := filling.left_mm) is not None and abs(over) > 0.05:
            free = QRectF(left, min(y, back), right - left, abs(back - y))
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(faded(shades.chalk if over > 0 else shades.stop, 42))
            painter.drawRect(free)
            middles.append(free.center().y())
        self._break(painter, (left + right) / 2 + look.px(14), front - 3, max(y, back) + 3)
        painter.setPen(QPen(shades.ink, 1, Qt.PenStyle.DashLine))
        painter.drawLine(QLineF(0, back, right, back))
        self._label(painter, labels(filling, self._style), middles, right)

    def _break(self, painter: QPainter, x: float, top: float, bottom: float) -> None:
        """The layers are longer than they are drawn."""
        shades = look.colours()
        for side in (0, look.px(6)):
            zigzag = [
                QPointF(x + side, top),
                QPointF(x + side + ZIGZAG_PX, (2 * top + bottom) / 3),
                QPointF(x + side - ZIGZAG_PX, (top + 2 * bottom) / 3),
                QPointF(x + side, bottom),
            ]
            painter.setPen(QPen(shades.surface, 3 if side else 2))
            painter.drawPolyline(zigzag)
            painter.setPen(QPen(shades.pencil, 1))
            painter.drawPolyline(zigzag)

    def _label(self, painter: QPainter, words: list[str], middles: list[float], right: float) -> None:
        """One label a layer, as far apart as letters need, each with a line to its layer."""
        shades, step = look.colours(), look.px(LABEL_PX)
        start = max(0.0, sum(middles) / len(middles) - step * (len(words) - 1) / 2) if middles else 0.0
        x = right + look.px(22)
        for place, (text, middle) in enumerate(zip(words, middles, strict=False)):
            y = start + place * step
            painter.setPen(QPen(shades.pencil, 1))
            painter.drawPolyline([QPointF(right - 6, middle), QPointF(right + look.px(6), middle), QPointF(x - 3, y)])
            painter.setFont(look.font(12))
            painter.setPen(shades.ink)
            room = QRectF(x, y - step / 2, self.width() - x - 4, step)
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, text)


def labels(filling: Filling, style: LengthStyle) -> list[str]:
    """Each layer with its thickness, front to back, then what is left; a figure nobody measured has a sign before it."""
    names = {
        "glazing": say("glazing"),
        "mat": say("mat"),
        "print": say("print"),
        "backing": say("back"),
    }
    found = [
        say("{layer} ≈ {mm}", layer=names[part.what], mm=number(part.mm, style))
        if part.assumed
        else say("{layer} {mm}", layer=names[part.what], mm=number(part.mm, style))
        for part in filling.parts
    ]
    if (left := filling.left_mm) is not None and abs(left) > 0.05:
        found.append(
            say("free {mm}", mm=number(left, style)) if left > 0 else say("too deep by {mm}", mm=number(-left, style))
        )
    return found


class StackBlock(QWidget):
    """The section, its sum, and how the frame is put together."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, look.px(4), 0, 0)
        column.setSpacing(look.px(4))
        self.head = Words(say("Behind the lip"), 12, "pencil", semibold=True)
        self.drawing = StackDrawing()
        self.sum = Words("", 12)
        self.touching = Words("", 12, "warn")
        self.recipe = Words("", 12)
        for part in (self.head, self.drawing, self.sum, self.touching, self.recipe):
            column.addWidget(part)

    def show_filling(self, filling: Filling, frame: Frame, style: LengthStyle, *, touches: bool) -> None:
        """Shows what lies in the frame."""
        self.drawing.show_filling(filling, frame, style)
        amounts = " + ".join(number(part.mm, style) for part in filling.parts)
        thick = number(filling.thick_mm, style)
        # Thicknesses nobody measured have more places than are shown: their shown figures need not add up.
        about = any(part.assumed for part in filling.parts)
        total = (
            say("{amounts} ≈ {thick}", amounts=amounts, thick=thick)
            if about
            else say("{amounts} = {thick}", amounts=amounts, thick=thick)
        )
        if filling.rabbet_mm is None:
            words = say("{total}; the rabbet's depth is not measured.", total=total)
        else:
            words = say("{total} of {rabbet}.", total=total, rabbet=number(filling.rabbet_mm, style))
        self.sum.setText(words)
        self.touching.setText(
            say("The print lies against the glazing and may stick to it: a mat or spacers keep them apart.")
        )
        self.touching.setVisible(touches)
        self.recipe.setText("\n".join(f"{place}.  {step}" for place, step in enumerate(filling.steps, start=1)))
