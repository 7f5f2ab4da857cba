"""The mat from the front, to scale: board, window, the print's edge dashed, the lip's dotted; what is typed, in chalk."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from composer.catalogue import catalogue as catalogues
from composer.catalogue.names import name_of
from composer.desktop import field_look as look
from composer.desktop.field_row import Words
from composer.desktop.room.piece_item import faded
from composer.desktop.units_shown import number
from composer.model import Project, WeightedBorders
from composer.prints.mats import MatPlan, bevel_mm
from composer.prints.plan import PiecePlan
from composer.texts import say
from composer.units import LengthStyle

WIDE_PX, HIGH_PX = 176, 216
ABOVE_PX, BESIDE_PX = 20, 30
BOARD, INK = QColor("#F7F4EC"), QColor("#2B2A28")
"""The board is white paper in either scheme; its lines are ink on it."""
CHALK = QColor("#215A9C")
TICK_PX = 3


class MatDrawing(QWidget):
    """The drawing alone.

    Measures stand above and at the left; ``typing`` names the field that is being typed, whose part is
    filled in chalk: ``extra``, ``overlap``, ``border``, ``top``, ``bottom``, ``left`` or ``right``.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._mat: MatPlan | None = None
        self._lip_mm = 0.0
        self._extra_mm = 0.0
        self._typing = ""
        self._picture: QPixmap | None = None
        self._style = LengthStyle("mm")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("The mat from the front, to scale"))

    @property
    def shown(self) -> MatPlan | None:
        """The mat that is drawn."""
        return self._mat

    def show_plan(self, planned: PiecePlan, picture: QPixmap | None, style: LengthStyle, typing: str = "") -> None:
        """Shows another mat."""
        self._mat, self._picture, self._style, self._typing = planned.mat, picture, style, typing
        self._lip_mm = lip_mm(planned)
        borders = None if planned.piece.mat is None else planned.piece.mat.borders
        self._extra_mm = float(borders.extra.mm) if isinstance(borders, WeightedBorders) else 0.0
        self.updateGeometry()
        self.update()

    def _scale(self) -> float:
        if self._mat is None:
            return 1.0
        wide, high = self._mat.outer_mm
        return min((look.px(WIDE_PX) - look.px(BESIDE_PX)) / wide, (look.px(HIGH_PX) - look.px(ABOVE_PX)) / high)

    def sizeHint(self) -> QSize:
        """The board at this scale, with its measures."""
        if self._mat is None:
            return QSize(0, 0)
        scale = self._scale()
        return QSize(
            round(self._mat.outer_mm[0] * scale) + look.px(BESIDE_PX) + 6,
            round(self._mat.outer_mm[1] * scale) + look.px(ABOVE_PX) + 6,
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        """Board, chalk, picture, window with its bevel, print, lip, measures."""
        mat = self._mat
        if mat is None:
            return
        scale, shades = self._scale(), look.colours()
        with QPainter(self) as painter:
            painter.translate(look.px(BESIDE_PX), look.px(ABOVE_PX))
            board = QRectF(0, 0, mat.outer_mm[0] * scale, mat.outer_mm[1] * scale)
            four = mat.borders
            window = QRectF(four.left * scale, four.top * scale, mat.window_mm[0] * scale, mat.window_mm[1] * scale)
            painter.fillRect(board, BOARD)
            self._fill(painter, mat, board, window, scale)
            if self._picture is None:
                painter.fillRect(window, shades.line)
            else:
                painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
                painter.drawPixmap(window, self._picture, QRectF(self._picture.rect()))
            painter.setPen(QPen(INK, 1))
            painter.drawRect(board.adjusted(0, 0, -1, -1))
            for layer in mat.layers:
                opening = QRectF(0, 0, layer.opening_mm[0] * scale, layer.opening_mm[1] * scale)
                opening.moveCenter(window.center())
                painter.drawRect(opening)
            self._outline(painter, window, mat.overlap_mm * scale, Qt.PenStyle.DashLine)
            if self._lip_mm > 0:
                lip = -self._lip_mm * scale
                self._outline(painter, board, lip, Qt.PenStyle.DotLine)
            self._measures(painter, mat, board, window)

    def _outline(self, painter: QPainter, box: QRectF, grown: float, style: Qt.PenStyle) -> None:
        painter.setPen(QPen(INK, 1, style))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box.adjusted(-grown, -grown, grown, grown))

    def _fill(self, painter: QPainter, mat: MatPlan, board: QRectF, window: QRectF, scale: float) -> None:
        """What is being typed, in chalk."""
        chalk = faded(CHALK, 42)
        sides = {
            "top": QRectF(board.left(), board.top(), board.width(), window.top()),
            "bottom": QRectF(board.left(), window.bottom(), board.width(), board.bottom() - window.bottom()),
            "left": QRectF(board.left(), board.top(), window.left(), board.height()),
            "right": QRectF(window.right(), board.top(), board.right() - window.right(), board.height()),
        }
        if self._typing in sides:
            painter.fillRect(sides[self._typing], chalk)
        elif self._typing == "border":
            for side in sides.values():
                painter.fillRect(side, faded(CHALK, 24))
        elif self._typing == "extra" and self._extra_mm > 0:
            high = self._extra_mm * scale
            painter.fillRect(QRectF(board.left(), board.bottom() - high, board.width(), high), chalk)
        elif self._typing == "overlap":
            by = mat.overlap_mm * scale
            painter.fillRect(window.adjusted(-by, -by, by, by), chalk)

    def _measures(self, painter: QPainter, mat: MatPlan, board: QRectF, window: QRectF) -> None:
        four = mat.borders
        across = ((0.0, window.left(), four.left), (window.left(), window.right(), mat.window_mm[0]),
                  (window.right(), board.right(), four.right))  # fmt: skip
        down = ((0.0, window.top(), four.top), (window.top(), window.bottom(), mat.window_mm[1]),
                (window.bottom(), board.bottom(), four.bottom))  # fmt: skip
        shades, y, x = look.colours(), -look.px(5), -look.px(5)
        painter.setPen(QPen(shades.pencil, 1))
        painter.drawLine(QLineF(0, y, board.right(), y))
        painter.drawLine(QLineF(x, 0, x, board.bottom()))
        for at in (0.0, window.left(), window.right(), board.right()):
            painter.drawLine(QPointF(at - TICK_PX, y + TICK_PX), QPointF(at + TICK_PX, y - TICK_PX))
        for at in (0.0, window.top(), window.bottom(), board.bottom()):
            painter.drawLine(QPointF(x - TICK_PX, at + TICK_PX), QPointF(x + TICK_PX, at - TICK_PX))
        for place, (start, end, mm) in enumerate(across):
            self._write(painter, number(mm, self._style), (start + end) / 2, y - look.px(8), bold=place == 1, row=True)
        for place, (start, end, mm) in enumerate(down):
            self._write(painter, number(mm, self._style), x - look.px(5), (start + end) / 2, bold=place == 1, row=False)

    def _write(self, painter: QPainter, words: str, x: float, y: float, *, bold: bool, row: bool) -> None:
        shades = look.colours()
        painter.setFont(look.font(11, semibold=bold))
        painter.setPen(shades.ink if bold else shades.pencil)
        wide, high = look.width_of(words, 11, semibold=bold) + 2, look.px(14)
        left = x - wide / 2 if row else x - wide
        flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextDontClip
        painter.drawText(QRectF(left, y - high / 2, wide, high), flags, words)


def lip_mm(planned: PiecePlan) -> float:
    """How much of the board the lip hides on each side, mm; 0 where that is unknown."""
    sight, glass = planned.piece.frame.sight_mm, planned.glass_mm
    if sight is None or glass is None:
        return 0.0
    if planned.turned:
        sight = sight[::-1]
    return max(0.0, (glass[0] - sight[0]) / 2)


class MatBlock(QWidget):
    """The drawing, and beside it what each line of it means, with its size."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, look.px(2), 0, look.px(2))
        row.setSpacing(look.px(8))
        self.drawing = MatDrawing()
        row.addWidget(self.drawing, 0, Qt.AlignmentFlag.AlignTop)
        self._column = QVBoxLayout()
        self._column.setSpacing(0)
        row.addLayout(self._column, 1)
        self._facts: list[tuple[Words, Words]] = []

    def show_plan(
        self, project: Project, planned: PiecePlan, picture: QPixmap | None, style: LengthStyle, typing: str = ""
    ) -> None:
        """Shows a mat; hides itself where it is not decided."""
        self.setVisible(planned.mat is not None)
        if planned.mat is None:
            return
        self.drawing.show_plan(planned, picture, style, typing)
        facts = mat_facts(project, planned, style)
        while len(self._facts) < len(facts):
            pair = Words("", 12, "pencil"), Words("", 14)
            for words in pair:
                self._column.insertWidget(2 * len(self._facts) + pair.index(words), words)
            self._facts.append(pair)
            if len(self._facts) == 1:
                self._column.addStretch(1)
        for place, pair in enumerate(self._facts):
            for words, text in zip(pair, facts[place] if place < len(facts) else ("", ""), strict=True):
                words.setText(text)
                words.setVisible(bool(text))


def mat_facts(project: Project, planned: PiecePlan, style: LengthStyle) -> list[tuple[str, str]]:
    """What the lines of the drawing are, and how large."""
    mat = planned.mat
    assert mat is not None

    def size(pair: tuple[float, float]) -> str:
        return say("{width} × {height}", width=number(pair[0], style), height=number(pair[1], style))

    facts = [(say("outside"), size(mat.outer_mm)), (say("window"), size(mat.window_mm))]
    if mat.bevel:
        facts.append((say("with its bevel"), size(bevel_mm(mat.window_mm, mat.thickness_mm)[0])))
    facts.append((say("print, dashed"), size(mat.print_mm)))
    board = catalogues.of(project.catalogue).boards.get(mat.layers[0].layer.board)
    thick = number(mat.thickness_mm, style)
    facts.append(
        (
            say("board"),
            thick if board is None else say("{board}, {thick}", board=name_of(board), thick=thick),
        )
    )
    hidden = lip_mm(planned)
    if hidden > 0:
        facts.append((say("the lip, dotted"), say("{amount} hidden", amount=number(hidden, style))))
    return facts
