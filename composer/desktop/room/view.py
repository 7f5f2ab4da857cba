"""The view of the room: scale, zoom and pan, and the pointer and keys handed to the tool in use."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QResizeEvent,
    QShowEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QGraphicsView, QWidget

from composer.desktop.room import readers
from composer.desktop.room.coordinates import FLOOR_SHOWN_MM
from composer.desktop.room.edge_pull import EdgePull
from composer.desktop.room.move_tool import MoveTool
from composer.desktop.room.obstacle_item import CURSORS
from composer.desktop.room.scales import LARGEST, SMALLEST, dots_per_mm, fitting, scale_words, whole_gaps
from composer.desktop.room.scene import RoomScene
from composer.desktop.room.zooming import PINCHES, pinch, turn_wheel
from composer.desktop.theme import theme
from composer.model import Key
from composer.texts import say

PADDING_PX = 10
PAN_PX = 60
MOST_FLOOR = 0.45
"""Of the wall's height: more floor than this is not shown with the whole wall."""


class RoomView(QGraphicsView):
    """Shows the room at one scale.

    Signals:
        scale_changed: pixels a millimetre now.
        moved: it was scrolled, zoomed or resized; rulers follow.
        hint: what can be done now, for the status line.
        carried: what is in hand has moved.
        said: what a screen reader was told.
        painted: it has been painted for the first time; what may wait can be loaded now.
        menu_wanted: a place on the screen and one of the scene, for a menu of what lies there.
    """

    scale_changed = Signal(float)
    moved = Signal()
    hint = Signal(str)
    carried = Signal()
    said = Signal(str)
    menu_wanted = Signal(QPoint, QPointF)
    painted = Signal()

    def __init__(self, room: RoomScene, parent: QWidget | None = None) -> None:
        super().__init__(room, parent)
        readers.answer_for(RoomView)
        self.room = room
        self.tool = MoveTool(self)
        self._fitted = True
        self._painted = False
        self._fit_of: tuple[float, ...] = ()
        self._order: list[Key] = []
        self._panning: QPoint | None = None
        self._pointer = QPointF()
        self._edge = EdgePull(self)
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
        self.viewport().grabGesture(Qt.GestureType.PinchGesture)
        self.setAccessibleName(say("The room: the wall to scale, the floor below it"))
        theme().changed.connect(self._on_theme)
        self._on_theme()

    @property
    def px_per_mm(self) -> float:
        """The present scale."""
        return float(self.transform().m11())

    @property
    def is_fitted(self) -> bool:
        """Whether the whole wall is shown, and will be when the view has another size."""
        return self._fitted

    def fit(self) -> None:
        """The largest scale at which wall and floor fit and the gap is a whole number of pixels."""
        self._fitted = True
        wall = self.room.wall
        if wall is None or self.viewport().width() < 20:
            return
        height = float(wall.height.mm)
        depth = min(self.room.floor_depth, max(FLOOR_SHOWN_MM, MOST_FLOOR * height))
        across = (self.viewport().width() - 2 * PADDING_PX) / wall.width.mm
        up = (self.viewport().height() - PADDING_PX) / (height + depth)
        scale = fitting(min(across, up), self.room.gap_mm, self.devicePixelRatioF())
        self._fit_of = self._extent_to_fit()
        self._set_scale(scale)
        self._put_wall(depth)

    def _extent_to_fit(self) -> tuple[float, ...]:
        wall = self.room.wall
        if wall is None:
            return ()
        return float(wall.width.mm), float(wall.height.mm), self.room.floor_depth, self.room.gap_mm

    def on_change(self, *_: object) -> None:
        """The project changed: a fitted room is fitted again when wall, floor or gap have another size."""
        if self._fitted and not self.tool.carrying and self._fit_of != self._extent_to_fit():
            self.fit()
        if self._order != (order := self.room.order):
            self._order = order
            readers.tell_order_changed(self)

    def tell_focus(self) -> None:
        """The keyboard is at another piece or obstacle: a reader is told."""
        readers.tell_focus(self)

    def one_to_one(self) -> None:
        """Life size, by what the system says of this screen."""
        box = self.room.box_in_scene(self.room.selection.keys)
        self.zoom_to(dots_per_mm(self.screen()))
        if not box.isEmpty():
            self.reveal(box)

    def zoom_by(self, factor: float, at: QPointF | None = None, *, smoothly: bool = False) -> None:
        """Larger or smaller, the point under ``at`` (viewport) staying where it is.

        A step ends where a gap is a whole number of pixels, so that equal gaps look equal, but for
        one that follows the fingers (``smoothly``).
        """
        now = self.px_per_mm
        wanted = now * factor
        if not smoothly:
            whole = whole_gaps(wanted, self.room.gap_mm, self.devicePixelRatioF())
            if whole is not None and (whole > now * 1.001) == (factor > 1) and whole != now:
                wanted = whole
        self.zoom_to(wanted, at)

    def scroll_by(self, dx: int, dy: int) -> None:
        """So many pixels on, across and down; the room is no longer fitted."""
        self._fitted = False
        self._scroll(dx, dy)
        self.moved.emit()

    def pan(self, across: int, up: int) -> None:
        """A step of the arrow keys where nothing is selected."""
        self.scroll_by(across * PAN_PX, -up * PAN_PX)

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
        return scale_words(self.px_per_mm, dots_per_mm(self.screen()))

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

    def _put_wall(self, depth: float) -> None:
        """The wall in the middle, near the top; what is left of the height is floor, and above it a third at most."""
        wall = self.room.wall
        if wall is None:
            return
        self._widen()
        scale, port = self.px_per_mm, self.viewport()
        left = round((port.width() - wall.width.mm * scale) / 2)
        spare = port.height() - PADDING_PX - (wall.height.mm + depth) * scale
        top = PADDING_PX + round(max(0.0, spare - port.height() / 5) / 2)
        corner = self.mapFromScene(QPointF(0, -wall.height.mm))
        self._scroll(corner.x() - left, corner.y() - top)
        self.room.set_floor_shown((port.height() - top) / scale - wall.height.mm)
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
        turn_wheel(self, event)
        event.accept()

    def viewportEvent(self, event: QEvent) -> bool:
        """Pinching zooms, on a pad and on a screen that is touched; the first paint is told."""
        if event.type() == QEvent.Type.Paint and not self._painted:
            self._painted = True
            QTimer.singleShot(0, self, self._tell_painted)
        if event.type() in PINCHES and pinch(self, event):
            return True
        return super().viewportEvent(event)

    def _tell_painted(self) -> None:
        self.painted.emit()

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
            self.scroll_by(self._panning.x() - here.x(), self._panning.y() - here.y())
            self._panning = here
            return
        self._pointer = event.position()
        if self.tool.move(event.position(), event.modifiers()):
            event.accept()
            self._edge.follow(event.position(), event.modifiers())
            return
        self._show_cursor()
        super().mouseMoveEvent(event)

    def _show_cursor(self) -> None:
        """Over a handle the pointer says which way it sizes."""
        found = self.room.handle_at(self.mapToScene(self._pointer.toPoint())) if self.room.selection.obstacles else None
        if found is None:
            self.viewport().unsetCursor()
        else:
            self.viewport().setCursor(CURSORS[found[1]])

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """What can be done with what lies there; the menu key asks for the selection."""
        if self.tool.carrying:
            return
        at, place = event.globalPos(), self.mapToScene(event.pos())
        if event.reason() == QContextMenuEvent.Reason.Keyboard:
            box = self.room.box_in_scene(self.room.selection.keys)
            if not box.isEmpty():
                place = box.center()
                at = self.viewport().mapToGlobal(self.mapFromScene(place))
        else:
            self.tool.choose_at(place)
        self.menu_wanted.emit(at, place)
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The end of a drag."""
        if event.button() == Qt.MouseButton.MiddleButton:
            self._panning = None
            self.viewport().unsetCursor()
        elif event.button() == Qt.MouseButton.LeftButton:
            self.tool.release(event.position(), event.modifiers())
            self._edge.stop()
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """The second press is a press like the first."""
        self.mousePressEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The tool's keys first."""
        if self.tool.held(event, down=True) or self.tool.key(event):
            event.accept()
            return
        event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """A key that held rules off may be let go while the hand is still."""
        if not self.tool.held(event, down=False):
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
