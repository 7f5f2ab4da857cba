"""Work away from the window's thread: of each kind only the latest wish is answered.

A thread of its own rather than Qt's pool: nothing waits for a long sum when the window closes, its
answer is simply no longer wanted.
"""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable

from PySide6.QtCore import QDeadlineTimer, QObject, QThread, Signal
from PySide6.QtWidgets import QApplication

Work = Callable[[], object]


class LatestJob(QObject):
    """One thread that answers one wish after the other, the kinds in the order in which they were asked.

    Signals:
        answered: kind and answer; None where the work broke down, which is logged.
    """

    answered = Signal(str, object)
    _arrived = Signal(str, int, object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._changed = threading.Condition()
        self._waiting: dict[str, tuple[int, Work]] = {}
        self._generation: dict[str, int] = {}
        self._running = ""
        self._stopped = False
        self._thread: threading.Thread | None = None
        self._arrived.connect(self._on_arrived)

    def ask(self, kind: str, work: Work) -> None:
        """Does this; what was asked of the same kind before is no longer wanted."""
        with self._changed:
            mine = self._generation[kind] = self._generation.get(kind, 0) + 1
            self._waiting.pop(kind, None)
            self._waiting[kind] = (mine, work)
            if self._thread is None and not self._stopped:
                self._thread = threading.Thread(target=self._run, name="reckoning", daemon=True)
                self._thread.start()
            self._changed.notify_all()

    def forget(self, kind: str) -> None:
        """What was asked of a kind is no longer wanted."""
        with self._changed:
            self._generation[kind] = self._generation.get(kind, 0) + 1
            self._waiting.pop(kind, None)

    @property
    def is_busy(self) -> bool:
        """Whether something runs or waits."""
        with self._changed:
            return bool(self._running or self._waiting)

    def stop(self) -> None:
        """For good; whatever runs now is never heard of."""
        with self._changed:
            self._stopped = True
            self._waiting.clear()
            self._changed.notify_all()

    def wait(self, most_ms: int = 30_000) -> None:
        """Until everything asked for is answered."""
        until = QDeadlineTimer(most_ms)
        while self.is_busy and not until.hasExpired():
            QThread.msleep(5)
        QApplication.processEvents()

    def _run(self) -> None:
        while True:
            with self._changed:
                self._running = ""
                while not self._waiting and not self._stopped:
                    self._changed.wait()
                if self._stopped:
                    return
                kind = next(iter(self._waiting))
                mine, work = self._waiting.pop(kind)
                self._running = kind
            answer: object = None
            try:
                answer = work()
            except Exception:
                logging.getLogger(__name__).exception("working on %s", kind)
            with self._changed:
                # Under the lock: after stop() nothing of Qt may be touched any more.
                if not self._stopped and mine == self._generation.get(kind):
                    self._arrived.emit(kind, mine, answer)

    def _on_arrived(self, kind: str, mine: int, answer: object) -> None:
        if mine == self._generation.get(kind) and not self._stopped:
            self.answered.emit(kind, answer)
