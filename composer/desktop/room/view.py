"""The view of the room: scale, zoom and pan, and the pointer and keys handed to the tool in use."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QResizeEvent,
    QShowEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QGraphicsView, QWidget

from composer.desktop.room.coordinates import FLOOR_SHOWN_MM
from composer.desktop.room.move_tool import MoveTool
from composer.desktop.room.scene import RoomScene
from composer.desktop.theme import theme
from composer.texts import say

PADDING_PX = 10
SMALLEST, LARGEST = 0.01, 20.0
"""Pixels a millimetre."""


class RoomView(QGraphicsView):
    """Shows the room at one scale.

    Signals:
        scale_changed: pixels a millimetre now.
        moved: it was scrolled, zoomed or resized; rulers follow.
        hint: what can be done now, for the status line.
        carried: what is in hand has moved.
        said: what a screen reader was told.
    """

    scale_changed = Signal(float)
    moved = Signal()
    hint = Signal(str)
    carried = Signal()
    said = Signal(str)

    def __init__(self, room: RoomScene, parent: QWidget | None = None) -> None:
        super().__init__(room, parent)
        self.room = room
        self.tool = MoveTool(self)
        self._fitted = True
        self._panning: QPoint | None = None
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.MinimalViewportUpdate)
        self.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        self.setOptimizationFlag(QGraphicsView.OptimizationFlag.DontAdjustForAntialiasing, True)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setAcceptDrops(False)
        self.setMinimumSize(320, 240)
        self.setAccessibleName(say("The room: the wall to scale, the floor below it"))
        theme().changed.connect(self._on_theme)
        self._on_theme()

    @property
    def px_per_mm(self) -> float:
        """The present scale."""
        return float(self.transform().m11())

    def fit(self) -> None:
        """The largest scale at which wall and some floor fit and the gap is a whole number of pixels."""
        self._fitted = True
        wall = self.room.wall
        if wall is None or self.viewport().width() < 20:
            return
        across = (self.viewport().width() - 2 * PADDING_PX) / wall.width.mm
        up = (self.viewport().height() - PADDING_PX) / (
            wall.height.mm + min(self.room.floor_depth, 1.4 * FLOOR_SHOWN_MM)
        )
        scale = max(SMALLEST, min(across, up, LARGEST))
        gap = self.room.gap_mm
        if gap > 0 and scale * gap >= 1:
            scale = int(scale * gap) / gap
        self._set_scale(scale)
        self._put_wall()

    def one_to_one(self) -> None:
        """Life size, by what the system says of this screen."""
        screen = self.screen()
        self.zoom_to(screen.physicalDotsPerInchX() / 25.4 if screen is not None else 96 / 25.4)

    def zoom_by(self, factor: float, at: QPointF | None = None) -> None:
        """Larger or smaller, the point under ``at`` (viewport) staying where it is."""
        self.zoom_to(self.px_per_mm * factor, at)

    def zoom_to(self, scale: float, at: QPointF | None = None) -> None:
        """A scale in pixels a millimetre; the middle, or ``at``, stays where it is."""
        self._fitted = False
        point = at or QPointF(self.viewport().rect().center())
        held = self.mapToScene(point.toPoint())
        self._set_scale(max(SMALLEST, min(LARGEST, scale)))
        now = self.mapFromScene(held)
        self._scroll(now.x() - round(point.x()), now.y() - round(point.y()))
        self.moved.emit()

    def scale_words(self) -> str:
        """The scale as on a drawing: 1 : 16."""
        screen = self.screen()
        dots = screen.physicalDotsPerInchX() if screen is not None else 96.0
        ratio = dots / 25.4 / self.px_per_mm
        if ratio >= 0.95:
            return say("scale 1 : {ratio}", ratio=f"{ratio:.0f}" if ratio >= 9.5 else f"{ratio:.1f}")
        return say("scale {ratio} : 1", ratio=f"{1 / ratio:.1f}")

    def reveal(self, box: QRectF) -> None:
        """Scrolls only as far as needed to show a part of the scene."""
        shown = self.mapFromScene(box).boundingRect()
        port = self.viewport().rect().adjusted(12, 12, -12, -12)
        dx = min(0, shown.left() - port.left()) or max(0, shown.right() - port.right())
        dy = min(0, shown.top() - port.top()) or max(0, shown.bottom() - port.bottom())
        if dx or dy:
            self._scroll(dx, dy)
            self.moved.emit()

    def _set_scale(self, scale: float) -> None:
        if abs(scale - self.px_per_mm) < 1e-12:
            return
        self.resetTransform()
        self.scale(scale, scale)
        self._widen()
        self.room.set_scale_px(scale)
        self.scale_changed.emit(scale)

    def _widen(self) -> None:
        """The wall can be pushed about, but some of it always stays in view."""
        room = self.room.extent
        beyond = max(self.viewport().width(), self.viewport().height(), 100) / self.px_per_mm
        self.setSceneRect(room.adjusted(-beyond, -beyond, beyond, beyond))

    def _put_wall(self) -> None:
        wall = self.room.wall
        if wall is None:
            return
        self._widen()
        scale = self.px_per_mm
        left = round((self.viewport().width() - wall.width.mm * scale) / 2)
        top = PADDING_PX
        corner = self.mapFromScene(QPointF(0, -wall.height.mm))
        self._scroll(corner.x() - left, corner.y() - top)
        self.moved.emit()

    def _scroll(self, dx: int, dy: int) -> None:
        across, down = self.horizontalScrollBar(), self.verticalScrollBar()
        across.setValue(across.value() + dx)
        down.setValue(down.value() + dy)

    def _on_theme(self) -> None:
        self.setBackgroundBrush(theme().colour("void"))
        self.viewport().update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The scale is chosen again, unless the person chose one."""
        super().resizeEvent(event)
        if self._fitted:
            self.fit()
        else:
            self._widen()
            self.moved.emit()

    def showEvent(self, event: QShowEvent) -> None:
        """The first scale."""
        super().showEvent(event)
        if self._fitted:
            self.fit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel zooms about the pointer; with Shift it scrolls across, with Ctrl up and down."""
        pixels, angle = event.pixelDelta(), event.angleDelta()
        if event.modifiers() & (Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier) or (
            not pixels.isNull() and event.phase() != Qt.ScrollPhase.NoScrollPhase
        ):
            step = pixels if not pixels.isNull() else angle / 2
            flip = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier) and step.x() == 0
            self._fitted = False
            self._scroll(-step.y() if flip else -step.x(), 0 if flip else -step.y())
            self.moved.emit()
        else:
            self.zoom_by(1.0015 ** (angle.y() or angle.x()), event.position())
        event.accept()

    def viewportEvent(self, event: QEvent) -> bool:
        """Pinching zooms."""
        if isinstance(event, QNativeGestureEvent) and event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture:
            self.zoom_by(1 + event.value(), event.position())
            return True
        return super().viewportEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """The middle button pans, the left one works with the tool."""
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        if event.button() == Qt.MouseButton.MiddleButton:
            self._panning = event.position().toPoint()
            self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
        elif event.button() == Qt.MouseButton.LeftButton:
            self.tool.press(event.position(), event.modifiers())
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """A step of a drag."""
        if self._panning is not None:
            here = event.position().toPoint()
            self._fitted = False
            self._scroll(self._panning.x() - here.x(), self._panning.y() - here.y())
            self._panning = here
            self.moved.emit()
            return
        if self.tool.move(event.position(), event.modifiers()):
            event.accept()
            return
        super().mouseMoveEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The end of a drag."""
        if event.button() == Qt.MouseButton.MiddleButton:
            self._panning = None
            self.viewport().unsetCursor()
        elif event.button() == Qt.MouseButton.LeftButton:
            self.tool.release(event.position(), event.modifiers())
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """The second press is a press like the first."""
        self.mousePressEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The tool's keys first."""
        if self.tool.key(event):
            event.accept()
            return
        event.ignore()

    def event(self, event: QEvent) -> bool:
        """Keys of the tool are the tool's, also where a menu has them; Tab goes from piece to piece."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and self.tool.wants(event):
            event.accept()
            return True
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent) and self.tool.tab(event):
            return True
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Shows where the keyboard is."""
        super().focusInEvent(event)
        self.room.set_focus_shown(
            shown=event.reason() not in {Qt.FocusReason.MouseFocusReason, Qt.FocusReason.PopupFocusReason}
        )

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Leaves."""
        super().focusOutEvent(event)
        self.room.set_focus_shown(shown=False)
