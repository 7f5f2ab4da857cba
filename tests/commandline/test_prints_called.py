"""Prints and mats by calls: the report's figures, print files, what is refused."""

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from composer.commandline.answers import Exit
from tests.commandline.conftest import Call
from tests.pictures.files import CHINA, COFFEE, HUBBLE, RETINA, ramp, real, saved

INCH = 25.4

TABLE = """name,width,height,face,lip,glass-width,glass-height,glazing,picture,mat-border,mat-bottom,mat-overlap
Boats,10 in,11 in,,,8 in,9 in,none,boats.jpg,,,
Retina,12 in,12 in,,,10 in,10 in,none,retina.jpg,2 5/8 in,,1/8 in
Deep sky,12 in,12 in,1 in,1/4 in,6 in,4 in,none,hubble.jpg,,,
Bare,30 cm,40 cm,,,,,none,,,,
Large,30 in,40 in,,,25 in,37 in,none,,,,
"""


@pytest.fixture(params=["metric", "imperial"])
def units(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def boats(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A picture of 24 million pixels."""
    image = ramp(600, 400).resize((6000, 4000))
    return saved(image, tmp_path_factory.mktemp("boats") / "boats.jpg", quality=85).read_bytes()


@pytest.fixture
def home(tmp_path: Path, call: Call, units: str, boats: bytes) -> Path:
    (tmp_path / "boats.jpg").write_bytes(boats)
    for name, which in (("retina.jpg", RETINA), ("hubble.jpg", HUBBLE)):
        (tmp_path / name).write_bytes(real(which).read_bytes())
    (tmp_path / "frames.csv").write_text(TABLE, encoding="utf-8")
    file = tmp_path / "home.wallwright"
    sizes = ("--wall-width", "4 m", "--wall-height", "2.5 m")
    made = call("new", file, *sizes, "--pieces", tmp_path / "frames.csv", "--units", units)
    assert made == (0, "", "")
    return file


def pieces(call: Call, file: Path) -> dict[str, Any]:
    report = json.loads(call("report", file).out)
    listed = [*report["floor"], *(piece for wall in report["walls"] for piece in wall["pieces"])]
    return {piece["name"]: piece for piece in listed}


def test_the_report_of_prints_and_mats(home: Path, call: Call) -> None:
    found = pieces(call, home)
    # 8 × 9 in of 6 000 × 4 000 pixels: the height rules, 4 000 ÷ 9; its 8 × 10 in sheet loses an inch below.
    assert found["Boats"]["print"] == {
        "needed": [pytest.approx(203.2), pytest.approx(228.6)],
        "stock": [pytest.approx(203.2), 254],
        "stock_name": "8x10in",
        "trim": [0, pytest.approx(25.4)],
        "trim_from": "bottom",
        "ppi": pytest.approx(444.444, abs=1e-3),
        "pixels": [6000, 4000],
        "crop_pixels": [pytest.approx(3555.556, abs=1e-3), 4000],
    }
    assert found["Boats"]["mat"] is None
    # 10 in − 2 · 2 5/8 = 4 3/4 in window, + 2 · 1/8 = 5 in print: 1 411 ÷ 5 = 282.2 ppi; 6 × 8 in covers it.
    retina = found["Retina"]
    assert retina["mat"]["outer"] == [254, 254]
    assert retina["mat"]["window"] == pytest.approx([4.75 * INCH] * 2)
    assert retina["mat"]["borders"] == pytest.approx(dict.fromkeys(("top", "bottom", "left", "right"), 2.625 * INCH))
    assert retina["print"]["needed"] == pytest.approx([127, 127])
    assert retina["print"]["stock_name"] == "5x7in"
    assert retina["print"]["trim"] == pytest.approx([0, 50.8])
    assert retina["print"]["ppi"] == pytest.approx(282.2)
    # 1 000 × 872 filling 6 × 4 in: 166.67 ppi; the sheet lies as the print does.
    sky = found["Deep sky"]["print"]
    assert sky["stock"] == pytest.approx([6 * INCH, 4 * INCH])
    assert (sky["trim"], sky["trim_from"]) == ([0, 0], "")
    assert sky["ppi"] == pytest.approx(166.667, abs=1e-3)
    assert sky["crop_pixels"] == [1000, pytest.approx(666.667, abs=1e-3)]
    assert found["Bare"]["print"] is None
    large = found["Large"]["print"]
    assert large["needed"] == pytest.approx([635, 939.8])
    assert (large["stock"], large["trim"], large["ppi"], large["pixels"]) == (None, None, None, None)
    findings = json.loads(call("check", home, "--json").out)
    assert [one["pieces"] for one in findings if one["code"] == "no-stock"] == [[5]]


def test_a_turned_piece_has_its_print_turned(home: Path, call: Call) -> None:
    call("place", home, "Deep sky", "--left=10cm", "--bottom=1m", "--turned")
    sky = pieces(call, home)["Deep sky"]["print"]
    assert sky["needed"] == pytest.approx([4 * INCH, 6 * INCH])
    assert sky["stock"] == pytest.approx([4 * INCH, 6 * INCH])
    assert sky["crop_pixels"] == pytest.approx([872 * 4 / 6, 872])


def test_a_cheaper_size_wins(home: Path, call: Call, tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text("item,each,pack\n8x10in,3.00,1\n8x12in,2.50,1\n", encoding="utf-8")
    assert call("add", home, "prices", tmp_path / "prices.csv").code == 0
    boats = pieces(call, home)["Boats"]["print"]
    assert boats["stock_name"] == "8x12in"
    assert boats["trim"] == pytest.approx([0, 3 * INCH])


def test_print_files_are_written_and_listed(home: Path, call: Call, tmp_path: Path) -> None:
    target = tmp_path / "prints"
    answer = call("print-files", home, "-o", target)
    assert answer.code == 0, answer.err
    assert [Path(line).name for line in answer.out.splitlines()] == [
        "01_8x10in_boats.jpg", "02_5x7in_retina.jpg", "03_4x6in_deep-sky.jpg",
    ]  # fmt: skip
    sizes = {}
    for path in sorted(target.iterdir()):
        with Image.open(path) as image:
            sizes[path.name] = image.size
    # inches × 300.
    assert sizes == {
        "01_8x10in_boats.jpg": (2400, 3000),
        "02_5x7in_retina.jpg": (1500, 2100),
        "03_4x6in_deep-sky.jpg": (1800, 1200),
    }
    assert "4" in answer.err and "5" in answer.err  # the two that get none are told
    digests = [hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(target.iterdir())]
    assert call("print-files", home, "-o", target).code == 0
    assert digests == [hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(target.iterdir())]


def test_one_piece_as_a_lossless_file(home: Path, call: Call, tmp_path: Path) -> None:
    answer = call("print-files", home, "-o", tmp_path / "p", "--only", "3", "--format", "png")
    assert (answer.code, answer.err) == (0, "")
    assert [path.name for path in (tmp_path / "p").iterdir()] == ["03_4x6in_deep-sky.png"]


def test_what_is_wrong_with_pictures(home: Path, call: Call, tmp_path: Path) -> None:
    out = tmp_path / "prints"
    boats = tmp_path / "boats.jpg"
    data = boats.read_bytes()
    boats.write_bytes(real(COFFEE).read_bytes())
    codes = {one["code"] for one in json.loads(call("check", home, "--json").out) if one["pieces"] == [1]}
    assert "picture-changed" in codes
    assert pieces(call, home)["Boats"]["print"]["pixels"] == [600, 400]
    boats.write_bytes(data[: len(data) // 2])
    codes = {one["code"] for one in json.loads(call("check", home, "--json").out) if one["pieces"] == [1]}
    assert "picture-unreadable" in codes
    answer = call("print-files", home, "-o", out)
    assert answer.code == Exit.WRONG
    assert len(answer.err.splitlines()) == 1 and "boats.jpg" in answer.err
    boats.unlink()
    codes = {one["code"] for one in json.loads(call("check", home, "--json").out) if one["pieces"] == [1]}
    assert "picture-missing" in codes
    answer = call("print-files", home, "-o", out)
    assert answer.code == Exit.FILES
    assert len(answer.err.splitlines()) == 1 and "boats.jpg" in answer.err
    assert not out.exists()


def test_nothing_to_write_and_nowhere_to_write_it(home: Path, call: Call, tmp_path: Path) -> None:
    assert call("print-files", home, "-o", tmp_path / "p", "--only", "4").code == Exit.NO
    assert call("print-files", home, "-o", tmp_path / "gone" / "p").code == Exit.FILES
    assert call("print-files", home, "-o", tmp_path / "frames.csv").code == Exit.WRONG
    assert call("print-files", home, "-o", tmp_path / "p", "--format", "bmp").code == Exit.WRONG
    assert call("print-files", home, "-o", tmp_path / "p", "--only", "77").code == Exit.WRONG
    assert not (tmp_path / "p").exists()


def test_small_prints_share_a_sheet_when_that_is_cheaper(call: Call, tmp_path: Path) -> None:
    for name, which in (("china.jpg", CHINA), ("coffee.png", COFFEE)):
        (tmp_path / name).write_bytes(real(which).read_bytes())
    rows = "name,width,height,glass-width,glass-height,picture,count\n"
    rows += "A,5 in,6 in,3 in,4 in,china.jpg,2\nB,7 in,5 in,5 in,3 in,coffee.png,1\n"
    (tmp_path / "small.csv").write_text(rows, encoding="utf-8")
    prices = "item,each\n3.5x5in,1.00\n4x6in,1.00\n8x10in,1.50\n"
    (tmp_path / "prices.csv").write_text(prices, encoding="utf-8")
    file = tmp_path / "small.wallwright"
    wall = ("--wall-width", "4 m", "--wall-height", "2.5 m", "--units", "imperial")
    assert call("new", file, *wall, "--pieces", tmp_path / "small.csv").code == 0
    assert call("add", file, "prices", tmp_path / "prices.csv").code == 0
    answer = call("print-files", file, "-o", tmp_path / "p", "--multi-up")
    assert answer.code == 0, answer.err
    # 3 single prints cost 3.00, one 8 × 10 in 1.50: 2 × (3 × 4) + 5 × 3 = 39 of its (8 − 1.26) × (10 − 1.26) = 59 in².
    (shared,) = (tmp_path / "p" / "multi-up").iterdir()
    assert shared.name.startswith("01_8x10in_")
    with Image.open(shared) as image:
        assert image.size == (3000, 2400)
        image.load()


def test_print_crop_and_mat_are_set_by_keys(home: Path, call: Call) -> None:
    answer = call(
        "set", home, "piece.1.stock=8 × 12 in", "piece.1.cut=right", "piece.1.zoom=2", "piece.1.crop=0,0",
        "piece.1.print-price=1.20", "piece.1.source=city archive", "piece.1.licence=free of rights",
        "piece.2.mat-weight=1/2 in", "piece.2.mat-window=4 3/4 in x 4 1/4 in",
        "piece.2.mat-boards=mat-4-ply white; mat-4-ply dark red 5 mm", "piece.2.bevel=no",
    )  # fmt: skip
    assert answer == (0, "", "")
    found = pieces(call, home)
    boats = found["Boats"]["print"]
    assert (boats["stock_name"], boats["trim"], boats["trim_from"]) == ("8x12in", [0, pytest.approx(76.2)], "bottom")
    # Zoomed twice, half as many pixels each way: 444.4 ÷ 2.
    assert boats["ppi"] == pytest.approx(222.222, abs=1e-3)
    # 10 − 4 1/4 = 5 3/4 = top + top + 1/2: 2 5/8 above, 3 1/8 below.
    mat = found["Retina"]["mat"]
    assert mat["window"] == pytest.approx([4.75 * INCH, 4.25 * INCH])
    assert (mat["borders"]["top"], mat["borders"]["bottom"]) == pytest.approx((2.625 * INCH, 3.125 * INCH))
    saved_project = json.loads(home.read_text(encoding="utf-8"))["project"]
    layers = saved_project["pieces"][1]["mat"]["layers"]
    assert layers == [
        {"board": "mat-4-ply", "colour": "white"},
        {"board": "mat-4-ply", "colour": "dark red", "reveal": "5 mm"},
    ]
    assert saved_project["pictures"][0]["licence"] == "free of rights"
    assert call("set", home, "piece.2.mat-weight=3:4").code == 0
    borders = pieces(call, home)["Retina"]["mat"]["borders"]
    assert borders["bottom"] / borders["top"] == pytest.approx(4 / 3)


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("piece.1.stock=9x9in", "9x9in"),
        ("piece.1.cut=up", "up"),
        ("piece.1.zoom=0.5", "zoom"),
        ("piece.1.cut=1", "centred"),
        ("piece.1.edge=torn", "plain"),
        ("piece.1.picture-turn=45", "90"),
        ("piece.1.tilt=steep", "steep"),
        ("piece.1.bevel=perhaps", "perhaps"),
        ("piece.1.print-price=dear", "dear"),
        ("piece.1.crop=a,b", "“a”"),
        ("piece.1.mat-window=10 cm x wide", "wide"),
        ("piece.1.mat-weight=much", "much"),
        ("piece.1.backing-thickness=thin", "thin"),
        ("piece.1.zoom=much", "much"),
        ("piece.1.crop=0.5", "0.5"),
        ("piece.1.tilt=45", "45"),
        ("piece.4.stock=8x10in", "picture"),
        ("piece.1.mat-boards=cardboard", "cardboard"),
        ("piece.1.mat-window=10 cm", "10 cm"),
    ],
)
def test_wrong_print_keys_are_one_line(home: Path, call: Call, key: str, told: str) -> None:
    before = home.read_bytes()
    answer = call("set", home, key)
    assert answer.code == Exit.WRONG
    assert len(answer.err.splitlines()) == 1
    assert told in answer.err
    name = key.partition("=")[0]
    assert answer.err.count(f"{name}: ") == answer.err.count(f"{name.rpartition('.')[2]}: ") == 1
    assert home.read_bytes() == before


def test_a_price_of_the_chosen_paper_decides(home: Path, call: Call, tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text(
        "item,each\n8x10in,1.00\n8x10in lustre,3.00\n8x12in lustre,2.00\n", encoding="utf-8"
    )
    assert call("add", home, "prices", tmp_path / "prices.csv").code == 0
    assert pieces(call, home)["Boats"]["print"]["stock_name"] == "8x10in"
    assert call("set", home, "piece.1.print-paper=Lustre").code == 0
    assert pieces(call, home)["Boats"]["print"]["stock_name"] == "8x12in"
