"""The manual and About: every action by its table, pictures that are there, every library by its licence."""

import re
import tomllib
from pathlib import Path

import pytest
from PySide6.QtGui import QKeySequence, QTextDocument
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from composer.desktop.actions import TABLE, Row
from composer.desktop.main_window import MainWindow
from composer.desktop.manual import LICENCES, Manual, about_box, show_manual
from composer.resources import resource

ROOT = Path(__file__).resolve().parent.parent.parent


@pytest.fixture
def manual(qtbot: QtBot, window: MainWindow) -> Manual:
    made = show_manual(window)
    qtbot.waitExposed(made)
    return made


def named(row: Row) -> str:
    return row.name


@pytest.mark.parametrize("row", TABLE, ids=named)
def test_every_action_stands_in_menu_and_manual_with_one_sentence(window: MainWindow, row: Row) -> None:
    action = window.actions_by_name[row.name]
    assert action.statusTip() == row.help
    assert row.help.endswith(".")
    assert re.search(r"\.\s", row.help) is None
    made = Manual(window)
    text = made.browser.toPlainText()
    made.close()
    assert row.help in text
    if row.shortcut != "":
        keys = QKeySequence(row.shortcut).toString(QKeySequence.SequenceFormat.NativeText)
        assert f"({keys})" in text
        assert not action.shortcut().isEmpty()


def test_no_two_actions_share_a_shortcut(window: MainWindow) -> None:
    keys = [key.toString() for action in window.actions_by_name.values() for key in action.shortcuts()]
    assert sorted(keys) == sorted(set(keys))


def test_the_pictures_are_there_and_shown(manual: Manual) -> None:
    names = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", resource("help/manual.md").read_text(encoding="utf-8"))
    assert len(names) >= 3
    for name in names:
        image = manual.browser.loadResource(QTextDocument.ResourceType.ImageResource.value, name)
        assert image.width() > 600  # type: ignore[attr-defined]


def test_a_chapter_that_is_chosen_is_shown(manual: Manual, qapp: QApplication) -> None:
    chapters = [manual.chapters.item(row).text() for row in range(manual.chapters.count())]
    assert "Every action" in chapters
    manual.chapters.setCurrentRow(chapters.index("Every action"))
    qapp.processEvents()
    assert manual.browser.verticalScrollBar().value() > 100
    assert manual.browser.textCursor().block().text() == "Every action"


def test_the_manual_opens_once(window: MainWindow, manual: Manual) -> None:
    assert show_manual(window) is manual


def test_about_names_every_library_the_program_runs_on(window: MainWindow) -> None:
    with (ROOT / "pyproject.toml").open("rb") as file:
        wanted = tomllib.load(file)["project"]["dependencies"]
    told = " ".join(name for name, _ in LICENCES).casefold().replace(" ", "").replace("-", "")
    for line in wanted:
        name = re.split(r"[><=! ]", line)[0].casefold().replace("-essentials", "").replace("font-", "").replace("-", "")
        assert name in told, name
    box = about_box(window)
    assert all(licence in box.informativeText() for _, licence in LICENCES)
    box.deleteLater()
