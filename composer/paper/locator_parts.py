"""What every locator is made of: its head, the black corners, the numbers in the ring, the card for the back."""

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Drawing, lines_of
from composer.paper.furniture import this_side_up
from composer.paper.locator_back import draw_back
from composer.paper.page_index import IndexEntry, label_of
from composer.paper.primitives import Align, Page
from composer.paper.template_grid import entry_of
from composer.paper.template_subject import Subject
from composer.paper.template_view import View, seen_points
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import say

L_THICK_MM, L_ARM_MM = 4.0, 34.0
HEAD_MM, NUMBERS_MM = 20.0, 24.0


def corner_boxes(outline: Rectangle, which: str = "both") -> list[Rectangle]:
    """The filled L at the lower corners: inner edges on the outline, 4 mm thick, outside it.

    Args:
        outline: the piece on the page, mm; the arms of a narrow one do not meet.
        which: ``left``, ``right`` or ``both``.
    """
    arm = min(L_ARM_MM, outline.width * 0.45)
    left, bottom, right, _ = outline
    low, high = bottom - L_THICK_MM, bottom + L_ARM_MM
    boxes = []
    if which != "right":
        boxes += [Rectangle(left - L_THICK_MM, low, left, high), Rectangle(left, low, left + arm, bottom)]
    if which != "left":
        boxes += [Rectangle(right, low, right + L_THICK_MM, high), Rectangle(right - arm, low, right, bottom)]
    return boxes


def draw_corners(
    drawing: Drawing, outline: Rectangle, printable_area: Rectangle, which: str = "both"
) -> list[Rectangle]:
    """The black corners as far as they lie on the sheet; returns what was drawn."""
    drawn = []
    for box in corner_boxes(outline, which):
        across, up = box.overlap(printable_area)
        if across > 0.01 and up > 0.01:
            left, bottom = max(box.left, printable_area.left), max(box.bottom, printable_area.bottom)
            drawing.box(left, bottom, across, up, None, fill_grey=0.0)
            drawn.append(Rectangle.at(left, bottom, across, up))
    return drawn


def draw_head(drawing: Drawing, area: Rectangle, subject: Subject, title: str) -> None:
    """Number, name, frame, which way up, what the sheet is."""
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


def draw_numbers(
    drawing: Drawing, subject: Subject, left: float, right: float, top: float, which: str = "both"
) -> None:
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
        blocks: list[tuple[float, Align, str, str]] = [
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
        lines = max(lines_of(words, third, 9) for _, _, words, _ in blocks)
        for at, align, words, number in blocks:
            drawing.paragraph(at, base, words, third, 9, align=align, most=2)
            drawing.text(at, base - 7.6 - 4 * min(1, lines - 1), number, 20, "bold", align, within=third)
        base -= 2.5 * min(1, lines - 1)
    words = say("Low-tack tape over the paper's corners. Hold the spirit level under the lower edge.")
    drawing.paragraph(left, base - 13.5, words, right - left, 9, most=1 if base < top - 5 else 2)


def entry_on(subject: Subject, view: View, place: tuple[int, int] = (1, 1), of: tuple[int, int] = (1, 1)) -> IndexEntry:
    """What the index says of one sheet of a locator; the strips' middles that are whole on it are its points."""
    number = subject.piece.number
    points = seen_points(view, subject.hanging.points)
    return entry_of(view, label_of(number, *place), number, place, of, points, ())


def has_glass(subject: Subject) -> bool:
    """Whether the warning about glass belongs on the sheet."""
    return subject.piece.frame.glazing == "glass"


def card_page(subject: Subject, view: View) -> Page:
    """The back of the frame on a sheet of its own, where the locator has no room for it."""
    area, drawing = view.printable, Drawing()
    draw_head(drawing, area, subject, say("Card for the back"))
    room = Rectangle(area.left + 6, area.bottom + 6, min(area.right - 6, area.left + 200), area.top - HEAD_MM)
    draw_back(drawing, room, subject.hanging, subject.figures, glass=has_glass(subject))
    label = say("{number} back", number=subject.piece.number)
    return Page(view.size, tuple(drawing.items), printable(label), (subject.heading, label), view.area)
