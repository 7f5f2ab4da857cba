"""Print files written beside the window, each all or nothing."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from composer.desktop.pictures.long_job import Halted
from composer.model import Project
from composer.pictures.print_job import print_jobs
from composer.projectfile import store
from composer.projectfile.pictures_read import read_pictures


def write_print_files(
    project: Project, around: Path, folder: Path, tell: Callable[[int, int], bool]
) -> tuple[int, tuple[str, ...]]:
    """Writes one file a piece in the current arrangement; gives their count, and why others got none.

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
    return len(jobs), tuple(one.why for one in left_out if one.piece.current_use is not None)
