"""Several prints on one larger sheet, cut apart along common lines, where that is cheaper."""

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from PIL import Image, ImageDraw

from composer.model import Money, Project
from composer.pictures.decoding import decode_crop
from composer.pictures.print_job import PrintJob
from composer.pictures.print_sheet import encode, file_ppi
from composer.prints.file_names import SUFFIX, FileKind, plain
from composer.prints.guillotine import SAME_MM, CutSheet, Edge
from composer.prints.marks import BAR_MM, INSIDE_MM, LINE_MM
from composer.prints.sharing import NEAR_MM, on_sheets, shared_stocks
from composer.prints.stock import StockSize, price_of, stock_sizes

MM_PER_INCH = 25.4

_TICK_MM = 3.0


@dataclass(frozen=True, slots=True)
class MultiSheet:
    """One shared sheet: what is on it, as a file to be made."""

    name: str
    stock: StockSize
    cut: CutSheet
    made: Callable[[], bytes]


def multi_up(project: Project, jobs: Sequence[PrintJob], kind: FileKind = "jpeg") -> list[MultiSheet]:
    """The shared sheets the person chose; else shared ones for prints of the same paper, where they cost less.

    Without prices, area stands for cost. Prints may lie a quarter turned; cuts run from edge to edge.
    """
    sizes = stock_sizes(project.units, project.catalogue)
    chosen = shared_stocks([job.plan for job in jobs], sizes)
    if chosen:
        made: list[MultiSheet] = []
        for one in chosen:
            made += _made({str(job.piece.number): job for job in jobs}, one.stock, one.cuts, kind, len(made))
        return made
    groups: dict[str, list[PrintJob]] = defaultdict(list)
    for job in jobs:
        use = job.plan.use
        groups[(use.print.paper if use else None) or ""].append(job)
    sheets: list[MultiSheet] = []
    for paper, group in groups.items():
        if len(group) > 1:
            sheets += _shared(project, paper, group, sizes, kind, len(sheets))
    return sheets


def _shared(
    project: Project, paper: str, group: list[PrintJob], sizes: Sequence[StockSize], kind: FileKind, done: int
) -> list[MultiSheet]:
    by_label = {str(job.piece.number): job for job in group}
    own = {label: job.plan.print.fit.stock for label, job in by_label.items() if job.plan.print and job.plan.print.fit}
    best_cost = _cost(list(own.values()), paper, project)
    best: tuple[StockSize, list[CutSheet]] | None = None
    for stock in sizes:
        fitting = [job for job in group if on_sheets([(job.piece.number, _needed(job))], stock)]
        cuts = on_sheets([(job.piece.number, _needed(job)) for job in fitting], stock) or []
        # A print alone on its sheet shares nothing: it is ordered by itself.
        cuts = [cut for cut in cuts if len(cut.placed) > 1]
        shared = {placed.blank.label for cut in cuts for placed in cut.placed}
        ordered = [stock] * len(cuts) + [single for label, single in own.items() if label not in shared]
        cost = _cost(ordered, paper, project)
        if cuts and cost < best_cost:
            best, best_cost = (stock, cuts), cost
    return [] if best is None else _made(by_label, *best, kind, done)


def _made(
    by_label: dict[str, PrintJob], stock: StockSize, cuts: Sequence[CutSheet], kind: FileKind, done: int
) -> list[MultiSheet]:
    made = []
    for index, cut in enumerate(cuts, start=done + 1):
        numbers = "-".join(sorted((placed.blank.label for placed in cut.placed), key=int))
        name = f"{index:02d}_{plain(stock.id)}_{plain(numbers)}.{SUFFIX[kind]}"
        made.append(MultiSheet(name, stock, cut, _Maker(cut, stock, by_label, kind)))
    return made


def _needed(job: PrintJob) -> tuple[float, float]:
    assert job.plan.print is not None
    return job.plan.print.needed_mm


def _cost(stocks: Sequence[StockSize], paper: str, project: Project) -> tuple[int, Decimal | float]:
    """Money where every sheet has a price, which beats not knowing; else area."""
    prices: list[Money | None] = [price_of(stock, paper or None, project.money) for stock in stocks]
    known = [price for price in prices if price is not None]
    if len(known) == len(stocks):
        return 0, sum(known, Decimal(0))
    return 1, sum(stock.area_mm2 for stock in stocks)


@dataclass(frozen=True, slots=True)
class _Maker:
    cut: CutSheet
    stock: StockSize
    jobs: dict[str, PrintJob]
    kind: FileKind

    def __call__(self) -> bytes:
        wide, high = self.stock.height_mm, self.stock.width_mm
        ppi = file_ppi(wide, high)
        sheet = Image.new("RGB", (_px(wide, ppi), _px(high, ppi)), "white")
        for placed in self.cut.placed:
            left, right = NEAR_MM + placed.place.left, NEAR_MM + placed.place.right
            top, bottom = self._y(placed.place.top), self._y(placed.place.bottom)
            box = (_px(left, ppi), _px(top, ppi), _px(right, ppi), _px(bottom, ppi))
            size = (box[2] - box[0], box[3] - box[1])
            job = self.jobs[placed.blank.label]
            assert job.plan.print is not None and job.plan.print.crop is not None
            picture = decode_crop(job.source, job.plan.print.crop, size[::-1] if placed.turned else size)
            if placed.turned:
                picture = picture.transpose(Image.Transpose.ROTATE_90)
            sheet.paste(picture, box[:2])
        self._marks(ImageDraw.Draw(sheet), ppi)
        return encode(sheet, ppi, self.kind)

    def _y(self, up: float) -> float:
        """From the packed area, y up, to the sheet, y down."""
        return NEAR_MM + self.cut.height_mm - up

    def _marks(self, pen: ImageDraw.ImageDraw, ppi: int) -> None:
        line = max(LINE_MM, MM_PER_INCH / ppi)
        wide, high = self.stock.height_mm, self.stock.width_mm
        low_x, low_y = NEAR_MM + self.cut.width_mm, NEAR_MM + self.cut.height_mm

        def ink(left: float, top: float, right: float, bottom: float) -> None:
            a, b = _px(left, ppi), _px(top, ppi)
            pen.rectangle((a, b, max(a, _px(right, ppi) - 1), max(b, _px(bottom, ppi) - 1)), fill="black")

        for edge, at, far in _ticks(self.cut):
            if edge == "left":
                x = NEAR_MM + at
                top, bottom = (INSIDE_MM, NEAR_MM - 1) if far else (low_y + 1, low_y + 6)
                ink(x - line / 2, top, x + line / 2, bottom)
            else:
                y = self._y(at)
                left, right = (low_x + 1, low_x + 6) if far else (INSIDE_MM, NEAR_MM - 1)
                ink(left, y - line / 2, right, y + line / 2)
        if wide >= BAR_MM + 2 * NEAR_MM:
            start, y = (wide - BAR_MM) / 2, high - INSIDE_MM - _TICK_MM
            ink(start, y - line / 2, start + BAR_MM, y + line / 2)
            for x in (start, start + BAR_MM - line):
                ink(x, y - _TICK_MM, x + line, y + _TICK_MM)
        if high >= BAR_MM + 2 * NEAR_MM:
            start, x = (high - BAR_MM) / 2, wide - INSIDE_MM - _TICK_MM
            ink(x - line / 2, start, x + line / 2, start + BAR_MM)
            for y in (start, start + BAR_MM - line):
                ink(x - _TICK_MM, y, x + _TICK_MM, y + line)


def _ticks(cut: CutSheet) -> set[tuple[Edge, float, bool]]:
    """Where a mark stands outside the prints: for each cut whose end comes out there, and along the outermost edges.

    Edge the place is counted from, the place, and whether the mark is at the far end (above, right).
    """
    wide, high = cut.width_mm, cut.height_mm
    ticks: set[tuple[Edge, float, bool]] = set()
    places = [placed.place for placed in cut.placed]
    outer: list[tuple[Edge, float]] = [("left", 0.0), ("bottom", 0.0)]
    outer += [("left", wide)] if max(place.right for place in places) >= wide - SAME_MM else []
    outer += [("bottom", high)] if max(place.top for place in places) >= high - SAME_MM else []
    for edge, at in outer:
        ticks |= {(edge, at, False), (edge, at, True)}
    for one in cut.cuts:
        (x1, y1), (x2, y2) = one.ends
        at, start, end, whole = (x1, y1, y2, high) if one.edge == "left" else (y1, x1, x2, wide)
        ticks |= {(one.edge, at, False)} if start <= SAME_MM else set()
        ticks |= {(one.edge, at, True)} if end >= whole - SAME_MM else set()
    return ticks


def _px(mm: float, ppi: int) -> int:
    return round(mm / MM_PER_INCH * ppi)
