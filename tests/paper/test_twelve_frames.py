"""Twelve frames, all seven hangers: every cross within 0.05 mm of sums made here from the measures alone.

The sums stand in ``twelve_frames.py``.
"""

import json
from itertools import pairwise
from typing import Any

import pytest

from composer.paper.full_size_paper import FullSizePaper
from composer.paper.page_index import to_json
from composer.paper.pdf import to_pdf
from composer.paper.primitives import Document
from composer.paper.sheets import sheet_named
from composer.paper.templates import templates
from composer.paper.whole_wall import whole_wall
from tests.paper.pdf_reading import PageStrokes, read_pages
from tests.paper.twelve_frames import LOWER_LEFT, NO_HOLES, POINTS, RAISED, SIZES, twelve

WITHIN_MM = 0.05
PAPERS = [
    ("a4", (1.0, 1.0)),
    ("letter", (1.0, 1.0)),
    ("roll-24in", (1.0, 1.0)),
    ("a4", (1.003, 0.998)),
    ("letter", (1.003, 0.998)),
    ("roll-24in", (1.003, 0.998)),
]


class Printed:
    """One PDF and its index, read back."""

    def __init__(self, sheet: str, scale: tuple[float, float], economy: Any = "full", wall: bool = False) -> None:
        project = twelve()
        paper = FullSizePaper(sheet_named(sheet), economy=economy, scale=scale)
        pages, index = (whole_wall if wall else templates)(project, project.arrangement, paper)
        self.data = to_pdf(Document("test", pages))
        self.index: dict[str, Any] = json.loads(to_json(index))
        self.pages: list[PageStrokes] = read_pages(self.data)
        self.scale = scale


_made: dict[Any, Printed] = {}


def _printed(*key: Any) -> Printed:
    if key not in _made:
        _made[key] = Printed(*key)
    return _made[key]


def _on_page(entry: dict[str, Any], scale: tuple[float, float], x: float, y: float) -> tuple[float, float]:
    """The formula of the index's description, written out again."""
    ox, oy = entry["origin"]
    if entry["rotated"]:
        return scale[0] * (-y - ox), scale[1] * (x - oy)
    return scale[0] * (x - ox), scale[1] * (y - oy)


def _near(a: tuple[float, float], b: tuple[float, float], within: float = WITHIN_MM) -> bool:
    return abs(a[0] - b[0]) <= within and abs(a[1] - b[1]) <= within


def _whole(at: tuple[float, float], half: float, printable: list[float]) -> bool:
    near = 1e-6
    return (
        at[0] - half >= printable[0] - near
        and at[0] + half <= printable[2] + near
        and at[1] - half >= printable[1] - near
        and at[1] + half <= printable[3] + near
    )


@pytest.mark.parametrize("economy", ["full", "outline", "corners", "points"])
@pytest.mark.parametrize(("sheet", "scale"), PAPERS)
def test_every_cross_is_where_it_belongs(sheet: str, scale: tuple[float, float], economy: str) -> None:
    printed = _printed(sheet, scale, economy)
    seen: dict[int, set[int]] = {number: set() for number in POINTS}
    expected_on: dict[int, list[tuple[float, float]]] = {}
    for entry in printed.index["pages"]:
        for place, (x, y) in enumerate(POINTS[entry["piece"]]):
            at = _on_page(entry, scale, x, y)
            if _whole(at, 6, entry["printable"]) and any(
                _near((p["page_x"], p["page_y"]), at, 1e-3) for p in entry["points"]
            ):
                expected_on.setdefault(entry["page"], []).append(at)
                seen[entry["piece"]].add(place)
    for number, points in POINTS.items():
        assert seen[number] == set(range(len(points))), f"piece {number} on {sheet}"
    for number, page in enumerate(printed.pages, 1):
        wanted = expected_on.get(number, [])
        found = page.crosses()
        assert len(found) == len(wanted), f"page {number} of {sheet}: {found} for {wanted}"
        for x, y, across, up in found:
            assert any(_near((x, y), at) for at in wanted), f"page {number}"
            assert across == pytest.approx(12, abs=0.01)
            assert up == pytest.approx(12, abs=0.01)


@pytest.mark.parametrize("economy", ["full", "outline", "corners", "points"])
@pytest.mark.parametrize(("sheet", "scale"), PAPERS)
def test_every_ring_is_where_the_nail_goes(sheet: str, scale: tuple[float, float], economy: str) -> None:
    printed = _printed(sheet, scale, economy)
    told: dict[int, set[int]] = {number: set() for number in POINTS}
    for page_number, page in enumerate(printed.pages, 1):
        wanted = []
        for entry in printed.index["pages"]:
            if entry["page"] != page_number or entry["piece"] in NO_HOLES:
                continue
            for place, (x, y) in enumerate(POINTS[entry["piece"]]):
                at = _on_page(entry, scale, x, y + RAISED.get(entry["piece"], 0.0))
                # One sheet a point shows that point alone, though another might lie on it too.
                here = any(_near((h["page_x"], h["page_y"]), at, 1e-3) for h in entry["holes"])
                if _whole(at, 4, entry["printable"]) and (here or economy != "points"):
                    wanted.append(at)
                    told[entry["piece"]].add(place)
        assert len(page.rings()) == len(wanted)
        assert all(any(_near(ring, at) for at in wanted) for ring in page.rings())
    for number, points in POINTS.items():
        assert told[number] == (set() if number in NO_HOLES else set(range(len(points))))


def _covered(stretches: list[tuple[float, float]], low: float, high: float) -> bool:
    at = low
    for start, end in sorted(stretches):
        if at >= high - 1e-3 or start > at + 1e-3:
            break
        at = max(at, end)
    return at >= high - 1e-3


@pytest.mark.parametrize("economy", ["full", "outline"])
@pytest.mark.parametrize(("sheet", "scale"), PAPERS)
def test_the_outline_is_covered_by_the_sheets(sheet: str, scale: tuple[float, float], economy: str) -> None:
    printed = _printed(sheet, scale, economy)
    for number, (wide, high) in SIZES.items():
        edges: dict[str, list[tuple[float, float]]] = {"left": [], "right": [], "bottom": [], "top": []}
        for entry in printed.index["pages"]:
            if entry["piece"] != number:
                continue
            ox, oy = entry["origin"]
            for x1, y1, x2, y2 in printed.pages[entry["page"] - 1].lines:
                a = (x1 / scale[0] + ox, y1 / scale[1] + oy)
                b = (x2 / scale[0] + ox, y2 / scale[1] + oy)
                if entry["rotated"]:
                    a, b = (a[1], -a[0]), (b[1], -b[0])
                for name, axis, at in (("left", 0, 0.0), ("right", 0, wide), ("bottom", 1, 0.0), ("top", 1, high)):
                    if abs(a[axis] - at) < WITHIN_MM and abs(b[axis] - at) < WITHIN_MM:
                        edges[name].append((min(a[1 - axis], b[1 - axis]), max(a[1 - axis], b[1 - axis])))
        for name, length in (("left", high), ("right", high), ("bottom", wide), ("top", wide)):
            assert _covered(edges[name], 0.0, length), f"piece {number}, {name} edge on {sheet}"


@pytest.mark.parametrize(("sheet", "scale"), PAPERS)
def test_the_whole_wall_has_every_cross(sheet: str, scale: tuple[float, float]) -> None:
    printed = _printed(sheet, scale, "full", True)
    found = set()
    for entry in printed.index["pages"]:
        assert entry["piece"] is None
        crosses = printed.pages[entry["page"] - 1].crosses()
        assert len(crosses) == len(entry["points"])
        for number, (left, bottom) in LOWER_LEFT.items():
            for place, (x, y) in enumerate(POINTS[number]):
                at = _on_page(entry, scale, left + x, bottom + y)
                if any(_near(cross[:2], at) for cross in crosses):
                    found.add((number, place))
    assert found == {(number, place) for number in LOWER_LEFT for place in range(len(POINTS[number]))}


@pytest.mark.parametrize("economy", ["full", "outline", "corners", "points"])
@pytest.mark.parametrize(("sheet", "scale"), PAPERS)
def test_the_index_tells_what_is_drawn(sheet: str, scale: tuple[float, float], economy: str) -> None:
    printed = _printed(sheet, scale, economy)
    assert printed.index["scale"] == list(scale)
    for entry in printed.index["pages"]:
        left, bottom, right, top = entry["printable"]
        width, height = entry["size"]
        assert (left, bottom) == (10, 10)
        assert (right, top) == (pytest.approx(width - 10), pytest.approx(height - 10))
        assert printed.pages[entry["page"] - 1].size == pytest.approx((width, height), abs=1e-3)
        if printed.index["sheet"][1] is None:
            assert width == pytest.approx(printed.index["sheet"][0])
        else:
            assert sorted((width, height)) == pytest.approx(printed.index["sheet"])
        rows, columns = entry["of"]
        assert 1 <= entry["row"] <= rows
        assert 1 <= entry["column"] <= columns
        assert entry["label"] == f"{entry['piece']}-{'ABCDEFGH'[entry['column'] - 1]}{entry['row']}"
        raised = RAISED.get(entry["piece"], 0.0)
        page = printed.pages[entry["page"] - 1]
        for found, up, drawn in (
            (entry["points"], 0.0, [cross[:2] for cross in page.crosses()]),
            (entry["holes"], raised, page.rings()),
        ):
            for spot in found:
                assert any(_near((spot["x"], spot["y"]), (x, y + up), 1e-3) for x, y in POINTS[entry["piece"]])
                at = (spot["page_x"], spot["page_y"])
                assert _near(_on_page(entry, scale, spot["x"], spot["y"]), at, 1e-5)
                assert any(_near(at, where, 0.01) for where in drawn)
    for number, page in enumerate(printed.pages, 1):
        entries = [entry for entry in printed.index["pages"] if entry["page"] == number]
        assert len(page.crosses()) == sum(len(entry["points"]) for entry in entries)
        assert len(page.rings()) == sum(len(entry["holes"]) for entry in entries)


def test_hung_pieces_come_first_by_number_and_only_once() -> None:
    order = [entry["piece"] for entry in _printed("a4", (1.0, 1.0), "full").index["pages"]]
    firsts = list(dict.fromkeys(order))
    assert firsts[-1] == 12
    alone = [number for number in firsts[:-1] if number not in {5, 9, 11}]
    assert all(first < second for first, second in pairwise(alone))


def test_labels_count_the_full_grid() -> None:
    pages = _printed("a4", (1.0, 1.0), "full").index["pages"]
    of_four = [entry for entry in pages if entry["piece"] == 4]
    rows, columns = of_four[0]["of"]
    assert len(of_four) == rows * columns == 8
    assert of_four[0]["label"] == "4-A1"
    assert {entry["label"] for entry in of_four} == {
        f"4-{'ABCDEFGH'[column]}{row}" for column in range(columns) for row in range(1, rows + 1)
    }
