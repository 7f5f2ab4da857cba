"""The room itself: how it fills its view, obstacles sized by hand, what is told to readers, several walls."""

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from composer.desktop.main_window import MainWindow
from composer.desktop.room.distances import distances
from composer.desktop.room.overlaps import overlapping
from composer.desktop.theme import theme
from composer.desktop.window_menus import with_mnemonics
from composer.geometry.rectangle import Rectangle
from composer.units import Length
from tests.desktop.conftest import Drag
from tests.desktop.hands import at, drag

Key = Qt.Key
ALT = Qt.KeyboardModifier.AltModifier


def colour_at(window: MainWindow, x: int, y: int) -> str:
    picture = window.view.viewport().grab().toImage()
    ratio = picture.devicePixelRatio()
    return picture.pixelColor(round(x * ratio), round(y * ratio)).name().upper()


@pytest.mark.parametrize("size", [(1280, 720), (1600, 1000), (900, 1000)])
def test_no_void_shows_below_the_floor(window: MainWindow, size: tuple[int, int], qapp: QApplication) -> None:
    window.resize(*size)
    qapp.processEvents()
    window.view.fit()
    port = window.view.viewport()
    assert colour_at(window, port.width() // 2, port.height() - 3) == theme().colour("floor").name().upper()
    corner = at(window, (0, 2400))
    assert corner.x() >= 0 and corner.y() >= 0, "the wall's upper left corner is in view"


def test_another_width_of_the_wall_is_fitted_again(window: MainWindow) -> None:
    from composer.editing.wall_edits import change_wall_fields

    before = window.view.px_per_mm
    project = window.opened.project
    window.opened.apply(change_wall_fields(project, "w10", width=Length.from_text("6400 mm")))
    assert window.view.px_per_mm < before
    assert at(window, (6400, 1000)).x() <= window.view.viewport().width()


def test_overlaps_and_distances_by_hand() -> None:
    one, other, far = Rectangle(0, 0, 100, 100), Rectangle(60, 70, 200, 150), Rectangle(300, 0, 400, 100)
    assert list(overlapping([one, far, other])) == [Rectangle(60, 70, 100, 100)]
    # Between one (ends at 100) and far (begins at 300) on a wall of 1 000, 50 above the floor.
    found = {found.side: found.length for found in distances(Rectangle(150, 50, 250, 90), [one, far], 1000)}
    assert found == {"left": 50, "right": 50, "below": 50}
    assert distances(Rectangle(50, 50, 90, 90), [one], 1000) == []


def test_pieces_over_each_other_are_hatched(window: MainWindow, drag: Drag) -> None:
    start = window.room.items_by_key["p2"].box.centre
    assert window.room.overlaps.shown == 0
    drag(start, (700, 1500), ALT)
    assert window.room.overlaps.shown == 1
    window.opened.stack.undo()
    assert window.room.overlaps.shown == 0


def test_the_reason_box_names_the_gap(window: MainWindow, drag: Drag) -> None:
    start = window.room.items_by_key["p3"].box.centre
    # Piece 1 ends at 900; with the gap of 50 the left edge of piece 3 (400 wide) is held at 950.
    drag(start, (950 + 200 + 12, 1500 + 150), release=False)
    QTest.qWait(60)
    assert "gap 50 to 1" in window.room.chalk.words
    QTest.keyClick(window.view, Key.Key_Escape)
    assert window.room.chalk.words == ()


def test_alt_lets_go_while_the_hand_is_still(window: MainWindow, drag: Drag) -> None:
    start = window.room.items_by_key["p3"].box.centre
    drag(start, (950 + 200 + 25, 1500 + 150), release=False)
    assert window.room.items_by_key["p3"].box.left == 950
    QTest.keyPress(window.view, Key.Key_Alt, ALT)
    assert window.room.items_by_key["p3"].box.left > 955
    QTest.keyRelease(window.view, Key.Key_Alt)
    assert window.room.items_by_key["p3"].box.left == 950
    QTest.keyClick(window.view, Key.Key_Escape)


def test_an_obstacle_is_moved_and_sized_by_hand_as_one_step_each(window: MainWindow) -> None:
    # The sofa of the fixture stands at 440, 2 120 wide and 820 high.
    drag(window, (1000, 300), (1200, 300))
    sofa = window.opened.project.obstacle_by_key["o20"]
    assert sofa.left == pytest.approx(640, abs=10) and sofa.left % 10 == 0
    assert sofa.bottom == 0
    assert window.opened.stack.count() == 1
    right = sofa.left + 2120
    drag(window, (right, 410), (right + 200, 410))
    sofa = window.opened.project.obstacle_by_key["o20"]
    assert sofa.width.mm == pytest.approx(2320, abs=10)
    assert sofa.height.text == "820 mm", "a side that keeps its size keeps its figure as typed"
    assert window.opened.stack.count() == 2
    QTest.keyClick(window.view, Key.Key_Right)
    assert window.opened.project.obstacle_by_key["o20"].left == sofa.left + 1


@pytest.mark.parametrize("kind", ["sofa", "door", "switch", "stair-rail", "other"])
def test_obstacles_are_added_doubled_and_deleted(window: MainWindow, kind: str) -> None:
    window.walls.add_obstacle(kind, (2000, 1400))
    made = window.opened.project.walls[0].obstacles[-1]
    assert made.kind == kind and window.selection.obstacles == (made.key,)
    assert made.left + made.width.mm / 2 == pytest.approx(2000, abs=1)
    window.view.grab()
    window.actions_by_name["duplicate"].trigger()
    assert len(window.opened.project.walls[0].obstacles) == 3
    window.actions_by_name["delete"].trigger()
    assert len(window.opened.project.walls[0].obstacles) == 2


def test_readers_find_every_piece_and_obstacle_by_name_and_place(window: MainWindow) -> None:
    room = QAccessible.queryAccessibleInterface(window.view)
    names = [room.child(place).text(QAccessible.Text.Name) for place in range(room.childCount())]
    plain = [name.replace("\u202f", " ").replace("\u00a0", " ") for name in names]
    assert plain == [
        "1 Frame 1, 400 from the left, 1 300 from the floor",
        "2 Frame 2, 1 500 from the left, 1 400 from the floor",
        "3 Frame 3, on the floor",
        "4 Frame 4, on the floor",
        "sofa, 2 120 by 820, 440 from the left, 0 from the floor",
    ]
    first = room.child(0)
    assert room.indexOfChild(first) == 0
    middle = first.rect().center()
    assert room.childAt(middle.x(), middle.y()) is first
    shown = window.view.viewport().mapToGlobal(at(window, window.room.items_by_key["p1"].box.centre))
    assert (middle - shown).manhattanLength() <= 2


def test_readers_hear_findings_of_a_piece(window: MainWindow, drag: Drag) -> None:
    drag(window.room.items_by_key["p2"].box.centre, (700, 1500), ALT)
    QTest.qWait(50)
    room = QAccessible.queryAccessibleInterface(window.view)
    told = room.child(1).text(QAccessible.Text.Description)
    assert "Stop: " in told, told


def test_walls_are_added_shown_and_hung_on(window: MainWindow) -> None:
    window.actions_by_name["add_wall"].trigger()
    second = window.opened.project.walls[1]
    assert window.room.wall_key == second.key
    assert set(window.room.items_by_key) == {"p3", "p4"}, "what hangs on the other wall is not shown here"
    window.actions_by_name["previous_wall"].trigger()
    assert window.room.wall_key == "w10"
    window.selection.set(["p1"])
    window.walls.hang_on(second.key)
    assert window.opened.project.placement_by_piece["p1"].wall == second.key
    assert window.room.wall_key == second.key and "p1" in window.room.items_by_key
    window.actions_by_name["delete_wall"].trigger()
    assert window.room.wall_key == "w10"
    assert "p1" not in window.opened.project.placement_by_piece, "its pieces go to the floor"


def test_life_size_is_the_screens_own_density(window: MainWindow) -> None:
    window.actions_by_name["zoom_life"].trigger()
    # 25.4 mm are one inch by definition.
    assert window.view.px_per_mm * 25.4 == pytest.approx(window.screen().physicalDotsPerInchX())


def test_a_step_of_zoom_ends_on_whole_pixels(window: MainWindow) -> None:
    for name in ("zoom_in", "zoom_in", "zoom_out"):
        before = window.view.px_per_mm
        window.actions_by_name[name].trigger()
        assert (window.view.px_per_mm > before) == (name == "zoom_in")
        gap = window.view.px_per_mm * 50 * window.view.devicePixelRatioF()
        assert gap == pytest.approx(round(gap), abs=1e-6)


def test_nothing_moves_by_itself(qapp: QApplication) -> None:
    from composer.desktop.application import prepare
    from composer.desktop.settings import Settings

    prepare(qapp, Settings()).choose("light")
    assert not any(
        QApplication.isEffectEnabled(effect)
        for effect in (Qt.UIEffect.UI_AnimateMenu, Qt.UIEffect.UI_FadeMenu, Qt.UIEffect.UI_AnimateCombo)
    )


def test_each_menu_has_a_letter_of_its_own() -> None:
    assert with_mnemonics(["File", "Edit", "Find", "Fi"]) == ["&File", "&Edit", "F&ind", "Fi"]


@pytest.mark.parametrize("percent", [100, 150, 200])
def test_things_take_the_pointer_on_24_pixels_at_least(window: MainWindow, percent: int) -> None:
    # WCAG 2.2, 2.5.8: targets are 24 by 24 CSS pixels.
    theme().set_text_percent(percent)
    window.view.zoom_to(0.02)
    for item in (*window.room.items_by_key.values(), *window.room.obstacles_by_key.values()):
        box = item.shape().boundingRect()
        assert min(box.width(), box.height()) * window.view.px_per_mm >= 24 - 1e-6
    theme().set_text_percent(100)


def test_the_view_scrolls_only_as_far_as_needed(window: MainWindow) -> None:
    window.view.zoom_to(2.0, QPointF(10, 10))
    window.show_keys(["p2"])
    box = window.view.mapFromScene(window.room.box_in_scene(["p2"])).boundingRect()
    assert window.view.viewport().rect().intersects(box)
