"""The sheets of one piece's full-size template, to be taped together and to the wall."""

from composer.paper.drawing import Drawing
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.grid import Grid, holds, mark_box
from composer.paper.page_index import label_of
from composer.paper.page_run import PageRun
from composer.paper.primitives import THICK_PT, Page
from composer.paper.room import Room, reach
from composer.paper.template_blocks import Due, Told, place_stops, place_told
from composer.paper.template_gaps import draw_gaps
from composer.paper.template_grid import entry_of, grid_on, view_of
from composer.paper.template_joins import draw_joins, joins_of, register_distances, take_bands
from composer.paper.template_lines import (
    draw_centre,
    draw_drops,
    draw_level,
    draw_spread,
    draw_top_edge,
    number_points,
)
from composer.paper.template_map import map_page
from composer.paper.template_parts import place_arrow, place_label, place_map, place_ruler
from composer.paper.template_subject import Subject
from composer.paper.template_view import (
    View,
    around_marks,
    draw_marks,
    draw_outline,
    seen_holes,
    seen_points,
    without_false_crosses,
)
from composer.paper.template_words import frame_words, notes, numbers_table, tile_steps
from composer.texts import say

EDGE_CLEAR_MM = 2.5

MAP_OVER = 6
"""More sheets than this get a page with their map; fewer make do with the small map on each sheet."""

MAP_UNDER_MM = 150.0
"""Sheets smaller than this have no room for steps and numbers: then the map carries them."""

Place = tuple[int, int]


def tile_run(subject: Subject, paper: FullSizePaper) -> PageRun:
    """The sheets of one piece; one of them carries steps and numbers. Before many small sheets stands their map."""
    grid, side = grid_on(paper, subject.outline, subject.marks)
    views = {place: view_of(grid, place, side, paper.scale) for place in grid.kept}
    mapped = len(grid.kept) > MAP_OVER or (len(grid.kept) > 1 and min(side.area) < MAP_UNDER_MM)

    def draw() -> list[Page]:
        # The sheet with most of the points is asked first whether it has room for steps and numbers.
        order = sorted(grid.kept, key=lambda place: (-_marks_on(subject, grid, place, paper.scale), place))
        done: dict[Place, Page] = {}
        due = Due()
        for place in order:
            done[place], due = _draw_tile(subject, grid, place, views[place], due)
        pages = [done[place] for place in grid.kept]
        return [map_page(subject, grid, side), *pages] if mapped else pages

    number = subject.piece.number
    entries = [
        (
            entry_of(
                view,
                label_of(number, *place),
                number,
                place,
                (grid.rows, grid.columns),
                seen_points(view, subject.hanging.points),
                seen_holes(view, subject.hanging.holes),
            ),
        )
        for place, view in views.items()
    ]
    return PageRun(((), *entries) if mapped else tuple(entries), draw)


def _marks_on(subject: Subject, grid: Grid, place: Place, scale: tuple[float, float]) -> int:
    return sum(holds(grid.tile(*place), mark_box(mark, scale)) for mark in subject.marks)


def _draw_tile(subject: Subject, grid: Grid, place: Place, view: View, due: Due) -> tuple[Page, Due]:
    """One sheet, and what of steps and numbers is still to be told on another."""
    drawing = Drawing()
    number = subject.piece.number

    def name(row: int, column: int) -> str:
        return label_of(number, row, column)

    room = Room(joins_of(grid, place, view.scale).inner(view.printable).grown(-EDGE_CLEAR_MM))
    points, holes = seen_points(view, subject.hanging.points), seen_holes(view, subject.hanging.holes)
    marks = around_marks(points, holes)
    draw_joins(drawing, view, grid, place, name, [view.rectangle(subject.outline), *marks])
    take_bands(room, view, grid, place)
    edges = draw_outline(drawing, view, subject.outline, THICK_PT)
    draw_marks(drawing, points, holes)
    for taken in (*(reach(edge).grown(1.4) for edge in edges), *marks):
        room.take(taken)
    draw_drops(drawing, room, subject, view, points, holes)
    draw_spread(drawing, room, subject, points, holes)
    draw_centre(drawing, room, subject, view, points, holes)
    number_points(drawing, room, subject, points, holes)
    draw_level(drawing, room, subject, view)
    draw_top_edge(drawing, room, subject, view)
    label = name(*place)
    count = len(grid.kept)
    order = say("sheet {order} of {count}", order=grid.kept.index(place) + 1, count=count) if count > 1 else ""
    place_label(drawing, room, label, order, (subject.piece.name, frame_words(subject), subject.place_name))
    place_map(drawing, room, grid, subject.outline, place)
    place_arrow(drawing, room)
    if due.steps:
        place_stops(drawing, room, subject.stops)
    ruler = place_ruler(drawing, room, subject, view.scale[0])
    draw_gaps(drawing, room, view, grid, place, subject.figures, name)
    if due.steps or due.table:
        steps = tile_steps(subject, grid, ruler, register_distances(grid, place, subject.figures))
        due = place_told(drawing, room, Told(steps, numbers_table(subject), notes(subject)), due)
    items = without_false_crosses(drawing.items, points, edges)
    page = Page(view.size, tuple(items), label, (subject.heading, label), view.area)
    return page, due
