"""The measuring sheet: what is still missing, how to measure it, a box for each number.

It draws the BACK of a frame with letters that head the columns. What is known is printed; what no
paper will need gets a dash; only what is missing gets a box.
"""

from collections.abc import Collection, Sequence
from typing import NamedTuple

from composer.catalogue import catalogue as catalogues
from composer.hanging.points import hang
from composer.model import Arrangement, Piece, Project
from composer.paper.drawing import Area, Drawing, lines_of
from composer.paper.figures import Figures, figures_of
from composer.paper.furniture import not_needed, sheet_head, write_in_box
from composer.paper.measuring_block import BLOCK_MM, draw_block, lettered
from composer.paper.primitives import GREY, HAIR_PT, THIN_PT, Page
from composer.paper.sheet_request import SheetRequest
from composer.paper.wall_drawing import of_wall
from composer.texts import N_, say
from composer.units import Length

_LEAST = (255.0, 180.0)
_TABLE_HEAD_MM, _ROW_MM, _FOOT_MM = 8.0, 9.4, 6.5
_LEAST_ROW_MM = 8.8
_BLANK_ROWS = 9

KIND_LETTERS = {
    "wire": "W",
    "d-rings": "R",
    "sawtooth": "S",
    "keyholes": "K",
    "strips": "T",
    "cleat": "C",
    "ledge": "L",
}


class Cell(NamedTuple):
    """What stands in a cell: a known value, a box to write in, letters to ring, or a dash."""

    value: str = ""
    box: bool = False
    ring: bool = False


_DASH = Cell()
_BOX = Cell(box=True)


class _Column(NamedTuple):
    letter: str
    words: str
    at: float
    width: float


_COLUMNS = (
    _Column("", N_("No."), 0.0, 8.0),
    _Column("", N_("frame"), 9.0, 33.0),
    _Column("A", N_("width"), 43.0, 17.0),
    _Column("B", N_("height"), 61.0, 17.0),
    _Column("C", N_("depth"), 79.0, 17.0),
    _Column("", N_("how"), 97.0, 25.0),
    _Column("D", N_("left*"), 124.0, 17.0),
    _Column("D", N_("right*"), 142.0, 17.0),
    _Column("E", N_("apart"), 160.0, 17.0),
    _Column("F", N_("glass w"), 178.0, 17.0),
    _Column("G", N_("glass h"), 196.0, 17.0),
    _Column("H", N_("face"), 214.0, 15.0),
    _Column("K", "kg", 230.0, 20.0),
    _Column("", N_("glazing"), 252.0, 25.0),
)
"""Columns of a sheet 277 mm wide: where each starts and how wide it is."""


def cells(piece: Piece, figures: Figures, needs_face: bool) -> tuple[Cell, ...]:
    """The cells of one row from width to glazing; ``needs_face`` says that strips wait for the face."""
    frame, hanger = piece.frame, piece.hanger
    kind = hanger.kind

    def known(length: Length | None) -> Cell:
        return _BOX if length is None else Cell(figures.bare(length.mm))

    has_drop = kind not in ("strips", "ledge")
    pair = kind in (None, "d-rings", "keyholes")
    drop = known(hanger.drop) if has_drop else _DASH
    if kind == "wire" and hanger.drop is None and hang(piece).drop_mm is not None:
        drop = Cell(figures.bare(hang(piece).drop_mm or 0.0))
    right = _DASH
    if pair:
        right = known(hanger.drop_right or hanger.drop)
    glass = frame.glass_mm
    face = _DASH
    if frame.face is not None:
        face = Cell(figures.bare(frame.face.mm))
    elif needs_face:
        face = _BOX
    return (
        Cell(figures.bare(frame.width.mm)),
        Cell(figures.bare(frame.height.mm)),
        known(frame.depth),
        Cell("W R S K T", ring=True) if kind is None else Cell(KIND_LETTERS[kind]),
        drop,
        right,
        known(hanger.spacing) if pair or kind == "wire" else _DASH,
        _BOX if glass is None else Cell(figures.bare(glass[0])),
        _BOX if glass is None else Cell(figures.bare(glass[1])),
        face,
        _BOX if piece.weight is None else Cell(figures.mass(piece.weight.kg)),
        Cell(say("glass  acrylic"), ring=True) if frame.glazing == "unknown" else Cell(say(_GLAZING[frame.glazing])),
    )


_GLAZING = {"glass": N_("glass"), "acrylic": N_("acrylic"), "styrene": N_("styrene"), "none": N_("none")}


def build(
    project: Project, arrangement: Arrangement, request: SheetRequest, only: Collection[int] | None = None
) -> list[Page]:
    """The sheets, lying; none when everything is measured. An empty project gets blank rows.

    Raises:
        SheetTooSmall: the paper is smaller than about A4.
    """
    lying = request.turned(landscape=True)
    area = lying.expect(say("Measuring sheet"), *_LEAST)
    figures = figures_of(project)
    known = catalogues.of(project.catalogue)
    pieces = [piece for piece in project.pieces if only is None or piece.number in only]
    pieces.sort(key=lambda piece: piece.number)
    rows: list[tuple[str, str, tuple[Cell, ...]]] = []
    for piece in pieces:
        turned = any(place.piece == piece.key and place.turned for place in arrangement.placements)
        found = hang(piece, turned=turned, catalogue=known)
        needs = any("face" in str(problem.value("missing")).split() for problem in found.problems)
        rows.append((str(piece.number), piece.name, cells(piece, figures, needs)))
    if rows and not any(cell.box or cell.ring for _, _, row in rows for cell in row):
        return []
    if not rows:
        rows = [("", "", _blank())] * _BLANK_ROWS
    walls = list(project.walls)
    pages: list[Page] = []
    while rows or not pages:
        wall = walls[min(len(pages), len(walls) - 1)]
        drawing = Drawing()
        note = say(
            "{unit}. One tape for everything. Fill the boxes only; a line means: not needed.",
            unit=figures.all_in.capitalize(),
        )
        rule = sheet_head(drawing, area, say("Measuring sheet"), of_wall(project, wall), note)
        first = not pages
        with_block = first or len(pages) < len(walls)
        if with_block:
            draw_block(drawing, area, rule, wall, figures)
        table = rule - (BLOCK_MM if with_block else 6.0)
        room = table - _TABLE_HEAD_MM - area.bottom - _FOOT_MM
        row_mm = min(_ROW_MM, max(_LEAST_ROW_MM, room / len(rows)))
        count = max(1, int((room + 1e-6) // row_mm))
        _table(drawing, area, table, rows[:count], figures, row_mm)
        rows = rows[count:]
        label = say("Measuring {number}", number=len(pages) + 1)
        pages.append(drawing.page(lying.size, label, (say("Measuring sheet"), label), area))
    return pages


def _blank() -> tuple[Cell, ...]:
    ring = {3: Cell("W R S K T", ring=True), 11: Cell(say("glass  acrylic"), ring=True)}
    return tuple(ring.get(index, _BOX) for index in range(12))


def _table(
    drawing: Drawing,
    area: Area,
    top: float,
    rows: Sequence[tuple[str, str, tuple[Cell, ...]]],
    figures: Figures,
    row_mm: float,
) -> None:
    share = min(1.25, area.width / 277.0)
    drawing.line(area.left, top, area.right, top, THIN_PT)
    for column in _COLUMNS:
        x = area.left + column.at * share
        words = say(column.words) if column.words != "kg" else figures.mass_unit
        if column.letter:
            lettered(drawing, x + 2.9, top - 4, column.letter)
            drawing.text(x + 6.6, top - 5.1, words, 9, within=column.width * share - 5.9)
        else:
            drawing.text(x, top - 5.1, words, 9, "semibold", within=column.width * share)
    y = top - _TABLE_HEAD_MM
    drawing.line(area.left, y, area.right, y, THIN_PT)
    for number, name, row in rows:
        base = y - row_mm / 2 - 1.3
        drawing.text(area.left, base - 0.5, number, 14, "bold", within=8 * share)
        name_room = 32.0 * share
        if lines_of(name, name_room, 10, "semibold") == 1:
            drawing.text(area.left + 9 * share, base, name, 10, "semibold")
        else:
            drawing.paragraph(area.left + 9 * share, base + 1.9, name, name_room, 8.5, "semibold", most=2)
        for column, cell in zip(_COLUMNS[2:], row, strict=True):
            _cell(drawing, area.left + column.at * share, y, column.width * share, row_mm, cell)
        y -= row_mm
        drawing.line(area.left, y, area.right, y, HAIR_PT, GREY)
    words = say(
        "How (ring one): W wire · R rings · S sawtooth · K keyholes · T strips · C cleat · L ledge.   "
        "* left and right as on the wall, so the other way round from the back. One hanger: fill left."
    )
    drawing.text(area.left, y - 4.6, words, 9, within=area.width)


def _cell(drawing: Drawing, x: float, top: float, width: float, row_mm: float, cell: Cell) -> None:
    base = top - row_mm / 2 - 1.3
    if cell.box:
        write_in_box(drawing, x, top - row_mm + 1.2, width - 1.6, row_mm - 2.4)
    elif cell.ring:
        step = width / max(1, len(cell.value.split()))
        for index, word in enumerate(cell.value.split()):
            drawing.text(x + index * step, base, word, 10 if len(word) == 1 else 9, within=step - 0.8)
    elif cell.value:
        drawing.text(x, base, cell.value, 10, within=width - 1)
    else:
        not_needed(drawing, x + width * 0.4, top - row_mm / 2)
