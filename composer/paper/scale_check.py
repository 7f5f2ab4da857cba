"""The scale check: two long rulers, what the readings mean, and how near the edge the printer prints."""

import math
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from composer.model import Project
from composer.paper.drawing import Area, Drawing
from composer.paper.figures import figures_of
from composer.paper.furniture import MM_PER_INCH, write_in_box
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT, Page, Turn
from composer.paper.sheet_request import SheetRequest
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import say
from composer.units import LengthStyle, show_length

GOOD_MM = 0.5
"""A ruler that reads within half a millimetre is good enough to leave alone."""

CORRECTABLE = 0.015
"""Beyond 1.5 % it is no printer that errs but a setting that scales."""

LONGEST_RULER_MM = 500.0
_LEAST = (165.0, 225.0)
_USUAL_MARGINS_MM = (3.0, 4.23, 5.0, 6.35)
"""Margins drivers commonly keep (common practice: 3, 5 mm; 1/6 and 1/4 in)."""

_PARTNERS = {
    "A4": ("Letter", (215.9, 279.4)),
    "Letter": ("A4", (210.0, 297.0)),
    "A3": ("Tabloid", (279.4, 431.8)),
    "Tabloid": ("A3", (297.0, 420.0)),
}


class Cause(NamedTuple):
    """A setting that scales pages, and by how much."""

    factor: float
    words: str


class Rulers(NamedTuple):
    """Nominal lengths of the two rulers and of their divisions, mm."""

    across: float
    up: float
    step: float
    label_every: int


def fit_factor(page: tuple[float, float], paper: tuple[float, float]) -> float:
    """The factor by which "fit to page" scales: the smaller ratio of the two directions, at most 1."""
    return min(1.0, paper[0] / page[0], paper[1] / page[1])


def causes(name: str, size: tuple[float, float]) -> tuple[Cause, ...]:
    """What commonly goes wrong with pages of this size, the mildest first."""
    found = []
    short, long = sorted(size)
    for margin in _USUAL_MARGINS_MM:
        inside = (short - 2 * margin, long - 2 * margin)
        words = say(
            "{sheet} fitted inside a {margin} mm margin", sheet=name, margin=f"{margin:.3g}".rstrip("0").rstrip(".")
        )
        found.append(Cause(fit_factor((short, long), inside), words))
    if partner := _PARTNERS.get(name):
        other, other_size = partner
        found.append(
            Cause(fit_factor(other_size, (short, long)), say("{page} page fitted on {paper}", page=other, paper=name))
        )
        found.append(
            Cause(fit_factor((short, long), other_size), say("{page} page fitted on {paper}", page=name, paper=other))
        )
    return tuple(sorted((cause for cause in found if cause.factor < 1), key=lambda cause: -cause.factor))


def rulers(area: Area, *, imperial: bool, scale: tuple[float, float]) -> Rulers:
    """The longest round rulers that fit beside each other along two edges."""
    across, up = (area.width - _LEFT - 1) / scale[0], (area.height - _BELOW - 1.3) / scale[1]
    if imperial:
        across, up = (math.floor(min(room, LONGEST_RULER_MM) / MM_PER_INCH) * MM_PER_INCH for room in (across, up))
        return Rulers(across, up, MM_PER_INCH / 4, 4)
    across, up = min(across, LONGEST_RULER_MM), min(up, LONGEST_RULER_MM)
    return Rulers(math.floor(across / 10) * 10.0, math.floor(up / 50) * 50.0, 5.0, 10)


_LEFT, _BELOW = 8.0, 4.0


def build(project: Project, request: SheetRequest) -> list[Page]:
    """The one sheet to print before all others.

    Raises:
        SheetTooSmall: the paper is smaller than about A5.
    """
    area = request.expect(say("Scale check"), *_LEAST)
    for squeeze in (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3):
        drawing, lowest = _draw(project, request, area, squeeze)
        if lowest >= area.bottom + 19:
            break
    return [drawing.page(request.size, say("Scale check"), (say("Scale check"),), area)]


def _draw(project: Project, request: SheetRequest, area: Area, squeeze: float) -> tuple[Drawing, float]:
    figures = figures_of(project)
    drawing = Drawing()
    sizes = rulers(area, imperial=figures.imperial, scale=request.scale)
    corner = (area.left + _LEFT, area.bottom + _BELOW)
    _ruler_across(drawing, corner, sizes, request.scale[0], figures.imperial)
    _ruler_up(drawing, corner, sizes, request.scale[1], figures.imperial)
    for turn in range(4):
        _comb(drawing, request.size, turn)
    left, right = corner[0] + 16, min(area.right - 8, area.left + 240)
    sheet = _Sheet(drawing, left, left + 11, right, squeeze, figures.imperial, figures.unit)
    y = _head(sheet, area.top - 10, request)
    tape = "1" if figures.imperial else "100"
    finest = say("to 1/32 in") if figures.imperial else say("to half a millimetre")
    how = say(
        "Lay the tape's {mark} on the first line; read the last line {finest}. Take off {mark}.",
        mark=tape,
        finest=finest,
    )
    y = _reading(sheet, y, 1, say("Ruler across, along the bottom"), how, sizes.across)
    y = _reading(sheet, y, 2, say("Ruler up, along the left side"), say("The same way."), sizes.up)
    y = _what_now(sheet, y, sizes)
    y = _cause_table(sheet, y, sizes, causes(request.name, request.size))
    return drawing, _edges(sheet, y)


class _Sheet(NamedTuple):
    drawing: Drawing
    left: float
    text: float
    right: float
    squeeze: float
    imperial: bool
    unit: str

    @property
    def room(self) -> float:
        return self.right - self.text

    def gap(self, mm: float) -> float:
        return mm * self.squeeze

    def reading(self, mm: float, towards: int = 0) -> str:
        """A reading to a tenth of a millimetre or a 1/64 in, rounded towards -1 down, 1 up, 0 nearest."""
        step = Fraction(127, 320) if self.imperial else Fraction(1, 10)
        marks = Fraction(round(mm, 6)).limit_denominator(10**6) / step
        whole = math.floor(marks) if towards < 0 else math.ceil(marks) if towards > 0 else round(marks)
        style = LengthStyle("in", denominator=64) if self.imperial else LengthStyle("mm", decimals=1)
        return show_length(whole * step, style).removesuffix(f"\u00a0{style.unit}")

    def between(self, low: float, high: float) -> str:
        return say("{low} to {high}", low=self.reading(low, 1), high=self.reading(high, -1))


def _head(sheet: _Sheet, y: float, request: SheetRequest) -> float:
    drawing, width = sheet.drawing, sheet.right - sheet.left
    used = drawing.text(sheet.left, y, say("Scale check"), 18, "bold", within=width * 0.4)
    upright = request.size[1] >= request.size[0]
    paper = say("{sheet}, upright", sheet=request.name) if upright else say("{sheet}, lying", sheet=request.name)
    noted = drawing.text(sheet.right, y, paper, 10, align="right", within=width * 0.25)
    drawing.text(
        sheet.left + used + 7, y, say("print this one sheet first"), 14, "semibold", within=width - used - noted - 11
    )
    drawing.line(sheet.left, y - 5, sheet.right, y - 5, THICK_PT)
    return y - 5 - sheet.gap(11.5)


def _heading(sheet: _Sheet, y: float, number: int, words: str) -> None:
    sheet.drawing.text(sheet.left + 2, y, str(number), 16, "bold")
    sheet.drawing.text(sheet.text, y, words, 14, "semibold", within=sheet.room)


def _reading(sheet: _Sheet, y: float, number: int, words: str, how: str, nominal: float) -> float:
    drawing = sheet.drawing
    _heading(sheet, y, number, words)
    y = drawing.paragraph(sheet.text, y - 2 - sheet.gap(4), how, sheet.room, 10)
    y -= sheet.gap(1.8)
    drawing.text(sheet.text, y, say("it reads"), 10, within=44)
    high = 9 + sheet.gap(3)
    drawing.box(sheet.text, y - 2 - high, 44, high, THICK_PT)
    middle = y - 2 - high / 2
    drawing.text(sheet.text + 46, middle - 1.8, sheet.unit, 14)
    said = drawing.text(sheet.text + 61, middle - 1.6, say("should be"), 10, within=35)
    drawing.text(sheet.text + 64.5 + said, middle - 2.3, sheet.reading(nominal), 18, "bold")
    return y - 2 - high - sheet.gap(9.5)


def _rows(sheet: _Sheet, y: float, rows: list[tuple[str, str, str]], *, lines: bool) -> float:
    drawing = sheet.drawing
    second, third = sheet.text + sheet.room * 0.2, sheet.text + sheet.room * 0.415
    for across, up, words in rows:
        base = y - 4.6 if lines else y
        drawing.text(sheet.text, base, across, 10, "semibold", within=second - sheet.text - 2)
        drawing.text(second, base, up, 10, "semibold", within=third - second - 2)
        after = drawing.paragraph(third, base, words, sheet.right - third, 10, most=3)
        if lines:
            y = after + 1.6 - sheet.gap(1)
            drawing.line(sheet.text, y, sheet.right, y, HAIR_PT, GREY)
        else:
            y = after - sheet.gap(0.6)
    return y


def _what_now(sheet: _Sheet, y: float, sizes: Rulers) -> float:
    drawing = sheet.drawing
    _heading(sheet, y, 3, say("What now"))
    y -= 3 + sheet.gap(5)
    drawing.line(sheet.text, y, sheet.right, y, THIN_PT)
    for share, words in ((0.0, say("across")), (0.2, say("up")), (0.415, say("do"))):
        drawing.text(sheet.text + sheet.room * share, y - 4.6, words, 9, "semibold", within=sheet.room * 0.19)
    y -= 6.6
    drawing.line(sheet.text, y, sheet.right, y, THIN_PT)
    low, high = 1 - CORRECTABLE, 1 + CORRECTABLE
    rows = [
        (
            sheet.between(sizes.across - GOOD_MM, sizes.across + GOOD_MM),
            sheet.between(sizes.up - GOOD_MM, sizes.up + GOOD_MM),
            say("Both good. Print the templates. Same printer, paper and settings."),
        ),
        (
            sheet.between(sizes.across * low, sizes.across * high),
            sheet.between(sizes.up * low, sizes.up * high),
            say("Enter both readings in Print. Print this again. The two directions are corrected apart."),
        ),
        (
            say("outside"),
            say("outside"),
            say("A setting scales the page. Set “actual size” or 100 %, no “fit”, no borderless. Print again."),
        ),
    ]
    return _rows(sheet, y, rows, lines=True) - 3 - sheet.gap(7)


def _cause_table(sheet: _Sheet, y: float, sizes: Rulers, found: tuple[Cause, ...]) -> float:
    sheet.drawing.text(sheet.text, y, say("Readings that give the cause away"), 10, "bold", within=sheet.room)
    sheet.drawing.line(sheet.text, y - 2, sheet.right, y - 2, THIN_PT)
    rows = [
        (sheet.reading(sizes.across * cause.factor), sheet.reading(sizes.up * cause.factor), cause.words)
        for cause in found
    ]
    y = _rows(sheet, y - 6.6, rows, lines=False) + 3
    sheet.drawing.line(sheet.text, y, sheet.right, y, HAIR_PT, GREY)
    return y - 6 - sheet.gap(5)


def _edges(sheet: _Sheet, y: float) -> float:
    drawing = sheet.drawing
    _heading(sheet, y, 4, say("Edges: the lowest number you can still see"))
    y = drawing.paragraph(
        sheet.text, y - 2 - sheet.gap(4), say("Each comb counts millimetres from the paper's edge."), sheet.room, 10
    )
    y -= sheet.gap(2)
    step = sheet.room / 4
    high = 7 + sheet.gap(3)
    for index, words in enumerate((say("left"), say("right"), say("top"), say("bottom"))):
        x = sheet.text + index * step
        drawing.text(x, y, words, 10, within=step - 4)
        write_in_box(drawing, x, y - 2 - high, 16, high)
        drawing.text(x + 17.5, y - high + 1, "mm", 10)
    y -= 2 + high + sheet.gap(5)
    drawing.line(sheet.text, y, sheet.right, y, THIN_PT)
    y -= 6
    for index, words in enumerate((say("printer"), say("paper, tray"), say("date"))):
        x = sheet.text + index * sheet.room / 3
        end = x + sheet.room / 3 - 4 if index < 2 else sheet.right
        wide = min(text_width_mm(printable(words), 10), 28.0)
        drawing.text(x, y, words, 10, within=wide + 0.01)
        drawing.line(x + wide + 2, y - 1, end, y - 1, THIN_PT)
    return y - 2


def _marks(nominal: float, sizes: Rulers, factor: float, imperial: bool) -> Iterator[tuple[float, float, float, str]]:
    """Each division: where it falls, how long its tick is, its weight and its number."""
    count = round(nominal / sizes.step)
    for index in range(count + 1):
        at = index * sizes.step
        numbered = index % sizes.label_every == 0 or index == count
        tick, width_pt = (5.0, THIN_PT) if numbered else (3.0, HAIR_PT) if index % 2 == 0 else (1.6, HAIR_PT)
        number = f"{at / (MM_PER_INCH if imperial else 1):.0f}" if numbered else ""
        yield at * factor, tick, width_pt, number


def _ruler_across(drawing: Drawing, corner: tuple[float, float], sizes: Rulers, factor: float, imperial: bool) -> None:
    x0, y0 = corner
    drawing.line(x0, y0, x0 + sizes.across * factor, y0, THIN_PT)
    for at, tick, width_pt, number in _marks(sizes.across, sizes, factor, imperial):
        if at > 0:
            drawing.line(x0 + at, y0, x0 + at, y0 + tick, width_pt)
        if number:
            drawing.text(
                x0 + at + (2.4 if at == 0 else 0), y0 + 6.2, number, 9, "semibold", "left" if at == 0 else "centre"
            )


def _ruler_up(drawing: Drawing, corner: tuple[float, float], sizes: Rulers, factor: float, imperial: bool) -> None:
    x0, y0 = corner
    drawing.line(x0, y0, x0, y0 + sizes.up * factor, THIN_PT)
    for at, tick, width_pt, number in _marks(sizes.up, sizes, factor, imperial):
        if at > 0:
            drawing.line(x0, y0 + at, x0 + tick, y0 + at, width_pt)
            if number:
                drawing.text(x0 + 6.2, y0 + at - 1.1, number, 9, "semibold")


def _comb(drawing: Drawing, size: tuple[float, float], turn: int) -> None:
    """Twelve short lines at 1 to 12 mm from one edge: left, bottom, right, top. All of it may be lost."""
    width, height = size
    for mm in range(1, 13):
        long_mark = mm % 2 == 0
        reach = 9.0 if long_mark else 5.0
        number = str(mm)
        offset = 3.2 if mm % 4 == 2 else 0.0
        words: Turn = 0
        if turn in (0, 2):
            x = float(mm) if turn == 0 else width - mm
            y = height / 2 - 4.5
            drawing.line(x, y, x, y + reach, HAIR_PT)
            if long_mark:
                drawing.text(x, y + reach + 0.8 + offset, number, 7, "semibold", "centre", words)
        else:
            y = float(mm) if turn == 1 else height - mm
            x = width / 2 - 4.5
            drawing.line(x, y, x + reach, y, HAIR_PT)
            if long_mark:
                drawing.text(x + reach + 0.8 + offset, y - 0.8, number, 7, "semibold", "left", words)
