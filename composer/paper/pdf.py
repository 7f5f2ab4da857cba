"""Sheets as a PDF that prints at true scale.

Plain points, no user unit, no crop box, no rotation: readers that ignore those keys (several do)
would print at another scale. The viewer preferences ask for "actual size", one-sided and the tray
that fits (ISO 32000-1, table 150); they are wishes, so every full-size sheet carries a ruler too.
"""

import zlib
from collections.abc import Callable
from io import BytesIO
from typing import Any

from reportlab import rl_config
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFStream
from reportlab.pdfbase.pdfmetrics import registerFont
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from composer.paper.primitives import (
    MM_PER_PT,
    Box,
    Circle,
    Dash,
    Document,
    Item,
    Line,
    Page,
    Photo,
    Polygon,
    Text,
    Turn,
    Weight,
)
from composer.paper.type_metrics import NO_GLYPH_EM, NO_GLYPH_HEIGHT_EM, font_file, runs, text_width_mm
from composer.texts import say

PT_PER_MM = 1 / MM_PER_PT

LONGEST_PAGE_MM = 5080.0
"""14 400 points, the most a page should measure (ISO 32000-1, annex C.2)."""

Progress = Callable[[int, int], bool]
"""Called before each page with pages done and pages in all; False stops the work."""

_FONTS: dict[Weight, str] = {
    "regular": "SourceSansPro",
    "semibold": "SourceSansPro-Semibold",
    "bold": "SourceSansPro-Bold",
}


_DIRECTIONS: dict[Turn, tuple[int, int]] = {0: (1, 0), 90: (0, 1), -90: (0, -1)}
"""Cosine and sine of the way text reads."""


class PageTooLarge(ValueError):
    """A page longer than readers show at true scale; the message is one finished sentence."""


class Cancelled(Exception):
    """The progress callback asked to stop; nothing was written."""


def to_pdf(document: Document, progress: Progress | None = None) -> bytes:
    """The document as the bytes of a PDF; the same document always gives the same bytes.

    Raises:
        PageTooLarge: a page measures more than 5 080 mm.
        Cancelled: ``progress`` returned False.
    """
    _register_fonts()
    canvas = Canvas(
        BytesIO(),
        pageCompression=1,
        invariant=1,
        initialFontName=_FONTS["regular"],
        pdfVersion=(1, 7),
        lang=document.language,
    )
    canvas.setTitle(document.title)
    canvas.setCreator("Wallwright")
    canvas.setProducer("Wallwright")
    _set_preferences(canvas)
    path: tuple[str, ...] = ()
    for index, page in enumerate(document.pages):
        if progress is not None and not progress(index, len(document.pages)):
            raise Cancelled
        path = _add_page(canvas, index, page, path)
    return bytes(canvas.getpdfdata())


def _register_fonts() -> None:
    # Streams stay binary: the text armour of PDF 1.0 would make every file a quarter longer.
    rl_config.useA85 = 0
    for weight, name in _FONTS.items():
        registerFont(TTFont(name, str(font_file(weight))))


def _set_preferences(canvas: Any) -> None:
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("Duplex", "Simplex")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    # The library's own list of allowed keys ends with PDF 1.6; this one came with 1.7.
    canvas._doc._catalog.ViewerPreferences.dict["PickTrayByPDFSize"] = "true"


def _add_page(canvas: Any, index: int, page: Page, path: tuple[str, ...]) -> tuple[str, ...]:
    width, height = page.size
    if max(width, height) > LONGEST_PAGE_MM + 1e-6:
        raise PageTooLarge(
            say(
                "A page of {width} × {height} mm is more than the {limit} mm that readers show at true scale.",
                width=f"{width:.0f}",
                height=f"{height:.0f}",
                limit=f"{LONGEST_PAGE_MM:.0f}",
            )
        )
    canvas.setPageSize((width * PT_PER_MM, height * PT_PER_MM))
    canvas.addPageLabel(index, prefix=page.label)
    kept = 0
    while kept < min(len(path), len(page.bookmark)) and path[kept] == page.bookmark[kept]:
        kept += 1
    for level in range(kept, len(page.bookmark)):
        # One key an entry: the library knows an entry by its key, not by its title.
        key = f"page-{index + 1}-{level}"
        canvas.bookmarkPage(key)
        canvas.addOutlineEntry(page.bookmark[level], key, level, closed=0)
    pen = _Pen(canvas)
    for item in page.items:
        pen.draw(item)
    canvas.showPage()
    _press(canvas._doc.Pages[-1])
    return page.bookmark or path


def _press(page: Any) -> None:
    """Compresses a finished page at once; the library would keep every page at full length up to the end."""
    flate = PDFDictionary({"Filter": PDFArray([PDFName("FlateDecode")])})
    page.Contents = _Pressed(flate, zlib.compress(page.stream.encode("latin-1")) + b"\n")
    page.stream = None


class _Pressed(PDFStream):  # type: ignore[misc]
    """A compressed page that is let go once it stands in the file."""

    def format(self, document: Any) -> bytes:
        written = bytes(super().format(document))
        self.content = b""
        return written


def _points(x: float, y: float) -> str:
    """Two numbers of millimetres as points, to a ten-thousandth (0.00004 mm)."""
    return f"{_number(x * PT_PER_MM)} {_number(y * PT_PER_MM)}"


def _number(value: float) -> str:
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


_PAINT = {(True, False): "S", (False, True): "f", (True, True): "B", (False, False): "n"}
"""Operators that stroke, fill, do both or neither."""

_ROUND = 0.5522847498
"""Handles of four Bézier curves that make a circle: 4/3 · (√2 − 1) of its radius."""


def _circle(x: float, y: float, radius: float) -> str:
    """A circle as a path, anticlockwise from its rightmost point."""
    r, h = radius, radius * _ROUND
    curves = (
        ((r, h), (h, r), (0, r)),
        ((-h, r), (-r, h), (-r, 0)),
        ((-r, -h), (-h, -r), (0, -r)),
        ((h, -r), (r, -h), (r, 0)),
    )
    return f"{_points(x + r, y)} m " + " ".join(
        " ".join(_points(x + dx, y + dy) for dx, dy in curve) + " c" for curve in curves
    )


class _Pen:
    """Draws items on one page and remembers what the pen is set to, so that pages stay small.

    Shapes are written as operators (ISO 32000-1, 8.5), which is several times as fast as the library's
    calls and rounds no coordinate to six figures; text and pictures go through the library.
    """

    def __init__(self, canvas: Any) -> None:
        self._canvas = canvas
        self._write = canvas.addLiteral
        self._stroke: tuple[float, float, Dash] | None = None
        self._fill: float | None = None

    def draw(self, item: Item) -> None:
        if isinstance(item, Line):
            self._set_stroke(item.width_pt, item.grey, item.dash)
            self._write(f"n {_points(item.x1, item.y1)} m {_points(item.x2, item.y2)} l S")
        elif isinstance(item, Text):
            self._draw_text(item)
        elif isinstance(item, Photo):
            # The JPEG goes into the file as it is; the library names it by its content.
            place = (side * PT_PER_MM for side in (item.left, item.bottom, item.width, item.height))
            self._canvas.drawImage(ImageReader(BytesIO(item.jpeg)), *place)
        elif isinstance(item, Box):
            paint = self._prepare(item.width_pt, item.grey, item.fill_grey, item.dash)
            self._write(f"n {_points(item.left, item.bottom)} {_points(item.width, item.height)} re {paint}")
        elif isinstance(item, Circle):
            paint = self._prepare(item.width_pt, item.grey, item.fill_grey, ())
            self._write(f"n {_circle(item.x, item.y, item.radius)} h {paint}")
        else:
            paint = self._prepare(item.width_pt, item.grey, item.fill_grey, ())
            first, *rest = (_points(*point) for point in item.points)
            path = " ".join(f"{point} l" for point in rest)
            self._write(f"n {first} m {path}{' h' if item.closed else ''} {paint}")

    def _prepare(self, width_pt: float | None, grey: float, fill_grey: float | None, dash: Dash) -> str:
        """Sets the pen and gives the operator that paints."""
        if width_pt is not None:
            self._set_stroke(width_pt, grey, dash)
        if fill_grey is not None:
            self._set_fill(fill_grey)
        return _PAINT[width_pt is not None, fill_grey is not None]

    def _set_stroke(self, width_pt: float, grey: float, dash: Dash) -> None:
        wanted = (width_pt, grey, dash)
        if wanted != self._stroke:
            parts = " ".join(_number(part * PT_PER_MM) for part in dash)
            self._write(f"{_number(width_pt)} w {_number(grey)} G [{parts}] 0 d")
            self._stroke = wanted

    def _set_fill(self, grey: float) -> None:
        if grey != self._fill:
            self._write(f"{_number(grey)} g")
            self._fill = grey

    def _draw_text(self, item: Text) -> None:
        along = 0.0
        if item.align != "left":
            along = -text_width_mm(item.text, item.size_pt, item.weight) / (2 if item.align == "centre" else 1)
        cosine, sine = _DIRECTIONS[item.turn]
        self._set_fill(item.grey)
        for stretch, known in runs(item.text):
            x, y = item.x + along * cosine, item.y + along * sine
            if known:
                text = self._canvas.beginText(x * PT_PER_MM, y * PT_PER_MM)
                text.setFont(_FONTS[item.weight], item.size_pt)
                if item.turn:
                    text.setTextTransform(cosine, sine, -sine, cosine, x * PT_PER_MM, y * PT_PER_MM)
                text.textOut(stretch)
                self._canvas.drawText(text)
            else:
                self._draw_missing(item, x, y, len(stretch), cosine, sine)
            along += text_width_mm(stretch, item.size_pt, item.weight)

    def _draw_missing(self, item: Text, x: float, y: float, count: int, cosine: int, sine: int) -> None:
        """A small upright box for each sign the font lacks."""
        size = item.size_pt * MM_PER_PT
        for index in range(count):
            start = (index + 0.15) * NO_GLYPH_EM * size
            end, high = start + 0.7 * NO_GLYPH_EM * size, NO_GLYPH_HEIGHT_EM * size
            corners = ((start, 0.0), (end, 0.0), (end, high), (start, high))
            turned = tuple((x + a * cosine - u * sine, y + a * sine + u * cosine) for a, u in corners)
            self.draw(Polygon(points=turned, width_pt=0.5, grey=item.grey))
