"""The printing window: settings left, the sheets as they are taped together, the preview, and what to do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QProgressBar, QScrollArea, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_row import PushButton, Words
from composer.desktop.printing.ground import lay_ground
from composer.desktop.printing.job import Built, PaperJob
from composer.desktop.printing.output import LONG_JOB, Output
from composer.desktop.printing.page_view import PageView
from composer.desktop.printing.painter import real_printers
from composer.desktop.printing.proposals import choice_of, proposed
from composer.desktop.printing.settings_panel import SettingsPanel
from composer.desktop.printing.sheet_map import PieceSheets, SheetMap, sheets_of
from composer.desktop.scroll_bars import slim
from composer.desktop.settings import Settings
from composer.desktop.window_sizes import open_at
from composer.model import PaperChoice, Project
from composer.texts import say, say_many

AskPath = Callable[[QWidget, str], Path | None]


class PrintingWindow(QDialog):
    """Everything on paper: what, on which sheets, and how to get it true to scale.

    Args:
        project: what is printed; a value, so nothing changes under the window.
        kind: the kind of paper shown first.
        chosen: numbers of the selected pieces, offered together.
        settings: remembers what was read off the scale check of this printer.
        ask_path: asks where to save, with a proposed file name.
        folder: from which the pictures' paths are counted, for sheets that show them.

    Signals:
        chose: the paper choice to keep in the project, once something was saved or printed.
    """

    chose = Signal(object)

    def __init__(
        self,
        project: Project,
        *,
        kind: str = "templates",
        chosen: tuple[int, ...] = (),
        settings: Settings | None = None,
        ask_path: AskPath | None = None,
        folder: Path | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._project = project
        self._ask_path = ask_path or _ask_path
        self._built: Built | None = None
        self._page = 1
        self.printers = real_printers()
        self._job = PaperJob(self)
        self._job.built.connect(self._on_built)
        self._job.compared.connect(self._on_compared)
        self.output = Output(self)
        self.output.said.connect(self._say)
        self.output.progressed.connect(self._on_progress)
        self.output.ended.connect(self._on_ended)
        self.panel = SettingsPanel(
            project,
            replace(proposed(project), folder=folder),
            kind=kind,
            chosen=chosen,
            settings=settings,
            printer=_usual_printer(self.printers),
        )
        self.panel.changed.connect(self._ask)
        self.setWindowTitle(say("Paper"))
        self.setMinimumSize(look.px(960), look.px(480))
        self._lay_out()
        open_at(self, look.px(1336), look.px(828))
        self._enable()
        self._ask()

    # Layout -------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        across = QHBoxLayout()
        across.setSpacing(0)
        across.addWidget(self._left())
        across.addWidget(self._middle(), 4)
        across.addWidget(self._preview(), 5)
        column.addLayout(across, 1)
        column.addWidget(self._foot())
        lay_ground(self, "surface")

    def _left(self) -> QWidget:
        box = QWidget()
        box.setFixedWidth(look.px(308))
        column = QVBoxLayout(box)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.panel, 1)
        foot = QVBoxLayout()
        foot.setContentsMargins(look.px(20), look.px(6), look.px(20), look.px(4))
        foot.setSpacing(0)
        self.total = Words("", 28, semibold=True)
        self.total_note = Words("", 12, "pencil")
        foot.addWidget(self.total)
        foot.addWidget(self.total_note)
        column.addLayout(foot)
        return box

    def _middle(self) -> QWidget:
        area = QScrollArea()
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        slim(area)
        area.setWidgetResizable(True)
        holder = QWidget()
        inside = QVBoxLayout(holder)
        inside.setContentsMargins(look.px(16), look.px(16), look.px(16), look.px(16))
        inside.addWidget(Words(say("As they are taped together"), 12, "pencil", semibold=True))
        self.map = SheetMap()
        self.map.chosen.connect(self.show_page)
        inside.addWidget(self.map)
        inside.addStretch(1)
        lay_ground(holder, "surface_2")
        area.setWidget(holder)
        self._map_area = area
        return area

    def _preview(self) -> QWidget:
        box = QWidget()
        column = QVBoxLayout(box)
        column.setContentsMargins(look.px(20), look.px(16), look.px(20), look.px(12))
        head = QHBoxLayout()
        self.label = Words("", 18, semibold=True)
        head.addWidget(self.label, 1)
        self.back, self.next = PushButton(say("Back")), PushButton(say("Next"))
        self.back.clicked.connect(lambda _=False: self.show_page(self._page - 1))
        self.next.clicked.connect(lambda _=False: self.show_page(self._page + 1))
        head.addWidget(self.back)
        head.addWidget(self.next)
        column.addLayout(head)
        self.view = PageView()
        column.addWidget(self.view, 1)
        return box

    def _foot(self) -> QWidget:
        box = QWidget()
        row = QHBoxLayout(box)
        row.setContentsMargins(look.px(20), look.px(10), look.px(20), look.px(10))
        self.advice = Words(say("In the printer's own dialog choose “actual size”, never “fit to page”."), 12, "warn")
        row.addWidget(self.advice, 1)
        self.progress = QProgressBar()
        self.progress.setAccessibleName(say("Sheets done"))
        self.progress.setFixedWidth(look.px(220))
        self.progress.hide()
        row.addWidget(self.progress)
        self.close_button = PushButton(say("Close"))
        self.close_button.clicked.connect(self._on_close)
        self.print_button = PushButton(say("Print"))
        self.print_button.clicked.connect(self._on_print)
        self.print_button.setVisible(bool(self.printers))
        self.save_button = PushButton(say("Save PDF"), main=True)
        self.save_button.clicked.connect(self._on_save)
        for button in (self.close_button, self.print_button, self.save_button):
            row.addWidget(button)
        return box

    # Asking and showing ---------------------------------------------------------------------------

    def _ask(self) -> None:
        kind = self.panel.kind.value
        self._map_area.setVisible(kind in ("templates", "wall"))
        self._job.ask(self._project, kind, self.panel.options)

    def _groups(self, built: Built) -> tuple[PieceSheets, ...]:
        if built.result is None or built.result.index is None:
            return ()
        return sheets_of(built.result.index.pages, self._project)

    def _on_built(self, built: Built) -> None:
        self._built = built
        groups = self._groups(built)
        self.map.show_sheets(groups)
        self._on_compared(built)
        sheets = built.sheets
        self.total.setText("" if sheets is None else say_many("{count} sheet", "{count} sheets", sheets))
        left_out = sum(len(group.left_out) for group in groups)
        self.total_note.setText(say("{count} left out: nothing to mark on them.", count=left_out) if left_out else "")
        self.total_note.setVisible(bool(left_out))
        self._enable()
        self.show_page(min(self._page, sheets or 1))

    def _on_compared(self, built: Built) -> None:
        joins = None if built.result is None else sum(group.joins for group in self._groups(built))
        self.panel.show_count(built.economy, built.sheets, joins)

    def show_page(self, page: int) -> None:
        """Previews a page, from 1."""
        result = None if self._built is None else self._built.result
        count = 0 if result is None else len(result.document.pages)
        self._page = max(1, min(page, count or 1))
        self.back.setEnabled(self._page > 1)
        self.next.setEnabled(self._page < count)
        self.map.show_page(self._page)
        if result is None:
            self.label.setText("")
            self.view.show_page(None, self._built.refusal if self._built else say("One moment …"))
            return
        shown = result.document.pages[self._page - 1]
        self.label.setText(say("{label}, {page} of {count}", label=shown.label, page=self._page, count=count))
        self.view.show_page(shown)

    # Out ----------------------------------------------------------------------------------------

    @property
    def choice(self) -> PaperChoice:
        """What is chosen now, to be kept in the project."""
        return choice_of(self.panel.options)

    def _on_save(self, _: bool = False) -> None:
        result = None if self._built is None else self._built.result
        if result is None:
            return
        path = self._ask_path(self, f"{self._project.title or say('wall')}-{self.panel.kind.value}.pdf")
        if path is not None:
            self._begin(len(result.document.pages))
            self.output.save(result.document, path)

    def _on_print(self, _: bool = False) -> None:
        result = None if self._built is None else self._built.result
        if result is None or not self.printers:
            return
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter

        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        dialog = QPrintDialog(printer, self)
        dialog.setMinMax(1, len(result.document.pages))
        if dialog.exec() == QPrintDialog.DialogCode.Accepted:
            self._begin(len(result.document.pages))
            self.output.print_on(printer, result.document)
            self._enable()

    def _begin(self, count: int) -> None:
        self.progress.setRange(0, count)
        self.progress.setValue(0)
        self.progress.setVisible(count > LONG_JOB)
        self.close_button.setText(say("Cancel"))
        self.save_button.setEnabled(False)
        self.print_button.setEnabled(False)

    def _on_progress(self, done: int, count: int) -> None:
        self.progress.setValue(done)

    def _on_ended(self, done: bool) -> None:
        self.progress.hide()
        self._enable()
        if done:
            self.chose.emit(self.choice)

    def _enable(self) -> None:
        busy = self.output.is_busy
        ready = self._built is not None and self._built.result is not None and not busy
        self.save_button.setEnabled(ready)
        self.print_button.setEnabled(ready)
        self.close_button.setText(say("Cancel") if busy else say("Close"))

    def _say(self, words: str, shade: str) -> None:
        self.advice.set_shade(shade)  # type: ignore[arg-type]  # the output says one of them
        self.advice.setText(words)

    def _on_close(self, _: bool = False) -> None:
        if self.output.is_busy:
            self.output.cancel()
        else:
            self.close()

    def wait(self) -> None:
        """Waits until everything asked for is built and written."""
        self._job.wait()
        self.output.wait()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Nothing goes on behind a closed window. The dialog's own answer would be ``reject``, which comes here."""
        self.output.stop()
        self._job.stop()
        event.accept()

    def reject(self) -> None:
        """Esc closes as the button does."""
        self._on_close()


def _usual_printer(printers: list[str]) -> str:
    """Whose scale is meant before a printer is chosen: the system's usual one."""
    if not printers:
        return ""
    from PySide6.QtPrintSupport import QPrinterInfo

    return QPrinterInfo.defaultPrinterName() or printers[0]


def _ask_path(parent: QWidget, name: str) -> Path | None:
    from PySide6.QtWidgets import QFileDialog

    chosen, _ = QFileDialog.getSaveFileName(parent, say("Save PDF"), name, say("PDF files (*.pdf)"))
    return Path(chosen) if chosen else None
