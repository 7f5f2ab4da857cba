"""The back of a frame on strips, mirrored as one sees it, with the places of the strips and their numbers."""

from composer.geometry.rectangle import Rectangle
from composer.hanging.records import PieceHanging, StripPlan
from composer.paper.drawing import Drawing, line_step, lines_of
from composer.paper.figures import Figures
from composer.paper.furniture import dimension_across, dimension_up, table_rows, tick
from composer.paper.primitives import BLACK, GREY, HAIR_PT, LIGHT_GREY, MM_PER_PT, THIN_PT
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import N_, say

_TABLE_MM = 48.0
_BESIDE_FROM_MM = 98.0
_SCALES = (2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0)
_SIZE_NAMES = {"small": N_("small"), "medium": N_("medium"), "large": N_("large")}
TAB_MM = 6.0


def steps() -> list[str]:
    """The order of work at the wall, but for the first step, which is always to measure."""
    return [
        say("Tape the sheet to the wall by its numbers, level. Cut out the inside, keep the ring up."),
        say("Click the pairs together. Stick them on the frame's back, at the places drawn here."),
        say("Stand the frame's lower corners in the two black corners. Tip it to the wall. Press each strip 30 s."),
        say("Lift the frame off from below. Press the wall halves 30 s. Wait 1 h. Hang it. Peel off the ring."),
    ]


def numbers_of(plan: StripPlan, figures: Figures) -> list[tuple[str, str]]:
    """What the strips have to do and what they can, for the table beside the drawing."""
    size = say(_SIZE_NAMES[plan.size])
    rows = [
        (say("pairs, {size}", size=size), str(plan.pairs)),
        (say("strip"), figures.size(plan.width_mm, plan.length_mm)),
        (say("frame flat, needed"), figures.bare(plan.flat_needed_mm)),
    ]
    if plan.weight_kg is not None:
        rows.append((say("frame weighs"), figures.mass(plan.weight_kg)))
        rows.append(
            (say("with factor {factor}", factor=f"{plan.margin:g}"), figures.mass(plan.weight_kg * plan.margin))
        )
    else:
        rows.append((say("frame weighs"), "____"))
    rows.append((say("{count} pairs carry", count=plan.pairs), figures.mass(plan.capacity_kg)))
    return rows


def notes(glass: bool) -> list[str]:
    """What to mind, below the table."""
    found = [
        say("R is the right strip on the wall, L the left one: from behind they change sides."),
        say("Old rings or sawtooth must come off."),
    ]
    if glass:
        found.append(say("Glass: not above a seat or a bed."))
    found.append(say("Rating and size are our defaults. Your packet's word comes first."))
    return found


def least_height(width_mm: float) -> float:
    """The least height the block takes at that width, for the choice of a layout."""
    return 62.0 if width_mm >= _BESIDE_FROM_MM else 104.0


def draw_back(drawing: Drawing, room: Rectangle, hanging: PieceHanging, figures: Figures, *, glass: bool) -> None:
    """The mirrored back, to a round scale, with a table beside it or below it."""
    plan = hanging.strips
    assert plan is not None
    beside = room.width >= _BESIDE_FROM_MM
    table = Rectangle(room.right - _TABLE_MM, room.bottom, room.right, room.top - 9)
    drawing_room = Rectangle(
        room.left + 12, room.bottom + 8, table.left - 10 if beside else room.right - 2, room.top - 17
    )
    if not beside:
        needed = _table_height(plan, figures, room.width, glass)
        table = Rectangle(room.left, room.bottom, room.right, room.bottom + needed)
        drawing_room = drawing_room._replace(bottom=table.top + 12)
    scale = next(
        (
            step
            for step in _SCALES
            if hanging.width_mm / step <= drawing_room.width and hanging.height_mm / step <= drawing_room.height
        ),
        max(hanging.width_mm / drawing_room.width, hanging.height_mm / max(5.0, drawing_room.height)),
    )
    used = drawing.text(room.left, room.top - 4, say("BACK of the frame"), 12, "bold", within=room.width * 0.6)
    how = say("seen from behind, 1 : {scale}", scale=f"{scale:g}")
    drawing.text(room.left + used + 5, room.top - 4, how, 9, within=room.width - used - 6)
    _draw_frame(drawing, drawing_room, hanging, plan, figures, scale)
    if not beside:
        table = table._replace(top=drawing_room.top - hanging.height_mm / scale - 11)
    top = table_rows(drawing, table.left, table.right, table.top, numbers_of(plan, figures), 7.0)
    y = top - 5.5
    for note in notes(glass):
        y = drawing.paragraph(table.left, y, note, table.width, 9) - 0.6
        if y < room.bottom:
            break


def _table_height(plan: StripPlan, figures: Figures, width: float, glass: bool) -> float:
    texts = sum(lines_of(note, width, 9) * line_step(9) + 0.6 for note in notes(glass))
    return len(numbers_of(plan, figures)) * 7.0 + texts + 4.0


def _draw_frame(
    drawing: Drawing, room: Rectangle, hanging: PieceHanging, plan: StripPlan, figures: Figures, scale: float
) -> None:
    wide, high = hanging.width_mm / scale, hanging.height_mm / scale
    left, top = room.left, room.top
    bottom = top - high
    drawing.box(left, bottom, wide, high)
    flat = plan.flat_mm / scale
    if 0 < 2 * flat < min(wide, high):
        drawing.box(left + flat, bottom + flat, wide - 2 * flat, high - 2 * flat, HAIR_PT, GREY)
    middle = hanging.width_mm / 2
    for place in plan.places:
        x = left + (hanging.width_mm - place.right) / scale
        y = bottom + place.bottom / scale
        w, h = place.width / scale, place.height / scale
        drawing.box(x, y, w, h, THIN_PT, fill_grey=LIGHT_GREY)
        drawing.box(x + w * 0.2, y - TAB_MM / scale, w * 0.6, TAB_MM / scale, HAIR_PT)
        side = say("R") if place.centre[0] > middle else say("L")
        size = min(12.0, w * 0.8 / text_width_mm(printable(side), 1.0, "bold"))
        drawing.text(x + w / 2, y + h / 2 - size * 0.33 * MM_PER_PT, side, size, "bold", "centre")
    first = max(plan.places, key=lambda place: (place.right, place.top))
    _insets(drawing, left, top, wide, hanging, first, figures, scale)
    x = left - 5
    dimension_up(
        drawing,
        x,
        top - (hanging.height_mm - first.bottom) / scale,
        top - (hanging.height_mm - first.top) / scale,
        figures.bare(plan.length_mm),
    )
    for y in (first.bottom, first.top):
        at = bottom + y / scale
        drawing.line(x - 1, at, left + (hanging.width_mm - first.right) / scale, at, HAIR_PT)
    dimension_across(drawing, left, left + wide, bottom - 5, figures.bare(hanging.width_mm))
    inner = wide - 2 * max(flat, 0.0)
    if inner > 18 and high - 2 * flat > 26:
        centre = left + wide / 2
        peak = top - flat - 1
        drawing.filled((centre, peak), (centre + 2.6, peak - 4), (centre - 2.6, peak - 4))
        drawing.text(centre, peak - 8, say("TOP"), 9, "bold", "centre", within=inner - 2)
        y = (top + bottom) / 2
        y = drawing.paragraph(centre, y, say("tabs point down"), inner - 3, 9, align="centre", most=2)
        if y - 8 > bottom + flat:
            drawing.paragraph(centre, y - 2, say("backing: no strip here"), inner - 3, 9, align="centre", most=2)


def _insets(
    drawing: Drawing,
    left: float,
    top: float,
    wide: float,
    hanging: PieceHanging,
    place: Rectangle,
    figures: Figures,
    scale: float,
) -> None:
    """How far the strips keep from the side and from the top, above the drawing."""
    side = (hanging.width_mm - place.right) / scale
    above = hanging.height_mm - place.top
    y = top + 3.4
    for x in (left, left + side):
        drawing.line(x, top, x, y + 1.4, HAIR_PT)
        tick(drawing, x, y)
    drawing.line(left - 2, y, left + side + 2, y, HAIR_PT, BLACK)
    from_side = say("{inset} from the side", inset=figures.bare(side * scale))
    from_top = say("{inset} from the top", inset=figures.bare(above))
    room = wide - side - 4
    both = text_width_mm(printable(from_side), 9, "semibold") + text_width_mm(printable(from_top), 9, "semibold")
    if both + 4 <= room:
        drawing.text(left + side + 3, y - 1, from_side, 9, "semibold")
        drawing.text(left + wide, y - 1, from_top, 9, "semibold", "right")
    else:
        drawing.text(left + side + 3, y + 3.2, from_side, 9, "semibold", within=room + 14)
        drawing.text(left + side + 3, y - 1, from_top, 9, "semibold", within=room + 14)
