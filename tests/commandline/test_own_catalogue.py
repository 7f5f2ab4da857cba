"""Figures off a packet and classes of one's own, through ``set``, as they come out in the report."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.commandline.conftest import Call

FRAMES = """name,width,height,face,lip,depth,weight,hanger,drop,moulding,moulding-thickness,rabbet-depth,glazing
Sawtooth,300 mm,400 mm,20 mm,6 mm,,2 kg,sawtooth,30 mm,,,,
Strips,300 mm,400 mm,32 mm,6 mm,,1.2 kg,strips,,,,,
Unweighed,300 mm,400 mm,20 mm,6 mm,,,sawtooth,30 mm,pine,15 mm,8 mm,none
"""


@pytest.fixture
def frames(tmp_path: Path, call: Call) -> Path:
    table = tmp_path / "frames.csv"
    table.write_text(FRAMES, encoding="utf-8")
    made = tmp_path / "three.wallwright"
    assert call("new", made, "--wall-width", "3.6m", "--wall-height", "2.5m", "--pieces", table).code == 0
    assert call("set", made, "wall.kind=plaster").code == 0
    return made


def piece(call: Call, file: Path, name: str) -> dict[str, Any]:
    floor = json.loads(call("report", file).out)["floor"]
    return next(one for one in floor if one["name"] == name)


def test_the_packets_rating_counts_and_can_be_taken_back(frames: Path, call: Call) -> None:
    # Two medium pairs of 0.9 kg as shipped; the packet says 1.3 kg, given once in pounds: 2.866 lb.
    assert piece(call, frames, "Strips")["strips"]["capacity_kg"] == 1.8
    assert call("set", frames, "packet.strips-medium.rating=1.3 kg") == (0, "", "")
    assert piece(call, frames, "Strips")["strips"]["capacity_kg"] == 2.6
    assert call("set", frames, "packet.strips-medium.rating_kg=1 lb").code == 0
    assert piece(call, frames, "Strips")["strips"]["capacity_kg"] != 2.6
    assert call("set", frames, "packet.strips-medium.rating=").code == 0
    assert piece(call, frames, "Strips")["strips"]["capacity_kg"] == 1.8


def test_a_longer_hook_moves_no_hole_that_is_planned(frames: Path, call: Call) -> None:
    call("set", frames, "piece.1.fixing=hook-slim")
    before = piece(call, frames, "Sawtooth")["holes"]
    call("set", frames, "packet.hook-slim.offset=25 mm")
    assert piece(call, frames, "Sawtooth")["holes"] == before
    call("set", frames, "piece.1.fixing=", "piece.2.fixing=")
    call("set", frames, "piece.1.fixing=hook-slim")
    # 400 − 30 + 25
    assert piece(call, frames, "Sawtooth")["holes"][0]["y"] == 395


def test_a_moulding_of_ones_own(frames: Path, call: Call) -> None:
    assert call("set", frames, "own.moulding.bamboo.density=700 kg/m3", "own.moulding.bamboo.name=Bamboo").code == 0
    pine = piece(call, frames, "Unweighed")["weight"]["kg"]
    assert call("set", frames, "piece.Unweighed.moulding=bamboo").code == 0
    # Only the moulding changes: 335 328 mm³ of 700 in place of 448 kg/m³.
    assert piece(call, frames, "Unweighed")["weight"]["kg"] - pine == pytest.approx(335328e-9 * (700 - 448), abs=1e-6)


def test_a_hook_of_ones_own(frames: Path, call: Call) -> None:
    keys = ["offset=12 mm", "load=4 kg", "walls=plaster painted-board", "kind=hook", "name=Brass hook"]
    assert call("set", frames, *(f"own.fixing.brass-hook.{key}" for key in keys)) == (0, "", "")
    assert call("set", frames, "piece.1.fixing=brass-hook").code == 0
    made = piece(call, frames, "Sawtooth")
    assert made["fixing"] == {"what": "brass-hook", "count": 1, "capacity_kg": 4, "margin": 2}
    assert made["holes"][0]["y"] == 400 - 30 + 12


@pytest.mark.parametrize(
    ("key", "says"),
    [
        ("packet.strips-huge.rating=1 kg", "strips-huge"),
        ("packet.strips-medium.colour=1", "colour"),
        ("packet.strips-medium.rating=much", "much"),
        ("packet.strips-medium.rating=-1", "-1"),
        ("own.moulding.Bad Name.density=1", "Bad Name"),
        ("own.mood.x.density=1", "moulding"),
        ("own.moulding.x.usual=3 mm", "moulding:x"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(frames: Path, call: Call, key: str, says: str) -> None:
    before = frames.read_bytes()
    answer = call("set", frames, key)
    assert answer.code == 2
    assert answer.err.count("\n") == 1
    assert says in answer.err
    assert frames.read_bytes() == before
