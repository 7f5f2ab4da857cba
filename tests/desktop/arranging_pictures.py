"""Pictures of arranging: sketches with a preview, truing up with its arrows, two arrangements side by side."""

from __future__ import annotations

from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from composer.desktop.main_window import MainWindow
from composer.editing.placing import Spot, put

WATCHDOG_MS = 60_000
STEP_MS = 20


def look(window: MainWindow) -> None:
    """Sketches, until the search has ended."""
    window.arranging.arrange()
    search = window.arranging.sketching.search
    for _ in range(WATCHDOG_MS // STEP_MS):
        if not search.searching:
            break
        QTest.qWait(STEP_MS)
    QApplication.processEvents()


def preview(window: MainWindow) -> None:
    """The second sketch on the wall."""
    look(window)
    window.arranging.sketching.strip.cells[1].setFocus()
    QTest.qWait(STEP_MS)


def hang_first(window: MainWindow) -> None:
    """The first sketch hangs, the strip is closed."""
    look(window)
    window.arranging.sketching.take(window.arranging.sketching.strip.cells[0])
    window.arranging.sketching.close()


def trued(window: MainWindow) -> None:
    """Four pieces a little off, and what truing up would move."""
    hang_first(window)
    for number, dx, dy in ((2, 4, -3), (4, -2, 5), (5, 3, 3), (7, -6, -4)):
        project = window.opened.project
        placed = project.placement_by_piece[project.piece_by_number[number].key]
        window.opened.apply(put(project, {placed.piece: Spot(placed.wall, placed.left + dx, placed.bottom + dy)}))
    window.arranging.true_up()
    QTest.qWait(120)


def compared(window: MainWindow) -> QWidget:
    """The arrangement of the sample beside a copy that hangs another way."""
    window.arranging.duplicate_arrangement()
    hang_first(window)
    window.arranging.compare_arrangements()
    shown = window.arranging.compared
    assert shown is not None
    return shown
