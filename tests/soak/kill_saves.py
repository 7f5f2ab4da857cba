"""Kills saves in the middle and looks at what is left: python -m tests.soak.kill_saves [COUNT] [SEED]

Each round saves another project over the one there, in a child that kills itself (SIGKILL, nothing
is cleaned up) either after a random number of bytes or before a random step of the file system:
making, forcing, linking, renaming. Afterwards the file must be the old project or the new one,
whole, the copy beside it a whole project, and the next save must go through.
"""

import os
import random
import signal
import sys
import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

from composer.model import Project
from composer.projectfile import store
from composer.projectfile.schema import encode
from tests.projectfile import projects

STEPS = 14
"""Steps of the file system tried as places to die; a save has fewer, so that some saves end well."""


def main(count: int, seed: int) -> int:
    """Runs the rounds; 0 when every one left a whole project."""
    chance = random.Random(seed)
    seen: Counter[tuple[str, str]] = Counter()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "wall.json"
        old = projects.plain(pieces=60, title="round 0")
        store.save(path, old)
        for number in range(1, count + 1):
            new = projects.plain(pieces=chance.randint(1, 120), title=f"round {number}")
            size = len(encode(new))
            after = chance.randrange(size) if number % 3 else None
            killed = _save_and_die(path, new, after, chance.randrange(STEPS))
            found = store.load(path).project
            if found not in (old, new):
                print(f"round {number}: the file is neither the old project nor the new one")
                return 1
            backup = path.with_name("wall.json.bak")
            if backup.exists():
                store.load(backup)
            seen["killed" if killed else "ended well", "new" if found == new else "old"] += 1
            old = found
        store.save(path, old)
        left = list(Path(folder).glob(".*.tmp"))
        print(
            f"{count} saves, seed {seed}:",
            ", ".join(f"{' and '.join(what)} {times}" for what, times in sorted(seen.items())),
        )
        print(f"unfinished files of killed saves left beside it: {len(left)}")
    kinds = {what[0] for what in seen}
    if count >= 30 and (kinds != {"killed", "ended well"} or len(seen) < 3):
        print("the rounds did not reach before, within and after the change of files")
        return 1
    return 0


def _save_and_die(path: Path, project: Project, after_bytes: int | None, before_step: int) -> bool:
    """Saves in a child; whether it was killed."""
    child = os.fork()
    if child == 0:
        code = 1
        try:
            if after_bytes is not None:
                _die_after(after_bytes)
            else:
                _die_before(before_step)
            store.save(path, project)
            code = 0
        finally:
            os._exit(code)
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        if os.WTERMSIG(status) != signal.SIGKILL:
            raise AssertionError(f"the child died of signal {os.WTERMSIG(status)}")
        return True
    if os.WEXITSTATUS(status) != 0:
        raise AssertionError("the save failed of itself")
    return False


def _die() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def _die_after(count: int) -> None:
    """From now on the process dies when it has written ``count`` bytes to a new file."""
    usual = Path.open

    def opened(self: Path, mode: str = "r", *arguments: Any, **options: Any) -> Any:
        file = usual(self, mode, *arguments, **options)
        if mode != "xb":
            return file

        def write(data: bytes) -> None:
            os.write(file.fileno(), data[:count])
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
    """From now on the process dies before its next-but-``step`` call that touches the file system."""
    left = [step]

    def watch(event: str, _: tuple[Any, ...]) -> None:
        if event in {"open", "os.chmod", "os.link", "os.rename", "os.remove"}:
            if left[0] == 0:
                _die()
            left[0] -= 1

    sys.addaudithook(watch)
    usual = os.fsync

    def fsync(fd: Any) -> None:
        sys.audit("os.rename", "fsync")
        usual(fd)

    os.fsync = fsync


if __name__ == "__main__":
    numbers = [int(argument) for argument in sys.argv[1:]]
    sys.exit(main(*(numbers + [500, 1][len(numbers) :])))
