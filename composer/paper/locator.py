"""Locators: paper that holds a frame's place on the wall while its strips are pressed on.

The outline is drawn full size with two filled corners (L) outside it. The inside is cut away; the
ring stays up, and the frame's lower corners stand in the two black corners. A frame wider than the
sheet gets a sheet for each corner.
"""

from typing import NamedTuple

from composer.paper.drawing import Area, Drawing
from composer.paper.furniture import black_label, numbered_steps, point_cross, steps_height, this_side_up
from composer.paper.locator_back import Room, draw_back, least_height, steps
from composer.paper.page_index import IndexEntry, IndexPoint, label_of, to_page
from composer.paper.primitives import HAIR_PT, THIN_PT, Page
from composer.paper.sheet_request import SheetRequest
from composer.paper.template_subject import Subject
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import N_, say

L_THICK_MM, L_ARM_MM = 4.0, 34.0
HEAD_MM, NUMBERS_MM = 20.0, 24.0
_BESIDE_MM = 62.0
"""Least width of a column of text beside a small frame."""


class LocatorPage(NamedTuple):
    """One page of a locator and its entry in the index, whose page number is 1; a card for the back has none."""

    page: Page
    entry: IndexEntry | None


def corner_marks(drawing: Drawing, left: float, bottom: float, right: float, width: float, which: str = "both") -> None:
    """The filled L at the lower corners: inner edges on the outline, 4 mm thick, outside it.

    Args:
        drawing: where to draw.
        left, bottom, right: the outline's edges on the page, mm.
        width: drawn width of the outline, so that the arms of a narrow frame do not meet.
        which: ``left``, ``right`` or ``both``.
    """
    arm = min(L_ARM_MM, width * 0.45)
    t = L_THICK_MM
    for side, x, way in (("left", left, 1.0), ("right", right, -1.0)):
        if which in (side, "both"):
            drawing.filled(
                (x - way * t, bottom - t),
                (x + way * arm, bottom - t),
                (x + way * arm, bottom),
                (x, bottom),
                (x, bottom + L_ARM_MM),
                (x - way * t, bottom + L_ARM_MM),
            )


def fits_one_sheet(subject: Subject, request: SheetRequest) -> SheetRequest | None:
    """The sheet, upright or lying, that holds the whole locator; None when neither does."""
    wide, high = subject.width * request.scale[0], subject.height * request.scale[1]
    for landscape in (False, True):
        tried = request.turned(landscape=landscape)
        area = tried.area
        if (
            wide + 2 * L_THICK_MM <= area.width + 1e-6
            and high + HEAD_MM + NUMBERS_MM + L_THICK_MM <= area.height + 1e-6
        ):
            return tried
    return None


def locator_pages(subject: Subject, request: SheetRequest) -> list[LocatorPage]:
    """The locator of a piece on strips: one sheet where it fits, else a sheet for each corner.

    Every strip's middle stands as a whole cross on at least one sheet.
    """
    chosen = fits_one_sheet(subject, request)
    if chosen is not None:
        return _one_sheet(subject, chosen)
    return _corner_sheets(subject, request)


def _head(drawing: Drawing, area: Area, subject: Subject, title: str) -> None:
    number = drawing.text(area.left + 6, area.top - 12, str(subject.piece.number), 28, "bold")
    x = area.left + 6 + number + 5
    column = min(area.width * 0.3, 62.0)
    arrow_x = area.right - 6 - column - 36
    name_room = arrow_x - 8 - x
    name = printable(subject.piece.name)
    fitting = next((size for size in (18, 14) if text_width_mm(name, size, "semibold") <= name_room), None)
    if fitting is not None:
        drawing.text(x, area.top - 7.5, name, fitting, "semibold")
    else:
        drawing.paragraph(x, area.top - 4.5, name, name_room, 11, "semibold", most=2)
    size = subject.figures.size_in_words(subject.width, subject.height)
    words = say("frame {size}, {how}", size=size, how=subject.hanger_words())
    drawing.text(x, area.top - 14.5, words, 10, within=name_room)
    this_side_up(drawing, arrow_x, area.top - 15.5, words_below=False)
    drawing.text(area.right - 6, area.top - 7.5, title, 14, "semibold", "right", within=column)
    drawing.text(area.right - 6, area.top - 14.5, subject.place_name, 10, align="right", within=column)


def _numbers(drawing: Drawing, subject: Subject, left: float, right: float, top: float, which: str = "both") -> None:
    """The numbers needed on the wall, in the ring below the outline."""
    datum, figures = subject.datum, subject.figures
    middle = (left + right) / 2
    third = (right - left) / 3 - 2
    base = top - 4.5
    if datum is None:
        words = say("This piece lies on the floor: it has no place on a wall yet.")
        drawing.paragraph(left, base, words, right - left, 10, "semibold", most=3)
    else:
        x = subject.left if which != "right" else subject.left + subject.width
        corner = say("lower left corner") if which != "right" else say("lower right corner")
        blocks = [
            (left, "left", say("{corner}, {side}", corner=corner, side=datum.side_words()), datum.distance(x, figures)),
            (
                middle,
                "centre",
                say("lower edge {height}", height=datum.height_words()),
                datum.height(subject.bottom, figures),
            ),
        ]
        if datum.line is None:
            from_line = figures.signed(subject.bottom - datum.level_line)
            blocks.append((right, "right", say("from level line"), from_line))
        else:
            blocks.append((right, "right", say("above floor"), figures.bare(subject.bottom)))
        for at, align, words, number in blocks:
            drawing.text(at, base, words, 9, align=align, within=third)  # type: ignore[arg-type]
            drawing.text(at, base - 7.6, number, 20, "bold", align, within=third)  # type: ignore[arg-type]
    words = say("Low-tack tape over the paper's corners. Hold the spirit level under the lower edge.")
    drawing.paragraph(left, base - 13.5, words, right - left, 9, most=2)


def _cross_points(subject: Subject, origin: tuple[float, float], request: SheetRequest) -> list[IndexPoint]:
    """The strips' middles whose crosses stand whole on this page."""
    area = request.area
    found = []
    for point in subject.hanging.points:
        page_x, page_y = to_page(point.x, point.y, origin, request.scale)
        if area.left + 6 <= page_x <= area.right - 6 and area.bottom + 6 <= page_y <= area.top - 6:
            found.append(IndexPoint(point.x, point.y, point.what, page_x, page_y))
    return found


def _entry(
    subject: Subject,
    request: SheetRequest,
    origin: tuple[float, float],
    points: list[IndexPoint],
    place: tuple[int, int, int, int] = (1, 1, 1, 1),
) -> IndexEntry:
    row, column, rows, columns = place
    area = request.area
    return IndexEntry(
        page=1,
        piece=subject.piece.number,
        label=label_of(subject.piece.number, row, column),
        row=row,
        column=column,
        of=(rows, columns),
        origin=origin,
        rotated=False,
        printable=(area.left, area.bottom, area.right, area.top),
        size=request.size,
        points=tuple(points),
    )


def _measure_step(subject: Subject) -> str:
    return say(
        "Measure the outline: {width} across, {height} up. Not so? Print again, “actual size”.",
        width=subject.figures.bare(subject.width),
        height=subject.figures.bare(subject.height),
    )


def _stops(drawing: Drawing, subject: Subject, left: float, top: float, width: float) -> float:
    """What forbids to hang the piece so, black and first."""
    for stop in subject.stops:
        wide = black_label(drawing, left, top, say("STOP"))
        top = drawing.paragraph(left + wide + 2, top, stop, width - wide - 2, 9, "semibold", most=3) - 1.5
    return top


def _one_sheet(subject: Subject, request: SheetRequest) -> list[LocatorPage]:
    area, drawing = request.area, Drawing()
    sx, sy = request.scale
    wide, high = subject.width * sx, subject.height * sy
    free = area.width - wide - 2 * L_THICK_MM
    beside = free - 10 >= _BESIDE_MM
    left = area.left + L_THICK_MM + (2 if beside else free / 2)
    spare = area.height - HEAD_MM - NUMBERS_MM - L_THICK_MM - high
    inside = wide >= 118 and high >= 162
    bottom = area.bottom + NUMBERS_MM + L_THICK_MM + (spare / 2 if inside and not beside else spare)
    if beside:
        bottom = area.top - HEAD_MM - high
    origin = (-left / sx, -bottom / sy)
    points = _cross_points(subject, origin, request)
    _head(drawing, area, subject, say("Locator"))
    # Four strokes: the outline's edges are what a tape and a script look for.
    for x1, y1, x2, y2 in ((0, 0, 1, 0), (0, 1, 1, 1), (0, 0, 0, 1), (1, 0, 1, 1)):
        drawing.line(left + x1 * wide, bottom + y1 * high, left + x2 * wide, bottom + y2 * high, THIN_PT)
    drawing.line(max(area.left, left - 6), bottom, left, bottom, HAIR_PT)
    drawing.line(left + wide, bottom, min(area.right, left + wide + 6), bottom, HAIR_PT)
    corner_marks(drawing, left, bottom, left + wide, wide)
    for point in points:
        point_cross(drawing, point.page_x, point.page_y)
    numbers_left = max(area.left, min(left, area.right - 128))
    _numbers(drawing, subject, numbers_left, max(left + wide, numbers_left + 118), bottom - L_THICK_MM)
    rooms = _rooms(area, subject, request, (left, bottom, wide, high), points, beside=beside, inside=inside)
    complete = _fill(drawing, subject, rooms, inside=inside and not beside)
    label = label_of(subject.piece.number, 1, 1)
    page = drawing.page(request.size, label, (subject.heading, label), area)
    pages = [LocatorPage(page, _entry(subject, request, origin, points))]
    return pages if complete else [*pages, _card(subject, request)]


def _card(subject: Subject, request: SheetRequest) -> LocatorPage:
    """The back of the frame on a sheet of its own, where the locator has no room for it."""
    area, drawing = request.area, Drawing()
    _head(drawing, area, subject, say("Card for the back"))
    room = Room(area.left + 6, area.bottom + 6, min(area.right - 6, area.left + 200), area.top - HEAD_MM)
    draw_back(drawing, room, subject.hanging, subject.figures, glass=subject.piece.frame.glazing == "glass")
    label = say("{number} back", number=subject.piece.number)
    return LocatorPage(drawing.page(request.size, label, (subject.heading, label), area), None)


def _rooms(
    area: Area,
    subject: Subject,
    request: SheetRequest,
    outline: tuple[float, float, float, float],
    points: list[IndexPoint],
    *,
    beside: bool,
    inside: bool,
) -> tuple[Room, Room | None]:
    """Where the steps and, if it is elsewhere, the back of the frame go."""
    left, bottom, wide, high = outline
    if beside:
        column = Room(left + wide + L_THICK_MM + 8, area.bottom, area.right - 2, area.top - HEAD_MM)
        return column, None
    if inside:
        between = [point.page_x for point in points]
        edge_left = max([x for x in between if x < left + wide / 2], default=left) + 9
        edge_right = min([x for x in between if x > left + wide / 2], default=left + wide) - 9
        lowest = min([point.page_y for point in points], default=bottom + high) - 8
        narrow = Room(max(edge_left, left + 6), bottom + 4, min(edge_right, left + wide - 6), bottom + high - 4)
        if lowest - bottom > high * 0.6:
            full = Room(left + 6, bottom + 5, left + wide - 6, lowest)
            return narrow, full
        return narrow, None
    below = bottom - L_THICK_MM - NUMBERS_MM
    split = area.left + area.width * 0.4
    return (
        Room(area.left + 6, area.bottom, split - 4, below),
        Room(split + 2, area.bottom, area.right - 4, below),
    )


def _fill(drawing: Drawing, subject: Subject, rooms: tuple[Room, Room | None], *, inside: bool) -> bool:
    """Steps first, then the back of the frame below or beside them; says whether both had room."""
    room, back = rooms
    glass = subject.piece.frame.glazing == "glass"
    texts = [_measure_step(subject), *steps()]
    y = room.top - 4
    used = drawing.text(room.left, y, say("In this order"), 14, "bold", within=room.width)
    if inside:
        hint = say("Cut out this inside; keep it as the card for the back.")
        if room.width - used > 62:
            drawing.text(room.right, y, hint, 9, "semibold", "right", within=room.width - used - 5)
        else:
            y = drawing.paragraph(room.left, y - 5.5, hint, room.width, 9, "semibold") + 4.5
    y = _stops(drawing, subject, room.left, y - 6.5, room.width)
    size = 10.0
    wanted = room.height * (0.45 if back is None else 1.0)
    while size > 8 and steps_height(room.width, texts, size) > wanted:
        size -= 0.5
    y = numbered_steps(drawing, room.left, y, room.width, texts, size)
    y = drawing.paragraph(room.left, y, say("Crosses: the strips' middles, only for checking."), room.width, 9) + 2
    if back is None:
        back = Room(room.left, room.bottom, room.right, y - 3)
    elif inside:
        back = back._replace(top=min(back.top, y - 3))
    if inside:
        drawing.line(back.left, back.top, back.right, back.top, HAIR_PT)
        back = back._replace(top=back.top - 3)
    if back.height < least_height(back.width):
        return False
    draw_back(drawing, back, subject.hanging, subject.figures, glass=glass)
    return True


def _corner_sheets(subject: Subject, request: SheetRequest) -> list[LocatorPage]:
    """One sheet a lower corner (or one for both), and upper ones as far as strips' middles need them."""
    upright = request.turned(landscape=False)
    reach = upright.area.height - HEAD_MM - NUMBERS_MM - L_THICK_MM
    rows = 2 if any(point.y * request.scale[1] + 6 > reach for point in subject.hanging.points) else 1
    columns = 1 if subject.width * request.scale[0] + 2 * L_THICK_MM <= upright.area.width else 2
    return [
        _corner_sheet(subject, upright, row, column, rows, columns)
        for row in range(1, rows + 1)
        for column in range(1, columns + 1)
    ]


_TITLES = {
    "both": N_("Locator"),
    "left": N_("Left corner"),
    "right": N_("Right corner"),
}


def _corner_sheet(
    subject: Subject, request: SheetRequest, row: int, column: int, rows: int, columns: int
) -> LocatorPage:
    area, drawing = request.area, Drawing()
    sx, sy = request.scale
    which = "both" if columns == 1 else "left" if column == 1 else "right"
    inset = L_THICK_MM + 4
    if which == "both":
        ox = -(area.left + (area.width - subject.width * sx) / 2) / sx
    else:
        ox = -(area.left + inset) / sx if which == "left" else subject.width - (area.right - inset) / sx
    if row == rows:
        oy = -(area.bottom + NUMBERS_MM + L_THICK_MM) / sy
    else:
        oy = subject.height - (area.top - HEAD_MM) / sy
    origin = (ox, oy)
    points = _cross_points(subject, origin, request)
    left, bottom = to_page(0, 0, origin, request.scale)
    right, top = to_page(subject.width, subject.height, origin, request.scale)
    low, high = max(bottom, area.bottom), min(top, area.top - HEAD_MM)
    near, far = max(left, area.left), min(right, area.right)
    _head(drawing, area, subject, say(_TITLES[which]))
    for side, edge in (("left", left), ("right", right)):
        if which in (side, "both"):
            drawing.line(edge, low, edge, high, THIN_PT)
    if row == rows:
        drawing.line(near, bottom, far, bottom, THIN_PT)
        corner_marks(drawing, left, bottom, right, right - left, which)
        _numbers(drawing, subject, area.left + inset, area.right - inset, bottom - L_THICK_MM, which)
    if top <= area.top - HEAD_MM + 1e-6:
        drawing.line(near, top, far, top, THIN_PT)
    for point in points:
        point_cross(drawing, point.page_x, point.page_y)
    crosses = [point.page_x for point in points]
    middle = (near + far) / 2
    room = Room(
        max([x for x in crosses if x < middle], default=near - 3) + 9,
        low + 8,
        min([x for x in crosses if x >= middle], default=far + 3) - 9,
        high - 5,
    )
    _corner_text(drawing, subject, room, which, lower=row == rows, rows=rows)
    label = label_of(subject.piece.number, row, column)
    page = drawing.page(request.size, label, (subject.heading, label), area)
    return LocatorPage(page, _entry(subject, request, origin, points, (row, column, rows, columns)))


def _corner_text(drawing: Drawing, subject: Subject, room: Room, which: str, *, lower: bool, rows: int) -> None:
    if not lower:
        words = say("Upper part: the crosses are the strips' middles, only for checking the frame's back.")
        drawing.paragraph(room.left, room.top - 4, words, room.width, 10)
        return
    glass = subject.piece.frame.glazing == "glass"
    top = room.top
    if which != "right":
        ruled = say(
            "The arms of the black corner are {arm} long: measure them first.", arm=subject.figures.bare(L_ARM_MM)
        )
        first = say("Tape this sheet to the wall by its numbers, the lower line level.")
        if which == "left":
            first = say(
                "Tape this sheet and {other} by their numbers, {width} from one upright line to the other, lower lines level.",
                other=label_of(subject.piece.number, rows, 2),
                width=subject.figures.bare(subject.width),
            )
        drawing.text(room.left, top - 4, say("In this order"), 14, "bold", within=room.width)
        y = _stops(drawing, subject, room.left, top - 11, room.width)
        top = numbered_steps(drawing, room.left, y, room.width, [ruled, first, *steps()[1:]]) - 6
    if which != "left":
        drawing_room = Room(room.left, room.bottom, room.right, top)
        draw_back(drawing, drawing_room, subject.hanging, subject.figures, glass=glass)
