"""A whole project's templates as other programs see the file: preferences, labels, bookmarks, fonts, soundness."""

import hashlib
import shutil
import subprocess
import sys
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pytest

from composer.findings.cache import FindingsCache
from composer.paper.kinds import KINDS, NothingToPrint, PaperOptions, PaperResult, build
from composer.paper.pdf import to_pdf
from composer.paper.primitives import Text
from composer.paper.sheets import sheet_named
from composer.paper.type_metrics import missing_glyphs
from tests.paper.sheet_projects import LONG_NAMES, nine
from tests.paper.twelve_frames import twelve

SHEETS = ("a4", "letter", "roll-24in")


def templates(sheet: str = "a4", project: Callable[[], Any] = twelve) -> PaperResult:
    return build(project(), "templates", PaperOptions(sheet_named(sheet)))


@pytest.fixture(scope="module", params=SHEETS)
def file_and_index(request: pytest.FixtureRequest) -> tuple[bytes, Any]:
    made = templates(request.param)
    return to_pdf(made.document), made.index


def test_every_page_has_its_plain_size_and_nothing_that_scales(file_and_index: tuple[bytes, Any]) -> None:
    data, index = file_and_index
    reader = pypdf.PdfReader(BytesIO(data))
    wishes = reader.viewer_preferences
    assert wishes is not None
    assert str(wishes["/PrintScaling"]) == "/None"  # ISO 32000-1, table 150
    for number, page in enumerate(reader.pages, 1):
        assert "/CropBox" not in page
        assert "/UserUnit" not in page
        assert page.get("/Rotate", 0) == 0
        for entry in index.pages:
            if entry.page == number:
                size = (float(page.mediabox.width) * 25.4 / 72, float(page.mediabox.height) * 25.4 / 72)
                assert size == pytest.approx(entry.size, abs=1e-3)


def test_labels_of_pages_are_those_of_the_index(file_and_index: tuple[bytes, Any]) -> None:
    data, index = file_and_index
    labels = pypdf.PdfReader(BytesIO(data)).page_labels
    other_reader = pypdfium2.PdfDocument(data)
    assert [other_reader.get_page_label(number) for number in range(len(other_reader))] == labels
    for number, label in enumerate(labels, 1):
        entries = [entry for entry in index.pages if entry.page == number]
        if len(entries) == 1:
            assert entries[0].label == label
        elif entries:
            assert label == "+".join(str(entry.piece) for entry in entries)
        else:
            assert label.endswith(("-map", " back"))


def test_bookmarks_lead_to_each_piece(file_and_index: tuple[bytes, Any]) -> None:
    data, index = file_and_index
    reader = pypdf.PdfReader(BytesIO(data))
    tops = {
        str(entry.title): reader.get_destination_page_number(entry)
        for entry in reader.outline
        if not isinstance(entry, list)
    }
    for piece in range(1, 13):
        first = min(entry.page for entry in index.pages if entry.piece == piece)
        title = next((title for title in tops if f"{piece} Frame {piece}" in title.split(", ")), None)
        assert title is not None, f"piece {piece}"
        page = tops[title]
        assert page is not None
        assert abs(page + 1 - first) <= 1, f"piece {piece}"  # a map may stand before its first sheet


def test_a_checker_of_pdf_files_finds_nothing(file_and_index: tuple[bytes, Any], tmp_path: Path) -> None:
    if shutil.which("qpdf") is None:
        pytest.skip("qpdf is not on this machine")
    path = tmp_path / "templates.pdf"
    path.write_bytes(file_and_index[0])
    done = subprocess.run(["qpdf", "--check", path], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "WARNING" not in done.stdout + done.stderr


@pytest.mark.parametrize("kind", KINDS)
def test_only_our_typeface_and_all_of_it_embedded(kind: str, tmp_path: Path) -> None:
    if shutil.which("pdffonts") is None:
        pytest.skip("pdffonts is not on this machine")
    path = tmp_path / "fonts.pdf"
    try:
        path.write_bytes(to_pdf(build(nine(), kind, PaperOptions(sheet_named("a4"))).document))
    except NothingToPrint:
        pytest.skip("nothing of this kind in the project")
    rows = subprocess.run(["pdffonts", path], check=True, capture_output=True, text=True).stdout.splitlines()[2:]
    assert rows
    for row in rows:
        assert "SourceSansPro" in row
        assert row.split()[-5:-2] == ["yes", "yes", "yes"], row  # embedded, subset, with a Unicode map


_OTHER_PROCESS = """
import hashlib, sys
from composer.paper.kinds import PaperOptions, build
from composer.paper.pdf import to_pdf
from composer.paper.sheets import sheet_named
from tests.paper.twelve_frames import twelve
made = build(twelve(), "templates", PaperOptions(sheet_named("a4")))
print(hashlib.sha256(to_pdf(made.document)).hexdigest())
"""


def test_another_run_writes_the_same_bytes() -> None:
    root = Path(__file__).resolve().parents[2]
    environment = {"PYTHONPATH": str(root), "PYTHONHASHSEED": "7", "PATH": "", "TZ": "Asia/Tokyo"}
    done = subprocess.run(
        [sys.executable, "-c", _OTHER_PROCESS], check=True, capture_output=True, text=True, env=environment
    )
    assert done.stdout.strip() == hashlib.sha256(to_pdf(templates().document)).hexdigest()


def test_pages_asked_for_in_any_order_are_the_same_pages() -> None:
    pages = templates("a4", nine).document.pages
    forwards = list(pages)
    backwards = [pages[number] for number in reversed(range(len(pages)))]
    assert forwards == backwards[::-1]
    assert pages[-1] == forwards[-1]
    assert list(pages[3:7]) == forwards[3:7]
    with pytest.raises(IndexError):
        pages[len(pages)]


def test_a_name_with_signs_the_typeface_lacks_is_told_and_printed_as_boxes() -> None:
    project = nine(names=LONG_NAMES)
    cache = FindingsCache(lambda text: "".join(missing_glyphs(text)))
    told = [finding for finding in cache.check(project) if finding.code == "name-not-printable"]
    assert [finding.pieces for finding in told] == [(3,)]
    document = build(project, "templates", PaperOptions(sheet_named("a4"))).document
    words = {item.text for page in document.pages for item in page.items if isinstance(item, Text)}
    assert "▯ bell" in words
    found = pypdf.PdfReader(BytesIO(to_pdf(document)))
    assert any("bell" in page.extract_text() for page in found.pages)
