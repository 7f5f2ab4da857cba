"""What people copy out of their own tables, understood or explained; examples made by hand, no source."""

from pathlib import Path

import pytest

from composer.editing.creating import new_project
from composer.editing.pasted_rows import add_read_rows, read_rows, understand
from composer.units import Length


def sizes(text: str) -> list[tuple[str, str, str]]:
    rows = read_rows(understand(text), "metric")
    assert [row.problem for row in rows] == [""] * len(rows)
    return [
        (found.piece.name, found.piece.frame.width.text, found.piece.frame.height.text)
        for row in rows
        for found in row.pieces
    ]


def test_a_table_with_its_own_names_for_columns() -> None:
    text = "Title\tW (cm)\tH (cm)\tHangs by\tRoom\nBoats\t40\t50\tstrips\thall\nMoon\t20,5\t20.5\twire\tkitchen"
    taken = understand(text)
    assert taken.columns == ("name", "width", "height", "hanger", "Room")
    assert sizes(text) == [("Boats", "40 cm", "50 cm"), ("Moon", "20.5 cm", "20.5 cm")]
    pieces = [found.piece for row in read_rows(taken, "metric") for found in row.pieces]
    assert [piece.hanger.kind for piece in pieces] == ["strips", "wire"]
    assert [piece.extra for piece in pieces] == [(("Room", "hall"),), (("Room", "kitchen"),)]


def test_a_unit_beside_the_name_counts() -> None:
    assert sizes("name;width [mm];height [mm]\nBoats;405;507") == [("Boats", "405 mm", "507 mm")]


def test_rows_without_names_are_guessed_by_what_stands_in_them() -> None:
    assert understand("Boats\t40 cm\t50 cm\t1.2 kg\tstrips").columns == ("name", "width", "height", "weight", "hanger")
    assert sizes("Boats\t40\t50\nMoon\t20\t20") == [("Boats", "40 cm", "50 cm"), ("Moon", "20 cm", "20 cm")]


def test_a_size_in_one_cell() -> None:
    text = "name\tsize\nBoats\t40 x 50\nMoon\t20 cm × 15 cm"
    assert sizes(text) == [("Boats", "40 cm", "50 cm"), ("Moon", "20 cm", "15 cm")]


def test_without_names_of_pieces_they_are_numbered() -> None:
    assert sizes("width\theight\n40\t50\n20\t30") == [("Piece 1", "40 cm", "50 cm"), ("Piece 2", "20 cm", "30 cm")]


def test_lines_of_quick_rows() -> None:
    assert sizes('40 x 50 strips "boats"\n30 x 30') == [("boats", "40 cm", "50 cm"), ("Piece 2", "30 cm", "30 cm")]


def test_a_wrong_row_keeps_its_place_and_says_why() -> None:
    taken = understand("name\twidth\theight\nBoats\t40\t50\nMoon\twide\t20\nSun\t30\t30")
    rows = read_rows(taken, "metric")
    assert [len(row.pieces) for row in rows] == [1, 0, 1]
    assert rows[1].problem.startswith("Row 3, column width: “wide”")
    assert taken.cells[1] == ("Moon", "wide", "20")


def test_a_column_that_is_missing_is_named_in_every_row() -> None:
    rows = read_rows(understand("name\twidth\tdepth\nBoats\t40\t2"), "metric")
    assert "height" in rows[0].problem


@pytest.mark.parametrize("text", ["a\tb\n1\t2", "x", ";;\n;;", "40 x"])
def test_whatever_is_pasted_each_row_is_read_or_explained(text: str) -> None:
    taken = understand(text)
    rows = read_rows(taken, "metric")
    assert len(rows) == len(taken.cells)
    assert all(bool(row.pieces) != bool(row.problem) for row in rows)


def test_added_as_one_step(tmp_path: Path) -> None:
    project = new_project(wall_width=Length.from_text("3 m"), wall_height=Length.from_text("2.4 m"))
    rows = read_rows(understand("name\twidth\theight\tcount\nBoats\t40\t50\t2\nMoon\twide\t20\t1"), "metric")
    edit = add_read_rows(rows, tmp_path, tmp_path)
    after = edit.run(project)
    assert edit.text == "Add 2 pieces"
    assert [(piece.number, piece.name) for piece in after.pieces] == [(1, "Boats 1"), (2, "Boats 2")]
