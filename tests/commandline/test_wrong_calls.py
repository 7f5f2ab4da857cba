"""Every wrong call gets one line and its exit code, answers nothing and changes nothing.

The rules are those of the program's description of its calls; each row is a call that breaks one of them.
"""

import re
from pathlib import Path

import pytest

from composer.commandline import CALLS, main
from composer.commandline.calls import CALL_LIST
from composer.paper.kinds import ALL_KINDS, KINDS
from tests.commandline.refusals import SPACE, Call, Row, assert_refused, rows_of

PAPER = "paper FILE elevation -o PDF"
NEW = "new OUT --wall-width 1m --wall-height 1m"

RULES: dict[str, list[Row]] = {
    "an unknown call is told, with what comes near": [
        ("nonsense", 2, "“nonsense” is neither a call nor a file"),
        ("reprot FILE", 2, "Did you mean report"),
        ("REPORT FILE", 2, "“REPORT” is neither a call nor a file.*report"),
    ],
    "a file to open stands alone": [
        ("FILE extra", 2, "“extra” is one word too many"),
        ("FILE report", 2, "“report” is one word too many"),
        ("FILE --wall=Hall", 2, "“--wall=Hall” is one word too many"),
        ("nowhere.wallwright extra", 2, "“extra” is one word too many"),
    ],
    "an unknown option is told, with what comes near": [
        ("--versoin", 2, "no option “--versoin”.*--version"),
        ("report FILE --arangement x", 2, "no option “--arangement”. Did you mean --arrangement"),
        ("report FILE --wall x", 2, "no option “--wall”"),
        ("check FILE --arrangement first", 2, "no option “--arrangement”"),
        ("set FILE title=x --bottom 1cm", 2, "no option “--bottom”"),
        ("place FILE 1 --lef 1cm --bottom 1cm", 2, "no option “--lef”. Did you mean --left"),
        (f"{PAPER} --copies 2", 2, "no option “--copies”"),
        ("report FILE -x", 2, "no option “-x”"),
    ],
    "a missing word or option is named": [
        ("report", 2, "report: FILE is missing"),
        ("check", 2, "check: FILE is missing"),
        ("new", 2, "new: OUT is missing"),
        ("place FILE", 2, "place: PIECE is missing"),
        ("add FILE", 2, "add: pieces.obstacles.prices.wall is missing"),
        ("add FILE pieces", 2, "add: TABLE.NAME is missing"),
        ("set FILE", 2, "KEY=VALUE is missing"),
        ("paper FILE", 2, "paper: KIND is missing"),
        ("paper FILE elevation", 2, "-o OUT.pdf is missing"),
        ("export FILE", 2, "-o OUT.csv"),
        ("place FILE 1 --left 1cm", 2, "--bottom L is missing"),
        ("place FILE 1 --bottom 1cm", 2, "--left L is missing"),
        ("new OUT --wall-width 1m", 2, "--wall-height L is missing"),
        ("new OUT --wall-height 1m", 2, "--wall-width L is missing"),
        ("add FILE wall Hall --width 2m", 2, "add: --height L is missing"),
        ("add FILE wall Hall --height 2m", 2, "add: --width L is missing"),
    ],
    "an option's value is needed where it takes one, and refused where it takes none": [
        ("report FILE --arrangement", 2, "--arrangement needs a value"),
        ("report FILE --arrangement --json", 2, "--arrangement needs a value"),
        ("check FILE --json=yes", 2, "--json takes no value"),
        ("place FILE 1 --left 1cm --bottom 1cm --turned=no", 2, "--turned takes no value"),
    ],
    "nothing is given twice or too much": [
        ("report FILE extra", 2, "“extra” is one word too many"),
        ("place FILE 1 --left 1cm --left 2cm --bottom 1cm", 2, "--left is given twice"),
        ("set FILE gap=1cm gap=2cm", 2, "gap is given twice"),
        ("add FILE pieces T --width 2m", 2, "add: pieces takes no --width"),
        ("add FILE pieces T --wall Wall", 2, "add: pieces takes no --wall"),
        ("add FILE prices T --wall Wall", 2, "add: prices takes no --wall"),
        ("add FILE wall Hall --width 2m --height 2m --wall Wall", 2, "add: wall takes no --wall"),
    ],
    "“-” is no file": [
        ("report -", 2, "“-” is not supported"),
        ("set FILE title=x -o -", 2, "“-” is not supported|-o: a file's name is expected|-o needs a value"),
        ("paper FILE elevation -o -", 2, "“-” is not supported|-o: a file's name is expected|-o needs a value"),
        ("add FILE pieces -", 2, "“-” is not supported"),
    ],
    "what is not built yet says so": [
        *((f"{call.name} FILE", 2, f"{call.name} is not built yet") for call in CALL_LIST if not call.run),
        *((f"paper FILE {kind} -o PDF", 2, "not built yet") for kind in ALL_KINDS if kind not in KINDS),
    ],
    "a piece is a number, an exact name, a name ignoring case; candidates are listed": [
        ("place FILE 9 --left 1cm --bottom 1cm", 2, "no piece “9”"),
        ("place FILE Boat --left 1cm --bottom 1cm", 2, "no piece “Boat”. Did you mean"),
        ("place FILE BOATS --left 1cm --bottom 1cm", 2, "several pieces: 1 “Boats”, 3 “boats”"),
        ("set FILE piece.BOATS.drop=1cm", 2, "several pieces: 1 “Boats”, 3 “boats”"),
        (f"{PAPER} --only BOATS", 2, "several pieces: 1 “Boats”, 3 “boats”"),
    ],
    "a wall or an arrangement that is not there is told": [
        ("place FILE 1 --left 1cm --bottom 1cm --wall Hall", 2, "no wall “Hall”. .*Wall"),
        ("set FILE gap=1cm --wall Hall", 2, "no wall “Hall”"),
        ("add FILE obstacles T --wall Hall", 2, "no wall “Hall”"),
        (f"{PAPER} --wall Hall", 2, "no wall “Hall”"),
        ("report FILE --arrangement=winter", 2, "no arrangement “winter”.*first"),
        (f"{PAPER} --arrangement winter", 2, "no arrangement “winter”"),
    ],
    "new replaces nothing and needs two lengths": [
        ("new FILE --wall-width 1m --wall-height 1m", 2, "is there already"),
        ("new FOLDER --wall-width 1m --wall-height 1m", 2, "is there already"),
        ("new OUT --wall-width 0 --wall-height 1m", 2, "--wall-width: "),
        ("new OUT --wall-width 1m --wall-height=-1m", 2, "--wall-height: "),
        ("new OUT --wall-width 101m --wall-height 1m", 2, "--wall-width: .*100 m"),
        (f"{NEW} --units us", 2, "--units: “us” is not known. There are: metric, imperial"),
        (f"{NEW} --currency Euro", 2, "currency"),
        (f"{NEW} --currency eur", 2, "currency.*three capital letters"),
        (f"{NEW} --pieces TEXT", 2, "text.txt.*no column"),
    ],
    "add takes four things": [
        ("add FILE frames T", 2, "“frames” is not known. There are: pieces, obstacles, prices, wall"),
        ("add FILE wall wall --width 2m --height 2m", 2, "NAME: The name “wall” is used twice"),
        ("add FILE wall Hall --width 0 --height 2m", 2, "--width: "),
        ("add FILE obstacles T", 2, "one.csv.*column"),
        ("add FILE prices T", 2, "one.csv.*column"),
    ],
    "-o of a changing call replaces a project only": [
        ("set FILE title=x -o TEXT", 2, "is not a Wallwright project; it stays"),
        ("set FILE title=x -o FOLDER", 2, "is not a Wallwright project; it stays"),
        ("place FILE 1 --left 1cm --bottom 1cm -o TEXT", 2, "is not a Wallwright project; it stays"),
        ("add FILE pieces T -o T", 2, "is not a Wallwright project; it stays"),
    ],
    "a file that is no project, or of a newer format, is told": [
        *((f"{call} TEXT", 2, "“text.txt” is not a Wallwright project") for call in ("report", "check")),
        ("set TEXT title=x", 2, "is not a Wallwright project"),
        ("place TEXT 1 --left 1cm --bottom 1cm", 2, "is not a Wallwright project"),
        ("add TEXT pieces T", 2, "is not a Wallwright project"),
        ("paper TEXT elevation -o PDF", 2, "is not a Wallwright project"),
        ("export TEXT -o PDF", 2, "is not a Wallwright project"),
        *((f"{call} NEWER", 2, "newer.wallwright.*format 999.*formats up to") for call in ("report", "check")),
        ("set NEWER title=x", 2, "format 999.*formats up to"),
        ("paper NEWER elevation -o PDF", 2, "format 999.*formats up to"),
    ],
    "what cannot be read is 3": [
        ("report MISSING", 3, "There is no file.*missing.csv"),
        ("set MISSING title=x", 3, "There is no file.*missing.csv"),
        ("report FOLDER", 3, "is a folder"),
        ("add FILE pieces MISSING", 3, "There is no file"),
        ("add FILE obstacles MISSING", 3, "There is no file"),
        ("add FILE prices MISSING", 3, "There is no file"),
        (f"{NEW} --pieces MISSING", 3, "There is no file"),
        (f"{NEW} --pieces FOLDER", 3, "is a folder"),
    ],
    "a missing folder is 3": [
        ("new NOFOLDER --wall-width 1m --wall-height 1m", 3, "no folder.*nowhere"),
        ("set FILE title=x -o NOFOLDER", 3, "no folder.*nowhere"),
        ("place FILE 1 --left 1cm --bottom 1cm -o NOFOLDER", 3, "no folder"),
        ("paper FILE elevation -o NOFOLDER", 3, "no folder"),
        ("paper FILE templates -o PDF --index NOFOLDER", 3, "no folder"),
        ("export FILE -o NOFOLDER", 3, "no folder"),
    ],
    "a folder is no file to write": [
        ("paper FILE elevation -o FOLDER", 3, "is a folder"),
        ("paper FILE templates -o PDF --index FOLDER", 3, "is a folder"),
    ],
    "paper and exports never replace a project": [
        ("paper FILE elevation -o FILE", 2, "is a Wallwright project; it stays"),
        ("paper FILE templates -o PDF --index FILE", 2, "is a Wallwright project; it stays"),
    ],
    "paper has its kinds": [
        ("paper FILE posters -o PDF", 2, "no paper “posters”"),
        ("paper FILE template -o PDF", 2, "Did you mean templates"),
        ("paper FILE Templates -o PDF", 2, "no paper “Templates”. Did you mean templates"),
    ],
    "a sheet is a name or two sizes from 50 mm to 5 080 mm": [
        (f"{PAPER} --sheet b9", 2, "--sheet: “b9”"),
        (f"{PAPER} --sheet 3x4cm", 2, "--sheet: "),
        (f"{PAPER} --sheet 49x60mm", 2, "--sheet: .*50 mm"),
        (f"{PAPER} --sheet 60x5081mm", 2, "--sheet: .*5.080 mm"),
        (f"{PAPER} --sheet 30x40", 2, "--sheet: "),
        (f"{PAPER} --sheet 30cm", 2, "--sheet: "),
        (f"{PAPER} --sheet=-30x40cm", 2, "--sheet: "),
    ],
    "an economy is one of four": [
        (f"{PAPER} --economy cheap", 2, "--economy: “cheap” is not known. There are: full, outline, corners, points"),
    ],
    "margins are one length or four, 0 allowed, and leave something of the sheet": [
        (f"{PAPER} --margins 1cm,1cm,1cm", 2, "--margins: "),
        (f"{PAPER} --margins 1cm,1cm,1cm,1cm,1cm", 2, "--margins: "),
        (f"{PAPER} --margins 5,5,5,15mm", 2, "--margins: .*unit"),
        (f"{PAPER} --margins=-1cm", 2, "--margins: "),
        (f"{PAPER} --margins wide", 2, "--margins: "),
        ("paper FILE templates -o PDF --margins 11cm", 2, "paper: "),
    ],
    "an overlap is a length above nothing": [
        (f"{PAPER} --overlap=-1cm", 2, "--overlap: "),
        (f"{PAPER} --overlap some", 2, "--overlap: "),
        ("paper FILE templates -o PDF --overlap 25cm", 2, "paper: "),
    ],
    "a scale is two factors from 0.985 to 1.015": [
        (f"{PAPER} --scale 1.02,1", 2, "--scale: 1.02 is outside 0.985 to 1.015"),
        (f"{PAPER} --scale 1,0.98499", 2, "--scale: 0.98499 is outside"),
        (f"{PAPER} --scale 1", 2, "--scale: two factors"),
        (f"{PAPER} --scale 1,1,1", 2, "--scale: two factors"),
        (f"{PAPER} --scale nan,1", 2, "--scale: nan"),
        (f"{PAPER} --scale inf,1", 2, "--scale: inf"),
        (f"{PAPER} --scale=-1,1", 2, "--scale: -1 is outside"),
    ],
    "--only names pieces": [
        (f"{PAPER} --only 1,,2", 2, "--only: "),
        (f"{PAPER} --only 1,9", 2, "--only: there is no piece “9”"),
        (f"{PAPER} --only=", 2, "--only: "),
    ],
    "only templates and wall have an index, in a file of its own": [
        (f"{PAPER} --index OUT", 2, "--index: only the papers templates / wall"),
        ("paper FILE templates -o PDF --index PDF", 2, "--index: the index needs a file of its own"),
    ],
    "nothing to print is a no, and nothing is written": [
        ("paper FILE wall -o PDF", 1, "paper: .*[.]$"),
        ("paper FILE wall -o PDF --index OUT", 1, "paper: "),
    ],
    "an export ends in one of four": [
        ("export FILE -o OUT", 2, "a name ending in .csv, .png, .svg, .pdf"),
        ("export FILE -o FOLDER", 2, "a name ending in .csv, .png, .svg, .pdf"),
        ("export FILE -o TEXT", 2, "a name ending in .csv, .png, .svg, .pdf"),
    ],
    "arrange needs one of nine patterns, and a seed that counts": [
        ("arrange FILE", 2, "--pattern P is missing"),
        ("arrange FILE --pattern circle", 2, "--pattern: “circle” is not known. There are: salon, block, row, column"),
        ("arrange FILE --pattern row --seed x", 2, "--seed: .*“x”"),
        ("arrange FILE --pattern row --seed=-1", 2, "--seed: "),
        ("arrange FILE --pattern row --gap=-1cm", 2, "--gap: "),
        ("arrange FILE --pattern row --eye-line 0", 2, "--eye-line: "),
        ("arrange FILE --pattern row --wall Hall", 2, "no wall “Hall”"),
        ("arrange FILE --pattern row --arrangement=", 2, "--arrangement: "),
        ("arrange MISSING --pattern row", 3, "There is no file"),
        ("arrange FILE --pattern row -o TEXT", 2, "is not a Wallwright project; it stays"),
    ],
    "what does not fit is a no": [
        ("arrange FILE --pattern row --gap 2m", 1, "arrange: "),
        ("arrange FILE --pattern stair", 1, "arrange: .*no stair"),
    ],
    "true-up takes a gap": [
        ("true-up FILE --gap x", 2, "--gap: “x”"),
        ("true-up FILE --pattern row", 2, "no option “--pattern”"),
        ("true-up TEXT", 2, "is not a Wallwright project"),
    ],
    "print files go into a folder": [
        ("print-files FILE", 2, "-o DIR is missing"),
        ("print-files FILE -o TEXT", 2, "is a file; a folder is expected"),
        ("print-files FILE -o NOFOLDER", 3, "no folder"),
        ("print-files TEXT -o DIR", 2, "is not a Wallwright project"),
    ],
    "a packed copy is made in a file and taken out into a new folder": [
        ("pack FILE", 2, "-o OUT.zip is missing"),
        ("pack TEXT -o PDF", 2, "is not a Wallwright project|-o: "),
        ("pack MISSING -o PDF", 3, "There is no file|-o: "),
        ("pack FILE -o NOFOLDER", 3, "no folder"),
        ("unpack TEXT", 2, "-o DIR is missing"),
        ("unpack TEXT -o DIR", 2, "not an archive|not a packed copy"),
        ("unpack MISSING -o DIR", 3, "There is no file"),
    ],
    "lengths are read as people write them, and only then": [
        (f"place FILE 1 --left {left} --bottom 1cm", 2, f"--left: .*{says}")
        for left, says in (
            ("abc", "“abc” is not a length"),
            ("1/2", "“1/2” needs a unit"),
            ("3-1/2", "“3-1/2” needs a unit"),
            ("½", "“½” needs a unit"),
            ("1,250mm", "“1,250mm”"),
            (f"1,250{SPACE}mm", "“1,250 mm”"),
            ("1.250,5mm", "1.250,5mm"),
            ("1'250mm", "1'250mm"),
            ("1_250mm", "1_250mm"),
            ("101m", "100 m"),
            ("100.001m", "100 m"),
            ("1e3mm", "is not a length"),
            ("nan", "is not a length"),
            ("inf", "is not a length"),
            ("5yd", "is not a length"),
            ("5cm5", "is not a length"),
            ("4ft13in", "less than 12"),
            ("1/0in", "1/0"),
        )
    ],
    "a minus is for positions only": [
        ("set FILE gap=-1cm", 2, "gap: "),
        ("set FILE wall.width=-1m", 2, "wall.width: "),
        ("set FILE wall.eye-line=-1m", 2, "wall.eye-line: "),
        ("set FILE piece.1.drop=-1cm", 2, "piece.1.drop: "),
        ("set FILE piece.1.width=-1cm", 2, "piece.1.width: "),
        ("set FILE piece.1.mat-border=-1cm", 2, "piece.1.mat-border: "),
        ("add FILE wall Hall --width=-2m --height 2m", 2, "--width: "),
    ],
}


@pytest.mark.parametrize(("words", "code", "says"), rows_of(RULES))
def test_one_line_and_an_exit_code(words: str, code: int, says: str, file: Path, call: Call) -> None:
    assert_refused(words, code, says, file, call)


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
