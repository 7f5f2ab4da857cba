"""The shopping list as a table, to be carried in a telephone and typed back."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from composer.catalogue import catalogue as catalogues
from composer.costing.costs import Costs, rows_of
from composer.costing.items import SHOP_OF, SHOPS, counted, item_name, shop_name
from composer.costing.need import Need
from composer.model import Project
from composer.projectfile.cells import folded, plain_text
from composer.projectfile.delimited import guarded, read_rows, to_bytes, unguarded
from composer.projectfile.errors import BadTable
from composer.texts import say
from composer.units import BadQuantity, read_money

HEADER = (
    "shop", "item", "what", "pieces", "need", "in-drawer", "packs", "pack", "each", "to-pay", "used-up", "left-over",
    "paid",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class PaidRow:
    """What was really paid for an item."""

    item: str
    amount: Decimal


def shopping_bytes(project: Project, costs: Costs) -> bytes:
    """The list as CSV: UTF-8 with BOM, CRLF; a row for each pack size, then what has no price yet."""
    known = catalogues.of(project.catalogue)
    rows: list[tuple[str, ...]] = [HEADER]
    order = list(SHOPS)
    for row in sorted(rows_of(costs), key=lambda row: order.index(row.line.shop)):
        need = row.line.need
        rows.append(
            (
                shop_name(row.line.shop),
                guarded(need.item),
                guarded(row.line.name),
                _pieces(need),
                counted(need.group, need.item, need.count),
                str(row.line.purchase.from_drawer or ""),
                str(row.packs),
                str(row.pack),
                f"{row.each:.2f}",
                f"{row.cost:.2f}",
                f"{row.used:.2f}",
                str(row.left_over),
                "",
            )
        )
    for need in (*costs.unpriced, *costs.handy):
        name = need.label or item_name(need.group, need.item, known)
        rows.append(
            (
                shop_name(SHOP_OF[need.group]),
                guarded(need.item),
                guarded(name),
                _pieces(need),
                counted(need.group, need.item, need.count),
                *("",) * 8,
            )
        )
    return to_bytes(rows)


def _pieces(need: Need) -> str:
    return " ".join(str(number) for number in need.pieces)


def read_paid(path: Path) -> tuple[PaidRow, ...]:
    """What stands in the column ``paid`` of a list that was filled in; rows without an amount are left out.

    Several rows of one item are added up.

    Raises:
        BadTable: with row and column.
        CannotRead: when the file cannot be read.
    """
    rows = read_rows(path)
    header = next(rows, None)
    names = [] if header is None else [folded(cell) for cell in header[1]]
    for wanted in ("item", "paid"):
        if wanted not in names:
            raise BadTable(say("“{path}” has no column “{column}”.", path=path, column=wanted), 1, wanted)
    found: dict[str, Decimal] = {}
    for number, cells in rows:
        padded = [*cells, *[""] * (len(names) - len(cells))]
        item, text = (plain_text(unguarded(padded[names.index(name)].strip())) for name in ("item", "paid"))
        if not text:
            continue
        try:
            found[item] = found.get(item, Decimal(0)) + read_money(text)
        except BadQuantity as error:
            sentence = say(
                "“{path}”, row {row}, column {column}: {what}", path=path, row=number, column="paid", what=error
            )
            raise BadTable(sentence, number, "paid") from None
    return tuple(_rows(found.items()))


def _rows(found: Iterable[tuple[str, Decimal]]) -> Iterable[PaidRow]:
    return (PaidRow(item, amount) for item, amount in found)
