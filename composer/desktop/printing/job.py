"""Builds paper away from the window's thread; the latest wish wins, an older answer is dropped."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from composer.desktop.workers import Workers
from composer.model import Project
from composer.paper.kinds import ECONOMIES, NotBuiltYet, NothingToPrint, PaperOptions, PaperResult, build
from composer.paper.sheet_request import SheetTooSmall
from composer.paper.sheets import BadSheet
from composer.texts import say


@dataclass(frozen=True, slots=True)
class Built:
    """Paper as asked for, or the sentence why there is none."""

    generation: int
    economy: str
    result: PaperResult | None
    refusal: str = ""

    @property
    def sheets(self) -> int | None:
        """Pages, None where there is no paper."""
        return None if self.result is None else len(self.result.document.pages)


class PaperJob(QObject):
    """Builds one kind of paper, and then the other economies to compare their sheet counts.

    Signals:
        built: carries :class:`Built` for the economy that is shown.
        compared: carries :class:`Built` for each other one.
    """

    built = Signal(object)
    compared = Signal(object)
    _done = Signal(object, bool)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._generation = 0
        self._workers = Workers(1)
        self._done.connect(self._on_done)

    def ask(self, project: Project, kind: str, options: PaperOptions) -> None:
        """Builds this; what was asked before is no longer wanted."""
        self._generation += 1
        self._workers.clear()

        mine = self._generation
        others = [economy for economy in ECONOMIES if economy != options.economy] if kind == "templates" else []
        self._start(mine, project, kind, options, main=True)
        for economy in others:
            self._start(mine, project, kind, replace(options, economy=economy), main=False)

    def stop(self) -> None:
        """Waits for what runs and drops the rest; before the window goes."""
        self._generation += 1
        self._workers.stop()

    def wait(self) -> None:
        """Waits until everything asked for is built."""
        self._workers.wait()

    def _start(self, generation: int, project: Project, kind: str, options: PaperOptions, *, main: bool) -> None:
        def run() -> None:
            if generation == self._generation:
                self._done.emit(made(generation, project, kind, options), main)

        self._workers.start(run)

    def _on_done(self, answer: Built, main: bool) -> None:
        if answer.generation != self._generation:
            return
        (self.built if main else self.compared).emit(answer)


def made(generation: int, project: Project, kind: str, options: PaperOptions) -> Built:
    """The paper, or the sentence why there is none."""
    try:
        return Built(generation, options.economy, build(project, kind, options))
    except (NothingToPrint, NotBuiltYet, BadSheet, SheetTooSmall) as refused:
        return Built(generation, options.economy, None, str(refused))
    except Exception:
        logging.getLogger(__name__).exception("building paper")
        return Built(generation, options.economy, None, say("This paper cannot be made just now."))


class SaveJob(QObject):
    """Writes a PDF away from the window's thread, all or nothing.

    Signals:
        progressed: pages written, pages in all.
        finished: empty, or the sentence why nothing was written; "cancelled" is told by ``was_cancelled``.
    """

    progressed = Signal(int, int)
    finished = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._workers = Workers(1)
        self._stop = threading.Event()
        self.was_cancelled = False

    def start(self, make: Callable[[Callable[[int, int], bool]], bytes], path: Path) -> None:
        """``make`` writes the PDF and asks before each page whether to go on."""
        self._stop.clear()
        self.was_cancelled = False

        def run() -> None:
            self.finished.emit(self._written(make, path))

        self._workers.start(run)

    def cancel(self) -> None:
        """Stops before the next page; nothing is written."""
        self._stop.set()

    def wait(self) -> None:
        """Waits until it is done."""
        self._workers.wait()

    def stop(self) -> None:
        """Ends; nothing can be started any more."""
        self._workers.stop()

    def _written(self, make: Callable[[Callable[[int, int], bool]], bytes], path: Path) -> str:
        from composer.paper.pdf import Cancelled
        from composer.projectfile.store import write_atomic

        def tell(done: int, count: int) -> bool:
            self.progressed.emit(done, count)
            return not self._stop.is_set()

        try:
            data = make(tell)
            if self._stop.is_set():
                self.was_cancelled = True
                return ""
            write_atomic(path, data)
        except Cancelled:
            self.was_cancelled = True
        except (OSError, ValueError) as refused:
            return str(refused)
        except Exception as refused:  # a project file error carries its own sentence
            return str(refused)
        return ""
