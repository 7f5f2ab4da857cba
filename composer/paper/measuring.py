"""The measuring sheet: what is still missing, how to measure it, a box for each number.

It draws the BACK of a frame with letters that head the columns. What is known is printed; what no
paper will need gets a dash; only what is missing gets a box.
"""

from collections.abc import Collection, Sequence
from typing import NamedTuple

from composer.catalogue import catalogue as catalogues
from composer.hanging.points import hang
from composer.model import Arrangement, Piece, Project, Wall
from composer.paper.drawing import Area, Drawing, line_step, lines_of
from composer.paper.elevation import View, of_wall
from composer.paper.figures import Figures, figures_of
from composer.paper.furniture import not_needed, sheet_head, tick, write_in_box
from composer.paper.primitives import BLACK, GREY, HAIR_PT, THICK_PT, THIN_PT, WHITE, Line, Page
from composer.paper.sheet_request import SheetRequest
from composer.texts import N_, say
from composer.units import Length

_LEAST = (255.0, 180.0)
_BLOCK_MM, _TABLE_HEAD_MM, _ROW_MM, _FOOT_MM = 82.0, 8.0, 9.4, 6.5
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

_LEGEND = (
    ("A", N_("width, outside of the frame")),
    ("B", N_("height, outside of the frame")),
    ("C", N_("depth, front of the frame to the wall")),
    (
        "D",
        N_(
            "drop: top edge down to where the frame bears. Wire: pull it up as the hooks will, one finger for "
            "one hook, two for two. Rings: measure both."
        ),
    ),
    ("E", N_("between the two rings or keyholes, middles")),
    ("F", N_("glass width, seen from the back with the backing off")),
    ("G", N_("glass height")),
    ("H", N_("face: width of the moulding, seen from the front")),
    ("K", N_("weight, all in: on the scales with it, then without")),
)


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
            _block(drawing, area, rule, wall, figures)
        table = rule - (_BLOCK_MM if with_block else 6.0)
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


def _letter(drawing: Drawing, x: float, y: float, letter: str, radius: float = 2.7) -> None:
    drawing.circle(x, y, radius, THIN_PT, fill_grey=WHITE)
    drawing.text(x, y - 1.15, letter, 9, "bold", "centre")


def _block(drawing: Drawing, area: Area, rule: float, wall: Wall, figures: Figures) -> None:
    bottom = rule - _BLOCK_MM
    extra = min(40.0, area.width - 255.0)
    back = Area(area.left, bottom, area.left + 92, rule)
    _back(drawing, back)
    _legend(drawing, Area(area.left + 98, bottom + 3, area.left + 166 + extra * 0.75, rule - 2))
    _wall(drawing, Area(area.right - 84, bottom, area.right, rule), wall, figures)


def _back(drawing: Drawing, room: Area) -> None:
    """The back of a frame with wire, rings, glass and the letters."""
    left, right = room.left + 22, room.left + 80
    top, bottom = room.top - 15, room.top - 69
    drawing.box(left, bottom, right - left, top - bottom, THICK_PT)
    drawing.box(left + 7, bottom + 7, right - left - 14, top - bottom - 14, THIN_PT)
    drawing.box(left + 4, bottom + 4, right - left - 8, top - bottom - 8, HAIR_PT, dash=(1.6, 1.0))
    drawing.text(left + 9.5, top - 11, say("TOP"), 8, "bold", within=14)
    ring_y, hook_y = top - 20, top - 11
    a, b = left + 3.5, right - 3.5
    hook_a, hook_b = left + 23, right - 23
    for x1, y1, x2, y2 in ((a, ring_y, hook_a, hook_y), (hook_a, hook_y, hook_b, hook_y), (hook_b, hook_y, b, ring_y)):
        drawing.line(x1, y1, x2, y2, THIN_PT)
    for x in (hook_a, hook_b):
        drawing.line(x, hook_y, x, hook_y - 4, THIN_PT)
        drawing.circle(x, hook_y, 0.6, None, fill_grey=BLACK)
    for x in (a, b):
        drawing.circle(x, ring_y, 1.3, THIN_PT, fill_grey=WHITE)
    across = (
        (left, right, top + 6.5, "A", (top, bottom)),
        (a, b, ring_y - 9, "E", (ring_y - 1.5, ring_y - 10.5)),
        (left + 4, right - 4, ring_y - 21, "F", None),
    )
    for x1, x2, y, letter, reach in across:
        if reach is not None:
            for x in (x1, x2):
                drawing.line(
                    x, reach[0] + (1 if letter == "A" else 0), x, y + (1.5 if letter == "A" else -1.5), HAIR_PT, GREY
                )
        _dimension(drawing, (x1, y), (x2, y), letter)
    _dimension(drawing, (left - 9, bottom), (left - 9, top), "B")
    for y in (bottom, top):
        drawing.line(left - 10.5, y, left - 0.5, y, HAIR_PT, GREY)
    _dimension(drawing, (right + 8, bottom + 4), (right + 8, top - 4), "G")
    for y in (bottom + 4, top - 4):
        drawing.line(right - 3.5, y, right + 9.5, y, HAIR_PT, GREY)
    _dimension(drawing, (hook_b + 7, hook_y), (hook_b + 7, top), "D")
    drawing.line(hook_b + 1, hook_y, hook_b + 8.5, hook_y, HAIR_PT, GREY)
    y = bottom - 3.5
    for x in (left, left + 7):
        drawing.line(x, bottom, x, y - 1.5, HAIR_PT, GREY)
        tick(drawing, x, y)
    drawing.line(left, y, left + 11, y, HAIR_PT)
    _letter(drawing, left + 13.5, y, "H")
    words = say("This is the BACK. Its left side is the RIGHT side on the wall.")
    drawing.text(room.left, room.bottom + 2.6, words, 9, "bold", within=room.width)


def _dimension(drawing: Drawing, start: tuple[float, float], end: tuple[float, float], letter: str) -> None:
    drawing.add(Line(*start, *end, HAIR_PT))
    tick(drawing, *start)
    tick(drawing, *end)
    _letter(drawing, (start[0] + end[0]) / 2, (start[1] + end[1]) / 2, letter)


def _legend(drawing: Drawing, room: Area) -> None:
    width = room.width - 8
    texts = [(letter, say(words)) for letter, words in _LEGEND]
    size = 9.0
    while size > 7 and sum(_legend_height(text, width, size) for _, text in texts) > room.height:
        size -= 0.5
    spare = room.height - sum(_legend_height(text, width, size) for _, text in texts)
    y = room.top - 4
    for letter, text in texts:
        _letter(drawing, room.left + 3, y, letter)
        after = drawing.paragraph(room.left + 8, y - 1.1, text, width, size)
        used = y - 1.1 - after
        y -= max(6.0, used + 2.0) + min(1.2, max(0.0, spare / len(texts)))


def _legend_height(text: str, width: float, size: float) -> float:
    return max(6.0, lines_of(text, width, size) * line_step(size) + 2.0)


def _wall(drawing: Drawing, room: Area, wall: Wall, figures: Figures) -> None:
    """The wall as known so far, with boxes for a second measure of each direction and for depths."""
    used = drawing.text(room.left, room.top - 7, say("The wall"), 14, "semibold", within=room.width * 0.55)
    drawing.text(room.left + used + 3, room.top - 7, say("facing it"), 9, within=room.width - used - 4)
    width, height = float(wall.width.mm), float(wall.height.mm)
    scale = max(width / (room.width - 8), height / (room.height - 36))
    wide, high = width / scale, height / scale
    left = room.left + (room.width - wide) / 2
    bottom = room.bottom + 16 + (room.height - 36 - high) / 2
    view = View(left, bottom, scale)
    corners = [(view.x(x), view.y(y)) for x, y in wall.corners]
    for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], corners[0]], strict=True):
        drawing.line(x1, y1, x2, y2, THIN_PT)
    drawing.line(left - 3, bottom, left + wide + 3, bottom, THICK_PT)
    for obstacle in wall.obstacles:
        w, h = float(obstacle.width.mm) / scale, float(obstacle.height.mm) / scale
        x, y = view.x(obstacle.left), view.y(obstacle.bottom)
        drawing.box(x, y, w, h, THIN_PT, GREY)
    _labelled_box(drawing, (room.left + room.right) / 2, bottom + high + 2, say("width at ceiling"), room.width / 2)
    words = say("width at floor {width}, height {height}", width=figures.bare(width), height=figures.bare(height))
    drawing.text((room.left + room.right) / 2, bottom - 5, words, 9, align="centre", within=room.width)
    box_y = bottom + high - 12
    drawing.text(left + 2, box_y + 7.6, say("height left"), 9, within=wide / 2 - 4)
    write_in_box(drawing, left + 2, box_y, 17)
    drawing.text(left + wide - 2, box_y + 7.6, say("height right"), 9, align="right", within=wide / 2 - 4)
    write_in_box(drawing, left + wide - 19, box_y, 17)
    words = say("Draw in sockets, doors, pipes, slopes, and write left and bottom beside them.")
    if wall.obstacles:
        words = say("Draw in what is missing: sockets, doors, pipes, slopes.")
    drawing.paragraph(room.left, room.bottom + 2.6, words, room.width, 9, "bold", most=1)


def _labelled_box(drawing: Drawing, middle: float, bottom: float, words: str, room: float) -> None:
    drawing.text(middle - 1, bottom + 1.9, words, 9, align="right", within=room - 4)
    write_in_box(drawing, middle + 1, bottom, 17)


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
            _letter(drawing, x + 2.9, top - 4, column.letter)
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
