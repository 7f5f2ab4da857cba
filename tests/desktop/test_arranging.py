"""Arranging in the window by real pointer and keys. Places and gaps are worked out by hand or by shapely."""

import multiprocessing
import os
from collections.abc import Iterator
from itertools import combinations, pairwise

import msgspec
import pytest
from PySide6.QtCore import QElapsedTimer, QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from shapely import box as shapely_box

from composer.desktop.arrangements.sketch_cell import SketchCell
from composer.desktop.arrangements.sketching import Sketching
from composer.desktop.field_row import Words
from composer.desktop.main_window import MainWindow
from composer.editing.record_edits import change_frame
from composer.model import Wall
from composer.units import Length
from tests.desktop.arranging_hands import ALT, CTRL, WATCHDOG_MS, button, hung, many, settle, tool
from tests.desktop.conftest import Answers, Drag, room_project
from tests.desktop.hands import bring_to_front, click, press


@pytest.fixture
def sketched(window: MainWindow, qtbot: QtBot) -> Iterator[Sketching]:
    """Sketches of the four frames over the sofa, asked for by the tool, all of them there."""
    bring_to_front(qtbot, window)
    click(tool(window, "arrange"))
    settle(qtbot, window)
    yield window.arranging.sketching
    window.arranging.sketching.close()


def point_at(qtbot: QtBot, sketching: Sketching, cell: SketchCell) -> None:
    aside = 0

    def there() -> bool:
        # By the window, since the pointer of a test goes no farther than the screen, which is small at twice the
        # size; and a little aside each time, since a pointer that is there already tells nobody that it came.
        nonlocal aside
        aside = 1 - aside
        top = cell.window()
        QTest.mouseMove(top.windowHandle(), cell.mapTo(top, QPoint(40 + aside, 40)))
        return cell.current and sketching.ghosts.shown

    qtbot.waitUntil(there, timeout=5000)


# Sketches -----------------------------------------------------------------------------------------


def test_pointing_previews_and_changes_nothing(window: MainWindow, qtbot: QtBot, sketched: Sketching) -> None:
    before = window.opened.project
    assert len(sketched.strip.cells) >= 4
    cell = sketched.strip.cells[1]
    point_at(qtbot, sketched, cell)
    # All four are ghosts where the sketch has them, and where they hang and lie now stands a dashed outline.
    assert {key: ghost.box for key, ghost in sketched.ghosts.items.items()} == {
        drawn.piece.key: pytest.approx(drawn.box, abs=1e-6) for drawn in cell.pieces
    }
    assert not any(window.room.items_by_key[key].isVisible() for key in ("p1", "p2", "p3", "p4"))
    assert window.opened.project is before and not window.opened.stack.canUndo()
    QTest.mouseMove(window.windowHandle(), window.list.mapTo(window, QPoint(5, 5)))
    window.view.setFocus()
    qtbot.waitUntil(lambda: not sketched.ghosts.shown, timeout=5000)
    assert all(item.isVisible() for item in window.room.items_by_key.values())


def test_a_click_hangs_it_so_and_one_undo_takes_it_back(window: MainWindow, sketched: Sketching) -> None:
    before = window.opened.project
    cell = sketched.strip.cells[0]
    wanted = {drawn.piece.number: tuple(drawn.box) for drawn in cell.pieces}
    click(cell, QPoint(60, 60))
    now = hung(window.opened.project)
    assert now.keys() == {1, 2, 3, 4}
    for number, place in wanted.items():
        assert now[number] == pytest.approx(place, abs=1e-5)
    # An independent referee: on the wall, off the sofa, nothing over anything else.
    wall, sofa = shapely_box(0, 0, 3200, 2400), shapely_box(440, 0, 2560, 820)
    boxes = [shapely_box(*place) for place in now.values()]
    assert all(wall.covers(one) and one.intersection(sofa).area == 0 for one in boxes)
    assert all(one.intersection(other).area == pytest.approx(0, abs=1e-3) for one, other in combinations(boxes, 2))
    assert cell.hangs and not sketched.ghosts.shown
    assert window.opened.stack.count() == 1
    press(Qt.Key.Key_Z, CTRL)
    assert window.opened.project == before
    assert not cell.hangs


def test_by_keys_alone(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    window.view.setFocus()
    press(Qt.Key.Key_R, CTRL)
    cells = settle(qtbot, window)
    assert cells[0].hasFocus() and cells[0].current
    press(Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: cells[1].current, timeout=5000)
    assert not cells[0].current and window.arranging.sketching.ghosts.shown
    press(Qt.Key.Key_Return)
    assert cells[1].hangs and len(hung(window.opened.project)) == 4
    press(Qt.Key.Key_Escape)
    assert not window.arranging.sketching.is_open
    assert window.view.hasFocus() and not window.arranging.sketching.ghosts.shown


def test_all_pictures_are_at_one_scale(sketched: Sketching) -> None:
    assert len({round(cell.px_per_mm, 9) for cell in sketched.strip.cells}) == 1


def test_what_is_not_offered_says_why_in_figures(window: MainWindow, qtbot: QtBot) -> None:
    # In a row: 500 + 300 + 400 + 200 and three gaps of 50 are 1 550; the wall has 1 500.
    wall = Wall(key="w10", name="Narrow wall", width=Length.from_text("1500 mm"), height=Length.from_text("2400 mm"))
    window.opened.open(room_project(walls=(wall,)), None)
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_R, CTRL)
    settle(qtbot, window)
    card = window.arranging.sketching.card
    assert card is not None
    words = [one.text().replace("\u202f", " ").replace("\u00a0", " ") for one in card.findChildren(Words)]
    assert any("1 550 mm" in text for text in words), words
    assert all(cell.sketch.found.pattern != "row" for cell in window.arranging.sketching.strip.cells)


def test_kept_pieces_stay(window: MainWindow, qtbot: QtBot, sketched: Sketching) -> None:
    window.selection.set(["p1"])
    QApplication.processEvents()
    assert sketched.card is not None
    click(button(sketched.card, "Keep the selected where they are"))
    cells = settle(qtbot, window)
    assert cells
    for cell in cells:
        place = next(drawn.box for drawn in cell.pieces if drawn.piece.number == 1)
        assert tuple(place) == (400, 1300, 900, 1700)
    click(cells[0], QPoint(60, 60))
    assert hung(window.opened.project)[1] == (400, 1300, 900, 1700)
    assert len(hung(window.opened.project)) == 4
    click(button(sketched.card, "All pieces again"))
    cells = settle(qtbot, window)
    assert any(
        tuple(drawn.box) != (400, 1300, 900, 1700) for cell in cells for drawn in cell.pieces if drawn.piece.number == 1
    )


def test_only_the_selected_are_arranged(window: MainWindow, qtbot: QtBot, sketched: Sketching) -> None:
    # 2 hangs, 3 lies on the floor; 1 hangs and stays, 4 lies and goes on lying.
    window.selection.set(["p2", "p3"])
    QApplication.processEvents()
    assert sketched.card is not None
    click(button(sketched.card, "Arrange only the selected"))
    cells = settle(qtbot, window)
    assert cells and {drawn.piece.number for drawn in cells[0].pieces} == {1, 2, 3}
    click(cells[0], QPoint(60, 60))
    now = hung(window.opened.project)
    assert now.keys() == {1, 2, 3} and now[1] == (400, 1300, 900, 1700)
    click(button(sketched.card, "All pieces again"))
    assert {drawn.piece.number for drawn in settle(qtbot, window)[0].pieces} == {1, 2, 3, 4}


def test_variations_differ_from_the_one_that_is_liked(window: MainWindow, qtbot: QtBot, sketched: Sketching) -> None:
    liked = sketched.strip.cells[0]
    layout = liked.sketch.found.layout
    click(liked.vary)
    cells = settle(qtbot, window)
    assert cells[0].sketch.found.layout == layout and cells[0].letter == "A"
    assert all(cell.sketch.found.layout != layout for cell in cells[1:])


def test_the_gap_by_slider_and_keys(window: MainWindow, qtbot: QtBot, sketched: Sketching) -> None:
    assert sketched.card is not None
    ruler = sketched.card.gap.ruler
    ruler.setFocus()
    for _ in range(2):
        press(Qt.Key.Key_Right)
    assert window.opened.project.arrangement.gap.text == "52 mm"
    assert window.opened.stack.count() == 1, "one visit is one step of undo"
    qtbot.waitUntil(lambda: sketched.search.searching, timeout=5000)
    cells = settle(qtbot, window)
    row = next(cell for cell in cells if cell.sketch.found.pattern == "row")
    across = sorted(tuple(drawn.box) for drawn in row.pieces)
    assert [after[0] - before[2] for before, after in pairwise(across)] == pytest.approx([52, 52, 52], abs=1e-6)
    press(Qt.Key.Key_Z, CTRL)
    assert window.opened.project.arrangement.gap.text == "50 mm"


def test_height_above_the_furniture_moves_what_hangs(window: MainWindow, qtbot: QtBot, sketched: Sketching) -> None:
    assert sketched.card is not None and sketched.card.above is not None
    ruler = sketched.card.above.ruler
    ruler.setFocus()
    press(Qt.Key.Key_Left)
    # From the usual 200 a step of 5 down; the sofa is 820 high: the lowest frame hangs at 1 015.
    assert min(place[1] for place in hung(window.opened.project).values()) == pytest.approx(1015)
    cells = settle_again(qtbot, window)
    for cell in cells:
        if cell.sketch.found.pattern in ("salon", "row"):
            assert min(drawn.box.bottom for drawn in cell.pieces) == pytest.approx(1015, abs=1)
    press(Qt.Key.Key_Z, CTRL)
    assert hung(window.opened.project)[1][1] == 1300


def settle_again(qtbot: QtBot, window: MainWindow) -> list[SketchCell]:
    """A slider rests, then sketches are looked for again."""
    qtbot.waitUntil(lambda: window.arranging.sketching.search.searching, timeout=5000)
    return settle(qtbot, window)


def test_a_wider_group_by_slider(window: MainWindow, qtbot: QtBot, sketched: Sketching) -> None:
    assert sketched.card is not None
    ruler = sketched.card.width_slider.ruler
    click(ruler, QPoint(ruler.width() - 6, ruler.height() // 2))
    assert sketched.wishes.width_mm == 3200 and not window.opened.stack.canUndo()
    settle_again(qtbot, window)
    click(button(sketched.card, "As is usual"))
    assert sketched.wishes.width_mm is None


def test_a_result_that_no_longer_fits_is_not_forced(window: MainWindow, qtbot: QtBot) -> None:
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_R, CTRL)
    sketching = window.arranging.sketching
    # While the search runs a frame turns out to be 40 mm wider.
    window.opened.apply(change_frame("p3", "Frame 3: Width", width=Length.from_text("440 mm")))
    settle(qtbot, window)
    assert sketching.strip.cells == []
    assert "no longer fit" in sketching.strip.empty.text() or "Stopped" in sketching.strip.empty.text()
    assert len(hung(window.opened.project)) == 2
    click(sketching.strip.again)
    cells = settle(qtbot, window)
    assert any(drawn.box.width == pytest.approx(440) for drawn in cells[0].pieces)


def test_the_window_goes_on_while_forty_are_arranged_and_can_stop(window: MainWindow, qtbot: QtBot) -> None:
    window.opened.open(many(40), None)
    bring_to_front(qtbot, window)
    ticks: list[int] = []
    clock = QElapsedTimer()
    clock.start()
    timer = QTimer()
    timer.timeout.connect(lambda: ticks.append(clock.elapsed()))
    timer.start(10)
    press(Qt.Key.Key_R, CTRL)
    sketching = window.arranging.sketching
    qtbot.waitUntil(lambda: bool(sketching.strip.progress.share), timeout=WATCHDOG_MS)
    qtbot.waitUntil(lambda: not sketching.search.searching or bool(sketching.strip.cells), timeout=WATCHDOG_MS)
    timer.stop()
    # A timer of 10 ms never waited for longer than a hundred times that.
    assert max(after - before for before, after in pairwise(ticks)) < 1000
    if sketching.search.searching:
        click(sketching.strip.stop)
        qtbot.waitUntil(lambda: not sketching.search.searching, timeout=WATCHDOG_MS)
    assert sketching.strip.progress.share is None and sketching.strip.again.isVisible()


def test_no_process_is_left_when_the_window_closes(window: MainWindow, qtbot: QtBot) -> None:
    window.opened.open(many(40), None)
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_R, CTRL)
    qtbot.waitUntil(lambda: window.arranging.sketching.search.running, timeout=WATCHDOG_MS)
    (child,) = [one for one in multiprocessing.active_children() if one.name == "wallwright-arranging"]
    pid = child.pid
    assert pid is not None
    window.files.ask = Answers()  # type: ignore[assignment]
    window.close()
    assert not [one for one in multiprocessing.active_children() if one.name == "wallwright-arranging"]
    with pytest.raises(ProcessLookupError):
        os.kill(pid, 0)


def test_what_cannot_fit_is_said_before_anything_is_searched_for(window: MainWindow, qtbot: QtBot) -> None:
    # Frame 1 is 500 wide; the wall has 450.
    wall = Wall(key="w10", name="Pillar", width=Length.from_text("450 mm"), height=Length.from_text("2400 mm"))
    empty = msgspec.structs.replace(room_project().arrangement, placements=())
    window.opened.open(room_project(walls=(wall,), arrangements=(empty,)), None)
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_R, CTRL)
    assert settle(qtbot, window) == []
    words = window.arranging.sketching.strip.empty.text().replace("\u00a0", " ")
    assert "Piece 1 is 500 mm" in words and "450 mm" in words


def test_without_pieces_nothing_is_opened(window: MainWindow, qtbot: QtBot) -> None:
    empty = msgspec.structs.replace(room_project().arrangement, placements=())
    window.opened.open(room_project(pieces=(), arrangements=(empty,)), None)
    bring_to_front(qtbot, window)
    press(Qt.Key.Key_R, CTRL)
    assert not window.arranging.sketching.is_open
    assert "add frames first" in window.findings.hint.text()


def test_a_press_in_the_room_is_for_the_pieces_not_for_a_preview(
    window: MainWindow, qtbot: QtBot, sketched: Sketching, drag: Drag
) -> None:
    cell = sketched.strip.cells[0]
    cell.setFocus()
    qtbot.waitUntil(lambda: sketched.ghosts.shown, timeout=5000)
    # Where 1 hangs now, 400 to 900 and 1 300 to 1 700.
    drag((450, 1650), (450, 1850), ALT)
    assert not sketched.ghosts.shown
    left, bottom, _, _ = hung(window.opened.project)[1]
    assert left == pytest.approx(400, abs=6) and bottom == pytest.approx(1500, abs=6)


def test_another_wall_closes_the_strip(window: MainWindow, sketched: Sketching) -> None:
    window.walls.add_wall()
    QApplication.processEvents()
    assert not sketched.is_open and not sketched.ghosts.shown
