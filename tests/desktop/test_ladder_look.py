"""Hanging day read from two metres: figures by millimetres of glass, targets for a thumb, room for long words."""

from __future__ import annotations

from typing import cast

import msgspec
import pytest
from PySide6.QtGui import QColor, QImage, QScreen
from PySide6.QtWidgets import QApplication

from composer.desktop.hanging_day.buttons import LadderButton
from composer.desktop.hanging_day.sizes import USUAL_DOTS, dots_per_inch
from composer.desktop.theme import Theme
from composer.model import Hanger
from composer.texts import use_language
from composer.units import Length
from tests.desktop.hands import press
from tests.desktop.ladder import KEY, Person
from tests.desktop.seen import clipped, pale, picture_of


def tallest_figure(image: QImage, left: int, ink: QColor) -> int:
    """Rows of the tallest run in which the ink's own colour is met, right of ``left``."""
    tallest = run = 0
    for y in range(image.height()):
        if any(image.pixelColor(x, y) == ink for x in range(left, image.width(), 2)):
            run += 1
            tallest = max(tallest, run)
        else:
            run = 0
    return tallest


@pytest.mark.parametrize(("size", "percent"), [((1280, 720), 100), ((1280, 720), 150), ((1920, 1080), 100)])
def test_figures_are_24_millimetres_high_on_the_glass(
    stair: Person, qapp: QApplication, size: tuple[int, int], percent: int
) -> None:
    look = qapp.findChild(Theme)
    assert isinstance(look, Theme)
    look.set_text_percent(percent)
    stair.begins()
    stair.screen.resize(*size)
    press(KEY.Key_Right)
    press(KEY.Key_Right)
    pixmap, _ = picture_of(stair.screen)
    screen = stair.screen.screen()
    # Where the words stand, right of both drawings.
    rows = tallest_figure(pixmap.toImage(), round(size[0] * 0.45), look.colour("ink"))
    assert rows / screen.physicalDotsPerInchY() * 25.4 >= 24.0
    assert stair.screen.board.left_out == 0
    look.set_text_percent(100)


class SayingScreen:
    """A screen that says something of itself."""

    def __init__(self, dots: float) -> None:
        self._dots = dots

    def physicalDotsPerInchY(self) -> float:  # noqa: N802
        return self._dots


@pytest.mark.parametrize(
    ("says", "taken"),
    # 0 where the plug tells nothing; 12 and 2 000 from television sets that give the size of an aspect, not of glass.
    [(127.0, 127.0), (0.0, USUAL_DOTS), (12.0, USUAL_DOTS), (2000.0, USUAL_DOTS), (float("nan"), USUAL_DOTS)],
)
def test_a_screen_that_tells_nonsense_is_not_believed(says: float, taken: float) -> None:
    assert dots_per_inch(cast(QScreen, SayingScreen(says))) == taken
    assert dots_per_inch(None) == USUAL_DOTS


def test_everything_to_press_is_44_pixels_high(sofa: Person) -> None:
    sofa.begins()
    sofa.screen.resize(1280, 720)
    phases = set()
    for _ in range(60):
        phases.add(sofa.phase)
        QApplication.processEvents()
        for button in sofa.screen.findChildren(LadderButton):
            if button.isVisible():
                assert min(button.width(), button.height()) >= 44, (sofa.phase, button.text())
        if sofa.phase == "wait":
            break
        sofa.space(seconds=30)
    assert phases == {"stick", "press", "wait"}


def test_long_words_and_five_passes_have_room_on_a_small_screen(sofa: Person) -> None:
    """In a language 40 % longer, on 1024 × 600, with nails and strips on one wall."""
    project = sofa.project
    nailed = tuple(
        msgspec.structs.replace(piece, hanger=Hanger(kind="sawtooth", drop=Length.from_text("20 mm")))
        if piece.number in (1, 2)
        else piece
        for piece in project.pieces
    )
    named = tuple(msgspec.structs.replace(wall, name="The wall above the sofa, front room") for wall in project.walls)
    sofa.window.opened.open(msgspec.structs.replace(project, pieces=nailed, walls=named), sofa.file)
    use_language("xx-long")
    try:
        screen = sofa.desk.open()
        screen.showNormal()
        screen.resize(1024, 600)
        seen_phases = set()
        while sofa.phase not in ("hang", "done"):
            if sofa.phase not in seen_phases:
                seen_phases.add(sofa.phase)
                pixmap, texts = picture_of(screen)
                assert clipped(screen, texts) == []
                assert pale(pixmap, texts) == []
            if sofa.phase == "press":
                screen.do()
            sofa.looks(seconds=30)
            if sofa.phase == "wait":
                sofa.looks(hours=1)
            screen.do()
        assert len(screen.told.passes) == 5
        assert seen_phases == {"nails", "stick", "press", "wait"}
    finally:
        use_language(None)
