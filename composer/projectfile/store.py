"""Loading and saving: a file on disk is always the old project or the new one, whole.

A save writes a temporary file in the same folder, forces it to the disk, keeps the old file as
``NAME.bak`` and then renames over it; POSIX ``rename`` replaces a name in one step, so whoever
reads the name finds one complete file. The folder is forced to the disk last.
"""

import contextlib
import errno
import hashlib
import os
import secrets
import shutil
import stat
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from composer.model import Project
from composer.projectfile import schema
from composer.projectfile.errors import CannotWrite, ChangedOnDisk, cannot_read, cannot_write
from composer.texts import say

_DRAFT = ".wallwright-{}.tmp"
_FORGOTTEN_S = 3600.0


@dataclass(frozen=True, slots=True)
class Opened:
    """A project as found on disk; ``digest`` is the SHA-256 of the file, to notice a change by others."""

    path: Path
    project: Project
    digest: str


def load(path: str | os.PathLike[str]) -> Opened:
    """Reads a project.

    Raises:
        CannotRead: missing, protected, a folder, out of reach.
        NotAProject, NewerFormat, BadProject: what is in it.
    """
    data = read_bytes(path, schema.LARGEST_BYTES)
    name = Path(path).name
    return Opened(Path(path), schema.decode(data, name), hashlib.sha256(data).hexdigest())


def save(path: str | os.PathLike[str], project: Project, expected_digest: str | None = None) -> str:
    """Writes a project, keeping the file it replaces as ``NAME.bak``.

    Args:
        path: where to; a link is followed.
        project: what to write.
        expected_digest: what :func:`load` or the last save gave, to refuse overwriting others' changes.

    Returns:
        The new file's digest.

    Raises:
        ChangedOnDisk: the file is not the expected one.
        CannotWrite: the folder is missing, protected or full; the old file is untouched.
    """
    name = Path(path).name
    data = schema.encode(project)
    if schema.decode(data, name) != project:
        raise CannotWrite(say("“{file}” was not saved: what would be written does not read back alike.", file=name))
    if expected_digest is not None and Path(path).exists():
        found = hashlib.sha256(read_bytes(path)).hexdigest()
        if found != expected_digest:
            raise ChangedOnDisk(
                say(
                    "“{file}” has been changed by another program since it was opened. Save under another name.",
                    file=name,
                )
            )
    write_atomic(path, data, keep_backup=True)
    return hashlib.sha256(data).hexdigest()


def is_project(path: str | os.PathLike[str]) -> bool:
    """Whether the file claims to be a project, be it readable by this program or not.

    Raises:
        CannotRead: it is missing or out of reach.
    """
    return schema.looks_like_project(read_bytes(path, 4096))


def read_bytes(path: str | os.PathLike[str], most: int = -1) -> bytes:
    """The file's bytes; of a longer one ``most`` and one more, which tells that it is longer.

    Raises:
        CannotRead: with one sentence.
    """
    try:
        # Before opening: a pipe nobody writes to would keep the program waiting for ever.
        if not _is_regular_or_folder(Path(path)):
            raise OSError(errno.EINVAL, os.strerror(errno.EINVAL), str(path))
        with Path(path).open("rb") as file:
            return file.read() if most < 0 else file.read(most + 1)
    except (OSError, ValueError) as error:
        raise cannot_read(path, error) from error


def write_atomic(path: str | os.PathLike[str], data: bytes, *, keep_backup: bool = False) -> None:
    """Puts ``data`` at ``path`` in one step; a failure leaves what was there and no temporary file.

    Args:
        path: where to; a link is followed, its permissions are kept.
        data: the whole file.
        keep_backup: keep the file replaced as ``NAME.bak``.

    Raises:
        CannotWrite: with one sentence.
    """
    try:
        target = Path(os.path.realpath(path))
        mode = _mode_to_keep(target)
        with _temporary(target) as draft:
            with draft.open("xb") as file:
                if mode is not None:
                    draft.chmod(mode)
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            if keep_backup and mode is not None:
                _keep(target)
            _rename(draft, target)
        _force_folder(target.parent)
        _sweep(target.parent)
    except (OSError, ValueError) as error:
        raise cannot_write(path, error) from error


def _is_regular_or_folder(path: Path) -> bool:
    mode = path.stat().st_mode
    return stat.S_ISREG(mode) or stat.S_ISDIR(mode)


def _mode_to_keep(target: Path) -> int | None:
    """Permission bits of the file there, or None when there is none yet."""
    try:
        found = target.stat()
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(found.st_mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(target))
    if not stat.S_ISREG(found.st_mode):
        raise OSError(errno.EINVAL, os.strerror(errno.EINVAL), str(target))
    if not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(target))
    return stat.S_IMODE(found.st_mode)


@contextlib.contextmanager
def _temporary(target: Path) -> Iterator[Path]:
    """A fresh name beside ``target``, gone afterwards unless it was renamed away."""
    draft = target.with_name(_DRAFT.format(secrets.token_hex(8)))
    try:
        yield draft
    finally:
        with contextlib.suppress(OSError):
            draft.unlink()


def _keep(target: Path) -> None:
    """The file at ``target`` also as ``NAME.bak``: by a second name for it, else by a copy.

    The temporary name goes even after a rename that did nothing, which is what POSIX asks for
    when both names already mean the same file.
    """
    with _temporary(target) as spare:
        try:
            os.link(target, spare)
        except OSError:
            shutil.copy2(target, spare)
            with spare.open("rb+") as file:
                os.fsync(file.fileno())
        _rename(spare, target.with_name(f"{target.name}.bak"))


def _rename(draft: Path, target: Path) -> None:
    """Renames in one step. On Windows whoever reads the target (a virus scanner) may hold it for a moment."""
    for patience in (0.05, 0.05, 0.05, 0.05, None):
        try:
            draft.replace(target)
        except PermissionError:
            if os.name != "nt" or patience is None:
                raise
            time.sleep(patience)
        else:
            return


def _sweep(folder: Path) -> None:
    """Removes what a save killed long ago left behind; a young draft may belong to a save under way."""
    with contextlib.suppress(OSError):
        for draft in folder.glob(_DRAFT.format("*")):
            if time.time() - draft.stat().st_mtime > _FORGOTTEN_S:
                draft.unlink()


def _force_folder(folder: Path) -> None:
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        # Some network file systems cannot do this to a folder; the file itself is safe by then.
        if error.errno not in (errno.EINVAL, errno.ENOTSUP, errno.EBADF):
            raise
    finally:
        os.close(handle)
