"""A packed copy by calls."""

import json
import zipfile
from pathlib import Path

import pytest

from composer.commandline.answers import Exit
from tests.commandline.conftest import Call
from tests.pictures.files import CHINA, COFFEE, real


@pytest.fixture
def home(tmp_path: Path, call: Call) -> Path:
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "china.jpg").write_bytes(real(CHINA).read_bytes())
    (tmp_path / "coffee.png").write_bytes(real(COFFEE).read_bytes())
    rows = "name,width,height,glass-width,glass-height,picture\nA,30cm,20cm,25cm,15cm,china.jpg\nB,30cm,20cm,25cm,15cm,../coffee.png\n"
    (tmp_path / "home" / "frames.csv").write_text(rows, encoding="utf-8")
    file = tmp_path / "home" / "wall.wallwright"
    sizes = ("--wall-width", "4m", "--wall-height", "2.5m")
    assert call("new", file, *sizes, "--pieces", tmp_path / "home" / "frames.csv") == (0, "", "")
    return file


def prints(call: Call, file: Path) -> list[object]:
    return [piece["print"] for piece in json.loads(call("report", file).out)["floor"]]


def test_packed_here_unpacked_there(home: Path, call: Call, tmp_path: Path) -> None:
    before = prints(call, home)
    assert call("pack", home, "-o", tmp_path / "wall.zip") == (0, "", "")
    home.parent.rename(tmp_path / "gone")
    (tmp_path / "coffee.png").unlink()
    answer = call("unpack", tmp_path / "wall.zip", "-o", tmp_path / "there")
    assert answer.code == 0
    file = Path(answer.out.strip())
    assert file == tmp_path / "there" / "wall.wallwright"
    assert prints(call, file) == before
    codes = {finding["code"] for finding in json.loads(call("check", file, "--json").out)}
    assert not codes & {"picture-missing", "picture-changed", "picture-unreadable"}


def test_a_missing_picture_is_told(home: Path, call: Call, tmp_path: Path) -> None:
    (tmp_path / "coffee.png").unlink()
    answer = call("pack", home, "-o", tmp_path / "wall.zip")
    assert answer.code == 0
    assert answer.err.count("\n") == 1 and "coffee.png" in answer.err


def test_refusals_are_one_line(home: Path, call: Call, tmp_path: Path) -> None:
    assert call("pack", home, "-o", home).code == Exit.WRONG
    assert call("pack", home, "-o", tmp_path / "nowhere" / "wall.zip").code == Exit.FILES
    assert call("pack", home, "-o", tmp_path / "wall.zip").code == 0
    for archive, folder, code in (
        (home, tmp_path / "new", Exit.WRONG),
        (tmp_path / "gone.zip", tmp_path / "new", Exit.FILES),
        (tmp_path / "wall.zip", home.parent, Exit.WRONG),
        (tmp_path / "wall.zip", tmp_path / "nowhere" / "new", Exit.FILES),
    ):
        answer = call("unpack", archive, "-o", folder)
        assert (answer.code, answer.out, answer.err.count("\n")) == (code, "", 1), answer.err
    with zipfile.ZipFile(tmp_path / "wall.zip", "a") as opened:
        opened.writestr("../evil.txt", b"x")
    answer = call("unpack", tmp_path / "wall.zip", "-o", tmp_path / "new")
    assert (answer.code, answer.err.count("\n")) == (Exit.WRONG, 1)
    assert not (tmp_path / "evil.txt").exists() and not (tmp_path / "new").exists()
