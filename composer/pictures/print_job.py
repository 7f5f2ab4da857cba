"""All print files of a project: which piece gets one, why another gets none, one file at a time."""

from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from composer.model import Arrangement, Piece, Project
from composer.pictures.print_sheet import print_file
from composer.pictures.whereabouts import Whereabouts
from composer.prints.file_names import FileKind, file_name
from composer.prints.plan import PiecePlan, plan
from composer.texts import say


@dataclass(frozen=True, slots=True)
class PrintJob:
    """One file to be written."""

    piece: Piece
    plan: PiecePlan
    source: Path
    name: str

    def made(self, kind: FileKind = "jpeg") -> bytes:
        """The file's content.

        Raises:
            BadPicture: with one sentence.
        """
        assert self.plan.print is not None and self.plan.use is not None
        label = say("{number} · 50 mm", number=self.piece.number)
        return print_file(self.source, self.plan.print, self.plan.use, kind, label)


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A piece without a print file, and the sentence that says why.

    ``broken``: ``missing`` or ``bad`` where its picture's file is at fault, else empty.
    """

    piece: Piece
    why: str
    broken: Literal["", "missing", "bad"] = ""


def print_jobs(
    project: Project,
    arrangement: Arrangement,
    found: dict[str, Whereabouts],
    *,
    only: Collection[int] | None = None,
    kind: FileKind = "jpeg",
) -> tuple[list[PrintJob], list[LeftOut]]:
    """The files to write, and the pieces left out.

    Args:
        project: with the pixels its pictures' files have now.
        arrangement: decides which pieces hang turned.
        found: each shown picture's file, by the picture's key.
        only: numbers of pieces; None = all.
        kind: of file.
    """
    jobs: list[PrintJob] = []
    left_out: list[LeftOut] = []
    for piece in sorted(project.pieces, key=lambda piece: piece.number):
        if only is not None and piece.number not in only:
            continue
        planned = plan(project, piece, arrangement)
        why = _lacking(planned)
        if why:
            left_out.append(LeftOut(piece, why))
            continue
        assert planned.use is not None and planned.print is not None and planned.print.fit is not None
        seen = found[planned.use.picture]
        if seen.facts is None:
            left_out.append(LeftOut(piece, seen.refused, "missing" if seen.state == "missing" else "bad"))
            continue
        jobs.append(PrintJob(piece, planned, seen.path, file_name(piece, planned.print.fit.stock, kind)))
    return jobs, left_out


def _lacking(planned: PiecePlan) -> str:
    number = planned.piece.number
    if planned.use is None:
        return say("Piece {number} shows no picture.", number=number)
    if planned.print is None:
        if planned.piece.mat is not None and planned.glass_mm is not None:
            return say("Piece {number}: its mat's window is not decided.", number=number)
        return say("Piece {number}: its glass size is not known; measure its face or the glass.", number=number)
    if planned.print.fit is None:
        return say("Piece {number}: no stock size covers it.", number=number)
    return ""
