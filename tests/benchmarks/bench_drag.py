"""Dragging one piece among many, against a bare QGraphicsView that moves the same pictures along the same way.

A step is timed from the pointer's event until the paint it causes is done. The bare view is written with the
same binding: a subclass whose ``mouseMoveEvent`` maps the point and sets the item's position, nothing else. It
holds one item a piece with the very pictures the room shows, in the same millimetres, gets the same events, and
repaints as little as it can, without antialiasing. It is measured twice: with items that draw moulding, picture
and number from Python, and with Qt's own pixmap items.

What of a step is ours alone: which rules catch the piece, whether it lies over another or outside the wall, the
hatching of what it lies over, the outline where it lay, shadow and selection around it.
"""

from __future__ import annotations

import math
import statistics
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from time import perf_counter
from typing import NamedTuple

ROOT = Path(__file__).resolve().parent.parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from PySide6.QtCore import QEvent, QObject, QPointF, QRect, QRectF, Qt  # noqa: E402
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap, QRegion  # noqa: E402
from PySide6.QtWidgets import (  # noqa: E402
    QApplication,
    QFrame,
    QGraphicsItem,
    QGraphicsPixmapItem,
    QGraphicsScene,
    QGraphicsView,
    QStyleOptionGraphicsItem,
    QWidget,
)

from composer.desktop.main_window import MainWindow  # noqa: E402
from tests.benchmarks.many_pieces import SIDE_MM, wall_of_pieces  # noqa: E402
from tests.benchmarks.measuring import Row, bench_application, bench_window, settle  # noqa: E402

MOVES = 500
WARM_UP = 20
RUNS = 3
SIZE = (1440, 900)
SCALE = 0.5
"""Pixels a millimetre: a frame of 200 mm is 100 pixels wide, as on the sample walls."""
ROOM = (806, 765)
"""What the room has of it."""


def _path(centre: QPointF) -> list[QPointF]:
    """The way of the hand: loops outwards about where it began, never the same point twice in a row."""
    return [
        centre + QPointF(40 + step * 0.25, 0) * math.cos(step / 9) + QPointF(0, 40 + step * 0.2) * math.sin(step / 9)
        for step in range(MOVES + WARM_UP)
    ]


def _picture(number: int) -> QPixmap:
    """A picture of its own for each piece."""
    made = QPixmap(512, 512)
    made.fill(QColor.fromHsv(number * 47 % 360, 90, 200))
    with QPainter(made) as painter:
        painter.fillRect(80, 80 + number % 180, 240, 120, QColor.fromHsv(number * 31 % 360, 120, 120))
    return made


def _area(region: QRegion) -> int:
    """Pixels of a region; it gives its rectangles when gone through."""
    boxes: Iterable[QRect] = region  # type: ignore[assignment]
    return sum(box.width() * box.height() for box in boxes)


class Painted(QObject):
    """Counts the pixels of the viewport that were painted."""

    def __init__(self, viewport: QObject) -> None:
        super().__init__()
        self.pixels: list[int] = []
        viewport.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 (Qt's name)
        """Adds what a paint event is about."""
        if event.type() == QEvent.Type.Paint and isinstance(event, QPaintEvent):
            region = event.region()
            self.pixels.append(_area(region))
        return False


def _times(window: QWidget, points: list[QPointF], do: Callable[[QPointF], None]) -> list[float]:
    """Seconds of each step, its paint included: Qt would else collect several steps into one paint."""
    times = []
    for place, point in enumerate(points):
        start = perf_counter()
        do(point)
        QApplication.processEvents()
        QApplication.sendEvent(window, QEvent(QEvent.Type.UpdateRequest))
        if place >= WARM_UP:
            times.append(perf_counter() - start)
    return times


def _window(count: int) -> MainWindow:
    window = bench_window(wall_of_pieces(count), SIZE)
    for number, item in enumerate(window.room.items_by_key.values()):
        item.set_picture(_picture(number))

    window.view.viewport().update()
    settle()
    return window


def _send(view: QGraphicsView, kind: QEvent.Type, at: QPointF, button: Qt.MouseButton) -> None:
    port = view.viewport()
    held = Qt.MouseButton.LeftButton if kind != QEvent.Type.MouseButtonRelease else Qt.MouseButton.NoButton
    event = QMouseEvent(kind, at, QPointF(port.mapToGlobal(at.toPoint())), button, held, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(port, event)


class Dragged(NamedTuple):
    """What a run of ours gave: the median of a step in seconds, the share of the view painted, what it was done with."""

    median: float
    share: float
    pictures: list[QPixmap]
    places: list[QPointF]
    scale: float
    start: QPointF


def ours(count: int) -> Dragged:
    """One drag in the program's window."""
    window = _window(count)
    view = window.view
    item = window.room.items_by_key[list(window.room.items_by_key)[count // 2]]
    view.zoom_to(SCALE)
    view.centerOn(item)
    start = QPointF(view.mapFromScene(item.sceneBoundingRect().center()))
    pictures = [other.picture for other in window.room.items_by_key.values() if other.picture is not None]
    places = [QPointF(view.mapFromScene(other.pos())) for other in window.room.items_by_key.values()]
    scale = view.px_per_mm
    _send(view, QEvent.Type.MouseButtonPress, start, Qt.MouseButton.LeftButton)
    _send(view, QEvent.Type.MouseMove, start + QPointF(30, 0), Qt.MouseButton.NoButton)
    settle()
    painted = Painted(view.viewport())
    times = _times(window, _path(start), lambda at: _send(view, QEvent.Type.MouseMove, at, Qt.MouseButton.NoButton))
    share = statistics.median(painted.pixels) / (view.viewport().width() * view.viewport().height())
    view.tool.cancel()
    window.opened.stack.setClean()
    window.close()
    window.deleteLater()
    settle()
    return Dragged(statistics.median(times), share, pictures, places, scale, start)


class PlainPiece(QGraphicsItem):
    """A piece as plainly as it can be drawn: moulding, picture, outline, number."""

    def __init__(self, side: float, picture: QPixmap, words: str) -> None:
        super().__init__()
        self._box = QRectF(0, 0, side, side)
        self._picture, self._words = picture, words

    def boundingRect(self) -> QRectF:  # noqa: N802 (Qt's name)
        """The frame."""
        return self._box

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draws it."""
        painter.fillRect(self._box, QColor("#B98B52"))
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, True)
        painter.drawPixmap(self._box.adjusted(20, 20, -20, -20), self._picture, QRectF(self._picture.rect()))
        painter.setPen(QPen(QColor("#2B2A28"), 0))
        painter.drawRect(self._box)
        painter.resetTransform()
        painter.drawText(2, 12, self._words)


def _pixmap_item(side: float, picture: QPixmap, _words: str) -> QGraphicsItem:
    made = QGraphicsPixmapItem(picture)
    made.setTransformationMode(Qt.TransformationMode.SmoothTransformation)
    made.setScale(side / picture.width())
    return made


class BareView(QGraphicsView):
    """Drags the item under the pointer, as shortly as that can be written."""

    def __init__(self, scene: QGraphicsScene) -> None:
        super().__init__(scene)
        self._item: QGraphicsItem | None = None
        self._held = QPointF()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Takes hold."""
        at = event.position().toPoint()
        self._item = self.itemAt(at)
        if self._item is not None:
            self._held = self.mapToScene(at) - self._item.pos()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """A step."""
        if self._item is not None:
            self._item.setPos(self.mapToScene(event.position().toPoint()) - self._held)


def bare(run: Dragged, make: Callable[[float, QPixmap, str], QGraphicsItem]) -> float:
    """Median of a step of a bare view that drags the same pictures, seconds; its scene is in millimetres, as ours is."""
    scene = QGraphicsScene()
    view = BareView(scene)
    view.setFrameShape(QFrame.Shape.NoFrame)
    view.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.MinimalViewportUpdate)
    view.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    view.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    view.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
    view.setBackgroundBrush(QColor("#EFE9E1"))
    view.resize(*ROOM)
    view.setSceneRect(QRectF(0, 0, ROOM[0] / run.scale, ROOM[1] / run.scale))
    view.scale(run.scale, run.scale)
    for place, (picture, at) in enumerate(zip(run.pictures, run.places, strict=True)):
        item = make(float(SIDE_MM - 20 * (place % 2)), picture, str(place + 1))
        item.setPos(at / run.scale)
        if place == len(run.places) // 2:
            item.setZValue(10)
        scene.addItem(item)
    view.show()
    settle()
    painted = Painted(view.viewport())
    _send(view, QEvent.Type.MouseButtonPress, run.start, Qt.MouseButton.LeftButton)
    times = _times(view, _path(run.start), lambda at: _send(view, QEvent.Type.MouseMove, at, Qt.MouseButton.NoButton))
    assert len(painted.pixels) >= MOVES, "the bare view did not move anything"
    view.close()
    settle()
    return statistics.median(times)


def measure() -> list[Row]:
    """The rows of this benchmark."""
    bench_application()
    medians: dict[int, float] = {}
    pixmaps: list[float] = []
    plain: list[float] = []
    shares: list[float] = []
    for _ in range(RUNS):
        for count in (20, 200, 500):
            run = ours(count)
            medians[count] = min(run.median, medians.get(count, run.median))
            shares.append(run.share)
            if count == 200:
                pixmaps.append(run.median / bare(run, _pixmap_item))
                plain.append(run.median / bare(run, PlainPiece))
    note = ", ".join(f"{count}: {median * 1000:.2f} ms" for count, median in medians.items())
    return [
        Row("drag of 1 among 200 / bare view of plain pieces", min(plain), 1.5, note),
        Row("drag of 1 among 200 / bare view of pixmap items", min(pixmaps), 1.5),
        Row("drag among 500 / among 20", medians[500] / medians[20], 2.0),
        Row("painted in a step / the view", max(shares), 0.15),
    ]


if __name__ == "__main__":
    from tests.benchmarks.measuring import print_table

    print_table(measure())
