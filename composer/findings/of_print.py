"""Checks of what goes into a frame: the print's sharpness and size, the mat, the stack behind the lip."""

from collections.abc import Iterable

from composer.catalogue import catalogue as catalogues
from composer.model import CatalogueNotes, Finding, MoneyNotes, Picture, Piece, Units, Wall
from composer.prints.mats import stack, stack_mm
from composer.prints.plan import PiecePlan, PrintPlan, plan_piece, sight_in_print
from composer.prints.sharpness import largest_mm

GLAZED = ("glass", "acrylic", "styrene")


def check_print(
    piece: Piece,
    turned: bool,
    wall: Wall | None,
    picture: Picture | None,
    catalogue: CatalogueNotes,
    money: MoneyNotes,
    units: Units,
) -> tuple[Finding, ...]:
    """Everything about print and mat of one piece.

    Args:
        turned: hung a quarter turned.
        wall: on which it hangs, for the viewing distance; None = on the floor.
        picture: the one it shows; None = none.
        catalogue, money, units: of the project.
    """
    distance = None if wall is None or wall.viewing_distance is None else float(wall.viewing_distance.mm)
    planned = plan_piece(piece, turned, distance, picture, catalogue, money, units)
    return (*_mat(planned), *_printed(planned), *_inside(planned, catalogue))


def _finding(level: str, code: str, piece: Piece, **values: float | str) -> Finding:
    return Finding(level=level, code=code, pieces=(piece.number,), values=tuple(values.items()))  # type: ignore[arg-type]


def _mat(planned: PiecePlan) -> Iterable[Finding]:
    refused = planned.mat_refused
    if refused is None or planned.glass_mm is None:
        return
    width, height = planned.glass_mm
    if refused.why == "no-board":
        yield _finding("warn", "mat-impossible", planned.piece, width_mm=width, height_mm=height)
    else:
        yield _finding("note", "mat-undecided", planned.piece)


def _printed(planned: PiecePlan) -> Iterable[Finding]:
    printed, piece = planned.print, planned.piece
    if printed is None:
        return
    shown = planned.use is not None
    width, height = printed.needed_mm
    if printed.fit is None:
        level = "warn" if shown else "note"
        yield _finding(level, "no-stock", piece, width_mm=width, height_mm=height, mat=int(planned.mat is not None))
    elif not printed.fit.covers:
        yield _short(planned, printed)
    if printed.soft and printed.ppi is not None and printed.pixels is not None:
        most = largest_mm((printed.crop.width, printed.crop.height), printed.ppi_needed) if printed.crop else (0.0, 0.0)
        yield _finding(
            "warn",
            "low-ppi",
            piece,
            ppi=round(printed.ppi, 1),
            needed_ppi=round(printed.ppi_needed),
            width_mm=width,
            height_mm=height,
            most_width_mm=most[0],
            most_height_mm=most[1],
        )


def _short(planned: PiecePlan, printed: PrintPlan) -> Finding:
    assert printed.fit is not None
    across, up = printed.fit.short_mm
    hidden = sight_in_print(planned.piece.frame, printed.needed_mm, printed.visible_mm)
    # Laid in the middle it is short by half on each side; what lip or mat hides may be short.
    hides = max(across, up) / 2 < hidden
    return _finding(
        "note" if hides else "warn",
        "stock-short",
        planned.piece,
        stock=printed.fit.stock.shown,
        across_mm=across,
        up_mm=up,
        hidden_mm=hidden if hides else 0.0,
    )


def _inside(planned: PiecePlan, catalogue: CatalogueNotes) -> Iterable[Finding]:
    piece, frame = planned.piece, planned.piece.frame
    if planned.use is not None and piece.mat is None and frame.glazing in GLAZED:
        yield _finding("note", "print-touches-glass", piece, glazing=frame.glazing)
    filled = planned.use is not None or piece.mat is not None
    if frame.rabbet_depth is None or (frame.glazing == "unknown" and not filled):
        return
    paper = None if planned.use is None else planned.use.print.paper
    parts = stack(frame, piece.mat, catalogues.of(catalogue), paper)
    thick = stack_mm(parts)
    if thick > float(frame.rabbet_depth.mm) + 1e-6:
        yield _finding(
            "warn" if filled else "note",
            "stack-too-deep",
            piece,
            stack_mm=thick,
            rabbet_mm=float(frame.rabbet_depth.mm),
            sum=" + ".join(f"{part.mm:g}" for part in parts),
            assumed=int(any(part.assumed for part in parts)),
        )
