"""The search for sketches as the window hears of it: a worker process, asked by a timer what it has found."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QObject, QTimer, Signal

from composer.arranging.settling import Found
from composer.arranging.sketches import NotOffered, Sketch
from composer.arranging.task import Task
from composer.arranging.worker import Done, Progress, Proposal, Searcher

POLL_MS = 40
"""Often enough that sketches seem to come by themselves, seldom enough to cost nothing."""


class SketchSearch(QObject):
    """Asks one worker process and passes on what it finds.

    Signals:
        progressed: share of the search that is done, 0 to 1.
        sketched: a :class:`Sketch`, with the fingerprint of the task it was made for.
        refused: a :class:`NotOffered`.
        ended: ``complete``, ``impossible`` or ``cancelled``, and a reason.
    """

    progressed = Signal(float)
    sketched = Signal(object, str)
    refused = Signal(object)
    ended = Signal(str, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._searcher = Searcher()
        self._timer = QTimer(self)
        self._timer.setInterval(POLL_MS)
        self._timer.timeout.connect(self._poll)

    @property
    def searching(self) -> bool:
        """Whether an answer is still awaited."""
        return self._timer.isActive()

    @property
    def running(self) -> bool:
        """Whether the worker process is there."""
        return self._searcher.running

    def ask(
        self, task: Task, want: Literal["sketches", "variations"], *, like: tuple[Found, ...] = (), seed: int, most: int
    ) -> None:
        """Begins a search; one that runs is no longer wanted."""
        self._searcher.ask(task, want, like=like, seed=seed, most=most)
        self._timer.start()

    def cancel(self) -> None:
        """Ends the search; :attr:`ended` still comes."""
        self._searcher.cancel()

    def stop(self) -> None:
        """Ends the process."""
        self._timer.stop()
        self._searcher.close()

    def _poll(self) -> None:
        for message in self._searcher.messages():
            if isinstance(message, Progress):
                self.progressed.emit(message.share)
            elif isinstance(message, Proposal):
                if isinstance(message.found, Sketch):
                    self.sketched.emit(message.found, message.fingerprint)
                elif isinstance(message.found, NotOffered):
                    self.refused.emit(message.found)
            elif isinstance(message, Done):
                self._timer.stop()
                self.ended.emit(message.how, message.reason)
