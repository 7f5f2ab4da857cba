"""The kinds of paper by name, what they are made with, and one way to build any of them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Literal, get_args

from composer.model import Arrangement, Project, Wall
from composer.paper.kept_sheets import Economy
from composer.paper.page_index import PageIndex
from composer.paper.primitives import Document, Page
from composer.paper.sheet_request import SheetRequest
from composer.paper.sheets import TEN_ALL_ROUND, BadSheet, Margins, Sheet, sheet_named, upright
from composer.texts import say

if TYPE_CHECKING:
    from composer.paper.full_size_paper import FullSizePaper

Kind = Literal[
    "templates",
    "wall",
    "cut-outs",
    "measure",
    "hanging-list",
    "mats",
    "prints",
    "shopping",
    "rehang",
    "elevation",
    "scale-check",
]

ALL_KINDS: tuple[str, ...] = get_args(Kind)
"""Every kind by name, built yet or not."""

ECONOMIES: tuple[Economy, ...] = get_args(Economy)

USUAL_SHEET = {"metric": "a4", "imperial": "letter"}

ROLL_LENGTH_MM = 420.0
"""Length of a list cut from a roll; full-size paper is as long as it needs."""

_PAPER_NAMES = {"a4": "A4", "a3": "A3", "a2": "A2", "a1": "A1", "a0": "A0"}


MOST_PAGES = 10_000
"""Twenty reams; a whole wall 10 m wide and 4 m high takes about 800 sheets of A4. Our own limit, no source."""


class TooManySheets(BadSheet):
    """A mistyped size must not fill the memory with sheets nobody prints."""


class NothingToPrint(ValueError):
    """The kind of paper would be empty; the message is one finished sentence."""


class NotBuiltYet(ValueError):
    """The kind is known by name but this version cannot make it; the message is one finished sentence."""


@dataclass(frozen=True, slots=True)
class PaperOptions:
    """How paper is made.

    Attributes:
        sheet: size of the paper.
        margins: what the printer cannot reach, mm.
        overlap_mm: how far tiles overlap.
        economy: which tiles of a template are left out.
        scale: draw factors across and up (nominal ÷ measured).
        only: numbers of the pieces to print; None = all.
        walls: keys of the walls; None = all.
        arrangement: its key; None = the current one.
        left_to_right: the hanging list's rows from left to right, not from the middle outward.
        large_print: the hanging list half as large again, on lying paper.
        folder: from which the pictures' paths are counted; None = sheets do without them.
    """

    sheet: Sheet
    margins: Margins = TEN_ALL_ROUND
    overlap_mm: float = 10.0
    economy: Economy = "full"
    scale: tuple[float, float] = (1.0, 1.0)
    only: frozenset[int] | None = None
    walls: tuple[str, ...] | None = None
    arrangement: str | None = None
    left_to_right: bool = False
    large_print: bool = False
    folder: Path | None = None

    @classmethod
    def usual(cls, project: Project) -> "PaperOptions":
        """What was last chosen for the project's paper, else A4 or letter with 10 mm all round."""
        paper = project.paper
        sheet = sheet_named(paper.sheet or USUAL_SHEET[project.units])
        margins = TEN_ALL_ROUND if paper.margins is None else Margins(*(float(side.mm) for side in paper.margins))
        overlap = 10.0 if paper.overlap is None else float(paper.overlap.mm)
        return cls(sheet, margins, overlap, paper.economy or "full")

    def request(self) -> SheetRequest:
        """The same paper for a sheet that is not tiled.

        Raises:
            BadSheet: when the margins leave too little.
        """
        side = upright(self.sheet, self.margins, ROLL_LENGTH_MM)
        name = _PAPER_NAMES.get(self.sheet.name, self.sheet.name)
        if self.sheet.name in {"letter", "legal", "tabloid"}:
            name = self.sheet.name.capitalize()
        return SheetRequest((side.width, side.height), self.margins, name, self.scale)

    def full_size(self) -> "FullSizePaper":
        """The same paper for what is printed full size.

        Raises:
            BadSheet: the overlap or the margins leave too little of a sheet.
        """
        from composer.paper.full_size_paper import FullSizePaper

        walls = None if self.walls is None else frozenset(self.walls)
        return FullSizePaper(self.sheet, self.margins, self.overlap_mm, self.economy, self.scale, self.only, walls)

    def takes(self, number: int) -> bool:
        """Whether the piece is to be printed."""
        return self.only is None or number in self.only


@dataclass(frozen=True, slots=True)
class PaperResult:
    """Finished paper; the index is there for full-size kinds only."""

    document: Document
    index: PageIndex | None = None


def build(project: Project, kind: str, options: PaperOptions) -> PaperResult:
    """The paper of one kind.

    Raises:
        NothingToPrint: it would be empty.
        NotBuiltYet: this version cannot make it.
        BadSheet, SheetTooSmall: the paper cannot be used for it.
        TooManySheets: it would be more than anybody prints; nothing has been drawn yet.
        KeyError: there is no kind of that name.
    """
    if kind not in ALL_KINDS:
        raise KeyError(kind)
    builder = _BUILDERS.get(kind)
    if builder is None:
        raise NotBuiltYet(say("The paper “{kind}” is not built yet.", kind=kind))
    arrangement = (
        project.arrangement if options.arrangement is None else project.arrangement_by_key[options.arrangement]
    )
    pages, index = builder(project, arrangement, options)
    if len(pages) > MOST_PAGES:
        raise TooManySheets(
            say(
                "{count} sheets would be needed and {most} are the most; look for a mistyped size, or take larger paper.",
                count=len(pages),
                most=MOST_PAGES,
            )
        )
    title = say("{title}: {kind}", title=project.title or project.walls[0].name, kind=kind)
    return PaperResult(Document(title, pages), index)


def walls_of(project: Project, options: PaperOptions) -> list[Wall]:
    """The walls asked for, in the project's order."""
    return [wall for wall in project.walls if options.walls is None or wall.key in options.walls]


_Built = tuple[Sequence[Page], PageIndex | None]
_Builder = Callable[[Project, Arrangement, PaperOptions], _Built]


def _templates(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.paper.templates import templates

    pages, index = templates(project, arrangement, options.full_size())
    if not pages:
        raise NothingToPrint(say("There is no piece to make a template of."))
    return pages, index


def _whole_wall(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.paper.whole_wall import whole_wall

    pages, index = whole_wall(project, arrangement, options.full_size())
    if not pages:
        raise NothingToPrint(say("No piece hangs on a wall yet: there is no wall to print full size."))
    return pages, index


def _scale_check(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.paper import scale_check

    return scale_check.build(project, options.request()), None


def _elevation(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.paper import elevation

    pages: list[Page] = []
    for wall in walls_of(project, options):
        pages += elevation.build(project, wall, arrangement, options.request())
    return pages, None


def _cut_outs(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.paper import cut_outs

    pages: list[Page] = []
    for wall in walls_of(project, options):
        pages += cut_outs.build(project, wall, arrangement, options.request(), options.only)
    if not pages:
        raise NothingToPrint(say("No piece hangs on a wall yet: there is nothing to cut out."))
    return pages, None


def _hanging_list(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.paper import hanging_list

    pages: list[Page] = []
    for wall in walls_of(project, options):
        pages += hanging_list.build(
            project,
            wall,
            arrangement,
            options.request(),
            options.only,
            left_to_right=options.left_to_right,
            large_print=options.large_print,
        )
    if not pages:
        raise NothingToPrint(say("No piece hangs on a wall yet: there is nothing to hang."))
    return pages, None


def _measure(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.paper import measuring

    pages = measuring.build(project, arrangement, options.request(), options.only)
    if not pages:
        raise NothingToPrint(say("Everything is measured: there is nothing to fill in."))
    return pages, None


def _shopping(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.costing.costs import costs_of
    from composer.paper import hunting_card, shopping
    from composer.paper.templates import templates

    request = options.request()
    sheets = len(templates(project, arrangement, options.full_size())[0])
    only = options.only
    if options.walls is not None:
        hung = {piece.number for wall in options.walls for piece, _ in project.hung_on(wall, arrangement)}
        only = frozenset(hung if only is None else hung & only)
    pages = shopping.build(project, arrangement, request, only, sheets)
    costs = costs_of(project, arrangement, only=only)
    for wall in walls_of(project, options):
        pages += hunting_card.build(project, wall, arrangement, request, costs)
    if not pages:
        raise NothingToPrint(say("Everything is there: there is nothing to buy."))
    return pages, None


def _rehang(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    """Walls that change; where nothing changes, or nothing shall hang, the page for moving out."""
    from composer.paper import moving_out, rehang
    from composer.rehang.plan import offer_shift, plan_rehang

    request = options.request()
    pages: list[Page] = []
    still: list[Page] = []
    for wall in walls_of(project, options):
        plan = plan_rehang(project, wall, arrangement)
        if not any(change.now is not None for change in plan.changes) and not plan.fill:
            continue
        if plan.empties or plan.nothing_to_do:
            still += moving_out.build(project, wall, request, plan_rehang(project, wall, None))
        else:
            pages += rehang.build(project, wall, arrangement, request, plan, offer_shift(project, wall, arrangement))
    if not pages and not still:
        raise NothingToPrint(say("Nothing is recorded as up: there is nothing to rehang."))
    return pages or still, None


def _mats(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.paper import mats

    pages = mats.build(project, arrangement, options.request(), options.only)
    if not pages:
        raise NothingToPrint(say("No piece has a mat that is to be cut."))
    return pages, None


def _prints(project: Project, arrangement: Arrangement, options: PaperOptions) -> _Built:
    from composer.paper import prints

    pages = prints.build(project, arrangement, options.request(), options.only, options.folder)
    if not pages:
        raise NothingToPrint(say("No piece shows a picture whose print is to be ordered or trimmed."))
    return pages, None


_BUILDERS: dict[str, _Builder] = {
    "templates": _templates,
    "wall": _whole_wall,
    "cut-outs": _cut_outs,
    "measure": _measure,
    "hanging-list": _hanging_list,
    "mats": _mats,
    "prints": _prints,
    "shopping": _shopping,
    "rehang": _rehang,
    "elevation": _elevation,
    "scale-check": _scale_check,
}

KINDS: tuple[str, ...] = tuple(kind for kind in ALL_KINDS if kind in _BUILDERS)
"""The kinds this version makes, in the order in which they are used."""
