"""Out of the window: a PDF, or sheets on a real printer, with progress and a way to stop."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from composer.desktop.field_row import Shade
from composer.desktop.printing.job import SaveJob
from composer.desktop.printing.painter import PrintRun
from composer.paper.primitives import Document
from composer.texts import say, say_many

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

LONG_JOB = 20
"""Pages beyond which progress is shown."""


class Output(QObject):
    """One thing at a time: saving or printing.

    Signals:
        said: a sentence for the foot of the window, and its shade.
        progressed: pages done and pages in all.
        ended: nothing goes on any more; carries whether it was done to the end.
    """

    said = Signal(str, str)
    progressed = Signal(int, int)
    ended = Signal(bool)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._path = Path()
        self._save = SaveJob(self)
        self._save.progressed.connect(self.progressed)
        self._save.finished.connect(self._on_saved)
        self._run: PrintRun | None = None
        self._turn = QTimer(self)
        self._turn.setInterval(0)
        self._turn.timeout.connect(self._print_one)
        self.is_busy = False

    def save(self, document: Document, path: Path) -> None:
        """Writes a PDF away from the window's thread, all or nothing."""
        from composer.paper.pdf import to_pdf

        self.is_busy, self._path = True, path
        self._say(say("Writing {file} …", file=path.name), "pencil")
        self._save.start(lambda tell: to_pdf(document, tell), path)

    def print_on(self, printer: QPrinter, document: Document) -> None:
        """Prints true to scale, a sheet each turn of events, so that it can be stopped between two."""
        self._run = PrintRun(printer, document.pages)
        if not self._run.is_open:
            self._run = None
            self._say(say("The printer does not answer. Save a PDF and print that at actual size."), "stop")
            return
        self.is_busy = True
        self._say(say("Printing …"), "pencil")
        self._turn.start()

    def cancel(self) -> None:
        """Stops before the next sheet."""
        self._save.cancel()
        if self._run is not None:
            sent = self._run.sent
            self._end_run()
            self._say(say_many("Stopped after {count} sheet.", "Stopped after {count} sheets.", sent), "pencil")
            self.ended.emit(False)

    def wait(self) -> None:
        """Until nothing is being written."""
        self._save.wait()

    def stop(self) -> None:
        """Cancels, and ends for good; before the window goes."""
        self.cancel()
        self._save.stop()

    def _print_one(self) -> None:
        run = self._run
        if run is None:
            return
        more = run.print_next()
        self.progressed.emit(run.sent, run.count)
        if not more:
            self._end_run()
            words = say_many(
                "{count} sheet sent at true scale. Measure its bar.",
                "{count} sheets sent at true scale. Measure the bar on the first one.",
                run.sent,
            )
            self._say(words, "ok")
            self.ended.emit(True)

    def _end_run(self) -> None:
        self._turn.stop()
        if self._run is not None:
            self._run.close()
        self._run, self.is_busy = None, False

    def _on_saved(self, refusal: str) -> None:
        self.is_busy = False
        if self._save.was_cancelled:
            self._say(say("Cancelled: nothing was written."), "pencil")
        elif refusal:
            self._say(refusal, "stop")
        else:
            words = say("Saved as {file}. Print it at actual size, 100 %, never “fit to page”.", file=self._path.name)
            self._say(words, "ok")
        self.ended.emit(not refusal and not self._save.was_cancelled)

    def _say(self, words: str, shade: Shade) -> None:
        self.said.emit(words, shade)
