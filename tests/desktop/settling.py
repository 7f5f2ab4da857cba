"""Waiting until a window has done what it still had to do: a picture taken earlier is one of a moment nobody sees."""

from __future__ import annotations

from time import monotonic

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from composer.desktop.main_window import MainWindow

SOON_MS = 500
"""A timer that fires once and sooner than this belongs to what is going on, not to what a person may do next."""
QUIET_ROUNDS = 3
PATIENCE_S = 20.0


class _Restless(QObject):
    """Counts what shows that a window is still at work: whatever is painted in it asks the window itself first."""

    def __init__(self) -> None:
        super().__init__()
        self.seen = 0

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 (Qt's name)
        if event.type() in {QEvent.Type.UpdateRequest, QEvent.Type.LayoutRequest}:
            self.seen += 1
        return False


def settle(window: QWidget) -> None:
    """Until timers that fire soon have fired, workers are idle, and nothing is laid out or painted any more.

    Raises:
        AssertionError: it is still at work after a time at least twenty times the usual.
    """
    owner = window.parent() if not isinstance(window, MainWindow) else window
    main = owner if isinstance(owner, MainWindow) else None
    restless = _Restless()
    window.installEventFilter(restless)
    try:
        end, quiet = monotonic() + PATIENCE_S, 0
        while quiet < QUIET_ROUNDS:
            assert monotonic() < end, "the window does not come to rest"
            if main is not None and main.isVisible():
                main.pictures.wait()
            before = restless.seen
            QTest.qWait(2)
            waiting = any(_fires_soon(timer) for timer in (main or window).findChildren(QTimer))
            up = main is None or not main.isVisible() or main.is_up
            quiet = quiet + 1 if up and not waiting and restless.seen == before else 0
    finally:
        window.removeEventFilter(restless)


def _fires_soon(timer: QTimer) -> bool:
    return timer.isActive() and timer.isSingleShot() and timer.interval() <= SOON_MS
