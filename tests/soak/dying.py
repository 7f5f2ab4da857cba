"""Lets a child of this process do some work and die in the middle of it, of SIGKILL: nothing is cleaned up.

It dies either after a random number of bytes written to a new file, or before a random step of the file
system: making, forcing, linking, renaming.
"""

import os
import random
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

STEPS = 14
"""Steps of the file system tried as places to die; a save has fewer, so that some end well."""


def dies(work: Callable[[], object], chance: random.Random, size: int, *, by_step: bool, steps: int = STEPS) -> bool:
    """Does the work in a child that dies at a place found by chance; whether it was killed before the end.

    Args:
        work: what the child does; it must not fail of itself.
        chance: where the place comes from.
        size: bytes the work is expected to write to one file.
        by_step: die before a step of the file system instead of after a number of bytes.
        steps: how many of them are tried; more than there are, so that some work ends well.
    """
    after, step = chance.randrange(max(size, 1)), chance.randrange(steps)
    child = os.fork()
    if child == 0:
        code = 1
        try:
            if by_step:
                _die_before(step)
            else:
                _die_after(after)
            work()
            code = 0
        finally:
            os._exit(code)
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        if os.WTERMSIG(status) != signal.SIGKILL:
            raise AssertionError(f"the child died of signal {os.WTERMSIG(status)}")
        return True
    if os.WEXITSTATUS(status) != 0:
        raise AssertionError("the work failed of itself")
    return False


def _die() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def _die_after(count: int) -> None:
    """From now on the process dies when it has written ``count`` bytes to a new file, if it writes as many."""
    usual = Path.open
    left = [count]

    def opened(self: Path, mode: str = "r", *arguments: Any, **options: Any) -> Any:
        file = usual(self, mode, *arguments, **options)
        if mode != "xb":
            return file

        def write(data: bytes) -> Any:
            if len(data) <= left[0]:
                left[0] -= len(data)
                return file.write(data)
            file.flush()
            os.write(file.fileno(), data[: left[0]])
            _die()

        return _Replaced(file, write)

    Path.open = opened  # type: ignore[method-assign]


class _Replaced:
    """A file that writes in another way."""

    def __init__(self, file: Any, write: Any) -> None:
        self._file, self.write = file, write

    def __getattr__(self, name: str) -> Any:
        return getattr(self._file, name)

    def __enter__(self) -> "_Replaced":
        return self

    def __exit__(self, *_: object) -> None:
        self._file.close()


def _die_before(step: int) -> None:
    """From now on the process dies before its next-but-``step`` call that changes the file system."""
    left = [step]

    def watch(event: str, arguments: tuple[Any, ...]) -> None:
        if event in {"os.chmod", "os.link", "os.rename", "os.remove"} or (
            event == "open" and arguments[1] is not None and set(str(arguments[1])) & set("xwa+")
        ):
            if left[0] == 0:
                _die()
            left[0] -= 1

    sys.addaudithook(watch)
    usual = os.fsync

    def fsync(fd: Any) -> None:
        sys.audit("os.rename", "fsync")
        usual(fd)

    os.fsync = fsync
