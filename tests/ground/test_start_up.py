"""Starting up where there is no window to be had; each case is a process of its own, under a watchdog."""

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest
from pypdf import PdfReader

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "samples" / "sofa-wall.wallwright"
LINUX = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="how Linux says that there is no screen")
SCREEN = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM", "WALLWRIGHT_WINDOW", "PYTHONPATH", "XDG_RUNTIME_DIR"}


def start(
    folder: Path, *words: str, path: tuple[Path, ...] = (), screen: Mapping[str, str] | None = None
) -> subprocess.CompletedProcess[str]:
    """``wallwright WORDS`` in ``folder`` with just these variables about a screen."""
    clean = {name: value for name, value in os.environ.items() if name not in SCREEN}
    clean["PYTHONPATH"] = os.pathsep.join(str(entry) for entry in (*path, ROOT))
    return subprocess.run(
        [sys.executable, "-m", "composer", *words],
        cwd=folder,
        env={**clean, **(screen or {})},
        capture_output=True,
        text=True,
        check=False,
        timeout=240,
    )


def assert_papers(done: subprocess.CompletedProcess[str], folder: Path) -> None:
    """The paper set was written, listed, and can be read; one line says why."""
    assert done.returncode == 0, done.stderr
    listed = done.stdout.split("\n")[:-1]
    assert listed
    assert {(folder / name).name for name in listed} == {path.name for path in (folder / "sofa-wall-paper").iterdir()}
    assert "templates.pdf" in {Path(name).name for name in listed}
    assert "wall.pdf" not in {Path(name).name for name in listed}
    for name in listed:
        assert len(PdfReader(folder / name).pages) > 0
    assert done.stderr.count("\n") == 1
    assert "no screen" in done.stderr


@LINUX
def test_without_a_display_the_paper_is_written(tmp_path: Path) -> None:
    (tmp_path / "sofa-wall-paper").mkdir()
    stranger = tmp_path / "sofa-wall-paper" / "note.txt"
    stranger.write_text("mine")
    done = start(tmp_path, str(SAMPLE))
    assert stranger.read_text() == "mine"
    stranger.unlink()
    assert_papers(done, tmp_path)


@LINUX
def test_without_a_file_it_is_the_sample_wall(tmp_path: Path) -> None:
    assert_papers(start(tmp_path), tmp_path)


@LINUX
def test_without_a_display_qt_is_not_loaded(tmp_path: Path) -> None:
    shim = tmp_path / "shim"
    (shim / "PySide6").mkdir(parents=True)
    (shim / "PySide6" / "__init__.py").write_text("raise SystemExit('Qt was loaded')")
    assert_papers(start(tmp_path, str(SAMPLE), path=(shim,)), tmp_path)


@LINUX
def test_a_missing_library_of_qt_is_one_sentence(tmp_path: Path) -> None:
    shim = tmp_path / "shim"
    (shim / "PySide6").mkdir(parents=True)
    # The words of the dynamic loader on a bare Debian 12.
    loader = "libGL.so.1: cannot open shared object file: No such file or directory"
    (shim / "PySide6" / "__init__.py").write_text(f"raise ImportError({loader!r})")
    done = start(tmp_path, str(SAMPLE), path=(shim,), screen={"DISPLAY": ":0"})
    assert done.returncode == 3
    assert done.stdout == ""
    assert done.stderr.count("\n") == 1
    for package in ("libgl1", "libegl1", "libxkbcommon-x11-0", "libxcb-cursor0"):
        assert package in done.stderr
    assert "Traceback" not in done.stderr


@LINUX
@pytest.mark.gui
@pytest.mark.parametrize(
    "dead",
    [
        {"DISPLAY": ":77"},
        {"DISPLAY": "localhost:77"},
        {"WAYLAND_DISPLAY": "wayland-77", "XDG_RUNTIME_DIR": "/nowhere"},
        {"QT_QPA_PLATFORM": "xcb"},
        {"QT_QPA_PLATFORM": "nosuch"},
        {"QT_QPA_PLATFORM": "offscreen"},
        {"QT_QPA_PLATFORM": "minimal"},
    ],
    ids=lambda dead: "=".join(next(iter(dead.items()))),
)
def test_a_display_that_is_none_ends_in_paper(dead: dict[str, str], tmp_path: Path) -> None:
    assert_papers(start(tmp_path, str(SAMPLE), screen=dead), tmp_path)


@LINUX
def test_what_is_no_project_is_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "letter.wallwright").write_text("Dear aunt")
    wrong = start(tmp_path, "letter.wallwright")
    assert (wrong.returncode, wrong.stdout, wrong.stderr.count("\n")) == (2, "", 1)
    assert "letter.wallwright" in wrong.stderr
    missing = start(tmp_path, "nothing.wallwright")
    assert (missing.returncode, missing.stdout, missing.stderr.count("\n")) == (3, "", 1)
    assert "nothing.wallwright" in missing.stderr


@LINUX
@pytest.mark.parametrize("word", ["x" * 300, "x" * 5000, "\x1b[2J", "a\nb", "../" * 50, "~", "."])
def test_any_single_word_is_answered_in_one_line(word: str, tmp_path: Path) -> None:
    """The longest name most file systems take has 255 bytes (POSIX NAME_MAX, PATH_MAX)."""
    done = start(tmp_path, word)
    assert done.returncode in (2, 3)
    assert (done.stdout, done.stderr.count("\n")) == ("", 1)
    assert "Traceback" not in done.stderr


def test_a_call_never_loads_qt(tmp_path: Path) -> None:
    shim = tmp_path / "shim"
    (shim / "PySide6").mkdir(parents=True)
    (shim / "PySide6" / "__init__.py").write_text("raise SystemExit('Qt was loaded')")
    done = start(tmp_path, "report", str(SAMPLE), path=(shim,), screen={"DISPLAY": ":0"})
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("{")
