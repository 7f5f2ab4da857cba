"""The hints of the first start: one after the other, closed for good by an answer."""

from PySide6.QtWidgets import QAbstractButton

from composer.desktop.application import open_first
from composer.desktop.hints import ABOUT, HINTS
from composer.desktop.main_window import MainWindow
from tests.desktop.hands import click


def link(window: MainWindow, words: str) -> QAbstractButton:
    (found,) = [one for one in window.notices.findChildren(QAbstractButton) if one.text() == words and one.isVisible()]
    return found


def test_the_first_start_shows_each_hint_once(window: MainWindow) -> None:
    open_first(window, window.settings, None)
    for number in range(1, len(HINTS)):
        assert window.notices.sentence(ABOUT).startswith(f"{number} of 3. ")
        click(link(window, "Next Hint"))
    click(link(window, "No More Hints"))
    open_first(window, window.settings, None)
    assert window.notices.sentence(ABOUT) == ""


def test_no_more_hints_closes_all_for_good(window: MainWindow) -> None:
    open_first(window, window.settings, None)
    click(link(window, "No More Hints"))
    assert window.notices.sentence(ABOUT) == ""
    open_first(window, window.settings, None)
    assert window.notices.sentence(ABOUT) == ""
