"""Opens and saves projects for the calls: locked while they change, saved in one step."""

import os
from collections.abc import Callable
from contextlib import nullcontext
from pathlib import Path

from composer.commandline.answers import Exit, Refused
from composer.model import Project
from composer.projectfile import store
from composer.projectfile.lock import ProjectLock
from composer.texts import say

Change = Callable[[Project, Path], Project]
"""From the project and the folder its pictures are counted from, to the changed project."""


def path_of(name: str, word: str) -> Path:
    """A path as given; ``name`` is what the call calls it.

    Raises:
        Refused: for an empty one and for ``-``.
    """
    if not word or word == "-":
        raise Refused(say("{name}: a file's name is expected, not “{found}”.", name=name, found=word))
    if "\0" in word:
        raise Refused(say("{name}: a file's name holds no null character.", name=name))
    return Path(word)


def opened(word: str) -> store.Opened:
    """The project in a file.

    Raises:
        ProjectFileError: missing, unreadable, not a project, of a newer format.
    """
    return store.load(path_of("FILE", word))


def change(file: str, out: str | None, make: Change) -> None:
    """Reads FILE, changes it, saves it in place or as OUT.

    Without OUT a change that changes nothing leaves the file alone, byte for byte. OUT replaces a
    project only, which stays as ``.bak``; the pictures' paths are counted from its folder.

    Raises:
        Refused, ProjectFileError, EditRefused: nothing was written.
    """
    source = path_of("FILE", file)
    target = source if out is None else path_of("-o", out)
    _expect_folder(target)
    in_place = out is None or _same_file(source, target)
    known = store.load(source)
    if not in_place and target.exists():
        expect_project(target)
    with ProjectLock(target) if in_place or target.exists() else nullcontext():
        # Whoever held the lock until now may have saved since.
        found = store.load(source) if in_place else known
        after = make(found.project, source.parent)
        if in_place:
            if after is not found.project and after != found.project:
                store.save(target, after, found.digest)
        else:
            store.save(target, _counted_from(after, source.parent, target.parent))


def expect_project(target: Path) -> None:
    """Refuses to replace what is not a Wallwright project.

    Raises:
        Refused: exit code 2.
    """
    if target.is_dir() or not store.is_project(target):
        raise Refused(say("-o: “{file}” is there and is not a Wallwright project; it stays as it is.", file=target))


def _expect_folder(target: Path) -> None:
    if not target.parent.is_dir():
        raise Refused(
            say("there is no folder “{folder}” for “{file}”.", folder=target.parent, file=target.name), Exit.FILES
        )


def expect_new(target: Path) -> None:
    """Refuses a name that is taken, or whose folder is not there.

    Raises:
        Refused: exit code 2, or 3 for a missing folder.
    """
    _expect_folder(target)
    if os.path.lexists(target):
        raise Refused(say("OUT: “{file}” is there already; new replaces nothing.", file=target))


def expect_folder_for(target: Path) -> None:
    """Refuses a file whose folder is not there, or a name that is a folder's.

    Raises:
        Refused: exit code 3.
    """
    _expect_folder(target)
    if target.is_dir():
        raise Refused(say("“{file}” is a folder; a file is expected.", file=target), Exit.FILES)


def _same_file(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except OSError:
        return False


def _counted_from(project: Project, old: Path, new: Path) -> Project:
    """The project with its pictures' paths counted from another folder."""
    if not project.pictures:
        return project
    from composer.projectfile.picture_links import counted_from

    return counted_from(project, old, new)
