"""The piece list and the findings: what rows say, how they are sorted, where a click leads."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from composer.desktop.main_window import MainWindow
from composer.desktop.piece_rows import NARROW
from composer.desktop.theme import theme
from composer.editing.placing import Spot, put
from composer.editing.record_edits import change_piece
from composer.units import Mass


def rows(window: MainWindow) -> list[str]:
    model = window.list.model
    return [model.data(model.index(row)) for row in range(model.rowCount())]


def numbers(window: MainWindow) -> list[int]:
    pieces = window.opened.project.piece_by_key
    return [pieces[key].number for key in window.list.model.keys]


def rename(window: MainWindow, key: str, name: str) -> None:
    import msgspec

    window.opened.apply(change_piece(key, "Name", lambda piece: msgspec.structs.replace(piece, name=name)))


def weigh(window: MainWindow, key: str, text: str) -> None:
    import msgspec

    weight = Mass.from_text(text)
    window.opened.apply(change_piece(key, "Weight", lambda piece: msgspec.structs.replace(piece, weight=weight)))


def test_a_row_says_number_name_size_place_and_what_is_lacking(window: MainWindow) -> None:
    assert rows(window)[0] == "1 Frame 1, 500 × 400, wall, needs weight"
    assert rows(window)[2] == "3 Frame 3, 400 × 300, floor, needs weight"


def test_sorting_by_each_head(window: MainWindow) -> None:
    rename(window, "p4", "A small one")
    orders = {}
    for button in window.list.sorts.buttons():
        button.click()
        orders[button.property("order")] = numbers(window)
    assert orders == {
        "number": [1, 2, 3, 4],
        "name": [4, 1, 2, 3],
        # areas 200 000, 120 000, 120 000, 40 000 mm²
        "size": [1, 2, 3, 4],
        "where": [1, 2, 3, 4],
    }


def test_filter_and_tabs(window: MainWindow) -> None:
    tabs = {tab.property("place"): tab for tab in window.list.tabs.buttons()}
    assert [tab.text() for tab in tabs.values()][:3] == ["All 4", "Wall 2", "Floor 2"]
    tabs["floor"].click()
    assert numbers(window) == [3, 4]
    tabs["all"].click()
    window.list.filter.setText("300 2")
    assert numbers(window) == [2]
    window.list.filter.setText("nothing like it")
    assert window.list.empty.isVisible()


@pytest.fixture
def narrow(window: MainWindow, qapp: QApplication) -> MainWindow:
    window.across.setSizes([theme().px(NARROW) - 28, 900, 320])
    qapp.processEvents()
    return window


def test_a_narrow_list_is_grouped_by_place(narrow: MainWindow) -> None:
    assert narrow.list.width() < NARROW
    model = narrow.list.model
    assert model.head(0) == ("On the wall", "wall", 2)
    assert model.head(1) is None
    assert model.head(2) == ("On the floor", "floor", 2)
    narrow.opened.apply(put(narrow.opened.project, {"p2": None}))
    assert numbers(narrow) == [1, 2, 3, 4]
    assert model.head(1) == ("On the floor", "floor", 3)


def test_a_long_name_makes_a_row_higher_instead_of_being_cut(narrow: MainWindow, qapp: QApplication) -> None:
    view = narrow.list.rows
    before = view.visualRect(narrow.list.model.index(1)).height()
    rename(narrow, "p2", "Grandmother's sampler from the house by the harbour")
    qapp.processEvents()
    assert view.visualRect(narrow.list.model.index(1)).height() > before


def test_selection_goes_both_ways(window: MainWindow, qapp: QApplication) -> None:
    view = window.list.rows
    where = view.visualRect(window.list.model.index(2)).center()
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert window.selection.pieces == ("p3",)
    window.selection.set(["p1", "p2"])
    assert {index.row() for index in view.selectedIndexes()} == {0, 1}
    assert window.list.sum.text() == "2 pieces selected of 4."
    weigh(window, "p1", "1.2 kg")
    window.selection.set(["p1", "p2", "p3"])
    assert window.list.sum.text() == "3 pieces selected of 4, 1 of them 1.2\u00a0kg."


def test_a_click_on_a_finding_selects_its_pieces(window: MainWindow, qapp: QApplication) -> None:
    # 2 is 300 × 400 at 1500, 1400; 3 put over it overlaps by hand.
    window.opened.apply(put(window.opened.project, {"p3": Spot("w10", 1600, 1500)}))
    window.findings.check()
    window.findings.set_open(is_open=True)
    qapp.processEvents()
    codes = [finding.code for finding in window.findings.findings]
    row = codes.index("overlap")
    item = window.findings.rows.item(row)
    assert item is not None
    where = window.findings.rows.visualItemRect(item).center() + QPoint(0, 0)
    QTest.mouseClick(window.findings.rows.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert set(window.selection.pieces) == {"p2", "p3"}


def test_findings_come_again_after_each_edit(window: MainWindow, qapp: QApplication) -> None:
    def overlaps() -> int:
        qapp.processEvents()
        return [finding.code for finding in window.findings.findings].count("overlap")

    assert overlaps() == 0
    window.opened.apply(put(window.opened.project, {"p3": Spot("w10", 1600, 1500)}))
    assert overlaps() == 1
    window.opened.stack.undo()
    assert overlaps() == 0


def test_levels_stand_in_list_and_room(window: MainWindow, qapp: QApplication) -> None:
    window.opened.apply(put(window.opened.project, {"p3": Spot("w10", 1600, 1500)}))
    qapp.processEvents()
    assert window.list.model.level("p2") == window.list.model.level("p3") is not None
