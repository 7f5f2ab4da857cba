"""The calls ``new``, ``add`` and ``place``."""

from collections.abc import Callable
from pathlib import Path

from msgspec.structs import replace

from composer.commandline import typed
from composer.commandline.answers import Exit, Refused, tell
from composer.commandline.files import change, expect_new, path_of
from composer.commandline.findings_shown import lines_of
from composer.commandline.lookup import piece_named, wall_named
from composer.commandline.parsing import Given
from composer.editing.creating import new_project
from composer.editing.placing import Spot, put
from composer.editing.project_edits import add_prices
from composer.editing.wall_edits import add_obstacles, add_wall
from composer.model import Finding, Key, Obstacle, Project
from composer.projectfile import inventory, lists, store
from composer.projectfile.cells import plain_text
from composer.texts import say, say_many

WHAT = ("pieces", "obstacles", "prices", "wall")


def new(given: Given) -> int:
    """``new OUT``: a project with one wall; the rows of a table become pieces on the floor."""
    target = path_of("OUT", given.words[0])
    units = typed.one_of("--units", given.options.get("--units", "metric"), typed.UNITS)
    width = typed.length("--wall-width", given.options["--wall-width"], units)
    height = typed.length("--wall-height", given.options["--wall-height"], units)
    expect_new(target)
    title = given.option("--title")
    project = new_project(
        wall_width=width,
        wall_height=height,
        units=units,
        title=plain_text(target.stem if title is None else title),
        currency=given.option("--currency"),
    )
    table = given.option("--pieces")
    if table is not None:
        project = _with_table(project, path_of("--pieces", table), target.parent)
    store.save(target, project)
    return Exit.DONE


def add(given: Given) -> int:
    """``add FILE pieces|obstacles|prices TABLE`` and ``add FILE wall NAME --width L --height L``."""
    file, word, third = given.words
    what = typed.one_of(given.call.words[1], word, {name: name for name in WHAT})
    _refuse_strange_options(given, what)
    wall = given.option("--wall")

    def make(project: Project, folder: Path) -> Project:
        if what == "wall":
            width = typed.length("--width", given.options["--width"], project.units)
            height = typed.length("--height", given.options["--height"], project.units)
            name = plain_text(third)
            return typed.of("NAME", lambda: add_wall(name, width, height).run(project))
        table = path_of("TABLE", third)
        if what == "pieces":
            return _with_table(project, table, folder)
        if what == "prices":
            read = lists.read_prices(table)
            return add_prices(read.prices, read.in_drawer).run(project)
        key = wall_named(project, wall).key
        rows = lists.read_obstacles(table, project.units, project.next_key)
        makers = [_keyed(row) for row in rows]
        return add_obstacles(project, key, makers).run(project)

    change(file, given.option("-o"), make)
    return Exit.DONE


def _keyed(obstacle: Obstacle) -> Callable[[Key], Obstacle]:
    return lambda key: replace(obstacle, key=key)


def _refuse_strange_options(given: Given, what: str) -> None:
    sizes = ("--width", "--height")
    for name in sizes if what == "wall" else ():
        if not given.has(name):
            raise Refused(say("{option} {value} is missing.", option=name, value="L"))
    strange = ("--wall",) if what in ("wall", "prices", "pieces") else ()
    for name in strange if what == "wall" else (*strange, *sizes):
        if given.has(name):
            raise Refused(say("{what} takes no {option}.", what=what, option=name))


def _with_table(project: Project, path: Path, folder: Path) -> Project:
    """The project with a table's pieces; what its unknown columns are called is told once."""
    table = inventory.read_table(path, project.units, inventory.catalogue_for(project))
    if table.unknown:
        tell(
            say_many(
                "“{file}”: the column {columns} means nothing here; it is kept and written back.",
                "“{file}”: the columns {columns} mean nothing here; they are kept and written back.",
                len(table.unknown),
                file=path,
                columns=", ".join(f"“{name}”" for name in table.unknown),
            )
        )
    return inventory.add_to(project, table, folder)


def place(given: Given) -> int:
    """``place FILE PIECE``: hangs a piece; what that makes wrong is told, not refused."""
    file, name = given.words
    said: list[str] = []

    def make(project: Project, _: Path) -> Project:
        piece = piece_named(project, name)
        wall = wall_named(project, given.option("--wall"))
        left = typed.length("--left", given.options["--left"], project.units, minus=True)
        bottom = typed.length("--bottom", given.options["--bottom"], project.units, minus=True)
        spot = Spot(wall.key, left.mm, bottom.mm, given.has("--turned"))
        after = put(project, {piece.key: spot}).run(project)
        said.extend(lines_of(_new_findings(project, after, piece.number), after))
        return after

    change(file, given.option("-o"), make)
    for line in said:
        tell(line)
    return Exit.DONE


def _new_findings(before: Project, after: Project, number: int) -> list[Finding]:
    """What is found of a piece now that was not before."""
    from composer.findings.cache import FindingsCache

    cache = FindingsCache()
    old = set(cache.check(before))
    return [finding for finding in cache.check(after) if number in finding.pieces and finding not in old]
