"""Work away from the window's thread.

Python's own threads, not Qt's: ``QRunnable.create`` loses the reference to its function now and then, and
with it the program (PySide6 6.11.3: one start in six with seven pictures to decode, none of 32 this way).
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from concurrent.futures import wait as wait_for

log = logging.getLogger(__name__)


class Workers:
    """A few threads that do one thing after the other; answers go back by signals.

    Args:
        most: how many things at a time.
    """

    def __init__(self, most: int) -> None:
        self._pool = ThreadPoolExecutor(most, thread_name_prefix="work")
        self._asked: set[Future[None]] = set()

    def start(self, run: Callable[[], None]) -> None:
        """Does it as soon as a thread is free."""
        asked = self._pool.submit(run)
        self._asked.add(asked)
        asked.add_done_callback(self._on_done)

    def clear(self) -> None:
        """Drops what has not begun."""
        for asked in tuple(self._asked):
            asked.cancel()

    def wait(self) -> None:
        """Until everything asked for is done."""
        wait_for(tuple(self._asked))

    def stop(self) -> None:
        """Drops what has not begun, waits for the rest; nothing can be started afterwards."""
        self._pool.shutdown(wait=True, cancel_futures=True)

    def _on_done(self, asked: Future[None]) -> None:
        self._asked.discard(asked)
        if not asked.cancelled() and (error := asked.exception()) is not None:
            log.error("work failed", exc_info=error)
