"""Boards to scale with their cuts in order, and the list of cuts: mark from one edge, check from the other."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from composer.catalogue.catalogue import Catalogue
from composer.catalogue.names import name_of
from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Drawing
from composer.paper.figures import Figures
from composer.paper.primitives import BLACK, GREY, HAIR_PT, THICK_PT, THIN_PT, WHITE, Polygon, Weight
from composer.paper.type_metrics import printable, text_width_mm
from composer.prints.cutting_list import Board
from composer.prints.guillotine import CutLine, CutSheet, Placed
from composer.texts import say

RING_MM = 2.65
CUT_ROW_MM = 6.0
LIST_HEAD_MM = 9.5
BOARD_NAME_MM = 5.0
BOARD_HEAD_MM = 5.2

KEEP_MM = 160.0
"""A left-over part with both sides this long is worth keeping (judgement)."""


def board_name(board: Board, catalogue: Catalogue) -> str:
    """``Board A, mat board 4-ply, white``."""
    record = catalogue.boards.get(board.board)
    kind = board.board if record is None else name_of(record)
    if board.colour:
        return say("Board {letter}, {kind}, {colour}", letter=board.name, kind=kind, colour=board.colour)
    return say("Board {letter}, {kind}", letter=board.name, kind=kind)


def draw_board(
    drawing: Drawing, left: float, top: float, board: Board, name: str, scale: float, figures: Figures
) -> float:
    """A board with its name above it; returns the y of its lower edge."""
    wide, high = board.cut.width_mm / scale, board.cut.height_mm / scale
    base = top - BOARD_HEAD_MM + 1.4
    used = say("{percent} % used", percent=f"{board.cut.used * 100:.0f}")
    noted = drawing.text(left + wide, base, used, 9, align="right", within=22)
    drawing.text(left, base, name, 10, "bold", within=wide - noted - 3)
    bottom = top - BOARD_HEAD_MM - high
    draw_cut_sheet(drawing, left, bottom, board.cut, scale, figures)
    drawing.box(left, bottom, wide, high, THICK_PT)
    return bottom


@dataclass(frozen=True, slots=True)
class _View:
    """From a sheet's millimetres to the page."""

    left: float
    bottom: float
    scale: float

    def place(self, part: Rectangle) -> Rectangle:
        return Rectangle(
            self.left + part.left / self.scale,
            self.bottom + part.bottom / self.scale,
            self.left + part.right / self.scale,
            self.bottom + part.top / self.scale,
        )


def draw_cut_sheet(
    drawing: Drawing, left: float, bottom: float, sheet: CutSheet, scale: float, figures: Figures
) -> None:
    """What lies inside a sheet: left-over parts, cuts, mats with number, size and top, rings last."""
    view = _View(left, bottom, scale)
    for part in sheet.left_over:
        _left_over(drawing, view.place(part), part, figures)
    for cut in sheet.cuts:
        (x1, y1), (x2, y2) = cut.ends
        line = view.place(Rectangle(x1, y1, x2, y2))
        drawing.line(*line, THIN_PT)
    taken = [_arrow_point(view.place(placed.place), turned=placed.turned) for placed in sheet.placed]
    rings = [(cut, _ring_place(view.place(cut.part), cut, scale, taken)) for cut in sheet.cuts]
    for placed in sheet.placed:
        _mat(drawing, view.place(placed.place), placed, figures)
    for cut, (x, y) in rings:
        draw_ring(drawing, x, y, cut.number)


def draw_ring(drawing: Drawing, x: float, y: float, number: int) -> None:
    """A cut's place in the order."""
    drawing.circle(x, y, RING_MM, THIN_PT, fill_grey=WHITE)
    drawing.text(x, y - 1.15, str(number), 9, "bold", "centre", within=2 * RING_MM - 0.8)


def _ring_place(part: Rectangle, cut: CutLine, scale: float, taken: list[tuple[float, float]]) -> tuple[float, float]:
    """On the cut near its start, apart from the other rings."""
    upright = cut.edge == "left"
    if upright:
        x, start, end = part.left + cut.mark_mm / scale, part.top, part.bottom
    else:
        x, start, end = part.bottom + cut.mark_mm / scale, part.left, part.right
    step = -0.7 if upright else 0.7
    length = abs(end - start)
    first = start + (4.2 if length > 9 else length / 2) * (-1 if upright else 1)
    best = None
    for index in range(max(1, int((length - 3) / 0.7))):
        along = first + step * index
        at = (x, along) if upright else (along, x)
        if all((at[0] - a) ** 2 + (at[1] - b) ** 2 >= (2 * RING_MM + 0.4) ** 2 for a, b in taken):
            best = at
            break
    found = best or ((x, first) if upright else (first, x))
    taken.append(found)
    return found


def _mat(drawing: Drawing, place: Rectangle, placed: Placed, figures: Figures) -> None:
    """Number and size in the middle, a small filled arrow at its top."""
    x, y = place.centre
    size_pt = min(16.0, max(8.0, min(place.width, place.height) * 1.1))
    words = figures.size(placed.blank.width_mm, placed.blank.height_mm)
    room = place.width - 2
    with_size = text_width_mm(printable(words), 7.5) <= room and place.height >= 11
    shift = 0.6 if with_size else -size_pt * 0.12
    drawing.text(x, y + shift, placed.blank.label, size_pt, "bold", "centre", within=room)
    if with_size:
        drawing.text(x, y - 4.4, words, 9, align="centre", within=room)
    drawing.add(_arrow(*_arrow_point(place, turned=placed.turned), pointing_left=placed.turned))


def _arrow_point(place: Rectangle, *, turned: bool) -> tuple[float, float]:
    """Where a mat's arrow points to: near the edge that will be its top."""
    x, y = place.centre
    return (place.left + 0.8, y) if turned else (x, place.top - 0.8)


def _arrow(x: float, y: float, *, pointing_left: bool) -> Polygon:
    long, half = 2.2, 1.5
    points = ((x, y), (x + long, y + half), (x + long, y - half)) if pointing_left else (
        (x, y), (x - half, y - long), (x + half, y - long)
    )  # fmt: skip
    return Polygon(points, fill_grey=BLACK)


def top_arrow(drawing: Drawing, x: float, top: float) -> None:
    """The small filled arrow that says: this is its top."""
    drawing.add(_arrow(x, top, pointing_left=False))


def _left_over(drawing: Drawing, place: Rectangle, part: Rectangle, figures: Figures) -> None:
    """A grey diagonal; what is worth keeping says so, in as many lines as its room asks for."""
    drawing.line(place.left, place.bottom, place.right, place.top, HAIR_PT, GREY)
    if min(part.width, part.height) < KEEP_MM:
        return
    size = figures.size(part.width, part.height)
    ways = (
        ((say("keep {size}", size=size), say("write the size on it")), False),
        ((say("keep"), size, say("write the size on it")), False),
        ((say("keep"), size), False),
        ((say("keep {size}", size=size),), True),
    )
    for lines, turned in ways:
        wide = max(text_width_mm(printable(line), 9, "semibold") for line in lines) + 2
        high = 4.6 * len(lines) + 1.0
        across, up = (high, wide) if turned else (wide, high)
        if across > place.width - 1 or up > place.height - 1:
            continue
        x, y = place.centre
        drawing.box(x - across / 2, y - up / 2, across, up, None, fill_grey=WHITE)
        if turned:
            drawing.text(x + 1.1, y, lines[0], 9, "semibold", "centre", turn=90)
            return
        for index, line in enumerate(lines):
            weight: Weight = "semibold" if index < len(lines) - (len(lines) > 1 and line is not size) else "regular"
            drawing.text(x, y + high / 2 - 3.9 - 4.6 * index, line, 9, weight, "centre")
        return


def list_height(boards: Sequence[Board]) -> float:
    """How much room the list of these boards' cuts takes, mm."""
    return LIST_HEAD_MM + sum(BOARD_NAME_MM + CUT_ROW_MM * len(board.cut.cuts) for board in boards)


def draw_list_head(drawing: Drawing, left: float, top: float, width: float) -> float:
    """Heads of the columns of cuts; returns the y below."""
    base = top - 5.0
    right = left + width
    drawing.text(left + width * 0.54, base, say("mark from"), 9, "semibold", "right", within=width * 0.5)
    drawing.text(left + width * 0.58, base, say("check from"), 9, "semibold", within=width * 0.27)
    drawing.text(right, base, say("gives"), 9, "semibold", "right", within=width * 0.15)
    drawing.line(left, top - 7.2, right, top - 7.2, THIN_PT)
    return top - 7.2


def gives_words(cut: CutLine) -> str:
    """``mat 3``."""
    return say("mat {numbers}", numbers=", ".join(cut.gives))


def draw_cut_row(
    drawing: Drawing,
    left: float,
    top: float,
    width: float,
    cut: CutLine,
    figures: Figures,
    row_mm: float = CUT_ROW_MM,
    gives: Callable[[CutLine], str] = gives_words,
) -> float:
    """One cut: ring, edge, what to mark, what to check, what it gives; returns the y below."""
    base = top - row_mm / 2 - 1.5
    draw_ring(drawing, left + RING_MM, top - row_mm / 2, cut.number)
    near, far = (say("left"), say("right")) if cut.edge == "left" else (say("bottom"), say("top"))
    number = figures.bare(cut.mark_mm)
    wide = drawing.text(left + width * 0.54, base - 0.3, number, 14, "bold", "right", within=width * 0.27)
    drawing.text(left + 7.6, base + 0.2, near, 10, within=width * 0.54 - 8.6 - wide)
    checked = f"{far} {figures.bare(cut.check_mm)}"
    drawing.text(left + width * 0.58, base + 0.2, checked, 10, within=width * (0.25 if cut.gives else 0.42))
    if cut.gives:
        drawing.text(left + width, base + 0.2, gives(cut), 10, "bold", "right", within=width * 0.17)
    y = top - row_mm
    drawing.line(left, y, left + width, y, HAIR_PT, GREY)
    return y
