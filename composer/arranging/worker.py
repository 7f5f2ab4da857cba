"""Arranging in another process, so that the window never waits.

A :class:`Searcher` starts one process (spawned, never forked: a window's threads must not be copied),
sends it requests and hands back what it reports. Everything sent is small and plain. Each answer carries the
fingerprint of the task it was made for; whoever receives it compares that with a task made from the project
as it is by then, and does not force an old answer on a changed wall.
"""

import multiprocessing
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection
from typing import Literal

from composer.arranging.patterns import DoesNotFit, arrange
from composer.arranging.room import Room
from composer.arranging.searching import Cancelled, Control
from composer.arranging.settling import Found, Unsuited
from composer.arranging.sketches import NotOffered, Sketch, sketches, variations
from composer.arranging.task import Task

PROGRESS_STEP = 0.01


@dataclass(frozen=True, slots=True)
class Request:
    """What is asked.

    Attributes:
        ticket: number of the request, given back with every answer.
        task: what is arranged.
        want: one pattern thoroughly, a set of sketches, or variations of one.
        pattern: for ``pattern``.
        like: for ``variations``: the one to vary, then others not to be repeated.
        seed: of the search.
        most: how many sketches.
    """

    ticket: int
    task: Task
    want: Literal["pattern", "sketches", "variations"] = "sketches"
    pattern: str = "salon"
    like: tuple[Found, ...] = ()
    seed: int = 0
    most: int = 12


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a search is, 0 to 1."""

    ticket: int
    share: float


@dataclass(frozen=True, slots=True)
class Proposal:
    """One thing found; ``fingerprint`` of the task it was found for."""

    ticket: int
    fingerprint: str
    found: Sketch | NotOffered | Found


@dataclass(frozen=True, slots=True)
class Done:
    """The search has ended: everything was given, nothing can be (with the reason), or it was cancelled."""

    ticket: int
    how: Literal["complete", "impossible", "cancelled"]
    reason: str = ""


Message = Progress | Proposal | Done


def serve(connection: Connection) -> None:
    """Runs in the other process: answers requests until told to end by None or a closed connection.

    A new request, or None, sent while a search is running cancels that search.
    """
    waiting: list[Request | None] = []

    def next_request() -> Request | None:
        if waiting:
            return waiting.pop(0)
        received: Request | None = connection.recv()
        return received

    def cancelled() -> bool:
        while connection.poll():
            waiting.append(connection.recv())
        if len(waiting) > 1:
            # Only the newest counts.
            del waiting[:-1]
        return bool(waiting)

    try:
        while True:
            request = next_request()
            if request is None:
                return
            if request.ticket < 0:
                continue
            connection.send(_answered(request, connection, cancelled))
    except (EOFError, BrokenPipeError, KeyboardInterrupt):
        return


def _answered(request: Request, connection: Connection, cancelled: Callable[[], bool]) -> Done:
    told = [0.0]

    def progress(share: float) -> None:
        if share - told[0] >= PROGRESS_STEP:
            told[0] = share
            connection.send(Progress(request.ticket, share))

    control = Control(progress, cancelled)
    task = request.task
    mark = task.fingerprint
    try:
        if request.want == "pattern":
            found = arrange(task, request.pattern, seed=request.seed, control=control)
            connection.send(Proposal(request.ticket, mark, found))
        elif request.want == "sketches":
            for sketch in sketches(task, seed=request.seed, most=request.most, control=control):
                connection.send(Proposal(request.ticket, mark, sketch))
        else:
            for sketch in variations(task, request.like, seed=request.seed, most=request.most, control=control):
                connection.send(Proposal(request.ticket, mark, sketch))
    except Cancelled:
        return Done(request.ticket, "cancelled")
    except (DoesNotFit, Unsuited) as no:
        return Done(request.ticket, "impossible", str(no))
    return Done(request.ticket, "complete")


_NOTHING = Task((), Room(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))), 0.0, 0.0)


class Searcher:
    """The window's end: one process, started when first asked, that answers one request at a time."""

    def __init__(self) -> None:
        self._process: multiprocessing.process.BaseProcess | None = None
        self._connection: Connection | None = None
        self._ticket = 0

    @property
    def running(self) -> bool:
        """Whether the process is there."""
        return self._process is not None and self._process.is_alive()

    def ask(
        self,
        task: Task,
        want: Literal["pattern", "sketches", "variations"] = "sketches",
        *,
        pattern: str = "salon",
        like: tuple[Found, ...] = (),
        seed: int = 0,
        most: int = 12,
    ) -> int:
        """Starts a search and gives its ticket; a search still running is cancelled."""
        connection = self._started()
        self._ticket += 1
        connection.send(Request(self._ticket, task, want, pattern, like, seed, most))
        return self._ticket

    def cancel(self) -> None:
        """Ends the running search; its :class:`Done` still comes."""
        if self._connection is not None and self.running:
            self._connection.send(Request(-1, _NOTHING))

    def messages(self, timeout_s: float = 0.0) -> list[Message]:
        """What has come since, oldest first, without old searches' answers; waits that long at most for one."""
        found: list[Message] = []
        connection = self._connection
        if connection is None:
            return found
        try:
            while connection.poll(0.0 if found else timeout_s):
                message: Message = connection.recv()
                if message.ticket == self._ticket:
                    found.append(message)
        except (EOFError, OSError):
            self._lost()
            found.append(Done(self._ticket, "cancelled"))
        return found

    def fileno(self) -> int:
        """For whoever waits for messages by a file descriptor; -1 when nothing was asked yet."""
        return -1 if self._connection is None else self._connection.fileno()

    def close(self) -> None:
        """Ends the process."""
        process, connection = self._process, self._connection
        self._lost()
        if connection is not None:
            with suppress(OSError):
                connection.send(None)
            connection.close()
        if process is not None:
            process.join(2)
            if process.is_alive():
                process.terminate()
                process.join(2)
            process.close()

    def _started(self) -> Connection:
        if self._connection is None or not self.running:
            context = multiprocessing.get_context("spawn")
            ours, theirs = context.Pipe()
            process = context.Process(target=serve, args=(theirs,), daemon=True, name="wallwright-arranging")
            process.start()
            theirs.close()
            self._process, self._connection = process, ours
        return self._connection

    def _lost(self) -> None:
        self._process = self._connection = None
