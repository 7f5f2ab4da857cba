"""Chalk outlines of free places on the wall: a click, or arrows and Enter, takes one; Esc lets go of all."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QColor,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPen,
)
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from composer.desktop.change.finding import LETTERS
from composer.desktop.room.coordinates import from_scene, rect_to_scene
from composer.desktop.room.view import RoomView
from composer.desktop.theme import theme
from composer.geometry.rectangle import Rectangle

Z_PLACES = 55.0
STEP_MM, FINE_MM = 50.0, 10.0

_WAYS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


class PlaceItem(QGraphicsItem):
    """One outline; the chosen one is filled a little and drawn twice as strong."""

    def __init__(self, place: Rectangle, words: str) -> None:
        super().__init__()
        self.place, self.words, self._chosen = place, words, False
        self._box = rect_to_scene(place)
        self.setZValue(Z_PLACES)

    def set_chosen(self, *, chosen: bool) -> None:
        """Whether Enter takes it."""
        if chosen != self._chosen:
            self._chosen = chosen
            self.setZValue(Z_PLACES + (1 if chosen else 0))
            self.update()

    def boundingRect(self) -> QRectF:
        """The outline with its edge."""
        return self._box.adjusted(-20, -20, 20, 20)

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer by itself."""
        return QPainterPath()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Chalk on a light edge."""
        look = theme()
        light, fill = QColor(look.colour("surface")), QColor(look.colour("chalk"))
        light.setAlphaF(0.7)
        fill.setAlphaF(0.16)
        painter.setBrush(fill if self._chosen else Qt.BrushStyle.NoBrush)
        for colour, width in ((light, 4.0), (look.colour("chalk"), 2.0 if self._chosen else 1.0)):
            pen = QPen(colour, width)
            pen.setCosmetic(True)
            painter.setPen(pen)
            painter.drawRect(self._box)
            painter.setBrush(Qt.BrushStyle.NoBrush)


class PlaceTag(QGraphicsItem):
    """Words on chalk: a letter in the middle of an outline, all of it above the chosen one."""

    def __init__(self) -> None:
        super().__init__()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setZValue(Z_PLACES + 2)
        self._words, self._box = "", QRectF()

    def show_at(self, view: RoomView, place: Rectangle, words: str, *, above: bool) -> None:
        """Shows words for an outline, within the view."""
        self.prepareGeometryChange()
        metrics = QFontMetrics(theme().font(12, semibold=True))
        wide, high = metrics.horizontalAdvance(words) + 10, metrics.height() + 2
        x, y = place.centre[0], place.top if above else place.centre[1]
        self._words = words
        self.setPos(x, -y)
        at = view.mapFromScene(QPointF(x, -y)).x()
        left = min(max(4.0, at - wide / 2), max(4.0, view.viewport().width() - wide - 4.0)) - at
        self._box = QRectF(left, -high - 5 if above else -high / 2, wide, high)
        self.update()

    def boundingRect(self) -> QRectF:
        """The words on their ground."""
        return self._box.adjusted(-1, -1, 1, 1)

    def shape(self) -> QPainterPath:
        """Nothing of it takes the pointer."""
        return QPainterPath()

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Light words on chalk."""
        look = theme()
        painter.fillRect(self._box, look.colour("chalk"))
        painter.setFont(look.font(12, semibold=True))
        painter.setPen(look.colour("on_fill"))
        painter.drawText(self._box, Qt.AlignmentFlag.AlignCenter, self._words)


class Crosshair(QGraphicsItem):
    """Where the question will be asked, for those who point by keys."""

    def __init__(self) -> None:
        super().__init__()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setZValue(Z_PLACES + 2)

    def boundingRect(self) -> QRectF:
        """The cross."""
        return QRectF(-14, -14, 28, 28)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Chalk on a light edge."""
        look = theme()
        for colour, width in ((look.colour("surface"), 4), (look.colour("chalk"), 2)):
            painter.setPen(QPen(colour, width))
            painter.drawLine(-11, 0, 11, 0)
            painter.drawLine(0, -11, 0, 11)


class PlaceMarks(QObject):
    """Asks for a place of the wall: one of some outlines, or any point.

    While it asks, the view's pointer and keys come here first.

    Signals:
        ended: a question was answered or given up.
    """

    ended = Signal()

    def __init__(self, view: RoomView, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._view = view
        self.items: list[PlaceItem] = []
        self._tags: list[PlaceTag] = []
        self._taken: Callable[[int], None] | None = None
        self._pointed: Callable[[float, float], None] | None = None
        self._cross: Crosshair | None = None
        self._at = 0
        self.wall = ""
        """Key of the wall the question is about."""
        theme().changed.connect(self._on_theme)
        view.installEventFilter(self)
        view.viewport().installEventFilter(self)

    @property
    def asking(self) -> bool:
        """Whether a place is being asked for."""
        return self._taken is not None or self._pointed is not None

    @property
    def chosen(self) -> int:
        """Which outline Enter takes."""
        return self._at

    def offer(self, places: Sequence[tuple[Rectangle, str]], taken: Callable[[int], None]) -> None:
        """Shows outlines, each with words in it; ``taken`` is told which one."""
        self.end()
        self._view.tool.cancel()
        self._taken = taken
        self._add(places)
        self._view.setFocus(Qt.FocusReason.OtherFocusReason)

    def ask_point(self, start: tuple[float, float], pointed: Callable[[float, float], None]) -> None:
        """Asks for any point of the wall, by a click or by a cross that arrows move."""
        self.end()
        self._view.tool.cancel()
        self._pointed = pointed
        self.wall = self._view.room.wall_key
        self._cross = Crosshair()
        self._view.room.addItem(self._cross)
        self._cross.setPos(start[0], -start[1])
        self._view.viewport().setCursor(Qt.CursorShape.CrossCursor)
        self._view.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_only(self, places: Sequence[tuple[Rectangle, str]]) -> None:
        """Outlines to be looked at, until the next question or :meth:`end`."""
        self.end()
        self._add(places)

    def _add(self, places: Sequence[tuple[Rectangle, str]]) -> None:
        self.wall = self._view.room.wall_key
        for place, words in places:
            item, tag = PlaceItem(place, words), PlaceTag()
            self.items.append(item)
            self._tags.append(tag)
            self._view.room.addItem(item)
            self._view.room.addItem(tag)
        self._choose(0)

    def end(self) -> None:
        """Nothing is asked any more."""
        for item in (*self.items, *self._tags, *([self._cross] if self._cross is not None else [])):
            if item.scene() is not None:
                item.scene().removeItem(item)
        self.items, self._tags, self._cross = [], [], None
        asked = self.asking
        self._taken = self._pointed = None
        self._view.viewport().unsetCursor()
        if asked:
            self.ended.emit()

    def _choose(self, place: int) -> None:
        if not self.items:
            return
        self._at = place % len(self.items)
        for number, (item, tag) in enumerate(zip(self.items, self._tags, strict=True)):
            chosen = number == self._at
            item.set_chosen(chosen=chosen)
            tag.show_at(self._view, item.place, item.words if chosen else LETTERS[number % 26], above=chosen)
        if QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self._view, self.items[self._at].words))

    def _on_theme(self) -> None:
        """Letters are of another size."""
        self._choose(self._at)

    def _take(self, place: int) -> None:
        taken = self._taken
        self.end()
        if taken is not None:
            taken(place)

    def _point(self, x: float, y: float) -> None:
        pointed = self._pointed
        self.end()
        if pointed is not None:
            pointed(x, y)

    # Events ---------------------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Pointer and keys while a place is asked for; everything else goes on as ever."""
        if not self.asking:
            return False
        if isinstance(event, QMouseEvent) and watched is self._view.viewport():
            return self._on_pointer(event)
        if isinstance(event, QKeyEvent) and watched is self._view:
            if event.type() == QEvent.Type.ShortcutOverride:
                if self._means(event):
                    event.accept()
                    return True
                return False
            if event.type() == QEvent.Type.KeyPress and self._means(event):
                self._on_key(event)
                return True
        return False

    def _on_pointer(self, event: QMouseEvent) -> bool:
        if event.button() not in (Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton):
            return False
        scene = self._view.mapToScene(event.position().toPoint())
        under = self._under(scene)
        if event.type() == QEvent.Type.MouseMove:
            if under is not None:
                self._choose(under)
            return False
        if event.type() == QEvent.Type.MouseButtonPress:
            if self._pointed is not None:
                self._point(*from_scene(scene))
            elif under is not None:
                self._take(under)
            else:
                self.end()
            return True
        return event.type() == QEvent.Type.MouseButtonRelease

    def _under(self, scene: QPointF) -> int | None:
        """The chosen outline under a point, else the first one."""
        x, y = from_scene(scene)
        found = [number for number, item in enumerate(self.items) if item.place.holds(x, y)]
        if self._at in found:
            return self._at
        return found[0] if found else None

    @staticmethod
    def _means(event: QKeyEvent) -> bool:
        key = Qt.Key(event.key())
        return key in _WAYS or key in {
            Qt.Key.Key_Tab,
            Qt.Key.Key_Backtab,
            Qt.Key.Key_Return,
            Qt.Key.Key_Enter,
            Qt.Key.Key_Space,
            Qt.Key.Key_Escape,
        }

    def _on_key(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Escape:
            self.end()
        elif key in {Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space}:
            if self._cross is not None:
                self._point(*from_scene(self._cross.pos()))
            elif self.items:
                self._take(self._at)
        elif self._cross is not None and key in _WAYS:
            step = FINE_MM if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else STEP_MM
            across, up = _WAYS[key]
            self._cross.setPos(self._cross.pos() + QPointF(across * step, -up * step))
        elif self.items:
            back = key in {Qt.Key.Key_Backtab, Qt.Key.Key_Left, Qt.Key.Key_Up}
            self._choose(self._at + (-1 if back else 1))
