"""The inventory table, read and written.

What each cell must give is written by hand from the table's description; files are built with
Python's own ``csv`` module, which is not what reads them back where the check is about quoting.
"""

import csv
import io
from decimal import Decimal
from pathlib import Path
from typing import Any, get_args

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from composer.model import Arrangement, HangerKind, Placement, Project, Units, Wall
from composer.model.frame import Glazing
from composer.projectfile import inventory
from composer.projectfile.errors import BadTable, CannotRead
from composer.units import Length


def length(text: str) -> Length:
    return Length.from_text(text)


def empty(units: Units = "metric") -> Project:
    return Project(
        title="wall",
        units=units,
        next_key=3,
        walls=(Wall(key="w1", name="first", width=length("4 m"), height=length("2.5 m")),),
        arrangements=(Arrangement(key="h2", name="first", gap=length("50 mm")),),
        current_arrangement="h2",
    )


def read(folder: Path, text: str | bytes, units: Units = "metric") -> inventory.Table:
    path = folder / "frames.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return inventory.read_table(path, units)


def refused(folder: Path, text: str | bytes, units: Units = "metric") -> BadTable:
    with pytest.raises(BadTable) as caught:
        read(folder, text, units)
    sentence = str(caught.value)
    assert "frames.csv" in sentence
    assert sentence.endswith(".")
    assert not any(sign in sentence for sign in "\n\r\x00")
    assert len(sentence) < 1500
    return caught.value


EVERY_COLUMN = {
    "name": "Harbour",
    "width": '23 5/8"',
    "height": "17 3/4 in",
    "depth": "2,2 cm",
    "face": "28.5 mm",
    "lip": "7 mm",
    "sight-width": "54 cm",
    "sight-height": "39 cm",
    "glass-width": "55 cm",
    "glass-height": "40 cm",
    "rabbet-depth": "1 cm",
    "moulding": "pine",
    "moulding-thickness": "2 cm",
    "glazing": "Acrylic",
    "glazing-thickness": "2 mm",
    "backing": "",
    "weight": "2 lb 4 oz",
    "hanger": "D-Rings",
    "drop": "60",
    "drop-right": "6.1 cm",
    "spacing": "53",
    "offset": "-5 mm",
    "wire": "60 cm",
    "ring-drop": "100 mm",
    "hooks": "2",
    "hook-spacing": "20",
    "picture": "pictures/harbour.jpg",
    "mat-border": "6 cm",
    "mat-bottom": "7 cm",
    "mat-overlap": "-3 mm",
    "price": "11,40",
    "owned": "YES",
    "count": "",
    "note": "hangs crooked",
}


def as_csv(*rows: dict[str, str], delimiter: str = ",") -> str:
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, list(rows[0]), delimiter=delimiter)
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def test_every_column_lands_where_it_belongs(tmp_path: Path) -> None:
    (row,) = read(tmp_path, as_csv(EVERY_COLUMN)).rows
    piece, frame, hanger = row.piece, row.piece.frame, row.piece.hanger
    assert (piece.name, piece.number, row.row, row.picture) == ("Harbour", 1, 2, "pictures/harbour.jpg")
    assert {field: getattr(frame, field) and str(getattr(frame, field)) for field in frame.__struct_fields__} == {
        "width": "23 5/8 in",
        "height": "17 3/4 in",
        "depth": "2.2 cm",
        "face": "28.5 mm",
        "lip": "7 mm",
        "rabbet_depth": "1 cm",
        "allowance": "3 mm",
        "sight_width": "54 cm",
        "sight_height": "39 cm",
        "glass_width": "55 cm",
        "glass_height": "40 cm",
        "moulding": "pine",
        "moulding_thickness": "2 cm",
        "profile_area_mm2": None,
        "glazing": "acrylic",
        "glazing_thickness": "2 mm",
        "backing": None,
        "backing_thickness": None,
        "colour": None,
        "diagonal_rising": None,
        "diagonal_falling": None,
        "condition": "",
    }
    assert (hanger.kind, hanger.hooks) == ("d-rings", 2)
    assert (str(hanger.drop), str(hanger.drop_right), str(hanger.spacing)) == ("60 cm", "6.1 cm", "53 cm")
    assert (str(hanger.offset), str(hanger.wire)) == ("-5 mm", "60 cm")
    assert (str(hanger.ring_drop), str(hanger.hook_spacing)) == ("100 mm", "20 cm")
    assert str(piece.weight) == "2 lb 4 oz"
    assert (piece.price, piece.owned, piece.note) == (Decimal("11.40"), True, "hangs crooked")
    assert piece.mat is not None
    borders: Any = piece.mat.borders
    assert [str(side) for side in (borders.top, borders.bottom, borders.left, borders.right)] == [
        "6 cm", "7 cm", "6 cm", "6 cm",
    ]  # fmt: skip
    assert str(piece.mat.overlap) == "-3 mm"


def test_three_columns_are_enough_and_empty_is_not_zero(tmp_path: Path) -> None:
    (row,) = read(tmp_path, "height,name,width,drop\n50,Boats,40,\n").rows
    piece = row.piece
    assert (str(piece.frame.width), str(piece.frame.height)) == ("40 cm", "50 cm")
    assert (piece.hanger.drop, piece.weight, piece.mat, piece.hanger.kind, piece.owned) == (
        None,
        None,
        None,
        None,
        False,
    )
    assert (str(piece.frame.lip), str(piece.frame.allowance)) == ("6 mm", "3 mm")
    (row,) = read(tmp_path, "name,width,height\nBoats,16,20\n", "imperial").rows
    frame = row.piece.frame
    assert [str(part) for part in (frame.width, frame.lip, frame.allowance)] == ["16 in", "1/4 in", "1/8 in"]


def test_a_lip_nobody_measured_is_never_wider_than_the_face(tmp_path: Path) -> None:
    (row,) = read(tmp_path, "name,width,height,face\nBoats,40,50,4 mm\n").rows
    assert str(row.piece.frame.lip) == "4 mm"
    assert refused(tmp_path, "name,width,height,face,lip\nBoats,40,50,4 mm,6 mm\n").column == "lip"


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("start", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_delimiters_marks_and_line_ends(tmp_path: Path, delimiter: str, start: bytes, end: str) -> None:
    lines = [["Name", "WIDTH [mm]", "He ight", "Sight_Width"], ["Boats; big, red", "6,5", "4 ft 9 1/2 in", ""]]
    text = end.join(delimiter.join(f'"{cell}"' for cell in line) for line in lines) + end
    (row,) = read(tmp_path, start + text.encode()).rows
    assert row.piece.name == "Boats; big, red"
    assert str(row.piece.frame.width) == "6.5 mm"
    assert str(row.piece.frame.height) == "4 ft 9 1/2 in"


def test_units_in_headers(tmp_path: Path) -> None:
    (row,) = read(tmp_path, "name,width [in],height [mm],weight [g],drop [ cm ]\nBoats,15 3/4,400,800,6\n").rows
    assert str(row.piece.frame.width) == "15 3/4 in"
    assert str(row.piece.frame.height) == "400 mm"
    assert str(row.piece.weight) == "800 g"
    assert str(row.piece.hanger.drop) == "6 cm"
    assert refused(tmp_path, "name,width [parsec],height\nBoats,1,2\n").row == 1


def test_count_makes_that_many_pieces(tmp_path: Path) -> None:
    table = read(tmp_path, "name,width,height,count\nLast year,20,30,3\nBoats,40,50,\nOne,10,15,1\n")
    assert [(row.piece.number, row.piece.name) for row in table.rows] == [
        (1, "Last year 1"), (2, "Last year 2"), (3, "Last year 3"), (4, "Boats"), (5, "One"),
    ]  # fmt: skip
    for count in ("0", "-1", "1000", "2.5", "x", "²"):
        assert refused(tmp_path, f"name,width,height,count\nA,20,30,{count}\n").column == "count"


def test_unknown_columns_are_kept_and_told_once(tmp_path: Path) -> None:
    table = read(tmp_path, "name,where,width,height,Found On\nA,attic,1,2,\nB,,1,2,2019\n")
    assert table.unknown == ("where", "Found On")
    assert [row.piece.extra for row in table.rows] == [(("where", "attic"),), (("Found On", "2019"),)]


def test_own_columns_keep_their_order_whoever_fills_them(tmp_path: Path) -> None:
    text = "name,width,height,shop,shelf,paid\na,1cm,1cm,,,yes\nb,1cm,1cm,,left,\nc,1cm,1cm,market,left,no\n"
    project = inventory.add_to(empty(), read(tmp_path, text), tmp_path)
    (header, *_) = csv.reader(io.StringIO(inventory.table_bytes(project, tmp_path, tmp_path).decode("utf-8-sig")))
    assert header[-3:] == ["shop", "shelf", "paid"]
    other = "name,width,height,paid,shop\nd,1cm,1cm,yes,market\n"  # another table that has them the other way round
    both = inventory.add_to(project, read(tmp_path, other), tmp_path)
    (header, *_) = csv.reader(io.StringIO(inventory.table_bytes(both, tmp_path, tmp_path).decode("utf-8-sig")))
    assert sorted(header[-3:]) == ["paid", "shelf", "shop"]


def test_formulas_are_disarmed_and_armed_again(tmp_path: Path) -> None:
    names = ["=1+1", "+1", "-1", "@sum", "'quoted", "plain'", "''", "'=x"]
    text = as_csv(
        *({"name": f"'{name}" if name[0] in "=+-@'" else name, "width": "20", "height": "30"} for name in names)
    )
    table = read(tmp_path, text)
    assert [row.piece.name for row in table.rows] == names
    project = inventory.add_to(empty(), table, tmp_path)
    written = list(csv.reader(io.StringIO(inventory.table_bytes(project, tmp_path, tmp_path).decode("utf-8-sig"))))
    assert [row[0] for row in written[1:]] == [f"'{name}" if name[0] in "=+-@'" else name for name in names]


@pytest.mark.parametrize(
    ("header", "cells", "row", "column"),
    [
        ("name,width,height", "A,0,30", 2, "width"),
        ("name,width,height", "A,-20,30", 2, "width"),
        ("name,width,height", "A,NaN,30", 2, "width"),
        ("name,width,height", "A,20,1e308", 2, "height"),
        ("name,width,height", "A,20,", 2, "height"),
        ("name,width,height", ",20,30", 2, "name"),
        ("name,width,height", "A,100.1 m,30", 2, "width"),
        ("name,width,height", 'A,"1,250 mm",30', 2, "width"),
        ("name,width,height", "A,15 1/2,30", 2, "width"),
        ("name,width,height", "A\x00B,20,30", 2, "name"),
        ("name,width,height", "A\x1bB,20,30", 2, "name"),
        ("name,width,height", f"{'A' * 201},20,30", 2, "name"),
        ("name,width,height", "A,20", 2, "height"),
        ("name,width,height,drop", "A,20,30,-1", 2, "drop"),
        ("name,width,height,weight", "A,20,30,5", 2, "weight"),
        ("name,width,height,hanger", "A,20,30,glue", 2, "hanger"),
        ("name,width,height,glazing", "A,20,30,ice", 2, "glazing"),
        ("name,width,height,moulding", "A,20,30,unobtainium", 2, "moulding"),
        ("name,width,height,hooks", "A,20,30,3", 2, "hooks"),
        ("name,width,height,owned", "A,20,30,maybe", 2, "owned"),
        ("name,width,height,price", "A,20,30,5 EUR", 2, "price"),
        ("name,width,height,face", "A,20,30,10", 2, "face"),
        ("name,width,height,mat-bottom", "A,20,30,6", 2, "mat-bottom"),
        ("name,width,height,picture", "A,20,30,a\\b.jpg", 2, "picture"),
        ("name,width,height", "A,20,30,stray", 2, None),
        ("name,width", "A,20", 1, "height"),
        ("name,width,height,Wid-th", "A,20,30,40", 1, "Wid-th"),
        ("name,width,height,mine,MINE", "A,20,30,40,50", 1, "MINE"),
        ("name,width,height", 'A,20,"30', 2, None),
    ],
)
def test_a_bad_row_is_refused_by_row_and_column(
    tmp_path: Path, header: str, cells: str, row: int, column: str | None
) -> None:
    error = refused(tmp_path, f"{header}\n{cells}\n")
    assert (error.row, error.column) == (row, column)
    if row > 1:
        assert f"row {row}" in str(error)
    if column:
        assert column in str(error)


def test_rows_are_counted_as_a_spreadsheet_counts_them(tmp_path: Path) -> None:
    assert refused(tmp_path, 'name,width,height\n"A\nB",20,30\n').row == 2  # a name has one line
    assert refused(tmp_path, 'name,width,height,note\nA,20,30,"two\nlines"\n\n,,,\nB,x,30,\n').row == 5


def test_what_is_no_table_is_refused(tmp_path: Path) -> None:
    refused(tmp_path, b"")
    refused(tmp_path, b"\n\n")
    assert "line 2" in str(refused(tmp_path, b"name,width,height\nA\xff,20,30\n"))
    refused(tmp_path, "name,width,height\nA,20,30\n".encode("utf-16"))
    assert refused(tmp_path, f"name,width,height\n{'x' * 1_000_000},20,30\n").row == 2
    assert refused(tmp_path, f"name,width,height\nA,{'9' * 1_000_000},30\n").row == 2
    for missing in (tmp_path / "none.csv", tmp_path, tmp_path / "frames.csv" / "x.csv"):
        with pytest.raises(CannotRead):
            inventory.read_table(missing, "metric")


def test_right_to_left_and_other_scripts_stay_as_they_are(tmp_path: Path) -> None:
    names = ["תמונה של הים", "لوحة البحر", "海", "Ł́ódź", "e\u0301te\u0301"]
    table = read(tmp_path, as_csv(*({"name": name, "width": "20", "height": "30"} for name in names)))
    assert [row.piece.name for row in table.rows][:3] == names[:3]
    assert table.rows[4].piece.name == "été"  # composed, as stored texts are


def test_added_pieces_get_numbers_and_keys_never_used_before(tmp_path: Path) -> None:
    (tmp_path / "tables").mkdir()
    table = read(tmp_path / "tables", "name,width,height,picture\nA,20,30,a.jpg\nB,20,30,\nC,20,30,../tables/a.jpg\n")
    once = inventory.add_to(empty(), table, tmp_path)
    twice = inventory.add_to(once, table, tmp_path)
    assert [piece.number for piece in twice.pieces] == [1, 2, 3, 4, 5, 6]
    assert [picture.path for picture in twice.pictures] == ["tables/a.jpg"]
    assert len({piece.key for piece in twice.pieces} | {twice.pictures[0].key}) == 7
    assert twice.next_number == 7


def test_a_picture_is_set_and_taken_out(tmp_path: Path) -> None:
    project = inventory.add_to(empty(), read(tmp_path, "name,width,height\nA,20,30\n"), tmp_path)
    key = project.pieces[0].key
    shown = inventory.set_picture(project, key, "b.jpg")
    assert [picture.path for picture in shown.pictures] == ["b.jpg"]
    assert shown.pieces[0].uses[0].picture == shown.pictures[0].key
    assert inventory.set_picture(shown, key, "").pieces[0].uses == ()
    assert inventory.set_picture(shown, key, "b.jpg") == shown


def test_the_export_says_where_pieces_hang_and_forgets_it_when_read(tmp_path: Path) -> None:
    project = inventory.add_to(empty(), read(tmp_path, as_csv(EVERY_COLUMN)), tmp_path)
    place = Placement(piece=project.pieces[0].key, wall="w1", left=1234.5, bottom=900.0, locked=True)
    hung = Project(
        **{name: getattr(project, name) for name in project.__struct_fields__ if name != "arrangements"},
        arrangements=(Arrangement(key="h2", name="first", gap=length("50 mm"), placements=(place,)),),
    )
    data = inventory.table_bytes(hung, tmp_path, tmp_path)
    assert data.startswith(b"\xef\xbb\xbfname,width,height,")
    assert data.count(b"\r\n") == data.count(b"\n") == 2
    (row,) = csv.DictReader(io.StringIO(data.decode("utf-8-sig")))
    assert [row[name] for name in ("number", "left", "bottom", "turned", "locked")] == [
        "1", "1234.5 mm", "900 mm", "no", "yes",
    ]  # fmt: skip
    inventory.write_table(hung, tmp_path / "out.csv", tmp_path)
    back = inventory.add_to(empty(), inventory.read_table(tmp_path / "out.csv", "metric"), tmp_path)
    assert back.pieces == project.pieces
    assert back.pictures == project.pictures
    assert not back.placement_by_piece


_LENGTHS = st.tuples(
    st.sampled_from(["7 in", '3-1/2"', "6,5 cm", "70 mm", "1 ft 2 1/2 in", "0.25 m", "5½ in", ""]), st.just(None)
).map(lambda pair: pair[0])
_WORDS = st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=30).map(str.strip)


@st.composite
def _rows(draw: st.DrawFn) -> dict[str, str]:
    row = {
        "name": draw(_WORDS.filter(bool)),
        "width": "70 cm",
        "height": draw(st.sampled_from(["50", "2 ft", "31 1/2 in"])),
    }
    for column in (
        "depth",
        "drop",
        "drop-right",
        "spacing",
        "offset",
        "wire",
        "ring-drop",
        "mat-border",
        "mat-overlap",
    ):
        row[column] = draw(_LENGTHS)
    row["mat-bottom"] = draw(_LENGTHS) if row["mat-border"] else ""
    row["hanger"] = draw(st.sampled_from([*get_args(HangerKind), ""]))
    row["glazing"] = draw(st.sampled_from(["" if kind == "unknown" else kind for kind in get_args(Glazing)]))
    row["hooks"] = draw(st.sampled_from(["", "1", "2"]))
    row["owned"] = draw(st.sampled_from(["", "yes", "no"]))
    row["weight"] = draw(st.sampled_from(["", "1.20 kg", "2 lb 3 1/2 oz"]))
    row["price"] = draw(st.sampled_from(["", "0", "4.50", "1 250"]))
    row["note"] = draw(_WORDS)
    row["shelf in the cellar"] = draw(_WORDS)
    return row


@given(st.lists(_rows(), min_size=1, max_size=4))
@settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_what_is_written_reads_back_as_the_same_pieces(tmp_path: Path, rows: list[dict[str, str]]) -> None:
    for row in rows:
        for column in ("name", "note", "shelf in the cellar"):
            if row[column][:1] and row[column][0] in "=+-@'":
                row[column] = f"'{row[column]}"
    project = inventory.add_to(empty(), read(tmp_path, as_csv(*rows)), tmp_path)
    first = inventory.table_bytes(project, tmp_path, tmp_path)
    (tmp_path / "out.csv").write_bytes(first)
    back = inventory.add_to(empty(), inventory.read_table(tmp_path / "out.csv", "metric"), tmp_path)
    assert back.pieces == project.pieces
    assert inventory.table_bytes(back, tmp_path, tmp_path) == first


@given(st.binary(max_size=300) | st.text(max_size=300).map(lambda text: f"name,width,height\n{text}".encode()))
@settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_bytes_are_read_or_refused_with_a_sentence(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "frames.csv").write_bytes(data)
    try:
        inventory.read_table(tmp_path / "frames.csv", "metric")
    except BadTable as error:
        sentence = str(error)
    else:
        return
    assert sentence.endswith(".")
