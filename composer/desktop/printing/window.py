"""The printing window: settings left, the sheets as they are taped together, the preview, and what to do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent, QPalette
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QProgressBar,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from composer.desktop import field_look as look
from composer.desktop.field_kinds import ChoiceField, NumberField
from composer.desktop.field_row import FieldRow, PushButton, Words
from composer.desktop.printing.correction import Correction, correct
from composer.desktop.printing.economy_button import EconomyButton
from composer.desktop.printing.job import Built, PaperJob, SaveJob
from composer.desktop.printing.page_view import PageView
from composer.desktop.printing.painter import print_pages, real_printers
from composer.desktop.printing.sheet_map import PieceSheets, SheetMap, sheets_of
from composer.model import Project
from composer.paper.kinds import ECONOMIES, PaperOptions
from composer.paper.sheets import SIZES_MM, BadSheet, Margins, sheet_named
from composer.paper.tiling import Economy
from composer.texts import N_, say, say_many

LONG_JOB = 20
"""Pages beyond which progress is shown and can be cancelled."""

_KINDS = (
    ("templates", N_("Templates")),
    ("wall", N_("Wall sheet, full size")),
    ("cut-outs", N_("Cut-outs from any paper")),
    ("measure", N_("Measuring sheet")),
    ("elevation", N_("Elevation")),
    ("scale-check", N_("Scale check")),
)
_ECONOMIES: dict[str, tuple[str, str]] = {
    "full": (N_("Full"), N_("the whole outline")),
    "outline": (N_("Outline"), N_("blank inner sheets left out")),
    "corners": (N_("Corners"), N_("corners and crosses")),
    "points": (N_("Points"), N_("crosses only")),
}
_SHEET_NAMES = {
    "a4": "A4",
    "a3": "A3",
    "a2": "A2",
    "a1": "A1",
    "a0": "A0",
    "letter": "Letter",
    "legal": "Legal",
    "tabloid": "Tabloid",
}


AskPath = Callable[[QWidget, str], Path | None]


class PrintingWindow(QDialog):
    """Everything on paper: what, on which sheets, and how to get it true to scale.

    Args:
        project: what is printed; a value, so nothing changes under the window.
        kind: the kind of paper shown first.
        ask_path: asks where to save, with a proposed file name.
    """

    def __init__(
        self,
        project: Project,
        *,
        kind: str = "templates",
        ask_path: AskPath | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._project = project
        self._options = _proposed(project)
        self._ask_path = ask_path or _ask_path
        self._built: Built | None = None
        self._page = 1
        self._job = PaperJob(self)
        self._job.built.connect(self._on_built)
        self._job.compared.connect(self._on_compared)
        self._save_job = SaveJob(self)
        self._save_job.progressed.connect(self._on_progress)
        self._save_job.finished.connect(self._on_saved)
        self.setWindowTitle(say("Paper"))
        self.setMinimumSize(look.px(960), look.px(560))
        self._lay_out(kind)
        self.resize(look.px(1336), look.px(828))
        self._ask()

    # Layout -------------------------------------------------------------------------------------

    def _lay_out(self, kind: str) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        across = QHBoxLayout()
        across.setSpacing(0)
        across.addWidget(self._settings(kind))
        middle = QScrollArea()
        middle.setFrameShape(QScrollArea.Shape.NoFrame)
        middle.setWidgetResizable(True)
        holder = QWidget()
        inside = QVBoxLayout(holder)
        inside.setContentsMargins(look.px(16), look.px(16), look.px(16), look.px(16))
        inside.addWidget(Words(say("As they are taped together"), 12, "pencil", semibold=True))
        self.map = SheetMap()
        self.map.chosen.connect(self.show_page)
        inside.addWidget(self.map)
        inside.addStretch(1)
        _ground(holder, "surface_2")
        middle.setWidget(holder)
        self._map_holder = middle
        across.addWidget(middle, 4)
        across.addWidget(self._preview(), 5)
        column.addLayout(across, 1)
        column.addWidget(self._foot())
        _ground(self, "surface")

    def _settings(self, kind: str) -> QWidget:
        area = QScrollArea()
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setFixedWidth(look.px(308))
        box = QWidget()
        _ground(box, "surface")
        column = QVBoxLayout(box)
        column.setContentsMargins(look.px(20), look.px(16), look.px(20), look.px(12))
        column.setSpacing(look.px(10))
        self.kind = ChoiceField(say("Paper"), [(key, say(words)) for key, words in _KINDS])
        self.kind.set_value(kind)
        self.kind.committed.connect(lambda _: self._ask())
        column.addWidget(FieldRow((say("Paper"), self.kind)))
        pieces = sorted(self._project.pieces, key=lambda piece: piece.number)
        choices: list[tuple[Any, str]] = [(None, say("All pieces"))]
        choices += [(piece.number, say("{number} {name}", number=piece.number, name=piece.name)) for piece in pieces]
        self.pieces = ChoiceField(say("Pieces"), choices)
        self.pieces.committed.connect(self._on_pieces)
        column.addWidget(FieldRow((say("Pieces"), self.pieces)))
        sheets = [(name, _sheet_words(name)) for name in SIZES_MM]
        self.sheet = ChoiceField(say("Sheet"), sheets)
        self.sheet.set_value(self._options.sheet.name)
        self.sheet.committed.connect(self._on_sheet)
        column.addWidget(FieldRow((say("Sheet"), self.sheet)))
        self._economy_title = Words(say("Economy, and its sheets"), 12, "pencil", semibold=True)
        column.addWidget(self._economy_title)
        self.economies: dict[str, EconomyButton] = {}
        for economy in ECONOMIES:
            title, about = _ECONOMIES[economy]
            button = EconomyButton(say(title), say(about))
            button.setChecked(economy == self._options.economy)
            button.clicked.connect(partial(self._on_economy, economy))
            self.economies[economy] = button
            column.addWidget(button)
        column.addWidget(Words(say("Margins the printer leaves, and overlap, mm"), 12, "pencil", semibold=True))
        self._margins: dict[str, NumberField] = {}
        fields = []
        values = {**self._options.margins._asdict(), "overlap": self._options.overlap_mm}
        for name, words in (
            ("left", say("left")), ("right", say("right")), ("top", say("top")), ("bottom", say("bottom")), ("overlap", say("overlap")),
        ):  # fmt: skip
            field = NumberField(words, least=0, most=60)
            field.set_value(float(values[name]))
            field.committed.connect(self._on_margins)
            self._margins[name] = field
            fields.append((words, field))
        self._margin_row = FieldRow(*fields)
        column.addWidget(self._margin_row)
        column.addWidget(
            Words(say("Scale correction, by what you read off the scale check"), 12, "pencil", semibold=True)
        )
        self._readings: dict[str, NumberField] = {}
        for name, words in (("across", say("180 mm across prints as")), ("up", say("250 mm up prints as"))):
            field = NumberField(words, least=1, most=999)
            field.set_suffix("mm")
            field.set_placeholder("180" if name == "across" else "250")
            field.committed.connect(self._on_readings)
            self._readings[name] = field
            column.addWidget(FieldRow((words, field)))
        self._correction = Words("", 12, "pencil")
        column.addWidget(self._correction)
        column.addStretch(1)
        self._result = Words("", 28, semibold=True)
        self._result_note = Words("", 12, "pencil")
        column.addWidget(self._result)
        column.addWidget(self._result_note)
        area.setWidget(box)
        return area

    def _preview(self) -> QWidget:
        box = QWidget()
        column = QVBoxLayout(box)
        column.setContentsMargins(look.px(20), look.px(16), look.px(20), look.px(12))
        head = QHBoxLayout()
        self._label = Words("", 18, semibold=True)
        head.addWidget(self._label, 1)
        self._back, self._next = PushButton(say("Back")), PushButton(say("Next"))
        self._back.clicked.connect(lambda _=False: self.show_page(self._page - 1))
        self._next.clicked.connect(lambda _=False: self.show_page(self._page + 1))
        head.addWidget(self._back)
        head.addWidget(self._next)
        column.addLayout(head)
        self.view = PageView()
        column.addWidget(self.view, 1)
        return box

    def _foot(self) -> QWidget:
        box = QWidget()
        row = QHBoxLayout(box)
        row.setContentsMargins(look.px(20), look.px(12), look.px(20), look.px(12))
        warning = say("In the printer's own dialog choose “actual size”, never “fit to page”.")
        self._advice = Words(warning, 12, "warn")
        row.addWidget(self._advice, 1)
        self.progress = QProgressBar()
        self.progress.setAccessibleName(say("Pages written"))
        self.progress.hide()
        row.addWidget(self.progress)
        self._close = PushButton(say("Close"))
        self._close.clicked.connect(self._on_close)
        self.printers = real_printers()
        self._print = PushButton(say("Print"))
        self._print.clicked.connect(self._on_print)
        self._print.setVisible(bool(self.printers))
        self._save = PushButton(say("Save PDF"), main=True)
        self._save.clicked.connect(self._on_save)
        for button in (self._close, self._print, self._save):
            row.addWidget(button)
        return box

    # Settings -----------------------------------------------------------------------------------

    def _ask(self) -> None:
        for name, button in self.economies.items():
            button.setVisible(self.kind.value == "templates")
            button.setChecked(name == self._options.economy)
            button.show_waiting()
        templates = self.kind.value == "templates"
        self._economy_title.setVisible(templates)
        self._map_holder.setVisible(self.kind.value in ("templates", "wall"))
        self._job.ask(self._project, self.kind.value, self._options)

    def _on_pieces(self, number: int | None) -> None:
        self._options = replace(self._options, only=None if number is None else frozenset({number}))
        self._ask()

    def _on_sheet(self, name: str) -> None:
        self._options = replace(self._options, sheet=sheet_named(name))
        self._ask()

    def _on_economy(self, name: str) -> None:
        economy: Economy = name  # type: ignore[assignment]  # the buttons are named by economy
        self._options = replace(self._options, economy=economy)
        self._ask()

    def _on_margins(self, _: object) -> None:
        try:
            values = {name: float(field.value or 0) for name, field in self._margins.items()}
            overlap = values.pop("overlap")
            self._options = replace(self._options, margins=Margins(**values), overlap_mm=overlap)
        except BadSheet as refused:
            self._margin_row.complain(str(refused))
            return
        self._ask()

    def _on_readings(self, _: object) -> None:
        sheet = self._options.sheet
        size = (sheet.width_mm, sheet.height_mm or sheet.width_mm)
        words, factors, refused = [], [], False
        for name, nominal in (("across", 180.0), ("up", 250.0)):
            value = self._readings[name].value
            found = (
                Correction(1.0, "")
                if value is None
                else correct(nominal, float(value), _SHEET_NAMES.get(sheet.name, sheet.name), size)
            )
            words.append(found.sentence)
            factors.append(found.factor)
            refused = refused or found.refused
        self._correction.set_shade("stop" if refused else "pencil")
        self._correction.setText(" ".join(dict.fromkeys(word for word in words if word)))
        if not refused:
            self._options = replace(self._options, scale=(factors[0], factors[1]))
            self._ask()

    # Answers ------------------------------------------------------------------------------------

    def _groups(self, built: Built) -> tuple[PieceSheets, ...]:
        if built.result is None or built.result.index is None:
            return ()
        return sheets_of(built.result.index.pages, self._project)

    def _on_built(self, built: Built) -> None:
        self._built = built
        groups = self._groups(built)
        self.map.show_sheets(groups)
        self._show_count(built)
        sheets = built.sheets
        self._result.setText("" if sheets is None else say_many("{count} sheet", "{count} sheets", sheets))
        left_out = sum(len(group.left_out) for group in groups)
        self._result_note.setText(say("{count} left out: nothing to mark on them.", count=left_out) if left_out else "")
        for button in (self._save, self._print):
            button.setEnabled(sheets is not None)
        self.show_page(min(self._page, sheets or 1))

    def _on_compared(self, built: Built) -> None:
        self._show_count(built)

    def _show_count(self, built: Built) -> None:
        joins = sum(group.joins for group in self._groups(built))
        self.economies[built.economy].show_count(built.sheets, None if built.result is None else joins)

    def show_page(self, page: int) -> None:
        """Previews a page, from 1."""
        result = None if self._built is None else self._built.result
        count = 0 if result is None else len(result.document.pages)
        self._page = max(1, min(page, count or 1))
        self._back.setEnabled(self._page > 1)
        self._next.setEnabled(self._page < count)
        self.map.show_page(self._page)
        if result is None:
            self._label.setText("")
            self.view.show_page(None, self._built.refusal if self._built else say("One moment …"))
            return
        shown = result.document.pages[self._page - 1]
        self._label.setText(say("{label}, {page} of {count}", label=shown.label, page=self._page, count=count))
        self.view.show_page(shown)

    # Out ----------------------------------------------------------------------------------------

    def _on_save(self, _: bool = False) -> None:
        result = None if self._built is None else self._built.result
        if result is None:
            return
        path = self._ask_path(self, f"{self._project.title or say('wall')}-{self.kind.value}.pdf")
        if path is None:
            return
        from composer.paper.pdf import to_pdf

        count = len(result.document.pages)
        self.progress.setRange(0, count)
        self.progress.setVisible(count > LONG_JOB)
        self._close.setText(say("Cancel"))
        self._save.setEnabled(False)
        self._advice.set_shade("pencil")
        self._advice.setText(say("Writing {file} …", file=path.name))
        self._saving = path
        self._save_job.start(lambda tell: to_pdf(result.document, tell), path)

    def _on_progress(self, done: int, count: int) -> None:
        self.progress.setValue(done)

    def _on_saved(self, refusal: str) -> None:
        self.progress.hide()
        self._close.setText(say("Close"))
        self._save.setEnabled(True)
        if self._save_job.was_cancelled:
            self._advice.set_shade("pencil")
            self._advice.setText(say("Cancelled: nothing was written."))
        elif refusal:
            self._advice.set_shade("stop")
            self._advice.setText(refusal)
        else:
            self._advice.set_shade("ok")
            self._advice.setText(
                say("Saved as {file}. Print it at actual size, 100 %, never “fit to page”.", file=self._saving.name)
            )

    def _on_print(self, _: bool = False) -> None:
        result = None if self._built is None else self._built.result
        if result is None or not self.printers:
            return
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter

        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        dialog = QPrintDialog(printer, self)
        if dialog.exec() != QPrintDialog.DialogCode.Accepted:
            return
        sent = print_pages(printer, result.document.pages)
        self._advice.set_shade("ok")
        self._advice.setText(say("{count} sheets sent at true scale. Measure the bar on the first one.", count=sent))

    def _on_close(self, _: bool = False) -> None:
        if self._save.isEnabled() or self._built is None or self._built.result is None:
            self.close()
        else:
            self._save_job.cancel()

    def wait(self) -> None:
        """Waits until everything asked for is built and written."""
        self._job.wait()
        self._save_job.wait()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Nothing goes on behind a closed window."""
        self._save_job.cancel()
        self._save_job.wait()
        self._job.stop()
        super().closeEvent(event)


def _proposed(project: Project) -> PaperOptions:
    """What was chosen last; for pieces larger than a sheet the points alone, until the person says otherwise."""
    options = PaperOptions.usual(project)
    if project.paper.economy is not None:
        return options
    width, height = options.sheet.width_mm, options.sheet.height_mm
    if height is None:
        return options
    room = sorted(
        (width - options.margins.left - options.margins.right, height - options.margins.bottom - options.margins.top)
    )
    larger = any(a > b for piece in project.pieces for a, b in zip(sorted(piece.size_mm()), room, strict=True))
    return replace(options, economy="points") if larger else options


def _sheet_words(name: str) -> str:
    width, height = SIZES_MM[name]
    if height is None:
        return say("Roll, {width} mm wide", width=f"{width:g}")
    return say(
        "{name}, {width} × {height} mm", name=_SHEET_NAMES.get(name, name), width=f"{width:g}", height=f"{height:g}"
    )


def _ask_path(parent: QWidget, name: str) -> Path | None:
    from PySide6.QtWidgets import QFileDialog

    chosen, _ = QFileDialog.getSaveFileName(parent, say("Save PDF"), name, say("PDF files (*.pdf)"))
    return Path(chosen) if chosen else None


def _ground(widget: QWidget, token: str) -> None:
    palette = widget.palette()
    palette.setColor(QPalette.ColorRole.Window, getattr(look.colours(), token))
    widget.setPalette(palette)
    widget.setAutoFillBackground(True)
