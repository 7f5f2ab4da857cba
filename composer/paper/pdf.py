"""Sheets as a PDF that prints at true scale.

Plain points, no user unit, no crop box, no rotation: readers that ignore those keys (several do)
would print at another scale. The viewer preferences ask for "actual size", one-sided and the tray
that fits (ISO 32000-1, table 150); they are wishes, so every full-size sheet carries a ruler too.
"""

from collections.abc import Callable
from io import BytesIO
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase.pdfmetrics import registerFont
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from composer.paper.primitives import MM_PER_PT, Box, Circle, Dash, Document, Item, Line, Page, Polygon, Text, Weight
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
    target = BytesIO()
    canvas = Canvas(
        target,
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
    canvas.save()
    return target.getvalue()


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
    return page.bookmark or path


class _Pen:
    """Draws items on one page and remembers what the pen is set to, so that pages stay small."""

    def __init__(self, canvas: Any) -> None:
        self._canvas = canvas
        self._stroke: tuple[float, float, Dash] | None = None
        self._fill: float | None = None

    def draw(self, item: Item) -> None:
        canvas = self._canvas
        if isinstance(item, Line):
            self._set_stroke(item.width_pt, item.grey, item.dash)
            canvas.line(item.x1 * PT_PER_MM, item.y1 * PT_PER_MM, item.x2 * PT_PER_MM, item.y2 * PT_PER_MM)
        elif isinstance(item, Text):
            self._draw_text(item)
        elif isinstance(item, Box):
            stroke, fill = self._prepare(item.width_pt, item.grey, item.fill_grey, item.dash)
            sides = (item.left, item.bottom, item.width, item.height)
            canvas.rect(*(side * PT_PER_MM for side in sides), stroke=stroke, fill=fill)
        elif isinstance(item, Circle):
            stroke, fill = self._prepare(item.width_pt, item.grey, item.fill_grey, ())
            canvas.circle(item.x * PT_PER_MM, item.y * PT_PER_MM, item.radius * PT_PER_MM, stroke=stroke, fill=fill)
        else:
            stroke, fill = self._prepare(item.width_pt, item.grey, item.fill_grey, ())
            outline = canvas.beginPath()
            outline.moveTo(*(side * PT_PER_MM for side in item.points[0]))
            for point in item.points[1:]:
                outline.lineTo(*(side * PT_PER_MM for side in point))
            if item.closed:
                outline.close()
            canvas.drawPath(outline, stroke=stroke, fill=fill)

    def _prepare(self, width_pt: float | None, grey: float, fill_grey: float | None, dash: Dash) -> tuple[int, int]:
        if width_pt is not None:
            self._set_stroke(width_pt, grey, dash)
        if fill_grey is not None:
            self._set_fill(fill_grey)
        return int(width_pt is not None), int(fill_grey is not None)

    def _set_stroke(self, width_pt: float, grey: float, dash: Dash) -> None:
        wanted = (width_pt, grey, dash)
        if wanted == self._stroke:
            return
        self._canvas.setLineWidth(width_pt)
        self._canvas.setStrokeGray(grey)
        self._canvas.setDash([part * PT_PER_MM for part in dash])
        self._stroke = wanted

    def _set_fill(self, grey: float) -> None:
        if grey != self._fill:
            self._canvas.setFillGray(grey)
            self._fill = grey

    def _draw_text(self, item: Text) -> None:
        wide = text_width_mm(item.text, item.size_pt, item.weight)
        along = {"left": 0.0, "centre": -wide / 2, "right": -wide}[item.align]
        cosine, sine = {0: (1, 0), 90: (0, 1), -90: (0, -1)}[item.turn]
        self._set_fill(item.grey)
        for stretch, known in runs(item.text):
            x, y = item.x + along * cosine, item.y + along * sine
            if known:
                text = self._canvas.beginText()
                text.setFont(_FONTS[item.weight], item.size_pt)
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
