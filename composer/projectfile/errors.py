"""What can go wrong with a file; every message is one finished sentence naming it."""

import errno
import os
from pathlib import Path

from composer.texts import one_line, say


class ProjectFileError(Exception):
    """Base of everything below; ``str()`` is the sentence for the person, on one line whatever a file holds."""

    def __init__(self, sentence: str) -> None:
        super().__init__(one_line(sentence))


class NotAProject(ProjectFileError):
    """The file is there and can be read, but is something else."""


class NewerFormat(ProjectFileError):
    """The file was written by a newer program.

    Attributes:
        found, known: its format and the newest one this program knows.
    """

    def __init__(self, name: str, found: int, known: int) -> None:
        self.found = found
        self.known = known
        super().__init__(
            say(
                "“{file}” is of format {found}; this program knows formats up to {known}. A newer program opens it.",
                file=name,
                found=found,
                known=known,
            )
        )


class BadProject(ProjectFileError):
    """A project file with something in it that cannot be.

    Attributes:
        where: place in the file, such as ``pieces[3].frame``; empty when it is the whole.
    """

    def __init__(self, name: str, where: str, what: str) -> None:
        self.where = where
        super().__init__(
            say("“{file}” is damaged at {where}: {what}", file=name, where=where, what=what)
            if where
            else say("“{file}” is damaged: {what}", file=name, what=what)
        )


class CannotRead(ProjectFileError):
    """The file is missing, protected or out of reach."""


class CannotWrite(ProjectFileError):
    """The file or its folder takes no writing."""


class ChangedOnDisk(CannotWrite):
    """Somebody else has changed the file since it was opened."""


class Locked(CannotWrite):
    """Another process has the project open; the sentence names it.

    Attributes:
        holder: what it wrote about itself: program, pid, host, user, since; empty when unknown.
    """

    def __init__(self, name: str, holder: dict[str, str]) -> None:
        self.holder = holder
        if "pid" in holder:
            sentence = say(
                "“{file}” is open in {program} (process {pid} on {host}, since {since}). Close it there first.",
                file=name,
                **{key: holder.get(key, "?") for key in ("program", "pid", "host", "since")},
            )
        else:
            sentence = say("“{file}” is open in another window. Close it there first.", file=name)
        super().__init__(sentence)


class BadTable(ProjectFileError):
    """A table that cannot be read as it stands.

    Attributes:
        row: as a spreadsheet counts, the header being 1; None = about the whole table.
        column: as its header says; None = about the whole row.
    """

    def __init__(self, sentence: str, row: int | None = None, column: str | None = None) -> None:
        super().__init__(sentence)
        self.row = row
        self.column = column


def cannot_read(path: str | os.PathLike[str], error: OSError | ValueError) -> CannotRead:
    """The sentence for what the system said when reading."""
    shown = _shown(path)
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return CannotRead(say("There is no file “{file}”.", file=shown))
    if isinstance(error, IsADirectoryError) or os.path.isdir(_without_null(path)):
        return CannotRead(say("“{file}” is a folder; a file is expected.", file=shown))
    if isinstance(error, PermissionError):
        return CannotRead(say("“{file}” may not be read by you.", file=shown))
    return CannotRead(say("“{file}” cannot be read: {reason}.", file=shown, reason=_reason(error)))


def cannot_write(path: str | os.PathLike[str], error: OSError | ValueError) -> CannotWrite:
    """The sentence for what the system said when writing."""
    shown = _shown(path)
    folder = Path(os.path.realpath(_without_null(path))).parent
    code = getattr(error, "errno", None)
    if isinstance(error, IsADirectoryError):
        return CannotWrite(say("“{file}” is a folder; a file is expected.", file=shown))
    if isinstance(error, FileNotFoundError | NotADirectoryError) or not os.path.isdir(folder):
        parent = Path(shown).parent
        return CannotWrite(say("“{file}” cannot be written: there is no folder “{folder}”.", file=shown, folder=parent))
    if isinstance(error, PermissionError) or code == errno.EROFS:
        return CannotWrite(say("“{file}” cannot be written: the file or its folder is protected.", file=shown))
    if code in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
        return CannotWrite(
            say("“{file}” cannot be written: the disk is full. What was there is untouched.", file=shown)
        )
    return CannotWrite(say("“{file}” cannot be written: {reason}.", file=shown, reason=_reason(error)))


def _reason(error: OSError | ValueError) -> str:
    return getattr(error, "strerror", None) or str(error)


def _without_null(path: str | os.PathLike[str]) -> str:
    return os.fspath(path).replace("\0", "")


def _shown(path: str | os.PathLike[str]) -> str:
    return "".join(sign if sign.isprintable() else "?" for sign in os.fspath(path))
