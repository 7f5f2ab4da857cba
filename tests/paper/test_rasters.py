"""The finished sheets as pixels, drawn by two programs that are not ours: PDFium and poppler.

Where a cross is, is found again from its dark arms alone; the piece's edges are followed millimetre
by millimetre over all sheets. At 300 dpi a pixel is 0.085 mm.
"""

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pypdfium2
import pytest
from PIL import Image

from composer.paper.full_size_paper import FullSizePaper
from composer.paper.page_index import to_json
from composer.paper.pdf import to_pdf
from composer.paper.primitives import Document
from composer.paper.sheets import sheet_named
from composer.paper.templates import templates
from tests.paper.twelve_frames import POINTS, SIZES, twelve

DPI = 300
PER_MM = DPI / 25.4
DARK = 160
WITHIN_MM = 1.5 / PER_MM
"""A pixel and a half: readers draw thin lines on whole pixels, and a page's height is a whole number of them."""

JOBS = {
    "A4, corrected": ("a4", (1.003, 0.998)),
    "letter": ("letter", (1.0, 1.0)),
    "24 in roll": ("roll-24in", (1.0, 1.0)),
}
Pixels = npt.NDArray[np.uint8]


class Printed:
    """One job: its file, its index, and its pages in pixels by one reader."""

    def __init__(self, sheet: str, scale: tuple[float, float], only: frozenset[int] | None = None) -> None:
        project = twelve()
        paper = FullSizePaper(sheet_named(sheet), scale=scale, only=only)
        pages, index = templates(project, project.arrangement, paper)
        self.data = to_pdf(Document("test", pages))
        self.entries: list[dict[str, Any]] = json.loads(to_json(index))["pages"]
        self.scale = scale

    def on_page(self, entry: dict[str, Any], x: float, y: float) -> tuple[float, float]:
        """A point of the piece on its page, mm; the index's own formula written out again."""
        ox, oy = entry["origin"]
        along, up = (-y, x) if entry["rotated"] else (x, y)
        return self.scale[0] * (along - ox), self.scale[1] * (up - oy)


def by_pdfium(data: bytes, _: Path) -> list[Pixels]:
    pages = pypdfium2.PdfDocument(data)
    return [np.asarray(pages[n].render(scale=DPI / 72, grayscale=True).to_pil()) for n in range(len(pages))]


def by_poppler(data: bytes, folder: Path) -> list[Pixels]:
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm is not on this machine")
    path = folder / "sheets.pdf"
    path.write_bytes(data)
    subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", str(path), str(folder / "sheet")], check=True)
    pages = []
    for picture in sorted(folder.glob("sheet*.pgm")):
        with Image.open(picture) as opened:
            pages.append(np.asarray(opened))
    return pages


READERS = {"PDFium": by_pdfium, "poppler": by_poppler}


def found_cross(page: Pixels, x: float, y: float) -> tuple[float, float]:
    """The middle of the cross near a place, mm: its arms are looked at where no ring crosses them, 4.7 to 5.6 mm out."""

    def window(left: float, bottom: float, right: float, top: float) -> tuple[Pixels, float, float]:
        first, last = round(left * PER_MM), round(right * PER_MM)
        high, low = page.shape[0] - round(top * PER_MM), page.shape[0] - round(bottom * PER_MM)
        return page[high:low, first:last], first / PER_MM, (page.shape[0] - high) / PER_MM

    levels, uprights = [], []
    for side in (-1, 1):
        inner, outer = sorted((x + side * 4.7, x + side * 5.6))
        pixels, _, top = window(inner, y - 0.8, outer, y + 0.8)
        ink = (255.0 - pixels).mean(axis=1)
        assert ink.max() > 60, f"no level arm at {x:.2f}, {y:.2f}"
        levels.append(top - (ink @ (np.arange(len(ink)) + 0.5)) / ink.sum() / PER_MM)
        inner, outer = sorted((y + side * 4.7, y + side * 5.6))
        pixels, left, _ = window(x - 0.8, inner, x + 0.8, outer)
        ink = (255.0 - pixels).mean(axis=0)
        assert ink.max() > 60, f"no upright arm at {x:.2f}, {y:.2f}"
        uprights.append(left + (ink @ (np.arange(len(ink)) + 0.5)) / ink.sum() / PER_MM)
    return sum(uprights) / 2, sum(levels) / 2


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("job", JOBS)
def test_crosses_and_edges_are_seen_where_they_belong(job: str, reader: str, tmp_path: Path) -> None:
    # These stand for all: a wire on two hooks, rings of unequal height, keyholes in inches, strips.
    chosen = frozenset({2, 6, 7} if "roll" in job else {2, 4, 6, 7})
    printed = Printed(*JOBS[job], only=chosen)
    pages = READERS[reader](printed.data, tmp_path)
    seen: dict[int, set[int]] = {number: set() for number in chosen}
    edges: dict[int, set[int]] = {number: set() for number in chosen}
    for entry in printed.entries:
        number = entry["piece"]
        page = pages[entry["page"] - 1]
        # Pages are whole pixels: at most one more or less than their size.
        assert page.shape[::-1] == pytest.approx([side * PER_MM for side in entry["size"]], abs=1)
        for place, (x, y) in enumerate(POINTS[number]):
            at = printed.on_page(entry, x, y)
            if any(abs(p["page_x"] - at[0]) < 1e-3 and abs(p["page_y"] - at[1]) < 1e-3 for p in entry["points"]):
                assert found_cross(page, *at) == pytest.approx(at, abs=WITHIN_MM)
                seen[number].add(place)
        edges[number] |= _edge_seen(printed, entry, page, SIZES[number])
    for number in chosen:
        assert seen[number] == set(range(len(POINTS[number])))
        missing = set(range(len(_around(SIZES[number])))) - edges[number]
        assert not missing, f"piece {number}: {len(missing)} mm of its edges are on no sheet"


def _around(size: tuple[float, float]) -> list[tuple[float, float]]:
    """Points about a millimetre apart all round a piece's edges."""
    width, height = size
    across = np.linspace(0, width, round(width) + 1)
    up = np.linspace(0, height, round(height) + 1)
    level = [(float(x), y) for y in (0.0, height) for x in across]
    return level + [(x, float(y)) for x in (0.0, width) for y in up]


def _edge_seen(printed: Printed, entry: dict[str, Any], page: Pixels, size: tuple[float, float]) -> set[int]:
    """Which of these points are dark on the page, to one pixel and a half."""
    found = set()
    left, bottom, right, top = entry["printable"]
    for index, (x, y) in enumerate(_around(size)):
        at_x, at_y = printed.on_page(entry, x, y)
        if not (left - 0.01 <= at_x <= right + 0.01 and bottom - 0.01 <= at_y <= top + 0.01):
            continue
        column, row = at_x * PER_MM, page.shape[0] - at_y * PER_MM
        near = page[max(0, int(row - 1.5)) : int(row + 1.5) + 1, max(0, int(column - 1.5)) : int(column + 1.5) + 1]
        if near.size and near.min() < DARK:
            found.add(index)
    return found
