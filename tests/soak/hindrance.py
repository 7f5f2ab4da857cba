"""Runs calls of the program under a hindrance of the system, and looks at what they said and left."""

import contextlib
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


class Broken(AssertionError):
    """The program did not keep what it promises; the message says what was found."""


@dataclass(frozen=True, slots=True)
class Done:
    """How a call ended."""

    words: tuple[str, ...]
    code: int
    out: str
    err: str

    def refused(self, code: int, *said: str) -> str:
        """Its one line; it must have ended so.

        Raises:
            Broken: another code, several lines, a traceback, an answer beside the refusal.
        """
        line = self.err.removesuffix("\n")
        if self.code != code or self.out or "\n" in line or "Traceback" in line or not line.startswith("wallwright: "):
            raise Broken(f"{' '.join(self.words)}: exit {self.code}, said {self.err!r}, answered {self.out[:60]!r}")
        if said and not any(words in line for words in said):
            raise Broken(f"{' '.join(self.words)}: said {line!r}")
        return line

    def done(self) -> None:
        """It must have done its work.

        Raises:
            Broken: it did not.
        """
        if self.code not in (0, 1) or (self.code == 1 and self.words[0] != "check"):
            raise Broken(f"{' '.join(self.words)}: exit {self.code}, said {self.err!r}")


@dataclass
class Program:
    """The program as calls start it.

    Attributes:
        prefix: command put before it, such as one that takes a privilege away.
        folder: where it is started.
        environment: variables that differ.
    """

    prefix: Sequence[str] = ()
    folder: Path = ROOT
    environment: dict[str, str] = field(default_factory=dict)

    def command(self, *words: object) -> list[str]:
        """The whole command of a call."""
        return [*self.prefix, sys.executable, "-m", "composer", *map(str, words)]

    def variables(self) -> dict[str, str]:
        """Its environment: the checkout, no bytecode written, no screen unless one is given."""
        clean = {name: value for name, value in os.environ.items() if name not in ("DISPLAY", "WAYLAND_DISPLAY")}
        clean |= {"PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1", "WALLWRIGHT_LANGUAGE": "en"}
        clean.pop("QT_QPA_PLATFORM", None)
        return {**clean, **self.environment}

    def call(self, *words: object) -> Done:
        """Runs a call to its end."""
        done = subprocess.run(
            self.command(*words),
            cwd=self.folder,
            env=self.variables(),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=False,
            timeout=300,
        )
        return Done(tuple(map(str, words)), done.returncode, done.stdout, done.stderr)


def contents(folder: Path) -> dict[str, bytes]:
    """Every file in a folder but locks and who holds them."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.endswith((".lock", ".holder"))
    }


def unchanged(folder: Path, before: dict[str, bytes]) -> None:
    """The folder must hold what it held.

    Raises:
        Broken: naming what came, went or changed.
    """
    after = contents(folder)
    if after != before:
        strange = sorted(name for name in {*before, *after} if before.get(name) != after.get(name))
        raise Broken(f"changed: {', '.join(strange)}")


def can_mount() -> bool:
    """Whether this process may mount (it is the superuser in a mount namespace of its own, see run.py)."""
    return os.environ.get("WALLWRIGHT_SOAK_MOUNTS") == "1"


@contextlib.contextmanager
def small_disk(folder: Path, size_kb: int) -> Iterator[Path]:
    """A disk of that size at ``folder``, in memory."""
    folder.mkdir(exist_ok=True)
    subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={size_kb}k", "tmpfs", str(folder)], check=True)
    try:
        yield folder
    finally:
        subprocess.run(["umount", "-l", str(folder)], check=True)


def without_privilege() -> list[str] | None:
    """A command that lets even the superuser meet permissions; [] for ordinary people; None = there is none."""
    if os.name != "posix":
        return None
    if os.geteuid() != 0:
        return []
    if shutil.which("setpriv") is None:
        return None
    lost = "-dac_override,-dac_read_search,-fowner"
    return ["setpriv", f"--bounding-set={lost}", f"--inh-caps={lost}"]
