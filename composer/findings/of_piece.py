"""Checks of one piece by itself, wherever it is: its measures, its hanger, its name, its picture."""

from collections.abc import Callable, Iterable

from composer.catalogue.catalogue import Catalogue
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging, Value
from composer.hanging.strip_ladder import ladder
from composer.model import Finding, Level, Picture, Piece

LEAST_SIDE_MM, MOST_SIDE_MM = 20.0, 3000.0
"""A frame's side outside this is accepted with a remark."""

LEAST_FACE_MM, MOST_FACE_MM = 3.0, 120.0
"""So is a face or a depth outside this."""

Unprintable = Callable[[str], str]
"""Gives the signs of a text that the paper's typeface lacks."""

Missing = Callable[[Picture], bool | str]
"""Says what became of a picture's file: False or empty = it is there; True or ``missing``; ``changed``; else
the sentence why it cannot be used."""


def check_piece(
    piece: Piece, turned: bool, hung: bool, catalogue: Catalogue, unprintable: Unprintable | None
) -> tuple[Finding, ...]:
    """Everything that can be said of a piece without its wall.

    Args:
        piece: the piece.
        turned: hung a quarter turned.
        hung: on a wall; what is missing of a piece on the floor is only a note.
        catalogue: the figures that count in this project.
        unprintable: asked for the piece's name; None = not asked.
    """
    return (
        *_hanger(piece, hang(piece, turned=turned, catalogue=catalogue), hung, catalogue, turned),
        *_implausible(piece),
        *_name(piece, unprintable),
    )


def _hanger(piece: Piece, hanging: PieceHanging, hung: bool, catalogue: Catalogue, turned: bool) -> Iterable[Finding]:
    for problem in hanging.problems:
        level: Level = problem.level
        if problem.code == "not-measured" and (not hung or problem.value("missing") == "weight"):
            level = "note"
        values = problem.values
        if problem.code == "strip-width":
            values = (*values, *_ways_out(piece, catalogue, turned))
        yield Finding(level=level, code=problem.code, pieces=(piece.number,), values=values)


def _ways_out(piece: Piece, catalogue: Catalogue, turned: bool) -> Iterable[tuple[str, Value]]:
    """Which of the ways out would hold this piece, and with what."""
    for rung in ladder(piece, None, catalogue, turned=turned):
        if rung.works and rung.size is not None and rung.capacity_kg is not None:
            yield f"{rung.way}_size", rung.size
            yield f"{rung.way}_kg", rung.capacity_kg
            if rung.filler_mm is not None:
                yield "filler_mm", rung.filler_mm


def _implausible(piece: Piece) -> Iterable[Finding]:
    frame = piece.frame
    for what, length, least, most in (
        ("width", frame.width, LEAST_SIDE_MM, MOST_SIDE_MM),
        ("height", frame.height, LEAST_SIDE_MM, MOST_SIDE_MM),
        ("face", frame.face, LEAST_FACE_MM, MOST_FACE_MM),
        ("depth", frame.depth, LEAST_FACE_MM, MOST_FACE_MM),
    ):
        if length is not None and not least <= length.mm <= most:
            yield Finding(
                level="warn",
                code="implausible",
                pieces=(piece.number,),
                values=(("what", what), ("typed", length.text), ("least_mm", least), ("most_mm", most)),
            )


def _name(piece: Piece, unprintable: Unprintable | None) -> Iterable[Finding]:
    lacking = unprintable(piece.name) if unprintable is not None else ""
    if lacking:
        yield Finding(
            level="note",
            code="name-not-printable",
            pieces=(piece.number,),
            values=(("signs", "".join(dict.fromkeys(lacking))),),
        )


def check_picture(piece: Piece, picture: Picture, missing: Missing) -> tuple[Finding, ...]:
    """Whether the file of a picture the piece shows is where the project says."""
    state = missing(picture)
    if not state:
        return ()
    values: tuple[tuple[str, str | float], ...] = (("path", picture.path),)
    code = "picture-missing" if state in (True, "missing") else "picture-changed"
    if code == "picture-changed" and state != "changed":
        code, values = "picture-unreadable", (*values, ("reason", str(state)))
    return (Finding(level="warn", code=code, pieces=(piece.number,), values=values),)
