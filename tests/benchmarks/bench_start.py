"""From the start of the process to the first painted window, against a bare window of the same toolkit.

Both are started by turns, with their modules compiled before; the ratio is that of the two shortest.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from tests.benchmarks.measuring import Row  # noqa: E402

TURNS = 15
HERE = Path(__file__).resolve().parent
SAMPLE = ROOT / "samples" / "sofa-wall.wallwright"


def _seconds(script: str, arguments: list[str], scratch: str) -> float:
    environment = {
        **{name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"},
        "PYTHONPYCACHEPREFIX": str(Path(scratch) / "compiled"),
        "QT_QPA_PLATFORM": "offscreen",
        "WALLWRIGHT_WINDOW": "1",
        "WALLWRIGHT_SETTINGS": scratch,
        "PYTHONPATH": str(ROOT),
        **dict.fromkeys(("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME"), scratch),
    }
    start = time.monotonic_ns()
    told = subprocess.run(
        [sys.executable, str(HERE / script), *arguments], env=environment, capture_output=True, text=True, check=False
    )
    lines = told.stdout.split()
    if not lines:
        raise SystemExit(f"{script} was not painted: {told.stderr[-2000:]}")
    return (int(lines[-1]) - start) / 1e9


def measure() -> list[Row]:
    """The row of this benchmark."""
    ours, bare = [], []
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as scratch:
        for turn in range(TURNS + 1):
            mine = _seconds("our_window.py", [str(SAMPLE)], scratch)
            its = _seconds("bare_window.py", [], scratch)
            if turn > 0:  # the first turn compiles
                ours.append(mine)
                bare.append(its)
    note = f"{min(ours) * 1000:.0f} ms, bare {min(bare) * 1000:.0f} ms"
    return [Row("start to first paint / bare window", min(ours) / min(bare), 1.5, note)]


if __name__ == "__main__":
    from tests.benchmarks.measuring import print_table

    print_table(measure())
