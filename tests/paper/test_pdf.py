"""The PDF as readers see it: boxes, preferences, labels, outline, fonts, and scale in two rasterisers."""

import hashlib
import shutil
import subprocess
import tracemalloc
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pytest

from composer.paper.pdf import Cancelled, PageTooLarge, to_pdf
from composer.paper.primitives import Box, Circle, Document, LazyPages, Line, Page, Text, Weight, arrow_up

A4, LETTER = (210.0, 297.0), (215.9, 279.4)
SQUARE = Box(50, 50, 100, 100, width_pt=None, fill_grey=0.0)


def page(size: tuple[float, float] = A4, *items: Any, label: str = "2-B1", bookmark: tuple[str, ...] = ()) -> Page:
    return Page(size, items, label, bookmark)


def document(*pages: Page) -> Document:
    return Document("Quayside flat", pages)


def read(*pages: Page) -> pypdf.PdfReader:
    return pypdf.PdfReader(BytesIO(to_pdf(document(*pages))))


def stream(made: Page) -> str:
    contents = read(made).pages[0].get_contents()
    assert contents is not None
    return contents.get_data().decode("latin-1")


@pytest.mark.parametrize(
    ("size", "points"),
    [(A4, (595.2756, 841.8898)), (LETTER, (612.0, 792.0)), ((5080.0, 5080.0), (14400.0, 14400.0))],
    ids=["A4 (ISO 216)", "letter (ASME Y14.1)", "200 in (ISO 32000-1, annex C.2)"],
)
def test_the_page_box_is_the_paper_in_points(size: tuple[float, float], points: tuple[float, float]) -> None:
    box = read(page(size, SQUARE)).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(points, abs=1e-3)


def test_a_page_longer_than_readers_show_is_refused() -> None:
    with pytest.raises(PageTooLarge, match="5080"):
        to_pdf(document(page((914, 6000), SQUARE)))


def test_a_square_of_100_mm_reads_so_in_the_stream() -> None:
    # 100 mm = 100 · 360 / 127 pt = 283.4646 pt (ISO 32000-1, 8.3.2.3: 1 unit = 1/72 in).
    assert "141.7323 141.7323 283.4646 283.4646 re" in stream(page(A4, Box(50, 50, 100, 100)))


def test_each_line_is_one_path_in_one_piece() -> None:
    text = stream(page(A4, Line(40, 100, 52, 100), Line(46, 94, 46, 106), Line(10, 10, 20, 10)))
    assert "113.3858 283.4646 m 147.4016 283.4646 l S" in text
    assert text.count(" l S") == 3


def test_the_viewer_is_asked_for_true_size_one_sided_and_the_tray_that_fits() -> None:
    reader = read(page(A4, SQUARE))
    wishes = reader.viewer_preferences
    assert wishes is not None
    # ISO 32000-1, table 150.
    assert str(wishes["/PrintScaling"]) == "/None"
    assert str(wishes["/Duplex"]) == "/Simplex"
    assert bool(wishes.pick_tray_by_pdfsize)
    assert bool(wishes.display_doctitle)
    assert reader.pdf_header == "%PDF-1.7"
    assert str(reader.root_object["/Lang"]) == "en"
    assert reader.metadata is not None
    assert reader.metadata.title == "Quayside flat"


def test_no_key_that_readers_ignore_changes_the_scale() -> None:
    pages = read(page(A4, SQUARE), page(LETTER, SQUARE)).pages
    assert len(pages) == 2
    for found in pages:
        assert "/CropBox" not in found
        assert "/UserUnit" not in found
        assert found.get("/Rotate", 0) == 0


def test_labels_and_nested_bookmarks() -> None:
    reader = read(
        page(A4, SQUARE, label="1-A1", bookmark=("1 Boats", "1-A1")),
        page(A4, SQUARE, label="2-A1", bookmark=("2 Crane", "2-A1")),
        page(A4, SQUARE, label="2-B1", bookmark=("2 Crane", "2-B1")),
    )
    assert reader.page_labels == ["1-A1", "2-A1", "2-B1"]

    def titles(outline: Any) -> Any:
        return [titles(entry) if isinstance(entry, list) else entry.title for entry in outline]

    assert titles(reader.outline) == ["1 Boats", ["1-A1"], "2 Crane", ["2-A1", "2-B1"]]


WEIGHTS: tuple[Weight, ...] = ("regular", "semibold", "bold")

TEXTS = tuple(
    Text(20, 250 - 20 * index, "0123 × − ′ ″ ⅜ ½ Grüße ę ő", 12, weight) for index, weight in enumerate(WEIGHTS)
)


def test_only_embedded_fonts_and_all_of_one_family(tmp_path: Path) -> None:
    if shutil.which("pdffonts") is None:
        pytest.skip("pdffonts is not on this machine")
    path = tmp_path / "fonts.pdf"
    path.write_bytes(to_pdf(document(page(A4, *TEXTS))))
    rows = subprocess.run(["pdffonts", path], check=True, capture_output=True, text=True).stdout.splitlines()[2:]
    assert len(rows) >= 3
    for row in rows:
        assert "SourceSansPro" in row
        assert row.split()[-5:-2] == ["yes", "yes", "yes"], row  # embedded, subset, with a Unicode map


def test_texts_are_found_again_as_typed() -> None:
    found = read(page(A4, *TEXTS)).pages[0].extract_text()
    assert found.count("0123 × − ′ ″ ⅜ ½ Grüße ę ő") == 3


def test_the_same_document_gives_the_same_bytes() -> None:
    def made() -> str:
        items = (SQUARE, arrow_up(30, 200), Circle(150, 250, 4), *TEXTS)
        return hashlib.sha256(to_pdf(document(page(A4, *items)))).hexdigest()

    assert made() == made()


DPI = 600
PIXEL_MM = 25.4 / DPI
EDGES_MM = 0.09
"""Two edges, each found to one pixel of 0.0423 mm."""


def _extent_mm(picture: Any) -> tuple[float, float]:
    dark = picture.convert("L").point(lambda level: 255 if level < 128 else 0).getbbox()
    return (dark[2] - dark[0]) * PIXEL_MM, (dark[3] - dark[1]) * PIXEL_MM


def test_the_square_measures_100_mm_in_pdfium() -> None:
    found = pypdfium2.PdfDocument(to_pdf(document(page(A4, SQUARE))))[0].render(scale=DPI / 72, draw_annots=False)
    assert _extent_mm(found.to_pil()) == pytest.approx((100, 100), abs=EDGES_MM)


def test_the_square_measures_100_mm_in_poppler(tmp_path: Path) -> None:
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm is not on this machine")
    from PIL import Image

    path = tmp_path / "square.pdf"
    path.write_bytes(to_pdf(document(page(A4, SQUARE))))
    call = ["pdftoppm", "-r", str(DPI), "-gray", "-aa", "no", "-aaVector", "no", str(path), str(tmp_path / "square")]
    subprocess.run(call, check=True)
    with Image.open(next(tmp_path.glob("square*.pgm"))) as picture:
        assert _extent_mm(picture) == pytest.approx((100, 100), abs=EDGES_MM)


def test_progress_is_told_a_page_at_a_time_and_may_stop() -> None:
    told: list[tuple[int, int]] = []

    def go_on(done: int, count: int) -> bool:
        told.append((done, count))
        return done < 2

    with pytest.raises(Cancelled):
        to_pdf(document(*(page(A4, SQUARE) for _ in range(5))), go_on)
    assert told == [(0, 5), (1, 5), (2, 5)]


def _peak_bytes(count: int, made: list[int]) -> int:
    def maker(number: int) -> Page:
        made.append(number)
        return Page(A4, tuple(Line(20, 20 + index, 190, 20 + index) for index in range(150)), f"{number}")

    pages = LazyPages([lambda number=number: maker(number) for number in range(count)])  # type: ignore[misc]
    tracemalloc.start()
    to_pdf(Document("long", pages))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak


def test_a_page_more_costs_a_long_job_at_most_15_kb() -> None:
    made: list[int] = []
    short, long = _peak_bytes(100, made), _peak_bytes(300, made)
    assert made == [*range(100), *range(300)]
    # 150 strokes are more than any of our sheets has; 15 kB a page is our own bar.
    assert (long - short) / 200 <= 15_000
