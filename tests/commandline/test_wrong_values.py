"""Every key of ``set`` and every column refuses what it cannot hold, in one line that names the key or the row.

The rules are those of the program's description of its calls and of the inventory table.
"""

import re
from pathlib import Path

import pytest

from tests.commandline.refusals import SPACE, Call, Row, all_bytes, assert_one_line, assert_refused, rows_of


def _set(*rows: tuple[str, str]) -> list[Row]:
    return [(f"set FILE {pair}", 2, f"set: {says}") for pair, says in rows]


KEYS: dict[str, list[Row]] = {
    "a value is KEY=VALUE": _set(
        ("title", "“title” is not of the form KEY=VALUE"), ("=x", "“=x” is not of the form KEY=VALUE")
    ),
    "an unknown key is told, with what comes near": _set(
        ("titel=x", "there is no key “titel”. Did you mean title"),
        ("wall.hight=2m", "there is no key “wall.hight”. Did you mean wall.height"),
        ("Title=x", "there is no key “Title”. Did you mean title"),
        ("piece.1=x", "there is no key “piece.1”"),
        ("override.overlap=x", "there is no key “override.overlap”"),
        ("wall=x", "there is no key “wall”"),
    ),
    "the project's keys": _set(
        ("units=feet", "units: “feet” is not known. There are: metric, imperial"),
        ("units=", "units: “” is not known"),
        ("currency=euros", "currency: .*three capital letters"),
        ("currency=", "currency: "),
        ("region=mars", "region: “mars” is not known. There are: none, uk, us"),
        ("quake=maybe", "quake: “maybe” is not known. There are: yes, no"),
        ("budget=€5", "budget: “€5” is not an amount"),
        ("budget=1.234", "budget: “1.234” is not an amount"),
        ("budget=-5", "budget: "),
        ("budget=1,000.50", "budget: "),
        (f"title={'x' * 201}", "title: .*200"),
        ("gap=x", "gap: “x” is not a length"),
        ("gap=", "gap: "),
        ("gap=1/2", "gap: .*needs a unit"),
        ("gap=100.1m", "gap: .*100 m"),
    ),
    "a wall's keys": _set(
        ("wall.name=", "wall.name: A wall needs a name"),
        ("wall.width=0", "wall.width: “0”"),
        ("wall.width=", "wall.width: "),
        ("wall.height=", "wall.height: "),
        ("wall.kind=brick", "wall.kind: “brick” is not known"),
        ("wall.no-holes=perhaps", "wall.no-holes: “perhaps” is not known. There are: yes, no"),
        ("wall.left-end=middle", "wall.left-end: “middle” is not known. There are: corner, free, door"),
        ("wall.right-end=middle", "wall.right-end: “middle” is not known"),
        ("wall.eye-line=0", "wall.eye-line: “0”"),
        ("wall.viewing-distance=x", "wall.viewing-distance: “x”"),
        ("wall.stud-first=x", "wall.stud-first: “x”"),
        ("wall.stud-spacing=0", "wall.stud-spacing: “0”"),
        ("wall.datum=ceiling", "wall.datum: “ceiling”"),
        ("wall.datum=", "wall.datum: "),
        ("wall.outline=0,0", "wall.outline: .*3 to 200 corners"),
        (f"wall.outline=0,0{SPACE}1000,0", "wall.outline: .*3 to 200 corners"),
        ("wall.outline=a", "wall.outline: “a” is not a point"),
        (f"wall.outline=0,0{SPACE}1,2,3{SPACE}5,5", "wall.outline: “1,2,3” is not a point"),
        (f"wall.outline=0,0{SPACE}1000,1000{SPACE}1000,0{SPACE}0,1000", "wall.outline: "),  # crosses itself
        (f"wall.outline=0,0{SPACE}inf,0{SPACE}0,5", "wall.outline: "),
        ("wall.nosing=0,0", "wall.nosing: two points"),
        (f"wall.nosing=0,0{SPACE}1,1{SPACE}2,2", "wall.nosing: two points"),
        ("wall.nosing=nan,0", "wall.nosing: "),
    ),
    "a piece's keys are the table's columns": _set(
        ("piece.9.drop=1cm", "piece.9.drop: there is no piece “9”"),
        ("piece.1.dorp=1cm", "piece.1.dorp: there is no column “dorp”. Did you mean drop"),
        ("piece.1.left=1cm", "piece.1.left: there is no column “left”"),
        ("piece.1.name=", "piece.1.name: "),
        ("piece.1.width=", "piece.1.width: "),
        ("piece.1.height=0", "piece.1.height: “0”"),
        ("piece.1.depth=x", "piece.1.depth: “x”"),
        ("piece.1.face=30cm", "piece.1.face: .*leaves nothing"),
        ("piece.1.lip=5cm", "piece.1.lip: "),  # wider than the face of 25 mm
        ("piece.1.sight-width=0", "piece.1.sight-width: "),
        ("piece.1.sight-height=x", "piece.1.sight-height: "),
        ("piece.1.glass-width=0", "piece.1.glass-width: "),
        ("piece.1.glass-height=x", "piece.1.glass-height: "),
        ("piece.1.rabbet-depth=0", "piece.1.rabbet-depth: "),
        ("piece.1.moulding=unobtainium", "piece.1.moulding: “unobtainium” is not in the catalogue"),
        ("piece.1.moulding-thickness=0", "piece.1.moulding-thickness: "),
        ("piece.1.glazing=ice", "piece.1.glazing: “ice” is not one of glass, acrylic, styrene, none"),
        ("piece.1.glazing-thickness=0", "piece.1.glazing-thickness: "),
        ("piece.1.backing=unobtainium", "piece.1.backing: “unobtainium” is not in the catalogue"),
        ("piece.1.weight=2", "piece.1.weight: .*needs a unit"),
        ("piece.1.weight=0kg", "piece.1.weight: "),
        ("piece.1.weight=2stone", "piece.1.weight: “2stone” is not a weight"),
        (f"piece.1.weight=1lb{SPACE}16oz", "piece.1.weight: .*less than 16"),
        ("piece.1.hanger=glue", "piece.1.hanger: “glue” is not one of wire, "),
        ("piece.1.drop=x", "piece.1.drop: “x”"),
        ("piece.1.drop-right=-1cm", "piece.1.drop-right: "),
        ("piece.1.spacing=0", "piece.1.spacing: "),
        ("piece.1.offset=x", "piece.1.offset: “x”"),
        ("piece.1.wire=0", "piece.1.wire: "),
        ("piece.1.ring-drop=-1cm", "piece.1.ring-drop: "),
        ("piece.1.hooks=3", "piece.1.hooks: “3” is not one of 1, 2"),
        ("piece.1.hook-spacing=0", "piece.1.hook-spacing: "),
        ("piece.1.mat-border=0", "piece.1.mat-border: "),
        ("piece.1.mat-bottom=5cm", "piece.1.mat-bottom: .*mat-border"),
        ("piece.1.mat-overlap=x", "piece.1.mat-overlap: "),
        ("piece.1.price=5€", "piece.1.price: .*no symbol"),
        ("piece.1.price=1.234", "piece.1.price: .*two decimals"),
        ("piece.1.price=-1", "piece.1.price: "),
        ("piece.1.owned=perhaps", "piece.1.owned: “perhaps” is not one of yes, no"),
        ("piece.1.count=3", "piece.1.count: “count” cannot be set"),
        (f"piece.1.name={'x' * 201}", "piece.1.name: .*200"),
        ("piece.1.fixing=glue", "piece.1.fixing: “glue” is not a fixing"),
    ),
    "only a stop that stands can be overridden, with a reason": _set(
        ("override.overlap.1=because", "override.overlap.1: piece 1 has no stop “overlap”"),
        ("override.overlap.9=because", "override.overlap.9: there is no piece “9”"),
        ("override.nonsense.1=because", "override.nonsense.1: "),
    ),
    "all keys are set or none": [
        ("set FILE title=New gap=x", 2, "gap: "),
        ("set FILE title=New piece.9.drop=1cm", 2, "piece.9"),
        ("set FILE title=New --wall Hall", 2, "no wall “Hall”"),
    ],
}


@pytest.mark.parametrize(("words", "code", "says"), rows_of(KEYS))
def test_a_value_is_refused_by_its_key(words: str, code: int, says: str, file: Path, call: Call) -> None:
    assert_refused(words, code, says, file, call)


def test_a_key_is_named_once(file: Path, call: Call) -> None:
    for words in ("gap=x", "units=feet", "wall.eye-line=0", "piece.1.width=x"):
        assert call("set", file, words).err.count(words.partition("=")[0]) == 1


HEAD = "name,width,height"
TABLES: dict[str, tuple[str | bytes, str]] = {
    "one of the three is missing": ("name,width\na,1cm\n", "no column “height”"),
    "a column is there twice": (f"{HEAD},Width\na,1cm,1cm,1cm\n", "column “Width” is there twice"),
    "twice whatever case, spaces, - and _": (
        f"{HEAD},ring drop,Ring_Drop\na,1cm,1cm,,\n",
        "column “Ring_Drop” is there twice",
    ),
    "none of the three may be empty: height": (f"{HEAD}\na,1cm,\n", "row 2, column height"),
    "none of the three may be empty: name": (f"{HEAD}\na,1cm,1cm\n,1cm,1cm\n", "row 3, column name"),
    "none of the three may be empty: width": (f"{HEAD}\na,,1cm\n", "row 2, column width"),
    "zero is no size": (f"{HEAD}\na,0,1cm\n", "row 2, column width"),
    "a fraction without a unit in a metric project": (f"{HEAD}\na,1/2,1cm\n", "row 2, column width.*needs a unit"),
    "a bad length by row and column": (f"{HEAD},drop\na,1cm,1cm,x\n", "row 2, column drop: “x”"),
    "rows are counted with the header as 1": (f"{HEAD}\na,1cm,1cm\n\nb,1cm,x\n", "row 4, column height"),
    "weights need a unit": (f"{HEAD},weight\na,1cm,1cm,3\n", "row 2, column weight.*unit"),
    "prices have no symbol": (f"{HEAD},price\na,1cm,1cm,5 €\n", "row 2, column price"),
    "count is 1 to 999: 0": (f"{HEAD},count\na,1cm,1cm,0\n", "row 2, column count.*1 to 999"),
    "count is 1 to 999: 1000": (f"{HEAD},count\na,1cm,1cm,1000\n", "row 2, column count.*1 to 999"),
    "hooks are 1 or 2": (f"{HEAD},hooks\na,1cm,1cm,3\n", "row 2, column hooks"),
    "owned is yes or no": (f"{HEAD},owned\na,1cm,1cm,perhaps\n", "row 2, column owned"),
    "a hanger is one of seven": (f"{HEAD},hanger\na,1cm,1cm,glue\n", "row 2, column hanger"),
    "glazing is one of four": (f"{HEAD},glazing\na,1cm,1cm,ice\n", "row 2, column glazing"),
    "mouldings are the catalogue's": (f"{HEAD},moulding\na,1cm,1cm,unobtainium\n", "row 2, column moulding"),
    "backings are the catalogue's": (f"{HEAD},backing\na,1cm,1cm,unobtainium\n", "row 2, column backing"),
    "a minus is for offset and mat-overlap only": (f"{HEAD},depth\na,1cm,1cm,-1cm\n", "row 2, column depth"),
    "a strange unit in a header": ("name,width [yd],height\na,1,1\n", "width|yd"),
    "a cell beyond the header": (f"{HEAD}\na,1cm,1cm,what\n", "row 2.*“what” stands in column 4"),
    "an open quotation mark": (f'{HEAD}\n"a,1cm,1cm\n', "quotation mark|row 2"),
    "nothing at all": ("", "empty"),
    "bytes that are no UTF-8": (b"name,width,height\n\xff\xfe,1cm,1cm\n", "not UTF-8"),
    "a face that leaves nothing to see": (f"{HEAD},face\na,10cm,10cm,5cm\n", "row 2, column face"),
    "lengths beyond 100 m": (f"{HEAD}\na,101m,1cm\n", "row 2, column width.*100 m"),
    "no table holds more than ten thousand pieces": (
        f"{HEAD},count\n" + "a,1cm,1cm,999\n" * 11,
        "row 12: more than 10000 pieces",
    ),
    "three digits after a comma": (f'{HEAD}\na,"1,250 mm",1cm\n', "row 2, column width.*1,250 mm"),
}


@pytest.mark.parametrize("rule", TABLES)
def test_a_bad_table_is_refused_whole(rule: str, file: Path, call: Call) -> None:
    table, says = TABLES[rule]
    rows = file.parent / "bad.csv"
    rows.write_bytes(table if isinstance(table, bytes) else table.encode())
    before = all_bytes(file.parent)
    for words in (
        ("add", file, "pieces", rows),
        ("new", file.parent / "n.wallwright", "--wall-width=1m", "--wall-height=1m", "--pieces", rows),
    ):
        answer = call(*words)
        assert (answer.code, answer.out) == (2, ""), answer.err
        assert_one_line(answer.err)
        assert "bad.csv" in answer.err
        assert re.search(says, answer.err), answer.err
    assert all_bytes(file.parent) == before


LISTS = {
    "obstacles need a kind": ("obstacles", "kind,left,bottom,width,height\n,1,1,1,1\n", "row 2, column kind"),
    "obstacles have their kinds": (
        "obstacles",
        "kind,left,bottom,width,height\npiano,1,1,1,1\n",
        "row 2, column kind: “piano” is not one of sofa, bed, cot",
    ),
    "obstacles need four lengths": ("obstacles", "kind,left,bottom,width\nsofa,1,1,1\n", "no column “height”"),
    "an obstacle has a size": ("obstacles", "kind,left,bottom,width,height\nsofa,1,1,0,1\n", "row 2, column width"),
    "an obstacle's depth is no less than nothing": (
        "obstacles",
        "kind,left,bottom,width,height,depth\nsofa,1,1,1,1,-1\n",
        "row 2, column depth",
    ),
    "obstacles have no other columns": (
        "obstacles",
        "kind,left,bottom,width,height,colour\nsofa,1,1,1,1,red\n",
        "column “colour” that means nothing here",
    ),
    "prices need an item": ("prices", "item,each\n,1\n", "row 2, column item"),
    "an item has one price": ("prices", "item,each\nhook,1\nHook,2\n", "row 3, column item.*twice"),
    "a price has two decimals at most": ("prices", "item,each\nhook,1.234\n", "row 2, column each"),
    "a pack is 1 or more": ("prices", "item,each,pack\nhook,1,0\n", "row 2, column pack"),
    "a pack has its price": ("prices", "item,each,pack\nhook,,4\n", "row 2, column each"),
    "a drawer holds whole numbers": ("prices", "item,each,in-drawer\nhook,1,1.5\n", "row 2, column in-drawer"),
}


@pytest.mark.parametrize("rule", LISTS)
def test_a_bad_list_is_refused_whole(rule: str, file: Path, call: Call) -> None:
    what, table, says = LISTS[rule]
    rows = file.parent / "bad.csv"
    rows.write_text(table, encoding="utf-8")
    before = all_bytes(file.parent)
    answer = call("add", file, what, rows)
    assert (answer.code, answer.out) == (2, ""), answer.err
    assert_one_line(answer.err)
    assert "bad.csv" in answer.err
    assert re.search(says, answer.err), answer.err
    assert all_bytes(file.parent) == before
