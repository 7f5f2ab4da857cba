"""Prints to be ordered and boards to be bought, as the plans of prints and mats have them."""

from collections import OrderedDict, defaultdict
from collections.abc import Collection, Iterable, Sequence
from decimal import Decimal
from fractions import Fraction

from composer.costing.need import HAS_ITS_MAT, HAS_ITS_PRINT, Need
from composer.model import Arrangement, Piece, Project
from composer.prints.cutting_list import Board, CuttingList, cutting_list
from composer.prints.plan import PrintPlan, plan
from composer.prints.sharing import SharedStock, shared_stocks
from composer.prints.stock import board_sheets, shown_size, stock_sizes
from composer.texts import say
from composer.units import show_length

WORTH_KEEPING_MM = 160.0
"""A rest of board with both sides this long makes another mat (judgement)."""


def needs_print(piece: Piece) -> bool:
    """Whether a print is still to be ordered: it shows a picture, or is a frame to be bought and filled."""
    return piece.stage not in HAS_ITS_PRINT and (piece.current_use is not None or not piece.owned)


def prints_of(project: Project, pieces: Collection[Piece], arrangement: Arrangement) -> Iterable[Need]:
    """Prints by stock size and paper; a price asked for one stands beside it."""
    found: dict[tuple[str, str, Decimal | None], list[tuple[int, PrintPlan | None]]] = defaultdict(list)
    to_size: dict[str, str] = {}
    """What prints are called that no stock size covers, by item."""
    ordered = [piece for piece in pieces if needs_print(piece)]
    together = shared_stocks(
        [plan(project, piece, arrangement) for piece in ordered], stock_sizes(project.units, project.catalogue)
    )
    sharing = {number for one in together for number in one.numbers}
    for one in together:
        yield _shared(one)
    for piece in ordered:
        if piece.number in sharing:
            continue
        planned = plan(project, piece, arrangement).print
        use = None if piece.current_use is None else piece.uses[piece.current_use]
        each = None if use is None else use.print.price
        paper = "" if use is None else use.print.paper or ""
        if planned is None:
            # Nobody knows yet which size: it is a need all the same once somebody named a price or a size.
            if use is not None and (use.print.stock or each is not None):
                found[use.print.stock or "print", paper, each].append((piece.number, None))
        elif planned.fit is None:
            width, height = planned.needed_mm
            item = f"{width:g}x{height:g}mm"
            to_size[item] = say(
                "Print {width} × {height}",
                width=show_length(width, project.length_style),
                height=show_length(height, project.length_style),
            )
            found[item, paper, each].append((piece.number, planned))
        else:
            found[planned.fit.stock.id, paper, each].append((piece.number, planned))
    for (item, paper, each), listed in found.items():
        sold_as = next((one.fit.stock.sold_as for _, one in listed if one is not None and one.fit is not None), "")
        sizes = [item, *([sold_as] if sold_as else [])]
        with_paper = [f"{size} {paper}" for size in sizes] if paper else []
        names = [*with_paper, *sizes]
        label = to_size.get(item) or (say("Print {size}", size=shown_size(item)) if item != "print" else say("Print"))
        if paper:
            label = say("{print}, {paper}", print=label, paper=paper)
        yield Need(
            "print",
            names[0],
            len(listed),
            tuple(sorted((number, 1) for number, _ in listed)),
            each,
            label=label,
            also=tuple(name for one in names for name in (one, f"print {one}")),
        )


def _shared(one: SharedStock) -> Need:
    """Sheets that prints share, by the area of each."""
    areas = {
        int(placed.blank.label): max(1, round(placed.place.width * placed.place.height))
        for cut in one.cuts
        for placed in cut.placed
    }
    names = [one.stock.id, *([one.stock.sold_as] if one.stock.sold_as else [])]
    listed = [*([f"{name} {one.paper}" for name in names] if one.paper else []), *names]
    label = say("Print {size}, shared", size=shown_size(one.stock.id))
    if one.paper:
        label = say("{print}, {paper}", print=label, paper=one.paper)
    return Need(
        "print",
        listed[0],
        len(one.cuts),
        tuple(sorted(areas.items())),
        label=label,
        also=tuple(name for text in listed for name in (text, f"print {text}")),
    )


def boards_of(project: Project, pieces: Collection[Piece], arrangement: Arrangement) -> Iterable[Need]:
    """Mat boards by kind, colour and sheet; used up is the share of the sheets that becomes mats."""
    matted = [piece for piece in pieces if piece.mat is not None and piece.stage not in HAS_ITS_MAT]
    if not matted:
        return
    groups: dict[tuple[str, str, str], list[Board]] = defaultdict(list)
    for one in _cut(project, matted, arrangement).boards:
        groups[one.board, one.colour, one.sheet.id].append(one)
    for (board, colour, sheet), sheets in groups.items():
        yield _boards(project, board, colour, sheet, sheets)


def _boards(project: Project, board: str, colour: str, sheet: str, sheets: Sequence[Board]) -> Need:
    from composer.catalogue import catalogue as catalogues
    from composer.catalogue.names import name_of

    areas: dict[int, int] = defaultdict(int)
    left: list[tuple[float, float]] = []
    for one in sheets:
        for placed in one.cut.placed:
            areas[int(placed.blank.label.rstrip("abc"))] += max(1, round(placed.place.width * placed.place.height))
        left += [
            (rest.width, rest.height) for rest in one.cut.left_over if min(rest.width, rest.height) >= WORTH_KEEPING_MM
        ]
    record = catalogues.of(project.catalogue).boards.get(board)
    name = board if record is None else name_of(record)
    size = shown_size(sheet)
    label = say("{board}, {size}", board=name, size=size)
    if colour:
        label = say("{board}, {colour}, {size}", board=name, colour=colour, size=size)
    worth = sum((Fraction(one.cut.used).limit_denominator(10**6) for one in sheets), Fraction(0)) / len(sheets)
    return Need(
        "board",
        " ".join(word for word in (board, colour, sheet) if word),
        len(sheets),
        tuple(sorted(areas.items())),
        worth=worth,
        left_sizes=tuple(sorted(left, key=lambda one: -one[0] * one[1])),
        label=label,
        also=tuple(
            f"{prefix}{' '.join(word for word in words if word)}"
            for words in ((board, colour, sheet), (board, colour), (board, sheet), (board,), (name, colour), (name,))
            for prefix in ("", "board:")
        ),
    )


_MOST_KEPT = 64
_kept: OrderedDict[tuple[object, ...], CuttingList] = OrderedDict()


def _cut(project: Project, matted: Sequence[Piece], arrangement: Arrangement) -> CuttingList:
    """The cutting list, kept for the same mats: comparing costs asks for it often."""
    mats = tuple((piece.number, plan(project, piece, arrangement).mat) for piece in matted)
    key = (mats, board_sheets(project.catalogue))
    if key not in _kept:
        _kept[key] = cutting_list(project, arrangement, {piece.number for piece in matted})
        if len(_kept) > _MOST_KEPT:
            _kept.popitem(last=False)
    return _kept[key]
