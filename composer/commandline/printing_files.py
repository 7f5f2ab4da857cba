"""The call ``print-files``: one print-ready picture for each piece that shows one."""

from collections.abc import Sequence
from pathlib import Path

from composer.commandline import typed
from composer.commandline.answers import Exit, Refused, answer, tell
from composer.commandline.files import opened, path_of
from composer.commandline.lookup import arrangement_named
from composer.commandline.papering import only_pieces
from composer.commandline.parsing import Given
from composer.model import Project
from composer.pictures.print_job import PrintJob, print_jobs
from composer.prints.file_names import FileKind
from composer.projectfile import store
from composer.projectfile.pictures_read import read_pictures
from composer.texts import say

KINDS: dict[str, FileKind] = {"jpeg": "jpeg", "tiff": "tiff", "png": "png"}


def print_files(given: Given) -> int:
    """``print-files FILE -o DIR``: writes the files and lists them."""
    file = opened(given.words[0])
    kind = typed.one_of("--format", given.options.get("--format", "jpeg"), KINDS)
    folder = _folder(given)
    arrangement = arrangement_named(file.project, given.option("--arrangement"))
    read = read_pictures(file.project, file.path.parent)
    jobs, left_out = print_jobs(
        read.project, arrangement, read.found, only=only_pieces(given.option("--only"), file.project), kind=kind
    )
    for one in left_out:
        if one.broken:
            raise Refused(one.why, Exit.FILES if one.broken == "missing" else Exit.WRONG)
        tell(one.why)
    if not jobs:
        raise Refused(say("no piece shows a picture whose print can be ordered: there is nothing to write."), Exit.NO)
    written = _write(jobs, folder, kind)
    if given.has("--multi-up"):
        written += _multi_up(read.project, jobs, folder / "multi-up", kind)
    answer("".join(f"{path}\n" for path in written))
    return Exit.DONE


def _multi_up(project: Project, jobs: Sequence[PrintJob], folder: Path, kind: FileKind) -> list[Path]:
    from composer.pictures.multi_up import multi_up

    sheets = multi_up(project, jobs, kind)
    if not sheets:
        tell(say("Several prints on one sheet would not be cheaper: there is no sheet to share."))
        return []
    _make(folder)
    for sheet in sheets:
        store.write_atomic(folder / sheet.name, sheet.made())
    return [folder / sheet.name for sheet in sheets]


def _write(jobs: Sequence[PrintJob], folder: Path, kind: FileKind) -> list[Path]:
    _make(folder)
    written = []
    for job in jobs:
        data = job.made(kind)
        store.write_atomic(folder / job.name, data)
        written.append(folder / job.name)
    return written


def _folder(given: Given) -> Path:
    folder = path_of("-o", given.options["-o"])
    if folder.exists() and not folder.is_dir():
        raise Refused(say("-o: “{file}” is a file; a folder is expected.", file=folder))
    if not folder.parent.is_dir():
        raise Refused(
            say("there is no folder “{folder}” for “{file}”.", folder=folder.parent, file=folder.name), Exit.FILES
        )
    return folder


def _make(folder: Path) -> None:
    try:
        folder.mkdir(exist_ok=True)
    except OSError as problem:
        raise Refused(
            say("The folder “{folder}” cannot be made: {reason}.", folder=folder, reason=problem.strerror), Exit.FILES
        ) from problem
