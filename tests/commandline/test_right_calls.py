"""What the changing calls do: each key of ``set`` lands, tables become pieces, OUT is written as promised."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from composer.__main__ import main as program
from composer.model import Project
from composer.projectfile import store
from tests.commandline.conftest import Call

ROOT = Path(__file__).resolve().parents[2]


def saved(file: Path) -> Project:
    return store.load(file).project


Look = Callable[[Project], object]

KEYS: list[tuple[str, Look, object]] = [
    ("title=Über dem Sofa", lambda project: project.title, "Über dem Sofa"),
    ("units=imperial", lambda project: project.units, "imperial"),
    ("currency=GBP", lambda project: project.currency, "GBP"),
    ("region=uk", lambda project: project.region, "uk"),
    ("quake=yes", lambda project: project.quake, True),
    ("budget=120", lambda project: str(project.money.budget), "120"),
    ("budget=1 200,50", lambda project: str(project.money.budget), "1200.50"),
    ("budget=", lambda project: project.money.budget, None),
    ("gap=2 1/2 in", lambda project: project.arrangement.gap.text, "2 1/2 in"),
    ("gap=0", lambda project: float(project.arrangement.gap.mm), 0.0),
    ("wall.name=Hall", lambda project: project.walls[0].name, "Hall"),
    ("wall.width=12 ft 6 in", lambda project: project.walls[0].width.text, "12 ft 6 in"),
    ("wall.height=2,4m", lambda project: project.walls[0].height.text, "2.4 m"),
    ("wall.kind=lath", lambda project: project.walls[0].surface, "lath"),
    ("wall.no-holes=yes", lambda project: project.walls[0].no_holes, True),
    ("wall.left-end=door", lambda project: project.walls[0].left_end, "door"),
    ("wall.right-end=free", lambda project: project.walls[0].right_end, "free"),
    ("wall.eye-line=155", lambda project: str(project.walls[0].eye_line), "155 cm"),
    ("wall.viewing-distance=2m", lambda project: str(project.walls[0].viewing_distance), "2 m"),
    ("wall.stud-first=10cm", lambda project: str(project.walls[0].stud_first), "10 cm"),
    ("wall.stud-spacing=16in", lambda project: str(project.walls[0].stud_spacing), "16 in"),
    ("wall.nosing=0,200 2000,1500", lambda project: project.walls[0].nosing, ((0.0, 200.0), (2000.0, 1500.0))),
    ("wall.nosing=", lambda project: project.walls[0].nosing, None),
    (
        "wall.datum=1m",
        lambda project: (project.walls[0].datum.height, str(project.walls[0].datum.line)),
        ("line", "1 m"),
    ),
    ("wall.datum=Floor", lambda project: (project.walls[0].datum.height, project.walls[0].datum.line), ("floor", None)),
    (
        "wall.outline=0,0 3600,0 3600,1800 2400,2500 0,2500",
        lambda project: (project.walls[0].outline, float(project.walls[0].width.mm), float(project.walls[0].height.mm)),
        (((0.0, 0.0), (3600.0, 0.0), (3600.0, 1800.0), (2400.0, 2500.0), (0.0, 2500.0)), 3600.0, 2500.0),
    ),
    ("piece.1.fixing=hook-slim", lambda project: getattr(project.pieces[0].hardware, "fixing", None), "hook-slim"),
    ("piece.4.drop=6,5 cm", lambda project: str(project.pieces[3].hanger.drop), "6.5 cm"),
    ("piece.Moth.wire=30cm", lambda project: str(project.pieces[1].hanger.wire), "30 cm"),
    ("piece.MOTH.hooks=2", lambda project: project.pieces[1].hanger.hooks, 2),
    ("piece.1.Drop_Right=4.1cm", lambda project: str(project.pieces[0].hanger.drop_right), "4.1 cm"),
    ("piece.1.picture=scans/boats.jpg", lambda project: project.pictures[0].path, "scans/boats.jpg"),
    ("piece.3.offset=-5mm", lambda project: str(project.pieces[2].hanger.offset), "-5 mm"),
    ("piece.3.owned=yes", lambda project: project.pieces[2].owned, True),
    ("piece.3.price=12,50", lambda project: str(project.pieces[2].price), "12.50"),
    ("piece.3.note=a = b", lambda project: project.pieces[2].note, "a = b"),
]


@pytest.mark.parametrize(("pair", "look", "expected"), KEYS, ids=[pair for pair, _, _ in KEYS])
def test_every_key_lands(pair: str, look: Look, expected: object, file: Path, call: Call) -> None:
    assert call("set", file, pair) == (0, "", "")
    assert look(saved(file)) == expected


def test_keys_with_a_wall_change_that_wall(file: Path, call: Call) -> None:
    assert call("add", file, "wall", "Hall", "--width", "2 m", "--height", "8 ft") == (0, "", "")
    assert call("set", file, "wall.eye-line=160cm", "wall.kind=masonry", "--wall", "HALL") == (0, "", "")
    first, hall = saved(file).walls
    assert (hall.name, hall.width.text, hall.height.text) == ("Hall", "2 m", "8 ft")
    assert (str(hall.eye_line), hall.surface) == ("160 cm", "masonry")
    assert str(first.eye_line) != "160 cm"
    assert call("place", file, "1", "--left=10cm", "--bottom=1m", "--wall=hall").code == 0
    assert saved(file).arrangement.placements[0].wall == hall.key
    report = json.loads(call("report", file).out)
    assert [wall["name"] for wall in report["walls"]] == ["Wall", "Hall"]
    assert [piece["number"] for piece in report["walls"][1]["pieces"]] == [1]


@pytest.mark.parametrize(
    ("units", "sizes", "gap", "eye_line", "lip", "allowance", "sheet"),
    [
        # The defaults the calls promise: 50 mm or 2 in, 1 450 mm or 57 in, 6 mm or 1/4 in, 3 mm or 1/8 in.
        ("metric", ("400 cm", "250 cm"), 50, 1450, 6, 3, (210, 297)),
        ("imperial", ("400 in", "250 in"), 50.8, 1447.8, 6.35, 3.175, (215.9, 279.4)),
    ],
)
def test_a_new_project_has_its_units_usual_values(
    units: str,
    sizes: tuple[str, str],
    gap: float,
    eye_line: float,
    lip: float,
    allowance: float,
    sheet: tuple[float, float],
    tmp_path: Path,
    call: Call,
) -> None:
    table, file, index = tmp_path / "t.csv", tmp_path / "w.wallwright", tmp_path / "i.json"
    table.write_text("name,width,height,hanger,drop\nA,8,10,sawtooth,1\n", encoding="utf-8")
    made = call("new", file, "--wall-width=400", "--wall-height=250", "--units", units, "--pieces", table)
    assert made == (0, "", "")
    project = saved(file)
    assert (project.walls[0].width.text, project.walls[0].height.text) == sizes
    assert (project.units, project.title, project.arrangement.name) == (units, "w", "first")
    assert float(project.arrangement.gap.mm) == pytest.approx(gap)
    frame = project.pieces[0].frame
    assert frame.lip is not None
    assert frame.allowance is not None
    assert [float(frame.lip.mm), float(frame.allowance.mm)] == pytest.approx([lip, allowance])
    assert json.loads(call("report", file).out)["walls"][0]["eye_line"] == eye_line
    assert call("paper", file, "templates", "-o", tmp_path / "t.pdf", "--index", index).code == 0
    assert tuple(json.loads(index.read_text(encoding="utf-8"))["sheet"]) == sheet


def test_new_takes_title_and_currency(tmp_path: Path, call: Call) -> None:
    file = tmp_path / "w.wallwright"
    assert call("new", file, "--wall-width=4m", "--wall-height=2m", "--title=Über", "--currency=SEK") == (0, "", "")
    assert (saved(file).title, saved(file).currency) == ("Über", "SEK")
    assert saved(file).pieces == ()
    assert [path.name for path in tmp_path.iterdir() if not path.name.startswith(".")] == ["w.wallwright"]


def test_rows_are_added_and_numbers_run_on(file: Path, call: Call) -> None:
    table = file.parent / "more.csv"
    table.write_text(
        "Name;WIDTH [mm];height;Count;colour\nFern;210;28,3 cm;2;green\n'=cmd;300;1 ft;;\n", encoding="utf-8"
    )
    answer = call("add", file, "pieces", table)
    assert (answer.code, answer.out) == (0, "")
    assert answer.err.count("\n") == 1  # an unknown column is told once
    assert "“colour”" in answer.err
    added = saved(file).pieces[4:]
    assert [(piece.number, piece.name, piece.frame.width.text) for piece in added] == [
        (5, "Fern 1", "210 mm"),
        (6, "Fern 2", "210 mm"),
        (7, "=cmd", "300 mm"),
    ]
    assert added[0].extra == (("colour", "green"),)


def test_obstacles_and_prices_are_added(file: Path, call: Call) -> None:
    table = file.parent / "t.csv"
    table.write_text(
        "kind,name,left,bottom,width,height,depth,margin\nsofa,Sofa,60 cm,0,2 m,85,90,\nswitch,,-1,1.05 m,8,8,0,0\n",
        encoding="utf-8",
    )
    assert call("add", file, "obstacles", table) == (0, "", "")
    sofa, switch = saved(file).walls[0].obstacles
    assert (sofa.kind, sofa.name, sofa.left, sofa.bottom) == ("sofa", "Sofa", 600.0, 0.0)
    assert (sofa.width.text, str(sofa.depth), sofa.margin) == ("2 m", "90 cm", None)
    assert (switch.left, str(switch.depth), str(switch.margin)) == (-10.0, "0 cm", "0 cm")
    table.write_text("item,each,pack,in-drawer\nhook-slim,2.10,4,3\nplaster,1,,\n", encoding="utf-8")
    assert call("add", file, "prices", table) == (0, "", "")
    money = saved(file).money
    assert [(price.item, str(price.each), price.pack) for price in money.prices] == [
        ("hook-slim", "2.10", 4),
        ("plaster", "1", 1),
    ]
    assert [(item.item, item.count) for item in money.in_drawer] == [("hook-slim", 3)]


def test_place_tells_what_it_makes_wrong_and_does_it_all_the_same(file: Path, call: Call) -> None:
    assert call("place", file, "1", "--left=1m", "--bottom=1m") == (0, "", "")
    answer = call("place", file, "2", "--left", "1.2m", "--bottom", "1.3m")
    assert (answer.code, answer.out) == (0, "")
    assert answer.err.startswith("stop overlap #1,#2 ")
    answer = call("place", file, "2", "--left=-5cm", "--bottom", "1m", "--turned")
    assert answer.err.startswith("stop outside-wall #2 ")
    placement = {place.piece: place for place in saved(file).arrangement.placements}[saved(file).pieces[1].key]
    assert (placement.left, placement.bottom, placement.turned) == (-50.0, 1000.0, True)


def test_a_locked_piece_is_a_no(file: Path, call: Call) -> None:
    assert call("place", file, "1", "--left=1m", "--bottom=1m").code == 0
    project = saved(file)
    arrangement = project.arrangement
    locked = tuple(replace(place, locked=True) for place in arrangement.placements)
    store.save(file, replace(project, arrangements=(replace(arrangement, placements=locked),)))
    before = file.read_bytes()
    answer = call("place", file, "1", "--left=2m", "--bottom=1m")
    assert (answer.code, answer.out, answer.err.count("\n")) == (1, "", 1)
    assert "locked" in answer.err
    assert file.read_bytes() == before


def test_implausible_sizes_are_taken_with_a_finding(file: Path, call: Call) -> None:
    """Plausible: a side of 20 mm to 3 m, a face or depth of 3 to 120 mm."""
    assert call("set", file, "piece.1.width=19mm", "piece.1.face=", "piece.1.lip=", "piece.2.height=301cm").code == 0
    assert call("set", file, "piece.3.depth=121mm", "piece.4.face=2mm", "piece.4.lip=1mm").code == 0
    lines = call("check", file).out.splitlines()
    told = {line.split()[2] for line in lines if line.split()[1] == "implausible"}
    assert {"#1", "#2", "#3", "#4"} <= told
    assert call("set", file, "piece.1.width=20mm", "piece.2.height=3m", "piece.3.depth=120mm").code == 0
    assert call("set", file, "piece.4.face=3mm").code == 0
    assert not [line for line in call("check", file).out.splitlines() if line.split()[1] == "implausible"]


def test_out_is_written_and_the_file_itself_stays(file: Path, call: Call) -> None:
    before, out = file.read_bytes(), file.parent / "other.wallwright"
    assert call("set", file, "title=New", "-o", out) == (0, "", "")
    assert file.read_bytes() == before
    assert saved(out).title == "New"
    assert not out.with_name("other.wallwright.bak").exists()
    first = out.read_bytes()
    assert call("set", file, "title=Newer", "-o", out) == (0, "", "")
    assert out.with_name("other.wallwright.bak").read_bytes() == first
    assert saved(out).title == "Newer"


def test_in_place_the_old_file_stays_as_bak_and_nothing_changed_is_nothing_written(file: Path, call: Call) -> None:
    before = file.read_bytes()
    assert call("set", file, "title=New") == (0, "", "")
    assert file.with_name(f"{file.name}.bak").read_bytes() == before
    stamp = file.stat().st_mtime_ns, file.read_bytes()
    assert call("set", file, "title=New") == (0, "", "")
    assert (file.stat().st_mtime_ns, file.read_bytes()) == stamp


def test_a_piece_named_like_a_number_is_found_by_the_number_first(file: Path, call: Call) -> None:
    assert call("set", file, "piece.4.name=2").code == 0
    assert call("place", file, "2", "--left=1m", "--bottom=1m").code == 0
    project = saved(file)
    assert project.arrangement.placements[0].piece == project.pieces[1].key


def test_pictures_are_counted_from_the_table_and_from_where_the_project_goes(tmp_path: Path, call: Call) -> None:
    inventory, home = tmp_path / "lists", tmp_path / "home"
    inventory.mkdir()
    home.mkdir()
    (inventory / "gull.jpg").write_bytes(b"not decoded here")
    table = inventory / "t.csv"
    table.write_text("name,width,height,picture\nGull,10cm,10cm,gull.jpg\n", encoding="utf-8")
    file = home / "w.wallwright"
    assert call("new", file, "--wall-width=4m", "--wall-height=2m", "--pieces", table).code == 0
    assert saved(file).pictures[0].path == "../lists/gull.jpg"
    assert call("set", file, "title=x", "-o", inventory / "w.wallwright").code == 0
    assert saved(inventory / "w.wallwright").pictures[0].path == "gull.jpg"
    assert call("export", file, "-o", inventory / "again.csv").code == 0
    assert ",gull.jpg," in (inventory / "again.csv").read_text(encoding="utf-8-sig")


def test_a_file_named_like_a_call_is_opened_with_its_folder(
    tmp_path: Path, call: Call, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "report").write_text("{}", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert call("report").code == 2  # the call, with its file missing
    opened: list[Any] = []

    def remember(*words: str) -> int:
        opened.append(words)
        return 0

    monkeypatch.setattr("composer.__main__._open", remember)
    assert program(["./report"]) == 0
    assert program(["report.wallwright"]) == 0
    assert opened == [("./report",), ("report.wallwright",)]


@pytest.mark.parametrize("way", [["-m", "composer"], ["-c", "import composer.__main__ as m, sys; sys.exit(m.main())"]])
def test_the_module_is_the_program(way: list[str], file: Path) -> None:
    done = subprocess.run(
        [sys.executable, *way, "check", str(file)], cwd=ROOT, capture_output=True, check=False, timeout=60
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout.decode("utf-8").startswith(("warn ", "note "))


def test_keys_may_need_each_other_in_any_order(file: Path, call: Call) -> None:
    """A frame 40 × 50 cm with a face of 25 mm becomes 4 cm wide with one of 1 cm: neither alone would do."""
    assert call("set", file, "piece.1.width=4cm", "piece.1.lip=8mm", "piece.1.face=1cm") == (0, "", "")
    frame = saved(file).pieces[0].frame
    assert (frame.width.text, str(frame.face)) == ("4 cm", "1 cm")
    assert call("set", file, "piece.1.mat-bottom=6cm", "piece.1.mat-border=5cm") == (0, "", "")
