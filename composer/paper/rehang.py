"""The rehang plan of a wall: now and then, rows in the order of work, steps, what to buy, what to know."""

from collections.abc import Sequence

from composer.catalogue import catalogue as catalogues
from composer.costing.costs import Costs
from composer.costing.difference import costs_of_change
from composer.costing.items import counted, item_name
from composer.costing.need import Need
from composer.costing.shown import show_money, show_numbers
from composer.model import Arrangement, Project, Wall
from composer.paper.drawing import Area, Drawing, line_step, lines_of
from composer.paper.figures import figures_of
from composer.paper.furniture import column_head, numbered_steps, sheet_head, steps_height
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT, Page
from composer.paper.rehang_drawing import (
    dimensions_below,
    draw_mark,
    draw_now,
    draw_sign,
    draw_then,
    legend,
    sign_of,
    strip_of,
)
from composer.paper.rehang_words import Row, notes_of, rows_of, steps_of, summary
from composer.paper.sheet_request import SheetRequest
from composer.paper.shopping_rows import capital
from composer.paper.template_subject import datum_of
from composer.paper.wall_drawing import of_wall
from composer.rehang.plan import RehangPlan, ShiftOffer
from composer.texts import say

_LEAST = (180.0, 200.0)
_ROW_MM, _SPOT_MM, _HEADS_MM = 9.6, 7.4, 10.4
_BUY_ROW_MM, _HEAD_MM, _COLUMN_GAP = 5.8, 8.4, 10.0
LADDER_PT = 18.0
"""Numbers read on the ladder: digits 4 mm high."""


def build(
    project: Project,
    wall: Wall,
    arrangement: Arrangement,
    request: SheetRequest,
    plan: RehangPlan,
    offer: ShiftOffer | None,
) -> list[Page]:
    """The plan of one wall, over as many sheets as its rows need.

    Raises:
        SheetTooSmall: the paper is narrower than about A4.
    """
    upright = request.turned(landscape=False)
    area = upright.expect(say("Rehang plan"), *_LEAST)
    return _Plan(project, wall, arrangement, upright, area, plan, offer).pages()


class _Plan:
    """The sheets of one wall in the making."""

    def __init__(
        self,
        project: Project,
        wall: Wall,
        arrangement: Arrangement,
        request: SheetRequest,
        area: Area,
        plan: RehangPlan,
        offer: ShiftOffer | None,
    ) -> None:
        self.project, self.wall, self.plan, self.request, self.area = project, wall, plan, request, area
        self.arrangement, self.offer = arrangement, offer
        self.figures, self.datum = figures_of(project), datum_of(project, wall)
        self.costs: Costs = costs_of_change(project, plan, arrangement)
        self.drawing, self.y = Drawing(), 0.0
        self.done: list[Page] = []
        self.share = area.width / 190.0
        self.rows = rows_of(project, plan, self.datum, self.figures)
        self.bought = self._bought()
        self.steps = steps_of(plan, self.figures, float(arrangement.gap.mm))
        self.notes = notes_of(plan, offer, self.figures)

    def x(self, mm: float) -> float:
        """A column's place; the table was drawn for 190 mm."""
        return self.area.left + mm * self.share

    def pages(self) -> list[Page]:
        """All sheets."""
        self._begin()
        self._drawings()
        edges: bool | None = None
        for row in self.rows:
            height = self._height(row)
            heads = 4.4 if row.edges and edges is False else 0.0
            if self.y - height - heads < self.area.bottom - 1e-6:
                self._end()
                self._begin()
                edges = None
            if edges is None:
                self._heads(edges=row.edges)
            elif heads:
                self._edge_heads()
            edges = row.edges or (edges or False) if row.edges else False
            self._row(row, height)
        self.drawing.line(self.area.left, self.y, self.area.right, self.y, THICK_PT)
        self._foot()
        self._end()
        return self.done

    def _begin(self) -> None:
        self.drawing = Drawing()
        note = say("{unit} · left and right as you face the wall", unit=self.figures.all_in)
        below = summary(self.plan, self.figures, self.datum.level_line) if not self.done else say("Continued.")
        of = of_wall(self.project, self.wall)
        self.y = sheet_head(self.drawing, self.area, say("Rehang plan"), of, note, below)

    def _end(self) -> None:
        label = say("Rehang {number}", number=len(self.done) + 1)
        bookmark = (say("Rehang plan"), self.wall.name, label)
        self.done.append(self.drawing.page(self.request.size, label, bookmark, self.area))

    def _drawings(self) -> None:
        legend(self.drawing, self.area.left, self.area.right, self.y - 5.6, self.plan)
        self.y -= 10.4
        mixed = len({row.edges for row in self.rows}) > 1
        rows = _HEADS_MM + sum(self._height(row) for row in self.rows) + (4.4 if mixed else 0.0)
        most = max(18.0, min(62.0, (self.y - self.area.bottom - rows - self._foot_height() - 15.0) / 2))
        strip = strip_of(self.plan, self.datum.level_line, self.area.left + 30, self.area.width - 33, most)
        if strip is None:
            return
        now = self.y - strip.height
        draw_now(self.drawing, self.plan, strip, now, self.datum.level_line, self.figures)
        then = now - 4 - strip.height
        draw_then(self.drawing, self.plan, strip, then, self.datum.level_line, self.figures)
        dimensions_below(self.drawing, self.plan, strip, then, self.figures)
        self.y = then - 10.5

    def _height(self, row: Row) -> float:
        return max(_ROW_MM, 2.2 + _SPOT_MM * len(row.spots) if not row.light else 2.2 + 4.2 * len(row.spots))

    def _heads(self, *, edges: bool) -> None:
        drawing, top = self.drawing, self.y
        drawing.line(self.area.left, top, self.area.right, top, THICK_PT)
        base = top - _HEADS_MM + 2.0
        column_head(drawing, self.x(0), base, say("No."), 10)
        self._two_heads(16, base, say("piece"), say("how it hangs"), 36)
        words = (
            (
                say("BOTTOM from level line"),
                say("BOTTOM above floor"),
                say("LEFT EDGE {side}", side=self.datum.side_words()),
            )
            if edges
            else (
                say("NAIL from level line"),
                say("NAIL above floor"),
                say("NAIL {side}", side=self.datum.side_words()),
            )
        )
        for at, text in zip((72, 95, 118), words, strict=True):
            column_head(drawing, self.x(at), base, text, 22, "right")
        column_head(drawing, self.x(122), base, say("hole"), 28)
        self._two_heads(152, base, say("fixing"), say("weight"), 28)
        column_head(drawing, self.x(190), base, say("done"), 12, "right")
        self.y = top - _HEADS_MM
        drawing.line(self.area.left, self.y, self.area.right, self.y, THICK_PT)

    def _two_heads(self, at: float, base: float, upper: str, lower: str, width: float) -> None:
        self.drawing.text(self.x(at), base + line_step(9), upper, 9, "semibold", within=width)
        self.drawing.text(self.x(at), base, lower, 9, "semibold", within=width)

    def _edge_heads(self) -> None:
        """Strips have edges, not nails: their own heads, or a nail's height is read into them."""
        for at, words in ((72, say("BOTTOM EDGE")), (95, say("BOTTOM")), (118, say("LEFT EDGE"))):
            self.drawing.text(self.x(at), self.y - 3.6, words, 9, "semibold", "right", within=21)
        self.y -= 4.4

    def _row(self, row: Row, height: float) -> None:
        drawing, top = self.drawing, self.y
        middle = top - height / 2
        drawing.text(self.x(9.0), middle - 2.0, str(row.number), 18, "bold", "right", within=9)
        draw_sign(drawing, self.x(12.4), middle, sign_of(row.act), row.way)
        drawing.text(self.x(16), middle + 0.9, row.name, 10, "semibold", within=33 * self.share)
        how = {"down": say("comes down"), "aside": say("laid aside")}.get(row.act, row.how)
        drawing.text(self.x(16), middle - 3.3, how, 9, within=33 * self.share)
        size, weight = (10.0, "regular") if row.light else (LADDER_PT, "bold")
        step = 4.2 if row.light else _SPOT_MM
        first = middle + (len(row.spots) - 1) * step / 2
        for place, spot in enumerate(row.spots):
            base = first - place * step - size * 0.115
            for at, text in ((72, spot.line), (95, spot.floor), (118, spot.side)):
                drawing.text(self.x(at), base, text, size, weight, "right", within=22.4 * self.share)  # type: ignore[arg-type]
        same = len(set(row.holes)) == 1
        shown = row.holes[:1] if same else row.holes
        start = middle + (len(shown) - 1) * step / 2
        for place, (mark, words) in enumerate(shown):
            y = start - place * step
            draw_mark(drawing, self.x(123.2), y, mark)
            lines = lines_of(words, 27 * self.share, 9)
            if len(shown) > 1:
                drawing.text(self.x(126), y - 1.1, words, 9, within=24 * self.share)
                continue
            drawing.paragraph(
                self.x(126), y - 1.1 + (min(2, lines) - 1) * line_step(9) / 2, words, 25 * self.share, 9, most=2
            )
        drawing.paragraph(self.x(152), middle + 0.9, row.fixing[0], 30 * self.share, 9, most=1)
        drawing.text(self.x(152), middle - 3.3, row.fixing[1], 9, within=30 * self.share)
        drawing.box(self.area.right - 5, middle - 2.3, 4.6, 4.6, THIN_PT)
        self.y = top - height
        drawing.line(self.area.left, self.y, self.area.right, self.y, HAIR_PT, GREY)

    @property
    def _half(self) -> float:
        return (self.area.width - _COLUMN_GAP) / 2

    def _columns_height(self) -> float:
        """Steps and, beside them, what to buy."""
        buy = len(self.bought) * _BUY_ROW_MM + 15 if self.bought else 0.0
        return _HEAD_MM + max(steps_height(self._half, self.steps) + 2, buy - 3)

    def _notes_height(self) -> float:
        lines = sum(lines_of(note, self.area.width, 10) for note in self.notes)
        return _HEAD_MM + lines * line_step(10) if self.notes else 0.0

    def _foot_height(self) -> float:
        return 3 + self._columns_height() + self._notes_height()

    def _foot(self) -> None:
        """Steps at the left, what to buy at the right, what to know below; on a new sheet where there is no room."""
        if self.y - self._foot_height() < self.area.bottom:
            self._end()
            self._begin()
        self.y -= 3
        low = self._steps(self.steps, self._half)
        if self.bought:
            low = min(low, self._buy(self.bought, self.area.left + self._half + _COLUMN_GAP))
        self.y = low
        if self.notes:
            self.drawing.text(self.area.left, self.y - 5.2, say("What to know"), 14, "bold", within=self.area.width)
            y = self.y - _HEAD_MM - 1.8
            for note in self.notes:
                y = self.drawing.paragraph(self.area.left, y, note, self.area.width, 10)
            self.y = y

    def _steps(self, steps: Sequence[str], width: float) -> float:
        self.drawing.text(self.area.left, self.y - 4.6, say("In this order"), 14, "bold", within=width)
        return numbered_steps(self.drawing, self.area.left, self.y - _HEAD_MM - 2.4, width, steps) + 2

    def _bought(self) -> list[tuple[str, str, str, str]]:
        """What, need, have, to pay."""
        known = catalogues.of(self.project.catalogue)
        rows = []
        for line in self.costs.lines:
            pay = show_money(line.cost, self.costs.currency) if line.cost else "—"
            have = str(line.purchase.from_drawer) if line.purchase.from_drawer else ""
            rows.append((_what(line.need, line.name), _count(line.need), have, pay))
        for need in (*self.costs.unpriced, *self.costs.handy):
            name = need.label or item_name(need.group, need.item, known)
            rows.append((_what(need, name), _count(need), str(need.at_home or ""), "" if need.handy else say("price?")))
        return rows

    def _buy(self, rows: Sequence[tuple[str, str, str, str]], left: float) -> float:
        drawing, right = self.drawing, self.area.right
        drawing.text(left, self.y - 4.6, say("To buy for the change"), 14, "bold", within=right - left)
        y = self.y - _HEAD_MM - 3.4
        at = (right - 36, right - 25, right - 8)
        for x, words in zip(at, (say("need"), say("have"), say("to pay")), strict=True):
            drawing.text(x, y, words, 9, "semibold", "right", within=12.5)
        y -= 1.6
        drawing.line(left, y, right, y, THIN_PT)
        for what, need, have, pay in rows:
            base = y - _BUY_ROW_MM + 1.7
            drawing.text(left, base, what, 9, within=right - left - 51)
            drawing.text(at[0], base, need, 9, align="right", within=11)
            drawing.text(at[1], base, have, 9, align="right", within=11)
            drawing.text(at[2], base, pay, 9, "bold", "right", within=17)
            drawing.box(right - 5, base - 0.9, 4.4, 4.4, THIN_PT)
            y -= _BUY_ROW_MM
            drawing.line(left, y, right, y, HAIR_PT, GREY)
        if not self.costs.lines:
            return y
        drawing.text(left, y - 5.4, say("Together"), 10, "semibold", within=40)
        drawing.text(at[2], y - 5.4, show_money(self.costs.total, self.costs.currency), 14, "bold", "right")
        return y - 8


def _what(need: Need, name: str) -> str:
    if need.group == "small":
        name = name.partition(",")[0]
    elif need.group == "strips":
        name = ",".join(name.split(",")[:2])
    if not need.pieces:
        return capital(name)
    return say("{what} ({pieces})", what=capital(name), pieces=show_numbers(need.pieces))


def _count(need: Need) -> str:
    return counted(need.group, need.item, need.count)
