"""The call ``paper``: its options reach the sheets, its index has its keys in order, paper is written whole or not."""

import json
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from composer.paper.kinds import KINDS
from tests.commandline.conftest import Call
from tests.commandline.test_report import full_wall

MM = 25.4 / 72
"""Millimetres to the PDF's point, 1/72 in (ISO 32000-1, 8.3.2.3)."""


def indexed(file: Path, call: Call, *options: str, kind: str = "templates") -> dict[str, Any]:
    pdf, index = file.parent / "p.pdf", file.parent / "i.json"
    assert call("paper", file, kind, "-o", pdf, "--index", index, *options) == (0, "", "")
    return json.loads(index.read_text(encoding="utf-8"))  # type: ignore[no-any-return]


KEYS = ["page", "piece", "label", "row", "column", "of", "origin", "rotated", "printable", "size", "points", "holes"]


def test_the_index_has_its_keys_in_order(tmp_path: Path, call: Call) -> None:
    index = indexed(full_wall(tmp_path, call), call)
    assert list(index) == ["sheet", "scale", "pages"]
    assert (index["sheet"], index["scale"]) == ([210, 297], [1, 1])
    for page in index["pages"]:
        assert list(page) == KEYS
        for point in page["points"]:
            assert list(point) == ["x", "y", "what", "page_x", "page_y"]
        for hole in page["holes"]:
            assert list(hole) == ["x", "y", "page_x", "page_y"]
    raw = (tmp_path / "i.json").read_bytes()
    assert b"\r" not in raw
    assert b"NaN" not in raw


def test_every_page_of_the_index_is_a_page_of_the_pdf_of_that_size(tmp_path: Path, call: Call) -> None:
    for options in ((), ("--sheet", "letter"), ("--sheet", "30x40cm"), ("--sheet", "roll-24in")):
        index = indexed(full_wall(tmp_path / str(len(list(tmp_path.iterdir()))), call), call, *options)
        folder = max(tmp_path.iterdir(), key=lambda path: int(path.name))
        pages = PdfReader(folder / "p.pdf").pages
        for entry in index["pages"]:
            box = pages[entry["page"] - 1].mediabox
            assert [float(box.width) * MM, float(box.height) * MM] == pytest.approx(entry["size"], abs=0.01)


@pytest.mark.parametrize(
    ("sheet", "size"),
    [
        # ISO 216; ANSI/ASME Y14.1 for letter and tabloid; US government legal paper 8 1/2 × 14 in.
        ("a4", [210, 297]),
        ("a3", [297, 420]),
        ("a2", [420, 594]),
        ("a1", [594, 841]),
        ("a0", [841, 1189]),
        ("letter", [215.9, 279.4]),
        ("legal", [215.9, 355.6]),
        ("tabloid", [279.4, 431.8]),
        ("roll-24in", [609.6, None]),
        ("roll-610mm", [609.6, None]),
        ("roll-36in", [914.4, None]),
        ("roll-914mm", [914.4, None]),
        ("30x40cm", [300, 400]),
        ("12in x 18in", [304.8, 457.2]),
    ],
)
def test_sheets(sheet: str, size: list[float | None], tmp_path: Path, call: Call) -> None:
    assert indexed(full_wall(tmp_path, call), call, "--sheet", sheet, "--only", "3")["sheet"] == size


def test_margins_are_left_bottom_right_top(tmp_path: Path, call: Call) -> None:
    file = full_wall(tmp_path, call)
    apart = indexed(file, call, "--margins", "5mm,10mm,15mm,20mm", "--only", "3")["pages"]
    alike = indexed(file, call, "--margins", "1", "--only", "3")["pages"]  # a bare 1 is a centimetre here
    assert apart and alike
    for page in apart:
        assert page["printable"] == [5, 10, page["size"][0] - 15, page["size"][1] - 20]
    for page in alike:
        assert page["printable"] == [10, 10, page["size"][0] - 10, page["size"][1] - 10]


def test_scale_is_passed_on(tmp_path: Path, call: Call) -> None:
    index = indexed(full_wall(tmp_path, call), call, "--scale", "1.003,0.998", "--only", "4")
    assert index["scale"] == [1.003, 0.998]
    for page in index["pages"]:
        for point in page["points"]:
            # page = (sx·(x − ox), sy·(y − oy)), piece coordinates
            assert point["page_x"] == pytest.approx(1.003 * (point["x"] - page["origin"][0]), abs=1e-5)
            assert point["page_y"] == pytest.approx(0.998 * (point["y"] - page["origin"][1]), abs=1e-5)


def test_only_and_wall_choose_pieces(tmp_path: Path, call: Call) -> None:
    file = full_wall(tmp_path, call)
    assert {page["piece"] for page in indexed(file, call, "--only", "3, Rings")["pages"]} == {3, 4}
    assert call("add", file, "wall", "Hall", "--width=2m", "--height=2m").code == 0
    assert call("place", file, "5", "--left=1m", "--bottom=1m", "--wall=Hall").code == 0
    assert 5 in {page["piece"] for page in indexed(file, call)["pages"]}  # all walls
    hall = {page["piece"] for page in indexed(file, call, "--wall", "hall")["pages"]}
    assert 5 in hall
    assert 4 not in hall


def test_the_whole_wall_is_one_grid(tmp_path: Path, call: Call) -> None:
    """Pieces from 600 to 4300 across and 1000 to 2000 up, grown by 10 mm: outlines lie inside what is printed."""
    pages = indexed(full_wall(tmp_path, call), call, "--sheet", "a3", kind="wall")["pages"]
    assert {page["piece"] for page in pages} == {None}
    assert all(page["label"].startswith("W-") for page in pages)
    left = min(page["origin"][0] + page["printable"][0] for page in pages)
    right = max(page["origin"][0] + page["printable"][2] for page in pages)
    low = min(page["origin"][1] + page["printable"][1] for page in pages)
    high = max(page["origin"][1] + page["printable"][3] for page in pages)
    assert left <= 590
    assert right >= 4310
    assert low <= 990
    assert high >= 2010


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_built_is_written_or_says_that_it_is_empty(kind: str, tmp_path: Path, call: Call) -> None:
    file, out = full_wall(tmp_path, call), tmp_path / "p.pdf"
    answer = call("paper", file, kind, "-o", out)
    assert answer.code in (0, 1), answer.err
    assert out.exists() == (answer.code == 0)
    if answer.code == 0:
        assert (answer.out, answer.err) == ("", "")
        first = out.read_bytes()
        assert len(PdfReader(out).pages) > 0
        assert call("paper", file, kind, "-o", out).code == 0
        assert out.read_bytes() == first  # the same paper, byte for byte
    else:
        assert answer.err.count("\n") == 1


def test_a_mistyped_size_does_not_fill_the_memory_with_sheets(tmp_path: Path, call: Call) -> None:
    """A frame of 90 by 90 m on A4 would take some 169 000 sheets."""
    table, file = tmp_path / "t.csv", tmp_path / "w.wallwright"
    table.write_text("name,width,height,hanger,drop\nBig,90m,90m,sawtooth,1cm\n", encoding="utf-8")
    assert call("new", file, "--wall-width=100m", "--wall-height=100m", "--pieces", table).code == 0
    answer = call("paper", file, "templates", "-o", tmp_path / "t.pdf")
    assert (answer.code, answer.out, answer.err.count("\n")) == (2, "", 1)
    assert "sheets would be needed" in answer.err
    assert not (tmp_path / "t.pdf").exists()
