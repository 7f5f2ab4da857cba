"""What stands on the print order: one entry a print, grouped for the counter and for the knife."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from composer.model import Arrangement, Money, Picture, PictureUse, Piece, Project
from composer.prints.file_names import file_name
from composer.prints.marks import SheetLayout
from composer.prints.plan import PiecePlan, PrintPlan, plan
from composer.prints.sharing import shared_stocks
from composer.prints.stock import price_of, stock_sizes

SAME_MM = 1e-6


@dataclass(frozen=True, slots=True)
class PrintRow:
    """One print to be ordered, its plan complete.

    Attributes:
        layout: the picture's place on its sheet; None = no stock covers: to be made to measure.
        name: of its file; empty where there is none.
    """

    piece: Piece
    use: PictureUse
    picture: Picture
    planned: PiecePlan
    printed: PrintPlan
    layout: SheetLayout | None
    name: str

    @property
    def may_stay_whole(self) -> bool:
        """Whether nothing need be cut off: no waste, or the mat's board hides it.

        The print lies with its picture behind the window; on each side the sheet may reach as far as the board.
        """
        if self.layout is None or max(self.layout.waste.values()) <= SAME_MM:
            return True
        mat = self.planned.mat
        if mat is None:
            return False
        four = mat.borders
        room = {"left": four.left, "top": four.top, "right": four.right, "bottom": four.bottom}
        return all(waste <= room[side] - mat.overlap_mm + SAME_MM for side, waste in self.layout.waste.items())

    @property
    def usual_corner(self) -> bool:
        """Whether the kept part lies upper left, so that two cuts do."""
        return self.layout is None or (self.layout.left <= SAME_MM and self.layout.top <= SAME_MM)


@dataclass(frozen=True, slots=True)
class OrderLine:
    """Prints of one size, paper and price; ``stock`` None = each to be made to measure.

    ``sheets``: how many sheets the rows share; None = each has its own.
    """

    rows: tuple[PrintRow, ...]
    size_mm: tuple[float, float]
    stock: str | None
    paper: str
    each: Money | None
    sheets: int | None = None

    @property
    def count(self) -> int:
        """How many are ordered."""
        return len(self.rows) if self.sheets is None else self.sheets


def print_rows(project: Project, arrangement: Arrangement, only: Collection[int] | None) -> list[PrintRow]:
    """The prints of every piece that shows a picture, by number."""
    rows: list[PrintRow] = []
    for piece in sorted(project.pieces, key=lambda piece: piece.number):
        if only is not None and piece.number not in only:
            continue
        planned = plan(project, piece, arrangement)
        if planned.use is None or planned.print is None:
            continue
        printed = planned.print
        name = "" if printed.fit is None else file_name(piece, printed.fit.stock)
        picture = project.picture_by_key[planned.use.picture]
        rows.append(PrintRow(piece, planned.use, picture, planned, printed, printed.layout, name))
    return rows


def order_lines(rows: Sequence[PrintRow], project: Project) -> list[OrderLine]:
    """By size, the largest first, then by paper and price; what is made to measure last."""
    groups: dict[tuple[object, ...], list[PrintRow]] = {}
    together = shared_stocks([row.planned for row in rows], stock_sizes(project.units, project.catalogue))
    sharing = {number for one in together for number in one.numbers}
    for row in rows:
        if row.piece.number in sharing:
            continue
        fit = row.printed.fit
        paper = row.use.print.paper or ""
        key = (
            (None, *row.printed.needed_mm, paper, row.printed.price)
            if fit is None
            else (fit.stock.id, fit.stock.width_mm, fit.stock.height_mm, paper, row.printed.price)
        )
        groups.setdefault(key, []).append(row)
    lines = []
    for one in together:
        members = tuple(row for row in rows if row.piece.number in one.numbers)
        price = price_of(one.stock, one.paper or None, project.money)
        size = (one.stock.width_mm, one.stock.height_mm)
        lines.append(OrderLine(members, size, one.stock.id, one.paper, price, len(one.cuts)))
    for group in groups.values():
        printed = group[0].printed
        fit = printed.fit
        size = printed.needed_mm if fit is None else (fit.stock.width_mm, fit.stock.height_mm)
        lines.append(
            OrderLine(
                tuple(group),
                size,
                None if fit is None else fit.stock.id,
                group[0].use.print.paper or "",
                printed.price,
            )
        )
    return sorted(
        lines,
        key=lambda line: (
            line.stock is None,
            -line.size_mm[0] * line.size_mm[1],
            line.paper,
            line.rows[0].piece.number,
        ),
    )
