"""The shopping list: whole packs by kind of shop, what they cost, what stays at home, what would be cheaper."""

from collections.abc import Collection, Sequence
from decimal import Decimal

from composer.costing.alternatives import Alternative, alternatives
from composer.costing.costs import Costs, costs_of
from composer.costing.items import SHOPS, Shop, shop_name
from composer.costing.left_over import still_hangs
from composer.costing.shown import show_money
from composer.model import Arrangement, Project
from composer.paper.drawing import Area, Drawing, line_step
from composer.paper.figures import Figures, figures_of
from composer.paper.furniture import sheet_head, write_in_box
from composer.paper.primitives import LIGHT_GREY, THICK_PT, THIN_PT, Page
from composer.paper.sheet_request import SheetRequest
from composer.paper.shopping_ends import draw_also_bought, draw_columns, draw_rest, ends_of
from composer.paper.shopping_rows import ROW_MM, TIGHT_ROW_MM, Columns, Entry, draw_column_heads, draw_row, entries_of
from composer.texts import say, say_many

_LEAST = (180.0, 160.0)
_TOTAL_MM = 10.0
_HEADS_MM = 9.4


def build(
    project: Project,
    arrangement: Arrangement,
    request: SheetRequest,
    only: Collection[int] | None = None,
    template_sheets: int | None = None,
) -> list[Page]:
    """The list, over as many sheets as it needs; empty when nothing is to be had.

    Args:
        project: the project.
        arrangement: whose pieces count.
        request: the paper.
        only: numbers of the pieces; None = all.
        template_sheets: sheets the templates take, for the list of what to look for at home.

    Raises:
        SheetTooSmall: the paper is narrower than about A4.
    """
    costs = costs_of(project, arrangement, only=only, template_sheets=template_sheets)
    if not costs.lines and not costs.unpriced:
        return []
    upright = request.turned(landscape=False)
    area = upright.expect(say("Shopping list"), *_LEAST)
    cheaper = alternatives(project, arrangement, only=only)
    roomy, tight = (_List(project, costs, cheaper, upright, area, row).pages() for row in (ROW_MM, TIGHT_ROW_MM))
    return tight if len(tight) < len(roomy) else roomy


class _List:
    """The list in the making: a block after the other, a new page where one has no room."""

    def __init__(
        self,
        project: Project,
        costs: Costs,
        cheaper: Sequence[Alternative],
        request: SheetRequest,
        area: Area,
        row_mm: float,
    ) -> None:
        self.project, self.costs, self.cheaper, self.request, self.area = project, costs, cheaper, request, area
        self.figures: Figures = figures_of(project)
        self.columns = Columns.within(area)
        self.done: list[Page] = []
        self.drawing = Drawing()
        self.y = 0.0
        self.heads = False
        self.row_mm = row_mm

    def pages(self) -> list[Page]:
        """All pages."""
        self._begin()
        listed = entries_of(self.project, self.costs, self.figures)
        shops = [shop for shop in SHOPS if any(entry.shop == shop for entry in listed)]
        for number, shop in enumerate(shops, 1):
            self._shop(number, shop, [entry for entry in listed if entry.shop == shop])
        if listed and self.costs.lines:
            self._total()
        ends = ends_of(self.project, self.costs, self.cheaper, still_hangs(self.project, self.costs), self.figures)
        self._need(ends.columns_height(self.area.width), rows=False)
        self.y = draw_columns(self.drawing, self.area, self.y, ends)
        if ends.rest:
            self._need(ends.rest_height(self.area.width), rows=False)
            self.y = draw_rest(self.drawing, self.area, self.y, ends)
        draw_also_bought(self.drawing, self.area, self.y)
        self._end()
        return self.done

    @property
    def _shop_mm(self) -> float:
        """Height of a shop's head line: a little less than a row."""
        return self.row_mm - 0.2

    def money(self, amount: Decimal) -> str:
        """An amount as it stands on the list."""
        return show_money(amount, self.costs.currency)

    def _begin(self) -> None:
        self.drawing = Drawing()
        first = not self.done
        below = (
            say(
                "Whole packs. Any maker: the class is what counts, and your packet’s word comes first. Write down what you pay."
            )
            if first
            else say("Continued.")
        )
        note = say("prices in {currency} · sizes in {unit}", currency=self.costs.currency, unit=self.figures.all_in)
        self.y = sheet_head(self.drawing, self.area, say("Shopping list"), self.project.title, note, below)
        if first:
            self._sums()
        self.heads = False

    def _end(self) -> None:
        label = say("Shopping {number}", number=len(self.done) + 1)
        self.done.append(self.drawing.page(self.request.size, label, (say("Shopping list"), label), self.area))

    def _need(self, height: float, *, rows: bool = True) -> None:
        """A new page where there is no room for so much; heads above its first row."""
        if self.y - height - (0 if self.heads or not rows else _HEADS_MM) < self.area.bottom - 1e-6:
            self._end()
            self._begin()
        if rows and not self.heads:
            self.y = draw_column_heads(self.drawing, self.columns, self.y)
            self.heads = True

    def _sums(self) -> None:
        drawing, area, costs = self.drawing, self.area, self.costs
        base = self.y - 8.4
        if costs.budget is not None and costs.to_spare is not None:
            spare = say("to spare") if costs.to_spare >= 0 else say("too dear by")
            sums = [
                (say("Budget"), costs.budget),
                (say("to pay"), costs.total),
                (spare, abs(costs.to_spare)),
            ]
        else:
            sums = [(say("To pay"), costs.total), (say("used up"), costs.used), (say("left over"), costs.left_worth)]
        step = (area.width - 52) / 3
        for place, (words, amount) in enumerate(sums):
            x = area.left + place * step
            used = drawing.text(x, base, words, 10, within=step * 0.42)
            drawing.text(
                x + used + 3, base, self.money(amount) if costs.lines else "—", 18, "bold", within=step - used - 5
            )
        drawing.text(area.right - 33, base, say("paid in all"), 10, align="right", within=22)
        write_in_box(drawing, area.right - 30, base - 3, 30, 9)
        self.y = base - 5
        self._bar()

    def _bar(self) -> None:
        """The budget as a bar: a part for each shop, the rest dashed; over the budget a mark where it ends."""
        costs, area, drawing = self.costs, self.area, self.drawing
        whole = max(costs.total, costs.budget or costs.total)
        if not whole:
            self.y -= 1
            return
        per_mm = float(whole) / area.width
        top, high, x = self.y - 1.6, 4.4, area.left
        mark = None
        if costs.budget is not None and costs.total > costs.budget:
            mark = area.left + float(costs.budget) / per_mm
        shops = [shop for shop in SHOPS if any(line.shop == shop for line in costs.lines)]
        every = [
            shop for shop in SHOPS if any(entry.shop == shop for entry in entries_of(self.project, costs, self.figures))
        ]
        for place, shop in enumerate(shops):
            wide = float(costs.of_shop(shop)) / per_mm
            if wide > 0:
                drawing.box(x, top - high, wide, high, THIN_PT, fill_grey=LIGHT_GREY if place % 2 == 0 else None)
                if wide > 4:
                    middle = x + wide / 2
                    if mark is not None and abs(middle - mark) < 3 < wide / 2 - 2:
                        middle += 4.0 if middle >= mark else -4.0
                    drawing.text(middle, top - high + 1.2, str(every.index(shop) + 1), 9, "semibold", "centre")
            x += wide
        if area.right - x > 0.5:
            drawing.box(x, top - high, area.right - x, high, THIN_PT, dash=(1.4, 1.0))
        if mark is not None:
            drawing.line(mark, top - high - 1.6, mark, top + 1.6, THICK_PT)
        self.y = top - high - 2.4

    def _shop(self, number: int, shop: Shop, listed: Sequence[Entry]) -> None:
        self._need(self._shop_mm + self.row_mm)
        drawing, base = self.drawing, self.y - self._shop_mm + 2.4
        drawing.text(self.area.left, base, str(number), 14, "bold")
        drawing.text(self.columns.what, base, shop_name(shop), 14, "bold", within=self.columns.need - self.columns.what)
        paid = self.costs.of_shop(shop)
        if paid or all(entry.buy for entry in listed):
            drawing.text(self.columns.to_pay, base, self.money(paid), 10, "semibold", "right")
        self.y -= self._shop_mm
        drawing.line(self.area.left, self.y, self.area.right, self.y, THIN_PT)
        for entry in listed:
            self._need(self.row_mm)
            self.y = draw_row(self.drawing, self.columns, self.y, entry, self.row_mm)

    def _total(self) -> None:
        self._need(_TOTAL_MM + 6)
        drawing, area, costs = self.drawing, self.area, self.costs
        drawing.line(area.left, self.y - 0.8, area.right, self.y - 0.8, THICK_PT)
        base = self.y - 6.8
        drawing.text(self.columns.what, base, say("Together"), 10, "semibold")
        if costs.unpriced:
            words = say_many(
                "{count} thing without a price is not in it",
                "{count} things without a price are not in it",
                costs.prices_lacking,
            )
            drawing.text(self.columns.what + 22, base, words, 9, within=self.columns.to_pay - self.columns.what - 48)
        drawing.text(self.columns.to_pay, base, self.money(costs.total), 14, "bold", "right")
        drawing.text(self.columns.used, base, self.money(costs.used), 10, "semibold", "right")
        drawing.text(self.columns.left_over, base, self.money(costs.left_worth), 10, "semibold", "right")
        self.y -= _TOTAL_MM
        drawing.line(area.left, self.y, area.right, self.y, THICK_PT)
        self.y -= line_step(9) * 0.4
