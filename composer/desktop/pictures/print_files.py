"""Print files written beside the window, each all or nothing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from composer.desktop.pictures.long_job import Halted
from composer.model import Project
from composer.pictures.multi_up import MultiSheet, multi_up
from composer.pictures.print_job import print_jobs
from composer.projectfile import store
from composer.projectfile.pictures_read import read_pictures

SHARED_FOLDER = "multi-up"


@dataclass(frozen=True, slots=True)
class Written:
    """What was written: how many files, why other pieces got none, and sheets that prints could share."""

    count: int
    left_out: tuple[str, ...]
    shared: tuple[MultiSheet, ...]


def write_print_files(project: Project, around: Path, folder: Path, tell: Callable[[int, int], bool]) -> Written:
    """Writes one file a piece in the current arrangement.

    Args:
        project: with pictures found from ``around``.
        folder: to write to; it is there.
        tell: asked before each file whether to go on.

    Raises:
        Halted: ``tell`` said so; files written until then stay.
        ProjectFileError, BadPicture: with one sentence.
    """
    read = read_pictures(project, around)
    jobs, left_out = print_jobs(read.project, project.arrangement, read.found)
    for done, job in enumerate(jobs):
        if not tell(done, len(jobs)):
            raise Halted
        store.write_atomic(folder / job.name, job.made())
    # A piece without a picture wants no file; nobody need be told.
    reasons = tuple(one.why for one in left_out if one.piece.current_use is not None)
    return Written(len(jobs), reasons, tuple(multi_up(read.project, jobs)))


def write_shared(sheets: Sequence[MultiSheet], folder: Path, tell: Callable[[int, int], bool]) -> int:
    """Writes sheets that several prints share into a folder of their own; gives their count.

    Raises:
        Halted: ``tell`` said so; sheets written until then stay.
        ProjectFileError, BadPicture, OSError: as for print files.
    """
    own = folder / SHARED_FOLDER
    own.mkdir(exist_ok=True)
    for done, sheet in enumerate(sheets):
        if not tell(done, len(sheets)):
            raise Halted
        store.write_atomic(own / sheet.name, sheet.made())
    return len(sheets)
