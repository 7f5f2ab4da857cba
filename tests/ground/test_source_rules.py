"""Rules about the source that no linter knows."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MOST_LINES = 500


def sources() -> list[Path]:
    return sorted(path for folder in ("composer", "tests") for path in (ROOT / folder).rglob("*.py"))


def shipped() -> list[Path]:
    """Every file that belongs to the project, whether the folder is a clone or an unpacked archive."""
    found = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=False)
    if found.returncode == 0 and found.stdout:
        return [path for name in found.stdout.decode().split("\0") if name and (path := ROOT / name).is_file()]
    folders = (ROOT / name for name in ("composer", "resources", "samples", "tests"))
    return [
        path for folder in folders for path in folder.rglob("*") if path.is_file() and "__pycache__" not in path.parts
    ]


def test_no_source_file_is_longer_than_500_lines() -> None:
    long = {
        path.name: lines for path in sources() if (lines := path.read_text(encoding="utf-8").count("\n")) > MOST_LINES
    }
    assert not long


def test_no_module_has_an_empty_name() -> None:
    empty = re.compile(r"(^|_)(utils?|helpers?|managers?|common|misc)(_|$)")
    assert not [path.name for path in sources() if empty.search(path.stem)]


def test_nothing_names_the_machine_it_was_made_on() -> None:
    # The pattern is put together here so that this file does not match itself.
    machine = re.compile(rb"(?<![\w.~-])/(" + b"|".join([b"work", b"tmp", b"root", b"home/[a-z]+"]) + rb")/")
    assert not [path.relative_to(ROOT).as_posix() for path in shipped() if machine.search(path.read_bytes())]


def test_the_top_level_is_the_fixed_one() -> None:
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "composer", "resources", "tests", "samples"}
    top = {path.relative_to(ROOT).parts[0] for path in shipped()}
    assert {name for name in top if not name.startswith(".")} <= allowed


@pytest.mark.parametrize("module", ["composer.commandline", "composer.editing.edits", "composer.findings"])
def test_a_call_loads_no_heavy_library(module: str) -> None:
    """A static contract does not see what is loaded while running."""
    heavy = ("PySide6", "shiboken6", "shapely", "reportlab", "pint", "numpy", "PIL", "filelock")
    script = f"import sys, {module}; print(*sorted({{name.split('.')[0] for name in sys.modules}} & set({heavy})))"
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=False, timeout=60
    )
    assert (done.returncode, done.stdout.strip(), done.stderr) == (0, "", "")
