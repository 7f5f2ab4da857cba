"""The hand that places a picture in its frame: drag, zoom, tilt and turn; by pointer or by keys alone.

While it is at work it stands before the room's view and takes what is meant for the picture; the
middle button and the wheel with Shift or Ctrl still move the room. A gesture changes the project
once, when it ends.
"""

from __future__ import annotations

import math
import time
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import QEvent, QObject, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QTransform,
    QWheelEvent,
)

from composer.desktop.cropping.crop_item import CropItem
from composer.desktop.cropping.grips import Grip, Grips
from composer.desktop.cropping.opening import CannotPlace, Opening, opening_of
from composer.desktop.cropping.spoken import place_of
from composer.desktop.fields import new_gesture
from composer.editing.edits import EditRefused, MergeKey
from composer.editing.print_edits import crop_anew
from composer.model import Crop, Key
from composer.prints.crop_gestures import dragged, turned, zoomed
from composer.texts import say

if TYPE_CHECKING:
    from composer.desktop.open_project import OpenProject
    from composer.desktop.room.view import RoomView

REST_S = 1.0
"""After so long a rest the next key or notch begins a new step of undo."""
STEP, LARGE_STEP = 0.01, 0.1
"""Of the print's size, by an arrow key, with Shift."""
ZOOM_STEP = 1.05
TILT_STEP, MOST_TILT = 0.1, 10.0
LEVEL_DEG = 0.4
"""Nearer to level than this the ring holds at 0; Alt lets go."""

_ARROWS = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1)}
_ZOOMS = {Qt.Key.Key_Plus: ZOOM_STEP, Qt.Key.Key_Equal: ZOOM_STEP, Qt.Key.Key_Minus: 1 / ZOOM_STEP}
_TILTS = {Qt.Key.Key_Comma: -TILT_STEP, Qt.Key.Key_Period: TILT_STEP}
_LEAVE = {Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape}
_OTHERS = {Qt.Key.Key_T, Qt.Key.Key_0}


class CropTool(QObject):
    """Places the picture of one piece.

    Signals:
        left: Enter, Esc or a press beside the picture; carries whether it is kept.
        said: what a screen reader was told.
    """

    left = Signal(bool)
    said = Signal(str)

    def __init__(self, view: RoomView, opened: OpenProject, key: Key) -> None:
        super().__init__(view)
        self._view, self._opened, self.key = view, opened, key
        self._start = self._crop()
        self._shown = self._picture()
        opening = opening_of(opened.project, key)
        self.item = CropItem(opening, self._start, opened.project.length_style)
        self.item.set_scale_px(view.px_per_mm)
        view.room.addItem(self.item)
        self._grip: Grip | None = None
        self._pressed = QPointF()
        self._from = self._start
        self._kind, self._gesture, self._last = "", 0, 0.0
        view.scale_changed.connect(self.item.set_scale_px)
        view.viewport().installEventFilter(self)
        view.installEventFilter(self)
        self.follow()

    def _crop(self) -> Crop:
        piece = self._opened.project.piece_by_key[self.key]
        return Crop() if piece.current_use is None else piece.uses[piece.current_use].crop

    def _picture(self) -> Key | None:
        piece = self._opened.project.piece_by_key[self.key]
        return None if piece.current_use is None else piece.uses[piece.current_use].picture

    @property
    def opening(self) -> Opening:
        """The frame as it is now."""
        return self.item.opening

    def follow(self) -> None:
        """The project changed: the frame, the crop or the piece's place may be another.

        Raises:
            CannotPlace: there is no picture to place any more.
        """
        item = self._view.room.items_by_key.get(self.key)
        if item is None:
            raise CannotPlace(say("The piece is no longer on this wall."))
        self.item.setPos(item.pos())
        if self._picture() != self._shown:
            # Another of the frame's pictures: what is taken back is what becomes of that one.
            self._shown, self._start, self._grip = self._picture(), self._crop(), None
            self.item.show_picture(None)
        if self._grip is None:
            self.item.show_crop(opening_of(self._opened.project, self.key), self._crop())

    def stop(self) -> None:
        """Takes itself out of the room."""
        self._view.viewport().removeEventFilter(self)
        self._view.removeEventFilter(self)
        self._view.viewport().unsetCursor()
        self._view.scale_changed.disconnect(self.item.set_scale_px)
        if self.item.scene() is not None:
            self._view.room.removeItem(self.item)
        self.deleteLater()

    def take_back(self) -> None:
        """The picture as it was when placing began; a step that can be undone itself."""
        self._apply(self._start, None)

    # Events --------------------------------------------------------------------------------------

    def eventFilter(self, target: QObject, event: QEvent) -> bool:
        """Takes what is meant for the picture."""
        kind = event.type()
        if target is self._view.viewport():
            if kind == QEvent.Type.ContextMenu:
                return True
            if isinstance(event, QWheelEvent):
                return self._wheel(event)
            if isinstance(event, QNativeGestureEvent):
                return self._pinch(event)
            if isinstance(event, QMouseEvent):
                return self._pointer(kind, event)
        elif isinstance(event, QKeyEvent):
            if kind == QEvent.Type.ShortcutOverride and self._wants(event):
                event.accept()
                return True
            if kind == QEvent.Type.KeyPress:
                return self._key(event)
        return False

    def _pointer(self, kind: QEvent.Type, event: QMouseEvent) -> bool:
        at = event.position()
        if kind == QEvent.Type.MouseMove:
            if event.buttons() & Qt.MouseButton.MiddleButton:
                return False
            if self._grip is None:
                self._show_cursor(self.grips().at(at))
            else:
                self._drag(at, event.modifiers())
            return True
        if event.button() != Qt.MouseButton.LeftButton:
            return False
        if kind in (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonDblClick):
            self._press(at)
        elif kind == QEvent.Type.MouseButtonRelease:
            self._release()
        return True

    def grips(self) -> Grips:
        """Where a hand can take hold now, in the view's pixels."""
        return self.item.grips(self._world(), QRectF(self._view.viewport().rect()))

    def _world(self) -> QTransform:
        return self.item.sceneTransform() * self._view.viewportTransform()

    def _on_item(self, at: QPointF) -> QPointF:
        back, _ = self._world().inverted()
        return back.map(at)

    def _press(self, at: QPointF) -> None:
        self._view.setFocus(Qt.FocusReason.MouseFocusReason)
        self._grip = self.grips().at(at)
        if self._grip is None:
            self.left.emit(True)
            return
        self._pressed, self._from = self._on_item(at), self._crop()
        self.item.quick = True
        self._show_cursor(self._grip, held=True)

    def _drag(self, at: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        opening, here, was = self.opening, self._on_item(at), self._from
        middle = opening.printed.center()
        if self._grip == "picture":
            across = (here.x() - self._pressed.x()) / opening.printed.width()
            down = (here.y() - self._pressed.y()) / opening.printed.height()
            made = dragged(opening.pixels, was, opening.shape, across, down)
        elif self._grip == "corner":
            start = max(1e-6, math.dist(self._pressed.toTuple(), middle.toTuple()))
            ratio = math.dist(here.toTuple(), middle.toTuple()) / start
            made = zoomed(opening.pixels, was, opening.shape, was.zoom * ratio)
        else:
            start = math.degrees(math.atan2(self._pressed.x() - middle.x(), middle.y() - self._pressed.y()))
            now = math.degrees(math.atan2(here.x() - middle.x(), middle.y() - here.y()))
            made = _tilted(was, was.tilt_deg + now - start, free=bool(modifiers & Qt.KeyboardModifier.AltModifier))
        self.item.show_crop(opening, made)

    def _release(self) -> None:
        if self._grip is None:
            return
        self._grip, made = None, self.item.crop
        self.item.quick = False
        self.item.update()
        self._apply(made, None)
        self._show_cursor("picture")

    def _wheel(self, event: QWheelEvent) -> bool:
        if event.modifiers() & (Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier):
            return False
        grips = self.grips()
        if self._grip is not None or grips.at(event.position()) is None:
            return self._grip is not None
        pixels = event.pixelDelta()
        if not pixels.isNull() and event.phase() != Qt.ScrollPhase.NoScrollPhase:
            # Two fingers on a pad push the picture, as they push the room.
            scale, shape = self._view.px_per_mm, self.opening.shape
            across, down = pixels.x() / scale / shape[0], pixels.y() / scale / shape[1]
            self._apply(dragged(self.opening.pixels, self._crop(), shape, across, down), self._merge("push"))
            return True
        delta = event.angleDelta().y() or event.angleDelta().x()
        self._zoom_at(1.0015**delta, event.position())
        return True

    def _pinch(self, event: QNativeGestureEvent) -> bool:
        if event.gestureType() != Qt.NativeGestureType.ZoomNativeGesture or self._grip is not None:
            return False
        self._zoom_at(1 + event.value(), event.position())
        return True

    def _zoom_at(self, factor: float, where: QPointF) -> None:
        crop, at = self._crop(), self.opening.share(self._on_item(where))
        at = (min(max(at[0], 0.0), 1.0), min(max(at[1], 0.0), 1.0))
        made = zoomed(self.opening.pixels, crop, self.opening.shape, crop.zoom * factor, at)
        self._apply(made, self._merge("wheel"))

    def _show_cursor(self, grip: Grip | None, *, held: bool = False) -> None:
        shapes = {
            "picture": Qt.CursorShape.ClosedHandCursor if held else Qt.CursorShape.OpenHandCursor,
            "corner": Qt.CursorShape.SizeFDiagCursor,
            "ring": Qt.CursorShape.SizeHorCursor,
        }
        self._view.viewport().setCursor(Qt.CursorShape.ArrowCursor if grip is None else shapes[grip])

    # Keys ----------------------------------------------------------------------------------------

    def _wants(self, event: QKeyEvent) -> bool:
        if event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier):
            return False
        key = Qt.Key(event.key())
        return key in _ARROWS or key in _ZOOMS or key in _TILTS or key in _LEAVE or key in _OTHERS

    def _key(self, event: QKeyEvent) -> bool:
        if not self._wants(event):
            # Space and arrows would take the frame in hand while its picture is meant.
            return event.key() == Qt.Key.Key_Space or event.key() in _ARROWS
        key, crop, opening = Qt.Key(event.key()), self._crop(), self.opening
        shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if key == Qt.Key.Key_Escape and self._grip is not None:
            self._grip, self.item.quick = None, False
            self.follow()
        elif key in _LEAVE:
            self.left.emit(key != Qt.Key.Key_Escape)
        elif key in _ARROWS:
            step = LARGE_STEP if shift else STEP
            across, down = _ARROWS[key]
            made = dragged(opening.pixels, crop, opening.shape, across * step, down * step)
            self._step(made, "arrows")
        elif key in _ZOOMS:
            self._step(zoomed(opening.pixels, crop, opening.shape, crop.zoom * _ZOOMS[key]), "zoom")
        elif key in _TILTS:
            self._step(_tilted(crop, crop.tilt_deg + _TILTS[key], free=True), "tilt")
        elif key == Qt.Key.Key_T:
            self._step(turned(crop, clockwise=not shift), "")
        else:
            self._step(Crop(), "")
        return True

    def _step(self, made: Crop, kind: str) -> None:
        if not self._apply(made, self._merge(kind) if kind else None):
            self._speak(say("It goes no further: the picture must fill the frame."))

    def _merge(self, kind: str) -> MergeKey:
        """Keys or notches of one kind are one step of undo until the hand rests."""
        now = time.monotonic()
        if kind != self._kind or now - self._last > REST_S:
            self._gesture = new_gesture()
        self._kind, self._last = kind, now
        return MergeKey(f"crop-{kind}", (self.key,), self._gesture)

    def _apply(self, made: Crop, merge: MergeKey | None) -> bool:
        if merge is None:
            self._kind = ""
        if made == self._crop():
            self.follow()
            return False
        try:
            self._opened.apply(crop_anew(self._opened.project, self.key, made, merge))
        except EditRefused as refused:
            self._speak(str(refused))
            return False
        self._speak(place_of(self.opening, made))
        return True

    def announce(self, hint: str) -> None:
        """Placing begins: what can be done, and how the picture lies now."""
        self._speak(say("{hint} Now: {place}.", hint=hint, place=place_of(self.opening, self.item.crop)))

    def _speak(self, words: str) -> None:
        if QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self._view, words))
        self.said.emit(words)


def _tilted(crop: Crop, degrees: float, *, free: bool) -> Crop:
    """Tilted to a tenth of a degree, up to ten; level where it nearly is, unless ``free``."""
    tilt = round(min(max(degrees, -MOST_TILT), MOST_TILT), 1)
    return replace(crop, tilt_deg=0.0 if not free and abs(tilt) < LEVEL_DEG else tilt)
