"""The paper of a whole project at once, for a machine that has no screen to open a window on."""

import os
from dataclasses import replace
from importlib.resources import as_file
from pathlib import Path

from composer.commandline.answers import Exit, Refused, answer, tell
from composer.commandline.running import explained
from composer.projectfile import store
from composer.projectfile.errors import CannotWrite
from composer.resources import sample
from composer.texts import say

FIRST_SAMPLE = "sofa-wall.wallwright"
"""Whose paper is written where no file is named."""

LEFT_OUT = frozenset({"wall"})
"""The sheet of the whole wall would repeat the templates."""


def write_paper_set(file: str | None) -> int:
    """Writes ``./NAME-paper/KIND.pdf`` for each kind of paper that is not empty, and lists them on stdout.

    Args:
        file: the project; None = the sample wall.

    Returns:
        The exit code: 0 done, 2 the file is no project, 3 it cannot be read or the paper cannot be written.
    """
    try:
        opened, name = _load(file)
        tell(say("There is no screen to open a window on, so the paper of “{name}” is written.", name=name))
        for path in _write(opened, Path(f"{name}-paper")):
            answer(f"{path}\n")
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)  # nobody listens any more; the paper is written
    except Exception as error:
        if os.environ.get("WALLWRIGHT_TRACEBACK"):
            raise
        sentence, code = explained(error)
        tell(f"wallwright: {sentence}")
        return code
    return Exit.DONE


def _load(file: str | None) -> tuple[store.Opened, str]:
    if file is not None:
        return store.load(file), Path(file).stem
    with as_file(sample(FIRST_SAMPLE)) as path:
        return store.load(path), path.stem


def _write(opened: store.Opened, folder: Path) -> list[Path]:
    from composer.commandline.print_paper import with_pictures
    from composer.paper.kinds import KINDS, NothingToPrint, PaperOptions, build
    from composer.paper.pdf import to_pdf
    from composer.paper.sheet_request import SheetTooSmall
    from composer.paper.sheets import BadSheet

    try:
        folder.mkdir(exist_ok=True)
    except OSError as problem:
        raise CannotWrite(
            say("The folder “{folder}” cannot be made: {reason}.", folder=folder, reason=problem.strerror)
        ) from problem
    written = []
    options = PaperOptions.usual(opened.project)
    for kind in KINDS:
        if kind in LEFT_OUT:
            continue
        try:
            project, pictures = with_pictures(opened, kind)
            pages = build(project, kind, replace(options, folder=pictures)).document
        except NothingToPrint:
            continue
        except (BadSheet, SheetTooSmall, Refused) as problem:
            tell(f"wallwright: {kind}: {problem}")
            continue
        path = folder / f"{kind}.pdf"
        store.write_atomic(path, to_pdf(pages))
        written.append(path)
    return written
