"""An independent reader of full-size PDFs: strokes and circles straight from the content streams.

It knows nothing of how the sheets are made. By definition a hanging point is a level and an upright
stroked line of 12 mm, each in one piece, that share their middles; a hole is a ring 8 mm across.
"""

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from math import hypot

from pypdf import PdfReader
from pypdf.generic import ContentStream

MM_PER_PT = 25.4 / 72
"""ISO 32000-1, 8.3.2.3: a unit of default user space is 1/72 inch."""

SAME_MM = 0.02


@dataclass
class PageStrokes:
    """What is stroked on one page, in millimetres: lines and circles (middle and diameter)."""

    size: tuple[float, float]
    lines: list[tuple[float, float, float, float]] = field(default_factory=list)
    circles: list[tuple[float, float, float]] = field(default_factory=list)

    def crosses(self) -> list[tuple[float, float, float, float]]:
        """Middle x, middle y, length across, length up of every level and upright line of 10 mm or more that share middles."""
        levels = [
            line for line in self.lines if abs(line[1] - line[3]) < SAME_MM and abs(line[0] - line[2]) >= 10 - SAME_MM
        ]
        uprights = [
            line for line in self.lines if abs(line[0] - line[2]) < SAME_MM and abs(line[1] - line[3]) >= 10 - SAME_MM
        ]
        found = []
        for a in levels:
            ax, ay = (a[0] + a[2]) / 2, (a[1] + a[3]) / 2
            for b in uprights:
                bx, by = (b[0] + b[2]) / 2, (b[1] + b[3]) / 2
                if abs(ax - bx) < 0.1 and abs(ay - by) < 0.1:
                    found.append((bx, ay, abs(a[0] - a[2]), abs(b[1] - b[3])))
        return found

    def rings(self) -> list[tuple[float, float]]:
        """Middles of circles 8 mm across."""
        return [(x, y) for x, y, across in self.circles if abs(across - 8) < SAME_MM]


def read_pages(data: bytes) -> list[PageStrokes]:
    """Every page's strokes."""
    reader = PdfReader(BytesIO(data))
    return [_read(page, reader) for page in reader.pages]


def _read(page: object, reader: PdfReader) -> PageStrokes:
    box = page.mediabox  # type: ignore[attr-defined]
    strokes = PageStrokes((float(box.width) * MM_PER_PT, float(box.height) * MM_PER_PT))
    content = ContentStream(page.get_contents(), reader)  # type: ignore[attr-defined]
    matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    stack: list[tuple[float, float, float, float, float, float]] = []
    path: list[list[tuple[float, float]]] = []
    curved = False
    for operands, operator in content.operations:
        numbers = [float(value) for value in operands] if operator in _NUMBERS else []
        if operator == b"q":
            stack.append(matrix)
        elif operator == b"Q":
            matrix = stack.pop()
        elif operator == b"cm":
            matrix = _times(numbers, matrix)
        elif operator == b"m":
            path.append([_at(matrix, *numbers)])
        elif operator == b"l":
            path[-1].append(_at(matrix, *numbers))
        elif operator == b"c":
            curved = True
            path[-1].append(_at(matrix, *numbers[4:]))
        elif operator == b"re":
            x, y, w, h = numbers
            path.append([_at(matrix, *corner) for corner in ((x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y))])
        elif operator in {b"S", b"s", b"B", b"b", b"B*", b"b*"}:
            _keep(strokes, path, curved)
            path, curved = [], False
        elif operator in {b"f", b"F", b"f*", b"n"}:
            path, curved = [], False
    return strokes


_NUMBERS = {b"cm", b"m", b"l", b"c", b"re"}


def _keep(strokes: PageStrokes, path: list[list[tuple[float, float]]], curved: bool) -> None:
    for points in path:
        if curved:
            xs, ys = [x for x, _ in points], [y for _, y in points]
            strokes.circles.append(((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2, max(xs) - min(xs)))
        else:
            strokes.lines += [(*a, *b) for a, b in _pairs(points) if hypot(a[0] - b[0], a[1] - b[1]) > SAME_MM]


def _pairs(points: list[tuple[float, float]]) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    return itertools.pairwise(points)


def _at(m: tuple[float, ...], x: float, y: float) -> tuple[float, float]:
    return (m[0] * x + m[2] * y + m[4]) * MM_PER_PT, (m[1] * x + m[3] * y + m[5]) * MM_PER_PT


def _times(a: list[float], b: tuple[float, ...]) -> tuple[float, float, float, float, float, float]:
    return (
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    )
