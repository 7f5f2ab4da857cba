"""What a screen reader finds in the running window, asked over AT-SPI from another process, as a reader asks.

python tests/at_spi.py          starts the window on the sample wall under Xvfb and a session bus of its own

Needs Linux with Xvfb, dbus-run-session, at-spi2-core and Python's gi with Atspi (Debian: xvfb dbus at-spi2-core
python3-gi gir1.2-atspi-2.0); says so and ends with 77 where they are missing. The same names are checked
in process, without any of these, by tests/desktop/test_accessibility.py.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
SAMPLE = ROOT / "samples" / "sofa-wall.wallwright"
EXPECTED = (
    "1 Low tide, 1 094 from the left, 1 343 from the floor",
    "6 Stairwell, ",
    "8 Grandmother's sampler, on the floor",
    "Note: Nobody has noted yet how piece 8 hangs.",
    "sofa, ",
    "light switch, ",
)
"""What must be found: pieces on the wall and on the floor, a finding, an obstacle before and one on the wall."""
MISSING = 77


def main() -> int:
    """Starts everything in one session bus and asks."""
    gi_python = _python_with_gi()
    tools = [name for name in ("Xvfb", "dbus-run-session") if shutil.which(name) is None]
    if tools or gi_python is None:
        print("Not asked: " + ", ".join([*tools, *(["gi with Atspi"] if gi_python is None else [])]) + " missing.")
        return MISSING
    if "--inside" not in sys.argv:
        command = ["dbus-run-session", "--", sys.executable, __file__, "--inside"]
        return subprocess.call(command, timeout=120)
    with tempfile.TemporaryDirectory() as scratch:
        readable, writable = os.pipe()
        screen = subprocess.Popen(
            ["Xvfb", "-displayfd", str(writable), "-screen", "0", "1440x900x24", "-nolisten", "tcp"],
            stderr=subprocess.DEVNULL,
            pass_fds=(writable,),
        )
        os.close(writable)
        with os.fdopen(readable) as told:
            display = f":{told.readline().strip()}"
        environment = {
            **os.environ,
            "DISPLAY": display,
            "QT_QPA_PLATFORM": "xcb",
            "QT_LINUX_ACCESSIBILITY_ALWAYS_ON": "1",
            "PYTHONPATH": str(ROOT),
            **dict.fromkeys(("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME"), scratch),
        }
        window = subprocess.Popen([sys.executable, "-m", "composer", str(SAMPLE)], env=environment, cwd=ROOT)
        try:
            time.sleep(3)
            answer = subprocess.run(
                [gi_python, __file__, "--ask"], env=environment, capture_output=True, text=True, timeout=90, check=False
            )
        finally:
            window.terminate()
            window.wait(20)
            screen.terminate()
            screen.wait(20)
    names = [" ".join(line.split()) for line in answer.stdout.splitlines()]
    absent = [name for name in EXPECTED if not any(name in found for found in names)]
    if absent:
        print(answer.stdout[-4000:], answer.stderr[-2000:], "Not found over AT-SPI: " + "; ".join(absent), sep="\n")
        return 1
    print(f"Found over AT-SPI: {len(EXPECTED)} of {len(EXPECTED)} things, {len(names)} names in all.")
    return 0


def _python_with_gi() -> str | None:
    """A Python that has gi; the one of the environment seldom has."""
    ask = "import gi; gi.require_version('Atspi', '2.0'); from gi.repository import Atspi"
    for name in (sys.executable, "/usr/bin/python3"):
        found = shutil.which(name)
        if found is not None and subprocess.run([found, "-c", ask], capture_output=True, check=False).returncode == 0:
            return found
    return None


def ask() -> None:
    """Prints the names of everything below the program, as the bus gives them."""
    import gi  # type: ignore[import-not-found]

    gi.require_version("Atspi", "2.0")
    from gi.repository import Atspi  # type: ignore[import-not-found]

    for _ in range(20):
        desktop = Atspi.get_desktop(0)
        found = [desktop.get_child_at_index(place) for place in range(desktop.get_child_count())]
        if found:
            break
        time.sleep(0.5)
    for program in found:
        _print_names(program)


def _print_names(thing: Any) -> None:
    if thing is None:
        return
    if name := thing.get_name():
        print(name, "|", thing.get_description())
    for place in range(min(thing.get_child_count(), 500)):
        _print_names(thing.get_child_at_index(place))


if __name__ == "__main__":
    if "--ask" in sys.argv:
        ask()
    else:
        sys.exit(main())
