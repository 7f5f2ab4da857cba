"""The program's own line drawings as icons, in the ink of the scheme in force."""

from __future__ import annotations

import math

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap

from composer.desktop.theme import theme
from composer.resources import resource

SIZE = 16
"""Pixels at 100 %; icons grow with the text."""
_RATIOS = (1, 2, 3)
_made: dict[tuple[str, str, int], QIcon] = {}
_ratios: list[int] = []
"""Pixels a point for which icons are drawn now: at the start those of the screen, later all."""


def draw_all_sizes() -> None:
    """From now on icons are drawn for every kind of screen; whoever shows some asks for them again."""
    _ratios[:] = _RATIOS
    _made.clear()


def icon(name: str) -> QIcon:
    """The drawing ``resources/icons/NAME.svg``, dimmed where its action cannot be used now."""
    look = theme()
    side = look.px(SIZE)
    key = (name, look.colour("ink").name(), side)
    if key not in _made:
        made = QIcon()
        if not _ratios:
            _ratios.append(math.ceil(theme().pixel_ratio))
        for mode, token in ((QIcon.Mode.Normal, "ink"), (QIcon.Mode.Disabled, "field_line")):
            for ratio in _ratios:
                made.addPixmap(_draw(name, look.colour(token).name(), side * ratio, ratio), mode)
        _made[key] = made
    return _made[key]


def _draw(name: str, colour: str, side: int, ratio: int) -> QPixmap:
    """The drawing so many device pixels wide."""
    from PySide6.QtSvg import QSvgRenderer

    drawing = resource(f"icons/{name}.svg").read_text(encoding="utf-8").replace("currentColor", colour)
    picture = QPixmap(side, side)
    picture.fill(Qt.GlobalColor.transparent)
    renderer = QSvgRenderer(QByteArray(drawing.encode()))
    with QPainter(picture) as painter:
        renderer.render(painter, QRectF(0, 0, side, side))
    picture.setDevicePixelRatio(ratio)
    return picture
