"""Lines and numbers about a piece's points: drops, spread, centre line, level line, top edge."""

from composer.geometry.rectangle import Rectangle
from composer.paper.drawing import Drawing
from composer.paper.furniture import TICK_MM, dimension_up, tick
from composer.paper.page_index import IndexHole, IndexPoint
from composer.paper.primitives import BLACK, CENTRE_DASH, GREY, HAIR_PT, THIN_PT, Weight
from composer.paper.room import Room
from composer.paper.template_parts import place_numbers
from composer.paper.template_subject import Subject
from composer.paper.template_view import View
from composer.paper.template_words import centre_words, point_numbers, spread_of_holes, top_edge_words
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import say

LEAST_DROP_MM = 10.0
"""A shorter drop has no room for its number beside it; the table tells it."""


def place_words(drawing: Drawing, room: Room, words: str, size_pt: float = 10.0) -> None:
    """A sentence as low as there is room for it."""
    for width in (120.0, 80.0, 50.0):
        probe = Drawing()
        bottom = probe.paragraph(0, 0, words, width, size_pt)
        wide = min(width, text_width_mm(printable(words), size_pt) + 0.5)
        place = room.find(wide, 4 - bottom, low=True, clear=2.0) or room.find(wide, 4 - bottom)
        if place is not None:
            drawing.paragraph(place.left, place.top - 4, words, width, size_pt)
            room.take(place.grown(0.5))
            return


def draw_drops(
    drawing: Drawing,
    room: Room,
    subject: Subject,
    view: View,
    points: tuple[IndexPoint, ...],
    holes: tuple[IndexHole, ...],
) -> None:
    """The drops of the leftmost point, left of it, when the top edge is on the sheet too."""
    _, top = view.at(0, subject.height)
    if not points or top > view.printable.top - TICK_MM or len(subject.hanging.points) > 2:
        return
    point = points[0]
    hole = next((h for h in holes if abs(h.x - point.x) < 1e-6), None)
    x, figures = point.page_x, subject.figures
    split = hole is not None and abs(hole.y - point.y) > 1e-6
    area = Rectangle(x - 25, min(point.page_y, hole.page_y if hole else point.page_y) - 1, x - 8.5, top - 2)
    if point.page_y > top - LEAST_DROP_MM or not room.is_free(area):
        return
    if split and hole is not None and point.page_y < hole.page_y < top - LEAST_DROP_MM:
        dimension_up(drawing, x - 13, hole.page_y, top, figures.bare(subject.height - hole.y))
        dimension_up(drawing, x - 13, point.page_y, hole.page_y, figures.bare(hole.y - point.y))
        dimension_up(drawing, x - 21, point.page_y, top, figures.bare(subject.height - point.y))
        drawing.line(x - 15, hole.page_y, x - 5, hole.page_y, HAIR_PT)
    else:
        dimension_up(drawing, x - 13, point.page_y, top, figures.bare(subject.height - point.y))
    drawing.line(x - 23, point.page_y, x - 7, point.page_y, HAIR_PT)
    room.take(area.grown(1))


def draw_spread(
    drawing: Drawing, room: Room, subject: Subject, points: tuple[IndexPoint, ...], holes: tuple[IndexHole, ...]
) -> None:
    """The distance between the two nails, above them."""
    spots: tuple[IndexHole, ...] | tuple[IndexPoint, ...] = holes if subject.hanging.holes else points
    spread = spread_of_holes(subject)
    if spread is None or len(spots) != 2 or spots[1].page_x - spots[0].page_x < 14:
        return
    left, right = spots[0].page_x, spots[1].page_x
    text = subject.figures.bare(spread)
    words = (
        say("{spread} between the nails", spread=text)
        if subject.hanging.holes
        else say("{spread} between the points", spread=text)
    )
    high = max(spot.page_y for spot in spots)
    for up in (26.0, 20.0, 34.0, 15.0, 12.0):
        y = high + up
        if not room.is_free(Rectangle(left, y - 1.5, right, y + 5)):
            continue
        drawing.line(left, y, right, y, HAIR_PT)
        for spot in spots:
            tick(drawing, spot.page_x, y)
            drawing.line(spot.page_x, spot.page_y + 7, spot.page_x, y + 2, HAIR_PT)
            room.take(Rectangle(spot.page_x - 1.5, spot.page_y + 6, spot.page_x + 1.5, y + 2))
        half = (right - left) / 2
        words = words if text_width_mm(words, 9, "semibold") < half - 6 else text
        drawing.text(left + 4, y + 1.3, words, 9, "semibold", within=max(8.0, half - 6))
        room.take(Rectangle(left, y - 1.5, right, y + 5))
        return


def draw_centre(
    drawing: Drawing,
    room: Room,
    subject: Subject,
    view: View,
    points: tuple[IndexPoint, ...],
    holes: tuple[IndexHole, ...],
) -> None:
    """The piece's centre line from below the top edge to below the points, kept clear of marks, with its words."""
    x, top = view.at(subject.width / 2, subject.height)
    if top > view.printable.top + 1e-6 or not room.area.left + 4 < x < room.area.right - 4:
        return
    start = top - 10
    marks = [*((p.page_x, p.page_y, 8.0) for p in points), *((h.page_x, h.page_y, 6.0) for h in holes)]
    close = [y + half for px, y, half in marks if abs(px - x) < half + 1]
    _, foot = view.at(0, 0)
    end = max(close) if close else foot + 8 if not marks else min(y for _, y, _ in marks) - 9
    end = max(end, room.area.bottom + 4, foot + 4, start - 120)
    if start - end < 12:
        return
    drawing.line(x, start, x, end, THIN_PT, GREY if close or marks else BLACK, CENTRE_DASH)
    for index, line in enumerate(centre_words(subject)):
        y = start - 4 - index * 4.4
        place = Rectangle(x + 1.5, y - 1, x + 1.5 + text_width_mm(printable(line), 9), y + 3)
        if room.is_free(place) and y > end:
            drawing.text(x + 1.5, y, line, 9)
            room.take(place)
    room.take(Rectangle(x - 1, end, x + 1, start))


def number_points(
    drawing: Drawing, room: Room, subject: Subject, points: tuple[IndexPoint, ...], holes: tuple[IndexHole, ...]
) -> None:
    """The numbers beside each point that is seen on the sheet."""
    hanging = subject.hanging
    for index, point in enumerate(hanging.points):
        cross = next((p for p in points if abs(p.x - point.x) < 1e-6 and abs(p.y - point.y) < 1e-6), None)
        hole = None
        if hanging.holes:
            wanted = hanging.holes[index]
            hole = next((h for h in holes if abs(h.x - wanted.x) < 1e-6 and abs(h.y - wanted.y) < 1e-6), None)
        if hole is not None:
            place_numbers(drawing, room, (hole.page_x, hole.page_y), point_numbers(subject, index), "nail")
        elif cross is not None:
            label = None if hanging.holes else say("BEARS HERE, no hole")
            place_numbers(drawing, room, (cross.page_x, cross.page_y), point_numbers(subject, index), label)


def draw_level(drawing: Drawing, room: Room, subject: Subject, view: View) -> None:
    """Two stubs of the wall's level line at the sheet's sides; they never meet the centre line."""
    if subject.datum is None:
        return
    _, y = view.at(0, subject.datum.level_line - subject.bottom)
    words = say("level line {height}", height=subject.figures.bare(subject.datum.level_line))
    wide = max(18.0, text_width_mm(printable(words), 8) + 1)
    for left, align in ((room.area.left + 2, "left"), (room.area.right - 2 - wide, "right")):
        place = Rectangle(left, y - 1, left + wide, y + 4.4)
        if room.is_free(place):
            drawing.line(left, y, left + wide, y, THIN_PT, dash=CENTRE_DASH)
            drawing.text(
                left if align == "left" else left + wide,
                y + 1.1,
                words,
                8,
                align="left" if align == "left" else "right",
            )
            room.take(place.grown(0.5))


def draw_top_edge(drawing: Drawing, room: Room, subject: Subject, view: View) -> None:
    """The words below the frame's top edge."""
    left, top = view.at(0, subject.height)
    right, _ = view.at(subject.width, subject.height)
    if top > view.printable.top + 1e-6 or top < view.printable.bottom:
        return
    head, (height, hold) = say("TOP EDGE OF THE FRAME"), top_edge_words(subject)
    area = room.area
    band = Room(Rectangle(max(area.left, left), top - 16, min(area.right, right), top - 1.5))
    band.taken = room.taken
    for lines in _top_edge_ways(head, height, hold):
        place = band.find(max(map(_line_mm, lines)), 4.6 * len(lines))
        if place is not None:
            for index, words in enumerate(lines):
                x = place.left
                for word in words:
                    weight: Weight = "bold" if word is head else "regular"
                    x += drawing.text(x, place.top - 3.4 - 4.6 * index, word, 9, weight) + _WORDS_APART_MM
            room.take(place.grown(0.8))
            return


_WORDS_APART_MM = 2.0


def _top_edge_ways(head: str, height: str, hold: str) -> list[tuple[tuple[str, ...], ...]]:
    """In one line, else in two or three; where there is room for less, without what to do, at last without the height."""
    if not height:
        return [((head, hold),), ((head,), (hold,)), ((head,),)]
    whole = [
        ((head, height, hold),),
        ((head, height), (hold,)),
        ((head,), (height, hold)),
        ((head,), (height,), (hold,)),
    ]
    return [*whole, ((head, height),), ((head,), (height,)), ((head,),)]


def _line_mm(words: tuple[str, ...]) -> float:
    # The heads are bold capitals; the rest set bold would be wider than it is, so there is always room.
    return sum(text_width_mm(printable(word), 9, "bold") for word in words) + _WORDS_APART_MM * (len(words) - 1)
