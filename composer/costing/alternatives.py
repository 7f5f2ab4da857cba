"""Ways to pay less for the same wall: each computed by laying it over the project and adding up again.

What is proposed saves real money at the counter: half a pack less saves nothing. Each is one or more
choices, so taking it is one edit.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from composer.catalogue import catalogue as catalogues
from composer.catalogue.catalogue import Catalogue
from composer.catalogue.names import name_of
from composer.costing.choices import BadChoice, with_choices
from composer.costing.costs import Costs, Line, costs_of
from composer.costing.items import PriceBook, names_of
from composer.costing.prints_and_mats import needs_print
from composer.costing.shown import show_numbers
from composer.hanging.weight import weight_of
from composer.model import Arrangement, Choice, Piece, Project, Wall
from composer.prints.plan import PiecePlan, plan
from composer.prints.sharing import room_mm
from composer.prints.stock import price_of, shown_size, stock_sizes
from composer.texts import say, say_many

Way = Literal["glazing", "stock", "short", "shared", "mat", "boards", "left-over", "nail"]

MOST_MATS_TRIED = 12
"""Beyond this, taking single mats away is not tried: nesting the others anew takes its time."""


@dataclass(frozen=True, slots=True)
class Alternative:
    """One way to pay less.

    Attributes:
        way: what kind of way it is.
        choices: what it changes.
        numbers: of the pieces it changes.
        value: the thing it uses instead: a fixing, stock size, board.
        saves: how much less is to pay.
        costs: with it.
    """

    way: Way
    choices: tuple[Choice, ...]
    numbers: tuple[int, ...]
    value: str
    saves: Decimal
    costs: Costs


@dataclass(frozen=True, slots=True)
class _Try:
    way: Way
    choices: tuple[Choice, ...]
    value: str


def alternatives(
    project: Project,
    arrangement: Arrangement | None = None,
    *,
    only: Collection[int] | None = None,
    most: int = 5,
) -> tuple[Alternative, ...]:
    """Ways that save money, the best first; of those that change the same piece the best alone.

    Args:
        project: the project with its prices.
        arrangement: whose walls count; None = the current one.
        only: numbers of the pieces; None = all.
        most: how many at most.
    """
    chosen = project.arrangement if arrangement is None else arrangement
    base = costs_of(project, arrangement, only=only)
    pieces = [piece for piece in project.pieces if only is None or piece.number in only]
    found = []
    for tried in _tries(project, pieces, chosen, base):
        try:
            other = costs_of(with_choices(project, tried.choices), arrangement, only=only)
        except BadChoice:
            continue
        saves = base.total - other.total
        if saves > 0 and len(other.unpriced) <= len(base.unpriced):
            numbers = tuple(sorted(project.piece_by_key[choice.piece].number for choice in tried.choices))
            found.append(Alternative(tried.way, tried.choices, numbers, tried.value, saves, other))
    found.sort(key=lambda one: (-one.saves, len(one.numbers), one.numbers, one.way))
    return tuple(_best_of_each(found)[:most])


def _best_of_each(found: Iterable[Alternative]) -> list[Alternative]:
    kept: list[Alternative] = []
    for one in found:
        alike = [other for other in kept if other.way == one.way]
        if not any(one.way == "boards" or set(one.numbers) & set(other.numbers) for other in alike):
            kept.append(one)
    return kept


def _tries(project: Project, pieces: list[Piece], arrangement: Arrangement, base: Costs) -> Iterable[_Try]:
    known = catalogues.of(project.catalogue)
    yield from _other_boards(pieces)
    yield from _shared_sheets(project, pieces, arrangement)
    for piece in pieces:
        if piece.frame.glazing == "glass":
            yield _Try("glazing", (Choice(of="glazing", piece=piece.key, value="acrylic"),), "acrylic")
        yield from _other_prints(project, piece, arrangement)
        yield from _fixings(project, piece, arrangement, base, known)
    matted = [piece for piece in pieces if piece.mat is not None]
    if len(matted) > 1:
        yield _Try("mat", tuple(_no_mat(piece) for piece in matted), "none")
    for piece in matted if len(matted) <= MOST_MATS_TRIED else ():
        if any(_spares_a_board(line, piece.number) for line in base.lines):
            yield _Try("mat", (_no_mat(piece),), "none")


def _spares_a_board(line: Line, number: int) -> bool:
    """Whether a board fewer could do without that mat, by area alone."""
    if line.group != "board" or number not in line.need.pieces or line.need.worth is None:
        return False
    whole = sum(area for _, area in line.need.shares)
    own = sum(area for piece, area in line.need.shares if piece == number)
    return line.need.worth * line.need.count * (whole - own) / whole <= line.need.count - 1


def _no_mat(piece: Piece) -> Choice:
    return Choice(of="mat", piece=piece.key, value="none")


def _other_boards(pieces: Iterable[Piece]) -> Iterable[_Try]:
    """All mats from one kind of board."""
    boards: dict[str, list[Piece]] = {}
    for piece in pieces:
        if piece.mat is not None and len(piece.mat.layers) == 1:
            layer = piece.mat.layers[0]
            boards.setdefault(" ".join(filter(None, (layer.board, layer.colour))), []).append(piece)
    if len(boards) < 2:
        return
    for board in boards:
        others = [piece for name, listed in boards.items() if name != board for piece in listed]
        yield _Try("boards", tuple(Choice(of="mat", piece=piece.key, value=board) for piece in others), board)


def _shared_sheets(project: Project, pieces: Iterable[Piece], arrangement: Arrangement) -> Iterable[_Try]:
    """Prints of one paper, or of one size and paper, together on larger sheets that have a price."""
    groups: dict[tuple[str, str], list[PiecePlan]] = {}
    for piece in pieces:
        planned = plan(project, piece, arrangement)
        if not needs_print(piece) or planned.use is None or planned.print is None or planned.use.print.shared:
            continue
        paper, fit = planned.use.print.paper or "", planned.print.fit
        groups.setdefault((paper, ""), []).append(planned)
        if fit is not None:
            groups.setdefault((paper, fit.stock.id), []).append(planned)
    sizes = stock_sizes(project.units, project.catalogue)
    for (paper, _), members in groups.items():
        if len(members) < 2:
            continue
        choices_of = [planned.piece.key for planned in members]
        for stock in sizes:
            if price_of(stock, paper or None, project.money) is not None and min(room_mm(stock)) > 0:
                value = f"shared {stock.id}"
                yield _Try("shared", tuple(Choice(of="stock", piece=key, value=value) for key in choices_of), stock.id)


def _other_prints(project: Project, piece: Piece, arrangement: Arrangement) -> Iterable[_Try]:
    """The cheapest stock that covers instead of a dearer one; one short by a hair that lip or mat hides."""
    if not needs_print(piece) or piece.current_use is None:
        return
    planned = plan(project, piece, arrangement).print
    if planned is None:
        return
    best = planned.choice.best
    if planned.chosen and best is not None and planned.fit is not None and best.stock.id != planned.fit.stock.id:
        yield _Try("stock", (Choice(of="stock", piece=piece.key, value=best.stock.id),), best.stock.id)
    for advice in planned.choice.advice:
        if advice.kind == "short" and advice.fit is not None and advice.fit.price is not None:
            stock = advice.fit.stock.id
            yield _Try("short", (Choice(of="stock", piece=piece.key, value=stock),), stock)


def _fixings(project: Project, piece: Piece, arrangement: Arrangement, base: Costs, known: Catalogue) -> Iterable[_Try]:
    """Fixings that are left over from another pack; a nail or hook instead of strips where holes are allowed."""
    place = arrangement.placement_of(piece.key)
    wall = project.walls[0] if place is None else project.wall_by_key[place.wall]
    weight = weight_of(piece, known)
    if wall.no_holes or weight is None:
        return
    book = PriceBook(project.money)
    on_strips = piece.hanger.kind == "strips"
    if not on_strips and piece.hardware is None:
        return
    kind = None if piece.hardware is None else known.fixings.get(piece.hardware.fixing)
    spare = {line.need.item: line.left_over for line in base.lines if line.group == "fixing"}
    for fixing in known.fixings.values():
        if fixing.fixing_kind not in ("hook", "nail") or fixing.load_kg is None or fixing.load_kg < weight.high:
            continue
        if not _holds_in(fixing.walls, wall) or (piece.hardware is not None and fixing.id == piece.hardware.fixing):
            continue
        names = names_of("fixing", fixing.id, known)
        have = spare.get(fixing.id, book.in_drawer(names))
        choice = (Choice(of="fixing", piece=piece.key, value=fixing.id),)
        if on_strips and (have or book.offers(names)):
            yield _Try("nail", choice, fixing.id)
        elif not on_strips and kind is not None and kind.fixing_kind in ("hook", "nail") and have:
            yield _Try("left-over", choice, fixing.id)


def _holds_in(walls: tuple[str, ...], wall: Wall) -> bool:
    return wall.surface in walls


def alternative_words(one: Alternative, project: Project) -> str:
    """The alternative in one sentence."""
    numbers = show_numbers(one.numbers)
    known = catalogues.of(project.catalogue)
    if one.way == "glazing":
        return say("{pieces} with acrylic for glass: lighter", pieces=numbers)
    if one.way == "stock":
        return say("{pieces} printed {size}, which covers", pieces=numbers, size=shown_size(one.value))
    if one.way == "short":
        return say(
            "{pieces} printed {size}: short by up to 3 mm, which lip or mat hides",
            pieces=numbers,
            size=shown_size(one.value),
        )
    if one.way == "shared":
        return say("{pieces} together on {size}, cut apart at home", pieces=numbers, size=shown_size(one.value))
    if one.way == "mat":
        return say_many(
            "{pieces} without a mat; keep the print off the glass",
            "{pieces} without mats; keep the prints off the glass",
            len(one.numbers),
            pieces=numbers,
        )
    if one.way == "boards":
        board, _, colour = one.value.partition(" ")
        words = colour or (name_of(known.boards[board]) if board in known.boards else board)
        return say("All mats from one board: {board}", board=words)
    name = name_of(known.fixings[one.value])
    if one.way == "left-over":
        return say("{pieces} on a {fixing} that is left over", pieces=numbers, fixing=name)
    return say("{pieces} on a {fixing}, no strips", pieces=numbers, fixing=name)
