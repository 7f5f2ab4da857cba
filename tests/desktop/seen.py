"""What a person sees of a window, written down while it is painted: every text with its colour and its box.

Texts that our own painters draw are caught at the one call they all go through. Texts of Qt's own
widgets are read from the widgets. Both can then be checked: whether they fit, and what they stand on.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QImage, QPainter, QPalette, QPixmap
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QScrollBar,
    QSplitterHandle,
    QWidget,
)

from tests.desktop.settling import settle

AA_TEXT = 4.5
"""Contrast of text by WCAG 2.2, 1.4.3."""

LEAST_TARGET = 24
"""Pixels of a target by WCAG 2.2, 2.5.8."""


@dataclass(frozen=True)
class Seen:
    """A text on the screen, in the window's own pixels.

    Attributes:
        box: where its ink may lie: the text's own extent.
        room: what it must stay inside, None where only the window bounds it.
        colour: of the letters.
        live: False for what cannot be used now (WCAG leaves that out) .
    """

    text: str
    box: QRectF
    room: QRectF | None
    colour: QColor
    live: bool = True


@contextmanager
def caught(window: QWidget) -> Iterator[list[Seen]]:
    """Everything our painters write on the window while this is open."""
    found: list[Seen] = []
    real: Callable[..., Any] = QPainter.drawText

    def draw(painter: QPainter, *arguments: Any) -> Any:
        seen = _read(window, painter, arguments)
        if seen is not None:
            found.append(seen)
        return real(painter, *arguments)

    QPainter.drawText = draw  # type: ignore[method-assign, assignment]
    try:
        yield found
    finally:
        QPainter.drawText = real  # type: ignore[method-assign]


def _read(window: QWidget, painter: QPainter, arguments: tuple[Any, ...]) -> Seen | None:
    device = painter.device()
    if not isinstance(device, QWidget) or device.window() is not window:
        return None
    metrics = painter.fontMetrics()
    text = next((one for one in arguments if isinstance(one, str)), "")
    if not text.strip():
        return None
    room: QRectF | None = None
    if isinstance(arguments[0], (QPoint, QPointF)):
        at = QPointF(arguments[0])
        box = QRectF(at.x(), at.y() - metrics.ascent(), metrics.horizontalAdvance(text), metrics.height())
    elif isinstance(arguments[0], (int, float)) and len(arguments) == 3:
        x, y = arguments[0], arguments[1]
        box = QRectF(x, y - metrics.ascent(), metrics.horizontalAdvance(text), metrics.height())
    else:
        if isinstance(arguments[0], (int, float)):
            room = QRectF(*arguments[:4])
            flags = arguments[4]
        else:
            room = QRectF(arguments[0])
            flags = arguments[1]
        number = flags.value if hasattr(flags, "value") else int(flags)
        box = QRectF(metrics.boundingRect(room.toAlignedRect(), number, text))
    transform = painter.worldTransform()
    # What is dimmed as a whole cannot be used now: the pieces around a picture that is being placed.
    live = device.isEnabled() and painter.opacity() == 1
    return Seen(
        text,
        _in_window(window, device, transform.mapRect(box)),
        None if room is None else _in_window(window, device, transform.mapRect(room)),
        QColor(painter.pen().color()),
        live,
    )


def _in_window(window: QWidget, device: QWidget, box: QRectF) -> QRectF:
    offset = QPointF(device.mapTo(window, QPoint(0, 0)))
    return box.translated(offset)


def texts_of_widgets(window: QWidget) -> list[Seen]:
    """Texts that Qt paints itself: labels, lines, buttons that are not our own."""
    found = []
    for widget in _shown(window):
        seen = _text_of(window, widget)
        if seen is not None:
            found.append(seen)
    return found


def _shown(window: QWidget) -> Iterator[QWidget]:
    for widget in window.findChildren(QWidget):
        if widget.isVisibleTo(window) and not widget.visibleRegion().isEmpty():
            yield widget


def _text_of(window: QWidget, widget: QWidget) -> Seen | None:
    metrics = QFontMetrics(widget.font())
    if isinstance(widget, QLabel) and widget.text():
        room = QRectF(widget.contentsRect())
        flags = int(widget.alignment().value)
        if widget.wordWrap():
            flags |= int(Qt.TextFlag.TextWordWrap.value)
        box = QRectF(metrics.boundingRect(room.toAlignedRect(), flags, widget.text()))
        text, role = widget.text(), QPalette.ColorRole.WindowText
    elif isinstance(widget, QLineEdit) and (widget.text() or widget.placeholderText()):
        text = widget.text() or widget.placeholderText()
        if widget.text() and not widget.isReadOnly():
            # What a person types may be longer than its field: it scrolls with the caret.
            text = text[: _fitting(metrics, widget)]
        margins = widget.textMargins()
        room = QRectF(widget.contentsRect().adjusted(margins.left(), 0, -margins.right(), 0))
        box = QRectF(room.left(), room.top(), metrics.horizontalAdvance(text), room.height())
        role = QPalette.ColorRole.Text if widget.text() else QPalette.ColorRole.PlaceholderText
    else:
        return None
    return Seen(
        text,
        _in_window(window, widget, box),
        _in_window(window, widget, room),
        widget.palette().color(role),
        widget.isEnabled(),
    )


def _fitting(metrics: QFontMetrics, widget: QLineEdit) -> int:
    """How many letters of a line's text its field shows at once."""
    margins = widget.textMargins()
    room = widget.contentsRect().width() - margins.left() - margins.right()
    text = widget.text()
    return next((n for n in range(len(text), 0, -1) if metrics.horizontalAdvance(text[:n]) <= room), 1)


def picture_of(window: QWidget) -> tuple[QPixmap, list[Seen]]:
    """The window as it looks, and every text on it."""
    settle(window)
    with caught(window) as found:
        pixmap = window.grab()
    return pixmap, [*found, *texts_of_widgets(window)]


SLACK = 1.5
"""Pixels by which rounding may carry a letter's box over its room."""


def clipped(window: QWidget, texts: list[Seen]) -> list[str]:
    """Texts that do not fit the room they were given, or leave the window."""
    whole = QRectF(window.rect())
    problems = []
    for seen in texts:
        if not whole.intersects(seen.box):
            continue  # scrolled away
        room = seen.room
        if room is None:
            continue
        over = max(
            room.left() - seen.box.left(),
            seen.box.right() - room.right(),
            room.top() - seen.box.top(),
            seen.box.bottom() - room.bottom(),
        )
        if over > SLACK:
            problems.append(f"“{seen.text[:60]}” is cut by {over:.1f} px")
    return problems


def elided(texts: list[Seen]) -> list[str]:
    """Texts that end in an ellipsis of ours."""
    return [seen.text for seen in texts if seen.text.endswith("…") and len(seen.text) > 1]


def luminance(colour: QColor) -> float:
    """Relative luminance by WCAG 2.2."""

    def linear(share: float) -> float:
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) + 0.0722 * linear(colour.blueF())


def contrast(one: QColor, other: QColor) -> float:
    """Contrast ratio by WCAG 2.2."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def pale(pixmap: QPixmap, texts: list[Seen]) -> list[str]:
    """Texts with less than 4.5 : 1 against what they really stand on, as sampled from the picture."""
    image = pixmap.toImage()
    ratio = pixmap.devicePixelRatio()
    problems = []
    for seen in texts:
        if not seen.live or seen.colour.alpha() < 255:
            continue
        ground = ground_of(image, seen.box, ratio)
        if ground is None:
            continue
        found = contrast(seen.colour, ground)
        if found < AA_TEXT - 0.02:
            problems.append(f"“{seen.text[:60]}” {seen.colour.name()} on {ground.name()}: {found:.2f}")
    return problems


def ground_of(image: QImage, box: QRectF, ratio: float) -> QColor | None:
    """The commonest colour under a text; letters cover less than half of their box."""
    area = QRect(
        round(box.left() * ratio), round(box.top() * ratio), round(box.width() * ratio), round(box.height() * ratio)
    ).intersected(image.rect())
    if area.width() < 4 or area.height() < 4:
        return None
    counts: Counter[int] = Counter()
    for y in range(area.top(), area.bottom() + 1, max(1, area.height() // 12)):
        for x in range(area.left(), area.right() + 1, max(1, area.width() // 120)):
            counts[image.pixel(x, y)] += 1
    return QColor.fromRgb(counts.most_common(1)[0][0])


def small_targets(window: QWidget) -> list[str]:
    """What can be clicked and is less than 24 pixels wide or high.

    Left out: parts of a field that is itself a target, scroll bars (wheel and keys do the same), and
    the edges between panels, whose widths are kept and set by the window's own size.
    """
    problems = []
    for widget in _shown(window):
        if isinstance(widget, (QScrollBar, QSplitterHandle)) or not widget.isEnabled():
            continue
        parent = widget.parentWidget()
        if isinstance(parent, (QAbstractSpinBox, QComboBox, QScrollBar, QLineEdit)) and not isinstance(
            widget, QAbstractButton
        ):
            continue
        if isinstance(widget, (QAbstractButton, QComboBox, QAbstractSpinBox, QLineEdit)):
            size = widget.size()
            if min(size.width(), size.height()) < LEAST_TARGET:
                name = widget.accessibleName() or (widget.text() if hasattr(widget, "text") else "")
                problems.append(f"{type(widget).__name__} “{name}”: {size.width()} × {size.height()}")
        if isinstance(widget, QAbstractItemView) and (model := widget.model()) is not None:
            for row in range(model.rowCount()):
                high = widget.visualRect(model.index(row, 0)).height()
                if 0 < high < LEAST_TARGET:
                    problems.append(f"row {row} of {widget.accessibleName()}: {high} high")
    return problems
