"""The whole arrangement of a wall full size on one grid of sheets."""

from collections.abc import Sequence
from dataclasses import replace
from functools import reduce

from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Project
from composer.paper.drawing import Drawing
from composer.paper.full_size_paper import FullSizePaper
from composer.paper.grid import Grid
from composer.paper.page_index import IndexEntry, IndexHole, IndexPoint, PageIndex, label_of
from composer.paper.page_run import PageRun, collect
from composer.paper.primitives import THICK_PT, Page
from composer.paper.room import Room, reach
from composer.paper.sheets import Side
from composer.paper.template_blocks import place_stops
from composer.paper.template_gaps import draw_gaps
from composer.paper.template_grid import entry_of, grid_on, view_of
from composer.paper.template_joins import draw_joins, joins_of, take_bands
from composer.paper.template_map import draw_map_page
from composer.paper.template_parts import place_arrow, place_label, place_map, place_numbers, place_ruler
from composer.paper.template_subject import Datum, Subject, subjects
from composer.paper.template_tile import EDGE_CLEAR_MM
from composer.paper.template_view import (
    View,
    around_marks,
    draw_marks,
    draw_outline,
    seen_holes,
    seen_points,
    without_false_crosses,
)
from composer.paper.template_words import point_numbers
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import say, say_many

AROUND_MM = 10.0
"""Paper wanted around the arrangement."""

ROLL_MAP_MM = 300.0
"""Print wanted of a roll for the map."""


def whole_wall(project: Project, arrangement: Arrangement, paper: FullSizePaper) -> tuple[Sequence[Page], PageIndex]:
    """The whole arrangement full size, wall after wall; no pages where nothing hangs."""
    runs: list[PageRun] = []
    for wall in project.walls:
        if paper.walls is None or wall.key in paper.walls:
            hung = subjects(project, arrangement, paper.only, {wall.key})
            if hung:
                runs += wall_runs(hung, paper)
    return collect(runs, paper)


def wall_runs(hung: list[Subject], paper: FullSizePaper) -> list[PageRun]:
    """Map and sheets of one wall's arrangement, in wall coordinates; each sheet can be drawn alone."""
    frames = [_outline_of(subject) for subject in hung]
    outline = reduce(Rectangle.united, frames).grown(AROUND_MM)
    marks = [replace(m, x=m.x + s.left, y=m.y + s.bottom) for s in hung for m in s.marks]
    grid, side = grid_on(paper, outline, marks, head_room=0.0, pair=False, shown=frames)
    runs = [_sheet_run(hung, outline, grid, place, side, paper) for place in grid.kept]
    if len(runs) > 1:
        on = paper.cut(ROLL_MAP_MM) if paper.sheet.is_roll else side
        runs.insert(0, PageRun(((),), lambda: [_map(hung, outline, grid, on)]))
    return runs


def _outline_of(subject: Subject) -> Rectangle:
    return subject.outline.moved(subject.left, subject.bottom)


def _sheet_run(
    hung: list[Subject],
    outline: Rectangle,
    grid: Grid,
    place: tuple[int, int],
    side: Side,
    paper: FullSizePaper,
) -> PageRun:
    view = view_of(grid, place, side, paper.scale)
    points = [p for s in hung for p in seen_points(view, s.hanging.points, s.left, s.bottom)]
    holes = [h for s in hung for h in seen_holes(view, s.hanging.holes, s.left, s.bottom)]
    of = (grid.rows, grid.columns)
    entry = entry_of(view, label_of(None, *place), None, place, of, tuple(points), tuple(holes))
    return PageRun(((entry,),), lambda: [_draw_sheet(hung, outline, grid, place, view, entry)])


def _draw_sheet(
    hung: list[Subject], outline: Rectangle, grid: Grid, place: tuple[int, int], view: View, entry: IndexEntry
) -> Page:
    drawing = Drawing()
    points, holes = entry.points, entry.holes
    room = Room(joins_of(grid, place, view.scale).inner(view.printable).grown(-EDGE_CLEAR_MM))
    marks = around_marks(points, holes)
    frames = [view.rectangle(_outline_of(subject)) for subject in hung]
    draw_joins(drawing, view, grid, place, _name, [*frames, *marks])
    take_bands(room, view, grid, place)
    edges = [edge for subject in hung for edge in draw_outline(drawing, view, _outline_of(subject), THICK_PT)]
    draw_marks(drawing, points, holes)
    for taken in (*(reach(edge).grown(1.2) for edge in edges), *marks):
        room.take(taken)
    seen = [subject for subject in hung if min(view.rectangle(_outline_of(subject)).overlap(view.printable)) > 0]
    for subject in seen:
        _number(drawing, room, subject, points, holes)
    for subject in seen:
        _name_piece(drawing, room, subject, view)
    order = say("sheet {order} of {count}", order=grid.kept.index(place) + 1, count=len(grid.kept))
    lines = (hung[0].place_name, say("the whole arrangement, full size"), _heights(hung[0].datum))
    place_label(drawing, room, entry.label, order, lines)
    place_map(drawing, room, grid, outline, place)
    place_arrow(drawing, room)
    place_ruler(drawing, room, hung[0], view.scale[0])
    for subject in seen:
        place_stops(drawing, room, subject.stops)
    draw_gaps(drawing, room, view, grid, place, hung[0].figures, _name)
    items = without_false_crosses(drawing.items, points, edges)
    return Page(view.size, tuple(items), entry.label, (hung[0].place_name, entry.label), view.area)


def _name(row: int, column: int) -> str:
    return label_of(None, row, column)


def _heights(datum: Datum | None) -> str:
    return (
        ""
        if datum is None
        else say("heights {above}, distances {side}", above=datum.height_words(), side=datum.side_words())
    )


def _number(
    drawing: Drawing, room: Room, subject: Subject, points: Sequence[IndexPoint], holes: Sequence[IndexHole]
) -> None:
    """The numbers of a piece's points that are seen here."""
    hanging = subject.hanging
    for index, point in enumerate(hanging.points):
        if hanging.holes:
            wanted, shown, label = hanging.holes[index], holes, "nail"
            spot = _seen(wanted.x + subject.left, wanted.y + subject.bottom, shown)
        else:
            label = say("strip") if point.what == "strip" else say("BEARS HERE, no hole")
            spot = _seen(point.x + subject.left, point.y + subject.bottom, points)
        if spot is not None:
            place_numbers(drawing, room, spot, point_numbers(subject, index), label)


def _seen(x: float, y: float, shown: Sequence[IndexPoint | IndexHole]) -> tuple[float, float] | None:
    return next(((s.page_x, s.page_y) for s in shown if abs(s.x - x) < 1e-6 and abs(s.y - y) < 1e-6), None)


def _name_piece(drawing: Drawing, room: Room, subject: Subject, view: View) -> None:
    """Number, name and edges of a piece, inside its outline where there is room."""
    box = view.rectangle(_outline_of(subject))
    area = room.area
    inner = Room(
        Rectangle(
            max(area.left, box.left + 2),
            max(area.bottom, box.bottom + 2),
            min(area.right, box.right - 2),
            min(area.top, box.top - 2),
        )
    )
    inner.taken = room.taken
    datum, figures = subject.datum, subject.figures
    lines = [subject.heading, figures.size_in_words(subject.width, subject.height)]
    if datum is not None:
        top = datum.height(subject.bottom + subject.height, figures)
        left = datum.distance(subject.left, figures)
        lines.append(
            say(
                "top edge {top} {above}, left edge {left} {side}",
                top=top,
                above=datum.height_words(),
                left=left,
                side=datum.side_words(),
            )
        )
    for wide in (110.0, 70.0, 40.0, 22.0):
        used = min(
            wide,
            max(text_width_mm(printable(line), 14 if i == 0 else 9, "semibold") for i, line in enumerate(lines)) + 0.5,
        )
        place = inner.find(used, 17) if min(inner.area.width, inner.area.height) > 5 else None
        if place is None:
            continue
        drawing.text(place.left, place.top - 5, lines[0], 14, "bold", within=used)
        for index, line in enumerate(lines[1:]):
            drawing.text(place.left, place.top - 10 - index * 4.6, line, 9, within=used)
        room.take(place.grown(1))
        return


def _map(hung: list[Subject], outline: Rectangle, grid: Grid, side: Side) -> Page:
    figures = hung[0].figures
    count = len(grid.kept)
    steps = [
        say("Print at actual size (100 %). Measure the ruler on the first sheet before anything else."),
        say("Cut each sheet along its solid edge lines only: left and top, where it has a neighbour."),
        say("Lay each cut edge on the neighbour's dashed line, marks on marks, row by row. Tape."),
        say(
            "Measure the whole, outermost edge to outermost edge: {size}.",
            size=figures.size_in_words(outline.width - 2 * AROUND_MM, outline.height - 2 * AROUND_MM),
        ),
        say("Tape it to the wall by the heights printed on it, level."),
    ]
    rows = [(say("sheets, across × down"), f"{grid.columns} × {grid.rows}"), (say("pieces"), str(len(hung)))]
    title = say("The whole wall")
    of = say_many("{count} sheet", "{count} sheets", count)
    return draw_map_page(
        side,
        title,
        of,
        hung[0].place_name,
        grid,
        outline,
        steps,
        rows,
        say("{letter}-map", letter="W"),
        (hung[0].place_name, say("Map")),
        frames=[_outline_of(subject) for subject in hung],
    )
