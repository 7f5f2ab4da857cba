"""What can go wrong with a file; every message is one finished sentence naming it."""

from pathlib import Path

from composer.texts import say


class ProjectFileError(Exception):
    """Base of everything below; ``str()`` is the sentence for the person."""


class NotAProject(ProjectFileError):
    """The file is there and can be read, but is no Wallwright project, or a damaged one."""


class NewerFormat(ProjectFileError):
    """Written by a newer version of the program."""


class CannotRead(ProjectFileError):
    """Missing, not permitted, or not a file."""


class CannotWrite(ProjectFileError):
    """No folder, no permission, no room."""


class ChangedOnDisk(ProjectFileError):
    """Somebody else has saved the file since it was opened."""


class Locked(ProjectFileError):
    """Another program holds the file open; the sentence names it."""


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


def cannot_read(path: Path, error: OSError) -> CannotRead:
    """The sentence for what the system said when reading."""
    if isinstance(error, FileNotFoundError):
        return CannotRead(say("“{path}” does not exist.", path=path))
    if isinstance(error, IsADirectoryError):
        return CannotRead(say("“{path}” is a folder; a file was expected.", path=path))
    if isinstance(error, PermissionError):
        return CannotRead(say("“{path}” cannot be read: no permission.", path=path))
    return CannotRead(
        say("“{path}” cannot be read: {reason}.", path=path, reason=error.strerror or type(error).__name__)
    )


def cannot_write(path: Path, error: OSError) -> CannotWrite:
    """The sentence for what the system said when writing."""
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return CannotWrite(say("The folder “{folder}” does not exist.", folder=path.parent))
    if isinstance(error, IsADirectoryError):
        return CannotWrite(say("“{path}” is a folder; a file was expected.", path=path))
    if isinstance(error, PermissionError):
        return CannotWrite(say("“{path}” cannot be written: no permission.", path=path))
    return CannotWrite(
        say("“{path}” cannot be written: {reason}.", path=path, reason=error.strerror or type(error).__name__)
    )
