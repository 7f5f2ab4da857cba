"""The stock print as it comes from the lab, to scale: what is kept, the waste hatched, the cuts in their order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_row import LinkButton, Words
from composer.desktop.units_shown import number
from composer.editing.print_edits import choose_print
from composer.model import Key
from composer.prints.plan import PrintPlan
from composer.texts import say, say_many
from composer.units import LengthStyle

SIDE_PX = 120
"""Longer side of the sheet as drawn."""
LEAST_WASTE_MM = 1e-6

Edge = Literal["right", "bottom", "left", "top"]
ORDER: tuple[Edge, ...] = ("right", "bottom", "left", "top")


@dataclass(frozen=True, slots=True)
class TrimCut:
    """One cut: which edge goes, and how much of it, mm."""

    edge: Edge
    mm: float

    def words(self, style: LengthStyle) -> str:
        """What is cut off."""
        amount = number(self.mm, style)
        return {
            "right": say("{amount} off the right", amount=amount),
            "bottom": say("{amount} off the bottom", amount=amount),
            "left": say("{amount} off the left", amount=amount),
            "top": say("{amount} off the top", amount=amount),
        }[self.edge]


def cuts_of(planned: PrintPlan) -> tuple[TrimCut, ...]:
    """The cuts in their order; none where nothing is to be cut off."""
    if planned.layout is None:
        return ()
    waste = planned.layout.waste
    return tuple(TrimCut(edge, waste[edge]) for edge in ORDER if waste[edge] > LEAST_WASTE_MM)


class TrimDrawing(QWidget):
    """The drawing alone."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._planned: PrintPlan | None = None
        self._picture: QPixmap | None = None
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("The print on its sheet, with what is cut off"))

    def show_plan(self, planned: PrintPlan | None, picture: QPixmap | None) -> None:
        """Shows another print."""
        self._planned, self._picture = planned, picture
        self.updateGeometry()
        self.update()

    def _scale(self) -> float:
        layout = None if self._planned is None else self._planned.layout
        return 1.0 if layout is None else look.px(SIDE_PX) / max(layout.width_mm, layout.height_mm)

    def sizeHint(self) -> QSize:
        """As large as the sheet at this scale, with room for the numbers of the cuts."""
        layout = None if self._planned is None else self._planned.layout
        if layout is None:
            return QSize(0, 0)
        scale, beside = self._scale(), look.px(18)
        return QSize(round(layout.width_mm * scale) + beside, round(layout.height_mm * scale) + beside)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Sheet, hatched waste, picture, dashed cuts with their numbers."""
        planned = self._planned
        layout = None if planned is None else planned.layout
        if planned is None or layout is None:
            return
        shades, scale = look.colours(), self._scale()
        with QPainter(self) as painter:
            painter.translate(1, look.px(16))
            sheet = QRectF(0, 0, layout.width_mm * scale, layout.height_mm * scale)
            kept = QRectF(
                layout.left * scale,
                layout.top * scale,
                (layout.right - layout.left) * scale,
                (layout.bottom - layout.top) * scale,
            )
            painter.fillRect(sheet, shades.field)
            painter.fillRect(sheet, QBrush(shades.field_line, Qt.BrushStyle.BDiagPattern))
            painter.fillRect(kept, shades.line)
            if self._picture is not None:
                painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
                shown = planned.visible_mm or planned.needed_mm
                size = (shown[0] * scale, shown[1] * scale)
                corner = kept.center() - QPointF(size[0] / 2, size[1] / 2)
                painter.drawPixmap(QRectF(corner.x(), corner.y(), *size), self._picture, QRectF(self._picture.rect()))
            painter.setPen(QPen(shades.ink, 1))
            painter.drawRect(sheet.adjusted(0, 0, -1, -1))
            self._draw_cuts(painter, planned, sheet, kept)

    def _draw_cuts(self, painter: QPainter, planned: PrintPlan, sheet: QRectF, kept: QRectF) -> None:
        shades, reach = look.colours(), look.px(4)
        pen = QPen(shades.ink, 1.5, Qt.PenStyle.CustomDashLine)
        pen.setDashPattern([4, 3])
        painter.setFont(look.font(12, semibold=True))
        for place, cut in enumerate(cuts_of(planned), start=1):
            painter.setPen(pen)
            words = str(place)
            if cut.edge in ("left", "right"):
                x = kept.right() if cut.edge == "right" else kept.left()
                painter.drawLine(QLineF(x, -1, x, sheet.bottom() + reach))
                box = QRectF(x - look.px(10), -look.px(16), look.px(20), look.px(15))
            else:
                y = kept.bottom() if cut.edge == "bottom" else kept.top()
                painter.drawLine(QLineF(-1, y, sheet.right() + reach, y))
                box = QRectF(sheet.right() + look.px(3), y - look.px(8), look.px(14), look.px(16))
            painter.setPen(shades.ink)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextDontClip, words)


class TrimBlock(QWidget):
    """The drawing with its cuts in words, and the way to share the waste out otherwise."""

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._key = session, key
        self._even = False
        row = QHBoxLayout(self)
        row.setContentsMargins(0, look.px(4), 0, 0)
        row.setSpacing(look.px(10))
        self.drawing = TrimDrawing()
        row.addWidget(self.drawing, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout()
        column.setSpacing(2)
        self.head = Words("", 12, semibold=True)
        self.cuts = Words("", 12)
        self.note = Words("", 12, "pencil")
        self.other = LinkButton("")
        self.other.clicked.connect(self._on_other)
        for part in (self.head, self.cuts, self.note, self.other):
            column.addWidget(part)
        column.addStretch(1)
        row.addLayout(column, 1)

    def show_plan(
        self, planned: PrintPlan | None, picture: QPixmap | None, style: LengthStyle, *, bleeds: bool
    ) -> None:
        """Shows another print; hides itself where there is none to order."""
        cuts = () if planned is None else cuts_of(planned)
        self.setVisible(planned is not None and planned.layout is not None)
        if planned is None or planned.layout is None:
            return
        self.drawing.show_plan(planned, picture)
        self.head.setText(say_many("One cut", "{count} cuts", len(cuts)) if cuts else say("Nothing to cut off"))
        self.cuts.setText("\n".join(f"{place}  {cut.words(style)}" for place, cut in enumerate(cuts, start=1)))
        self.cuts.setVisible(bool(cuts))
        bar = bool(planned.layout.bars)
        if bleeds:
            words = say("The picture goes on into the waste.")
        elif bar:
            words = say("The waste prints white, with marks and a 50 mm bar.")
        else:
            words = say("The waste prints white, with marks.")
        self.note.setText(words)
        self.note.setVisible(bool(cuts))
        self._even = planned.cut == "centred"
        self.other.setText(say("Two cuts only") if self._even else say("Even on all sides"))
        self.other.setAccessibleName(self.other.text())
        self.other.updateGeometry()
        self.other.setVisible(bool(cuts))

    def _on_other(self, _: bool = False) -> None:
        cut = "left" if self._even else "centred"
        try_apply(self._session, choose_print(self._session.project, self._key, cut=cut))
