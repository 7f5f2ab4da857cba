"""The printing window: what is proposed, what is counted, how a printer is corrected, what comes out."""

import io
from pathlib import Path

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from composer.desktop.field_measures import LengthField
from composer.desktop.main_window import MainWindow
from composer.desktop.printing.correction import correct
from composer.desktop.printing.job import made
from composer.desktop.printing.painter import PrintRun, page_layout
from composer.desktop.printing.proposals import choice_of, larger_than_a_sheet, proposed
from composer.desktop.printing.sheet_map import sheets_of
from composer.desktop.printing.window import PrintingWindow
from composer.desktop.settings import Settings
from composer.model import PaperChoice
from composer.paper.kinds import PaperOptions, build
from composer.paper.primitives import Line, Page
from composer.paper.sheets import sheet_named
from composer.units import Length
from tests.desktop.conftest import Answers, room_project

A4 = ("A4", (210.0, 297.0))  # ISO 216


@pytest.fixture
def printing(qtbot: QtBot, window: MainWindow, tmp_path: Path) -> PrintingWindow:
    """The window on the test flat, everything built."""
    made = PrintingWindow(
        window.opened.project,
        chosen=(1, 2),
        settings=window.settings,
        ask_path=lambda _, name: tmp_path / name,
        parent=window,
    )
    made.show()
    settle(made)
    return made


def settle(made: PrintingWindow) -> None:
    made.wait()
    QApplication.processEvents()
    QApplication.processEvents()


def type_into(field: LengthField, text: str) -> None:
    field.setFocus()
    field.lineEdit().setText(text)
    field.lineEdit().textEdited.emit(text)
    field.commit()


@pytest.mark.parametrize("way", ["button", "escape", "title bar"])
def test_the_window_closes_each_way(printing: PrintingWindow, way: str) -> None:
    if way == "button":
        printing.close_button.click()
    elif way == "escape":
        QTest.keyClick(printing, Qt.Key.Key_Escape)
    else:
        printing.close()
    assert not printing.isVisible()


# Correction: one rule -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("measured", "factor"),
    [
        (180.0, 1.0),
        (180.5, 1.0),  # half a millimetre is what the sheet asks to be read
        (179.5, 1.0),
        (179.4, 180 / 179.4),
        (181.0, 180 / 181.0),
        (177.34, 180 / 177.34),  # 1.5 %: 180 ÷ 1.015 = 177.339…
    ],
)
def test_a_reading_is_corrected_only_beyond_what_the_ruler_can_tell(measured: float, factor: float) -> None:
    found = correct(180, measured, *A4)
    assert not found.refused
    assert found.factor == pytest.approx(factor, rel=1e-12)


@pytest.mark.parametrize(("measured", "cause"), [(174.9, "A4 fitted inside"), (185.0, ""), (169.3, "A4")])
def test_beyond_a_percent_and_a_half_it_is_refused_and_the_likely_setting_named(measured: float, cause: str) -> None:
    # 200 ÷ 210 = 0.952 (5 mm margins): 171.4; 203.54 ÷ 210 = 0.969: 174.5; Letter: 279.4 ÷ 297 = 0.9407: 169.3
    found = correct(180, measured, *A4)
    assert found.refused
    assert found.factor == 1
    assert cause in found.sentence
    assert ("Likely" in found.sentence) == bool(cause)


def test_readings_are_kept_for_printer_and_sheet(tmp_path: Path) -> None:
    settings = Settings(tmp_path)
    settings.keep_printer_reading("Office/2", "a4", "179 mm", "", "2026-05-12")
    assert settings.printer_reading("Office/2", "a4") == ("179 mm", "", "2026-05-12")
    assert settings.printer_reading("Office/2", "a3") is None
    settings.keep_printer_reading("Office/2", "a4", "", "", "")
    assert settings.printer_reading("Office/2", "a4") is None


def test_a_reading_typed_in_the_window_scales_the_paper(printing: PrintingWindow) -> None:
    scale = printing.panel.scale
    nominal = float(scale.across.lineEdit().placeholderText())
    type_into(scale.across, str(nominal - 1))
    assert printing.panel.options.scale[0] == pytest.approx(nominal / (nominal - 1))
    assert printing.panel.options.scale[1] == 1
    type_into(scale.across, str(nominal * 0.95))
    assert printing.panel.options.scale == (1.0, 1.0)
    assert "setting" in scale.words.text()
    type_into(scale.across, str(nominal - 1))
    printing.panel.show_kind("scale-check")
    assert printing.panel.options.scale == (1.0, 1.0)  # the check shows the printer as it is


# Proposals and counts -----------------------------------------------------------------------------


def test_points_are_proposed_for_pieces_larger_than_a_sheet() -> None:
    project = room_project()
    # A4 less 10 mm all round: 190 × 277. 500 × 400, 300 × 400, 400 × 300 are larger; 200 × 200 is 10 too wide.
    assert larger_than_a_sheet(project, PaperOptions.usual(project)) == [1, 2, 3, 4]
    assert proposed(project).economy == "points"
    small = room_project(pieces=(), arrangements=room_project().arrangements[:0] + _bare())
    assert proposed(small).economy == "full"
    chosen = room_project(paper=PaperChoice(economy="corners"))
    assert proposed(chosen).economy == "corners"


def _bare() -> tuple[object, ...]:
    from composer.model import Arrangement

    return (Arrangement(key="h11", name="first", gap=Length.from_text("50 mm")),)


def test_every_economy_is_counted_as_built(printing: PrintingWindow) -> None:
    project = printing._project
    for economy, button in printing.panel.economies.items():
        options = PaperOptions(sheet_named("a4"), economy=economy)  # type: ignore[arg-type]
        expected = build(project, "templates", options)
        assert button.accessibleDescription().startswith(f"{len(expected.document.pages)} sheets")
        assert expected.index is not None
        joins = sum(group.joins for group in sheets_of(expected.index.pages, project))
        assert f"{joins} join" in button.accessibleDescription()


def test_what_was_chosen_is_offered_again() -> None:
    options = PaperOptions(sheet_named("a3"), overlap_mm=12, economy="corners")
    again = PaperOptions.usual(room_project(paper=choice_of(options)))
    assert (again.sheet, again.margins, again.overlap_mm, again.economy) == (
        options.sheet,
        options.margins,
        12,
        "corners",
    )


def test_pages_are_walked_and_the_selected_pieces_alone_printed(printing: PrintingWindow) -> None:
    assert not printing.back.isEnabled()
    printing.next.click()
    assert ", 2 of " in printing.label.text()
    before = printing._built
    printing.panel.pieces.set_value((1, 2))
    printing.panel.pieces.committed.emit((1, 2))
    settle(printing)
    assert sorted(printing.panel.options.only or ()) == [1, 2]
    assert printing._built is not before


# Out ----------------------------------------------------------------------------------------------


def test_save_pdf_writes_what_is_previewed(printing: PrintingWindow, tmp_path: Path, qtbot: QtBot) -> None:
    from pypdf import PdfReader

    chosen: list[PaperChoice] = []
    printing.chose.connect(chosen.append)
    with qtbot.waitSignal(printing.output.ended, timeout=60_000):
        printing.save_button.click()
    path = tmp_path / "Test flat-templates.pdf"
    assert printing._built is not None
    assert printing._built.result is not None
    reader = PdfReader(io.BytesIO(path.read_bytes()))
    assert len(reader.pages) == len(printing._built.result.document.pages)
    assert printing.close_button.text() == "Close"
    assert chosen[0].economy == "points"


def test_a_long_job_shows_progress_and_can_be_cancelled(printing: PrintingWindow, tmp_path: Path) -> None:
    from composer.paper.primitives import Document

    result = printing._built.result if printing._built else None
    assert result is not None
    many = Document("many", tuple(result.document.pages) * 20)
    printing._begin(len(many.pages))
    assert printing.progress.isVisible()
    printing.output.save(many, tmp_path / "many.pdf")
    assert printing.close_button.text() == "Cancel"
    printing.close_button.click()
    printing.output.wait()
    QApplication.processEvents()
    assert not (tmp_path / "many.pdf").exists()
    assert "nothing was written" in printing.advice.text()
    assert printing.isVisible()
    assert not printing.progress.isVisible()


def test_printed_true_to_scale(qapp: QApplication, tmp_path: Path) -> None:
    """A QPrinter set to write a file stands for the printer; pdfium, which is not Qt, draws what it got."""
    import numpy
    import pypdfium2

    lines = (Line(30, 200, 130, 200, 1.0), Line(40, 20, 40, 270, 1.0))
    page = Page((210.0, 297.0), lines, "scale", ("scale",))
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    run = PrintRun(printer, [page, page])
    assert run.is_open
    assert run.print_next()
    assert not run.print_next()
    run.close()
    assert printer.fullPage()
    assert printer.pageLayout().isEquivalentTo(page_layout(page))
    with pypdfium2.PdfDocument(tmp_path / "printed.pdf") as document:
        assert len(document) == 2
        dark = numpy.asarray(document[1].render(scale=300 / 72).to_pil().convert("L")) < 128
    across = numpy.flatnonzero(dark[round(97 / 25.4 * 300)])  # 297 − 200 = 97 mm below the upper edge
    up = numpy.flatnonzero(dark[:, round(40 / 25.4 * 300)])
    dot = 25.4 / 300
    assert (across[-1] - across[0] + 1) * dot == pytest.approx(100, abs=2 * dot)
    assert (up[-1] - up[0] + 1) * dot == pytest.approx(250, abs=2 * dot)
    assert across[0] * dot == pytest.approx(30, abs=2 * dot)


def test_cancelling_a_print_stops_between_two_sheets(printing: PrintingWindow, tmp_path: Path) -> None:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "stopped.pdf"))
    assert printing._built is not None
    assert printing._built.result is not None
    printing.output.print_on(printer, printing._built.result.document)
    printing.output._print_one()
    printing.output._print_one()
    printing.output.cancel()
    assert "Stopped after 2 sheets" in printing.advice.text()
    assert not printing.output.is_busy


def test_the_window_refuses_what_nobody_prints_as_the_call_does() -> None:
    """A frame of 90 by 90 m on A4, 190 by 277 mm of print less 10 mm of overlap: some 500 by 337 sheets."""
    project = room_project()
    whole = project.pieces[0]
    frame = msgspec.structs.replace(whole.frame, width=Length.from_text("90 m"), height=Length.from_text("90 m"))
    pieces = (msgspec.structs.replace(whole, frame=frame), *project.pieces[1:])
    huge = msgspec.structs.replace(project, pieces=pieces)
    answer = made(1, huge, "templates", PaperOptions(sheet_named("a4")))
    assert answer.result is None
    assert "sheets would be needed" in answer.refusal


@pytest.mark.parametrize(
    ("action", "kind"),
    [
        ("templates", "templates"),
        ("hanging_list", "hanging-list"),
        ("measuring_sheet", "measure"),
        ("cut_outs", "cut-outs"),
        ("wall_sheet", "wall"),
        ("print_order", "prints"),
        ("mat_list", "mats"),
        ("shopping_list", "shopping"),
        ("elevation", "elevation"),
        ("scale_check", "scale-check"),
    ],
)
def test_the_menu_opens_each_kind_of_paper(window: MainWindow, action: str, kind: str) -> None:
    answers = window.files.ask
    assert isinstance(answers, Answers)
    window.actions_by_name[action].trigger()
    (dialog,) = answers.dialogs
    assert isinstance(dialog, PrintingWindow)
    assert dialog.panel.kind.value == kind
    dialog.close()
