"""Sheets as pixels, from the same description as the PDF: for pictures of a wall and for previews."""

import itertools
import math
from collections.abc import Iterable
from io import BytesIO
from typing import TYPE_CHECKING

from PIL import Image, ImageDraw, ImageFont

from composer.paper.primitives import MM_PER_PT, Box, Circle, Item, Line, Photo, Polygon, Text
from composer.paper.type_metrics import NO_GLYPH_EM, NO_GLYPH_HEIGHT_EM, font_file, runs, text_width_mm

if TYPE_CHECKING:
    from PIL.Image import Image as Picture

OVERSAMPLE = 4
"""Drawn so many times larger, then made smaller: smooth edges from plain fills."""

_LARGEST_PIXELS = 60_000_000
"""Very large drawings are oversampled less, so that they fit in a small computer's memory."""


def to_png(size: tuple[float, float], items: Iterable[Item], pixels_per_mm: float) -> bytes:
    """The items on white as the bytes of a PNG whose tag gives its true size."""
    picture = to_picture(size, items, pixels_per_mm)
    target = BytesIO()
    dpi = pixels_per_mm * 25.4
    picture.save(target, "PNG", dpi=(dpi, dpi), optimize=False)
    return target.getvalue()


def to_picture(size: tuple[float, float], items: Iterable[Item], pixels_per_mm: float) -> "Picture":
    """The items on white as a grey picture, ``round(size × pixels_per_mm)`` pixels large."""
    width, height = (max(1, round(side * pixels_per_mm)) for side in size)
    sample = OVERSAMPLE
    while sample > 1 and width * height * sample * sample > _LARGEST_PIXELS:
        sample -= 1
    picture = Image.new("L", (width * sample, height * sample), 255)
    pen = _Pen(picture, size[1], pixels_per_mm * sample)
    for item in items:
        pen.draw(item)
    return picture if sample == 1 else picture.reduce(sample)


def _level(lightness: float) -> int:
    return round(255 * lightness)


class _Pen:
    """Draws items with plain, hard edges on a picture whose y runs down."""

    def __init__(self, picture: "Picture", height_mm: float, per_mm: float) -> None:
        self._draw = ImageDraw.Draw(picture)
        self._picture = picture
        self._height = height_mm
        self._per_mm = per_mm

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return x * self._per_mm, (self._height - y) * self._per_mm

    def _width(self, width_pt: float) -> float:
        return max(1.0, width_pt * MM_PER_PT * self._per_mm)

    def draw(self, item: Item) -> None:
        if isinstance(item, Line):
            self._line(item)
        elif isinstance(item, Text):
            self._text(item)
        elif isinstance(item, Circle):
            self._circle(item)
        elif isinstance(item, Photo):
            self._photo(item)
        else:
            self._shape(item)

    def _line(self, item: Line) -> None:
        for x1, y1, x2, y2 in _dashes(item):
            self._stroke((x1, y1), (x2, y2), item.width_pt, item.grey)

    def _stroke(self, start: tuple[float, float], end: tuple[float, float], width_pt: float, grey: float) -> None:
        (x1, y1), (x2, y2) = self._at(*start), self._at(*end)
        long = math.hypot(x2 - x1, y2 - y1)
        if long == 0:
            return
        half = self._width(width_pt) / 2
        ax, ay = -(y2 - y1) / long * half, (x2 - x1) / long * half
        corners = [(x1 + ax, y1 + ay), (x2 + ax, y2 + ay), (x2 - ax, y2 - ay), (x1 - ax, y1 - ay)]
        self._draw.polygon(corners, fill=_level(grey))

    def _shape(self, item: Box | Polygon) -> None:
        dash: tuple[float, ...] = ()
        closed = True
        if isinstance(item, Box):
            right, top = item.left + item.width, item.bottom + item.height
            points = ((item.left, item.bottom), (right, item.bottom), (right, top), (item.left, top))
            dash = item.dash
        else:
            points, closed = item.points, item.closed  # type: ignore[assignment]
        if item.fill_grey is not None:
            self._draw.polygon([self._at(x, y) for x, y in points], fill=_level(item.fill_grey))
        if item.width_pt is None:
            return
        ends = [*points, points[0]] if closed else list(points)
        half = item.width_pt * MM_PER_PT / 2
        for (x1, y1), (x2, y2) in itertools.pairwise(ends):
            long = math.hypot(x2 - x1, y2 - y1) or 1.0
            # Half a stroke longer at both ends, so that corners are filled.
            ox, oy = (x2 - x1) / long * half, (y2 - y1) / long * half
            self._line(Line(x1 - ox, y1 - oy, x2 + ox, y2 + oy, item.width_pt, item.grey, dash))

    def _circle(self, item: Circle) -> None:
        x, y = self._at(item.x, item.y)
        half = 0.0 if item.width_pt is None else self._width(item.width_pt) / 2
        outer, inner = item.radius * self._per_mm + half, item.radius * self._per_mm - half
        if item.fill_grey is not None:
            self._draw.ellipse((x - inner, y - inner, x + inner, y + inner), fill=_level(item.fill_grey))
        if item.width_pt is not None:
            box = (x - outer, y - outer, x + outer, y + outer)
            self._draw.ellipse(box, outline=_level(item.grey), width=max(1, round(2 * half)))

    def _photo(self, item: Photo) -> None:
        left, top = self._at(item.left, item.bottom + item.height)
        right, bottom = self._at(item.left + item.width, item.bottom)
        size = (max(1, round(right - left)), max(1, round(bottom - top)))
        with Image.open(BytesIO(item.jpeg), formats=("JPEG",)) as picture:
            self._picture.paste(picture.convert("L").resize(size), (round(left), round(top)))

    def _text(self, item: Text) -> None:
        size = item.size_pt * MM_PER_PT * self._per_mm
        if size < 1:
            return
        font = ImageFont.truetype(str(font_file(item.weight)), size, layout_engine=ImageFont.Layout.BASIC)
        wide = text_width_mm(item.text, item.size_pt, item.weight)
        along = {"left": 0.0, "centre": -wide / 2, "right": -wide}[item.align]
        if item.turn == 0:
            for stretch, known in runs(item.text):
                x, y = self._at(item.x + along, item.y)
                self._stretch(stretch, known, item, (x, y), font)
                along += text_width_mm(stretch, item.size_pt, item.weight)
            return
        length, high, low = math.ceil(wide * self._per_mm) + 2, math.ceil(size), math.ceil(size * 0.3)
        strip = Image.new("L", (length, high + low), 0)
        ImageDraw.Draw(strip).text((0, high), item.text, font=font, fill=255, anchor="ls")
        turned = strip.rotate(item.turn, expand=True)
        x, y = self._at(item.x, item.y)
        shift = along * self._per_mm
        corner = (x - high, y - shift - length) if item.turn == 90 else (x - low, y + shift)
        self._picture.paste(_level(item.grey), (round(corner[0]), round(corner[1])), turned)

    def _stretch(
        self, stretch: str, known: bool, item: Text, at: tuple[float, float], font: ImageFont.FreeTypeFont
    ) -> None:
        x, y = at
        if known:
            self._draw.text((x, y), stretch, font=font, fill=_level(item.grey), anchor="ls")
            return
        size = item.size_pt * MM_PER_PT * self._per_mm
        for index in range(len(stretch)):
            left = x + (index + 0.15) * NO_GLYPH_EM * size
            right, top = left + 0.7 * NO_GLYPH_EM * size, y - NO_GLYPH_HEIGHT_EM * size
            self._draw.rectangle((left, top, right, y), outline=_level(item.grey), width=max(1, round(size / 20)))


def _dashes(item: Line) -> Iterable[tuple[float, float, float, float]]:
    """The drawn stretches of a line, mm."""
    if not item.dash:
        yield item.x1, item.y1, item.x2, item.y2
        return
    long = math.hypot(item.x2 - item.x1, item.y2 - item.y1)
    if long == 0:
        return
    dx, dy = (item.x2 - item.x1) / long, (item.y2 - item.y1) / long
    at, index = 0.0, 0
    while at < long:
        end = min(long, at + item.dash[index % len(item.dash)])
        if index % 2 == 0:
            yield item.x1 + dx * at, item.y1 + dy * at, item.x1 + dx * end, item.y1 + dy * end
        at, index = end, index + 1
