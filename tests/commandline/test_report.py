"""The report, field by field, against sums done by hand and written beside each piece."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.commandline.conftest import Call

RESOURCES = Path(__file__).resolve().parents[2] / "resources"

FRAMES = """name,width,height,face,lip,weight,hanger,drop,drop-right,spacing,offset,wire,ring-drop,hooks,hook-spacing
One hook,40 cm,50 cm,25 mm,6 mm,1.2 kg,wire,7 cm,,20 cm,1 cm,,,,
Two hooks,60 cm,40 cm,,,,wire,,,30 cm,,32 cm,8 cm,2,10 cm
Sawtooth,20 cm,30 cm,,,,sawtooth,1.2 cm,,,-5 mm,,,,
Rings,50 cm,40 cm,,,,d-rings,6 cm,6.5 cm,30 cm,,,,,
Keyholes,50 cm,40 cm,,,,keyholes,2 cm,,20 cm,1 cm,,,,
Strips,40 cm,50 cm,25 mm,6 mm,1.2 kg,strips,,,,,,,,
Rail,90 cm,30 cm,,,,cleat,4 cm,,,,,,,
Narrow rail,15 cm,30 cm,,,,cleat,4 cm,,,,,,,
On a ledge,20 cm,24 cm,,,,ledge,,,,,,,,
Unmeasured,20 cm,24 cm,,,,wire,,,,,,,,
Impossible,40 cm,24 cm,,,,wire,,,30 cm,,30 cm,5 cm,,
Inches,"23 5/8 in","8 1/16 in",,,2 lb,sawtooth,1/2 in,,,,,,,
Turned,50 cm,30 cm,,,,sawtooth,2 cm,,,,,,,
"""

PLACES = {
    "One hook": ("60 cm", "100 cm"),
    "Two hooks": ("110 cm", "100 cm"),
    "Sawtooth": ("180 cm", "100 cm"),
    "Rings": ("210 cm", "100 cm"),
    "Keyholes": ("270 cm", "100 cm"),
    "Strips": ("330 cm", "100 cm"),
    "Rail": ("60 cm", "170 cm"),
    "Narrow rail": ("160 cm", "170 cm"),
    "On a ledge": ("180 cm", "170 cm"),
    "Inches": ("210 cm", "170 cm"),
}

POINTS: dict[str, list[tuple[float, float, str]]] = {
    # x = 600 + 400 / 2 + 10 = 810; y = 1000 + 500 - 70 = 1430
    "One hook": [(810, 1430, "hook")],
    # Each end of the wire is (320 - 100) / 2 = 110 long and reaches (300 - 100) / 2 = 100 across, so it rises
    # sqrt(110² - 100²) = sqrt(2100) = 45.825757 (Pythagoras). Drop 80 - 45.825757 = 34.174243;
    # y = 1000 + 400 - 34.174243 = 1365.825757; x = 1100 + 300 ± 50.
    "Two hooks": [(1350, 1365.825757, "hook"), (1450, 1365.825757, "hook")],
    # Across 1800 + 100 - 5, up 1300 - 12
    "Sawtooth": [(1895, 1288, "notch")],
    # x = 2100 + 250 ± 150; y = 1400 - 60 on the left, 1400 - 65 on the right
    "Rings": [(2200, 1340, "ring"), (2500, 1335, "ring")],
    # x = 2700 + 250 + 10 ± 100; y = 1400 - 20
    "Keyholes": [(2860, 1380, "keyhole"), (3060, 1380, "keyhole")],
    # No spacing: the larger of 900 - 100 = 800 and 900 / 2 = 450; x = 600 + 450 ± 400; y = 2000 - 40
    "Rail": [(650, 1960, "cleat"), (1450, 1960, "cleat")],
    # The larger of 150 - 100 = 50 and 150 / 2 = 75; x = 1600 + 75 ± 37.5; y = 2000 - 40
    "Narrow rail": [(1637.5, 1960, "cleat"), (1712.5, 1960, "cleat")],
    # A quarter and three quarters of 200 along the bottom edge
    "On a ledge": [(1850, 1700, "ledge"), (1950, 1700, "ledge")],
    # 23 5/8 in = 600.075 mm, 8 1/16 in = 204.7875 mm, 1/2 in = 12.7 mm (25.4 mm to the inch exactly):
    # across 2100 + 300.0375, up 1700 + 204.7875 - 12.7
    "Inches": [(2400.0375, 1892.0875, "notch")],
}


@pytest.fixture
def report(tmp_path: Path, call: Call) -> dict[str, Any]:
    """Every hanger on one wall 4.8 m wide, the rest on the floor; 13 hangs turned a quarter."""
    return json.loads(call("report", full_wall(tmp_path, call)).out)  # type: ignore[no-any-return]


def full_wall(folder: Path, call: Call) -> Path:
    folder.mkdir(exist_ok=True)
    table, file = folder / "frames.csv", folder / "wall.wallwright"
    table.write_text(FRAMES, encoding="utf-8")
    assert call("new", file, "--wall-width=4.8m", "--wall-height=2.5m", "--pieces", table, "--title=All").code == 0
    for name, (left, bottom) in PLACES.items():
        assert call("place", file, name, "--left", left, "--bottom", bottom).code == 0
    assert call("place", file, "Turned", "--left=400cm", "--bottom=100cm", "--turned").code == 0
    return file


def pieces_of(report: dict[str, Any]) -> dict[str, dict[str, Any]]:
    hung = [piece for wall in report["walls"] for piece in wall["pieces"]]
    return {piece["name"]: piece for piece in [*hung, *report["floor"]]}


ORDER = {
    "report": ["program", "format", "units", "currency", "arrangement", "walls", "floor", "costs", "findings"],
    "wall": ["name", "width", "height", "eye_line", "pieces", "group"],
    "group": ["left", "bottom", "right", "top", "centre"],
    "piece": [
        "number", "name", "width", "height", "turned", "left", "bottom", "right", "top", "locked", "weight", "hanger",
        "hanging_points", "holes", "strips", "fixing", "print", "mat", "cost",
    ],
    "weight": ["kg", "low", "high", "measured"],
    "point": ["x", "y", "what"],
    "hole": ["x", "y"],
    "strips": ["size", "pairs", "half", "capacity_kg", "places"],
    "finding": ["level", "code", "pieces", "text", "do", "overridden"],
    "fixing": ["what", "count", "capacity_kg", "margin"],
    "print": [
        "needed", "stock", "stock_name", "trim", "trim_from", "ppi", "pixels", "crop_pixels",
    ],
    "mat": ["outer", "window", "borders"],
    "borders": ["top", "bottom", "left", "right"],
    "costs": ["total", "used", "lines"],
    "line": ["what", "each", "packs", "used", "left_over", "cost"],
}  # fmt: skip
OPTIONAL = {"overridden"}
"""Keys that may be absent: nothing was overridden."""


def assert_keys(record: dict[str, Any], kind: str) -> None:
    keys = list(record)
    assert [key for key in ORDER[kind] if key in keys] == keys, kind
    assert set(ORDER[kind]) - set(keys) <= OPTIONAL, kind
    assert set(keys) <= set(ORDER[kind]), kind


def test_keys_stand_in_their_order_and_none_is_strange(report: dict[str, Any]) -> None:
    assert_keys(report, "report")
    for wall in report["walls"]:
        assert_keys(wall, "wall")
        assert_keys(wall["group"], "group")
    for piece in pieces_of(report).values():
        assert_keys(piece, "piece")
        for point in piece["hanging_points"]:
            assert_keys(point, "point")
        for hole in piece["holes"]:
            assert_keys(hole, "hole")
        for kind in ("weight", "strips", "fixing", "print", "mat"):
            if piece[kind] is not None:
                assert_keys(piece[kind], kind)
        if piece["mat"] is not None:
            assert_keys(piece["mat"]["borders"], "borders")
    assert_keys(report["costs"], "costs")
    for line in report["costs"]["lines"]:
        assert_keys(line, "line")
    for finding in report["findings"]:
        assert_keys(finding, "finding")


@pytest.mark.parametrize("name", ["sofa-wall", "stair-wall", "corridor-inches", "changing-wall", "empty-wall"])
def test_so_they_do_in_the_samples(name: str, call: Call) -> None:
    answer = call("report", RESOURCES.parent / "samples" / f"{name}.wallwright")
    report = json.loads(answer.out)
    assert_keys(report, "report")
    pieces = list(pieces_of(report).values())
    for piece in pieces:
        assert_keys(piece, "piece")
        for kind in ("weight", "strips", "fixing", "print", "mat"):
            if piece[kind] is not None:
                assert_keys(piece[kind], kind)
    assert_keys(report["costs"], "costs")
    for line in report["costs"]["lines"]:
        assert_keys(line, "line")
    for finding in report["findings"]:
        assert_keys(finding, "finding")
        assert set(finding["pieces"]) <= {piece["number"] for piece in pieces}


def test_the_head_says_what_it_is(report: dict[str, Any]) -> None:
    assert (report["program"], report["format"], report["units"]) == ("wallwright", 1, "metric")
    assert (report["currency"], report["arrangement"]) == ("EUR", "first")
    (wall,) = report["walls"]
    assert (wall["width"], wall["height"], wall["eye_line"]) == (4800, 2500, 1450)


@pytest.mark.parametrize("name", POINTS)
def test_points_by_hand(name: str, report: dict[str, Any]) -> None:
    piece = pieces_of(report)[name]
    found = [(point["x"], point["y"], point["what"]) for point in piece["hanging_points"]]
    assert found == POINTS[name]
    if name == "On a ledge":
        assert piece["holes"] == []
    else:
        # Nothing is chosen to hold it, so the hole is the point itself.
        assert [(hole["x"], hole["y"]) for hole in piece["holes"]] == [(x, y) for x, y, _ in POINTS[name]]


def test_edges_weight_and_lock(report: dict[str, Any]) -> None:
    piece = pieces_of(report)["One hook"]
    assert [piece[edge] for edge in ("left", "bottom", "right", "top")] == [600, 1000, 1000, 1500]
    assert [piece[key] for key in ("number", "width", "height", "turned", "locked", "hanger")] == [
        1, 400, 500, False, False, "wire",
    ]  # fmt: skip
    assert piece["weight"] == {"kg": 1.2, "low": 1.2, "high": 1.2, "measured": True}
    # A pound is 0.45359237 kg exactly (International Yard and Pound Agreement, 1959), so 2 lb to a millionth:
    assert pieces_of(report)["Inches"]["weight"]["kg"] == 0.907185


def test_a_turned_piece_has_its_sides_swapped_and_no_points(report: dict[str, Any]) -> None:
    piece = pieces_of(report)["Turned"]
    assert [piece[key] for key in ("width", "height", "turned")] == [300, 500, True]
    assert [piece[edge] for edge in ("left", "bottom", "right", "top")] == [4000, 1000, 4300, 1500]
    assert piece["hanging_points"] == piece["holes"] == []
    assert ("hanger-unknown-turned", [13]) in [(found["code"], found["pieces"]) for found in report["findings"]]


def test_what_cannot_be_computed_is_empty_with_a_finding(report: dict[str, Any]) -> None:
    found = [(finding["level"], finding["code"], finding["pieces"]) for finding in report["findings"]]
    for name, level, code in (("Unmeasured", "note", "not-measured"), ("Impossible", "stop", "hanger-impossible")):
        piece = pieces_of(report)[name]
        assert piece["hanging_points"] == piece["holes"] == []
        assert (level, code, [piece["number"]]) in found


def test_on_the_floor_there_are_no_edges_and_points_count_from_the_corner(tmp_path: Path, call: Call) -> None:
    table, file = tmp_path / "frames.csv", tmp_path / "wall.wallwright"
    table.write_text(FRAMES, encoding="utf-8")
    assert call("new", file, "--wall-width=4.8m", "--wall-height=2.5m", "--pieces", table).code == 0
    report = json.loads(call("report", file).out)
    assert report["walls"][0]["pieces"] == []
    assert report["walls"][0]["group"] is None
    assert [piece["number"] for piece in report["floor"]] == list(range(1, 14))
    pieces = pieces_of(report)
    assert [pieces["Rings"][edge] for edge in ("left", "bottom", "right", "top")] == [None] * 4
    assert pieces["Rings"]["hanging_points"] == [  # 250 ± 150; 400 - 60, 400 - 65
        {"x": 100, "y": 340, "what": "ring"},
        {"x": 400, "y": 335, "what": "ring"},
    ]


def test_strips_stand_on_the_flat_and_hold_half_as_much_again(report: dict[str, Any]) -> None:
    """Face 25 mm, lip 6 mm: the flat at the back is 19 mm wide."""
    piece = pieces_of(report)["Strips"]
    strips = piece["strips"]
    assert strips["pairs"] in (2, 4)
    assert strips["capacity_kg"] >= 1.5 * 1.2
    places = strips["places"]
    assert len(places) == strips["pairs"]
    left, bottom, right, top = (piece[edge] for edge in ("left", "bottom", "right", "top"))
    for one in places:
        assert left + 3 <= one[0] < one[2] <= right - 3
        assert bottom + 3 <= one[1] < one[3] <= top - 3
        on_a_side = one[2] <= left + 19 or one[0] >= right - 19
        on_top_or_bottom = one[3] <= bottom + 19 or one[1] >= top - 19
        assert on_a_side or on_top_or_bottom
    for first in range(len(places)):
        for second in range(first + 1, len(places)):
            one, other = places[first], places[second]
            assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
    middles = [{"x": (one[0] + one[2]) / 2, "y": (one[1] + one[3]) / 2, "what": "strip"} for one in places]
    key = "x"
    assert sorted(piece["hanging_points"], key=lambda at: (at[key], at["y"])) == sorted(
        middles, key=lambda at: (at[key], at["y"])
    )
    assert piece["holes"] == []


def test_points_go_from_left_to_right(report: dict[str, Any]) -> None:
    for piece in pieces_of(report).values():
        across = [point["x"] for point in piece["hanging_points"]]
        assert across == sorted(across)


def test_the_group_is_the_box_around_what_hangs(report: dict[str, Any]) -> None:
    """Left of “One hook” to right of “Turned”, feet at 1000, tops of the rails at 1700 + 300."""
    group = report["walls"][0]["group"]
    assert [group[edge] for edge in ("left", "bottom", "right", "top")] == [600, 1000, 4300, 2000]
    assert group["centre"] == [2450, 1500]


def test_a_fixing_moves_the_hole_by_its_own_offset(tmp_path: Path, call: Call) -> None:
    file = full_wall(tmp_path, call)
    shipped = json.loads((RESOURCES / "catalogue" / "fixings.json").read_text(encoding="utf-8"))["fixings"]
    offsets = {fixing["id"]: fixing["offset_mm"] for fixing in shipped}
    hook = next(name for name, offset in offsets.items() if offset > 0)
    below = next(name for name, offset in offsets.items() if offset < 0)
    assert call("set", file, f"piece.1.fixing={hook}", f"piece.4.fixing={below}").code == 0
    pieces = pieces_of(json.loads(call("report", file).out))
    assert pieces["One hook"]["hanging_points"] == [{"x": 810, "y": 1430, "what": "hook"}]
    assert pieces["One hook"]["holes"] == [{"x": 810, "y": 1430 + offsets[hook]}]
    assert [hole["y"] for hole in pieces["Rings"]["holes"]] == [1340 + offsets[below], 1335 + offsets[below]]
    assert call("set", file, "piece.1.fixing=").code == 0
    assert pieces_of(json.loads(call("report", file).out))["One hook"]["holes"] == [{"x": 810, "y": 1430}]


def test_measured_wins_and_a_difference_over_3_mm_is_told(tmp_path: Path, call: Call) -> None:
    """Wire 320 over 200 on one hook: half of it is 160 over 100 across, a rise of sqrt(15600) = 124.9; rings 150
    down give a drop of 25.1. Measured 70 differs by more than 3; 27 does not.
    """
    file = full_wall(tmp_path, call)
    for drop, told in (("70 mm", True), ("27 mm", False)):
        assert call("set", file, "piece.1.wire=32cm", "piece.1.ring-drop=15cm", f"piece.1.drop={drop}").code == 0
        report = json.loads(call("report", file).out)
        (point,) = pieces_of(report)["One hook"]["hanging_points"]
        assert point["y"] == 1500 - int(drop.split()[0])
        codes = [finding["code"] for finding in report["findings"] if finding["pieces"] == [1]]
        assert ("drop-disagrees" in codes) is told
    assert call("set", file, "piece.1.drop=").code == 0
    (point,) = pieces_of(json.loads(call("report", file).out))["One hook"]["hanging_points"]
    assert point["y"] == pytest.approx(1500 - (150 - 15600**0.5), abs=1e-6)


RANK = {"stop": 0, "warn": 1, "note": 2}


def test_findings_are_sorted_and_check_says_the_same(tmp_path: Path, call: Call) -> None:
    file = full_wall(tmp_path, call)
    assert call("place", file, "Sawtooth", "--left=225cm", "--bottom=110cm").code == 0
    findings = json.loads(call("report", file).out)["findings"]
    order = [
        (RANK[finding["level"]], min(finding["pieces"], default=0), finding["code"])
        for finding in findings
        if finding["pieces"]
    ]
    assert order == sorted(order)
    assert {rank for rank, _, _ in order} == {0, 1, 2}
    shown = call("check", file, "--json")
    assert json.loads(shown.out) == findings
    lines = call("check", file)
    assert (shown.code, lines.code, lines.err) == (1, 1, "")
    expected = []
    for finding in findings:
        numbers = ",".join(f"#{number}" for number in finding["pieces"])
        head = " ".join(part for part in (finding["level"], finding["code"], numbers) if part)
        expected.append(f"{head} {finding['text']} — {finding['do']}")
    assert lines.out == "".join(f"{line}\n" for line in expected)


def test_an_override_stands_beside_its_stop_and_frees_the_answer(tmp_path: Path, call: Call) -> None:
    table, file = tmp_path / "frames.csv", tmp_path / "wall.wallwright"
    table.write_text("name,width,height,hanger\nA,20cm,20cm,ledge\n", encoding="utf-8")
    assert call("new", file, "--wall-width=4.8m", "--wall-height=2.5m", "--pieces", table).code == 0
    assert call("check", file).code == 0
    placed = call("place", file, "A", "--left=-5cm", "--bottom=1m")
    assert placed.code == 0
    assert placed.out == ""
    assert placed.err.startswith("stop outside-wall #1 ")
    assert call("check", file).code == 1
    assert call("set", file, "override.outside-wall.1=the wall goes on round the corner").code == 0
    assert call("check", file).code == 0
    (stop,) = [finding for finding in json.loads(call("check", file, "--json").out) if finding["level"] == "stop"]
    assert stop["overridden"] == "the wall goes on round the corner"
    assert call("paper", file, "elevation", "-o", tmp_path / "e.pdf").code == 0
    assert call("set", file, "override.outside-wall.1=").code == 0
    assert call("check", file).code == 1
    # A stop that stands is printed on paper, and paper is made all the same.
    assert call("paper", file, "elevation", "-o", tmp_path / "e.pdf").code == 0


def test_the_report_is_plain_utf8_with_line_feeds_and_no_nan(tmp_path: Path, call: Call) -> None:
    file = full_wall(tmp_path, call)
    assert call("set", file, "piece.1.name=Łódź “№ 5”").code == 0
    out = call("report", file).out
    assert "\r" not in out
    assert out.endswith("}\n")
    assert "Łódź “№ 5”" in out

    def refuse(word: str) -> float:
        raise AssertionError(word)

    for number in numbers_of(json.loads(out, parse_constant=refuse)):
        assert number == round(number, 6)


def numbers_of(value: object) -> list[float]:
    if isinstance(value, dict):
        return [number for item in value.values() for number in numbers_of(item)]
    if isinstance(value, list):
        return [number for item in value for number in numbers_of(item)]
    return [float(value)] if isinstance(value, int | float) and not isinstance(value, bool) else []


def test_another_arrangement_is_reported_by_its_name(tmp_path: Path, call: Call) -> None:
    from msgspec.structs import replace

    from composer.model import Arrangement
    from composer.projectfile import store

    file = full_wall(tmp_path, call)
    project = store.load(file).project
    key = f"h{project.next_key}"
    other = Arrangement(key=key, name="Winter", gap=project.arrangement.gap)
    store.save(file, replace(project, arrangements=(*project.arrangements, other), next_key=project.next_key + 1))
    report = json.loads(call("report", file, "--arrangement", "WINTER").out)
    assert report["arrangement"] == "Winter"
    assert len(report["floor"]) == 13
    assert json.loads(call("report", file).out)["arrangement"] == "first"
