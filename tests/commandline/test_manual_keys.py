"""Every key of ``set`` and every packing call that the manual shows for a piece does what it says."""

import re
import shlex
from pathlib import Path

import pytest

from composer.__main__ import main
from composer.resources import resource

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
MANUAL = resource("help/manual.md").read_text(encoding="utf-8")
KEYS = re.findall(r"`(piece\.3\.[a-z-]+=[^`]*)`", MANUAL)
CALLS = re.findall(r"`wallwright ((?:pack|unpack|print-files) [^`]+)`", MANUAL)


@pytest.fixture
def wall(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The sample wall with its pictures, in a folder of its own."""
    (tmp_path / "pictures").mkdir()
    for path in (SAMPLES / "pictures").iterdir():
        (tmp_path / "pictures" / path.name).write_bytes(path.read_bytes())
    made = tmp_path / "wall.wallwright"
    made.write_bytes((SAMPLES / "sofa-wall.wallwright").read_bytes())
    monkeypatch.chdir(tmp_path)
    return made


def test_the_manual_shows_keys_and_calls() -> None:
    assert len(KEYS) >= 15
    assert [call.split()[0] for call in CALLS] == ["pack", "unpack", "print-files"]


@pytest.mark.parametrize("key", KEYS)
def test_a_key_of_the_manual_changes_the_piece(wall: Path, key: str) -> None:
    before = wall.read_bytes()
    assert main(["set", str(wall), key]) == 0
    # What it says is the sample's own value already is no change; all others are.
    assert wall.read_bytes() != before or key in ("piece.3.mat-border=6 cm",)


def test_the_calls_of_the_manual_one_after_the_other(wall: Path) -> None:
    for call in CALLS:
        assert main(shlex.split(call)) == 0, call
    assert (wall.parent / "wall.zip").is_file()
    assert len(list((wall.parent / "wall" / "pictures").iterdir())) == 7
    assert len(list((wall.parent / "to-print").glob("*.jpg"))) == 7
