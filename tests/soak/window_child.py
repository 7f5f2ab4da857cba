"""Drives the window in a process of its own, for the soak: opens and closes it, or edits and undoes in it.

python -m tests.soak.window_child close FILE
python -m tests.soak.window_child edit FILE TIMES      prints objects before, after, kilobytes grown, same|other
"""

import gc
import sys
from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication

from composer.desktop import application as running
from composer.desktop.main_window import MainWindow
from composer.desktop.settings import Settings

SHOWN_MS = 1500


def close(file: str) -> int:
    """Starts the program as a person does and closes its window a moment later."""
    from composer.__main__ import main

    usual = running.open_window

    def opened(application: QApplication, file: str | None) -> int:
        QTimer.singleShot(SHOWN_MS, _close_window)
        return usual(application, file)

    running.open_window = opened
    return main([file])


def _close_window() -> None:
    for widget in QApplication.topLevelWidgets():
        if isinstance(widget, MainWindow):
            widget.close()


def edit(file: str, times: int) -> int:
    """Moves pieces about and undoes it all; what is left of it in memory."""
    from composer.editing.placing import move
    from composer.projectfile import store

    application = QApplication(["wallwright"])
    settings = Settings(Path("settings"))
    running.prepare(application, settings)
    window = MainWindow(settings, store.load(file).project, Path(file))
    window.show()
    first = window.opened.project
    keys = [placement.piece for placement in first.arrangement.placements]

    def turn(count: int) -> None:
        for number in range(count):
            window.opened.apply(move(window.opened.project, [keys[number % len(keys)]], 10.0, 0.0))
            application.processEvents()
        for _ in range(count):
            window.opened.stack.undo()
            application.processEvents()
        window.opened.stack.clear()

    turn(50)
    window.pictures.wait()  # what is loaded on first need is loaded by now
    turn(max(times // 10, 100))
    before, size = _living(), _size_kb()
    turn(times)
    after = _living()
    print(before, after, _size_kb() - size, "same" if window.opened.project == first else "other")
    window.recovery.discard()
    window.close()
    return 0


def _living() -> int:
    gc.collect()
    return len(gc.get_objects())


def _size_kb() -> int:
    """Memory held by this process now, kB (Linux, proc(5)); 0 elsewhere."""
    status = Path("/proc/self/status")
    if not status.exists():
        return 0
    return next(int(line.split()[1]) for line in status.read_text().splitlines() if line.startswith("VmRSS"))


if __name__ == "__main__":
    what, *rest = sys.argv[1:]
    sys.exit(close(rest[0]) if what == "close" else edit(rest[0], int(rest[1])))
