"""One program at a time works on a project: a lock that names its holder.

The operating system's own lock on ``.NAME.lock`` beside the project decides, so that a killed program
leaves nothing to clean up; who holds it stands inside as JSON, for the sentence the refused one says.
"""

import contextlib
import json
import os
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self

from composer.projectfile.errors import Locked, cannot_write
from composer.texts import say

if TYPE_CHECKING:
    from filelock import BaseFileLock


class ProjectLock:
    """The lock of one project file; use as a context manager or with :meth:`acquire`, :meth:`release`."""

    def __init__(self, path: str | os.PathLike[str]) -> None:
        self.path = Path(path)
        target = Path(os.path.realpath(self.path))
        self.lock_path = target.with_name(f".{target.name}.lock")
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
        holder = self.holder()  # before trying: older versions of the library empty the file when refused
        for _ in range(3):
            lock = FileLock(self.lock_path, timeout=0, thread_local=False)
            try:
                lock.acquire()
            except Timeout:
                raise Locked(self._refusal(holder or self.holder())) from None
            except OSError as error:
                raise cannot_write(self.path, error) from None
            if self._sign():
                self._lock = lock
                return
            lock.release()
        raise Locked(self._refusal({}))

    def release(self) -> None:
        """Gives the lock back and removes its file; harmless when it is not held."""
        if self._lock is None:
            return
        lock, self._lock = self._lock, None
        if os.name != "nt":
            # While it is still ours, so that nobody's fresh lock file is removed.
            with contextlib.suppress(OSError):
                self.lock_path.unlink()
        lock.release()
        if os.name == "nt":
            with contextlib.suppress(OSError):
                self.lock_path.unlink()

    def holder(self) -> dict[str, str]:
        """Who wrote the lock file, as far as it can be read: program, host, user, pid, since."""
        try:
            found = json.loads(self.lock_path.read_text(encoding="utf-8")[:2000])
        except (OSError, ValueError, RecursionError):
            return {}
        return {str(name): str(value)[:80] for name, value in found.items()} if isinstance(found, dict) else {}

    def _sign(self) -> bool:
        """Writes who holds it; False when the file just locked has been removed by its last holder."""
        import getpass
        import platform

        user = ""
        with contextlib.suppress(Exception):  # no account of that number, no environment: any kind of error
            user = getpass.getuser()
        signature = {
            "program": "Wallwright",
            "host": platform.node(),
            "user": user,
            "pid": os.getpid(),
            "since": datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
        }
        try:
            with self.lock_path.open("r+", encoding="utf-8") as file:
                file.truncate()
                json.dump(signature, file)
        except FileNotFoundError:
            return False
        except OSError:
            # On Windows a locked file cannot be written through another handle: held, but nameless.
            return True
        return True

    def _refusal(self, holder: dict[str, str]) -> str:
        if "pid" not in holder:
            return say("“{path}” is open in another program. Close it there first.", path=self.path)
        return say(
            "“{path}” is open in {program} (process {pid} on {host}, since {since}). Close it there first.",
            path=self.path,
            program=holder.get("program", "another program"),
            pid=holder["pid"],
            host=holder.get("host", "?"),
            since=holder.get("since", "?"),
        )

    def __enter__(self) -> Self:
        self.acquire()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.release()
