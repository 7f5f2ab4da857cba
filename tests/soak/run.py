"""Prints the table of faults: what happens to the program, how often it was tried, what a person is told.

python tests/soak/run.py               everything (about 15 minutes on two cores)
python tests/soak/run.py --short       each fault a few times (about two minutes)
python tests/soak/run.py --only NAME   the rows whose name contains that; may be given several times
python tests/soak/run.py --list        their names

0 = every row kept its promise. A fault this machine cannot make is left out and says why.
"""

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

os.environ["WALLWRIGHT_LANGUAGE"] = "en"
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from tests.soak import company, disks, kill_saves, launching, quiet  # noqa: E402
from tests.soak.hindrance import Broken  # noqa: E402


@dataclass(frozen=True, slots=True)
class Fault:
    """One row.

    Attributes:
        name: what happens.
        tries: how often, in full and in short.
        suffer: does it so often; gives a sentence a person was told, or what was seen.
    """

    name: str
    tries: tuple[int, int]
    suffer: Callable[[int], str]


def _kills(work: Callable[[int, int], "kill_saves.Seen"]) -> Callable[[int], str]:
    def suffer(tries: int) -> str:
        seen = work(tries, 1)
        if tries >= 100 and not kill_saves.reached_everything(seen):
            raise Broken(f"the kills did not reach before, within and after the change: {kill_saves.told(seen)}")
        return kill_saves.told(seen)

    return suffer


FAULTS = (
    Fault("killed while saving", (1000, 60), _kills(kill_saves.saves)),
    Fault("killed while writing a PDF and its index", (1000, 30), _kills(kill_saves.papers)),
    Fault("killed while writing a recovery copy", (1000, 30), _kills(kill_saves.recovery_copies)),
    Fault("killed while packing a copy", (1000, 30), _kills(kill_saves.packed_copies)),
    Fault("disk full", (80, 16), disks.full_disk),
    Fault("file may not grow", (40, 8), disks.full_disk_without_mounting),
    Fault("disk read-only", (16, 8), disks.read_only_disk),
    Fault("folder read-only", (16, 8), disks.read_only_folder),
    Fault("file may not be read", (16, 8), disks.unreadable_file),
    Fault("file may not be written", (9, 3), disks.protected_file),
    Fault("folder vanished", (10, 2), disks.vanished_folder),
    Fault("settings, cache, home unwritable", (16, 8), disks.unwritable_settings),
    Fault("clock set back", (10, 2), disks.clock_set_back),
    Fault("two processes on one project", (100, 20), company.two_processes),
    Fault("no network", (3, 1), quiet.no_network),
    Fault("no socket opened", (1, 1), quiet.no_socket),
    Fault("no file outside project, cache, settings, target", (1, 1), quiet.no_file_outside),
    Fault("window opened and closed, nothing left running", (20, 3), launching.launches),
    Fault("window, its settings unwritable", (5, 1), launching.unwritable_settings),
    Fault("one of Qt's system libraries missing", (10, 2), launching.without_library),
    Fault("edits, each undone, leak nothing", (1000, 100), launching.edits_and_undos),
)


def main(words: list[str]) -> int:
    """Runs the chosen rows and prints the table."""
    reader = argparse.ArgumentParser(description="The table of faults.")
    reader.add_argument("--short", action="store_true", help="each fault a few times")
    reader.add_argument("--only", action="append", default=[], metavar="NAME", help="rows whose name contains it")
    reader.add_argument("--list", action="store_true", help="names only")
    chosen = reader.parse_args(words)
    rows = [fault for fault in FAULTS if not chosen.only or any(name in fault.name for name in chosen.only)]
    if chosen.list:
        print(*(fault.name for fault in rows), sep="\n")
        return 0
    _into_own_namespace(words)
    broken = 0
    print(f"{'fault':<50} {'tries':>6} {'s':>6}  outcome")
    with tempfile.TemporaryDirectory(prefix="wallwright-soak-") as scratch:
        os.environ["WALLWRIGHT_SOAK_FOLDER"] = os.path.realpath(scratch)
        for fault in rows:
            broken += not _row(fault, fault.tries[1 if chosen.short else 0], Path(scratch))
    print(f"{len(rows) - broken} of {len(rows)} kept" if rows else "no such row")
    return 1 if broken or not rows else 0


def _row(fault: Fault, tries: int, scratch: Path) -> bool:
    print(f"{fault.name:<50} {tries:>6} ", end="", flush=True)
    start, kept = time.monotonic(), True
    try:
        seen = fault.suffer(tries) or "kept"
    except disks.LeftOut as reason:
        seen = f"left out: {reason}"
    except (Broken, kill_saves.Broken) as found:
        seen, kept = f"BROKEN: {found}", False
    seen = seen.replace(f"{os.path.realpath(scratch)}/", "…/").removeprefix("wallwright: ")
    print(f"{time.monotonic() - start:>6.1f}  {seen}", flush=True)
    return kept


def _into_own_namespace(words: list[str]) -> None:
    """Where Linux allows it, goes on in a namespace in which small disks can be mounted and are gone afterwards."""
    if "WALLWRIGHT_SOAK_MOUNTS" in os.environ or not sys.platform.startswith("linux"):
        return
    for way in (["unshare", "-m"], ["unshare", "-rm"]):
        try:
            tried = subprocess.run([*way, "mount", "-t", "tmpfs", "tmpfs", "/mnt"], capture_output=True, check=False)
        except OSError:
            return
        if tried.returncode == 0:
            os.environ["WALLWRIGHT_SOAK_MOUNTS"] = "1"
            os.execvp(way[0], [*way, sys.executable, __file__, *words])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
