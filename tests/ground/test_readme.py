"""What README tells people to type works, and names the packages the program names."""

import re
import shlex
from pathlib import Path

import pytest

from composer.__main__ import QT_PACKAGES, main

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks() -> list[str]:
    return re.findall(r"^```\n(.*?)^```", README, re.MULTILINE | re.DOTALL)


def test_the_first_wall_is_made_as_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (lesson,) = (block for block in blocks() if block.startswith("wallwright new"))
    (tmp_path / "samples").mkdir()
    table = "second-hand-frames.csv"
    (tmp_path / "samples" / table).write_bytes((ROOT / "samples" / table).read_bytes())
    monkeypatch.chdir(tmp_path)
    for line in lesson.splitlines():
        program, *words = shlex.split(line)
        assert program == "wallwright"
        assert main(words) == 0, line
    assert {path.name for path in tmp_path.glob("*.pdf")} == {"measure.pdf", "templates.pdf", "scale-check.pdf"}


def test_both_commands_stand_there_for_both_shells() -> None:
    one_liners = [block.strip() for block in blocks() if "-m venv" in block]
    posix = [line for line in one_liners if line.startswith("python3 ")]
    powershell = [line for line in one_liners if line.startswith("py ")]
    assert len(posix) == len(powershell) == 2
    assert all("\n" not in line for line in one_liners)
    assert all(" && " not in line for line in powershell)  # Windows PowerShell 5.1 has no &&
    assert (ROOT / posix[0].split()[-1]).is_file()


def test_every_call_it_shows_is_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each call in the text is done on a wall of which everything is known; … stands for what the call before says."""
    for name in ("pictures", "."):
        (tmp_path / name).mkdir(exist_ok=True)
        for path in (ROOT / "samples" / name).iterdir():
            if path.is_file() and not path.name.startswith("."):
                (tmp_path / name / path.name).write_bytes(path.read_bytes())
    monkeypatch.chdir(tmp_path)
    shown = re.findall(r"`(wallwright [a-z-]+ [^`]*living-room[^`]*)`", README)
    assert len(shown) >= 8
    for line in shown:
        sample = "changing-wall" if "rehang" in line else "sofa-wall"
        (tmp_path / "living-room.wallwright").write_bytes((tmp_path / f"{sample}.wallwright").read_bytes())
        words = shlex.split(line)[1:]
        assert main(words) == 0, line


def test_its_pictures_and_pages_are_there() -> None:
    targets = re.findall(r"\]\(([^)]+)\)", README)
    assert targets
    for target in targets:
        assert (ROOT / target).is_file(), target


def test_the_packages_to_install_are_those_the_program_names() -> None:
    assert f"python3-venv {QT_PACKAGES}\n" in README
