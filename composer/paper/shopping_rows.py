"""The rows of the shopping list: what, how many are needed, packs to buy, each, to pay, used up, left over, paid."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from decimal import Decimal

from composer.catalogue import catalogue as catalogues
from composer.costing.costs import Costs, Row, rows_of
from composer.costing.items import SHOP_OF, SHOPS, Shop, counted, item_name
from composer.costing.need import Need
from composer.costing.packs import cents
from composer.costing.shown import show_money, show_numbers
from composer.model import Project
from composer.paper.drawing import Area, Drawing, line_step
from composer.paper.figures import Figures
from composer.paper.furniture import column_head, not_needed, write_in_box
from composer.paper.primitives import GREY, HAIR_PT, THIN_PT
from composer.texts import say, say_many

ROW_MM, TIGHT_ROW_MM = 9.6, 8.2
MOST_PRINT_ROWS = 3
"""Prints of more sizes and papers stand in one row."""


@dataclass(frozen=True, slots=True)
class Columns:
    """Where columns stand, page mm; of numbers the right edge."""

    left: float
    what: float
    need: float
    buy: float
    pack: float
    each: float
    to_pay: float
    used: float
    left_over: float
    paid: float
    right: float

    @classmethod
    def within(cls, area: Area) -> "Columns":
        """The columns of a list on that area; they were drawn for 190 mm."""

        def at(mm: float) -> float:
            return area.left + mm * area.width / 190.0

        return cls(area.left, at(9), at(85), at(97), at(109), at(123), at(140), at(153), at(172), at(175), area.right)


@dataclass(frozen=True, slots=True)
class Entry:
    """One row, as text; empty texts are not known."""

    shop: Shop
    name: str
    note: str
    need: str
    buy: str
    pack: str
    each: str
    to_pay: str
    used: str
    left: str
    left_worth: str


def entries_of(project: Project, costs: Costs, figures: Figures) -> list[Entry]:
    """All rows, shop by shop: what has a price and is bought, then what has none yet."""
    known = catalogues.of(project.catalogue)
    order = list(SHOPS)
    bought = [row for row in rows_of(costs) if row.packs]
    prints = [row for row in bought if row.line.group == "print"]
    if len(prints) > MOST_PRINT_ROWS:
        bought = [row for row in bought if row.line.group != "print"]
    rows = [_priced(row, costs.currency, figures) for row in bought]
    if len(prints) > MOST_PRINT_ROWS:
        rows.insert(0, _all_prints(prints, costs.currency))
    rows += [_unpriced(need, need.label or item_name(need.group, need.item, known), figures) for need in costs.unpriced]
    return sorted(rows, key=lambda entry: order.index(entry.shop))


def _all_prints(rows: list[Row], currency: str) -> Entry:
    """Prints of many sizes in one row: the print order has them one by one."""
    count = sum(row.packs for row in rows)
    numbers = [number for row in rows for number in row.line.need.pieces]
    paid = sum((row.cost for row in rows), Decimal(0))
    used = sum((row.used for row in rows), Decimal(0))
    left = paid - used
    return Entry(
        shop="print-lab",
        name=say("Prints in {count} sizes, see the print order", count=len(rows)),
        note=_pieces(numbers),
        need=counted("print", "", sum(row.line.need.count for row in rows)),
        buy=str(count),
        pack="",
        each="",
        to_pay=show_money(paid, currency),
        used=show_money(used, currency),
        left="",
        left_worth=show_money(left, currency) if left > 0 else "",
    )


def _priced(row: Row, currency: str, figures: Figures) -> Entry:
    need, purchase = row.line.need, row.line.purchase
    several = len(purchase.bought) > 1
    note = _note(need, figures)
    if purchase.from_drawer and not (several and row.left_over):
        note = _with_home(note, purchase.from_drawer)
    left, worth = "", ""
    left_worth = row.line.cost - cents(row.line.used) if not several else row.cost - row.used
    if need.group == "board" and need.left_sizes:
        left = figures.size(*(float(round(side)) for side in need.left_sizes[0]))
    elif row.left_over and purchase.left_over:
        left = counted(need.group, need.item, purchase.left_over)
    if left_worth > 0:
        worth = show_money(left_worth, currency)
    return Entry(
        shop=row.line.shop,
        name=capital(row.line.name),
        note=note,
        need=counted(need.group, need.item, need.count),
        buy=str(row.packs),
        pack=f"×\u00a0{row.pack}" if row.pack > 1 else "",
        each=show_money(row.each, currency),
        to_pay=show_money(row.cost, currency),
        used=show_money(row.used, currency),
        left=left,
        left_worth=worth,
    )


def _unpriced(need: Need, name: str, figures: Figures) -> Entry:
    return Entry(
        SHOP_OF[need.group],
        capital(name),
        _with_home(_note(need, figures), need.at_home),
        counted(need.group, need.item, need.count),
        *("",) * 7,
    )


def _note(need: Need, figures: Figures) -> str:
    """Below the name: sizes to be cut to, else the pieces it is for."""
    if need.cut:
        sizes = [
            say("{size} ({number})", size=figures.size(*size), number=number)
            for size, number in zip(need.cut, need.pieces, strict=False)
        ]
        return ", ".join(sizes)
    return _pieces(need.pieces)


def _with_home(note: str, count: int) -> str:
    """The note and how many are at home."""
    if not count:
        return note
    at_home = say_many("{count} at home", "{count} at home", count)
    return say("{note}; {more}", note=note, more=at_home) if note else at_home


def _pieces(numbers: Collection[int]) -> str:
    if not numbers:
        return ""
    return say_many("piece {numbers}", "pieces {numbers}", len(numbers), numbers=show_numbers(numbers))


def capital(name: str) -> str:
    """A name at the beginning of a row."""
    return name[:1].upper() + name[1:]


def draw_column_heads(drawing: Drawing, at: Columns, top: float) -> float:
    """The heads of the columns; returns the y of the line below them."""
    base = top - 3.6 - line_step(9)
    heads: Iterable[tuple[float, str, float, str]] = (
        (at.what, say("what"), 40.0, "left"),
        (at.need, say("need"), 22.0, "right"),
        (at.pack, say("BUY packs of"), 21.0, "right"),
        (at.each, say("each"), 13.0, "right"),
        (at.to_pay, say("to pay"), 16.0, "right"),
        (at.used, say("used up"), 11.0, "right"),
        (at.left_over, say("left over worth"), 18.0, "right"),
        (at.right, say("paid"), 14.0, "right"),
    )
    for x, words, width, align in heads:
        column_head(drawing, x, base, words, width, align)
    drawing.line(at.left, base - 1.6, at.right, base - 1.6, THIN_PT)
    return base - 1.6


def draw_row(drawing: Drawing, at: Columns, top: float, entry: Entry, row_mm: float = ROW_MM) -> float:
    """One row; returns the y of the line below it."""
    bottom = top - row_mm
    base = top - row_mm / 2 - 1.4 + (ROW_MM - row_mm) / 3
    drawing.box(at.left + 0.3, base - 1.1, 4.4, 4.4, THIN_PT)
    width = at.need - at.what - 24
    if entry.note:
        drawing.text(at.what, base + 1.7, entry.name, 10, "semibold", within=width + 8)
        drawing.text(at.what, base - 2.3, entry.note, 9, within=width + 8)
    else:
        drawing.text(at.what, base, entry.name, 10, "semibold", within=width + 8)
    drawing.text(at.need, base, entry.need, 10, align="right", within=16)
    if entry.buy:
        drawing.text(at.buy, base, entry.buy, 14, "bold", "right", within=10)
        drawing.text(at.pack, base, entry.pack, 10, align="right", within=10)
        drawing.text(at.each, base, entry.each, 10, align="right", within=13)
        drawing.text(at.to_pay, base, entry.to_pay, 14, "bold", "right", within=16)
        drawing.text(at.used, base, entry.used, 10, align="right", within=12)
        if entry.left:
            drawing.text(at.left_over, base + 1.7, entry.left, 9, align="right", within=18)
            drawing.text(at.left_over, base - 2.3, entry.left_worth, 9, align="right", within=18)
        elif entry.left_worth:
            drawing.text(at.left_over, base, entry.left_worth, 9, align="right", within=18)
        else:
            not_needed(drawing, at.left_over - 4, base + 1)
    else:
        drawing.text(at.to_pay, base, say("price?"), 9, align="right", within=22)
    write_in_box(drawing, at.paid, base - 2.0, at.right - at.paid, 6.4)
    drawing.line(at.left, bottom, at.right, bottom, HAIR_PT, GREY)
    return bottom
