"""Exports are to scale and read back: the table by Python's csv module, SVG by its XML parser, PNG by its pixels,
PDF by pypdf.
"""

import csv
import io
import json
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from composer.projectfile import store
from tests.commandline.conftest import Call
from tests.commandline.test_report import full_wall

SVG = "{http://www.w3.org/2000/svg}"

HEADER = [
    "name",
    "width",
    "height",
    "depth",
    "face",
    "lip",
    "sight-width",
    "sight-height",
    "glass-width",
    "glass-height",
    "rabbet-depth",
    "moulding",
    "moulding-thickness",
    "glazing",
    "glazing-thickness",
    "backing",
    "weight",
    "hanger",
    "drop",
    "drop-right",
    "spacing",
    "offset",
    "wire",
    "ring-drop",
    "hooks",
    "hook-spacing",
    "picture",
    "mat-border",
    "mat-bottom",
    "mat-overlap",
    "price",
    "owned",
    "count",
    "note",
]
"""The inventory table's columns as its description lists them."""

TYPED = {
    "width": "61.5 cm", "height": "24 1/4 in", "depth": "2 cm", "face": "28 mm", "lip": "7 mm",
    "sight-width": "55.9 cm", "sight-height": "56 cm", "glass-width": "57 cm", "glass-height": "57.2 cm",
    "rabbet-depth": "1 cm", "moulding": "pine", "moulding-thickness": "18 mm", "glazing": "acrylic",
    "glazing-thickness": "2 mm", "weight": "2 lb 4 oz", "hanger": "wire", "drop": "6 cm", "drop-right": "6.1 cm",
    "spacing": "53 cm", "offset": "-5 mm", "wire": "60 cm", "ring-drop": "100 mm", "hooks": "2",
    "hook-spacing": "20 cm", "picture": "scans/a b.jpg", "mat-border": "6 cm", "mat-bottom": "7 cm",
    "mat-overlap": "-3 mm", "price": "11.40", "owned": "yes", "note": "two, “quoted” \"words\"",
}  # fmt: skip


def rows_of(path: Path) -> list[dict[str, str]]:
    data = path.read_bytes()
    assert data.startswith(b"\xef\xbb\xbf")  # a BOM, as spreadsheets want it
    text = data[3:].decode("utf-8")
    assert text.count("\n") == text.count("\r\n")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_the_table_has_every_column_and_keeps_what_was_typed(tmp_path: Path, call: Call) -> None:
    table, file, out = tmp_path / "t.csv", tmp_path / "w.wallwright", tmp_path / "out.csv"
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(["name", *TYPED, "shelf"])
    writer.writerow(["Åse’s harbour", *TYPED.values(), "cellar"])
    table.write_text(text.getvalue(), encoding="utf-8")
    assert call("new", file, "--wall-width=4m", "--wall-height=2.5m", "--pieces", table).code == 0
    assert call("place", file, "1", "--left=1.5 m", "--bottom=4 ft", "--turned").code == 0
    assert call("export", file, "-o", out) == (0, "", "")
    (row,) = rows_of(out)
    assert list(row) == [*HEADER, "number", "left", "bottom", "turned", "locked", "shelf"]
    for column, typed in TYPED.items():
        assert row[column] == typed, column
    assert [row[name] for name in ("name", "number", "turned", "locked", "shelf", "count")] == [
        "Åse’s harbour", "1", "yes", "no", "cellar", "",
    ]  # fmt: skip
    # 4 ft = 4 · 304.8 mm
    assert (row["left"], row["bottom"]) == ("1500 mm", "1219.2 mm")


def test_formulas_are_disarmed(tmp_path: Path, call: Call) -> None:
    """A text that starts with = + - @ ' or a control character gets a ' in front (OWASP, CSV injection)."""
    names = ["=SUM(A1)", "+1", "-2", "@cmd", "'quoted", "plain", "=", "''", "a=b"]
    table, file, out = tmp_path / "t.csv", tmp_path / "w.wallwright", tmp_path / "out.csv"
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(["name", "width", "height", "note", "=odd"])
    for name in names:
        written = f"'{name}" if name[0] in "=+-@'" else name
        writer.writerow([written, "10 cm", "10 cm", written, written])
    table.write_text(text.getvalue(), encoding="utf-8")
    assert call("new", file, "--wall-width=4m", "--wall-height=2.5m", "--pieces", table).code == 0
    assert [piece.name for piece in store.load(file).project.pieces] == names
    assert call("export", file, "-o", out).code == 0
    for row in rows_of(out):
        for cell in (row["name"], row["note"], row["'=odd"]):
            assert cell[0] not in "=+-@"
    assert [row["name"][1:] if row["name"][0] == "'" else row["name"] for row in rows_of(out)] == names


def test_the_table_reads_back_as_the_same_pieces_unhung(tmp_path: Path, call: Call) -> None:
    file, out, again = full_wall(tmp_path, call), tmp_path / "out.csv", tmp_path / "again.wallwright"
    assert call("export", file, "-o", out).code == 0
    assert call("new", again, "--wall-width=4.8m", "--wall-height=2.5m", "--pieces", out) == (0, "", "")
    first, second = store.load(file).project, store.load(again).project
    assert [piece.number for piece in second.pieces] == [piece.number for piece in first.pieces]
    for one, other in zip(first.pieces, second.pieces, strict=True):
        assert (one.name, one.frame, one.hanger, one.weight, one.extra) == (
            other.name, other.frame, other.hanger, other.weight, other.extra,
        )  # fmt: skip
    assert second.arrangement.placements == ()
    once_more = tmp_path / "more.csv"
    assert call("export", again, "-o", once_more).code == 0
    places = {"left", "bottom", "turned", "locked"}
    for row, other_row in zip(rows_of(out), rows_of(once_more), strict=True):
        assert {name: cell for name, cell in row.items() if name not in places} == {
            name: cell for name, cell in other_row.items() if name not in places
        }


def test_svg_is_one_unit_to_the_millimetre_with_y_down(tmp_path: Path, call: Call) -> None:
    file, out = full_wall(tmp_path, call), tmp_path / "wall.svg"
    assert call("export", file, "-o", out) == (0, "", "")
    root = ET.parse(out).getroot()
    assert root.tag == f"{SVG}svg"
    box = [float(part) for part in root.attrib["viewBox"].split()]
    width, height = (float(re.sub("mm$", "", root.attrib[side])) for side in ("width", "height"))
    assert (width, height) == pytest.approx((box[2], box[3]))
    report = json.loads(call("report", file).out)
    (wall,) = report["walls"]
    groups = {group.attrib["id"]: group for group in root.iter(f"{SVG}g") if "id" in group.attrib}
    pieces = wall["pieces"]
    # Where the floor lies in the drawing: the same height for every piece.
    floors = set()
    for piece in pieces:
        rect = groups[f"piece-{piece['number']}"].find(f"{SVG}rect")
        assert rect is not None
        x, y, w, h = (float(rect.attrib[name]) for name in ("x", "y", "width", "height"))
        assert (w, h) == pytest.approx((piece["width"], piece["height"]), abs=1e-3)
        assert x == pytest.approx(piece["left"], abs=1e-3)
        floors.add(round(y + h + piece["bottom"], 3))
        assert box[0] <= x
        assert x + w <= box[0] + box[2]
        assert box[1] <= y
        assert y + h <= box[1] + box[3]
    assert floors == {wall["height"]}
    assert {f"piece-{piece['number']}" for piece in pieces} == {name for name in groups if name.startswith("piece-")}


@pytest.mark.parametrize(("width", "halvings"), [("3 m", 0), ("8 m", 0), ("9 m", 1), ("40 m", 3)])
def test_png_is_one_pixel_to_the_millimetre_halved_until_8000(
    width: str, halvings: int, tmp_path: Path, call: Call
) -> None:
    table, file, out = tmp_path / "t.csv", tmp_path / "w.wallwright", tmp_path / "w.png"
    table.write_text("name,width,height,hanger\nDark,60 cm,40 cm,ledge\n", encoding="utf-8")
    assert call("new", file, f"--wall-width={width}", "--wall-height=2.5m", "--pieces", table).code == 0
    assert call("export", file, "-o", out).code == 0
    bare = Image.open(out).convert("L")
    wall_mm = int(width.split()[0]) * 1000
    assert max(bare.size) <= 8000
    assert bare.size[0] == pytest.approx(wall_mm / 2**halvings, abs=1)
    assert bare.size[1] == pytest.approx(2500 / 2**halvings, abs=1)
    assert call("place", file, "1", "--left=1m", "--bottom=1m").code == 0
    assert call("export", file, "-o", out).code == 0
    hung = Image.open(out).convert("L")
    assert hung.size == bare.size
    pixels, before = hung.load(), bare.load()
    assert pixels is not None
    assert before is not None
    # Where the two pictures differ is where the piece hangs: 1000 to 1600 across, 1000 to 1400 up.
    step = 1
    changed = [
        (x, y)
        for x in range(0, hung.size[0], step)
        for y in range(0, hung.size[1], step)
        if pixels[x, y] != before[x, y]
    ]
    left, right = min(x for x, _ in changed), max(x for x, _ in changed) + 1
    top, bottom = min(y for _, y in changed), max(y for _, y in changed) + 1
    scale = 2**halvings
    assert (left, right) == pytest.approx((1000 / scale, 1600 / scale), abs=2)
    assert (top, bottom) == pytest.approx((1100 / scale, 1500 / scale), abs=2)


def test_pdf_is_the_elevation_on_the_usual_sheet(tmp_path: Path, call: Call) -> None:
    file, out, sheet = full_wall(tmp_path, call), tmp_path / "w.pdf", tmp_path / "e.pdf"
    assert call("export", file, "-o", out) == (0, "", "")
    assert call("paper", file, "elevation", "-o", sheet) == (0, "", "")
    page, same = PdfReader(out).pages[0], PdfReader(sheet).pages[0]
    # A4 is 210 × 297 mm (ISO 216); a point is 1/72 in.
    assert sorted(float(side) * 25.4 / 72 for side in page.mediabox[2:]) == pytest.approx([210, 297], abs=0.01)
    assert page.extract_text() == same.extract_text()


@pytest.mark.parametrize("name", ["w.csv", "w.svg", "w.png", "w.pdf", "W.PDF"])
def test_an_export_replaces_what_was_there_and_leaves_nothing_else(name: str, tmp_path: Path, call: Call) -> None:
    file, out = full_wall(tmp_path, call), tmp_path / name
    out.write_bytes(b"old")
    before = {path.name for path in tmp_path.iterdir()}
    assert call("export", file, "-o", out) == (0, "", "")
    first = out.read_bytes()
    assert first != b"old"
    assert {path.name for path in tmp_path.iterdir()} == before
    assert call("export", file, "-o", out) == (0, "", "")
    assert out.read_bytes() == first
