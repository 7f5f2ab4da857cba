"""What the program leaves alone: the network, and files that are none of its business."""

import contextlib
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from tests.soak.disks import SAMPLE, LeftOut, writing_calls
from tests.soak.hindrance import Broken, Program

WINDOW = {"QT_QPA_PLATFORM": "offscreen", "WALLWRIGHT_WINDOW": "1"}


@contextlib.contextmanager
def home(name: str) -> Iterator[tuple[Path, dict[str, str]]]:
    """A person's folder with a project in it, and the variables that point into it."""
    folder = Path(os.environ["WALLWRIGHT_SOAK_FOLDER"]) / name
    folder.mkdir()
    (folder / "wall.wallwright").write_bytes(SAMPLE.read_bytes())
    names = {
        "HOME": "home",
        "XDG_CACHE_HOME": "home/cache",
        "XDG_CONFIG_HOME": "home/settings",
        "XDG_DATA_HOME": "home/data",
        "XDG_STATE_HOME": "home/state",
        "XDG_RUNTIME_DIR": "home/run",
        "TMPDIR": "home/tmp",
    }
    for place in names.values():
        (folder / place).mkdir(parents=True, exist_ok=True)
    (folder / "home/run").chmod(0o700)
    try:
        yield folder, {name: str(folder / place) for name, place in names.items()}
    finally:
        shutil.rmtree(folder)


def no_network(tries: int) -> str:
    """In a namespace without interfaces every call does its work, and the window opens and closes."""
    if shutil.which("unshare") is None or subprocess.run(["unshare", "-rn", "true"], check=False).returncode:
        raise LeftOut("this system makes no namespace without a network")
    with home("network") as (folder, homes):
        program = Program(prefix=["unshare", "-rn"], folder=folder, environment=homes)
        for number in range(tries):
            for words in writing_calls(folder / "wall.wallwright"):
                (folder / "new.wallwright").unlink(missing_ok=True)
                program.call(*words).done()
            if number == 0:
                program.call("wall.wallwright").done()
                closed_window(Program(prefix=["unshare", "-rn"], folder=folder, environment=homes | WINDOW))
    return ""


def no_socket(tries: int) -> str:
    """The system is asked for no connection but to a screen and its services (sockets of the machine itself)."""
    calls = _traced(tries, "network")
    for line in calls:
        found = re.search(r"\b(connect|sendto|bind|listen)\(.*(AF_INET6?)", line)
        if found or re.search(r"\bsocket\(AF_INET6?", line):
            raise Broken(line[:160])
    return ""


def no_file_outside(tries: int) -> str:
    """Nothing is made, changed or removed but in the project's folder, cache, settings and target."""
    changing = re.compile(
        r"(?:\bopen(?:at)?\([^\"]*\"(?P<opened>[^\"]*)\", [^)]*O_(?:WRONLY|RDWR|CREAT)"
        r"|\b(?:mkdir|mkdirat|unlink|unlinkat|rename|renameat2?|link|linkat|symlink|symlinkat|chmod|fchmodat|truncate)"
        r"\((?P<changed>.*))"
    )
    strangers = set()
    for line in _traced(tries, "%file"):
        if " = -1 " in line or not (found := changing.search(line)):
            continue
        names = [found["opened"]] if found["opened"] else re.findall(r"\"([^\"]*)\"", found["changed"])
        strangers |= {name for name in names if name.startswith("/") and not _ours(name)}
    if strangers:
        raise Broken(", ".join(sorted(strangers)[:6]))
    return ""


def _ours(name: str) -> bool:
    """Below the scratch folder; devices and shared memory are no files, nor is what Python caches of its modules."""
    return name.startswith((os.environ["WALLWRIGHT_SOAK_FOLDER"], "/dev/", "/proc/self/", "/memfd:"))


def _traced(tries: int, what: str) -> list[str]:
    if shutil.which("strace") is None:
        raise LeftOut("there is no strace here")
    lines: list[str] = []
    with home("traced") as (folder, homes):
        log = folder / "trace.txt"
        prefix = ["strace", "-f", "-qq", "-s", "300", "-e", f"trace={what}", "-o", str(log)]
        program = Program(prefix=prefix, folder=folder, environment=homes)
        for _ in range(tries):
            for words in writing_calls(folder / "wall.wallwright"):
                (folder / "new.wallwright").unlink(missing_ok=True)
                program.call(*words).done()
                lines += log.read_text(errors="replace").splitlines()
        program.call("wall.wallwright").done()
        lines += log.read_text(errors="replace").splitlines()
        closed_window(Program(prefix=prefix, folder=folder, environment=homes | WINDOW))
        lines += log.read_text(errors="replace").splitlines()
    return lines


def closed_window(program: Program) -> None:
    """Opens the window where nobody sees it and closes it again: exit code 0, nothing said."""
    done = subprocess.run(
        [*program.prefix, sys.executable, "-m", "tests.soak.window_child", "close", "wall.wallwright"],
        cwd=program.folder,
        env=program.variables(),
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    if done.returncode or done.stdout or "Traceback" in done.stderr:
        raise Broken(f"the window: exit {done.returncode}, said {(done.stdout + done.stderr)[-300:]!r}")
