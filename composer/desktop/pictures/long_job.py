"""Something that takes a while, away from the window's thread: told in the notice bar, to be stopped there."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from composer.desktop.notice_bar import NoticeBar
from composer.desktop.workers import Workers
from composer.texts import say

Tell = Callable[[int, int], bool]
"""Called with how many are done and how many there are; False = stop."""

Outcome = str | tuple[str, tuple[str, Callable[[], object]]]
"""What came of it in a sentence; with it, where there is one, what can be done next."""

PATIENCE_MS = 400
"""What is done sooner is not announced."""

log = logging.getLogger(__name__)


class Halted(Exception):
    """The person stopped it."""


class LongJob(QObject):
    """One kind of work, one at a time.

    Signals:
        ended: what came of it; None where it was stopped or refused.
    """

    ended = Signal(object)
    _progressed = Signal(int, int)
    _done = Signal(object, str, bool)

    def __init__(self, about: str, bar: NoticeBar, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._about, self._bar = about, bar
        self._words = self._halted = ""
        self._stop = threading.Event()
        self._workers: Workers | None = None
        self._then: Callable[[Any], Outcome] | None = None
        self.is_busy = False
        self._late = QTimer(self)
        self._late.setSingleShot(True)
        self._late.setInterval(PATIENCE_MS)
        self._late.timeout.connect(self._announce)
        self._progressed.connect(self._on_progress)
        self._done.connect(self._on_done)

    def start(self, words: str, do: Callable[[Tell], Any], then: Callable[[Any], Outcome], halted: str = "") -> bool:
        """Begins, unless the last one is still going on; says whether it did.

        Args:
            words: what is being done, for the notice.
            do: runs in a thread; raises ``Halted`` or whatever its own kind of stop is when ``Tell`` says False.
            then: takes the result in the window's thread and says what came of it.
            halted: what is said when it was stopped, where something stays.
        """
        if self.is_busy:
            return False
        self.is_busy, self._words, self._then = True, words, then
        self._halted = halted or say("Stopped: nothing was changed.")
        self._stop.clear()
        self._late.start()
        if self._workers is None:
            self._workers = Workers(1)

        def run() -> None:
            result, refusal, halted = _made(do, self._tell)
            try:
                self._done.emit(result, refusal, halted or (self._stop.is_set() and result is None))
            except RuntimeError:
                return  # the window has gone meanwhile

        self._workers.start(run)
        return True

    def stop(self) -> None:
        """Stops as soon as it can; nothing half done is left."""
        self._stop.set()

    def end(self) -> None:
        """Stops and waits; before the window goes."""
        self.stop()
        if self._workers is not None:
            self._workers.stop()
            self._workers = None

    def wait(self) -> None:
        """Until it is done."""
        if self._workers is not None:
            self._workers.wait()

    def _tell(self, done: int, count: int) -> bool:
        try:
            self._progressed.emit(done, count)
        except RuntimeError:
            return False
        return not self._stop.is_set()

    def _announce(self) -> None:
        self._bar.show_notice(self._about, self._words, [(say("Stop"), self.stop)], can_close=False)

    def _on_progress(self, done: int, count: int) -> None:
        if self.is_busy and count:
            words = say("{doing} {done} of {count}.", doing=self._words, done=done, count=count)
            self._bar.reword(self._about, words)

    def _on_done(self, result: Any, refusal: str, halted: bool) -> None:
        self.is_busy = False
        self._late.stop()
        outcome: Outcome = ""
        if halted:
            outcome, result = self._halted, None
        elif refusal:
            outcome = refusal
        elif self._then is not None:
            outcome = self._then(result)
        words, answers = (outcome, []) if isinstance(outcome, str) else (outcome[0], [outcome[1]])
        if words:
            self._bar.show_notice(self._about, words, answers)
        else:
            self._bar.drop(self._about)
        self.ended.emit(result)


def _made(do: Callable[[Tell], Any], tell: Tell) -> tuple[Any, str, bool]:
    """Result, or the sentence why there is none, or that it was stopped."""
    from composer.editing.edits import EditRefused
    from composer.pictures import decoding
    from composer.pictures.refused import BadPicture
    from composer.projectfile import packed
    from composer.projectfile.errors import ProjectFileError

    try:
        return do(tell), "", False
    except (Halted, packed.Stopped, decoding.Stopped):
        return None, "", True
    except (ProjectFileError, BadPicture, EditRefused) as refused:
        return None, str(refused), False
    except OSError as problem:
        return None, say("It was not possible: {reason}.", reason=problem.strerror or str(problem)), False
    except Exception:
        log.exception("a job beside the window")
        return None, say("This did not work, for a reason the program does not know. Nothing was changed."), False
