"""The tests of the window in three surroundings, one after the other.

python tests/desktop_runs.py            offscreen, offscreen at twice the size, and under Xvfb with openbox
python tests/desktop_runs.py NAME …     some of them: offscreen, double, screen
python tests/desktop_runs.py … -- …     what stands after -- goes to pytest

Ends with 0 where all that could run passed. Without Xvfb or openbox the third is left out, and said so.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
RUNS = ("offscreen", "double", "screen")
SCREEN = "1920x1200x24"


def run(name: str, more: Sequence[str]) -> int | None:
    """The exit code of pytest in one of the surroundings; None where it cannot be had."""
    environment = {key: value for key, value in os.environ.items() if key not in {"DISPLAY", "WAYLAND_DISPLAY"}}
    environment["QT_QPA_PLATFORM"] = "offscreen"
    command = [sys.executable, "-m", "pytest", "-q", "-n", "0", "tests/desktop", *more]
    if name == "offscreen":
        return subprocess.call(command, cwd=ROOT, env=environment)
    if name == "double":
        return subprocess.call(command, cwd=ROOT, env={**environment, "QT_SCALE_FACTOR": "2"})
    missing = [tool for tool in ("Xvfb", "openbox") if shutil.which(tool) is None]
    if missing:
        print(f"Left out: {' and '.join(missing)} missing.")
        return None
    with screen() as display:
        environment |= {"QT_QPA_PLATFORM": "xcb", "DISPLAY": display, "QT_SCALE_FACTOR": "1"}
        return subprocess.call(command, cwd=ROOT, env=environment)


@contextmanager
def screen() -> Iterator[str]:
    """A screen of its own with a window manager, for as long as the block runs."""
    readable, writable = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writable), "-screen", "0", SCREEN, "-nolisten", "tcp"],
        stderr=subprocess.DEVNULL,
        pass_fds=(writable,),
    )
    os.close(writable)
    manager = None
    try:
        with os.fdopen(readable) as told:
            display = f":{told.readline().strip()}"  # written once the server answers
        manager = subprocess.Popen(["openbox"], env={**os.environ, "DISPLAY": display}, stderr=subprocess.DEVNULL)
        time.sleep(0.5)
        yield display
    finally:
        for process in (manager, server):
            if process is not None:
                process.terminate()
                process.wait(20)


def main(arguments: list[str]) -> int:
    """All that is asked for."""
    more = arguments[arguments.index("--") + 1 :] if "--" in arguments else []
    wanted = arguments[: arguments.index("--")] if "--" in arguments else arguments
    if unknown := set(wanted) - set(RUNS):
        print(f"There is no run {sorted(unknown)[0]!r}; there are {', '.join(RUNS)}.")
        return 2
    codes: dict[str, int | None] = {}
    for name in wanted or RUNS:
        print(f"— {name}", flush=True)
        codes[name] = run(name, more)
    for name, code in codes.items():
        print(f"{name}: {'left out' if code is None else 'passed' if code == 0 else f'failed ({code})'}")
    return 1 if any(codes.values()) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
