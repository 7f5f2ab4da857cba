"""Pale bands where cables may run: where BS 7671, regulation 522.6.202, has them, and never a word of safety elsewhere."""

from PySide6.QtCore import QPointF
from PySide6.QtGui import QAccessible, QColor, QImage
from PySide6.QtWidgets import QApplication

from composer.desktop.main_window import MainWindow
from composer.desktop.room.accessible import interface_of
from composer.editing.placing import take_down
from composer.editing.record_edits import change_project
from composer.editing.wall_edits import add_obstacles
from composer.model import Obstacle
from composer.units import Length
from tests.desktop.seen import picture_of

LOOKED_AT_MM = 30.0
"""Half the side of the patch of wall that is looked at: several strokes of the hatch."""


def add_switch(window: MainWindow) -> None:
    """A plate of 86 × 86 at the usual place: its middle 1 100 above the floor, 2 900 from the left corner."""

    def make(key: str) -> Obstacle:
        plate = Length.from_text("86 mm")
        return Obstacle(key=key, kind="switch", left=2857, bottom=1057, width=plate, height=plate)

    window.opened.apply(add_obstacles(window.opened.project, window.room.wall_key, [make]))
    QApplication.processEvents()


def patch(window: MainWindow, image: QImage, x: float, y: float) -> set[str]:
    """Colours of the wall around a place, mm."""
    view = window.view
    first = view.viewport().mapTo(window, view.mapFromScene(QPointF(x - LOOKED_AT_MM, -y - LOOKED_AT_MM)))
    last = view.viewport().mapTo(window, view.mapFromScene(QPointF(x + LOOKED_AT_MM, -y + LOOKED_AT_MM)))
    ratio = image.devicePixelRatio()
    return {
        image.pixelColor(round(across * ratio), round(down * ratio)).name()
        for across in range(first.x(), last.x())
        for down in range(first.y(), last.y())
    }


def banded(window: MainWindow, x: float, y: float) -> bool:
    """Whether a place of the wall is drawn other than bare wall."""
    image = window.grab().toImage()
    bare = QColor("#EFE9E1").name()
    return patch(window, image, x, y) != {bare}


def test_a_switch_brings_its_column_and_row_at_once(window: MainWindow) -> None:
    window.view.fit()
    assert not window.room.cables.zones
    assert not banded(window, 2900, 2000)
    add_switch(window)
    # The plate and 50 mm beside it: 2 807 to 2 993 across, 1 007 to 1 193 up; from floor to ceiling, wall to wall.
    for x, y in ((2900, 2300), (2900, 400), (2840, 2000), (2960, 2000), (300, 1100), (1250, 1045), (2300, 1155)):
        assert banded(window, x, y), (x, y)
    for x, y in ((2760, 2000), (3040, 2000), (200, 960), (200, 1240), (1300, 2300)):
        assert not banded(window, x, y), (x, y)


def test_the_region_adds_what_its_rule_has(window: MainWindow) -> None:
    window.view.fit()
    assert not banded(window, 1300, 2340)
    window.opened.apply(change_project("Cable rule", region="uk"))
    QApplication.processEvents()
    # Within 150 mm of the top of the wall and of an angle formed by two walls.
    assert banded(window, 1300, 2300)
    assert not banded(window, 1300, 2210)
    assert banded(window, 100, 2000)
    assert not banded(window, 200, 2000)
    window.opened.stack.undo()
    QApplication.processEvents()
    assert not banded(window, 1300, 2300)


def test_bands_say_what_may_be_and_never_what_is_safe(window: MainWindow) -> None:
    add_switch(window)
    window.opened.apply(change_project("Cable rule", region="uk"))
    window.view.fit()
    words = [seen.text for seen in picture_of(window)[1]]
    named = [text for text in words if text.startswith("cables may run here")]
    assert len(named) >= 3
    assert not [text for text in words if "safe" in text.lower()]


def test_pieces_hang_before_the_bands_and_words_keep_clear_of_them(window: MainWindow) -> None:
    add_switch(window)
    window.view.fit()
    window.grab()
    spots = [spot for spot, _, _ in window.room.cables._placed(window.view.px_per_mm)]
    assert spots
    for item in window.room.items_by_key.values():
        assert item.zValue() > window.room.cables.zValue()
        box = item.mapRectToScene(item.frame_rect)
        assert not any(spot.intersects(box) for spot in spots)


def test_bands_narrower_than_their_words_are_named_beside(window: MainWindow) -> None:
    project = window.opened.project
    window.opened.apply(take_down(project, list(project.placement_by_piece)))
    add_switch(window)
    window.view.zoom_to(0.08)  # 186 mm are 15 pixels
    words = [seen.text for seen in picture_of(window)[1]]
    assert words.count("cables may run here") == 1


def test_readers_hear_of_the_bands(window: MainWindow) -> None:
    room = interface_of(window.view)
    before = room.text(QAccessible.Text.Description)
    assert "cable" not in before
    add_switch(window)
    told = room.text(QAccessible.Text.Description)
    assert told.startswith(before)
    assert "in line with the switch" in told
    assert "No band does not mean no cable" in told
