"""The same seed gives the same coordinates: in a fresh process, and on every machine since the figures were noted."""

import hashlib
import subprocess
import sys
from pathlib import Path

import pytest

from composer.arranging.patterns import arrange
from tests.arranging.walls import obstructed, over_sofa, plain, sizes_of

TASKS = {
    "salon": plain(12, 1),
    "block": plain(8, 2),
    "cross": plain(9, 1),
    "rows": over_sofa(8, 3),
    "row": over_sofa(5, 1),
    "mirror": plain(1).__class__(sizes_of(*[(300, 400)] * 6), plain(1).room, 50.0, 1450.0),
    "grid": plain(1).__class__(sizes_of(*[(300, 400)] * 6), plain(1).room, 50.0, 1450.0),
}


def hashed(pattern: str, seed: int = 3) -> str:
    """All coordinates rounded to 0.001 mm, as one short text."""
    layout = arrange(TASKS[pattern], pattern, seed=seed, effort=0.1).layout
    text = ";".join(f"{round(value, 3) + 0.0:.3f}" for box in layout for value in box)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def test_a_fresh_process_finds_the_same() -> None:
    here = {pattern: hashed(pattern) for pattern in TASKS}
    code = "from tests.arranging.test_same_everywhere import TASKS, hashed\nfor p in TASKS: print(p, hashed(p))"
    environment = {"PYTHONHASHSEED": "77", "PATH": ""}
    root = Path(__file__).parents[2]
    out = subprocess.run(
        [sys.executable, "-c", code], cwd=root, env=environment, capture_output=True, text=True, check=True
    ).stdout
    assert dict(line.split() for line in out.splitlines()) == here


def test_another_seed_finds_another() -> None:
    assert hashed("salon", 3) != hashed("salon", 4)


@pytest.mark.parametrize("seed", [0, 1])
def test_the_same_twice_in_one_process(seed: int) -> None:
    task = obstructed(sizes_of((300, 400), (500, 400), (250, 300), (400, 300)))
    assert arrange(task, "salon", seed=seed, effort=0.1) == arrange(task, "salon", seed=seed, effort=0.1)
