"""What the benchmarks share: a ratio with its bar, a window to measure, the table that is printed.

Only ratios are judged, since seconds say more about the machine than about the program. A ratio is
the best of its runs: what disturbs a run can only make it slower.
"""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication

    from composer.desktop.main_window import MainWindow
    from composer.model import Project

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
_SCRATCH = tempfile.TemporaryDirectory(prefix="wallwright-benchmarks-")


class Row(NamedTuple):
    """One line of the table.

    Attributes:
        what: what was compared with what.
        ratio: the best measured.
        bar: what it must not exceed.
        note: a remark, such as the times the ratio was made of.
    """

    what: str
    ratio: float
    bar: float
    note: str = ""

    @property
    def holds(self) -> bool:
        """Whether the bar is kept."""
        return self.ratio <= self.bar


def bench_application() -> QApplication:
    """The application, light, with its own type, as the program makes it."""
    from PySide6.QtWidgets import QApplication

    from composer.desktop.application import prepare
    from composer.desktop.settings import Settings

    found = QApplication.instance()
    if isinstance(found, QApplication):
        return found
    made = QApplication(["wallwright"])
    prepare(made, Settings(Path(_SCRATCH.name) / "settings")).choose("light")
    return made


def bench_window(project: Project, size: tuple[int, int]) -> MainWindow:
    """The program's window on a project, shown and painted."""
    from composer.desktop.main_window import MainWindow
    from composer.desktop.settings import Settings

    window = MainWindow(Settings(Path(_SCRATCH.name) / "settings"), project)
    window.resize(*size)
    window.show()
    settle()
    return window


def settle() -> None:
    """Lets everything be laid out and painted."""
    from PySide6.QtTest import QTest

    QTest.qWait(60)


def print_table(rows: list[Row]) -> bool:
    """Prints the rows; says whether every bar is kept."""
    width = max((len(row.what) for row in rows), default=10)
    for row in rows:
        mark = "ok " if row.holds else "NOT"
        sys.stdout.write(
            f"{mark}  {row.what:<{width}}  {row.ratio:8.3f}  (bar {row.bar:g})  {row.note}".rstrip() + "\n"
        )
    return all(row.holds for row in rows)
