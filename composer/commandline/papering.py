"""The calls ``paper`` and ``export``: sheets and files to take away."""

from dataclasses import replace
from pathlib import Path

from composer.commandline import typed
from composer.commandline.answers import Exit, Refused
from composer.commandline.files import expect_folder_for, opened, path_of
from composer.commandline.lookup import arrangement_named, piece_named, wall_named
from composer.commandline.near import suggestion
from composer.commandline.parsing import Given
from composer.commandline.print_paper import with_pictures
from composer.model import Project
from composer.paper.kept_sheets import Economy
from composer.paper.kinds import ALL_KINDS, ECONOMIES, KINDS, USUAL_SHEET, NothingToPrint, PaperOptions, build, walls_of
from composer.paper.page_index import to_json
from composer.paper.sheets import BadSheet, Margins, sheet_named
from composer.projectfile import store
from composer.texts import say

INDEXED = ("templates", "wall")
LEAST_SCALE, MOST_SCALE = 0.985, 1.015
"""A printer that is further off is not to be corrected but set to actual size."""

FORMATS = ("csv", "png", "svg", "pdf")


def paper(given: Given) -> int:
    """``paper FILE KIND -o OUT.pdf``."""
    file, kind = given.words
    if kind not in ALL_KINDS:
        raise Refused(say("there is no paper “{kind}”. {hint}", kind=kind[:40], hint=suggestion(kind, ALL_KINDS)))
    if kind not in KINDS:
        raise Refused(say("the paper “{kind}” is not built yet.", kind=kind))
    target, index_target = _targets(given, kind)
    project, folder = with_pictures(opened(file), kind)
    if target.suffix.casefold() == ".txt":
        store.write_atomic(target, _as_text(project, kind, _options(given, project)))
        return Exit.DONE
    if target.suffix.casefold() == ".csv":
        store.write_atomic(target, _as_table(project, kind, _options(given, project)))
        return Exit.DONE
    made = build(project, kind, replace(_options(given, project), folder=folder))
    from composer.paper.pdf import to_pdf  # reportlab, once it is sure that there is something to print

    pdf = to_pdf(made.document)
    if index_target is not None and made.index is not None:
        store.write_atomic(index_target, to_json(made.index).encode())
    store.write_atomic(target, pdf)
    return Exit.DONE


def _as_text(project: Project, kind: str, options: PaperOptions) -> bytes:
    """The hanging list in plain text, for a telephone or a screen reader."""
    if kind != "hanging-list":
        raise Refused(
            say("-o: only the hanging list is written as plain text; the paper “{kind}” is a PDF.", kind=kind)
        )
    from composer.paper.hanging_list_text import plain_text

    arrangement = project.arrangement_by_key[options.arrangement or project.current_arrangement]
    walls = walls_of(project, options)
    text = plain_text(project, arrangement, walls, options.only, left_to_right=options.left_to_right)
    if not text:
        raise NothingToPrint(say("No piece hangs on a wall yet: there is nothing to hang."))
    return text.encode()


def _as_table(project: Project, kind: str, options: PaperOptions) -> bytes:
    """The shopping list as a table, to be filled in and read back."""
    if kind != "shopping":
        raise Refused(say("-o: only the shopping list is written as a table; the paper “{kind}” is a PDF.", kind=kind))
    from composer.costing.costs import costs_of
    from composer.projectfile.shopping_table import shopping_bytes

    arrangement = project.arrangement_by_key[options.arrangement or project.current_arrangement]
    costs = costs_of(project, arrangement, only=options.only)
    if not costs.lines and not costs.unpriced:
        raise NothingToPrint(say("Everything is there: there is nothing to buy."))
    return shopping_bytes(project, costs)


def _targets(given: Given, kind: str) -> tuple[Path, Path | None]:
    """Where the paper goes, and its index."""
    target = _free(path_of("-o", given.options["-o"]), "-o")
    index = given.option("--index")
    if index is None:
        return target, None
    if kind not in INDEXED:
        raise Refused(say("--index: only the papers {kinds} have an index.", kinds=" / ".join(INDEXED)))
    index_target = _free(path_of("--index", index), "--index")
    if index_target == target:
        raise Refused(say("--index: the index needs a file of its own, not “{file}”.", file=target))
    return target, index_target


def _free(target: Path, option: str) -> Path:
    """The target if it may be replaced: anything but a project."""
    expect_folder_for(target)
    if target.exists() and target.is_file() and store.is_project(target):
        raise Refused(say("{option}: “{file}” is a Wallwright project; it stays as it is.", option=option, file=target))
    return target


def _options(given: Given, project: Project) -> PaperOptions:
    sheet_name = given.options.get("--sheet", USUAL_SHEET[project.units])
    try:
        sheet = sheet_named(sheet_name)
    except BadSheet as refused:
        raise Refused(say("{name}: {what}", name="--sheet", what=refused)) from None
    economies: dict[str, Economy] = {name: name for name in ECONOMIES}
    wall = given.option("--wall")
    overlap = given.option("--overlap")
    economy = typed.one_of("--economy", given.options.get("--economy", "full"), economies)
    return PaperOptions(
        sheet=sheet,
        margins=_margins(given.option("--margins"), project),
        overlap_mm=10.0 if overlap is None else float(typed.length("--overlap", overlap, project.units).mm),
        economy=economy,
        scale=_scale(given.option("--scale")),
        only=only_pieces(given.option("--only"), project),
        walls=None if wall is None else (wall_named(project, wall).key,),
        arrangement=arrangement_named(project, given.option("--arrangement")).key,
        left_to_right=given.has("--left-to-right"),
        large_print=given.has("--large-print"),
    )


def _margins(text: str | None, project: Project) -> Margins:
    """One length for four sides, or four: left, bottom, right, top."""
    if text is None:
        return Margins()
    parts = text.split(",")
    if len(parts) <= 2:  # a single comma is a decimal one
        side = float(typed.length("--margins", text, project.units, zero=True).mm)
        return Margins(side, side, side, side)
    if len(parts) != 4:
        raise Refused(
            say(
                "--margins: one length, or four with commas between (left, bottom, right, top), not “{found}”.",
                found=text[:60],
            )
        )
    bare = [part.strip().replace(".", "", 1).isdigit() for part in parts]
    naked = [part for part, is_bare in zip(parts, bare, strict=True) if is_bare and part.strip(" 0.") != ""]
    if naked and not all(bare):
        raise Refused(
            say("--margins: “{found}” has a unit beside some margins only; write it beside each one.", found=text[:60])
        )
    left, bottom, right, top = (float(typed.length("--margins", part, project.units, zero=True).mm) for part in parts)
    return Margins(left, bottom, right, top)


def _scale(text: str | None) -> tuple[float, float]:
    if text is None:
        return 1.0, 1.0
    try:
        across, up = (float(part) for part in text.split(","))
    except ValueError:
        raise Refused(
            say("--scale: two factors SX,SY are expected, such as 1.003,0.998, not “{found}”.", found=text[:40])
        ) from None
    for factor in (across, up):
        if not LEAST_SCALE <= factor <= MOST_SCALE:
            raise Refused(
                say(
                    "--scale: {factor} is outside {least} to {most}; set the printer to actual size (100 %) first.",
                    factor=f"{factor:g}",
                    least=LEAST_SCALE,
                    most=MOST_SCALE,
                )
            )
    return across, up


def only_pieces(text: str | None, project: Project) -> frozenset[int] | None:
    """The pieces named after ``--only``, by number; None = all."""
    if text is None:
        return None
    names = [part.strip() for part in text.split(",")]
    if not all(names):
        raise Refused(
            say("--only: numbers of pieces with commas between are expected, not “{found}”.", found=text[:40])
        )
    return frozenset(typed.of("--only", lambda name=name: piece_named(project, name).number) for name in names)  # type: ignore[misc]


def export(given: Given) -> int:
    """``export FILE -o OUT``: the ending of OUT says what is written."""
    target = path_of("-o", given.options["-o"])
    ending = target.suffix.removeprefix(".").casefold()
    if ending not in FORMATS:
        raise Refused(
            say(
                "-o: a name ending in {endings} is expected, not “{found}”.",
                endings=", ".join(f".{known}" for known in FORMATS),
                found=target.name[-40:],
            )
        )
    _free(target, "-o")
    file = opened(given.words[0])
    store.write_atomic(target, _exported(file, target, ending))
    return Exit.DONE


def _exported(file: store.Opened, target: Path, ending: str) -> bytes:
    project = file.project
    if ending == "csv":
        from composer.projectfile.inventory import table_bytes

        return table_bytes(project, target.parent, file.path.parent)
    if ending == "pdf":
        sheet = sheet_named(USUAL_SHEET[project.units])
        document = build(project, "elevation", PaperOptions(sheet)).document
        from composer.paper.pdf import to_pdf

        return to_pdf(document)
    from composer.paper.elevation_files import wall_png, wall_svg

    wall = project.walls[0]
    if ending == "svg":
        return wall_svg(project, wall, project.arrangement).encode()
    return wall_png(project, wall, project.arrangement)
