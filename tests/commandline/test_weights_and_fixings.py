"""Weights and fixings through table, ``set`` and ``report``, against sums done by hand."""

import json
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from tests.commandline.conftest import Call

# Densities: pine and oak by specific gravity (USDA Wood Handbook) 448 and 705.6 kg/m³, aluminium 2 700, glass
# 2 500 (EN 572-1), acrylic 1 190, fibreboard 800; 4-ply board 910, foam board 600, paper 260 or 310 g/m².
#
# A, 300 × 400: section 20·15 − 6·8 = 252 mm², centroid 8.667 from the edge, so 252·(2·700 − 8·8.667) = 335 328 mm³:
#   0.1502; glass 269 × 369 (opening 272 × 372 less 3): 0.4963; mat less its window 180 × 280: 0.0445; print as large
#   as the board: 0.0258; backing 2.5 mm: 0.1985; hardware 0.0300. In all 0.9453; acrylic for glass 0.6853.
# B, 500 × 700: 1 236 960 mm³ of oak 0.8728; glass 449 × 649: 1.4570; mat less 300 × 500: 0.1287; print 320 × 520 of
#   310 g/m²: 0.0516; backing 3 mm: 0.6994; hardware 0.06. In all 3.2694; acrylic 2.5060.
# C, 700 × 1000: section 110 mm² with its middle 6 mm in: 0.9955; acrylic 3 mm, 692 × 992: 2.4507; foam board 0.4119;
#   print 0.1785; hardware 0.08. In all 4.1166; glass 6.8144.
FRAMES = """name,width,height,face,lip,glass-width,glass-height,rabbet-depth,moulding,moulding-thickness,glazing,glazing-thickness,backing,mat-border,mat-overlap,picture
A,300 mm,400 mm,20 mm,6 mm,,,8 mm,pine,15 mm,glass,2 mm,mdf,44.5 mm,44.5 mm,a.png
B,500 mm,700 mm,30 mm,6 mm,,,10 mm,oak,20 mm,glass,2 mm,mdf-3mm,74.5 mm,10 mm,b.png
C,700 mm,1000 mm,12 mm,0 mm,692 mm,992 mm,,aluminium,20 mm,acrylic,3 mm,foam-board,,,c.png
"""


@pytest.fixture
def frames(tmp_path: Path, call: Call) -> Path:
    table = tmp_path / "frames.csv"
    table.write_text(FRAMES, encoding="utf-8")
    made = tmp_path / "three.wallwright"
    assert call("new", made, "--wall-width", "3.6m", "--wall-height", "2.5m", "--pieces", table).code == 0
    assert call("set", made, "piece.B.paper=cotton", "piece.C.profile-area=110 mm2").code == 0
    return made


def pieces(call: Call, file: Path) -> dict[str, dict[str, Any]]:
    report = json.loads(call("report", file).out)
    return {piece["name"]: piece for piece in (*report["floor"], *report["walls"][0]["pieces"])}


def weights(call: Call, file: Path) -> dict[str, float]:
    return {name: piece["weight"]["kg"] for name, piece in pieces(call, file).items()}


def test_three_frames_to_the_gram(frames: Path, call: Call) -> None:
    assert weights(call, frames) == pytest.approx({"A": 0.9453, "B": 3.2694, "C": 4.1166}, abs=0.0005)


def test_the_same_with_other_glazing(frames: Path, call: Call) -> None:
    call("set", frames, "piece.A.glazing=acrylic", "piece.B.glazing=acrylic", "piece.C.glazing=glass")
    assert weights(call, frames) == pytest.approx({"A": 0.6853, "B": 2.5060, "C": 6.8144}, abs=0.0005)


def test_the_scales_win_and_have_no_range(frames: Path, call: Call) -> None:
    call("set", frames, "piece.B.weight=3.3 kg")
    weight = pieces(call, frames)["B"]["weight"]
    assert weight == {"kg": 3.3, "low": 3.3, "high": 3.3, "measured": True}
    estimated = pieces(call, frames)["A"]["weight"]
    assert estimated["low"] < estimated["kg"] < estimated["high"]


@pytest.mark.parametrize(
    ("key", "says"),
    [
        ("piece.B.paper=papyrus", "papyrus"),
        ("piece.C.profile-area=wide", "110 mm2"),
        ("piece.C.fixing=glue", "glue"),
    ],
)
def test_wrong_words_are_refused_in_one_line(frames: Path, call: Call, key: str, says: str) -> None:
    before = frames.read_bytes()
    answer = call("set", frames, key)
    assert answer.code == 2
    assert answer.err.count("\n") == 1
    assert says in answer.err
    assert frames.read_bytes() == before


def test_a_chosen_fixing_moves_the_hole_and_is_reported(frames: Path, call: Call) -> None:
    call("set", frames, "wall.kind=painted-board", "piece.B.hanger=d-rings", "piece.B.drop=60 mm")
    call("set", frames, "piece.B.spacing=420 mm", "piece.B.weight=4 kg")
    assert pieces(call, frames)["B"]["fixing"] is None
    call("set", frames, "piece.B.fixing=hook-one-nail")
    call("place", frames, "B", "--left", "100cm", "--bottom", "110cm")
    piece = pieces(call, frames)["B"]
    # Two hooks of 6.8 kg, each reckoned with 60 % of the weight: 6.8/0.6 = 11.333; over 4 kg: 2.833.
    assert piece["fixing"] == {
        "what": "hook-one-nail",
        "count": 2,
        "capacity_kg": pytest.approx(11.333333),
        "margin": pytest.approx(2.833333),
    }
    # 1 800 − 60 = 1 740, and 18 up to the nail.
    assert [point["y"] for point in piece["hanging_points"]] == [1740, 1740]
    assert [hole["y"] for hole in piece["holes"]] == [1758, 1758]
    call("set", frames, "piece.B.weight=12 kg")
    answer = call("check", frames)
    assert answer.code == 1
    assert "stop overload #2" in answer.out
    assert call("set", frames, "override.overload.B=screwed through the hooks").code == 0
    assert call("check", frames).code == 0
    call("set", frames, "piece.B.fixing=")
    assert pieces(call, frames)["B"]["fixing"] is None


def test_wire_class_diagonals_and_condition_are_found(frames: Path, call: Call) -> None:
    call(
        "set", frames, "piece.A.hanger=wire", "piece.A.spacing=200 mm", "piece.A.wire=230 mm", "piece.A.ring-drop=12 cm"
    )
    call("set", frames, "piece.A.weight=6 kg", "piece.A.wire-class=WIRE-5", "piece.A.diagonals=500 mm x 503 mm")
    call("set", frames, "piece.A.condition=lower joint open")
    call("place", frames, "A", "--left", "100cm", "--bottom", "110cm")
    said = call("check", frames).out
    # 200/230: sin θ = sqrt(1 − (200/230)²) = 0.4938, so 6/(2 · 0.4938) = 6.075 kg on a wire that takes 5.
    assert "warn wire-tight #1" in said
    assert "6.08" in said
    assert "warn out-of-square #1" in said
    assert "lower joint open" in said
    assert call("set", frames, "piece.A.diagonals=500 mm").code == 2
    assert call("set", frames, "piece.A.wire-class=rope").code == 2
    assert call("set", frames, "piece.A.wire-class=", "piece.A.diagonals=", "piece.A.condition=").code == 0
    assert "wire-tight" not in call("check", frames).out


def test_a_cleats_rail_is_one_in_report_costs_and_list(tmp_path: Path, call: Call) -> None:
    table, prices = tmp_path / "frames.csv", tmp_path / "prices.csv"
    table.write_text(
        "name,width,height,weight,hanger,drop,spacing\nRail,60 cm,40 cm,12 kg,cleat,4 cm,50 cm\n", encoding="utf-8"
    )
    prices.write_text("item,each\ncleat-rail,7.50\n", encoding="utf-8")
    made = tmp_path / "rail.wallwright"
    assert call("new", made, "--wall-width", "3m", "--wall-height", "2.5m", "--pieces", table).code == 0
    assert call("set", made, "wall.kind=painted-board", "piece.1.fixing=cleat-rail").code == 0
    assert call("add", made, "prices", prices).code == 0
    assert call("place", made, "1", "--left=1m", "--bottom=1.2m").code == 0
    report = json.loads(call("report", made).out)
    (piece,) = report["walls"][0]["pieces"]
    # Two self-drilling anchors of 10 kg, each reckoned with 60 %: 16.67 kg over 12 kg.
    assert (piece["fixing"]["count"], piece["fixing"]["capacity_kg"]) == (1, pytest.approx(10 / 0.6, abs=1e-6))
    assert [(line["what"], line["packs"]) for line in report["costs"]["lines"]] == [("cleat-rail", 1)]
    assert call("paper", made, "hanging-list", "-o", tmp_path / "list.pdf").code == 0
    text = PdfReader(tmp_path / "list.pdf").pages[0].extract_text()
    assert text.count("wall rail, 2 screws") == 2  # in its row, and among what to take along
