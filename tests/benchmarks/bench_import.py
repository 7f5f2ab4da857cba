"""Fifty pictures of 24 million pixels brought in, against a bare loop of Qt's reader with the same threads.

Bringing in means: head looked into, content known by SHA-256, preview decoded, turned upright, in sRGB,
kept on disk. The bare loop only decodes each file scaled to the same size. Both read files that the
system has in memory. While pictures are brought in, the window repaints its room as fast as it can; the
longest pause between two repaints is compared with the longest of the idle window.
"""

from __future__ import annotations

import io
import sys
import tempfile
import threading
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from time import perf_counter

ROOT = Path(__file__).resolve().parent.parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402
from PIL import Image  # noqa: E402
from PySide6.QtCore import QSize, Qt  # noqa: E402
from PySide6.QtGui import QImageReader  # noqa: E402
from PySide6.QtWidgets import QApplication, QWidget  # noqa: E402

from composer.pictures.bringing_in import bring_in  # noqa: E402
from composer.pictures.previews import Previews  # noqa: E402
from tests.benchmarks.many_pieces import wall_of_pieces  # noqa: E402
from tests.benchmarks.measuring import Row, bench_application, bench_window  # noqa: E402

COUNT, DIFFERENT = 50, 10
PIXELS = (6000, 4000)
SIDE = 512
THREADS = (1, 2)
BAR, PAUSE_BAR = 1.3, 3.0


def measure() -> list[Row]:
    """Ratios of the times, and of the pauses."""
    bench_application()
    with tempfile.TemporaryDirectory(prefix="wallwright-import-") as scratch:
        folder = Path(scratch)
        files = _pictures(folder)
        rows = []
        for threads in THREADS:
            bare, ours = [], []
            for run in range(2):
                bare.append(_seconds_bare(files, threads))
                ours.append(_seconds_ours(files, threads, folder / f"cache-{threads}-{run}"))
            note = f"{min(ours) / COUNT * 1000:.0f} ms a picture, bare {min(bare) / COUNT * 1000:.0f} ms"
            ratio = min(ours) / min(bare)
            rows.append(Row(f"bringing in {COUNT} pictures, threads: {threads} ÷ Qt's reader", ratio, BAR, note))
        rows.append(_pauses(files, folder / "cache-window"))
    return rows


def _pictures(folder: Path) -> list[Path]:
    """JPEGs like photographs: noise at several octaves, quality 90; each file's content is its own."""
    chance = np.random.default_rng(5)
    files = []
    for number in range(DIFFERENT):
        picture = np.zeros((PIXELS[1], PIXELS[0], 3), dtype=np.float32)
        for octave in (40, 160, 640):
            coarse = chance.integers(0, 255, (octave * 2 // 3, octave, 3), dtype=np.uint8)
            picture += np.asarray(Image.fromarray(coarse).resize(PIXELS, Image.Resampling.BICUBIC), dtype=np.float32)
        made = io.BytesIO()
        Image.fromarray((picture / 3).astype(np.uint8)).save(made, "JPEG", quality=90)
        for copy in range(COUNT // DIFFERENT):
            path = folder / f"{number}-{copy}.jpg"
            path.write_bytes(made.getvalue() + bytes([number, copy]))
            files.append(path)
    return files


def _seconds_bare(files: list[Path], threads: int) -> float:
    def read(path: Path) -> None:
        reader = QImageReader(str(path))
        size: QSize = reader.size()
        reader.setScaledSize(size.scaled(SIDE, SIDE, Qt.AspectRatioMode.KeepAspectRatio))
        assert not reader.read().isNull()

    start = perf_counter()
    with ThreadPoolExecutor(threads) as pool:
        list(pool.map(read, files))
    return perf_counter() - start


def _seconds_ours(files: list[Path], threads: int, cache: Path) -> float:
    start = perf_counter()
    found = list(bring_in(files, Previews(cache), SIDE, threads=threads))
    taken = perf_counter() - start
    assert len(found) == COUNT and not any(one.refused for one in found)
    return taken


def _pauses(files: list[Path], cache: Path) -> Row:
    window = bench_window(wall_of_pieces(60), (1440, 900))
    end = perf_counter() + 3.0
    idle = _worst_pause(window, lambda: perf_counter() < end)
    done = threading.Event()

    def work() -> None:
        list(bring_in(files, Previews(cache), SIDE, threads=1))
        done.set()

    worker = threading.Thread(target=work)
    worker.start()
    busy = _worst_pause(window, lambda: not done.is_set())
    worker.join()
    window.close()
    note = f"longest {busy * 1000:.0f} ms, idle {idle * 1000:.0f} ms"
    return Row("longest pause of the room while pictures come ÷ idle", busy / idle, PAUSE_BAR, note)


def _worst_pause(window: QWidget, goes_on: Callable[[], bool]) -> float:
    worst, last = 0.0, perf_counter()
    while goes_on():
        window.repaint()
        QApplication.processEvents()
        now = perf_counter()
        worst, last = max(worst, now - last), now
    return worst
