"""One cell of one piece: what ``piece.N.COLUMN`` and a pasted cell do."""

from pathlib import Path

import pytest

from composer.model import Piece
from composer.projectfile import columns, lists
from composer.projectfile.cells import BadCell, folded
from composer.projectfile.columns import COLUMNS, set_column
from composer.projectfile.errors import BadTable
from composer.units import Length


def show_column(piece: Piece, column: str) -> str:
    """The cell a table would hold for the piece."""
    return COLUMNS[folded(column)].show(piece)


def piece() -> Piece:
    return columns.new_piece("p1", 1, "Boats", Length.from_text("40 cm"), Length.from_text("50 cm"), "metric")


@pytest.mark.parametrize(
    ("column", "typed", "shown"),
    [
        ("name", "  Two boats ", "Two boats"),
        ("WIDTH", "41,5", "41.5 cm"),
        ("Sight Height", "12 1/2 in", "12 1/2 in"),
        ("hanger", "d rings", "d-rings"),
        ("offset", "-5", "-5 cm"),
        ("drop", "0", "0 cm"),
        ("weight", "800g", "800 g"),
        ("price", "4,50", "4.50"),
        ("owned", "Yes", "yes"),
        ("moulding", "PINE", "pine"),
        ("mat-border", "6", "6 cm"),
        ("mat overlap", "-3mm", "-3 mm"),
        ("note", "=1+1", "=1+1"),
        ("hooks", "2", "2"),
    ],
)
def test_a_cell_is_typed_shown_and_taken_back(column: str, typed: str, shown: str) -> None:
    changed = set_column(piece(), column, typed, "metric")
    assert show_column(changed, column) == shown
    assert set_column(changed, column, shown, "metric") == changed
    if column.casefold() not in ("name", "width"):
        assert set_column(changed, column, "", "metric") == piece()
    else:
        with pytest.raises(BadCell, match="cannot stay empty"):
            set_column(changed, column, " ", "metric")


@pytest.mark.parametrize(
    ("column", "typed"),
    [
        ("colour", "red"),
        ("width", "0"),
        ("picture", "a.jpg"),
        ("count", "3"),
        ("drop", "-1"),
        ("face", "30 cm"),
        ("name", "\x07"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(column: str, typed: str) -> None:
    with pytest.raises(BadCell) as refused:
        set_column(piece(), column, typed, "metric")
    assert str(refused.value).endswith(".")
    assert str(refused.value).isprintable()


def test_the_bottom_border_comes_and_goes_with_the_border() -> None:
    with pytest.raises(BadCell, match="mat-border"):
        set_column(piece(), "mat-bottom", "7", "metric")
    weighted = set_column(set_column(piece(), "mat-border", "6", "metric"), "mat-bottom", "7", "metric")
    assert (show_column(weighted, "mat-border"), show_column(weighted, "mat-bottom")) == ("6 cm", "7 cm")
    wider = set_column(weighted, "mat-border", "8", "metric")
    assert (show_column(wider, "mat-border"), show_column(wider, "mat-bottom")) == ("8 cm", "7 cm")
    with pytest.raises(BadCell, match="mat-bottom first"):
        set_column(wider, "mat-border", "", "metric")
    plain = set_column(wider, "mat-bottom", "", "metric")
    assert show_column(plain, "mat-border") == "8 cm"
    assert set_column(plain, "mat-border", "", "metric") == piece()


def test_every_column_of_the_table_is_there_in_its_order() -> None:
    wanted = (
        "name,width,height,depth,face,lip,sight-width,sight-height,glass-width,glass-height,rabbet-depth,moulding,"
        "moulding-thickness,glazing,glazing-thickness,backing,weight,hanger,drop,drop-right,spacing,offset,wire,"
        "ring-drop,hooks,hook-spacing,picture,mat-border,mat-bottom,mat-overlap,price,owned,count,note"
    )
    assert ",".join(column.name for column in columns.COLUMNS.values()) == wanted


def table(folder: Path, text: str) -> Path:
    path = folder / "list.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_obstacles(tmp_path: Path) -> None:
    text = (
        "kind;name;left [mm];bottom;width;height;depth;margin\nSofa;big one;-50;0;2 m;80;90;\nstair rail;;1;2;3;4;;0\n"
    )
    sofa, rail = lists.read_obstacles(table(tmp_path, text), "metric", 7)
    assert (sofa.key, sofa.kind, sofa.name, sofa.left, sofa.bottom) == ("o7", "sofa", "big one", -50.0, 0.0)
    assert [str(part) for part in (sofa.width, sofa.height, sofa.depth, sofa.margin)] == [
        "2 m",
        "80 cm",
        "90 cm",
        "None",
    ]
    assert (rail.key, rail.kind, rail.left, rail.depth, str(rail.margin)) == ("o8", "stair-rail", 1.0, None, "0 cm")


def test_prices(tmp_path: Path) -> None:
    text = "Item,each,pack,in drawer\nstrips-medium,7.50,8,3\nglass,,,2\npine,12,,\n"
    found = lists.read_prices(table(tmp_path, text))
    assert [(price.item, str(price.each), price.pack) for price in found.prices] == [
        ("strips-medium", "7.50", 8),
        ("pine", "12", 1),
    ]
    assert [(item.item, item.count) for item in found.in_drawer] == [("strips-medium", 3), ("glass", 2)]


def test_an_item_is_sold_in_packs_of_several_sizes(tmp_path: Path) -> None:
    found = lists.read_prices(table(tmp_path, "item,each,pack,in-drawer\nhook-slim,4,4,2\nHook-slim,10,12,\n"))
    assert [(price.pack, str(price.each)) for price in found.prices] == [(4, "4"), (12, "10")]
    assert [item.count for item in found.in_drawer] == [2]


@pytest.mark.parametrize(
    ("text", "row", "column"),
    [
        ("kind,left,bottom,width,height\npiano,1,2,3,4\n", 2, "kind"),
        ("kind,left,bottom,width,height\nsofa,x,2,3,4\n", 2, "left"),
        ("kind,left,bottom,width,height\nsofa,1,2,0,4\n", 2, "width"),
        ("kind,left,bottom,width,height,depth\nsofa,1,2,3,4,-1\n", 2, "depth"),
        ("kind,left,bottom,width\nsofa,1,2,3\n", 1, "height"),
        ("kind,left,bottom,width,height,weight\nsofa,1,2,3,4,5\n", 1, "weight"),
        ("kind,left,left,width,height,bottom\nsofa,1,2,3,4,5\n", 1, "left"),
    ],
)
def test_a_bad_obstacle_is_refused_by_row_and_column(tmp_path: Path, text: str, row: int, column: str) -> None:
    with pytest.raises(BadTable) as refused:
        lists.read_obstacles(table(tmp_path, text), "metric", 1)
    assert (refused.value.row, refused.value.column) == (row, column)
    assert column in str(refused.value)


@pytest.mark.parametrize(
    ("text", "column"),
    [
        ("item,each\n,5\n", "item"),
        ("item,each\nglass,5 EUR\n", "each"),
        ("item,each,pack\nglass,5,0\n", "pack"),
        ("item,each,pack\nglass,,4\n", "each"),
        ("item,in-drawer\nglass,-1\n", "in-drawer"),
        ("item,each\nglass,5\nGlass,6\n", "item"),
        ("item,each,pack,in-drawer\nglass,5,1,2\nGlass,9,2,3\n", "in-drawer"),
    ],
)
def test_a_bad_price_is_refused_by_row_and_column(tmp_path: Path, text: str, column: str) -> None:
    with pytest.raises(BadTable) as refused:
        lists.read_prices(table(tmp_path, text))
    assert refused.value.column == column
