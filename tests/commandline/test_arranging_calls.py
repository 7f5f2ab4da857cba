"""The calls ``arrange`` and ``true-up``, by their description."""

import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from composer.arranging.patterns import PATTERNS
from tests.arranging import referee
from tests.commandline.conftest import Call

Boxes = dict[int, list[float]]


def report(call: Call, file: Path, *words: str) -> dict[str, Any]:
    answer = call("report", file, *words)
    assert answer.code == 0
    found: dict[str, Any] = json.loads(answer.out)
    return found


def places(call: Call, file: Path, *words: str) -> Boxes:
    known = report(call, file, *words)
    return {
        piece["number"]: [piece[edge] for edge in ("left", "bottom", "right", "top")]
        for wall in known["walls"]
        for piece in wall["pieces"]
    }


def rectangles(boxes: Boxes) -> Any:
    from composer.geometry.rectangle import Rectangle

    return [Rectangle(*boxes[number]) for number in sorted(boxes)]


@pytest.mark.parametrize("pattern", ["salon", "block", "row"])
def test_every_piece_is_hung_a_gap_apart_at_eye_level(call: Call, file: Path, pattern: str) -> None:
    assert call("arrange", file, "--pattern", pattern, "--gap", "6cm", "--eye-line", "150cm").code == 0
    known = report(call, file)
    assert known["floor"] == []
    boxes = places(call, file)
    assert set(boxes) == {1, 2, 3, 4}
    assert referee.violations(rectangles(boxes), 60, [(0, 0), (3600, 0), (3600, 2500), (0, 2500)]) == []
    (wall,) = known["walls"]
    assert wall["eye_line"] == 1500
    assert abs(wall["group"]["centre"][1] - 1500) <= 20
    assert abs(wall["group"]["centre"][0] - 1800) <= 20


def test_the_same_seed_gives_the_same_file(call: Call, file: Path, tmp_path: Path) -> None:
    outs = [tmp_path / f"{name}.wallwright" for name in "abc"]
    for out, seed in zip(outs, "778", strict=True):
        assert call("arrange", file, "--pattern", "salon", "--seed", seed, "-o", out).code == 0
    assert outs[0].read_bytes() == outs[1].read_bytes()
    assert outs[0].read_bytes() != outs[2].read_bytes()


def test_only_places_change(call: Call, file: Path) -> None:
    before = report(call, file)
    assert call("arrange", file, "--pattern", "row").code == 0
    after = report(call, file)
    moving = {"left", "bottom", "right", "top", "hanging_points", "holes", "strips"}

    def rest(known: dict[str, Any]) -> list[dict[str, Any]]:
        pieces = [*known["floor"], *(piece for wall in known["walls"] for piece in wall["pieces"])]
        kept = [{key: value for key, value in piece.items() if key not in moving} for piece in pieces]
        return sorted(kept, key=lambda piece: piece["number"])

    assert rest(before) == rest(after)


def test_an_unknown_arrangement_is_made_and_becomes_current(call: Call, file: Path) -> None:
    assert call("place", file, "1", "--left", "10cm", "--bottom", "120cm").code == 0
    old = places(call, file)
    name = report(call, file)["arrangement"]
    assert call("arrange", file, "--pattern", "row", "--arrangement", "second").code == 0
    assert report(call, file)["arrangement"] == "second"
    assert set(places(call, file)) == {1, 2, 3, 4}
    assert places(call, file, "--arrangement", name) == old


def test_a_pattern_that_does_not_suit_is_refused_with_figures(call: Call, file: Path) -> None:
    before = file.read_bytes()
    for pattern in ("stair", "mirror", "grid"):
        answer = call("arrange", file, "--pattern", pattern)
        assert (answer.code, answer.out) == (1, "")
        assert answer.err.startswith("wallwright: arrange: ")
        assert answer.err.count("\n") == 1
        assert file.read_bytes() == before


def test_what_cannot_fit_is_answered_with_no(call: Call, file: Path) -> None:
    before = file.read_bytes()
    answer = call("arrange", file, "--pattern", "salon", "--gap", "250cm")
    assert answer.code == 1
    assert "2 500 mm" in answer.err.replace("\xa0", " ")
    assert call("set", file, "piece.2.width=5m").code == 0
    changed = file.read_bytes()
    answer = call("arrange", file, "--pattern", "block")
    assert answer.code == 1 and "Piece 2" in answer.err
    assert file.read_bytes() == changed != before


@pytest.mark.parametrize(
    "words", [("--pattern", "salonn"), ("--pattern", "row", "--seed", "-1"), ("--pattern", "row", "--seed", "x"), ()]
)
def test_wrong_words_are_refused(call: Call, file: Path, words: tuple[str, ...]) -> None:
    before = file.read_bytes()
    answer = call("arrange", file, *words)
    assert answer.code == 2 and answer.err.count("\n") == 1
    assert file.read_bytes() == before


def test_pattern_names_are_the_nine() -> None:
    assert list(PATTERNS) == ["salon", "block", "row", "column", "grid", "rows", "cross", "stair", "mirror"]


def test_true_up_moves_little_and_a_second_run_changes_no_byte(call: Call, file: Path) -> None:
    # Three frames 50 apart but for a few millimetres: 1 is 400, 2 is 300, 4 is 500 wide.
    for piece, left, bottom in ((1, "100.3cm", "120cm"), (2, "145cm", "120.5cm"), (4, "180.8cm", "119.4cm")):
        assert call("place", file, piece, "--left", left, "--bottom", bottom).code == 0
    before = places(call, file)
    assert call("true-up", file) == (0, "", "")
    after = places(call, file)
    for number, box in after.items():
        assert ((box[0] - before[number][0]) ** 2 + (box[1] - before[number][1]) ** 2) ** 0.5 <= 60
    ordered = [after[number] for number in (1, 2, 4)]
    assert [b[0] - a[2] for a, b in pairwise(ordered)] == pytest.approx([50, 50], abs=1e-4)
    assert ordered[0][1] == pytest.approx(ordered[1][1]) == pytest.approx(ordered[2][1])
    kept = file.read_bytes()
    assert call("true-up", file).code == 0
    assert file.read_bytes() == kept
    assert "near-miss" not in call("check", file).out


def test_true_up_takes_another_gap_and_stores_it(call: Call, file: Path) -> None:
    for piece, left in ((1, "100cm"), (2, "145cm")):
        assert call("place", file, piece, "--left", left, "--bottom", "120cm").code == 0
    assert call("true-up", file, "--gap", "7cm").code == 0
    boxes = places(call, file)
    assert boxes[2][0] - boxes[1][2] == pytest.approx(70)


def test_true_up_says_no_where_there_is_no_room(call: Call, file: Path) -> None:
    for piece, left in ((1, "100cm"), (2, "105cm")):
        call("place", file, piece, "--left", left, "--bottom", "120cm")
    before = file.read_bytes()
    answer = call("true-up", file)
    assert answer.code == 1 and "#1" in answer.err and "#2" in answer.err
    assert file.read_bytes() == before
