"""Every wrong call gets one line and its exit code, answers nothing and changes nothing."""

import os
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from composer.commandline import CALLS, main

Call = Callable[..., Any]

USAGE = [
    ("nonsense", 2, "“nonsense” is neither a call nor a file"),
    ("reprot FILE", 2, "Did you mean report"),
    ("--versoin", 2, "no option “--versoin”.*--version"),
    ("report", 2, "report: FILE is missing"),
    ("report FILE extra", 2, "“extra” is one word too many"),
    ("report FILE --arangement x", 2, "no option “--arangement”. Did you mean --arrangement"),
    ("report FILE --arrangement", 2, "--arrangement needs a value"),
    ("report FILE --arrangement --json", 2, "--arrangement needs a value"),
    ("report FILE --arrangement=winter", 2, "no arrangement “winter”.*first"),
    ("report -", 2, "“-” is not supported"),
    ("check FILE --json=yes", 2, "--json takes no value"),
    ("place FILE 1 --left 1cm", 2, "--bottom L is missing"),
    ("place FILE 1 --left 1cm --left 2cm --bottom 1cm", 2, "--left is given twice"),
    ("place FILE 9 --left 1cm --bottom 1cm", 2, "no piece “9”"),
    ("place FILE Boat --left 1cm --bottom 1cm", 2, "no piece “Boat”. Did you mean"),
    ("place FILE BOATS --left 1cm --bottom 1cm", 2, "several pieces: 1 “Boats”, 3 “boats”"),
    ("place FILE 1 --left 1cm --bottom 1cm --wall Hall", 2, "no wall “Hall”. .*Wall"),
    ("place FILE 1 --left abc --bottom 1cm", 2, "--left: “abc”"),
    ("place FILE 1 --left 1/2 --bottom 1cm", 2, "--left: "),
    ("place FILE 1 --left 1,250mm --bottom 1cm", 2, "--left: “1,250mm”"),
    ("place FILE 1 --left 101m --bottom 1cm", 2, "--left: .*100 m"),
    ("set FILE", 2, "KEY=VALUE is missing"),
    ("set FILE title", 2, "“title” is not of the form KEY=VALUE"),
    ("set FILE titel=x", 2, "no key “titel”. Did you mean title"),
    ("set FILE wall.hight=2m", 2, "no key “wall.hight”. Did you mean wall.height"),
    ("set FILE gap=1cm gap=2cm", 2, "gap is given twice"),
    ("set FILE gap=-1cm", 2, "gap: "),
    ("set FILE units=feet", 2, "units: “feet” is not known. There are: metric, imperial"),
    ("set FILE currency=euros", 2, "currency: .*three capital letters"),
    ("set FILE region=mars", 2, "region: “mars”"),
    ("set FILE quake=maybe", 2, "quake: “maybe” is not known. There are: yes, no"),
    ("set FILE budget=€5", 2, "budget: "),
    ("set FILE budget=1.234", 2, "budget: "),
    ("set FILE wall.width=0", 2, "wall.width: "),
    ("set FILE wall.width=", 2, "wall.width: "),
    ("set FILE wall.name=", 2, "wall.name: A wall needs a name"),
    ("set FILE wall.kind=brick", 2, "wall.kind: “brick”"),
    ("set FILE wall.left-end=middle", 2, "wall.left-end: “middle”"),
    ("set FILE wall.outline=0,0", 2, "wall.outline: .*3 to 200 corners"),
    ("set FILE wall.outline=a", 2, "wall.outline: “a” is not a point"),
    ("set FILE wall.nosing=0,0", 2, "wall.nosing: two points"),
    ("set FILE wall.nosing=nan,0", 2, "wall.nosing: "),
    ("set FILE wall.datum=ceiling", 2, "wall.datum: “ceiling”"),
    ("set FILE gap=1cm --wall Hall", 2, "no wall “Hall”"),
    ("set FILE piece.9.drop=1cm", 2, "piece.9.drop: there is no piece “9”"),
    ("set FILE piece.1.dorp=1cm", 2, "piece.1.dorp: there is no column “dorp”. Did you mean drop"),
    ("set FILE piece.1.width=", 2, "piece.1.width: "),
    ("set FILE piece.1.weight=2", 2, "piece.1.weight: "),
    ("set FILE piece.1.hanger=glue", 2, "piece.1.hanger: “glue”"),
    ("set FILE piece.1.count=3", 2, "piece.1.count: "),
    ("set FILE piece.1.face=30cm", 2, "piece.1.face: .*leaves nothing"),
    ("set FILE piece.1.fixing=glue", 2, "piece.1.fixing: “glue” is not a fixing"),
    ("set FILE override.overlap.1=because", 2, "override.overlap.1: piece 1 has no stop “overlap”"),
    ("add FILE frames T", 2, "“frames” is not known. There are: pieces, obstacles, prices, wall"),
    ("add FILE wall Hall --width 2m", 2, "add: --height L is missing"),
    ("add FILE wall wall --width 2m --height 2m", 2, "NAME: The name “wall” is used twice"),
    ("add FILE pieces T --width 2m", 2, "add: pieces takes no --width"),
    ("add FILE pieces MISSING", 3, "There is no file"),
    ("new FILE --wall-width 1m --wall-height 1m", 2, "is there already"),
    ("new OUT --wall-width 1m", 2, "--wall-height L is missing"),
    ("new OUT --wall-width 0 --wall-height 1m", 2, "--wall-width: "),
    ("new OUT --wall-width 1m --wall-height 1m --units us", 2, "--units: “us”"),
    ("new OUT --wall-width 1m --wall-height 1m --currency Euro", 2, "currency"),
    ("new OUT --wall-width 1m --wall-height 1m --pieces MISSING", 3, "There is no file"),
    ("new NOFOLDER --wall-width 1m --wall-height 1m", 3, "no folder"),
    ("report MISSING", 3, "There is no file"),
    ("report FOLDER", 3, "is a folder"),
    ("report TEXT", 2, "is not a Wallwright project"),
    ("report NEWER", 2, "format 999.*formats up to"),
    ("set TEXT title=x", 2, "is not a Wallwright project"),
    ("set FILE title=x -o TEXT", 2, "is not a Wallwright project; it stays"),
    ("set FILE title=x -o FOLDER", 2, "is not a Wallwright project; it stays"),
    ("set FILE title=x -o NOFOLDER", 3, "no folder"),
    ("paper FILE posters -o OUT", 2, "no paper “posters”"),
    ("paper FILE template -o OUT", 2, "Did you mean templates"),
    ("paper FILE rehang -o OUT", 2, "not built yet"),
    ("paper FILE elevation", 2, "-o OUT.pdf is missing"),
    ("paper FILE elevation -o NOFOLDER", 3, "no folder"),
    ("paper FILE elevation -o FOLDER", 3, "is a folder"),
    ("paper FILE elevation -o FILE", 2, "is a Wallwright project; it stays"),
    ("paper FILE elevation -o OUT --sheet b9", 2, "--sheet: “b9”"),
    ("paper FILE elevation -o OUT --sheet 3x4cm", 2, "--sheet: "),
    ("paper FILE elevation -o OUT --economy cheap", 2, "--economy: “cheap” is not known. There are: full"),
    ("paper FILE elevation -o OUT --margins 1cm,1cm,1cm", 2, "--margins: "),
    ("paper FILE elevation -o OUT --margins 5,5,5,15mm", 2, "--margins: .*unit"),
    ("paper FILE elevation -o OUT --margins=-1cm", 2, "--margins: "),
    ("paper FILE elevation -o OUT --scale 1.02,1", 2, "--scale: 1.02 is outside 0.985 to 1.015"),
    ("paper FILE elevation -o OUT --scale 1", 2, "--scale: two factors"),
    ("paper FILE elevation -o OUT --scale nan,1", 2, "--scale: nan"),
    ("paper FILE elevation -o OUT --only 1,,2", 2, "--only: "),
    ("paper FILE elevation -o OUT --only 1,9", 2, "--only: there is no piece “9”"),
    ("paper FILE elevation -o OUT --wall Hall", 2, "no wall “Hall”"),
    ("paper FILE elevation -o OUT --index OUT", 2, "--index: only the papers templates / wall"),
    ("export FILE -o OUT", 2, "a name ending in .csv, .png, .svg, .pdf"),
    ("export FILE", 2, "-o OUT.csv"),
    ("arrange FILE --pattern salon", 2, "arrange is not built yet"),
    ("true-up FILE", 2, "true-up is not built yet"),
    ("print-files FILE -o DIR", 2, "print-files is not built yet"),
]


@pytest.mark.parametrize(("words", "code", "says"), USAGE, ids=[words for words, _, _ in USAGE])
def test_one_line_and_an_exit_code(words: str, code: int, says: str, file: Path, call: Call) -> None:
    folder = file.parent
    (folder / "text.txt").write_text("Shopping: milk", encoding="utf-8")
    (folder / "newer.wallwright").write_text(
        '{"format": "wallwright-project", "version": 999, "program": "later", "project": {}}', encoding="utf-8"
    )
    (folder / "folder").mkdir()
    names = {
        "FILE": file,
        "MISSING": folder / "missing.csv",
        "FOLDER": folder / "folder",
        "TEXT": folder / "text.txt",
        "NEWER": folder / "newer.wallwright",
        "OUT": folder / "out.wallwright",
        "NOFOLDER": folder / "nowhere" / "out.pdf",
    }
    before = _all_bytes(folder)
    answer = call(*(names.get(word, word) for word in words.split()))
    assert answer.code == code, answer.err
    assert answer.out == ""
    assert answer.err.count("\n") == 1 and answer.err.endswith("\n")
    assert "Traceback" not in answer.err and "usage" not in answer.err
    assert re.search(says, answer.err), answer.err
    assert _all_bytes(folder) == before


def _all_bytes(folder: Path) -> dict[str, bytes]:
    """Every file but the locks, which stay beside a project."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and not path.name.endswith((".lock", ".holder"))
    }


TABLES = [
    ("name,width\na,1cm\n", "no column “height”"),
    ("name,width,height,Width\na,1cm,1cm,1cm\n", "column “Width” is there twice"),
    ("name,width,height\na,1cm,\n", "row 2, column height"),
    ("name,width,height\na,1cm,1cm\n,1cm,1cm\n", "row 3, column name"),
    ("name,width,height,drop\na,1cm,1cm,x\n", "row 2, column drop: “x”"),
    ("name,width,height,weight\na,1cm,1cm,3\n", "row 2, column weight"),
    ("name,width,height,count\na,1cm,1cm,0\n", "row 2, column count"),
    ("name,width,height,moulding\na,1cm,1cm,unobtainium\n", "row 2, column moulding"),
    ('name,width,height\n"a,1cm,1cm\n', "quotation mark|row 2"),
    ("", "empty"),
]


@pytest.mark.parametrize(("table", "says"), TABLES)
def test_a_bad_table_is_refused_whole(table: str, says: str, file: Path, call: Call) -> None:
    rows = file.parent / "bad.csv"
    rows.write_text(table, encoding="utf-8")
    before = file.read_bytes()
    for words in (
        ("add", file, "pieces", rows),
        ("new", file.parent / "n.wallwright", "--wall-width=1m", "--wall-height=1m", "--pieces", rows),
    ):
        answer = call(*words)
        assert answer.code == 2 and answer.out == "" and answer.err.count("\n") == 1
        assert "bad.csv" in answer.err and re.search(says, answer.err), answer.err
    assert file.read_bytes() == before and not (file.parent / "n.wallwright").exists()


@pytest.mark.skipif(sys.platform == "win32" or os.geteuid() == 0, reason="the superuser may write everywhere")
def test_a_protected_folder(file: Path, call: Call) -> None:
    before = file.read_bytes()
    file.parent.chmod(0o555)
    try:
        answer = call("set", file, "title=New")
    finally:
        file.parent.chmod(0o755)
    assert answer.code == 3 and answer.err.count("\n") == 1
    assert file.read_bytes() == before


def test_help_and_version(call: Call) -> None:
    answer = call("--version")
    assert answer.code == 0 and re.fullmatch(r"wallwright \d+\.\d+.*\n", answer.out) and answer.err == ""
    overview = call("--help")
    assert overview.code == 0 and overview.err == ""
    for name in CALLS:
        assert f"wallwright {name} " in overview.out
        one = call(name, "--help")
        assert one.code == 0 and one.err == "" and one.out.startswith(f"wallwright {name} ")


def test_what_nobody_foresaw_is_one_line_too(monkeypatch: pytest.MonkeyPatch, file: Path, call: Call) -> None:
    def broken(*_: object) -> int:
        raise ZeroDivisionError("nought")

    monkeypatch.setattr("composer.commandline.showing.report", broken)
    answer = call("report", file)
    assert answer.code == 3 and answer.out == ""
    assert answer.err.count("\n") == 1 and "ZeroDivisionError" in answer.err
    monkeypatch.setenv("WALLWRIGHT_TRACEBACK", "1")
    with pytest.raises(ZeroDivisionError):
        main(["report", str(file)])
