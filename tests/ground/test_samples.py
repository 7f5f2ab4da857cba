"""The sample walls open, check without a stop, print, and are what their maker makes."""

import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from composer.commandline import main
from composer.projectfile import store
from tests.make_samples import make

ROOT = Path(__file__).parents[2]
SAMPLES = sorted((ROOT / "samples").glob("*.wallwright"))
HUNG = {"sofa-wall": 6, "stair-wall": 5, "corridor-inches": 7, "empty-wall": 0, "changing-wall": 11}


def test_there_are_five() -> None:
    assert {path.stem for path in SAMPLES} == set(HUNG)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_checks_without_a_stop(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(path)]) == 0
    assert "stop " not in capsys.readouterr().out
    project = store.load(path).project
    assert len(project.arrangement.placements) == HUNG[path.stem]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_prints(path: Path, tmp_path: Path) -> None:
    target = tmp_path / "templates.pdf"
    code = main(["paper", str(path), "templates", "-o", str(target)])
    if HUNG[path.stem]:
        assert code == 0
        assert len(PdfReader(target).pages) >= HUNG[path.stem] / 2
    else:
        assert code == 1  # nothing to print
        assert not target.exists()


def test_the_samples_are_what_their_maker_makes(tmp_path: Path) -> None:
    for made in make(tmp_path):
        assert made.read_bytes() == (ROOT / "samples" / made.name).read_bytes(), "python tests/make_samples.py"


def test_the_sofa_group_hangs_as_planned(capsys: pytest.CaptureFixture[str]) -> None:
    """Three columns of 405, 610 and 297 mm with 50 mm between: 1 412 mm wide, its middle 1 800 mm from the left.

    Heights 507 + 50 + 243 = 800 mm about the eye line at 1 450 mm; 850 mm of sofa leave 200 mm.
    """
    assert main(["report", str(ROOT / "samples" / "sofa-wall.wallwright")]) == 0
    (wall,) = json.loads(capsys.readouterr().out)["walls"]
    group = wall["group"]
    assert (group["left"], group["right"], group["bottom"], group["top"]) == (1094, 2506, 1050, 1850)
    assert group["centre"] == [1800, 1450]
