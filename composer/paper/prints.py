"""Print order and trimming sheet: at the counter by size and paper, at home first the bar, then the knife."""

from collections.abc import Collection, Sequence
from pathlib import Path

from composer.costing.need import HAS_ITS_MAT, HAS_ITS_PRINT
from composer.costing.shown import show_numbers
from composer.model import Arrangement, Project
from composer.paper.drawing import line_step, lines_of
from composer.paper.primitives import Page
from composer.paper.print_apart import draw_apart
from composer.paper.print_drawings import SCALES, drawing_scale
from composer.paper.print_flow import PrintFlow
from composer.paper.print_order import draw_order
from composer.paper.print_rows import PrintRow, order_lines, print_rows
from composer.paper.print_thumbnails import draw_contacts, thumbnails
from composer.paper.print_trimming import draw_at_home, draw_trimming, draw_whole
from composer.paper.sheet_request import SheetRequest
from composer.prints.sharing import shared_stocks
from composer.prints.stock import stock_sizes
from composer.texts import say

_LEAST = (180.0, 160.0)
_SMALLEST_DRAWINGS = 20.0


def build(
    project: Project,
    arrangement: Arrangement,
    request: SheetRequest,
    only: Collection[int] | None = None,
    folder: Path | None = None,
) -> list[Page]:
    """The sheets; none where no piece shows a picture whose size is known.

    With ``folder``, from which the pictures' paths are counted, a contact sheet stands below the order, and
    what is to be done at home begins on another page. Drawings are made smaller where that saves a page.

    Raises:
        SheetTooSmall: the paper is narrower than about A4.
    """
    rows = [row for row in print_rows(project, arrangement, only) if row.piece.stage not in HAS_ITS_MAT]
    if not rows:
        return []
    upright = request.turned(landscape=False)
    area = upright.expect(say("Print order"), *_LEAST)
    largest = drawing_scale(row.layout for row in rows if row.layout is not None)
    photos = thumbnails(rows, folder)
    scales = (largest, *(scale for scale in SCALES if largest < scale <= _SMALLEST_DRAWINGS))
    made = [
        _pages(rows, PrintFlow(project, upright, area, scale, photos), apart=apart)
        for apart in ((True,) if photos else (True, False))
        for scale in scales
    ]
    # The first of the shortest: with the order on a page of its own if that costs none, then with large drawings.
    return min(made, key=len)


def _pages(rows: Sequence[PrintRow], flow: PrintFlow, *, apart: bool) -> list[Page]:
    """All pages; ``apart`` = what is to be done at home begins on a new one."""
    to_order = [row for row in rows if row.piece.stage not in HAS_ITS_PRINT]
    if to_order:
        draw_order(flow, order_lines(to_order, flow.project))
    together = shared_stocks([row.planned for row in rows], stock_sizes(flow.project.units, flow.project.catalogue))
    sharing = {number for one in together for number in one.numbers}
    kept = [row for row in rows if row.layout is not None and row.piece.number not in sharing]
    trim = [row for row in kept if not row.may_stay_whole]
    whole = [row for row in kept if row.may_stay_whole]
    at_home = bool(kept or together)
    if apart and to_order and at_home:
        draw_contacts(flow, to_order)
        flow.finish()
        flow.start(first=False)
    if at_home:
        draw_at_home(flow, kept, trim, together)
    if together:
        draw_apart(flow, together)
    if trim:
        draw_trimming(flow, trim)
    if whole:
        draw_whole(flow, whole, others=bool(trim or together))
    _foot(flow, rows)
    flow.finish()
    return flow.done


def _foot(flow: PrintFlow, rows: Sequence[PrintRow]) -> None:
    origins: dict[str, list[int]] = {}
    for row in rows:
        words = ", ".join(part for part in (row.picture.source, row.picture.licence) if part)
        origins.setdefault(words or say("source not noted"), []).append(row.piece.number)
    said = "; ".join(
        say("{numbers} {origin}", numbers=show_numbers(numbers), origin=origin) for origin, numbers in origins.items()
    )
    sentences = (
        say("Pictures: {origins}. JPEG, sRGB; each file is the whole sheet.", origins=said),
        say(
            "Sheet sizes and prices are defaults or yours. Ask which sizes the lab really delivers, in mm, before you pay."
        ),
    )
    height = sum(lines_of(one, flow.area.width, 9) for one in sentences) * line_step(9) + 2
    flow.room(height)
    y = flow.y - 4.4
    for one in sentences:
        y = flow.drawing.paragraph(flow.area.left, y, one, flow.area.width, 9)
    flow.y = y
