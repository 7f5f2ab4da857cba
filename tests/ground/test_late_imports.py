"""A call loads a heavy library when its work needs it, never before; each row is a process of its own.

A static contract does not see what is loaded while running, and a library loaded too early shows only as
a slow start.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
HEAVY = ("PySide6", "shiboken6", "shapely", "reportlab", "pint", "numpy", "PIL", "filelock", "fontTools")

SCRIPT = f"""
import sys
from composer.__main__ import main
code = main(sys.argv[1:])
loaded = {{name.split(".")[0] for name in sys.modules}} & set({HEAVY})
print(code, *sorted(loaded), file=sys.stderr)
"""

NOTHING: set[str] = set()
PAPER = {"reportlab", "fontTools", "PIL"}  # reportlab itself loads Pillow

CALLS = [
    ("--version", NOTHING),
    ("--help", NOTHING),
    ("paper --help", NOTHING),
    ("reprot", NOTHING),
    ("new OUT --wall-width=3m --wall-height=2m --pieces TABLE", NOTHING),
    ("report EMPTY", NOTHING),
    ("report CHANGING", NOTHING),
    ("check CHANGING", NOTHING),
    ("report SOFA", {"PIL"}),  # pieces that show pictures, whose files are looked into
    ("report STAIR", {"PIL"}),  # a sloping ceiling is no reason to load shapely
    ("report CORRIDOR", {"PIL"}),
    ("check STAIR", {"PIL"}),
    ("set FILE title=x", {"filelock"}),
    ("place FILE 1 --left=10cm --bottom=1m", {"filelock"}),
    ("add FILE pieces TABLE", {"filelock"}),
    ("export SOFA -o x.csv", NOTHING),
    ("export SOFA -o x.svg", {"PIL", "fontTools"}),
    ("export SOFA -o x.png", {"PIL", "fontTools"}),
    ("export SOFA -o x.pdf", PAPER),
    ("paper SOFA templates -o x.pdf", PAPER),
    ("paper EMPTY templates -o x.pdf", NOTHING),  # nothing to print
]


@pytest.mark.parametrize(("words", "allowed"), CALLS, ids=[words for words, _ in CALLS])
def test_only_what_is_needed_is_loaded(words: str, allowed: set[str], tmp_path: Path) -> None:
    samples = ROOT / "samples"
    (tmp_path / "wall.wallwright").write_bytes((samples / "stair-wall.wallwright").read_bytes())
    names = {
        "SOFA": samples / "sofa-wall.wallwright",
        "STAIR": samples / "stair-wall.wallwright",
        "CORRIDOR": samples / "corridor-inches.wallwright",
        "CHANGING": samples / "changing-wall.wallwright",
        "EMPTY": samples / "empty-wall.wallwright",
        "TABLE": samples / "second-hand-frames.csv",
        "FILE": tmp_path / "wall.wallwright",
        "OUT": tmp_path / "new.wallwright",
    }
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, *(str(names.get(word, word)) for word in words.split())],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    code, *loaded = done.stderr.splitlines()[-1].split()
    assert int(code) == {"reprot": 2, "paper EMPTY templates -o x.pdf": 1}.get(words, 0), done.stderr
    assert set(loaded) <= allowed
