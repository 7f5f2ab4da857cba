"""A sketch previewed on the wall: the pieces where they would hang, dashed where they are now.

Nothing of the project is touched; the scene's own items are hidden meanwhile.
"""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QObject, QRect, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.arranging.from_project import furniture_of
from composer.arranging.task import box_around
from composer.desktop import field_look as look
from composer.desktop.field_row import Words
from composer.desktop.room.coordinates import rect_to_scene
from composer.desktop.room.distances import DistanceItem
from composer.desktop.room.piece_item import PieceItem
from composer.desktop.room.view import RoomView
from composer.desktop.room.wall_items import TraceItem
from composer.desktop.units_shown import number
from composer.geometry.rectangle import Rectangle
from composer.model import Key
from composer.units import LengthStyle

Z_GHOST = 20.0
BESIDE_PX = 22.0
LABELS_PX = 70
NOTE_WIDTH = 290


class PreviewNote(QWidget):
    """Words over a corner of the room; never in the pointer's way."""

    def __init__(self, view: RoomView) -> None:
        super().__init__(view)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 6, 10, 6)
        column.setSpacing(0)
        self.title, self.words = Words("", 12, semibold=True), Words("", 12)
        column.addWidget(self.title)
        column.addWidget(self.words)
        self.hide()

    def show_words(self, title: str, words: str, covered: QRect) -> None:
        """Shows them in an upper corner of the room that is not ``covered``; else not at all."""
        self.title.setText(title)
        self.words.setText(words)
        parent = self.parentWidget()
        assert parent is not None
        width = max(160, min(look.px(NOTE_WIDTH), parent.width() - 16))
        self.setFixedWidth(width)
        high = sum(look.height_of(text, 12, width - 22, semibold=True) for text in (title, words)) + 16
        self.setFixedHeight(high)
        for left in (8, parent.width() - width - 8):
            if not QRect(left, 8, width, high).intersects(covered):
                self.move(left, 8)
                self.show()
                self.raise_()
                return

    def paintEvent(self, event: QPaintEvent) -> None:
        """Surface with a hairline."""
        shades = look.colours()
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), shades.surface)
            painter.setPen(QPen(shades.line, 1))
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))


class Ghosts(QObject):
    """Pieces at proposed places of the wall shown."""

    def __init__(self, view: RoomView, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._view, self._room = view, view.room
        self.items: dict[Key, PieceItem] = {}
        self._traces: list[TraceItem] = []
        self._whole: Rectangle | None = None
        self._style = LengthStyle("mm")
        self._sizes: list[DistanceItem] = []
        self.note = PreviewNote(view)
        view.scale_changed.connect(self._on_scale)

    @property
    def shown(self) -> bool:
        """Whether a preview is on the wall."""
        return bool(self.items)

    def show(self, places: Mapping[Key, Rectangle], title: str, words: str, style: LengthStyle) -> None:
        """Shows pieces at these places, mm, and the size of the whole; the words where they cover nothing."""
        self.end()
        self._style = style
        room, project = self._room, self._room.project
        for key, box in places.items():
            piece, now = project.piece_by_key.get(key), room.items_by_key.get(key)
            if piece is None:
                continue
            ghost = PieceItem(piece)
            ghost.setAcceptHoverEvents(False)
            ghost.setZValue(Z_GHOST)
            ghost.set_scale_px(self._view.px_per_mm)
            ghost.show_record(piece, box, hung=True, turned=now is not None and now.turned, locked=False, up=False)
            ghost.set_picture(room.picture_of(key))
            room.addItem(ghost)
            self.items[key] = ghost
            if now is None:
                continue
            now.setVisible(False)
            trace = TraceItem()
            room.addItem(trace)
            trace.show_box(now.box)
            self._traces.append(trace)
        self._whole = box_around(places.values()) if places else None
        self._measure()
        if self._whole is not None:
            self.note.show_words(title, words, self._covered(self._whole))

    def _covered(self, box: Rectangle) -> QRect:
        """What the preview with its dimensions covers of the view."""
        away = BESIDE_PX + 20
        return (
            self._view.mapFromScene(rect_to_scene(box))
            .boundingRect()
            .adjusted(-round(2 * BESIDE_PX), -round(away), 0, 0)
        )

    def _measure(self) -> None:
        wall, box = self._room.wall, self._whole
        for size in self._sizes:
            self._room.removeItem(size)
        self._sizes = []
        if wall is None or box is None:
            return
        scale, style = self._view.px_per_mm, self._style
        away = BESIDE_PX / scale
        lines = [
            ((box.left - 2 * away, box.bottom), (box.left - 2 * away, box.top), box.height),
        ]
        if (float(wall.height.mm) - box.top) * scale > LABELS_PX:
            # Nearer to the top edge its number would stand on the name of the wall's middle.
            lines.append(((box.left, box.top + away), (box.right, box.top + away), box.width))
        furniture = furniture_of(wall)
        if furniture is not None and box.bottom > furniture.top:
            x = min(max(box.centre[0], furniture.left), furniture.right)
            lines.append(((x, furniture.top), (x, box.bottom), box.bottom - furniture.top))
        for start, end, length in lines:
            item = DistanceItem()
            self._room.addItem(item)
            item.show_distance(start, end, number(length, style), scale)
            self._sizes.append(item)

    def end(self) -> None:
        """The wall as it is."""
        for item in (*self.items.values(), *self._traces, *self._sizes):
            if item.scene() is not None:
                item.scene().removeItem(item)
        for key in self.items:
            if (now := self._room.items_by_key.get(key)) is not None:
                now.setVisible(True)
        self.items, self._traces, self._sizes, self._whole = {}, [], [], None
        self.note.hide()

    def _on_scale(self, scale: float) -> None:
        for item in self.items.values():
            item.set_scale_px(scale)
        if self._sizes:
            self._measure()
