"""One program at a time works on a project: a lock that names its holder.

The operating system's own lock on ``.NAME.wallwright.lock`` beside the project decides, so that it
ends with the process however that ends. That file is empty and stays: removing it would let two
programs hold two files of one name. Who holds it stands in a second file, because on some systems
a locked file cannot be read by others.
"""

import contextlib
import json
import os
import time
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self

from composer import __version__
from composer.projectfile.errors import CannotWrite, Locked, cannot_write
from composer.projectfile.store import write_atomic

if TYPE_CHECKING:
    from filelock import BaseFileLock


class ProjectLock:
    """The lock of one project file; use as a context manager or with :meth:`acquire`, :meth:`release`.

    Links are followed first, so that two names of one file share one lock.
    """

    def __init__(self, path: str | os.PathLike[str]) -> None:
        self.path = Path(path)
        target = Path(os.path.realpath(self.path))
        self.lock_path = target.with_name(f".{target.name}.lock")
        self.holder_path = target.with_name(f".{target.name}.holder")
        self._lock: BaseFileLock | None = None

    @property
    def held(self) -> bool:
        """Whether this object holds the lock."""
        return self._lock is not None

    def acquire(self) -> None:
        """Takes the lock at once or not at all.

        Raises:
            Locked: naming the holder.
            CannotWrite: when no lock can be made in that folder.
        """
        # Imported when the first project is opened: 31 ms that no start should pay.
        from filelock import FileLock, Timeout

        if self._lock is not None:
            return
        if not self.lock_path.parent.is_dir():
            # The library would make the folder, and each mistyped path would leave some about.
            raise cannot_write(self.path, FileNotFoundError())
        lock = FileLock(self.lock_path, timeout=0, thread_local=False)
        try:
            self._take(lock, Timeout)
        except OSError as error:
            raise cannot_write(self.path, error) from None
        self._lock = lock
        with contextlib.suppress(CannotWrite):
            write_atomic(self.holder_path, json.dumps(_about_us(), indent=2).encode() + b"\n")

    def release(self) -> None:
        """Gives the lock back; harmless when it is not held."""
        lock, self._lock = self._lock, None
        if lock is None:
            return
        with contextlib.suppress(OSError):
            self.holder_path.unlink()
        lock.release()

    def holder(self) -> dict[str, str]:
        """Who holds it, as far as it can be read: program, host, user, pid, since."""
        try:
            found = json.loads(self.holder_path.read_text(encoding="utf-8")[:2000])
        except (OSError, ValueError, RecursionError):
            return {}
        return {str(name): str(value)[:80] for name, value in found.items()} if isinstance(found, dict) else {}

    def _take(self, lock: "BaseFileLock", taken: type[Exception]) -> None:
        """Takes the lock, or is told who has it.

        A lock without a name is just being taken or given back, and is tried again for a moment.
        """
        for patience in (*[0.02] * 10, None):
            try:
                lock.acquire()
            except taken:
                holder = self.holder()
                if holder or patience is None:
                    raise Locked(str(self.path), holder) from None
                time.sleep(patience)
            else:
                return

    def __enter__(self) -> Self:
        self.acquire()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.release()


def _about_us() -> dict[str, object]:
    import getpass
    import platform

    user = ""
    with contextlib.suppress(Exception):  # no account of that number, no environment: any kind of error
        user = getpass.getuser()
    return {
        "program": f"Wallwright {__version__}",
        "host": platform.node(),
        "user": user,
        "pid": os.getpid(),
        "since": datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
    }
